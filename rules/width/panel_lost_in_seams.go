package width

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var panelLostInSeams = &rule.Rule{
	ID:    "width/panel-lost-in-seams",
	Title: "nothing is left of a side panel between its seam and its hem",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runPanelLostInSeams,
	Doc: `
Checks
How much of a center panel shows, against the finished width, where sides are joined
to it.

Because
A side no wider than its hem and seam allowance together is all seam: it can't be
sewn, and the panel comes out too wide.

Working
center shows = center - 2 × seam allowance, less than the finished width

Correction
Likely: one piece, where the finished width with its hems fits the cloth.

Source
common practice, no source
`,
}

func runPanelLostInSeams(p *rule.Pass, it *worksheet.Item) {
	if it.Unread || !noneLeft(it) || saidOf(p.Sheet, it.Order.Finished.Width.Node, it.Face.Order.Width.Node) {
		return
	}
	shows := it.Get(worksheet.CenterShows)
	f := finding.Finding{
		At: joinPlace(it.Order),
		Message: fmt.Sprintf("The center shows %s of a %s %s wide: nothing is left for the sides.",
			p.Show(shows.Value.Length()), it.Order.Kind.Value, p.Show(it.Length(string(worksheet.FinishedWidth)))),
		Working: shows.Working(p.Sheet.Unit),
		Source:  shows.Source,
	}
	if it.Has(faceRun) {
		f.Message = fmt.Sprintf("The center shows %s, and the cornice is only %s round with its returns: nothing is left for the sides.",
			p.Show(shows.Value.Length()), p.Show(it.Length(faceRun)))
	}
	layout := &it.Order.Join.Layout
	const inOne = "Cut it in one piece"
	switch {
	case it.Length("whole across") > it.Face.Washed:
		f.Message += fmt.Sprintf(" In one piece it needs %s, and %s is only %s wide.", p.Show(it.Length("whole across")), it.Face.Name, p.Show(it.Face.Washed))
		f.Fixes = finding.Advice("Cut the center narrower, or turn less in at the sides")
	case layout.Set && p.Editable(layout.Node):
		f.Fixes = p.Likely(layout.Node, "one piece", inOne)
	default:
		f.Fixes = finding.Advice(inOne)
	}
	p.Report(f)
}

// saidOf reports whether an error is found in a value that one of the nodes has, from which
// the rest follows. Too much cloth is none.
func saidOf(s *worksheet.Sheet, nodes ...*order.Node) bool {
	in := func(w worksheet.Write) bool { return w.Node != nil && slices.Contains(nodes, w.Node) }
	return slices.ContainsFunc(s.Misread, func(m worksheet.Misread) bool { return m.Node != nil && slices.Contains(nodes, m.Node) }) ||
		slices.ContainsFunc(s.Disagreements, func(d worksheet.Disagreement) bool {
			return !d.More && slices.ContainsFunc(d.Readings, func(r worksheet.Reading) bool { return slices.ContainsFunc(r.Writes, in) })
		})
}

// faceRun is a cornice's width, along the board and both returns.
const faceRun = "face run"

// noneLeft reports whether a center covers the finished width by itself.
func noneLeft(it *worksheet.Item) bool {
	shows := it.Get(worksheet.CenterShows)
	for _, width := range []string{string(worksheet.FinishedWidth), faceRun} {
		if shows != nil && it.Has(width) && shows.Value.Length() >= it.Length(width) {
			return true
		}
	}
	return false
}
