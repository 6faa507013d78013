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
	Each:  runPieceOutOfPlace,
	Doc: `
Checks
Whether each cut is of a piece the item has: no side pieces where it is cut in one,
no lining where it has none, no front on a round cover.

Because
A cut that belongs to nothing can't be checked, but is cut all the same.

Working
The pieces of an item follow from its layout, its style and its lining. Small pieces, such
as ties and bands, may be added to most, with their sizes, and so may layers of a cloth that their row
names; not a piece that goods of that kind have in another style. A width cut in the lining's cloth is the lining.

Correction
With --likely, a width in the lining's cloth is renamed lining.

Source
common practice, no source
`,
}

func runPieceOutOfPlace(p *rule.Pass, it *worksheet.Item) {
	if p.Sheet.WordAsked(it.Index) {
		return
	}
	var has, more []string // when they are first asked for
	var group elsewhere
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
		extra := sized && slices.ContainsFunc(more, is)
		switch name := c.Value; {
		case it.NarrowFor(cut) != nil: // which width/wider-than-cloth says
		case behind(it.Order, cut):
			p.Report(finding.Finding{
				At: c.At, Stated: name, Corrected: "lining",
				Message: fmt.Sprintf("This cut is in %s, the lining's cloth: call its piece “lining”, not %s.", cut.Cloth.Value, quote(name)),
				Fixes:   p.Likely(c.Node, "lining", "Call the piece lining"),
			})
		case extra && it.Clothless(cut) && !slices.ContainsFunc(has, is):
			p.Report(finding.Finding{
				At: c.At, Stated: name,
				Message: fmt.Sprintf("This %s has no piece %s, so this cut was not checked: write of which `cloth` it is, or take the cut out.",
					it.Order.Kind.Value, quote(name)),
			})
		case extra:
		case slices.ContainsFunc(has, is):
			if lacks := lacking(p, it, cut); len(lacks) > 0 {
				write := "that"
				if len(lacks) > 1 {
					write = "those"
				}
				p.Report(finding.Finding{
					At: c.At, Stated: name,
					Message: fmt.Sprintf("Without %s this %s has no piece %s, so this cut was not checked: write %s, or take the cut out.",
						worksheet.All(lacks), it.Order.Kind.Value, quote(name), write),
				})
			}
		case p.Sheet.Unsettled(it.Index) && slices.ContainsFunc(has, func(piece string) bool { return piece == name+" center" }): // whether it is joined may rest on that
		case group.takes(it, c):
		default:
			p.Report(finding.Finding{
				At: c.At, Stated: name,
				Message: fmt.Sprintf("This %s has no piece %s, so this cut was not checked: write %s, or take the cut out.",
					it.Order.Kind.Value, quote(name), oneOf(pieces(it))),
			})
		}
	}
	group.report(p, it)
}

// lacking are the fields without which there is no such piece, of a row that states a size
// and that nothing else is said of. A maker cuts tie-backs with curtains as it likes.
func lacking(p *rule.Pass, it *worksheet.Item, cut *order.Cut) (fields []string) {
	if !cut.Width.Set && !cut.Length.Set || len(p.Order.Flaws) > 0 || it.Disputed(cut) >= 0 || it.Order.Kind.Value == "curtain" {
		return nil
	}
	if lacks, _ := it.Lacks(); len(lacks) > 0 {
		return nil
	}
	for _, name := range it.LacksFor(cut.Piece.Value) {
		fields = append(fields, fieldOf(it, name))
	}
	return fields
}

// An elsewhere is rows of pieces that an item would have if one word of it were another:
// they are one mistake.
type elsewhere struct {
	by    worksheet.Other
	names []*order.Text
}

// takes adds a row to those that want the same word.
func (e *elsewhere) takes(it *worksheet.Item, c *order.Text) bool {
	by, ok := it.Elsewhere(c.Value)
	if !ok || by.Field == "" {
		return false
	}
	if len(e.names) > 0 {
		if by.Field != e.by.Field {
			return false
		}
		by.Words = slices.DeleteFunc(by.Words, func(w string) bool { return !slices.Contains(e.by.Words, w) })
		if len(by.Words) == 0 {
			return false
		}
	}
	e.by, e.names = by, append(e.names, c)
	return true
}

func (e *elsewhere) report(p *rule.Pass, it *worksheet.Item) {
	if len(e.names) == 0 {
		return
	}
	var names []string
	for _, c := range e.names {
		if name := quote(c.Value); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	piece, cuts, out := "piece ", "this cut was", "cut"
	if len(names) > 1 {
		piece = "pieces "
	}
	if len(e.names) > 1 {
		cuts, out = "these cuts were", "cuts"
	}
	field := fieldOf(it, e.by.Field)
	why := fmt.Sprintf("%s is %s, not %s", field, e.by.Word, worksheet.Any(e.by.Words))
	write := "Write "
	if !e.by.Stated {
		why = fmt.Sprintf("without %s it is %s, not %s", field, e.by.Word, worksheet.Any(e.by.Words))
		write = "Write that, or "
	}
	p.Report(finding.Finding{
		At: e.names[0].At, Stated: e.names[0].Value,
		Message: fmt.Sprintf("This %s has no %s%s, so %s not checked: %s. %s%s, or take the %s out.",
			it.Order.Kind.Value, piece, worksheet.All(names), cuts, why, write, oneOf(pieces(it)), out),
	})
}

// fieldOf is a field of an item as people are shown it.
func fieldOf(it *worksheet.Item, name string) string {
	if n := it.Order.Kind.Node; n != nil && n.Cell {
		name = heading(name)
	}
	return "`" + name + "`"
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
		has = append(has, "width", "tie-back")
		if o.Lining.Set {
			has = append(has, "lining")
		}
		if o.Interlining.Set {
			has = append(has, "interlining")
		}
	default:
		for _, name := range adds {
			if _, other := it.Elsewhere(name); !other {
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
var laidOut = []string{"piece", "width", "skirt", "cover", "center", "side"}

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
