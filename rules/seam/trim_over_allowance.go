package seam

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var trimOverAllowance = &rule.Rule{
	ID:    "seam/trim-over-allowance",
	Title: "trimmed edge is not narrower than the seam allowance",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runTrimOverAllowance,
	Doc: `
Checks
What is left of the trimmed edge against the seam allowance it is cut from.

Because
No more can be left than was there. One of the two numbers is wrong, and if it is the
allowance, the pieces are cut wrong.

Working
trim < allowance.

Correction
Likely: the fraction without the stray whole number before it (1/4 for 2 1/4), or the
decimal point moved, where that is under half the allowance; otherwise the usual trim for
the seam.

Source
Common practice, no source: it is plain measuring. The usual trim is from
Apparel: Design, Textiles and Construction.
`,
}

func runTrimOverAllowance(p *rule.Pass, it *worksheet.Item) {
	trim, a := &it.Order.Join.Trim, allowanceOf(p, it)
	if !trim.Set || a == 0 || trim.Value < a || !sewn(it) {
		return
	}
	kind := kindOf(p, it)
	cut := a
	if stated := &it.Order.Join.Allowance; stated.Set {
		cut = stated.Value
	}
	f := finding.Finding{
		At: trim.At,
		Message: fmt.Sprintf("A seam allowance of %s can't be trimmed to %s.",
			p.Show(cut), p.Show(trim.Value)),
		Stated: trim.Node.Text, Source: worksheet.Common,
	}
	half := a.Div(2, length.Down)
	right, slip := meant(trim, half)
	if f.Slip = slip; right <= 0 && kind.Trim < half {
		right = kind.Trim
	}
	if right > 0 {
		f.Corrected = trim.Node.LengthStyle().Print(right, length.Nearest)
		f.Fixes = p.Likely(trim.Node, f.Corrected, "Trim it to "+p.Show(right))
	}
	p.Report(f)
}
