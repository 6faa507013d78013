// Package diagnose finds which stated value of an order is wrong, where stated
// outcomes disagree with what was worked out: the cheapest set of slips that makes
// everything stated agree.
//
// # The method
//
// An explanation is a set of changes to choices; outcomes are not changed, they
// follow. The order is worked out with the changed choices, and each stated outcome
// that disagrees is a mistake of its own, priced by the cheapest slip that leads from
// the worked value to the stated one, or was worked on from another mistake. This is
// error localisation after Fellegi and Holt (1976), with edit operations in place of
// changed fields (S. Scholtus, A generalized Fellegi-Holt paradigm for automatic error
// localization, Survey Methodology 2016).
//
// # Law
//
// What is certain may be written into the order without asking, so it never is a
// value that the other stated ones support, and never one of several that one other
// change would explain. What can be read in two ways is told with both readings.
//
// # What it is not
//
// It works nothing out itself, and has no words for people beyond the names of slips.
package diagnose

import (
	"cmp"
	"slices"

	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/worksheet"
)

// Order finds what is wrong with the stated values of an order and notes it on its
// sheet. Where choices are likely misread, the sheet is worked out anew from what
// they should say.
func Order(s *worksheet.Sheet) {
	if !troubled(s) {
		return
	}
	if rename(s); !troubled(s) {
		return
	}
	p := newProblem(s)
	defer p.leave()
	if wrong := p.trouble(); len(wrong) <= mostWrong {
		p.search()
	} else if !p.crowded(wrong) {
		p.each(wrong)
		return
	}
	v := p.decide()
	if v == nil {
		return
	}
	p.note(v)
}

// troubled reports whether there is something to look for in a sheet.
func troubled(s *worksheet.Sheet) bool { return disagrees(s) || odd(s) || len(astray(s)) > 0 }

// rename takes the rows of a sheet that have the sizes of another piece than they say for
// rows of that one, and works the sheet out anew: unless that leaves something wrong, and a
// misread choice explains all.
func rename(s *worksheet.Sheet) {
	list := s.FindMisnamed()
	if len(list) == 0 {
		return
	}
	o := *s.Order
	o.Items = slices.Clone(o.Items)
	for _, m := range list {
		it := &o.Items[m.Item]
		it.Cuts = slices.Clone(it.Cuts)
		it.Cuts[m.Cut].Piece.Value = m.Piece
	}
	anew := s.Try(&o, &worksheet.Trial{Full: true})
	if troubled(anew) && explained(s) {
		return
	}
	s.Misnamed = list
	take(s, anew)
}

// explained reports whether a misread choice explains all that a sheet contradicts.
func explained(s *worksheet.Sheet) bool {
	p := newProblem(s)
	defer p.leave()
	if len(p.trouble()) > mostWrong {
		return false
	}
	p.search()
	list := p.sorted()
	return p.low <= muchWrong && len(list[0].mistakes) == 0
}

// take puts a sheet that was worked out anew in the place of another.
func take(s, anew *worksheet.Sheet) {
	anew.Keep(s)
	*s = *anew
	s.Rebase()
}

// disagrees reports whether a stated outcome is wrong, or there is too much cloth.
func disagrees(s *worksheet.Sheet) bool {
	return slices.ContainsFunc(s.Stated, func(of worksheet.Stated) bool {
		return (of.Agrees == worksheet.Differs || of.Agrees == worksheet.More || of.Agrees == worksheet.Impossible) && !of.Doubtful
	})
}

// note puts a verdict on the sheet.
func (p *problem) note(v *verdict) {
	s := p.sheet
	if v.units {
		p.noteUnits(v)
		return
	}
	b := v.best
	// The likely choices are worked on from.
	h := hypothesis{withdrawn: b.withdrawn}
	for _, i := range v.choices {
		h.edits = append(h.edits, b.edits[i])
	}
	if len(v.unsettled) > 0 { // what is not settled is shown as it stands
		h.withdrawn = slices.DeleteFunc(slices.Clone(h.withdrawn), func(s worksheet.Slot) bool {
			return !slices.ContainsFunc(append(slices.Clone(v.certain), v.probable...), func(k int) bool { return p.outs[b.mistakes[k].out].Slot == s })
		})
	}
	var misread []worksheet.Misread
	var chosen []worksheet.Wrong // choices that are outcomes too, where others say more
	for k, i := range v.choices {
		e := b.edits[i]
		c := &p.choices[e.choice]
		m := worksheet.Misread{Name: c.Name, Items: c.Items, Node: c.Node, At: c.Node.At, Stated: c.Value, Corrected: p.printed(e), FarAhead: v.farAhead[k] && (!c.Cloth || !s.Spare())} // or a cloth that nothing is cut from was meant
		m.Slip = slipCalled(e.slip.name)
		if of, ok := s.OutcomeAt(c.Node); ok && e.slip.name != worksheet.TwoSwapped {
			w := worksheet.Wrong{Quantity: of, At: c.Node.At, Node: c.Node, Stated: c.Value, Corrected: m.Corrected, Slip: m.Slip, Likely: true}
			w.Quantity.Value, w.Quantity.Source = e.value, worksheet.Common
			chosen = append(chosen, w)
			continue
		}
		misread = append(misread, m)
		if x := b.swappedWith(e); x >= 0 {
			of := &p.outs[b.mistakes[x].out]
			misread[len(misread)-1].With = of.Node
			misread = append(misread, worksheet.Misread{Name: p.called(of), Items: c.Items, Node: of.Node, At: of.Node.At, Stated: of.Value, Corrected: b.mistakes[x].text, With: c.Node, FarAhead: m.FarAhead})
		} else if n := e.idle; n != nil {
			misread[len(misread)-1].With = n
			misread = append(misread, worksheet.Misread{Name: nameOf(n), Items: c.Items, Node: n, At: n.At, Stated: e.value, Corrected: c.Node.Text, With: c.Node, FarAhead: m.FarAhead})
		}
	}
	p.swapTogether(misread, b, v)
	agree := p.agreeing(b)
	for i := range misread {
		misread[i].Agree = agree
		if len(b.edits) > 1 { // each has its own
			misread[i].Agree = p.resting(agree, b, misread[i].Node)
		}
	}
	if len(h.edits) > 0 || len(h.withdrawn) > 0 {
		p.adopt(h)
	}
	s.Misread, s.Wrong = misread, chosen
	for _, k := range append(slices.Clone(v.certain), v.probable...) {
		w, ok := p.wrong(b, k)
		if !ok {
			continue
		}
		w.Likely, w.Open = contains(v.probable, k), w.Open || contains(v.done, k)
		s.Wrong = append(s.Wrong, w)
	}
	for i := range v.unsettled {
		p.noteUnsettled(b, &v.unsettled[i])
	}
	slices.SortStableFunc(s.Wrong, byPlace)
}

func byPlace(a, b worksheet.Wrong) int { return cmp.Compare(a.At.Start, b.At.Start) }

// printed is what an edit writes, in the person's own way of writing.
func (p *problem) printed(e edit) string {
	return cmp.Or(e.text, p.sheet.Print(p.choices[e.choice].Node, e.value, length.Nearest))
}

// swapTogether joins two choices that were swapped.
func (p *problem) swapTogether(list []worksheet.Misread, b *reading, v *verdict) {
	for _, i := range v.choices {
		for _, j := range v.choices {
			if i == j || !b.edits[i].slip.swap() || !b.edits[j].slip.swap() {
				continue
			}
			for k := range list {
				if list[k].Node == p.choices[b.edits[i].choice].Node {
					list[k].With = p.choices[b.edits[j].choice].Node
				}
			}
		}
	}
}

// adopt works the order out with a hypothesis, for good.
func (p *problem) adopt(h hypothesis) {
	o := *p.sheet.Order
	for _, e := range h.edits {
		p.choices[e.choice].Take(e.value)
	}
	if slices.ContainsFunc(h.edits, func(e edit) bool { return !p.choices[e.choice].Cloth }) {
		o.Items = slices.Clone(o.Items)
	}
	if slices.ContainsFunc(h.edits, func(e edit) bool { return p.choices[e.choice].Cloth }) {
		o.Cloths, o.Measured = slices.Clone(o.Cloths), slices.Clone(o.Measured)
	}
	for _, e := range h.edits {
		c := &p.choices[e.choice]
		c.Take(c.Value)
	}
	take(p.sheet, p.sheet.Try(&o, &worksheet.Trial{Withdrawn: h.withdrawn, Full: true}))
}

// agreeing are the outcomes that the order as it stands contradicts and that a
// reading makes right.
func (p *problem) agreeing(r *reading) (list []worksheet.Wrong) {
	for i := range p.outs {
		of := &p.outs[i]
		if of.Agrees != worksheet.Differs || of.Doubtful || r.wrong(i) {
			continue
		}
		list = append(list, worksheet.Wrong{Quantity: of.Quantity, Node: of.Node, At: of.Node.At, Stated: of.Value})
	}
	return list
}

// resting are those outcomes of a list that a reading does not make right without what it
// writes at a node; all of them where there are none.
func (p *problem) resting(list []worksheet.Wrong, r *reading, n *order.Node) []worksheet.Wrong {
	without := hypothesis{withdrawn: r.withdrawn, edits: slices.DeleteFunc(slices.Clone(r.edits), func(e edit) bool { return p.choices[e.choice].Node == n })}
	t := p.try(&without, nil)
	defer p.done(t)
	off := t.differs()
	rest := slices.DeleteFunc(slices.Clone(list), func(w worksheet.Wrong) bool {
		return !slices.ContainsFunc(off, func(o int) bool { return p.outs[o].Node == w.Node })
	})
	if len(rest) == 0 {
		return list
	}
	return rest
}

// wrong is a mistake of a reading, with those that follow from it.
func (p *problem) wrong(r *reading, k int) (w worksheet.Wrong, ok bool) {
	m := r.mistakes[k]
	of := p.statedNow(p.outs[m.out].Node)
	if of == nil || of.Agrees != worksheet.Differs && of.Agrees != worksheet.More && of.Agrees != worksheet.Impossible {
		return w, false // it is as the order is worked out while something else is open
	}
	w = p.sheet.WrongOf(of, m.slip)
	for _, f := range r.mistakes {
		if f.follows != k {
			continue
		}
		if of := p.statedNow(p.outs[f.out].Node); of != nil {
			w.Also = append(w.Also, worksheet.Also{Node: of.Node, Corrected: p.sheet.WrongOf(of, nil).Corrected})
		}
	}
	return w, true
}

func (p *problem) statedNow(n *order.Node) *worksheet.Stated {
	for i := range p.sheet.Stated {
		if p.sheet.Stated[i].Node == n && p.sheet.Stated[i].Quantity != nil {
			return &p.sheet.Stated[i]
		}
	}
	return nil
}

// noteUnits notes that the order was meant in other units.
func (p *problem) noteUnits(v *verdict) {
	s := p.sheet
	m := worksheet.Misread{
		Name: "units", Node: s.Order.Units.Node, At: s.Order.Units.At, Corrected: v.best.units.String(), Units: true,
		Agree: p.agreeing(v.best),
	}
	m.FarAhead = len(m.Agree) > 0 // small goods are ordered too
	take(s, s.Try(reread(s.Order, v.best.units), &worksheet.Trial{Full: true}))
	s.Misread = []worksheet.Misread{m}
}

// noteUnsettled notes what can be read in several ways.
func (p *problem) noteUnsettled(best *reading, u *unsettled) {
	more := !slices.ContainsFunc(p.outs, func(of worksheet.Stated) bool {
		return !of.Doubtful && (of.Agrees == worksheet.Differs || of.Agrees == worksheet.Impossible)
	})
	d := worksheet.Disagreement{Instead: u.instead, More: more, Beyond: u.beyond, Readings: []worksheet.Reading{p.readingOf(best, u.first, u.or)}}
	for _, o := range u.others {
		d.Readings = append(d.Readings, p.readingOf(o.reading, o.writes, o.or))
	}
	if !slices.ContainsFunc(d.Readings, func(r worksheet.Reading) bool {
		return slices.ContainsFunc(r.Writes, func(w worksheet.Write) bool { return w.Quantity != nil })
	}) {
		off, first := p.agreeing(best), d.Readings[0].Writes[0]
		if i := slices.IndexFunc(off, func(w worksheet.Wrong) bool { return slices.Contains(first.Items, w.Quantity.Item) }); i >= 0 {
			d.Off = &off[i]
		}
	}
	p.sheet.Disagreements = append(p.sheet.Disagreements, d)
}

// readingOf is a part of a reading in words. Or are other values of the one choice that
// it writes into.
func (p *problem) readingOf(r *reading, part []write, or []worksheet.Write) (one worksheet.Reading) {
	if r.units != length.NoUnit {
		one.Writes = append(one.Writes, worksheet.Write{Name: "units", Node: p.sheet.Order.Units.Node, Text: r.units.String()})
		return one
	}
	for i, w := range r.writes {
		if i < len(r.edits) {
			e := r.edits[i]
			if c := &p.choices[e.choice]; contains(part, w) {
				one.Writes = append(one.Writes, worksheet.Write{Name: c.Name, Items: c.Items, Node: c.Node, Text: w.text, Or: or, Slip: slipCalled(e.slip.name), Word: isWord(c)})
				if e.idle != nil {
					one.Writes = append(one.Writes, worksheet.Write{Name: nameOf(e.idle), Items: c.Items, Node: e.idle, Text: c.Node.Text, Slip: slipCalled(e.slip.name)})
				}
			}
			continue
		}
		m := r.mistakes[i-len(r.edits)]
		of := &p.outs[m.out]
		root := m
		if m.follows >= 0 {
			root = r.mistakes[m.follows]
		}
		if contains(part, w) || m.follows >= 0 && contains(part, write{p.outs[root.out].Node.At.Start, root.text}) {
			one.Writes = append(one.Writes, worksheet.Write{Name: p.called(of), Node: of.Node, Text: m.text, Slip: m.slip, Follows: m.follows >= 0, Quantity: of.Quantity})
		}
	}
	return one
}

// slipCalled is a slip of writing; nil for none that is known.
func slipCalled(name string) *worksheet.Slip {
	if name == "" {
		return nil
	}
	return &worksheet.Slip{Name: name}
}

// nameOf is what messages call a number that nothing rests on: its field.
func nameOf(n *order.Node) string { return "`" + n.Name + "`" }

// called is what messages call an outcome.
func (p *problem) called(of *worksheet.Stated) string {
	if of.Quantity == nil {
		return of.Node.Name
	}
	return of.Quantity.Called()
}
