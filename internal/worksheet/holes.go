package worksheet

import (
	"slices"

	"cutgate/internal/length"
	"cutgate/internal/order"
)

const holeSource = "Engineer Fix, shower curtain holes and hooks: 12 holes on 72 in, pitch about 6 in"

const eyeletSource = "Engineer Fix, How many grommets per curtain panel: 6 to 8 on 40 to 50 in, always even"

// holes works out the holes of a flat hanging: how many, and how far apart. The
// shop's pitch gives the count where none is stated.
func (w *worker) holes(it *Item) {
	if !it.Order.Holes.Set || it.FinishedWidth == nil {
		return
	}
	w.holesOver(it, it.FinishedWidth, w.Tables.House.Pitch)
	w.slit(it)
}

// holesOver spaces holes over a width. Count, spacing and inset over-determine
// the width, so the one that two others and the width speak against is wrong.
func (w *worker) holesOver(it *Item, over *Quantity, pitch length.Length) {
	h := &it.Order.Holes
	over = w.cutDown(it, over)
	width := over.Value.Length()
	inset := w.insetOf(h, width)
	span := width - 2*inset
	if span <= 0 && h.FromSide.Set { // past the middle
		inset = w.insetOf(&order.Holes{Count: h.Count, Spacing: h.Spacing}, width)
		if span = width - 2*inset; span > 0 {
			w.compareLength(w.put(HoleInset, "", LengthOf(inset), length.Nearest, w.Tables.SelfSource("from_side"), ""), &h.FromSide)
		}
	}
	if span <= 0 || pitch <= 0 {
		return
	}
	count := h.Count.Value
	if !h.Count.Set || count < 2 {
		count = max(2, w.countFor(it, span, pitch))
	}
	blame := w.blameHoles(it, width, inset, count, pitch)
	switch blame {
	case HoleCount:
		count = w.fitting(span, h.Spacing.Value)
	case HoleInset:
		inset = (width - h.Spacing.Value.Mul(count-1)).Div(2, length.Nearest)
		span = width - 2*inset
	}
	if !h.Count.Set || blame == HoleCount || h.Count.Value < 2 {
		q := w.holeCount(it, span, inset, pitch, count)
		w.compareCount(q, &h.Count)
		it.HoleCount = q
	} else {
		it.HoleCount = w.asStated(HoleCount, "", CountOf(count))
		if h.Spacing.Set { // else nothing speaks against it
			w.compareCount(it.HoleCount, &h.Count)
		}
	}
	if blame == HoleInset {
		q := w.put(HoleInset, "", LengthOf(inset), length.Nearest, Common,
			"({"+string(over.Name)+"} - {spacing} × ({holes} - 1)) ÷ 2",
			via(over), len1("spacing", h.Spacing.Value), num("holes", count))
		w.compareLength(q, &h.FromSide)
	}
	src := holeSource
	if it.Heading != nil {
		src = eyeletSource
	}
	it.HoleSpacing = w.put(HoleSpacing, "", LengthOf(span.Div(count-1, length.Nearest)), length.Nearest, src,
		"({"+string(over.Name)+"} - 2 × {from side}) ÷ ({holes} - 1)", via(over), len1("from side", inset), num("holes", count))
	w.compareLength(it.HoleSpacing, &h.Spacing)
	for i := int64(0); i < count; i++ {
		at, _ := length.MulDiv(int64(span), i, count-1, length.Nearest)
		it.Holes = append(it.Holes, inset+length.Length(at))
	}
}

// cutDown is the panel that a stated spacing lies on: the whole one, or the one
// cut down to what the fullness asks for where the spacing fits that and not
// the whole.
func (w *worker) cutDown(it *Item, over *Quantity) *Quantity {
	h := &it.Order.Holes
	if it.Heading == nil || it.Order.PanelWidth.Set || it.FlatWidth == nil || !h.Spacing.Set {
		return over
	}
	fits := func(width length.Length) bool {
		span := width - 2*w.insetOf(h, width)
		if h.Count.Set && h.Count.Value >= 2 {
			return near(span.Div(h.Count.Value-1, length.Nearest), h.Spacing.Value, length.Step(w.Unit))
		}
		return w.fitting(span, h.Spacing.Value) >= 2
	}
	l := it.FlatWidth.Value.Length().Div(it.Panels, length.Down) - it.Sides.Takes.Mul(2)
	if l >= over.Value.Length() || fits(over.Value.Length()) || !fits(l) {
		return over
	}
	return w.put(PanelWidth, "cut down", LengthOf(l), length.Down, Common,
		"{flat width} ÷ {panels} - 2 × {side hem}",
		term(it.FlatWidth), num("panels", it.Panels), len1("side hem", it.Sides.Takes))
}

// insetOf is the stated inset of the first hole; where none is stated the one
// that count and spacing leave, if that is about what it usually is, or else the
// usual one.
func (w *worker) insetOf(h *order.Holes, width length.Length) length.Length {
	usual := w.Tables.House.FromSide
	if h.FromSide.Set {
		return h.FromSide.Value
	}
	if h.Count.Set && h.Spacing.Set && h.Count.Value >= 2 {
		if left := (width - h.Spacing.Value.Mul(h.Count.Value-1)).Div(2, length.Nearest); left > 0 && left < usual*3/2 {
			return left
		}
	}
	return usual
}

// countFor is the count for a span where none is stated: the one that a stated
// spacing gives, else by the pitch.
func (w *worker) countFor(it *Item, span, pitch length.Length) int64 {
	s := it.Order.Holes.Spacing
	if !s.Set || !worksFrom(s.Value, pitch) {
		return w.evenFor(it, span, pitch)
	}
	if n := w.fitting(span, s.Value); n >= 2 {
		return n
	}
	return w.evenFor(it, span, s.Value)
}

// holeCount works out how many holes a span takes at the stated spacing, or else
// at the shop's pitch.
func (w *worker) holeCount(it *Item, span, inset, pitch length.Length, count int64) *Quantity {
	by, name := pitch, "pitch"
	if s := it.Order.Holes.Spacing; s.Set && s.Value > 0 && (w.fitting(span, s.Value) == count || worksFrom(s.Value, pitch)) {
		by, name = s.Value, "spacing"
	}
	formula, src := "rounded (({width} - 2 × {from side}) ÷ {"+name+"}) + 1", holeSource
	if length.RatioOf(span, by).Int(length.Nearest)+1 != count {
		formula += ", made even"
	}
	if it.Heading != nil {
		src = eyeletSource
	}
	return w.put(HoleCount, "", CountOf(count), length.Nearest, src, formula,
		len1("width", span+2*inset), len1("from side", inset), len1(name, by))
}

// worksFrom reports whether a stated spacing is one that a count can be worked
// from: it is not out of all proportion to the pitch.
func worksFrom(spacing, pitch length.Length) bool { return spacing >= pitch/2 && spacing < pitch*2 }

// evenFor is the count for a span at a pitch; for an eyelet heading the nearest
// even one, and of two as near the less.
func (w *worker) evenFor(it *Item, span, pitch length.Length) int64 {
	if it.Heading == nil {
		return length.RatioOf(span, pitch).Int(length.Nearest) + 1
	}
	return 2*max(0, length.CeilDiv(span-2*pitch, 2*pitch)) + 2
}

// fitting is how many holes a spacing puts on a span, or 0 where they don't
// come out within half a step a space.
func (w *worker) fitting(span, spacing length.Length) int64 {
	if spacing <= 0 || spacing > span {
		return 0
	}
	n := length.RatioOf(span, spacing).Int(length.Nearest)
	if d := spacing.Mul(n) - span; max(d, -d) > length.Step(w.Unit).Mul(n)/2 {
		return 0
	}
	return n + 1
}

// blameHoles tells which of the hole numbers is wrong where they disagree: the
// one that a known slip explains. Where slips explain more than one, or none, the
// spacing is wrong if the others give one that is nearer to the pitch; else it is
// believed, and the inset is wrong if the usual one makes all agree, or the count
// if another one does. A spacing that keeps the holes off the joins is believed too.
func (w *worker) blameHoles(it *Item, width, inset length.Length, count int64, pitch length.Length) Name {
	h := &it.Order.Holes
	if !h.Spacing.Set || !h.Count.Set || h.Spacing.Value <= 0 || count < 2 {
		return ""
	}
	span, spacing, step := width-2*inset, h.Spacing.Value, length.Step(w.Unit)
	right := span.Div(count-1, length.Nearest)
	if near(right, spacing, step) {
		return ""
	}
	n, odd := w.fitting(span, spacing), it.Heading != nil && count%2 == 1
	if it.Heading != nil && n%2 == 1 {
		n = 0
	}
	post := n >= 2 && (n == count+1 || n == count-1) // spaces and posts confused, in the one or the other
	alt, usual := (width-spacing.Mul(count-1)).Div(2, length.Nearest), w.Tables.House.FromSide
	slack := max(step, step.Mul(count-1)/4) // what rounding the spacing leaves of it at a side
	countSlip := n >= 2 && (post || w.explained(HoleCount, h.Count.Node, CountOf(count), CountOf(n)))
	insetSlip := h.FromSide.Set && (near(alt, usual, slack) || alt > 0 && w.slipBetween(HoleInset, h.FromSide.Node, LengthOf(inset), LengthOf(alt)).sure())
	spacingSlip := post || w.explained(HoleSpacing, h.Spacing.Node, LengthOf(spacing), LengthOf(right)) ||
		slices.ContainsFunc(spacingCandidates(width, inset, count), func(c candidate) bool { return near(c.value.Length(), spacing, step) })
	off := func(l length.Length) length.Length { return max(l-pitch, pitch-l) }
	switch {
	case spacingSlip && !countSlip && !insetSlip:
		return HoleSpacing
	case post && it.onJoin(inset, span, count) && !it.onJoin(inset, span, n):
		return HoleCount // the stated spacing steers clear of the joins
	case post && it.onJoin(inset, span, n) && !it.onJoin(inset, span, count):
		return HoleSpacing // the stated count does
	case spacingSlip == (countSlip || insetSlip) && off(right) <= off(spacing) && !(odd && n >= 2):
		return HoleSpacing
	case insetSlip:
		return HoleInset
	case n >= 2:
		return HoleCount
	case h.FromSide.Set && alt > 0 && (near(alt, usual, usual/2) || w.explained(HoleInset, h.FromSide.Node, LengthOf(inset), LengthOf(alt))):
		return HoleInset
	}
	return HoleSpacing
}

// onJoin reports whether so many holes over a span put one on a join.
func (it *Item) onJoin(inset, span length.Length, count int64) bool {
	h := &it.Order.Holes
	reach := max(h.Flange.Value, h.Bore.Value).Div(2, length.Up)
	for i := int64(0); i < count; i++ {
		at, _ := length.MulDiv(int64(span), i, count-1, length.Nearest)
		for _, seam := range it.Joined {
			if near(inset+length.Length(at), seam, reach) {
				return true
			}
		}
	}
	return false
}

// explained reports whether a slip of writing numbers down makes one value of
// the other.
func (w *worker) explained(name Name, n *order.Node, stated, right Value) bool {
	return w.slipBetween(name, n, stated, right) != nil
}

// slipBetween is the slip of writing numbers down that makes one value of the
// other, or nil.
func (w *worker) slipBetween(name Name, n *order.Node, stated, right Value) *Slip {
	if n == nil {
		return nil
	}
	return w.genericSlip(&Wrong{Quantity: &Quantity{Name: name}, Node: n, Stated: stated, right: right})
}

// slit works out the length of a buttonhole: what goes through, and ease.
func (w *worker) slit(it *Item) {
	h := &it.Order.Holes
	if h.Make.Value != "buttonhole" || !h.Hook.Set {
		return
	}
	ease := valueOr(h.Ease, w.Tables.House.HoleEase)
	it.HoleSlit = w.put(HoleSlit, "", LengthOf(h.Hook.Value+ease), length.Up, Common,
		"{hook thickness} + {ease}", len1("hook thickness", h.Hook.Value), len1("ease", ease))
	if h.Ease.Set || h.Slit.Value < it.HoleSlit.Value.Length() { // else a roomier one is a choice
		w.compareLength(it.HoleSlit, &h.Slit)
	}
}
