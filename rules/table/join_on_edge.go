package table

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var joinOnEdge = &rule.Rule{
	ID:    "table/join-on-edge",
	Title: "join lies on the edge of the table",
	Level: finding.Note,
	Fix:   rule.Never,
	Each:  runJoinOnEdge,
	Doc: `
Checks
Where the joins of a rectangular or square cloth lie, against the two edges of its
table.

Because
A join on the edge takes the wear of every chair and sleeve, and glasses won't stand
level on it.

Working
The table lies in the middle of the cloth. A join within 1 in or 25 mm of its edge is
reported.

Correction
Shown: a narrower center moves the joins in. How far is up to whoever can see the
pattern.

Source
common practice, no source
`,
}

func runJoinOnEdge(p *rule.Pass, it *worksheet.Item) {
	near := length.Inch
	if p.Sheet.Unit.Metric() {
		near = 25 * length.Millimetre
	}
	if it.Order.Kind.Value != "tablecloth" || !it.Meets("shape: rectangular/square, finished width, table width") || p.Sheet.Unsettled(it.Index) {
		return
	}
	edge := (it.Length(string(worksheet.FinishedWidth)) - it.Length("table width")).Div(2, length.Nearest)
	for _, join := range it.Joined { // those of one half; the others lie alike
		d := max(join-edge, edge-join)
		if d > near || join > it.Length(string(worksheet.FinishedWidth))/2 {
			continue
		}
		where := "on the edge of the table"
		if d >= length.Step(p.Sheet.Unit) {
			where = p.Show(d) + " from the edge of the table"
		}
		p.Report(finding.Finding{
			At:      it.Order.Kind.At,
			Message: fmt.Sprintf("A join lies %s, where it takes the wear and nothing stands level on it: a narrower center moves it.", where),
			Source:  worksheet.Common,
		})
		break
	}
}
