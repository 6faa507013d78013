package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var weightsOnVoile = &rule.Rule{
	ID:    "hem/weights-on-voile",
	Title: "single weights in a sheer",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runWeightsOnVoile,
	Doc: `
Checks
The kind of weights in the hem of a sheer cloth.

Because
A single weight pulls thin cloth down in a point, shows through the hem as a dark
spot, and wears a hole where it rubs.

Working
A sheer needs a fine chain or tape along the whole hem.

Correction
Shown: the chain is the maker's choice. The lightest on sale is named.

Source
Driftlane Studio, Choosing and using curtain weights.
`,
}

func runWeightsOnVoile(p *rule.Pass, it *worksheet.Item) {
	kind := &it.Order.Weights.Kind
	if kind.Value != "single" || !sheer(it) {
		return
	}
	f := finding.Finding{
		At:      kind.At,
		Message: "Single weights pull a sheer down in points and show through its hem; run a fine chain along the whole hem.",
		Stated:  kind.Value, Source: "Driftlane Studio, Choosing and using curtain weights",
	}
	if len(p.Tables.Chains) > 0 {
		lightest := worksheet.LinearOf(p.Tables.Chains[0].Mass)
		f.Fixes = finding.Advice(fmt.Sprintf("Run a chain of %s along the hem", lightest.Format(p.Sheet.Unit, length.Nearest)))
	}
	p.Report(f)
}
