package seam

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var trimWide = &rule.Rule{
	ID:    "seam/trim-wide",
	Title: "trimmed edge is too wide to lie inside the seam",
	Level: finding.Warning,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runTrimWide,
	Doc: `
Checks
What is left of the trimmed edge: in a flat felled seam against half the
allowance, in a French seam against the second row.

Because
The other edge of a felled seam is folded in half over the trimmed one, and a
French seam closes over its first row. A wider edge is not covered: it makes a
ridge, or threads poke out on the right side.

Working
flat felled: trim ≤ allowance ÷ 2. French: the lesser of trim and first row <
allowance - first row; where no first row is stated, trim < allowance ÷ 2.

Correction
Likely: the usual trim for the seam, where that is narrow enough.

Source
Secrets of Self-Sufficiency, Finishing methods in sewing: a felled seam's under
layer trimmed to half, a French seam's first row at half the allowance.
`,
}

func runTrimWide(p *rule.Pass, it *worksheet.Item) {
	j := &it.Order.Join
	trim, a := &j.Trim, allowanceOf(p, it)
	if !trim.Set || a == 0 || trim.Value >= a || !sewn(it) {
		return
	}
	kind, u := kindOf(p, it), p.Sheet.Unit
	room, edge := a.Div(2, length.Down), trim.Value
	var message string
	switch kind.Name {
	case "flat felled":
		if edge <= room {
			return
		}
		message = fmt.Sprintf("An edge trimmed to %s is too wide for the other one to fold over; trim it to less than %s.",
			p.Show(edge), room.Format(u, length.Down))
	case "French":
		if row := &j.FirstRow; row.Set && row.Value < a {
			room, edge = a-row.Value, min(edge, row.Value)
		}
		if edge < room {
			return
		}
		message = fmt.Sprintf("Edges trimmed to %s poke out of a second row of %s; trim them to less.",
			p.Show(trim.Value), room.Format(u, length.Down))
	default:
		return
	}
	f := finding.Finding{At: trim.At, Message: message, Stated: trim.Node.Text, Source: kind.Source}
	if kind.Trim > 0 && kind.Trim < room {
		f.Corrected = trim.Node.LengthStyle().Print(kind.Trim, length.Nearest)
		f.Fixes = p.Likely(trim.Node, f.Corrected, "Trim to "+p.Show(kind.Trim))
	}
	p.Report(f)
}
