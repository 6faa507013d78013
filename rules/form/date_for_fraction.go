package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var dateForFraction = &rule.Rule{
	ID:    "form/date-for-fraction",
	Title: "fraction turned into a date by the spreadsheet",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runDateForFraction,
	Doc: `
Checks
Whether a table has a date in a cell where a measure belongs.

Because
Unless told otherwise, a spreadsheet reads 3/8 as the eighth of March or the third
of August, and keeps the date. What was typed is gone.

Working
Of the two fractions that the month and day can make, it is the one found on a
tape: a half, quarters, eighths, sixteenths, in lowest terms.

Correction
The fraction is written only with --likely, in case the date was meant. Set the column's
cells to text before typing.

Source
common practice, no source
`,
}

func runDateForFraction(p *rule.Pass) {
	for _, f := range flaws(p, order.Dated) {
		out := finding.Finding{At: f.At, Stated: f.Text, Corrected: f.Nearest}
		out.Message = fmt.Sprintf("The spreadsheet turned %s into the date %s", field(f), quote(f.Text))
		if f.Nearest != "" {
			out.Message += ": was " + f.Nearest + " typed?"
			out.Fixes = p.Likely(f.Node, f.Nearest, "Write "+f.Nearest)
		} else {
			out.Message += fmt.Sprintf(": set the cell to text and write %s.", f.Wanted)
		}
		p.Report(out)
	}
}
