package width

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var countOff = &rule.Rule{
	ID:       "width/count-off",
	Title:    "number of pieces to cut is not what one of the item takes",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.PieceCount},
	Off:      sayCountOff,
	Doc: `
Checks
The count of a cut against the pieces that one of the item takes. A count that
follows from a wrong number of widths is part of that finding.

Because
A piece too few is found out when the bolt is back on its shelf, and one too many is
cloth in the scrap bin.

Working
pieces to cut = widths, rounded up to whole lengths: two halves are split from one.
A flat panel takes its center and two sides, or its equal pieces.

Source
Contract Decor, Calculating Drapery Yardage: whole lengths are cut
`,
}

func sayCountOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	name, right, takes := w.Quantity.Of, w.Quantity.Value.N, "it takes"
	if p.Sheet.Items[w.Quantity.Item].Quantity > 1 {
		takes = "each of them takes"
	}
	return fmt.Sprintf("The order cuts %s; %s %d.", pieces(w.Stated.N, name), takes, right),
		fmt.Sprintf("Cut %s", pieces(right, name))
}
