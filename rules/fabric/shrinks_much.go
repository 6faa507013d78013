package fabric

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var shrinksMuch = &rule.Rule{
	ID:    "fabric/shrinks-much",
	Title: "cloth shrinks too much to cut unwashed",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runShrinksMuch,
	Doc: `
Checks
The shrinkage, stated or from the cutter's washed sample, of a cloth that is not washed
before cutting.

Because
A cloth that loses a tenth or more never loses it evenly: seams pucker, hems rise, and no
allowance in the cut makes up for it.

Working
shrinkage ≤ the house's most, 10 %. The larger of length and width counts.

Correction
None is made: washing the cloth first changes every cut.

Source
common practice, no source
`,
}

func runShrinksMuch(p *rule.Pass) {
	most := p.Tables.House.ShrinkMost
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		if c.Order.Washed.Value || p.Order.Misspelt(c.Order.At, "washed") {
			continue
		}
		along, across := c.Order.Shrinks.Length, c.Order.Shrinks.Width
		if m := p.Sheet.Measured(c.Name); m != nil {
			along, across = or(m.Shrinks.Length, along), or(m.Shrinks.Width, across)
		}
		leaf, way := along, "length"
		if across.Value.Cmp(along.Value) > 0 {
			leaf, way = across, "width"
		}
		if !leaf.Set || leaf.Value.Cmp(most) <= 0 || p.Sheet.Doubted(leaf.Node) {
			continue
		}
		p.Report(finding.Finding{
			At: leaf.At,
			Message: fmt.Sprintf("The cloth %s shrinks by %s in its %s; over %s, wash it before cutting.",
				c.Name, leaf.Value.Percent(), way, most.Percent()),
			Stated: leaf.Node.Text,
			Source: p.Tables.SelfSource("shrink_most"),
			Fixes:  finding.Advice("Wash the cloth before cutting, and say so: washed: true"),
		})
	}
}

// or is the first leaf, or the other where that is not set.
func or(leaf, otherwise order.Percent) order.Percent {
	if leaf.Set {
		return leaf
	}
	return otherwise
}
