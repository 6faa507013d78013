package seam

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var pipingNarrow = &rule.Rule{
	ID:    "seam/piping-narrow",
	Title: "piping strip is too narrow for its cord",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runPipingNarrow,
	Doc: `
Checks
The width of a piping strip against what it takes to go round the cord with an allowance
on both sides.

Because
A strip too narrow leaves no seam to catch, and the cord pulls out of the cover.

Working
strip ≥ cord × π + 2 × piping allowance, within a small step

Correction
Likely: a strip wide enough to go round. The cord or the allowance may be wrong instead.
If the square was worked out from the strip as stated, one of them surely is, and nothing
is written.

Source
published bias tables: round the cord, and a seam on both sides
`,
}

func runPipingNarrow(p *rule.Pass, it *worksheet.Item) {
	strip, round := &it.Order.Piping.Strip, it.Get("strip round the cord")
	if round == nil || !strip.Set || it.Doubtful("strip round the cord") || p.Sheet.Doubted(strip.Node, it.Order.Piping.Cord.Node, it.Order.Piping.Allowance.Node, it.Order.Allowance.Node) {
		return
	}
	u, least := p.Sheet.Unit, round.Value.Length()
	if strip.Value > least-length.Step(u) {
		return
	}
	if seam := it.Order.Piping.Allowance; seam.Set && it.Has("allowance") && strip.Value > least-seam.Value.Mul(2)+it.Length("allowance").Mul(2)-length.Step(u) && it.Order.Kind.Value == "cushion cover" {
		return // it is right for the cover's seam: seam/piping-unlike says that the piping's is not
	}
	right := strip.Node.LengthStyle().Print(least, length.Up)
	f := finding.Finding{
		At: strip.At,
		Message: fmt.Sprintf("The piping strip is %s wide; to go round the cord, with a seam on both sides, it needs %s.",
			p.Show(strip.Value), least.Format(u, length.Up)),
		Stated: strip.Node.Text, Corrected: right, Working: round.Working(u), Source: round.Source,
	}
	if slices.ContainsFunc(p.Sheet.StatedFrom(it.Index, "strip across"), squared) {
		f.Corrected = ""
		f.Fixes = finding.Advice("Check the cord and its allowance: the square matches the strip")
	} else {
		f.Fixes = p.Likely(strip.Node, right, "Cut the piping strip "+least.Format(u, length.Up)+" wide")
	}
	p.Report(f)
}

// squared reports whether a stated outcome is a size of the square that gives a strip,
// and goes with it.
func squared(s *worksheet.Stated) bool {
	return s.Agrees != worksheet.Differs && s.Quantity != nil && (s.Quantity.Name == "bias square" || s.Quantity.Of == "piping square")
}
