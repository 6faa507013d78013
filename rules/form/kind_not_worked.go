package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

var kindNotWorked = &rule.Rule{
	ID:    "form/kind-not-worked",
	Title: "kind or style of item whose sizes are not worked out",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runKindNotWorked,
	Doc: `
Checks
Whether the arithmetic of an item's kind and style is known to the worksheet. Its
form, its cloths and its cautions are looked at all the same.

Because
An order that is clear to cut is taken to have been worked through. Where it was
not, the cutter has to know.

Working
Cuts, seams, holes, heading and cloth are worked out for shower curtains, curtains
and boxed cushion covers.

Source
common practice, no source
`,
}

func runKindNotWorked(p *rule.Pass) {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		kind := it.Order.Kind
		if !kind.Set || it.Worked {
			continue
		}
		at, what := kind.At, kind.Value
		if p.Sheet.Kinds.Knows(what) {
			style := it.Order.Style
			if !style.Set {
				continue // which is a finding of its own
			}
			at, what = style.At, style.Value+" "+what
		}
		p.Report(finding.Finding{
			At:      at,
			Message: fmt.Sprintf("The sizes of a %s are not worked out: work its cuts by hand before the shears.", what),
		})
	}
}
