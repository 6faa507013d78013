package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var shallow = &rule.Rule{
	ID:    "hem/shallow",
	Title: "bottom hem of a full-length curtain is shallow",
	Level: finding.Note,
	Fix:   rule.Always,
	Asked: true,
	Each:  runShallow,
	Doc: `
Checks
How much of the cut goes into the bottom hem of a curtain to the floor, where no chain
or tape weights it.

Because
A shallow hem at the foot of a long drop looks mean and flares, and leaves
nothing to let down. Where its weight is known and too little, hem/hangs-light reports
that instead.

Working
hem takes ≥ the least of a full-length curtain, 2 in unless the shop says
otherwise.

Correction
Likely: the shop's own depth for a hem at the floor. The cut gets longer and is
worked out again.

Source
Common practice, no source; the Ellesmere Guardian of 1935 asks for 3 in in heavy
curtains to the floor.
`,
}

func runShallow(p *rule.Pass, it *worksheet.Item) {
	u, least := p.Sheet.Unit, p.Tables.House.FloorHemLeast
	hem := it.Bottom
	if !fullLength(it.Order) || hem.House || hem.Takes <= 0 || least-hem.Takes < length.Step(u) {
		return
	}
	turn := &hem.Order.Turn
	weighed := it.Order.Weights.Set && it.Order.Weights.Kind.Value != "single"
	if _, ok := light(p, it); ok || weighed || p.Sheet.Doubted(turn.Node, hem.Order.Folds.Node) {
		return
	}
	f := finding.Finding{
		At: turn.At,
		Message: fmt.Sprintf("The bottom hem takes only %s; a curtain to the floor hangs better with %s or more.",
			p.Show(hem.Takes), least.Format(u, length.Down)),
		Stated: turn.Node.Text, Source: p.Tables.SelfSource("floor_hem_least"),
	}
	if own := p.Tables.HemFor("curtain", "bottom", "floor"); own != nil {
		f.Corrected = turn.Node.LengthStyle().Print(own.Turn, length.Nearest)
		f.Fixes = p.Likely(turn.Node, f.Corrected, "Turn it "+p.Show(own.Turn)+" deep")
	}
	p.Report(f)
}
