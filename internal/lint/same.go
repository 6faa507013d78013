package lint

import (
	"path/filepath"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
)

// docketOf names an order.
func docketOf(o *order.Order) docket {
	if o.Number.Value != "" {
		return docket{Order: valid(o.Number.Value)}
	}
	return docket{File: valid(filepath.ToSlash(filepath.Clean(o.File.Name)))}
}

// valid is text as it can be written and read again.
func valid(text string) string { return strings.ToValidUTF8(text, "\ufffd") }

// knownAs returns what makes a finding of an order the same as another.
func knownAs(o *order.Order, f *finding.Finding) knownFinding {
	k := knownFinding{docket: docketOf(o), Rule: f.Rule}
	n, rest := o.Root, f.Path
	if item, path, ok := inItem(o, f.Path); ok {
		n, rest = &o.Root.Kid("items").Kids[item], path
		if id := o.Items[item].ID.Value; id != "" {
			k.ID = valid(id)
		} else {
			k.Item = valid(ordinal(o, item))
		}
	}
	leaf, path := lasting(n, rest)
	k.Path, k.Stated = valid(path), f.Stated
	if k.Stated == "" && leaf != nil {
		k.Stated = leaf.Text
	}
	k.Stated = valid(k.Stated)
	return k
}

// inItem splits a path that leads to an item or into it.
func inItem(o *order.Order, path string) (item int, rest string, ok bool) {
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
func ordinal(o *order.Order, item int) string {
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
func lasting(n *order.Node, path string) (*order.Node, string) {
	var b strings.Builder
	for path != "" {
		kid, name, rest := (*order.Node)(nil), "", ""
		if n != nil && path[0] == '[' {
			kid, name, rest = entry(n, path)
		} else if n != nil {
			kid, name, rest = field(n, strings.TrimPrefix(path, "."))
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

// field returns the entry of a map that a path begins with. A name may have
// points in it.
func field(n *order.Node, path string) (kid *order.Node, name, rest string) {
	for i := range n.Kids {
		k := &n.Kids[i]
		after, ok := strings.CutPrefix(path, k.Name)
		if ok && (after == "" || after[0] == '.' || after[0] == '[') && (kid == nil || len(k.Name) > len(name)) {
			kid, name, rest = k, k.Name, after
		}
	}
	return kid, name, rest
}

// goesBy are the fields that an entry of a list goes by, the first that it has.
var goesBy = [...]string{"id", "piece", "lot", "rule"}

// entry returns the entry of a list that a path begins with.
func entry(n *order.Node, path string) (kid *order.Node, name, rest string) {
	digits, rest, _ := strings.Cut(path[1:], "]")
	i, err := strconv.Atoi(digits)
	if err != nil || i < 0 || i >= len(n.Kids) {
		return nil, "", ""
	}
	kid = &n.Kids[i]
	for _, field := range goesBy {
		if k := kid.Kid(field); k != nil && k.Text != "" {
			return kid, "[" + k.Text + "]", rest
		}
	}
	return kid, "[" + digits + "]", rest
}
