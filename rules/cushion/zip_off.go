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
	Title:    "wrong zip length for the cushion",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{"zip length"},
	Off:      sayZipOff,
	Doc: `
Checks
The stated length of a zip against the seam it goes into.

Because
A zip longer than its seam can't be set in, and the pad won't go through a short one.

Working
length worked out × 3/4 ≤ zip ≤ the seam it goes into; for a boxed cover that is the back
and the part round both corners

Correction
Certain where the zip is too long; likely where it is short, since a thin pad may go
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
	title = fmt.Sprintf("Use a zip of %s", right)
	if most := it.Length("zip most"); w.Stated.Length() > most {
		return fmt.Sprintf("The zip is %s long, but its seam is only %s.", w.Stated.Format(u, length.Nearest), p.Show(most)), title
	}
	least := w.Quantity.Value.Length().Mul(3).Div(4, length.Up)
	return fmt.Sprintf("The zip is %s long; the pad will hardly go through less than %s: use %s.", w.Stated.Format(u, length.Nearest), least.Format(u, length.Up), right), title
}
