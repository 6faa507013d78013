package worksheet

import (
	"slices"

	"cutgate/internal/length"
	"cutgate/internal/order"
)

// explain finds how each wrong outcome came about, puts together those that are
// one mistake, and looks for a misread choice behind several.
func (s *Sheet) explain() {
	if len(s.Wrong) == 0 {
		return
	}
	w := &worker{Sheet: s}
	for i := range s.Wrong {
		s.Wrong[i].Slip = w.slipOf(&s.Wrong[i])
	}
	leaves := len(s.Wrong)
	before := slices.Clone(s.Wrong)
	s.Wrong = w.together(s.Wrong)
	if leaves < 2 || len(s.Wrong) == 1 && s.Wrong[0].Slip != nil {
		return
	}
	s.misread(before)
}

// together puts one mistake's places together: the same wrong value of one
// quantity written down several times, and a count of pieces that follows from
// wrong widths.
func (w *worker) together(list []Wrong) []Wrong {
	out := list[:0:0]
next:
	for _, x := range list {
		for i := range out {
			y := &out[i]
			same := x.Quantity == y.Quantity && x.Stated == y.Stated
			follows := y.Quantity.Name == Widths && x.Quantity.Name == PieceCount && x.Quantity.Item == y.Quantity.Item &&
				(x.Quantity.Of == "width" || x.Quantity.Of == "piece") && y.Stated.R.Int(length.Up) == x.Stated.N
			if same || follows {
				y.Also = append(y.Also, Also{x.Node, x.Corrected})
				continue next
			}
		}
		out = append(out, x)
	}
	return out
}

// A choice is a number on the form that outcomes are worked from.
type choice struct {
	name   string
	length *order.Length
	count  *order.Count
	ratio  *order.Ratio
}

// misread looks for the one choice that, written as another value, makes two or
// more of the wrong outcomes right and no other wrong: fewer changes than
// mending each. The order is then worked out anew with that value, so that the
// typed order has it too. Of several such the one that a known slip explains is taken,
// else the first in the order of choices.
func (s *Sheet) misread(wrong []Wrong) {
	// A choice is changed in a copy: who reads the order again finds it as it was.
	o := *s.Order
	o.Items, o.Cloths = slices.Clone(o.Items), slices.Clone(o.Cloths)
	mine := work(&o, s.Tables)
	var best *Misread
	for _, c := range mine.choices(wrong) {
		m := mine.try(c, wrong)
		if m == nil {
			continue
		}
		better := best == nil || len(m.Agree) > len(best.Agree) ||
			len(m.Agree) == len(best.Agree) && m.Slip.telling() && !best.Slip.telling()
		if better {
			best = m
		}
	}
	if best == nil {
		return
	}
	best.choice.take(best.corrected)
	again := work(&o, s.Tables)
	again.Misread = append(s.Misread, *best)
	*s = *again
	w := &worker{Sheet: s}
	for i := range s.Wrong {
		s.Wrong[i].Slip = w.slipOf(&s.Wrong[i])
	}
	s.Wrong = w.together(s.Wrong)
}

// take makes a choice say v.
func (c choice) take(v Value) {
	switch {
	case c.length != nil:
		c.length.Value = v.Length()
	case c.count != nil:
		c.count.Value = v.N
	case c.ratio != nil:
		c.ratio.Value = v.R
	}
}

// telling reports whether a slip is one that a wrong number seldom looks like by
// chance. Half or double of a hem often is just another hem.
func (s *Slip) telling() bool { return s != nil && s.Name != countedTwice && s.Name != halved }

// choices are the numbers of the items and cloths with wrong outcomes, sizes
// first.
func (s *Sheet) choices(wrong []Wrong) (list []choice) {
	items := map[int]bool{}
	for i := range wrong {
		items[wrong[i].Quantity.Item] = true
	}
	addLength := func(name string, l *order.Length) {
		if l.Set && l.Node != nil {
			list = append(list, choice{name: name, length: l})
		}
	}
	addCount := func(name string, n *order.Count) {
		if n.Set && n.Node != nil {
			list = append(list, choice{name: name, count: n})
		}
	}
	for i := range s.Items {
		if !items[i] {
			continue
		}
		o := s.Items[i].Order
		if !o.Track.Width.Set {
			addLength("finished width", &o.Finished.Width)
		}
		addLength("track width", &o.Track.Width)
		if !o.Hang.To.Set {
			addLength("finished length", &o.Finished.Length)
		}
		addLength("height above the floor", &o.Track.AboveFloor)
		addLength("height above the sill", &o.Track.AboveSill)
		if f := &o.Heading.Fullness; f.Set && f.Node != nil {
			list = append(list, choice{name: "fullness", ratio: f})
		}
		addLength("heading allowance", &o.Heading.Allowance)
		addLength("bottom hem's turn", &o.Hems.Bottom.Turn)
		addLength("top hem's turn", &o.Hems.Top.Turn)
		addLength("side hems' turn", &o.Hems.Sides.Turn)
		addCount("bottom hem's folds", &o.Hems.Bottom.Folds)
		addCount("top hem's folds", &o.Hems.Top.Folds)
		addCount("side hems' folds", &o.Hems.Sides.Folds)
		addLength("seam allowance", &o.Join.Allowance)
		addLength("return", &o.Track.Return)
		addLength("overlap", &o.Track.Overlap)
		addLength("clearance", &o.Hang.Clearance)
		addLength("hook drop", &o.Heading.HookDrop)
		addLength("lining's hem", &o.Lining.Hem.Turn)
		addLength("lining's shortening", &o.Lining.Shorter)
		addCount("panels", &o.Panels)
		addCount("quantity", &o.Quantity)
	}
	for i := range s.Order.Cloths {
		c := &s.Order.Cloths[i].Of
		addLength("cloth width", &c.Width)
		addLength("repeat", &c.Repeat.Length)
	}
	return list
}

// try looks for another value of a choice that clears wrong outcomes. It leaves
// the choice as it was.
func (s *Sheet) try(c choice, wrong []Wrong) *Misread {
	switch {
	case c.length != nil:
		kept := c.length.Value
		defer func() { c.length.Value = kept }()
		style := s.lengthStyle(c.length.Node)
		for i := range wrong {
			v, ok := s.solve(c, &wrong[i])
			if !ok || v <= 0 || near(v, kept, length.Step(style.Unit())) {
				continue
			}
			c.length.Value = v.Round(length.Step(style.Unit()), length.Nearest)
			if m := s.clears(c, wrong, LengthOf(kept), LengthOf(c.length.Value)); m != nil {
				m.At, m.Node, m.Corrected = c.length.At, c.length.Node, style.Print(c.length.Value, length.Nearest)
				return m
			}
			c.length.Value = kept
		}
	case c.count != nil:
		kept := c.count.Value
		defer func() { c.count.Value = kept }()
		for _, v := range []int64{kept - 1, kept + 1, kept - 2, kept + 2} {
			if v < 1 {
				continue
			}
			c.count.Value = v
			if m := s.clears(c, wrong, CountOf(kept), CountOf(v)); m != nil {
				m.At, m.Node, m.Corrected = c.count.At, c.count.Node, CountOf(v).Format(s.Unit, length.Nearest)
				return m
			}
		}
	case c.ratio != nil:
		kept := c.ratio.Value
		defer func() { c.ratio.Value = kept }()
		v, ok := s.solveRatio(c, wrong)
		if !ok || v.Num <= 0 || v.Cmp(kept) == 0 {
			return nil
		}
		c.ratio.Value = v
		if m := s.clears(c, wrong, RatioOf(kept), RatioOf(v)); m != nil {
			m.At, m.Node, m.Corrected = c.ratio.At, c.ratio.Node, ratioLike(c.ratio.Node.Text, v)
			return m
		}
	}
	return nil
}

// clears works the order out with the choice changed, and reports what that
// mends: at least two outcomes, and it may make none wrong.
func (s *Sheet) clears(c choice, wrong []Wrong, stated, corrected Value) *Misread {
	again := work(s.Order, s.Tables)
	still, compared := map[*order.Node]bool{}, map[*order.Node]bool{}
	for i := range again.Wrong {
		still[again.Wrong[i].Node] = true
	}
	for i := range again.Stated {
		compared[again.Stated[i].Node] = true
	}
	m := &Misread{Name: c.name, Stated: stated, choice: c, corrected: corrected}
	for _, x := range wrong {
		switch {
		case still[x.Node]:
			delete(still, x.Node)
		case compared[x.Node]:
			m.Agree = append(m.Agree, x)
		default:
			return nil // what can't be worked out any more is not right for that
		}
	}
	if len(still) > 0 || len(m.Agree) < 2 {
		return nil
	}
	node := func() *order.Node {
		switch {
		case c.length != nil:
			return c.length.Node
		case c.count != nil:
			return c.count.Node
		}
		return c.ratio.Node
	}()
	x := Wrong{Quantity: &Quantity{Name: Name(c.name), Item: m.Agree[0].Quantity.Item}, Node: node, Stated: stated, right: corrected}
	m.Slip = (&worker{Sheet: s}).genericSlip(&x)
	return m
}

// solve finds the value of a length that would make a wrong length right, if
// the one goes with the other in a straight line.
func (s *Sheet) solve(c choice, x *Wrong) (length.Length, bool) {
	if x.Stated.Sort != Length {
		return 0, false
	}
	const by = length.Centimetre
	kept := c.length.Value
	c.length.Value = kept + by
	moved := s.quantityAgain(x.Quantity)
	c.length.Value = kept
	if moved == nil || moved.Value.Sort != Length {
		return 0, false
	}
	slope := moved.Value.Length() - x.Quantity.Value.Length()
	if slope == 0 {
		return 0, false
	}
	off := x.Stated.Length() - x.right.Length()
	d, ok := length.MulDiv(int64(off), int64(by), int64(slope), length.Nearest)
	return kept + length.Length(d), ok
}

// solveRatio does the same for a fullness, from the flat width that it gives.
func (s *Sheet) solveRatio(c choice, wrong []Wrong) (length.Ratio, bool) {
	for i := range wrong {
		x := &wrong[i]
		if x.Quantity.Name != FlatWidth {
			continue
		}
		kept := c.ratio.Value
		c.ratio.Value = kept.Add(one)
		moved := s.quantityAgain(x.Quantity)
		c.ratio.Value = kept
		if moved == nil || moved.Value.Length() == x.Quantity.Value.Length() {
			return length.Ratio{}, false
		}
		d := length.RatioOf(x.Stated.Length()-x.right.Length(), moved.Value.Length()-x.Quantity.Value.Length())
		v := kept.Add(d)
		return length.NewRatio(v.Mul(length.NewRatio(100, 1)).Int(length.Nearest), 100), true
	}
	return length.Ratio{}, false
}

// quantityAgain is the same quantity in the order as it now stands.
func (s *Sheet) quantityAgain(q *Quantity) *Quantity {
	for _, r := range work(s.Order, s.Tables).All {
		if r.Name == q.Name && r.Of == q.Of && r.Item == q.Item {
			return r
		}
	}
	return nil
}
