package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var offHem = &rule.Rule{
	ID:    "hole/off-hem",
	Title: "grommet is not wholly on the top hem",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runOffHem,
	Doc: `
Checks
The lower end of the grommets' flange against the depth of a stated top hem.

Because
A flange that hangs over the hem's edge closes on the folded hem above and on single
cloth below: it works loose, and the weight of the curtain tears it out.

Working
from the top + flange ÷ 2 < the top hem's turn. Where no flange is stated the bore
is used.

Correction
Likely: the middle of the hem, if the whole flange fits on it there, clear of the edge.
Otherwise the hem or the grommet has to change, and you choose which.

Source
common practice, no source
`,
}

func runOffHem(p *rule.Pass, it *worksheet.Item) {
	h, turn := &it.Order.Holes, it.Order.Hems.Top.Turn
	if !it.OffHem() || inverted(h) || p.Sheet.Doubted(turn.Node, h.FromTop.Node, h.Flange.Node, h.Bore.Node) {
		return
	}
	r := h.Reach()
	low := h.FromTop.Value + r
	f := finding.Finding{
		At: h.FromTop.At,
		Message: fmt.Sprintf("The %s reaches %s below the top edge, but the top hem is %s deep: keep all of it on the hem.",
			part(h), p.Show(low), p.Show(turn.Value)),
		Stated: h.FromTop.Node.Text,
		Source: worksheet.Common,
	}
	right, ok := centered(p, it)
	f.Fixes = setFromTop(p, h, right)
	if !ok {
		size := &h.Flange
		if !size.Set {
			size = &h.Bore
		}
		f.At, f.Stated = size.At, size.Node.Text
		f.Message = fmt.Sprintf("The %s is %s wide, too wide for a top hem %s deep.", part(h), small(p, 2*r), p.Show(turn.Value))
		f.Fixes = finding.Advice(fmt.Sprintf("Turn the top hem deeper than %s, or take a smaller grommet",
			max(low, 2*r+p.Tables.House.EdgeToFlange).Format(p.Sheet.Unit, length.Up)))
	}
	p.Report(f)
}
