package heading

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var spacingOff = &rule.Rule{
	ID:       "heading/spacing-off",
	Title:    "pleat spacing does not fit the width",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.PleatSpacing},
	Off:      saySpacingOff,
	Doc: `
Checks
The spacing of the pleats against their number and the width they are spread over. Where
their number is not stated the spacing is a wish, and they are counted by it.

Because
Pleats spaced too wide or too close make the panel wider or narrower than its part of the
track, by as much at every space.

Working
spacing = track ÷ panels ÷ (pleats - 1); without a track, the finished width. There
is one space fewer than there are pleats.

Source
eHow UK, How to calculate the fabric for pinch-pleated curtains; Singer Sewing for the
Home, pleats.
`,
}

func saySpacingOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	it := &p.Sheet.Items[w.Quantity.Item]
	right := p.Show(w.Quantity.Value.Length())
	return fmt.Sprintf("The order spaces the pleats %s apart; %d of them fill the width at %s.", p.Show(w.Stated.Length()), it.Get(worksheet.PleatCount).Value.N, right),
		fmt.Sprintf("Space the pleats %s apart", right)
}
