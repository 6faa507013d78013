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
The person at the bench, and whoever picks the order up next year, must be able to
see whether the reason still holds. Without a reason the waiver does not count.

Working
A reason has at least one visible letter: spaces, digits and marks alone are none. Where
the field for it is missing, form/missing-field reports that.

Source
common practice, no source
`,
}

func runNoReason(p *rule.Pass) {
	for _, u := range readable(p) {
		if !u.Reasoned() {
			p.Report(finding.Finding{
				At:      u.Because.At,
				Message: fmt.Sprintf("The waiver of %s gives no reason, so it does not count: write under `because` why the finding is accepted.", called(u)),
			})
		}
	}
}
