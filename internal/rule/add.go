package rule

import (
	"cmp"
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// A Field is a field to put into a block: its name and what it says.
type Field struct{ Name, Text string }

// An Addition is how fields are put into a block.
type Addition struct {
	Edits []finding.Edit
	Of    []int // the index of the edit that has each field
	At    []int // where in its text the field's value begins
}

// Add returns how fields are put into the block n, after those that it has and
// in the manner that they are written in: on lines of their own or beside each
// other, with quote marks or without, lined up or not. It reports false where the
// block can't be edited, is a row of a table, or is written in a way that leaves no
// plain place.
func (p *Pass) Add(n *order.Node, fields []Field) (Addition, bool) {
	if !p.Editable(n) || n.Cell || n.Form != order.Map || n.At.Len() == 0 || len(fields) == 0 {
		return Addition{}, false
	}
	b := block{text: p.Order.File.Text, n: n, open: p.Order.File.Text[n.At.Start] == '{', fields: fields}
	b.flow = !n.Bare && (b.open || p.inFlow(n.At))
	for i := range n.Kids {
		if e, ok := b.entry(&n.Kids[i]); ok {
			b.entries = append(b.entries, e)
		}
	}
	slices.SortFunc(b.entries, func(x, y entry) int { return cmp.Compare(x.at.Start, y.at.Start) })
	switch {
	case len(b.entries) == 0:
		return b.intoEmpty()
	case !b.open && n.Bare:
		return b.intoShorthand()
	}
	for _, e := range slices.Backward(b.entries) {
		if a, ok := b.after(&e); ok {
			return a, true
		}
	}
	return Addition{}, false
}

// A block is a map of the order's text that fields are put into.
type block struct {
	text    string
	n       *order.Node
	open    bool // it is written in braces
	flow    bool // it is YAML in brackets
	entries []entry
	fields  []Field
}

// An entry is where a field of a block is written, quote marks included.
type entry struct {
	at     source.Range // from the name to the end of the value
	key    int          // where the name ends
	value  int          // where the value begins
	quoted bool         // the name has double quotes
	comma  bool         // a comma follows
	note   bool         // a comment follows on the line, and no other field
	last   bool         // nothing but that follows on the line
}

// entry returns where a field is written, and reports whether others can be put
// after it: it stands in one line of its own making, with nothing that belongs to
// it behind.
func (b *block) entry(k *order.Node) (entry, bool) {
	var e entry
	if k.Key.Len() == 0 || k.Key == k.At || k.Key.Start < b.n.At.Start || k.At.End > b.n.At.End || k.Unread || k.Fixed && k.Form == order.Null {
		return e, false
	}
	e.at, e.key, e.value = source.Range{Start: k.Key.Start, End: k.At.End}, k.Key.End, k.At.Start
	if q := quoted(b.text, k.Key); q != 0 {
		e.at.Start, e.key, e.quoted = e.at.Start-1, e.key+1, q == '"'
	}
	if k.Quote != 0 {
		if quoted(b.text, k.At) != k.Quote {
			return e, false
		}
		e.value--
		for e.at.End++; b.n.Bare && strings.HasPrefix(b.text[e.at.End:], "#"); e.at.End++ {
		}
	} else if !b.n.Bare && k.At.Len() > 0 && strings.IndexByte("|>", b.text[k.At.Start]) >= 0 {
		return e, false // a block of text ends with the lines after it
	}
	if e.key > e.value || strings.ContainsAny(b.text[e.at.Start:e.at.End], "\r\n\u0085\u2028\u2029") {
		return e, false
	}
	rest := strings.TrimLeft(b.text[e.at.End:b.lineEnd(e.at.End)], " \t")
	if b.open || b.n.Bare {
		rest, e.comma = strings.CutPrefix(rest, ",")
		rest = strings.TrimLeft(rest, " \t")
	}
	e.note = b.n.Bare && strings.HasPrefix(rest, "//") || !b.n.Bare && strings.HasPrefix(rest, "#")
	e.last = rest == "" || e.note
	return e, e.last || b.open && (e.comma || rest[0] == '}') || b.n.Bare && !b.open
}

// lineEnd returns where the line of i ends.
func (b *block) lineEnd(i int) int {
	if end := strings.IndexAny(b.text[i:], "\r\n"); end >= 0 {
		return i + end
	}
	return len(b.text)
}

// lead returns what stands before an entry on its line.
func (b *block) lead(e *entry) string {
	return b.text[strings.LastIndexAny(b.text[:e.at.Start], "\r\n")+1 : e.at.Start]
}

// newline is the line end that the text has.
func (b *block) newline() string {
	if strings.Contains(b.text, "\r\n") {
		return "\r\n"
	}
	return "\n"
}

// after puts the fields after an entry.
func (b *block) after(e *entry) (Addition, bool) {
	lead := b.lead(e)
	own := strings.Trim(lead, " \t") == "" && e.last
	end := b.lineEnd(e.at.End)
	line := b.newline() + lead
	switch {
	case !b.open:
		// A dash before the first field stands where a space does before the others.
		lead = strings.ReplaceAll(lead, "-", " ")
		if strings.Trim(lead, " ") != "" {
			return Addition{}, false
		}
		return b.put(end, e, b.newline()+lead, ""), true
	case own && e.comma:
		return b.put(end, e, line, ","), true
	case own && e.note && !b.flow:
		return b.put(end, e, line, ""), true // its line end separates
	case own && !e.note && (b.flow || e.quoted || b.commas()):
		return b.put(e.at.End, e, ","+line, ""), true
	case own && !e.note:
		return b.put(e.at.End, e, line, ""), true
	}
	return b.put(e.at.End, e, b.comma(e), ""), true
}

// commas reports whether the block's fields are told apart by commas.
func (b *block) commas() bool {
	return slices.ContainsFunc(b.entries, func(e entry) bool { return e.comma })
}

// comma is the mark between two fields in one line.
func (b *block) comma(e *entry) string {
	if e.value > e.key && b.text[e.value-1] == ':' && !strings.Contains(b.text[b.n.At.Start:b.n.At.End], ", ") {
		return ","
	}
	return ", "
}

// put makes an edit of each field, between the given texts and written like an
// entry; that may be nil.
func (b *block) put(at int, like *entry, before, behind string) (a Addition) {
	for i, f := range b.fields {
		name := f.Name
		if b.n.Bare && (like == nil || like.quoted) {
			name = `"` + name + `"`
		}
		start := before + name + b.gap(name, like)
		a.Of = append(a.Of, i)
		a.At = append(a.At, len(start))
		a.Edits = append(a.Edits, finding.Edit{
			Range: source.Range{Start: at, End: at}, Text: start + spell(f.Text, b.n.Bare, b.flow) + behind,
		})
	}
	return a
}

// gap is what stands between a name and its value: the colon, and as many spaces
// as line the value up with others where they are lined up.
func (b *block) gap(name string, like *entry) string {
	if like == nil {
		return ": "
	}
	before, after, ok := strings.Cut(b.text[like.key:like.value], ":")
	if !ok || strings.Trim(before+after, " ") != "" || len(before) > 1 {
		return ": "
	}
	if after == "" && b.n.Bare {
		return before + ":"
	}
	gap := before + ": "
	if slices.ContainsFunc(b.entries, func(e entry) bool { return strings.HasSuffix(b.text[e.key:e.value], "  ") }) {
		gap += strings.Repeat(" ", max(0, like.value-like.at.Start-len(name)-len(gap)))
	}
	return gap
}

// intoEmpty puts the fields into braces without any.
func (b *block) intoEmpty() (Addition, bool) {
	at := b.n.At
	if !b.open || at.Len() < 2 || strings.TrimSpace(b.text[at.Start+1:at.End-1]) != "" || b.text[at.End-1] != '}' {
		return Addition{}, false
	}
	a := b.put(at.Start+1, nil, ", ", "")
	a.Edits[0].Text = a.Edits[0].Text[len(", "):]
	a.At[0] -= len(", ")
	return a, true
}

// intoShorthand puts braces around the fields of a CUE struct that has none, as
// in holes: make: "grommet".
func (b *block) intoShorthand() (Addition, bool) {
	first, last := &b.entries[0], &b.entries[len(b.entries)-1]
	if first != last || first.at != b.n.At {
		return Addition{}, false
	}
	a := b.put(last.at.End, last, ", ", "")
	for i := range a.Of {
		a.Of[i]++
	}
	edge := func(at int, brace string) finding.Edit {
		return finding.Edit{Range: source.Range{Start: at, End: at}, Text: brace}
	}
	a.Edits = append(append([]finding.Edit{edge(first.at.Start, "{")}, a.Edits...), edge(last.at.End, "}"))
	return a, true
}
