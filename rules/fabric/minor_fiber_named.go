package fabric

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

var minorFiberNamed = &rule.Rule{
	ID:    "fabric/minor-fiber-named",
	Title: "fiber too minor to name on a label",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runMinorFiberNamed,
	Doc: `
Checks
Whether an order for the US names a fiber of less than 5 % that has no purpose a label
could state.

Because
On a US label such a fiber is called other fiber. One with a purpose, such as elastane for
stretch, may be named along with the purpose.

Working
share < 5 % of the weight; the market is the US.

Source
16 CFR 303.3
`,
}

func runMinorFiberNamed(p *rule.Pass) {
	if p.Order.Market.Value != "US" {
		return
	}
	least := p.Tables.House.MinorFiber
	for i := range p.Order.Cloths {
		c := &p.Order.Cloths[i]
		for k := range c.Of.Fiber {
			e := &c.Of.Fiber[k]
			f, ok := generic(p.Tables, e.Name)
			if !ok || f.Named || !e.Of.Set || e.Of.Value.IsZero() || e.Of.Value.Cmp(least) >= 0 {
				continue
			}
			p.Report(finding.Finding{
				At: e.Key,
				Message: fmt.Sprintf("The cloth %s has %s %s; under %s a US label calls it other fiber, unless it says what the fiber is for.",
					c.Name, e.Of.Value.Percent(), e.Name, least.Percent()),
				Stated: e.Name,
				Source: p.Tables.SelfSource("minor_fiber"),
				Fixes:  finding.Advice("Label it as other fiber"),
			})
		}
	}
}
