package length

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
)

var liningShows = &rule.Rule{
	ID:    "length/lining-shows",
	Title: "lining is no shorter than the face",
	Level: finding.Warning,
	Fix:   rule.Always,
	Asked: true,
	Run:   runLiningShows,
	Doc: `
Checks
What a lining is stated to be shorter at the foot, where that is nothing.

Because
Cloths drop and shrink unlike each other. A lining that is made as long as the
face shows below it before long, and pulls the face up where it shrinks more.

Working
shorter > 0

Correction
Likely: what the shop makes its linings shorter.

Source
common practice, no source
`,
}

func runLiningShows(p *rule.Pass) {
	for i := range p.Sheet.Items {
		leaf := &p.Sheet.Items[i].Order.Lining.Shorter
		if !leaf.Set || leaf.Value > 0 {
			continue
		}
		usual := p.Tables.House.LiningShorter
		f := finding.Finding{
			At: leaf.At,
			Message: fmt.Sprintf("The lining finishes level with the face, and will show below it; make it shorter, %s as a rule.",
				usual.Format(p.Sheet.Unit, length.Nearest)),
			Stated: leaf.Node.Text,
			Source: p.Tables.SelfSource("lining_shorter"),
		}
		f.Fixes = p.Likely(leaf.Node, leaf.Node.LengthStyle().Print(usual, length.Nearest), fmt.Sprintf("Make the lining %s shorter", usual.Format(p.Sheet.Unit, length.Nearest)))
		p.Report(f)
	}
}
