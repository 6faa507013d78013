package seam

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var allowanceWide = &rule.Rule{
	ID:    "seam/allowance-wide",
	Title: "seam allowance is wider than usual",
	Level: finding.Note,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runAllowanceWide,
	Doc: `
Checks
The stated seam allowance against the usual most for the kind of seam, unless a
wide selvedge or an edge stripe needs more.

Because
Each join takes the allowance from both pieces, so a wide one costs cloth at every join.
It may be meant, to let the work out later; it may also be a stray whole number before a
fraction.

Working
allowance ≤ most for the seam.

Correction
Likely, only where the fraction alone, or moving the decimal point, gives an allowance
that suits the seam: 1/2 in for 2 1/2.

Source
The table of seams.
`,
}

func runAllowanceWide(p *rule.Pass, it *worksheet.Item) {
	a, kind := &it.Order.Join.Allowance, kindOf(p, it)
	if !a.Set || kind == nil || !sewn(it) || p.Sheet.Doubted(a.Node) {
		return
	}
	u := p.Sheet.Unit
	step := length.Step(u)
	stripe := it.Face != nil && it.Face.Order.EdgeStripe.Value
	if a.Value-kind.Most < step || stripe || hides(p, it) > kind.Most {
		return
	}
	f := finding.Finding{
		At: a.At,
		Message: fmt.Sprintf("The seam allowance is %s; a %s seam seldom needs more than %s, and each join takes it twice.",
			p.Show(a.Value), kind.Name, p.Show(kind.Most)),
		Stated: a.Node.Text, Source: kind.Source,
	}
	if less, _ := meant(a, kind.Most+step); less > 0 && kind.Least-less < step {
		f.Corrected = a.Node.LengthStyle().Print(less, length.Nearest)
		f.Fixes = p.Likely(a.Node, f.Corrected, "Allow "+p.Show(less)+" at the joins")
	}
	p.Report(f)
}
