package waiver

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

var safetyUnsigned = &rule.Rule{
	ID:    "waiver/safety-unsigned",
	Title: "waiver of a safety error that nobody signed for",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runSafetyUnsigned,
	Doc: `
Checks
Whether a waiver that names an error about safety says who answers for it, and
until when.

Because
Such an error is about what could hurt someone, often a child. It is not for the
order to wave it through: a person does, by name and for a time. Local codes and
licensed practice decide whether that person may.

Working
Both by and until are given. Without them the error stands, whatever level the
shop gives it; what else the waiver names is set aside.

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
		if strings.TrimSpace(u.By.Value) == "" {
			lacks = append(lacks, "`by`, who answers for it")
		}
		if !u.Until.Set {
			lacks = append(lacks, "`until`, its last day")
		}
		p.Report(finding.Finding{
			At: u.Rule.At,
			Message: fmt.Sprintf("This waives what could hurt someone, so it needs %s; without, that stands.",
				strings.Join(lacks, ", and ")),
		})
	}
}
