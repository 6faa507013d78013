package length

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var finishedLengthOff = &rule.Rule{
	ID:       "length/finished-length-off",
	Title:    "finished length does not match where the curtain hangs",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.FinishedLength},
	Off:      sayFinishedLengthOff,
	Doc: `
Checks
The finished length against the height the curtain hangs from and where the order
says its foot comes to: the floor, the sill, below the sill. Where the order gives no
clearance, one between 3/8 in and 1 in is the maker's choice. For other goods, the
length against what they are made for: a bed, a table, a duvet.

Because
Every cut is worked out from the finished length: if it is wrong the whole curtain is
wrong, and that shows only once it hangs.

Working
finished length = hook level + what the top edge stands above it - clearance;
what hangs below a sill or lies on the floor is added. An eyelet curtain hangs
from the top of its bores.

Source
Inweave Fabric, curtain yardage page; RLF Home, How to measure a window (1/2 in
clear of the floor); Singer Sewing Custom Curtains, Shades and Top Treatments,
excerpt, for eyelets.
`,
}

func sayFinishedLengthOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
	if p.Order.Items[w.Quantity.Item].Kind.Value != "curtain" {
		return fmt.Sprintf("The finished length is %s; it should be %s.", w.Stated.Format(p.Sheet.Unit, w.Quantity.Round), right), fmt.Sprintf("Make it %s long", right)
	}
	return fmt.Sprintf("The finished length is %s; to hang as the order says, it should be %s.",
			w.Stated.Format(p.Sheet.Unit, w.Quantity.Round), right),
		fmt.Sprintf("Make it %s long", right)
}
