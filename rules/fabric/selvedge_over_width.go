package fabric

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var selvedgeOverWidth = &rule.Rule{
	ID:    "fabric/selvedge-over-width",
	Title: "selvedges or seams use up the whole cloth",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runSelvedgeOverWidth,
	Doc: `
Checks
The two selvedges, or the two seam allowances of an item, against the width of the
cloth.

Because
One of the two numbers is wrong, and all widths and pieces are worked out from them.

Working
2 × selvedge < cloth width, as measured at the bench if it was, and
2 × seam allowance < cloth width after the first wash.

Source
common practice, no source
`,
}

func runSelvedgeOverWidth(p *rule.Pass) {
	seamed := allSeam(p)
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		s := &c.Order.Selvedge
		if c.Width <= 0 || p.Sheet.Doubted(c.Order.Width.Node, s.Node) {
			continue
		}
		if !s.Set || s.Value.Mul(2) < c.Width {
			if it := seamed[c]; it != nil && !p.Sheet.Doubted(it.Order.Join.Allowance.Node) {
				seamsOverWidth(p, c, it)
			}
			continue
		}
		p.Report(finding.Finding{
			At: s.At,
			Message: fmt.Sprintf("Two selvedges of %s leave nothing of a cloth %s wide. Which number is wrong?",
				p.Show(s.Value), p.Show(c.Width)),
			Stated:  s.Node.Text,
			Source:  worksheet.Common,
			Related: []finding.Related{{Range: c.Order.Width.At, Message: "the cloth's width"}},
		})
	}
}

// allSeam is the first item that each cloth is all seam in.
func allSeam(p *rule.Pass) map[*worksheet.Cloth]*worksheet.Item {
	first := map[*worksheet.Cloth]*worksheet.Item{}
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		if c := it.Face; c != nil && first[c] == nil && it.Allowance > 0 && it.Allowance.Mul(2) >= c.Washed {
			first[c] = it
		}
	}
	return first
}

// seamsOverWidth reports a cloth that is all seam in an item made of it.
func seamsOverWidth(p *rule.Pass, c *worksheet.Cloth, it *worksheet.Item) {
	leaf := p.Sheet.WidthOf(c)
	if leaf.Node == nil {
		return
	}
	p.Report(finding.Finding{
		At: leaf.At,
		Message: fmt.Sprintf("A cloth %s wide is all seam: two allowances take %s.",
			p.Show(c.Width), p.Show(it.Allowance.Mul(2))),
		Stated: leaf.Node.Text,
		Source: worksheet.Common,
	})
}
