package hanging

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var capacityUnstated = &rule.Rule{
	ID:    "hanging/capacity-unstated",
	Title: "heavy curtain, and the order does not say what its rod or track holds",
	Level: finding.Note,
	Fix:   rule.Never,
	Each:  runCapacityUnstated,
	Doc: `
Checks
The mass of everything that hangs, wet for a shower curtain, where the order gives the
rod or track but not what it holds.

Because
A heavy curtain on hardware nobody has checked comes down sooner or later. The maker's
figure is on the packet.

Working
hanging mass = weight × width × length of every piece as it is cut + weights in the
hem; wet, times the shop's wet factor for shower curtains.

Source
common practice, no source
`,
}

func runCapacityUnstated(p *rule.Pass, it *worksheet.Item) {
	hangs, holds := load(it), it.Holds()
	if hangs == nil || holds.Set || holds.Node != nil && !holds.Node.Blank() || !it.Order.Track.Set && !it.Order.Rod.Set || hangs.Value.N < int64(p.Tables.House.HoldsAsk) {
		return
	}
	p.Report(finding.Finding{
		At: holds.At,
		Message: fmt.Sprintf("%s%s, and the order does not say what the %s holds.",
			weighs(it), hangs.Value.Format(p.Sheet.Unit, hangs.Round), rod(it)),
		Working: hangs.Working(p.Sheet.Unit),
		Source:  p.Tables.SelfSource("holds_ask"),
		Fixes:   finding.Advice(fmt.Sprintf("Look up what the %s's maker says it holds", rod(it))),
	})
}
