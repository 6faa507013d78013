package width

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var widthsOff = &rule.Rule{
	ID:       "width/widths-off",
	Title:    "wrong number of widths for the flat width",
	Level:    finding.Error,
	Fix:      rule.Always,
	Outcomes: []worksheet.Name{worksheet.Widths},
	Off:      sayWidthsOff,
	Doc: `
Checks
The widths of cloth in all panels together against the flat width and what one width
gives between two joins; for a flat panel, the pieces joined across it. A number a
little scant, with cuts to match, is the maker's choice.

Because
With a width too few the curtain hangs thin; a width too many is a whole length of
cloth wasted.

Working
widths = flat width ÷ usable width, rounded up to a half in each panel

Source
Contract Decor, Calculating Drapery Yardage: whole and half widths only
`,
}

func sayWidthsOff(p *rule.Pass, w *worksheet.Wrong) (message, title string) {
	right := w.Corrected
	what := "widths"
	if it := &p.Sheet.Items[w.Quantity.Item]; it.Get(worksheet.FlatWidth) == nil {
		what = "widths of cloth"
		if it.Order.Kind.Value == "shower curtain" {
			what = "pieces across"
		}
	}
	has := w.Node.Text
	return fmt.Sprintf("The order has %s %s; it needs %s.", has, number(has, what), right),
		fmt.Sprintf("Use %s %s", right, number(right, what))
}

// number is what is counted, for one of it too: 1 width of cloth, 2 widths of cloth.
func number(n, things string) string {
	if n != "1" {
		return things
	}
	first, rest, _ := strings.Cut(things, "s")
	return first + rest
}
