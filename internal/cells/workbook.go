package cells

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"cutgate/internal/source"
)

// Draw lists the cells of a workbook, a line each: the cell's name, its text,
// and, where there is one, a remark. Of a workbook that can't be read, or is too
// large to be one of orders, the one line says why.
//
// A number is drawn as its cell shows it where that is a percentage, a fraction, a
// date, or true or false, and otherwise as it is. Line ends and tabs in a cell are drawn
// as spaces.
func Draw(workbook []byte) string {
	b, err := open(workbook)
	d := drawing{book: b}
	for i := 0; err == nil && i < len(b.sheets); i++ {
		err = d.sheet(&b.sheets[i])
	}
	if err != nil {
		return "\t\t" + flat(err.Error()) + "\n"
	}
	return d.out.String()
}

var spaces = strings.NewReplacer("\n", " ", "\r", " ", "\t", " ")

// flat puts a text on one line.
func flat(text string) string { return spaces.Replace(text) }

// A drawing is a workbook that is being drawn.
type drawing struct {
	*book
	out   strings.Builder
	cells int
	names []string // of columns
}

// A filled row is one that has something in it.
type filled struct {
	number int
	cells  []stored // those with a value or a formula
}

// A table is what a sheet holds.
type table struct {
	rows   []filled
	width  int
	shared map[string]shared
	merged map[source.Cell]string // the cells that others were merged into, with all of them
}

// sheet draws a sheet.
func (d *drawing) sheet(sheet *sheetPart) error {
	t, err := d.read(sheet)
	if err != nil {
		return err
	}
	d.cells += t.width * len(t.rows)
	for len(d.names) <= t.width {
		d.names = append(d.names, source.ColumnName(len(d.names)))
	}
	prefix := strings.TrimSuffix(source.Cell{Sheet: sheet.name}.String(), "0")
	for _, r := range t.rows {
		for column := 1; column <= t.width; column++ {
			c := stored{column: column}
			if len(r.cells) > 0 && r.cells[0].column == column {
				c, r.cells = r.cells[0], r.cells[1:]
			}
			if d.out.Len()+len(c.value)+len(t.shared[c.shared].formula) > maxUnpacked {
				return tooLarge()
			}
			for _, s := range [...]string{prefix, d.names[column], strconv.Itoa(r.number), "\t"} {
				d.out.WriteString(s)
			}
			d.cell(&c, r.number, t)
		}
	}
	return nil
}

// read reads a sheet.
func (d *drawing) read(sheet *sheetPart) (*table, error) {
	s, err := d.scanSheet(sheet)
	if err != nil {
		return nil, err
	}
	t := &table{shared: map[string]shared{}, merged: map[source.Cell]string{}}
	var row []stored
	held := 0
	for {
		switch s.step() {
		case aCell:
			c := &s.cell
			if _, found := t.shared[c.shared]; c.shared != "" && c.formula != "" && !found {
				t.shared[c.shared] = shared{c.formula, c.column, s.row}
			}
			if c.value != "" || c.formula != "" || c.shared != "" {
				row = append(row, *c)
			}
		case rowEnd:
			width := lastFilled(row)
			for i := range row {
				if row[i].column > width {
					row[i].value = "" // no more than space
				}
			}
			if width > 0 {
				if s.row > maxRow || width > maxColumn {
					return nil, fmt.Errorf("its sheet %s goes beyond row %d or column %s; put the orders in a sheet of their own",
						sheet.name, maxRow, source.ColumnName(maxColumn))
				}
				t.rows = append(t.rows, filled{s.row, slices.Clone(row)})
				t.width = max(t.width, width)
				held += len(row)
			}
			row = row[:0]
		case aMerge:
			t.merge(s.merge)
		case sheetEnd:
			return t, s.fault
		}
		if held+len(t.shared) > maxCells || d.cells+t.width*len(t.rows) > maxCells {
			return nil, tooMany(maxCells, "cells")
		}
	}
}

// lastFilled is the column of the last cell of a row that has a text; 0 for none.
func lastFilled(row []stored) int {
	for i := len(row) - 1; i >= 0; i-- {
		if strings.TrimSpace(row[i].value) != "" {
			return row[i].column
		}
	}
	return 0
}

// merge notes cells that were merged, as B4:C5, if the first is drawn.
func (t *table) merge(cells string) {
	a, b, ok := corners(cells)
	_, drawn := slices.BinarySearchFunc(t.rows, a.Row, func(r filled, row int) int { return r.number - row })
	if ok && drawn && a.Column <= t.width {
		t.merged[a] = a.String() + ":" + b.String()
	}
}

// cell draws a cell, whose name stands there.
func (d *drawing) cell(c *stored, row int, t *table) {
	text, remark, detail := c.value, Plain, t.merged[source.Cell{Column: c.column, Row: row}]
	if detail != "" {
		remark = Merged
	}
	formula := c.formula
	if from, ok := t.shared[c.shared]; ok {
		formula = from.at(c.column, row)
	}
	if formula != "" { // also where it gives an empty text
		remark, detail = Formula, formula
		if text == "" && c.kind != "str" { // which it has where the value is an empty text
			remark = Valueless
		}
	}
	switch {
	case text == "" && formula == "":
	case c.kind == "b":
		text = strconv.FormatBool(truth(text))
	case c.kind == "d":
		text = dateOf(text)
	case c.number() && text != "":
		text = shown(text, d.styled(c.style), d.from1904)
	}
	d.out.WriteString(flat(text))
	if remark != Plain {
		d.out.WriteString("\t" + strings.TrimSpace(remarkWords[remark]+" "+flat(detail)))
	}
	d.out.WriteByte('\n')
}

// dateOf reads a date that the workbook has as ISO 8601 has it. Anything else stays
// as it is.
func dateOf(raw string) string {
	day, _, _ := strings.Cut(raw, "T")
	if _, err := time.Parse(time.DateOnly, day); err != nil {
		return raw
	}
	return day
}

const notDrawn = "it is not a list of a workbook's cells"

// Drawn reads a drawn text. With a fault there are no sheets.
func Drawn(text string) ([]Sheet, *Fault) {
	var sheets []Sheet
	stands := func(begin int) source.Range {
		n := strings.IndexAny(text[begin:], "\t\n")
		if n < 0 {
			n = len(text) - begin
		}
		return trim(text, source.Range{Start: begin, End: begin + n})
	}
	start := 0
	for line := range strings.Lines(text) {
		body := strings.TrimSuffix(line, "\n")
		name, rest, ok := strings.Cut(body, "\t")
		value, remark, _ := strings.Cut(rest, "\t")
		if name == "" && remark != "" {
			return nil, &Fault{At: source.Range{}, Detail: remark}
		}
		at, valid := parseCell(name)
		if !ok || !valid {
			return nil, &Fault{At: source.Range{Start: start, End: start + len(body)}, Detail: notDrawn}
		}
		if n := len(sheets); n == 0 || sheets[n-1].Name != at.Sheet {
			sheets = append(sheets, Sheet{Name: at.Sheet, text: stands})
		}
		s := &sheets[len(sheets)-1]
		if n := len(s.Rows); n == 0 || s.Rows[n-1].Number != at.Row || at.Column == 1 {
			s.Rows = append(s.Rows, Row{Number: at.Row, text: stands})
		}
		r := &s.Rows[len(s.Rows)-1]
		if at.Column != len(r.begins)+1 {
			return nil, &Fault{At: source.Range{Start: start, End: start + len(body)}, Detail: notDrawn}
		}
		c := Cell{Column: at.Column, At: trim(text, source.Range{Start: start + len(name) + 1, End: start + len(name) + 1 + len(value)})}
		r.begins = append(r.begins, c.At.Start)
		word, detail, _ := strings.Cut(remark, " ")
		c.Text, c.Remark, c.Detail = text[c.At.Start:c.At.End], Remark(max(0, slices.Index(remarkWords[:], word))), detail
		if c.Text != "" || c.Remark != Plain {
			r.Cells = append(r.Cells, c)
		}
		start += len(line)
	}
	for i := range sheets {
		cover(&sheets[i])
	}
	return sheets, nil
}

// parseCell reads what [source.Cell.String] writes, with a sheet.
func parseCell(name string) (source.Cell, bool) {
	i := strings.LastIndexByte(name, '!')
	if i < 1 {
		return source.Cell{}, false
	}
	sheet := name[:i]
	if n := len(sheet); n > 2 && sheet[0] == '\'' && sheet[n-1] == '\'' {
		sheet = strings.ReplaceAll(sheet[1:n-1], "''", "'")
	}
	column, row, ok := coordinates(name[i+1:])
	return source.Cell{Sheet: sheet, Column: column, Row: row}, ok
}

// coordinates reads the name of a cell, as F12.
func coordinates(name string) (column, row int, ok bool) {
	i := 0
	for ; i < len(name); i++ {
		letter := name[i] | 0x20
		if letter < 'a' || letter > 'z' {
			break
		}
		if column = column*26 + int(letter-'a') + 1; column > lastColumn {
			return 0, 0, false
		}
	}
	row64, err := strconv.ParseUint(name[i:], 10, 32)
	row = int(row64)
	return column, row, err == nil && column > 0 && row > 0 && row <= lastRow
}

// cover gives the cells that others were merged over their remark.
func cover(s *Sheet) {
	under := make(map[int][]Cell) // rows that others may be merged over, with all of their cells
	all := func(k int) []Cell {
		list := under[k]
		for n := len(list) + 1; n <= s.Rows[k].Width(); n++ {
			list = append(list, *s.Rows[k].Cell(n))
		}
		under[k] = list
		return list
	}
	for i := range s.Rows {
		for n := range s.Rows[i].Cells {
			c := &s.Rows[i].Cells[n]
			if c.Remark != Merged || c.Text == "" || under[i] != nil && under[i][c.Column-1].Remark == Covered {
				continue
			}
			_, last, _ := corners(c.Detail)
			for k := i; k < len(s.Rows) && s.Rows[k].Number <= last.Row; k++ {
				row := all(k)
				for m := c.Column - 1; m < min(last.Column, len(row)); m++ {
					if k > i || m >= c.Column {
						row[m].Remark = Covered
					}
				}
			}
		}
	}
	for k, row := range under {
		s.Rows[k].Cells = slices.DeleteFunc(row, func(c Cell) bool { return c.Text == "" && c.Remark == Plain })
	}
}

// OneColumn reports whether merged cells, as B2:B5, are in one column.
func OneColumn(merged string) bool {
	first, last, ok := corners(merged)
	return ok && first.Column == last.Column
}

// corners are the first and the last of merged cells, as B2:B5.
func corners(merged string) (first, last source.Cell, ok bool) {
	one, other, _ := strings.Cut(merged, ":")
	left, top, ok1 := coordinates(one)
	right, bottom, ok2 := coordinates(other)
	return source.Cell{Column: min(left, right), Row: min(top, bottom)}, source.Cell{Column: max(left, right), Row: max(top, bottom)}, ok1 && ok2
}
