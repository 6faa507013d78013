package waiver

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

var past = &rule.Rule{
	ID:    "waiver/past",
	Title: "waiver has expired",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runPast,
	Doc: `
Checks
Whether a waiver's last day is past.

Because
A waiver with a last day was agreed for a while: until the rings are replaced, until
the client has seen a sample. After that, someone has to be asked again.

Working
The waiver's last day is before today. On the day itself it still holds.

Source
common practice, no source
`,
}

func runPast(p *rule.Pass) {
	for _, u := range readable(p) {
		if u.Past && !u.Unknown {
			p.Report(finding.Finding{
				At: u.Until.At, Stated: u.Until.Value,
				Message: fmt.Sprintf("The waiver of %s expired on %s: agree on it again, or take it out.", called(u), u.Until.Value),
			})
		}
	}
}
