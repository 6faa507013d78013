package fabric

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var hardlyWoven = &rule.Rule{
	ID:    "fabric/hardly-woven",
	Title: "cloth or selvedge wider than is woven",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runHardlyWoven,
	Doc: `
Checks
The width of each cloth, and its selvedge, against the widest that is sold for furnishing.

Because
A digit too many, a wrong unit, or both selvedges in one number: all widths and pieces are
worked out from it.

Working
width ≤ 260 in or 660 cm, twice the widest curtain cloth; selvedge, at each edge, ≤ 2 in or
5 cm. Where another figure speaks against the number, that is reported instead.

Source
common practice, no source
`,
}

func runHardlyWoven(p *rule.Pass) {
	_, widest, deepest := p.Sheet.Woven()
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		width, selvedge := p.Sheet.WidthOf(c), &c.Order.Selvedge
		if p.Sheet.Doubted(width.Node, selvedge.Node, p.Order.Units.Node) || c.Width > 0 && selvedge.Value.Mul(2) >= c.Width {
			continue
		}
		report := func(l *order.Length, most length.Length, message string) {
			if l.Set && l.Node != nil && l.Value > most {
				p.Report(finding.Finding{At: l.At, Message: fmt.Sprintf(message, p.Show(l.Value)), Stated: l.Node.Text, Source: worksheet.Common})
			}
		}
		report(width, widest, "No furnishing cloth is woven %s wide: check the number and its unit.")
		report(selvedge, deepest, "A selvedge of %s at each edge is wider than mills weave them: check the number and its unit.")
	}
}
