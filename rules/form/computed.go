package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var computed = &rule.Rule{
	ID:    "form/computed",
	Title: "form that computes its values",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runComputed,
	Doc: `
Checks
Whether a form in CUE states its values, or computes or imports them.

Because
A form may come from anywhere, and computing it may take any amount of time and
memory, so its results are not checked. If you trust the form, run with
--trust-cue.

Working
Literal values, groups given in parts and references within the form are read.
Anything else would have to be computed. One finding covers all such places.

Source
common practice, no source
`,
}

func runComputed(p *rule.Pass) {
	list := flaws(p, order.Computed)
	if len(list) == 0 {
		return
	}
	f := finding.Finding{
		At:      list[0].At,
		Message: fmt.Sprintf("This comes from %s, so it was not checked: write the value itself.", list[0].Detail),
	}
	for _, more := range list[1:] {
		f.Related = append(f.Related, finding.Related{Range: more.At, Message: "computed too: " + more.Detail})
	}
	p.Report(f)
}
