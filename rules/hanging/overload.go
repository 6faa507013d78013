package hanging

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var overload = &rule.Rule{
	ID:    "hanging/overload",
	Title: "curtain is too heavy for its rod or track",
	Level: finding.Error,
	Fix:   rule.Never,
	Each:  runOverload,
	Doc: `
Checks
The mass of everything that hangs, wet for a shower curtain, against what the maker says
the rod or track holds.

Because
Hardware loaded past its limit bends, and comes down on whoever draws the curtain.

Working
hanging mass = weight × width × length of every piece as it is cut + weights in the
hem; wet, times the shop's wet factor for shower curtains.

Correction
None is made: the maker's figures and the fixing in the wall decide, and local codes and
licensed practice come first.

Source
M.Y.L. Ltd., How to calculate drapery weight; common practice, no source, for wet
curtains.
`,
}

func runOverload(p *rule.Pass, it *worksheet.Item) {
	hangs, holds := load(it), it.Holds()
	if hangs == nil || !holds.Set || hangs.Value.N <= int64(holds.Value) {
		return
	}
	just := ""
	if over := hangs.Value.N - int64(holds.Value); over < int64(holds.Value)/100 { // as printed it may not look it
		just = ", just less"
	}
	p.Report(finding.Finding{
		At: holds.At,
		Message: fmt.Sprintf("%s%s; the %s holds %s%s.",
			weighs(it), hangs.Value.Format(p.Sheet.Unit, hangs.Round), rod(it), holds.Node.Text, just),
		Stated:  holds.Node.Text,
		Working: hangs.Working(p.Sheet.Unit),
		Source:  hangs.Source,
		Fixes:   finding.Advice(fmt.Sprintf("Take a %s whose maker rates it for more than that, fixed as the maker says", rod(it))),
	})
}
