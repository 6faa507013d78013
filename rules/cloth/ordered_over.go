package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var orderedOver = &rule.Rule{
	ID:       "cloth/ordered-over",
	Title:    "far more cloth ordered than the cuts take",
	Level:    finding.Warning,
	Fix:      rule.Never,
	Outcomes: []worksheet.Name{worksheet.ClothToBuy},
	Off:      sayOrderedOver,
	Doc: `
Checks
Whether the length ordered is too long by a cut or more and a known slip would give it:
both panels counted twice, yards for feet, a decimal place. Without such a slip, whether
it is half as much again as is to be bought, and over half a yard more.

Because
The cloth is the most expensive thing on the order, and cut lengths are seldom taken back.

Working
cloth to buy = cloth needed, rounded up to what it is sold by

Correction
The cloth to buy is proposed and not written in: more may be wanted, or more be made.

Source
Cotswold Sewing School, Calculating fabric: up to what it is sold by
`,
}

func sayOrderedOver(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	if w.Short || unread(p) {
		return "", ""
	}
	right := byTheBolt(p, w.Quantity.Value.Length())
	return fmt.Sprintf("The order has %s of %s; %s is enough.", byTheBolt(p, w.Stated.Length()), w.Quantity.Of, right),
		fmt.Sprintf("Order %s", right)
}
