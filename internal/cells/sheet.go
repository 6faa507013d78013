// Package cells reads and writes tables: CSV texts and workbooks in Office Open
// XML (ECMA-376), as rows of cells.
//
// # Law
//
// Every cell keeps the place of its text. A workbook is no text, so one is drawn
// from it that lists its cells, a cell a line; places and edits are those of the
// drawn text, and [Rewrite] carries a changed one back into the workbook, of which
// nothing else changes. Text that a cell does not hold as it is shown, as of a
// formula or a date, has a remark.
//
// # What it is not
//
// It knows no order and no heading, and works out no formula.
package cells

import (
	"slices"

	"cutgate/internal/source"
)

// A Sheet is one table of cells, by rows. Rows and cells without a text may be
// missing.
type Sheet struct {
	Name  string // "" for the one of a CSV text
	Comma rune   // the mark between the cells of a CSV text; 0 in a workbook
	Rows  []Row
}

// A Row is a row of a sheet, counted from 1.
type Row struct {
	Number int
	Cells  []Cell // by their columns
}

// A Cell is one cell of a row.
type Cell struct {
	Column int          // from 1
	Start  int          // where the cell begins, with quote marks and space
	Text   string       // without the space around it
	At     source.Range // of that text, within its quote marks; empty for an empty cell
	Remark Remark
	Detail string // the formula, or the cells that were merged into one
}

// A Remark is what there is to say of a cell beside its text.
type Remark uint8

// The remarks.
const (
	Plain     Remark = iota
	Formula          // the text is the value that the formula had last
	Merged           // several cells were merged; the text is that of the first
	Valueless        // the workbook has a formula, and no value that it gave
	Covered          // one of the cells that were merged, but not the first: it shows another's text
)

var remarkWords = [...]string{"", "formula", "merged", "valueless"}

// Texts is how many cells of the row have a text.
func (r *Row) Texts() (n int) {
	for i := range r.Cells {
		if r.Cells[i].Text != "" {
			n++
		}
	}
	return n
}

// A Fault is why a text or a workbook could not be read, and where.
type Fault struct {
	At     source.Range
	Cell   source.Cell // of a CSV text
	Detail string
}

func (f *Fault) Error() string { return f.Detail }

// Table says which cell each part of the text of the sheets belongs to.
func Table(sheets []Sheet, workbook bool) *source.Table {
	t := &source.Table{Workbook: workbook}
	n := 0
	for i := range sheets {
		for _, r := range sheets[i].Rows {
			n += len(r.Cells)
		}
	}
	t.Grow(n)
	for i := range sheets {
		t.Comma = sheets[i].Comma
		for _, r := range sheets[i].Rows {
			for _, c := range r.Cells {
				t.Add(source.Range{Start: c.Start, End: c.At.End}, source.Cell{Sheet: sheets[i].Name, Column: c.Column, Row: r.Number})
			}
		}
	}
	return t
}

// Cell returns the cell in a column, or nil.
func (r *Row) Cell(column int) *Cell {
	if i := column - 1; i >= 0 && i < len(r.Cells) && r.Cells[i].Column == column { // as no cell before it is missing
		return &r.Cells[i]
	}
	i, ok := slices.BinarySearchFunc(r.Cells, column, func(c Cell, column int) int { return c.Column - column })
	if !ok {
		return nil
	}
	return &r.Cells[i]
}

// Range is where the row's cells stand.
func (r *Row) Range() source.Range {
	if len(r.Cells) == 0 {
		return source.Range{}
	}
	return source.Range{Start: r.Cells[0].At.Start, End: r.Cells[len(r.Cells)-1].At.End}
}
