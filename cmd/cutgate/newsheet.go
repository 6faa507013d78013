package main

import (
	"io"
	"slices"

	"cutgate/internal/cells"
	"cutgate/internal/form"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/syntax/table"
)

// What stands above the headings of a sheet to fill in.
const (
	titleOfItems  = "# One item a row. Leave a size blank to have it worked out; write it to have it checked. A length may be 68 or 9 1/2 or 137 cm."
	titleOfCloths = "# One cloth a row under the name that items call it by."
)

// printSheets prints an order as sheets that write writes.
func printSheets(write func(io.Writer, []cells.Page) error) func(io.Writer, *form.Form, string) error {
	return func(w io.Writer, of *form.Form, text string) error {
		loader := load.Of(of)
		orders := loader.Orders(&source.File{Text: text}, load.YAML, load.Options{})
		return write(w, pagesOf(table.Flatten(loader.Form, orders[0])))
	}
}

// pagesOf returns the sheets of an order, of which the first item says what the
// order does.
func pagesOf(s table.Sheets) []cells.Page {
	if len(s.Items) > 0 {
		s.Items[0] = slices.Concat(s.Head, s.Items[0])
	}
	return []cells.Page{page("Orders", titleOfItems, s.Items), page("Cloths", titleOfCloths, s.Cloths)}
}

// page makes a page of rows that may have different columns. One that a row is the
// first to have stands after the one before it in that row.
func page(name, title string, rows [][]table.Column) cells.Page {
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
