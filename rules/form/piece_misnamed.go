package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

var pieceMisnamed = &rule.Rule{
	ID:    "form/piece-misnamed",
	Title: "row says one piece and has the sizes of another",
	Level: finding.Error,
	Fix:   rule.Always,
	Asked: true,
	Run:   runPieceMisnamed,
	Doc: `
Checks
Rows of cuts whose width, length and count are not those of the piece that they say but
of just one other of the item, which no row names: a side that is called a center.

Because
A row that was copied for the next piece keeps its name easily. The cutter then looks for
two of one piece and none of the other.

Working
Both sizes, and the count where it is stated, agree with those worked out for the other
piece.

Correction
With --likely, the row gets the other piece's name.

Source
common practice, no source
`,
}

func runPieceMisnamed(p *rule.Pass) {
	for _, m := range p.Sheet.Misnamed {
		c := &p.Sheet.Items[m.Item].Order.Cuts[m.Cut]
		p.Report(finding.Finding{
			At: c.Piece.At, Stated: c.Piece.Node.Text, Corrected: m.Piece,
			Message: fmt.Sprintf("This row says %s, but %s × %s is the cut of the %s: should it say %s?",
				quote(c.Piece.Node.Text), p.Show(c.Width.Value), p.Show(c.Length.Value), m.Piece, m.Piece),
			Fixes: p.Likely(c.Piece.Node, m.Piece, "Call the piece "+m.Piece),
		})
	}
}
