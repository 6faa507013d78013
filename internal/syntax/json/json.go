// Package json reads orders in JSON and JSON Lines, and writes edits in them.
package json

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"

	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// Read reads the JSON values of a file into m.
func Read(f *source.File, m *order.Memory) []syntax.Root {
	b := newBuilder(f, m)
	defer b.Done()
	read(b, f.Text, 0)
	if begin := strings.TrimLeft(strings.TrimPrefix(f.Text, syntax.ByteOrderMark), " \t\r\n"); begin != "" && len(b.Roots) == 1 && !strings.ContainsAny(begin[:1], `{["`) {
		for i := range b.Roots[0].Flaws {
			if flt := &b.Roots[0].Flaws[i]; flt.Kind == order.Unreadable {
				flt.Detail = "it is not JSON; if it is YAML, let the file's name end in .yaml"
			}
		}
	}
	return b.Roots
}

// ReadLines reads each line of a file as JSON of its own, so that a broken one does
// not hide those after it.
func ReadLines(f *source.File, m *order.Memory) []syntax.Root {
	b := newBuilder(f, m)
	defer b.Done()
	text, base := f.Text, 0
	if strings.HasPrefix(text, syntax.ByteOrderMark) {
		base = len(syntax.ByteOrderMark)
	}
	for base < len(text) {
		end := strings.IndexByte(text[base:], '\n')
		if end < 0 {
			end = len(text) - base
		}
		if line := text[base : base+end]; strings.TrimSpace(line) != "" {
			read(b, line, base)
		}
		base += end + 1
	}
	return b.Roots
}

func newBuilder(f *source.File, m *order.Memory) *syntax.Builder {
	return syntax.NewBuilder(f, m, ",", "{", "[")
}

// A reader walks the tokens of one JSON text.
type reader struct {
	b    *syntax.Builder
	text string
	base int // where text lies in the file
	dec  jsontext.Decoder
	in   bytes.Buffer
}

// maxKept is the largest buffer that is kept for the next text.
const maxKept = 1 << 20

var readers = sync.Pool{New: func() any { return new(reader) }}

// read reads the JSON values of text, which lies at base in the file.
func read(b *syntax.Builder, text string, base int) {
	if base == 0 && strings.HasPrefix(text, syntax.ByteOrderMark) {
		base = len(syntax.ByteOrderMark)
		text = text[base:]
	}
	r := readers.Get().(*reader)
	r.b, r.text, r.base = b, text, base
	r.in.Reset()
	r.in.WriteString(text)
	// Names given twice are told with both places, when the form is checked.
	r.dec.Reset(&r.in, jsontext.AllowDuplicateNames(true))
	for {
		if flt := r.value(0); flt != nil {
			if flt.Detail != "" {
				b.Unreadable(flt)
			}
			break
		}
		n := b.Stack[0]
		b.Stack = b.Stack[:0]
		b.Finish(n)
	}
	r.b, r.text = nil, ""
	if r.in.Cap() <= maxKept {
		readers.Put(r)
	}
}

// offset is where the token that was read last ends in the file.
func (r *reader) offset() int { return r.base + int(r.dec.InputOffset()) }

// value puts the next value on the stack. At the end of the text it returns a
// fault without words.
func (r *reader) value(depth int) *syntax.Fault {
	kind := r.dec.PeekKind()
	if kind == '{' || kind == '[' {
		return r.group(kind, depth)
	}
	raw, err := r.dec.ReadValue()
	if err != nil {
		return r.fault(err)
	}
	n := r.b.Push()
	if kind == '"' {
		n.Form, n.Quote = order.Scalar, '"'
		n.Text, n.At = r.quoted(raw)
		return nil
	}
	end := r.offset()
	n.At = source.Range{Start: end - len(raw), End: end}
	n.Text = r.text[n.At.Start-r.base : end-r.base]
	switch kind {
	case 'n':
		n.Form = order.Null
	case 't', 'f':
		n.Form = order.Truth
	default:
		n.Form = order.Number
	}
	return nil
}

// group puts an object or an array on the stack.
func (r *reader) group(open jsontext.Kind, depth int) *syntax.Fault {
	form, closed := order.Map, jsontext.Kind('}')
	if open == '[' {
		form, closed = order.List, ']'
	}
	if _, err := r.dec.ReadToken(); err != nil {
		return r.fault(err)
	}
	start := r.offset() - 1
	if depth == syntax.MaxDepth {
		return syntax.TooDeep(source.Range{Start: start, End: start + 1})
	}
	r.b.Push()
	mark := len(r.b.Stack)
	for r.dec.PeekKind() != closed {
		var name string
		var key source.Range
		if open == '{' {
			raw, err := r.dec.ReadValue()
			if err != nil {
				return r.fault(err)
			}
			name, key = r.quoted(raw)
		}
		kid := len(r.b.Stack)
		if flt := r.value(depth + 1); flt != nil {
			return flt
		}
		r.b.Stack[kid].Name, r.b.Stack[kid].Key = name, key
	}
	if _, err := r.dec.ReadToken(); err != nil {
		return r.fault(err)
	}
	kids := r.b.Settle(mark)
	n := &r.b.Stack[mark-1]
	n.Form, n.Kids = form, kids
	n.At = source.Range{Start: start, End: r.offset()}
	return nil
}

// quoted returns what the string that was read last says, and its range within
// the quotes.
func (r *reader) quoted(raw []byte) (string, source.Range) {
	end := r.offset() - 1
	at := source.Range{Start: end - len(raw) + 2, End: end}
	if bytes.IndexByte(raw, '\\') < 0 {
		return r.text[at.Start-r.base : at.End-r.base], at
	}
	said, _ := jsontext.AppendUnquote(nil, raw)
	return string(said), at
}

// fault says what stopped the reading, and where.
func (r *reader) fault(err error) *syntax.Fault {
	if err == io.EOF {
		return &syntax.Fault{}
	}
	at, detail := r.base+len(r.text), "it ends too early; a bracket or a quote mark is not closed"
	if wrong := (*jsontext.SyntacticError)(nil); errors.As(err, &wrong) {
		if !errors.Is(err, io.ErrUnexpectedEOF) {
			at = min(r.base+int(wrong.ByteOffset), r.base+len(r.text))
			detail = said(r.text[:at-r.base], r.text[at-r.base:], strings.TrimPrefix(wrong.Err.Error(), "jsontext: "))
			if escape := escaped(r.text[at-r.base:]); escape > 0 {
				return syntax.NewFault(source.Range{Start: at, End: at + escape}, detail)
			}
		}
	} else if !errors.Is(err, io.ErrUnexpectedEOF) {
		detail = err.Error()
	}
	at = min(at, r.base+len(r.text))
	_, size := utf8.DecodeRuneInString(r.text[at-r.base:])
	return syntax.NewFault(source.Range{Start: at, End: at + size}, detail)
}

// sayings are the parser's complaints, or the ends of them, in plainer words.
var sayings = [...]struct{ parser, says string }{
	{"(expecting ':')", "a name has no colon after it"},
	{"object member name must be a string", "a name has to be in double quotes"},
	{"missing value after object name", "nothing stands behind this name; write null to leave it blank"},
	{"in number (expecting digit)", "a number has to be plain, as 9.5; put anything else in double quotes, as \"9 1/2\""},
}

// said says what the parser complains of, which stands between the two parts of a text.
func said(before, rest, complaint string) string {
	c, size := utf8.DecodeRuneInString(rest)
	is := func(what string) bool { return strings.Contains(complaint, what) }
	last := byte(0)
	if before = strings.TrimRight(before, " \t\r\n"); before != "" {
		last = before[len(before)-1]
	}
	switch {
	case is("invalid surrogate pair"), is("invalid escape sequence") && strings.HasPrefix(rest, `\u`) && escaped(rest) == 6:
		return rest[:escaped(rest)] + " is half of a character; write the character itself"
	case is("invalid escape sequence"):
		return "a backslash in quotes has a special meaning; write it twice"
	case is("non-control character") && (c == '\n' || c == '\r'):
		return "a quote mark is not closed on its line"
	case is("non-control character"):
		return "there is a control character in quotes; take it out, or write a tab as \\t"
	case !strings.ContainsAny(before, "{["):
		return "it is not JSON, which begins with { or ["
	case c == '“' || c == '”' || c == '„' || c == '‘' || c == '’' || c == '\'':
		return "words have to be in plain double quotes, as \"kelp\""
	case is("at start of value") && c == ',' && last != ':':
		return "nothing stands before or behind this comma; take it out"
	case is("at start of value") && last == ':' && (c == '}' || c == ']' || c == ',' || c == ':'):
		return "nothing stands before this " + rest[:size] + "; write null to leave a field blank"
	case (is("at start of value") || is("(expecting ',' or")) && (c == '}' || c == ']'):
		return "there is no bracket that this one closes"
	case is("at start of value") && (last == '}' || last == ']'):
		return "this stands behind the bracket that closes the order"
	case is("at start of value") && (last == '{' || last == ','), is("at start of string"):
		return "a name has to be in double quotes, and so have words and lengths such as 9 1/2"
	case is("(expecting ',' or") && last == '0' && c >= '0' && c <= '9':
		return "a number can't begin with 0; put the number of an order in double quotes"
	case is("(expecting ',' or"):
		return "a comma is missing before this, or a length such as \"9 1/2\" is not in double quotes"
	case is("at start of value"), is("in literal"):
		return "words, and lengths such as 9 1/2, have to be in double quotes"
	}
	for _, s := range sayings {
		if is(s.parser) {
			return s.says
		}
	}
	return complaint
}

// escaped is how long the character is that is written with a backslash at the start of a
// text; 0 where there is none.
func escaped(text string) int {
	switch {
	case !strings.HasPrefix(text, `\`):
		return 0
	case len(text) < 6 || text[1] != 'u' || strings.Trim(text[2:6], "0123456789abcdefABCDEF") != "":
		return min(2, len(text))
	}
	return 6
}
