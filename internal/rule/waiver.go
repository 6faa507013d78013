package rule

import (
	"slices"
	"strings"
	"unicode"

	"cutgate/internal/order"
)

// A WaiverUse is a waiver on the order and what came of it.
type WaiverUse struct {
	*order.Waiver
	Of      *order.Item // the item that it stands on; nil for the whole order
	Index   int         // among the waivers of the order
	Unread  bool        // a part of it is missing or could not be read, which the form's rules report
	Unknown bool        // it names neither a rule nor a topic
	Nearest string      // the name that was likely meant by an unknown one, or ""
	Past    bool        // its last day is over
	Far     bool        // its last day is more than LongestSafety days off
	Matched int         // the findings within its reach that it names
	Refused int         // those of them that it can't set aside, errors about safety
}

// LongestSafety is how many days a waiver of an error about safety holds at most: a
// year, and a month to look at it again.
const LongestSafety = 400

// Reasoned reports whether the waiver says why.
func (u *WaiverUse) Reasoned() bool { return Says(u.Because.Value) }

// Signed reports whether the waiver says who answers for it.
func (u *WaiverUse) Signed() bool { return Says(u.By.Value) }

// OneRule reports whether the waiver names a rule, and not a whole topic.
func (u *WaiverUse) OneRule() bool { return strings.Contains(u.Rule.Value, "/") }

// HoldsSafety reports whether the waiver is one that can set an error about safety
// aside: it names that one rule, somebody answers for it, and it ends before long.
func (u *WaiverUse) HoldsSafety() bool {
	return u.Signed() && u.Until.Set && u.OneRule() && !u.Far
}

// Says reports whether a text has a letter that can be seen. Marks and digits alone
// are no name and no reason, nor are the letters that fill a place without being
// seen.
func Says(text string) bool {
	return strings.ContainsFunc(text, func(r rune) bool {
		switch r {
		case '\u115f', '\u1160', '\u3164', '\uffa0': // the fillers of Hangul, which Unicode has as letters
			return false
		}
		return unicode.IsLetter(r) && !unicode.Is(unicode.Lm, r)
	})
}

// Holds reports whether the waiver sets aside what it names.
func (u *WaiverUse) Holds() bool { return !u.Unread && !u.Unknown && !u.Past && u.Reasoned() }

// Names reports whether name, of a rule or of a topic, means the rule of that
// ID.
func Names(name, id string) bool {
	rest, ok := strings.CutPrefix(id, name)
	return ok && name != "" && (rest == "" || rest[0] == '/')
}

// Nearest returns which of the names of rules and topics a person may have
// meant, or "": one that lacks its topic only, or else one a few letters off.
func Nearest(name string, names []string) string {
	name = strings.ToLower(strings.Join(strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == '_' || r == '-' }), "-"))
	if len(name) < 2 || len(name) > 64 {
		return ""
	}
	if i := slices.IndexFunc(names, func(n string) bool { return strings.HasSuffix(n, "/"+name) }); i >= 0 {
		return names[i]
	}
	return order.Closest(name, names, len(name)/3+1, func(n string) string { return n })
}
