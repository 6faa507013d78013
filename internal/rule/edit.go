package rule

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// Editable reports whether an edit may touch n: it is there, and it is not
// behind an alias, a reference or a computed value.
func (p *Pass) Editable(n *order.Node) bool { return n != nil && !n.Fixed }

// Renamable reports whether an edit may touch the name of n: it is editable, and
// the name is its own, where a table has a name for a whole column.
func (p *Pass) Renamable(n *order.Node) bool {
	return p.Editable(n) && (!n.Cell || n.Key != n.At)
}

// Set returns the edit that makes n say text, written as the file's syntax
// wants it where n stands. The words true and false are always taken for the
// truth values, whose quotes go.
func (p *Pass) Set(n *order.Node, text string) finding.Edit {
	if n.Cell {
		return p.setCell(n.At, text)
	}
	at, quote := n.At, n.Quote
	around := at // with the quotes
	if quote != 0 && quoted(p.Order.File.Text, at) == quote {
		around = source.Range{Start: at.Start - 1, End: at.End + 1}
	}
	switch {
	case text == "true" || text == "false":
		at = around
	case quote == '\'' && !n.Bare && strings.ContainsFunc(text, unprintable):
		at, text = around, `"`+escape(text, '"', false)+`"` // single ones have no escapes
	case quote != 0:
		text = escape(text, quote, n.Bare)
	default:
		text = spell(text, n.Bare, !n.Bare && p.inFlow(at))
	}
	if n.Form == order.Null && !n.Bare && at.Len() == 0 && n.Key.Len() > 0 && at.Start == n.Key.End {
		text = ": " + text // a name in braces may stand without its colon
		if quoted(p.Order.File.Text, n.Key) != 0 {
			at.Start, at.End = at.Start+1, at.End+1
		}
	}
	return p.edit(at, text)
}

// setCell returns the edit that makes a cell of a table say text. What is drawn
// from a workbook has one line a cell; a CSV text has quote marks where they are
// needed.
func (p *Pass) setCell(at source.Range, text string) finding.Edit {
	switch {
	case p.Order.File.Drawn():
		text = strings.Join(strings.Fields(text), " ")
	case quoted(p.Order.File.Text, at) == '"':
		text = strings.ReplaceAll(text, `"`, `""`)
	case strings.ContainsAny(text, "\"\r\n"+string(p.Order.File.Table.Comma)) || strings.TrimSpace(text) != text:
		text = `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return finding.Edit{Range: at, Text: text}
}

// spell writes a value without quotes, or with them where it needs them: all but
// numbers and truth values do where it stands bare.
func spell(text string, bare, flow bool) string {
	switch {
	case text == "true" || text == "false", bare && isNumber(text), !bare && !misread(text, flow):
		return text
	}
	return `"` + escape(text, '"', bare) + `"`
}

// SetKey returns the edit that renames the field n to name.
func (p *Pass) SetKey(n *order.Node, name string) finding.Edit {
	if n.Cell {
		return p.setCell(n.Key, name)
	}
	quote := quoted(p.Order.File.Text, n.Key)
	switch {
	case quote != 0:
		name = escape(name, quote, n.Bare)
	case n.Bare && !isIdentifier(name):
		name = `"` + escape(name, '"', true) + `"`
	case !n.Bare && misread(name, p.inFlow(n.Key)):
		name = `"` + escape(name, '"', false) + `"`
	}
	return p.edit(n.Key, name)
}

// edit puts text at r, with a space before it where r is a blank that touches
// the mark of its field or of its list. A comment behind a blank keeps a space
// before it, and its column where there is room.
func (p *Pass) edit(r source.Range, text string) finding.Edit {
	if r.Len() > 0 {
		return finding.Edit{Range: r, Text: text}
	}
	if r.Start > 0 && strings.IndexByte(":-,", p.Order.File.Text[r.Start-1]) >= 0 {
		text = " " + text
	}
	after := p.Order.File.Text[r.Start:]
	if rest := strings.TrimLeft(after, " "); strings.HasPrefix(rest, "#") {
		room := len(after) - len(rest)
		if room == 0 {
			text += " "
		}
		r.End += max(0, min(room-1, utf8.RuneCountInString(text)))
	}
	return finding.Edit{Range: r, Text: text}
}

// inFlow reports whether the place lies in a YAML list or map that is written
// in brackets.
func (p *Pass) inFlow(at source.Range) bool {
	n := p.Order.Root
	for n != nil {
		if n.Form == order.Map || n.Form == order.List {
			if s := p.Order.File.Text[n.At.Start:n.At.End]; s != "" && (s[0] == '{' || s[0] == '[') {
				return true
			}
		}
		n = holder(n.Kids, at)
	}
	return false
}

// holder returns the node that the place is in, or nil.
func holder(nodes []order.Node, at source.Range) *order.Node {
	for i := range nodes {
		if n := &nodes[i]; n.At.Start <= at.Start && at.End <= n.At.End && n.At.Len() > 0 {
			return n
		}
	}
	return nil
}

// quoted returns the quote mark that stands on both sides of r, or 0.
func quoted(text string, r source.Range) byte {
	if r.Start == 0 || r.End >= len(text) || text[r.Start-1] != text[r.End] {
		return 0
	}
	if q := text[r.End]; q == '"' || q == '\'' {
		return q
	}
	return 0
}

// escape writes text for the inside of a pair of quotes. Bare says that they
// are those of JSON or CUE; in YAML a single quote is doubled and nothing else
// has a meaning inside single ones.
func escape(text string, quote byte, bare bool) string {
	if quote == '\'' && !bare {
		return strings.ReplaceAll(text, "'", "''")
	}
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == rune(quote) || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case unprintable(r):
			hex := strconv.FormatInt(int64(r), 16)
			b.WriteString(`\u` + strings.Repeat("0", 4-len(hex)) + hex)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// unprintable reports whether a text can't hold r as it is in every syntax:
// control characters, what may count as the end of a line, a byte-order mark.
func unprintable(r rune) bool {
	return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || r == '\ufeff'
}

// isNumber reports whether text is a number by JSON's grammar, which CUE reads
// the same way.
func isNumber(text string) bool {
	s := strings.TrimPrefix(text, "-")
	whole := digits(s)
	if whole == 0 || (whole > 1 && s[0] == '0') {
		return false
	}
	s = s[whole:]
	if strings.HasPrefix(s, ".") {
		n := digits(s[1:])
		if n == 0 {
			return false
		}
		s = s[1+n:]
	}
	if s != "" && (s[0] == 'e' || s[0] == 'E') {
		s = s[1:]
		if s != "" && (s[0] == '+' || s[0] == '-') {
			s = s[1:]
		}
		return s != "" && digits(s) == len(s)
	}
	return s == ""
}

// digits returns how many digits text begins with.
func digits(text string) int {
	n := 0
	for n < len(text) && '0' <= text[n] && text[n] <= '9' {
		n++
	}
	return n
}

// isIdentifier reports whether name can be a field of a CUE struct without
// quotes. One that begins with an underscore would be hidden.
func isIdentifier(name string) bool {
	for i, r := range name {
		if r != '_' && !unicode.IsLetter(r) && (i == 0 || !unicode.IsDigit(r)) {
			return false
		}
	}
	return name != "" && name[0] != '_'
}

// misread reports whether YAML would take text without quotes for anything but
// that text: for a comment, a map, a list, an anchor, a null.
func misread(text string, flow bool) bool {
	if text == "" || text != strings.TrimSpace(text) || !utf8.ValidString(text) {
		return true
	}
	switch strings.ToLower(text) {
	case "~", "null", "---", "...":
		return true
	}
	if strings.IndexByte("!&*|>@`%#,[]{}\"'", text[0]) >= 0 {
		return true
	}
	if strings.IndexByte("-?:", text[0]) >= 0 && (len(text) == 1 || text[1] == ' ' || flow) {
		return true
	}
	if strings.HasSuffix(text, ":") || strings.Contains(text, ": ") || strings.Contains(text, " #") {
		return true
	}
	if flow && strings.ContainsAny(text, ",[]{}?:") { // the last two end a word there, before a comma
		return true
	}
	return strings.ContainsFunc(text, unprintable)
}
