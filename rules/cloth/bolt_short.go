package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

var boltShort = &rule.Rule{
	ID:    "cloth/bolt-short",
	Title: "bolts in stock don't hold the cuts",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runBoltShort,
	Doc: `
Checks
The bolts stated on the order, or the single one measured at the bench, against the cuts:
each cut has to fit on one bolt, and all of them have to fit.

Because
The end of a bolt is no use for a longer cut, so bolts that come to enough in all may
still be short, and that shows only after the first of them has been cut.

Working
places on the bolts = whole cuts that each bolt gives, for the longest cut, and for each
shorter one together with the longer ones

Correction
Shown: a longer bolt of the same lot has to be found.

Source
common practice, no source
`,
}

func runBoltShort(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		s := c.Stock
		if s == nil {
			continue
		}
		f := finding.Finding{At: boltsPlace(p, c), Source: worksheet.Common}
		switch {
		case s.TooLong != nil:
			f.Message = fmt.Sprintf("The %s is cut %s long, but no bolt of %s is longer than %s.",
				s.TooLong.Name, s.TooLong.Length.Value.Format(p.Sheet.Unit, length.Nearest), c.Name, p.Show(s.Longest))
			f.Working = s.TooLong.Length.Working(p.Sheet.Unit)
		case s.RunsOut && !misordered(p, c):
			f.Message = fmt.Sprintf("The cuts of %s don't all fit on its bolts, which hold %s together; a cut can't be pieced from two ends.",
				c.Name, byTheBolt(p, s.Total))
			if s.Longest == s.Total {
				f.Message = fmt.Sprintf("The cuts of %s don't all fit on its one bolt of %s.", c.Name, byTheBolt(p, s.Total))
			}
			if c.Needed != nil {
				f.Working = c.Needed.Working(p.Sheet.Unit)
			}
		default:
			continue
		}
		f.Fixes = finding.Advice("Find a longer bolt of the same lot before cutting")
		p.Report(f)
	}
}

// boltsPlace is where the longest bolt of a cloth is stated, or its length as
// measured.
func boltsPlace(p *rule.Pass, c *worksheet.Cloth) source.Range {
	if m := p.Sheet.Measured(c.Name); m != nil && m.Length.Set && len(c.Order.Bolts) < 2 {
		return m.Length.At
	}
	for i := range c.Order.Bolts {
		if b := &c.Order.Bolts[i]; b.Length.Value == c.Stock.Longest {
			return b.Length.At
		}
	}
	return c.Order.At
}
