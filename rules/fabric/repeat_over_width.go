package fabric

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var repeatOverWidth = &rule.Rule{
	ID:    "fabric/repeat-over-width",
	Title: "pattern repeat wider than the cloth",
	Level: finding.Warning,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runRepeatOverWidth,
	Doc: `
Checks
The pattern's repeat across the cloth against the cloth's width.

Because
A pattern can't repeat across a cloth narrower than itself. Usually the two repeats, along
and across, were written the wrong way round.

Working
repeat across ≤ cloth width.

Correction
With --likely, the two repeats are swapped, where the one along would fit.

Source
common practice, no source
`,
}

func runRepeatOverWidth(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		if c.Width <= 0 || c.Across <= c.Width || p.Sheet.Doubted(c.Order.Width.Node) {
			continue
		}
		along, across := c.Order.Repeat.Length, c.Order.Repeat.Width
		if m := p.Sheet.Measured(c.Name); m != nil && m.Repeat.Width.Set {
			along, across = m.Repeat.Length, m.Repeat.Width
		}
		if p.Sheet.Doubted(along.Node, across.Node) {
			continue
		}
		f := finding.Finding{
			At: across.At,
			Message: fmt.Sprintf("The pattern of %s can't repeat every %s across: the cloth is %s wide.",
				c.Name, p.Show(across.Value), p.Show(c.Width)),
			Stated: across.Node.Text,
			Source: worksheet.Common,
		}
		if along.Set && along.Value <= c.Width {
			f.Message += " Are its length and width the wrong way round?"
			if p.Editable(along.Node) && p.Editable(across.Node) {
				f.Fixes = []finding.Fix{{
					Title: "Swap the repeat's length and width", Sureness: p.Choosing(along.Node, across.Node),
					Edits: []finding.Edit{p.Set(along.Node, across.Node.Text), p.Set(across.Node, along.Node.Text)},
				}}
			}
		}
		p.Report(f)
	}
}
