package safety

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/trade"
)

var cordTooLong = &rule.Rule{
	ID:    "safety/cord-too-long",
	Title: "cord longer than the market allows",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runCordTooLong,
	Doc: `
Checks
The length of cord that can be reached against the market's limit: a length, or in Europe
and the UK a share of the shade's length where its height is not known. A cord that breaks
away must also end high enough.

Because
A cord that a young child can get round the neck strangles within minutes.

Working
length ≤ the market's longest; or, for a Roman shade without a stated height,
length ≤ finished length × the market's share. A tie operates nothing and is left to the
maker's judgment.

Correction
None is made. Choose a cordless mechanism, or one that encloses the cord; local codes and
licensed practice decide.

Source
16 CFR 1260 (ANSI/WCMA A100.1-2018, 4.3.1); JJR Lab, EN 13120 certification test
for blinds; SOR/2019-97, from memory
`,
}

func runCordTooLong(p *rule.Pass) {
	for _, it := range corded(p) {
		c := &it.Cord
		if isTie(c) {
			continue
		}
		if most := limitOf(p, it, "length"); most != nil && c.Length.Set && over(most, c.Length.Value) {
			if loop := limitOf(p, it, "loop"); loop == nil || !c.LoopLength.Set || loop.Height > 0 || !over(loop, c.LoopLength.Value) {
				p.Report(tooLong(p, c, most, most.Most, nil))
			}
			continue
		}
		if share := limitOf(p, it, "share"); share != nil && it.Kind.Value == "Roman shade" && it.Finished.Length.Set &&
			c.Length.Set && !c.HeldAt.Set && !c.Lowest.Set {
			most := it.Finished.Length.Value.MulRatio(share.Share, length.Down)
			if c.Length.Value > most {
				p.Report(tooLong(p, c, share, most, []string{fmt.Sprintf("%s × %d/%d = %s", p.Show(it.Finished.Length.Value),
					share.Share.Num, share.Share.Den, most.Format(p.Sheet.Unit, length.Down))}))
			}
			continue
		}
		if low := limitOf(p, it, "lowest"); low != nil && !isLoop(c) && !c.LoopLength.Set && c.Breakaway.Value && c.Lowest.Set && within(low, c.Lowest.Value) {
			p.Report(endsLow(p, c, low))
		}
	}
}

func tooLong(p *rule.Pass, c *order.Cord, limit *trade.Cord, most length.Length, working []string) finding.Finding {
	return finding.Finding{
		At:      c.Length.At,
		Message: fmt.Sprintf("The %s is %s long. %s", cordName(c), p.Show(c.Length.Value), ruled(limit.Market, limit.Says)),
		Stated:  c.Length.Node.Text,
		Working: working,
		Source:  limit.Source,
		Fixes:   finding.Advice("Choose a mechanism without a cord, or one that keeps it out of reach"),
		Facts:   []finding.Fact{atMost("cord length", c.Length.Value, most)},
	}
}

// endsLow is the finding of a cord that breaks away and hangs too low.
func endsLow(p *rule.Pass, c *order.Cord, limit *trade.Cord) finding.Finding {
	return finding.Finding{
		At:      c.Lowest.At,
		Message: fmt.Sprintf("The %s comes down to %s above the floor. %s", cordName(c), p.Show(c.Lowest.Value), ruled(limit.Market, limit.Says)),
		Stated:  c.Lowest.Node.Text,
		Source:  limit.Source,
		Fixes:   finding.Advice("Choose a mechanism without a cord, or end it higher"),
		Facts:   []finding.Fact{atLeast("lowest point", c.Lowest.Value, limit.Height)},
	}
}
