package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var mergedCells = &rule.Rule{
	ID:    "form/merged-cells",
	Title: "value in cells that were merged",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runMergedCells,
	Doc: `
Checks
Whether a value of an item or a cloth stands in cells of a workbook that were
merged into one.

Because
Whoever looks at the sheet reads the value for all of the rows and columns that
the cell lies over. For the workbook it is in the first of them only, and the
others are empty; so it is read here.

Working
What an order says of itself may be merged down the rows of its items: it counts
for all of them anyway.

Source
common practice, no source
`,
}

func runMergedCells(p *rule.Pass) {
	for _, f := range flaws(p, order.Merged) {
		p.Report(finding.Finding{
			At: f.At, Stated: f.Text,
			Message: fmt.Sprintf("The cells %s are merged: %s counts for the first of them only. Take them apart, and write it where it belongs.", f.Detail, quote(f.Text)),
		})
	}
}
