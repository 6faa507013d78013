package safety

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

var upholsteredUnlabelled = &rule.Rule{
	ID:    "safety/upholstered-unlabelled",
	Title: "upholstery cloth with no fire compliance stated",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runUpholsteredUnlabelled,
	Doc: `
Checks
Whether the cloth of an upholstered seat's cushion states that it meets the market's fire
rule for upholstery.

Because
In the US and the UK such a cushion may not be sold without it, and the label is sewn into
the seam.

Working
The cushion is marked as upholstered, and none of its cloth's claims is one in the tables
for upholstery in that market and use.

Correction
None is made. The filling counts too; the market's rules and licensed practice decide.

Source
CPSC, Upholstered furniture business guidance (16 CFR 1640); Furniture and
Furnishings (Fire) (Safety) Regulations 1988, SI 1988/1324
`,
}

func runUpholsteredUnlabelled(p *rule.Pass) {
	if !p.Order.Market.Set {
		return
	}
	ask := p.Tables.FireFor(p.Order.Market.Value, use(p.Order), "upholstery")
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		if ask == nil || !it.Order.Upholstered.Value || it.Face == nil || !uncertified(p, ask, it.Face) {
			continue
		}
		p.Report(finding.Finding{
			At: it.Order.Upholstered.At,
			Message: fmt.Sprintf("The cushion is upholstery, and its cloth %s states no fire claim for it. %s",
				it.Face.Name, ruled(ask.Market, ask.Says)),
			Source:  ask.Source,
			Related: []finding.Related{{Range: clothKey(p, it.Face), Message: "its cloth"}},
			Fixes:   finding.Advice("Ask the mill for the claim, write it under `fire`, and sew in the label"),
		})
	}
}
