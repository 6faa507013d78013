package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var faulted = &rule.Rule{
	ID:    "cloth/faulted",
	Title: "flaw lies in the length that is to be cut",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runFaulted,
	Doc: `
Checks
Flaws that the cutter found along the bolt against how far the cuts go along it.

Because
Cuts laid end to end from the start run over the flaw. Laid around it they reach
further along the bolt, and may not all find room.

Working
The rows of cuts are laid from the start of the bolt, after what the pattern takes,
and go on behind each flaw that they would run over.

Correction
Shown: where the flaw falls in a piece, only the cutter can tell.

Source
common practice, no source
`,
}

func runFaulted(p *rule.Pass) {
	for i := range p.Order.Measured {
		m := &p.Order.Measured[i]
		c := p.Sheet.Cloth(m.Name)
		if c == nil || c.Detour == nil {
			continue
		}
		for j := range m.Of.Flaws {
			flaw := &m.Of.Flaws[j]
			from, to := min(flaw.From.Value, flaw.To.Value), max(flaw.From.Value, flaw.To.Value)
			if !flaw.From.Set || !flaw.To.Set || from == to || from >= c.Detour.Reach {
				continue
			}
			p.Report(finding.Finding{
				At:      flaw.At,
				Message: around(p, c, from, to),
				Source:  worksheet.Common,
				Fixes:   []finding.Fix{{Title: "Mark the flaw and lay the cuts around it", Sureness: finding.Shown}},
			})
		}
	}
}

// around says what a flaw does to the lay of a cloth.
func around(p *rule.Pass, c *worksheet.Cloth, from, to length.Length) string {
	show := func(l length.Length) string { return l.Format(p.Sheet.Unit, length.Nearest) }
	where := fmt.Sprintf("The flaw from %s to %s lies in the length of %s that is to be cut", show(from), show(to), c.Name)
	if c.Detour.Short {
		return where + "; laid around it, the cuts don't all find room."
	}
	return fmt.Sprintf("%s; laid around it, the cuts go on to %s.", where, show(c.Detour.Reach))
}
