package width

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var liningWidthsOff = &rule.Rule{
	ID:       "width/lining-widths-off",
	Title:    "wrong number of lining or interlining widths for the flat width",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.LiningWidths, worksheet.InterliningWidths},
	Off:      sayLiningWidthsOff,
	Doc: `
Checks
The widths of lining or interlining against the face's flat width, how much narrower
the layer is, and what a width of its own cloth gives.

Because
A lining cloth is often wider or narrower than the face, so the face's number of
widths is wrong for it.

Working
lining widths = (flat width - narrower) ÷ usable width, rounded up to a half in each
panel. Interlining stops at the side hems.

Source
common practice, no source
`,
}

func sayLiningWidthsOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	right := w.Corrected
	layer := strings.TrimSuffix(string(w.Quantity.Name), " widths")
	has := w.Node.Text
	return fmt.Sprintf("The %s has %s %s; it needs %s.", layer, has, number(has, "widths"), right),
		fmt.Sprintf("Use %s %s for the %s", right, number(right, "widths"), layer)
}
