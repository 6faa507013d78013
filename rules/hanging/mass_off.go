package hanging

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var massOff = &rule.Rule{
	ID:       "hanging/mass-off",
	Title:    "hanging mass does not match the pieces",
	Level:    finding.Warning,
	Fix:      rule.Always,
	Asked:    true,
	Outcomes: []worksheet.Name{worksheet.HangingMass},
	Off:      sayMassOff,
	Doc: `
Checks
The mass stated for the finished hanging against the areas of the cut pieces, the weights
of their cloths, and anything put into the hem. Two percent either way is allowed; no
mill weighs closer.

Because
The rod or track and its fixings to the wall are chosen by this number.

Working
hanging mass = weight × width × length of every piece as it is cut + weights in the
hem

Source
M.Y.L. Ltd., How to calculate drapery weight
`,
}

func sayMassOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {

	return fmt.Sprintf("The order gives a hanging mass of %s; the pieces come to %s.", w.Node.Text, w.Corrected),
		"Write " + w.Corrected
}
