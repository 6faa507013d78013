package fabric

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var absorbsDamp = &rule.Rule{
	ID:    "fabric/absorbs-damp",
	Title: "shower curtain in a cloth that absorbs damp",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runAbsorbsDamp,
	Doc: `
Checks
Whether a shower curtain's cloth absorbs damp, with no liner or second curtain on the order
that resists it. Where the order does not say, a cloth absorbs damp if half or more of its
fibers do.

Because
A cloth that takes in water hangs wet for hours, gets heavy and grows mold. Outside
the tub, in front of a liner, it is only for show.

Working
The cloth states damp: absorbs, or states nothing and its fibers take up water; the order
does not say the curtain hangs outside the tub; and no other shower curtain on the order
is of a cloth that resists damp.

Correction
None is made: another cloth, or a liner beside it, is the maker's choice.

Source
common practice, no source
`,
}

func runAbsorbsDamp(p *rule.Pass, it *worksheet.Item) {
	o := it.Order
	if o.Kind.Value != "shower curtain" || o.Liner.Set || it.Face == nil || !takesUp(p, it.Face) ||
		o.Tub.Inside.Set && !o.Tub.Inside.Value || p.Order.Misspelt(o.At, "inside") || p.Order.Misspelt(o.At, "tub") || lined(p, it) {
		return
	}
	damp := &it.Face.Order.Damp
	if !damp.Set {
		p.Report(finding.Finding{
			At:      o.Cloth.At,
			Message: fmt.Sprintf("The cloth %s is made of fibers that take up water, and the order has no liner and does not say under `damp` that the cloth resists it.", it.Face.Name),
			Stated:  o.Cloth.Value,
			Source:  worksheet.Common,
			Fixes:   finding.Advice("State damp for the cloth, or hang it outside the tub in front of a liner"),
		})
		return
	}
	says := "the order has no liner. Does it hang outside the tub, in front of a liner?"
	if o.Tub.Inside.Value {
		says = "this curtain hangs inside the tub."
	}
	p.Report(finding.Finding{
		At:      o.Cloth.At,
		Message: fmt.Sprintf("The cloth %s absorbs damp, and %s", it.Face.Name, says),
		Stated:  o.Cloth.Value,
		Source:  worksheet.Common,
		Related: []finding.Related{{Range: damp.At, Message: "it absorbs damp"}},
		Fixes:   finding.Advice("Choose a cloth that resists damp, or hang it outside the tub in front of a liner"),
	})
}

// takesUp reports whether a cloth is said to absorb damp, or where nothing is said is
// half or more of fibers that do. A coated cloth says that it resists it.
func takesUp(p *rule.Pass, c *worksheet.Cloth) bool {
	if c.Order.Damp.Set || p.Order.Misspelt(c.Order.At, "damp") {
		return c.Order.Damp.Value == "absorbs"
	}
	var share length.Ratio
	for i := range c.Order.Fiber {
		e := &c.Order.Fiber[i]
		f, ok := p.Tables.FiberByName(e.Name)
		switch {
		case !ok:
			return false // it may be a coating
		case f.Absorbs:
			share = share.Add(e.Of.Value)
		}
	}
	return share.Cmp(length.NewRatio(1, 2)) >= 0
}

// lined reports whether another shower curtain of the order can be its liner.
func lined(p *rule.Pass, it *worksheet.Item) bool {
	for i := range p.Sheet.Items {
		l := &p.Sheet.Items[i]
		if l != it && l.Order.Kind.Value == "shower curtain" && (l.Face == nil || l.Face.Order.Damp.Value == "resists") {
			return true
		}
	}
	return false
}
