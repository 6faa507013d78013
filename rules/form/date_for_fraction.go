package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var dateForFraction = &rule.Rule{
	ID:    "form/date-for-fraction",
	Title: "fraction that a spreadsheet made a date of",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runDateForFraction,
	Doc: `
Checks
Whether a date stands in a cell of a table where a measure belongs.

Because
A spreadsheet that is not told otherwise takes 3/8 for the eighth of March, or
the third of August, and keeps the date. What was typed is gone.

Working
Of the date's month and day, the fraction is the one that a tape has: a half,
quarters, eighths, sixteenths, in lowest terms.

Correction
The fraction is written on request, as the date might be one after all. Set the
column's cells to text before anything is typed.

Source
common practice, no source
`,
}

func runDateForFraction(p *rule.Pass) {
	for _, f := range flaws(p, order.Dated) {
		out := finding.Finding{At: f.At, Stated: f.Text, Corrected: f.Nearest}
		out.Message = fmt.Sprintf("%s should be %s; a spreadsheet made the date %s of it", begin(field(f)), f.Wanted, quote(f.Text))
		if f.Nearest != "" {
			out.Message += ": was " + f.Nearest + " typed?"
			out.Fixes = p.Likely(f.Node, f.Nearest, "Write "+f.Nearest)
		} else {
			out.Message += "."
		}
		p.Report(out)
	}
}
