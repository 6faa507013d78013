package seam

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var bulky = &rule.Rule{
	ID:    "seam/bulky",
	Title: "seam and hem together are too thick for the machine",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runBulky,
	Doc: `
Checks
The stack of cloth where a join crosses the bottom hem against the thickest the
machine can sew.

Because
The foot climbs, stitches are skipped, and a needle that hits such a stack can break
and fly: wear eye protection.

Working
layers of the seam × layers of the hem × thickness of the cloth ≤ what the
machine can sew. A double hem has three layers.

Correction
Shown: what to do is the maker's choice. A plain seam has only two layers; any seam can be
graded inside the hem; corners can be mitered or folded in.

Source
Common practice, no source, for the limit; it is the shop's own.
`,
}

func runBulky(p *rule.Pass, it *worksheet.Item) {
	limit := p.Tables.House.MachineSews
	bulk := it.Get(worksheet.SeamBulk)
	if bulk == nil || bulk.Value.Length() <= limit || it.Face == nil {
		return
	}
	at := it.Face.Order.Thickness.At
	if s := &it.Order.Join.Seam; s.Set {
		at = s.At
	}
	p.Report(finding.Finding{
		At: at,
		Message: fmt.Sprintf("Where the %s seam crosses the bottom hem the cloth is %s thick; the machine sews up to %s.",
			it.Seam.Name, bulk.Value.Length(), limit),
		Working: bulk.Working(length.MM),
		Source:  p.Tables.SelfSource("machine_sews"),
		Fixes:   finding.Advice("Grade the seam inside the hem, or use one with fewer layers, and miter or fold in the corners"),
	})
}
