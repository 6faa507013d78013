package cells

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/source"
)

// Rewrite writes into a workbook what differs between the text that was drawn
// from it and another. All else stays to the byte, except that formulas are worked out
// anew when the workbook is next opened, as they may use what was written. A cell
// that held a number still does where its new text is one.
func Rewrite(workbook []byte, was, now string) (out []byte, err error) {
	defer func() {
		if err != nil {
			out, err = nil, fmt.Errorf("writing the workbook: %w", err)
		}
	}()
	before, fault := Drawn(was)
	if fault != nil {
		return nil, fault
	}
	after, fault := Drawn(now)
	if fault != nil {
		return nil, fault
	}
	b, err := open(workbook)
	if err != nil {
		return nil, err
	}
	edits, same := differences(before, after)
	if !same {
		return nil, errors.New("its cells are not those that it had")
	}
	edited := map[string]string{} // parts
	for i := range b.sheets {
		sheet := &b.sheets[i]
		if edits[sheet.name] == nil {
			continue
		}
		if edited[partName(sheet.part)], err = b.editSheet(sheet, edits[sheet.name]); err != nil {
			return nil, err
		}
	}
	if edited[partName(b.name)], err = b.recalculate(); err != nil {
		return nil, err
	}
	if out, err = b.with(edited); err != nil {
		return nil, err
	}
	written, fault := Drawn(Draw(out))
	if left, same := differences(written, after); fault != nil || !same || len(left) > 0 {
		return nil, errors.New("afterwards it would not say what it should")
	}
	return out, nil
}

// An edit is a new text for a cell.
type edit struct {
	row, column int
	text        string
}

// differences lists what differs between two drawings, by sheets, and reports whether
// they have the same cells.
func differences(before, after []Sheet) (list map[string][]edit, same bool) {
	list = map[string][]edit{}
	same = slices.EqualFunc(before, after, func(was, now Sheet) bool {
		return was.Name == now.Name && slices.EqualFunc(was.Rows, now.Rows, func(r, s Row) bool {
			for column := 1; column <= r.Width(); column++ {
				if text := s.Text(column); text != r.Text(column) {
					list[was.Name] = append(list[was.Name], edit{r.Number, column, text})
				}
			}
			return r.Number == s.Number && r.Width() == s.Width()
		})
	})
	return list, same
}

// with returns the workbook with other texts for some of its parts.
func (b *book) with(edited map[string]string) ([]byte, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, p := range b.zip.File {
		text, changed := edited[partName(p.Name)]
		if !changed {
			if err := z.Copy(p); err != nil {
				return nil, err
			}
			continue
		}
		w, err := z.CreateHeader(&zip.FileHeader{Name: p.Name, Method: zip.Deflate, Modified: p.Modified})
		if err != nil {
			return nil, err
		}
		if _, err := io.WriteString(w, text); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// A splicer makes a text anew, with other texts for parts of it, which come in
// their order.
type splicer struct {
	text string
	at   int // up to where it is made
	out  strings.Builder
}

func (s *splicer) splice(from, to int, text string) {
	s.out.WriteString(s.text[s.at:from] + text)
	s.at = to
}

func (s *splicer) String() string { return s.out.String() + s.text[s.at:] }

// editSheet returns the part of a sheet with other texts in some of its cells, which
// are in the order of the sheet.
func (b *book) editSheet(sheet *sheetPart, edits []edit) (string, error) {
	s, err := b.scanSheet(sheet)
	if err != nil {
		return "", err
	}
	out := splicer{text: s.text}
	styles := []int{0} // of cells that are not there, by their columns
	for {
		e := s.step()
		switch e {
		case someColumns:
			for c := s.columns; len(styles) <= min(c.last, maxColumn); {
				style := 0
				if len(styles) >= c.first {
					style = c.style
				}
				styles = append(styles, style)
			}
		case aCell, rowEnd:
			for len(edits) > 0 && edits[0].row == s.row && (e == rowEnd || edits[0].column < s.cell.column) {
				missing := stored{column: edits[0].column, style: s.styleOf(edits[0].column, styles)}
				out.splice(s.from, s.from, s.write(&missing, edits[0].text))
				edits = edits[1:]
			}
			if e == rowEnd || len(edits) == 0 || edits[0].row != s.row || edits[0].column != s.cell.column {
				continue
			}
			if s.cell.formula != "" || s.cell.shared != "" {
				return "", damaged("the formula of its cell " + source.Cell{Sheet: sheet.name, Column: s.cell.column, Row: s.row}.String())
			}
			out.splice(s.from, s.end, s.write(&s.cell, edits[0].text))
			edits = edits[1:]
		case sheetEnd:
			return out.String(), s.fault
		}
	}
}

// A columnStyle is the style that some columns give to cells which are not there.
type columnStyle struct{ first, last, style int }

// styleOf is the style that a cell of the row has which is not there, with those that
// the columns give.
func (s *sheetScanner) styleOf(column int, styles []int) int {
	if s.rowStyle == 0 && column < len(styles) {
		return styles[column]
	}
	return s.rowStyle
}

// write returns a cell of the row with another text in it: as a number where the
// cell shows numbers and would show this one so.
func (s *sheetScanner) write(c *stored, text string) string {
	p := s.prefix
	head := fmt.Sprintf(`<%sc r="%s" s="%d"`, p, source.Cell{Column: c.column, Row: s.row}, c.style)
	number, ok := unshown(text, s.book.styled(c.style))
	switch {
	case c.kind == "b" && text == "true":
		return head + fmt.Sprintf(` t="b"><%sv>1</%[1]sv></%[1]sc>`, p)
	case c.kind == "b" && text == "false":
		return head + fmt.Sprintf(` t="b"><%sv>0</%[1]sv></%[1]sc>`, p)
	case ok && c.number():
		return head + fmt.Sprintf(`><%sv>%s</%[1]sv></%[1]sc>`, p, strconv.FormatFloat(number, 'f', -1, 64))
	}
	return head + fmt.Sprintf(` t="inlineStr"><%sis><%[1]st xml:space="preserve">%s</%[1]st></%[1]sis></%[1]sc>`, p, escape(text))
}

// beforeCalcPr are the elements of a workbook that may stand before calcPr, by ECMA-376
// part 1, 18.2.27.
var beforeCalcPr = []string{"fileVersion", "fileSharing", "workbookPr", "workbookProtection", "bookViews", "sheets",
	"functionGroups", "externalReferences", "definedNames"}

// recalculate returns the part that lists the sheets, with the setting that formulas are
// worked out when the workbook is next opened.
func (b *book) recalculate() (string, error) {
	text, err := b.part(b.name)
	if err != nil {
		return "", err
	}
	const anew = ` fullCalcOnLoad="1"`
	s := newScanner(text)
	out := splicer{text: text}
	after, prefix := 0, ""
	for s.next() {
		switch {
		case s.is("calcPr"):
			name := s.start + 1 + len(s.open[1].qualified)
			out.splice(name, name, anew)
			for _, a := range s.attributes {
				if a.name == "fullCalcOnLoad" {
					out.splice(a.start-1, a.end, "") // with the space before it
				}
			}
			return out.String(), nil
		case s.kind == closing && len(s.open) == 1 && slices.Contains(beforeCalcPr, s.name):
			after, prefix = s.end, strings.TrimSuffix(s.open[0].qualified, "workbook")
		}
	}
	out.splice(after, after, "<"+prefix+"calcPr"+anew+"/>")
	return out.String(), nil
}
