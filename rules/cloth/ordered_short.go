package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var orderedShort = &rule.Rule{
	ID:       "cloth/ordered-short",
	Title:    "too little cloth ordered for the cuts",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.ClothToBuy},
	Off:      sayOrderedShort,
	Doc: `
Checks
The length of cloth ordered against what the order's cuts take, laid in rows across the
bolt, with what the pattern takes to start and to match.

Because
If the cloth runs out at the last cut, more of the same dye lot can seldom be had.

Working
cloth needed = rows × cut length, of every size, + the extra for a half drop + one
repeat to start on; to buy, that is rounded up to what the cloth is sold by. A cloth is not
checked while an item that uses it can't be worked out.

If nothing is cut from another cloth of the order, it may be meant for some of the cuts, and
what to order is only shown.

If the cuts would fit into what is ordered when each goes from edge to edge of the cloth
that is left, the finding says so, and more is ordered only with --likely. The search for
that is short, and may miss it.

Source
Cotswold Sewing School, Calculating fabric; Sew Helpful, Half drop pattern repeat, for
the repeat to start on; My Decozo forum, Half drop pattern repeats.
`,
}

func sayOrderedShort(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	c := p.Sheet.Cloth(w.Quantity.Of)
	if !w.Short || c == nil || c.Needed == nil || p.Sheet.StartsWell(w) {
		return "", ""
	}
	needed, right := c.Needed.Value.Length(), toBuy(p, c, w.Quantity.Value.Length())
	enough := "" // cut in another way than the cloth to buy is worked out for
	if l := p.Sheet.Suffices(w); l > 0 {
		enough = fmt.Sprintf(" Cut from edge to edge instead of in rows right across, they take %s, and there is enough.", byTheBolt(p, l))
	}
	if idle := p.Sheet.Idle(); idle != nil {
		enough += fmt.Sprintf(" Nothing is cut from %s: is it meant for some of them?", idle.Name)
	}
	return fmt.Sprintf("The order has %s of %s, and the cuts take %s: it is %s short.",
			byTheBolt(p, w.Stated.Length()), c.Name, byTheBolt(p, needed), byTheBolt(p, needed-w.Stated.Length())) + enough,
		fmt.Sprintf("Order %s", right)
}
