package cells

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"cutgate/internal/source"
)

// A Page is a sheet to be filled in.
type Page struct {
	Name     string
	Title    string // a row above the headings
	Headings []Heading
	Rows     [][]string
}

// A Heading is the head of a column.
type Heading struct {
	Text  string
	Note  string   // what to write under it; "" for none
	Words []string // the words that may stand under it; nil for any text
}

// WriteCSV writes the pages below each other, with an empty row between. CSV has
// no notes.
func WriteCSV(w io.Writer, pages []Page) error {
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	for i, p := range pages {
		if i > 0 {
			b.WriteByte('\n')
		}
		var rows [][]string
		if p.Title != "" {
			rows = append(rows, []string{p.Title})
		}
		var heads []string
		for _, h := range p.Headings {
			heads = append(heads, h.Text)
		}
		if err := out.WriteAll(slices.Concat(rows, [][]string{heads}, p.Rows)); err != nil {
			return fmt.Errorf("writing a table: %w", err)
		}
	}
	if _, err := b.WriteTo(w); err != nil {
		return fmt.Errorf("writing a table: %w", err)
	}
	return nil
}

// toFill is how many rows of a page are made ready to be filled in.
const toFill = 200

// WriteWorkbook writes the pages as the sheets of a workbook. All its cells are
// text, so that no spreadsheet makes a date of 3/8; notes are comments on the
// headings, and words are offered for choice.
func WriteWorkbook(w io.Writer, pages []Page) (err error) {
	f := excelize.NewFile()
	defer func() {
		if closed := f.Close(); err == nil {
			err = closed
		}
	}()
	first := f.GetSheetName(0)
	for i, p := range pages {
		var err error
		if i == 0 {
			err = f.SetSheetName(first, p.Name)
		} else {
			_, err = f.NewSheet(p.Name)
		}
		if err == nil {
			err = writePage(f, &p)
		}
		if err != nil {
			return fmt.Errorf("writing the sheet %s: %w", p.Name, err)
		}
	}
	if err := f.Write(w); err != nil {
		return fmt.Errorf("writing a workbook: %w", err)
	}
	return nil
}

// The widths of a column, in characters.
const (
	narrowest = 9
	widest    = 24
)

func writePage(f *excelize.File, p *Page) error {
	text, err := f.NewStyle(&excelize.Style{NumFmt: 49})
	if err != nil {
		return err
	}
	font, err := f.GetDefaultFont()
	if err != nil {
		return err
	}
	head, err := f.NewStyle(&excelize.Style{
		NumFmt: 49, Font: &excelize.Font{Bold: true, Family: font}, Alignment: &excelize.Alignment{WrapText: true, Vertical: "bottom"},
		Border: []excelize.Border{{Type: "bottom", Style: 2, Color: "444444"}},
	})
	if err != nil {
		return err
	}
	last := source.ColumnName(len(p.Headings))
	if err := f.SetColStyle(p.Name, "A:"+last, text); err != nil {
		return err
	}
	if err := f.SetCellStr(p.Name, "A1", p.Title); err != nil {
		return err
	}
	if err := f.SetCellStyle(p.Name, "A2", last+"2", head); err != nil {
		return err
	}
	for i, h := range p.Headings {
		if err := writeColumn(f, p, i, &h); err != nil {
			return err
		}
	}
	return f.SetPanes(p.Name, &excelize.Panes{Freeze: true, YSplit: 2, TopLeftCell: "A3", ActivePane: "bottomLeft"})
}

// writeColumn writes the i-th column of a page, below its title.
func writeColumn(f *excelize.File, p *Page, i int, h *Heading) error {
	column := source.ColumnName(i + 1)
	if err := f.SetCellStr(p.Name, column+"2", h.Text); err != nil {
		return err
	}
	width := 0
	for r, row := range p.Rows {
		width = max(width, utf8.RuneCountInString(row[i])+2)
		if row[i] == "" {
			continue
		}
		if err := f.SetCellStr(p.Name, source.Cell{Column: i + 1, Row: r + 3}.String(), row[i]); err != nil {
			return err
		}
	}
	if err := f.SetColWidth(p.Name, column, column, float64(min(max(width, narrowest), widest))); err != nil {
		return err
	}
	if h.Note != "" {
		note := excelize.Comment{Author: "cutgate", Cell: column + "2", Paragraph: []excelize.RichTextRun{{Text: h.Note}}}
		if err := f.AddComment(p.Name, note); err != nil {
			return err
		}
	}
	if h.Words == nil {
		return nil
	}
	choice := excelize.NewDataValidation(true)
	choice.SetSqref(fmt.Sprintf("%s3:%s%d", column, column, toFill))
	if err := choice.SetDropList(h.Words); err != nil {
		return nil // more words than a workbook has room for: they can still be typed
	}
	return f.AddDataValidation(p.Name, choice)
}
