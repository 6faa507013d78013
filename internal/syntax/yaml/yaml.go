// Package yaml reads orders in YAML, and writes edits in it.
package yaml

import (
	"errors"
	"io"
	"strings"

	"go.yaml.in/yaml/v3"

	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// A reader makes trees of the documents of a YAML file. The parser gives
// the line and the column at which a node starts; all else about its place is
// scanned in the text.
type reader struct {
	syntax.Through[*yaml.Node]
	b      *syntax.Builder
	text   string
	lines  []int // where the lines start, as YAML counts lines
	skip   int   // the lines before the text that the parser was given
	last   spot
	starry bool                // there may be aliases
	shared map[*yaml.Node]bool // what aliases stand for
}

// A spot is a place that was worked out last: the next one is seldom far.
type spot struct{ line, column, offset int }

// Read reads the documents of a YAML file into m. One that is empty is no order, and one
// that can't be read does not hide those after it.
func Read(f *source.File, m *order.Memory) []syntax.Root {
	b := syntax.NewBuilder(f, m, ",", "\n")
	defer b.Done()
	if plainDocuments(b, f.Text, textStart(f.Text)) {
		return b.Roots
	}
	b.Restart()
	return byLibrary(b)
}

// textStart is where the text begins, after a byte-order mark.
func textStart(text string) int {
	if strings.HasPrefix(text, syntax.ByteOrderMark) {
		return len(syntax.ByteOrderMark)
	}
	return 0
}

// byLibrary reads the documents of any YAML file.
func byLibrary(b *syntax.Builder) []syntax.Root {
	f, start := b.File, textStart(b.File.Text)
	r := &reader{b: b, text: f.Text, lines: lineStarts(f.Text, start), starry: strings.Contains(f.Text, "*")}
	text := undirected(f.Text)
	flt := r.documents(text, start)
	parts := []int{start}
	if flt != nil {
		parts = r.parts()
	}
	if len(parts) == 1 {
		if flt != nil {
			b.Unreadable(flt)
		}
		return b.Roots
	}
	b.Restart()
	for i, line := range parts {
		end := len(text)
		if i+1 < len(parts) {
			end = r.lines[parts[i+1]]
		}
		r.skip = line
		if flt := r.documents(text[:end], r.lines[line]); flt != nil {
			b.Unreadable(flt)
		}
	}
	return b.Roots
}

// documents reads the documents of a text from start on, up to one that the parser
// can't read.
func (r *reader) documents(text string, start int) *syntax.Fault {
	b := r.b
	dec := yaml.NewDecoder(strings.NewReader(text[start:]))
	for {
		doc, err := document(dec)
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return faultOf(text, start, err)
		}
		if len(doc.Content) == 0 || formOf(doc.Content[0]) == order.Null {
			continue
		}
		r.share(doc)
		var n order.Node
		if flt := r.node(&n, doc.Content[0], 0); flt != nil {
			b.Unreadable(flt)
			continue
		}
		b.Finish(n)
	}
}

// parts returns the lines, from 0, at which documents begin that can be read by
// themselves: a line of three hyphens begins one wherever it stands, or the
// directives above it do.
func (r *reader) parts() []int {
	parts := []int{0}
	prologue, directed := 0, false // where the lines begin that may go with the next document
	for i, at := range r.lines {
		line := r.text[at:]
		switch {
		case marks(line, "---"):
			if !directed {
				prologue = i
			}
			if prologue > parts[len(parts)-1] {
				parts = append(parts, prologue)
			}
			prologue, directed = len(r.lines), false
		case marks(line, "..."):
			prologue, directed = i+1, false
		case i >= prologue && strings.HasPrefix(line, "%"):
			directed = true
		case i >= prologue && !strings.HasPrefix(line, "#") && strings.TrimLeft(line[:syntax.LineEnd(line, 0)], " \t") != "":
			prologue, directed = len(r.lines), false
		}
	}
	return parts
}

// marks reports whether a line is a mark between documents.
func marks(line, mark string) bool {
	after, ok := strings.CutPrefix(line, mark)
	return ok && (after == "" || strings.IndexByte(" \t\r\n", after[0]) >= 0)
}

// undirected is a text with each %YAML directive of a version 1 made a comment, as the
// parser knows no later version than 1.1. Its length stays.
func undirected(text string) string {
	if !strings.Contains(text, "%YAML") {
		return text
	}
	out := []byte(text)
	prologue, at := true, 0
	for line := range strings.Lines(text) {
		body := strings.TrimPrefix(line, syntax.ByteOrderMark)
		switch {
		case marks(body, "..."):
			prologue = true
		case prologue && (strings.HasPrefix(body, "%YAML 1.") || strings.HasPrefix(body, "%YAML\t1.")):
			out[at+len(line)-len(body)] = '#'
		case !strings.HasPrefix(body, "#") && !strings.HasPrefix(body, "%") && strings.TrimSpace(body) != "":
			prologue = false
		}
		at += len(line)
	}
	return string(out)
}

// document parses the next document.
func document(dec *yaml.Decoder) (doc *yaml.Node, err error) {
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
func (r *reader) share(doc *yaml.Node) {
	r.shared = nil
	if !r.starry {
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
func (r *reader) node(n *order.Node, y *yaml.Node, depth int) *syntax.Fault {
	if y.Kind == yaml.AliasNode {
		return r.alias(n, y, depth)
	}
	n.Fixed = n.Fixed || r.On
	shared := r.shared[y]
	if r.On {
		if flt := r.Copy(r.At, "its aliases stand for"); flt != nil {
			return flt
		}
	} else if shared {
		// Everything below is as fixed as this.
		n.Fixed = true
		defer syntax.Fix(n)
	}
	start := r.offset(y)
	if depth > syntax.MaxDepth {
		return syntax.TooDeep(r.Place(source.Range{Start: start, End: start}))
	}
	switch y.Kind {
	case yaml.MappingNode:
		return r.mapping(n, y, start, depth)
	case yaml.SequenceNode:
		return r.sequence(n, y, start, depth)
	}
	n.Form = formOf(y)
	n.Text = y.Value
	at, quote, ok := r.scalar(y, start)
	n.Quote = quote
	if n.At = r.Place(at); !ok {
		n.Fixed = true
	}
	return nil
}

// alias reads what an alias stands for, at the alias.
func (r *reader) alias(n *order.Node, y *yaml.Node, depth int) *syntax.Fault {
	at := func() source.Range {
		start := r.offset(y)
		return source.Range{Start: start, End: r.word(start)}
	}
	return r.Follow(y.Alias, "alias *"+y.Value, at, func() *syntax.Fault { return r.node(n, y.Alias, depth) })
}

// mapping reads a mapping that starts at start.
func (r *reader) mapping(n *order.Node, y *yaml.Node, start, depth int) *syntax.Fault {
	n.Form = order.Map
	mark := len(r.b.Stack)
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
		if !r.On && kid.Form == order.Null && !kid.Fixed && unwritten(value) {
			kid.At = r.afterColon(kid.Key, kid.At)
		}
		end = max(end, kid.At.End+quoteSize(&kid), kid.Key.End)
		r.b.Stack = append(r.b.Stack, kid)
	}
	if merged != nil {
		own := map[string]bool{}
		for i := range r.b.Stack[mark:] {
			own[r.b.Stack[mark+i].Name] = true
		}
		for _, value := range merged {
			if flt := r.merge(own, value, depth); flt != nil {
				return flt
			}
		}
	}
	n.Kids = r.b.Settle(mark)
	n.At = r.Place(r.extent(y, start, end, '{', '}'))
	if !r.On && r.text[min(n.At.Start, len(r.text)):n.At.End] != "" && r.text[n.At.Start] != '{' && len(y.Content) > 0 {
		// A mapping without braces starts at its first name, after any anchor.
		n.At.Start = r.scalarStart(r.offset(y.Content[0]), y.Content[0])
	}
	return nil
}

// key reads the name of a mapping's entry.
func (r *reader) key(kid *order.Node, key *yaml.Node) *syntax.Fault {
	start := r.offset(key)
	if key.Kind == yaml.AliasNode && key.Alias.Kind == yaml.ScalarNode {
		kid.Name, kid.Key = key.Alias.Value, r.Place(source.Range{Start: start, End: r.word(start)})
		return nil
	}
	if key.Kind != yaml.ScalarNode {
		return syntax.NewFault(r.Place(source.Range{Start: start, End: r.end(key)}), "a field's name must be one word, not a group or a list")
	}
	at, _, _ := r.scalar(key, start)
	kid.Name, kid.Key = key.Value, r.Place(at)
	return nil
}

// merge puts the entries that a merge key stands for on the stack, unless the
// mapping has its own of that name.
func (r *reader) merge(own map[string]bool, value *yaml.Node, depth int) *syntax.Fault {
	if value.Kind == yaml.SequenceNode {
		for _, v := range value.Content {
			if flt := r.merge(own, v, depth); flt != nil {
				return flt
			}
		}
		return nil
	}
	at := func() source.Range {
		start := r.offset(value)
		return source.Range{Start: start, End: max(start, r.end(value))}
	}
	var from order.Node
	flt := r.Read(at, func() *syntax.Fault {
		flt := r.node(&from, value, depth+1)
		if flt == nil && from.Form != order.Map {
			flt = syntax.NewFault(r.At, "<< needs fields to merge, and this has none")
		}
		return flt
	})
	if flt != nil {
		return flt
	}
	for _, kid := range from.Kids {
		if !own[kid.Name] {
			own[kid.Name] = true
			r.b.Stack = append(r.b.Stack, kid)
		}
	}
	return nil
}

// sequence reads a sequence that starts at start.
func (r *reader) sequence(n *order.Node, y *yaml.Node, start, depth int) *syntax.Fault {
	n.Form = order.List
	mark := len(r.b.Stack)
	end := start
	for _, value := range y.Content {
		var kid order.Node
		if flt := r.node(&kid, value, depth+1); flt != nil {
			return flt
		}
		end = max(end, kid.At.End+quoteSize(&kid))
		r.b.Stack = append(r.b.Stack, kid)
	}
	n.Kids = r.b.Settle(mark)
	n.At = r.Place(r.extent(y, start, end, '[', ']'))
	return nil
}
