package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var offSellingStep = &rule.Rule{
	ID:    "cloth/off-selling-step",
	Title: "length ordered is not a selling length",
	Level: finding.Note,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runOffSellingStep,
	Doc: `
Checks
The length of cloth ordered against the step the order says it is sold by.

Because
The merchant cuts the next step up and charges for it, or the next step down and it is
short.

Working
ordered = a whole number of sold by

Correction
Likely: the next step up. None where the step may well be what is wrong: a yard or a meter
is no whole number of such steps, or what is ordered is what is needed of cloth that is sold
by a smaller one.

Source
Cotswold Sewing School, Calculating fabric: up to what it is sold by
`,
}

func runOffSellingStep(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		leaf, step := &c.Order.Ordered, c.Order.SoldBy.Value
		if !leaf.Set || step <= 0 || misordered(p, c) {
			continue
		}
		if d := leaf.Value - leaf.Value.Round(step, length.Nearest); max(d, -d) < length.Step(leaf.Node.LengthStyle().Unit()) {
			continue // as near as it could be written
		}
		next := leaf.Value.Round(step, length.Up)
		f := finding.Finding{
			At: leaf.At,
			Message: fmt.Sprintf("The order has %s of %s, which is sold by %s; the next length up is %s.",
				byTheBolt(p, leaf.Value), c.Name, byTheBolt(p, step), byTheBolt(p, next)),
			Stated:  leaf.Node.Text,
			Source:  "Cotswold Sewing School, Calculating fabric: up to what it is sold by",
			Related: []finding.Related{{Range: c.Order.SoldBy.At, Message: "sold by"}},
		}
		if other := finer(c); other > 0 || !sells(step) {
			why := "which is an unusual step"
			if other > 0 {
				why = fmt.Sprintf("but that is just what is needed if it is sold by %s", byTheBolt(p, other))
			}
			f.Message = fmt.Sprintf("The order has %s of %s and says that it is sold by %s, %s. Correct whichever is wrong; by %[3]s, the next length up is %[5]s.",
				byTheBolt(p, leaf.Value), c.Name, byTheBolt(p, step), why, byTheBolt(p, next))
			p.Report(f)
			continue
		}
		f.Fixes = p.Likely(leaf.Node, leaf.Node.LengthStyle().Print(next, length.Up), fmt.Sprintf("Order %s", byTheBolt(p, next)))
		p.Report(f)
	}
}

// finer is a smaller step than the stated one by which what is ordered is just what is
// needed; 0 where there is none. The steps are common practice, no source.
func finer(c *worksheet.Cloth) length.Length {
	if c.Needed == nil {
		return 0
	}
	for _, step := range []length.Length{length.Yard / 2, length.Yard / 4, length.Yard / 8, 50 * length.Centimetre, 25 * length.Centimetre, 20 * length.Centimetre, 10 * length.Centimetre} {
		if step < c.Order.SoldBy.Value && c.Needed.Value.Length().Round(step, length.Up) == c.Order.Ordered.Value {
			return step
		}
	}
	return 0
}

// sells reports whether cloth is sold by such steps: a yard or a meter is a whole number of
// them, or they of it. Common practice, no source.
func sells(step length.Length) bool {
	for _, whole := range []length.Length{length.Yard, 100 * length.Centimetre} {
		if whole%step == 0 || step%whole == 0 {
			return true
		}
	}
	return false
}
