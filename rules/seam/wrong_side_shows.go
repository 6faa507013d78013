package seam

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/trade"
)

var wrongSideShows = &rule.Rule{
	ID:    "seam/wrong-side-shows",
	Title: "wrong side of the seam is seen and splashed",
	Level: finding.Note,
	Fix:   rule.Always,
	Asked: true,
	Run:   runWrongSideShows,
	Doc: `
Checks
The kind of seam in a shower curtain that hangs inside the tub.

Because
Whoever showers looks at the wrong side, and the open edges of a plain seam
hold water and soap. A felled or a French seam is clean on both sides.

Working
A seam that is seen from both sides is one that is fit for it. A curtain that is
not said to hang inside the tub may have a liner behind it and is left alone.

Correction
Likely: a flat felled seam. The pieces are worked anew if the allowance has to
grow.

Source
The table of seams: which are fit to be seen from both sides.
`,
}

func runWrongSideShows(p *rule.Pass) {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		s := &it.Order.Join.Seam
		if it.Order.Kind.Value != "shower curtain" || !it.Order.Tub.Inside.Value || !s.Set || !sewn(it) || kindOf(p, it).BothSides {
			continue
		}
		f := finding.Finding{
			At:      s.At,
			Message: "The curtain hangs inside the tub, where the open edges of a " + s.Value + " seam are seen and hold water; a flat felled or a French seam is clean on both sides.",
			Stated:  s.Value, Source: trade.Unsourced,
		}
		f.Fixes = p.Likely(s.Node, "flat felled", "Join it with a flat felled seam")
		p.Report(f)
	}
}
