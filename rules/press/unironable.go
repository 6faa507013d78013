package press

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var unironable = &rule.Rule{
	ID:    "press/unironable",
	Title: "iron set for a cloth that must not be ironed",
	Level: finding.Error,
	Fix:   rule.Always,
	Asked: true,
	Each:  runUnironable,
	Doc: `
Checks
A stated setting of the iron where the care label of one of the item's cloths says not to
iron it, or where it has no such label and one of its fibers can't be ironed.

Because
Vinyl and other plastics melt under any iron, stick to the sole plate and give off fumes;
finishes marked do not iron craze or turn yellow.

Working
A cloth that must not be ironed takes no setting.

Correction
Likely: no iron. Finger-press, or press the other parts before they are joined.

Source
ISO 3758:2012, from memory, for the label; the table of fibers, common practice,
for the rest.
`,
}

func runUnironable(p *rule.Pass, it *worksheet.Item) {
	s := &it.Order.Press.Setting
	if !s.Set || s.Value.None {
		return
	}
	c := noIron(p, it)
	if c == nil {
		return
	}
	f := finding.Finding{At: s.At, Stated: s.Node.Text, Corrected: "none"}
	if iron := c.Order.Care.Iron; iron.Set {
		f.Message = fmt.Sprintf("The care label of %s says not to iron it, but the iron is set to %s.", c.Name, s.Value)
		f.Source = ironSymbols
		f.Related = []finding.Related{{Range: iron.At, Message: "the care label"}}
	} else {
		f.Message = fmt.Sprintf("The %s in %s can't be ironed, but the iron is set to %s.", c.Weakest, c.Name, s.Value)
		if fiber, ok := p.Tables.FiberByName(c.Weakest); ok {
			f.Source = fiber.Source
		}
	}
	f.Fixes = p.Likely(s.Node, "none", "Leave the iron off")
	p.Report(f)
}
