package form

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var sharedCloth = &rule.Rule{
	ID:    "form/shared-cloth",
	Title: "quantity of a cloth that several orders share",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runSharedCloth,
	Doc: `
Checks
Whether a row for a cloth that several orders of a table use says how much of it
there is: what is ordered, the bolts, what was measured on them.

Because
Each order is worked out by itself. An amount for several of them together can be
held against none, and is not checked.

Working
A cloth's row is of one order where its column ` + "`order`" + ` has that order's number,
and else of all that name the cloth.

Source
common practice, no source
`,
}

func runSharedCloth(p *rule.Pass) {
	for _, f := range flaws(p, order.Shared) {
		p.Report(finding.Finding{
			At: f.At,
			Message: fmt.Sprintf("`%s` of the cloth %s was not checked, as several orders use it. Give each order a row of its own, with its number under `order`.",
				strings.ReplaceAll(f.Name, "_", " "), quote(f.Text)),
		})
	}
}
