package width

import (
	"fmt"
	"strconv"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var listedTwice = &rule.Rule{
	ID:    "width/listed-twice",
	Title: "piece is listed more than once, and not as often as needed in all",
	Level: finding.Error,
	Fix:   rule.Never,
	Each:  runListedTwice,
	Doc: `
Checks
Whether the counts of all rows of one piece, in one cloth, come to the pieces that one
item needs. A piece may be listed row by row, as for two bolts.

Because
A row that was copied and not changed is cut again: cloth in the scrap bin.

Working
pieces to cut = the counts of all its rows

Correction
Never: which row is too much, or which count is wrong, can't be told.

Source
plain arithmetic
`,
}

func runListedTwice(p *rule.Pass, it *worksheet.Item) {
	for k := range it.Pieces {
		for _, l := range it.Listed(&it.Pieces[k]) {
			if l.Rows < 2 || l.Needed == nil || l.Open && l.Cut < l.Needed.Value.N || l.Cut == l.Needed.Value.N || l.Doubtful || p.Sheet.Unsettled(it.Index) {
				continue
			}
			times, takes := "twice", "it needs"
			if l.Rows > 2 {
				times = strconv.Itoa(l.Rows) + " times"
			}
			if it.Quantity > 1 {
				takes = "each item needs"
			}
			p.Report(finding.Finding{
				At:      l.Last.Count.At,
				Message: fmt.Sprintf("The order lists the %s %s, %d to cut in all; %s %d.", l.Needed.Of, times, l.Cut, takes, l.Needed.Value.N),
				Stated:  l.Last.Count.Node.Text,
				Working: l.Needed.Working(p.Sheet.Unit),
				Source:  l.Needed.Source,
			})
		}
	}
}
