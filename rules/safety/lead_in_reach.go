package safety

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var leadInReach = &rule.Rule{
	ID:    "safety/lead-in-reach",
	Title: "lead tape in a nursery",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runLeadInReach,
	Doc: `
Checks
Whether a hem for a nursery is weighted with lead tape.

Because
Lead is a poison. A child who chews the hem takes it in, and no amount is known to be
safe.

Working
The order's use is nursery, and the weights are lead tape.

Correction
None is made. A deeper hem weighs as much as a light tape.

Source
common practice, no source
`,
}

func runLeadInReach(p *rule.Pass) {
	for _, it := range nursery(p) {
		if it.Weights.Kind.Value != "lead tape" {
			continue
		}
		p.Report(finding.Finding{
			At:      it.Weights.Kind.At,
			Message: "This is for a nursery and its hem is weighted with lead tape, which poisons a child who chews it: leave the lead out.",
			Source:  worksheet.Common,
			Fixes:   finding.Advice("Sew a deeper hem instead"),
			Facts:   []finding.Fact{{Of: "weights", Is: it.Weights.Kind.Value}},
		})
	}
}
