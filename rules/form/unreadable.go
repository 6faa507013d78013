package form

import (
	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var unreadable = &rule.Rule{
	ID:    "form/unreadable",
	Title: "form that can't be read",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runUnreadable,
	Doc: `
Checks
Whether the text is YAML, JSON or CUE at all, up to where it is not.

Because
What can't be read can't be checked: nothing on such a form has been looked at.

Working
The text is read from its start; the finding stands where reading had to stop.

Source
common practice, no source
`,
}

func runUnreadable(p *rule.Pass) {
	for _, f := range flaws(p, order.Unreadable) {
		p.Report(finding.Finding{
			At:      f.At,
			Message: and("The form can't be read.", f.Detail),
		})
	}
}
