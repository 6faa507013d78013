package waiver

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var safetyUnsigned = &rule.Rule{
	ID:    "waiver/safety-unsigned",
	Title: "safety waiver that lacks a single rule, a name or a date",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runSafetyUnsigned,
	Doc: `
Checks
Whether a waiver of a safety error names that one rule, says who answers for it, and
has a last day soon enough.

Because
Such an error is about something that could hurt someone, often a child. A person
has to accept it, by name, for one thing and for a time. Waiving a whole topic would
also accept what nobody has seen yet. Local codes and licensed practice decide
whether that person may.

Working
The waiver names a single rule, not a topic; the name of who answers for it has a visible
letter; and its last day is at most 400 days from today. Without these the error stands, whatever level
the shop gives it; anything else the waiver names is waived.

Source
common practice, no source
`,
}

func runSafetyUnsigned(p *rule.Pass) {
	for _, u := range readable(p) {
		if u.Refused == 0 {
			continue
		}
		var lacks []string
		if !u.OneRule() {
			lacks = append(lacks, "a single rule (not all of "+u.Rule.Value+")")
		}
		if !u.Signed() {
			lacks = append(lacks, "`by` (who answers for it)")
		}
		switch {
		case !u.Until.Set:
			lacks = append(lacks, "`until` (its last day)")
		case u.Far:
			lacks = append(lacks, fmt.Sprintf("`until` within %d days", rule.LongestSafety))
		}
		p.Report(finding.Finding{
			At:      u.Rule.At,
			Message: fmt.Sprintf("This waiver is about something that could hurt someone: it needs %s. Until then the error stands.", worksheet.All(lacks)),
		})
	}
}
