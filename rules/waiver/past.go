package waiver

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

var past = &rule.Rule{
	ID:    "waiver/past",
	Title: "waiver past its last day",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runPast,
	Doc: `
Checks
Whether the last day of a waiver is over.

Because
A waiver with an end was agreed for a while: until the ring set is replaced, until
the client has seen a sample. After that somebody has to be asked again.

Working
until is earlier than today's date. On the day itself the waiver still holds.

Source
common practice, no source
`,
}

func runPast(p *rule.Pass) {
	for _, u := range readable(p) {
		if u.Past && !u.Unknown {
			p.Report(finding.Finding{
				At: u.Until.At, Stated: u.Until.Value,
				Message: fmt.Sprintf("The waiver of %s ended on %s and no longer holds; agree on it anew, or take it out.", called(u), u.Until.Value),
			})
		}
	}
}
