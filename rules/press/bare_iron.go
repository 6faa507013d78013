package press

import (
	"cutgate/internal/worksheet"
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

var bareIron = &rule.Rule{
	ID:    "press/bare-iron",
	Title: "no press cloth on a one-dot cloth",
	Level: finding.Note,
	Fix:   rule.Always,
	Asked: true,
	Each:  runBareIron,
	Doc: `
Checks
Whether the order says to press without a press cloth where one of the item's cloths
takes only one dot.

Because
A bare sole plate glazes such cloth and sticks to it, and an iron's dial is seldom true at
its cool end.

Working
A one-dot cloth is pressed under a press cloth.

Correction
Likely: with a press cloth.

Source
common practice, no source
`,
}

func runBareIron(p *rule.Pass, it *worksheet.Item) {
	setting := it.Get(worksheet.PressSetting)
	under := &it.Order.Press.Cloth
	if !under.Set || under.Value || setting == nil || setting.Value.N > 1 || it.Order.Press.Setting.Value.None {
		return
	}
	c := p.Sheet.Cloth(setting.Of)
	if c == nil {
		return
	}
	p.Report(finding.Finding{
		At:      under.At,
		Message: fmt.Sprintf("A bare iron glazes a one-dot cloth, and %s allows no more; lay a press cloth between.", weakest(c, 1)),
		Stated:  "false", Corrected: "true", Source: worksheet.Common,
		Fixes: p.Likely(under.Node, "true", "Press under a press cloth"),
	})
}
