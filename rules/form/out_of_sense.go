package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var outOfSense = &rule.Rule{
	ID:    "form/out-of-sense",
	Title: "number beyond all sense",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runOutOfSense,
	Doc: `
Checks
Whether numbers are such as things made of cloth can have: no width of nothing,
no curtain of five kilometers, no shrinkage of eighty percent.

Because
A number like that is a slip of the pen or of the unit, and nothing can be worked
out from it.

Working
Each kind of measure has limits far outside anything that is made. Sizes must be
more than zero.

Correction
Likely, of an outcome: what is worked out for it.

Source
common practice, no source
`,
}

func runOutOfSense(p *rule.Pass) {
	for _, f := range flaws(p, order.OutOfSense) {
		out := finding.Finding{
			At:      f.At,
			Message: and(fmt.Sprintf("%s can't be %s: that makes no sense for it.", begin(field(f)), clip(f.Text)), f.Detail),
			Stated:  f.Text,
		}
		workedOut(p, f, &out)
		p.Report(out)
	}
}
