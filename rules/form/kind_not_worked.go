package form

import (
	"fmt"
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var kindNotWorked = &rule.Rule{
	ID:    "form/kind-not-worked",
	Title: "item whose sizes are not worked out",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runKindNotWorked,
	Doc: `
Checks
Whether an item is of a kind and style that can be worked out, and says enough for
at least one of its pieces. Its fields, cloths and cautions are checked all the same.

Because
A cutter who reads CLEAR takes the order to have been worked through. Where it was
not, the cutter has to know.

Working
cutgate kinds lists the goods that can be worked out, and cutgate kinds KIND shows
what one is worked out from.

Source
common practice, no source
`,
}

func runKindNotWorked(p *rule.Pass) {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		kind := it.Order.Kind
		if !kind.Set {
			continue
		}
		if it.Worked {
			nothingToCut(p, it)
			continue
		}
		at, what := kind.At, kind.Value
		if p.Sheet.Kinds.Knows(what) {
			style := it.Order.Style
			if !style.Set {
				continue // which is a finding of its own
			}
			at, what = style.At, style.Value+" "+what
		}
		p.Report(finding.Finding{
			At:      at,
			Message: fmt.Sprintf("The sizes of a %s are not worked out: work out its cuts by hand before cutting.", what),
		})
	}
}

// nothingToCut reports an item of which no piece could be worked out, or not how long its
// first is cut, for want of something that the form does not insist on.
func nothingToCut(p *rule.Pass, it *worksheet.Item) {
	lacks := it.Lacks()
	if len(lacks) == 0 || it.Face == nil || it.Unread || slices.ContainsFunc(p.Order.Flaws, func(f order.Flaw) bool { return f.Kind != order.Blank }) {
		return
	}
	if slices.Contains(lacks, "finished.length") { // which does in place of the others
		lacks = []string{"finished.length"}
	}
	for i := range lacks {
		lacks[i] = "`" + lacks[i] + "`"
	}
	what := "This " + it.Order.Kind.Value
	if len(it.Pieces) > 0 {
		what = "The cut length of this " + it.Order.Kind.Value
	}
	p.Report(finding.Finding{At: it.Order.Kind.At, Message: what + " can't be worked out without " + strings.Join(lacks, " and ") + "."})
}
