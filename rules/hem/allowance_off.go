package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var allowanceOff = &rule.Rule{
	ID:       "hem/allowance-off",
	Title:    "hem allowance does not match the folds",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.HemTakes},
	Off:      sayAllowanceOff,
	Doc: `
Checks
The allowance stated for a hem against its turn and its folds.

Because
A double hem takes its depth twice. If it is counted once, the piece is cut a whole turn
short, and the hem or the drop is lost.

Working
hem takes = turn × folds, or, with a first turn of its own, first turn + turn ×
(folds - 1).

Source
B. Talmadge, How to Calculate Yardage for Custom Draperies.
`,
}

func sayAllowanceOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	q, u := w.Quantity, p.Sheet.Unit
	name, right := q.Of+" hem", q.Value.Format(u, q.Round)
	switch q.Of {
	case "sides":
		name = "side hem"
	case "lining":
		name = "lining's hem"
	}
	return fmt.Sprintf("The %s takes %s of the cut, not %s.", name, right, w.Stated.Format(u, q.Round)),
		fmt.Sprintf("Allow %s for the %s", right, name)
}
