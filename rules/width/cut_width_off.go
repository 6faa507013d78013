package width

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var cutWidthOff = &rule.Rule{
	ID:       "width/cut-width-off",
	Title:    "width of cloth is not cut edge to edge",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.CutWidth},
	Off:      sayCutWidthOff,
	Doc: `
Checks
The width stated for a cut of a curtain's widths, lining or interlining against the
cloth's, as measured at the bench if it was.

Because
Widths are cut edge to edge and joined: seams and side hems take what they need. A
cut stated narrower was worked out from another cloth, or from the usable width, and
the panel comes out narrow.

Working
cut width = cloth width. Half widths are split after they are cut to length.

Source
common practice, no source
`,
}

// wholeWidths are the pieces that may be widths of cloth from selvedge to selvedge.
var wholeWidths = []string{"width", "lining", "interlining", "skirt"}

func sayCutWidthOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	for _, piece := range p.Sheet.Items[w.Quantity.Item].Pieces {
		if piece.Width != w.Quantity || !slices.Contains(wholeWidths, piece.Name) || piece.Cloth == nil || piece.Width.Value.Length() != piece.Cloth.Width {
			continue
		}
		right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
		return fmt.Sprintf("The %s is cut %s wide; cut it edge to edge, %s.", w.Quantity.Of, w.Stated.Format(p.Sheet.Unit, w.Quantity.Round), right),
			fmt.Sprintf("Cut the %s %s wide", w.Quantity.Of, right)
	}
	return "", ""
}
