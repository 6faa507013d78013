package diagnose

import (
	"math"
	"slices"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/worksheet"
)

// Costs are in nats, the negative natural logarithm of a chance.
const (
	baseChoice   = 4.6
	baseOutcome  = 4.4
	baseWord     = 6.6 // another word of the form stands there
	arithmetic   = 2.2 // a declared slip in an outcome's own working
	secondSlip   = 1.5 // on top, for two at once
	cheapest     = 2.2 // slip of a choice
	usually      = 0.1 // the likeliest value of a choice
	otherChoice  = 5.0 // any other value
	otherOutcome = 5.5
	otherMass    = 4.5 // there are fewer, as none is known to better than a twentieth
	otherBought  = 3.0 // people buy cloth by what is on the shelf, and by guess
	copied       = 1.6 // on top, for what is copied from a ticket
	baseUnits    = 6.0
	unasked      = 3.5 // on top, where nothing is contradicted, or no size
	followsSlip  = 0.7 // worked on from a number that a slip explains
	followsOther = 1.0
	handRounded  = 1.2 // at the least
	unitAlone    = 0.5 // less, where only the unit is another
	nearMass     = 1.0 // a mass is near enough, but printed otherwise
	asRight      = 0.8
	moreNoSlip   = 3.2
	doneOften    = 3.2 // less cloth than is right, as many order it
	belief       = 1.0
	openWorld    = 13.0
	unwoven      = 1.3 // times as far beyond sense is what no mill weaves
	oddChoice    = 6.5 // the most that an odd stated value speaks against itself
	anyLength    = 2.5 // any length, to those who take them as they come
	tooFine      = 4.0 // on top, where it is finer than people measure
	unevenMaker  = 4.0 // that somebody does
	nothing      = 1.5 // that there is none
	notNothing   = 3.0 // on top, where none was written for some: people write what there is
	evenToo      = 0.3 // the share of lengths that even they take even
	oddEnough    = 5.5 // so much that it is called into question by itself
	ownChoice    = 4.0 // a stated outcome that is a choice then, which anything would go with
	idleNumber   = 2.5 // a number that nothing is worked from
	strayRow     = 4.0 // a row of a piece that the item does not have
	foundRight   = 2.5 // less, for an outcome that could not be compared and agrees
	vanished     = 8.0 // a stated outcome that can't be worked out any more
)

// A habit is the usual values of a choice: in the system that it is written in, and those
// of the other one, as people who work in centimetres take hems of 3.8 and 7.6.
type habit struct{ own, converted []worksheet.Value }

// A manner is how a choice is written, as far as its habit goes by that.
type manner struct {
	bare   length.Unit
	metric bool
	sort   worksheet.Sort
}

func habitOf(s *worksheet.Sheet, c *worksheet.Choice) *habit {
	in := manner{bare: s.Bare(c.Node), sort: c.Value.Sort}
	in.metric = in.sort == worksheet.Length && s.StyleAt(c.Node).Unit().Metric()
	known, ok := c.Made.Load(in)
	if !ok {
		known, _ = c.Made.LoadOrStore(in, newHabit(s, c, in.metric))
	}
	return known.(*habit)
}

func newHabit(s *worksheet.Sheet, c *worksheet.Choice, metric bool) *habit {
	h := new(habit)
	for _, u := range c.Usual {
		v, ok := s.Read(c.Node, u, c.Value.Sort)
		switch other := c.Value.Sort == worksheet.Length && metric == strings.HasSuffix(u, "in"); {
		case !ok:
		case !other:
			h.own = append(h.own, v)
		case metric:
			h.converted = append(h.converted, v)
		}
	}
	return h
}

// near reports whether a length is one of those, as it would be written.
func near(list []worksheet.Value, v worksheet.Value, within length.Length) bool {
	return slices.ContainsFunc(list, func(w worksheet.Value) bool { return max(w.N-v.N, v.N-w.N) < int64(within) })
}

// prior is how unlikely a choice has a value, by itself. Uneven is the chance that a
// length was taken as it comes.
func prior(s *worksheet.Sheet, c *worksheet.Choice, usual *habit, v worksheet.Value, uneven float64) float64 {
	switch {
	case v.Sort == worksheet.Count && c.Most > 0:
		if v.N < c.Least || v.N > c.Most {
			return 2 + far(float64(v.N), float64(c.Least), float64(c.Most))
		}
		if i := slices.Index(usual.own, v); i >= 0 {
			return 0.1 + 1.5*float64(i)
		}
		if len(usual.own) > 0 {
			return 2.5 + 0.5*math.Abs(float64(v.N-c.Least))
		}
		return 2
	case v.Sort == worksheet.Dots:
		p := 0.5
		for i := range s.Cloths {
			if cloth := &s.Cloths[i]; cloth.Order.Care.Iron.Node == c.Node {
				cap := int64(cloth.Cap)
				switch {
				case cap > 0 && v.N > cap: // no label allows what the fiber does not stand
					p += 6
				case cap > 0:
					p += 0.5 * float64(cap-v.N)
				}
			}
		}
		return p
	case v.Sort == worksheet.Length && v.N == 0:
		return nothing
	case v.Sort == worksheet.Length:
		taken := anyLength
		if steps := worksheet.TapeMarks(s.StyleFor(c.Node, v.Length()).Unit()); v.Length()%steps[len(steps)-1] != 0 {
			taken += tooFine
		}
		p := -math.Log((1-uneven)*math.Exp(-evenness(s, c, usual, v)) + uneven*math.Exp(-taken))
		if c.High > 0 { // a bound in inches is a round one in metric too: 6 mm for 1/4 in
			outside := far(float64(v.N), 0.94*float64(c.Low), 1.06*float64(c.High))
			if c.Copied {
				outside *= unwoven
			}
			p += outside
		}
		return p
	case v.Sort == worksheet.Mass || v.Sort == worksheet.Linear || v.Sort == worksheet.Areal:
		p := 2 + unround(s.Print(c.Node, v, length.Nearest), v.Sort)
		if slices.Contains(usual.own, v) {
			p = 1.5
		}
		if low, high := sense(c); high < math.MaxInt64 {
			p += unwoven * far(float64(v.N), float64(low), float64(high))
		}
		return p
	}
	if slices.ContainsFunc(usual.own, func(w worksheet.Value) bool { return w.R.Cmp(v.R) == 0 }) {
		return 1.5
	}
	p, finer := 2.5, 0.4
	if v.Sort == worksheet.Percent {
		finer = 0.7
	}
	for i, den := range []int64{1, 2, 4, 10, 20, 100} {
		if r := v.R.Mul(length.NewRatio(den, 1)); v.Sort == worksheet.Ratio && r.Den <= 1 || v.Sort == worksheet.Percent && r.Mul(length.NewRatio(100, 1)).Den <= 1 {
			return p + finer*float64(i) + shareFar(v)
		}
	}
	return p + 3 + shareFar(v)
}

// evenness is how unlikely a length is for people who choose even ones, wherever it lies.
func evenness(s *worksheet.Sheet, c *worksheet.Choice, usual *habit, v worksheet.Value) float64 {
	switch {
	case near(usual.own, v, length.Millimetre/4):
		return 1.5
	case near(usual.converted, v, length.Millimetre/4) && s.StyleAt(c.Node).Unit().Metric() != s.StyleFor(c.Node, v.Length()).Unit().Metric():
		return 1.5 - unitAlone // the other system that it is written in may be all that is wrong
	case near(usual.converted, v, length.Millimetre*6/10):
		return 2.5
	}
	rough := roughness(s, c.Node, v.Length())
	if len(usual.own) > 0 {
		return 2.5 + 0.6*rough
	}
	return 2 + rough
}

// unevenness is the chance that a length was taken as it comes, by how many uneven ones
// there are among all that were chosen: few people do that, and not with every hem.
func (p *problem) unevenness() float64 {
	odds := -unevenMaker
	for i := range p.choices {
		if c := &p.choices[i]; c.Value.Sort == worksheet.Length {
			odds += evenness(p.sheet, c, p.usual[i], c.Value) - anyLength
		}
	}
	return (1 - evenToo) / (1 + math.Exp(-odds))
}

// handRounding is what it costs that an outcome agrees only as people round by hand. Where
// any disagrees, the others say more: whoever rounds one rounds most of them, and none is
// then as fine as people write.
func handRounding(s *worksheet.Sheet) float64 {
	const guessed = 2 // as many outcomes would say what is known of people
	if !disagrees(s) {
		return handRounded
	}
	byHand, all := guessed*math.Exp(-handRounded), float64(guessed)
	for i := range s.Stated {
		of := &s.Stated[i]
		if of.Agrees == worksheet.ByHand {
			byHand, all = byHand+1, all+1
		} else if of.Value.Sort == worksheet.Length {
			if steps := worksheet.TapeMarks(s.StyleAt(of.Node).Unit()); of.Value.Length()%steps[len(steps)-2] != 0 {
				all++
			}
		}
	}
	return max(handRounded, math.Log(all/byHand))
}

// stray is how much dearer it is than as a rule that a value was written for the right one
// by no slip that is known: people write an even length, or a usual one, even in error, and few write
// more than twice what is right, or less than half.
func (p *problem) stray(at *order.Node, usual []worksheet.Value, stated, right worksheet.Value) float64 {
	x, y := number(stated), number(right)
	switch {
	case x == 0 && stated.Sort == worksheet.Length:
		return notNothing
	case x <= 0 || y <= 0:
		return 0
	}
	cost := max(0, math.Abs(math.Log(x/y))-math.Ln2)
	if stated.Sort == worksheet.Length && !near(usual, stated, length.Millimetre/4) {
		cost += 0.5 * max(0, roughness(p.sheet, at, stated.Length())-0.6)
	}
	return cost
}

// shareFar is what it costs a fullness or a shrinkage to be beyond all that is met.
func shareFar(v worksheet.Value) float64 {
	if v.Sort == worksheet.Percent {
		return far(number(v), 0.002, 0.12)
	}
	return far(number(v), 1, 3.5)
}

// far is what it costs a number to lie outside a range.
func far(x, low, high float64) float64 {
	switch {
	case x <= 0:
		return 12
	case x < low:
		return min(12, 4+3*math.Log(low/x))
	case x > high:
		return min(12, 4+3*math.Log(x/high))
	}
	return 0
}

// roughness is how odd a length is as one that people choose, in the units that it is
// written in.
func roughness(s *worksheet.Sheet, at *order.Node, l length.Length) float64 {
	if s.StyleFor(at, l).Unit().Metric() {
		switch {
		case l%(5*length.Centimetre) == 0:
			return 0
		case l%length.Centimetre == 0:
			return 0.6
		case l%(5*length.Millimetre) == 0:
			return 1
		case l%length.Millimetre == 0:
			return 2.4
		}
		return 5
	}
	for i, part := range []length.Length{2 * length.Inch, length.Inch, length.Inch / 2, length.Inch / 4, length.Inch / 8, length.Inch / 16} {
		if l%part == 0 {
			return []float64{0, 0.6, 1, 1.6, 2.4, 3.6}[i]
		}
	}
	return 5
}

// unround is how odd a mass is as one that stands on a label: in how many figures, the
// last of them a five or not.
func unround(text string, sort worksheet.Sort) float64 {
	num, rest, err := length.ScanNumber(text)
	if err != nil || sort == worksheet.Mass && strings.ContainsAny(rest, "0123456789") { // pounds and ounces
		return 1
	}
	x := number(worksheet.RatioOf(num.Value()))
	for i, step := range labelSteps(x) {
		if math.Abs(x/step-math.Round(x/step)) < 1e-6 {
			return []float64{0, 0, 0.3, 0.6, 1.5}[i]
		}
	}
	return 3 // as where it was converted
}

func contains[T comparable](list []T, x T) bool { return slices.Contains(list, x) }
