package seam

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var allowanceScant = &rule.Rule{
	ID:    "seam/allowance-scant",
	Title: "seam allowance is too small for the seam",
	Level: finding.Warning,
	Fix:   rule.Always,
	Asked: true,
	Each:  runAllowanceScant,
	Doc: `
Checks
The stated seam allowance against the least for the kind of seam. Where no kind is
stated, against that for a plain seam, which needs least.

Because
A seam near the edge slips or frays out under the weight of the hanging, and a
French or felled seam has no cloth left to fold.

Working
allowance ≥ least for the seam, within a small step: 3/8 in will do for 1 cm.

Correction
Likely: the usual allowance for the seam, or what hides the selvedge if that is more.
The pieces are worked out again from it.

Source
The table of seams; A. W. Koester, Complex Seams for Woven Fabrics, for French
and felled ones.
`,
}

func runAllowanceScant(p *rule.Pass, it *worksheet.Item) {
	a := &it.Order.Join.Allowance
	if !sewn(it) || !scant(p, it) || p.Sheet.Doubted(a.Node) {
		return
	}
	kind, u := kindOf(p, it), p.Sheet.Unit
	better := max(kind.Usual, hides(p, it))
	right := a.Node.LengthStyle().Print(better, length.Up)
	p.Report(finding.Finding{
		At: a.At,
		Message: fmt.Sprintf("A %s seam needs an allowance of at least %s, not %s.", kind.Name,
			p.Show(kind.Least), p.Show(a.Value)),
		Stated: a.Node.Text, Corrected: right, Source: kind.Source,
		Fixes: p.Likely(a.Node, right, "Allow "+better.Format(u, length.Up)+" at the joins"),
	})
}
