package source

import (
	"slices"
	"sort"
	"strconv"
	"strings"
)

// Cell is a cell of a table: of a sheet of a workbook, or of a CSV file as a
// spreadsheet shows it. Columns and rows count from 1.
type Cell struct {
	Sheet       string // "" in a CSV file, which has no name for its one sheet
	Column, Row int
}

// String is the cell as a spreadsheet calls it: F12, Orders!F12, 'Bed
// rooms'!F12.
func (c Cell) String() string {
	name := ColumnName(c.Column) + strconv.Itoa(c.Row)
	switch {
	case c.Sheet == "":
		return name
	case strings.ContainsFunc(c.Sheet, func(r rune) bool {
		return r < 0x80 && r != '_' && (r < '0' || r > '9') && (r < 'A' || r > 'Z') && (r < 'a' || r > 'z')
	}):
		return "'" + strings.ReplaceAll(c.Sheet, "'", "''") + "'!" + name
	}
	return c.Sheet + "!" + name
}

// ColumnName is the letters of a column that counts from 1: A, Z, AA.
func ColumnName(column int) string {
	var letters []byte
	for ; column > 0; column = (column - 1) / 26 {
		letters = append([]byte{'A' + byte((column-1)%26)}, letters...)
	}
	return string(letters)
}

// Table says which cell of a table each part of a text belongs to. The zero
// value has no cells.
type Table struct {
	// Workbook says that the text was drawn from a workbook, so that lines and
	// columns of it mean nothing to anybody: a place is then a row and a column
	// of its sheet.
	Workbook bool
	// Comma is the mark between the cells of a CSV text.
	Comma rune
	// Headings are the rows of headings, by their places; whoever reads the orders
	// of the table sets them.
	Headings []Range

	// End returns where the text of the cell ends that begins there; whoever reads the
	// table sets it.
	End func(begin int) int

	rows []placed
}

// A placed row is the places where the cells of a row begin, from the first cell on.
type placed struct {
	first  Cell
	begins []int
}

// Drawn reports whether f's text was drawn from a workbook.
func (f *File) Drawn() bool { return f.Table != nil && f.Table.Workbook }

// Grow makes room for n more rows.
func (t *Table) Grow(n int) { t.rows = slices.Grow(t.rows, n) }

// Add says where cells begin, from the first on along its row, none of them before those
// that were added so far.
func (t *Table) Add(first Cell, begins ...int) {
	if len(begins) > 0 {
		t.rows = append(t.rows, placed{first, begins})
	}
}

// Cell returns the cell that the text at offset belongs to: the last one that
// begins at or before it. It reports false where f is no table.
func (f *File) Cell(offset int) (Cell, bool) {
	c, _, ok := f.placed(offset)
	return c, ok
}

// CellRange returns where the text of the cell stands that the text at offset
// belongs to; the zero Range where f is no table.
func (f *File) CellRange(offset int) Range {
	_, begin, ok := f.placed(offset)
	if !ok {
		return Range{}
	}
	return Range{Start: begin, End: f.Table.End(begin)}
}

// HeadingsOver returns the row of headings that the text at offset stands under;
// the zero Range where there is none.
func (f *File) HeadingsOver(offset int) Range {
	if f.Table == nil {
		return Range{}
	}
	rows := f.Table.Headings
	i := sort.Search(len(rows), func(i int) bool { return rows[i].Start > offset }) - 1
	if i < 0 {
		return Range{}
	}
	return rows[i]
}

// placed returns the last cell that begins at or before offset, and where it does.
func (f *File) placed(offset int) (c Cell, begin int, ok bool) {
	if f.Table == nil {
		return Cell{}, 0, false
	}
	rows := f.Table.rows
	i := sort.Search(len(rows), func(i int) bool { return rows[i].begins[0] > offset }) - 1
	if i < 0 {
		return Cell{}, 0, false
	}
	k := sort.SearchInts(rows[i].begins, offset+1) - 1
	c = rows[i].first
	c.Column += k
	return c, rows[i].begins[k], true
}

// Place is what people call the place at offset: "line 12", or "cell F12" in a
// table.
func (f *File) Place(offset int) string {
	if c, ok := f.Cell(offset); ok {
		return "cell " + c.String()
	}
	return "line " + strconv.Itoa(f.Position(offset).Line)
}
