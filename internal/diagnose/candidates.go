package diagnose

import (
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
	"cutgate/internal/worksheet"
)

// candidates are other values that a choice may have been meant to have, each with
// what it costs, at most so much: from slips of writing what stands there, and from what
// would make a contradicted outcome right. Start is the order worked out with h.
func (p *problem) candidates(h hypothesis, start *trial, choice int, wrong []int, most float64) []edit {
	c := &p.choices[choice]
	if isWord(c) {
		return p.otherWords(h, choice, wrong, most)
	}
	w := p.writerAt(choice)
	base := p.baseOf(choice)
	clear(p.seen)
	p.found = p.found[:0]
	var near func(x float64) bool // whether a value may make an outcome right; nil where any may
	consider := func(m *meaning) {
		apart := near != nil && !near(m.x) // it takes another mistake to make anything right
		if apart && p.priors[choice] < oddEnough {
			return
		}
		if p.seen[m.value] {
			return
		}
		p.seen[m.value] = true
		if !m.weighed {
			m.weighed, m.prior = true, p.prior(choice, m.value)
		}
		change := base + m.prior - p.priors[choice]
		if change+cheapest > most {
			return
		}
		if !m.told {
			m.tell(w, c)
		}
		b := m.blunder
		switch {
		case m.finer, !m.slip && apart:
			return
		case !m.slip:
			b = blunder{cost: otherChoice + p.stray(c.Node, p.usual[choice].own, c.Value, m.value)}
		}
		if e := (edit{choice: choice, value: m.value, cost: change + b.cost, slip: b}); e.cost <= most {
			p.found = append(p.found, e)
		}
	}
	add := func(v worksheet.Value) {
		if mayMean(c, v) {
			consider(&meaning{value: v, x: number(v)})
		}
	}
	if c.Value.Sort != worksheet.Count && c.Value.Sort != worksheet.Dots && len(wrong) > 0 {
		moved, stepped := false, leaps(c)
		var ways []*solving
		if !stepped {
			ways = p.solvings(h, start, choice, wrong)
		}
		var roots []root
		for k, o := range wrong {
			if !p.base.Moves(c, &p.outs[o]) {
				continue
			}
			if leaps(c) {
				p.repeats(c, o, add)
				moved = true
			}
			for _, s := range ways {
				if p.thorough {
					for _, r := range s.elsewhere(k) {
						roots = append(roots, r)
						p.snapped(c, r.x, add)
						moved = true
					}
				}
				r, how := s.solve(k)
				switch how {
				case still:
					continue
				case inSteps:
					s.stepped, stepped = true, true
					if r.x > 0 {
						p.snapped(c, r.x, add)
					}
				default:
					roots = append(roots, r)
					p.snapped(c, r.x, add)
				}
				moved = true
			}
		}
		if !moved {
			return nil
		}
		if !stepped {
			near = func(x float64) bool {
				return slices.ContainsFunc(roots, func(r root) bool { return math.Abs(x-r.x) <= r.slack })
			}
		}
	}
	list := p.meanings(choice, w)
	for i := range list {
		consider(&list[i])
	}
	return p.kept(p.found)
}

// mayMean reports whether a value is one that a choice can be, and another than is stated.
func mayMean(c *worksheet.Choice, v worksheet.Value) bool { return sensible(c, v) && !same(v, c.Value) }

// A meaning is a value that a choice may be meant to have, whatever is contradicted.
type meaning struct {
	value         worksheet.Value
	x             float64 // it as a number
	prior         float64
	blunder       blunder
	slip, finer   bool // whether there is such a blunder; whether it is finer than it is written
	weighed, told bool // whether its prior is known, and the rest
}

// tell finds how a meaning came to be written as the choice stands.
func (m *meaning) tell(w *writer, c *worksheet.Choice) {
	m.told = true
	texts := w.texts(m.value)
	if m.finer = texts[0] == c.Node.Text; m.finer {
		return
	}
	m.blunder, m.slip = w.blunder(c.Value, m.value, texts)
	if m.slip && c.Value.Sort == worksheet.Count && (m.blunder == post || m.blunder == oneMore) {
		switch m.blunder = (blunder{name: oneOff.name, cost: 2.8}); number(c.Value) / number(m.value) {
		case 2: // a hem that is folded once is seldom said to be double
			if m.blunder.name = twice.name; c.Field == "hem.folds" || c.Field == "opening.folds" || c.Field == "closure.hem.folds" {
				m.blunder.cost = 1.4 // but one of a cover is
			}
		case 0.5:
			m.blunder = halved
		}
	}
}

// writerAt knows how numbers are written at a choice.
func (p *problem) writerAt(choice int) *writer {
	if p.writers == nil {
		p.writers, p.meant = make([]*writer, len(p.choices)), make([][]meaning, len(p.choices))
	}
	if p.writers[choice] == nil {
		c := &p.choices[choice]
		w := &writer{sheet: p.sheet, node: c.Node, unit: p.sheet.Unit, stands: c.Value, hems: p.hems(c), of: hemIn}
		if c.Value.Sort == worksheet.Length {
			w.style = p.sheet.StyleAt(c.Node)
		}
		p.writers[choice] = w
	}
	return p.writers[choice]
}

// meanings are the values that a choice may be meant to have by how it is written, and
// those that are usual, some of them more than once.
func (p *problem) meanings(choice int, w *writer) []meaning {
	if p.meant[choice] != nil {
		return p.meant[choice]
	}
	c := &p.choices[choice]
	first := len(p.meaning)
	add := func(v worksheet.Value) {
		if mayMean(c, v) {
			p.meaning = append(p.meaning, meaning{value: v, x: number(v)})
		}
	}
	p.mean(choice, w, add)
	p.meant[choice] = p.meaning[first:len(p.meaning):len(p.meaning)]
	return p.meant[choice]
}

// mean gives the values of meanings.
func (p *problem) mean(choice int, w *writer, add func(worksheet.Value)) {
	c := &p.choices[choice]
	if c.Value.Sort == worksheet.Dots {
		for n := range int64(3) {
			add(worksheet.DotsOf(n + 1))
		}
		return
	}
	decimals := c.Value.Sort != worksheet.Length || w.style.Unit().Metric()
	meant(c.Node.Text, decimals, func(text string) {
		if v, ok := p.sheet.Read(c.Node, text, c.Value.Sort); ok {
			add(v)
		}
	})
	for _, v := range p.usual[choice].own {
		add(v)
	}
	switch c.Value.Sort {
	case worksheet.Count:
		for n := c.Least; n <= c.Most; n++ {
			add(worksheet.CountOf(n))
		}
	case worksheet.Length:
		p.lengths(c, w, add)
	default:
		for _, f := range []float64{10, 0.1, 2, 0.5, 100, 0.01} {
			add(scaled(c.Value, f))
		}
		if one := length.NewRatio(1, 100); c.Value.Sort == worksheet.Percent {
			add(worksheet.PercentOf(c.Value.R.Add(one)))
			add(worksheet.PercentOf(c.Value.R.Sub(one)))
		}
	}
}

// baseOf is what it costs that a choice was written wrong, however it was.
func (p *problem) baseOf(choice int) float64 {
	c := &p.choices[choice]
	base := baseChoice
	if c.Copied {
		base += copied
	}
	if c.Term == "quantity" || c.Term == "panels" {
		base += 0.5
	}
	return base
}

func same(a, b worksheet.Value) bool { return number(a) == number(b) }

// sensible reports whether a choice can have a value at all; a cloth as narrow as a hair
// would be joined a million times.
func sensible(c *worksheet.Choice, v worksheet.Value) bool {
	switch v.Sort {
	case worksheet.Count:
		return v.N >= 1 && (c.Most == 0 || c.Least <= v.N && v.N <= c.Most)
	case worksheet.Percent:
		return v.R.Num > 0 && v.R.Cmp(length.NewRatio(1, 2)) < 0
	case worksheet.Ratio:
		return v.R.Num > 0 && v.R.Cmp(length.NewRatio(100, 1)) < 0
	}
	if v.Sort == worksheet.Length && v.N == 0 { // where there often is none
		return slices.ContainsFunc(c.Usual, func(usual string) bool { return strings.HasPrefix(usual, "0 ") })
	}
	return v.N > 0 && (v.Sort != worksheet.Length || v.Length() >= length.Millimetre/2)
}

func scaled(v worksheet.Value, f float64) worksheet.Value {
	if v.Sort == worksheet.Ratio || v.Sort == worksheet.Percent {
		r := length.NewRatio(int64(math.Round(f*100)), 100)
		v.R = v.R.Mul(r)
		return v
	}
	v.N = int64(math.Round(float64(v.N) * f))
	return v
}

// lengths are the lengths that slips of writing would have made what is stated.
func (p *problem) lengths(c *worksheet.Choice, w *writer, add func(worksheet.Value)) {
	u := w.style.Unit()
	steps := worksheet.TapeMarks(u)
	fine := steps[len(steps)-1]
	near := func(x, within float64) {
		for _, g := range steps {
			l := length.Length(math.Round(x/float64(g))) * g
			if math.Abs(float64(l)-x) <= within*1.01 {
				add(worksheet.LengthOf(l))
			}
		}
	}
	snap := func(x float64) { near(x, float64(fine)) }
	if l, _, ok := p.sheet.Unitless(c.Node); ok {
		add(worksheet.LengthOf(l))
	}
	x, half := float64(c.Value.N), lastDigit(c.Node.Text, u)/2
	if half > x/50 {
		// It was rounded when it was written, and by how much shows after it is put right.
		for _, f := range []float64{2.54, 1 / 2.54, 25.4, 1 / 25.4, 10, 2} {
			low, high := (x-half)*f, (x+half)*f
			for _, g := range steps[:len(steps)-1] {
				const most = 8
				if high-low > most*float64(g) {
					continue
				}
				for v := math.Ceil(low / float64(g)); v*float64(g) <= high; v++ {
					add(worksheet.LengthOf(length.Length(v) * g))
				}
			}
		}
	}
	for _, f := range []float64{10, 0.1, 100, 0.01, 1000, 0.001, 2, 0.5} {
		if v := length.Length(math.Round(x * f)); v%fine == 0 {
			add(worksheet.LengthOf(v))
		}
	}
	for _, f := range []float64{2.54, 1 / 2.54, 25.4, 1 / 25.4} {
		near(x*f, max(float64(fine), half*f))
	}
	if !u.Metric() {
		snap(x * 12)
		snap(x / 12)
	}
	one := float64(length.Inch)
	if u.Metric() {
		one = float64(length.Centimetre)
	}
	for _, d := range []float64{one, one / 2, 2 * one} {
		snap(x + d)
		snap(x - d)
	}
	for _, h := range w.hems {
		snap(x + float64(h))
		snap(x - float64(h))
	}
}

// lastDigit is what one in the last digit of a decimal number comes to; 0 for other
// numbers.
func lastDigit(text string, u length.Unit) float64 {
	num, _, err := length.ScanNumber(strings.TrimSpace(text))
	if err != nil || num.Fraction() || !u.Metric() {
		return 0
	}
	return float64(length.Step(u)) * map[length.Unit]float64{length.MM: 1, length.CM: 10, length.M: 1000}[u] / math.Pow(10, float64(num.Places()))
}

// hems are what may be counted in a size by mistake, or left off it.
func (p *problem) hems(c *worksheet.Choice) (list []length.Length) {
	if !c.Size {
		return nil
	}
	for _, i := range c.Items {
		it := &p.base.Items[i]
		if strings.Contains(c.Term, "width") {
			list = append(list, it.Sides.Takes, 2*it.Sides.Takes)
		} else {
			list = append(list, it.Top.Takes, it.Bottom.Takes, it.Top.Takes+it.Bottom.Takes)
		}
	}
	return slices.DeleteFunc(list, func(l length.Length) bool { return l <= 0 })
}

// A root is a value of a choice that makes an outcome what is stated, and how far off
// it another may be that does so as well, as people round.
type root struct{ x, slack float64 }

// How an outcome goes with a choice.
type motion uint8

const (
	still   motion = iota // not at all
	inSteps               // by leaps: whole repeats, whole widths
	smooth
)

// with is a hypothesis with one more choice changed, to the number x; false where the
// choice can't be that.
func (p *problem) with(h hypothesis, choice int, x float64) (next hypothesis, ok bool) {
	c := &p.choices[choice]
	v := c.Value
	if v.Sort == worksheet.Ratio || v.Sort == worksheet.Percent {
		v.R = length.NewRatio(int64(math.Round(x*1e6)), 1e6)
	} else {
		v.N = int64(math.Round(x))
	}
	if !sensible(c, v) || p.spent() {
		return next, false
	}
	p.edits = append(append(p.edits[:0], h.edits...), edit{choice: choice, value: v})
	return hypothesis{edits: p.edits, withdrawn: h.withdrawn}, true
}

// A solving looks for the values of a choice that make contradicted outcomes right.
type solving struct {
	*problem
	h         hypothesis
	choice    int
	wrong     []int
	stated    point      // as it is
	beside    [2]point   // a little more, and a little less if a count is another there
	ends      [2]point   // both ends of what it may be meant to be, as far as they were looked at
	endCounts [2][]int64 // what counts has of the ends
	turned    [2][]bool  // by outcome, whether words that it is worked from are others there
	points    []point    // these ends, and where others came out right
	stepped   bool       // an outcome was found to go by leaps

	counts   [3][]int64       // that each outcome is worked from, as one number: as it is, and beside it
	believed []worksheet.Slot // beside it, and not as it is
}

// A point is a value of a choice, and how far off what is stated each contradicted
// outcome then comes out: not a number where it does not.
type point struct {
	x   float64
	off []float64
}

// A little is how much a choice is changed by to see what goes with it.
const little = 0.03

// solvings begin with the order as it was worked out with h and, where a little change sets
// off a belief, without that: it would make an outcome right by something else than the choice.
func (p *problem) solvings(h hypothesis, start *trial, choice int, wrong []int) []*solving {
	s := p.newSolving(h, start, choice, wrong)
	if len(s.believed) == 0 {
		return []*solving{s}
	}
	h.withdrawn = append(slices.Clip(h.withdrawn), s.believed...)
	return []*solving{s, p.newSolving(h, start, choice, wrong)}
}

// want is what some contradicted outcomes are worked from.
func (p *problem) want(wrong []int) *worksheet.Wanted {
	if p.wanted == nil || !slices.Equal(p.looked, wrong) {
		p.looked, p.wanted = slices.Clone(wrong), p.base.Wanting(wrong)
	}
	return p.wanted
}

func (p *problem) newSolving(h hypothesis, start *trial, choice int, wrong []int) *solving {
	s := &solving{problem: p, h: h, choice: choice, wrong: wrong, stated: point{number(p.choices[choice].Value), p.off(start, wrong)}}
	given := start.sheet.Beliefs()
	s.counts[0] = s.countsOf(start)
	for i, x := range [2]float64{1 + little, 1 - little} {
		s.beside[i] = s.at(s.stated.x*x, func(t *trial) {
			s.counts[1+i] = s.countsOf(t)
			for _, b := range t.sheet.Beliefs() {
				if !slices.Contains(given, b) && !contains(s.believed, b.Slot) {
					s.believed = append(s.believed, b.Slot)
				}
			}
		})
		if slices.Equal(s.counts[1+i], s.counts[0]) {
			break
		}
	}
	return s
}

// next is the choice changed a little: to where the counts are as they were, if they are so
// on one side.
func (s *solving) next(k int) point {
	same := func(i int) bool { return s.counts[1+i] != nil && s.counts[1+i][k] == s.counts[0][k] }
	if !same(0) && same(1) {
		return s.beside[1]
	}
	return s.beside[0]
}

// countsOf are the counts that the contradicted outcomes of a trial are worked from.
func (s *solving) countsOf(t *trial) []int64 {
	list := make([]int64, len(s.wrong))
	for k, o := range s.wrong {
		list[k] = t.sheet.Counts(&s.outs[o])
	}
	return list
}

// at works the order out with another value of the choice, and shows it to see where that is
// asked for.
func (s *solving) at(x float64, see func(*trial)) point {
	next, ok := s.with(s.h, s.choice, x)
	if !ok {
		return point{x, s.off(nil, s.wrong)}
	}
	t := s.tryFor(s.want(s.wrong), &next, nil)
	defer s.done(t)
	if see != nil {
		see(t)
	}
	return point{x, s.off(t, s.wrong)}
}

// turnedIn are the contradicted outcomes that are worked from other words in a trial than as the
// order stands.
func (s *solving) turnedIn(t *trial) []bool {
	list := make([]bool, len(s.wrong))
	for k, o := range s.wrong {
		list[k] = t.at[o] != nil && t.sheet.Words(&s.outs[o]) != s.base.Words(&s.outs[o])
	}
	return list
}

// smoothly reports whether an outcome may go smoothly with the choice: it does where the
// choice is changed a little.
func (s *solving) smoothly(k int) bool {
	of := &s.outs[s.wrong[k]]
	if sort := of.Value.Sort; sort == worksheet.Count || sort == worksheet.Ratio || sort == worksheet.Dots || of.Slot.Item < 0 {
		return false
	}
	y := s.next(k).off[k]
	return !math.IsNaN(y) && y != s.stated.off[k]
}

// off is how far outcomes of a trial are from what is stated.
func (p *problem) off(t *trial, wrong []int) []float64 {
	list := p.offs.MakeOf(len(wrong), 256)
	for k, o := range wrong {
		if list[k] = math.NaN(); t != nil && t.at[o] != nil && t.at[o].Quantity != nil {
			list[k] = number(t.at[o].Quantity.Value) - number(p.outs[o].Value)
		}
	}
	return list
}

// lookAt works out one of the ends of what the choice may be meant to be, once.
func (s *solving) lookAt(i int) {
	if s.ends[i].off != nil {
		return
	}
	c := &s.choices[s.choice]
	const far = 100
	x := s.stated.x
	low, high := x/far, x*far
	if c.High > 0 {
		low, high = max(low, min(x, float64(c.Low))/4), min(high, max(x, float64(c.High))*4)
	}
	s.ends[i] = s.at([2]float64{low, high}[i], func(t *trial) { s.turned[i], s.endCounts[i] = s.turnedIn(t), s.countsOf(t) })
	s.points = append(s.points, s.ends[i])
}

// within reports whether an outcome comes out as is stated, or on the other side of it, at
// one of the ends of what the choice may be meant to be, or may do so between, as it may where
// it is worked otherwise there.
func (s *solving) within(k int) bool {
	y := s.stated.off[k]
	for i := range s.ends {
		s.lookAt(i)
		if s.turned[i] != nil && s.turned[i][k] {
			return true
		}
		if off := s.ends[i].off[k]; !(off*y > 0) || math.Abs(off) < slackOf(&s.outs[s.wrong[k]]) {
			return true
		}
	}
	return false
}

// leaps reports whether what is worked from a choice goes up and down as it grows: a
// cut is so many whole repeats.
func leaps(c *worksheet.Choice) bool {
	return strings.HasSuffix(c.Term, " repeat") || isWord(c)
}

// solve finds the value of the choice that would make a contradicted outcome right, by
// the secant.
func (s *solving) solve(k int) (root, motion) {
	x0, y0 := s.stated.x, s.stated.off[k]
	if math.IsNaN(y0) {
		return root{}, inSteps
	}
	if !s.smoothly(k) {
		if s.stepped || s.within(k) { // one that does is enough
			return root{}, inSteps
		}
		return root{}, still
	}
	return s.secant(k, x0, y0, s.next(k).x, s.next(k).off[k])
}

// elsewhere are the values of the choice beyond where it leaps that would make a contradicted
// outcome right: those that are found from either end of what it may be meant to be, if other
// counts go with it there.
func (s *solving) elsewhere(k int) (roots []root) {
	for i := range s.ends {
		s.lookAt(i)
		end := s.ends[i]
		if s.endCounts[i] == nil || s.endCounts[i][k] == s.counts[0][k] || math.IsNaN(end.off[k]) {
			continue
		}
		beside := s.at(end.x*(1+little-2*little*float64(i)), nil)
		if math.IsNaN(beside.off[k]) || beside.off[k] == end.off[k] {
			continue
		}
		if r, how := s.secant(k, end.x, end.off[k], beside.x, beside.off[k]); how == smooth {
			roots = append(roots, r)
		}
	}
	return roots
}

// secant finds where an outcome is as stated from two values of the choice and how far off it
// then comes out.
func (s *solving) secant(k int, x0, y0, x1, y1 float64) (root, motion) {
	c, of := &s.choices[s.choice], &s.outs[s.wrong[k]]
	slack := slackOf(of)
	for range 5 {
		slope := math.Abs((y1 - y0) / (x1 - x0))
		x2 := x1 - y1*(x1-x0)/(y1-y0)
		if math.IsNaN(x2) || x2 <= 0 || x2 > 1e13 {
			return root{}, inSteps // it goes by leaps, or no value makes it right
		}
		next := point{}
		for _, pt := range s.points {
			if math.Abs(pt.x-x2) <= 1e-6*x2 {
				next = pt // as another outcome had it
			}
		}
		if next.off == nil {
			next = s.at(x2, nil)
			s.points = append(s.points, next)
		}
		x0, y0, x1, y1 = x1, y1, next.x, next.off[k]
		if math.IsNaN(y1) { // what is stated may there be a choice
			return root{x: x1}, inSteps
		}
		if y1 == y0 {
			return root{}, inSteps
		}
		if math.Abs(y1) < slack {
			r := root{x1, slack/slope + math.Abs(x1)*1e-4}
			if c.Value.Sort == worksheet.Length {
				r.slack += 1.6e6
			}
			return r, smooth
		}
	}
	return root{}, inSteps
}

// slackOf is how far off an outcome may come out and still agree: a step of it, and of
// rounding by hand.
func slackOf(of *worksheet.Stated) float64 {
	if of.Value.Sort != worksheet.Length {
		return 0.06 * math.Abs(number(of.Value))
	}
	return 4.8e6
}

// repeats adds the repeats of which a stated cut is so many.
func (p *problem) repeats(c *worksheet.Choice, out int, add func(worksheet.Value)) {
	of := &p.outs[out]
	if of.Value.Sort != worksheet.Length {
		return
	}
	for n := int64(1); n <= 20; n++ {
		p.snapped(c, float64(of.Value.N)/float64(n), add)
	}
}

// snapped adds the values near x that a person may have chosen.
func (p *problem) snapped(c *worksheet.Choice, x float64, add func(worksheet.Value)) {
	v := c.Value
	switch v.Sort {
	case worksheet.Length:
		for _, g := range worksheet.TapeMarks(p.sheet.StyleAt(c.Node).Unit()) {
			add(worksheet.LengthOf(length.Length(math.Round(x/float64(g))) * g))
		}
		if one := worksheet.TapeMarks(p.sheet.StyleAt(c.Node).Unit())[0]; v.Length() < one { // the whole number before it was dropped
			add(worksheet.LengthOf(length.Length(math.Round((x-float64(v.N))/float64(one)))*one + v.Length()))
		}
	case worksheet.Ratio:
		for _, den := range []int64{4, 10, 20, 100} {
			add(worksheet.RatioOf(length.NewRatio(int64(math.Round(x*float64(den))), den)))
		}
	case worksheet.Percent:
		for _, den := range []int64{100, 200, 1000} {
			add(worksheet.PercentOf(length.NewRatio(int64(math.Round(x*float64(den))), den)))
		}
	default:
		text := p.sheet.Print(c.Node, worksheet.Value{Sort: v.Sort, N: int64(x)}, length.Nearest)
		num, unit, err := length.ScanNumber(text)
		if err != nil {
			return
		}
		for _, step := range labelSteps(number(worksheet.RatioOf(num.Value()))) {
			near := math.Round(number(worksheet.RatioOf(num.Value()))/step) * step
			if w, ok := p.sheet.Read(c.Node, strconv.FormatFloat(near, 'f', -1, 64)+unit, v.Sort); ok {
				add(w)
			}
		}
	}
}

// labelSteps are the steps that a number on a label comes in: one to three figures,
// and halves of them.
func labelSteps(x float64) []float64 {
	if x <= 0 {
		return nil
	}
	ten := math.Pow(10, math.Floor(math.Log10(x)))
	return []float64{ten, ten / 2, ten / 10, ten / 20, ten / 100}
}

// otherUnits are the units that the order may have been meant in. Where every length has
// a unit of its own, the order's decide no more than what is usual in them: then it is
// one that lengths are written in.
func (p *problem) otherUnits() (list []length.Unit) {
	s := p.sheet
	if !s.Order.Units.Set {
		return nil
	}
	var lengths []*order.Node
	for i := range p.choices {
		if c := &p.choices[i]; c.Value.Sort == worksheet.Length {
			lengths = append(lengths, c.Node)
		}
	}
	for i := range p.outs {
		if of := &p.outs[i]; of.Value.Sort == worksheet.Length {
			lengths = append(lengths, of.Node)
		}
	}
	bare := slices.ContainsFunc(lengths, func(n *order.Node) bool { return length.Bare(n.Text) })
	for _, u := range []length.Unit{length.In, length.CM, length.MM, length.M} {
		if u == length.M && (s.Unit == length.Yd || s.Unit == length.Ft) {
			continue // which are as long or short as to make as much sense in meters
		}
		if u != s.Unit && (bare || slices.ContainsFunc(lengths, func(n *order.Node) bool { return s.StyleAt(n).Unit() == u })) {
			list = append(list, u)
		}
	}
	return list
}

// reread is a copy of an order whose bare lengths are read in another unit.
func reread(o *order.Order, u length.Unit) *order.Order {
	c := *o
	c.Units.Value = u.String()
	rereadIn(reflect.ValueOf(&c).Elem(), u)
	return &c
}

// rereadIn reads the bare lengths of a block again. Lists are copied before they are
// written to.
func rereadIn(v reflect.Value, u length.Unit) {
	switch v.Kind() {
	case reflect.Slice:
		if v.Type().Elem().Kind() != reflect.Struct || v.Len() == 0 {
			return
		}
		list := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(list, v)
		v.Set(list)
		for i := range list.Len() {
			rereadIn(list.Index(i), u)
		}
	case reflect.Struct:
		if l, ok := v.Addr().Interface().(*order.Length); ok {
			if bare(l) {
				if x, _, err := length.Parse(l.Node.Text, u); err == nil {
					l.Value = x
				}
			}
			return
		}
		for _, i := range lengthsIn(v.Type()) {
			rereadIn(v.Field(i), u)
		}
	}
}

// lengthFields are the fields of the blocks of the form that lengths are in, by type.
var lengthFields sync.Map

// lengthsIn are the fields of a block of the form that lengths are in.
func lengthsIn(t reflect.Type) []int {
	if known, ok := lengthFields.Load(t); ok {
		return known.([]int)
	}
	list := []int{}
	for i := range t.NumField() {
		f := t.Field(i)
		of := f.Type
		if of.Kind() == reflect.Slice {
			of = of.Elem()
		}
		if (f.Name == "Of" || f.Tag.Get("form") != "") && of.Kind() == reflect.Struct && (of == lengthType || of.Field(0).Name != "Value" && len(lengthsIn(of)) > 0) {
			list = append(list, i)
		}
	}
	lengthFields.Store(t, list)
	return list
}

var lengthType = reflect.TypeFor[order.Length]()

// bare reports whether a length was written without its unit.
func bare(l *order.Length) bool {
	if !l.Set || l.Node == nil {
		return false
	}
	return length.Bare(l.Node.Text)
}

// The weights that a cloth has, by area, and a chain, by length; common practice, no source.
const (
	lightest      = 30 * mass.Gram
	heaviest      = 900 * mass.Gram
	lightestChain = 10 * mass.Gram
	heaviestChain = 500 * mass.Gram
)

// sense is the range that a choice is in, as a rule; none where it is not known, as of
// counts and shares, which rules look at.
func sense(c *worksheet.Choice) (low, high int64) {
	switch c.Value.Sort {
	case worksheet.Length:
		return int64(c.Low), int64(c.High)
	case worksheet.Areal:
		return int64(lightest), int64(heaviest)
	case worksheet.Linear:
		return int64(lightestChain), int64(heaviestChain)
	}
	return 0, math.MaxInt64
}

// beyond reports whether a choice is beyond the range of sense. Nothing at all is not: it
// says that there is no hem.
func beyond(c *worksheet.Choice) bool { return makesNoSense(c, c.Value) }

// makesNoSense reports whether a value is beyond the range that a choice makes sense in.
func makesNoSense(c *worksheet.Choice, v worksheet.Value) bool {
	low, high := sense(c)
	return high > 0 && v.N > 0 && (v.N < low || v.N > high)
}

// farBeyond reports whether a choice is so far beyond it that nothing else needs to speak
// against it.
func farBeyond(c *worksheet.Choice) bool {
	low, high := sense(c)
	return beyond(c) && (c.Value.N < low/4 || c.Value.N > high*2)
}

// odd reports whether a length or a weight of an order is beyond all sense, or several bare ones
// are written as no one does in its units: fractions in one in centimetres.
func odd(s *worksheet.Sheet) bool {
	var first *order.Node // that is
	for c := range s.Sizes {
		switch {
		case beyond(c):
			return true
		case c.Value.Sort != worksheet.Length || c.Node == first:
		case s.Order.Units.Set && strange(c.Node.Text, s.Unit) > 0 && length.Bare(c.Node.Text):
			if first != nil {
				return true
			}
			first = c.Node
		}
	}
	return false
}

// unitsCost is what it costs that the order was meant in other units: the change of
// how unlikely each of its bare choices is, by its size, and by how it and each bare
// outcome is written.
func (p *problem) unitsCost(u length.Unit) float64 {
	sum := 0.0
	for i := range p.choices {
		c := &p.choices[i]
		if c.Value.Sort != worksheet.Length || !length.Bare(c.Node.Text) {
			continue
		}
		v, _, err := length.Parse(c.Node.Text, u)
		if err != nil {
			continue
		}
		if c.High > 0 {
			sum += far(float64(v), float64(c.Low), float64(c.High)) - far(number(c.Value), float64(c.Low), float64(c.High))
		}
		sum += strange(c.Node.Text, u) - strange(c.Node.Text, p.sheet.Unit)
	}
	for i := range p.outs {
		if n := p.outs[i].Node; p.outs[i].Value.Sort == worksheet.Length && length.Bare(n.Text) {
			sum += strange(n.Text, u) - strange(n.Text, p.sheet.Unit)
		}
	}
	return max(baseUnits+sum, -30)
}

// strange is how seldom a number is written so in a unit: fractions are not in metric
// orders, nor tenths in those in inches.
func strange(text string, u length.Unit) float64 {
	switch _, decimals, point := strings.Cut(strings.Replace(text, ",", ".", 1), "."); {
	case u.Metric() && strings.ContainsAny(text, "/"+fractionSigns):
		return 3
	case !u.Metric() && point && !contains([]string{"5", "25", "75", "50", "125", "375", "625", "875"}, decimals):
		return 2
	}
	return 0
}
