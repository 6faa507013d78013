// Package fill finds the outcomes that an order leaves blank and that were worked
// out: where on the form each goes, and as what text.
//
// Its law: it lists no outcome of its own. Which the form has is said by the kind
// of goods; the package knows only blocks and blanks.
package fill

import (
	"slices"
	"strings"

	"cutgate/internal/order"
	"cutgate/internal/worksheet"
)

// A Blank is an outcome that the order leaves blank, or leaves out of a block
// that is there, and that was worked out.
type Blank struct {
	Quantity *worksheet.Quantity
	Field    string      // its name on the form
	In       *order.Node // the block that it belongs to
	Node     *order.Node // as left blank; nil where it was left out
	Text     string      // the value in the order's own units, or its heading's
	chosen   bool
}

// Blanks are the outcomes that can be filled in, block by block in the order of
// the form. Where one is among them that is a choice once it stands there, as a
// finished size, those come alone: the rest is worked from them as they are written.
//
// There are none of an item in which something stated is in doubt, as they would fit
// the one value of it or the other, and none of what rests on a choice that could not
// be read.
func Blanks(s *worksheet.Sheet) []Blank {
	if s.Order.Root == nil {
		return nil
	}
	b := blanks{sheet: s}
	items := s.Order.Root.Kid("items")
	for i := range s.Items {
		if items != nil && i < len(items.Kids) && !s.Unsettled(i) {
			b.item(&s.Items[i], &items.Kids[i])
		}
	}
	for i := range s.Cloths {
		c := &s.Cloths[i]
		if len(c.Order.Bolts) > 0 || slices.ContainsFunc(c.Items(), s.Unsettled) {
			continue // nothing is ordered of cloth that is at hand
		}
		b.note(c.ToBuy, c.Order.Ordered.Node, c.Order.Ordered.Set, c.Doubtful(), s.Order.Root.Kid("cloths").Kid(c.Name), "ordered")
	}
	if chosen := slices.DeleteFunc(slices.Clone(b.list), func(x Blank) bool { return !x.chosen }); len(chosen) > 0 {
		return chosen
	}
	return b.list
}

// blanks gathers the blanks of a sheet.
type blanks struct {
	sheet *worksheet.Sheet
	list  []Blank
}

// item gathers the blanks of an item, which n is as written.
func (b *blanks) item(it *worksheet.Item, n *order.Node) {
	for _, e := range it.Entries() {
		in, name := n, e.Field
		for block, rest, ok := strings.Cut(name, "."); ok; block, rest, ok = strings.Cut(name, ".") {
			in, name = in.Kid(block), rest
		}
		if b.note(e.Quantity, e.Node, e.Set, e.Doubtful, in, name) {
			b.list[len(b.list)-1].chosen = e.Chosen
		}
	}
	if cuts := n.Kid("cuts"); cuts != nil && len(cuts.Kids) == len(it.Order.Cuts) {
		for i := range it.Order.Cuts {
			b.cut(it, &it.Order.Cuts[i], &cuts.Kids[i])
		}
	}
}

// cut gathers the blanks of one of the item's cuts. How the count of a piece is
// shared out between several cuts of it is not for the sheet to say.
func (b *blanks) cut(it *worksheet.Item, c *order.Cut, n *order.Node) {
	p, doubtful := it.PieceOf(c)
	if p == nil {
		return
	}
	width, length := it.SizesOf(p, c)
	b.note(width.Quantity, c.Width.Node, c.Width.Set, width.Doubtful, n, "width")
	b.note(length.Quantity, c.Length.Node, c.Length.Set, length.Doubtful, n, "length")
	for j := range it.Order.Cuts {
		other := &it.Order.Cuts[j]
		if same, _ := it.PieceOf(other); other != c && same == p {
			return
		}
	}
	b.note(p.Count, c.Count.Node, c.Count.Set, doubtful, n, "count")
}

// note adds the leaf of that name in a block, where it is blank and q is its
// value, and reports whether it did.
func (b *blanks) note(q *worksheet.Quantity, n *order.Node, set, doubtful bool, in *order.Node, name string) bool {
	if q == nil || set || in == nil || in.Form != order.Map || in.Fixed || in.Unread {
		return false
	}
	switch {
	case n != nil && (n.Form != order.Null || n.Fixed || n.Unread):
		return false // something stands there that could not be read
	case n == nil && (in.Kid(name) != nil || b.meant(in, name)):
		return false
	case q.Value.Sort == worksheet.Length && q.Value.N <= 0, doubtful:
		return false
	}
	b.list = append(b.list, Blank{Quantity: q, Field: name, In: in, Node: n, Text: b.sheet.Written(q, n)})
	return true
}

// meant reports whether a misspelt name in the block was likely meant for the
// field.
func (b *blanks) meant(in *order.Node, name string) bool {
	for i := range b.sheet.Order.Flaws {
		f := &b.sheet.Order.Flaws[i]
		if f.Kind != order.UnknownField || f.Nearest != name || f.Node == nil {
			continue
		}
		for k := range in.Kids {
			if &in.Kids[k] == f.Node {
				return true
			}
		}
	}
	return false
}
