// Package waiver checks an order's waivers: each needs a rule that exists, a
// reason and something to waive, and ends with its last day. One about safety
// needs somebody who answers for it.
//
// A waiver that does not hold waives nothing, so what it names is reported as if
// the waiver were not there. A waiver that could not be read whole is left to the
// form's rules.
package waiver

import (
	"cutgate/internal/rule"
)

// topic is the rules' own topic.
const topic = "waiver"

// readable returns the order's waivers that could be read whole.
func readable(p *rule.Pass) (list []*rule.WaiverUse) {
	for i := range p.Waivers {
		if u := &p.Waivers[i]; !u.Unread {
			list = append(list, u)
		}
	}
	return list
}

// called is what a waiver's rule or topic is called in a message.
func called(u *rule.WaiverUse) string {
	switch {
	case u.Unknown:
		return "this rule"
	case u.OneRule():
		return u.Rule.Value
	}
	return "the " + u.Rule.Value + " rules"
}
