package form

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var splitNumber = &rule.Rule{
	ID:    "form/split-number",
	Title: "number that a comma may have split over two cells",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runSplitNumber,
	Doc: `
Checks
Whether a row of a table with commas between its cells has more cells than there are
headings, with bare whole numbers where the row runs over.

Because
In such a table 40,5 without quote marks is two cells, 40 and 5. The first is read as the
size, and what comes after is one cell too far to the right.

Working
One finding per row, at the number before the cell that is over. A row whose cell under
the last heading, or beyond it, is no bare whole number is not taken for one: it may have a
remark at its end. Nor is one where the row of headings has an empty cell there, where the
number before it is a count and no half or quarter stands further left, where the two make
no number that is written so (three decimals that are no eighths, a zero in front), or
where most rows run over by a cell: that is a column without a heading
(form/unheaded-column).

Source
common practice, no source
`,
}

func runSplitNumber(p *rule.Pass) {
	for _, f := range flaws(p, order.Split) {
		whole, part, _ := strings.Cut(f.Nearest, ",")
		number, write := whole+"."+part, "with a point"
		switch {
		case len(part) < 3, len(whole) > 1:
		case strings.Contains("125 375 625 875", part): // of eighths, or of thousands
			number, write = f.Nearest, "with a point or without the comma"
		default:
			number, write = f.Nearest, "without the comma"
		}
		message := fmt.Sprintf("This row has more cells than headings: is the %s %s, or %s, which its comma split over two cells?", f.Name, f.Text, number)
		if len(f.Words) > 1 {
			message += " Or was another number in the row split?"
		}
		p.Report(finding.Finding{At: f.At, Stated: f.Text, Message: message + " Write it " + write + ", or in quote marks."})
	}
}
