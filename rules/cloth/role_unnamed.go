package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var roleUnnamed = &rule.Rule{
	ID:    "cloth/role-unnamed",
	Title: "piece cut from a cloth the item does not give for it",
	Level: finding.Warning,
	Fix:   rule.Always,
	Asked: true,
	Run:   runRoleUnnamed,
	Doc: `
Checks
Whether the cloth a cut names is the one the item gives for that piece: its own, or its
lining's, sides', band's or tabs'.

Because
A cut in a cloth the item does not have comes off the wrong bolt, with another cloth's
shrinkage and repeat.

Working
A part with a cloth of its own names it: side_cloth in join for side panels, cloth in
lining, liner, band or tabs, tab_cloth in heading. The cut is not checked until the two
agree.

Correction
Likely: the cloth the item gives. If the cut is right, the item has to name the cloth; where
nothing else is cut from that, the correction is only shown.

Source
plain arithmetic
`,
}

func runRoleUnnamed(p *rule.Pass) {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		if !it.Worked || it.Unread {
			continue
		}
		for j := range it.Order.Cuts {
			c := &it.Order.Cuts[j]
			of := unnamed(it, c)
			if of == nil || p.Sheet.Cloth(c.Cloth.Value) == nil || p.Order.Misspelt(it.Order.At, "cloth") {
				continue
			}
			f := finding.Finding{
				At: c.Cloth.At, Stated: c.Cloth.Value, Corrected: of.Cloth.Name,
				Message: fmt.Sprintf("This %s is cut from %s, but the item gives %s for it. If %s is right, name it under `%s`; the cut was not checked.",
					c.Piece.Value, c.Cloth.Value, of.Cloth.Name, c.Cloth.Value, it.ClothField(of)),
			}
			f.Fixes = p.Likely(c.Cloth.Node, of.Cloth.Name, "Cut it from "+of.Cloth.Name)
			if idle := p.Sheet.Idle(); len(f.Fixes) > 0 && idle != nil && idle.Name == c.Cloth.Value {
				f.Fixes[0].Sureness = finding.Shown
			}
			p.Report(f)
		}
	}
}

// unnamed is the piece that a cut is of, where the cut names another cloth than any
// such piece has; nil where there is nothing against it.
func unnamed(it *worksheet.Item, c *order.Cut) *worksheet.Piece {
	if !c.Cloth.Set || !c.Piece.Set || c.Cloth.Value == it.Order.Lining.Cloth.Value && it.Order.Lining.Set {
		return nil // a width in the lining's cloth is called by another name
	}
	if p, _ := it.PieceOf(c); p != nil {
		return nil
	}
	for i := range it.Pieces {
		if p := &it.Pieces[i]; p.Cloth != nil && worksheet.SamePiece(c.Piece.Value, p.Name) {
			return p
		}
	}
	return nil
}
