package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var firstOverTurn = &rule.Rule{
	ID:    "hem/first-over-turn",
	Title: "first turn is deeper than the hem",
	Level: finding.Error,
	Fix:   rule.Always,
	Asked: true,
	Run:   runFirstOverTurn,
	Doc: `
Checks
The first turn of a hem against the turn that folds over it.

Because
The first turn lies inside the second. A deeper one doesn't fit, so one of the two
numbers is wrong, and the cut is worked out from both.

Working
first ≤ turn.

Correction
Likely: the two swapped; or, where a stray whole number stands before a fraction, the
fraction alone.

Source
Common practice, no source: plain folding.
`,
}

func runFirstOverTurn(p *rule.Pass) {
	u := p.Sheet.Unit
	for _, e := range edges(p) {
		first, turn := e.First.Value, e.Turn.Value
		if !e.First.Set || !e.turned(p) || first-turn < length.Step(u) {
			continue
		}
		f := finding.Finding{
			At: e.First.At,
			Message: fmt.Sprintf("A first turn of %s does not fit inside a %s of %s.",
				p.Show(first), e.name, p.Show(turn)),
			Stated: e.First.Node.Text, Source: worksheet.Common,
			Related: []finding.Related{{Range: e.Turn.At, Message: "the turn that folds over it"}},
		}
		unit := e.First.Node.LengthStyle().Unit()
		if rest := first % unit.Length(); !unit.Metric() && rest > 0 && rest < turn {
			f.Fixes = append(f.Fixes, p.Likely(e.First.Node, e.First.Node.LengthStyle().Print(rest, length.Nearest), "Take a first turn of "+p.Show(rest))...)
		}
		if p.Editable(e.First.Node) && p.Editable(e.Turn.Node) {
			f.Fixes = append(f.Fixes, finding.Fix{
				Title:    fmt.Sprintf("Turn it %s with a first turn of %s", p.Show(first), p.Show(turn)),
				Sureness: p.Choosing(e.First.Node, e.Turn.Node),
				Edits:    []finding.Edit{p.Set(e.First.Node, e.Turn.Node.Text), p.Set(e.Turn.Node, e.First.Node.Text)},
			})
		}
		p.Report(f)
	}
}
