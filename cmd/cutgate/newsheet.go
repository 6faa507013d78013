package main

import (
	"io"

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
		return write(w, table.Pages(titleOfItems, titleOfCloths, table.Flatten(loader.Form, orders[0])))
	}
}
