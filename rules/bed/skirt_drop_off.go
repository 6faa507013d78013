package bed

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var skirtDropOff = &rule.Rule{
	ID:       "bed/skirt-drop-off",
	Title:    "drop of a bed skirt does not match the bed's height",
	Level:    finding.Error,
	Fix:      rule.Always,
	Asked:    true,
	Outcomes: []worksheet.Name{"drop"},
	Off:      saySkirtDropOff,
	Doc: `
Checks
The drop of a bed skirt against the height of the box spring less the clearance above the
floor.

Because
A longer skirt lies on the floor, where it gets stepped on and drawn under the bed's feet.
A shorter one shows them.

Working
drop = spring height - clearance. A drop that clears the floor by up to 2 in, or
5 cm, is the maker's choice where no clearance is stated.

Correction
Likely: the drop that clears the floor. The height of the spring may be wrong instead.

Source
Simple Sewing Projects, 'How to sew a bedskirt', 2006: half an inch off the floor.
`,
}

func saySkirtDropOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	it := &p.Sheet.Items[w.Quantity.Item]
	right, height := p.Show(w.Quantity.Value.Length()), it.Length("spring height")
	title = fmt.Sprintf("Make the drop %s", right)
	if w.Stated.Length() > height {
		return fmt.Sprintf("The drop is %s, but the spring is %s off the floor, so the skirt lies on it: %s would clear it.", p.Show(w.Stated.Length()), p.Show(height), right), title
	}
	return fmt.Sprintf("The drop is %s; the spring is %s high, which leaves a drop of %s.", p.Show(w.Stated.Length()), p.Show(height), right), title
}
