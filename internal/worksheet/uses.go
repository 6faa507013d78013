package worksheet

import (
	"slices"
	"unsafe"

	"cutgate/internal/order"
)

// Uses returns the quantities of an item that a choice of it, or of its cloth,
// goes into directly; nil where n is no such choice.
func (s *Sheet) Uses(item int, n *order.Node) (list []*Quantity) {
	if n == nil || item < 0 || item >= len(s.Items) {
		return nil
	}
	it := &s.Items[item]
	for i := range it.kind.given {
		g := &it.kind.given[i]
		if g.Choice == nil || !it.cells[g.slot].has || g.node(it) != n {
			continue
		}
		for j := range it.kind.steps {
			st := &it.kind.steps[j]
			if q := it.cells[st.slot].q; q != nil && it.reads(st, g.slot, true) && !slices.Contains(list, q) {
				list = append(list, q)
			}
		}
	}
	return list
}

// node is where a choice is written; nil where it is left to the house.
func (g *given) node(it *Item) *order.Node {
	for i, f := range g.fields {
		if leaf := it.leaf(f, g.roles[i]); leaf != nil {
			if n, set := nodeOf(leaf); set {
				return n
			}
		}
	}
	return nil
}

// leaf is a field of the item, or of the cloth of a role: as measured at the bench,
// where it was.
func (it *Item) leaf(f *field, role int) any {
	if role < 0 {
		return f.leaf(unsafe.Pointer(it.Order))
	}
	c := it.roles[role]
	if c == nil {
		return nil
	}
	if m := it.Sheet.measured(c.Name); m != nil {
		if mf, err := fieldOf(measuredType, f.path); err == nil {
			leaf := mf.leaf(unsafe.Pointer(m))
			if _, set := nodeOf(leaf); set {
				return leaf
			}
		}
	}
	return f.leaf(unsafe.Pointer(c.Order))
}

// nodeOf is how a leaf of any type is written, if it is.
func nodeOf(leaf any) (*order.Node, bool) {
	switch l := leaf.(type) {
	case *order.Text:
		return l.Node, l.Set
	case *order.Flag:
		return l.Node, l.Set
	case *order.Setting:
		return l.Node, l.Set
	}
	_, n, set := statedOf(leaf)
	return n, set
}

// reads reports whether the row that a step took goes by a slot, itself or by way of
// a step that is not reported.
func (it *Item) reads(s *step, slot int, deep bool) bool {
	r := &s.rows[it.cells[s.slot].row]
	var slots []int
	if r.bound != nil {
		slots = r.bound.slots
	} else {
		slots = r.slots
	}
	for _, read := range slots {
		if read == slot {
			return true
		}
		if !deep {
			continue
		}
		for i := range it.kind.steps {
			h := &it.kind.steps[i]
			if h.slot == read && h.rows[0].Hidden && it.cells[read].has && it.reads(h, slot, true) {
				return true
			}
		}
	}
	return false
}
