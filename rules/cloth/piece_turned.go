package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var pieceTurned = &rule.Rule{
	ID:    "cloth/piece-turned",
	Title: "small piece is cut the other way round",
	Level: finding.Note,
	Fix:   rule.Never,
	Each:  runPieceTurned,
	Doc: `
Checks
Tie-backs, mats, napkins and runners of a plain cloth whose stated cut has the two sizes
the other way round than worked out.

Because
In a plain cloth either way will do, and turning may save some. It also looks just like
two sizes that were swapped, and a stripe or a nap would then lie the wrong way.

Working
cut width = worked length, cut length = worked width

Correction
Shown: the two sizes as they are worked out.

Source
common practice, no source
`,
}

func runPieceTurned(p *rule.Pass, it *worksheet.Item) {
	if it.Order.Kind.Value == "cushion cover" {
		return // its strips are cut along the cloth as often as across
	}
	for k := range it.Order.Cuts {
		c := &it.Order.Cuts[k]
		piece, _ := it.PieceOf(c)
		if piece == nil || piece.Cloth == nil || !piece.Cloth.Order.Width.Set || piece.Width == nil || piece.Length == nil || !c.Width.Set || !c.Length.Set || !it.Turned(piece, c) {
			continue
		}
		worked := p.Show(piece.Width.Value.Length()) + " × " + p.Show(piece.Length.Value.Length())
		p.Report(finding.Finding{
			At: c.Width.At,
			Message: fmt.Sprintf("The %s is cut %s × %s, turned in the cloth: it was worked out as %s. In a plain cloth either will do.",
				piece.Name, p.Show(c.Width.Value), p.Show(c.Length.Value), worked),
			Stated: c.Width.Node.Text,
			Source: worksheet.Common,
			Fixes:  finding.Advice("If the two were swapped, make the cut " + worked),
		})
	}
}
