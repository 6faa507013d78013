package heading

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var takeUpOff = &rule.Rule{
	ID:       "heading/take-up-off",
	Title:    "pleats don't take up the panel's spare cloth",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.TakeUp},
	Off:      sayTakeUpOff,
	Doc: `
Checks
The cloth stated for one pleat against the flat panel, the finished one and the
count of pleats. The panel may be of whole and half widths, or cut down to its fullness:
either will do.

Because
An error in one pleat is repeated in every pleat: half an inch in each of twelve makes the
panel half a foot too wide or too narrow for its track.

Working
take-up of a pleat = (panel width, flat - finished panel) ÷ pleats

Source
eHow UK, How to calculate the fabric for pinch-pleated curtains; Singer Sewing for the
Home, pleats.
`,
}

func sayTakeUpOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	right := p.Show(w.Quantity.Value.Length())
	so := "to bring the panel to its finished width it should take up"
	if p.Sheet.Items[w.Quantity.Item].Heading == nil {
		so = "its folds take up"
	}
	return fmt.Sprintf("Each pleat takes up %s; "+so+" %s.", p.Show(w.Stated.Length()), right),
		fmt.Sprintf("Make each pleat take up %s", right)
}
