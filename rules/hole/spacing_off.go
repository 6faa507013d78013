package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var spacingOff = &rule.Rule{
	ID:       "hole/spacing-off",
	Title:    "hole spacing does not fit the width",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.HoleSpacing},
	Off:      saySpacingOff,
	Doc: `
Checks
The spacing of holes, center to center, against the width, their count and the
distance of the first from the side.

Because
Marked out with the wrong spacing, the last hole falls short of the far edge or runs past
it, and by then the others are punched.

Working
spacing = (width - 2 × from the side) ÷ (holes - 1). There is one space fewer than
there are holes. A curtain's width is one panel's, flat: untrimmed, or cut down to the
fullness, whichever the spacing fits.

Source
Engineer Fix, How many holes are in a standard shower curtain; Engineer Fix, How many
grommets per curtain panel.
`,
}

func saySpacingOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	it := &p.Sheet.Items[w.Quantity.Item]
	right := p.Show(w.Quantity.Value.Length())
	return fmt.Sprintf("The order spaces the %ss %s apart; %d of them fill the width at %s.",
			word(&it.Order.Holes), p.Show(w.Stated.Length()), len(it.Holes), right),
		fmt.Sprintf("Space them %s apart", right)
}
