package press

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
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
label's iron ≤ what the weakest fiber from 5 percent up can take. Where an iron that is
set by the label is too hot, press/too-hot says so.

Correction
Shown: ask the mill, and press by the fiber until it answers.

Source
DonnaD, iron symbols after GINETEX; the table of fibers names the source of each.
`,
}

// overFiber reports whether a cloth's care label allows a hotter iron than its fiber.
func overFiber(p *rule.Pass, c *worksheet.Cloth) bool {
	iron := &c.Order.Care.Iron
	return iron.Set && c.Weakest != "" && p.Sheet.Dots(iron.Value) > int64(c.Cap)
}

func runCareOverFiber(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		iron := &c.Order.Care.Iron
		if !overFiber(p, c) || slices.ContainsFunc(c.Items(), func(item int) bool { return p.Sheet.InDoubt(item, c.Name, worksheet.PressSetting) }) {
			continue
		}
		stands := order.Heat{Dots: c.Cap, None: c.Cap == 0}
		f := finding.Finding{
			At: iron.At,
			Message: fmt.Sprintf("The care label of %s allows %s, but its %s takes no more than %s; ask the mill which is right.",
				c.Name, iron.Value, c.Weakest, stands),
			Stated: iron.Node.Text,
			Fixes:  finding.Advice("Ask the mill, and press by the fiber until it answers"),
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
