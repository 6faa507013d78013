package valance

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var joinOnFace = &rule.Rule{
	ID:    "valance/join-on-face",
	Title: "join shows on the face where a pleat could hide it",
	Level: finding.Note,
	Fix:   rule.Never,
	Each:  runJoinOnFace,
	Doc: `
Checks
Where the joins of a box pleated valance fall, and whether they would all lie in pleats if
some of the cloth trimmed off anyway were trimmed off on the left.

Because
A join on the face of a section is the first thing seen. In a pleat nobody sees it, and
moving it there costs nothing but a mark.

Working
A join is hidden where it lies in the cloth a pleat takes up. The cloth to trim is width as
joined - flat width; the least of it that hides every join is reported, if any does.

Source
common practice, no source
`,
}

func runJoinOnFace(p *rule.Pass, it *worksheet.Item) {
	if !it.Meets("pleats, flat made, {joins} > 0, {flat made} > {flat width}") || p.Sheet.Unsettled(it.Index) {
		return
	}
	joins, starts := marked(it, "joins"), marked(it, "pleat starts")
	off, ok := toHide(joins, starts, it.Length(string(worksheet.TakeUp)), it.Length("flat made")-it.Length(string(worksheet.FlatWidth)), it.Step())
	if !ok || off == 0 {
		return
	}
	join, hides := "A join falls", "it hides"
	if len(joins) > 1 {
		join, hides = "Joins fall", "they hide"
	}
	p.Report(finding.Finding{
		At:      it.Order.Heading.Style.At,
		Message: fmt.Sprintf("%s on the face of a section: cut %s off the left of the joined widths and the rest off the right, and %s in the pleats.", join, p.Show(off), hides),
		Source:  worksheet.Common,
	})
}

// marked are the places of a row of marks.
func marked(it *worksheet.Item, name string) []length.Length {
	for _, m := range it.Marks() {
		if m.Name == name {
			return m.At
		}
	}
	return nil
}

// toHide is the least that is cut off the left, of what is left over, so that every
// join lies in a pleat.
func toHide(joins, starts []length.Length, takes, over, step length.Length) (length.Length, bool) {
	shows := func(at length.Length) bool {
		return !slices.ContainsFunc(starts, func(s length.Length) bool { return at >= s && at <= s+takes })
	}
	all := func(off length.Length) bool {
		return !slices.ContainsFunc(joins, func(j length.Length) bool { return shows(j - off) })
	}
	if all(0) {
		return 0, true
	}
	// A join comes to lie in a pleat first at the pleat's right end.
	best, ok := over+1, false
	for _, j := range joins {
		for _, s := range starts {
			off := (j - s - takes).Round(step, length.Up)
			if off > 0 && off <= over && off < best && all(off) {
				best, ok = off, true
			}
		}
	}
	return best, ok
}
