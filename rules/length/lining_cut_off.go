package length

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var liningCutOff = &rule.Rule{
	ID:       "length/lining-cut-off",
	Title:    "wrong cut length for the lining or interlining",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.LiningCut, worksheet.InterliningCut},
	Off:      sayLiningCutOff,
	Doc: `
Checks
The length stated for a cut of lining or interlining against the face's finished
length, how much shorter it is at the foot, and its own hem.

Because
A lining cut short pulls the face up when it is hung, and one cut long shows
below it. It follows the finished length, not the face's cut, so changing the face's
hem or repeat does not affect it.

Working
lining cut = finished length - shorter + its hem, with its own shrinkage and
repeat. Interlining has no hem.

Source
common practice, no source
`,
}

func sayLiningCutOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
	layer := strings.TrimSuffix(string(w.Quantity.Name), " cut length")
	return fmt.Sprintf("The %s is cut %s long; it should be %s.", layer, w.Stated.Format(p.Sheet.Unit, w.Quantity.Round), right),
		fmt.Sprintf("Cut the %s %s long", layer, right)
}
