package heading

import (
	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var fullnessLow = &rule.Rule{
	ID:    "heading/fullness-low",
	Title: "fullness is too little for the heading",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runFullnessLow,
	Doc: `
Checks
The stated fullness against the least published for the heading, less the shop's slack;
or, where that is enough, the fullness that panels of a stated width make.

Because
A thin heading pulls its pleats flat and hangs like a sheet, and no width can be added
once the cloth is cut.

Working
fullness = panel width, flat × panels ÷ finished width

Correction
None is made: more fullness takes more widths of cloth, and the client may be paying for
less.

Source
the heading's own, in the tables; the slack is common practice, no source
`,
}

func runFullnessLow(p *rule.Pass) {
	slack := p.Tables.House.FullnessSlack
	fullness(p, -1, "thin", func(it *worksheet.Item) (limit length.Ratio, source string) {
		return it.Heading.Least.Sub(slack), it.Heading.Source
	})
}
