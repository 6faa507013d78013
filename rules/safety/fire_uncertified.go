package safety

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

var fireUncertified = &rule.Rule{
	ID:    "safety/fire-uncertified",
	Title: "cloth for public use without the fire certificate the market asks for",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runFireUncertified,
	Doc: `
Checks
Whether every cloth of a curtain, a shade, a tablecloth or a runner for public use states
a fire claim the market asks for, lining and interlining too.

Because
Curtains carry fire up a wall. A building open to the public will be asked for the mill's
certificate, and cloth without one is refused after it is sewn.

Working
The mill's claims are compared with those in the tables for the market and the use; years,
parts and punctuation don't matter. One finding per cloth.

Correction
None is made. Only the mill can supply the certificate; the local fire code decides.

Source
NFPA 701 (2010), scope; Kothea, What is BS 5867 Part 2 Type B, Type C; EN 13773,
from memory
`,
}

func runFireUncertified(p *rule.Pass) {
	told := map[*worksheet.Cloth]bool{}
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		ask := asked(p, it.Order)
		if ask == nil {
			continue
		}
		for _, c := range p.Sheet.ClothsOf(it) {
			if told[c] || !c.Order.Set || !uncertified(p, ask, c) {
				continue
			}
			told[c] = true
			f := finding.Finding{At: clothKey(p, c), Source: ask.Source, Fixes: finding.Advice("Ask the mill for the certificate, and write it under `fire`")}
			says := "states no fire claim"
			if claims := c.Order.Fire; len(claims) > 0 {
				f.At, says = claims[0].At, "claims "+claims[0].Value
				for _, more := range claims[1:] {
					says += ", " + more.Value
				}
			}
			f.Message = fmt.Sprintf("The cloth %s is for public use and %s. %s", c.Name, says, ruled(ask.Market, ask.Says))
			p.Report(f)
		}
	}
}

// asked is what the market asks of a hanging or of table linen in public use, or
// nil.
func asked(p *rule.Pass, it *order.Item) *trade.Fire {
	if g := trade.FireGoods(it.Kind.Value); g != "" && use(p.Order) == "public" && p.Order.Market.Set {
		return p.Tables.FireFor(p.Order.Market.Value, "public", g)
	}
	return nil
}

// uncertified reports whether a cloth lacks a claim that is asked for.
func uncertified(p *rule.Pass, ask *trade.Fire, c *worksheet.Cloth) bool {
	return len(ask.Claims) > 0 && !claimed(c.Order.Fire, ask.Claims) && !p.Order.Misspelt(c.Order.At, "fire")
}
