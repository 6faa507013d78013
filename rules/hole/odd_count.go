package hole

import (
	"fmt"
	"strconv"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var oddCount = &rule.Rule{
	ID:    "hole/odd-count",
	Title: "odd number of eyelets in a panel",
	Level: finding.Warning,
	Fix:   rule.Always,
	Asked: true,
	Each:  runOddCount,
	Doc: `
Checks
The number of eyelets in one panel of a curtain with an eyelet heading.

Because
The pole passes through the rings alternately from front and back. With an even number
both edges of the panel turn to the wall; with an odd number one edge turns out into the
room.

Working
none: the count is even or odd. Shower curtains hang in front of their rod and may
have any number.

Correction
Likely: one eyelet fewer or one more, with the spacing to match where one is stated. The
one nearer the usual spacing comes first.

Source
Engineer Fix, How many grommets per curtain panel; Singer Sewing Custom Curtains,
Shades and Top Treatments, excerpt.
`,
}

func runOddCount(p *rule.Pass, it *worksheet.Item) {
	h := &it.Order.Holes
	count := oddly(p, it.Index)
	if count == 0 {
		return
	}
	f := finding.Finding{
		At:      h.Count.At,
		Message: fmt.Sprintf("A panel has %s: with an odd number one edge turns out into the room.", worksheet.Many(count, "eyelet")),
		Source:  "Engineer Fix, How many grommets per curtain panel; Singer Sewing Custom Curtains, Shades and Top Treatments, excerpt",
	}
	node := h.Count.Node
	if !h.Count.Set {
		f.At, node = h.Spacing.At, h.Spacing.Node
	}
	if node != nil {
		f.Stated = node.Text
	}
	few, many := evenly(p, it, count-1), evenly(p, it, count+1)
	if further(p, it, count-1, count+1) {
		few, many = many, few
	}
	for _, fix := range []finding.Fix{few, many} {
		if len(fix.Edits) > 0 {
			f.Fixes = append(f.Fixes, fix)
		}
	}
	p.Report(f)
}

// oddly is the number of eyelets in a panel, where it is an odd one; 0 where it is not.
func oddly(p *rule.Pass, item int) int64 {
	it := &p.Sheet.Items[item]
	h := &it.Order.Holes
	if it.Heading == nil || it.Heading.Hangs != "holes" || !h.Count.Set && !h.Spacing.Set || p.Sheet.InDoubt(item, "", worksheet.HoleCount) {
		return 0
	}
	count := int64(len(it.Holes))
	if count == 0 {
		count = h.Count.Value // of a panel whose width is not known
	}
	return count * (count % 2)
}

// evenly is the fix that makes it so many eyelets, spaced anew.
func evenly(p *rule.Pass, it *worksheet.Item, count int64) finding.Fix {
	h := &it.Order.Holes
	fix := finding.Fix{Title: "Make it " + worksheet.Many(count, "eyelet"), Sureness: p.Choosing(h.Count.Node, h.Spacing.Node)}
	if count < 2 || unfit(p, h.Count.Set, h.Count.Node) || unfit(p, h.Spacing.Set, h.Spacing.Node) {
		return fix
	}
	if h.Count.Set {
		fix.Edits = append(fix.Edits, p.Set(h.Count.Node, strconv.FormatInt(count, 10)))
	}
	if h.Spacing.Set && len(it.Holes) > 0 {
		apart := spaced(it, count)
		fix.Title += ", spaced " + p.Show(apart)
		fix.Edits = append(fix.Edits, p.Set(h.Spacing.Node, h.Spacing.Node.LengthStyle().Print(apart, length.Nearest)))
	}
	return fix
}

// unfit reports whether something is stated where it can't be edited.
func unfit(p *rule.Pass, set bool, n *order.Node) bool { return set && !p.Editable(n) }

// spaced is the spacing of so many holes between the first and the last.
func spaced(it *worksheet.Item, count int64) length.Length {
	return (it.Holes[len(it.Holes)-1] - it.Holes[0]).Div(count-1, length.Nearest)
}

// further reports whether few eyelets are spaced further off the usual pitch than
// many.
func further(p *rule.Pass, it *worksheet.Item, few, many int64) bool {
	if few < 2 {
		return true
	}
	if len(it.Holes) < 2 {
		return false
	}
	off := func(count int64) length.Length {
		d := spaced(it, count) - p.Tables.House.Pitch
		return max(d, -d)
	}
	return off(few) > off(many)
}
