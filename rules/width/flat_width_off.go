package width

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var flatWidthOff = &rule.Rule{
	ID:       "width/flat-width-off",
	Title:    "flat width does not match finished width, fullness and side hems",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.FlatWidth},
	Off:      sayFlatWidthOff,
	Doc: `
Checks
The flat width of all panels together against the finished width, the fullness and
the side hems of every panel.

Because
The number of widths is worked out from it, and the widths decide how full the curtain
hangs.

Working
flat width = finished width × fullness + side hems. Where the shop adds the
returns after the fullness, they are not multiplied by it.

Source
Contract Decor, Calculating Drapery Yardage; eHow UK, How to calculate the amount of
fabric needed for curtains, for returns after the fullness.
`,
}

func sayFlatWidthOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
	from := "it should be"
	if p.Sheet.Items[w.Quantity.Item].Heading != nil {
		from = "finished width, fullness and side hems make it"
	}
	return fmt.Sprintf("The flat width is %s; "+from+" %s.", w.Stated.Format(p.Sheet.Unit, w.Quantity.Round), right),
		fmt.Sprintf("Work with a flat width of %s", right)
}
