package form

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var blankChoice = &rule.Rule{
	ID:    "form/blank-choice",
	Title: "choice that was left blank",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runBlankChoice,
	Doc: `
Checks
Whether a field that was left blank is one that can be worked out: a cut, the
widths, the spacing of holes, the cloth to buy.

Because
A blank outcome is worked out. A choice can't be: someone meant to come back to
it, and the house's usual would be taken without asking.

Working
The form marks which fields are outcomes. A field that is not wanted at all is
left out, name and all.

Source
common practice, no source
`,
}

func runBlankChoice(p *rule.Pass) {
	for _, f := range flaws(p, order.Blank) {
		message := begin(field(f)) + " is left blank"
		switch {
		case f.Wanted == "" || strings.HasPrefix(f.Wanted, "a group") || strings.HasPrefix(f.Wanted, "a list"):
			message += ": fill it in, or leave it out whole."
		default:
			message += fmt.Sprintf(", and it can't be worked out: write %s.", f.Wanted)
		}
		p.Report(finding.Finding{At: f.At, Message: message})
	}
}
