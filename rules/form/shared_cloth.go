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
	Title: "cloth quantity shared by several orders",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runSharedCloth,
	Doc: `
Checks
Whether a cloth that several orders of a table use has a quantity in its row: what
is ordered, the bolts, what was measured on them.

Because
Each order is worked out by itself. An amount for several together can't be compared
with any one of them, so it is not checked.

Working
A cloth's row belongs to one order where its column ` + "`order`" + ` has that order's
number; otherwise to every order that names the cloth.

Source
common practice, no source
`,
}

func runSharedCloth(p *rule.Pass) {
	for _, f := range flaws(p, order.Shared) {
		p.Report(finding.Finding{
			At: f.At,
			Message: fmt.Sprintf("`%s` of %s was not checked, because several orders share the cloth: give each order its own row for it, with its number under `order`.",
				strings.ReplaceAll(f.Name, "_", " "), quote(f.Text)),
		})
	}
}
