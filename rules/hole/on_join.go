package hole

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var onJoin = &rule.Rule{
	ID:    "hole/on-join",
	Title: "hole lands on a join",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runOnJoin,
	Doc: `
Checks
The place of every hole against the joins of the panel. Where the order does not say
where the holes are, they are where the ticket has them, and it is a note.

Because
A seam under a grommet lifts one side of the flange, so that it closes badly and works
loose, and the hole cuts the seam's stitches.

Working
A hole is on a join where its center is nearer to the seam than half the flange,
half the bore where no flange is stated, or half a buttonhole's length.

Source
common practice, no source
`,
}

// holesWrong reports whether a stated number of the item's holes is wrong, so
// that another place for them is asked for already.
func holesWrong(p *rule.Pass, item int) bool {
	h := &p.Sheet.Items[item].Order.Holes
	return p.Sheet.InDoubt(item, "", worksheet.HoleCount, worksheet.HoleSpacing, worksheet.HoleInset) ||
		p.Sheet.Doubted(h.FromSide.Node, h.Hook.Node, h.Ease.Node, h.Bore.Node, h.Flange.Node)
}

func runOnJoin(p *rule.Pass, it *worksheet.Item) {
	h := &it.Order.Holes
	r := h.Reach()
	if r == 0 && it.Get(worksheet.HoleSlit) != nil {
		r = it.Get(worksheet.HoleSlit).Value.Length().Div(2, length.Up)
	}
	if r == 0 || len(it.Holes) == 0 || !whole(it) || it.Unread || holesWrong(p, it.Index) || misfits(p, it) || overlap(it) || oddly(p, it.Index) > 0 {
		return
	}
	var on, lines []string
	for n, at := range it.Holes {
		for _, seam := range it.Joined {
			if at-seam < r && seam-at < r {
				on = append(on, fmt.Sprint(n+1))
				lines = append(lines, fmt.Sprintf("%s %d is %s from the left edge, the seam %s", word(h), n+1, p.Show(at), p.Show(seam)))
			}
		}
	}
	if len(on) == 0 {
		return
	}
	lie, as, level := "lie", "", finding.Warning
	if len(on) == 1 {
		lie = "lies"
	}
	if !told(h) {
		as, level = "Spaced as the ticket has them, ", finding.Note // another spacing may be marked
	}
	at := h.Make.At
	switch {
	case h.Count.Set:
		at = h.Count.At
	case h.Spacing.Set:
		at = h.Spacing.At
	case h.FromSide.Set:
		at = h.FromSide.At
	}
	p.Report(finding.Finding{
		At: at, Level: level,
		Message: fmt.Sprintf("%s of %d from the left edge %s on a join: keep holes at least %s from a seam.",
			as+name(h.Make.Value, on, as == ""), len(it.Holes), lie, p.Show(r)),
		Working: lines,
		Source:  worksheet.Common,
		Fixes:   finding.Advice("Move the first hole, or the joins, until every hole clears the seams"),
	})
}

// name is the holes of those numbers, first in a sentence or not: "Grommet 3", "grommets 3
// and 12".
func name(kind string, numbers []string, first bool) string {
	if first {
		kind = strings.ToUpper(kind[:1]) + kind[1:]
	}
	if len(numbers) > 1 {
		kind += "s"
	}
	return kind + " " + worksheet.All(numbers)
}

// whole reports whether the holes go over the panel that the joins are worked
// for, and not over one that was cut down.
func whole(it *worksheet.Item) bool {
	over := it.Get(worksheet.FinishedWidth)
	if it.Heading != nil {
		over = it.Get(worksheet.PanelWidth)
	}
	if over == nil {
		return false
	}
	d := over.Value.Length() - it.Holes[0] - it.Holes[len(it.Holes)-1]
	return max(d, -d) < length.Millimetre
}
