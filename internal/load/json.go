package load

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
)

// A jsonReader walks the tokens of one JSON text.
type jsonReader struct {
	b    *builder
	text string
	base int // where text lies in the file
	dec  jsontext.Decoder
	in   bytes.Buffer
}

var jsonReaders = sync.Pool{New: func() any { return new(jsonReader) }}

// json reads the JSON values of text, which lies at base in the file.
func (b *builder) json(text string, base int) {
	if base == 0 && strings.HasPrefix(text, byteOrderMark) {
		base = len(byteOrderMark)
		text = text[base:]
	}
	r := jsonReaders.Get().(*jsonReader)
	r.b, r.text, r.base = b, text, base
	r.in.Reset()
	r.in.WriteString(text)
	// Names given twice are told with both places, when the form is checked.
	r.dec.Reset(&r.in, jsontext.AllowDuplicateNames(true))
	for {
		var n order.Node
		flt := r.value(&n, 0)
		if flt != nil {
			if flt.detail != "" {
				b.unreadable(flt.at, flt.detail)
			}
			break
		}
		b.finish(n)
	}
	r.b, r.text = nil, ""
	jsonReaders.Put(r)
}

// jsonLines reads each line as JSON of its own, so that a broken one does not
// hide those after it.
func (b *builder) jsonLines() {
	text, base := b.f.Text, 0
	if strings.HasPrefix(text, byteOrderMark) {
		base = len(byteOrderMark)
	}
	for base < len(text) {
		end := strings.IndexByte(text[base:], '\n')
		if end < 0 {
			end = len(text) - base
		}
		if line := text[base : base+end]; strings.TrimSpace(line) != "" {
			b.json(line, base)
		}
		base += end + 1
	}
}

// offset is where the token that was read last ends in the file.
func (r *jsonReader) offset() int { return r.base + int(r.dec.InputOffset()) }

// value reads the next value into n. At the end of the text it returns a fault
// without words.
func (r *jsonReader) value(n *order.Node, depth int) *fault {
	n.Bare = true
	switch kind := r.dec.PeekKind(); kind {
	case '{', '[':
		return r.group(n, kind, depth)
	case '"':
		raw, err := r.dec.ReadValue()
		if err != nil {
			return r.fault(err)
		}
		n.Form, n.Quote = order.Scalar, '"'
		n.Text, n.At = r.quoted(raw)
	default:
		raw, err := r.dec.ReadValue()
		if err != nil {
			return r.fault(err)
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
	}
	return nil
}

// group reads an object or an array.
func (r *jsonReader) group(n *order.Node, open jsontext.Kind, depth int) *fault {
	if _, err := r.dec.ReadToken(); err != nil {
		return r.fault(err)
	}
	n.Form = order.Map
	closed := jsontext.Kind('}')
	if open == '[' {
		n.Form, closed = order.List, ']'
	}
	n.At.Start = r.offset() - 1
	if depth == maxDepth {
		return tooDeep(source.Range{Start: n.At.Start, End: n.At.Start + 1})
	}
	mark := len(r.b.stack)
	for {
		if r.dec.PeekKind() == closed {
			break
		}
		var kid order.Node
		if open == '{' {
			raw, err := r.dec.ReadValue()
			if err != nil {
				return r.fault(err)
			}
			kid.Name, kid.Key = r.quoted(raw)
		}
		if flt := r.value(&kid, depth+1); flt != nil {
			if flt.detail == "" {
				flt = r.fault(io.ErrUnexpectedEOF)
			}
			return flt
		}
		r.b.stack = append(r.b.stack, kid)
	}
	if _, err := r.dec.ReadToken(); err != nil {
		return r.fault(err)
	}
	n.At.End = r.offset()
	n.Kids = r.b.settle(mark)
	return nil
}

// quoted returns what the string that was read last says, and its range within
// the quotes.
func (r *jsonReader) quoted(raw []byte) (string, source.Range) {
	end := r.offset() - 1
	at := source.Range{Start: end - len(raw) + 2, End: end}
	if bytes.IndexByte(raw, '\\') < 0 {
		return r.text[at.Start-r.base : at.End-r.base], at
	}
	said, _ := jsontext.AppendUnquote(nil, raw)
	return string(said), at
}

// fault says what stopped the reading, and where.
func (r *jsonReader) fault(err error) *fault {
	if err == io.EOF {
		return &fault{}
	}
	at, detail := r.base+len(r.text), "it ends too early: a bracket or a quote mark is not closed"
	if syntax := (*jsontext.SyntacticError)(nil); errors.As(err, &syntax) {
		if !errors.Is(err, io.ErrUnexpectedEOF) {
			at = r.base + int(syntax.ByteOffset)
			detail = strings.TrimPrefix(syntax.Err.Error(), "jsontext: ")
		}
	} else if !errors.Is(err, io.ErrUnexpectedEOF) {
		detail = err.Error()
	}
	at = min(at, r.base+len(r.text))
	_, size := utf8.DecodeRuneInString(r.text[at-r.base:])
	return &fault{source.Range{Start: at, End: at + size}, detail}
}
