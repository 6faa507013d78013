package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var countOff = &rule.Rule{
	ID:       "hole/count-off",
	Title:    "wrong number of holes for their spacing",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.HoleCount},
	Off:      sayCountOff,
	Doc: `
Checks
The count of holes against the width, the distance of the first from the side and
the spacing. Where those three come out even with another count, and the spacing is
nearer the usual than the one the stated count gives, the count is taken to be wrong.
A spacing that keeps the holes off the joins is believed too.

Because
Punched holes can't be moved. One too few leaves a spare hook and a gap at the end of
the rod; most such mistakes come from counting the spaces instead of the holes.

Working
holes = (width - 2 × from the side) ÷ spacing + 1. A curtain's width is one panel's,
flat; its count is even.

Source
Engineer Fix, How many holes are in a standard shower curtain (12 on 72 in); Engineer
Fix, How many grommets per curtain panel (always even).
`,
}

func sayCountOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	h := &p.Sheet.Items[w.Quantity.Item].Order.Holes
	right := w.Quantity.Value.N
	message = fmt.Sprintf("The top needs %s; the order has %d.", many(right, h), w.Stated.N)
	if h.Spacing.Set {
		message = fmt.Sprintf("At %s apart the top needs %s; the order has %d.", p.Show(h.Spacing.Value), many(right, h), w.Stated.N)
	}
	return message, "Make it " + many(right, h)
}
