package syntax

import (
	"cmp"
	"slices"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// SetQuoted is [order.Writer.Set] where all texts have double quotes.
func SetQuoted(o *order.Order, n *order.Node, text string) finding.Edit {
	at := n.At
	switch {
	case IsTruth(text):
		at = Around(o.File.Text, at, n.Quote)
	case n.Quote != 0:
		text = Escape(text)
	default:
		text = WithQuotes(text)
	}
	return finding.Edit{Range: at, Text: text}
}

// WithQuotes writes a value in double quotes, which numbers and truth values do
// without.
func WithQuotes(text string) string {
	digit := func(c byte) bool { return '0' <= c && c <= '9' }
	number := text != "" && (text[0] == '-' || digit(text[0])) && digit(text[len(text)-1]) && jsontext.Value(text).IsValid()
	if number || IsTruth(text) {
		return text
	}
	return Quote(text)
}

// A Manner is how a syntax writes the fields of a block.
type Manner struct {
	Note   string              // what a comment begins with
	Quotes bool                // a name may have double quotes, and a value may touch the colon
	Commas bool                // fields in braces have commas between them, on lines of their own too
	Value  func(string) string // writes a value
}

// A Block is a map of an order's text that fields are put into.
type Block struct {
	Manner
	Open    bool // it is written in braces
	Entries []Entry

	text   string
	n      *order.Node
	fields []order.Added
}

// An Entry is where a field of a block is written, quote marks included.
type Entry struct {
	At     source.Range // from the name to the end of the value
	key    int          // where the name ends
	value  int          // where the value begins
	quoted bool         // the name has double quotes
	comma  bool         // a comma follows
	note   bool         // a comment follows on the line, and no other field
	last   bool         // nothing but that follows on the line
}

// NewBlock returns the block n, with the fields to put into it. It reports false
// where it can't be edited.
func NewBlock(o *order.Order, n *order.Node, fields []order.Added, m Manner) (*Block, bool) {
	if n == nil || n.Fixed || n.Form != order.Map || n.At.Len() == 0 || len(fields) == 0 {
		return nil, false
	}
	b := &Block{Manner: m, text: o.File.Text, n: n, Open: o.File.Text[n.At.Start] == '{', fields: fields}
	for i := range n.Kids {
		if e, ok := b.entry(&n.Kids[i]); ok {
			b.Entries = append(b.Entries, e)
		}
	}
	slices.SortFunc(b.Entries, func(x, y Entry) int { return cmp.Compare(x.At.Start, y.At.Start) })
	return b, true
}

// entry returns where a field is written, and reports whether others can be put
// after it: it stands in one line of its own making, with nothing that belongs to
// it behind.
func (b *Block) entry(k *order.Node) (Entry, bool) {
	var e Entry
	if k.Key.Len() == 0 || k.Key == k.At || k.Key.Start < b.n.At.Start || k.At.End > b.n.At.End || k.Unread || k.Fixed && k.Form == order.Null {
		return e, false
	}
	e.At, e.key, e.value = source.Range{Start: k.Key.Start, End: k.At.End}, k.Key.End, k.At.Start
	if q := Quoted(b.text, k.Key); q != 0 {
		e.At.Start, e.key, e.quoted = e.At.Start-1, e.key+1, q == '"'
	}
	if k.Quote != 0 {
		if Quoted(b.text, k.At) != k.Quote {
			return e, false
		}
		e.value--
		for e.At.End++; b.Quotes && strings.HasPrefix(b.text[e.At.End:], "#"); e.At.End++ {
		}
	} else if !b.Quotes && k.At.Len() > 0 && strings.IndexByte("|>", b.text[k.At.Start]) >= 0 {
		return e, false // a block of text ends with the lines after it
	}
	if e.key > e.value || strings.ContainsAny(b.text[e.At.Start:e.At.End], "\r\n\u0085\u2028\u2029") {
		return e, false
	}
	rest := strings.TrimLeft(b.text[e.At.End:LineEnd(b.text, e.At.End)], " \t")
	if b.Open || b.Quotes {
		rest, e.comma = strings.CutPrefix(rest, ",")
		rest = strings.TrimLeft(rest, " \t")
	}
	e.note = strings.HasPrefix(rest, b.Note)
	e.last = rest == "" || e.note
	return e, e.last || b.Open && (e.comma || rest[0] == '}') || b.Quotes && !b.Open
}

// Lead returns what stands before an entry on its line.
func (b *Block) Lead(e *Entry) string {
	return b.text[strings.LastIndexAny(b.text[:e.At.Start], "\r\n")+1 : e.At.Start]
}

// Newline is the line end that the text has.
func (b *Block) Newline() string {
	if strings.Contains(b.text, "\r\n") {
		return "\r\n"
	}
	return "\n"
}

// Add puts the fields into a block in braces.
func (b *Block) Add() (order.Addition, bool) {
	if n := len(b.Entries); n > 0 {
		return b.after(&b.Entries[n-1]), true
	}
	at := b.n.At
	if !b.Open || at.Len() < 2 || strings.TrimSpace(b.text[at.Start+1:at.End-1]) != "" || b.text[at.End-1] != '}' {
		return order.Addition{}, false
	}
	a := b.Put(at.Start+1, nil, ", ", "")
	a.Edits[0].Text = a.Edits[0].Text[len(", "):]
	a.At[0] -= len(", ")
	return a, true
}

// after puts the fields after an entry in braces.
func (b *Block) after(e *Entry) order.Addition {
	lead := b.Lead(e)
	if strings.Trim(lead, " \t") != "" || !e.last || e.note && !e.comma && b.Commas {
		return b.Put(e.At.End, e, b.comma(e), "")
	}
	line, end := b.Newline()+lead, LineEnd(b.text, e.At.End)
	switch {
	case e.comma:
		return b.Put(end, e, line, ",")
	case e.note:
		return b.Put(end, e, line, "") // its line end separates
	case b.Commas, e.quoted, slices.ContainsFunc(b.Entries, func(e Entry) bool { return e.comma }):
		return b.Put(e.At.End, e, ","+line, "")
	}
	return b.Put(e.At.End, e, line, "")
}

// comma is the mark between two fields in one line.
func (b *Block) comma(e *Entry) string {
	if e.value > e.key && b.text[e.value-1] == ':' && !strings.Contains(b.text[b.n.At.Start:b.n.At.End], ", ") {
		return ","
	}
	return ", "
}

// Put makes an edit of each field, between the given texts and written like an
// entry; that may be nil.
func (b *Block) Put(at int, like *Entry, before, behind string) (a order.Addition) {
	for i, f := range b.fields {
		name := f.Name
		if b.Quotes && (like == nil || like.quoted) {
			name = `"` + name + `"`
		}
		start := before + name + b.gap(name, like)
		a.Of = append(a.Of, i)
		a.At = append(a.At, len(start))
		a.Edits = append(a.Edits, finding.Edit{Range: source.Range{Start: at, End: at}, Text: start + b.Value(f.Text) + behind})
	}
	return a
}

// gap is what stands between a name and its value: the colon, and as many spaces
// as line the value up with others where they are lined up.
func (b *Block) gap(name string, like *Entry) string {
	if like == nil {
		return ": "
	}
	before, after, ok := strings.Cut(b.text[like.key:like.value], ":")
	if !ok || strings.Trim(before+after, " ") != "" || len(before) > 1 {
		return ": "
	}
	if after == "" && b.Quotes {
		return before + ":"
	}
	gap := before + ": "
	if slices.ContainsFunc(b.Entries, func(e Entry) bool { return strings.HasSuffix(b.text[e.key:e.value], "  ") }) {
		gap += strings.Repeat(" ", max(0, like.value-like.At.Start-len(name)-len(gap)))
	}
	return gap
}
