package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var blankChoice = &rule.Rule{
	ID:    "form/blank-choice",
	Title: "blank that can't be worked out",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runBlankChoice,
	Doc: `
Checks
Whether a field left blank is one that can be worked out, such as a cut, the
widths, the spacing of holes or the cloth to buy.

Because
What follows from the rest of the order is worked out where it is left blank. This
can't be: someone meant to come back to it, and the house's usual would be used without
anybody being asked.

Working
The form marks which fields are worked out. If you don't want a field at all, take it
out, name and all.

Source
common practice, no source
`,
}

func runBlankChoice(p *rule.Pass) {
	for _, f := range flaws(p, order.Blank) {
		message := begin(field(f)) + " is blank"
		switch {
		case f.Wanted == "" || grouped(f.Wanted):
			message += ": fill it in, or take it out."
		default:
			message += fmt.Sprintf(": write %s, or take it out.", f.Wanted)
		}
		p.Report(finding.Finding{At: f.At, Message: message})
	}
}
