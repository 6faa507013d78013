package worksheet

import (
	"reflect"
	"slices"
	"strings"
	"unsafe"

	"cutgate/internal/length"
	"cutgate/internal/order"
)

// An Alternative is something else that the order might say of an item: a word, or a usual
// figure, in a field that it leaves out, or that a row is of another piece.
type Alternative struct {
	Choice        // as far as a trial asks for it
	Text   string // what it would say: "along", "1/4 in"
	Taken  string // what was taken, or stands in the row; "" for nothing

	change func() (undo func())
}

// Make makes the order say it, until undo is called.
func (a *Alternative) Make() (undo func()) { return a.change() }

// Alternatives are what the order might say of the item that an outcome is stated of and does
// not, as far as the outcome rests on it. Of words they are those of the form, by [Sheet.Allowed]; of
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
		says, taken := it.mightSay(g, seen)
		if len(says) == 0 {
			continue
		}
		rests := g.cone
		if rests == nil {
			rests = it.kind.coneOf(g)
		}
		if !rests.has(of.Slot.Term) {
			continue
		}
		f := g.fields[0]
		seen = append(seen, f.path)
		leaf := it.leaf(f, -1)
		_, word := leaf.(*order.Text)
		for _, text := range says {
			a := Alternative{Choice: Choice{Term: g.Term, Items: []int{it.Index}, Field: f.path, cones: []cone{{it.Index, rests}}}, Text: text, Taken: taken}
			n := &order.Node{Text: text}
			if !word {
				v, ok := s.Read(n, text, g.Sort)
				if !ok || v == it.cells[g.slot].value {
					continue
				}
				a.Text, a.Value = v.Format(s.Unit, length.Nearest), v
			}
			if a.Text == taken {
				continue
			}
			a.change = func() func() { return say(leaf, a.Value, n, it.blocksOf(f)) }
			list = append(list, a)
		}
	}
	return list
}

// mightSay is what the first field of a term might say where it says nothing: the words of the
// form, or the usual figures; and what was taken. Of a block that the order
// does not have, only the first figure that is asked for may be something else.
func (it *Item) mightSay(g *given, asked []string) (says []string, taken string) {
	s, f, c := it.Sheet, g.fields[0], &it.cells[g.slot]
	leaf := it.leaf(f, -1)
	_, set := nodeOf(leaf)
	switch _, word := leaf.(*order.Text); {
	case set:
	case word && s.Allowed != nil && it.begun(f):
		return s.Allowed(it.Order.Kind.Value, f.path), c.word
	case word || g.Choice == nil || g.Choice.Ordered:
	case c.has || !it.begun(f) && !slices.ContainsFunc(asked, func(had string) bool { return sameBlock(had, f.path) }):
		for _, usual := range g.Choice.Usual {
			if g.Sort != Length || s.Unit.Metric() != strings.HasSuffix(usual, "in") {
				says = append(says, usual)
			}
		}
		if c.has {
			taken = c.value.Format(s.Unit, length.Nearest)
		}
	}
	return says, taken
}

// begun reports whether the order has the block that a field is in.
func (it *Item) begun(f *field) bool {
	blocks := it.blocksOf(f)
	return len(blocks) == 0 || blocks[len(blocks)-1].Set
}

// sameBlock reports whether two fields lie in one block of the form.
func sameBlock(a, b string) bool {
	return a[:strings.LastIndexByte(a, '.')+1] == b[:strings.LastIndexByte(b, '.')+1]
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

// say makes a field say what stands in a node, or the value of it where it is a number, in the
// blocks that it lies in, until undo is called.
func say(leaf any, v Value, n *order.Node, blocks []*order.Block) (undo func()) {
	restore := func() {}
	switch l := leaf.(type) {
	case *order.Text:
		restore = put(l, n.Text, n)
	case *order.Length:
		restore = put(l, v.Length(), n)
	case *order.Count:
		restore = put(l, v.N, n)
	case *order.Ratio:
		restore = put(l, v.R, n)
	}
	var were []bool
	for _, b := range blocks {
		were = append(were, b.Set)
		b.Set = true
	}
	return func() {
		restore()
		for i, b := range blocks {
			b.Set = were[i]
		}
	}
}

// put puts a value into a leaf until restore is called.
func put[T any](l *order.Leaf[T], v T, n *order.Node) (restore func()) {
	was := *l
	l.Value, l.Set = v, true
	if l.Node == nil {
		l.Node = n
	}
	return func() { *l = was }
}

// OtherPiece is another piece of which a row of cuts may be, as all that it states of its size,
// or its count where it states none, is that one's, and no other row is of it; nil where there
// is none.
func (s *Sheet) OtherPiece(of *Stated) *Alternative {
	if of.piece == nil {
		return nil
	}
	it := &s.Items[of.Slot.Item]
	row := &it.Order.Cuts[of.cut]
	for i := range it.Pieces {
		p := &it.Pieces[i]
		as := *row
		as.Piece.Value = p.Name
		if p == of.piece || !p.cutAs(&as) || slices.ContainsFunc(it.Order.Cuts, func(c order.Cut) bool { return SamePiece(c.Piece.Value, p.Name) }) {
			continue
		}
		if s.sized(it, of.piece, row) {
			return nil
		}
		width, long := it.SizesOf(p, row)
		is := func(l order.Length, q CutSize) bool {
			return !l.Set || q.Quantity != nil && s.agree(it, LengthOf(l.Value), q.Value, l.Node, nil, 0, Size) != Differs
		}
		sized := row.Width.Set || row.Length.Set
		if is(row.Width, width) && is(row.Length, long) && (sized || p.Count != nil && row.Count.Value == p.Count.Value.N) {
			return &Alternative{Choice: Choice{Field: "piece"}, Text: p.Name, Taken: row.Piece.Value}
		}
	}
	return nil
}
