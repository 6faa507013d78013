package fabric

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var shrinksLittle = &rule.Rule{
	ID:    "fabric/shrinks-little",
	Title: "shrinkage too small to measure",
	Level: finding.Warning,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runShrinksLittle,
	Doc: `
Checks
A shrinkage, stated or of the cutter's washed sample, that is more than zero
but too small to measure.

Because
0.03 in a field that takes percent is three hundredths of a percent. Someone who
meant 3 % and wrote it as a decimal gets cuts that come out short after the first
wash.

Working
shrinkage = 0, or ≥ the house's least, 0.2 %: 1/16 in on a yard of cloth.

Correction
With --likely, a hundred times the number where that is a usual shrinkage, up to the
house's most.

Source
common practice, no source
`,
}

func runShrinksLittle(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		leaves := []order.Percent{c.Order.Shrinks.Length, c.Order.Shrinks.Width}
		if m := p.Sheet.Measured(c.Name); m != nil {
			leaves = append(leaves, m.Shrinks.Length, m.Shrinks.Width)
		}
		for k, leaf := range leaves {
			if !leaf.Set || leaf.Value.Num == 0 || leaf.Value.Cmp(p.Tables.House.ShrinkLeast) >= 0 || p.Sheet.Doubted(leaf.Node) {
				continue
			}
			way := [...]string{"length", "width"}[k%2]
			stated := strings.TrimSpace(strings.TrimSuffix(leaf.Node.Text, "%")) + "%"
			f := finding.Finding{
				At: leaf.At, Stated: leaf.Node.Text, Source: p.Tables.SelfSource("shrink_least"),
				Message: fmt.Sprintf("The cloth %s shrinks by only %s in its %s, which is too little to measure: check the figure.", c.Name, stated, way),
			}
			meant := leaf.Value.Mul(length.NewRatio(100, 1))
			if meant.Cmp(p.Tables.House.ShrinkMost) <= 0 && meant.Cmp(p.Tables.House.ShrinkLeast) >= 0 {
				right := meant.Percent()
				f.Message = fmt.Sprintf("The cloth %s shrinks by only %s in its %s: did you mean %s?", c.Name, stated, way, right)
				f.Corrected = right
				f.Fixes = p.Likely(leaf.Node, right, "Write "+right)
			}
			p.Report(f)
		}
	}
}
