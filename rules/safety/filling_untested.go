package safety

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
)

var fillingUntested = &rule.Rule{
	ID:    "safety/filling-untested",
	Title: "floor cushion whose cloth states no fire claim",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runFillingUntested,
	Doc: `
Checks
Whether the cloth of a cushion over 60 × 60 cm, for the UK, states a fire claim for
upholstery.

Because
In the UK a cushion that large counts as a floor cushion, and its cover and filling as
upholstery.

Working
Both sides of the pad are over 60 cm, and none of the cloth's claims is one that the
tables have for upholstery in that market and use.

Correction
None is made. The filling counts too, and the market's rules and licensed practice
decide.

Source
Furniture and Furnishings (Fire) (Safety) Regulations 1988, SI 1988/1324, as described by
sellers of fillings
`,
}

// floorCushion is the side over which a cushion counts as a floor cushion in the UK.
const floorCushion = 60 * length.Centimetre

func runFillingUntested(p *rule.Pass) {
	if p.Order.Market.Value != "UK" {
		return
	}
	ask := p.Tables.FireFor("UK", use(p.Order), "upholstery")
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		pad := &it.Order.Pad
		if ask == nil || it.Order.Kind.Value != "cushion cover" || it.Order.Upholstered.Set || it.Face == nil || p.Sheet.Unsettled(i) ||
			pad.Width.Value <= floorCushion || pad.Length.Value <= floorCushion || !uncertified(p, ask, it.Face) {
			continue
		}
		p.Report(finding.Finding{
			At: it.Order.Kind.At,
			Message: fmt.Sprintf("A cushion over 60 × 60 cm counts as a floor cushion, and its cloth %s states no fire claim. %s",
				it.Face.Name, ruled("UK", ask.Says)),
			Source: ask.Source,
			Fixes:  finding.Advice("Ask the mill for the claim, state it, and see that the filling has its own"),
		})
	}
}
