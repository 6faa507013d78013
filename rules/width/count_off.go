package width

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var countOff = &rule.Rule{
	ID:       "width/count-off",
	Title:    "wrong number of pieces to cut",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.PieceCount},
	Off:      sayCountOff,
	Doc: `
Checks
The count of a cut against the pieces one item needs. A count that
follows from a wrong number of widths is part of that finding.

Because
A missing piece is found out when the bolt is back on its shelf, and an extra one is
cloth in the scrap bin.

Working
pieces to cut = widths, rounded up to whole lengths: two halves are split from one.
A flat panel takes its center and two sides, or its equal pieces.

Source
Contract Decor, Calculating Drapery Yardage: whole lengths are cut
`,
}

func sayCountOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	name, right, takes := w.Quantity.Of, w.Quantity.Value.N, "it needs"
	if p.Sheet.Items[w.Quantity.Item].Quantity > 1 {
		takes = "each item needs"
	}
	return fmt.Sprintf("The order cuts %s; %s %d.", worksheet.Many(w.Stated.N, name), takes, right),
		"Cut " + worksheet.Many(right, name)
}
