package table

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var clothWasted = &rule.Rule{
	ID:    "table/cloth-wasted",
	Title: "set is a little too wide for one more across the cloth",
	Level: finding.Note,
	Fix:   rule.Never,
	Each:  runClothWasted,
	Doc: `
Checks
How many placemats or napkins of a set lie side by side on the cloth, and whether one
more would fit if they were cut a little narrower.

Because
A napkin that is 1/4 in too wide for three across 45 in costs a row of cloth for every
six of them.

Working
cut width - width between the selvedges ÷ (number across + 1) ≤ 1/2 in or 12 mm, and the
set then takes a row less.

Correction
Shown: the client decides how large they are.

Source
All Cotton and Linen, '12 napkins': 13 in, three across 45
`,
}

func runClothWasted(p *rule.Pass, it *worksheet.Item) {
	slight := length.Inch / 2
	if p.Sheet.Unit.Metric() {
		slight = 12 * length.Millimetre
	}
	if k := it.Order.Kind.Value; k != "placemat" && k != "napkin" || p.Sheet.Unsettled(it.Index) {
		return
	}
	for j := range it.Pieces {
		c := &it.Pieces[j]
		if c.Name != "piece" || c.Cloth == nil || c.Width == nil || c.Count == nil {
			continue
		}
		wide, usable, all := c.Width.Value.Length(), c.Cloth.Lays(), c.Count.Value.N*it.Quantity
		n := length.FloorDiv(usable, wide)
		less := usable.Div(n+1, length.Down)
		if n < 1 || wide-less > slight || ceil(all, n) <= ceil(all, n+1) {
			continue
		}
		p.Report(finding.Finding{
			At: it.Order.Kind.At,
			Message: fmt.Sprintf("Cut %s wide, %d lie side by side on the cloth; at %s wide, %d would, and the set takes less cloth.",
				p.Show(wide), n, less.Format(p.Sheet.Unit, length.Down), n+1),
			Source: "worked out from the widths",
		})
		break
	}
}

// ceil is a ÷ b, rounded up.
func ceil(a, b int64) int64 { return (a + b - 1) / b }
