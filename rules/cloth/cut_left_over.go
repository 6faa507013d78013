package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
)

var cutLeftOver = &rule.Rule{
	ID:    "cloth/cut-left-over",
	Title: "cloth ordered leaves enough for another cut",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runCutLeftOver,
	Doc: `
Checks
How much more cloth is ordered than is needed, where that is at least as long as the
longest cut and no known slip explains it.

Because
It may be meant as a spare or for cushions later. If not, it is money on the shelf.

Working
over = ordered - cloth to buy, in longest cuts

Correction
The cloth to buy is proposed and not written in: more may be wanted.

Source
common practice, no source
`,
}

func runCutLeftOver(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		over, cut := c.Over(), c.Longest()
		if cut <= 0 || over < cut || misordered(p, c) || unsettled(p, c) || unread(p) {
			continue
		}
		leaf, enough := &c.Order.Ordered, c.ToBuy.Value.Length()
		more := "one more cut"
		if n := length.FloorDiv(over, cut); n > 1 {
			more = fmt.Sprintf("%d more cuts", n)
		}
		f := finding.Finding{
			At: leaf.At,
			Message: fmt.Sprintf("The order has %s of %s, and %s is enough; the rest would make %s of %s.",
				byTheBolt(p, leaf.Value), c.Name, byTheBolt(p, enough), more, p.Show(cut)),
			Stated:  leaf.Node.Text,
			Working: c.ToBuy.Working(p.Sheet.Unit),
			Source:  c.ToBuy.Source,
		}
		if p.Editable(leaf.Node) {
			f.Fixes = []finding.Fix{{
				Title: fmt.Sprintf("Order %s", byTheBolt(p, enough)), Sureness: finding.Shown,
				Edits: []finding.Edit{p.Set(leaf.Node, leaf.Node.LengthStyle().Print(enough, length.Up))},
			}}
		}
		p.Report(f)
	}
}
