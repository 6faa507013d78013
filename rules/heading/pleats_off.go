package heading

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var pleatsOff = &rule.Rule{
	ID:       "heading/pleats-off",
	Title:    "wrong number of pleats for their spacing",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.PleatCount},
	Off:      sayPleatsOff,
	Doc: `
Checks
The number of pleats in a panel against the width they are spread over and their spacing,
where the spacing is the likelier to be right.

Because
There is a pleat at each end, so one more than there are spaces. With one too few, the
last space hangs open at the return or in the middle of the pair.

Working
pleats = track ÷ panels ÷ spacing + 1; without a track, the finished width.

Source
eHow UK, How to calculate the fabric for pinch-pleated curtains; Singer Sewing for the
Home, pleats.
`,
}

func sayPleatsOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	it := &p.Sheet.Items[w.Quantity.Item]
	h, what := &it.Order.Heading, "A panel"
	if it.Heading == nil {
		what = "The " + it.Order.Kind.Value
	}
	right := w.Quantity.Value.N
	has := worksheet.Many(w.Stated.N, "pleat")
	message = fmt.Sprintf("%s has %s; it needs %d.", what, has, right)
	if h.Spacing.Set {
		message = fmt.Sprintf("%s has %s; at %s apart it needs %d.", what, has, p.Show(h.Spacing.Value), right)
	}
	return message, fmt.Sprintf("Sew %d pleats", right)
}
