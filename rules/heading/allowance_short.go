package heading

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var allowanceShort = &rule.Rule{
	ID:    "heading/allowance-short",
	Title: "heading allowance is too small for what is turned down",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runAllowanceShort,
	Doc: `
Checks
The cloth allowed above the finished top against what it has to make: a stated top hem, or
the header and pocket of a rod pocket.

Because
The allowance is the cloth above the top edge. If it is too little, the pocket or hem
takes cloth from the curtain's length, and the curtain comes out short.

Working
allowance ≥ turn × folds of a stated top hem; allowance, or the turn of a top hem
without one, ≥ header + pocket. The pocket is the one the rod needs, or a
roomier one that is stated. The turn under of the raw edge is not counted. Where no
allowance is stated, it is worked out from the pocket.

Correction
Likely: the least that will do. The cut gets longer by as much. Where stated sizes agree
with the allowance as it is, it is only shown: the header or the pocket may be wrong.

Source
Sewing guideline sheet 8.150, Making rod pocket curtains; common practice, no source,
for hems.
`,
}

func runAllowanceShort(p *rule.Pass, it *worksheet.Item) {
	o := it.Order
	allowance, top := &o.Heading.Allowance, &o.Hems.Top
	if p.Sheet.Doubted(allowance.Node, top.Turn.Node, o.Heading.Pocket.Node, it.Diameter().Node) {
		return
	}
	pocket, header := it.Length("pocket made"), o.Heading.Header.Value
	within, what := allowance, "heading allowance"
	if !allowance.Set && top.Turn.Set {
		within, what = &top.Turn, "top hem"
	}
	switch {
	case allowance.Set && top.Turn.Set && allowance.Value < it.Top.Takes:
		reportShort(p, allowance, it.Top.Takes, worksheet.Common,
			fmt.Sprintf("The heading allowance is %s, but the top hem takes %s.", p.Show(allowance.Value), p.Show(it.Top.Takes)))
	case pocket > 0 && within.Set && within.Value < header+pocket:
		reportShort(p, within, header+pocket, pocketSource, fmt.Sprintf("The %s is %s, but %s.", what, p.Show(within.Value), takes(p, header, pocket)))
	}
}

const pocketSource = "Sewing guideline sheet 8.150, Making rod pocket curtains"

// takes is what the header, if there is one, and the pocket take.
func takes(p *rule.Pass, header, pocket length.Length) string {
	if header > 0 {
		return fmt.Sprintf("the header takes %s and the pocket %s", p.Show(header), pocket.Format(p.Sheet.Unit, length.Up))
	}
	return "the pocket takes " + pocket.Format(p.Sheet.Unit, length.Up)
}

// reportShort reports an allowance. Where stated outcomes go with it, what goes into it
// may be wrong as well.
func reportShort(p *rule.Pass, leaf *order.Length, least length.Length, source, message string) {
	f := finding.Finding{At: leaf.At, Message: message, Stated: leaf.Node.Text, Source: source}
	f.Fixes = p.Likely(leaf.Node, leaf.Node.LengthStyle().Print(least, length.Up), fmt.Sprintf("Allow %s or more", least.Format(p.Sheet.Unit, length.Up)))
	p.Report(f)
}
