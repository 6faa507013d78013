package form

import (
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var unreadable = &rule.Rule{
	ID:    "form/unreadable",
	Title: "file that can't be read",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runUnreadable,
	Doc: `
Checks
Whether the file can be read as YAML, JSON, CUE or a table, and holds what looks like an
order.

Because
What can't be read can't be checked: nothing in such a file has been looked at.

Working
The file is read from its start; the finding is where reading had to stop. What could be
read and has nothing of an order in it is told as one finding, and nothing in it is changed.

Source
common practice, no source
`,
}

func runUnreadable(p *rule.Pass) {
	for _, f := range flaws(p, order.Unreadable) {
		p.Report(finding.Finding{
			At:      f.At,
			Message: unread(f),
		})
	}
}

// unread says why a file can't be read.
func unread(f *order.Flaw) string {
	if f.Detail == "" {
		return "This can't be read."
	}
	return "This can't be read: " + strings.TrimSuffix(f.Detail, ".") + "."
}
