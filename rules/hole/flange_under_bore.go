package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var flangeUnderBore = &rule.Rule{
	ID:    "hole/flange-under-bore",
	Title: "flange is no wider than the bore",
	Level: finding.Error,
	Fix:   rule.Never,
	Each:  runFlangeUnderBore,
	Doc: `
Checks
The outside diameter of a grommet against its inside diameter.

Because
Holes are punched to suit the bore. With the two swapped, holes are punched as wide as
the flange and the grommets fall through.

Working
flange > bore

Correction
Shown: the two swapped. Where they are the same, measure the grommet.

Source
common practice, no source
`,
}

func runFlangeUnderBore(p *rule.Pass, it *worksheet.Item) {
	h := &it.Order.Holes
	if !inverted(h) || p.Sheet.Doubted(h.Flange.Node, h.Bore.Node) {
		return
	}
	f := finding.Finding{
		At:      h.Flange.At,
		Message: fmt.Sprintf("The flange is %s wide and the bore %s: the flange has to be the wider.", small(p, h.Flange.Value), small(p, h.Bore.Value)),
		Stated:  h.Flange.Node.Text,
		Source:  worksheet.Common,
		Related: []finding.Related{{Range: h.Bore.At, Message: "the bore"}},
	}
	switch {
	case h.Flange.Value == h.Bore.Value:
		f.Fixes = finding.Advice("Measure the grommet, inside and outside")
	case p.Editable(h.Flange.Node) && p.Editable(h.Bore.Node):
		f.Slip, f.Corrected = "bore and flange were swapped", h.Bore.Node.Text
		f.Fixes = []finding.Fix{{
			Title:    fmt.Sprintf("Make the bore %s and the flange %s", small(p, h.Flange.Value), small(p, h.Bore.Value)),
			Sureness: finding.Shown,
			Edits:    []finding.Edit{p.Set(h.Bore.Node, h.Flange.Node.Text), p.Set(h.Flange.Node, h.Bore.Node.Text)},
		}}
	}
	p.Report(f)
}
