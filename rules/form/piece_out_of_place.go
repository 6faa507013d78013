package form

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var pieceOutOfPlace = &rule.Rule{
	ID:    "form/piece-out-of-place",
	Title: "piece that the item does not have",
	Level: finding.Warning,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runPieceOutOfPlace,
	Doc: `
Checks
Whether each cut is of a piece the item has: no side pieces where it is cut in one,
no lining where it has none.

Because
A cut that belongs to nothing can't be checked, but is cut all the same.

Working
The pieces of an item follow from its layout, its style and its lining. Small pieces, such
as ties and bands, may be added to most, with their sizes. A width cut in the lining's cloth is the lining.

Correction
With --likely, a width in the lining's cloth is renamed lining.

Source
common practice, no source
`,
}

func runPieceOutOfPlace(p *rule.Pass) {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		var has, more []string // when they are first asked for
		for k := range it.Order.Cuts {
			cut := &it.Order.Cuts[k]
			c := &cut.Piece
			if piece, _ := it.PieceOf(cut); piece != nil || !c.Set {
				continue
			}
			if has == nil {
				if has, more = piecesOf(p, it); len(has) == 0 {
					break
				}
			}
			is := func(piece string) bool { return worksheet.SamePiece(c.Value, piece) }
			sized := cut.Width.Set && cut.Length.Set
			switch name := c.Value; {
			case it.NarrowFor(cut) != nil: // which width/wider-than-cloth says
			case behind(it.Order, cut):
				p.Report(finding.Finding{
					At: c.At, Stated: name, Corrected: "lining",
					Message: fmt.Sprintf("This cut is in %s, the lining's cloth: call its piece “lining”, not %s.", cut.Cloth.Value, quote(name)),
					Fixes:   p.Likely(c.Node, "lining", "Call the piece lining"),
				})
			case !slices.ContainsFunc(has, is) && !(sized && slices.ContainsFunc(more, is)):
				p.Report(finding.Finding{
					At: c.At, Stated: name,
					Message: fmt.Sprintf("This %s has no piece %s, so this cut was not checked: write %s, or take the cut out.",
						it.Order.Kind.Value, quote(name), oneOf(pieces(it))),
				})
			}
		}
	}
}

// piecesOf are the names that a cut of the item may have, and more of them that it may have
// where it says its sizes, as nothing else does; none where that can't be told.
func piecesOf(p *rule.Pass, it *worksheet.Item) (has, more []string) {
	o := it.Order
	if len(it.Pieces) == 0 || it.Face == nil || it.Unread || strange(p.Order, o) {
		return nil, nil
	}
	made := func(name string) bool {
		return slices.ContainsFunc(it.Pieces, func(p worksheet.Piece) bool { return p.Name == name })
	}
	layout := slices.ContainsFunc(laidOut, made)
	instead := func(name string) bool { // another is cut in its place
		return made(name+" center") || layout && slices.Contains(laidOut, name) && !made(name)
	}
	switch adds := it.Adds(); {
	case o.Kind.Value == "curtain":
		has = append(has, "width", "tab", "tie-back")
		if o.Lining.Set {
			has = append(has, "lining")
		}
		if o.Interlining.Set {
			has = append(has, "interlining")
		}
	case len(adds) > 0:
		for _, name := range slices.Concat(alsoCalled, adds) {
			if !instead(name) {
				more = append(more, name)
			}
		}
	}
	for _, name := range it.Unmade() { // what it is worked from may be missing, or make no sense
		if !instead(name) {
			has = append(has, name)
		}
	}
	for i := range it.Pieces {
		has = append(has, it.Pieces[i].Name)
	}
	return has, more
}

// laidOut are the pieces that an item is cut in, by its layout.
var laidOut = []string{"piece", "width", "center", "side"}

// alsoCalled are other names for the main pieces of an item, and for those of its layers.
var alsoCalled = []string{"piece", "front", "back", "body", "lining center", "lining side", "interlining center", "interlining side", "band center", "band side"}

// strange reports whether the item has a field that the form does not have: it
// may be what a piece belongs to.
func strange(o *order.Order, it *order.Item) bool {
	for f := range o.FlawsIn(it.At) {
		if f.Kind == order.UnknownField {
			return true
		}
	}
	return false
}

// behind reports whether a cut that is called a width is of the lining's cloth.
func behind(o *order.Item, c *order.Cut) bool {
	return o.Lining.Set && c.Cloth.Set && (c.Piece.Value == "width" || c.Piece.Value == "piece") &&
		c.Cloth.Value == o.Lining.Cloth.Value && c.Cloth.Value != o.Cloth.Value && c.Cloth.Value != o.Interlining.Cloth.Value
}
