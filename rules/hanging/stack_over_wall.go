package hanging

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var stackOverWall = &rule.Rule{
	ID:    "hanging/stack-over-wall",
	Title: "drawn-back curtain needs more wall than there is beside the glass",
	Level: finding.Note,
	Fix:   rule.Never,
	Each:  runStackOverWall,
	Doc: `
Checks
How wide the curtain stacks, against the wall beside the glass that the order states:
half of a pair on each side, a single panel on the wider side.

Because
Whatever does not fit beside the glass hangs in front of it and takes the light, as the
client sees on the first morning.

Working
stack-back = flat width of the panels × the share they stack to: 8% for a sheer to 12%
for a very heavy cloth, 1% more with a lining and 2% more with an interlining

Source
Measuring for stackback, 2008 (5 to 6 in for each width of 54 in); common practice, no
source, for the shares of each class
`,
}

func runStackOverWall(p *rule.Pass, it *worksheet.Item) {
	left, right := &it.Order.Track.WallLeft, &it.Order.Track.WallRight
	back := it.Get(worksheet.StackBack)
	if back == nil {
		return
	}
	stack := back.Value.Length()
	switch {
	case it.Panels == 2:
		half := stack.Div(2, length.Nearest)
		at, over := wider(left, half-left.Value, right, half-right.Value)
		if at == nil || over <= 0 {
			return
		}
		reportStack(p, it, at, fmt.Sprintf("Drawn back, each panel stacks to about %s; the wall beside the glass has room for %s, and the rest hangs over the glass.",
			half.Format(p.Sheet.Unit, length.Up), p.Show(at.Value)))
	case it.Panels == 1 && left.Set && right.Set:
		at, room := wider(left, left.Value, right, right.Value)
		if stack <= room {
			return
		}
		reportStack(p, it, at, fmt.Sprintf("Drawn back, the panel stacks to about %s; the wider wall has room for %s, and the rest hangs over the glass.",
			stack.Format(p.Sheet.Unit, length.Up), p.Show(room)))
	}
}

// wider is that of the two sides that is stated and has the larger number; nil
// where neither is stated.
func wider(left *order.Length, l length.Length, right *order.Length, r length.Length) (*order.Length, length.Length) {
	switch {
	case left.Set && (!right.Set || l >= r):
		return left, l
	case right.Set:
		return right, r
	}
	return nil, 0
}

func reportStack(p *rule.Pass, it *worksheet.Item, at *order.Length, message string) {
	p.Report(finding.Finding{
		At:      at.At,
		Message: message,
		Stated:  at.Node.Text,
		Working: it.Get(worksheet.StackBack).Working(p.Sheet.Unit),
		Source:  p.Tables.SelfSource("stack_share"),
		Fixes:   finding.Advice("Take a wider track, or tell the client"),
	})
}
