package worksheet

import (
	"reflect"
	"slices"
	"strings"
	"unsafe"

	"cutgate/internal/order"
)

// An Alternative is something else that the order might say of an item: another word in a
// field, or a usual figure in one that it leaves out.
type Alternative struct {
	Choice        // as far as a trial asks for it
	Text   string // what it would say: "along", "1/4 in"
	Taken  string // what stands there, or was taken where nothing does; "" for nothing
	Unsaid bool   // nothing stands there

	change func() (undo func())
}

// Make makes the order say it, until undo is called.
func (a *Alternative) Make() (undo func()) { return a.change() }

// Alternatives are what the order might say otherwise of the item that an outcome is stated of,
// as far as the outcome rests on it. Of words they are those of the form, by [Sheet.Words]; of
// figures the usual ones of a choice that was taken, as the order does not make it.
func (s *Sheet) Alternatives(of *Stated) (list []Alternative) {
	if of.Slot.Item < 0 {
		return nil
	}
	it := &s.Items[of.Slot.Item]
	var seen []string
	for i := range it.kind.given {
		g := &it.kind.given[i]
		if len(g.fields) == 0 || g.roles[0] >= 0 || slices.Contains(seen, g.fields[0].path) || it.cells[g.slot].doubtful {
			continue
		}
		f := g.fields[0]
		rests := it.kind.coneOf(g)
		if !rests.has(of.Slot.Term) {
			continue
		}
		a := Alternative{Choice: Choice{Term: g.Term, Items: []int{it.Index}, Field: f.path, cones: []cone{{it.Index, rests}}}}
		switch leaf := it.leaf(f, -1).(type) {
		case *order.Text:
			if s.Words == nil {
				continue
			}
			seen = append(seen, f.path)
			a.Taken, a.Unsaid = leaf.Value, !leaf.Set
			if a.Unsaid {
				a.Taken = it.cells[g.slot].word
			}
			for _, word := range s.Words(it.Order.Kind.Value, f.path) {
				if word == a.Taken || a.Unsaid && !it.begun(f) {
					continue
				}
				a := a
				a.Text = word
				a.change = it.saying(f, func() func() {
					was := *leaf
					leaf.Value, leaf.Set = word, true
					if leaf.Node == nil {
						leaf.Node = &order.Node{Text: word}
					}
					return func() { *leaf = was }
				})
				list = append(list, a)
			}
		case *order.Length:
			c := &it.cells[g.slot]
			if leaf.Set || g.Choice == nil || len(g.Choice.Usual) == 0 || !c.has {
				continue
			}
			seen = append(seen, f.path)
			a.Unsaid, a.Taken = true, c.value.Format(s.Unit, 0)
			for _, usual := range g.Choice.Usual {
				n := &order.Node{Text: usual}
				v, ok := s.Read(n, usual, Length)
				if !ok || v == c.value {
					continue
				}
				a := a
				a.Text, a.Value = v.Format(s.Unit, 0), v
				a.change = it.saying(f, func() func() {
					was := *leaf
					leaf.Value, leaf.Set, leaf.Node = v.Length(), true, n
					return func() { *leaf = was }
				})
				list = append(list, a)
			}
		}
	}
	return list
}

// begun reports whether the order has the block that a field is in.
func (it *Item) begun(f *field) bool {
	blocks := it.blocksOf(f)
	return len(blocks) == 0 || blocks[len(blocks)-1].Set
}

// blocksOf are the blocks of the form that a field of the item lies in, from the outermost.
func (it *Item) blocksOf(f *field) (list []*order.Block) {
	names := strings.Split(f.path, ".")
	at, of := unsafe.Pointer(it.Order), itemType
	for _, name := range names[:len(names)-1] {
		s := formFields(of)[name]
		at, of = unsafe.Add(at, s.Offset), s.Type
		if b, ok := of.FieldByName("Block"); ok && b.Type == reflect.TypeFor[order.Block]() {
			list = append(list, (*order.Block)(unsafe.Add(at, b.Offset)))
		}
	}
	return list
}

// saying changes a field, with the blocks that it lies in.
func (it *Item) saying(f *field, change func() func()) func() func() {
	return func() func() {
		undo := change()
		blocks := it.blocksOf(f)
		var were []bool
		for _, b := range blocks {
			were = append(were, b.Set)
			b.Set = true
		}
		return func() {
			undo()
			for i, b := range blocks {
				b.Set = were[i]
			}
		}
	}
}
