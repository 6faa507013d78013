package worksheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unsafe"

	"cutgate/internal/length"
	"cutgate/internal/order"
)

// A Choice is a number, or a word, that the order states and that outcomes are worked from.
type Choice struct {
	*Choosing
	Name  string // in people's words: "finished length"
	Term  string
	Items []int       // that are worked from it; a cloth's goes into several
	Cloth bool        // it is a fact of a cloth
	Field string      // where the form has it, of an item or a cloth: "heading.hook_drop"
	Node  *order.Node // as written
	Value Value
	Made  *sync.Map // what readers keep of it, by keys of their own, for all orders

	leaf  any
	heat  order.Heat // of a setting, as it was written
	cones []cone
}

// A cone is what rests on a choice in an item; of a cloth of two roles the item has two.
type cone struct {
	item  int
	slots slotSet
}

// Choices are the choices that the order states, item by item, in the order of the
// declaration of their kinds. A fact of a cloth is one choice, whatever it goes into.
func (s *Sheet) Choices() (list []Choice) {
	most := 0
	for i := range s.Items {
		it := &s.Items[i]
		for j := range it.kind.given {
			if it.kind.given[j].mayChoose(it) {
				most++
			}
		}
	}
	list = s.memory.choices.Make(most)[:0]
	at := make(map[*order.Node]int, most)
	items, cones := s.memory.numbers.Make(2*most), s.memory.cones.Make(2*most) // two for each, as most choices have no more
	for i := range s.Items {
		it := &s.Items[i]
		for j := range it.kind.given {
			g := &it.kind.given[j]
			if !g.mayChoose(it) {
				continue
			}
			leaf, n, field := g.written(it)
			if n == nil || n.Fixed && n.Form != order.Scalar {
				continue
			}
			if k, ok := at[n]; ok {
				c := &list[k]
				if c.Items[len(c.Items)-1] != i {
					c.Items = append(c.Items, i)
				}
				c.cones = append(c.cones, cone{i, g.cone})
				continue
			}
			k := len(list)
			at[n], items[2*k], cones[2*k] = k, i, cone{i, g.cone}
			name := g.Name
			if name == "" {
				name = g.Term
			}
			name = counted(name, g.Sort)
			v, _, _ := s.statedIn(leaf)
			v.Sort = g.Sort
			var heat order.Heat
			if l, ok := leaf.(*order.Setting); ok {
				heat = l.Value
			}
			list = append(list, Choice{heat: heat, Made: g.made, Choosing: g.Choice, Name: name, Term: g.Term, Items: items[2*k : 2*k+1 : 2*k+2], Cloth: g.roles[field] >= 0, Field: g.fields[field].path, Node: n, Value: v, leaf: leaf, cones: cones[2*k : 2*k+1 : 2*k+2]})
		}
	}
	return list
}

// Worded are the words that the order states and that something is worked from, item by item.
func (s *Sheet) Worded() (list []Choice) {
	if s.Allowed == nil {
		return nil
	}
	for i := range s.Items {
		it := &s.Items[i]
		first := len(list)
		for j := range it.kind.given {
			g := &it.kind.given[j]
			if len(g.fields) == 0 || g.roles[0] >= 0 || it.cells[g.slot].doubtful {
				continue
			}
			f := g.fields[0]
			leaf, word := it.leaf(f, -1).(*order.Text)
			if !word || !leaf.Set || leaf.Node == nil || slices.ContainsFunc(list[first:], func(c Choice) bool { return c.Field == f.path }) {
				continue
			}
			words := s.Allowed(it.Order.Kind.Value, f.path)
			if at := slices.Index(words, leaf.Value); at >= 0 && len(words) > 1 {
				list = append(list, Choice{
					Choosing: &Choosing{Words: words}, Name: "`" + f.path + "`", Items: []int{i}, Field: f.path, Node: leaf.Node,
					Value: Value{Sort: Word, N: int64(at)}, leaf: leaf, cones: []cone{{i, it.kind.coneOf(g)}},
				})
			}
		}
	}
	return list
}

// A Figure is a number as an item states it, whether anything is worked from it or not.
type Figure struct {
	Node *order.Node
	Sort Sort
}

// Beside are the figures that stand in one block of an item with a choice; none for a choice
// in no block.
func (s *Sheet) Beside(c *Choice) (list []Figure) {
	if c.Cloth || s.Order.Root == nil {
		return nil
	}
	items := s.Order.Root.Kid("items")
	if items == nil || c.Items[0] >= len(items.Kids) {
		return nil
	}
	dot := strings.LastIndexByte(c.Field, '.')
	if dot < 0 {
		return nil
	}
	in := &items.Kids[c.Items[0]]
	for name := range strings.SplitSeq(c.Field[:dot], ".") {
		in = in.Kid(name)
	}
	if in == nil {
		return nil
	}
	for i := range in.Kids {
		n := &in.Kids[i]
		if n == c.Node || n.Fixed || n.Form != order.Scalar && n.Form != order.Number {
			continue
		}
		if sort, word, ok := SortOf(c.Field[:dot+1] + n.Name); ok && !word {
			list = append(list, Figure{n, sort})
		}
	}
	return list
}

// Sizes gives every choice that is a length or a weight by area, some of them more than
// once, with what is known of it and its value and no more. It holds until the next one.
func (s *Sheet) Sizes(yield func(*Choice) bool) {
	var c Choice
	for i := range s.Items {
		it := &s.Items[i]
		for j := range it.kind.given {
			g := &it.kind.given[j]
			if g.Sort != Length && g.Sort != Areal || !g.mayChoose(it) {
				continue
			}
			leaf, n, _ := g.written(it)
			if n == nil || n.Fixed && n.Form != order.Scalar {
				continue
			}
			c.Choosing, c.Node = g.Choice, n
			c.Value, _, _ = s.statedIn(leaf)
			if c.Value.Sort = g.Sort; !yield(&c) {
				return
			}
		}
	}
}

// mayChoose reports whether a term is there, can be read and is one that people choose.
func (g *given) mayChoose(it *Item) bool {
	return g.Choice != nil && it.cells[g.slot].has && !it.cells[g.slot].doubtful
}

// written is the leaf that says what a term is, how it is written, and which of the
// term's fields it is.
func (g *given) written(it *Item) (leaf any, n *order.Node, field int) {
	for i, f := range g.fields {
		if l := it.leaf(f, g.roles[i]); l != nil {
			if n, set := nodeOf(l); set && n != nil {
				_, _, number := statedOf(l)
				if heat, ok := l.(*order.Setting); number || ok && !heat.Value.None {
					return l, n, i
				}
				return nil, nil, -1
			}
		}
	}
	return nil, nil, -1
}

// Take makes a choice say v.
func (c *Choice) Take(v Value) {
	switch l := c.leaf.(type) {
	case *order.Length:
		l.Value = v.Length()
	case *order.Count:
		l.Value = v.N
	case *order.Ratio:
		l.Value = v.R
	case *order.Mass:
		setMass(&l.Value, v)
	case *order.Areal:
		setMass(&l.Value, v)
	case *order.Linear:
		setMass(&l.Value, v)
	case *order.Text:
		l.Value = c.Words[v.N]
	case *order.Setting:
		if l.Value = (order.Heat{Dots: int(v.N)}); v == c.Value {
			l.Value = c.heat
		}
	}
}

func setMass[T ~int64](to *T, v Value) { *to = T(v.N) }

// Moves reports whether a stated outcome rests on a choice.
func (s *Sheet) Moves(c *Choice, of *Stated) bool {
	if of.Slot.Item >= 0 { // they stand item by item
		i, _ := slices.BinarySearchFunc(c.cones, of.Slot.Item, func(in cone, item int) int { return in.item - item })
		for ; i < len(c.cones) && c.cones[i].item == of.Slot.Item; i++ {
			if c.cones[i].slots.has(of.Slot.Term) {
				return true
			}
		}
		return false
	}
	for _, in := range c.cones {
		if s.goesInto(in.item, of.Slot.Cloth, in.slots) || c.Cloth && s.cutFrom(in.item, of.Slot.Cloth) {
			return true
		}
	}
	return c.Term == quantity.Term && s.cutFrom(c.Items[0], of.Slot.Cloth) || s.lies(of.Slot.Cloth, c.Node)
}

// lies reports whether a field says how wide a cloth is, or what repeats along it: by
// these the pieces are laid, whatever their sizes rest on.
func (s *Sheet) lies(cloth int, n *order.Node) bool {
	c := &s.Cloths[cloth]
	if m := s.Measured(c.Name); m != nil && (n == m.Width.Node || n == m.Repeat.Length.Node) {
		return n != nil
	}
	return n != nil && (n == c.Order.Width.Node || n == c.Order.Repeat.Length.Node)
}

// Rests reports whether one stated outcome is worked from another.
func (s *Sheet) Rests(of, on *Stated) bool {
	switch {
	case on.Slot.Item < 0:
		return false
	case of.Slot.Item < 0:
		return s.goesInto(on.Slot.Item, of.Slot.Cloth, s.below(on.Slot))
	}
	return of.Slot.Item == on.Slot.Item && of.Slot.Term != on.Slot.Term && s.below(on.Slot).has(of.Slot.Term)
}

// below are the terms of an item that are worked from one of them, itself included.
func (s *Sheet) below(on Slot) slotSet { return s.Items[on.Item].kind.below[on.Term] }

// goesInto reports whether one of some terms of an item is the size or the count of a
// piece that is cut from a cloth.
func (s *Sheet) goesInto(item, cloth int, among slotSet) bool {
	it := &s.Items[item]
	for i := range it.Pieces {
		d := it.Pieces[i].decl
		if c := it.Pieces[i].Cloth; c != nil && c.index == cloth &&
			(among.has(d.width) || among.has(d.length) || among.has(d.count) || d.takes >= 0 && among.has(d.takes) || d.across >= 0 && among.has(d.across)) {
			return true
		}
	}
	return false
}

// cutFrom reports whether pieces of an item are cut from a cloth: its width and its
// repeat then say how they are laid.
func (s *Sheet) cutFrom(item, cloth int) bool {
	return slices.ContainsFunc(s.Items[item].Pieces, func(p Piece) bool { return p.Cloth != nil && p.Cloth.index == cloth })
}

// OnOutcome reports whether a stated outcome is worked from another one as it stands, as
// a number of pleats from their spacing: by a term that is read from an outcome's field
// and is no choice.
func (s *Sheet) OnOutcome(of *Stated) bool {
	if of.Slot.Item < 0 {
		return false
	}
	it := &s.Items[of.Slot.Item]
	for i := range it.kind.given {
		g := &it.kind.given[i]
		if g.Choice != nil || len(g.From) != 1 || !it.cells[g.slot].has ||
			!slices.ContainsFunc(it.kind.outcomes, func(o outcome) bool { return o.Field == g.From[0] && o.slot != of.Slot.Term }) {
			continue
		}
		for j := range it.kind.steps {
			st := &it.kind.steps[j]
			if it.cells[st.slot].has && it.reads(st, g.slot) && s.below(Slot{Item: of.Slot.Item, Term: st.slot}).has(of.Slot.Term) {
				return true
			}
		}
	}
	return false
}

// OnGuess reports whether a stated outcome is worked from a count that the order leaves
// blank and that was gathered from another outcome, as pleats from their spacing.
func (s *Sheet) OnGuess(of *Stated) bool {
	if of.Slot.Item < 0 {
		return false
	}
	it := &s.Items[of.Slot.Item]
	return slices.ContainsFunc(it.kind.outcomes, func(o outcome) bool {
		on := Slot{Item: it.Index, Term: o.slot}
		if c := &it.cells[o.slot]; !c.has || c.value.Sort != Count || on == of.Slot || !s.below(on).has(of.Slot.Term) {
			return false
		}
		_, _, set := s.statedIn(o.field.leaf(unsafe.Pointer(it.Order)))
		return !set && s.OnOutcome(&Stated{Slot: on})
	})
}

// StatedFrom are the stated outcomes of an item, and of its cloths, that are worked
// from a term of it, but for that term itself.
func (s *Sheet) StatedFrom(item int, term Name) (list []*Stated) {
	slot, ok := s.Items[item].kind.slots[string(term)]
	if !ok {
		return nil
	}
	on := Slot{Item: item, Term: slot}
	for _, stated := range [2][]Stated{s.statedOf(item), s.Stated[s.ofItems:]} {
		for i := range stated {
			if of := &stated[i]; of.Slot != on && s.BelowSlot(of, on) {
				list = append(list, of)
			}
		}
	}
	return list
}

// Given are the terms that are given by what is written at each place, a number or a word.
func (s *Sheet) Given() map[*order.Node][]Slot {
	at := make(map[*order.Node][]Slot)
	for i := range s.Items {
		it := &s.Items[i]
		for j := range it.kind.given {
			g := &it.kind.given[j]
			if n := g.node(it); n != nil {
				at[n] = append(at[n], Slot{Item: i, Term: g.slot})
			}
		}
	}
	return at
}

// Bears reports whether a stated outcome is worked from what is written at n, which gives some
// terms, but for the outcomes written at some other places: one that is contradicted is put
// right by what stands at n.
func (s *Sheet) Bears(n *order.Node, given []Slot, but ...*order.Node) bool {
	stands := func(of *Stated) bool { return !slices.Contains(but, of.Node) }
	cloths := s.Stated[s.ofItems:]
	for _, g := range given {
		rests := s.Items[g.Item].kind.below[g.Term]
		if slices.ContainsFunc(s.statedOf(g.Item), func(of Stated) bool { return stands(&of) && rests.has(of.Slot.Term) }) ||
			slices.ContainsFunc(cloths, func(of Stated) bool { return stands(&of) && s.goesInto(g.Item, of.Slot.Cloth, rests) }) {
			return true
		}
	}
	return slices.ContainsFunc(cloths, func(of Stated) bool { return stands(&of) && s.lies(of.Slot.Cloth, n) })
}

// A Belief is a term for which a stated outcome was taken for the maker's choice.
type Belief struct {
	Slot Slot
	Free bool // as is usual: a count of holes
}

// Beliefs are the beliefs that the order was worked out with.
func (s *Sheet) Beliefs() (list []Belief) {
	for i := range s.Items {
		it := &s.Items[i]
		if it.kind == nil {
			continue // it was not asked for
		}
		for _, j := range it.kind.beliefs {
			st := &it.kind.steps[j]
			if c := &it.cells[st.slot]; c.believed {
				list = append(list, Belief{Slot{Item: i, Term: st.slot}, st.rows[c.row-1].Free})
			}
		}
	}
	return list
}

// BelowSlot reports whether a stated outcome is worked from a term of its item, or is
// that term.
func (s *Sheet) BelowSlot(of *Stated, on Slot) bool {
	return of.Slot.Item == on.Item && s.below(on).has(of.Slot.Term) || of.Slot.Item < 0 && s.goesInto(on.Item, of.Slot.Cloth, s.below(on))
}

// Counts is one number for all the counts that a stated outcome is worked from: as
// long as that stays, the outcome goes smoothly with a choice, and does not leap.
func (s *Sheet) Counts(of *Stated) (sum int64) {
	if of.Slot.Item < 0 {
		return 0
	}
	it := &s.Items[of.Slot.Item]
	for slot := range it.kind.above[of.Slot.Term].all {
		if c := &it.cells[slot]; c.value.Sort == Count && slot != of.Slot.Term {
			sum = sum*31 + c.value.N
		}
	}
	return sum
}

// Words is one number for the words that a stated outcome is worked from, as which way the
// cloth runs: where they change, it is worked from other choices.
func (s *Sheet) Words(of *Stated) (sum int) {
	if of.Slot.Item < 0 {
		return 0
	}
	it := &s.Items[of.Slot.Item]
	for slot := range it.kind.above[of.Slot.Term].all {
		if word := it.cells[slot].word; word != "" {
			sum = sum*31 + 256*len(word) + int(word[len(word)-1])
		}
	}
	return sum
}

// FieldOf is where the form has a stated outcome of an item, as [Choice.Field] says it; ""
// for one of a cut or of a cloth.
func (s *Sheet) FieldOf(of *Stated) string {
	if of.Slot.Item < 0 || of.piece != nil {
		return ""
	}
	k := s.Items[of.Slot.Item].kind
	for i := range k.outcomes {
		if o := &k.outcomes[i]; o.slot == of.Slot.Term {
			return o.Field
		}
	}
	return ""
}

// Swapped reports whether two stated outcomes are the width and the length of one
// cut.
func (s *Sheet) Swapped(a, b *Stated) bool {
	return a.piece != nil && b.piece != nil && a.piece.Name == b.piece.Name && a.Slot.Item == b.Slot.Item && a.cut == b.cut &&
		a.Quantity.Value.Sort == Length && b.Quantity.Value.Sort == Length && a.Slot.Term != b.Slot.Term
}

// OneWorking reports whether two stated outcomes are worked out in one go, so that a slip in
// one of them is in both: the sizes of one cut, a size that two pieces have, and the counts of
// one item.
func (s *Sheet) OneWorking(a, b *Stated) bool {
	counts := a.Value.Sort == Count && b.Value.Sort == Count
	return s.Swapped(a, b) || OneList(a, b) && (counts || a.Value == b.Value && a.Quantity.Value == b.Quantity.Value)
}

// OfCut reports whether a stated outcome is one of a cut.
func (of *Stated) OfCut() bool { return of.piece != nil }

// OneList reports whether two stated outcomes are of the cuts of one item.
func OneList(a, b *Stated) bool {
	return a.OfCut() && b.OfCut() && a.Slot.Item == b.Slot.Item && a.Value.Sort == b.Value.Sort
}

// RoundedUp reports whether a stated length of a cut is another one, rounded up to a mark on
// the tape as people round lengths along the cloth.
func (s *Sheet) RoundedUp(of *Stated, l length.Length) bool {
	if of.piece == nil || of.Quantity != of.piece.Length || of.Value.Length() <= l {
		return false
	}
	for _, mark := range roundedTo(s.lengthStyle(of.Node).Unit()) {
		if of.Value.Length()%mark == 0 {
			return of.Value.Length()-l < mark
		}
	}
	return false
}

// SlipsOf are the wrong numbers that slips of its own arithmetic give for a stated
// outcome: those that are wanted.
func (s *Sheet) SlipsOf(of *Stated, wanted func(Value) bool) (list []Slipped) {
	take := func(sl Slipped) {
		if wanted(sl.Value) {
			list = append(list, sl)
		}
	}
	add := func(name string, v Value) { take(Slipped{Name: name, Value: v}) }
	if of.Slot.Item < 0 {
		s.clothSlips(of, take)
		return list
	}
	it := &s.Items[of.Slot.Item]
	if n := it.Quantity; n > 1 && of.piece != nil && of.Quantity.Value.Sort == Count {
		if all := CountOf(of.Quantity.Value.N * n); wanted(all) {
			list = append(list, Slipped{Name: fmt.Sprintf("it was counted for all %d items", n), Value: all})
		}
	}
	if p := of.piece; p != nil && p.Length != nil && of.Quantity.Value.Sort == Length {
		other := p.Length
		if of.Quantity == other {
			other = p.Width
		}
		if !slices.ContainsFunc(s.statedOf(of.Slot.Item), func(o Stated) bool { return o.Quantity == other && o.Value == of.Value && o.Agrees == Exactly }) {
			add(SidesSwapped, other.Value) // else one size stands for both
		}
		for i := range it.Pieces { // a row was copied, and not all of it changed
			q := &it.Pieces[i]
			size := q.Width
			if of.Quantity == p.Length {
				size = q.Length
			}
			if size != nil && q.Name != p.Name && q.Cloth == p.Cloth && size.Value != of.Quantity.Value && wanted(size.Value) {
				list = append(list, Slipped{Name: "it is that of the " + q.Name, Value: size.Value, Seldom: true})
			}
		}
	}
	for i := range it.kind.slips {
		sl := &it.kind.slips[i]
		if sl.slot != of.Slot.Term {
			continue
		}
		mustRead(it.kind.Name, sl.read(it.kind))
		if !hold(sl.when, it) {
			continue
		}
		if sl.Work != nil {
			for _, x := range sl.Work(it) {
				take(x)
			}
			continue
		}
		r, ok := sl.bound.eval(it)
		if !ok {
			continue
		}
		v, ok := valueOf(r, it.kind.sorts[sl.slot], length.Nearest)
		if !ok || v.Sort == Length && v.N <= 0 || !wanted(v) {
			continue
		}
		x := Slipped{Name: sl.Name, Value: v, Seldom: sl.Two || sl.Seldom, Leaps: sl.Leaps}
		if sl.Show {
			x.Working = s.figure(sl.bound.as(it), it, v)
		}
		list = append(list, x)
	}
	return list
}

// figure is a slip's own arithmetic with the numbers in.
func (s *Sheet) figure(t text, it *Item, result Value) string {
	q := Quantity{Formula: t.words, Value: result}
	for _, slot := range t.slots {
		q.Terms = append(q.Terms, Term{Value: it.cells[slot].value})
	}
	return q.Figures(s.Unit)
}

// Soft is what speaks against an item as it was worked out, though it may be so: the
// more, the stronger, in hundredths of a natural logarithm of odds.
func (s *Sheet) Soft(item int) (sum int) {
	it := &s.Items[item]
	for i := range it.kind.Unlikely {
		if u := &it.kind.Unlikely[i]; u.Is(it) {
			sum += u.Cost
		}
	}
	return sum
}

// Read is a text as it would be read at n, as a value of a sort.
func (s *Sheet) Read(n *order.Node, text string, sort Sort) (Value, bool) {
	return s.read(n, strings.TrimSpace(text), sort)
}

// OutcomeAt is the outcome that the form has at n as well, as a quantity without a
// value: a number that may be chosen or worked from others.
func (s *Sheet) OutcomeAt(n *order.Node) (*Quantity, bool) {
	for i := range s.Items {
		for _, e := range s.Items[i].Entries() {
			if n != nil && e.Node == n {
				return &Quantity{Name: Name(e.Term), Item: i}, e.Term == string(HoleInset)
			}
		}
	}
	return nil, false
}

// OutcomeOf is what was worked out for the outcome at a path of the form, as
// items[0].holes.spacing; nil where the form has none there, where it could not be
// worked out, and where it rests on something stated that is in doubt.
func (s *Sheet) OutcomeOf(path string) *Quantity {
	i, rest, ok := element(path, "items", len(s.Items))
	if !ok {
		return nil
	}
	it := &s.Items[i]
	for _, e := range it.Entries() {
		if e.Field == rest && !e.Doubtful && e.Quantity != nil && !s.RestsOnDoubt(e.Quantity) {
			return e.Quantity
		}
	}
	j, name, ok := element(rest, "cuts", len(it.Order.Cuts))
	if !ok {
		return nil
	}
	c := &it.Order.Cuts[j]
	if p, _ := it.PieceOf(c); p != nil && !s.Unsettled(i) {
		width, length := it.SizesOf(p, c)
		switch {
		case name == "width" && !width.Doubtful:
			return width.Quantity
		case name == "length" && !length.Doubtful:
			return length.Quantity
		}
	}
	return nil
}

// element is which of a list of n a path goes to, and its rest: of items[3].hem.turn it
// is 3 and hem.turn.
func element(path, list string, n int) (i int, rest string, ok bool) {
	rest, ok = strings.CutPrefix(path, list+"[")
	if !ok {
		return 0, "", false
	}
	number, rest, ok := strings.Cut(rest, "].")
	i, err := strconv.Atoi(number)
	return i, rest, ok && err == nil && 0 <= i && i < n
}

// Chosen reports whether the term of an outcome is what the order states, as a choice.
func (s *Sheet) Chosen(on Slot) bool { return on.Item >= 0 && s.Items[on.Item].cells[on.Term].own }

// RestsOnDoubt reports whether a quantity of an item is worked from a stated value that is
// in doubt.
func (s *Sheet) RestsOnDoubt(q *Quantity) bool {
	if len(s.Misread) == 0 && len(s.Disagreements) == 0 {
		return false
	}
	if slices.ContainsFunc(s.Misread, func(m Misread) bool { return m.Units }) {
		return true
	}
	slot := slices.IndexFunc(s.Items[q.Item].cells, func(c cell) bool { return c.q == q })
	if slot < 0 {
		return false
	}
	of := &Stated{Slot: Slot{Item: q.Item, Term: slot}}
	choices := append(s.Choices(), s.Worded()...)
	for i := range choices {
		if s.Doubted(choices[i].Node) && s.Moves(&choices[i], of) {
			return true
		}
	}
	return slices.ContainsFunc(s.Stated, func(on Stated) bool { return on.Slot.Item >= 0 && s.Doubted(on.Node) && s.BelowSlot(of, on.Slot) })
}

// What is said of each of two values that were swapped.
const (
	SidesSwapped = "width and length were swapped"
	TwoSwapped   = "the two were swapped"
)
