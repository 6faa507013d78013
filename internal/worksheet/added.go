package worksheet

import (
	"slices"

	"cutgate/internal/length"
	"cutgate/internal/order"
)

// extraRows are the cuts of an item that may add a piece to those that it is worked out to
// have: small pieces, and layers of a cloth of their own, with their sizes and count.
func (it *Item) extraRows() (list []int) {
	for i := range it.Order.Cuts {
		c := &it.Order.Cuts[i]
		if (slices.Contains(it.kind.Adds, c.Piece.Value) || c.Cloth.Set && slices.Contains(it.kind.Layers, c.Piece.Value)) &&
			c.Width.Value > 0 && c.Length.Value > 0 && c.Count.Value > 0 {
			list = append(list, i)
		}
	}
	return list
}

// add adds the pieces that the order does, as it has them. Where it has no row of a piece that is
// worked out, such a row may be of that one under another name, and nothing is added.
func (it *Item) add() {
	it.Added = nil
	if len(it.extra) == 0 || it.Unread || slices.ContainsFunc(it.Pieces, func(p Piece) bool { return !it.listed(&p) }) {
		return
	}
	for _, i := range it.extra {
		c := &it.Order.Cuts[i]
		if cloth, across, along := it.extraOf(c); cloth != nil {
			it.Added = append(it.Added, it.addedAs(c, cloth, across, along))
		}
	}
}

// listed reports whether the order has a row of a piece.
func (it *Item) listed(p *Piece) bool {
	return slices.ContainsFunc(it.Order.Cuts, func(c order.Cut) bool { return p.cutAs(&c) })
}

// extraOf is the cloth of the piece that a cut adds, and how it lies on it; nil for a piece that
// is worked out, or can't be cut of its cloth.
func (it *Item) extraOf(c *order.Cut) (cloth *Cloth, across, along length.Length) {
	if slices.ContainsFunc(it.Pieces, func(p Piece) bool { return p.Name == c.Piece.Value }) {
		return nil, 0, 0
	}
	if cloth = it.Face; c.Cloth.Set {
		cloth = it.Sheet.Cloth(c.Cloth.Value)
	}
	across, along = c.Width.Value, c.Length.Value
	switch {
	case cloth == nil || min(across, along) > cloth.Width:
		return nil, 0, 0
	case across > cloth.Width:
		return cloth, along, across
	}
	return cloth, across, along
}

// addedAs is the piece that a cut adds.
func (it *Item) addedAs(c *order.Cut, cloth *Cloth, across, along length.Length) Piece {
	name := c.Piece.Value
	is := func(what string, v Value) *Quantity {
		return &Quantity{Name: Name(name + " " + what), Item: it.Index, Value: v, Source: "the order"}
	}
	decl := undeclared
	decl.Piecing = &Piecing{Name: name}
	decl.call()
	return Piece{Name: name, Cloth: cloth, Width: is("cut width", LengthOf(across)), Length: is("cut length", LengthOf(along)),
		Count: is("cut count", CountOf(c.Count.Value)), decl: &decl}
}

// added reports whether a cut is of a piece that its item is not worked out to have.
func (k *cut) added() bool { return k.piece.decl.width < 0 }

// Adds are the pieces that may be added to an item of this kind.
func (it *Item) Adds() []string { return slices.Concat(it.kind.Adds, it.kind.Layers) }

// Clothless reports whether a cut of such a piece may be added only of a cloth that its row
// names, and it names none.
func (it *Item) Clothless(c *order.Cut) bool {
	return !c.Cloth.Set && slices.Contains(it.kind.Layers, c.Piece.Value)
}

// isExtra reports whether a cut may add a piece.
func (it *Item) isExtra(cut int) bool {
	_, ok := slices.BinarySearch(it.extra, cut)
	return ok
}
