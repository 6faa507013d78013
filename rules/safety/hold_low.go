package safety

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
)

var holdLow = &rule.Rule{
	ID:    "safety/hold-low",
	Title: "hold-down or cleat within a child's reach",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runHoldLow,
	Doc: `
Checks
The height of a loop's hold-down or a cord's cleat against the market's least height.

Because
A hold-down keeps a loop tight and a cleat keeps a cord short, but only where a young
child can't reach them.

Working
height above the floor ≥ the market's height. In Europe and the UK the limit is
for loops, in Australia for a cord's cleat.

Correction
None is made. The installer fixes it at the height local codes and its maker require.

Source
Curtain Express, Child safety, after EN 13120; Product Safety Australia, Blinds,
curtains and window fittings
`,
}

func runHoldLow(p *rule.Pass) {
	for _, it := range corded(p) {
		limit := limitOf(p, it, "hold")
		if limit == nil {
			continue
		}
		c := &it.Cord
		if !c.HeldAt.Set || isTie(c) || !c.Kind.Set || isLoop(c) != (limit.Of == "loops") || !within(limit, c.HeldAt.Value) {
			continue
		}
		p.Report(finding.Finding{
			At:      c.HeldAt.At,
			Message: fmt.Sprintf("The %s is held at %s above the floor. %s", cordName(c), p.Show(c.HeldAt.Value), ruled(limit.Market, limit.Says)),
			Stated:  c.HeldAt.Node.Text,
			Source:  limit.Source,
			Fixes:   finding.Advice(fmt.Sprintf("Hold it at %s or higher", limit.Height.Format(p.Sheet.Unit, length.Up))),
			Facts:   []finding.Fact{atLeast("held at", c.HeldAt.Value, limit.Height)},
		})
	}
}
