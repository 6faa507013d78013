package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var mergedCells = &rule.Rule{
	ID:    "form/merged-cells",
	Title: "entry in merged cells",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runMergedCells,
	Doc: `
Checks
Whether an entry for an item or a cloth is in merged cells of a workbook.

Because
On the sheet the entry seems to count for every row and column that the merged cell
covers. The workbook keeps it in the first one only, with the others empty, and so
it is read here.

Working
The order's own entries may be merged down the rows of its items: they count for all
of them anyway.

Source
common practice, no source
`,
}

func runMergedCells(p *rule.Pass) {
	for _, f := range flaws(p, order.Merged) {
		p.Report(finding.Finding{
			At: f.At, Stated: f.Text,
			Message: fmt.Sprintf("Cells %s are merged, so %s counts for the first only: unmerge them and write it in every cell where it belongs.", f.Detail, quote(f.Text)),
		})
	}
}
