package width

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var panelsOff = &rule.Rule{
	ID:       "width/panels-off",
	Title:    "joined pieces do not add up to the finished width",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.CutWidth},
	Off:      sayPanelsOff,
	Doc: `
Checks
The width stated for the pieces of a flat panel: the center and its sides, equal
pieces, or the one piece.

Because
Each join takes its allowance from both pieces. If the center's own two allowances are
forgotten, the panel comes out narrow by both, and that shows only when the last seam is
sewn.

Working
side = (finished width - (center - 2 × seam allowance)) ÷ 2 + seam allowance + side
hem; equal piece = (finished width + 2 × side hem + 2 × seam allowance × (pieces -
1)) ÷ pieces; one piece = finished width + 2 × side hem. Shrinkage across the
cloth is divided off.

Source
common practice, no source
`,
}

func sayPanelsOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	name, many := panelName(p, w)
	if name == "" || w.Quantity.Of == "side" && noneLeft(&p.Sheet.Items[w.Quantity.Item]) {
		return "", "" // with nothing left for them, sides have no right width
	}
	right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
	are, they := "is", "it"
	if many {
		are, they = "are", "they"
	}
	return fmt.Sprintf("The %s %s cut %s wide; %s should be %s.", name, are, w.Stated.Format(p.Sheet.Unit, w.Quantity.Round), they, right),
		fmt.Sprintf("Cut the %s %s wide", name, right)
}

// panelName is what the pieces of a flat panel are called, and whether there
// are several; "" for widths of cloth, which are cut edge to edge.
func panelName(p *rule.Pass, w *worksheet.Wrong) (name string, many bool) {
	switch w.Quantity.Of {
	case "center":
		return "center panel", false
	case "side":
		return "side panels", true
	case "piece":
		for _, piece := range p.Sheet.Items[w.Quantity.Item].Pieces {
			if piece.Width == w.Quantity && piece.Count.Value.N > 1 {
				return "pieces", true
			}
		}
		return "piece", false
	}
	return "", false
}
