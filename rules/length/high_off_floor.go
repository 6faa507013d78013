package length

import (
	"cutgate/internal/worksheet"
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
)

var highOffFloor = &rule.Rule{
	ID:    "length/high-off-floor",
	Title: "curtain ends just above the floor, and the order does not say what it hangs to",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runHighOffFloor,
	Doc: `
Checks
The finished length of a curtain against the height it hangs from, where the order
says neither what it hangs to nor the height above the sill.

Because
Curtains are made to the floor or to the sill. One that ends a hand or less above the
floor was usually measured from the wrong place.

Working
foot to floor = height above the floor + what the top edge stands above it -
finished length. Only a gap between the shop's least and most is asked about: a curtain
that ends higher is assumed to hang to a sill, and one near heat to be kept off the floor
on purpose.

Correction
Shown: the finished length that hangs the shop's usual clearance off the floor.

Source
common practice, no source
`,
}

func runHighOffFloor(p *rule.Pass, it *worksheet.Item) {
	high := p.Tables.House.HighOffFloor
	foot := it.Get(worksheet.FootGap)
	o, leaf := it.Order, &it.Order.Finished.Length
	if it.Unread || it.OffHem() || o.Kind.Value != "curtain" || foot == nil || o.Hang.To.Set || o.Track.AboveSill.Set || o.NearHeat.Value || !leaf.Set {
		return
	}
	if it.Heading != nil && it.Heading.Hangs == "tabs" && !o.Heading.HookDrop.Set {
		return // its top edge hangs below the pole
	}
	gap := foot.Value.Length()
	if gap <= high.Least || gap > high.Most {
		return
	}
	right := leaf.Value + gap - p.Tables.House.Clearance
	p.Report(finding.Finding{
		At: leaf.At,
		Message: fmt.Sprintf("The foot hangs %s above the floor. Should it reach the floor, or a sill? Write which, under `hang`.",
			p.Show(gap)),
		Stated:  leaf.Node.Text,
		Working: foot.Working(p.Sheet.Unit),
		Source:  p.Tables.SelfSource("high_off_floor"),
		Fixes:   p.Likely(leaf.Node, leaf.Node.LengthStyle().Print(right, length.Down), fmt.Sprintf("Make it %s long, to the floor", right.Format(p.Sheet.Unit, length.Down))),
	})
}
