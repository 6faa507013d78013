package hanging

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var massOff = &rule.Rule{
	ID:       "hanging/mass-off",
	Title:    "hanging mass is not that of the pieces",
	Level:    finding.Warning,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.HangingMass},
	Off:      sayMassOff,
	Doc: `
Checks
The mass stated for the finished hanging against the cut pieces' areas and their
cloths' weights, with what is put into the hem. Two parts in a hundred are allowed,
for no mill weighs closer.

Because
The rod, the track and what holds them to the wall are chosen by this number.

Working
hanging mass = weight × width × length of every piece as it is cut + weights in the
hem

Source
M.Y.L. Ltd., How to calculate drapery weight
`,
}

func sayMassOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {

	return fmt.Sprintf("The hanging mass is given as %s; the pieces come to %s.", w.Node.Text, w.Corrected),
		"Write " + w.Corrected
}
