package form

import (
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var tooLittleGiven = &rule.Rule{
	ID:    "form/too-little-given",
	Title: "too little stated to work an item out",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runTooLittleGiven,
	Doc: `
Checks
Whether an item says enough for at least one of its pieces. Its fields, cloths and
cautions are checked all the same.

Because
A cutter who reads CLEAR takes the order to have been worked through. Where it was
not, the cutter has to know.

Working
cutgate kinds KIND shows what goods are worked out from.

Source
common practice, no source
`,
}

// runTooLittleGiven reports items of which no piece could be worked out, or not how long
// the first is cut, for want of something that the form does not insist on.
func runTooLittleGiven(p *rule.Pass) {
	if slices.ContainsFunc(p.Order.Flaws, func(f order.Flaw) bool { return f.Kind != order.Blank }) {
		return
	}
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		lacks, piece := it.Lacks()
		if len(lacks) == 0 || it.Face == nil || it.Unread {
			continue
		}
		if finished := slices.DeleteFunc(slices.Clone(lacks), func(f string) bool { return !strings.HasPrefix(f, "finished.") }); len(finished) > 0 {
			lacks = finished // which do in place of the others
		}
		for i := range lacks {
			if n := it.Order.Kind.Node; n != nil && n.Cell {
				lacks[i] = heading(lacks[i])
			}
			lacks[i] = "`" + lacks[i] + "`"
		}
		what := "This " + it.Order.Kind.Value
		if piece != "" {
			what = "The " + piece + " of this " + it.Order.Kind.Value
		}
		p.Report(finding.Finding{At: it.Order.Kind.At, Message: what + " can't be worked out without " + worksheet.All(lacks) + "."})
	}
}
