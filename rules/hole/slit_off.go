package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var slitOff = &rule.Rule{
	ID:       "hole/slit-off",
	Title:    "buttonhole length does not fit the hook",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.HoleSlit},
	Off:      saySlitOff,
	Doc: `
Checks
The length of the buttonholes against the thickness of the hook or ring that goes
through, plus ease. Where the order gives no ease, a longer buttonhole is the
maker's choice.

Because
A slit too short is torn open by the first hook; one too long gapes.

Working
buttonhole length = hook thickness + ease

Source
common practice, no source
`,
}

func saySlitOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
	return fmt.Sprintf("The buttonholes are %s long; for this hook and its ease they should be %s.",
			w.Stated.Format(p.Sheet.Unit, w.Quantity.Round), right),
		fmt.Sprintf("Make them %s long", right)
}
