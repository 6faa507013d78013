package source

import (
	"strings"
	"testing"
)

// TestCellNames holds the names of cells against those that spreadsheets give.
func TestCellNames(t *testing.T) {
	for _, c := range []struct {
		cell Cell
		want string
	}{
		{Cell{Column: 6, Row: 12}, "F12"},
		{Cell{Sheet: "Orders", Column: 26, Row: 1}, "Orders!Z1"},
		{Cell{Sheet: "Bed rooms", Column: 27, Row: 2}, "'Bed rooms'!AA2"},
		{Cell{Sheet: "Ann's", Column: 702, Row: 3}, "'Ann''s'!ZZ3"},
		{Cell{Sheet: "Aufträge", Column: 703, Row: 1048576}, "Aufträge!AAA1048576"},
		{Cell{Column: 16384, Row: 1}, "XFD1"}, // the last column of ECMA-376's sheets
	} {
		if got := c.cell.String(); got != c.want {
			t.Errorf("%#v is called %s, not %s", c.cell, got, c.want)
		}
	}
}

// TestTablePlaces asks for the places of a text with and without cells.
func TestTablePlaces(t *testing.T) {
	f := &File{Text: "width,length\n60,78\n"}
	if got := f.Place(14); got != "line 2" {
		t.Errorf("without a table it is %s", got)
	}
	f.Table = &Table{End: func(begin int) int { return begin + strings.IndexAny(f.Text[begin:], ",\n") }}
	f.Table.Add(Cell{Column: 1, Row: 1}, 0, 6)
	f.Table.Add(Cell{Column: 1, Row: 2}, 13, 16)
	if got := f.CellRange(14); got != (Range{13, 15}) {
		t.Errorf("the cell's text is in %v", got)
	}
	for offset, want := range map[int]string{0: "cell A1", 6: "cell B1", 12: "cell B1", 14: "cell A2", 17: "cell B2"} {
		if got := f.Place(offset); got != want {
			t.Errorf("offset %d is in %s, not %s", offset, got, want)
		}
	}
	if got := f.Position(14); got != (Position{Line: 2, Column: 2}) {
		t.Errorf("in a CSV file the position is %v", got)
	}
	f.Table.Workbook = true
	if got := f.Position(17); got != (Position{Line: 2, Column: 2}) {
		t.Errorf("in a workbook the position is %v", got)
	}
}
