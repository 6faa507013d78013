package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var orderedOver = &rule.Rule{
	ID:       "cloth/ordered-over",
	Title:    "far more cloth is ordered than the cuts take",
	Level:    finding.Warning,
	Fix:      rule.Always,
	Asked:    true,
	Outcomes: []worksheet.Name{worksheet.ClothToBuy},
	Off:      sayOrderedOver,
	Doc: `
Checks
A length ordered that is over what is to be bought by a cut or more, and that a known
slip would give: both panels counted twice, yards for feet, a decimal place. Without one,
half as much again as is to be bought, and over half a yard more.

Because
The cloth is the dearest thing on the docket, and cut lengths are seldom taken back.

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
