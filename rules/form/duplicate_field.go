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
Two people will read two different numbers off such a form. Nothing is worked from a
number that is given twice; of two groups of one name the first is used here, and it may
not be the one that was meant.

Working
Names are compared letter by letter within the order, one cloth, one item, or one part of an item.

Source
common practice, no source
`,
}

func runDuplicateField(p *rule.Pass) {
	for _, f := range flaws(p, order.Duplicate) {
		used := ""
		if f.Node != nil && (f.Node.Form == order.Map || f.Node.Form == order.List) {
			used = ", and the first was used"
		}
		out := finding.Finding{
			At:      f.At,
			Message: fmt.Sprintf("%s is given twice%s: which is right?", field(f), used),
			Fixes:   finding.Advice("Take out the wrong one"),
		}
		if !f.Related.IsZero() {
			out.Related = []finding.Related{{Range: f.Related, Message: "the first one"}}
		}
		p.Report(out)
	}
}
