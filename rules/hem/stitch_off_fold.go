package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
)

var stitchOffFold = &rule.Rule{
	ID:    "hem/stitch-off-fold",
	Title: "stitch line is too far from the inner fold",
	Level: finding.Warning,
	Fix:   rule.Always,
	Asked: true,
	Run:   runStitchOffFold,
	Doc: `
Checks
How far the stitch line of a hem lies from its inner fold. The top hem of a rod pocket
is not checked: its line is the bottom of the pocket.

Because
The edge above the line is loose: it rolls, catches rings and hooks, and shows as a
flap against the light.

Working
stitch ≤ the shop's furthest from the inner fold, 1/8 in unless it says otherwise.

Correction
Likely: that distance.

Source
Common practice, no source; the distance is the shop's own.
`,
}

func runStitchOffFold(p *rule.Pass) {
	u, most := p.Sheet.Unit, p.Tables.House.StitchOff
	for it, e := range edges(p) {
		pocket := e.Hem == &it.Order.Hems.Top && it.Order.Heading.Style.Value == "rod pocket"
		if pocket || !e.Stitch.Set || e.Stitch.Value >= e.Turn.Value || e.Stitch.Value-most < length.Step(u) {
			continue
		}
		right := e.Stitch.Node.LengthStyle().Print(most, length.Down)
		p.Report(finding.Finding{
			At: e.Stitch.At,
			Message: fmt.Sprintf("The stitch line of the %s lies %s from the inner fold; keep it within %s.", e.name,
				p.Show(e.Stitch.Value), most.Format(u, length.Down)),
			Stated: e.Stitch.Node.Text, Corrected: right, Source: p.Tables.SelfSource("stitch_off"),
			Fixes: p.Likely(e.Stitch.Node, right, "Stitch "+most.Format(u, length.Down)+" from the inner fold"),
		})
	}
}
