package table

import (
	"slices"

	"cutgate/internal/cells"
	"cutgate/internal/form"
)

// Pages returns the sheets of orders under their titles. The first item of each order says
// what the order does; where there are several, a cloth says whose it is.
func Pages(titleOfItems, titleOfCloths string, orders ...Sheets) []cells.Page {
	var items, cloths [][]Column
	for i := range orders {
		s := &orders[i]
		for j, row := range s.Items {
			if j == 0 {
				row = slices.Concat(s.Head, row)
			}
			items = append(items, row)
		}
		for _, row := range s.Cloths {
			if i := slices.IndexFunc(s.Head, func(c Column) bool { return c.Field.Name == "order" }); len(orders) > 1 && i >= 0 {
				row = slices.Concat(s.Head[i:i+1], row)
			}
			cloths = append(cloths, row)
		}
	}
	return []cells.Page{page("Orders", titleOfItems, items), page("Cloths", titleOfCloths, cloths)}
}

// page makes a page of rows that may have different columns. One that a row is the
// first to have stands after the one before it in that row.
func page(name, title string, rows [][]Column) cells.Page {
	p := cells.Page{Name: name, Title: title}
	find := func(heading string) int {
		return slices.IndexFunc(p.Headings, func(h cells.Heading) bool { return h.Text == heading })
	}
	for _, row := range rows {
		last := -1
		for _, c := range row {
			at := find(c.Heading)
			if at < 0 {
				at = last + 1
				p.Headings = slices.Insert(p.Headings, at, cells.Heading{Text: c.Heading, Note: note(&c.Field), Words: c.Field.Words})
			}
			last = at
		}
	}
	for _, row := range rows {
		texts := make([]string, len(p.Headings))
		for _, c := range row {
			texts[find(c.Heading)] = c.Text
		}
		p.Rows = append(p.Rows, texts)
	}
	return p
}

// note is what a heading says of its field.
func note(f *form.Question) string {
	text := f.Says
	if f.Words == nil && f.Wanted != "" && f.Wanted != form.Text.Wanted() {
		if text != "" {
			text = ": " + text
		}
		text = f.Wanted + text
	}
	if f.Outcome {
		text += "; worked out if left blank"
	}
	return text
}
