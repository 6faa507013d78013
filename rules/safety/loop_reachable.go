package safety

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var loopReachable = &rule.Rule{
	ID:    "safety/loop-reachable",
	Title: "loop that a child can reach",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runLoopReachable,
	Doc: `
Checks
The length of a loop of cord or chain and, where the market's limit depends on it, how low
it hangs.

Because
A loop within reach is the deadliest thing on a window: a young child puts the head
through and can't get out.

Working
Where the limit has a height, a loop counts if it is longer than the limit, not held down,
and its lowest point is below that height. The lowest point is as stated, or the height of
the track less half the loop. A loop that breaks away must end no lower than the market's
least height, where it has one.

Correction
None is made. Local codes and licensed practice decide.

Source
16 CFR 1260 (ANSI/WCMA A100.1-2018, 4.3.1); Classy Curtains, Blind cord safety,
after EN 13120; Product Safety Australia, Blinds, curtains and window fittings;
SOR/2019-97, from memory
`,
}

func runLoopReachable(p *rule.Pass) {
	for _, it := range corded(p) {
		limit, low := limitOf(p, it, "loop"), limitOf(p, it, "lowest")
		c := &it.Cord
		if limit == nil || !c.LoopLength.Set || isTie(c) || !over(limit, c.LoopLength.Value) {
			continue
		}
		f := finding.Finding{
			At: c.LoopLength.At, Stated: c.LoopLength.Node.Text, Source: limit.Source,
			Fixes: finding.Advice("Choose a mechanism without a loop, or one that keeps it out of reach"),
			Facts: []finding.Fact{atMost("loop length", c.LoopLength.Value, limit.Most)},
		}
		loop := p.Show(c.LoopLength.Value)
		if limit.Height == 0 {
			f.Message = fmt.Sprintf("The %s is %s long. %s", cordName(c), loop, ruled(limit.Market, limit.Says))
			p.Report(f)
			continue
		}
		down, working, ok := lowest(p, it)
		if !ok || c.HeldAt.Set {
			continue
		}
		if c.Breakaway.Value && low != nil {
			if c.Lowest.Set && within(low, down) {
				p.Report(endsLow(p, c, low))
			}
			continue
		}
		if within(limit, down) {
			f.Message = fmt.Sprintf("The %s is %s long and comes down to %s above the floor. %s",
				cordName(c), loop, p.Show(down), ruled(limit.Market, limit.Says))
			f.Working = working
			f.Facts = append(f.Facts, atLeast("lowest point", down, limit.Height))
			p.Report(f)
		}
	}
}

// lowest is how high above the floor the lowest point of an item's loop is, as
// far as the order tells.
func lowest(p *rule.Pass, it *order.Item) (down length.Length, working []string, ok bool) {
	c := &it.Cord
	switch {
	case c.Lowest.Set:
		return c.Lowest.Value, nil, true
	case it.Track.AboveFloor.Set:
		down = it.Track.AboveFloor.Value - c.LoopLength.Value.Div(2, length.Down)
		return down, []string{fmt.Sprintf("%s - %s ÷ 2 = %s", p.Show(it.Track.AboveFloor.Value),
			p.Show(c.LoopLength.Value), p.Show(down))}, true
	}
	return 0, nil, false
}
