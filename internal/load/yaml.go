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
