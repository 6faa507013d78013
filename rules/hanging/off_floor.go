package hanging

import (
	"cutgate/internal/worksheet"
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
)

var offFloor = &rule.Rule{
	ID:    "hanging/off-floor",
	Title: "shower curtain's foot is too near the floor or too far from it",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runOffFloor,
	Doc: `
Checks
How far the foot of a shower curtain hangs from the floor, where the order gives the
height of the rod's rings. A curtain inside a tub is not checked, and one at a tub may
end higher than one that keeps a floor dry.

Because
A foot that almost touches the floor stays wet, grows mold and gets stepped on. Under one
that ends high, water runs out over the floor.

Working
foot to floor = height above the floor + top edge above it - finished length. Reported
under the shop's least and over twice its most, as rods are hung at different heights.

Correction
Shown: a finished length that ends between the shop's least and most. The height may be
the wrong number instead.

Source
common practice, no source
`,
}

func runOffFloor(p *rule.Pass, it *worksheet.Item) {
	span := p.Tables.House.OffFloor
	step := length.Step(p.Sheet.Unit)
	foot := it.Get(worksheet.FootGap)
	tub := &it.Order.Tub
	leaf := &it.Order.Finished.Length
	if it.Order.Kind.Value != "shower curtain" || foot == nil || !leaf.Set || tub.Inside.Value || it.OffHem() || p.Sheet.Doubted(leaf.Node, it.Order.Holes.FromTop.Node) || p.Order.Misspelt(it.Order.At, "holes") {
		return
	}
	gap := foot.Value.Length()
	aim := span.Least
	switch {
	case gap <= -step: // it drags, which is another rule's
		return
	case gap <= span.Least-step:
	case gap >= 2*span.Most+step && !tub.Set:
		aim = span.Most
	default:
		return
	}
	right := leaf.Value + gap - aim
	p.Report(finding.Finding{
		At:      leaf.At,
		Message: fmt.Sprintf("The foot hangs %s above the floor. Leave %s to %s: the hem stays dry and so does the floor.", p.Show(gap), p.Show(span.Least), p.Show(span.Most)),
		Stated:  leaf.Node.Text,
		Working: foot.Working(p.Sheet.Unit),
		Source:  p.Tables.SelfSource("off_floor"),
		Fixes:   p.Likely(leaf.Node, leaf.Node.LengthStyle().Print(right, length.Down), fmt.Sprintf("Make it %s long", right.Format(p.Sheet.Unit, length.Down))),
	})
}
