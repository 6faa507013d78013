package safety

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var nearHeat = &rule.Rule{
	ID:    "safety/near-heat",
	Title: "cloth without a fire claim near heat",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runNearHeat,
	Doc: `
Checks
Whether anything near a radiator, a stove or lamps is made of cloth with a fire claim.

Because
Cloth that touches a heater scorches, melts or catches fire, and a curtain moves in the
warm air rising from the heater below it.

Working
The item is marked as near heat, and one of its cloths has no fire claim at all. A cloth
reported for public use is not reported again.

Correction
None is made. The heater's or lamp's maker says what distance to keep; local codes and
licensed practice decide.

Source
common practice, no source
`,
}

func runNearHeat(p *rule.Pass, it *worksheet.Item) {
	if !it.Order.NearHeat.Value {
		return
	}
	ask := asked(p, it.Order)
	var names []string
	f := finding.Finding{
		At: it.Order.NearHeat.At, Source: worksheet.Common,
		Fixes: finding.Advice("Ask the mill for a fire claim, or keep the cloth clear of the heat"),
	}
	for _, c := range p.Sheet.ClothsOf(it) {
		if len(c.Order.Fire) > 0 || p.Order.Misspelt(c.Order.At, "fire") || ask != nil && uncertified(p, ask, c) {
			continue
		}
		names = append(names, c.Name)
		f.Related = append(f.Related, finding.Related{Range: clothKey(p, c), Message: "no fire claim"})
	}
	if len(names) == 0 {
		return
	}
	verb := "states"
	if len(names) > 1 {
		verb = "state"
	}
	f.Message = fmt.Sprintf("The %s is near heat, and %s %s no fire claim: ask the mill, and keep it as far away as the heater's maker says.",
		it.Order.Kind.Value, worksheet.All(names), verb)
	p.Report(f)
}
