package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var liningMissesHem = &rule.Rule{
	ID:    "hem/lining-misses-hem",
	Title: "lining ends above the face's hem",
	Level: finding.Warning,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runLiningMissesHem,
	Doc: `
Checks
How much shorter than the face the lining is, against the depth of the face's bottom
hem.

Because
The lining covers the upper edge of the hem. If it ends above, that edge and a strip of
the face's wrong side show from outside.

Working
shorter ≤ turn of the bottom hem.

Correction
Likely: the shop's usual, 1 in unless it says otherwise, if that is less than the hem's
depth.

Source
common practice, no source
`,
}

func runLiningMissesHem(p *rule.Pass, it *worksheet.Item) {
	u, usual := p.Sheet.Unit, p.Tables.House.LiningShorter
	shorter, turn := &it.Order.Lining.Shorter, &it.Order.Hems.Bottom.Turn
	if !shorter.Set || turn.Value <= 0 || shorter.Value-turn.Value < length.Step(u) ||
		p.Sheet.Doubted(shorter.Node, turn.Node) {
		return
	}
	f := finding.Finding{
		At: shorter.At,
		Message: fmt.Sprintf("The lining ends %s above the foot, but the face's hem is only %s deep: the hem's upper edge shows.",
			p.Show(shorter.Value), p.Show(turn.Value)),
		Stated: shorter.Node.Text, Source: p.Tables.SelfSource("lining_shorter"),
		Related: []finding.Related{{Range: turn.At, Message: "the depth of the face's hem"}},
	}
	if usual < turn.Value {
		f.Corrected = shorter.Node.LengthStyle().Print(usual, length.Nearest)
		f.Fixes = p.Likely(shorter.Node, f.Corrected, "Let it end "+p.Show(usual)+" above the foot")
	}
	p.Report(f)
}
