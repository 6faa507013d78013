package cells

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"cutgate/internal/source"
)

// The most that a workbook may hold. An order has some hundreds of cells.
const (
	maxRow    = 20_000 // the last row with something in it
	maxColumn = 1_000
	maxSheets = 500
)

// The same, but that a test lowers these.
var (
	maxUnpacked = 64 << 20 // bytes, of all its parts, and of the text that is drawn from it
	maxCells    = 200_000
	maxTexts    = 1_500_000 // that its cells share
)

// The most rows and columns that any workbook has.
const (
	lastRow    = 1 << 20
	lastColumn = 1 << 14
)

var errNone = errors.New("it is not an .xlsx workbook, or only part of one; save it again as .xlsx")

// tooMany says that a workbook has more of something than it may have.
func tooMany(most int, what string) error {
	return fmt.Errorf("it has more than %d %s; put the orders in a workbook of their own", most, what)
}

// tooLarge says that a workbook, or what is drawn from it, takes too many bytes.
func tooLarge() error {
	return fmt.Errorf("unpacked it is larger than %d MB; put the orders in a workbook of their own", maxUnpacked>>20)
}

// damaged says that something of a workbook can't be read.
func damaged(what string) error {
	return fmt.Errorf("%s is damaged; open it in a spreadsheet and save it again", what)
}

// A book is a workbook that is open.
type book struct {
	zip      *zip.Reader
	parts    map[string]*zip.File // by their names as partName has them
	name     string               // of the part that lists the sheets
	sheets   []sheetPart
	texts    []string // that cells share
	shows    []shows  // by styles
	from1904 bool     // days count from 1904
}

// A sheetPart is a sheet and the part that holds it.
type sheetPart struct{ name, part string }

// open opens a workbook, unless it is too large or has a part twice.
func open(workbook []byte) (*book, error) {
	if bytes.HasPrefix(workbook, []byte("\xd0\xcf\x11\xe0")) {
		return nil, errors.New("it has a password, or is older than .xlsx; save it as .xlsx without a password")
	}
	parts, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		return nil, errNone
	}
	b := &book{zip: parts, parts: make(map[string]*zip.File, len(parts.File))}
	size := uint64(0)
	for _, p := range parts.File {
		name := partName(p.Name)
		if b.parts[name] != nil && !strings.HasSuffix(name, "/") { // programs differ in which they show
			return nil, fmt.Errorf("it has two parts called %s; save it again as .xlsx", source.Show(p.Name))
		}
		b.parts[name] = p
		if size += p.UncompressedSize64; max(p.UncompressedSize64, size) > uint64(maxUnpacked) {
			return nil, tooLarge()
		}
	}
	return b, b.list()
}

// partName is the name of a part as workbooks compare them: whatever its case.
func partName(name string) string {
	return strings.ToLower(strings.TrimLeft(strings.ReplaceAll(name, `\`, "/"), "/"))
}

// part unpacks a part, which must be no longer than it says.
func (b *book) part(name string) (string, error) {
	p := b.parts[partName(name)]
	if p == nil {
		return "", fmt.Errorf("its part %s is not there; open it in a spreadsheet and save it again", source.Show(name))
	}
	r, err := p.Open()
	if err != nil {
		return "", damaged("its part " + source.Show(name))
	}
	defer r.Close()
	var text strings.Builder
	text.Grow(int(p.UncompressedSize64))
	if _, err := io.Copy(&text, r); err != nil || !readable(text.String()) {
		return "", damaged("its part " + source.Show(name))
	}
	return text.String(), nil
}

// scan goes through the tokens of a part, until see returns an error.
func (b *book) scan(name string, see func(s *scanner) error) error {
	text, err := b.part(name)
	if err != nil {
		return err
	}
	s := newScanner(text)
	for s.next() {
		if err := see(&s); err != nil {
			return err
		}
	}
	if s.broken {
		return damaged("its part " + source.Show(name))
	}
	return nil
}

// A relation is a relationship of a part to another, as ECMA-376 part 2 has it.
type relation struct{ id, kind, target string }

// maxRelations is how many relations of a part are looked at.
const maxRelations = 20 * maxSheets

// relations lists the relationships of a part to others.
func (b *book) relations(name string) (list []relation, err error) {
	return list, b.scan(relationsOf(name), func(s *scanner) error {
		if !s.is("Relationship") || s.attr("TargetMode") == "External" || len(list) == maxRelations {
			return nil
		}
		target := strings.ReplaceAll(s.attr("Target"), `\`, "/")
		if !strings.HasPrefix(target, "/") {
			target = path.Join(path.Dir(name), target)
		}
		list = append(list, relation{s.attr("Id"), path.Base(s.attr("Type")), target})
		return nil
	})
}

// first is the first relation that match accepts; the zero value for none.
func first(list []relation, match func(r *relation) bool) (r relation) {
	for i := range list {
		if match(&list[i]) {
			return list[i]
		}
	}
	return r
}

// ofKind is the part of a kind among those that another is related to; "" for none.
func ofKind(list []relation, kind string) string {
	return first(list, func(r *relation) bool { return r.kind == kind }).target
}

// relationsOf is the part that holds the relationships of another.
func relationsOf(name string) string {
	folder, file := path.Split(name)
	return folder + "_rels/" + file + ".rels"
}

// list finds the sheets, and what they share.
func (b *book) list() error {
	if b.parts[relationsOf("")] == nil {
		return errNone
	}
	top, err := b.relations("")
	if err != nil {
		return err
	}
	if b.name = ofKind(top, "officeDocument"); b.name == "" {
		return errNone
	}
	related, err := b.relations(b.name)
	if err != nil {
		return err
	}
	if err := b.listSheets(related); err != nil {
		return err
	}
	if name := ofKind(related, "sharedStrings"); name != "" {
		if err := b.readTexts(name); err != nil {
			return err
		}
	}
	if name := ofKind(related, "styles"); name != "" {
		return b.readStyles(name)
	}
	return nil
}

// listSheets finds the sheets of cells; there are others, as charts.
func (b *book) listSheets(related []relation) error {
	names, parts, sheets := map[string]bool{}, map[string]bool{}, 0
	return b.scan(b.name, func(s *scanner) error {
		switch {
		case s.is("workbookPr"):
			b.from1904 = truth(s.attr("date1904"))
		case s.is("sheets", "sheet"):
			name, id := s.attr("name"), s.attr("id")
			r := first(related, func(r *relation) bool { return r.id == id })
			part := partName(r.target)
			switch sheets++; {
			case sheets > maxSheets:
				return tooMany(maxSheets, "sheets")
			case r.kind != "worksheet" && r.kind != "":
			case name == "" || flat(name) != name || names[strings.ToLower(name)] || part == "" || parts[part]:
				return damaged("its list of sheets")
			default:
				names[strings.ToLower(name)], parts[part] = true, true
				b.sheets = append(b.sheets, sheetPart{name, r.target})
			}
		}
		return nil
	})
}

// truth reads a truth value of an attribute or a cell.
func truth(text string) bool { return text == "1" || strings.EqualFold(text, "true") }

// readTexts reads the texts that cells share.
func (b *book) readTexts(name string) error {
	return b.scan(name, func(s *scanner) error {
		switch {
		case !s.is("si"):
		case len(b.texts) == maxTexts:
			return tooMany(maxTexts, "texts")
		default:
			b.texts = append(b.texts, s.item())
		}
		return nil
	})
}

// item reads on to the end of an element that holds a text, perhaps in runs that look
// different, and returns the text. Its phonetic runs are left out.
func (s *scanner) item() string {
	return unescaped(s.content(func(inner []element) bool {
		n := len(inner)
		return n == 1 && inner[0].name == "t" || n == 2 && inner[0].name == "r" && inner[1].name == "t"
	}))
}

// unescaped is a text with the characters that are written in it as _x000A_, which
// is how a workbook has those that XML has no way to write: ECMA-376 part 1,
// 22.9.2.19.
func unescaped(text string) string {
	if !strings.Contains(text, "_x") {
		return text
	}
	var b strings.Builder
	for text != "" {
		if char, ok := escaped(text); ok {
			b.WriteRune(char)
			text = text[len("_x000A_"):]
		} else {
			b.WriteByte(text[0])
			text = text[1:]
		}
	}
	return b.String()
}

// escaped reads such a character where a text begins with one.
func escaped(text string) (rune, bool) {
	if len(text) < len("_x000A_") || text[:2] != "_x" || text[6] != '_' {
		return 0, false
	}
	n, err := strconv.ParseUint(text[2:6], 16, 16)
	return rune(n), err == nil && utf8.ValidRune(rune(n))
}

// readStyles reads how each style shows a number.
func (b *book) readStyles(name string) error {
	codes := map[string]shows{}
	return b.scan(name, func(s *scanner) error {
		switch {
		case s.is("numFmts", "numFmt") && len(codes) < lastColumn:
			codes[s.attr("numFmtId")] = showsCode(s.attr("formatCode"))
		case s.is("cellXfs", "xf"):
			id := s.attr("numFmtId")
			how, own := codes[id]
			if n, err := strconv.Atoi(id); !own && err == nil {
				how = builtIn[n]
			}
			b.shows = append(b.shows, how)
		}
		return nil
	})
}

// styled returns how a style shows a number. One that is not there shows it as it
// is.
func (b *book) styled(style int) shows {
	if style < 0 || style >= len(b.shows) {
		return asNumber
	}
	return b.shows[style]
}

// A stored cell is one as the workbook has it.
type stored struct {
	column  int
	kind    string // s and others for a text, b for a truth, d for a date, "" and n for a number
	style   int
	value   string
	formula string
	shared  string // the name that a formula has among those that cells share; "" for none
}

// number reports whether the cell holds a number, if it holds anything.
func (c *stored) number() bool {
	return !slices.Contains([]string{"s", "str", "inlineStr", "b", "d", "e"}, c.kind)
}

// event is what a sheetScanner has come to.
type event uint8

const (
	sheetEnd event = iota
	aCell
	rowEnd
	aMerge      // of cells into one
	someColumns // that have a style
)

// A sheetScanner reads the cells of a sheet in turn, each at its place.
type sheetScanner struct {
	scanner
	book   *book
	sheet  string
	row    int
	spills []spill // of the formulas so far that fill several cells
	cell   stored
	from   int // where the cell or the tag that ends the row begins in the text
	merge  string
	ruled  bool // the row says its number, or a cell of it did
	fault  error

	// For writing.
	prefix   string // of the names of elements
	columns  columnStyle
	rowStyle int // that the row gives to cells which are not there; 0 for none
}

// scanSheet begins to read a sheet.
func (b *book) scanSheet(sheet *sheetPart) (*sheetScanner, error) {
	text, err := b.part(sheet.part)
	return &sheetScanner{scanner: newScanner(text), book: b, sheet: sheet.name}, err
}

// step goes on to the next cell, end of a row, or merging of cells. At the end of
// the sheet the fault says why it could not be read.
func (s *sheetScanner) step() event {
	for s.fault == nil && s.next() {
		switch {
		case s.kind == closing && s.name == "row" && len(s.open) == 2 && s.open[1].name == "sheetData":
			s.from = s.start
			return rowEnd
		case s.kind != opening:
		case s.is("sheetData", "row", "c"):
			if s.from = s.start; s.readCell() {
				return aCell
			}
		case s.is("sheetData", "row"):
			s.beginRow()
		case s.is("mergeCells", "mergeCell"):
			s.merge = s.attr("ref")
			return aMerge
		case s.is("cols", "col"):
			s.columns = columnStyle{s.number("min"), s.number("max"), s.number("style")}
			return someColumns
		}
	}
	if s.broken && s.fault == nil {
		s.fault = damaged(fmt.Sprintf("row %d of its sheet %s", max(1, s.row), s.sheet))
	}
	return sheetEnd
}

// number is the whole number that an attribute has; 0 where it has none.
func (s *sheetScanner) number(name string) int {
	text := s.attr(name)
	if text == "" {
		return 0 // sooner than by an error
	}
	n, _ := strconv.Atoi(text)
	return n
}

func (s *sheetScanner) beginRow() {
	before := s.row
	s.row, s.cell.column, s.rowStyle = before+1, 0, 0
	if s.ruled = s.attr("r") != ""; s.ruled {
		s.row = s.number("r")
	}
	if s.prefix = strings.TrimSuffix(s.open[2].qualified, "row"); truth(s.attr("customFormat")) {
		s.rowStyle = s.number("s")
	}
	s.order(s.row > before)
}

// order makes a fault of rows and cells that are out of order or there twice: programs
// differ in which of them they show.
func (s *sheetScanner) order(ok bool) {
	if !ok || s.row > lastRow || s.cell.column > lastColumn {
		s.fault = damaged(fmt.Sprintf("the order of cells at row %d of its sheet %s", s.row, s.sheet))
	}
}

// readCell reads on to the end of a cell, and reports whether it could.
func (s *sheetScanner) readCell() bool {
	before := s.cell.column
	c := stored{column: before + 1, kind: s.attr("t"), style: s.number("s")}
	if name := s.attr("r"); name != "" {
		column, row, _ := coordinates(name)
		c.column = column
		if !s.ruled && row > s.row {
			s.row = row
		}
		s.ruled = true
		s.order(row == s.row)
	}
	s.cell = c
	s.order(c.column > before)
	inline := ""
	for depth := len(s.open); s.next() && len(s.open) >= depth; {
		if s.kind != opening || len(s.open) != depth+1 {
			continue
		}
		switch s.name {
		case "v":
			c.value = s.content(directly)
		case "is":
			inline = s.item()
		case "f":
			kind := s.attr("t")
			if kind == "shared" {
				c.shared = s.attr("si")
			}
			first, last, fills := corners(s.attr("ref"))
			if c.formula = s.content(directly); c.formula == "" && kind == "dataTable" {
				c.formula = "TABLE"
			}
			if fills && (kind == "array" || kind == "dataTable") && len(s.spills) < mostSpills {
				s.spills = append(s.spills, spill{first, last, c.formula})
			}
		}
	}
	switch {
	case inline != "" && (c.kind == "inlineStr" || c.value == ""): // whatever kind it says
		c.kind, c.value = "inlineStr", inline
	case c.kind == "s" && c.value != "":
		n, err := strconv.Atoi(strings.TrimSpace(c.value))
		if err != nil || n < 0 || n >= len(s.book.texts) {
			s.fault = damaged("its cell " + source.Cell{Sheet: s.sheet, Column: c.column, Row: s.row}.String())
			return false
		}
		c.value = s.book.texts[n]
	}
	for i := range s.spills {
		if f := &s.spills[i]; c.formula == "" && f.has(s.row, c.column) {
			c.formula = f.formula
		}
	}
	s.cell = c
	return !s.broken && s.fault == nil
}

// A spill is the cells that one formula fills.
type spill struct {
	first, last source.Cell
	formula     string
}

func (f *spill) has(row, column int) bool {
	return f.first.Row <= row && row <= f.last.Row && f.first.Column <= column && column <= f.last.Column
}

// mostSpills is how many such formulas of a sheet are looked at.
const mostSpills = 500
