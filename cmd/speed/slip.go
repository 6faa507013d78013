package main

import (
	"cutgate/internal/length"
	"cutgate/internal/worksheet"
)

// A slip is a way in which people get an order wrong.
type slip struct {
	name string
	make func(*victim) bool // false where the order has no place for it
}

// A victim is the item of an order that is to be got wrong.
type victim struct {
	*draft
	sheet *worksheet.Sheet
	it    *worksheet.Item
	item  *block
	was   []string // what stood in the fields that were changed
}

// spoil makes one slip in a stated order. It returns its name, "" where none has
// a place, and what stood in the fields that were changed.
func (d *draft) spoil(s *worksheet.Sheet) (name string, was []string) {
	i := d.rng.IntN(len(d.items))
	v := &victim{draft: d, sheet: s, it: &s.Items[i], item: d.items[i]}
	for _, k := range d.rng.Perm(len(slips)) {
		if slips[k].make(v) {
			return slips[k].name, v.was
		}
	}
	return "", nil
}

// put writes another text into a field.
func (v *victim) put(b *block, name, text string) {
	v.was = append(v.was, b.text(name))
	b.set(name, text)
}

// slips are the slips that are made, in the trade's words.
var slips = []slip{
	{"bottom hem counted once", func(v *victim) bool {
		return v.plainCut(func(run length.Length) length.Length { return run - v.it.Bottom.Takes + v.it.Bottom.Turn })
	}},
	{"bottom hem left out", func(v *victim) bool {
		return v.plainCut(func(run length.Length) length.Length { return run - v.it.Bottom.Takes })
	}},
	{"hems left out of a side", func(v *victim) bool {
		return v.it.Heading == nil && v.cutWidth("side", func(l length.Length) length.Length { return l - v.it.Sides.Takes })
	}},
	{"center's own allowances forgotten", func(v *victim) bool {
		return v.cutWidth("side", func(l length.Length) length.Length { return l - v.it.Allowance })
	}},
	{"allowances left out of equal pieces", func(v *victim) bool {
		n := v.it.Joins + 1
		return n > 1 && v.it.Heading == nil && v.cutWidth("piece", func(l length.Length) length.Length {
			return l - v.it.Allowance.Mul(2*(n-1)).Div(n, length.Down)
		})
	}},
	{"sides not halved", func(v *victim) bool {
		return v.cutWidth("side", func(l length.Length) length.Length { return 2*l - v.it.Allowance - v.it.Sides.Takes })
	}},
	{"repeat ignored", func(v *victim) bool {
		return v.repeated(func(raw, repeat length.Length, n int64) length.Length { return raw })
	}},
	{"repeat added, not rounded up to", func(v *victim) bool {
		return v.repeated(func(raw, repeat length.Length, n int64) length.Length { return raw + repeat })
	}},
	{"repeats rounded down", func(v *victim) bool {
		return v.repeated(func(raw, repeat length.Length, n int64) length.Length { return repeat.Mul(n - 1) })
	}},
	{"number of repeats read as a length", func(v *victim) bool {
		return v.repeated(func(raw, repeat length.Length, n int64) length.Length { return v.unit.Length().Mul(n) })
	}},
	{"shrinkage multiplied, not divided", func(v *victim) bool {
		return v.shrunk(func(run length.Length, s length.Ratio) length.Length { return run.MulRatio(one.Add(s), length.Up) })
	}},
	{"shrinkage left out", func(v *victim) bool {
		return v.shrunk(func(run length.Length, s length.Ratio) length.Length { return run })
	}},
	{"widths rounded down", func(v *victim) bool {
		return v.widths(func(exact, right length.Ratio) length.Ratio { return length.NewRatio(exact.Int(length.Down), 1) })
	}},
	{"widths not rounded", func(v *victim) bool {
		return v.widths(func(exact, right length.Ratio) length.Ratio { return exact })
	}},
	{"widths of one panel given for both", func(v *victim) bool {
		return v.widths(func(exact, right length.Ratio) length.Ratio { return right.Quo(length.NewRatio(v.it.Panels, 1)) })
	}},
	{"panels counted twice", func(v *victim) bool {
		return v.widths(func(exact, right length.Ratio) length.Ratio { return right.Mul(length.NewRatio(v.it.Panels, 1)) })
	}},
	{"width and length swapped", (*victim).swap},
	{"digits swapped in a cut", func(v *victim) bool { return v.digits(v.anyCut(), "length") }},
	{"digits swapped in a spacing", func(v *victim) bool {
		return v.digits(v.item.at("holes"), "spacing") || v.digits(v.item.at("heading"), "spacing")
	}},
	{"digits swapped in a finished width", func(v *victim) bool { return v.digits(v.item.at("finished"), "width") }},
	{"digits swapped in a finished length", func(v *victim) bool { return v.digits(v.item.at("finished"), "length") }},
	{"decimal place", func(v *victim) bool {
		by := length.NewRatio(10, 1)
		if v.unit == length.CM {
			by = length.NewRatio(1, 10)
		}
		return v.scale(v.anyCut(), "length", by)
	}},
	{"centimetres for inches, or the reverse", func(v *victim) bool {
		if v.unit.Metric() {
			return v.scale(v.anyCut(), "length", length.NewRatio(100, 254))
		}
		return v.scale(v.anyCut(), "length", length.NewRatio(254, 100))
	}},
	{"an inch taken as 2.5 cm", func(v *victim) bool {
		return v.unit.Metric() && v.scale(v.anyCut(), "length", length.NewRatio(250, 254))
	}},
	{"fraction dropped", func(v *victim) bool {
		unit := v.unit.Length()
		return v.change(v.anyCut(), "width", func(l length.Length) length.Length { return l.Round(unit, length.Down) }) ||
			v.change(v.item.at("holes"), "spacing", func(l length.Length) length.Length { return l.Round(unit, length.Down) })
	}},
	{"a whole number before a fraction", func(v *victim) bool {
		return !v.unit.Metric() && v.change(v.item.at("join"), "trim", func(l length.Length) length.Length { return l + 2*length.Inch })
	}},
	{"spaces counted as holes", func(v *victim) bool {
		holes := v.item.at("holes")
		n := v.it.Get(worksheet.HoleCount)
		return n != nil && v.change(holes, "spacing", func(l length.Length) length.Length {
			return l.Mul(n.Value.N-1).Div(n.Value.N, length.Nearest)
		})
	}},
	{"one hole too few counted", func(v *victim) bool {
		return v.it.Get(worksheet.HoleCount) != nil && v.count(v.item.at("holes"), "count", v.it.Get(worksheet.HoleCount).Value.N-1)
	}},
	{"inset left out of a spacing", func(v *victim) bool {
		return len(v.it.Holes) > 1 && v.change(v.item.at("holes"), "spacing", func(l length.Length) length.Length {
			return l + v.it.Holes[0].Mul(2).Div(int64(len(v.it.Holes))-1, length.Nearest)
		})
	}},
	{"spaces counted as pleats", func(v *victim) bool {
		return v.it.Get(worksheet.PleatCount) != nil && v.count(v.item.at("heading"), "pleats", v.it.Get(worksheet.PleatCount).Value.N-1)
	}},
	{"rod's diameter for half its circumference", func(v *victim) bool {
		return v.change(v.item.at("heading"), "pocket", func(length.Length) length.Length { return v.it.Order.Track.Diameter.Value })
	}},
	{"a cut left out of the cloth to buy", func(v *victim) bool {
		return v.buy(func(needed length.Length, c *worksheet.Cloth) length.Length { return needed - c.Longest() })
	}},
	{"cloth to buy for one panel", func(v *victim) bool {
		return v.it.Panels > 1 && v.buy(func(needed length.Length, _ *worksheet.Cloth) length.Length { return needed / 2 })
	}},
	{"lining cut like the face", func(v *victim) bool {
		return v.it.Get(worksheet.CutLength) != nil && v.change(v.cut("lining"), "length", func(length.Length) length.Length { return v.it.Get(worksheet.CutLength).Value.Length() })
	}},
	{"overlap and returns left out", func(v *victim) bool {
		return v.it.Heading != nil && v.change(v.item.at("finished"), "width", func(length.Length) length.Length { return v.it.Order.Track.Width.Value })
	}},
	{"clearance added, not taken off", func(v *victim) bool {
		return v.it.Heading != nil && v.it.Order.Hang.To.Value != "below sill" &&
			v.change(v.item.at("finished"), "length", func(l length.Length) length.Length { return l + 2*v.it.Order.Hang.Clearance.Value })
	}},
	{"iron a dot too hot", func(v *victim) bool {
		if v.it.Get(worksheet.PressSetting) == nil || v.it.Get(worksheet.PressSetting).Value.N > 2 {
			return false
		}
		v.put(v.item.at("press"), "setting", worksheet.DotsOf(v.it.Get(worksheet.PressSetting).Value.N+1).Format(v.unit, length.Nearest))
		return true
	}},
}

var one = length.NewRatio(1, 1)

// change writes another length into a field. It reports false, and leaves the
// field, where there is none or the two are within what the trade rounds off.
func (v *victim) change(b *block, name string, to func(length.Length) length.Length) bool {
	if b == nil {
		return false
	}
	l, _, err := length.Parse(b.text(name), v.unit)
	if err != nil {
		return false
	}
	wrong := to(l)
	if d := wrong - l; wrong <= 0 || max(d, -d) < 2*length.Step(v.unit) {
		return false
	}
	v.put(b, name, v.write(wrong))
	return true
}

func (v *victim) scale(b *block, name string, by length.Ratio) bool {
	return v.change(b, name, func(l length.Length) length.Length { return l.MulRatio(by, length.Nearest) })
}

// count writes another count into a field.
func (v *victim) count(b *block, name string, n int64) bool {
	if b == nil || b.text(name) == "" || n < 2 {
		return false
	}
	v.put(b, name, worksheet.CountOf(n).Format(v.unit, length.Nearest))
	return true
}

// digits swaps the first two digits of a field that differ.
func (v *victim) digits(b *block, name string) bool {
	return v.change(b, name, func(l length.Length) length.Length {
		text := []byte(b.text(name))
		for i := 0; i+1 < len(text); i++ {
			x, y := text[i], text[i+1]
			if '1' <= x && x <= '9' && '1' <= y && y <= '9' && x != y {
				text[i], text[i+1] = y, x
				break
			}
		}
		wrong, _, err := length.Parse(string(text), v.unit)
		if err != nil {
			return l
		}
		return wrong
	})
}

// cut returns the order's cut of a piece; nil where it has none.
func (v *victim) cut(piece string) *block {
	cuts, _ := v.item.get("cuts").([]*block)
	for _, c := range cuts {
		if c.text("piece") == piece {
			return c
		}
	}
	return nil
}

// anyCut returns one of the item's cuts.
func (v *victim) anyCut() *block {
	cuts, _ := v.item.get("cuts").([]*block)
	if len(cuts) == 0 {
		return nil
	}
	return oneOf(v.rng, cuts...)
}

func (v *victim) cutWidth(piece string, to func(length.Length) length.Length) bool {
	return v.change(v.cut(piece), "width", to)
}

// faceCuts changes the length of every cut of the face cloth, as one who got it
// wrong once carries it on.
func (v *victim) faceCuts(to func(length.Length) length.Length) bool {
	changed := false
	cuts, _ := v.item.get("cuts").([]*block)
	for _, c := range cuts {
		if c.text("cloth") == "" {
			changed = v.change(c, "length", to) || changed
		}
	}
	return changed
}

// plainCut changes what lies in the cuts, before shrinkage, where no repeat
// swallows the change.
func (v *victim) plainCut(to func(run length.Length) length.Length) bool {
	left := one.Sub(v.shrinks())
	return v.cutsFrom(func(run length.Length) length.Length { return to(run).QuoRatio(left, length.Up) })
}

// shrunk changes how shrinkage goes into the cuts.
func (v *victim) shrunk(to func(run length.Length, shrinks length.Ratio) length.Length) bool {
	return v.cutsFrom(func(run length.Length) length.Length { return to(run, v.shrinks()) })
}

func (v *victim) cutsFrom(to func(run length.Length) length.Length) bool {
	if v.it.Get(worksheet.CutLength) == nil || v.it.Get(worksheet.Repeats) != nil {
		return false
	}
	run := v.it.Get(worksheet.CutLength).Value.Length().MulRatio(one.Sub(v.shrinks()), length.Nearest)
	return v.faceCuts(func(length.Length) length.Length { return to(run) })
}

// repeated does so where there is a repeat.
func (v *victim) repeated(to func(raw, repeat length.Length, n int64) length.Length) bool {
	if v.it.Get(worksheet.Repeats) == nil || v.it.Face == nil {
		return false
	}
	return v.faceCuts(func(length.Length) length.Length {
		return to(v.it.Get(worksheet.RawCut).Value.Length(), v.it.Face.Repeat, v.it.Get(worksheet.Repeats).Value.N)
	})
}

// shrinks is what the face cloth loses of its length in the wash.
func (v *victim) shrinks() length.Ratio {
	if v.it.Face == nil || v.it.Face.Order.Washed.Value {
		return length.Ratio{}
	}
	return v.it.Face.Order.Shrinks.Length.Value
}

// widths writes another number of widths, and the count of cuts that goes with
// it.
func (v *victim) widths(to func(exact, right length.Ratio) length.Ratio) bool {
	if v.it.Get(worksheet.WidthsExact) == nil || v.it.Get(worksheet.Widths) == nil || v.item.text("widths") == "" {
		return false
	}
	wrong := to(v.it.Get(worksheet.WidthsExact).Value.R, v.it.Get(worksheet.Widths).Value.R)
	text := wrong.Format(2)
	if wrong.Num <= 0 || text == v.item.text("widths") {
		return false
	}
	v.put(v.item, "widths", text)
	if c := v.cut("width"); c != nil {
		v.put(c, "count", worksheet.CountOf(wrong.Int(length.Up)).Format(v.unit, length.Up))
	}
	return true
}

// swap writes a cut's length for its width, and the reverse.
func (v *victim) swap() bool {
	c := v.anyCut()
	if c == nil {
		return false
	}
	width, cut := c.text("width"), c.text("length")
	if !v.change(c, "width", func(length.Length) length.Length {
		l, _, _ := length.Parse(cut, v.unit)
		return l
	}) {
		return false
	}
	v.put(c, "length", width)
	return true
}

// buy writes the cloth to buy that another need comes to, up to what the cloth
// is sold by.
func (v *victim) buy(to func(needed length.Length, c *worksheet.Cloth) length.Length) bool {
	c := v.it.Face
	if c == nil || c.ToBuy == nil || !c.Order.SoldBy.Set {
		return false
	}
	step := c.Order.SoldBy.Value
	wrong := to(c.Needed.Value.Length(), c).Round(step, length.Up)
	form := v.cloths.at(c.Name)
	if wrong <= 0 || wrong >= c.Needed.Value.Length() || form.text("ordered") == "" {
		return false
	}
	v.put(form, "ordered", v.buys.Print(wrong, length.Nearest))
	return true
}
