package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var duplicateField = &rule.Rule{
	ID:    "form/duplicate-field",
	Title: "field given twice",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runDuplicateField,
	Doc: `
Checks
Whether a name is given twice in one place: two widths for one cut, two cloths of
the same name.

Because
Two people will read two different numbers off such a form. The first is used here,
and it may not be the one that was meant.

Working
Names are compared letter by letter within the order, one cloth, one item, or one part of an item.

Source
common practice, no source
`,
}

func runDuplicateField(p *rule.Pass) {
	for _, f := range flaws(p, order.Duplicate) {
		out := finding.Finding{
			At:      f.At,
			Message: fmt.Sprintf("%s is given twice, and the first was used: which is right?", field(f)),
			Fixes:   []finding.Fix{{Title: "Take out the wrong one"}},
		}
		if !f.Related.IsZero() {
			out.Related = []finding.Related{{Range: f.Related, Message: "the first one"}}
		}
		p.Report(out)
	}
}
