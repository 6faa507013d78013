package form

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var outOfSense = &rule.Rule{
	ID:    "form/out-of-sense",
	Title: "impossible number",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runOutOfSense,
	Doc: `
Checks
Whether numbers are possible for things made of cloth: no width of zero, no
five-kilometer curtain, no shrinkage of eighty percent.

Because
Such a number is a slip of the pen or a wrong unit, and nothing can be worked out
from it.

Working
Each kind of measure has limits far beyond anything that is made. Sizes must be more
than zero.

Correction
With --likely, what can be worked out is written as worked out.

Source
common practice, no source
`,
}

func runOutOfSense(p *rule.Pass) {
	for _, f := range flaws(p, order.OutOfSense) {
		detail := f.Detail
		if detail == "" {
			detail = "check the number"
			if !strings.Contains(f.Wanted, "number") {
				detail += " and its unit"
			}
		}
		out := finding.Finding{
			At:      f.At,
			Message: fmt.Sprintf("%s can't be %s: %s.", begin(field(f)), clip(f.Text), detail),
			Stated:  f.Text,
		}
		workedOut(p, f, &out)
		p.Report(out)
	}
}
