package length

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var liningCutOff = &rule.Rule{
	ID:    "length/lining-cut-off",
	Title: "lining or interlining is not cut to the face's finished length and its own hem",
	Level: finding.Error,
	Fix:   rule.Always,
	Run:   runLiningCutOff,
	Doc: `
Checks
The length stated for a cut of lining or interlining against the face's finished
length, what it is shorter at the foot, and its own hem.

Because
A lining cut short pulls the face up when it is hung, and one cut long shows
below it. It follows the finished length, not the face's cut, so a change of the
face's hem or repeat leaves it alone.

Working
lining cut = finished length - shorter + its hem, with its own shrinkage and
repeat. Interlining has no hem.

Source
common practice, no source
`,
}

func runLiningCutOff(p *rule.Pass) {
	for _, layer := range []struct {
		cut  worksheet.Name
		name string
	}{{worksheet.LiningCut, "lining"}, {worksheet.InterliningCut, "interlining"}} {
		for _, w := range p.Sheet.Wrongs(layer.cut) {
			right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
			p.ReportWrong(w,
				fmt.Sprintf("The %s is cut %s long; it should be %s.", layer.name, w.Stated.Format(p.Sheet.Unit, w.Quantity.Round), right),
				fmt.Sprintf("Cut the %s %s long", layer.name, right))
		}
	}
}
