package worksheet

import (
	"slices"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/order"
)

// mostMisread is how many misread choices of one item are looked for.
const mostMisread = 4

// explain finds how each wrong outcome came about, puts together those that are
// one mistake, and looks for misread choices behind them, item by item.
func (s *Sheet) explain() {
	if len(s.Wrong) == 0 {
		return
	}
	s.slips()
	var items []int
	for i := range s.Wrong {
		item := s.Wrong[i].Quantity.Item
		if item >= 0 && !slices.Contains(items, item) {
			items = append(items, item)
		}
	}
	if slices.ContainsFunc(items, func(item int) bool { return s.suspects(item) != nil }) {
		// A choice is changed in a copy: who reads the order again finds it as it was.
		o := *s.Order
		o.Items, o.Cloths, o.Measured = slices.Clone(o.Items), slices.Clone(o.Cloths), slices.Clone(o.Measured)
		mine := work(&o, s.Tables)
		mine.slips()
		for _, item := range items {
			for range mostMisread {
				m := mine.misread(item)
				if m == nil {
					break
				}
				m.choice.take(m.corrected)
				again := work(&o, s.Tables)
				again.Misread = append(mine.Misread, *m)
				again.slips()
				mine = again
			}
		}
		if len(mine.Misread) > 0 {
			*s = *mine
		}
	}
	s.Wrong = (&worker{Sheet: s}).together(s.Wrong)
}

// slips finds the slip that explains each wrong outcome.
func (s *Sheet) slips() {
	w := &worker{Sheet: s}
	for i := range s.Wrong {
		s.Wrong[i].Slip = w.slipOf(&s.Wrong[i])
	}
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
			if same || follows || turned(y, &x) {
				y.Also = append(y.Also, Also{x.Node, x.Corrected})
				continue next
			}
		}
		out = append(out, x)
	}
	return out
}

// turned reports whether y is the width of a cut and x its length, and each says
// what the other should.
func turned(y, x *Wrong) bool {
	return y.Quantity.Name == CutWidth && y.piece != nil && y.piece == x.piece && x.Quantity == y.piece.Length &&
		y.Slip != nil && y.Slip.Name == sidesSwapped && near(x.Stated.Length(), y.right.Length(), length.Millimetre)
}

// A choice is a number on the form that outcomes are worked from.
type choice struct {
	name    string
	node    *order.Node
	length  *order.Length
	count   *order.Count
	ratio   *order.Ratio
	percent *order.Percent
	other   *order.Node // of the size that it may be swapped with; nil for none
	small   bool        // a hem, an allowance or the like, not a size
}

// value is what a choice says.
func (c choice) value() Value {
	switch {
	case c.length != nil:
		return LengthOf(c.length.Value)
	case c.count != nil:
		return CountOf(c.count.Value)
	case c.ratio != nil:
		return RatioOf(c.ratio.Value)
	}
	return PercentOf(c.percent.Value)
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
	default:
		c.percent.Value = v.R
	}
}

// misread looks for the one choice that, written as another value, makes two or
// more of an item's wrong outcomes right and no other wrong: fewer changes than
// mending each. One outcome is enough where no slip explains it and one that is
// seldom met by chance explains the choice. Of several such choices the one that a known
// slip explains is taken, else the first in the order of choices. Two outcomes
// that one slip of their own explains are no sign of a misread choice.
//
// The order is worked out anew for every guess: the item by itself first, and
// all of it where the guess still stands then.
func (s *Sheet) misread(item int) *Misread {
	wrong := s.suspects(item)
	if wrong == nil {
		return nil
	}
	cloths := s.Order.Items[item].ClothNames()
	bought := slices.ContainsFunc(wrong, func(x Wrong) bool { return x.Quantity.Item < 0 })
	alone := *s.Order
	alone.Items, alone.Flaws = s.Order.Items[item:item+1], nil // what is changed in the one is changed in the other
	single := work(&alone, s.Tables)
	known := map[*order.Node]bool{}
	for i := range single.Wrong {
		known[single.Wrong[i].Node] = true
	}
	var best *Misread
	for _, c := range single.choices(cloths[:]) {
		if s.Doubted(c.node) {
			continue
		}
		kept := c.value()
		if !single.moves(c, kept, wrong) {
			continue
		}
		for _, g := range single.guesses(c, wrong) {
			c.take(g.value)
			var m *Misread
			if n := single.mends(wrong, known); n > 1 || n == 1 && (bought || g.slip.sure()) {
				m = s.clears(c, g, kept, wrong)
			}
			c.take(kept)
			if m == nil {
				continue
			}
			better := best == nil || len(m.Agree) > len(best.Agree) ||
				len(m.Agree) == len(best.Agree) && m.Slip.tells() > best.Slip.tells()
			if better {
				best = m
			}
		}
	}
	return best
}

// moves reports whether any wrong outcome of the item goes with a choice at all,
// by steps or in a straight line: much more of it makes it another, or it can't be
// worked out any more. Most choices have nothing to do with what is wrong.
func (s *Sheet) moves(c choice, kept Value, wrong []Wrong) bool {
	more := kept
	switch {
	case c.percent != nil:
		more.R = kept.R.Mul(length.NewRatio(1, 2))
	case kept.Sort == Ratio:
		more.R = kept.R.Mul(length.NewRatio(3, 1))
	default:
		more.N = 3*kept.N + 1
	}
	c.take(more)
	probe := work(s.Order, s.Tables)
	c.take(kept)
	for i := range wrong {
		x := &wrong[i]
		if q := probe.same(x.Quantity); x.Quantity.Item < 0 || q == nil || q.Value != x.Quantity.Value {
			return true
		}
	}
	return false
}

// suspects are the wrong outcomes of an item and its cloths where a misread choice
// may be behind them; nil where there are none, or where they are one mistake that
// a slip of its own explains.
func (s *Sheet) suspects(item int) (wrong []Wrong) {
	cloths := s.Order.Items[item].ClothNames()
	for _, x := range s.Wrong {
		if x.Quantity.Item == item || x.Quantity.Item < 0 && slices.Contains(cloths[:], x.Quantity.Of) {
			wrong = append(wrong, x)
		}
	}
	if one := (&worker{Sheet: s}).together(wrong); len(one) == 1 && one[0].Slip != nil {
		return nil
	}
	return wrong
}

// mends is how many of an item's wrong outcomes are right in the sheet of that
// item, as it now is; 0 where another one is wrong that was not.
func (s *Sheet) mends(wrong []Wrong, known map[*order.Node]bool) (n int) {
	again := work(s.Order, s.Tables)
	still := make(map[*order.Node]bool, len(again.Wrong))
	for i := range again.Wrong {
		if x := &again.Wrong[i]; x.Quantity.Item >= 0 {
			if !known[x.Node] {
				return 0
			}
			still[x.Node] = true
		}
	}
	for i := range wrong {
		x := &wrong[i]
		if x.Quantity.Item >= 0 && !still[x.Node] && slices.ContainsFunc(again.Stated, func(of Stated) bool { return of.Node == x.Node }) {
			n++
		}
	}
	return n
}

// clears works the order out with a choice changed to a guess, and reports what
// that mends.
func (s *Sheet) clears(c choice, g guess, kept Value, wrong []Wrong) *Misread {
	again := work(s.Order, s.Tables)
	still, compared := map[*order.Node]bool{}, map[*order.Node]bool{}
	for i := range again.Wrong {
		still[again.Wrong[i].Node] = true
	}
	for i := range again.Stated {
		compared[again.Stated[i].Node] = true
	}
	m := &Misread{Name: c.name, At: c.node.At, Node: c.node, Stated: kept, choice: c, corrected: g.value}
	bought := 0
	for _, x := range s.Wrong {
		switch {
		case still[x.Node]:
			delete(still, x.Node)
		case compared[x.Node]:
			m.Agree = append(m.Agree, x)
			if x.Quantity.Item < 0 {
				bought++ // more than enough is as right
			}
		case slices.ContainsFunc(wrong, func(y Wrong) bool { return y.Node == x.Node }):
			return nil // what can't be worked out any more is not right for that
		}
	}
	if len(still) > 0 || len(m.Agree) == bought {
		return nil
	}
	m.Corrected = s.printChoice(c, g.value)
	m.Slip = g.slip
	fine := slices.ContainsFunc(m.Agree, func(x Wrong) bool { return x.Quantity.Item >= 0 && x.Stated.Sort == Length })
	if g.odd && g.slip.Name != lostSpace && !fine {
		return nil // many a number gives the same count
	}
	if len(m.Agree) == 1 && (m.Agree[0].Slip != nil || !m.Slip.sure() || !c.likely(m.Slip, kept, g.value)) ||
		!fine && len((&worker{Sheet: s}).together(m.Agree)) == 1 {
		return nil
	}
	return m
}

// likely reports whether a slip that is sure may have made what a choice says of a
// value that it can well have: a hem or an allowance whose decimal place is wrong
// is too much, not too little. Inches and centimetres are too near for one outcome
// to tell.
func (c choice) likely(slip *Slip, stated, meant Value) bool {
	switch {
	case slip.Name == inchesForCentimetres:
		return false
	case slip.Name == strayWhole:
		return strings.Contains(c.node.Text, "/")
	case slip.Name == feetForInches:
		return strings.ContainsAny(c.node.Text, "ft'n\"") // with its unit
	case slip.Name != decimalPlace:
		return true
	case c.percent != nil:
		return meant.R.Cmp(stated.R) < 0 && meant.R.Cmp(length.NewRatio(1, 100)) >= 0
	}
	return !c.small || meant.N < stated.N && meant.Length() >= length.Centimetre
}

// printChoice writes a choice's value in the manner that it is written in.
func (s *Sheet) printChoice(c choice, v Value) string {
	switch {
	case c.length != nil:
		return s.lengthStyle(c.node).Print(v.Length(), length.Nearest)
	case c.ratio != nil:
		return ratioLike(c.node.Text, v.R)
	case c.percent != nil:
		return ratioLike(c.node.Text, v.R.Mul(length.NewRatio(100, 1))) + strings.TrimLeft(c.node.Text, "0123456789.,/ ")
	}
	return v.Format(s.Unit, length.Nearest)
}

// tells is how well a slip explains a number: 0 for one that a wrong number often
// looks like by chance, as half or double of a hem is just another hem.
func (s *Slip) tells() int {
	switch {
	case s.sure():
		return 2
	case s != nil && s.Name != countedTwice && s.Name != halved:
		return 1
	}
	return 0
}

// sure reports whether a slip explains a choice well enough for one outcome to
// tell.
func (s *Slip) sure() bool {
	if s == nil {
		return false
	}
	switch s.Name {
	case decimalPlace, digitsTurned, inchesForCentimetres, strayWhole, lostSpace, sidesSwapped, feetForInches:
		return true
	}
	return false
}

// choices are the numbers that one item is worked from, its own and those of its
// cloths, sizes first.
func (s *Sheet) choices(cloths []string) (list []choice) {
	add := func(c choice) {
		if c.node != nil {
			list = append(list, c)
		}
	}
	addLength := func(name string, l *order.Length) {
		if l.Set {
			add(choice{name: name, node: l.Node, length: l})
		}
	}
	addSmall := func(name string, l *order.Length) {
		if l.Set {
			add(choice{name: name, node: l.Node, length: l, small: true})
		}
	}
	addCount := func(name string, n *order.Count) {
		if n.Set {
			add(choice{name: name, node: n.Node, count: n})
		}
	}
	addPercent := func(name string, p, other *order.Percent) {
		if p.Set {
			add(choice{name: name, node: p.Node, percent: p, other: other.Node})
		}
	}
	o := s.Items[0].Order
	if size := &o.Finished; size.Width.Set && !o.Track.Width.Set {
		add(choice{name: "finished width", node: size.Width.Node, length: &size.Width, other: size.Length.Node})
	}
	addLength("track width", &o.Track.Width)
	if size := &o.Finished; size.Length.Set && !o.Hang.To.Set {
		add(choice{name: "finished length", node: size.Length.Node, length: &size.Length, other: size.Width.Node})
	}
	addLength("height above the floor", &o.Track.AboveFloor)
	addLength("height above the sill", &o.Track.AboveSill)
	if f := &o.Heading.Fullness; f.Set {
		add(choice{name: "fullness", node: f.Node, ratio: f})
	}
	addSmall("heading allowance", &o.Heading.Allowance)
	hems := [...]struct {
		name string
		hem  *order.Hem
	}{{"bottom hem's", &o.Hems.Bottom}, {"top hem's", &o.Hems.Top}, {"side hems'", &o.Hems.Sides}}
	for _, h := range hems {
		addSmall(h.name+" turn", &h.hem.Turn)
		addSmall(h.name+" first turn", &h.hem.First)
	}
	for _, h := range hems {
		addCount(h.name+" folds", &h.hem.Folds)
	}
	addSmall("seam allowance", &o.Join.Allowance)
	addSmall("return", &o.Track.Return)
	addSmall("overlap", &o.Track.Overlap)
	addSmall("clearance", &o.Hang.Clearance)
	addSmall("hook drop", &o.Heading.HookDrop)
	addSmall("lining's hem", &o.Lining.Hem.Turn)
	addSmall("lining's shortening", &o.Lining.Shorter)
	addCount("panels", &o.Panels)
	addCount("quantity", &o.Quantity)
	for i := range s.Order.Cloths {
		if c := &s.Order.Cloths[i]; slices.Contains(cloths, c.Name) {
			addLength("cloth width", &c.Of.Width)
			addLength("repeat", &c.Of.Repeat.Length)
			addPercent("shrinkage in length", &c.Of.Shrinks.Length, &c.Of.Shrinks.Width)
			addPercent("shrinkage in width", &c.Of.Shrinks.Width, &c.Of.Shrinks.Length)
		}
	}
	for i := range s.Order.Measured {
		if m := &s.Order.Measured[i]; slices.Contains(cloths, m.Name) {
			addLength("measured width", &m.Of.Width)
			addLength("measured repeat", &m.Of.Repeat.Length)
		}
	}
	return list
}

// A guess is another value that a choice may have been meant to have.
type guess struct {
	value Value
	slip  *Slip // how it came to be written as it is; nil where no known slip tells
	odd   bool  // it is one for that slip only
}

// guesses are the values of a choice that would make a wrong outcome right, and
// those that slips of writing a number down would have made what it says.
func (s *Sheet) guesses(c choice, wrong []Wrong) (list []guess) {
	kept := c.value()
	add := func(v Value, slip string) {
		if v.Sort == Length && v.N <= 0 || v.Sort != Length && v.Sort != Count && v.R.Num <= 0 || sameValue(v, kept, s.Unit) {
			return
		}
		g := guess{value: v, odd: slip != ""}
		if g.odd {
			g.slip = &Slip{Name: slip}
		} else {
			x := Wrong{Quantity: &Quantity{Name: Name(c.name)}, Node: c.node, Stated: kept, right: v}
			g.slip = (&worker{Sheet: s}).genericSlip(&x)
		}
		if i := slices.IndexFunc(list, func(had guess) bool { return had.value == v }); i < 0 {
			list = append(list, g)
		} else if g.slip.tells() > list[i].slip.tells() {
			list[i].slip = g.slip
		}
	}
	switch {
	case c.length != nil:
		style := s.lengthStyle(c.node)
		step := length.Step(style.Unit())
		c.length.Value += probeBy
		probe := work(s.Order, s.Tables)
		c.length.Value -= probeBy
		for i := range wrong {
			if v, ok := solve(kept.Length(), probe, &wrong[i]); ok {
				add(LengthOf(v.Round(step, length.Nearest)), "")
			}
			if i == 7 {
				break
			}
		}
	case c.count != nil:
		for _, d := range [...]int64{-1, 1, -2, 2} {
			if v := kept.N + d; v >= 1 {
				add(CountOf(v), "")
			}
		}
		return list
	case c.ratio != nil:
		if v, ok := s.solveRatio(c, wrong); ok {
			add(RatioOf(v), "")
		}
	}
	for _, m := range misspellings(c.node.Text) {
		if v, ok := s.readAs(c, m.text); ok {
			add(v, m.slip)
		}
	}
	if c.other != nil {
		if v, ok := s.readAs(c, c.other.Text); ok {
			add(v, sidesSwapped)
		}
	}
	switch {
	case c.length != nil:
		style := s.lengthStyle(c.node)
		step := length.Step(style.Unit())
		times := func(num, den int64, slip string) {
			v := kept.Length().MulRatio(length.NewRatio(num, den), length.Nearest)
			if right := v.Round(step, length.Nearest); right == v || slip == inchesForCentimetres {
				add(LengthOf(right), slip)
			}
		}
		if !strings.Contains(c.node.Text, "/") {
			times(10, 1, decimalPlace)
			times(1, 10, decimalPlace)
			times(100, 1, decimalPlace)
			times(1, 100, decimalPlace)
		}
		times(100, 254, inchesForCentimetres)
		times(254, 100, inchesForCentimetres)
		if !style.Unit().Metric() {
			times(12, 1, feetForInches)
			times(1, 12, feetForInches)
		}
	case c.percent != nil:
		for _, f := range [...]length.Ratio{{Num: 10, Den: 1}, {Num: 1, Den: 10}} {
			if v := c.percent.Value.Mul(f); v.Cmp(one) < 0 {
				add(PercentOf(v), decimalPlace)
			}
		}
	}
	return list
}

// readAs is a text as a choice's value.
func (s *Sheet) readAs(c choice, text string) (Value, bool) {
	switch {
	case c.length != nil:
		l, _, err := length.Parse(text, s.bare(c.node))
		return LengthOf(l), err == nil
	case c.ratio != nil:
		r, err := length.ParseRatio(text)
		return RatioOf(r), err == nil
	case c.percent != nil:
		r, err := length.ParsePercent(text)
		return PercentOf(r), err == nil && r.Cmp(one) < 0
	}
	return Value{}, false
}

// A misspelling is a text that may have been meant by another one.
type misspelling struct{ text, slip string }

// misspellings are the texts that a text was meant to be, if two of its digits
// were swapped, the space before its fraction was lost or a stray whole number
// stands before that.
func misspellings(text string) (list []misspelling) {
	b := []byte(text)
	digit := func(i int) bool { return i >= 0 && i < len(b) && '0' <= b[i] && b[i] <= '9' }
	slash := strings.IndexByte(text, '/')
	for i := 0; slash < 0 && i+1 < len(b); i++ {
		if digit(i) && digit(i+1) && b[i] != b[i+1] && (b[i+1] != '0' || digit(i-1)) {
			b[i], b[i+1] = b[i+1], b[i]
			list = append(list, misspelling{string(b), digitsTurned})
			b[i], b[i+1] = b[i+1], b[i]
		}
	}
	if slash < 0 {
		return list
	}
	from := slash
	for digit(from - 1) {
		from--
	}
	for i := from + 1; i < slash; i++ {
		list = append(list, misspelling{text[:i] + " " + text[i:], lostSpace})
	}
	if from > 1 && text[from-1] == ' ' && digit(from-2) {
		list = append(list, misspelling{text[from:], strayWhole})
	}
	return list
}

// probeBy is how far a length is moved to see what goes with it.
const probeBy = length.Centimetre

// solve finds the value of a length, now kept, that would make a wrong length
// right, if the one goes with the other in a straight line. The probe is the
// order worked out with the length moved.
func solve(kept length.Length, probe *Sheet, x *Wrong) (length.Length, bool) {
	moved := probe.same(x.Quantity)
	if x.Stated.Sort != Length || moved == nil || moved.Value.Sort != Length {
		return 0, false
	}
	slope := moved.Value.Length() - x.Quantity.Value.Length()
	if slope == 0 {
		return 0, false
	}
	off := x.Stated.Length() - x.right.Length()
	d, ok := length.MulDiv(int64(off), int64(probeBy), int64(slope), length.Nearest)
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
		moved := work(s.Order, s.Tables).same(x.Quantity)
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

// same is the quantity of this sheet, of one item, that q is of another.
func (s *Sheet) same(q *Quantity) *Quantity {
	for _, r := range s.All {
		if r.Name == q.Name && r.Of == q.Of && r.Item >= 0 && q.Item >= 0 {
			return r
		}
	}
	return nil
}
