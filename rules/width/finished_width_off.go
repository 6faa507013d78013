package width

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var finishedWidthOff = &rule.Rule{
	ID:       "width/finished-width-off",
	Title:    "finished width does not match the track, overlap and returns",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.FinishedWidth},
	Off:      sayFinishedWidthOff,
	Doc: `
Checks
The finished width of all panels together, heading to heading, against the track
or pole they cover; for other goods, against what they are made for: a bed, a table,
a duvet.

Because
Panels that are too narrow don't meet in the middle or don't reach around to the
wall, and every width of cloth is worked from this one.

Working
finished width = track + overlap, for more than one panel, + 2 × return

Source
Contract Decor, Calculating Drapery Yardage
`,
}

func sayFinishedWidthOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	right := w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round)
	from := "it should come"
	if p.Sheet.Items[w.Quantity.Item].Has("track") {
		from = "track, overlap and returns come"
	}
	return fmt.Sprintf("The finished width is %s; "+from+" to %s.", w.Stated.Format(p.Sheet.Unit, w.Quantity.Round), right),
		fmt.Sprintf("Make it %s wide in all", right)
}
