package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var overlapping = &rule.Rule{
	ID:    "hole/overlapping",
	Title: "holes run into each other",
	Level: finding.Error,
	Fix:   rule.Never,
	Each:  runOverlapping,
	Doc: `
Checks
How far apart the holes come out, against the width of the flange, or of the bore where no
flange is stated.

Because
Flanges that overlap can't be closed, and the cloth between two holes tears. Either there
are too many holes, or the flange is not so wide.

Working
spacing ≥ flange

Source
plain arithmetic
`,
}

func runOverlapping(p *rule.Pass, it *worksheet.Item) {
	h := &it.Order.Holes
	if it.Unread || !overlap(it) || misfits(p, it) || holesWrong(p, it.Index) {
		return
	}
	f := finding.Finding{At: h.At, Source: "plain arithmetic"}
	switch {
	case h.Count.Set:
		f.At, f.Stated = h.Count.At, h.Count.Node.Text
	case h.Spacing.Set:
		f.At, f.Stated = h.Spacing.At, h.Spacing.Node.Text
	}
	wide := max(h.Flange.Value, h.Bore.Value)
	f.Message = fmt.Sprintf("The holes come out %s apart and each %s is %s wide: they run into each other. Take fewer holes, or correct whichever figure is wrong.",
		small(p, it.Holes[1]-it.Holes[0]), part(h), small(p, wide))
	p.Report(f)
}

// overlap reports whether grommets are so near each other that they run into each other.
func overlap(it *worksheet.Item) bool {
	return len(it.Holes) > 1 && it.Holes[1] > it.Holes[0] && it.Holes[1]-it.Holes[0] < it.Order.Holes.Reach().Mul(2)
}
