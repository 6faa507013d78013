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
Whether something stands in a column of a table that has no heading.

Because
It was not looked at. That is right for a remark beside the table, and wrong for
a size whose heading was lost.

Working
One finding for each such column, at its first text. A row with nothing but a text
that begins with # is a remark, and so is what stands above the headings.

Source
common practice, no source
`,
}

func runUnheadedColumn(p *rule.Pass) {
	for _, f := range flaws(p, order.Unheaded) {
		p.Report(finding.Finding{
			At: f.At, Stated: f.Text,
			Message: fmt.Sprintf("%s stands under no heading, and was not looked at.", quote(f.Text)),
		})
	}
}
