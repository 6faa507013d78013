package safety

import (
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var cordWithoutMarket = &rule.Rule{
	ID:    "safety/cord-without-market",
	Title: "cord on an order with no market stated",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runCordWithoutMarket,
	Doc: `
Checks
Whether an order with a cord or a loop says which market it is for.

Because
A cord or a loop can strangle a young child. How long it may be and how high it must hang
differ from market to market, and with no market stated nothing was checked.

Working
One finding for the order, at its first cord. A tie operates nothing and is left to the
maker's judgment.

Correction
None is made. The market's cord rules and the mechanism's maker decide.

Source
common practice, no source
`,
}

func runCordWithoutMarket(p *rule.Pass) {
	list := slices.DeleteFunc(corded(p), func(it *order.Item) bool { return isTie(&it.Cord) })
	if len(list) == 0 || p.Order.Market.Set || p.Order.Misspelt(p.Order.At, "market") {
		return
	}
	f := finding.Finding{
		At:      list[0].Cord.Key,
		Message: "The order has a cord and states no market, so no cord limits were checked: write where it will hang, under `market`.",
		Source:  worksheet.Common,
		Fixes:   finding.Advice("State the market: US, EU, UK, AU or CA"),
	}
	for _, it := range list[1:] {
		f.Related = append(f.Related, finding.Related{Range: it.Cord.Key, Message: "another cord"})
	}
	p.Report(f)
}
