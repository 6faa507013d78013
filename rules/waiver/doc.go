// Package waiver checks what an order says to leave be: a waiver needs a rule
// that there is, a reason, and something to set aside, and ends with its last
// day. One about safety needs somebody who answers for it.
//
// A waiver that does not hold sets nothing aside, so what it names is reported
// as if it were not there. Of a waiver that could not be read whole the form's
// rules speak, and nothing is said here.
package waiver

import (
	"strings"

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
	name := u.Rule.Value
	switch {
	case u.Unknown:
		return "this rule"
	case strings.Contains(name, "/"):
		return name
	}
	return "the " + name + " rules"
}
