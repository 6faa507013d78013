package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var noRepeatToStart = &rule.Rule{
	ID:       "cloth/no-repeat-to-start",
	Title:    "patterned cloth with no repeat to start on",
	Level:    finding.Warning,
	Fix:      rule.Sometimes,
	Asked:    true,
	Outcomes: []worksheet.Name{worksheet.ClothToBuy},
	Off:      sayNoRepeatToStart,
	Doc: `
Checks
Cloth with a repeat, ordered in the length the cuts take, or in less than a repeat more.

Because
A bolt can start anywhere in its pattern. The first cut begins at the start of the motif,
and the cloth before it is lost; if you know the bolt starts well, the order will do.

Working
cloth needed = rows × cut length + one repeat, rounded up to what the cloth is sold by.

Correction
Likely; only shown where a part of the repeat is ordered, or where another figure may as
well be what is wrong.

Source
Sew Helpful, Half drop pattern repeat: a further repeat on the order, once, for
positioning.
`,
}

func sayNoRepeatToStart(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	c := p.Sheet.Cloth(w.Quantity.Of)
	if !p.Sheet.StartsWell(w) {
		return "", ""
	}
	with := "with no repeat of"
	if w.Slip != nil && w.Slip.Name == worksheet.LessToStart {
		with = "with less than the repeat of"
	}
	return fmt.Sprintf("The order has %s of %s: enough for the cuts, but %s %s to start on.",
			byTheBolt(p, w.Stated.Length()), c.Name, with, p.Show(c.Repeat)),
		fmt.Sprintf("Order %s", byTheBolt(p, w.Quantity.Value.Length()))
}
