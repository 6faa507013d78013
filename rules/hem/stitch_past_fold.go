package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
)

var stitchPastFold = &rule.Rule{
	ID:    "hem/stitch-past-fold",
	Title: "stitch line lies past the hem",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runStitchPastFold,
	Doc: `
Checks
How far the stitch line lies from the inner fold, against the depth of the hem.

Because
A line as far from the inner fold as the hem is deep runs on or off its outer edge and
holds nothing. One of the two numbers is wrong, and if it is the turn, the piece is cut
wrong.

Working
stitch < turn.

Correction
Likely: the shop's furthest from the inner fold, 1/8 in unless it says otherwise, where
the hem is deeper than that.

Source
Common practice, no source: plain folding.
`,
}

func runStitchPastFold(p *rule.Pass) {
	u, usual := p.Sheet.Unit, p.Tables.House.StitchOff
	for _, e := range edges(p) {
		if !e.Stitch.Set || !e.turned(p) || e.Stitch.Value < e.Turn.Value {
			continue
		}
		f := finding.Finding{
			At: e.Stitch.At,
			Message: fmt.Sprintf("A stitch line %s from the inner fold misses the %s, which is %s deep.",
				p.Show(e.Stitch.Value), e.name, p.Show(e.Turn.Value)),
			Stated: e.Stitch.Node.Text, Source: p.Tables.SelfSource("stitch_off"),
		}
		if usual < e.Turn.Value {
			f.Corrected = e.Stitch.Node.LengthStyle().Print(usual, length.Down)
			f.Fixes = p.Likely(e.Stitch.Node, f.Corrected, "Stitch "+usual.Format(u, length.Down)+" from the inner fold")
		}
		p.Report(f)
	}
}
