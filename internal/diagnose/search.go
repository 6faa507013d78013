package diagnose

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/slab"
	"cutgate/internal/worksheet"
)

const (
	windowOne  = rivalAhead // a reading this much dearer than the cheapest no longer counts, where that one blames at most one outcome and is not dear itself
	windowMore = 12.5       // and elsewhere, as another may clear two
	mostRuns   = 2_500      // workings out for one order, so that a hostile one has an end
	mostItems  = 1_000_000  // items and cloths of all of these together
	firsts     = 14         // single changes that second ones are tried on
	mostValues = 2          // of them of one choice
	muchWrong  = 12.0       // a reading that costs so much blames more than one mistake
	firstLook  = 2          // values of each choice
	fewGuesses = 8          // for a length that is beyond all sense
)

// A problem is an order in which stated outcomes disagree with what was worked out.
type problem struct {
	sheet    *worksheet.Sheet // the order as it is; each trial changes choices and puts them back
	base     *worksheet.Sheet // a copy of the sheet, which stays when another takes its place
	outs     []worksheet.Stated
	at       map[*order.Node]int // of outs; the last one where a node is compared twice
	places   []int               // by outcome, what at says of its node
	choices  []worksheet.Choice
	words    int       // the last of them, which are words
	usual    []*habit  // by choice
	priors   []float64 // of what is stated, by choice
	uneven   float64   // the chance that a length was taken as it comes
	byHand   float64   // what it costs that an outcome agrees only as people round by hand
	runs     int
	worked   int  // items and cloths of all runs, and very many outcomes
	thorough bool // no reading so far explains what is wrong by one mistake
	partly   bool // some choices were not looked at
	scratch  worksheet.Scratch
	writers  []*writer       // by choice, as far as they were asked for
	meant    [][]meaning     // by choice, likewise
	idle     [][]*order.Node // by choice, likewise: see idleBeside
	draft    *reading        // by score, until it is kept
	pens     [2]writer       // of outcomes, by turns
	pen      int             // the last one
	looked   []int           // what wanted is for
	wanted   *worksheet.Wanted
	*room

	low    float64 // the cheapest of them
	window float64 // a reading this much dearer than that counts no more
	narrow bool    // the window was the narrow one for a while
	wide   bool    // it stays wide
}

// A room is memory of a problem that serves the next one.
type room struct {
	spare   []*trial
	edits   []edit                   // of a trial that is only looked at
	seen    map[worksheet.Value]bool // by candidates
	found   []edit                   // by candidates
	keeps   slab.Slab[edit]          // see kept
	wrongs  []int                    // by score
	sides   slab.Slab[side]          // of stands
	offs    slab.Slab[float64]       // of points
	meaning []meaning                // of all choices

	readings map[string]*reading
}

var rooms = sync.Pool{New: func() any {
	return &room{seen: map[worksheet.Value]bool{}, readings: map[string]*reading{}}
}}

// leave gives the memory of a problem back, which nobody may read any more.
func (p *problem) leave() {
	for _, t := range p.spare {
		clear(t.at[:cap(t.at)])
		changed := t.how.Changed[:0]
		clear(changed[:cap(changed)])
		t.how = worksheet.Trial{Changed: changed}
	}
	clear(p.readings)
	p.meaning = p.meaning[:0]
	p.keeps.Reset()
	p.sides.Reset()
	p.offs.Reset()
	rooms.Put(p.room)
}

// kept is a list of edits, and some, that stays while the problem does.
func (r *room) kept(list []edit, more ...edit) []edit {
	to := r.keeps.MakeOf(len(list)+len(more), 256)
	copy(to[copy(to, list):], more)
	return to
}

// An edit is another value of a choice.
type edit struct {
	choice int
	value  worksheet.Value
	cost   float64
	slip   blunder
	text   string      // as it stands where it was swapped with; "" where it is to be printed
	with   int         // the outcome that it was swapped with, and one more; 0 for none
	idle   *order.Node // what it was swapped with that nothing rests on; nil for none
	less   bool        // of a word, with which an item is less astray
	sense  bool        // nothing contradicts what stands there, but it is beyond all sense
}

// A hypothesis is what may be wrong with the choices. Which outcomes are wrong then
// follows.
type hypothesis struct {
	edits     []edit
	withdrawn []worksheet.Slot
	units     length.Unit
	cost      float64
	without   []stand                // what was contradicted without the last of the edits
	rival     *float64               // the cheapest reading with another value of the last edit's choice; nil where none is known
	instead   *worksheet.Alternative // what else the order says; nil for nothing
}

// changes reports whether a hypothesis changes a choice.
func (h *hypothesis) changes(choice int) bool {
	return slices.ContainsFunc(h.edits, func(e edit) bool { return e.choice == choice })
}

// swapFor is the edit that an outcome was swapped with; nil for none.
func (h *hypothesis) swapFor(out int) *edit {
	i := slices.IndexFunc(h.edits, func(e edit) bool { return e.with == out+1 })
	if i < 0 {
		return nil
	}
	return &h.edits[i]
}

// A stand is how an order comes out where some beliefs are taken back.
type stand struct {
	withdrawn []worksheet.Slot
	wrong     []int  // the outcomes that are contradicted
	sides     []side // by outcome
}

// A side is where an outcome comes out: on which side of what is stated, and by which
// counts and words, as it may leap where they change.
type side struct {
	at     place
	counts int64
}

type place uint8

const (
	agreeing place = iota // or near enough
	below
	above
	gone // it can't be worked out
)

// A mistake is a stated outcome that is wrong under a hypothesis.
type mistake struct {
	out     int
	right   worksheet.Value
	round   length.Rounding
	text    string // the right value as it would be written; of a reading that was kept
	slip    *worksheet.Slip
	cost    float64
	follows int  // the mistake that it was worked on from; -1 for one of its own
	swapped int  // the mistake whose value it states; -1 for none
	more    bool // more cloth than needed, where a slip explains it
	hem     bool // no slip explains it, but it is a hem off
	leaps   bool // its slip gives what another size of a choice would
	often   bool // its slip is done often, and well
	pen     bool // its slip is one of writing a number down, not of its own arithmetic
	meant   bool // another is off alike, as where a maker adds a little all round
}

// A reading is a hypothesis with what follows from it.
type reading struct {
	hypothesis
	total    float64
	chosen   float64 // of it, for outcomes that are choices then
	mistakes []mistake
	writes   []write // into the fields of its edits and its mistakes, in their order
	key      string
}

// A trial is an order worked out with a hypothesis.
type trial struct {
	sheet *worksheet.Sheet
	at    []*worksheet.Stated // by outcome; nil where it could not be worked out or compared
	how   worksheet.Trial
}

func newProblem(s *worksheet.Sheet) *problem {
	p := &problem{sheet: s, room: rooms.Get().(*room), low: math.Inf(1), window: windowMore}
	base := *s
	p.base, p.outs = &base, s.Stated
	p.byHand = handRounding(s)
	p.at = make(map[*order.Node]int, len(p.outs))
	for i := range p.outs {
		p.at[p.outs[i].Node] = i
	}
	p.places = make([]int, len(p.outs))
	for i := range p.outs {
		p.places[i] = p.at[p.outs[i].Node]
	}
	return p
}

// try works the order out with a hypothesis. The trial is to be given back.
func (p *problem) try(h *hypothesis, forced []worksheet.Forced) *trial {
	return p.tryFor(nil, h, forced)
}

// tryFor is try where nothing is read but what some outcomes come to; all of them for nil.
func (p *problem) tryFor(only *worksheet.Wanted, h *hypothesis, forced []worksheet.Forced) *trial {
	p.runs++
	p.worked += len(p.base.Items) + len(p.base.Cloths) + len(p.outs)/16
	var t *trial
	if n := len(p.spare); n > 0 {
		t, p.spare = p.spare[n-1], p.spare[:n-1]
		clear(t.at)
		t.at = slices.Grow(t.at[:0], len(p.outs))[:len(p.outs)]
	} else {
		t = &trial{at: make([]*worksheet.Stated, len(p.outs))}
	}
	if len(h.edits)+len(h.withdrawn)+len(forced) == 0 && h.units == length.NoUnit && h.instead == nil { // it is as it stands
		t.sheet = p.base
		for i := range p.outs {
			t.at[p.places[i]] = &p.outs[i]
		}
		return t
	}
	t.how = worksheet.Trial{For: only, Forced: forced, Withdrawn: h.withdrawn, Scratch: &p.scratch, Changed: t.how.Changed[:0]}
	for _, e := range h.edits {
		c := &p.choices[e.choice]
		c.Take(e.value)
		t.how.Changed = append(t.how.Changed, c)
	}
	if h.instead != nil {
		defer h.instead.Make()()
		t.how.Changed = append(t.how.Changed, &h.instead.Choice)
	}
	o := p.sheet.Order
	if h.units != length.NoUnit {
		o = reread(p.sheet.Order, h.units)
	} else {
		t.how.Base = p.base
	}
	t.sheet = p.sheet.Try(o, &t.how)
	for _, e := range h.edits {
		c := &p.choices[e.choice]
		c.Take(c.Value)
	}
	next := 0 // as a rule, outcomes stand in the order of those of the base
	for i := range t.sheet.Stated {
		of := &t.sheet.Stated[i]
		for only != nil && next < len(p.outs) && p.outs[next].Node != of.Node {
			next++
		}
		if next < len(p.outs) && p.outs[next].Node == of.Node {
			t.at[p.places[next]] = of
			next++
		} else if k, ok := p.at[of.Node]; ok {
			t.at[k], next = of, k+1
		}
	}
	return t
}

// done gives a trial back that nobody reads any more.
func (p *problem) done(t *trial) {
	p.scratch.Release(t.sheet)
	t.sheet = nil
	p.spare = append(p.spare, t)
}

// differs are the outcomes that a trial contradicts.
func (t *trial) differs() (list []int) {
	for i, of := range t.at {
		if of != nil && of.Agrees == worksheet.Differs && !of.Doubtful {
			list = append(list, i)
		}
	}
	return list
}

// consider scores a hypothesis, and the same with each belief taken back that it
// exercises where something that rests on it is contradicted. It returns how the order
// then comes out; nothing where it costs too much.
func (p *problem) consider(h hypothesis) []stand { return p.look(h, nil) }

func (p *problem) look(h hypothesis, list []stand) []stand {
	t := p.score(h)
	if t == nil {
		return nil
	}
	defer p.done(t)
	list = append(list, p.stand(t, &h))
	p.doubted(&h, t, func(again hypothesis, left int) {
		if h.cost+least(left) <= p.limit(&h) {
			list = p.look(again, list)
		}
	})
	return list
}

// stand is how an order comes out.
func (p *problem) stand(t *trial, h *hypothesis) stand {
	s := stand{withdrawn: h.withdrawn, sides: p.sides.MakeOf(len(t.at), 256)}
	for i, of := range t.at {
		switch {
		case of == nil || of.Quantity == nil:
			s.sides[i].at = gone
			continue
		case of.Agrees != worksheet.Differs || of.Doubtful:
			continue
		case number(of.Quantity.Value) < number(of.Value):
			s.sides[i].at = below
		default:
			s.sides[i].at = above
		}
		s.sides[i].counts = 31*t.sheet.Counts(of) + int64(t.sheet.Words(of))
	}
	return s
}

// nothingLeft reports whether a size comes to nothing or less.
func nothingLeft(of *worksheet.Stated) bool {
	return of.Value.Sort == worksheet.Length && of.Value.N > 0 && of.Quantity != nil && of.Quantity.Value.N <= 0
}

// least is what so many contradicted outcomes cost at the least, where all but one may
// have been worked on from that one.
func least(wrong int) float64 {
	switch wrong {
	case 0:
		return 0
	case 1:
		return baseOutcome + arithmetic
	}
	return 3 + followsSlip*float64(wrong-1) // or two were swapped
}

// doubted gives the hypotheses that a belief less is taken back in than should be, as
// something that rests on it is contradicted, and how many outcomes that do not rest on it
// are as well.
func (p *problem) doubted(h *hypothesis, t *trial, give func(again hypothesis, left int)) {
	if len(h.withdrawn) > 1 || h.units != length.NoUnit {
		return
	}
	wrong := t.differs()
	if len(wrong) == 0 {
		return
	}
	ofCloths := p.ofCloths(wrong)
	for _, b := range t.sheet.Beliefs() {
		left := len(wrong)
		for _, list := range [2][]int{p.ofItem(b.Slot.Item, wrong), ofCloths} {
			for _, i := range list {
				if t.sheet.BelowSlot(t.at[i], b.Slot) {
					left--
				}
			}
		}
		if contains(h.withdrawn, b.Slot) || left == len(wrong) {
			continue
		}
		again := *h
		again.withdrawn = append(slices.Clone(h.withdrawn), b.Slot)
		give(again, left)
	}
}

// stands adds how the order comes out under a hypothesis, and under it with beliefs
// taken back.
func (p *problem) stands(h hypothesis, list []stand) []stand {
	t := p.try(&h, nil)
	defer p.done(t)
	s := p.stand(t, &h)
	s.wrong = t.differs()
	list = append(list, s)
	p.doubted(&h, t, func(again hypothesis, _ int) {
		if !p.spent() {
			list = p.stands(again, list)
		}
	})
	return list
}

// score works a hypothesis out and keeps what it costs in all, unless it is too dear
// to count.
func (p *problem) score(h hypothesis) *trial {
	if p.spent() || h.cost > p.limit(&h) {
		return nil
	}
	t := p.try(&h, nil)
	if p.draft == nil {
		p.draft = new(reading)
	}
	r := p.draft
	*r = reading{hypothesis: h, total: h.cost, mistakes: r.mistakes[:0]}
	wrong, impossible := p.wrongs[:0], []int(nil)
	var over []mistake // too much cloth, by a slip or by far
	for i, of := range t.at {
		switch {
		case of == nil:
			switch {
			case p.outs[i].Doubtful:
			case t.sheet.Chosen(p.outs[i].Slot):
				r.total += ownChoice
				r.chosen += ownChoice
			default:
				r.total += vanished
			}
		case of.Doubtful:
		case of.Agrees == worksheet.Impossible, of.Agrees == worksheet.Differs && nothingLeft(of):
			r.total += vanished
			impossible = append(impossible, i)
		case of.Agrees == worksheet.Differs:
			wrong = append(wrong, i)
		case of.Agrees == worksheet.ByHand:
			r.total += p.byHand
		case of.Value.Sort == worksheet.Mass && of.Agrees == worksheet.Exactly && p.sheet.Print(of.Node, of.Quantity.Value, length.Nearest) != of.Node.Text:
			r.total += nearMass
		case of.Agrees == worksheet.AsRight:
			r.total += asRight
		case of.Agrees == worksheet.More:
			if m := p.price(t, i, of); m.slip != nil || of.FarMore {
				m.more, m.cost = true, m.cost-baseOutcome+2.5
				over = append(over, m)
			} else {
				r.total += moreNoSlip
			}
		}
	}
	p.wrongs = wrong
	for _, b := range t.sheet.Beliefs() {
		if !b.Free {
			r.total += belief
		}
	}
	for i := range t.sheet.Items {
		r.total += float64(t.sheet.Soft(i)) / 100
	}
	if n := len(h.edits); n > 0 && !h.edits[n-1].less && p.priors[h.edits[n-1].choice] < oddEnough && slices.ContainsFunc(h.without, func(was stand) bool {
		return slices.Equal(was.withdrawn, h.withdrawn) && !slices.ContainsFunc(was.wrong, func(i int) bool {
			return !contains(wrong, i) && !contains(impossible, i) && !slices.ContainsFunc(over, func(m mistake) bool { return m.out == i })
		})
	}) {
		return t // nothing is gained by the last change, and it was not called for
	}
	// At the least, each that rests on no other costs a slip and the rest follow.
	least, terms := r.total, p.unlike(wrong)
	for _, i := range wrong {
		if h.swapFor(i) != nil {
			continue // it goes with the choice that it was swapped with
		}
		if p.upstream(t, i, terms) {
			least += followsSlip
		} else {
			least += baseOutcome + arithmetic
		}
	}
	if len(wrong) > 1 {
		least -= baseOutcome + arithmetic - 3
	}
	for _, m := range over {
		least += min(m.cost, followsSlip)
	}
	if least > p.limit(&h) || !p.blame(t, r, wrong, over) || r.total > p.limit(&h) {
		return t
	}
	p.write(r)
	if h.rival != nil {
		*h.rival = min(*h.rival, r.total)
	}
	if had := p.readings[r.key]; had == nil || r.total < had.total {
		p.readings[r.key], p.draft = r, nil
	}
	if r.total < p.low {
		p.low = r.total
		p.focus(r)
	}
	return t
}

// spent reports whether the order has been worked out as often as it may be.
func (p *problem) spent() bool { return p.runs > mostRuns || p.hurried() }

// hurried reports whether the order is so large that there may well be readings which
// nobody looked at.
func (p *problem) hurried() bool { return p.partly || p.worked > mostItems }

// limit is what a reading may cost that is to count: less where another value of the
// same choice does.
func (p *problem) limit(h *hypothesis) float64 {
	most := p.low + p.window
	if h.rival != nil {
		most = min(most, *h.rival+rivalAhead)
	}
	return most
}

// upstream reports whether an outcome is worked from another of those.
func (p *problem) upstream(t *trial, of int, among []int) bool {
	among = p.near(of, among)
	return slices.ContainsFunc(among, func(on int) bool { return on != of && t.sheet.Rests(t.at[of], t.at[on]) })
}

// blame prices the contradicted outcomes: those that are mistakes of their own, and
// those that were worked on from them, as too much cloth may have been as well. It gives
// up where they cost too much.
func (p *problem) blame(t *trial, r *reading, wrong []int, over []mistake) bool {
	left := slices.Clone(wrong)
	first := len(r.mistakes)
	var forced []worksheet.Forced
	for round := 0; len(left) > 0; round++ {
		var roots []int
		terms := p.unlike(left)
		for _, i := range left {
			if round == 3 || !p.upstream(t, i, terms) {
				roots = append(roots, i)
			}
		}
		for _, i := range roots {
			m := p.price(t, i, t.at[i])
			if e := r.swapFor(i); e != nil && closeTo(m.right, p.choices[e.choice].Value) {
				m.cost, m.slip = 0, &worksheet.Slip{Name: worksheet.TwoSwapped}
			}
			for k := first; k < len(r.mistakes); k++ {
				had := &r.mistakes[k]
				of := t.at[had.out]
				if had.follows < 0 && of.Slot == t.at[i].Slot && of.Value == t.at[i].Value { // written down a second time
					m.follows, m.cost = k, followsSlip
				}
				switch alike := m.slip != nil && had.slip != nil && m.slip.Name == had.slip.Name; {
				case had.follows >= 0:
				case alike && contains(ofThePen, m.slip.Name):
					if t.sheet.Swapped(of, t.at[i]) { // or both were meant so
						m.follows, m.cost, had.meant = k, followsOther, true
					}
				case alike && worksheet.OneList(of, t.at[i]) && ofUnits(m.slip), t.sheet.OneWorking(of, t.at[i]) && (alike || p.sameSlip(t, had.out, i)):
					m.follows, m.cost = k, followsSlip
				}
				by := p.swapOfOutcomes(t, of, t.at[i])
				if had.follows < 0 && had.swapped < 0 && m.swapped < 0 && !by.stray() && closeTo(of.Value, m.right) && closeTo(t.at[i].Value, had.right) {
					s := &worksheet.Slip{Name: by.name}
					r.total += baseOutcome + by.cost - had.cost
					had.cost, had.slip, had.swapped = baseOutcome+by.cost, s, len(r.mistakes)
					m.cost, m.slip, m.swapped, m.follows = 0, s, k, k
					if t.at[i].Node.At.Start < of.Node.At.Start { // it is told where the first of them stands
						had.cost, m.cost = m.cost, had.cost
						had.follows, m.follows = len(r.mistakes), -1
						r.total -= m.cost // which is added below
					}
				}
			}
			r.total += m.cost
			r.mistakes = append(r.mistakes, m)
			forced = append(forced, worksheet.Forced{Slot: t.at[i].Slot, Value: t.at[i].Value})
		}
		left = slices.DeleteFunc(left, func(i int) bool { return contains(roots, i) })
		if len(roots) == 0 || len(left) == 0 && !slices.ContainsFunc(over, func(m mistake) bool { return p.upstream(t, m.out, wrong) }) {
			break
		}
		if r.total+followsSlip*float64(len(left)) > p.limit(&r.hypothesis) {
			return false
		}
		// What was worked on from the wrong numbers agrees with them.
		on := p.try(&r.hypothesis, forced)
		follows := func(i int) bool {
			if of := on.at[i]; of == nil || of.Agrees == worksheet.Differs || of.Agrees == worksheet.Impossible {
				return false
			}
			m := p.price(t, i, t.at[i])
			for k := first; k < len(r.mistakes); k++ {
				if had := &r.mistakes[k]; had.follows < 0 && t.sheet.Rests(t.at[i], t.at[had.out]) {
					m.follows, m.cost = k, followsOther
					if had.cost <= baseOutcome+arithmetic+0.1 {
						m.cost = followsSlip
					}
					r.total += m.cost
					r.mistakes = append(r.mistakes, m)
					return true
				}
			}
			return false
		}
		left = slices.DeleteFunc(left, follows)
		over = slices.DeleteFunc(over, func(m mistake) bool {
			of := on.at[m.out]
			return of != nil && of.Agrees != worksheet.More && follows(m.out)
		})
		p.done(on)
	}
	for _, m := range over {
		r.total += m.cost
		r.mistakes = append(r.mistakes, m)
	}
	return true
}

// swapOfOutcomes is swapOf of two stated outcomes.
func (p *problem) swapOfOutcomes(t *trial, a, b *worksheet.Stated) blunder {
	if t.sheet.Swapped(a, b) {
		return swapped
	}
	if a.Slot.Item == b.Slot.Item && a.Value.Sort == b.Value.Sort && inOneBlock(p.base.FieldOf(a), p.base.FieldOf(b)) {
		return besides
	}
	return blunder{}
}

// price is what it costs that an outcome is wrong by itself.
func (p *problem) price(t *trial, i int, of *worksheet.Stated) mistake {
	right := of.Quantity.Value
	m := mistake{out: i, right: right, cost: baseOutcome + otherOutcome, follows: -1, swapped: -1}
	switch {
	case right.Sort == worksheet.Length && right.N <= 0: // nothing is left to cut
		m.cost = baseOutcome + otherOutcome + vanished
	case right.Sort == worksheet.Mass:
		m.cost = baseOutcome + otherMass
	case of.Slot.Item < 0 && p.outs[i].Agrees == worksheet.Differs: // as the order stands
		m.cost = baseOutcome + otherBought
	default:
		m.cost += p.stray(of.Node, nil, of.Value, right)
	}
	w := p.writerOf(t, i)
	if of.Slot.Item >= 0 {
		w.hems, w.of = turns(&t.sheet.Items[of.Slot.Item]), hemWrong
	}
	m.round = of.Quantity.Round
	for _, s := range w.slips(t, of) {
		cost := baseOutcome + arithmetic
		switch {
		case s.Seldom:
			cost += secondSlip
		case s.Often:
			cost = doneOften
		}
		rounded := !w.same(of.Value, s.Value)
		if rounded {
			cost += handRounded
		}
		if cost < m.cost {
			m.cost, m.slip, m.leaps, m.often = cost, &worksheet.Slip{Name: s.Name, Working: s.Working}, s.Leaps || rounded, s.Often
		}
	}
	if b, ok := w.blunder(of.Value, right, w.texts(right)); ok && baseOutcome+b.cost < m.cost {
		m.cost = baseOutcome + b.cost
		if m.hem = b == hemWrong; !m.hem {
			m.slip, m.leaps, m.often, m.pen = &worksheet.Slip{Name: b.name}, false, false, true
		}
	}
	return m
}

// writerOf knows how numbers are written at an outcome. It holds until the next but one.
func (p *problem) writerOf(t *trial, i int) *writer {
	of := t.at[i]
	p.pens[1-p.pen], p.pen = writer{sheet: p.sheet, node: of.Node, unit: t.sheet.Unit, stands: p.outs[i].Value, worked: true}, 1-p.pen
	w := &p.pens[p.pen]
	if of.Quantity.Value.Sort == worksheet.Length {
		w.style = p.sheet.StyleAt(of.Node)
	}
	return w
}

// slips are the slips of its own arithmetic that make an outcome what is stated.
func (w *writer) slips(t *trial, of *worksheet.Stated) []worksheet.Slipped {
	return t.sheet.SlipsOf(of, func(v worksheet.Value) bool {
		return (w.same(of.Value, v) || v.Sort == worksheet.Length && t.sheet.RoundedUp(of, v.Length())) && !w.same(v, of.Quantity.Value)
	})
}

// ofUnits reports whether a slip is that of another unit, which goes through a list.
func ofUnits(s *worksheet.Slip) bool { return s.Name == inchesForCm.name || s.Name == inchesForMm.name }

// sameSlip reports whether one slip in the working explains two outcomes.
func (p *problem) sameSlip(t *trial, a, b int) bool {
	for _, s := range p.writerOf(t, a).slips(t, t.at[a]) {
		for _, other := range p.writerOf(t, b).slips(t, t.at[b]) {
			if s.Name == other.Name {
				return true
			}
		}
	}
	return false
}

// turns are what a hem of an item may add to a size once too often, or once too seldom.
func turns(it *worksheet.Item) (list []length.Length) {
	for _, h := range []*worksheet.Hem{&it.Top, &it.Bottom, &it.Sides} {
		if h.Turn > 0 {
			list = append(list, h.Turn, 2*h.Turn)
		}
	}
	return list
}

// same reports whether a value is the one that a person wrote, rounded either way.
func (w *writer) same(stated, v worksheet.Value) bool {
	switch {
	case stated.Sort != v.Sort:
		return false
	case stated.Sort == worksheet.Length:
		if worksheet.Near(stated.Length(), v.Length(), length.Step(w.style.Unit())) {
			return true
		}
		return w.wrote(v)
	}
	return closeTo(stated, v)
}

// closeTo reports whether two values are the same as they are written.
func closeTo(a, b worksheet.Value) bool {
	x, y := number(a), number(b)
	switch a.Sort {
	case worksheet.Length:
		return math.Abs(x-y) < 1.6e6
	case worksheet.Mass, worksheet.Linear, worksheet.Areal:
		return math.Abs(x-y)*50 <= math.Abs(y)
	case worksheet.Ratio:
		return math.Abs(x-y) <= 0.01
	}
	return x == y
}

// write finds what a reading would write, and names it by that: two ways to the same
// writing are one reading.
func (p *problem) write(r *reading) {
	r.writes = make([]write, 0, len(r.edits)+len(r.mistakes))
	for _, e := range r.edits {
		r.writes = append(r.writes, write{p.choices[e.choice].Node.At.Start, p.printed(e)})
	}
	for i := range r.mistakes {
		m := &r.mistakes[i]
		n := p.outs[m.out].Node
		m.text = p.sheet.Print(n, m.right, m.round)
		if e := r.swapFor(m.out); e != nil {
			m.text = cmp.Or(p.copied(n, p.choices[e.choice].Node, p.choices[e.choice].Value), m.text)
		}
		r.writes = append(r.writes, write{n.At.Start, m.text})
	}
	if r.units != length.NoUnit {
		r.key = "units=" + r.units.String()
		return
	}
	parts := make([]string, len(r.writes))
	for i, w := range r.writes {
		parts[i] = strconv.Itoa(w.at) + "=" + w.text
	}
	slices.Sort(parts)
	r.key = strings.Join(parts, "\x00")
}

// search looks for the readings that count.
func (p *problem) search() {
	p.consider(hypothesis{})
	wrong := p.trouble()
	if len(wrong) > mostWrong { // too much cloth, of very many
		p.partly = true
		return
	}
	p.choices = p.base.Choices()
	if len(wrong) > 0 || len(astray(p.base)) > 0 {
		words := p.base.Worded()
		p.choices, p.words = append(p.choices, words...), len(words)
	}
	if len(wrong) == 0 { // only its units may be others, if that makes far more sense
		for _, u := range p.otherUnits() {
			if cost := p.unitsCost(u) + unasked; cost < p.low {
				p.consider(hypothesis{units: u, cost: cost})
			}
		}
		p.weighChoices()
		p.strayWords()
		p.senseless(nil)
		return
	}
	if p.window = windowMore; len(wrong) == 1 {
		p.window = windowOne
	}
	p.weighChoices()
	more := 0.0
	if len(p.ofCloths(wrong)) == len(wrong) && slices.ContainsFunc(p.choices, func(c worksheet.Choice) bool {
		return c.Value.Sort == worksheet.Length && length.Bare(c.Node.Text)
	}) {
		more = unasked // all sizes agree as they are read
	}
	for _, u := range p.otherUnits() {
		p.consider(hypothesis{units: u, cost: p.unitsCost(u) + more})
	}
	p.singles(hypothesis{}, wrong)
	p.pairs()
	if best := p.sorted()[0]; p.narrow && (len(best.mistakes) > 1 || p.strays(best)) { // some were passed over that count now
		p.wide, p.window = true, windowMore
		p.singles(hypothesis{}, wrong)
		p.pairs()
	}
	p.senseless(wrong)
}

// weighChoices finds how unlikely what is stated is, as far as that counts.
func (p *problem) weighChoices() {
	p.priors, p.usual = make([]float64, len(p.choices)), make([]*habit, len(p.choices))
	for i := range p.choices {
		p.usual[i] = new(habit)
		if i < len(p.figures()) {
			p.usual[i] = habitOf(p.sheet, &p.choices[i])
		}
	}
	p.uneven = p.unevenness()
	for i := range p.figures() {
		p.priors[i] = min(oddChoice, p.prior(i, p.choices[i].Value))
	}
}

// figures are the choices that are numbers.
func (p *problem) figures() []worksheet.Choice { return p.choices[:len(p.choices)-p.words] }

// senseless tries other values of choices that are beyond all sense, though nothing
// contradicts them, on top of every reading there is.
func (p *problem) senseless(wrong []int) {
	for i := range p.figures() {
		c := &p.choices[i]
		on := func(of *worksheet.Stated) bool { return p.base.Moves(c, of) }
		if !beyond(c) || slices.ContainsFunc(wrong, func(o int) bool { return on(&p.outs[o]) }) {
			continue // or it was tried
		}
		if !farBeyond(c) && !slices.ContainsFunc(p.outs, func(of worksheet.Stated) bool { return !of.Doubtful && on(&of) }) {
			continue // nothing stated rests on it, and it may well be so
		}
		says := p.priors[i]
		p.priors[i] = p.prior(i, c.Value)
		for _, r := range p.readings { // that it makes no sense speaks for them in full
			if r.changes(i) {
				r.total -= p.priors[i] - says
				p.low = min(p.low, r.total)
			}
		}
		list := p.candidates(hypothesis{}, nil, i, nil, p.window)
		cheapestFirst(list)
		readings := p.sorted()
		for _, e := range list[:min(len(list), fewGuesses)] {
			e.sense = true
			for _, r := range readings {
				if r.units == length.NoUnit && !r.changes(i) {
					p.consider(p.and(&r.hypothesis, e, nil))
				}
			}
		}
		for j := i - 1; j >= 0 && p.choices[j].Items[0] == c.Items[0]; j-- { // they stand item by item
			if farBeyond(c) && farBeyond(&p.choices[j]) && p.standTogether(c, &p.choices[j]) {
				p.swap(hypothesis{}, j, i, besides)
			}
		}
	}
}

// standTogether reports whether two choices stand in one block of the order, of an item or of
// a cloth, and are of one sort.
func (p *problem) standTogether(a, b *worksheet.Choice) bool {
	block := func(c *worksheet.Choice) string {
		path := p.sheet.Order.PathAt(c.Node.At)
		return path[:max(0, strings.LastIndexByte(path, '.'))]
	}
	return a.Value.Sort == b.Value.Sort && block(a) == block(b)
}

// focus sets the window by the cheapest reading.
func (p *problem) focus(best *reading) {
	if len(best.mistakes) > 1 || len(best.edits) == 0 || best.total > muchWrong || p.wide {
		p.window = windowMore
		return
	}
	p.narrow, p.window = true, windowOne
}

// trouble are the outcomes that the order as it stands contradicts, or has too much
// cloth in by a slip.
func (p *problem) trouble() (list []int) {
	for i := range p.outs {
		of := &p.outs[i]
		if (of.Agrees == worksheet.Differs || of.Agrees == worksheet.Impossible) && !of.Doubtful {
			list = append(list, i)
		}
	}
	for _, r := range p.sorted() {
		for _, m := range r.mistakes {
			if m.more && !contains(list, m.out) {
				list = append(list, m.out)
			}
		}
	}
	return list
}

// singles tries each choice that a contradicted outcome rests on, on top of a
// hypothesis.
func (p *problem) singles(h hypothesis, wrong []int) {
	type lead struct {
		choice      int
		left, least float64 // what it leaves wrong, and what a change of it costs
		list        []edit  // what it may have been meant to be, where it was looked at before
		seen        bool
	}
	var leads []lead
	terms := p.unlike(wrong)
	for i := range p.choices {
		c := &p.choices[i]
		if slices.ContainsFunc(h.edits, func(e edit) bool { return p.choices[e.choice].Node == c.Node }) {
			continue
		}
		if o, ok := p.at[c.Node]; ok && contains(wrong, o) {
			continue // it is what should be worked out that is wrong, not a choice
		}
		if !slices.ContainsFunc(wrong, func(o int) bool { return p.base.Moves(c, &p.outs[o]) }) {
			continue
		}
		l := lead{choice: i, least: p.baseOf(i) + cheapest + min(0, usually-p.priors[i])}
		if isWord(c) {
			l.least = math.Inf(-1) // other words may speak for themselves
		}
		for _, o := range wrong {
			if !p.base.Moves(c, &p.outs[o]) && !p.upstreamOf(o, terms) {
				l.left += baseOutcome + arithmetic - 2.6
			}
		}
		leads = append(leads, l)
	}
	// Those that explain most come first, and of these those that have few values, as the
	// others then have less to undercut.
	many := func(l lead) int {
		if c := &p.choices[l.choice]; c.Value.Sort == worksheet.Count || isWord(c) {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(leads, func(a, b lead) int {
		return cmp.Or(cmp.Compare(a.left, b.left), cmp.Compare(many(a), many(b)), cmp.Compare(a.least, b.least))
	})
	h.without = p.stands(h, nil)
	h.without[0].wrong = wrong
	start := p.try(&h, nil)
	p.thorough = false
	if p.low > muchWrong { // a first look, as most are not worth a second one if any of them is right
		for i := range leads {
			l := &leads[i]
			if l.left > leads[0].left {
				break
			}
			l.seen, l.list = true, p.candidates(h, start, l.choice, wrong, p.limit(&hypothesis{})-h.cost)
			cheapestFirst(l.list)
			for _, e := range l.list[:min(len(l.list), firstLook)] {
				p.consider(p.and(&h, e, nil))
			}
		}
	}
	p.thorough = p.low > muchWrong
	for _, l := range leads {
		most := p.limit(&hypothesis{}) - h.cost - l.left
		if l.least > most {
			continue
		}
		list := l.list
		if !l.seen || p.thorough {
			list = p.candidates(h, start, l.choice, wrong, most)
		}
		rival := math.Inf(1)
		if len(list) >= 4 && !leaps(&p.choices[l.choice]) {
			p.narrowDown(h, list, &rival)
			continue
		}
		cheapestFirst(list)
		for _, e := range list {
			p.consider(p.and(&h, e, &rival))
		}
	}
	p.done(start)
	p.swaps(h, wrong)
	p.swapsWithOutcomes(h, wrong)
	p.swapsWithIdle(h, wrong)
}

func cheapestFirst(list []edit) {
	slices.SortStableFunc(list, func(a, b edit) int { return cmp.Compare(a.cost, b.cost) })
}

// and is a hypothesis with one more edit.
func (p *problem) and(h *hypothesis, e edit, rival *float64) hypothesis {
	return hypothesis{edits: p.kept(h.edits, e), withdrawn: h.withdrawn, cost: h.cost + e.cost, without: h.without, rival: rival}
}

// narrowDown considers those values of a choice that may make a contradicted outcome
// right and nothing else wrong. As it grows or shrinks, so does what is worked from it:
// where two values leave an outcome on the same side of what is stated, all between them
// do.
func (p *problem) narrowDown(h hypothesis, list []edit, rival *float64) {
	slices.SortStableFunc(list, func(a, b edit) int { return cmp.Compare(number(a.value), number(b.value)) })
	var between func(low, high int, left, right []stand)
	between = func(low, high int, left, right []stand) {
		if low >= high {
			return
		}
		// The cheapest one of all, and of those that are not near either end.
		edge := (high - low) / 4
		least, mid := low, low+edge
		for i := low; i < high; i++ {
			if list[i].cost < list[least].cost {
				least = i
			}
			if i >= low+edge && i < high-edge && list[i].cost < list[mid].cost {
				mid = i
			}
		}
		if next := (hypothesis{cost: h.cost + list[least].cost, without: h.without, rival: rival}); p.hopeless(&next, left, right) {
			return
		}
		next := p.and(&h, list[mid], rival)
		if next.cost > p.limit(&next) {
			between(low, low+edge, left, nil)
			between(high-edge, high, nil, right)
			return
		}
		stands := p.consider(next)
		between(low, mid, left, stands)
		between(mid+1, high, stands, right)
	}
	at := number(p.choices[list[0].choice].Value)
	from := slices.IndexFunc(list, func(e edit) bool { return number(e.value) > at })
	if from < 0 {
		from = len(list)
	}
	if from > 0 {
		between(1, from, p.consider(p.and(&h, list[0], rival)), h.without)
	}
	if last := len(list) - 1; from <= last {
		between(from, last, h.without, p.consider(p.and(&h, list[last], rival)))
	}
}

// hopeless reports whether no value of a choice can count that lies between two that lead
// to left and to right, and costs no less than the last edit of a hypothesis.
func (p *problem) hopeless(h *hypothesis, left, right []stand) bool {
	if len(left) != len(right) || len(left) == 0 {
		return false
	}
	for k := range left {
		a, b := &left[k], &right[k]
		if !slices.Equal(a.withdrawn, b.withdrawn) {
			return false
		}
		wrong, cost := 0, h.cost
		for i := range a.sides {
			if a.sides[i] == b.sides[i] && a.sides[i].at != agreeing {
				if wrong++; wrong == 1 {
					cost += baseOutcome + arithmetic
				} else {
					cost += followsSlip
				}
			}
		}
		if cost > p.limit(h) {
			continue
		}
		was := slices.IndexFunc(h.without, func(s stand) bool { return slices.Equal(s.withdrawn, a.withdrawn) })
		if was < 0 || slices.ContainsFunc(h.without[was].wrong, func(i int) bool { return a.sides[i] != b.sides[i] || a.sides[i].at == agreeing }) {
			return false
		}
	}
	return true
}

// swapsWithOutcomes tries each choice with the value of a stated outcome that stands
// together with it on the form, which then has to be what the choice says.
func (p *problem) swapsWithOutcomes(h hypothesis, wrong []int) {
	for _, o := range slices.Sorted(slices.Values(wrong)) {
		of := &p.outs[o]
		field := p.base.FieldOf(of)
		if of.Quantity == nil {
			continue
		}
		for i := range p.figures() {
			c := &p.choices[i]
			slip := besides
			switch {
			case of.Slot.Item != c.Items[0] || of.Value.Sort != c.Value.Sort || of.Value == c.Value || of.Node == c.Node:
				continue
			case c.Swap == string(of.Quantity.Name):
				slip = twoSwapped
			case c.Cloth || !inOneBlock(c.Field, field) || h.cost+baseChoice+slip.cost+min(0, usually-p.priors[i]) > p.limit(&h):
				continue
			}
			cost := baseChoice + slip.cost + p.priorChange(i, of.Value)
			p.consider(hypothesis{edits: append(slices.Clone(h.edits), edit{choice: i, value: of.Value, cost: cost, slip: slip, text: p.copied(c.Node, of.Node, of.Value), with: o + 1}), withdrawn: h.withdrawn, cost: h.cost + cost})
		}
	}
}

// swapsWithIdle tries each choice with a number of its block that nothing rests on, or that
// can't be read where it stands, and that may be what the choice says.
func (p *problem) swapsWithIdle(h hypothesis, wrong []int) {
	for i := range p.figures() {
		c := &p.choices[i]
		if h.cost+baseChoice+besides.cost+min(0, usually-p.priors[i]) > p.limit(&h) || h.changes(i) || !p.movesSome(c, wrong) {
			continue
		}
		for _, n := range p.idleBeside(i) {
			v, _ := p.sheet.Read(c.Node, n.Text, c.Value.Sort)
			cost := baseChoice + besides.cost + p.priorChange(i, v)
			p.consider(hypothesis{edits: append(slices.Clone(h.edits), edit{choice: i, value: v, cost: cost, slip: besides, text: n.Text, idle: n}), withdrawn: h.withdrawn, cost: h.cost + cost, without: h.without})
		}
	}
}

// idleBeside are the numbers that a choice may have been swapped with and that are neither
// choices nor outcomes: each can be read in the other's place, and if they are not of one
// sort, that one can't be read in its own.
func (p *problem) idleBeside(choice int) []*order.Node {
	if p.idle == nil {
		p.idle = make([][]*order.Node, len(p.choices))
	}
	if p.idle[choice] != nil {
		return p.idle[choice]
	}
	c, list := &p.choices[choice], []*order.Node{}
	for _, f := range p.sheet.Beside(c) {
		_, out := p.at[f.Node]
		if out || slices.ContainsFunc(p.choices, func(c worksheet.Choice) bool { return c.Node == f.Node }) {
			continue
		}
		v, here := p.sheet.Read(c.Node, f.Node.Text, c.Value.Sort)
		_, there := p.sheet.Read(f.Node, c.Node.Text, f.Sort)
		_, reads := p.sheet.Read(f.Node, f.Node.Text, f.Sort)
		if here && there && v != c.Value && (f.Sort == c.Value.Sort || !reads) {
			list = append(list, f.Node)
		}
	}
	p.idle[choice] = list
	return list
}

// movesSome reports whether one of the outcomes rests on a choice, more cloth than that
// takes aside: that speaks for no swap.
func (p *problem) movesSome(c *worksheet.Choice, among []int) bool {
	return slices.ContainsFunc(among, func(o int) bool { return p.outs[o].Agrees != worksheet.More && p.base.Moves(c, &p.outs[o]) })
}

// copied is the text of one node where it says v at another one too; "" where it does not.
func (p *problem) copied(at, from *order.Node, v worksheet.Value) string {
	if read, ok := p.sheet.Read(at, from.Text, v.Sort); !ok || !same(read, v) {
		return ""
	}
	return from.Text
}

// inOneBlock reports whether two fields of an item stand in one block of the form, or both in
// none; never for one that is "".
func inOneBlock(a, b string) bool {
	block := func(field string) string { return field[:max(0, strings.IndexByte(field, '.'))] }
	return a != "" && b != "" && block(a) == block(b)
}

// near are those of many outcomes that one may be worked from: those of its item.
func (p *problem) near(of int, among []int) []int {
	if item := p.outs[of].Slot.Item; item >= 0 && len(among) > mostWrong {
		return p.ofItem(item, among)
	}
	return among
}

// ofItem are those of outcomes in their order that are an item's.
func (p *problem) ofItem(item int, among []int) []int {
	return worksheet.OfItem(among, item, func(i int) int { return p.outs[i].Slot.Item })
}

// ofCloths are those of outcomes in their order that are of cloths, not of items.
func (p *problem) ofCloths(among []int) []int {
	first := len(among)
	for first > 0 && p.outs[among[first-1]].Slot.Item < 0 {
		first--
	}
	return among[first:]
}

// unlike are, of very many outcomes, the first of each term: what rests on one rests on
// all that are stated for the same.
func (p *problem) unlike(list []int) []int {
	if len(list) <= mostWrong {
		return list
	}
	seen := make(map[worksheet.Slot]bool, len(list))
	unlike := make([]int, 0, len(list))
	for _, i := range list {
		if slot := p.outs[i].Slot; !seen[slot] {
			seen[slot] = true
			unlike = append(unlike, i)
		}
	}
	return unlike
}

// upstreamOf reports whether an outcome is worked from another of those.
func (p *problem) upstreamOf(of int, among []int) bool {
	among = p.near(of, among)
	return slices.ContainsFunc(among, func(on int) bool { return on != of && p.base.Rests(&p.outs[of], &p.outs[on]) })
}

// swaps tries two choices that stand together on the form with each other's values.
func (p *problem) swaps(h hypothesis, wrong []int) {
	for i := range p.figures() {
		a := &p.choices[i]
		if h.changes(i) {
			continue
		}
		for j := i + 1; j < len(p.figures()) && p.choices[j].Items[0] == a.Items[0]; j++ { // they stand item by item
			b := &p.choices[j]
			slip := swapOf(a, b)
			least := h.cost + baseChoice + slip.cost + min(0, usually-p.priors[i]) + min(0, usually-p.priors[j])
			if slip.stray() || a.Value == b.Value || least > p.limit(&h) || h.changes(j) || !p.movesSome(a, wrong) && !p.movesSome(b, wrong) {
				continue
			}
			p.swap(h, i, j, slip)
		}
	}
}

// swap tries two choices with each other's values, as they are read there.
func (p *problem) swap(h hypothesis, i, j int, slip blunder) {
	a, b := &p.choices[i], &p.choices[j]
	av, ok := p.sheet.Read(a.Node, b.Node.Text, a.Value.Sort)
	bv, ok2 := p.sheet.Read(b.Node, a.Node.Text, b.Value.Sort)
	if !ok || !ok2 {
		return
	}
	cost := baseChoice + slip.cost + p.priorChange(i, av) + p.priorChange(j, bv)
	p.consider(hypothesis{
		edits:     append(slices.Clone(h.edits), edit{choice: i, value: av, cost: cost, slip: slip, text: b.Node.Text}, edit{choice: j, value: bv, slip: slip, text: a.Node.Text}),
		withdrawn: h.withdrawn, cost: h.cost + cost, without: h.without,
	})
}

// swapOf is how two choices may come to have each other's values; a stray one where they
// don't stand together on the form.
func swapOf(a, b *worksheet.Choice) blunder {
	switch {
	case b.Term == a.Swap:
		if terms := a.Term + " " + b.Term; strings.Contains(terms, "width") && strings.Contains(terms, "length") {
			return swapped
		}
		return twoSwapped
	case a.Value.Sort == b.Value.Sort && !a.Cloth && !b.Cloth && inOneBlock(a.Field, b.Field):
		return besides
	}
	return blunder{}
}

func (p *problem) priorChange(choice int, v worksheet.Value) float64 {
	return p.prior(choice, v) - p.priors[choice]
}

func (p *problem) prior(choice int, v worksheet.Value) float64 {
	return prior(p.sheet, &p.choices[choice], p.usual[choice], v, p.uneven)
}

// pairs tries a second change on the best single ones, where the best reading so far
// holds two changes or more, or one that no slip explains of a value that is odd.
func (p *problem) pairs() {
	best := p.sorted()
	if len(best) == 0 || len(best[0].edits)+p.own(best[0]) < 2 && !p.strays(best[0]) && !p.copies(best[0]) {
		return
	}
	n, tried := 0, map[int]int{}
	for _, r := range best {
		if r.units != length.NoUnit || len(r.edits) != 1 || len(r.mistakes) == 0 {
			continue
		}
		if tried[r.edits[0].choice]++; tried[r.edits[0].choice] > mostValues {
			continue
		}
		if n++; n > firsts || r.cost+baseChoice > p.low+p.window {
			break
		}
		var wrong []int
		for _, m := range r.mistakes {
			wrong = append(wrong, m.out)
		}
		if len(wrong) > mostWrong {
			slices.Sort(wrong)
		}
		p.singles(r.hypothesis, wrong)
	}
}

// strays reports whether a reading is one change of a choice, of an odd value, that no
// slip explains.
func (p *problem) strays(r *reading) bool {
	return len(r.edits) == 1 && len(r.mistakes) == 0 && r.edits[0].slip.stray() && p.priors[r.edits[0].choice] >= oddEnough
}

// copies reports whether a reading blames an outcome that may be right.
func (p *problem) copies(r *reading) bool {
	return slices.ContainsFunc(r.mistakes, func(m mistake) bool { return p.mayBeCopied(r, m.out) })
}

// mayBeCopied reports whether one of several cuts that a reading blames has the finished size
// that it is worked from, and no other size or mass that is stated and right by the reading
// goes with that: then either may have been written for the other.
func (p *problem) mayBeCopied(r *reading, out int) bool {
	cut := &p.outs[out]
	return len(r.mistakes) > 1 && cut.OfCut() && slices.ContainsFunc(p.choices, func(c worksheet.Choice) bool {
		return c.Ordered && c.Value == cut.Value && p.base.Moves(&c, cut) &&
			!slices.ContainsFunc(p.outs, func(of worksheet.Stated) bool {
				return !of.Doubtful && of.Value.Sort != worksheet.Count && !r.wrong(p.at[of.Node]) && p.base.Moves(&c, &of)
			})
	})
}

// own is how many mistakes of a reading are of their own.
func (p *problem) own(r *reading) (n int) {
	for _, m := range r.mistakes {
		if m.follows < 0 {
			n++
		}
	}
	return n
}

// sorted are the readings that count, the cheapest first.
func (p *problem) sorted() (list []*reading) {
	for _, r := range p.readings {
		if r.total <= p.low+p.window {
			list = append(list, r)
		}
	}
	slices.SortFunc(list, func(a, b *reading) int { return cmp.Or(cmp.Compare(a.total, b.total), cmp.Compare(a.key, b.key)) })
	return list
}
