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
	k := it.kind
	var slots []int
	var shown []string
	for i := range k.given {
		if g := &k.given[i]; g.Choice != nil && it.cells[g.slot].has && g.node(it) == n {
			shown = append(shown, k.shown[g.slot])
		}
	}
	for i := range k.given { // the same under another name too: a cloth's width, washed
		if g := &k.given[i]; slices.Contains(shown, k.shown[g.slot]) && it.cells[g.slot].has && g.node(it) == n {
			slots = append(slots, g.slot)
		}
	}
	for pass := range 2 { // first what is just taken as it stands
		for j := range k.steps {
			st := &k.steps[j]
			c := &it.cells[st.slot]
			if c.q == nil || !slices.ContainsFunc(slots, func(slot int) bool { return it.reads(st, slot) }) {
				continue
			}
			if c.q.Formula == "" && c.q.Source == "the order" {
				if pass == 0 {
					slots = append(slots, st.slot)
				}
			} else if pass == 1 && c.q.Formula != "" && !slices.Contains(list, c.q) {
				list = append(list, c.q)
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
	if m := it.Sheet.Measured(c.Name); m != nil && f.measured != nil {
		leaf := f.measured.leaf(unsafe.Pointer(m))
		if _, set := nodeOf(leaf); set {
			return leaf
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

// reads reports whether the row that a step took, which there has to be, goes by a slot,
// itself or by way of a step that is not reported.
func (it *Item) reads(s *step, slot int) bool {
	for _, read := range s.rows[it.cells[s.slot].row-1].reckons() {
		if read == slot {
			return true
		}
		for i := range it.kind.steps {
			h := &it.kind.steps[i]
			if h.slot == read && h.rows[0].Hidden && it.cells[read].has && it.reads(h, slot) {
				return true
			}
		}
	}
	return false
}

// Idle is how many of the numbers and words that the order states of an item go into nothing
// that was worked out, as a pad's depth where the cover has no boxing.
func (it *Item) Idle() (n int) {
	k := it.kind
	used := k.slotSet()
	for i := range k.steps {
		s := &k.steps[i]
		c := &it.cells[s.slot]
		if !c.has || c.row == 0 {
			continue
		}
		for _, slot := range s.rows[c.row-1].reckons() {
			used.add(slot)
		}
		for j := range c.row { // it went by what the rows before were passed over for too
			for _, slot := range guarded(s.rows[j].when) {
				if it.cells[slot].word != "" {
					used.add(slot)
				}
			}
		}
	}
	idle := map[*order.Node]bool{}
	for i := range k.given {
		g := &k.given[i]
		if len(g.roles) == 0 || g.roles[0] >= 0 || g.Choice == nil && it.cells[g.slot].word == "" {
			continue
		}
		if at := g.node(it); at != nil {
			was, seen := idle[at]
			idle[at] = !used.has(g.slot) && (was || !seen)
		}
	}
	for _, is := range idle {
		if is {
			n++
		}
	}
	return n
}

// An Unused is a number that the order states of an item and that nothing is worked from, for a
// word of it: the depth of a pad whose cover is knife edge.
type Unused struct {
	Node  *order.Node
	Field string
	By    Other
}

// Unused are the numbers that the order states of the item and that only others of its kind,
// with another word, are worked from.
func (it *Item) Unused() (list []Unused) {
	for i := range it.kind.given {
		g := &it.kind.given[i]
		if g.worded == nil {
			continue
		}
		n := g.node(it)
		if n == nil || slices.ContainsFunc(list, func(u Unused) bool { return u.Node == n }) {
			continue
		}
		if by, ok := it.unusedBy(g); ok {
			list = append(list, Unused{Node: n, Field: g.From[0], By: by})
		}
	}
	return list
}

// unusedBy is the one word for which no row of the item reads a term, though others do.
func (it *Item) unusedBy(g *given) (by Other, ok bool) {
	word := -1
	for _, r := range g.worded {
		i := slices.IndexFunc(r.when, it.against)
		if i < 0 || word >= 0 && r.when[i].slot != word {
			return by, false
		}
		word = r.when[i].slot
		for _, w := range r.when[i].word {
			if !slices.Contains(by.Words, w) {
				by.Words = append(by.Words, w)
			}
		}
	}
	says, ok := it.wordIn(word)
	says.Words = by.Words
	return says, ok
}

// against reports whether a guard asks for another word than the item has.
func (it *Item) against(g guard) bool {
	return g.word != nil && it.cells[g.slot].word != "" && !slices.Contains(g.word, it.cells[g.slot].word)
}
