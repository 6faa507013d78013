package press

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var careOverFiber = &rule.Rule{
	ID:    "press/care-over-fiber",
	Title: "care label allows a hotter iron than the fiber can take",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runCareOverFiber,
	Doc: `
Checks
The iron a cloth's care label allows against what its weakest fiber can take.

Because
Either the label or the fiber content was copied wrong, and anyone who irons by the label,
here or at the client's, may melt the cloth.

Working
label's iron ≤ what the weakest fiber from 5 percent up can take.

Correction
Shown: ask the mill, and press by the fiber until it answers.

Source
DonnaD, iron symbols after GINETEX; the table of fibers names the source of each.
`,
}

func runCareOverFiber(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		iron := &c.Order.Care.Iron
		if !iron.Set || c.Weakest == "" || p.Sheet.Dots(iron.Value) <= int64(c.Cap) {
			continue
		}
		stands := order.Heat{Dots: c.Cap, None: c.Cap == 0}
		f := finding.Finding{
			At: iron.At,
			Message: fmt.Sprintf("The care label of %s allows %s, but its %s takes no more than %s; ask the mill which is right.",
				c.Name, iron.Value, c.Weakest, stands),
			Stated: iron.Node.Text,
			Fixes:  []finding.Fix{{Title: "Ask the mill, and press by the fiber until it answers"}},
		}
		if c.Cap == 0 {
			f.Message = fmt.Sprintf("The care label of %s allows %s, but its %s can't be ironed; ask the mill which is right.",
				c.Name, iron.Value, c.Weakest)
		}
		if fiber, ok := p.Tables.FiberByName(c.Weakest); ok {
			f.Source = fiber.Source
		}
		p.Report(f)
	}
}
