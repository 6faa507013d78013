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
	Title: "unit of another kind of measure",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runOddUnit,
	Doc: `
Checks
Whether a measure has a unit of its own kind: a length no kilograms, a cloth's
weight grams over an area and not over a length.

Because
Such a number was meant for another field, or is of another sort than it seems.
An ounce over a running yard is not an ounce over a square yard.

Working
The number and its unit are read; they are another kind of measure than the
field's.

Source
common practice, no source
`,
}

func runOddUnit(p *rule.Pass) {
	for _, f := range flaws(p, order.OddUnit) {
		name := begin(field(f))
		message := fmt.Sprintf("%s should be %s; %s.", name, f.Wanted, says(f))
		if sort, ok := strings.CutPrefix(f.Detail, "it is "); ok {
			message = fmt.Sprintf("%s should be %s; %s is %s.", name, f.Wanted, quote(f.Text), sort)
		} else {
			message = and(message, f.Detail)
		}
		p.Report(finding.Finding{At: f.At, Message: message, Stated: f.Text})
	}
}
