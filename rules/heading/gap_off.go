package heading

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var gapOff = &rule.Rule{
	ID:       "heading/gap-off",
	Title:    "gap between tabs does not fit the panel",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.TabGap},
	Off:      sayGapOff,
	Doc: `
Checks
The gap between tabs against the panel's flat width, the count of tabs and their
width. The panel may be of whole and half widths, or cut down to its fullness:
either will do.

Because
There is a tab at each edge. With a wrong gap the last one misses the edge, and the
corner droops.

Working
gap = (panel width, flat - tabs × tab width) ÷ (tabs - 1). There is one gap fewer than
there are tabs.

Source
Singer Sewing for the Home, casings and tabs
`,
}

func sayGapOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	it := &p.Sheet.Items[w.Quantity.Item]
	right := p.Show(w.Quantity.Value.Length())
	return fmt.Sprintf("The order spaces the tabs %s apart; %d of them fill the width at %s.", p.Show(w.Stated.Length()), it.Count(string(worksheet.TabCount)), right),
		fmt.Sprintf("Sew the tabs %s apart", right)
}
