package form

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var oddUnit = &rule.Rule{
	ID:    "form/odd-unit",
	Title: "wrong kind of unit",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runOddUnit,
	Doc: `
Checks
Whether a measure has the right kind of unit: no kilograms for a length, and a
cloth's weight per area, not per length.

Because
Such a number was meant for another field, or is not what it seems. An ounce per
running yard is not an ounce per square yard.

Working
The number and its unit can be read, but they are another kind of measure than the
field takes.

Source
common practice, no source
`,
}

func runOddUnit(p *rule.Pass) {
	for _, f := range flaws(p, order.OddUnit) {
		name := begin(field(f))
		message := fmt.Sprintf("%s %s: write %s.", name, says(f), f.Wanted)
		if sort, ok := strings.CutPrefix(f.Detail, "it is "); ok {
			message = fmt.Sprintf("%s says %s, which is %s: write %s.", name, quote(f.Text), sort, f.Wanted)
		} else {
			message = and(message, f.Detail)
		}
		p.Report(finding.Finding{At: f.At, Message: message, Stated: f.Text})
	}
}
