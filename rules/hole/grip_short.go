package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var gripShort = &rule.Rule{
	ID:    "hole/grip-short",
	Title: "top hem is too thick for the grommet",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runGripShort,
	Doc: `
Checks
The layers of face cloth at a stated top hem, times the cloth's thickness, against
the thickest stack the grommet closes on.

Because
A grommet on too thick a stack does not lock: it looks closed but opens under the
weight of the curtain, and by then the hole is cut.

Working
(folds of the top hem + 1) × thickness ≤ grip. Lining, interfacing and side hems add
to the stack and are not counted.

Source
common practice, no source
`,
}

func runGripShort(p *rule.Pass, it *worksheet.Item) {
	h := &it.Order.Holes
	if h.Make.Value != "grommet" || !h.Grip.Set || !it.Order.Hems.Top.Set || it.Face == nil || !it.Face.Order.Thickness.Set {
		return
	}
	layers := it.Top.Folds + 1
	stack := it.Face.Order.Thickness.Value.Mul(layers)
	if stack <= h.Grip.Value {
		return
	}
	p.Report(finding.Finding{
		At: h.Grip.At,
		Message: fmt.Sprintf("The top hem is %d layers, %s in all; the grommet closes on at most %s.",
			layers, thin(stack), thin(h.Grip.Value)),
		Stated:  h.Grip.Node.Text,
		Working: []string{"layers × thickness", fmt.Sprintf("%d × %s = %s", layers, thin(it.Face.Order.Thickness.Value), thin(stack))},
		Source:  worksheet.Common,
		Fixes:   finding.Advice("Take grommets with a longer neck, or turn the top hem once"),
	})
}

// thin prints a thickness, which is too small for the steps that cloth is cut by.
func thin(l length.Length) string { return length.RatioOf(l, length.Millimetre).Format(2) + " mm" }
