package form

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
)

var outcomeOff = &rule.Rule{
	ID:    "form/outcome-off",
	Title: "stated figure differs from the one worked out",
	Level: finding.Error,
	Fix:   rule.Always,
	Run:   runOutcomeOff,
	Doc: `
Checks
Stated figures that have no rule of their own: the length of a zip, the depth of a
boxing strip, the number of tabs.

Because
Whatever is worked out wrong is cut wrong.

Working
Each finding shows the formula with its numbers.

Source
the source of the formula, beside each finding
`,
}

func runOutcomeOff(p *rule.Pass) {
	for i := range p.Sheet.Wrong {
		w := &p.Sheet.Wrong[i]
		if slices.ContainsFunc(p.Rules, func(r *rule.Rule) bool { return r.Claims(p, w) }) {
			continue
		}
		name := w.Quantity.Called()
		right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
		p.ReportWrong(w, fmt.Sprintf("The %s should be %s; the order says %s.", name, right, w.Stated.Format(p.Sheet.Unit, length.Nearest)),
			fmt.Sprintf("Make the %s %s", name, right))
	}
}
