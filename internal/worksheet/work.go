package worksheet

import (
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/lay"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/trade"
)

// Work works out an order. It never fails: what can't be worked out for want of
// a number is left out of the sheet.
func Work(o *order.Order, t *trade.Tables, kinds *Kinds) *Sheet {
	return WorkIn(new(Memory), o, t, kinds)
}

// WorkIn is Work with the sheet put into m.
func WorkIn(m *Memory, o *order.Order, t *trade.Tables, kinds *Kinds) *Sheet {
	s := work(m, o, t, kinds, nil)
	s.commas = o.Root != nil && o.Root.Cell && decimalCommas(o.Root)
	return s
}

// A Trial is a working out in which some things stand otherwise than the order has
// them.
type Trial struct {
	Forced    []Forced // what is taken as stated, right or wrong
	Withdrawn []Slot   // beliefs that are taken back
	Full      bool     // with the texts of the workings
	// Base is another working out of the order. From it is taken what nothing was
	// changed of.
	Base    *Sheet
	Changed []*Choice
	Scratch *Scratch // where cells are taken from
	// For is the part of it that will be read; nil for all of it.
	For *Wanted
}

// A Wanted is what some stated outcomes of a sheet are worked from.
type Wanted struct {
	items  []slotSet // by item; nil for one that is not looked at
	stated []bool    // by item, whether one of them is of it
	cloths []bool    // nil where none of them is of a cloth
}

// Wanting is what some of the stated outcomes are worked from, by their numbers.
func (s *Sheet) Wanting(list []int) *Wanted {
	w := &Wanted{items: make([]slotSet, len(s.Items)), stated: make([]bool, len(s.Items))}
	for _, i := range list {
		of := &s.Stated[i]
		if of.Slot.Item < 0 {
			if w.cloths == nil {
				w.cloths = make([]bool, len(s.Cloths))
			}
			w.cloths[of.Slot.Cloth] = true
			continue
		}
		k := s.Items[of.Slot.Item].kind
		slots := w.items[of.Slot.Item]
		if slots == nil {
			slots = k.slotSet()
			w.items[of.Slot.Item], w.stated[of.Slot.Item] = slots, true
		}
		slots.join(k.above[of.Slot.Term])
		if of.piece != nil {
			slots.join(k.cut)
		}
		for j := range k.outcomes {
			if o := &k.outcomes[j]; o.slot == of.Slot.Term && o.Unless != nil {
				slots.fill()
			}
		}
	}
	if w.cloths != nil {
		inRows := true
		for i, is := range w.cloths {
			inRows = inRows && !(is && s.Way(&s.Cloths[i]) != lay.Rows)
		}
		for i := range w.items {
			k := s.Items[i].kind
			if w.items[i] == nil {
				w.items[i] = k.slotSet()
			}
			if w.items[i].join(k.cut); !inRows { // by their outlines too
				w.items[i].fill()
			}
		}
	}
	return w
}

// wants reports whether anybody will read an item of a trial.
func (t *Trial) wants(item int) bool { return t.For == nil || t.For.items[item] != nil }

// A Scratch is memory for trials that are worked out one after the other from the
// same base.
type Scratch struct{ free []*Sheet }

// A room is the memory of a trial's sheet.
type room struct {
	worker worker
	slab   []Quantity
	stated []Stated
	items  []itemRoom
}

// An itemRoom is the memory of an item of a trial's sheet, always the same item of the
// same base.
type itemRoom struct {
	cells  []cell  // as the base has them, but for those of the mask
	mask   slotSet // of the last trial that changed something of the item
	taken  bool    // the item is as the base has it
	roles  []*Cloth
	pieces []Piece
	states []int // the outcomes that are stated; nil before they were looked for
}

// get is an empty sheet with room for another working out of base.
func (s *Scratch) get(base *Sheet) *Sheet {
	n := len(s.free)
	if n == 0 {
		m := base.memory
		to := &Sheet{Items: m.items.Make(len(base.Items)), Cloths: make([]Cloth, len(base.Cloths))}
		to.room = &room{slab: m.quantities.Make(40*len(base.Items) + 8)[:0], stated: m.stated.Make(len(base.Stated) + 8)[:0], items: make([]itemRoom, len(base.Items))}
		return to
	}
	to := s.free[n-1]
	s.free = s.free[:n-1]
	to.Stated = nil
	return to
}

// Release gives back the memory of a trial that nobody reads any more.
func (s *Scratch) Release(trial *Sheet) {
	if trial.room != nil {
		s.free = append(s.free, trial)
	}
}

// mask is what of an item is to be worked out anew; nil for nothing.
func (t *Trial) mask(it *Item, room *itemRoom) (mask slotSet) {
	add := func(slots slotSet) {
		switch {
		case mask != nil:
		case room.mask == nil:
			mask, room.cells = it.kind.slotSet(), t.Base.memory.cells.Make(len(it.cells))
			copy(room.cells, it.cells)
		default:
			mask = room.mask
			for slot := range mask.all { // what the last trial changed
				room.cells[slot] = it.cells[slot]
			}
			clear(mask)
		}
		room.mask = mask
		mask.join(slots)
	}
	for _, c := range t.Changed {
		for i := range c.cones {
			if in := &c.cones[i]; in.item == it.Index {
				add(in.slots)
			}
		}
	}
	for i := range t.Forced {
		if s := t.Forced[i].Slot; s.Item == it.Index {
			add(it.kind.below[s.Term])
		}
	}
	for _, s := range t.Withdrawn {
		if s.Item == it.Index {
			add(it.kind.below[s.Term])
		}
	}
	if mask != nil && t.For != nil {
		mask.meet(t.For.items[it.Index])
	}
	return mask
}

// A Forced is a term that stands as stated.
type Forced struct {
	Slot  Slot
	Value Value
}

// A Slot is a term of an item, or what is to be bought of a cloth.
type Slot struct {
	Item  int // -1 for a cloth's
	Cloth int
	Term  int
}

// Try works out an order like s, or a changed copy of it, with what a trial changes.
// Choices are changed in the order itself, by whoever tries.
func (s *Sheet) Try(o *order.Order, trial *Trial) *Sheet {
	if trial.Base != nil {
		return again(o, trial)
	}
	return work(s.memory, o, s.Tables, s.Kinds, trial)
}

func work(m *Memory, o *order.Order, t *trade.Tables, kinds *Kinds, trial *Trial) *Sheet {
	unit := unitOf(o)
	s := &Sheet{Order: o, Tables: t.For(unit), Kinds: kinds, Unit: unit, styles: map[*order.Node]length.Style{}, marked: markedTo(o, unit), Lean: trial != nil && !trial.Full, memory: m}
	n := len(o.Items) // what an order of n items needs, as a rule
	w := &worker{Sheet: s, trial: trial, slab: m.quantities.Make(30*n + 4)[:0], pieces: m.pieces.Make(8)[:0], numbers: m.numbers.Make(24)[:0]}
	if !w.Lean {
		w.terms, w.shown = m.terms.Make(64*n + 8)[:0], m.terms.Make(8)[:0]
		s.All = m.all.Make(30*n + 4)[:0]
	}
	s.Stated = m.stated.Make(16*n + 8)[:0]
	s.named, s.benched = index(o.Cloths), index(o.Measured)
	w.clothsOf()
	s.Items = m.items.Make(len(o.Items))
	for i := range o.Items {
		w.item = i
		w.workItem(&s.Items[i])
	}
	w.item = -1
	s.ofItems = len(s.Stated)
	for i := range s.Cloths {
		w.need(&s.Cloths[i])
	}
	return s
}

// again works an order out from another working out of it: what nothing was changed of
// is taken from there.
func again(o *order.Order, trial *Trial) *Sheet {
	base := trial.Base
	s := trial.Scratch.get(base)
	s.Order, s.Tables, s.Kinds, s.Unit, s.styles, s.marked = o, base.Tables, base.Kinds, base.Unit, base.styles, base.marked
	s.lays, s.commas, s.named, s.benched, s.disputed = base.lays, base.commas, base.named, base.benched, base.disputed
	s.Lean = true
	w := &s.room.worker
	*w = worker{Sheet: s, trial: trial, slab: s.room.slab[:0], pieces: w.pieces}
	s.Stated = s.room.stated[:0]
	kept := !slices.ContainsFunc(trial.Changed, func(c *Choice) bool { return c.Cloth })
	if !kept {
		w.clothsOf()
	} else {
		for i := range s.Cloths {
			c, from := &s.Cloths[i], &base.Cloths[i]
			cuts := c.cuts[:0]
			*c = *from
			c.Needed, c.ToBuy, c.TooWide, c.Cuts, c.cuts = nil, nil, nil, 0, cuts
			c.asBefore, c.lacks = true, false
		}
	}
	for i := range s.Items {
		if w.item = i; trial.wants(i) {
			w.takeItem(&s.Items[i], &base.Items[i], &s.room.items[i])
		}
	}
	w.item = -1
	if trial.For != nil && trial.For.cloths == nil {
		s.room.stated = s.Stated
		return s
	}
	ofCloths := base.Stated[base.ofItems:]
	made := kept && w.madeAsBefore()
	s.ofItems = len(s.Stated)
	for i := range s.Cloths {
		c, from := &s.Cloths[i], &base.Cloths[i]
		n := 0
		for n < len(ofCloths) && ofCloths[n].Slot.Cloth == i {
			n++
		}
		stated := ofCloths[:n]
		ofCloths = ofCloths[n:]
		if trial.For != nil && !trial.For.cloths[i] || !c.Order.Ordered.Set {
			continue // nobody compares it
		}
		if !c.asBefore && !(made && cutAsBefore(c, from)) {
			w.need(c)
			continue
		}
		c.Needed, c.ToBuy, c.TooWide, c.Cuts = from.Needed, from.ToBuy, from.TooWide, from.Cuts
		s.Stated = append(s.Stated, stated...)
	}
	s.room.stated = s.Stated
	return s
}

func unitOf(o *order.Order) length.Unit {
	if u, ok := length.ParseUnit(o.Units.Value); ok {
		return u
	}
	return length.MM
}

const (
	perLength = int64(length.Metre)                       // nanometres to the metre
	perArea   = int64(length.Metre) * int64(length.Metre) // square nanometres to the square metre
)

// A worker is the state of one working out.
type worker struct {
	*Sheet
	trial *Trial // nil for the order as it is
	item  int
	slab  []Quantity // quantities are handed out from it, so that their addresses hold
	terms []Term
	shown []Term // by one quantity, until put copies them

	pieces  []lay.Piece // of one cloth
	numbers []int       // of the outcomes of one item

	hidden map[string][]string // what could not be read: see hiddenIn
	looked bool                // for what lacks: see complete
	read   *bool               // see allRead; nil before it was asked
	rests  map[resting]slotSet // see doubtRole
}

// only is what anybody will read; nil for everything.
func (w *worker) only() *Wanted {
	if w.trial == nil {
		return nil
	}
	return w.trial.For
}

// put adds a quantity to the sheet. The terms stand in the order of the
// formula's braces.
func (w *worker) put(name Name, of string, v Value, r length.Rounding, src, formula string, terms ...Term) *Quantity {
	if len(w.slab) == cap(w.slab) {
		w.slab = make([]Quantity, 0, 16)
	}
	w.slab = append(w.slab, Quantity{Name: name, Of: of, Item: w.item, Value: v, Round: r, Source: src, Formula: formula})
	q := &w.slab[len(w.slab)-1]
	if w.Lean {
		return q
	}
	if len(w.terms)+len(terms) > cap(w.terms) {
		w.terms = w.memory.terms.Make(max(32, len(terms)))[:0]
	}
	from := len(w.terms)
	w.terms = append(w.terms, terms...)
	q.Terms = w.terms[from:len(w.terms):len(w.terms)]
	w.All = append(w.All, q)
	return q
}

// LengthTerm, CountTerm and RatioTerm name a number for a formula.
func LengthTerm(name string, l length.Length) Term { return Term{Name: name, Value: LengthOf(l)} }
func CountTerm(name string, n int64) Term          { return Term{Name: name, Value: CountOf(n)} }
func RatioTerm(name string, r length.Ratio) Term   { return Term{Name: name, Value: RatioOf(r)} }

// Via is a quantity whose own working belongs to that of the one it goes into.
func Via(q *Quantity) Term { return Term{Name: string(q.Name), Value: q.Value, via: q} }

// A cell is a term of an item: what it comes to.
type cell struct {
	has        bool
	believed   bool  // a stated outcome, taken for the maker's choice
	own        bool  // it is the choice itself
	impossible bool  // what it is worked from allows of none
	doubtful   bool  // it rests on something that could not be read
	row        uint8 // of its step that was taken, counted from 1; 0 for none
	value      Value
	word       string
	q          *Quantity // nil for one that is not reported
}

// workItem works out an item by its kind.
func (w *worker) workItem(it *Item) {
	o := &w.Order.Items[w.item]
	it.Order, it.Sheet, it.Index, it.Panels = o, w.Sheet, w.item, 1
	it.Quantity = Or(o.Quantity, 1)
	it.kind = w.Kinds.of(o)
	it.Worked = it.kind != nil
	if !it.Worked {
		it.kind = w.Kinds.unworked.sound()
	}
	k := it.kind
	it.cells = w.memory.cells.MakeOf(len(k.terms), len(k.terms)*len(w.Items))
	it.roles = make([]*Cloth, len(k.Roles))
	for i := range k.Roles {
		if name := it.ClothName(i); name != "" {
			it.roles[i] = w.Cloth(name)
		} else if other := k.Roles[i].Else; other != "" {
			it.roles[i] = it.roles[k.Role(other)]
		}
	}
	it.Face = it.roles[0]
	it.extra = it.extraRows()
	w.doubt(it)
	if k.Setup != nil {
		k.Setup(it)
	}
	for i := range k.given {
		k.given[i].take(it)
	}
	for i := range k.steps {
		w.step(it, &k.steps[i], nil)
		if it.Unread || it.disputed {
			k.steps[i].doubt(it)
		}
	}
	w.finishItem(it)
}

// doubt doubts a term that was worked out by what could not be read: by what the row that
// was taken reads, or what those before it were passed over for; by any row where none was.
func (s *step) doubt(it *Item) {
	c := &it.cells[s.slot]
	for i := range s.rows {
		r := &s.rows[i]
		taken := c.has && int(c.row) == i+1
		slots := guarded(r.when)
		if taken || r.Work != nil || !c.has {
			slots = r.reads()
		}
		c.doubtful = c.doubtful || slices.ContainsFunc(slots, func(slot int) bool { return it.cells[slot].doubtful })
		if taken {
			return
		}
	}
}

// finishItem makes the pieces of an item whose terms are worked out, and compares what
// the order states of it.
func (w *worker) finishItem(it *Item) {
	it.Pieces = it.madePieces(slices.Grow(it.Pieces[:0], 4))
	it.add()
	if only := w.only(); only == nil || only.cloths != nil {
		w.give(it.Pieces, it)
		w.give(it.Added, it)
		if it.kind.Finish != nil {
			it.kind.Finish(it)
		}
	}
	w.compareItem(it)
}

// takeItem takes an item as it was worked out before, but for what rests on what is
// changed.
func (w *worker) takeItem(it, from *Item, room *itemRoom) {
	mask := w.trial.mask(from, room)
	if mask == nil && room.taken {
		w.takeOver(it)
		return
	}
	*it = *from
	it.Sheet = w.Sheet
	it.Order = &w.Order.Items[it.Index]
	if room.roles == nil {
		room.roles = make([]*Cloth, len(from.roles))
	}
	it.roles = room.roles
	for i, c := range from.roles {
		if c != nil {
			it.roles[i] = &w.Cloths[c.index]
		}
	}
	it.Face = it.roles[0]
	it.mask, room.taken = mask, mask == nil
	if room.taken {
		room.pieces = append(room.pieces[:0], from.Pieces...)
		it.Pieces = room.pieces
		for i := range it.Pieces {
			it.Pieces[i].Cloth = it.roles[it.Pieces[i].decl.role]
		}
		it.add()
		w.takeOver(it)
		return
	}
	for _, c := range it.roles {
		if c != nil {
			c.asBefore = false
		}
	}
	it.cells, it.Pieces = room.cells, room.pieces
	it.Panels, it.Quantity, it.Holes, it.Joined = 1, Or(it.Order.Quantity, 1), nil, nil
	k := it.kind
	if k.Setup != nil {
		k.Setup(it)
	}
	for slot := range mask.all {
		c, n := &it.cells[slot], slot-len(k.given)
		switch {
		case n < 0:
			c.clear()
			k.given[slot].take(it)
		case n >= len(k.steps): // of a mark
		case !k.steps[n].believes && !w.moved(it, &k.steps[n]):
			mask.drop(slot)
		default:
			c.clear()
			w.step(it, &k.steps[n], &from.cells[slot])
			if it.Unread || it.disputed {
				k.steps[n].doubt(it)
			}
			if was := &from.cells[slot]; c.same(was) {
				*c = *was
				mask.drop(slot)
			}
		}
	}
	w.finishItem(it)
	room.pieces = it.Pieces
}

// takeOver takes what an item gives and what is stated of it from the base, where nothing
// of it was changed.
func (w *worker) takeOver(it *Item) {
	w.give(it.Pieces, it)
	w.give(it.Added, it)
	w.Stated = append(w.Stated, w.trial.Base.statedOf(it.Index)...)
}

// moved reports whether a step reads a term that came out otherwise than before, or is
// forced.
func (w *worker) moved(it *Item, s *step) bool {
	if it.mask.meets(s.reads) {
		return true
	}
	_, forced := w.forced(it, s.slot)
	return forced
}

// same reports whether a cell came out as before, so that a formula which reads it has
// nothing new to reckon with.
func (c *cell) same(was *cell) bool {
	if c.has != was.has || c.value != was.value || c.row != was.row || c.believed != was.believed || c.own != was.own ||
		c.impossible != was.impossible || c.word != was.word {
		return false
	}
	if c.q == nil || was.q == nil {
		return c.q == was.q
	}
	return c.q.Value == was.q.Value && c.q.Name == was.q.Name && c.q.Of == was.q.Of && c.q.Source == was.q.Source && c.q.Round == was.q.Round
}

// clear leaves nothing in a cell but whether it is doubtful.
func (c *cell) clear() { *c = cell{doubtful: c.doubtful} }

// take reads a given term from the form.
func (g *given) take(it *Item) {
	c := &it.cells[g.slot]
	switch {
	case g.Word != nil:
		c.word = g.Word(it)
		c.has = c.word != ""
	case g.Get != nil:
		c.value, c.has = g.Get(it)
	case g.Usually != "":
		if c.word = it.says(g); c.word == "" && g.Usually != Silent {
			c.word = g.Usually
		}
		c.has = c.word != ""
	default:
		if len(g.fields) > 0 {
			if leaf := it.leaf(g.fields[0], g.roles[0]); leaf != nil {
				c.value, _, c.has = statedOf(leaf)
			}
		}
		switch {
		case c.has:
		case g.as >= 0:
			as := &it.cells[g.as]
			c.value, c.has, c.doubtful = as.value, as.has, c.doubtful || as.doubtful
		case g.Else != nil:
			c.value, c.has = g.Else(it)
		}
		c.value.Sort = g.Sort
	}
}

// says is the word that stands in the field of a term; "" for none.
func (it *Item) says(g *given) string {
	switch l := it.leaf(g.fields[0], g.roles[0]).(type) {
	case *order.Text:
		return l.Value
	case *order.Flag:
		if l.Value {
			return "yes"
		}
	}
	return ""
}

// step works out one term by the first of its rows whose guards hold. Was is what it came
// to in the base of a trial.
func (w *worker) step(it *Item, s *step, was *cell) {
	c := &it.cells[s.slot]
	first, known := s.from(it, was)
	for i := first; i < len(s.rows); i++ {
		r := &s.rows[i]
		if !(known && i == first) && !hold(r.when, it) {
			continue
		}
		c.row = uint8(i + 1)
		if v, ok := w.forced(it, s.slot); ok {
			c.value, c.has = v, true
			w.report(it, r, c, Result{Value: v, Source: "the order"}, nil)
			return
		}
		if r.Word != nil {
			c.word = r.Word(it)
			c.has = c.word != ""
			return
		}
		if r.Work != nil {
			if r.Belief && w.withdrawn(it, s.slot) {
				continue
			}
			res, ok := r.Work(it)
			if !ok {
				continue
			}
			c.value, c.has, c.believed, c.own = res.Value, true, r.Belief, r.Own
			w.report(it, r, c, res, nil)
			return
		}
		v, ok := r.bound.eval(it)
		if !ok || r.Positive && v.Num <= 0 {
			c.impossible = ok || r.bound.impossible(it)
			return
		}
		if c.value, ok = valueOf(v, r.Sort, r.Round); !ok {
			return
		}
		c.has, c.own = true, r.Own
		for _, slot := range r.bound.slots { // a mass is printed as the one it was worked from
			if as := it.cells[slot].value.As; as != Ordinary && c.value.Sort != Length {
				c.value.As = as
			}
		}
		w.report(it, r, c, Result{Value: c.value, Source: r.Source}, r.bound)
		return
	}
}

// report puts a term on the sheet.
func (w *worker) report(it *Item, r *row, c *cell, res Result, b *bound) {
	if r.Hidden {
		return
	}
	name := r.Name
	if name == "" {
		name = Name(r.Term)
	}
	of := r.Of
	if res.Of != "" {
		of = res.Of
	}
	if b != nil && !w.Lean {
		t := b.as(it)
		res.Formula = t.words
		res.Terms = w.shown[:0]
		for _, slot := range t.slots {
			from := &it.cells[slot]
			one := Term{Name: it.kind.shown[slot], Value: from.value}
			if from.q != nil && !r.Plain && !it.kind.ends[slot] {
				one.via = from.q
			}
			res.Terms = append(res.Terms, one)
		}
		w.shown = res.Terms
	}
	c.q = w.put(name, of, res.Value, r.Round, res.Source, res.Formula, res.Terms...)
}

func (w *worker) forced(it *Item, slot int) (Value, bool) {
	if w.trial != nil {
		for i := range w.trial.Forced {
			if f := &w.trial.Forced[i]; f.Slot.Item == it.Index && f.Slot.Term == slot {
				return f.Value, true
			}
		}
	}
	return Value{}, false
}

func (w *worker) withdrawn(it *Item, slot int) bool {
	if w.trial != nil {
		for _, s := range w.trial.Withdrawn {
			if s.Item == it.Index && s.Term == slot {
				return true
			}
		}
	}
	return false
}

// MadePieces are the pieces of the item as far as they are worked out.
func (it *Item) MadePieces() []Piece { return it.madePieces(make([]Piece, 0, 4)) }

func (it *Item) madePieces(list []Piece) []Piece {
	for i := range it.kind.pieces {
		p := &it.kind.pieces[i]
		if it.cells[p.width].q == nil || it.cells[p.count].q == nil {
			continue
		}
		piece := Piece{Name: p.Name, Role: p.Role, Cloth: it.roles[p.role], Width: it.cells[p.width].q, Length: it.cells[p.length].q, Count: it.cells[p.count].q, decl: p}
		if p.whole >= 0 && it.cells[p.whole].has {
			piece.whole, piece.half = it.cells[p.whole].q, it.cells[p.half].q
		}
		list = append(list, piece)
	}
	return list
}

// give adds pieces of an item to what their cloths must give.
func (w *worker) give(pieces []Piece, it *Item) {
	for i := range pieces {
		p := &pieces[i]
		if p.Cloth == nil || p.Length == nil {
			continue
		}
		k := cut{item: it.Index, count: p.Count.Value.N * it.Quantity, widths: 1, piece: p, along: p.Length.Value.Length(), spare: it.Spare(p)}
		if s := p.decl.joined; s >= 0 && it.cells[s].has {
			k.widths = max(1, it.cells[s].value.N)
		}
		if s := p.decl.takes; s >= 0 && it.cells[s].has {
			k.along = it.cells[s].value.Length()
		}
		k.across = p.Width.Value.Length()
		if s := p.decl.across; s >= 0 && it.cells[s].has && k.across <= p.Cloth.Width {
			k.across = min(it.cells[s].value.Length(), p.Cloth.Width)
		}
		p.Cloth.cuts = append(p.Cloth.cuts, k)
	}
}

// doubt finds what of an item rests on a choice that could not be read: it is
// worked out as far as it goes, but no stated outcome is called wrong by it.
func (w *worker) doubt(it *Item) {
	for i := range it.kind.Roles {
		if it.roles[i] == nil && it.ClothName(i) != "" {
			w.doubtFrom(it, it.kind.Roles[i].Name+"/")
		}
	}
	for i := range it.Order.Cuts {
		c := &it.Order.Cuts[i]
		role := it.Disputed(c)
		if role < 0 {
			continue
		}
		if w.disputed == nil {
			w.disputed = map[string]bool{}
		}
		it.disputed = true
		w.disputed[c.Cloth.Value], w.disputed[it.roles[role].Name] = true, true
		it.restingOn(it.kind.Roles[role].Name+"/", func(g *given) { it.cells[g.slot].doubtful = true })
	}
	if len(w.Order.Flaws) == 0 {
		return
	}
	for _, path := range w.hiddenAt("items[" + strconv.Itoa(it.Index) + "]") {
		w.doubtFrom(it, path)
		for r := range it.kind.Roles { // which cloth it is could not be read
			if role := &it.kind.Roles[r]; path != "" && within(role.Field, path) {
				w.doubtFrom(it, role.Name+"/")
			}
		}
	}
	for r := range it.kind.Roles {
		name := it.ClothName(r)
		if name == "" && it.roles[r] != nil {
			name = it.roles[r].Name
		}
		if name == "" {
			continue
		}
		for _, list := range [...]string{"cloths.", "measured."} {
			w.doubtRole(it, r, list+name)
		}
	}
}

// A resting is a role of a kind, and where the facts of its cloth stand.
type resting struct {
	kind *kind
	role int
	at   string
}

// doubtRole doubts what rests on what is hidden of a cloth in one of its roles, which is
// the same in every item of the kind.
func (w *worker) doubtRole(it *Item, role int, at string) {
	paths := w.hiddenAt(at)
	if len(paths) == 0 {
		return
	}
	is := resting{it.kind, role, at}
	rests, known := w.rests[is]
	if !known {
		rests = it.kind.slotSet()
		for _, path := range paths {
			it.restingOn(it.kind.Roles[role].Name+"/"+path, func(g *given) { rests.add(g.slot) })
		}
		if w.rests == nil {
			w.rests = map[resting]slotSet{}
		}
		w.rests[is] = rests
	}
	for slot := range rests.all {
		it.Unread = true
		it.cells[slot].doubtful = true
	}
}

// hiddenAt are the paths of what hides something in a group or field, from there on.
func (w *worker) hiddenAt(path string) []string {
	if len(w.Order.Flaws) == 0 {
		return nil
	}
	if w.hidden == nil {
		w.hidden = hiddenIn(w.Order)
	}
	return w.hidden[path]
}

// hiddenIn returns the paths of what hides something in an order, each under every path
// above it that it lies in: under items[0] and under items[0].hems what is hidden at
// items[0].hems.top.
func hiddenIn(o *order.Order) map[string][]string {
	list := make(map[string][]string)
	for i := range o.Flaws {
		path := hides(&o.Flaws[i])
		if path == "" {
			continue
		}
		list[path] = append(list[path], "")
		for at, c := range path {
			if c == '.' {
				list[path[:at]] = append(list[path[:at]], path[at+1:])
			}
		}
	}
	return list
}

// doubtFrom doubts what rests on the fields at a path, or on a part of them.
func (w *worker) doubtFrom(it *Item, path string) {
	it.restingOn(path, func(g *given) {
		it.Unread = true
		it.cells[g.slot].doubtful = true
	})
}

// restingOn gives what is read from the fields at a path, or from a part of them.
func (it *Item) restingOn(path string, give func(*given)) {
	for i := range it.kind.given {
		g := &it.kind.given[i]
		if slices.ContainsFunc(g.From, func(from string) bool { return within(from, path) || within(path, from) }) {
			give(g)
		}
	}
}

// within reports whether a path is that of a block, or of something in it.
func within(path, block string) bool {
	rest, ok := strings.CutPrefix(path, block)
	return ok && (rest == "" || block == "" || rest[0] == '.' || block[len(block)-1] == '/')
}

// hides is the path of the field that a flaw keeps from being known; "" for one
// that it does not.
func hides(f *order.Flaw) string {
	switch f.Kind {
	case order.OtherWord, order.Unreadable, order.Computed:
		return ""
	case order.UnknownField:
		if f.Nearest == "" { // if that is "" too, no number is worked from it
			if len(f.Elsewhere) == 1 {
				return f.Elsewhere[0]
			}
			return ""
		}
		return strings.TrimSuffix(f.Path, f.Name) + f.Nearest
	case order.MissingField:
		return f.Path + "." + f.Name
	}
	return f.Path
}

// valueOf is the number of a formula as a value; false where it is beyond all
// bounds.
func valueOf(r length.Ratio, sort Sort, round length.Rounding) (Value, bool) {
	switch sort {
	case Ratio, Percent:
		return Value{Sort: sort, R: r}, true
	case Linear:
		r = r.Mul(length.NewRatio(perLength, 1))
	case Areal:
		r = r.Mul(length.NewRatio(perArea, 1))
	case Count, Dots:
		round = length.Nearest
	}
	n := r.Int(round)
	return Value{Sort: sort, N: n}, n < 1<<62 && n > -1<<62
}

// number is the value as a plain number in the units that formulas work in:
// nanometres, micrograms, micrograms a nanometre and a square nanometre.
func (v Value) number() length.Ratio {
	switch v.Sort {
	case Ratio, Percent:
		return v.R
	case Linear:
		return length.NewRatio(v.N, perLength)
	case Areal:
		return length.NewRatio(v.N, perArea)
	}
	return length.Ratio{Num: v.N, Den: 1}
}

// Or is what a leaf says, or else the other.
func Or[T any](l order.Leaf[T], otherwise T) T {
	if l.Set {
		return l.Value
	}
	return otherwise
}

// mostMarks is more than anybody sets out along an edge.
const mostMarks = 500

// Notes are those of the kind's notes that hold for the item.
func (it *Item) Notes() (list []Note) {
	if it.kind == nil {
		return nil
	}
	for i := range it.kind.notes {
		if n := &it.kind.notes[i]; hold(n.when, it) {
			list = append(list, Note{Name: n.Name, Text: it.Say(n.Text), Stage: n.Stage})
		}
	}
	return list
}

// Marks works out where along its edges the item is marked.
func (it *Item) Marks() (list []Mark) {
	if it.kind == nil {
		return nil
	}
	for i := range it.kind.marks {
		m := &it.kind.marks[i]
		if !hold(m.when, it) {
			continue
		}
		n, ok := m.count.eval(it)
		if !ok {
			continue
		}
		row := Mark{Name: m.Name, From: m.From, Stage: m.Stage}
		for k := int64(1); k <= min(n.Int(length.Nearest), mostMarks); k++ {
			it.cells[m.number] = cell{has: true, value: CountOf(k)}
			if at, ok := m.at.eval(it); ok {
				row.At = append(row.At, length.Length(at.Int(length.Nearest)))
			}
		}
		if len(row.At) > 0 {
			list = append(list, row)
		}
	}
	return list
}
