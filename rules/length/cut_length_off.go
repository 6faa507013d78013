package length

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var cutLengthOff = &rule.Rule{
	ID:       "length/cut-length-off",
	Title:    "cut length does not match finished length and hems",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.CutLength},
	Off:      sayCutLengthOff,
	Doc: `
Checks
The length stated for a cut of the face cloth against the finished length, the
top hem or heading and the bottom hem, with shrinkage and pattern repeat.

Because
A piece cut short can't be let down. One cut long wastes cloth at every cut and hangs
on the floor.

Working
cut length = (finished length + top + bottom hem) ÷ (1 - shrinkage), rounded up
to whole repeats. A hem takes its turn times its folds.

Source
B. Talmadge, How to Calculate Yardage for Custom Draperies; M.Y.L. Ltd., Commonly
used formulas with examples, for the repeat.
`,
}

func sayCutLengthOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
	cut, it := "cut is", "it"
	if of := w.Quantity.Of; of != "" && of != "piece" && of != "width" {
		cut, it = of+" is cut", "the "+of
	}
	return fmt.Sprintf("The %s %s long; it should be %s.", cut, w.Stated.Format(p.Sheet.Unit, w.Quantity.Round), right),
		fmt.Sprintf("Cut %s %s long", it, right)
}
