package yaml

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// word returns where the word that starts at i ends.
func (r *reader) word(i int) int {
	if end := strings.IndexAny(r.text[i:], " \t\r\n,[]{}"); end >= 0 {
		return i + end
	}
	return len(r.text)
}

// quoteSize is how many bytes of quote marks follow a scalar.
func quoteSize(n *order.Node) int {
	if n.Quote != 0 {
		return 1
	}
	return 0
}

// extent returns the range of a collection that starts at start and whose last
// value ends at end. What stands for an alias has the alias's place, whatever its extent.
func (r *reader) extent(y *yaml.Node, start, end int, open, closed byte) source.Range {
	start = r.properties(start)
	if r.On || y.Style&yaml.FlowStyle == 0 || start >= len(r.text) || r.text[start] != open {
		return source.Range{Start: min(start, max(end, start)), End: max(end, start)}
	}
	i := max(end, start+1)
	for i < len(r.text) && r.text[i] != closed {
		if r.text[i] == '#' {
			i = syntax.LineEnd(r.text, i)
			continue
		}
		i++
	}
	return source.Range{Start: start, End: min(i+1, len(r.text))}
}

// end returns where y ends, without its closing marks.
func (r *reader) end(y *yaml.Node) int {
	start := r.offset(y)
	switch y.Kind {
	case yaml.AliasNode:
		return r.word(start)
	case yaml.ScalarNode:
		at, _, _ := r.scalar(y, start)
		return at.End
	}
	end := start
	for _, k := range y.Content {
		end = max(end, r.end(k))
	}
	open, closed := byte('{'), byte('}')
	if y.Kind == yaml.SequenceNode {
		open, closed = '[', ']'
	}
	return r.extent(y, start, end, open, closed).End
}

// afterColon returns where the value of a name would go that has none: after
// its colon, and a space if one stands there.
func (r *reader) afterColon(key, at source.Range) source.Range {
	i := key.End
	if i < len(r.text) && (r.text[i] == '"' || r.text[i] == '\'') {
		i++
	}
	for i < len(r.text) && (r.text[i] == ' ' || r.text[i] == '\t') {
		i++
	}
	if i >= len(r.text) || r.text[i] != ':' {
		return source.Range{Start: key.End, End: key.End}
	}
	i++
	if i < len(r.text) && r.text[i] == ' ' {
		i++
	}
	if at.Start > i && strings.TrimLeft(r.text[i:at.Start], " \t") != "" {
		return at
	}
	return source.Range{Start: i, End: i}
}

// properties skips anchors, tags and what is blank after them.
func (r *reader) properties(i int) int {
	for i < len(r.text) && (r.text[i] == '&' || r.text[i] == '!') {
		i = r.word(i)
		for i < len(r.text) && strings.IndexByte(" \t\r\n#", r.text[i]) >= 0 {
			if r.text[i] == '#' {
				i = syntax.LineEnd(r.text, i)
				continue
			}
			i++
		}
	}
	return i
}

// scalarStart returns where the text of the scalar y starts, its quote mark
// included.
func (r *reader) scalarStart(start int, y *yaml.Node) int {
	if y.Kind == yaml.ScalarNode && unwritten(y) {
		return start
	}
	return r.properties(start)
}

// unwritten reports whether nothing stands where y is.
func unwritten(y *yaml.Node) bool { return y.Value == "" && y.Style&^yaml.TaggedStyle == 0 }

// scalar returns the range of the scalar y that starts at start, within its
// quotes, and the quote mark. It reports false if the text does not agree with
// the value.
func (r *reader) scalar(y *yaml.Node, start int) (source.Range, byte, bool) {
	i := r.scalarStart(start, y)
	quoted := y.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0
	switch {
	case quoted && i < len(r.text) && (r.text[i] == '"' || r.text[i] == '\''):
		end := quoteEnd(r.text, i+1, r.text[i])
		return source.Range{Start: i + 1, End: end}, r.text[i], true
	case unwritten(y):
		// A value put before an anchor or a tag would be another one.
		return source.Range{Start: i, End: i}, 0, y.Anchor == "" && y.Tag == "!!null" && y.Style == 0
	case quoted:
		return source.Range{Start: i, End: i}, 0, false
	}
	from := i
	if y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		// The mark of a block, its indicators and a comment stand on a line.
		from = syntax.LineEnd(r.text, i)
		if strings.TrimSpace(y.Value) == "" {
			return source.Range{Start: i, End: i + 1}, 0, true
		}
	}
	end, ok := follow(r.text, from, y.Value)
	return source.Range{Start: i, End: max(i, end)}, 0, ok
}

// quoteEnd returns where the quoted text that starts at i ends: at its closing
// quote mark.
func quoteEnd(text string, i int, quote byte) int {
	for i < len(text) {
		switch {
		case text[i] == '\\' && quote == '"':
			i++
		case text[i] != quote:
		case quote == '\'' && i+1 < len(text) && text[i+1] == '\'':
			i++
		default:
			return i
		}
		i++
	}
	return len(text)
}

// follow returns where value ends in text, which it starts in at i. However
// YAML may have folded the lines, all that is not blank stands there as it is.
func follow(text string, i int, value string) (end int, ok bool) {
	end = i
	for _, v := range value {
		if isBlank(v) {
			continue
		}
		at := strings.IndexFunc(text[i:], func(c rune) bool { return !isBlank(c) })
		size := len(string(v))
		if at < 0 || !strings.HasPrefix(text[i+at:], string(v)) {
			return end, false
		}
		i += at + size
		end = i
	}
	return end, true
}

func isBlank(c rune) bool {
	switch c {
	case ' ', '\t', '\r', '\n', 0x85, 0x2028, 0x2029:
		return true
	}
	return false
}

// lineStarts returns where lines start in text, the first of them at start. YAML
// has more line ends than most.
func lineStarts(text string, start int) []int {
	lines := append(make([]int, 0, strings.Count(text[start:], "\n")+1), start)
	for i := start; i < len(text); i++ {
		switch text[i] {
		case '\n':
			lines = append(lines, i+1)
		case '\r':
			if i+1 < len(text) && text[i+1] == '\n' {
				i++
			}
			lines = append(lines, i+1)
		case 0xc2:
			if strings.HasPrefix(text[i:], "\u0085") {
				lines = append(lines, i+2)
			}
		case 0xe2:
			if strings.HasPrefix(text[i:], "\u2028") || strings.HasPrefix(text[i:], "\u2029") {
				lines = append(lines, i+3)
			}
		}
	}
	return lines
}

// offset returns where y starts. Columns count characters.
func (r *reader) offset(y *yaml.Node) int {
	line := y.Line + r.skip
	if y.Line < 1 || line > len(r.lines) {
		return len(r.text)
	}
	p := spot{line, 1, r.lines[line-1]}
	if r.last.line == p.line && r.last.column <= y.Column {
		p = r.last
	}
	for p.column < y.Column && p.offset < len(r.text) {
		p.column++
		p.offset++
		for p.offset < len(r.text) && r.text[p.offset]&0xc0 == 0x80 {
			p.offset++
		}
	}
	r.last = p
	return p.offset
}
