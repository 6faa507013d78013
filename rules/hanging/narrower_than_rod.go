package hanging

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var narrowerThanRod = &rule.Rule{
	ID:    "hanging/narrower-than-rod",
	Title: "shower curtain is narrower than its rod",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runNarrowerThanRod,
	Doc: `
Checks
The finished width of a shower curtain, or of all that are made of it together, against
the length of the rod.

Because
Water gets out where the curtain does not reach.

Working
finished width × quantity ≥ rod length

Correction
None is made: it may be a wider curtain, a second one, or part of the rod left open on
purpose.

Source
common practice, no source
`,
}

func runNarrowerThanRod(p *rule.Pass, it *worksheet.Item) {
	width, rod := &it.Order.Finished.Width, &it.Order.Rod.Length
	if it.Order.Kind.Value != "shower curtain" || !width.Set || !rod.Set {
		return
	}
	open := rod.Value - width.Value.Mul(max(1, it.Quantity))
	if open <= 0 {
		return
	}
	what := "The curtain is " + p.Show(width.Value) + " wide"
	if it.Quantity > 1 {
		what = fmt.Sprintf("%d curtains are %s wide together", it.Quantity, p.Show(width.Value.Mul(it.Quantity)))
	}
	p.Report(finding.Finding{
		At:      width.At,
		Message: fmt.Sprintf("%s on a rod of %s: %s stays uncovered.", what, p.Show(rod.Value), p.Show(open)),
		Stated:  width.Node.Text,
		Source:  worksheet.Common,
		Related: []finding.Related{{Range: rod.At, Message: "the rod"}},
		Fixes:   finding.Advice("Make it as wide as the rod is long, or wider"),
	})
}
