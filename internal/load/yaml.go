package load

import (
	"errors"
	"io"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"cutgate/internal/order"
	"cutgate/internal/source"
)

// A yamlReader makes trees of the documents of a YAML file. The parser gives
// the line and the column at which a node starts; all else about its place is
// scanned in the text.
type yamlReader struct {
	b       *builder
	text    string
	lines   []int // where the lines start, as YAML counts lines
	last    yamlPlace
	shared  map[*yaml.Node]bool // what aliases stand for
	opened  []*yaml.Node        // the aliased nodes that are being read
	through bool                // reading what an alias stands for
	at      source.Range        // that alias
}

// A yamlPlace is a place that was worked out last: the next one is seldom far.
type yamlPlace struct{ line, column, offset int }

// yaml reads the documents of a YAML file. One that is empty is no order.
func (b *builder) yaml() {
	start := 0
	if strings.HasPrefix(b.f.Text, byteOrderMark) {
		start = len(byteOrderMark)
	}
	r := &yamlReader{b: b, text: b.f.Text, lines: yamlLines(b.f.Text, start)}
	dec := yaml.NewDecoder(strings.NewReader(r.text[start:]))
	for {
		doc, err := yamlDocument(dec)
		if err == io.EOF {
			return
		}
		if err != nil {
			at, detail := yamlFault(r.text, start, err)
			b.unreadable(at, detail)
			return
		}
		if len(doc.Content) == 0 || yamlForm(doc.Content[0]) == order.Null {
			continue
		}
		r.share(doc)
		var n order.Node
		if flt := r.node(&n, doc.Content[0], 0); flt != nil {
			b.unreadable(flt.at, flt.detail)
			r.opened, r.through = nil, false
			continue
		}
		b.finish(n)
	}
}

// yamlDocument parses the next document.
func yamlDocument(dec *yaml.Decoder) (doc *yaml.Node, err error) {
	defer func() {
		// The parser promises no panic, but it has had some.
		if recover() != nil {
			err = errors.New("it is not understood")
		}
	}()
	doc = new(yaml.Node)
	return doc, dec.Decode(doc)
}

// share notes which nodes of doc have aliases: they are not edited, as the edit
// would change other places too.
func (r *yamlReader) share(doc *yaml.Node) {
	r.shared = nil
	if !strings.Contains(r.text, "*") {
		return
	}
	r.shared = map[*yaml.Node]bool{}
	var walk func(n *yaml.Node)
	walk = func(n *yaml.Node) {
		if n.Alias != nil {
			r.shared[n.Alias] = true
		}
		for _, k := range n.Content {
			walk(k)
		}
	}
	walk(doc)
}

// node reads y into n. The key that n may have already is kept.
func (r *yamlReader) node(n *order.Node, y *yaml.Node, depth int) *fault {
	if y.Kind == yaml.AliasNode {
		return r.alias(n, y, depth)
	}
	n.Fixed = n.Fixed || r.through
	shared := r.shared[y]
	if r.through {
		if r.b.copies++; r.b.copies > maxCopies {
			return &fault{r.at, "its aliases stand for more than 100,000 values"}
		}
	} else if shared {
		// Everything below is as fixed as this.
		n.Fixed = true
		defer fix(n)
	}
	start := r.offset(y)
	if depth > maxDepth {
		return tooDeep(r.place(source.Range{Start: start, End: start}))
	}
	switch y.Kind {
	case yaml.MappingNode:
		return r.mapping(n, y, start, depth)
	case yaml.SequenceNode:
		return r.sequence(n, y, start, depth)
	}
	n.Form = yamlForm(y)
	n.Text = y.Value
	at, quote, ok := r.scalar(y, start)
	n.Quote = quote
	if n.At = r.place(at); !ok {
		n.Fixed = true
	}
	return nil
}

// fix marks n and all below it as not to be edited.
func fix(n *order.Node) {
	n.Fixed = true
	for i := range n.Kids {
		fix(&n.Kids[i])
	}
}

// place is where something stands: at the alias, where it is read through one.
func (r *yamlReader) place(at source.Range) source.Range {
	if r.through {
		return r.at
	}
	return at
}

// alias reads what an alias stands for, at the alias.
func (r *yamlReader) alias(n *order.Node, y *yaml.Node, depth int) *fault {
	was, wasAt := r.through, r.at
	if !r.through {
		start := r.offset(y)
		r.through, r.at = true, source.Range{Start: start, End: r.word(start)}
	}
	defer func() { r.through, r.at = was, wasAt }()
	if slices.Contains(r.opened, y.Alias) {
		return &fault{r.at, "the alias *" + y.Value + " stands inside what it stands for"}
	}
	r.opened = append(r.opened, y.Alias)
	defer func() { r.opened = r.opened[:len(r.opened)-1] }()
	return r.node(n, y.Alias, depth)
}

// word returns where the word that starts at i ends.
func (r *yamlReader) word(i int) int {
	if end := strings.IndexAny(r.text[i:], " \t\r\n,[]{}"); end >= 0 {
		return i + end
	}
	return len(r.text)
}

// mapping reads a mapping that starts at start.
func (r *yamlReader) mapping(n *order.Node, y *yaml.Node, start, depth int) *fault {
	n.Form = order.Map
	mark := len(r.b.stack)
	var merged []*yaml.Node // the values of merge keys
	end := start
	for i := 0; i+1 < len(y.Content); i += 2 {
		key, value := y.Content[i], y.Content[i+1]
		if key.Kind == yaml.ScalarNode && key.Tag == "!!merge" {
			merged = append(merged, value)
			end = max(end, r.end(value))
			continue
		}
		var kid order.Node
		if flt := r.key(&kid, key); flt != nil {
			return flt
		}
		if flt := r.node(&kid, value, depth+1); flt != nil {
			return flt
		}
		if !r.through && kid.Form == order.Null && !kid.Fixed && unwritten(value) {
			kid.At = r.afterColon(kid.Key, kid.At)
		}
		end = max(end, kid.At.End+quoteSize(&kid), kid.Key.End)
		r.b.stack = append(r.b.stack, kid)
	}
	if merged != nil {
		own := map[string]bool{}
		for i := range r.b.stack[mark:] {
			own[r.b.stack[mark+i].Name] = true
		}
		for _, value := range merged {
			if flt := r.merge(own, value, depth); flt != nil {
				return flt
			}
		}
	}
	n.Kids = r.b.settle(mark)
	n.At = r.place(r.extent(y, start, end, '{', '}'))
	if !r.through && r.text[min(n.At.Start, len(r.text)):n.At.End] != "" && r.text[n.At.Start] != '{' && len(y.Content) > 0 {
		// A mapping without braces starts at its first name, after any anchor.
		n.At.Start = r.scalarStart(r.offset(y.Content[0]), y.Content[0])
	}
	return nil
}

// quoteSize is how many bytes of quote marks follow a scalar.
func quoteSize(n *order.Node) int {
	if n.Quote != 0 {
		return 1
	}
	return 0
}

// key reads the name of a mapping's entry.
func (r *yamlReader) key(kid *order.Node, key *yaml.Node) *fault {
	start := r.offset(key)
	if key.Kind == yaml.AliasNode && key.Alias.Kind == yaml.ScalarNode {
		kid.Name, kid.Key = key.Alias.Value, r.place(source.Range{Start: start, End: r.word(start)})
		return nil
	}
	if key.Kind != yaml.ScalarNode {
		return &fault{r.place(source.Range{Start: start, End: r.end(key)}), "a field's name must be one word, not a group or a list"}
	}
	at, _, _ := r.scalar(key, start)
	kid.Name, kid.Key = key.Value, r.place(at)
	return nil
}

// merge puts the entries that a merge key stands for on the stack, unless the
// mapping has its own of that name.
func (r *yamlReader) merge(own map[string]bool, value *yaml.Node, depth int) *fault {
	if value.Kind == yaml.SequenceNode {
		for _, v := range value.Content {
			if flt := r.merge(own, v, depth); flt != nil {
				return flt
			}
		}
		return nil
	}
	was, wasAt := r.through, r.at
	defer func() { r.through, r.at = was, wasAt }()
	if start := r.offset(value); !r.through {
		r.through, r.at = true, source.Range{Start: start, End: max(start, r.end(value))}
	}
	var from order.Node
	if flt := r.node(&from, value, depth+1); flt != nil {
		return flt
	}
	if from.Form != order.Map {
		return &fault{r.at, "<< takes the fields of a group, and this is none"}
	}
	for _, kid := range from.Kids {
		if !own[kid.Name] {
			own[kid.Name] = true
			r.b.stack = append(r.b.stack, kid)
		}
	}
	return nil
}

// sequence reads a sequence that starts at start.
func (r *yamlReader) sequence(n *order.Node, y *yaml.Node, start, depth int) *fault {
	n.Form = order.List
	mark := len(r.b.stack)
	end := start
	for _, value := range y.Content {
		var kid order.Node
		if flt := r.node(&kid, value, depth+1); flt != nil {
			return flt
		}
		end = max(end, kid.At.End+quoteSize(&kid))
		r.b.stack = append(r.b.stack, kid)
	}
	n.Kids = r.b.settle(mark)
	n.At = r.place(r.extent(y, start, end, '[', ']'))
	return nil
}

// extent returns the range of a collection that starts at start and whose last
// value ends at end.
func (r *yamlReader) extent(y *yaml.Node, start, end int, open, closed byte) source.Range {
	start = r.properties(start)
	if y.Style&yaml.FlowStyle == 0 || start >= len(r.text) || r.text[start] != open {
		return source.Range{Start: min(start, max(end, start)), End: max(end, start)}
	}
	i := max(end, start+1)
	for i < len(r.text) && r.text[i] != closed {
		if r.text[i] == '#' {
			i = r.lineEnd(i)
			continue
		}
		i++
	}
	return source.Range{Start: start, End: min(i+1, len(r.text))}
}

// end returns where y ends, without its closing marks.
func (r *yamlReader) end(y *yaml.Node) int {
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
func (r *yamlReader) afterColon(key, at source.Range) source.Range {
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
func (r *yamlReader) properties(i int) int {
	for i < len(r.text) && (r.text[i] == '&' || r.text[i] == '!') {
		i = r.word(i)
		for i < len(r.text) && strings.IndexByte(" \t\r\n#", r.text[i]) >= 0 {
			if r.text[i] == '#' {
				i = r.lineEnd(i)
				continue
			}
			i++
		}
	}
	return i
}

// lineEnd returns where the line of i ends.
func (r *yamlReader) lineEnd(i int) int {
	if end := strings.IndexAny(r.text[i:], "\r\n"); end >= 0 {
		return i + end
	}
	return len(r.text)
}

// scalarStart returns where the text of the scalar y starts, its quote mark
// included.
func (r *yamlReader) scalarStart(start int, y *yaml.Node) int {
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
func (r *yamlReader) scalar(y *yaml.Node, start int) (source.Range, byte, bool) {
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
		from = r.lineEnd(i)
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
		if yamlBlank(v) {
			continue
		}
		at := strings.IndexFunc(text[i:], func(c rune) bool { return !yamlBlank(c) })
		size := len(string(v))
		if at < 0 || !strings.HasPrefix(text[i+at:], string(v)) {
			return end, false
		}
		i += at + size
		end = i
	}
	return end, true
}

func yamlBlank(c rune) bool {
	switch c {
	case ' ', '\t', '\r', '\n', 0x85, 0x2028, 0x2029:
		return true
	}
	return false
}

// yamlLines returns where lines start in text, the first of them at start. YAML
// has more line ends than most.
func yamlLines(text string, start int) []int {
	lines := append(make([]int, 0, strings.Count(text, "\n")+1), start)
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
func (r *yamlReader) offset(y *yaml.Node) int {
	if y.Line < 1 || y.Line > len(r.lines) {
		return len(r.text)
	}
	p := yamlPlace{y.Line, 1, r.lines[y.Line-1]}
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

// yamlForm returns what a scalar is. Only what JSON would call a number is
// one; what looks like a date or a yes stays a text.
func yamlForm(y *yaml.Node) order.Form {
	switch {
	case y.Kind == yaml.MappingNode:
		return order.Map
	case y.Kind == yaml.SequenceNode:
		return order.List
	case y.Style&yaml.TaggedStyle != 0:
		return taggedForm(y.Tag, y.Value)
	case y.Style&^yaml.FlowStyle != 0:
		return order.Scalar
	}
	return plainForm(y.Value)
}

// taggedForm is yamlForm for a scalar with a tag.
func taggedForm(tag, value string) order.Form {
	switch form := plainForm(value); {
	case tag == "!!null":
		return order.Null
	case tag == "!!bool" && form == order.Truth, (tag == "!!int" || tag == "!!float") && form == order.Number:
		return form
	}
	return order.Scalar
}

func plainForm(value string) order.Form {
	switch value {
	case "", "~", "null", "Null", "NULL":
		return order.Null
	case "true", "True", "TRUE", "false", "False", "FALSE":
		return order.Truth
	}
	if isNumber(value) {
		return order.Number
	}
	return order.Scalar
}

// isNumber reports whether s is a decimal number, with leading zeros at will.
func isNumber(s string) bool {
	s = strings.TrimPrefix(s, "-")
	digits := 0
	for len(s) > digits && s[digits]-'0' <= 9 {
		digits++
	}
	s = s[digits:]
	if after, ok := strings.CutPrefix(s, "."); ok {
		places := 0
		for len(after) > places && after[places]-'0' <= 9 {
			places++
		}
		if places == 0 {
			return false
		}
		s, digits = after[places:], digits+places
	}
	if digits == 0 {
		return false
	}
	if s != "" && (s[0] == 'e' || s[0] == 'E') {
		s = strings.TrimLeft(s[1:], "+-")
		return s != "" && strings.Trim(s, "0123456789") == ""
	}
	return s == ""
}
