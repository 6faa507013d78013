package hanging

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var aboveRim = &rule.Rule{
	ID:    "hanging/above-rim",
	Title: "shower curtain ends above the tub's rim",
	Level: finding.Error,
	Fix:   rule.Never,
	Each:  runAboveRim,
	Doc: `
Checks
The height of a shower curtain's foot above the floor against the height of the tub's
rim.

Because
Water runs out between the foot and the rim onto the floor, where people slip and the
ceiling below is spoiled.

Working
height of the rings above the floor - finished length < height of the rim

Correction
None is made: how far it hangs below the rim, inside or outside, is the client's choice.

Source
common practice, no source
`,
}

func runAboveRim(p *rule.Pass, it *worksheet.Item) {
	foot := it.Get(worksheet.FootGap)
	rim := &it.Order.Tub.Rim
	leaf := &it.Order.Finished.Length
	if it.Order.Kind.Value != "shower curtain" || foot == nil || !leaf.Set || !rim.Set || it.OffHem() || p.Sheet.Doubted(leaf.Node) {
		return
	}
	gap := foot.Value.Length()
	if gap < rim.Value {
		return
	}
	p.Report(finding.Finding{
		At:      leaf.At,
		Message: fmt.Sprintf("The foot hangs %s above the floor and the tub's rim is %s high: the curtain has to hang below the rim.", p.Show(gap), p.Show(rim.Value)),
		Stated:  leaf.Node.Text,
		Working: foot.Working(p.Sheet.Unit),
		Source:  worksheet.Common,
		Related: []finding.Related{{Range: rim.At, Message: "the rim"}},
		Fixes:   finding.Advice(fmt.Sprintf("Make it more than %s longer", (gap-rim.Value).Format(p.Sheet.Unit, length.Up))),
	})
}
