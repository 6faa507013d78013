package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var foldsIsZero = &rule.Rule{
	ID:    "hem/folds-is-zero",
	Title: "hem has a turn but no folds",
	Level: finding.Error,
	Fix:   rule.Always,
	Asked: true,
	Run:   runFoldsIsZero,
	Doc: `
Checks
A hem that has a turn and 0 folds.

Because
The cut is worked out without the hem, and the piece comes up short by the whole hem.

Working
turn > 0 needs folds ≥ 1; 2 is a double hem.

Correction
Likely: a double hem, as where no folds are stated.

Source
common practice, no source
`,
}

func runFoldsIsZero(p *rule.Pass) {
	for _, e := range edges(p) {
		if !e.Folds.Set || e.Folds.Value != 0 || !e.turned(p) || p.Sheet.Doubted(e.Folds.Node) {
			continue
		}
		p.Report(finding.Finding{
			At: e.Folds.At,
			Message: fmt.Sprintf("The %s has a turn of %s but no folds, so no cloth is cut for it.", e.name,
				p.Show(e.Turn.Value)),
			Stated: e.Folds.Node.Text, Corrected: "2", Source: worksheet.Common,
			Fixes: p.Likely(e.Folds.Node, "2", "Fold it twice"),
		})
	}
}
