package seam

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var firstRowOff = &rule.Rule{
	ID:    "seam/first-row-off",
	Title: "first row of a French seam leaves nothing for the second",
	Level: finding.Error,
	Fix:   rule.Always,
	Asked: true,
	Each:  runFirstRowOff,
	Doc: `
Checks
The first row of a French seam against the seam allowance.

Because
The two rows share the allowance. A first row that takes all of it leaves none for the
second, and the panel comes out narrower than planned.

Working
first row + second row = allowance, so first row < allowance.

Correction
Likely: the fraction without the stray whole number before it, or the decimal point moved,
where that is under the allowance; otherwise half the allowance.

Source
Secrets of Self-Sufficiency, Finishing methods in sewing: half the allowance in
the first row.
`,
}

const rowSource = "Secrets of Self-Sufficiency, Finishing methods in sewing"

func runFirstRowOff(p *rule.Pass, it *worksheet.Item) {
	row, a := &it.Order.Join.FirstRow, allowanceOf(p, it)
	if !row.Set || it.Order.Join.Seam.Value != "French" || a == 0 || row.Value < a || !sewn(it) {
		return
	}
	u := p.Sheet.Unit
	right, slip := meant(row, a)
	if right == 0 {
		right = a.Div(2, length.Down)
	}
	f := finding.Finding{
		At: row.At,
		Message: fmt.Sprintf("A first row of %s leaves nothing of the %s allowance for the second row.",
			p.Show(row.Value), p.Show(a)),
		Stated: row.Node.Text, Corrected: row.Node.LengthStyle().Print(right, length.Down), Slip: slip, Source: rowSource,
	}
	f.Fixes = p.Likely(row.Node, f.Corrected, "Sew the first row at "+right.Format(u, length.Down))
	p.Report(f)
}
