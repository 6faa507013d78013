package press

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var tooHot = &rule.Rule{
	ID:       "press/too-hot",
	Title:    "iron is too hot for the cloth",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.PressSetting},
	Off:      sayTooHot,
	Doc: `
Checks
The stated setting of the iron against the weakest fiber of every cloth of the
item, lining and interlining too, and against their care labels.

Because
A sole plate that is too hot glazes, scorches or melts the cloth, and melted cloth on the
iron burns the hand that cleans it off. One touch is enough.

Working
setting ≤ the least that the fibers from 5 percent up can take and the labels allow: one
dot is 110 °C, two 150, three 200.
Where a care label allows less than the fiber can take, the label may have been
misread, and form/values-disagree asks. Where it allows more, the setting is lowered only
with --likely.

Source
ISO 3758:2012, from memory; DonnaD, iron symbols after GINETEX. The maker's label
comes first; try a scrap whatever the setting.
`,
}

func sayTooHot(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	q := w.Quantity
	by := "this cloth"
	if c := p.Sheet.Cloth(q.Of); c != nil {
		by = weakest(c, q.Value.N)
	}
	setting := p.Order.Items[q.Item].Press.Setting.Value
	if c := p.Sheet.Cloth(q.Of); c != nil && overFiber(p, c) {
		return fmt.Sprintf("The iron is set to %s, and the care label of %s allows %s, but %s takes no more than %s; ask the mill which is right.",
			setting, c.Name, c.Order.Care.Iron.Value, by, w.Corrected), "Press at " + w.Corrected + " until the mill answers"
	}
	return fmt.Sprintf("The iron is set to %s, but %s allows no more than %s.", setting, by, w.Corrected),
		"Press at " + w.Corrected
}
