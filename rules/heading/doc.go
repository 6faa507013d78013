// Package heading checks the top of a curtain: its fullness, and the pleats, tabs, tape
// or pocket that take it up.
package heading

import (
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// suits is the span of fullness that suits a heading, in words: "2 to 2.5", "3".
func suits(least, most length.Ratio) string {
	if least.Cmp(most) == 0 {
		return least.Format(2)
	}
	return least.Format(2) + " to " + most.Format(2)
}

// wrong reports whether one of the item's quantities of those names is already
// found wrong.
func wrong(p *rule.Pass, it *worksheet.Item, names ...worksheet.Name) bool {
	return p.Sheet.InDoubt(it.Index, "", names...)
}
