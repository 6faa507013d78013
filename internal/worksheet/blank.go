package worksheet

import (
	"slices"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/order"
)

// A Blank is an outcome that the order leaves blank, or leaves out of a block
// that is there, and that was worked out.
type Blank struct {
	Quantity *Quantity
	Field    string      // its name on the form
	In       *order.Node // the block that it belongs to
	Node     *order.Node // as left blank; nil where it was left out
	Text     string      // the value in the order's own units, or its heading's
}

// Blanks are the outcomes that can be filled in, block by block in the order of
// the form. Where a finished size is among them the finished sizes come alone:
// the rest is worked from them as they are written.
//
// There are none where a choice was found to be misread, as they would fit the
// one value of it or the other, and none of what rests on a choice that could
// not be read.
func (s *Sheet) Blanks() []Blank {
	if len(s.Misread) > 0 || s.Order.Root == nil {
		return nil
	}
	b := blanks{w: &worker{Sheet: s, doubted: make([]doubt, len(s.Items))}}
	b.w.doubts()
	items := s.Order.Root.Kid("items")
	for i := range s.Items {
		if items != nil && i < len(items.Kids) {
			b.item(&s.Items[i], &items.Kids[i])
		}
	}
	for i := range s.Cloths {
		c := &s.Cloths[i]
		note(&b, c.ToBuy, &c.Order.Ordered, s.Order.Root.Kid("cloths").Kid(c.Name), "ordered")
	}
	sizes := slices.DeleteFunc(slices.Clone(b.list), func(x Blank) bool {
		return x.Quantity.Name != FinishedWidth && x.Quantity.Name != FinishedLength
	})
	if len(sizes) > 0 {
		return sizes
	}
	return b.list
}

// blanks gathers the blanks of a sheet.
type blanks struct {
	w    *worker
	list []Blank
}

// item gathers the blanks of an item, which n is as written. It is the one list
// of where on the form each outcome goes.
func (b *blanks) item(it *Item, n *order.Node) {
	o := it.Order
	finished, hems, lining, holes, heading := n.Kid("finished"), n.Kid("hems"), n.Kid("lining"), n.Kid("holes"), n.Kid("heading")
	note(b, it.FinishedWidth, &o.Finished.Width, finished, "width")
	note(b, it.FinishedLength, &o.Finished.Length, finished, "length")
	note(b, b.takes(it, "top"), &o.Hems.Top.Allowance, hems.Kid("top"), "allowance")
	note(b, b.takes(it, "bottom"), &o.Hems.Bottom.Allowance, hems.Kid("bottom"), "allowance")
	note(b, b.takes(it, "sides"), &o.Hems.Sides.Allowance, hems.Kid("sides"), "allowance")
	note(b, it.FlatWidth, &o.FlatWidth, n, "flat_width")
	note(b, it.Widths, &o.Widths, n, "widths")
	note(b, it.HangingMass, &o.HangingMass, n, "hanging_mass")
	note(b, it.LiningWidths, &o.Lining.Widths, lining, "widths")
	note(b, b.takes(it, "lining"), &o.Lining.Hem.Allowance, lining.Kid("hem"), "allowance")
	note(b, it.InterliningWidths, &o.Interlining.Widths, n.Kid("interlining"), "widths")
	note(b, it.HoleCount, &o.Holes.Count, holes, "count")
	note(b, it.HoleSpacing, &o.Holes.Spacing, holes, "spacing")
	note(b, it.HoleSlit, &o.Holes.Slit, holes, "slit")
	note(b, it.PleatCount, &o.Heading.Pleats, heading, "pleats")
	note(b, it.PleatSpacing, &o.Heading.Spacing, heading, "spacing")
	note(b, it.TakeUp, &o.Heading.TakeUp, heading, "take_up")
	note(b, it.PocketHeight, &o.Heading.Pocket, heading, "pocket")
	note(b, it.TabCount, &o.Heading.Tabs, heading, "tabs")
	note(b, it.TabGap, &o.Heading.Gap, heading, "gap")
	note(b, it.PressSetting, &o.Press.Setting, n.Kid("press"), "setting")
	if cuts := n.Kid("cuts"); cuts != nil && len(cuts.Kids) == len(o.Cuts) {
		for i := range o.Cuts {
			b.cut(it, i, &cuts.Kids[i])
		}
	}
}

// takes is what a hem of the item takes of the cut, or nil.
func (b *blanks) takes(it *Item, edge string) *Quantity {
	for _, q := range b.w.All {
		if q.Name == HemTakes && q.Item == it.Index && q.Of == edge {
			return q
		}
	}
	return nil
}

// cut gathers the blanks of the item's i-th cut. How the count of a piece is
// shared out between several cuts of it is not for the sheet to say.
func (b *blanks) cut(it *Item, i int, n *order.Node) {
	c := &it.Order.Cuts[i]
	for k := range it.Pieces {
		p := &it.Pieces[k]
		if !p.cutAs(c) {
			continue
		}
		note(b, p.Width, &c.Width, n, "width")
		note(b, p.Length, &c.Length, n, "length")
		alone := true
		for j := range it.Order.Cuts {
			alone = alone && (j == i || !p.cutAs(&it.Order.Cuts[j]))
		}
		if alone {
			note(b, p.Count, &c.Count, n, "count")
		}
		return
	}
}

// cutAs reports whether a cut of the order is of the piece.
func (p *Piece) cutAs(c *order.Cut) bool {
	return samePiece(c.Piece.Value, p.Name) && (!c.Cloth.Set || p.Cloth == nil || c.Cloth.Value == p.Cloth.Name)
}

// note adds the leaf of that name in a block, where it is blank and q is its
// value.
func note[T any](b *blanks, q *Quantity, leaf *order.Leaf[T], in *order.Node, name string) {
	if q == nil || leaf.Set || in == nil || in.Form != order.Map || in.Fixed || in.Unread {
		return
	}
	n := leaf.Node
	switch {
	case n != nil && (n.Form != order.Null || n.Fixed || n.Unread):
		return // something stands there that could not be read
	case n == nil && (in.Kid(name) != nil || b.meant(in, name)):
		return
	case q.Value.Sort == Length && q.Value.N <= 0, b.w.doubtful(q):
		return
	}
	b.list = append(b.list, Blank{Quantity: q, Field: name, In: in, Node: n, Text: b.w.Written(q, n)})
}

// meant reports whether a misspelt name in the block was likely meant for the
// field.
func (b *blanks) meant(in *order.Node, name string) bool {
	for i := range b.w.Order.Flaws {
		f := &b.w.Order.Flaws[i]
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

// Written is how a quantity is written into an order at n, or where nothing stands
// yet: in the order's units, or those of the heading that it stands under, but cloth
// to buy in yards or metres, as it is sold. In a table whose numbers have decimal
// commas it has one too, as the spreadsheet may take a point for part of a date.
func (s *Sheet) Written(q *Quantity, n *order.Node) string {
	text := s.withPoint(q, n)
	whole, part, ok := strings.Cut(text, ".")
	if !ok || !s.commas {
		return text
	}
	if digits := len(part) - len(strings.TrimLeft(part, "0123456789")); digits == 3 {
		part = part[:3] + "0" + part[3:] // a comma before three digits stands between thousands
	}
	return whole + "," + part
}

// decimalCommas reports whether a number below n is written with a decimal comma.
func decimalCommas(n *order.Node) bool {
	if whole, part, ok := strings.Cut(n.Text, ","); ok && n.Form == order.Scalar {
		digits := len(part) - len(strings.TrimLeft(part, "0123456789"))
		return whole != "" && strings.Trim(whole, "0123456789") == "" && (digits == 1 || digits == 2)
	}
	for i := range n.Kids {
		if decimalCommas(&n.Kids[i]) {
			return true
		}
	}
	return false
}

// withPoint is Written with a decimal point.
func (s *Sheet) withPoint(q *Quantity, n *order.Node) string {
	switch q.Value.Sort {
	case Length:
		style := length.StyleOf(s.Unit, true)
		if n != nil && n.Unit != length.NoUnit {
			style = length.StyleOf(n.Unit, true)
		} else if c := s.Cloth(q.Of); q.Name == ClothToBuy && c != nil {
			style = s.soldIn(c, q.Value.Length())
		}
		return style.Print(q.Value.Length(), q.Round)
	case Ratio:
		return q.Value.R.Format(2)
	}
	return q.Value.Format(s.Unit, q.Round)
}

// soldIn is the manner of a length of cloth that is to be bought: that of what
// it is sold by where yards or metres don't come out even.
func (s *Sheet) soldIn(c *Cloth, l length.Length) length.Style {
	u := s.Unit
	if c.Order.SoldBy.Set {
		u = s.lengthStyle(c.Order.SoldBy.Node).Unit()
	}
	style := length.StyleOf(length.Yd, false)
	if u.Metric() {
		style = length.StyleOf(length.M, false)
	}
	if again, _, err := length.Parse(style.Print(l, length.Up), length.NoUnit); (err != nil || again != l) && c.Order.SoldBy.Set {
		return s.lengthStyle(c.Order.SoldBy.Node)
	}
	return style
}
