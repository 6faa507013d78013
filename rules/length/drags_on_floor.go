package length

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var dragsOnFloor = &rule.Rule{
	ID:    "length/drags-on-floor",
	Title: "curtain is too long for the floor and not meant to puddle",
	Level: finding.Error,
	Fix:   rule.Never,
	Each:  runDragsOnFloor,
	Doc: `
Checks
The finished length against the height above the floor of the rod, the hooks or
the rings, unless the order says the cloth lies on the floor.

Because
A foot that drags gets dirty, wears through and trips people; on a wet bathroom floor
it stays wet.

Working
foot to floor = height above the floor + what the top edge stands above it -
finished length. A curtain is checked only where the order says how far its top edge
stands above the hooks, or where its holes are.

Correction
Shown: the finished length that hangs the shop's usual clearance off the floor.
The height may be the wrong number instead, so it is yours to choose.

Source
Inweave Fabric, curtain yardage page; RLF Home, How to measure a window (1/2 in
clear); common practice, no source, for shower curtains.
`,
}

func runDragsOnFloor(p *rule.Pass, it *worksheet.Item) {
	foot, finished := it.Get(worksheet.FootGap), it.Get(worksheet.FinishedLength)
	if it.Unread || it.OffHem() || foot == nil || finished == nil || it.Order.Hang.To.Value == "puddle" || p.Sheet.RestsOnDoubt(foot) {
		return
	}
	clear, source := p.Tables.House.Clearance, "clearance"
	slack := length.Step(p.Sheet.Unit)
	if it.Order.Kind.Value == "shower curtain" {
		clear, source = p.Tables.House.OffFloor.Least, "off_floor"
	} else if !topKnown(it) {
		return
	}
	gap := foot.Value.Length()
	if gap > -slack {
		return
	}
	f := finding.Finding{
		At: it.Order.Hang.To.At,
		Message: fmt.Sprintf("A finished length of %s puts the foot %s below the floor; keep it %s clear.",
			finished.Value.Format(p.Sheet.Unit, length.Nearest), p.Show(-gap), p.Show(clear)),
		Working: foot.Working(p.Sheet.Unit),
		Source:  p.Tables.SelfSource(source),
	}
	leaf := &it.Order.Finished.Length
	if leaf.Set && leaf.Value == finished.Value.Length() {
		right := leaf.Value + gap - clear
		f.At, f.Stated = leaf.At, leaf.Node.Text
		f.Corrected = leaf.Node.LengthStyle().Print(right, length.Down)
		if right > 0 {
			f.Fixes = p.Likely(leaf.Node, f.Corrected, fmt.Sprintf("Make it %s long", right.Format(p.Sheet.Unit, length.Down)))
		}
	}
	p.Report(f)
}

// topKnown reports whether the order says how far a curtain's top edge stands
// above what it hangs from.
func topKnown(it *worksheet.Item) bool {
	return it.Order.Heading.HookDrop.Set || it.Heading != nil && it.Heading.Hangs == "holes" && it.Order.Holes.FromTop.Set
}
