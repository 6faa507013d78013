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
	for i := range o.Flaws {
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
	for i := range found {
		if by := c.match(uses, &found[i]); by != nil {
			waived = append(waived, finding.Waived{
				Finding: found[i], Because: strings.TrimSpace(by.Because.Value), By: strings.TrimSpace(by.By.Value), Until: by.Until.Value,
			})
		} else {
			kept = append(kept, found[i])
		}
	}
	return kept, waived
}

// match returns the waiver that sets a finding aside, or nil.
func (c *Checker) match(uses []rule.WaiverUse, f *finding.Finding) (by *rule.WaiverUse) {
	for i := range uses {
		if within(uses[i].At, f.At) {
			return nil
		}
	}
	for i := range uses {
		u := &uses[i]
		if !rule.Names(u.Rule.Value, f.Rule) || u.Of != nil && !within(u.Of.At, f.At) {
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
