package load

import (
	"encoding/binary"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"

	"cutgate/internal/order"
	"cutgate/internal/sheet"
	"cutgate/internal/source"
)

// noHeadings says why a table without headings can't be read.
const noHeadings = "no row has the headings of an order form, as `order`, `item`, `cloth` and `finished width`; cutgate new makes a sheet to fill in"

// csv reads a CSV text, with the mark between cells that gives it headings.
func (b *builder) csv(l *Loader) {
	text, base := b.f.Text, 0
	if strings.HasPrefix(text, byteOrderMark) {
		base = len(byteOrderMark)
	}
	if strings.TrimSpace(text[base:]) == "" {
		return
	}
	var first sheet.Sheet
	var fault *sheet.Fault
	for i, comma := range sheet.Commas() {
		s, flt := sheet.CSV(text[base:], base, comma)
		if i == 0 {
			first, fault = s, flt
		}
		if l.hasItems(&s) {
			first, fault = s, flt
			break
		}
	}
	b.table(l, []sheet.Sheet{first}, fault, false)
}

// workbook reads the text that was drawn from a workbook.
func (b *builder) workbook(l *Loader) {
	sheets, fault := sheet.Drawn(b.f.Text)
	b.table(l, sheets, fault, true)
}

// IsTable reports whether a format is one of tables, which hold many other things
// than orders.
func IsTable(format Format) bool { return format == CSV || format == Workbook }

// HasOrders reports whether a table has the headings of orders, or can't be read.
// One in UTF-16, as spreadsheets write too, is looked into to be told of.
func (l *Loader) HasOrders(f *source.File, format Format) bool {
	if format == CSV {
		text := strings.TrimPrefix(fromUTF16(f.Text), byteOrderMark)
		return slices.ContainsFunc(sheet.Commas(), func(comma rune) bool {
			s, _ := sheet.CSV(text, 0, comma)
			return l.hasItems(&s)
		})
	}
	sheets, fault := sheet.Drawn(f.Text)
	return fault != nil || slices.ContainsFunc(sheets, func(s sheet.Sheet) bool { return l.hasItems(&s) })
}

// fromUTF16 is a text that begins with the byte-order mark of UTF-16, in UTF-8; any
// other as it is.
func fromUTF16(text string) string {
	order := binary.ByteOrder(binary.LittleEndian)
	switch {
	case strings.HasPrefix(text, "\xff\xfe"):
	case strings.HasPrefix(text, "\xfe\xff"):
		order = binary.BigEndian
	default:
		return text
	}
	units := make([]uint16, len(text)/2)
	for i := range units {
		units[i] = order.Uint16([]byte(text[2*i : 2*i+2]))
	}
	return string(utf16.Decode(units))
}

func (l *Loader) hasItems(s *sheet.Sheet) bool {
	return slices.ContainsFunc(s.Rows, func(r sheet.Row) bool { return l.heads(&r, false) == aboutItem })
}

// heads returns what a row of headings is about, items or cloths; aboutOrder for
// any other row. Over items it has `item` and one more heading, or else four; over
// cloths `cloth` and one more, or else four where other headings stand above; and
// no more texts than headings that are none.
func (l *Loader) heads(r *sheet.Row, below bool) subject {
	if !l.mayHead(r) {
		return aboutOrder
	}
	texts, items, cloths := 0, 0, 0
	item, cloth := false, false
	for i := range r.Cells {
		text := r.Cells[i].Text
		if text == "" {
			continue
		}
		texts++
		if h, ok := l.itemHeading(text); ok {
			items++
			item = item || h.about == aboutItem && h.way[0].name == "item"
		}
		if h, ok := l.clothHeading(text); ok {
			cloths++
			cloth = cloth || h.about == clothName
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

// mayHead reports whether two texts of a row begin as headings of the form do.
// Few rows of a table need a closer look.
func (l *Loader) mayHead(r *sheet.Row) bool {
	n := 0
	for i := range r.Cells {
		if words := wordsOf(r.Cells[i].Text); len(words) > 0 && l.begins()[words[0].text] {
			n++
		}
	}
	return n > 1
}

// A column is a column of a table that has a heading.
type column struct {
	heading
	known bool        // the heading is one of the form's
	meant bool        // it is not, but likely a misspelt one; what stands under it is not read
	cell  *sheet.Cell // with the heading
}

// A tabular is a table that is being read.
type tabular struct {
	l      *Loader
	orders []*tabled
	cloths []*clothRow
	flaws  []order.Flaw // of the headings
}

// A tabled order is one of a table.
type tabled struct {
	number string
	root   order.Node // what it says of itself
	items  []order.Node
	cloths []order.Node    // and what was measured of them
	uses   map[string]bool // cloths by name
	flaws  []order.Flaw
}

// table makes orders of sheets.
func (b *builder) table(l *Loader, sheets []sheet.Sheet, fault *sheet.Fault, workbook bool) {
	b.f.Table = sheet.Table(sheets, workbook)
	t := tabular{l: l}
	headed := false
	for i := range sheets {
		headed = t.sheet(&sheets[i]) || headed
	}
	switch {
	case fault != nil:
		if fault.Cell.Column > 0 {
			b.f.Table.Add(fault.At, fault.Cell)
		}
		b.flaws = t.flaws
		b.unreadable(fault.At, fault.Detail)
		return
	case !headed:
		at := source.Range{}
		if len(sheets) > 0 && len(sheets[0].Rows) > 0 {
			at = sheets[0].Rows[0].Cells[0].At
		}
		b.unreadable(at, noHeadings)
		return
	case len(t.orders) == 0:
		b.unreadable(source.Range{}, "no row stands under its headings")
		return
	}
	t.orders[0].flaws = append(t.orders[0].flaws, t.flaws...)
	t.shareCloths()
	for _, o := range t.orders {
		b.roots = append(b.roots, root{node: o.tree(), flaws: o.flaws})
	}
}

// sheet reads a sheet: tables that begin with headings, one below the other. What
// stands above the first, and a text alone above another, is a title. It reports
// whether there were headings over items.
func (t *tabular) sheet(s *sheet.Sheet) (headed bool) {
	rows := slices.DeleteFunc(slices.Clone(s.Rows), func(r sheet.Row) bool { return r.Texts() == 0 || remarked(&r) })
	var columns []column
	over := aboutOrder
	for i := range rows {
		r := &rows[i]
		switch about := t.l.heads(r, columns != nil); {
		case about != aboutOrder:
			columns, over = t.columns(r, about), about
			headed = headed || about == aboutItem
		case columns == nil, r.Texts() == 1 && i+1 < len(rows) && t.l.heads(&rows[i+1], true) != aboutOrder:
		case over == aboutCloth:
			t.cloth(columns, r)
			t.stray(columns, r)
		default:
			t.item(columns, r)
			t.stray(columns, r)
		}
	}
	return headed
}

// remarked reports whether a row has one text only, which begins with #.
func remarked(r *sheet.Row) bool {
	return r.Texts() == 1 && slices.ContainsFunc(r.Cells, func(c sheet.Cell) bool { return strings.HasPrefix(c.Text, "#") })
}

// columns reads a row of headings. What stands under one that is not known is not
// read; that is said once, of the heading.
func (t *tabular) columns(r *sheet.Row, about subject) []column {
	look := t.l.itemHeading
	if about == aboutCloth {
		look = t.l.clothHeading
	}
	var list []column
	for i := range r.Cells {
		if c := &r.Cells[i]; c.Text != "" {
			h, ok := look(c.Text)
			list = append(list, column{heading: h, known: ok, cell: c})
		}
	}
	for i := range list {
		c := &list[i]
		if !c.known {
			f := headingFlaw(order.UnknownField, c.cell)
			if len(t.flaws) < manyFlaws {
				text, unit, _ := inBrackets(c.cell.Text)
				if own := t.l.nearestHeading(text, about); own != "" && given(list, own) == nil {
					f.Nearest = bracketed(own, unit)
					c.heading, c.meant = look(own)
				}
			}
			t.flaws = append(t.flaws, f)
		} else if first := given(list[:i], c.String()); first != nil {
			f := headingFlaw(order.Duplicate, c.cell)
			f.Related = first.cell.At
			t.flaws = append(t.flaws, f)
			c.known = false
		} else if !c.own {
			f := headingFlaw(order.OtherWord, c.cell)
			f.Nearest = bracketed(c.String(), c.unit)
			t.flaws = append(t.flaws, f)
		}
	}
	return list
}

// given returns the column with that heading, or nil.
func given(list []column, heading string) *column {
	for i := range list {
		if list[i].known && list[i].String() == heading {
			return &list[i]
		}
	}
	return nil
}

// ownName is where a name of the writer's own stands in the heading, as linen in
// fiber linen; the zero range where all of it is the form's.
func (c *column) ownName() source.Range {
	if len(c.way) == 0 || !c.way[len(c.way)-1].own || c.cell.At.Len() != len(c.cell.Text) {
		return source.Range{}
	}
	name := c.way[len(c.way)-1].name
	start := c.cell.At.Start + strings.LastIndex(c.cell.Text, name)
	return source.Range{Start: start, End: start + len(name)}
}

// headingFlaw is a flaw of a heading.
func headingFlaw(kind order.FlawKind, c *sheet.Cell) order.Flaw {
	n := &order.Node{Cell: true, Name: c.Text, Key: c.At, Text: c.Text, Fixed: c.Remark != sheet.Plain}
	return order.Flaw{Kind: kind, At: c.At, Name: c.Text, Text: c.Text, Node: n, InKey: true}
}

// stray notes the first text of each column that has no heading.
func (t *tabular) stray(columns []column, r *sheet.Row) {
	for i := range r.Cells {
		c := &r.Cells[i]
		_, headed := slices.BinarySearchFunc(columns, c.Column, func(k column, n int) int { return k.cell.Column - n })
		if c.Text == "" || headed {
			continue
		}
		if !slices.ContainsFunc(t.flaws, func(f order.Flaw) bool { return f.Kind == order.Unheaded && f.Name == strconv.Itoa(c.Column) }) {
			t.flaws = append(t.flaws, order.Flaw{Kind: order.Unheaded, At: c.At, Name: strconv.Itoa(c.Column), Text: c.Text})
		}
	}
}

// item reads a row of an item. A row without an order's number, or with the same,
// is one more item of the order above.
func (t *tabular) item(columns []column, r *sheet.Row) {
	leaves := leavesOf(columns, r)
	o := t.order(columns, leaves)
	var item order.Node
	for i := range columns {
		switch {
		case !columns[i].known && !columns[i].meant:
			continue
		case columns[i].about == aboutItem:
			plant(&item, columns[i].way, leaves[i].Node)
		default:
			o.head(columns[i].way, leaves[i].Node)
		}
		o.flaws = append(o.flaws, leaves[i].remarks(columns[i].about == aboutOrder)...)
		if w := columns[i].way; w[len(w)-1].name == "cloth" && leaves[i].Text != "" {
			o.uses[leaves[i].Text] = true
		}
	}
	if settleCells(&item); !item.Blank() {
		item.At, item.Key = r.Range(), source.Range{}
		o.items = append(o.items, item)
	}
}

// order returns the order that a row is of.
func (t *tabular) order(columns []column, leaves []cellLeaf) *tabled {
	number, blank := "", false
	for i := range columns {
		if c := &columns[i]; c.about == aboutOrder && (c.known || c.meant) && c.way[0].name == "order" {
			number, blank = leaves[i].Text, leaves[i].Text == ""
		}
	}
	last := len(t.orders) - 1
	if last >= 0 && (blank || number == t.orders[last].number) {
		return t.orders[last]
	}
	if i := slices.IndexFunc(t.orders, func(o *tabled) bool { return o.number == number }); i >= 0 {
		return t.orders[i]
	}
	o := &tabled{number: number, uses: map[string]bool{}}
	t.orders = append(t.orders, o)
	return o
}

// head adds what a row says of the order. Each row may say it; the first that
// does counts.
func (o *tabled) head(w way, leaf order.Node) {
	n := &o.root
	for _, s := range w {
		n = child(n, s)
		if n == nil {
			plant(&o.root, w, leaf)
			return
		}
	}
	switch {
	case leaf.Form == order.Null || leaf.Text == n.Text:
	case n.Form == order.Null:
		leaf.Name = n.Name
		*n = leaf
	default:
		o.flaws = append(o.flaws, order.Flaw{
			Kind: order.Duplicate, At: leaf.At, Related: n.At, Path: w.path(""), Name: w[len(w)-1].name, Text: leaf.Text,
		})
	}
}

// tree is the order as written.
func (o *tabled) tree() *order.Node {
	root := &o.root
	settleCells(root)
	root.Form, root.Key = order.Map, source.Range{}
	root.Kids = append(root.Kids, o.cloths...)
	if len(o.items) > 0 {
		items := order.Node{Form: order.List, Cell: true, Name: "items", Kids: o.items, At: spanOf(o.items)}
		root.Kids = append(root.Kids, items)
		root.At = items.At
	}
	return root
}
