package diagnose

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/worksheet"
)

// How sure a reading has to be.
const (
	certainly  = 0.95
	likelyOnly = 0.92
	likely     = 0.80
	farAhead   = 0.99
	rivalAhead = 6.0 // and the next reading at least so much dearer
	lawWindow  = 12.0
	slipWindow = 4.5
	stillOpen  = 5.0 // nats that another usual value may cost more and still be meant
	mostShown  = 3
	littleMore = 2.0 // nats that other values of a field may cost more that are shown beside the likeliest
	mostAlike  = 2   // of them
	unitsMore  = 3.0 // nats that other units of the whole order may cost more, to be shown
)

// A verdict is what is made of the readings.
type verdict struct {
	best      *reading
	certain   []int // mistakes of the best reading
	probable  []int
	done      []int // of these, what is often done, and no surer than that makes it
	choices   []int // edits of the best reading
	instead   map[write]*worksheet.Alternative
	farAhead  []bool
	unsettled []unsettled
	units     bool
}

// An unsettled is a part of the best reading that can be read in other ways.
type unsettled struct {
	first   []write
	or      []worksheet.Write      // other values of the one field that first writes into
	others  []other                // the likeliest first
	instead *worksheet.Alternative // what the order may say and all would agree; nil for nothing
	beyond  bool                   // what stands there is beyond all sense, and nothing more
}

// An other is another reading, with what it writes that the best one does not, and
// other values of the one field that it writes into.
type other struct {
	*reading
	writes []write
	or     []worksheet.Write
}

// A write is what a reading writes into one field.
type write struct {
	at   int // where the field stands
	text string
}

// decide says what of the cheapest reading is certain, what is likely, and what
// can be read in another way as well.
func (p *problem) decide() *verdict {
	list := p.sorted()
	if len(list) == 0 {
		return nil
	}
	v := &verdict{best: list[0], instead: map[write]*worksheet.Alternative{}}
	if v.best.units != length.NoUnit {
		v.units = true
		return v
	}
	if v.best.empty() {
		if v.best = p.senselessAfterAll(list); v.best == nil {
			return nil
		}
	}
	sum := 0.0
	byField, byWrite := map[int]float64{}, map[write]float64{}
	for _, r := range list {
		weight := math.Exp(p.low - r.total)
		sum += weight
		for _, w := range r.writes {
			byField[w.at] += weight
			byWrite[w] += weight
		}
	}
	var open []write // of the best reading, that are neither certain nor likely
	ws := v.best.writes
	firm := func(i int) bool {
		w := ws[i]
		if i < len(v.best.edits) && v.best.edits[i].cost > openWorld {
			return false // something that nobody thought of is likelier
		}
		if i < len(v.best.edits) && isWord(&p.choices[v.best.edits[i].choice]) {
			return byWrite[w]/sum >= likely // one word is not nearly another
		}
		return byWrite[w]/sum >= likely || byField[w.at]/sum >= likely && byWrite[w] >= 0.5*byField[w.at]
	}
	swap := true // both or neither
	for i, e := range v.best.edits {
		swap = swap && (firm(i) || !e.slip.swap())
		if k := v.best.swappedWith(e); k >= 0 {
			swap = swap && firm(len(v.best.edits)+k)
		}
	}
	for i, e := range v.best.edits {
		w := ws[i]
		c := &p.choices[e.choice]
		if a := p.insteadOfEdit(v.best, i); a != nil {
			v.instead[w] = a
			open = append(open, w)
		} else if e.sense || p.slipsSay(list, e) {
			open = append(open, w) // it may be so
		} else if firm(i) && (swap || !e.slip.swap()) {
			v.choices = append(v.choices, i)
			v.farAhead = append(v.farAhead, !c.Ordered && !isWord(c) || byWrite[w]/sum >= farAhead && p.rival(list, w) >= rivalAhead)
		} else {
			open = append(open, w)
		}
	}
	for k, m := range v.best.mistakes {
		w := ws[len(v.best.edits)+k]
		switch {
		case m.follows >= 0:
			continue // it goes with the one that it was worked on from
		case v.best.swapFor(m.out) != nil:
			if !swap {
				open = append(open, w)
			}
			continue // it goes with the choice that it was swapped with
		}
		local := min(m.cost, baseOutcome+otherOutcome) // it is no less sure for an odd value that stands there
		for _, f := range v.best.mistakes {
			if f.follows == k {
				local += f.cost
			}
		}
		share := byWrite[w] / sum
		if m.hem { // which says little, as hems add up to much
			share = unlikelier(share, otherOutcome-hemWrong.cost)
		}
		chance := share / (1 + math.Exp(local-openWorld))
		a := p.insteadOfMistake(v.best, k)
		switch {
		case a != nil:
			v.instead[w] = a
			open = append(open, w)
		case m.meant, p.onNonsense(v.best, &m), p.mayBeCopied(v.best, m.out), p.restsOnEdit(v.best, k, v.choices):
			open = append(open, w) // it may be right, or can't be worked out before that is settled
		case (m.more || m.often) && chance >= likely: // it may be wanted
			v.probable = append(v.probable, k)
			if m.often && unlikelier(share, baseOutcome+arithmetic-doneOften) < likelyOnly {
				v.done = append(v.done, k)
			}
		case !m.more && chance >= certainly && !p.hurried() && !p.outs[m.out].Unsure && !p.restsOnEdit(v.best, k, nil) && !p.offAlike(v.best, k) && !p.unproved(v.best, k) && p.lawful(list, v.best, k):
			v.certain = append(v.certain, k)
		case !m.more && chance >= likelyOnly:
			v.probable = append(v.probable, k)
		default:
			open = append(open, w)
		}
	}
	if len(open) > 0 {
		p.unsettle(v, list, open)
	}
	return v
}

// onNonsense reports whether a mistake is one by what it is worked from alone, as that is
// beyond the range of sense, far so where a slip explains the mistake, and stays so by a reading.
func (p *problem) onNonsense(r *reading, m *mistake) bool {
	for i := range p.figures() {
		c := &p.choices[i]
		if beyond(c) && (m.slip == nil || farBeyond(c)) && !r.changes(i) && c.Node != p.outs[m.out].Node && p.base.Moves(c, &p.outs[m.out]) {
			return true
		}
	}
	return false
}

// unproved reports whether a finished size is called wrong, and nothing that is stated and
// worked from it shows that it is: what it is worked from may be wrong as well.
func (p *problem) unproved(r *reading, k int) bool {
	of := &p.outs[r.mistakes[k].out]
	return strings.HasPrefix(p.base.FieldOf(of), "finished.") && !slices.ContainsFunc(p.outs, func(o worksheet.Stated) bool {
		return !o.Doubtful && o.Node != of.Node && !r.wrong(p.at[o.Node]) && p.base.Rests(&o, of)
	})
}

// offAlike reports whether another outcome of the item is as far off as one, by no slip or by
// the same of the pen, as if there were one reason for both.
func (p *problem) offAlike(r *reading, k int) bool {
	off := func(m *mistake) int64 { return p.outs[m.out].Value.N - m.right.N }
	slip := func(m *mistake) string {
		if m.slip == nil {
			return ""
		}
		return m.slip.Name
	}
	m := &r.mistakes[k]
	if m.right.Sort != worksheet.Length || slip(m) != "" && !contains(ofThePen, slip(m)) {
		return false
	}
	return slices.ContainsFunc(r.mistakes, func(o mistake) bool {
		return o.out != m.out && o.follows < 0 && o.right.Sort == m.right.Sort && slip(&o) == slip(m) &&
			p.outs[o.out].Slot.Item == p.outs[m.out].Slot.Item && off(&o) == off(m)
	})
}

// empty reports whether a reading takes the order as it stands.
func (r *reading) empty() bool { return len(r.edits)+len(r.mistakes)+len(r.withdrawn) == 0 }

// swappedWith is the mistake whose value an edit was swapped with; -1 for none.
func (r *reading) swappedWith(e edit) int {
	return slices.IndexFunc(r.mistakes, func(m mistake) bool { return e.with == m.out+1 })
}

// swaps are what a reading writes of values that were swapped.
func (r *reading) swaps() (list []write) {
	for i, e := range r.edits {
		if e.slip.swap() {
			list = append(list, r.writes[i])
		}
		if k := r.swappedWith(e); k >= 0 {
			list = append(list, r.writes[len(r.edits)+k])
		}
	}
	return list
}

// senselessAfterAll is the likeliest other value of a choice that is beyond all sense, where
// such values are together likelier than what stands there; nil where they are not.
func (p *problem) senselessAfterAll(list []*reading) (best *reading) {
	others := 0.0
	for _, r := range list {
		switch {
		case r.empty():
			others -= math.Exp(p.low - r.total)
		case slices.ContainsFunc(r.edits, func(e edit) bool { return e.sense }):
			others += math.Exp(p.low - r.total)
			best = cmp.Or(best, r)
		}
	}
	if others < 0 {
		return nil
	}
	return best
}

// slipsSay reports whether a change that no slip explains is not the only way to read its
// choice: two slips, of which one is in it, come near.
func (p *problem) slipsSay(list []*reading, e edit) bool {
	return e.slip.stray() && slices.ContainsFunc(list, func(r *reading) bool {
		return r.total-p.low < slipWindow && len(r.mistakes) == 0 && slices.ContainsFunc(r.edits, func(x edit) bool { return x.choice == e.choice && !x.slip.stray() }) &&
			!slices.ContainsFunc(r.edits, func(x edit) bool { return x.slip.stray() })
	})
}

// unlikelier is a chance that so many nats speak against.
func unlikelier(p, nats float64) float64 {
	less := p * math.Exp(-nats)
	return less / (1 - p + less)
}

// restsOnEdit reports whether the right value of an outcome, or of one that goes with it, is
// worked from a choice that is misread itself, but for some of the reading's edits.
func (p *problem) restsOnEdit(r *reading, k int, but []int) bool {
	for i, e := range r.edits {
		if !contains(but, i) && slices.ContainsFunc(r.mistakes, func(m mistake) bool {
			return (m.out == r.mistakes[k].out || m.follows == k) && p.base.Moves(&p.choices[e.choice], &p.outs[m.out])
		}) {
			return true
		}
	}
	return false
}

// rival is how much dearer the cheapest reading is that does not write w.
func (p *problem) rival(list []*reading, w write) float64 {
	for _, r := range list {
		if !contains(r.writes, w) {
			return r.total - p.low
		}
	}
	return math.Inf(1)
}

// alone reports whether an outcome is all that speaks for some choice: of the two
// either may be wrong.
func (p *problem) alone(out int) bool {
	for i := range p.figures() {
		c := &p.choices[i]
		if p.base.Moves(c, &p.outs[out]) && !slices.ContainsFunc(p.outs, func(of worksheet.Stated) bool {
			if weighs(c.Value.Sort) && of.Value.Sort != worksheet.Mass {
				return false // it rests on what sort of cloth that makes, not on the number
			}
			return of.Slot != p.outs[out].Slot && !of.Doubtful && p.base.Moves(c, &of)
		}) {
			return true
		}
	}
	return false
}

// restates reports whether an outcome should say what a choice says, as the cut width of what is
// cut from edge to edge.
func (p *problem) restates(m *mistake) bool {
	return slices.ContainsFunc(p.figures(), func(c worksheet.Choice) bool { return c.Value == m.right && p.base.Moves(&c, &p.outs[m.out]) })
}

// isCopy reports whether an outcome may be what a choice was copied from, not the other way
// round: they have the same value, and another, which is as likely as that, makes the outcome
// right and nothing else wrong.
func (p *problem) isCopy(list []*reading, best *reading, out int) bool {
	return slices.ContainsFunc(list, func(r *reading) bool {
		if len(r.edits) != 1 || r.wrong(out) || slices.ContainsFunc(r.mistakes, func(m mistake) bool { return !best.wrong(m.out) }) {
			return false
		}
		e := &r.edits[0]
		return p.choices[e.choice].Value == p.outs[out].Value && e.cost <= baseChoice+otherChoice+usually
	})
}

// wrong reports whether an outcome is wrong by a reading.
func (r *reading) wrong(out int) bool {
	return slices.ContainsFunc(r.mistakes, func(m mistake) bool { return m.out == out })
}

// usualElse reports whether another usual value of a choice, which states a usual one, makes
// all agree at little more: that of another cloth, as it were.
func (p *problem) usualElse(list []*reading) bool {
	return slices.ContainsFunc(list, func(r *reading) bool {
		if r.total-p.low > stillOpen || len(r.edits) != 1 || len(r.mistakes) > 0 {
			return false
		}
		e := &r.edits[0]
		own := p.usual[e.choice].own
		return slices.Contains(own, e.value) && slices.Contains(own, p.choices[e.choice].Value)
	})
}

// weighs reports whether a choice of that sort goes into masses.
func weighs(s worksheet.Sort) bool {
	return s == worksheet.Areal || s == worksheet.Linear || s == worksheet.Mass
}

// nearCount reports whether two counts differ by one, or one of them is twice the other.
func nearCount(a, b worksheet.Value) bool {
	return a.Sort == worksheet.Count && (a.N == b.N+1 || a.N == b.N-1 || a.N == 2*b.N || b.N == 2*a.N)
}

// lawful reports whether an outcome may be corrected without a word: never one that no
// slip explains, or one by which another size would come out so, where it is all that speaks
// for a choice or is worked from another outcome as that stands, never with cloth to buy that seems to be worked on from it,
// never a swap of which one half shows, never where a choice may have been copied from it, or another usual value of one explains
// all, never where a slip in one choice explains all at little more and none of its own working
// does, never one of several that one more change of a choice would explain, nor one of a chain, or of
// several that rest on one choice, where no slip explains what went wrong.
func (p *problem) lawful(list []*reading, best *reading, k int) bool {
	m := best.mistakes[k]
	if (m.slip == nil || m.leaps || m.right.Sort == worksheet.Mass || p.outs[m.out].Slot.Item < 0 || m.pen && p.restates(&m)) && p.alone(m.out) {
		return false // nothing is sure of a mass but what speaks for the cloth's weight, nor of cloth to buy, nor which of two should be as the other
	}
	if m.slip != nil && m.slip.Name == worksheet.SidesSwapped && m.swapped < 0 {
		return false // the other half of it does not show
	}
	if (m.slip == nil || nearCount(m.right, p.outs[m.out].Value)) && p.base.OnOutcome(&p.outs[m.out]) {
		return false // 15 or 16 holes are a matter of how the spacing was rounded, and 11 or 22 tabs of which was counted twice
	}
	if p.base.OnGuess(&p.outs[m.out]) || p.countedSo(m.out) {
		return false // another count would make up for it
	}
	if p.isCopy(list, best, m.out) || p.usualElse(list) {
		return false
	}
	if of := &p.outs[m.out]; of.Slot.Item < 0 && slices.ContainsFunc(p.base.Beliefs(), func(b worksheet.Belief) bool { return !b.Free && p.base.BelowSlot(of, b.Slot) }) {
		return false // that it was meant so may be the mistake
	}
	if item := p.outs[m.out].Slot.Item; item >= 0 {
		if m.slip == nil && p.base.Items[item].Unread {
			return false // what can't be read may be what was written in its place
		}
		if slices.ContainsFunc(p.base.Cloths, func(c worksheet.Cloth) bool { return c.TooWide != nil && contains(c.Items(), item) }) {
			return false // a size that it is worked from is no size of the cloth
		}
	}
	if m.cost > baseOutcome+arithmetic { // one other mistake explains all, by a slip or as poorly as this
		plain := m.slip == nil || m.slip.Name == ""
		for _, r := range list {
			if r.total-r.chosen-p.low >= slipWindow || r.units != length.NoUnit || r.wrong(m.out) {
				continue
			}
			if len(r.edits) == 0 && p.own(r) == 1 || len(r.edits) == 1 && len(r.mistakes) == 0 && (plain || r.edits[0].slip.name != "") {
				return false
			}
		}
	}
	if len(best.mistakes) < 2 {
		return true
	}
	for _, r := range list {
		if r.total-p.low > lawWindow || len(r.edits) <= len(best.edits) || r.units != length.NoUnit {
			continue
		}
		cleared, mine := 0, false
		for _, b := range best.mistakes {
			if !r.wrong(b.out) {
				cleared++
				mine = mine || b.out == m.out
			}
		}
		if cleared >= 2 && mine {
			return false
		}
	}
	chain := false
	for i, b := range best.mistakes {
		if i == k || b.follows != k || b.swapped >= 0 {
			continue
		}
		if p.outs[b.out].Slot.Item < 0 {
			return false // cloth is bought in steps so long that it goes with many a wrong size
		}
		chain = true
	}
	if chain && m.slip == nil {
		return false
	}
	for i, b := range best.mistakes {
		if i == k || b.follows >= 0 || m.slip != nil && b.slip != nil {
			continue
		}
		for c := range p.figures() {
			if p.base.Moves(&p.choices[c], &p.outs[b.out]) && p.base.Moves(&p.choices[c], &p.outs[m.out]) {
				return false
			}
		}
	}
	return true
}

// countedSo reports whether a length may be written for a count of its item, and that for
// the length: 6 holes 18 in apart where 18 of them would be 6 in apart.
func (p *problem) countedSo(out int) bool {
	of := &p.outs[out]
	n, ok := p.sheet.Read(of.Node, of.Node.Text, worksheet.Count)
	if of.Value.Sort != worksheet.Length || !ok {
		return false
	}
	return slices.ContainsFunc(p.base.Beliefs(), func(b worksheet.Belief) bool {
		k := slices.IndexFunc(p.outs, func(o worksheet.Stated) bool { return o.Slot == b.Slot })
		if b.Slot.Item != of.Slot.Item || k < 0 || p.outs[k].Value.Sort != worksheet.Count {
			return false
		}
		meant, ok := p.sheet.Read(of.Node, p.outs[k].Node.Text, worksheet.Length)
		t := p.try(&hypothesis{}, []worksheet.Forced{{Slot: b.Slot, Value: n}})
		defer p.done(t)
		return ok && t.at[out] != nil && t.at[out].Quantity != nil && closeTo(t.at[out].Quantity.Value, meant)
	})
}

// unsettle finds the other ways to read what is open in the best reading: the
// cheapest others that write into other fields. What comes and goes together is one
// question, what does not are several.
func (p *problem) unsettle(v *verdict, list []*reading, open []write) {
	best := v.best.writes
	for _, first := range p.counted(v, p.together(v.best, list, open)) {
		u := unsettled{first: first}
		u.beyond = slices.ContainsFunc(v.best.edits, func(e edit) bool { return e.sense && p.choices[e.choice].Node.At.Start == first[0].at })
		for _, w := range first {
			u.instead = cmp.Or(u.instead, v.instead[w])
		}
		fields := [][]int{fieldsOf(first)}
		for _, r := range list[1:] {
			if len(u.others) == mostShown-1 || r.total > v.best.total+windowOne {
				break
			}
			if r.units != length.NoUnit && r.total > v.best.total+unitsMore || p.spoils(r) {
				continue
			}
			theirs := r.writes
			lacks := !slices.ContainsFunc(first, func(w write) bool { return contains(theirs, w) })
			keeps := !slices.ContainsFunc(open, func(w write) bool { return !contains(first, w) && !contains(theirs, w) })
			if !lacks || !keeps && len(open) > len(first) {
				continue
			}
			if slices.ContainsFunc(best, func(w write) bool { return !contains(open, w) && writesElse(theirs, w) }) {
				continue // it has another value where one is settled
			}
			if u.beyond && slices.ContainsFunc(best, func(w write) bool { return !contains(first, w) && !contains(theirs, w) }) {
				continue // it is about something else
			}
			o := other{reading: r}
			if r.units != length.NoUnit {
				o.writes = []write{{at: p.sheet.Order.Units.Node.At.Start, text: r.units.String()}}
			} else {
				o.writes = slices.DeleteFunc(slices.Clone(theirs), func(w write) bool { return contains(best, w) })
			}
			f := fieldsOf(o.writes)
			had := holdsAll
			if p.strays(v.best) && len(r.edits) > 1 { // two slips, of which one is in the same field
				had = slices.Equal[[]int]
			}
			if len(f) == 0 || slices.ContainsFunc(fields, func(of []int) bool { return had(f, of) }) {
				continue
			}
			u.others, fields = append(u.others, o), append(fields, f)
		}
		u.or = p.alike(list, v.best, first)
		for i := range u.others {
			u.others[i].or = p.alike(list, u.others[i].reading, u.others[i].writes)
		}
		v.unsettled = append(v.unsettled, u)
	}
}

// spoils reports whether a reading makes a choice that makes sense into one that makes none.
func (p *problem) spoils(r *reading) bool {
	return slices.ContainsFunc(r.edits, func(e edit) bool {
		c := &p.choices[e.choice]
		return !beyond(c) && makesNoSense(c, e.value)
	})
}

// writesElse reports whether a list writes something else where w does.
func writesElse(list []write, w write) bool {
	return slices.ContainsFunc(list, func(x write) bool { return x.at == w.at && x.text != w.text })
}

// alike are other values for the one choice of a part of a reading: of the cheapest
// readings that write into the same fields and have others there, if they cost little more
// and are not as good as the same.
func (p *problem) alike(list []*reading, of *reading, part []write) (or []worksheet.Write) {
	if len(part) != 1 {
		return nil
	}
	var told []worksheet.Value // none of an outcome, which has one right value
	for _, e := range of.edits {
		if p.choices[e.choice].Node.At.Start == part[0].at {
			told = append(told, e.value)
		}
	}
	fields := fieldsOf(of.writes)
	for _, r := range list {
		if r.total > of.total+littleMore || len(or) == mostAlike || len(told) == 0 {
			break
		}
		if r.total < of.total || r.units != length.NoUnit || p.spoils(r) || !slices.Equal(fieldsOf(r.writes), fields) {
			continue
		}
		for i, e := range r.edits {
			if r.writes[i].at == part[0].at && !slices.ContainsFunc(told, func(v worksheet.Value) bool { return closeTo(v, e.value) }) {
				told = append(told, e.value)
				or = append(or, worksheet.Write{Text: r.writes[i].text, Slip: slipCalled(e.slip.name)})
			}
		}
	}
	return or
}

// together groups what is open by what comes and goes together: two are one question
// where few of the readings that lack one of them have the other, or where they are
// swapped in the best.
func (p *problem) together(best *reading, list []*reading, open []write) (groups [][]write) {
	swapped := best.swaps()
	const seldom = 0.3
	group := make([]int, len(open))
	for i := range open {
		group[i] = i
		for j := range i {
			var one, lack float64
			for _, r := range list {
				theirs, weight := r.writes, math.Exp(p.low-r.total)
				a, b := contains(theirs, open[i]), contains(theirs, open[j])
				if !a || !b {
					lack += weight
				}
				if a != b {
					one += weight
				}
			}
			if one < seldom*lack || contains(swapped, open[i]) && contains(swapped, open[j]) {
				group[i] = group[j]
				break
			}
		}
	}
	for i := range open {
		var g []write
		for j := range open {
			if group[j] == i {
				g = append(g, open[j])
			}
		}
		if len(g) > 0 {
			groups = append(groups, g)
		}
	}
	return groups
}

// counted joins the groups of an item whose counts are all for a quantity that it leaves out.
func (p *problem) counted(v *verdict, groups [][]write) (joined [][]write) {
	at := map[int]int{} // of the joined ones, by item
	for _, g := range groups {
		a := v.instead[g[0]]
		if a == nil || a.Field != quantity {
			joined = append(joined, g)
		} else if k, ok := at[a.Items[0]]; ok {
			joined[k] = append(joined[k], g...)
		} else {
			at[a.Items[0]] = len(joined)
			joined = append(joined, g)
		}
	}
	return joined
}

// holdsAll reports whether all of some fields are among others.
func holdsAll(list, of []int) bool {
	return !slices.ContainsFunc(of, func(x int) bool { return !contains(list, x) })
}

func fieldsOf(list []write) (f []int) {
	for _, w := range list {
		f = append(f, w.at)
	}
	slices.Sort(f)
	return f
}
