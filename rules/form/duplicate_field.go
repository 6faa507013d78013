package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var duplicateField = &rule.Rule{
	ID:    "form/duplicate-field",
	Title: "field that is given twice",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runDuplicateField,
	Doc: `
Checks
Whether a name is given twice in the same group: two widths of one cut, two
cloths of one name.

Because
Two people read two different numbers off such a form. The first one is taken
here, and nothing says that it is the one that was meant.

Working
Names are compared within their own group, letter by letter.

Source
common practice, no source
`,
}

func runDuplicateField(p *rule.Pass) {
	for _, f := range flaws(p, order.Duplicate) {
		out := finding.Finding{
			At:      f.At,
			Message: fmt.Sprintf("%s is given twice; the first one was taken. Which one is meant?", field(f)),
			Fixes:   []finding.Fix{{Title: "Take out the one that is not meant"}},
		}
		if !f.Related.IsZero() {
			out.Related = []finding.Related{{Range: f.Related, Message: "the first one"}}
		}
		p.Report(out)
	}
}
