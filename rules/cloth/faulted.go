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
	Title: "flaw in the cloth to be cut",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runFaulted,
	Doc: `
Checks
Flaws the cutter found along the bolt against how far along it the cuts reach.

Because
Cuts laid end to end from the start run over the flaw. Laid around it they reach further
along the bolt and may not all fit.

Working
The lay of the cuts, as cutgate lay shows it: from the start of the bolt, after what the
pattern takes, and past each flaw they would run over. With several bolts, a flaw counts on
the one whose number it gives.

Correction
Shown: only the cutter can tell where in a piece the flaw falls.

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
			if !flaw.From.Set || !flaw.To.Set || from == to {
				continue
			}
			reach, bolt, ok := c.Detour.ReachOf(flaw)
			if !ok || from >= reach {
				continue
			}
			p.Report(finding.Finding{
				At:      flaw.At,
				Message: around(p, c, from, to, reach, bolt),
				Source:  worksheet.Common,
				Fixes:   finding.Advice("Mark the flaw and lay the cuts around it"),
			})
		}
	}
}

// around says what a flaw does to the lay of a cloth. Bolt is which of several it is on.
func around(p *rule.Pass, c *worksheet.Cloth, from, to, reach length.Length, bolt int) string {
	on := ""
	if bolt > 0 {
		on = fmt.Sprintf(" of bolt %d", bolt)
	}
	where := fmt.Sprintf("The flaw from %s to %s%s is in the length of %s to be cut", p.Show(from), p.Show(to), on, c.Name)
	switch d := c.Detour; {
	case d.Short:
		return where + "; laid around it, the cuts don't all fit."
	case d.NoWhole:
		return where + "."
	case d.Beyond > 0:
		return fmt.Sprintf("%s; laid around it, the cuts reach to %s, beyond the %s ordered.", where, p.Show(reach), p.Show(d.Beyond))
	}
	return fmt.Sprintf("%s; laid around it, the cuts reach to %s.", where, p.Show(reach))
}
