package seam

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var selvedgeShows = &rule.Rule{
	ID:    "seam/selvedge-shows",
	Title: "seam allowance does not hide the selvedge",
	Level: finding.Warning,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runSelvedgeShows,
	Doc: `
Checks
The stated seam allowance against the selvedge of the face cloth, where a piece
or a width is joined edge to edge. A piece cut narrower than the cloth has lost its
selvedge and is not checked; nor is a center cut as wide as the cloth is between its
selvedges, even if that was rounded.

Because
A selvedge is woven tighter than the cloth and is often another color. Where it reaches
past the seam it shows as a line from top to foot, and it pulls the seam up in the first
wash.

Working
allowance ≥ selvedge + a little more, 1/16 in unless the shop says otherwise.

Correction
Likely: the least allowance that hides it; shown where the stated pieces agree with the
allowance, as the selvedge may be what is wrong. More allowance makes the panel narrower
at every join, so the pieces are worked out again; trimming the selvedge off would do as
well. If the selvedge is wider than mills weave, you are asked to check it instead.

Source
common practice, no source
`,
}

// widestSelvedge is wider than any that mills weave; common practice, no source.
const widestSelvedge = length.Inch

func runSelvedgeShows(p *rule.Pass, it *worksheet.Item) {
	a, least := &it.Order.Join.Allowance, hides(p, it)
	if least == 0 || !a.Set || !sewn(it) || !edgeToEdge(p, it) || scant(p, it) || p.Sheet.Doubted(a.Node, it.Face.Order.Selvedge.Node) {
		return
	}
	if _, _, widest := p.Sheet.Woven(); it.Face.Order.Selvedge.Value > widest {
		return // fabric/hardly-woven says so
	}
	if it.Has("match seam") { // it can't be wider, or the pattern would not meet
		least = min(least, it.Length("match seam"))
	}
	if least-a.Value < length.Step(p.Sheet.Unit) {
		return
	}
	u := p.Sheet.Unit
	selvedge := &it.Face.Order.Selvedge
	message := fmt.Sprintf("The selvedge is %s and shows beside a seam allowance of %s; allow at least %s.",
		p.Show(selvedge.Value), p.Show(a.Value), least.Format(u, length.Up))
	if it.Face.Order.EdgeStripe.Value {
		message = fmt.Sprintf("The selvedge is %s and shows, with the edge stripe, beside a seam allowance of %s; allow %s plus the stripe.",
			p.Show(selvedge.Value), p.Show(a.Value), least.Format(u, length.Up))
	}
	right := a.Node.LengthStyle().Print(least, length.Up)
	f := finding.Finding{
		At: a.At, Message: message, Stated: a.Node.Text, Corrected: right,
		Source:  p.Tables.SelfSource("selvedge_hide"),
		Related: []finding.Related{{Range: selvedge.At, Message: "the selvedge of " + it.Face.Name}},
	}
	if selvedge.Value > widestSelvedge {
		f.At, f.Stated, f.Corrected = selvedge.At, selvedge.Node.Text, ""
		f.Message = fmt.Sprintf("A selvedge of %s is wider than any: check it on the bolt. As stated, it would show beside a seam allowance of %s.",
			p.Show(selvedge.Value), p.Show(a.Value))
		f.Related = []finding.Related{{Range: a.At, Message: "the allowance that it would show beside"}}
	} else {
		f.Fixes = p.Likely(a.Node, right, "Allow "+least.Format(u, length.Up)+" at the joins")
	}
	p.Report(f)
}

// edgeToEdge reports whether a piece of the face is as wide as its cloth, so
// that the selvedges are still on it.
func edgeToEdge(p *rule.Pass, it *worksheet.Item) bool {
	for i := range it.Pieces {
		if c := &it.Pieces[i]; c.Cloth == it.Face && c.Width != nil && it.Face.Width-c.Width.Value.Length() < length.Step(p.Sheet.Unit) {
			return true
		}
	}
	return false
}
