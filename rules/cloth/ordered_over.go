package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var orderedOver = &rule.Rule{
	ID:       "cloth/ordered-over",
	Title:    "too much cloth ordered, from a slip",
	Level:    finding.Warning,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.ClothToBuy},
	Off:      sayOrderedOver,
	Doc: `
Checks
Whether the length ordered is too long by a cut or more and a known slip would give it:
both panels counted twice, yards for feet, a decimal place.

Because
The cloth is the most expensive thing on the docket, and cut lengths are seldom taken back.

Working
cloth to buy = cloth needed, rounded up to what it is sold by

Source
Cotswold Sewing School, Calculating fabric: up to what it is sold by
`,
}

func sayOrderedOver(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	if w.Short {
		return "", ""
	}
	right := byTheBolt(p, w.Quantity.Value.Length())
	return fmt.Sprintf("The order has %s of %s; %s is enough.", byTheBolt(p, w.Stated.Length()), w.Quantity.Of, right),
		fmt.Sprintf("Order %s", right)
}
