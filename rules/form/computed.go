package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var computed = &rule.Rule{
	ID:    "form/computed",
	Title: "form that has to be computed",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runComputed,
	Doc: `
Checks
Whether a form in CUE writes everything out, or computes or imports some of it.

Because
A form may come from anywhere, and computing it may take any amount of time and
memory, so its results are not checked. If you trust the form, run with
--trust-cue.

Working
What is written out, fields given in several places and references within the form are read.
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
		Message: fmt.Sprintf("This comes from %s, so it was not checked: write the result itself.", list[0].Detail),
	}
	for _, more := range list[1:] {
		f.Related = append(f.Related, finding.Related{Range: more.At, Message: "computed too: " + more.Detail})
	}
	p.Report(f)
}
