package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var nearSide = &rule.Rule{
	ID:    "hole/near-side",
	Title: "first grommet is half off the side hem, or too near the side",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runNearSide,
	Doc: `
Checks
Where the first grommet lies, against the inner edge of a stated side hem, where it is
sewn, and against the finished side edge.

Because
Half on the hem and half off, a flange closes on two thicknesses: it grips the thick
side and leaves the thin one loose. Too near the side edge, it tears out.

Working
from the side - flange ÷ 2 ≥ side hem's turn - from its inner fold to the stitch
line. A grommet wholly on the side hem, within its stitch line, is fine
too. Where no stitch line is stated, the shop's usual is used.

Source
common practice, no source
`,
}

func runNearSide(p *rule.Pass, it *worksheet.Item) {
	house := &p.Tables.House
	h := &it.Order.Holes
	r := h.Reach()
	if r == 0 || !h.FromSide.Set && !(h.Count.Set && h.Spacing.Set) || misfits(p, it) {
		return
	}
	first := h.FromSide.Value
	if len(it.Holes) > 0 {
		first = it.Holes[0]
	}
	f := finding.Finding{At: h.FromSide.At}
	if !h.FromSide.Set {
		f.At = h.Spacing.At
	} else {
		f.Stated = h.FromSide.Node.Text
	}
	side := &it.Order.Hems.Sides
	stitched := side.Turn.Value - house.StitchOff
	if side.Stitch.Set {
		stitched = side.Turn.Value - side.Stitch.Value
	}
	var least length.Length
	switch {
	case first-r < house.EdgeToFlange:
		least = r + house.EdgeToFlange
		f.Message = fmt.Sprintf("The first %s comes within %s of the side edge; keep at least %s.",
			part(h), small(p, first-r), small(p, house.EdgeToFlange))
		if first <= r {
			f.Message = fmt.Sprintf("The first %s reaches the side edge; keep at least %s from it.", part(h), small(p, house.EdgeToFlange))
		}
		f.Source = p.Tables.SelfSource("edge_to_flange")
	case side.Turn.Set && first-r < stitched && first+r > stitched:
		least = r + side.Turn.Value
		f.Message = fmt.Sprintf("The first %s lies half on the side hem: it reaches from %s to %s from the edge, and the hem is %s deep.",
			part(h), p.Show(first-r), p.Show(first+r), p.Show(side.Turn.Value))
		if first+r <= side.Turn.Value { // on the fold, past the stitches
			f.Message = fmt.Sprintf("The first %s lies over the stitches of the side hem: it reaches from %s to %s from the edge, and the hem is sewn %s from it.",
				part(h), p.Show(first-r), p.Show(first+r), p.Show(stitched))
		}
		f.Source = worksheet.Common
	default:
		return
	}
	f.Fixes = finding.Advice(fmt.Sprintf("Put the first grommet at least %s from the side", least.Format(p.Sheet.Unit, length.Up)))
	p.Report(f)
}
