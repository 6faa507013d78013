package lint

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

// WaiverTopic is the topic of the rules about waivers. They are run when all
// others have, over orders that have waivers, and what they find can't be waived.
const WaiverTopic = "waiver"

// SafetyTopic is the topic of the rules about what can hurt someone. What those
// find that are errors, whatever level a shop gives them, is waived only by a
// waiver of that one rule that says who answers for it and until when.
const SafetyTopic = "safety"

// waivers returns the waivers of an order, those of its items first, as far as
// they are known before anything is waived.
func (c *Checker) waivers(o *order.Order) []rule.WaiverUse {
	n := len(o.Waive)
	for i := range o.Items {
		n += len(o.Items[i].Waive)
	}
	if n == 0 {
		return nil
	}
	uses := make([]rule.WaiverUse, 0, n)
	for i := range o.Items {
		uses = c.use(uses, o, &o.Items[i], o.Items[i].Waive)
	}
	return c.use(uses, o, nil, o.Waive)
}

// use adds the waivers that stand in one place.
func (c *Checker) use(uses []rule.WaiverUse, o *order.Order, of *order.Item, list []order.Waiver) []rule.WaiverUse {
	for i := range list {
		w := &list[i]
		u := rule.WaiverUse{Waiver: w, Of: of, Unread: !w.Rule.Set || flawed(o, w.At)}
		// A rule that is switched off is there all the same.
		if name := w.Rule.Value; w.Rule.Set && !slices.Contains(c.names, name) {
			u.Unknown, u.Nearest = true, rule.Nearest(name, c.names)
		}
		u.Past = w.Until.Set && w.Until.Value < c.Today
		u.Far = w.Until.Set && c.Today != "" && w.Until.Value > c.lastDay()
		u.Index = len(uses)
		uses = append(uses, u)
	}
	return uses
}

// lastDay is the last day until which an error about safety may be waived today.
func (c *Checker) lastDay() string {
	today, err := time.Parse(time.DateOnly, c.Today)
	if err != nil {
		return ""
	}
	return today.AddDate(0, 0, rule.LongestSafety).Format(time.DateOnly)
}

// flawed reports whether something within a range could not be taken as written.
func flawed(o *order.Order, in source.Range) bool {
	for f := range o.FlawsIn(in) {
		if f.Kind != order.OtherWord {
			return true
		}
	}
	return false
}

func within(outer, inner source.Range) bool {
	return outer.Start <= inner.Start && inner.End <= outer.End
}

// waive takes out of the findings those that a waiver sets aside, and notes on
// each waiver what came of it. A finding about a waiver, by whatever rule,
// stays. Of several waivers that name a finding, the first that holds has it.
func (c *Checker) waive(uses []rule.WaiverUse, found []finding.Finding) (kept []finding.Finding, waived []finding.Waived) {
	kept = make([]finding.Finding, 0, len(found))
	w := newWaivers(uses)
	for i := range found {
		if by := c.match(w, &found[i]); by != nil {
			waived = append(waived, finding.Waived{
				Finding: found[i], Because: strings.TrimSpace(by.Because.Value), By: strings.TrimSpace(by.By.Value), Until: by.Until.Value,
			})
		} else {
			kept = append(kept, found[i])
		}
	}
	w.note()
	return kept, waived
}

// A waiverIndex finds the waivers that may concern a finding.
type waiverIndex struct {
	order  map[string]*reach   // waivers of the whole order, by the rule or topic that they name
	items  map[string][]*reach // those of an item, in the order of the file
	starts []int               // where waivers begin, sorted
	ends   []int               // the furthest end of the waivers that begin so far
}

// A reach is the waivers that name the same in the same place. Whatever finding one of
// them matches, all do.
type reach struct {
	in      source.Range // of the item; the zero range for the whole order
	uses    []*rule.WaiverUse
	first   *rule.WaiverUse // that holds
	safe    *rule.WaiverUse // the first that holds for an error about safety
	matched int
	signed  int // of these, the errors about safety
}

func (r *reach) add(u *rule.WaiverUse) {
	r.uses = append(r.uses, u)
	if u.Holds() && r.first == nil {
		r.first = u
	}
	if u.Holds() && u.HoldsSafety() && r.safe == nil {
		r.safe = u
	}
}

func newWaivers(uses []rule.WaiverUse) *waiverIndex {
	type place struct {
		name string
		in   source.Range
	}
	w := &waiverIndex{order: map[string]*reach{}, items: map[string][]*reach{}}
	items := map[place]*reach{}
	places := make([]source.Range, len(uses))
	for i := range uses {
		u := &uses[i]
		places[i] = u.At
		name := u.Rule.Value
		if u.Of == nil {
			if w.order[name] == nil {
				w.order[name] = new(reach)
			}
			w.order[name].add(u)
			continue
		}
		at := place{name, u.Of.At}
		if items[at] == nil {
			items[at] = &reach{in: u.Of.At}
			w.items[name] = append(w.items[name], items[at])
		}
		items[at].add(u)
	}
	for _, list := range w.items {
		slices.SortFunc(list, func(a, b *reach) int { return cmp.Compare(a.in.Start, b.in.Start) })
	}
	slices.SortFunc(places, func(a, b source.Range) int { return a.Start - b.Start })
	end := 0
	for _, at := range places {
		end = max(end, at.End)
		w.starts, w.ends = append(w.starts, at.Start), append(w.ends, end)
	}
	return w
}

// note notes on each waiver what was matched.
func (w *waiverIndex) note() {
	each := func(r *reach) {
		for _, u := range r.uses {
			u.Matched = r.matched
			if !u.HoldsSafety() {
				u.Refused = r.signed
			}
		}
	}
	for _, r := range w.order {
		each(r)
	}
	for _, list := range w.items {
		for _, r := range list {
			each(r)
		}
	}
}

// reaching are the waivers of that name that reach a place: those of its item, and those
// of the whole order. Items don't overlap.
func (w *waiverIndex) reaching(name string, at source.Range) [2]*reach {
	found := [2]*reach{w.order[name]}
	list := w.items[name]
	n, _ := slices.BinarySearchFunc(list, at.Start+1, func(r *reach, start int) int { return r.in.Start - start })
	if n > 0 && within(list[n-1].in, at) {
		found[1] = list[n-1]
	}
	return found
}

// about reports whether a place lies in a waiver.
func (w *waiverIndex) about(at source.Range) bool {
	n, _ := slices.BinarySearch(w.starts, at.Start+1)
	return n > 0 && w.ends[n-1] >= at.End
}

// match returns the waiver that sets a finding aside, or nil.
func (c *Checker) match(w *waiverIndex, f *finding.Finding) (by *rule.WaiverUse) {
	if w.about(f.At) {
		return nil
	}
	topic, _, _ := strings.Cut(f.Rule, "/")
	signed := slices.Contains(c.signed, f.Rule)
	for _, name := range [...]string{f.Rule, topic} {
		for _, r := range w.reaching(name, f.At) {
			if r == nil {
				continue
			}
			r.matched++
			u := r.first
			if signed {
				r.signed++
				u = r.safe
			}
			if u != nil && (by == nil || u.Index < by.Index) {
				by = u
			}
		}
	}
	return by
}
