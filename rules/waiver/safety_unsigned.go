package waiver

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

var safetyUnsigned = &rule.Rule{
	ID:    "waiver/safety-unsigned",
	Title: "waiver of a safety error that does not hold",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runSafetyUnsigned,
	Doc: `
Checks
Whether a waiver that names an error about safety says who answers for it, names
that one rule, and ends before long.

Because
Such an error is about what could hurt someone, often a child. It is not for the
order to wave it through: a person does, by name, for one thing and for a time. A
topic would wave through what nobody has seen yet. Local codes and licensed
practice decide whether that person may.

Working
by has a letter that can be seen, until is at most 400 days from today, and rule is
a rule and not a topic. Without them the error stands, whatever level the shop gives
it; what else the waiver names is set aside.

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
			lacks = append(lacks, "one rule instead of all of "+u.Rule.Value)
		}
		if !u.Signed() {
			lacks = append(lacks, "`by`, who answers for it")
		}
		switch {
		case !u.Until.Set:
			lacks = append(lacks, "`until`, its last day")
		case u.Far:
			lacks = append(lacks, fmt.Sprintf("`until` within %d days", rule.LongestSafety))
		}
		need := lacks[0]
		if n := len(lacks) - 1; n > 0 {
			need = strings.Join(lacks[:n], ", ") + ", and " + lacks[n]
		}
		p.Report(finding.Finding{
			At:      u.Rule.At,
			Message: fmt.Sprintf("This waives what could hurt someone, so it needs %s; without, that stands.", need),
		})
	}
}
