package width

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var stripSlight = &rule.Rule{
	ID:    "width/strip-slight",
	Title: "strip of a joined panel shows little",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runStripSlight,
	Doc: `
Checks
What shows between the seams, and from the last seam to the edge, of a joined cloth,
cover, spread or shade. Sides of which nothing shows are reported by
width/panel-lost-in-seams.

Because
A strip a hand wide looks pieced, and puckers between its seam and its hem. A center
cut narrower takes the same cloth, and its sides look intended.

Working
strip = finished width, less what the other pieces show, at least the shop's
narrowest

Correction
Shown: how wide to cut the center depends on the pattern, so it is yours to choose.

Source
common practice, no source
`,
}

func runStripSlight(p *rule.Pass) {
	strips(p, func(it *worksheet.Item) bool { return it.Order.Kind.Value != "shower curtain" && flat(it) })
}

// flat reports whether an item's joins are those of a flat panel: what is gathered or
// pleated hides them.
func flat(it *worksheet.Item) bool {
	return it.Get(worksheet.FinishedWidth) != nil && it.Get(worksheet.FlatWidth) == nil
}
