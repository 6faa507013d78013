package ticket

import (
	"slices"
	"strings"

	"cutgate/internal/worksheet"
)

// unwashed gives the sizes and marks on cloth that is cut before it shrinks. It returns
// the words that then mark places on the finished work: "once washed".
func (t *ticket) unwashed(it *worksheet.Item, patterns []worksheet.Pattern) (washed string) {
	patterns = slices.DeleteFunc(slices.Clone(patterns), func(p worksheet.Pattern) bool { return !p.Unwashed })
	if len(patterns) == 0 {
		return ""
	}
	if washedFirst(it) {
		t.row("unwashed", "the cloth is cut before its first wash, and shrinks in it")
		t.marksBefore(patterns)
		return "once washed"
	}
	var sizes, edges []string
	for i := range patterns {
		p := &patterns[i]
		across, along := p.Net()
		if across == p.Width && slices.ContainsFunc(patterns, func(of worksheet.Pattern) bool { return of.Joined && of.Cloth == p.Cloth }) {
			continue // a whole width: its panel says how wide
		}
		sizes = append(sizes, p.Name+" "+t.length(across)+" wide × "+t.length(along)+" long")
		for side := range p.Edges {
			if text := t.edge(patterns, p, worksheet.Side(side)); text != "" && !slices.Contains(edges, text) {
				edges = append(edges, text)
			}
		}
	}
	t.row("unwashed", "the cloth is cut before its first wash, and shrinks in it. Make up to these sizes, between hems and seams: "+strings.Join(sizes, "; "))
	if len(edges) > 0 {
		t.row("", "hems and seams before the wash: "+strings.Join(edges, ", "))
	}
	t.marksBefore(patterns)
	return "once washed"
}

// marksBefore gives the places of marks on cloth that is not washed yet.
func (t *ticket) marksBefore(patterns []worksheet.Pattern) {
	for i := range patterns {
		for _, r := range patterns[i].Rows {
			t.row("", "before the wash, "+r.Name+" from "+fromThe(r.From)+": "+t.positions(r.At))
		}
	}
}

// washedFirst reports whether a piece is washed before it is made up: a note says when.
func washedFirst(it *worksheet.Item) bool { return it.Has("washed first") }

// edge says what an edge of a piece takes, and which edge it is if others of that name
// take a different length; "" if it takes nothing.
func (t *ticket) edge(patterns []worksheet.Pattern, p *worksheet.Pattern, side worksheet.Side) string {
	e := &p.Edges[side]
	if e.Takes <= 0 {
		return ""
	}
	text := e.Word + " " + t.length(e.Takes)
	for i := range patterns {
		for k := range patterns[i].Edges {
			if of := &patterns[i].Edges[k]; of.Word == e.Word && of.Takes > 0 && t.length(of.Takes) != t.length(e.Takes) {
				return text + where(p, side)
			}
		}
	}
	return text
}

// where names an edge, or two opposite edges of the same name.
func where(p *worksheet.Pattern, side worksheet.Side) string {
	both := p.Edges[worksheet.Top].Word == p.Edges[worksheet.Foot].Word
	switch {
	case side == worksheet.Left || side == worksheet.Right:
		return " at the sides"
	case both:
		return " at top and foot"
	case side == worksheet.Top:
		return " at the top"
	}
	return " at the foot"
}

// fromThe puts an article before where figures are measured from.
func fromThe(from string) string {
	if strings.HasPrefix(from, "the ") || strings.HasPrefix(from, "its ") {
		return from
	}
	return "the " + from
}
