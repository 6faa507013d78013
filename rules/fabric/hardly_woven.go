package fabric

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var hardlyWoven = &rule.Rule{
	ID:    "fabric/hardly-woven",
	Title: "cloth of a width, or with a selvedge, that is hardly woven",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runHardlyWoven,
	Doc: `
Checks
The width of each cloth, and its selvedge, against the widest that is sold for furnishing,
and the narrowest that widths of are joined.

Because
A digit too many, a wrong unit, or both selvedges in one number: all widths and pieces are
worked out from it.

Working
width ≤ 260 in or 660 cm, twice the widest curtain cloth, and ≥ 16 in or 40 cm where widths
of it are joined into a curtain, a valance or a bed skirt; selvedge, at each edge, ≤ 2 in or
5 cm. Where another figure speaks against the number, that is reported instead.

Source
common practice, no source
`,
}

func runHardlyWoven(p *rule.Pass) {
	narrowest, widest, deepest := p.Sheet.Woven()
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		width, selvedge := p.Sheet.WidthOf(c), &c.Order.Selvedge
		if p.Sheet.Doubted(width.Node, selvedge.Node, p.Order.Units.Node) || c.Width > 0 && selvedge.Value.Mul(2) >= c.Width {
			continue
		}
		report := func(l *order.Length, is bool, message string) {
			if l.Set && l.Node != nil && is {
				p.Report(finding.Finding{At: l.At, Message: fmt.Sprintf(message, p.Show(l.Value)), Stated: l.Node.Text, Source: worksheet.Common})
			}
		}
		report(width, width.Value > widest || width.Value < narrowest && hungInWidths(p, c), "No furnishing cloth is woven %s wide: check the number and its unit.")
		report(selvedge, selvedge.Value > deepest, "A selvedge of %s at each edge is wider than mills weave them: check the number and its unit.")
	}
}

// hungInWidths reports whether widths of a cloth are joined for the face of an item: not so of
// braids and bands, which are woven narrow.
func hungInWidths(p *rule.Pass, c *worksheet.Cloth) bool {
	return slices.ContainsFunc(p.Sheet.Items, func(it worksheet.Item) bool {
		return it.Face == c && it.Joins > 0 && it.Get(worksheet.Widths) != nil
	})
}
