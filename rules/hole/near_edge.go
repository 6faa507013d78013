package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var nearEdge = &rule.Rule{
	ID:    "hole/near-edge",
	Title: "grommet too near the top edge",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runNearEdge,
	Doc: `
Checks
The grommets' distance from the top edge against half their flange and the space to
leave between flange and edge.

Because
With too little cloth above it a grommet tears out through the edge, and one that
reaches past the edge does not close at all.

Working
from the top - flange ÷ 2 ≥ the least from an edge to a flange. Where no flange is
stated the bore is used. A grommet that also hangs over the hem is too large for it;
hole/off-hem reports that.

Correction
Likely: the middle of a stated top hem, if the whole grommet fits on it there; without a
stated hem, the least that will do.

Source
common practice, no source
`,
}

func runNearEdge(p *rule.Pass, it *worksheet.Item) {
	least := p.Tables.House.EdgeToFlange
	h := &it.Order.Holes
	r := h.Reach()
	gap := h.FromTop.Value - r
	if r == 0 || !h.FromTop.Set || gap >= least || it.OffHem() || inverted(h) {
		return
	}
	f := finding.Finding{
		At:      h.FromTop.At,
		Message: fmt.Sprintf("The %s comes within %s of the top edge; keep at least %s.", part(h), within(p, gap), small(p, least)),
		Stated:  h.FromTop.Node.Text,
		Source:  p.Tables.SelfSource("edge_to_flange"),
	}
	switch {
	case gap == 0:
		f.Message = fmt.Sprintf("The %s reaches the top edge; keep at least %s from it.", part(h), small(p, least))
	case gap < 0:
		f.Message = fmt.Sprintf("The %s reaches %s over the top edge; keep at least %s from it.", part(h), small(p, -gap), small(p, least))
	}
	right, ok := centered(p, it)
	if !it.Order.Hems.Top.Turn.Set {
		right, ok = (r+least).Round(length.Step(p.Sheet.Unit), length.Up), true
	}
	f.Fixes = finding.Advice("Turn a deeper top hem, or take a smaller grommet")
	if ok {
		f.Fixes = setFromTop(p, h, right)
	}
	p.Report(f)
}

// within prints what is left at an edge; never as much as the least that is to be
// left, for rounding.
func within(p *rule.Pass, l length.Length) string {
	if p.Sheet.Unit.Metric() {
		return small(p, l)
	}
	return l.Format(p.Sheet.Unit, length.Down)
}
