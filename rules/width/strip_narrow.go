package width

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var stripNarrow = &rule.Rule{
	ID:    "width/strip-narrow",
	Title: "strip of a joined panel is too narrow",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runStripNarrow,
	Doc: `
Checks
How much of a shower curtain shows between its seams, and from the last seam to the
edge.

Because
A strip a hand wide looks pieced, puckers between its seam and its hem, and brings a
seam under the holes at the edge. A narrower center, or equal pieces, takes the same
cloth and avoids all that.

Working
strip = finished width less what shows of the other pieces; at least the shop's
narrowest

Correction
Shown: which of the two depends on the pattern, so it is yours to choose.

Source
common practice, no source
`,
}

func runStripNarrow(p *rule.Pass) {
	strips(p, func(it *worksheet.Item) bool { return it.Order.Kind.Value == "shower curtain" })
}

// strips tells of narrow strips of some items.
func strips(p *rule.Pass, of func(*worksheet.Item) bool) {
	least := p.Tables.House.LeastStrip
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		if it.Unread || !of(it) || len(it.Joined) == 0 || p.Sheet.Doubted(it.Face.Order.Width.Node) {
			continue
		}
		strip := narrowest(it)
		if strip <= 0 || strip >= least {
			continue
		}
		f := finding.Finding{
			At:      joinPlace(it.Order),
			Message: fmt.Sprintf("One strip of the panel shows only %s; keep strips at least %s wide.", p.Show(strip), p.Show(least)),
			Source:  p.Tables.SelfSource("least_strip"),
			Fixes:   finding.Advice("Join equal pieces"),
		}
		if shows := it.Get(worksheet.CenterShows); shows != nil {
			f.Working = shows.Working(p.Sheet.Unit)
			center := it.Get(worksheet.FinishedWidth).Value.Length() - 2*least + 2*it.Allowance
			if strip < shows.Value.Length() && center > least {
				f.Fixes = append(f.Fixes, finding.Fix{
					Title:    fmt.Sprintf("Cut the center %s wide, so that each side shows %s", center.Format(p.Sheet.Unit, length.Down), p.Show(least)),
					Sureness: finding.Shown,
				})
			}
		}
		p.Report(f)
	}
}

// narrowest is the narrowest strip that shows of a joined panel.
func narrowest(it *worksheet.Item) length.Length {
	width, from := it.Get(worksheet.FinishedWidth).Value.Length(), length.Length(0)
	least := width
	for _, seam := range it.Joined {
		least = min(least, seam-from)
		from = seam
	}
	return min(least, width-from)
}
