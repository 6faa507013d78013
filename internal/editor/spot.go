package editor

import (
	"cutgate/internal/form"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// A spot is a place on a form: what stands there, and the way to it.
type spot struct {
	result *lint.Result
	chain  []*order.Node // from the form itself down to what stands there
	onName bool          // it is the field's name that stands there
}

// spotAt returns the spot at an offset, or nil where no order is. A cursor behind
// the last letter of a word is on it.
func spotAt(results []lint.Result, offset int) *spot {
	at := source.Range{Start: offset, End: offset}
	for i := range results {
		o := results[i].Order
		if o == nil || o.Root == nil || results[i].Sheet == nil || !o.Root.Cell && !touches(o.Root.At, at) {
			continue
		}
		s := &spot{result: &results[i], chain: []*order.Node{o.Root}}
		if o.Root.Cell {
			if lead := o.Lead(at); lead != nil {
				s.chain = append(s.chain, lead...)
				return s
			}
			continue
		}
		for n := o.Root; n != nil; {
			n = s.step(n, at)
		}
		return s
	}
	return nil
}

// step goes on to the entry of n that the place is in, or ends with nil.
func (s *spot) step(n *order.Node, at source.Range) *order.Node {
	for i := range n.Kids {
		k := &n.Kids[i]
		if k.Key.Len() > 0 && touches(k.Key, at) {
			s.chain, s.onName = append(s.chain, k), true
			return nil
		}
	}
	for i := range n.Kids {
		if k := &n.Kids[i]; touches(k.At, at) {
			s.chain = append(s.chain, k)
			return k
		}
	}
	return nil
}

// node is what stands there.
func (s *spot) node() *order.Node { return s.chain[len(s.chain)-1] }

// names are the names on the way to the node, those of list elements left out.
func (s *spot) names() (names []string) {
	for _, n := range s.chain[1:] {
		if n.Name != "" {
			names = append(names, n.Name)
		}
	}
	return names
}

// item is the index of the item that it belongs to, and the word for its kind; -1
// where it belongs to none.
func (s *spot) item() (index int, kind string) {
	if len(s.chain) < 3 || s.chain[1].Name != "items" {
		return -1, ""
	}
	if n := s.chain[2].Kid("item"); n != nil {
		kind = n.Text
	}
	return s.chain[1].Index(s.chain[2]), kind
}

// field is what the form says of the field there, or nil.
func (s *spot) field(l *load.Loader) *form.Question {
	names := s.names()
	if s.node().Name == "" || len(names) == 0 {
		return nil
	}
	_, kind := s.item()
	return fieldNamed(l.Fields(names[:len(names)-1], kind), names[len(names)-1])
}
