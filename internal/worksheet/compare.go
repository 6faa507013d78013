package worksheet

import (
	"cmp"
	"slices"
	"unsafe"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
)

// An Agreement is how a stated outcome goes with the worked one.
type Agreement uint8

// The agreements.
const (
	Differs    Agreement = iota
	Exactly              // within a step, 1/16 in or 1 mm, so that neither way of rounding is a mistake
	AsRight              // it is another right value: cut no wider than needed, rounded up to a rounder length
	ByHand               // as near as people round by hand
	Impossible           // there is no right one: what it is worked from allows of none
	More                 // more cloth than needed, which a maker may buy on purpose
)

// compareItem compares what the order states of an item with what was worked out.
func (w *worker) compareItem(it *Item) {
	only := w.only()
	if only != nil && !only.stated[it.Index] {
		return
	}
	before, first := w.before(it), len(w.Stated)
	for _, i := range w.states(it) {
		o := &it.kind.outcomes[i]
		v, node, _ := w.statedIn(o.field.leaf(unsafe.Pointer(it.Order)))
		c := &it.cells[o.slot]
		if was := before.of(node); was != nil && was.Value == v && it.as(o.slot) && o.byValue() {
			w.Stated = append(w.Stated, *was)
			continue
		}
		if c.impossible {
			w.Stated = append(w.Stated, Stated{Node: node, Value: v, Agrees: Impossible, Doubtful: c.doubtful, Slot: Slot{Item: it.Index, Term: o.slot}})
		}
		if c.q == nil || c.own || o.Unless != nil && o.Unless(it) {
			continue
		}
		if only != nil {
			w.Stated = append(w.Stated, Stated{Quantity: c.q, Node: node, Value: v, Slot: Slot{Item: it.Index, Term: o.slot}})
			continue
		}
		agrees := w.agree(it, v, c.value, node, o.AsRight, 0, o.Hand)
		if agrees == Differs && o.Fine != nil && o.Fine(it, v) {
			agrees = AsRight
		}
		if agrees == Differs && o.Hand == Divided && w.trial == nil && w.roundedAgain(v, c.value, node) {
			agrees = ByHand // of the order as it stands only: it is no evidence for other figures
		}
		w.Stated = append(w.Stated, Stated{Quantity: c.q, Node: node, Value: v, Agrees: agrees, Doubtful: c.doubtful, Unsure: agrees == Differs && o.Unsure != nil && o.Unsure(it), Slot: Slot{Item: it.Index, Term: o.slot}})
	}
	for i := range it.Pieces {
		w.compareCuts(it, &it.Pieces[i], &before)
	}
	if w.trial == nil && it.Strays() > 0 {
		for i := first; i < len(w.Stated); i++ {
			w.Stated[i].Unsure = true
		}
	}
}

// Strays is how many rows of an item's cuts are of none of its pieces, or make it a center and
// sides alone, so that it may be other goods than those that were worked out.
func (it *Item) Strays() (n int) {
	if !it.Order.Join.Layout.Set && (it.StatedCut("center") == nil) != (it.StatedCut("side") == nil) {
		n++
	}
	for i := range it.Order.Cuts {
		c := &it.Order.Cuts[i]
		if p, _ := it.PieceOf(c); p != nil || !c.Piece.Set {
			continue
		}
		if _, other := it.Elsewhere(c.Piece.Value); other || !it.isExtra(i) {
			n++
		}
	}
	return n
}

// states are the outcomes that the order states of an item, by their numbers: in a trial
// they are what they were in the last one.
func (w *worker) states(it *Item) (list []int) {
	var room *itemRoom
	if it.mask != nil && w.room != nil {
		if room = &w.room.items[it.Index]; room.states != nil {
			return room.states
		}
	}
	list = w.numbers[:0]
	for i := range it.kind.outcomes {
		if _, node, set := w.statedIn(it.kind.outcomes[i].field.leaf(unsafe.Pointer(it.Order))); set && node != nil {
			list = append(list, i)
		}
	}
	w.numbers = list
	if room != nil {
		room.states = append(make([]int, 0, max(1, len(list))), list...)
		return room.states
	}
	return list
}

// byValue reports whether an outcome agrees by the worked value and the stated one alone.
func (o *outcome) byValue() bool {
	return o.AsRight == nil && o.Fine == nil && o.Unsure == nil && o.Unless == nil
}

// as reports whether a term of the item came out as in the base of the trial.
func (it *Item) as(slot int) bool { return it.mask != nil && !it.mask.has(slot) }

// compared are the comparisons of an item in the base of a trial, in the order in which
// they are made anew.
type compared []Stated

// before are the comparisons of an item before a trial; none where there is no base.
func (w *worker) before(it *Item) compared {
	if it.mask == nil {
		return nil
	}
	return w.trial.Base.statedOf(it.Index)
}

// of takes the comparison of a node, and those before it that are not made any more; nil
// where it was not compared.
func (list *compared) of(n *order.Node) *Stated {
	if n == nil {
		return nil
	}
	for i := range *list {
		if was := &(*list)[i]; was.Node == n {
			*list = (*list)[i+1:]
			return was
		}
	}
	return nil
}

// statedIn is what a leaf states; a setting in dots.
func (s *Sheet) statedIn(leaf any) (Value, *order.Node, bool) {
	if l, ok := leaf.(*order.Setting); ok {
		return DotsOf(s.Dots(l.Value)), l.Node, l.Set && !l.Value.None
	}
	return statedOf(leaf)
}

// compareCuts compares every stated cut of a piece. Where several rows cut it, their counts
// are compared together: if they don't add up, nobody can tell which of them is wrong.
func (w *worker) compareCuts(it *Item, p *Piece, before *compared) {
	listed := it.Listed(p)
	for i := range it.Order.Cuts {
		c := &it.Order.Cuts[i]
		if !p.cutAs(c) {
			continue
		}
		half := length.Length(0)
		if p.half != nil {
			half = p.Cloth.Width / 2
		}
		width, long := it.SizesOf(p, c)
		sizes := len(w.Stated)
		w.compareCut(it, i, p, c.Width.Node, LengthOf(c.Width.Value), c.Width.Set, width.Quantity, width.slot, p.decl.WidthAsRight, half, Size, before)
		w.compareCut(it, i, p, c.Length.Node, LengthOf(c.Length.Value), c.Length.Set, long.Quantity, long.slot, p.decl.LengthAsRight, 0, cmp.Or(p.decl.LengthHand, Run), before)
		l := &listed[p.listing(c)]
		for k := range w.Stated[sizes:] { // of several rows, one may be another piece's
			w.Stated[sizes+k].Unsure = l.Rows > 1
		}
		stated := c.Count.Value
		if l.Open && l.Needed != nil && l.Cut <= l.Needed.Value.N {
			continue
		}
		if l.Rows > 1 && l.Needed != nil && stated != l.Needed.Value.N {
			if l.Cut != l.Needed.Value.N {
				continue
			}
			stated = l.Cut
		}
		w.compareCut(it, i, p, c.Count.Node, CountOf(stated), c.Count.Set, l.Needed, l.slot, nil, 0, Counted, before)
	}
}

// A Misnamed is a row of an item's cuts that says one piece and has the sizes of another.
type Misnamed struct {
	Item, Cut int
	Piece     string // whose sizes they are
}

// FindMisnamed gives the rows whose two sizes, and whose count where it is stated, are not
// those of the piece that they say but of just one other, which no row names. One size that
// is by chance another piece's is no more than a wrong size.
func (s *Sheet) FindMisnamed() (list []Misnamed) {
	for i := range s.Items {
		it := &s.Items[i]
		rows := make(map[string]bool, len(it.Pieces)) // by piece: whether one of its rows has its sizes
		for k := range it.Order.Cuts {
			c := &it.Order.Cuts[k]
			if p, _ := it.PieceOf(c); p != nil {
				rows[p.Name] = rows[p.Name] || s.sized(it, p, c)
			}
		}
		for k := range it.Order.Cuts {
			c := &it.Order.Cuts[k]
			own, doubtful := it.PieceOf(c)
			if own == nil || doubtful || s.sized(it, own, c) || !rows[own.Name] && !it.unlike(own, c) {
				continue
			}
			var fits []string
			for j := range it.Pieces {
				p := &it.Pieces[j]
				as := *c
				as.Piece.Value = p.Name
				if p.cutAs(&as) && s.sized(it, p, c) && (!c.Count.Set || p.Count != nil && c.Count.Value == p.Count.Value.N) {
					fits = append(fits, p.Name)
				}
			}
			if len(fits) != 1 {
				continue
			}
			if _, named := rows[fits[0]]; !named {
				list = append(list, Misnamed{i, k, fits[0]})
			}
		}
	}
	return list
}

// unlike reports whether neither size of a cut is that of a piece.
func (it *Item) unlike(p *Piece, c *order.Cut) bool {
	width, long := it.SizesOf(p, c)
	return width.Quantity != nil && long.Quantity != nil && width.Value.Length() != c.Width.Value && long.Value.Length() != c.Length.Value
}

// sized reports whether a cut states both of its sizes, and they are those of a piece.
func (s *Sheet) sized(it *Item, p *Piece, c *order.Cut) bool {
	width, long := it.SizesOf(p, c)
	is := func(l order.Length, q CutSize, or func(*Item) []length.Length, hand Hand) bool {
		return l.Set && q.Quantity != nil && !q.Doubtful && s.agree(it, LengthOf(l.Value), q.Value, l.Node, or, 0, hand) != Differs
	}
	return is(c.Width, width, p.decl.WidthAsRight, Size) && is(c.Length, long, p.decl.LengthAsRight, cmp.Or(p.decl.LengthHand, Run))
}

// A Listing is the rows of an order that say how many of a piece to cut.
type Listing struct {
	Needed   *Quantity
	Rows     int
	Cut      int64      // in all rows
	Last     *order.Cut // nil for no row
	Open     bool       // a row says none, and may cut the rest
	Doubtful bool       // what is needed rests on a choice that could not be read
	slot     int
}

// Listed are the listings of a piece: of whole and of half widths where the order's cuts
// name both, else the first alone.
func (it *Item) Listed(p *Piece) (list [2]Listing) {
	list[0] = Listing{Needed: p.Count, slot: p.decl.count}
	if p.half != nil {
		list[0] = Listing{Needed: p.whole, slot: p.decl.whole}
		list[1] = Listing{Needed: p.half, slot: p.decl.half}
	}
	for i := range it.Order.Cuts {
		switch c := &it.Order.Cuts[i]; {
		case !p.cutAs(c):
		case !c.Count.Set:
			list[p.listing(c)].Open = true
		default:
			l := &list[p.listing(c)]
			l.Rows++
			l.Cut += c.Count.Value
			l.Last, l.Doubtful = c, it.cells[l.slot].doubtful
		}
	}
	return list
}

// listing is which of the listings of a piece a cut is in.
func (p *Piece) listing(c *order.Cut) int {
	if p.half != nil && c.Width.Set && IsHalf(c.Width.Value, p.Cloth.Width) {
		return 1
	}
	return 0
}

// Turned reports whether a cut is stated the other way round than its piece was worked out,
// where that does as well: each size of it that is stated says so.
func (it *Item) Turned(p *Piece, c *order.Cut) bool {
	if p.decl.Turns == nil || !p.decl.Turns(it) {
		return false
	}
	is := func(l order.Length, q *Quantity) bool {
		return !l.Set || q != nil && it.ByHand(l.Value, q.Value.Length(), Size)
	}
	return (c.Width.Set || c.Length.Set) && is(c.Width, p.Length) && is(c.Length, p.Width) && !(is(c.Width, p.Width) && is(c.Length, p.Length))
}

func (w *worker) compareCut(it *Item, i int, p *Piece, n *order.Node, stated Value, set bool, q *Quantity, slot int, or func(*Item) []length.Length, half length.Length, hand Hand, before *compared) {
	if !set || n == nil || q == nil {
		return
	}
	of := Stated{Quantity: q, Node: n, Value: stated, Doubtful: it.cells[slot].doubtful, Slot: Slot{Item: it.Index, Term: slot}, piece: p, cut: i}
	if was := before.of(n); was != nil && or == nil && half == 0 && was.Slot == of.Slot && was.Value == stated && was.Quantity != nil && was.Quantity.Value == q.Value && was.Agrees != AsRight {
		of.Agrees = was.Agrees
	} else if w.only() == nil {
		of.Agrees = w.agree(it, stated, q.Value, n, or, half, hand)
	}
	w.Stated = append(w.Stated, of)
}

// cutAs reports whether a cut of the order is of the piece.
func (p *Piece) cutAs(c *order.Cut) bool {
	return SamePiece(c.Piece.Value, p.Name) && (!c.Cloth.Set || p.Cloth == nil || c.Cloth.Value == p.Cloth.Name)
}

// agree compares a stated value of an item with the right one, and with others that are as
// right: half a width of the cloth, where one is cut, and what or gives, if anything.
func (s *Sheet) agree(it *Item, stated, right Value, n *order.Node, or func(*Item) []length.Length, half length.Length, hand Hand) Agreement {
	switch right.Sort {
	case Length:
		if stated.N == right.N {
			return Exactly
		}
		unit := s.lengthStyle(n).Unit()
		step := length.Step(unit)
		if Near(stated.Length(), right.Length(), step) {
			return Exactly
		}
		near := func(l length.Length) bool { return Near(stated.Length(), l, step) }
		if half > 0 && near(half) || or != nil && slices.ContainsFunc(or(it), near) {
			return AsRight
		}
		return s.byHand(stated.Length(), right.Length(), step, hand, unit.Metric())
	case Ratio:
		d := stated.R.Sub(right.R)
		switch {
		case d.IsZero():
			return Exactly
		case hand == Shared && d.Mul(d).Cmp(length.NewRatio(1, 10_000)) <= 0:
			return ByHand
		}
	case Mass:
		d := stated.N - right.N
		switch {
		case max(d, -d) <= right.N/50, n.Text == s.Print(n, right, length.Nearest), s.sameInPrint(mass.Mass(stated.N), right):
			return Exactly
		case max(d, -d) <= right.N*11/200: // 5 % of it as it is printed, in three figures
			return ByHand
		}
	default:
		if stated.N == right.N {
			return Exactly
		}
	}
	return Differs
}

// byHand reports whether a length is as near to the right one as people round it, who
// round a cut's as it is printed: widths and parts to 1/8 in or 3 mm, or up to the
// nearest centimetre, lengths along the cloth up to that much longer, or a step
// shorter; and to the marks that all cuts of the order are rounded to. What is cut too
// short by more than a step is not.
func (s *Sheet) byHand(stated, right, step length.Length, hand Hand, metric bool) Agreement {
	loose, coarsest := length.Inch/8, length.Inch/4 // that sizes are rounded to
	if metric {
		loose, coarsest = 3*length.Millimetre, length.Centimetre
	}
	d, on := stated-right, length.Length(0)
	if hand == Size || hand == Loose || hand == Curved {
		if d = stated - right.Round(step, length.Up); d < 0 {
			d = min(0, stated-right.Round(step, length.Down))
		}
	}
	if s.marked > 0 && stated%s.marked == 0 {
		on = s.marked
	}
	switch {
	case hand == Size && max(d, -d) < min(on, coarsest)/2, hand == Run && 0 < d && d < on:
		return ByHand
	case hand == Loose && max(d, -d) <= 2*loose, hand == Size && max(d, -d) <= loose, hand == Divided && max(d, -d) <= loose, hand == Curved && max(d, -d) <= loose,
		hand == Run && -step <= d && d <= max(step, loose),
		hand == Size && metric && d > 0 && d <= length.Centimetre/2 && stated%length.Centimetre == 0:
		return ByHand
	}
	return Differs
}

// roundedAgain reports whether a spacing is the right one as it is printed, rounded once more:
// to the next quarter inch, or half centimetre. What is left over goes into the last.
func (s *Sheet) roundedAgain(stated, right Value, n *order.Node) bool {
	unit := s.lengthStyle(n).Unit()
	loose, mark := length.Inch/8, length.Inch/4
	if unit.Metric() {
		loose, mark = 3*length.Millimetre, length.Centimetre/2
	}
	d := stated.Length() - right.Length().Round(length.Step(unit), length.Nearest)
	return right.Sort == Length && stated.Length()%mark == 0 && max(d, -d) <= loose
}

// ByHand reports whether a length is as near to the right one as people round it.
func (it *Item) ByHand(stated, right length.Length, hand Hand) bool {
	step := it.Step()
	return Near(stated, right, step) || it.Sheet.byHand(stated, right, step, hand, it.Sheet.Unit.Metric()) == ByHand
}

// markedTo is the coarsest of the marks on a tape that the stated cuts of an order lie
// on, all of them or all but one of many; 0 for none. A workroom that rounds its cuts rounds
// all of them.
func markedTo(o *order.Order, u length.Unit) length.Length {
	var marks []length.Length
	const many = 5
	var sizes int
	var off [4]int
	for i := range o.Items {
		for j := range o.Items[i].Cuts {
			c := &o.Items[i].Cuts[j]
			for _, l := range [2]*order.Length{&c.Width, &c.Length} {
				if !l.Set {
					continue
				}
				if sizes++; sizes == 1 {
					if l.Node != nil {
						u = l.Node.LengthStyle().Unit()
					}
					marks = roundedTo(u)
				}
				for k, mark := range marks {
					if l.Value%mark != 0 {
						off[k]++
					}
				}
			}
		}
	}
	for k, mark := range marks {
		if sizes >= 2 && off[k] == 0 || sizes >= many && off[k] == 1 {
			return mark
		}
	}
	return 0
}

var (
	inchMarks   = []length.Length{length.Inch, length.Inch / 2, length.Inch / 4, length.Inch / 8, length.Inch / 16}
	metricMarks = []length.Length{length.Centimetre, length.Centimetre / 2, length.Millimetre}
)

// TapeMarks are the marks on a tape that people choose a length by, the coarsest first. They
// are not to be changed.
func TapeMarks(u length.Unit) []length.Length {
	if u.Metric() {
		return metricMarks
	}
	return inchMarks
}

// roundedTo are those of them that the cuts of an order are rounded to: all but the finest.
func roundedTo(u length.Unit) []length.Length {
	marks := TapeMarks(u)
	return marks[:len(marks)-1]
}

// sameInPrint reports whether a mass and a value are printed alike, in whole
// ounces or grams.
func (s *Sheet) sameInPrint(m mass.Mass, v Value) bool {
	stated := MassOf(m)
	stated.As = v.As
	return stated.Format(s.Unit, length.Nearest) == v.Format(s.Unit, length.Nearest)
}

func less(a, b Value) bool {
	if a.Sort == Ratio {
		return a.R.Cmp(b.R) < 0
	}
	return a.N < b.N
}
