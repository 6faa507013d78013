package cells

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"cutgate/internal/source"
)

// Commas are the marks that may stand between the cells of a CSV text: the
// comma, and what spreadsheets write where the comma is the decimal mark.
func Commas() []rune { return []rune{',', ';', '\t'} }

// CSV reads a text as RFC 4180 has it, with the given mark between cells. Base
// is where the text lies in its file. Rows are counted as a spreadsheet counts
// them: a quoted cell of several lines is in one row, and an empty line is a row.
// Where no line ends with LF, CR ends them, as old spreadsheets write it. With a
// fault, the rows before it are returned too.
func CSV(text string, base int, comma rune) (Sheet, *Fault) {
	if !strings.Contains(text, "\n") {
		text = strings.ReplaceAll(text, "\r", "\n")
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.TrimLeadingSpace, r.ReuseRecord = comma, -1, comma != '\t', true
	lines := &source.File{Text: text}
	s := Sheet{Comma: comma, text: func(begin int) source.Range {
		at := csvCell(text, begin-base, comma)
		return source.Range{Start: base + at.Start, End: base + at.End}
	}}
	number, end := 0, 0 // of the last row
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			return s, nil
		}
		if err != nil {
			fault := csvFault(err, lines, base)
			fault.Cell = cellAt(text[end:fault.At.Start-base], comma)
			fault.Cell.Row += number
			return s, fault
		}
		line, column := r.FieldPos(0)
		start := lines.OffsetBytes(line, column)
		if last := lastText(record); last > maxColumn {
			return s, &Fault{At: source.Range{Start: base + start, End: base + start}, Detail: fmt.Sprintf("a row has something in more than %d columns", maxColumn)}
		}
		number += 1 + strings.Count(text[end:start], "\n") // those of empty lines
		row := Row{Number: number, Cells: make([]Cell, 0, filledOf(record)), begins: make([]int, len(record)), text: s.text}
		for i, field := range record {
			line, column := r.FieldPos(i)
			row.begins[i] = base + lines.OffsetBytes(line, column)
			if field == "" {
				continue
			}
			at := s.text(row.begins[i])
			row.Cells = append(row.Cells, Cell{Column: i + 1, Text: strings.ReplaceAll(text[at.Start-base:at.End-base], `""`, `"`), At: at})
		}
		s.Rows = append(s.Rows, row)
		end = int(r.InputOffset())
	}
}

// lastText is the number of the last cell of a row that has something in it.
func lastText(record []string) int {
	n := len(record)
	for n > 0 && strings.TrimSpace(record[n-1]) == "" {
		n--
	}
	return n
}

// filledOf is how many fields of a record have something in them.
func filledOf(record []string) (n int) {
	for _, field := range record {
		if field != "" {
			n++
		}
	}
	return n
}

// csvCell returns where the text of the cell stands that begins there. The text is known to
// be right.
func csvCell(text string, begin int, comma rune) source.Range {
	start, end := begin, begin
	if strings.HasPrefix(text[start:], `"`) {
		start++
		end = start
		for end < len(text) && (text[end] != '"' || strings.HasPrefix(text[end+1:], `"`)) {
			if text[end] == '"' {
				end++
			}
			end++
		}
	} else {
		for end < len(text) && text[end] != byte(comma) && text[end] != '\n' {
			end++
		}
	}
	end = min(end, len(text))
	if end > start && text[end-1] == '\r' && (end == len(text) || text[end] == '\n') { // of the line's end, not of an empty cell
		end--
	}
	return trim(text, source.Range{Start: start, End: end})
}

// trim takes the white space off both ends of a range.
func trim(text string, at source.Range) source.Range {
	for at.Start < at.End {
		r, size := utf8.DecodeRuneInString(text[at.Start:at.End])
		if !unicode.IsSpace(r) {
			break
		}
		at.Start += size
	}
	for at.Start < at.End {
		r, size := utf8.DecodeLastRuneInString(text[at.Start:at.End])
		if !unicode.IsSpace(r) {
			break
		}
		at.End -= size
	}
	return at
}

// cellAt is the cell that a text leads to, counted from the row it begins with.
func cellAt(text string, comma rune) source.Cell {
	at := source.Cell{Column: 1, Row: 1}
	quoted := false
	for _, r := range text {
		switch {
		case r == '"':
			quoted = !quoted
		case quoted:
		case r == '\n':
			at = source.Cell{Column: 1, Row: at.Row + 1}
		case r == comma:
			at.Column++
		}
	}
	return at
}

func csvFault(err error, lines *source.File, base int) *Fault {
	var bad *csv.ParseError
	if !errors.As(err, &bad) {
		return &Fault{At: source.Range{Start: base, End: base}, Detail: err.Error()}
	}
	at := lines.OffsetBytes(bad.Line, bad.Column)
	detail := "there is a quote mark inside a cell; put the whole cell in quote marks and double the one inside"
	if errors.Is(bad.Err, csv.ErrQuote) && (bad.Line != bad.StartLine || at == len(lines.Text)) {
		at = lines.OffsetBytes(bad.StartLine, 1)
		detail = "a quote mark that begins in this row is not closed"
	}
	_, size := utf8.DecodeRuneInString(lines.Text[at:])
	return &Fault{At: source.Range{Start: base + at, End: base + at + size}, Detail: detail}
}
