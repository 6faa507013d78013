package heading

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var pocketTight = &rule.Rule{
	ID:       "heading/pocket-tight",
	Title:    "rod pocket is too tight for its rod",
	Level:    finding.Error,
	Fix:      rule.Always,
	Asked:    true,
	Outcomes: []worksheet.Name{worksheet.PocketHeight},
	Off:      sayPocketTight,
	Doc: `
Checks
The height of a rod pocket, flat, against the diameter of the rod plus ease. A roomier
pocket is the maker's choice.

Because
Half a rod's circumference is more than one and a half times its diameter. A pocket only
as high as the rod is thick won't go over it.

Working
pocket height ≥ (diameter × π + ease) ÷ 2

Correction
Likely: the least height that will do. The pocket may be meant to be roomier, or the rod
to be thinner.

Source
98905 household articles, Rod pocket height; Singer Sewing for the Home, casings, for
the ease.
`,
}

func sayPocketTight(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
	return fmt.Sprintf("The pocket is %s high; a rod %s thick needs %s.",
			p.Show(w.Stated.Length()), p.Show(p.Sheet.Items[w.Quantity.Item].Diameter().Value), right),
		fmt.Sprintf("Make the pocket %s high", right)
}
