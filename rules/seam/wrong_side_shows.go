package seam

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var wrongSideShows = &rule.Rule{
	ID:    "seam/wrong-side-shows",
	Title: "wrong side of the seam shows and gets wet",
	Level: finding.Note,
	Fix:   rule.Always,
	Asked: true,
	Each:  runWrongSideShows,
	Doc: `
Checks
The kind of seam in a shower curtain that hangs inside the tub.

Because
Whoever showers sees the wrong side, and the open edges of a plain seam hold water and
soap. A felled or a French seam is clean on both sides.

Working
A seam seen from both sides has to be clean on both. A curtain that the order does not
hang inside the tub may have a liner behind it and is not checked.

Correction
Likely: a flat felled seam. The pieces are worked out again if the allowance has
to grow.

Source
The table of seams: which are fit to be seen from both sides.
`,
}

func runWrongSideShows(p *rule.Pass, it *worksheet.Item) {
	s := &it.Order.Join.Seam
	if it.Order.Kind.Value != "shower curtain" || !it.Order.Tub.Inside.Value || !s.Set || !sewn(it) || kindOf(p, it).BothSides {
		return
	}
	p.Report(finding.Finding{
		At:      s.At,
		Message: "The curtain hangs inside the tub, where the open edges of a " + s.Value + " seam show and hold water; a flat felled or French seam is clean on both sides.",
		Stated:  s.Value, Source: worksheet.Common,
		Fixes: p.Likely(s.Node, "flat felled", "Join it with a flat felled seam"),
	})
}
