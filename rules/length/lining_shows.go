package length

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var liningShows = &rule.Rule{
	ID:    "length/lining-shows",
	Title: "lining is no shorter than the face",
	Level: finding.Warning,
	Fix:   rule.Always,
	Asked: true,
	Each:  runLiningShows,
	Doc: `
Checks
Whether a lining is stated to be no shorter than the face at the foot.

Because
Two cloths drop and shrink differently. A lining as long as the face soon shows below
it, or pulls the face up where it shrinks more.

Working
shorter > 0

Correction
Likely: as much shorter as the shop usually makes its linings.

Source
common practice, no source
`,
}

func runLiningShows(p *rule.Pass, it *worksheet.Item) {
	leaf := &it.Order.Lining.Shorter
	if !leaf.Set || leaf.Value > 0 {
		return
	}
	usual := p.Tables.House.LiningShorter
	p.Report(finding.Finding{
		At: leaf.At,
		Message: fmt.Sprintf("The lining is as long as the face and will show below it; make it %s shorter, as is usual.",
			p.Show(usual)),
		Stated: leaf.Node.Text,
		Source: p.Tables.SelfSource("lining_shorter"),
		Fixes:  p.Likely(leaf.Node, leaf.Node.LengthStyle().Print(usual, length.Nearest), fmt.Sprintf("Make the lining %s shorter", p.Show(usual))),
	})
}
