package lint

import (
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
	// They stand in the order of the file.
	first, _ := slices.BinarySearchFunc(o.Flaws, in.Start, func(f order.Flaw, at int) int { return f.At.Start - at })
	for i := first; i < len(o.Flaws) && o.Flaws[i].At.Start <= in.End; i++ {
		if f := &o.Flaws[i]; f.Kind != order.OtherWord && within(in, f.At) {
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
	return kept, waived
}

// A waiverIndex finds the waivers that may concern a finding.
type waiverIndex struct {
	byName map[string][]*rule.WaiverUse // by the rule or topic that they name, in their order
	starts []int                        // where waivers begin, sorted
	ends   []int                        // the furthest end of the waivers that begin so far
}

func newWaivers(uses []rule.WaiverUse) *waiverIndex {
	w := &waiverIndex{byName: make(map[string][]*rule.WaiverUse)}
	places := make([]source.Range, len(uses))
	for i := range uses {
		name := uses[i].Rule.Value
		w.byName[name] = append(w.byName[name], &uses[i])
		places[i] = uses[i].At
	}
	slices.SortFunc(places, func(a, b source.Range) int { return a.Start - b.Start })
	end := 0
	for _, at := range places {
		end = max(end, at.End)
		w.starts, w.ends = append(w.starts, at.Start), append(w.ends, end)
	}
	return w
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
	own, all := w.byName[f.Rule], w.byName[topic]
	for len(own) > 0 || len(all) > 0 {
		u := next(&own, &all)
		if u.Of != nil && !within(u.Of.At, f.At) {
			continue
		}
		u.Matched++
		switch {
		case !u.HoldsSafety() && slices.Contains(c.signed, f.Rule):
			u.Refused++
		case by == nil && u.Holds():
			by = u
		}
	}
	return by
}

// next takes the waiver that stands first from two lists of them.
func next(a, b *[]*rule.WaiverUse) *rule.WaiverUse {
	from := a
	if len(*a) == 0 || len(*b) > 0 && (*b)[0].Index < (*a)[0].Index {
		from = b
	}
	u := (*from)[0]
	*from = (*from)[1:]
	return u
}
