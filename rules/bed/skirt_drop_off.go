package bed

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var skirtDropOff = &rule.Rule{
	ID:       "bed/skirt-drop-off",
	Title:    "drop of a bed skirt is not what the bed's height leaves",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{"drop"},
	Off:      saySkirtDropOff,
	Doc: `
Checks
The drop of a bed skirt against the height of the box spring, less what the skirt
clears the floor by.

Because
A skirt that is longer lies on the floor, where it is walked on and drawn under the
bed's feet. One that is shorter shows them.

Working
drop = spring height - clearance. A drop that clears the floor by up to 2 in, or
5 cm, is the maker's choice where no clearance is stated.

Source
Simple Sewing Projects, 'How to sew a bedskirt', 2006: half an inch off the floor.
`,
}

func saySkirtDropOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	it := &p.Sheet.Items[w.Quantity.Item]
	right, height := p.Show(w.Quantity.Value.Length()), it.Length("spring height")
	title = fmt.Sprintf("Make the drop %s", right)
	if w.Stated.Length() > height {
		return fmt.Sprintf("The drop is %s, and the spring is %s off the floor: the skirt lies on it. %s clears it.", p.Show(w.Stated.Length()), p.Show(height), right), title
	}
	return fmt.Sprintf("The drop is %s; the spring is %s high, which leaves %s.", p.Show(w.Stated.Length()), p.Show(height), right), title
}
