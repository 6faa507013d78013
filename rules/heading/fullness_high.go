package heading

import (
	"cutgate/internal/finding"
	"cutgate/internal/length"
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
	slack := p.Tables.House.FullnessSlack
	fullness(p, 1, "a lot", func(it *worksheet.Item) (limit length.Ratio, source string) {
		high, source := it.Fullest()
		return high.Add(slack), source
	})
}
