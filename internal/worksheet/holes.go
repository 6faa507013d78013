package worksheet

import (
	"cutgate/internal/length"
	"cutgate/internal/order"
)

const holeSource = "Engineer Fix, shower curtain holes and hooks: 12 holes on 72 in, pitch about 6 in"

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
	width := over.Value.Length()
	inset := valueOr(h.FromSide, w.Tables.House.FromSide)
	span := width - 2*inset
	if span <= 0 || pitch <= 0 {
		return
	}
	count := h.Count.Value
	if !h.Count.Set || count < 2 {
		count = max(2, w.evenFor(it, span.Div(1, length.Nearest), pitch))
	}
	blame := w.blameHoles(it, width, inset, count, pitch)
	switch blame {
	case HoleCount:
		count = fitting(span, h.Spacing.Value)
	case HoleInset:
		inset = (width - h.Spacing.Value.Mul(count-1)).Div(2, length.Nearest)
		span = width - 2*inset
	}
	if !h.Count.Set || blame == HoleCount || h.Count.Value < 2 {
		q := w.holeCount(it, span, pitch, count)
		w.compareCount(q, &h.Count)
		it.HoleCount = q
	} else {
		it.HoleCount = w.put(HoleCount, "", CountOf(count), length.Nearest, "the order", "")
		if h.Spacing.Set { // else nothing speaks against it
			w.compareCount(it.HoleCount, &h.Count)
		}
	}
	if blame == HoleInset {
		q := w.put(HoleInset, "", LengthOf(inset), length.Nearest, Common,
			"({finished width} - {spacing} × ({holes} - 1)) ÷ 2",
			len1("finished width", width), len1("spacing", h.Spacing.Value), num("holes", count))
		w.compareLength(q, &h.FromSide)
	}
	it.HoleSpacing = w.put(HoleSpacing, "", LengthOf(span.Div(count-1, length.Nearest)), length.Nearest, holeSource,
		"({"+string(over.Name)+"} - 2 × {from side}) ÷ ({holes} - 1)", term(over), len1("from side", inset), num("holes", count))
	if !w.setOut(span, count, h) {
		w.compareLength(it.HoleSpacing, &h.Spacing)
	}
	for i := int64(0); i < count; i++ {
		at, _ := length.MulDiv(int64(span), i, count-1, length.Nearest)
		it.Holes = append(it.Holes, inset+length.Length(at))
	}
}

// setOut reports whether a stated spacing, measured out hole by hole, comes to
// the far inset within a step a space: then it is the spacing, rounded.
func (w *worker) setOut(span length.Length, count int64, h *order.Holes) bool {
	if !h.Spacing.Set {
		return false
	}
	d := h.Spacing.Value.Mul(count-1) - span
	return max(d, -d) < length.Step(w.Unit)
}

// holeCount works out how many holes a span takes at the shop's pitch, or at
// the stated spacing where that tells.
func (w *worker) holeCount(it *Item, span, pitch length.Length, count int64) *Quantity {
	name := "pitch"
	if s := it.Order.Holes.Spacing; s.Set && s.Value > 0 && fitting(span, s.Value) == count {
		pitch, name = s.Value, "spacing"
	}
	if near(pitch.Mul(count-1), span, length.Step(w.Unit).Mul(count)) || length.RatioOf(span, pitch).Int(length.Nearest)+1 == count {
		return w.put(HoleCount, "", CountOf(count), length.Nearest, holeSource,
			"rounded (({width} - 2 × {from side}) ÷ {"+name+"}) + 1",
			len1("width", span+2*valueOr(it.Order.Holes.FromSide, w.Tables.House.FromSide)),
			len1("from side", valueOr(it.Order.Holes.FromSide, w.Tables.House.FromSide)), len1(name, pitch))
	}
	return w.put(HoleCount, "", CountOf(count), length.Nearest,
		"Singer Sewing Custom Curtains, Shades and Top Treatments, excerpt: an even number, so that both edges turn to the wall",
		"rounded (({width} - 2 × {from side}) ÷ {pitch}) + 1, made even",
		len1("width", span+2*valueOr(it.Order.Holes.FromSide, w.Tables.House.FromSide)),
		len1("from side", valueOr(it.Order.Holes.FromSide, w.Tables.House.FromSide)), len1("pitch", pitch))
}

// evenFor is the count for a span at a pitch; even for an eyelet heading.
func (w *worker) evenFor(it *Item, span, pitch length.Length) int64 {
	n := length.RatioOf(span, pitch).Int(length.Nearest) + 1
	if it.Heading != nil && n%2 == 1 {
		n++
	}
	return n
}

// fitting is how many holes a spacing puts on a span, or 0 where they don't
// come out within half a step a space.
func fitting(span, spacing length.Length) int64 {
	if spacing <= 0 || spacing > span {
		return 0
	}
	n := length.RatioOf(span, spacing).Int(length.Nearest)
	if d := spacing.Mul(n) - span; max(d, -d) > (length.Millimetre / 2).Mul(n) {
		return 0
	}
	return n + 1
}

// blameHoles tells which of the hole numbers is wrong where they disagree: the
// count or the inset where another value of it makes all agree, a known slip
// explains it, and the spacing is near the pitch; else the spacing.
func (w *worker) blameHoles(it *Item, width, inset length.Length, count int64, pitch length.Length) Name {
	h := &it.Order.Holes
	if !h.Spacing.Set || !h.Count.Set || h.Spacing.Value <= 0 {
		return ""
	}
	span, spacing := width-2*inset, h.Spacing.Value
	if count >= 2 && (near(span.Div(count-1, length.Nearest), spacing, length.Step(w.Unit)) || w.setOut(span, count, h)) {
		return ""
	}
	slack := w.Tables.House.PitchSlack
	plausible := near(spacing, pitch, slack+1)
	if it.Heading != nil {
		plausible = spacing < pitch*2
	}
	if !plausible {
		return HoleSpacing
	}
	if count >= 2 {
		// The spacing may be the slip: then what it should be is nearer to the pitch.
		// and can be marked out as it is.
		right := LengthOf(span.Div(count-1, length.Nearest))
		step := length.Step(w.Unit)
		x := Wrong{Stated: LengthOf(spacing), right: right, Node: h.Spacing.Node, Quantity: &Quantity{Name: HoleSpacing}}
		if right.Length().Round(step, length.Nearest) == right.Length() && w.genericSlip(&x) != nil && near(right.Length(), pitch, slack+1) {
			return HoleSpacing
		}
	}
	if n := fitting(span, spacing); n >= 2 && n != count && (it.Heading == nil || n%2 == 0) {
		return HoleCount
	}
	if h.FromSide.Set && count >= 2 {
		if alt := (width - spacing.Mul(count-1)).Div(2, length.Nearest); alt > 0 && near(alt, w.Tables.House.FromSide, w.Tables.House.FromSide/2) {
			return HoleInset
		}
	}
	return HoleSpacing
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
	w.compareLength(it.HoleSlit, &h.Slit)
}
