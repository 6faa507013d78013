package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
)

var singleFoldSheer = &rule.Rule{
	ID:    "hem/single-fold-sheer",
	Title: "raw edge shows through the hem of a sheer",
	Level: finding.Note,
	Fix:   rule.Always,
	Asked: true,
	Run:   runSingleFoldSheer,
	Doc: `
Checks
The folds of the hems of an unlined sheer, and their first turn.

Because
Light shows what lies inside the hem of a sheer. A raw edge or a narrow first turn shows
as a ragged line; a full double turn looks even all over.

Working
folds ≥ 2, and first = turn.

Correction
Likely: a full double turn. The cut gets longer and is worked out again.

Source
Making curtains, Ellesmere Guardian, 24 May 1935: the first turn of a sheer is the
full depth of the hem.
`,
}

const sheerSource = "Making curtains, Ellesmere Guardian, 24 May 1935"

func runSingleFoldSheer(p *rule.Pass) {
	u := p.Sheet.Unit
	for it, e := range edges(p) {
		if !sheer(it) || it.Order.Lining.Set || !e.turned(p) {
			continue
		}
		turn := p.Show(e.Turn.Value)
		f := finding.Finding{Source: sheerSource}
		switch {
		case e.Folds.Value == 1 && !p.Sheet.Doubted(e.Folds.Node):
			f.At, f.Stated, f.Corrected = e.Folds.At, e.Folds.Node.Text, "2"
			f.Message = fmt.Sprintf("The %s is turned once, and the raw edge shows through a sheer; turn it twice.", e.name)
			f.Fixes = p.Likely(e.Folds.Node, "2", "Turn it twice, "+turn+" each time")
		case e.First.Set && e.Turn.Value-e.First.Value >= length.Step(u):
			f.At, f.Stated, f.Corrected = e.First.At, e.First.Node.Text, e.Turn.Node.Text
			f.Message = fmt.Sprintf("A first turn of %s shows as a line through the %s of a sheer; turn it the full %s.",
				p.Show(e.First.Value), e.name, turn)
			f.Fixes = p.Likely(e.First.Node, e.Turn.Node.Text, "Turn it twice, "+turn+" each time")
		default:
			continue
		}
		p.Report(f)
	}
}
