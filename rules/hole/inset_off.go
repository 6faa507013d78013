package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var insetOff = &rule.Rule{
	ID:       "hole/inset-off",
	Title:    "first hole is not where count and spacing leave it",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.HoleInset},
	Off:      sayInsetOff,
	Doc: `
Checks
The distance of the first hole from the side against the width, the count and the
spacing. It is the one that is wrong where the spacing is the usual pitch, or nearer
to it than the one that the stated distance gives, and what count and spacing leave
at the sides is about what is usual there. A hole past the middle is wrong in any
case.

Because
Marked out from the wrong place, every hole after the first is off by as much, and
the last one is off by twice that.

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
	message = fmt.Sprintf("The first %s is put %s from the side; %d of them, spaced %s, leave %s at each side.",
		word(h), p.Show(w.Stated.Length()), len(it.Holes), p.Show(h.Spacing.Value), right)
	if !h.Spacing.Set || !h.Count.Set {
		message = fmt.Sprintf("The first %s is put %s from the side, which is past the middle; %s is usual.",
			word(h), p.Show(w.Stated.Length()), right)
	}
	return message, fmt.Sprintf("Put the first %s from the side", right)
}
