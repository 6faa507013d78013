package heading

import (
	"fmt"
	"strconv"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var gapWide = &rule.Rule{
	ID:    "heading/gap-wide",
	Title: "tabs are too far apart",
	Level: finding.Warning,
	Fix:   rule.Always,
	Asked: true,
	Each:  runGapWide,
	Doc: `
Checks
The gap that the stated number of tabs gives, against the usual most. A stated gap that
fits a panel cut down to its fullness is left alone.

Because
Between tabs too far apart the top edge sags and shows the pole and the window above it.

Working
gap = (panel width, flat - tabs × tab width) ÷ (tabs - 1)

Correction
Likely: the fewest tabs that are no further apart than usual, with the gap to match where
one is stated.

Source
eHow UK, Lined tab curtains; Singer Sewing for the Home, tabs.
`,
}

func runGapWide(p *rule.Pass, it *worksheet.Item) {
	most := p.Tables.House.TabGap.Most
	tabGap, h := it.Get(worksheet.TabGap), it.Order.Heading
	if t := &it.Order.Tabs; t.Set { // of a shower curtain
		h.Tabs, h.TabWidth, h.Gap = t.Count, t.Width, t.Gap
	}
	if tabGap == nil || wrong(p, it, worksheet.TabGap) {
		return
	}
	gap := tabGap.Value.Length()
	if h.Gap.Set {
		gap = h.Gap.Value
	}
	if gap <= most {
		return
	}
	wide := h.TabWidth.Value
	panel := gap.Mul(h.Tabs.Value-1) + wide.Mul(h.Tabs.Value)
	tabs := length.CeilDiv(panel+most, wide+most)
	apart := (panel - wide.Mul(tabs)).Div(tabs-1, length.Nearest)
	f := finding.Finding{
		At:      h.Tabs.At,
		Message: fmt.Sprintf("%d tabs sit %s apart; over %s the top edge sags between them.", h.Tabs.Value, gap.Format(p.Sheet.Unit, length.Up), p.Show(most)),
		Stated:  h.Tabs.Node.Text,
		Working: tabGap.Working(p.Sheet.Unit),
		Source:  p.Tables.SelfSource("tab_gap"),
	}
	if p.Editable(h.Tabs.Node) && (!h.Gap.Set || p.Editable(h.Gap.Node)) {
		fix := finding.Fix{
			Title:    fmt.Sprintf("Sew %d tabs, %s apart", tabs, p.Show(apart)),
			Sureness: p.Choosing(h.Tabs.Node, h.Gap.Node),
			Edits:    []finding.Edit{p.Set(h.Tabs.Node, strconv.FormatInt(tabs, 10))},
		}
		if h.Gap.Set {
			fix.Edits = append(fix.Edits, p.Set(h.Gap.Node, h.Gap.Node.LengthStyle().Print(apart, length.Nearest)))
		}
		f.Fixes = []finding.Fix{fix}
	}
	p.Report(f)
}
