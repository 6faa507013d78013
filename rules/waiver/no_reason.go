package waiver

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

var noReason = &rule.Rule{
	ID:    "waiver/no-reason",
	Title: "waiver without a reason",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runNoReason,
	Doc: `
Checks
Whether a waiver says why.

Because
The person at the bench, and whoever takes up the order next year, has to see
whether the reason still stands. Without one the waiver does not hold.

Working
What stands after because has a letter that can be seen: spaces, digits and marks
alone are no reason. A because that is not there at all is a field that is missing
on the form.

Source
common practice, no source
`,
}

func runNoReason(p *rule.Pass) {
	for _, u := range readable(p) {
		if !u.Reasoned() {
			p.Report(finding.Finding{
				At:      u.Because.At,
				Message: fmt.Sprintf("The waiver of %s gives no reason, so it does not hold; say why what is found may stand.", called(u)),
			})
		}
	}
}
