package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var insetOff = &rule.Rule{
	ID:       "hole/inset-off",
	Title:    "first hole is in the wrong place for the count and spacing",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.HoleInset},
	Off:      sayInsetOff,
	Doc: `
Checks
The distance of the first hole from the side against the width, the count and the
spacing. The distance is taken to be wrong where the stated spacing is nearer the usual
than the one the distance gives, and count and spacing leave about the usual at the
sides. A hole past the middle is always wrong.

Because
Marked out from the wrong place, every hole is off, and the last one ends up twice as
far off from its side.

Working
from the side = (width - spacing × (holes - 1)) ÷ 2

Source
Engineer Fix, How many holes are in a standard shower curtain (3 in on each side);
common practice, no source.
`,
}

func sayInsetOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	it := &p.Sheet.Items[w.Quantity.Item]
	h := &it.Order.Holes
	right := p.Show(w.Quantity.Value.Length())
	message = fmt.Sprintf("The first %s is %s from the side; %d of them, %s apart, leave %s at each side.",
		word(h), p.Show(w.Stated.Length()), len(it.Holes), p.Show(h.Spacing.Value), right)
	if !h.Spacing.Set || !h.Count.Set {
		message = fmt.Sprintf("The first %s is %s from the side, past the middle of the panel; %s is usual.",
			word(h), p.Show(w.Stated.Length()), right)
	}
	return message, fmt.Sprintf("Put the first %s from the side", right)
}
