// Package fabric checks what an order says about its cloths: fibers and their
// shares, selvedge and repeat against the width, shrinkage, weight, and what the
// cutter measured.
package fabric

import (
	"strings"
	"unicode"

	"cutgate/internal/order"
	"cutgate/internal/trade"
)

// isOther reports whether a fiber's name is a label's word for what is not
// named: other fiber, other fibers.
func isOther(name string) bool {
	return strings.HasPrefix(strings.ToLower(name), "other")
}

// generic returns the fiber of a name, in which words such as organic, merino or
// recycled may stand before the generic one.
func generic(t *trade.Tables, name string) (*trade.Fiber, bool) {
	if f, ok := t.FiberByName(name); ok {
		return f, true
	}
	name, _, _ = strings.Cut(name, " from ") // viscose from bamboo
	words := strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) })
	for i := range words {
		if f, ok := t.FiberByName(strings.Join(words[i:], " ")); ok {
			return f, true
		}
	}
	return nil, false
}

// nearest returns which of the names a person may have meant, or "".
func nearest(name string, names []string) string {
	name = strings.ToLower(name)
	if len(name) > 64 {
		return ""
	}
	return order.Closest(name, names, min(max(2, len(name)/3)+1, len(name)), strings.ToLower)
}
