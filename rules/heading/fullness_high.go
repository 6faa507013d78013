package heading

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var fullnessHigh = &rule.Rule{
	ID:    "heading/fullness-high",
	Title: "fullness is more than the heading can take up",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runFullnessHigh,
	Doc: `
Checks
The stated fullness against the most published for the heading, plus the shop's slack;
for a sheer, the most for sheers. Where the stated fullness is all right, the fullness
that panels of a stated width make. Fullness gained by rounding up the widths is not
checked: the extra is cut off or goes into the pleats.

Because
Cloth the heading can't take up bulges between the hooks, stacks thick beside the window,
and is wasted.

Working
fullness = panel width, flat × panels ÷ finished width

Correction
None is made: how full a curtain should be is the client's choice.

Source
the heading's own, in the tables; the slack is common practice, no source
`,
}

func runFullnessHigh(p *rule.Pass) {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		h, stated := it.Heading, &it.Order.Heading.Fullness
		if h == nil || p.Sheet.Doubted(stated.Node) {
			continue
		}
		high, source := it.Fullest()
		limit := high.Add(p.Tables.House.FullnessSlack)
		f := finding.Finding{
			Source: source,
			Fixes:  []finding.Fix{{Title: "Ask, or work with a fullness of " + h.Usual.Format(2), Sureness: finding.Shown}},
		}
		switch {
		case stated.Set && stated.Value.Cmp(limit) > 0:
			f.At, f.Stated = stated.At, stated.Node.Text
			f.Message = fmt.Sprintf("A fullness of %s is a lot for %s; %s is usual.", stated.Value.Format(2), name(h.Style), suits(h.Least, high))
		case it.Order.PanelWidth.Set && it.Get(worksheet.Fullness) != nil && it.Get(worksheet.Fullness).Value.R.Cmp(limit) > 0 && !wrong(p, it, worksheet.FinishedWidth):
			f.At, f.Stated = it.Order.PanelWidth.At, it.Order.PanelWidth.Node.Text
			f.Message = fmt.Sprintf("Panels of %s make a fullness of %s, a lot for %s; %s is usual.",
				p.Show(it.Order.PanelWidth.Value), it.Get(worksheet.Fullness).Value.R.Format(2), name(h.Style), suits(h.Least, high))
			f.Working = it.Get(worksheet.Fullness).Working(p.Sheet.Unit)
		default:
			continue
		}
		p.Report(f)
	}
}
