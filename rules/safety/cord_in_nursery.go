package safety

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var cordInNursery = &rule.Rule{
	ID:    "safety/cord-in-nursery",
	Title: "cord in a nursery",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runCordInNursery,
	Doc: `
Checks
Whether anything for a nursery has a cord, a loop or a tie.

Because
A cot or a bed gets moved to the window, and a child climbs. Whatever the market allows
elsewhere, a cord has no place here.

Working
The order's use is nursery, and the item has a cord. Its length and height are then not
reported as well.

Correction
None is made. Local codes and licensed practice decide.

Source
common practice, no source
`,
}

func runCordInNursery(p *rule.Pass) {
	for _, it := range nursery(p) {
		if !it.Cord.Set {
			continue
		}
		p.Report(finding.Finding{
			At:      it.Cord.Key,
			Message: fmt.Sprintf("This is for a nursery and has a %s, which can strangle a child: hang it without one.", cordName(&it.Cord)),
			Source:  worksheet.Common,
			Fixes:   finding.Advice("Choose a mechanism without a cord"),
			Facts:   cordFacts(&it.Cord),
		})
	}
}
