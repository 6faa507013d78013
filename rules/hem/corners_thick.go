package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var cornersThick = &rule.Rule{
	ID:    "hem/corners-thick",
	Title: "square corners are too thick for the machine",
	Level: finding.Warning,
	Fix:   rule.Always,
	Asked: true,
	Each:  runCornersThick,
	Doc: `
Checks
The stack of cloth at a square corner, where two hems cross, against the thickest the
machine can sew.

Because
The foot climbs, stitches are skipped, and a needle that hits such a stack can break
and fly: wear eye protection.

Working
(folds + 1) × (folds + 1) × thickness ≤ what the machine can sew: nine layers where
two double hems cross.

Correction
Likely: mitered corners.

Source
Common practice, no source, for the limit; it is the shop's own.
`,
}

func runCornersThick(p *rule.Pass, it *worksheet.Item) {
	h := &it.Order.Hems
	top, bottom, sides := it.Top.Folds, it.Bottom.Folds, it.Sides.Folds
	if it.Sides.Takes > 0 {
		if it.Top.Takes > 0 {
			corner(p, it, edge{"top hem", &h.Top}, top, sides)
		}
		if it.Bottom.Takes > 0 {
			corner(p, it, edge{"bottom hem", &h.Bottom}, bottom, sides)
		}
		if it.Bottom.Takes > 0 && !h.Bottom.Corners.Set {
			corner(p, it, edge{"side hem", &h.Sides}, bottom, sides)
		}
	}
	if hem := &it.Order.Hem; hem.Turn.Value > 0 {
		folds := int64(2)
		if hem.Folds.Set {
			folds = hem.Folds.Value
		}
		corner(p, it, edge{"hem", hem}, folds, folds)
	}
}

// corner reports the corner of two hems of so many folds where it is square and
// too thick.
func corner(p *rule.Pass, it *worksheet.Item, e edge, one, other int64) {
	limit := p.Tables.House.MachineSews
	if it.Face == nil || !it.Face.Order.Thickness.Set || e.Corners.Value != "square" {
		return
	}
	thick := it.Face.Order.Thickness.Value
	layers := (one + 1) * (other + 1)
	stack := thick.Mul(layers)
	if stack <= limit {
		return
	}
	p.Report(finding.Finding{
		At: e.Corners.At,
		Message: fmt.Sprintf("At the square corners of the %s, %d layers are %s thick; the machine sews up to %s.",
			e.name, layers, stack, limit),
		Stated: "square", Corrected: "mitred",
		Working: []string{"layers × thickness", fmt.Sprintf("%d × %s = %s", layers, thick, stack)},
		Source:  p.Tables.SelfSource("machine_sews"),
		Fixes:   p.Likely(e.Corners.Node, "mitred", "Miter the corners"),
	})
}
