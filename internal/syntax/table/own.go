package table

import (
	"slices"
	"strings"

	"cutgate/internal/cells"
	"cutgate/internal/form"
)

// isOwn reports whether a heading is of one of the shop's own columns, which are not part
// of the order form: it begins with #, or house.cue lists it.
func (rd *Reader) isOwn(heading string) bool {
	return strings.HasPrefix(heading, "#") || slices.ContainsFunc(rd.form.Columns, func(own string) bool { return form.Fold(own) == form.Fold(heading) })
}

// totals are the words, folded, that a row of totals begins with.
var totals = []string{"total", "totals", "subtotal", "sub_total", "grand_total", "sum", "sums"}

// passesOver reports whether a row is not part of any order: it fills only the shop's own
// columns, or holds totals.
func (h *header) passesOver(r *cells.Row) bool {
	ours, total := false, false
	for i := range r.Cells {
		c := &r.Cells[i]
		k := h.over(c.Column)
		switch {
		case c.Text == "" && c.Remark != cells.Valueless:
		case slices.Contains(totals, strings.TrimSuffix(form.Fold(c.Text), ":")):
			total = true
		case k == nil || !k.shops:
			ours = true
			if k != nil && k.known && k.name == "item" {
				return false // a row of totals has no kind of item
			}
		}
	}
	return total || !ours
}

// twoRows returns the headings that two rows make together, or nil if they make none: the upper row has the first words, over all columns up to its next text, and
// the lower row the last.
func (rd *Reader) twoRows(upper, lower *cells.Row) *cells.Row {
	if lower.Number != upper.Number+1 || !rd.mayHead(upper) && !rd.mayHead(lower) || upper.Texts() == 0 || lower.Texts() < 2 {
		return nil
	}
	known := func(text string) bool {
		if _, ok := rd.itemHeading(text); ok {
			return true
		}
		_, ok := rd.clothHeading(text)
		return ok
	}
	both := &cells.Row{Number: upper.Number}
	over, split := "", 0
	last := 0
	for _, r := range []*cells.Row{upper, lower} {
		if n := len(r.Cells); n > 0 {
			last = max(last, r.Cells[n-1].Column)
		}
	}
	for column := 1; column <= last; column++ {
		a, b := upper.Filled(column), lower.Filled(column)
		if a != nil && a.Text != "" {
			over = a.Text
		}
		switch {
		case b == nil || b.Text == "":
			if a != nil && a.Text != "" {
				both.Cells = append(both.Cells, *a)
			}
			continue
		case over != "" && known(over+" "+b.Text):
			c := *b
			c.Text, c.Remark = over+" "+b.Text, cells.Merged
			both.Cells = append(both.Cells, c)
			split++
		case (a == nil || a.Text == "") && (known(b.Text) || rd.isOwn(b.Text)):
			both.Cells = append(both.Cells, *b)
		default:
			return nil
		}
	}
	if split < 2 {
		return nil
	}
	return both
}

// Headings returns the headings of the form that can still be added to a row of headings
// of a CSV text, over items or over cloths; nil if the row is not one. The first row of a
// text counts as one.
func (rd *Reader) Headings(row string, first bool) []string {
	var r cells.Row
	for _, comma := range cells.Commas() {
		if s, fault := cells.CSV(row, 0, comma); fault == nil && len(s.Rows) > 0 && s.Rows[0].Texts() > r.Texts() {
			r = s.Rows[0]
		}
	}
	about := rd.heads(&r, true)
	known := 0
	for i := range r.Cells {
		if _, ok := rd.itemHeading(r.Cells[i].Text); ok {
			known++
		}
	}
	list := rd.headings().items
	switch {
	case about == aboutCloth:
		list = rd.headings().cloths
	case about == aboutOrder && !(first && known == r.Texts()):
		return nil
	}
	look := rd.itemHeading
	if about == aboutCloth {
		look = rd.clothHeading
	}
	list = slices.Clone(list)
	for i := range r.Cells {
		if h, ok := look(r.Cells[i].Text); ok {
			list = slices.DeleteFunc(list, func(s string) bool { return s == h.String() })
		}
	}
	return list
}
