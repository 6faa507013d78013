package order

import (
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"sync"

	"cutgate/internal/source"
)

// A Docket is an order by its number, or by its file where it has none.
type Docket struct {
	Order string `json:"order,omitempty"`
	File  string `json:"file,omitempty"`
}

// A Mark is what something that is said of an order goes by, whatever line it
// has moved to: who says what of which text, in which field of which item. What
// has a name in the order goes by that and not by its place.
type Mark struct {
	Docket
	ID     string `json:"id,omitempty"`   // of the item
	Item   string `json:"item,omitempty"` // of an item without an id: its kind and which of that kind
	Path   string `json:"path,omitempty"` // of the field, within the item where there is one
	Rule   string `json:"rule"`
	Stated string `json:"stated,omitempty"`
}

// Docket names the order.
func (o *Order) Docket() Docket {
	if o.Number.Value != "" {
		return Docket{Order: valid(o.Number.Value)}
	}
	return Docket{File: valid(filepath.ToSlash(filepath.Clean(o.File.Name)))}
}

// valid is text as it can be written and read again.
func valid(text string) string { return strings.ToValidUTF8(text, "\ufffd") }

// Mark marks what a rule says of the field of a path. Where no stated text is
// given, it is what stands in the field.
func (o *Order) Mark(path, rule, stated string) Mark {
	m := Mark{Docket: o.Docket(), Rule: rule}
	n, rest := o.Root, path
	if item, inner, ok := o.inItem(path); ok {
		n, rest = &o.Root.Kid("items").Kids[item], inner
		if id := o.Items[item].ID.Value; id != "" {
			m.ID = valid(id)
		} else {
			m.Item = valid(o.ordinal(item))
		}
	}
	leaf, lasts := o.lasting(n, rest)
	if stated == "" && leaf != nil {
		stated = leaf.Text
	}
	m.Path, m.Stated = valid(lasts), valid(stated)
	return m
}

// inItem splits a path that leads to an item or into it.
func (o *Order) inItem(path string) (item int, rest string, ok bool) {
	rest, ok = strings.CutPrefix(path, "items[")
	digits, rest, closed := strings.Cut(rest, "]")
	item, err := strconv.Atoi(digits)
	list := o.Root.Kid("items")
	if !ok || !closed || err != nil || list == nil || item < 0 || item >= min(len(o.Items), len(list.Kids)) {
		return 0, "", false
	}
	return item, rest, true
}

// ordinal is an item without an id by its kind and its place among those of its
// kind: curtain 2.
func (o *Order) ordinal(item int) string {
	kind, n := o.Items[item].Kind.Value, 1
	for i := range item {
		if o.Items[i].Kind.Value == kind {
			n++
		}
	}
	return strings.TrimSpace(kind + " " + strconv.Itoa(n))
}

// lasting returns a path below n with names in place of places in a list, as far
// as the entries there have names, and the node that it leads to; nil for a field
// that is not there.
func (o *Order) lasting(n *Node, path string) (*Node, string) {
	var b strings.Builder
	for path != "" {
		kid, name, rest := (*Node)(nil), "", ""
		if n != nil && path[0] == '[' {
			kid, name, rest = n.entry(path)
		} else if n != nil {
			kid, name, rest = o.field(n, strings.TrimPrefix(path, "."))
		}
		if kid == nil {
			b.WriteString(path)
			n = nil
			break
		}
		if path[0] != '[' && b.Len() > 0 {
			b.WriteByte('.')
		}
		b.WriteString(name)
		n, path = kid, rest
	}
	return n, strings.TrimPrefix(b.String(), ".")
}

// Quoted is a path as programs read it: names in it that are no identifiers, as those
// of cloths may be, are in double quotes.
func (o *Order) Quoted(path string) string {
	var b strings.Builder
	for n := o.Root; path != ""; {
		kid, name, rest := (*Node)(nil), "", ""
		switch {
		case path[0] == '[' && (n == nil || n.Form == List):
			end := strings.IndexByte(path, ']') + 1
			if i, err := strconv.Atoi(path[1:max(end-1, 1)]); err == nil && n != nil && i >= 0 && i < len(n.Kids) {
				kid = &n.Kids[i]
			}
			if end == 0 {
				end = len(path)
			}
			b.WriteString(path[:end])
			n, path = kid, path[end:]
			continue
		case n != nil:
			kid, name, rest = o.field(n, strings.TrimPrefix(path, "."))
		}
		if kid == nil { // a field that is not there has a name of the form's
			name = strings.TrimPrefix(path, ".")
			if i := strings.IndexAny(name, ".["); i > 0 {
				name, rest = name[:i], name[i:]
			}
		}
		if b.Len() > 0 {
			b.WriteByte('.')
		}
		if isIdentifier(name) {
			b.WriteString(name)
		} else {
			b.WriteString(strconv.Quote(valid(name)))
		}
		n, path = kid, rest
	}
	return b.String()
}

// isIdentifier reports whether a name may stand in a path without quotes.
func isIdentifier(name string) bool {
	for i, r := range name {
		letter := r == '_' || 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z'
		if !letter && (i == 0 || r != '-' && (r < '0' || r > '9')) {
			return false
		}
	}
	return name != ""
}

// field returns the entry of a map that a path begins with. A name may have
// points in it: the longest counts, and the first of that name.
func (o *Order) field(n *Node, path string) (kid *Node, name, rest string) {
	find := n.Kid
	if o.large != nil && len(n.Kids) >= manyKids {
		find = o.large.of(n)
	}
	for end := len(path); end >= 0; end = strings.LastIndexAny(path[:end], ".[") {
		if kid := find(path[:end]); kid != nil {
			return kid, kid.Name, path[end:]
		}
	}
	return nil, "", ""
}

// manyKids is how many entries a map or a list has that are looked up by an index.
const manyKids = 32

// An index has the entries of large maps by their names, and knows which maps and
// lists have theirs one behind the other, so that to find each of thousands does not
// take thousands of looks each.
type index struct {
	lock    sync.Mutex
	names   map[*Node]map[string]*Node
	ordered map[*Node]bool
}

// around is the entries of n among which the first is that covers r: all of them,
// unless they stand one behind the other.
func (x *index) around(n *Node, r source.Range) []Node {
	x.lock.Lock()
	defer x.lock.Unlock()
	ordered, known := x.ordered[n]
	if !known {
		ordered = true
		end := 0
		for i := range n.Kids {
			k := n.Kids[i].span()
			ordered = ordered && !n.Kids[i].Cell && k.Start >= end
			end = k.End
		}
		if x.ordered == nil {
			x.ordered = make(map[*Node]bool)
		}
		x.ordered[n] = ordered
	}
	if !ordered {
		return n.Kids
	}
	from := sort.Search(len(n.Kids), func(i int) bool { return n.Kids[i].span().End >= r.End })
	to := from + sort.Search(len(n.Kids)-from, func(i int) bool { return n.Kids[from+i].span().Start > r.Start })
	return n.Kids[from:to]
}

// of finds the entries of a map.
func (x *index) of(n *Node) func(name string) *Node {
	x.lock.Lock()
	defer x.lock.Unlock()
	by := x.names[n]
	if by == nil {
		by = make(map[string]*Node, len(n.Kids))
		for i := range n.Kids {
			if k := &n.Kids[i]; by[k.Name] == nil {
				by[k.Name] = k
			}
		}
		if x.names == nil {
			x.names = make(map[*Node]map[string]*Node)
		}
		x.names[n] = by
	}
	return func(name string) *Node { return by[name] }
}

// goesBy are the fields that an entry of a list goes by, the first that it has.
var goesBy = [...]string{"id", "piece", "lot", "rule"}

// GoesBy is the name of an entry of a list: what the first of those fields says
// that it has, or of more fields; "" where it has none.
func (n *Node) GoesBy(more ...string) string {
	for _, list := range [][]string{goesBy[:], more} {
		for _, field := range list {
			if k := n.Kid(field); k != nil && k.Text != "" {
				return k.Text
			}
		}
	}
	return ""
}

// entry returns the entry of a list that a path begins with.
func (n *Node) entry(path string) (kid *Node, name, rest string) {
	digits, rest, _ := strings.Cut(path[1:], "]")
	i, err := strconv.Atoi(digits)
	if err != nil || i < 0 || i >= len(n.Kids) {
		return nil, "", ""
	}
	kid = &n.Kids[i]
	if own := kid.GoesBy(); own != "" {
		return kid, "[" + own + "]", rest
	}
	return kid, "[" + digits + "]", rest
}
