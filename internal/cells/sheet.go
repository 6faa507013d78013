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

	text func(begin int) source.Range // where the text of the cell stands that begins there
}

// A Row is a row of a sheet, counted from 1. Most cells of most rows are empty, so that
// only the places of those are kept.
type Row struct {
	Number int
	Cells  []Cell // those with a text, if only of space, or a remark, by their columns

	begins []int // where each cell begins, with quote marks and space, from the first column on
	text   func(begin int) source.Range
}

// A Cell is one cell of a row.
type Cell struct {
	Column int          // from 1
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
	for i := range sheets {
		t.Comma = sheets[i].Comma
		t.End = func(begin int) int { return sheets[i].text(begin).End }
		t.Grow(len(sheets[i].Rows))
		for _, r := range sheets[i].Rows {
			t.Add(source.Cell{Sheet: sheets[i].Name, Column: 1, Row: r.Number}, r.begins...)
		}
	}
	return t
}

// Width is how many cells the row has, empty ones among them.
func (r *Row) Width() int { return len(r.begins) }

// Text is what the cell in a column says; "" where there is none.
func (r *Row) Text(column int) string {
	if c := r.Filled(column); c != nil {
		return c.Text
	}
	return ""
}

// Filled returns the cell in a column if it is not empty, or nil.
func (r *Row) Filled(column int) *Cell {
	i, ok := slices.BinarySearchFunc(r.Cells, column, func(c Cell, column int) int { return c.Column - column })
	if !ok {
		return nil
	}
	return &r.Cells[i]
}

// Cell returns the cell in a column, or nil.
func (r *Row) Cell(column int) *Cell {
	if c := r.Filled(column); c != nil {
		return c
	}
	if at, ok := r.Place(column); ok {
		return &Cell{Column: column, At: at}
	}
	return nil
}

// Place returns where the text of the cell in a column stands, or would stand; false where
// the row has no such cell.
func (r *Row) Place(column int) (source.Range, bool) {
	if c := r.Filled(column); c != nil {
		return c.At, true
	}
	if column < 1 || column > len(r.begins) {
		return source.Range{}, false
	}
	return r.text(r.begins[column-1]), true
}

// Range is where the row's cells stand.
func (r *Row) Range() source.Range {
	first, last := 1, len(r.begins)
	if n := len(r.Cells); last == 0 && n > 0 { // made of two rows
		first, last = r.Cells[0].Column, r.Cells[n-1].Column
	}
	start, _ := r.Place(first)
	end, _ := r.Place(last)
	return source.Range{Start: start.Start, End: end.End}
}
