package heading

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var pleatGapWide = &rule.Rule{
	ID:    "heading/pleat-gap-wide",
	Title: "pleats are far apart",
	Level: finding.Note,
	Fix:   rule.Never,
	Each:  runPleatGapWide,
	Doc: `
Checks
The spacing that the stated number of pleats gives, against the usual most.

Because
Between pleats too far apart the heading sags from hook to hook, and each pleat has to
take up a great deal of cloth.

Working
spacing = track ÷ panels ÷ (pleats - 1); without a track, the finished width.

Source
common practice, no source
`,
}

func runPleatGapWide(p *rule.Pass, it *worksheet.Item) {
	gap := p.Tables.House.PleatGap
	spacing := it.Get(worksheet.PleatSpacing)
	pleats := &it.Order.Heading.Pleats
	if it.Heading == nil || spacing == nil || !pleats.Set || spacing.Value.Length() <= gap.Most ||
		wrong(p, it, worksheet.PleatSpacing, worksheet.PleatCount) {
		return
	}
	p.Report(finding.Finding{
		At: pleats.At,
		Message: fmt.Sprintf("%d pleats sit %s apart; %s to %s is usual.",
			pleats.Value, spacing.Value.Format(p.Sheet.Unit, length.Up), p.Show(gap.Least), p.Show(gap.Most)),
		Stated:  pleats.Node.Text,
		Working: spacing.Working(p.Sheet.Unit),
		Source:  p.Tables.SelfSource("pleat_gap"),
		Fixes:   finding.Advice("Sew more pleats"),
	})
}
