package cells

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"cutgate/internal/source"
)

// The most that a workbook may hold. An order has some hundreds of cells.
const (
	maxUnpacked = 64 << 20 // bytes, of all its parts
	maxRow      = 20_000   // the last row with something in it
	maxColumn   = 1_000
	maxCells    = 200_000
	maxSheets   = 500
)

// Draw lists the cells of a workbook, a line each: the cell's name, its text,
// and, where there is one, a remark. Of a workbook that can't be read, or is too
// large to be one of orders, the one line says why.
//
// A number is drawn as its cell shows it as far as that is a percentage, a
// fraction, a date or a truth, and else as it is. Line ends and tabs in a cell are
// drawn as spaces.
func Draw(workbook []byte) (text string) {
	defer func() { // the library was not written for workbooks that were made to break it
		if v := recover(); v != nil {
			text = refused("it is damaged; open it in a spreadsheet and save it again")
		}
	}()
	d := drawing{}
	if err := d.workbook(workbook); err != nil {
		return refused(err.Error())
	}
	return d.out.String()
}

// refused is the drawn text of a workbook that can't be read.
func refused(why string) string { return "\t\t" + flat(why) + "\n" }

// flat puts a text on one line.
func flat(text string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' || r == '\r' || r == '\t' {
			return ' '
		}
		return r
	}, text)
}

// open opens a workbook that is not too large, and of which no part is there twice.
func open(workbook []byte) (*excelize.File, error) {
	parts, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	switch {
	case bytes.HasPrefix(workbook, []byte("\xd0\xcf\x11\xe0")):
		return nil, errors.New("it has a password, or is older than .xlsx; save it as .xlsx without a password")
	case err != nil:
		return nil, errors.New("it is not an .xlsx workbook, or only part of one; save it again as .xlsx")
	}
	// A part that is longer than it says is an error of its own later on.
	size := uint64(0)
	names := make(map[string]bool, len(parts.File))
	for _, p := range parts.File {
		name := strings.ToLower(strings.TrimLeft(strings.ReplaceAll(p.Name, `\`, "/"), "/"))
		if names[name] && !strings.HasSuffix(name, "/") { // programs differ in which they show
			return nil, fmt.Errorf("it has two parts called %s; save it again as .xlsx", source.Show(p.Name))
		}
		names[name] = true
		if size += p.UncompressedSize64; p.UncompressedSize64 > maxUnpacked || size > maxUnpacked {
			return nil, fmt.Errorf("unpacked it is larger than %d MB; put the orders in a workbook of their own", maxUnpacked>>20)
		}
	}
	sheets := 0
	for _, p := range parts.File {
		if strings.HasPrefix(p.Name, "xl/worksheets/") {
			sheets++
		}
	}
	if sheets > maxSheets {
		return nil, fmt.Errorf("it has more than %d sheets; put the orders in a workbook of their own", maxSheets)
	}
	if err := tooMuch(parts); err != nil {
		return nil, err
	}
	f, err := excelize.OpenReader(bytes.NewReader(workbook), excelize.Options{UnzipSizeLimit: maxUnpacked, UnzipXMLSizeLimit: maxUnpacked})
	if err != nil {
		return nil, fmt.Errorf("it is not an .xlsx workbook that can be opened (%w); save it again as .xlsx", err)
	}
	return f, nil
}

// A drawing is a workbook that is being drawn.
type drawing struct {
	file   *excelize.File
	out    strings.Builder
	cells  int
	styles styles
	since  bool // days count from 1904
}

func (d *drawing) workbook(workbook []byte) (err error) {
	if d.file, err = open(workbook); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.file.Close()) }()
	d.styles.file = d.file
	if props, err := d.file.GetWorkbookProps(); err == nil && props.Date1904 != nil {
		d.since = *props.Date1904
	}
	for _, name := range d.file.GetSheetList() {
		if err := d.sheet(name); err != nil {
			return err
		}
	}
	return nil
}

// sheet draws a sheet. Its size is found first, as the library unpacks it row by
// row: whatever asks for a cell afterwards holds all of it.
func (d *drawing) sheet(name string) error {
	filled, err := d.rows(name)
	if err != nil {
		return err
	}
	if len(filled) == 0 {
		return nil
	}
	merged, err := d.merged(name)
	if err != nil {
		return err
	}
	width := 0
	for _, r := range filled {
		width = max(width, len(r.texts))
	}
	if d.cells += width * len(filled); d.cells > maxCells {
		return fmt.Errorf("it has more than %d cells; put the orders in a workbook of their own", maxCells)
	}
	for _, r := range filled {
		for i := range width {
			at := source.Cell{Sheet: name, Column: i + 1, Row: r.number}
			raw := ""
			if i < len(r.texts) {
				raw = r.texts[i]
			}
			if err := d.cell(at, raw, merged); err != nil {
				return err
			}
		}
	}
	return nil
}

// A filled row is one that has something in it.
type filled struct {
	number int
	texts  []string // raw
}

// rows returns the rows of a sheet that have something in them.
func (d *drawing) rows(name string) (list []filled, err error) {
	rows, err := d.file.Rows(name)
	if err != nil {
		return nil, nil // a sheet of another kind, as a chart
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	for number := 1; rows.Next(); number++ {
		texts, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return nil, fmt.Errorf("its sheet %s is damaged at row %d: %w", name, number, err)
		}
		for len(texts) > 0 && strings.TrimSpace(texts[len(texts)-1]) == "" {
			texts = texts[:len(texts)-1]
		}
		if len(texts) == 0 {
			continue
		}
		if number > maxRow || len(texts) > maxColumn {
			return nil, fmt.Errorf("its sheet %s goes beyond row %d or column %s; put the orders in a sheet of their own",
				name, maxRow, source.ColumnName(maxColumn))
		}
		list = append(list, filled{number, texts})
	}
	if err := rows.Error(); err != nil {
		return nil, fmt.Errorf("its sheet %s is damaged: %w", name, err)
	}
	return list, nil
}

// merged returns the cells that others were merged into, with all of them.
func (d *drawing) merged(name string) (map[string]string, error) {
	list, err := d.file.GetMergeCells(name, true)
	if err != nil {
		return nil, fmt.Errorf("its sheet %s is damaged: %w", name, err)
	}
	first := make(map[string]string, len(list))
	for _, m := range list {
		first[m.GetStartAxis()] = m.GetStartAxis() + ":" + m.GetEndAxis()
	}
	return first, nil
}

// cell draws a cell.
func (d *drawing) cell(at source.Cell, raw string, merged map[string]string) error {
	name := source.Cell{Column: at.Column, Row: at.Row}.String()
	text, remark, detail := raw, Plain, merged[name]
	if detail != "" {
		remark = Merged
	}
	formula, err := d.file.GetCellFormula(at.Sheet, name)
	if err != nil {
		return fmt.Errorf("its cell %s is damaged: %w", at, err)
	}
	if formula != "" { // also where it gives an empty text
		remark, detail = Formula, formula
	}
	if raw != "" || formula != "" {
		kind, err := d.file.GetCellType(at.Sheet, name)
		if err != nil {
			return fmt.Errorf("its cell %s is damaged: %w", at, err)
		}
		if raw == "" && kind != excelize.CellTypeFormula { // which it has where the value is an empty text
			remark = Valueless
		}
		switch kind {
		case excelize.CellTypeBool:
			text = strconv.FormatBool(raw == "1" || strings.EqualFold(raw, "true"))
		case excelize.CellTypeDate:
			text = dateOf(raw)
		case excelize.CellTypeNumber, excelize.CellTypeUnset:
			if raw == "" {
				break
			}
			how, err := d.styles.of(at.Sheet, name)
			if err != nil {
				return fmt.Errorf("its cell %s is damaged: %w", at, err)
			}
			text = shown(raw, how, d.since)
		}
	}
	d.out.WriteString(at.String() + "\t" + flat(text))
	if remark != Plain {
		d.out.WriteString("\t" + strings.TrimSpace(remarkWords[remark]+" "+flat(detail)))
	}
	d.out.WriteByte('\n')
	return nil
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

// Drawn reads a drawn text. With a fault there are no sheets.
func Drawn(text string) ([]Sheet, *Fault) {
	var sheets []Sheet
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
			return nil, &Fault{At: source.Range{Start: start, End: start + len(body)}, Detail: "it is not a list of a workbook's cells"}
		}
		c := Cell{Column: at.Column, At: trim(text, source.Range{Start: start + len(name) + 1, End: start + len(name) + 1 + len(value)})}
		c.Text, c.Start = text[c.At.Start:c.At.End], c.At.Start
		word, detail, _ := strings.Cut(remark, " ")
		for i, w := range remarkWords {
			if w == word {
				c.Remark, c.Detail = Remark(i), detail
			}
		}
		if n := len(sheets); n == 0 || sheets[n-1].Name != at.Sheet {
			sheets = append(sheets, Sheet{Name: at.Sheet})
		}
		s := &sheets[len(sheets)-1]
		if n := len(s.Rows); n == 0 || s.Rows[n-1].Number != at.Row {
			s.Rows = append(s.Rows, Row{Number: at.Row})
		}
		r := &s.Rows[len(s.Rows)-1]
		r.Cells = append(r.Cells, c)
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
	column, row, err := excelize.CellNameToCoordinates(name[i+1:])
	return source.Cell{Sheet: sheet, Column: column, Row: row}, err == nil
}

// cover gives the cells that others were merged over their remark.
func cover(s *Sheet) {
	for i := range s.Rows {
		for _, c := range s.Rows[i].Cells {
			if c.Remark != Merged || c.Text == "" {
				continue
			}
			_, last, _ := strings.Cut(c.Detail, ":")
			right, bottom, err := excelize.CellNameToCoordinates(last)
			if err != nil {
				continue
			}
			for k := i; k < len(s.Rows) && s.Rows[k].Number <= bottom; k++ {
				for m := range s.Rows[k].Cells {
					under := &s.Rows[k].Cells[m]
					if c.Column <= under.Column && under.Column <= right && (k > i || under.Column > c.Column) {
						under.Remark = Covered
					}
				}
			}
		}
	}
}

// OneColumn reports whether merged cells, as B2:B5, are in one column.
func OneColumn(merged string) bool {
	first, last, _ := strings.Cut(merged, ":")
	a, _, err1 := excelize.CellNameToCoordinates(first)
	b, _, err2 := excelize.CellNameToCoordinates(last)
	return err1 == nil && err2 == nil && a == b
}
