package fabric

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/trade"
)

var selvedgeOverWidth = &rule.Rule{
	ID:    "fabric/selvedge-over-width",
	Title: "selvedges that leave nothing of the cloth",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runSelvedgeOverWidth,
	Doc: `
Checks
The two selvedges against the width of the cloth.

Because
One of the two numbers is wrong, and all widths and pieces come from them.

Working
2 × selvedge < cloth width, as measured at the bench where it was.

Source
common practice, no source
`,
}

func runSelvedgeOverWidth(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		s := &c.Order.Selvedge
		if !s.Set || c.Width <= 0 || s.Value.Mul(2) < c.Width || p.Sheet.Doubted(c.Order.Width.Node) {
			continue
		}
		p.Report(finding.Finding{
			At: s.At,
			Message: fmt.Sprintf("Two selvedges of %s leave nothing of a cloth that is %s wide. Which of the two is wrong?",
				s.Value.Format(p.Sheet.Unit, length.Nearest), c.Width.Format(p.Sheet.Unit, length.Nearest)),
			Stated:  s.Node.Text,
			Source:  trade.Unsourced,
			Related: []finding.Related{{Range: c.Order.Width.At, Message: "the cloth's width"}},
		})
	}
}
