package press

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var fusingUnsaid = &rule.Rule{
	ID:    "press/fusing-unsaid",
	Title: "fusing with no heat stated",
	Level: finding.Note,
	Fix:   rule.Never,
	Each:  runFusingUnsaid,
	Doc: `
Checks
Whether an item with fusible tape or interfacing says how hot the iron must be for it.

Because
Fusings differ by more than a setting. Pressed too cool, a hem holds on the bench and
comes down at the window; pressed too hot, the cloth is spoilt.

Working
fusing is tape or interfacing, and fusing_at is not stated.

Correction
None is made: the heat is on the fusing's own leaflet.

Source
common practice, no source
`,
}

func runFusingUnsaid(p *rule.Pass, it *worksheet.Item) {
	o := &it.Order.Press
	if !o.Fusing.Set || o.Fusing.Value == "none" || o.FusingAt.Set || p.Order.Misspelt(o.At, "fusing_at") {
		return
	}
	p.Report(finding.Finding{
		At: o.Fusing.At, Stated: o.Fusing.Value,
		Message: fmt.Sprintf("The order does not say how hot the iron must be for the fusible %s: write it under `fusing_at`, from its leaflet.", o.Fusing.Value),
	})
}
