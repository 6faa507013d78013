package goods

import (
	"cutgate/internal/length"
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	holeSource   = "Engineer Fix, shower curtain holes and hooks: 12 holes on 72 in, pitch about 6 in"
	eyeletSource = "Engineer Fix, How many grommets per curtain panel: 6 to 8 on 40 to 50 in, always even"
)

// holes adds the holes along the top edge: how many, how far apart, how far from the
// side. They lie on the term over, or on another that stands in for it where a
// stated spacing fits that one. A guard says when there are any.
func holes(k *ws.Kind, over, instead, when, source string) {
	k.Given = append(k.Given,
		ws.Given{Term: "holes stated", Name: "number of holes", Sort: ws.Count, From: []string{"holes.count"},
			Get: func(it *ws.Item) (ws.Value, bool) {
				return ws.CountOf(it.Order.Holes.Count.Value), it.Order.Holes.Count.Value >= 2
			}},
		ws.Given{Term: "from side stated", Name: "distance of the first hole from the side", From: []string{"holes.from_side"}, Choice: &ws.Choosing{Swap: string(ws.HoleSpacing), Low: in(8), High: in(16 * 8), Usual: []string{"1 in", "1 1/2 in", "2 in", "3 in", "4 in", "2.5 cm", "4 cm", "5 cm", "7.5 cm", "10 cm"}}},
		ws.Given{Term: "hole spacing stated", From: []string{"holes.spacing"}},
		ws.Given{Term: "hook thickness", From: []string{"holes.hook"}, Choice: &ws.Choosing{Low: in(1), High: in(16)}},
		ws.Given{Term: "hole ease", Shown: "ease", Name: "ease of the buttonhole", From: []string{"holes.ease"},
			Get: func(it *ws.Item) (ws.Value, bool) {
				return ws.LengthOf(ws.Or(it.Order.Holes.Ease, it.Sheet.Tables.House.HoleEase)), true
			},
			Choice: &ws.Choosing{Low: in(1), High: in(16)}},
		ws.Given{Term: "hole make", From: []string{"holes.make"}, Word: func(it *ws.Item) string {
			if !it.Order.Holes.Set {
				return ""
			}
			return ws.Or(it.Order.Holes.Make, "unsaid")
		}})
	plain := "{" + over + "} - 2 × {from side}"
	k.Steps = append(k.Steps, ws.Step{Term: "hole width", Name: "width", When: both(when, "hole make"), Formula: "{" + over + "}", Hidden: true})
	if instead != "" {
		last := &k.Steps[len(k.Steps)-1]
		first := *last
		first.When, first.Formula = both("cut down", first.When), "{"+instead+"}"
		k.Steps = append(k.Steps, *last)
		k.Steps[len(k.Steps)-2] = first
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: "from side", Work: fromSide, Reads: []string{"hole width", "holes stated", "from side stated", "hole spacing stated"}, Hidden: true},
		ws.Step{Term: string(ws.HoleInset), Work: insetPast, Reads: []string{"from side", "from side stated", "hole width"}},
		ws.Step{Term: "hole span", When: "from side", Formula: "{hole width} - 2 × {from side}", Hidden: true, Positive: true},
		ws.Step{Term: string(ws.HoleCount), Ends: true, When: "hole span, holes stated", Sort: ws.Count,
			Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Holes.Count, ws.CountOf) }, Reads: []string{"holes stated"}, Belief: true, Free: true},
		ws.Step{Term: string(ws.HoleCount), Ends: true, When: "hole span", Sort: ws.Count, Work: holeCount, Reads: []string{"hole width", "from side", "hole spacing stated"}})
	spacing := func(when, formula string) ws.Step {
		return ws.Step{Term: string(ws.HoleSpacing), When: when, Formula: "(" + formula + ") ÷ ({holes} - 1)", Source: source}
	}
	if instead != "" {
		k.Steps = append(k.Steps, spacing(both("cut down", "hole span"), "{"+instead+"} - 2 × {from side}"))
	}
	k.Steps = append(k.Steps, spacing("hole span", plain),
		ws.Step{Term: string(ws.HoleSlit), When: both(when, "hole make: buttonhole"), Formula: "{hook thickness} + {hole ease}", Round: length.Up, Source: ws.Common})
	k.Outcomes = append(k.Outcomes,
		ws.Outcome{Term: string(ws.HoleCount), Field: "holes.count"},
		ws.Outcome{Term: string(ws.HoleSpacing), Field: "holes.spacing", Hand: ws.Divided},
		ws.Outcome{Term: string(ws.HoleInset), Field: "holes.from_side"},
		ws.Outcome{Term: string(ws.HoleSlit), Field: "holes.slit", Fine: func(it *ws.Item, stated ws.Value) bool {
			return !it.Order.Holes.Ease.Set && stated.N >= it.Value(string(ws.HoleSlit)).N // a roomier one is a choice
		}})
	slit, apart, count := string(ws.HoleSlit), string(ws.HoleSpacing), string(ws.HoleCount)
	slips(k,
		slip{slit, "the ease was left out", "{hook thickness}"},
		slip{slit, "the ease was added twice", "{hook thickness} + 2 × {hole ease}"},
		slip{apart, "it was divided by the number of holes; there is one space fewer", "{hole span} ÷ {holes}"},
		slip{apart, "the inset was left out", "{hole width} ÷ ({holes} - 1)"},
		slip{apart, "the inset was taken off once, not twice", "({hole width} - {from side}) ÷ ({holes} - 1)"},
		slip{apart, "the inset was left out, and it was divided by the holes", "{hole width} ÷ {holes}"},
		slip{count, "the spaces were counted instead of the holes; there is one more hole", "{holes} - 1"},
		slip{count, "one too many was counted", "{holes} + 1"})
}

// fromSide is the stated inset of the first hole; where none is stated, or it is past
// the middle, the one that count and spacing leave, if that is about what it usually
// is, or else the usual one.
func fromSide(it *ws.Item) (ws.Result, bool) {
	width := it.Length("hole width")
	if width <= 0 {
		return ws.Result{}, false
	}
	h := &it.Order.Holes
	inset := insetOf(it, h, width)
	if width-2*inset <= 0 && h.FromSide.Set {
		inset = insetOf(it, &order.Holes{Count: h.Count, Spacing: h.Spacing}, width)
	}
	return ws.Result{Value: ws.LengthOf(inset)}, width-2*inset > 0
}

// insetPast is the inset that should be where the stated one is past the middle.
func insetPast(it *ws.Item) (ws.Result, bool) {
	stated := it.Order.Holes.FromSide
	return ws.Result{Value: ws.LengthOf(it.Length("from side")), Source: it.Sheet.Tables.SelfSource("from_side")},
		it.Has("from side") && stated.Set && it.Length("hole width")-2*stated.Value <= 0
}

func insetOf(it *ws.Item, h *order.Holes, width length.Length) length.Length {
	usual := it.Sheet.Tables.House.FromSide
	if h.FromSide.Set {
		return h.FromSide.Value
	}
	if h.Count.Set && h.Spacing.Set && h.Count.Value >= 2 {
		if ws.Near(h.Spacing.Value, (width-2*usual).Div(h.Count.Value-1, length.Nearest), it.Step()) {
			return usual // as far as the spacing can be written
		}
		if left := (width - h.Spacing.Value.Mul(h.Count.Value-1)).Div(2, length.Nearest); left > 0 && left < usual*3/2 {
			return left
		}
	}
	return usual
}

// holeCount is how many holes a span takes at the stated spacing, or else at the
// shop's pitch; for an eyelet heading the nearest even one, and of two as near the
// less.
func holeCount(it *ws.Item) (ws.Result, bool) {
	span, inset, pitch := it.Length("hole span"), it.Length("from side"), it.Sheet.Tables.House.Pitch
	if pitch <= 0 {
		return ws.Result{}, false
	}
	src := holeSource
	if it.Heading != nil {
		src = eyeletSource
	}
	even := func(by length.Length) int64 {
		if it.Heading == nil {
			return length.RatioOf(span, by).Int(length.Nearest) + 1
		}
		return 2*max(0, length.CeilDiv(span-2*by, 2*by)) + 2
	}
	by, name, count := pitch, "usual spacing", int64(0)
	if s := it.Order.Holes.Spacing; s.Set && worksFrom(s.Value, pitch) {
		if by, name, count = s.Value, "spacing", fitting(it, span, s.Value); count < 2 {
			count = even(by)
		}
	} else {
		count = even(by)
		if s.Set && s.Value > 0 && fitting(it, span, s.Value) == count {
			by, name = s.Value, "spacing"
		}
	}
	count = max(2, count)
	formula := "rounded (({width} - 2 × {from side}) ÷ {" + name + "}) + 1"
	if length.RatioOf(span, by).Int(length.Nearest)+1 != count {
		formula += ", made even"
	}
	return ws.Result{Value: ws.CountOf(count), Source: src, Formula: formula,
		Terms: []ws.Term{ws.LengthTerm("width", span+2*inset), ws.LengthTerm("from side", inset), ws.LengthTerm(name, by)}}, true
}

// worksFrom reports whether a stated spacing is one that a count can be worked
// from: it is not out of all proportion to the pitch.
func worksFrom(spacing, pitch length.Length) bool { return spacing >= pitch/2 && spacing < pitch*2 }

// fitting is how many holes a spacing puts on a span, or 0 where they don't come out
// within half a step a space.
func fitting(it *ws.Item, span, spacing length.Length) int64 {
	if spacing <= 0 || spacing > span {
		return 0
	}
	n := length.RatioOf(span, spacing).Int(length.Nearest)
	if d := spacing.Mul(n) - span; max(d, -d) > it.Step().Mul(n)/2 {
		return 0
	}
	return n + 1
}

// mostHoles is more than anybody punches along an edge.
const mostHoles = 10_000

// punch settles where the holes are.
func punch(it *ws.Item) {
	span, count := it.Length("hole span"), it.Count(string(ws.HoleCount))
	if span <= 0 || count < 1 {
		return
	}
	it.Holes = make([]length.Length, 0, min(count, mostHoles))
	for i := range min(count, mostHoles) {
		at, _ := length.MulDiv(int64(span), i, count-1, length.Nearest)
		it.Holes = append(it.Holes, it.Length("from side")+length.Length(at))
	}
}

// oddHoles is what speaks against holes as they are worked out.
var oddHoles = []ws.Unlikely{
	{What: "a spacing that is not the usual one", Cost: 150, Is: func(it *ws.Item) bool {
		house, l := &it.Sheet.Tables.House, it.Length(string(ws.HoleSpacing))
		off := l - house.Pitch
		return it.Heading == nil && l != 0 && max(off, -off) > house.PitchSlack
	}},
	{What: "a hole on a join", Cost: 250, Is: func(it *ws.Item) bool {
		h := &it.Order.Holes
		reach := max(h.Flange.Value, h.Bore.Value).Div(2, length.Up)
		for _, hole := range it.Holes {
			for _, join := range it.Joined {
				if ws.Near(hole, join, reach) {
					return true
				}
			}
		}
		return false
	}},
}
