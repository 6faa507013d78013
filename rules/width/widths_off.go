package width

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var widthsOff = &rule.Rule{
	ID:       "width/widths-off",
	Title:    "number of widths is not what the flat width takes",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.Widths},
	Off:      sayWidthsOff,
	Doc: `
Checks
The widths of cloth in all panels together against the flat width and what a width
gives between two joins; of a flat panel, the pieces that are joined across it. A
number that is a little scant, with the cuts to match, is the maker's choice.

Because
One width too few and the curtain hangs thin; one too many is a whole length of
cloth for nothing.

Working
widths = flat width ÷ usable width, rounded up to a half in each panel

Source
Contract Decor, Calculating Drapery Yardage: whole and half widths only
`,
}

func sayWidthsOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
	what := "widths"
	if it := &p.Sheet.Items[w.Quantity.Item]; it.Get(worksheet.FlatWidth) == nil {
		what = "widths of cloth"
		if it.Order.Kind.Value == "shower curtain" {
			what = "pieces across"
		}
	}
	return fmt.Sprintf("The order has %s %s; it takes %s.", w.Stated.Format(p.Sheet.Unit, w.Quantity.Round), what, right),
		fmt.Sprintf("Make it of %s %s", right, what)
}
