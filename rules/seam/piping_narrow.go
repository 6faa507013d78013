package seam

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
)

var pipingNarrow = &rule.Rule{
	ID:    "seam/piping-narrow",
	Title: "piping strip does not go round its cord",
	Level: finding.Error,
	Fix:   rule.Always,
	Run:   runPipingNarrow,
	Doc: `
Checks
The width of a piping strip against what goes round the cord with an allowance on
both sides.

Because
A strip that is too narrow leaves no seam to catch, and the cord pulls out of the
cover.

Working
strip ≥ cord × π + 2 × piping allowance, to within a step

Correction
Likely: the strip that goes round. The cord or the allowance may be what is wrong.

Source
published bias tables: round the cord, and a seam on both sides
`,
}

func runPipingNarrow(p *rule.Pass) {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		strip, round := &it.Order.Piping.Strip, it.Get("strip round the cord")
		if round == nil || !strip.Set || it.Doubtful("strip round the cord") || p.Sheet.Doubted(strip.Node) {
			continue
		}
		u, least := p.Sheet.Unit, round.Value.Length()
		if strip.Value > least-length.Step(u) {
			continue
		}
		right := strip.Node.LengthStyle().Print(least, length.Up)
		p.Report(finding.Finding{
			At: strip.At,
			Message: fmt.Sprintf("The piping strip is %s wide; round the cord, with a seam on both sides, it takes %s.",
				strip.Value.Format(u, length.Nearest), least.Format(u, length.Up)),
			Stated: strip.Node.Text, Corrected: right, Working: round.Working(u), Source: round.Source,
			Fixes: p.Likely(strip.Node, right, "Cut the piping strip "+least.Format(u, length.Up)+" wide"),
		})
	}
}
