package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var turnIsZero = &rule.Rule{
	ID:    "hem/turn-is-zero",
	Title: "hem is folded but has no turn",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runTurnIsZero,
	Doc: `
Checks
A hem with folds whose turn is 0.

Because
The cut is worked out without the hem, and when it comes to sewing there is no cloth to
fold.

Working
folds > 0 needs a turn > 0. A turn of 0 without folds is an edge left as it is, such as
a selvedge.

Correction
Shown: only the maker can say how deep the hem should be.

Source
common practice, no source
`,
}

func runTurnIsZero(p *rule.Pass) {
	for _, e := range edges(p) {
		if !e.Turn.Set || e.Turn.Value != 0 || e.Folds.Value < 1 || p.Sheet.Doubted(e.Turn.Node) {
			continue
		}
		p.Report(finding.Finding{
			At:      e.Turn.At,
			Message: fmt.Sprintf("The %s is folded, but its turn is 0, so no cloth is cut for it.", e.name),
			Stated:  e.Turn.Node.Text, Source: worksheet.Common,
			Fixes: finding.Advice("Write how deep the hem is turned, or take its folds out"),
		})
	}
}
