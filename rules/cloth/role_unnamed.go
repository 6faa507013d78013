package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var roleUnnamed = &rule.Rule{
	ID:    "cloth/role-unnamed",
	Title: "piece cut from a cloth the item does not give for it",
	Level: finding.Error,
	Fix:   rule.Never,
	Each:  runRoleUnnamed,
	Doc: `
Checks
Whether the cloth a cut names is the one the item gives for that piece: its own, or its
lining's, sides', band's or tabs'.

Because
A cut in a cloth the item does not have comes off the wrong bolt, with another cloth's
shrinkage and repeat.

Working
A part with a cloth of its own names it: side_cloth in join for side panels, cloth in
lining, liner, band or tabs, tab_cloth in heading. Neither the cut nor what rests on the
cloth is checked until the two agree.

Correction
Shown: the cloth the item gives. If the cut is right, the item has to name its cloth.

Source
plain arithmetic
`,
}

func runRoleUnnamed(p *rule.Pass, it *worksheet.Item) {
	if !it.Worked || it.Unread {
		return
	}
	for j := range it.Order.Cuts {
		c := &it.Order.Cuts[j]
		role := it.Disputed(c)
		if role < 0 || p.Order.Misspelt(it.Order.At, "cloth") {
			continue
		}
		given, field := it.ClothOf(role).Name, it.ClothField(c)
		f := finding.Finding{
			At: c.Cloth.At, Stated: c.Cloth.Value, Corrected: given,
			Message: fmt.Sprintf("This %s is cut from %s, but the item gives %s for it: which is right? For %s write it under `%s`; for %s, in this row.",
				c.Piece.Value, c.Cloth.Value, given, c.Cloth.Value, field, given),
		}
		if p.Editable(c.Cloth.Node) {
			f.Fixes = []finding.Fix{{Title: "If that is right, cut it from " + given, Sureness: finding.Shown, Edits: []finding.Edit{p.Set(c.Cloth.Node, given)}}}
		}
		p.Report(f)
	}
}
