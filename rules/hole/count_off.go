package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var countOff = &rule.Rule{
	ID:       "hole/count-off",
	Title:    "holes are not as many as their spacing takes",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.HoleCount},
	Off:      sayCountOff,
	Doc: `
Checks
The count of holes against the width, the distance of the first from the side and
the spacing. Where those three come out even with another count, and the spacing is
nearer to the usual pitch than the one that the stated count gives, the count is
the one that is wrong. A spacing that keeps the holes off the joins is believed too.

Because
Holes that are punched can't be moved. One too few leaves a hook over and a gap at
the end of the rod; most are lost by counting the spaces for the holes.

Working
holes = (width - 2 × from the side) ÷ spacing + 1. A curtain's width is that of one
panel, flat; its count is even.

Source
Engineer Fix, How many holes are in a standard shower curtain (12 on 72 in); Engineer
Fix, How many grommets per curtain panel (always even).
`,
}

func sayCountOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	h := &p.Sheet.Items[w.Quantity.Item].Order.Holes
	right := w.Quantity.Value.N
	message = fmt.Sprintf("The order has %s; the top takes %d.", many(w.Stated.N, h), right)
	if h.Spacing.Set {
		message = fmt.Sprintf("The order has %s; spaced %s, the top takes %d.", many(w.Stated.N, h), p.Show(h.Spacing.Value), right)
	}
	return message, "Make it " + many(right, h)
}
