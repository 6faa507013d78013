// Package table reads orders from tables, in which a row is an item, and writes edits
// into their cells.
package table

import (
	"encoding/binary"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode/utf16"

	"cutgate/internal/cells"
	"cutgate/internal/form"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// noHeadings says why a table without headings can't be read.
const noHeadings = "no row has an order form's headings, such as `order`, `item`, `cloth` and `finished width`; cutgate new makes a sheet to fill in"

// A Reader reads tables whose headings are those of a form.
type Reader struct {
	form     *form.Form
	headings func() *headings // listed when first asked for

	overItems, overCloths meanings
}

// NewReader returns a Reader for the form.
func NewReader(f *form.Form) *Reader {
	rd := &Reader{form: f}
	rd.headings = sync.OnceValue(rd.listHeadings)
	return rd
}

// titleLines is how many lines may come before a table's headings in a text without a
// file name.
const titleLines = 10

// Heads reports whether one of the first lines of a text has the heading `item` and
// others.
func Heads(text string) bool {
	n := 0
	for line := range strings.Lines(text) {
		for _, comma := range cells.Commas() {
			for cell := range strings.SplitSeq(line, string(comma)) {
				if cell != line && strings.EqualFold(strings.Trim(cell, "\" \t\r\n"), "item") {
					return true
				}
			}
		}
		if n++; n > titleLines {
			break
		}
	}
	return false
}

// HasOrders reports whether a table has the headings of orders, or is a workbook that
// can't be read. A text in UTF-16, which some spreadsheets write, counts if it has the
// headings, so that it is reported and not skipped.
func (rd *Reader) HasOrders(f *source.File, workbook bool) bool {
	sheets, fault := rd.sheets(fromUTF16(f.Text), workbook)
	return workbook && fault != nil || slices.ContainsFunc(sheets, rd.hasItems)
}

// longestLook is how much of a CSV text is searched for headings of orders. If there are
// none, the rest is not read.
const longestLook = 1 << 20

// sheets reads the sheets of a table. A CSV text is read with whichever mark between its
// cells gives it headings.
func (rd *Reader) sheets(text string, workbook bool) ([]cells.Sheet, *cells.Fault) {
	if workbook {
		return cells.Drawn(text)
	}
	base := 0
	if strings.HasPrefix(text, syntax.ByteOrderMark) {
		base = len(syntax.ByteOrderMark)
	}
	var first cells.Sheet
	var fault *cells.Fault
	look := beginning(text)
	for i, comma := range cells.Commas() {
		s, flt := cells.CSV(look[base:], base, comma)
		if rd.hasItems(s) {
			if len(look) < len(text) {
				s, flt = cells.CSV(text[base:], base, comma)
			}
			return []cells.Sheet{s}, flt
		}
		if i == 0 {
			first, fault = s, flt
		}
	}
	return []cells.Sheet{first}, fault
}

// beginning returns the part of a text, in whole lines, that is searched for headings.
func beginning(text string) string {
	if len(text) <= longestLook {
		return text
	}
	if i := strings.LastIndexByte(text[:longestLook], '\n'); i >= 0 {
		return text[:i+1]
	}
	return text
}

// fromUTF16 converts a text that begins with the byte-order mark of UTF-16 to UTF-8. One
// with that of UTF-32 is converted well enough to find plain letters in it. Any other
// text is returned as it is.
func fromUTF16(text string) string {
	if !syntax.IsUTF16(text) && !syntax.IsUTF32(text) {
		return text
	}
	order := binary.ByteOrder(binary.LittleEndian)
	if !strings.HasPrefix(text, "\xff\xfe") {
		order = binary.BigEndian
	}
	units := make([]uint16, len(text)/2)
	for i := range units {
		units[i] = order.Uint16([]byte(text[2*i : 2*i+2]))
	}
	return strings.ReplaceAll(string(utf16.Decode(units)), "\x00", "")
}

func (rd *Reader) hasItems(s cells.Sheet) bool {
	for i := range s.Rows {
		if rd.heads(&s.Rows[i], false) == aboutItem {
			return true
		}
		if i+1 < len(s.Rows) {
			if r := rd.twoRows(&s.Rows[i], &s.Rows[i+1]); r != nil && rd.heads(r, false) == aboutItem {
				return true
			}
		}
	}
	return false
}

// heads returns what a row of headings is about, items or cloths; aboutOrder for any other
// row. Headings over items include `item` and one more, or else at least four; headings
// over cloths include `cloth` and one more, or, if below other headings, at least four.
// At least half of the row's texts must be known headings.
func (rd *Reader) heads(r *cells.Row, below bool) subject {
	if !rd.mayHead(r) {
		return aboutOrder
	}
	texts := 0
	for i := range r.Cells {
		if c := &r.Cells[i]; c.Text != "" && !rd.isOwn(c.Text) {
			texts++
		}
	}
	items, item := counted(r, rd.itemHeading, "item")
	cloths, cloth := counted(r, rd.clothHeading, "cloth")
	for i := 0; cloth && i < len(r.Cells); i++ { // no heading that says of which fiber, but one of cloths
		if slices.Contains(rd.means(r.Cells[i].Text), "fiber") {
			cloths++
		}
	}
	switch {
	case 2*items >= texts && (item && items > 1 || items >= 4 && items >= cloths):
		return aboutItem
	case 2*cloths >= texts && (cloth && cloths > 1 || below && cloths >= 4):
		return aboutCloth
	}
	return aboutOrder
}

// counted returns how many texts of a row are headings, and whether one of them means
// main.
func counted(r *cells.Row, look func(string) (heading, bool), main string) (n int, has bool) {
	for i := range r.Cells {
		if h, ok := look(r.Cells[i].Text); ok {
			n++
			has = has || h.String() == main
		}
	}
	return n, has
}

// mayHead reports whether at least two texts of a row begin as headings of the form do.
// It rules out most rows at little cost.
func (rd *Reader) mayHead(r *cells.Row) bool {
	n, begin := 0, rd.headings().begin
	for i := range r.Cells {
		if begin[firstWord(r.Cells[i].Text)] {
			n++
		}
	}
	return n > 1
}

// A column is a column of a table that has a heading.
type column struct {
	heading
	name   string       // the heading in the form's words, if it is one of the form's
	known  bool         // the heading is one of the form's
	flaw   *order.Flaw  // of a heading that is unknown or given twice; nil for none
	shops  bool         // it is one of the shop's own, not of the order form
	unread bool         // its heading is misspelt, so what is under it is not read
	cell   *cells.Cell  // of the heading
	key    source.Range // of a name of the writer's own in the heading; zero for none
}

// means says what the heading means, if it is known.
func (c *column) means(h heading, known bool) {
	c.heading, c.known = h, known && !c.shops
	if c.known {
		c.name = h.String()
	}
}

// A header is a row of headings.
type header struct {
	columns []column
	numbers []*column // the same by their numbers in the sheet; nil for one without a heading
	about   subject
	order   *column   // of the orders' numbers, or of the one order that a cloth is for; nil for none
	name    *column   // of the names of the cloths
	kind    *column   // of the kinds of the items
	cloths  []*column // of the cloths that an item is made of
	kinds   *form.Shape
	width   int   // of its row in the sheet
	tally   tally // whether most rows below run over it
	wanted  map[wanted][]bool
	room    []cellLeaf
}

// A tally says how many rows of a table have a cell more than it has headings.
type tally uint8

const (
	unasked tally = iota
	few
	most
)

// wanted says which rows some empty cells are wanted of.
type wanted struct {
	kind string // of the item; "" if it is not known
	head bool   // it is the first row of its order
}

// A tabular is a table that is being read.
type tabular struct {
	rd     *Reader
	orders []*tabled
	flaws  []order.Flaw   // of the table, reported with its first order
	heads  []source.Range // the rows of headings

	byNumber map[string]*tabled // the first of each number

	cloths []*clothRow
	owned  map[string][]*clothRow // those marked for one order, by its number
	free   []*clothRow            // the others
	named  map[string][]*clothRow // and these by name

	clothless bool            // some items have no column for their cloth
	before    map[string]bool // the names of cloths, known when the table is read a second time

	rooms rooms
}

// A tabled order is one of a table. Its tree is made when it is asked for.
type tabled struct {
	number string
	rows   []itemRow
	uses   map[string]bool // cloths by name
	cloths []*clothRow
}

// An itemRow is the row of an item and the headings that it is under.
type itemRow struct {
	under *header
	cells *cells.Row
	split *order.Flaw // nil for none
}

// Read reads the orders of a table. A row is an item; rows with the same number belong to
// one order.
func (rd *Reader) Read(f *source.File, workbook bool) []syntax.Root {
	if !workbook && strings.TrimSpace(strings.TrimPrefix(f.Text, syntax.ByteOrderMark)) == "" {
		return nil
	}
	sheets, fault := rd.sheets(f.Text, workbook)
	f.Table = cells.Table(sheets, workbook)
	t, headed := rd.read(sheets, nil)
	if t.clothless && len(t.cloths) > 0 {
		names := make(map[string]bool, len(t.cloths))
		for _, row := range t.cloths {
			names[row.name] = true
		}
		t, headed = rd.read(sheets, names)
	}
	f.Table.Headings = t.heads
	switch {
	case fault != nil:
		if fault.Cell.Column > 0 {
			f.Table.Add(fault.Cell, fault.At.Start)
		}
		return []syntax.Root{syntax.Unreadable(syntax.NewFault(fault.At, fault.Detail), t.flaws...)}
	case !headed:
		at := source.Range{}
		if len(sheets) > 0 && len(sheets[0].Rows) > 0 {
			at = sheets[0].Rows[0].Cell(1).At
		}
		return []syntax.Root{syntax.Unreadable(syntax.NewFault(at, noHeadings))}
	case len(t.orders) == 0:
		return []syntax.Root{syntax.Unreadable(syntax.NewFault(source.Range{}, "there are no rows under its headings"))}
	}
	t.shareCloths()
	roots := make([]syntax.Root, len(t.orders))
	for i, o := range t.orders {
		roots[i].Make = func(m *order.Memory) (*order.Node, []order.Flaw) { return t.treeOf(o, m) }
	}
	return roots
}

// read reads the sheets. The cloths of a first reading help to find the column of the
// items' cloths if its heading was lost.
func (rd *Reader) read(sheets []cells.Sheet, cloths map[string]bool) (t *tabular, headed bool) {
	t = &tabular{
		rd: rd, byNumber: make(map[string]*tabled), before: cloths,
		owned: make(map[string][]*clothRow), named: make(map[string][]*clothRow),
	}
	for i := range sheets {
		headed = t.sheet(&sheets[i]) || headed
	}
	return t, headed
}

// sheet reads a sheet: tables that begin with headings, one below the other. Rows above
// the first table, and a row with a single text above another, are titles. It reports
// whether there were headings over items.
func (t *tabular) sheet(s *cells.Sheet) (headed bool) {
	rows := slices.DeleteFunc(slices.Clone(s.Rows), func(r cells.Row) bool { return r.Texts() == 0 || remarked(&r) })
	var h *header
	first := 0 // of the rows below h
	for i := 0; i < len(rows); i++ {
		r := &rows[i]
		if i+1 < len(rows) {
			if both := t.rd.twoRows(r, &rows[i+1]); both != nil {
				r = both
				i++
			}
		}
		switch about := t.rd.heads(r, h != nil); {
		case about != aboutOrder:
			columns := t.columns(r, about)
			if about == aboutItem && given(columns, "cloth") == nil {
				t.clothless = true
				columns = t.headCloth(columns, r, rows[i+1:])
			}
			h = t.rd.header(columns, about)
			h.width, first = r.Width(), i+1
			t.heads = append(t.heads, r.Range())
			headed = headed || about == aboutItem
		case h == nil, r.Texts() == 1 && i+1 < len(rows) && t.rd.heads(&rows[i+1], true) != aboutOrder:
		case h.passesOver(r):
		case h.about == aboutCloth:
			t.cloth(h, r, t.split(s, h, r, rows[first:]))
		default:
			t.item(h, r, t.split(s, h, r, rows[first:]))
		}
	}
	return headed
}

// header returns a row of headings, ready for the rows under it.
func (rd *Reader) header(columns []column, about subject) *header {
	top := rd.form.Order.Of
	h := &header{columns: columns, about: about, kinds: top.Fields[top.Index["items"]].Is.List, wanted: make(map[wanted][]bool)}
	for i := range columns {
		c := &columns[i]
		c.key = c.ownName()
		h.numbers = append(h.numbers, make([]*column, c.cell.Column+1-len(h.numbers))...)
		h.numbers[c.cell.Column] = c
		switch {
		case !c.known:
			continue
		case c.about == clothName:
			h.name = c
			continue
		case c.about == clothOrder && !c.unread, c.about == aboutOrder && c.way[0].Name == "order":
			h.order = c
		case c.about == aboutItem && c.way[0].Name == h.kinds.By && !c.unread:
			h.kind = c
		}
		// The press cloth is not one of the order's cloths.
		if w := c.way; about == aboutItem && w[len(w)-1].Name == "cloth" && w[0].Name != "press" {
			h.cloths = append(h.cloths, c)
		}
	}
	return h
}

// over returns the column of that number in the sheet, or nil.
func (h *header) over(number int) *column {
	if number < len(h.numbers) {
		return h.numbers[number]
	}
	return nil
}

// textIn is what a row says in a column; "" without a column.
func (h *header) textIn(c *column, r *cells.Row) string {
	if c != nil {
		if is := r.Filled(c.cell.Column); is != nil {
			return leafOfCell(is).Text
		}
	}
	return ""
}

// empty says which columns' empty cells are wanted of a row: they are where something may be
// missing, or can be filled in. Fields that an item's kind does not have, and fields of the
// order that another row has said already, are none of these.
func (h *header) empty(kind string, head bool) []bool {
	of := h.kinds.ByWord[kind]
	if of == nil {
		kind = ""
	}
	list, ok := h.wanted[wanted{kind, head}]
	if !ok {
		list = make([]bool, len(h.columns))
		for i := range h.columns {
			c := &h.columns[i]
			list[i] = c.known
			switch {
			case !c.known:
			case c.about == aboutOrder:
				list[i] = head
			case c.about == aboutItem && of != nil:
				_, list[i] = of.Index[c.way[0].Name]
			}
		}
		h.wanted[wanted{kind, head}] = list
	}
	return list
}

// remarked reports whether a row has a single text, which begins with #.
func remarked(r *cells.Row) bool {
	return r.Texts() == 1 && slices.ContainsFunc(r.Cells, func(c cells.Cell) bool { return strings.HasPrefix(c.Text, "#") })
}

// columns reads a row of headings. What is under an unknown heading is not read, and each
// order with something there gets the heading's flaw. If the heading is a likely
// misspelling, the fields it was meant for count as given.
func (t *tabular) columns(r *cells.Row, about subject) []column {
	look, form := t.rd.itemHeading, t.rd.headings().items
	if about == aboutCloth {
		look, form = t.rd.clothHeading, t.rd.headings().cloths
	}
	var list []column
	for i := range r.Cells {
		if c := &r.Cells[i]; c.Text != "" {
			list = append(list, column{shops: t.rd.isOwn(c.Text), cell: c})
			list[len(list)-1].means(look(c.Text))
		}
	}
	for i := range list {
		c := &list[i]
		if c.shops {
			continue
		} else if !c.known {
			f := headingFlaw(order.UnknownField, c.cell)
			if i < order.ManyFlaws {
				text, unit, _ := inBrackets(c.cell.Text)
				if h, ok := t.rd.clothHeading(text); ok && about != aboutCloth && t.rd.ofCloth(wordsOf(text)) {
					f.Detail = "write it where the cloths are listed, under `" + h.String() + "`"
				}
				own := ""
				if about != aboutCloth && strings.EqualFold(text, "width") {
					own = "finished width"
					f.Detail = "head a finished width `" + own + "`, and write a cloth's where the cloths are listed"
				} else if may := t.rd.means(text); slices.Contains(may, "fiber") {
					f.Detail = "name one fiber in each heading, as in `fiber cotton`, and write its percent below it"
				} else if !slices.ContainsFunc(may, t.rd.form.Has) { // a word of the form is no misspelling of another
					own = nearestHeading(text, form)
				}
				if own != "" && given(list, own) == nil {
					f.Nearest = bracketed(own, unit)
				} else if f.Words = sameWords(text, form); len(f.Words) > 0 {
					own = f.Words[0]
				}
				if own != "" && given(list, own) == nil {
					c.means(look(bracketed(own, unit)))
					c.unread = true
				}
			}
			c.flaw = &f
		} else if first := given(list[:i], c.name); first != nil {
			f := headingFlaw(order.Duplicate, c.cell)
			f.Related = first.cell.At
			c.flaw, c.known, first.unread = &f, false, true // nobody knows which is right
		} else if !c.own {
			f := headingFlaw(order.OtherWord, c.cell)
			f.Nearest = bracketed(c.name, c.unit)
			t.flaws = append(t.flaws, f)
		}
	}
	return list
}

// headCloth finds the column of the items' cloths if no heading says so: the only one,
// among those without a heading or with an unknown one, that lists names of cloths and
// nothing else.
func (t *tabular) headCloth(list []column, heads *cells.Row, rows []cells.Row) []column {
	first := map[int]*cells.Cell{} // the first name of a cloth in each column
	other := map[int]bool{}        // columns with a heading, or with other texts
	for i := range list {
		if list[i].known && !list[i].unread || list[i].shops {
			other[list[i].cell.Column] = true
		}
	}
	for i := range rows {
		if t.rd.heads(&rows[i], true) != aboutOrder {
			break
		}
		for k := range rows[i].Cells {
			switch c := &rows[i].Cells[k]; {
			case c.Text == "":
			case !t.before[c.Text]:
				other[c.Column] = true
			case first[c.Column] == nil:
				first[c.Column] = c
			}
		}
	}
	maps.DeleteFunc(first, func(column int, _ *cells.Cell) bool { return other[column] })
	if len(first) != 1 {
		return list
	}
	for n, entry := range first {
		at, headed := slices.BinarySearchFunc(list, n, func(c column, n int) int { return c.cell.Column - n })
		if !headed {
			cell := heads.Cell(n)
			if cell == nil {
				cell = &cells.Cell{Column: n, At: entry.At, Remark: cells.Covered}
			}
			list = slices.Insert(list, at, column{cell: cell})
		}
		c := &list[at]
		f := headingFlaw(order.UnknownField, c.cell)
		f.Nearest = "cloth"
		c.flaw, c.unread = &f, true
		c.means(t.rd.itemHeading(f.Nearest))
	}
	return list
}

// given returns the column with that heading, or nil.
func given(list []column, heading string) *column {
	for i := range list {
		if list[i].known && list[i].name == heading {
			return &list[i]
		}
	}
	return nil
}

// ownName returns the range of a name of the writer's own in the heading, such as linen in
// fiber linen; the zero range if all of it is the form's.
func (c *column) ownName() source.Range {
	if len(c.way) == 0 || c.way[len(c.way)-1].Index != syntax.OwnWord || c.cell.At.Len() != len(c.cell.Text) {
		return source.Range{}
	}
	name := c.way[len(c.way)-1].Name
	start := c.cell.At.Start + strings.LastIndex(c.cell.Text, name)
	return source.Range{Start: start, End: start + len(name)}
}

// headingFlaw returns a flaw of a heading.
func headingFlaw(kind order.FlawKind, c *cells.Cell) order.Flaw {
	n := &order.Node{Cell: true, Name: c.Text, Key: c.At, Text: c.Text, Fixed: c.Remark != cells.Plain}
	return order.Flaw{Kind: kind, At: c.At, Name: c.Text, Text: c.Text, Node: n, InKey: true}
}

// split returns the flaw of a row that runs over its headings as if a decimal comma, which
// nobody put in quotes, had split a number in two; nil for another row. What else stands
// under no heading is noted. Rows are those below the headings.
func (t *tabular) split(s *cells.Sheet, h *header, r *cells.Row, rows []cells.Row) *order.Flaw {
	over := h.runsOver(r)
	if s.Comma != ',' || over == 0 || t.tallied(h, rows) {
		t.stray(h, r)
		return nil
	}
	pair := func(column int) (whole *cells.Cell, number string) {
		whole, part := r.Filled(column), r.Filled(column+1)
		if c := h.over(column); c == nil || !c.known || whole == nil || part == nil || !digits(whole.Text) || !digits(part.Text) || !t.rd.divided(c.heading) {
			return nil, ""
		}
		return whole, whole.Text + "," + part.Text
	}
	f := order.Flaw{Kind: order.Split}
	last, _ := pair(h.width)
	beyond := r.Filled(h.width + 1).Text
	shifted := over == 1 && len(beyond) <= 3 && beyond[0] != '0' // may belong a cell further left
	for column := h.width; column > 0; column-- {
		whole, number := pair(column)
		if last == nil && whole != nil && !(shifted && halved(r.Filled(column+1).Text)) {
			continue // nothing but a half or a quarter speaks for a number further left
		}
		// Of two numbers that were split at the end of a row, the first.
		if whole != nil && (last == nil || column == h.width || column == h.width-over+1) {
			f.At, f.Name, f.Text, f.Nearest = whole.At, h.over(column).cell.Text, whole.Text, number
		}
		if whole != nil {
			f.Words = append(f.Words, number)
		}
	}
	if !oneNumber(f.Nearest) {
		t.stray(h, r)
		return nil
	}
	return &f
}

// runsOver is how many cells a row has beyond its headings, if they are bare whole numbers
// one beside the other; else 0.
func (h *header) runsOver(r *cells.Row) (over int) {
	for i := range r.Cells {
		if c := &r.Cells[i]; c.Text != "" && c.Column > h.width {
			if over++; c.Column != h.width+over || !digits(c.Text) {
				return 0
			}
		}
	}
	return over
}

// tallied reports whether most rows run over their headings by a cell, and not by what
// would halve or quarter a measure: then it is a column whose heading was forgotten.
func (t *tabular) tallied(h *header, rows []cells.Row) bool {
	if h.tally == unasked {
		all, over, halves := 0, 0, true
		for i := range rows {
			if t.rd.heads(&rows[i], true) != aboutOrder {
				break
			}
			all++
			if h.runsOver(&rows[i]) == 1 {
				over++
				halves = halves && halved(rows[i].Filled(h.width+1).Text)
			}
		}
		h.tally = few
		if !halves && over >= 2 && (over == all || over > 2 && 3*over > 2*all) {
			h.tally = most
		}
	}
	return h.tally == most
}

// oneNumber reports whether two cells may be a number that its comma split: a decimal, of
// three places only where it is in eighths, or a few thousand.
func oneNumber(number string) bool {
	whole, part, ok := strings.Cut(number, ",")
	switch {
	case !ok, len(part) > 3, len(part) > 1 && part[0] == '0', len(whole) > 1 && whole[0] == '0':
		return false
	case len(part) < 3 || eighths(part):
		return true
	}
	return len(whole) == 1 && whole != "0"
}

// halved reports whether decimals are those of a half or a quarter.
func halved(part string) bool { return part == "5" || part == "25" || part == "75" }

// eighths reports whether three decimals are those of eighths.
func eighths(part string) bool { return slices.Contains([]string{"125", "375", "625", "875"}, part) }

// divided reports whether what stands under a heading is a number that may have decimals.
func (rd *Reader) divided(h heading) bool {
	top := rd.form.Order
	at := func(name string) *form.Shape { return &top.Of.Fields[top.Of.Index[name]].Is }
	switch h.about {
	case aboutItem:
		top = at("items").List
	case aboutCloth:
		top = at("cloths").Named
	case aboutMeasured:
		top = at("measured").Named
	case aboutOrder:
	default:
		return false
	}
	return slices.ContainsFunc(leavesAt(top, h.way), func(l form.Leaf) bool {
		switch l {
		case form.Ratio, form.Percent, form.Length, form.Areal, form.Linear, form.Mass, form.Temperature:
			return true
		}
		return false
	})
}

// leavesAt is what may stand at a path, in the one kind of goods or the other.
func leavesAt(s *form.Shape, way syntax.Path) (all []form.Leaf) {
	if len(way) == 0 {
		return []form.Leaf{s.Reads}
	}
	in := func(g *form.Group) {
		if g == nil {
			return
		}
		if i, ok := g.Index[way[0].Name]; ok {
			all = append(all, leavesAt(&g.Fields[i].Is, way[1:])...)
		}
	}
	in(s.Of)
	for _, g := range s.ByWord {
		in(g)
	}
	if s.Named != nil {
		all = append(all, leavesAt(s.Named, way[1:])...)
	}
	if s.List != nil {
		all = append(all, leavesAt(s.List, way[1:])...)
	}
	return all
}

// digits reports whether a text is a bare whole number.
func digits(text string) bool { return text != "" && strings.Trim(text, "0123456789") == "" }

// stray notes the first text of each column that has no heading.
func (t *tabular) stray(h *header, r *cells.Row) {
	for i := range r.Cells {
		c := &r.Cells[i]
		if c.Text == "" || h.over(c.Column) != nil {
			continue
		}
		if !slices.ContainsFunc(t.flaws, func(f order.Flaw) bool { return f.Kind == order.Unheaded && f.Name == strconv.Itoa(c.Column) }) {
			t.flaws = append(t.flaws, order.Flaw{Kind: order.Unheaded, At: c.At, Name: strconv.Itoa(c.Column), Text: c.Text})
		}
	}
}

// item reads the row of an item. A row with no order number, or the same one, is one more
// item of the order above.
func (t *tabular) item(h *header, r *cells.Row, split *order.Flaw) {
	o := t.order(h.textIn(h.order, r), h.order != nil)
	o.rows = append(o.rows, itemRow{h, r, split})
	for _, c := range h.cloths {
		if name := h.textIn(c, r); name != "" {
			o.uses[name] = true
		}
	}
}

// order returns the order that a row belongs to, which has that number under a heading for
// it, or has none.
func (t *tabular) order(number string, numbered bool) *tabled {
	if n := len(t.orders); n > 0 && number == "" && numbered {
		return t.orders[n-1]
	}
	o := t.byNumber[number]
	if o == nil {
		o = &tabled{number: number, uses: map[string]bool{}}
		t.orders = append(t.orders, o)
		t.byNumber[number] = o
	}
	return o
}
