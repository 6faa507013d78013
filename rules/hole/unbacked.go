package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var unbacked = &rule.Rule{
	ID:    "hole/unbacked",
	Title: "buttonholes in a thin cloth without a backing",
	Level: finding.Warning,
	Fix:   rule.Always,
	Asked: true,
	Each:  runUnbacked,
	Doc: `
Checks
Buttonholes without a backing in sheer or light cloth.

Because
Thin cloth puckers under the close stitches of a buttonhole and frays away from them when
pulled; interfacing or tape in the hem holds it.

Working
none: the cloth's class is as stated, or follows from its weight.

Correction
Likely: interfacing. Tape does as well.

Source
common practice, no source
`,
}

func runUnbacked(p *rule.Pass, it *worksheet.Item) {
	h := &it.Order.Holes
	if h.Make.Value != "buttonhole" || h.Backing.Value != "none" || it.Face == nil || it.Face.Class == nil {
		return
	}
	if class := it.Face.Class.Name; class != "sheer" && class != "light" {
		return
	}
	p.Report(finding.Finding{
		At: h.Backing.At,
		Message: fmt.Sprintf("The buttonholes have no backing, and %s is a %s cloth, which puckers and frays without one.",
			it.Face.Name, it.Face.Class.Name),
		Stated: h.Backing.Node.Text,
		Source: worksheet.Common,
		Fixes:  p.Likely(h.Backing.Node, "interfacing", "Back the buttonholes with interfacing"),
	})
}
