package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var unheadedColumn = &rule.Rule{
	ID:    "form/unheaded-column",
	Title: "column without a heading",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runUnheadedColumn,
	Doc: `
Checks
Whether a table has anything in a column without a heading.

Because
It was not read. That is right for a remark beside the table, and wrong for a size
whose heading was lost.

Working
One finding per column, at its first entry. A row with a single entry that begins
with # is a remark, and so is anything above the headings.

Source
common practice, no source
`,
}

func runUnheadedColumn(p *rule.Pass) {
	for _, f := range flaws(p, order.Unheaded) {
		p.Report(finding.Finding{
			At: f.At, Stated: f.Text,
			Message: fmt.Sprintf("%s is in a column without a heading, so it was not read. Give the column a heading if it belongs to the order.", quote(f.Text)),
		})
	}
}
