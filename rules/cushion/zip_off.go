package cushion

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var zipOff = &rule.Rule{
	ID:       "cushion/zip-off",
	Title:    "zip does not suit its cushion",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{"zip length"},
	Off:      sayZipOff,
	Doc: `
Checks
The length of a stated zip against the seam that it goes into.

Because
A zip that is longer than its seam can't be set in, and through a short one the pad
does not go.

Working
worked length × 3/4 <= zip <= the seam that it goes into; for a boxed cover that is
the back and what goes round both corners

Correction
Certain where the zip is too long; likely where it is short: a thin pad may go
through it all the same.

Source
Alternative Windows, Zipped cushions; Upholstery Resource, box cushion sewing
`,
}

func sayZipOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	it, u := &p.Sheet.Items[w.Quantity.Item], p.Sheet.Unit
	if !it.Has("zip most") {
		return "", "" // another kind's zip
	}
	right := w.Quantity.Value.Format(u, w.Quantity.Round)
	title = fmt.Sprintf("Take a zip of %s", right)
	if most := it.Length("zip most"); w.Stated.Length() > most {
		return fmt.Sprintf("The zip is %s long, and the seam that it goes into %s.", w.Stated.Format(u, length.Nearest), most.Format(u, length.Nearest)), title
	}
	return fmt.Sprintf("The zip is %s long; the pad hardly goes through less than three quarters of %s.", w.Stated.Format(u, length.Nearest), right), title
}
