package yaml

import (
	"strings"
	"unicode/utf8"

	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// A plain reads the YAML that nearly all orders are written in: block maps and lists,
// maps and lists in brackets on one line, plain and quoted scalars on one line, comments,
// and documents after a line of three hyphens. It steps aside for all else, and for all
// that may be wrong: then the library reads the whole file, which makes the same tree of
// what this can read.
type plain struct {
	b    *syntax.Builder
	text string
	at   int  // where the first word of the line stands that is to be read next
	col  int  // its column, from 0
	over bool // no line of this document is left
}

// plainDocuments reads the documents of a file, and reports false where it steps aside.
// What it has built by then is to be forgotten.
func plainDocuments(b *syntax.Builder, text string, start int) bool {
	if !plainCharacters(text[start:]) {
		return false
	}
	p := &plain{b: b, text: text}
	for i := start; ; {
		if !p.line(i) {
			return false
		}
		if !p.over {
			var n order.Node
			if p.col != 0 || !p.block(&n, 0, 0) || !p.over {
				return false
			}
			b.Finish(n)
		}
		if p.at == len(text) {
			return true
		}
		var ok bool
		if i, ok = p.rest(p.at + len("---")); !ok { // the line that ended the document
			return false
		}
	}
}

// plainCharacters reports whether a text has no other line ends than usual ones, no tabs
// and nothing that YAML does not take.
func plainCharacters(text string) bool {
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case ' ' <= c && c < 0x7f || c == '\n':
		case c == '\r':
			if i+1 == len(text) || text[i+1] != '\n' {
				return false
			}
		case c < utf8.RuneSelf:
			return false
		default:
			r, size := utf8.DecodeRuneInString(text[i:])
			if r == utf8.RuneError && size == 1 || syntax.Unprintable(r) {
				return false
			}
			i += size - 1
		}
	}
	return true
}

// line finds the next line with a word on it, from the start of a line on. A line of
// three hyphens ends the document, as the end of the text does.
func (p *plain) line(i int) bool {
	for i < len(p.text) {
		start := i
		i = p.blanks(i)
		if i < len(p.text) && p.text[i] != '#' && p.text[i] != '\n' && p.text[i] != '\r' {
			p.at, p.col = i, i-start
			rest := p.text[i:]
			if p.col == 0 && (rest[0] == '%' || strings.HasPrefix(rest, "...")) {
				return false
			}
			p.over = p.col == 0 && marks(rest, "---")
			return true
		}
		end := strings.IndexByte(p.text[i:], '\n')
		if end < 0 {
			break
		}
		i += end + 1
	}
	p.at, p.col, p.over = len(p.text), 0, true
	return true
}

// rest returns where the next line starts, if nothing but blanks and a comment stand
// behind i.
func (p *plain) rest(i int) (next int, ok bool) {
	start := i
	if i = p.blanks(i); i == len(p.text) {
		return i, true
	}
	switch c := p.text[i]; {
	case c == '\n':
		return i + 1, true
	case c == '\r':
		return i + 2, true
	case c == '#' && i > start:
		if end := strings.IndexByte(p.text[i:], '\n'); end >= 0 {
			return i + end + 1, true
		}
		return len(p.text), true
	}
	return i, false
}

// blanks returns where what is blank from i on ends.
func (p *plain) blanks(i int) int {
	for i < len(p.text) && p.text[i] == ' ' {
		i++
	}
	return i
}

// ends reports whether a blank or the end of a line stands at i.
func (p *plain) ends(i int) bool {
	return i >= len(p.text) || p.text[i] == ' ' || p.text[i] == '\n' || p.text[i] == '\r'
}

// dash reports whether the line is an entry of a list.
func (p *plain) dash() bool { return !p.over && p.text[p.at] == '-' && p.ends(p.at+1) }

// block reads the map or list that begins with this line.
func (p *plain) block(n *order.Node, col, depth int) bool {
	if depth > syntax.MaxDepth {
		return false
	}
	start, mark := p.at, len(p.b.Stack)
	n.Form = order.Map
	if p.dash() {
		n.Form = order.List
	}
	end := start
	for !p.over && p.col == col && p.dash() == (n.Form == order.List) {
		var kid order.Node
		var ok bool
		if n.Form == order.List {
			ok = p.entry(&kid, col, depth)
		} else {
			ok = p.field(&kid, col, depth)
		}
		if !ok || !p.over && p.col > col {
			return false
		}
		end = max(end, kid.At.End+quoteSize(&kid), kid.Key.End)
		p.b.Stack = append(p.b.Stack, kid)
	}
	n.Kids = p.b.Settle(mark)
	n.At = source.Range{Start: start, End: end}
	return true
}

// entry reads an entry of a list whose dash stands in a column.
func (p *plain) entry(kid *order.Node, col, depth int) bool {
	i := p.blanks(p.at + 1)
	if p.ends(i) || p.text[i] == '#' {
		return false
	}
	if c := p.text[i]; c != '{' && c != '[' && p.named(i) {
		p.at, p.col = i, col+i-p.at
		return !p.dash() && p.block(kid, p.col, depth+1)
	}
	return p.last(kid, i, depth)
}

// named reports whether a field's name may begin at i: a colon ends it on this line. What
// looks so and is none makes the reader step aside.
func (p *plain) named(i int) bool {
	line := p.text[i:syntax.LineEnd(p.text, i)]
	return strings.HasSuffix(line, ":") || strings.Contains(line, ": ")
}

// last reads a value with which its line ends.
func (p *plain) last(n *order.Node, i, depth int) bool {
	i, ok := p.value(n, i, false, depth+1)
	if !ok {
		return false
	}
	i, ok = p.rest(i)
	return ok && p.line(i)
}

// field reads a field of a map whose names stand in a column.
func (p *plain) field(kid *order.Node, col, depth int) bool {
	i, ok := p.key(kid, p.at, false)
	if !ok {
		return false
	}
	next, blank := p.rest(i)
	if !blank {
		return p.last(kid, p.blanks(i), depth)
	}
	if !p.line(next) {
		return false
	}
	if !p.over && p.col > col || p.dash() && p.col == col {
		return p.block(kid, p.col, depth+1)
	}
	p.blank(kid, i)
	return true
}

// blank makes a null of the value that no one wrote behind the colon before i.
func (p *plain) blank(kid *order.Node, i int) {
	if i < len(p.text) && p.text[i] == ' ' {
		i++
	}
	kid.At = source.Range{Start: i, End: i}
}

// key reads the name of a field, and returns where its colon ends.
func (p *plain) key(kid *order.Node, i int, flow bool) (int, bool) {
	var end int
	if c := p.text[i]; c == '"' || c == '\'' {
		var k order.Node
		var ok bool
		if end, ok = p.quoted(&k, i); !ok {
			return 0, false
		}
		kid.Name, kid.Key = k.Text, k.At
	} else {
		if c == '-' || !p.begins(i, flow) {
			return 0, false
		}
		for end = i; !(p.text[end] == ':' && p.ends(end+1)); {
			if end++; end == len(p.text) || p.stops(end, flow) || p.text[end] == ':' && flow && !p.ends(end+1) {
				return 0, false
			}
		}
		kid.Name, kid.Key = p.text[i:end], source.Range{Start: i, End: end}
	}
	if kid.Name == "<<" || end-i > 500 || p.text[end-1] == ' ' || end == len(p.text) || p.text[end] != ':' || !p.ends(end+1) {
		return 0, false
	}
	return end + 1, true
}

// begins reports whether a plain scalar may begin with the character at i.
func (p *plain) begins(i int, flow bool) bool {
	switch c := p.text[i]; c {
	case '?', ':', ',', '[', ']', '{', '}', '#', '&', '*', '!', '|', '>', '\'', '"', '%', '@', '`', ' ', '\n', '\r':
		return false
	case '-':
		return !p.ends(i+1) && !(flow && inBrackets(p.text[i+1]))
	}
	return true
}

// stops reports whether a plain scalar does not go on at i: at the end of its line, at a
// comment, or within brackets at one of their marks.
func (p *plain) stops(i int, flow bool) bool {
	c := p.text[i]
	return c == '\n' || c == '\r' || c == '#' && p.text[i-1] == ' ' || flow && inBrackets(c)
}

// inBrackets reports whether a character has a meaning of its own within brackets.
func inBrackets(c byte) bool {
	switch c {
	case ',', '?', '[', ']', '{', '}':
		return true
	}
	return false
}

// value reads a value that begins at i, and returns where it ends.
func (p *plain) value(n *order.Node, i int, flow bool, depth int) (int, bool) {
	switch p.text[i] {
	case '"', '\'':
		n.Form = order.Scalar
		return p.quoted(n, i)
	case '{', '[':
		return p.brackets(n, i, depth)
	}
	if !p.begins(i, flow) {
		return 0, false
	}
	end := i
	for end < len(p.text) && !p.stops(end, flow) {
		if p.text[end] == ':' && (p.ends(end+1) || flow && inBrackets(p.text[end+1])) {
			return 0, false
		}
		end++
	}
	n.Text = strings.TrimRight(p.text[i:end], " ")
	n.Form = plainForm(n.Text)
	n.At = source.Range{Start: i, End: i + len(n.Text)}
	return n.At.End, true
}

// quoted reads a text in quotes, without its form, and returns where it ends.
func (p *plain) quoted(n *order.Node, i int) (int, bool) {
	quote := p.text[i]
	end := quoteEnd(p.text, i+1, quote)
	if end == len(p.text) {
		return 0, false
	}
	text := p.text[i+1 : end]
	if strings.ContainsAny(text, "\r\n") {
		return 0, false
	}
	n.Quote = quote
	n.At = source.Range{Start: i + 1, End: end}
	switch {
	case quote == '\'':
		text = strings.ReplaceAll(text, "''", "'")
	case strings.Contains(text, `\`):
		var b strings.Builder
		for k := 0; k < len(text); k++ {
			if text[k] == '\\' {
				if k++; text[k] != '"' && text[k] != '\\' {
					return 0, false
				}
			}
			b.WriteByte(text[k])
		}
		text = b.String()
	}
	n.Text = text
	return end + 1, true
}

// brackets reads a map or a list in brackets on one line, and returns where it ends.
func (p *plain) brackets(n *order.Node, i, depth int) (int, bool) {
	if depth > syntax.MaxDepth {
		return 0, false
	}
	start, mark := i, len(p.b.Stack)
	closing := byte(']')
	n.Form = order.List
	if p.text[i] == '{' {
		n.Form, closing = order.Map, '}'
	}
	for i++; ; i++ { // behind the bracket, or behind a comma
		if i = p.blanks(i); i == len(p.text) {
			return 0, false
		}
		if p.text[i] == closing {
			break
		}
		var kid order.Node
		var ok bool
		if n.Form == order.Map {
			colon, ok := p.key(&kid, i, true)
			if !ok {
				return 0, false
			}
			if i = p.blanks(colon); i == len(p.text) {
				return 0, false
			}
			if p.text[i] == ',' || p.text[i] == closing {
				p.blank(&kid, colon)
			}
		}
		if n.Form == order.List || kid.At.End == 0 {
			if i, ok = p.value(&kid, i, true, depth+1); !ok {
				return 0, false
			}
		}
		p.b.Stack = append(p.b.Stack, kid)
		if i = p.blanks(i); i == len(p.text) || p.text[i] != ',' && p.text[i] != closing {
			return 0, false
		}
		if p.text[i] == closing {
			break
		}
	}
	n.Kids = p.b.Settle(mark)
	n.At = source.Range{Start: start, End: i + 1}
	return i + 1, true
}
