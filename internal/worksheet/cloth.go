package worksheet

import (
	"cmp"
	"slices"
	"strconv"

	"cutgate/internal/lay"
	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
)

// A cut is so many pieces of one size, of one cloth, for one item.
type cut struct {
	item   int
	piece  *Piece
	count  int64         // for all of the item's quantity
	widths int64         // across the work where they are joined, for the half drop; 1 otherwise
	along  length.Length // what each takes down the cloth
	across length.Length // and across it
	spare  length.Length
}

// clothsOf takes the cloths of the order, with what was measured at the bench
// in place of what was stated.
func (w *worker) clothsOf() {
	if w.Cloths == nil {
		w.Cloths = w.memory.cloths.Make(len(w.Order.Cloths))
	}
	for i := range w.Cloths {
		e := &w.Order.Cloths[i]
		c := &w.Cloths[i]
		*c = Cloth{cuts: c.cuts[:0], Order: &e.Of, index: i, Name: e.Name, Width: e.Of.Width.Value, Repeat: e.Of.Repeat.Length.Value, Across: e.Of.Repeat.Width.Value}
		if !e.Of.Washed.Value {
			c.shrinkLength, c.shrinkWidth = e.Of.Shrinks.Length.Value, e.Of.Shrinks.Width.Value
		}
		if m := w.Measured(e.Name); m != nil {
			c.Width = Or(m.Width, c.Width)
			c.Repeat = Or(m.Repeat.Length, c.Repeat)
			c.Across = Or(m.Repeat.Width, c.Across)
			if !e.Of.Washed.Value {
				c.shrinkLength = Or(m.Shrinks.Length, c.shrinkLength)
				c.shrinkWidth = Or(m.Shrinks.Width, c.shrinkWidth)
			}
		}
		c.Washed = c.Width.MulRatio(one.Sub(c.shrinkWidth), length.Down)
		if e.Of.Class.Set {
			c.Class = w.Tables.ClassByName(e.Of.Class.Value)
		} else if e.Of.Weight.Set {
			c.Class = w.Tables.Class(e.Of.Weight.Value)
		}
		if w.trial != nil && w.trial.Base != nil { // no choice changes these
			from := &w.trial.Base.Cloths[i]
			c.Cap, c.Weakest, c.Creases, c.Weighed = from.Cap, from.Weakest, from.Creases, from.Weighed
			continue
		}
		w.heat(c)
		c.Weighed = weighedIn(e.Of.Weight.Node)
	}
}

// Woven are the widths that cloth is woven in for furnishing, from toweling to twice the widest
// curtain cloth, and the widest selvedge at each edge: common practice, no source.
func (s *Sheet) Woven() (narrowest, widest, selvedge length.Length) {
	if s.Unit.Metric() {
		return 40 * length.Centimetre, 660 * length.Centimetre, 5 * length.Centimetre
	}
	return 16 * length.Inch, 260 * length.Inch, 2 * length.Inch
}

// WidthOf is the width of a cloth as it is written: the measured one, or else the stated one.
func (s *Sheet) WidthOf(c *Cloth) *order.Length {
	if m := s.Measured(c.Name); m != nil && m.Width.Set {
		return &m.Width
	}
	return &c.Order.Width
}

// weighedIn is the system that a cloth's weight is written in.
func weighedIn(n *order.Node) System {
	if n == nil {
		return Ordinary
	}
	if _, style, err := mass.ParseAreal(n.Text); err == nil && style.Metric() {
		return Metric
	}
	return Imperial
}

// Measured is what the cutter found of the cloth of that name, or nil.
func (s *Sheet) Measured(name string) *order.Measurements {
	if i := find(s.Order.Measured, s.benched, name); i >= 0 {
		return &s.Order.Measured[i].Of
	}
	return nil
}

// index is where each name of a list first stands; nil for a short one, which is
// searched.
func index[T any](list []order.Entry[T]) map[string]int {
	if len(list) <= 16 {
		return nil
	}
	at := make(map[string]int, len(list))
	for i := len(list) - 1; i >= 0; i-- {
		at[list[i].Name] = i
	}
	return at
}

// find is where a name first stands in a list of which there may be an index; -1 for
// nowhere.
func find[T any](list []order.Entry[T], index map[string]int, name string) int {
	if index == nil {
		return slices.IndexFunc(list, func(e order.Entry[T]) bool { return e.Name == name })
	}
	if i, ok := index[name]; ok {
		return i
	}
	return -1
}

var one = length.NewRatio(1, 1)

// heat finds what the weakest fiber of a cloth can take. A fiber under the share
// that labels call "other" does not count, nor does one that is not known.
func (w *worker) heat(c *Cloth) {
	for i := range c.Order.Fiber {
		e := &c.Order.Fiber[i]
		if e.Of.Set && e.Of.Value.Cmp(w.Tables.House.MinorFiber) < 0 {
			continue
		}
		f, ok := w.Tables.FiberByName(e.Name)
		if !ok {
			c.Cap, c.Weakest, c.Creases = 0, "", 0
			return
		}
		if c.Weakest == "" || f.Dots < c.Cap {
			c.Cap, c.Weakest = f.Dots, f.Name
		}
		c.Creases = max(c.Creases, f.Creases)
	}
	c.Creases = min(c.Creases, c.Cap)
}

// need works out how much of a cloth the order takes, and compares what was
// ordered.
func (w *worker) need(c *Cloth) {
	if len(c.cuts) == 0 || c.Width <= 0 {
		return
	}
	c.usable, c.fewer = 0, 0
	c.usable = c.Lays()
	extra := w.halfDrop(c)
	c.dropped = extra > 0
	plan, tooWide := w.inRows(c, "")
	if tooWide {
		for _, k := range c.cuts {
			if k.piece.Width.Value.Length() > c.Width {
				c.TooWide = k.piece
				return // a lay of pieces that don't fit says nothing
			}
		}
	}
	lead := extra
	if c.Repeat > 0 && w.Tables.House.StartRepeat {
		lead += c.Repeat
	}
	if c.unread = w.unread(c); !c.unread && !w.Lean {
		w.stock(c, plan.Rows)
		w.detour(c, plan.Rows, lead)
		w.railroads(c)
	}
	if !w.complete(c) {
		return // the cloth for a part of the work would mislead
	}
	formula, terms := "", w.shown[:0]
	for i, row := range plan.Rows {
		switch {
		case w.Lean:
		case i > 0 && row.Length == plan.Rows[i-1].Length:
			terms[len(terms)-2].Value.N += row.Count
		default:
			if i > 0 {
				formula += " + "
			}
			formula += "{rows} × {cut length}"
			terms = append(terms, CountTerm("rows", row.Count), LengthTerm("cut length", row.Length))
		}
	}
	total, src := plan.Length, Common
	house := &w.Tables.House
	if extra > 0 {
		formula += " + {for the half drop}"
		terms = append(terms, LengthTerm("for the half drop", extra))
		total += extra
		src = "Soft furnishing questions, trade forum: half-drop repeats"
	}
	if way := w.Way(c); way != lay.Rows {
		if saved := w.saves(c, way); saved > 0 {
			name := savedBy[way]
			formula += " - {" + name + "}"
			terms = append(terms, LengthTerm(name, saved))
			total -= saved
		}
	}
	c.Cuts = total
	if c.Repeat > 0 && house.StartRepeat {
		formula += " + {repeat to start on}"
		terms = append(terms, LengthTerm("repeat to start on", c.Repeat))
		total += c.Repeat
		src = "Sew Helpful, Half drop pattern repeat: a repeat more for positioning"
	}
	w.shown = terms
	c.Needed = w.put(ClothNeeded, c.Name, LengthOf(total), length.Up, src, formula, terms...)
	step := w.soldBy(c)
	if step <= 0 {
		return
	}
	buy := step.Mul(length.CeilDiv(total, step))
	c.ToBuy = w.put(ClothToBuy, c.Name, LengthOf(buy), length.Up, "Cotswold Sewing School, Calculating fabric: up to what it is sold by",
		"rounded up ({cloth needed} ÷ {sold by}) × {sold by}", Via(c.Needed), LengthTerm("sold by", step), LengthTerm("sold by", step))
	w.compareOrdered(c)
}

// inRows lays the cuts of a cloth in rows, of one piece or of all for "", the longest first, and
// reports whether one is wider than it. Those of a half drop that start half a repeat on lie in rows of their own.
func (w *worker) inRows(c *Cloth, only string) (plan lay.Plan, tooWide bool) {
	pieces := w.pieces[:0]
	for on := range 2 {
		first := len(pieces)
		for i := range c.cuts {
			k := &c.cuts[i]
			if only != "" && k.piece.Name != only {
				continue
			}
			n := int64(0)
			if c.drops(k) {
				n = c.droppedOf(k, w.Items[k.item].Quantity)
			}
			if on == 0 {
				n = k.count - n
			}
			if n > 0 {
				wide, long := w.laidAs(c, k)
				pieces = append(pieces, lay.Piece{Name: k.piece.Name, Width: wide, Length: long, Count: n})
			}
		}
		if w.Lean {
			sum, wide := lay.LengthInRows(c.Lays(), pieces[first:])
			plan.Length, tooWide = plan.Length+sum, tooWide || wide
			continue
		}
		rows, wide := lay.InRows(c.Lays(), pieces[first:])
		plan.Length, tooWide = plan.Length+rows.Length, tooWide || wide != nil
		plan.Rows = append(plan.Rows, rows.Rows...)
	}
	w.pieces = pieces
	slices.SortStableFunc(plan.Rows, func(a, b lay.Row) int { return cmp.Compare(b.Length, a.Length) })
	return plan, tooWide
}

// Dropped reports whether every other width of a half drop is cut half a repeat further on, not
// within a cut that has so much to spare.
func (c *Cloth) Dropped() bool { return c.dropped }

// droppedOf is how many of a half drop's cuts, for so many of its item, start half a repeat
// further on: every other one through all of them, or those at the sides of a middle one.
func (c *Cloth) droppedOf(k *cut, times int64) int64 {
	count := k.piece.Count.Value.N
	switch middle := k.widths - 2; {
	case k.piece.decl.Sides:
		return count * times
	case k.piece.decl.Middle && middle > 0:
		return count * (middle / 2) / middle * times
	}
	return count * times / 2
}

// halves reports whether some of a cut start half a repeat further on than the others, as its
// pattern is a half drop.
func (c *Cloth) halves(k *cut) bool { return k.widths > 1 && c.halfDrops() }

// halfDrops reports whether the pattern of a cloth is a half drop.
func (c *Cloth) halfDrops() bool {
	return c.Repeat > 0 && c.Order.Repeat.Match.Value == "half drop"
}

// drops reports whether they are laid half a repeat further on: what the repeat leaves of each
// is not enough.
func (c *Cloth) drops(k *cut) bool { return c.byTurns(k) || c.dropped && c.halves(k) }

// madeAsBefore reports whether there are as many items, panels and pieces as in the base
// of a trial.
func (w *worker) madeAsBefore() bool {
	for i := range w.Items {
		it, was := &w.Items[i], &w.trial.Base.Items[i]
		if it.Panels != was.Panels || it.Quantity != was.Quantity ||
			!slices.EqualFunc(it.Pieces, was.Pieces, func(a, b Piece) bool { return a.decl == b.decl && (a.Length == nil) == (b.Length == nil) }) {
			return false
		}
	}
	return true
}

// cutAsBefore reports whether the same is cut of a cloth as in the base of a trial.
func cutAsBefore(c, from *Cloth) bool {
	return from.TooWide == nil && slices.EqualFunc(c.cuts, from.cuts, func(a, b cut) bool {
		return a.item == b.item && a.piece.decl == b.piece.decl && a.piece.Width.Value == b.piece.Width.Value &&
			a.count == b.count && a.widths == b.widths && a.along == b.along && a.across == b.across && a.spare == b.spare
	})
}

// savedBy names what the ways of cutting save over rows.
var savedBy = [...]string{lay.Guillotine: "saved by cuts from edge to edge", lay.Free: "saved by a free lay"}

// Lays is how much of the width pieces are laid on. Small ones lie between the selvedges.
// Where a piece is as wide as the cloth, or is joined to others edge to edge, a selvedge may
// lie in the join.
func (c *Cloth) Lays() length.Length {
	if c.usable > 0 { // all its cuts are known
		return c.usable
	}
	usable := c.Width - 2*c.Order.Selvedge.Value
	if usable <= 0 {
		return c.Width
	}
	for _, k := range c.cuts {
		if k.widths > 1 || k.across > usable {
			return c.Width
		}
	}
	return usable
}

// laidAs is what a cut takes of a cloth, across and along: up to what can be marked. As many
// as go side by side as they are worked out still do, a width of cloth that is shared out to
// the last thread among them.
func (s *Sheet) laidAs(c *Cloth, k *cut) (wide, long length.Length) {
	mark, usable := length.Step(s.Unit), c.Lays()
	wide, long = k.across.Round(mark, length.Up), k.along.Round(mark, length.Up)
	if k.across <= 0 || k.across > usable {
		return k.across, long
	}
	if n := length.FloorDiv(usable, k.across); wide.Mul(n) > usable {
		wide = usable.Div(n, length.Down)
	}
	return wide, long
}

// LaidOn is the cloth as its pieces are laid on it, on a bolt without an end.
func (c *Cloth) LaidOn() *lay.Cloth { return &lay.Cloth{Width: c.Lays(), Repeat: c.Repeat} }

// soldBy is the step that a cloth is sold by.
func (s *Sheet) soldBy(c *Cloth) length.Length {
	if !c.Order.SoldBy.Set && !s.Unit.Metric() {
		return s.Tables.House.SellingYards
	}
	return Or(c.Order.SoldBy, s.Tables.House.SellingMetric)
}

// unread reports whether what is cut of a cloth, or how it is sold, could not be read, or is
// in dispute.
func (w *worker) unread(c *Cloth) bool {
	for _, k := range c.cuts {
		it := &w.Items[k.item]
		d := k.piece.decl
		if k.added() {
			continue
		}
		if it.cells[d.width].doubtful || it.cells[d.length].doubtful || it.cells[d.count].doubtful {
			return true
		}
	}
	if w.disputed[c.Name] {
		return true
	}
	if len(w.Order.Flaws) == 0 {
		return false
	}
	for _, f := range [...]string{".sold_by", ".width", ".repeat", ".shrinks"} {
		if len(w.hiddenAt("cloths."+c.Name+f)) > 0 || len(w.hiddenAt("measured."+c.Name+f)) > 0 {
			return true
		}
	}
	return slices.ContainsFunc(c.Items(), func(i int) bool {
		return slices.Contains(w.hiddenAt("items["+strconv.Itoa(i)+"].quantity"), "")
	})
}

// cutsFor are the cuts of the cloth for one item: they stand item by item.
func (c *Cloth) cutsFor(item int) []cut {
	return OfItem(c.cuts, item, func(k cut) int { return k.item })
}

// complete reports whether everything that the order makes of the cloth has
// been worked out.
func (w *worker) complete(c *Cloth) bool {
	if !w.looked {
		w.looked = true
		for i := range w.Items {
			w.lacking(i)
		}
	}
	return !c.lacks
}

// lacking notes on the cloths what of an item has not been worked out.
func (w *worker) lacking(i int) {
	it := &w.Items[i]
	for r := range it.kind.Roles {
		if it.kind.Roles[r].Else != "" && it.ClothName(r) == "" {
			continue // its own is not named
		}
		if c := it.roles[r]; c != nil && !slices.ContainsFunc(c.cutsFor(i), func(k cut) bool { return k.piece.Role == it.kind.Roles[r].Name }) {
			c.lacks = true
		}
	}
	if fields, _ := it.Lacks(); len(fields) > 0 {
		for _, c := range it.roles {
			if c != nil {
				c.lacks = true
			}
		}
	}
	for j := range it.Pieces { // one is there that is not worked out to its end
		if p := &it.Pieces[j]; p.Cloth != nil && (p.Width == nil || p.Length == nil || p.Count == nil) {
			p.Cloth.lacks = true
		}
	}
	for j := range it.Order.Cuts {
		k := &it.Order.Cuts[j]
		if slices.ContainsFunc(it.Pieces, func(p Piece) bool { return SamePiece(k.Piece.Value, p.Name) }) {
			continue
		}
		if len(it.Added) > 0 && it.isExtra(j) {
			if c, _, _ := it.extraOf(k); c != nil {
				continue
			}
		}
		if c := w.Cloth(Or(k.Cloth, it.Order.Cloth.Value)); c != nil {
			c.lacks = true
		}
	}
}

// halfDrop is the extra length that a half-drop match takes on the order, by
// the house's custom.
func (w *worker) halfDrop(c *Cloth) length.Length {
	if !c.halfDrops() {
		return 0
	}
	half := c.Repeat.Div(2, length.Up)
	var joins, cuts, splitA, splitB, ahead int64
	scant := false
	told := map[int]bool{} // items whose joins were counted
	for _, k := range c.cuts {
		switch {
		case c.byTurns(&k):
			ahead += k.count % 2 // one more A than B
		case k.widths > 1:
			if it := &w.Items[k.item]; !told[k.item] {
				joins += (k.widths - 1) * it.Panels * it.Quantity
				if it.HalvesDiffer() && k.spare < half {
					splitA += (it.Quantity + 1) / 2
					splitB += it.Quantity / 2
				}
				told[k.item] = true
			}
			cuts += k.count
			scant = scant || k.spare < half
		}
	}
	turns := half.Mul(max(0, ahead-1)) // A may begin and end the cloth
	// A width that is split is half a repeat longer than what is sewn of it, so that the other
	// letter follows it: A A' B B' A, and so on. One more of A is the last.
	changes := half.Mul(max(1, 2*splitA-1, 2*splitB))
	switch {
	case joins == 0:
		return turns
	case w.Tables.House.HalfDrop == "whole on the order":
		return max(c.Repeat, changes) + turns
	case w.Tables.House.HalfDrop == "half at joins":
		return half.Mul(joins) + turns
	case w.Tables.House.HalfDrop == "half on each cut":
		return half.Mul(cuts+cuts%2) + turns // of an odd number the last takes a whole repeat more
	case scant:
		c.fewer = changes - half.Mul(max(1, splitA+splitB))
		return changes + turns
	}
	return turns
}

// byTurns reports whether a cut of a half drop ends half a repeat on, so that the next one
// down the cloth starts there: A B A B.
func (c *Cloth) byTurns(k *cut) bool {
	return c.halves(k) && k.along%c.Repeat != 0 && 2*k.along%c.Repeat <= 1
}

// HalvesDiffer reports whether the pair's outer half widths, of one width that is split,
// start half a repeat apart, as its pattern runs on where the panels meet.
func (it *Item) HalvesDiffer() bool {
	q := it.Get(WidthsPerPanel)
	return q != nil && q.Value.R.Den == 2 && it.Panels == 2 && it.Joins > 0 && it.Face != nil && it.Face.halfDrops()
}

// Placed are the pieces of an item's face cloth that begin at one point of its pattern, as each
// takes whole repeats of it, and those that may lie anywhere in it.
func (it *Item) Placed() (placed, anywhere []string) {
	if it.Face == nil || it.Face.Repeat <= 0 {
		return nil, nil
	}
	for _, k := range it.Face.cutsFor(it.Index) {
		if k.along%it.Face.Repeat <= 1 {
			placed = append(placed, k.piece.Name)
		} else {
			anywhere = append(anywhere, k.piece.Name)
		}
	}
	return placed, anywhere
}

// SplitWidth is how long the width of a piece is cut that is split for halves which start half
// a repeat apart; 0 where it is as long as the others, or none is split.
func (it *Item) SplitWidth(p *Piece) length.Length {
	if !it.HalvesDiffer() || p.Role != it.kind.Roles[0].Name || p.Cloth != it.Face || p.decl.joined < 0 || !it.Has(string(RawCut)) || !it.Has(string(CutLength)) {
		return 0
	}
	both := (it.Length(string(RawCut)) + it.Face.Repeat.Div(2, length.Up)).Round(it.Step(), length.Up)
	if both <= it.Length(string(CutLength)) {
		return 0
	}
	return both
}

// compareOrdered compares the cloth ordered. More than needed may be bought on
// purpose, up to one more cut without a word; a bolt is bought whole.
func (w *worker) compareOrdered(c *Cloth) {
	leaf := &c.Order.Ordered
	if !leaf.Set || leaf.Node == nil {
		return
	}
	right, agrees := c.ToBuy.Value.Length(), Exactly
	far := farMore(leaf.Value, right) && w.allRead()
	added := slices.ContainsFunc(c.cuts, func(k cut) bool { return k.added() })
	switch {
	case leaf.Value <= c.Needed.Value.Length()-c.fewer-length.Step(w.Unit):
		agrees = Differs
		if added && w.sufficesFor(c, leaf.Value) > 0 {
			agrees = AsRight // small pieces come out of what the others leave
		}
		if leaf.Value > c.Needed.Value.Length()-c.fewer-w.lessAsStated(c)-length.Step(w.Unit) {
			agrees = AsRight // the cuts as they are stated, and rounded, take no more
		}
	case len(c.Order.Bolts) > 0 && leaf.Value > right:
		agrees, far = AsRight, false
	case leaf.Value >= right+c.Longest(), far:
		agrees = More
	}
	w.Stated = append(w.Stated, Stated{Quantity: c.ToBuy, Node: leaf.Node, Value: LengthOf(leaf.Value), Agrees: agrees, Doubtful: c.unread, FarMore: far, Unsure: added, Slot: Slot{Item: -1, Cloth: c.index}})
}

// lessAsStated is how much less of a cloth is taken, in rows, where each piece is cut as the
// order states it, if that agrees with what was worked out.
func (w *worker) lessAsStated(c *Cloth) length.Length {
	if w.Lean || w.Way(c) != lay.Rows {
		return 0
	}
	cuts, smaller := slices.Clone(c.cuts), false
	for i := range cuts {
		k := &cuts[i]
		for j := range w.Stated {
			s := &w.Stated[j]
			if s.Doubtful || s.Agrees != Exactly && s.Agrees != AsRight || s.Quantity == nil || s.Slot.Item != k.item {
				continue
			}
			for _, side := range [...]struct {
				of *Quantity
				is *length.Length
			}{{k.piece.Width, &k.across}, {k.piece.Length, &k.along}} {
				if l := s.Value.Length(); s.Quantity == side.of && *side.is == side.of.Value.Length() && l > 0 && l < *side.is {
					*side.is, smaller = l, true
				}
			}
		}
	}
	if !smaller {
		return 0
	}
	was, _ := w.inRows(c, "")
	all := c.cuts
	c.cuts = cuts
	now, _ := w.inRows(c, "")
	c.cuts = all
	return max(0, was.Length-now.Length)
}

// allRead reports whether all that cloths are for could be read: what could not may be
// of any of them.
func (w *worker) allRead() bool {
	if w.read == nil {
		all := w.allFound()
		w.read = &all
	}
	return *w.read
}

func (w *worker) allFound() bool {
	return !slices.ContainsFunc(w.Order.Flaws, func(f order.Flaw) bool { return f.Kind != order.OtherWord }) && !slices.ContainsFunc(w.Items, func(it Item) bool {
		for i := range it.kind.Roles {
			if it.roles[i] == nil && it.ClothName(i) != "" {
				return true
			}
		}
		return !it.Worked
	})
}

// farMore is half as much again, and more than half a yard; our own measure.
func farMore(ordered, right length.Length) bool {
	return 2*ordered >= 3*right && ordered-right > 18*length.Inch
}

// Over is the cloth ordered beyond what is to be bought; 0 where none is
// stated, or where a choice that it is worked from could not be read.
func (c *Cloth) Over() length.Length {
	if c.ToBuy == nil || c.unread || !c.Order.Ordered.Set {
		return 0
	}
	return max(0, c.Order.Ordered.Value-c.ToBuy.Value.Length())
}

// Items are the items that the cloth goes into.
func (c *Cloth) Items() (list []int) {
	for _, k := range c.cuts {
		if n := len(list); n == 0 || list[n-1] != k.item {
			list = append(list, k.item)
		}
	}
	return list
}

// Idle is a cloth of the order that nothing is cut from, though it is ordered; nil where
// there is none.
func (s *Sheet) Idle() *Cloth {
	i := slices.IndexFunc(s.Cloths, func(c Cloth) bool { return len(c.cuts) == 0 && c.Order.Ordered.Set })
	if i < 0 {
		return nil
	}
	return &s.Cloths[i]
}

// Spare reports whether nothing is cut from a cloth of the order, ordered or not.
func (s *Sheet) Spare() bool {
	return slices.ContainsFunc(s.Cloths, func(c Cloth) bool { return len(c.cuts) == 0 })
}

// Longest is the longest cut of the cloth.
func (c *Cloth) Longest() (most length.Length) {
	for _, k := range c.cuts {
		most = max(most, k.along)
	}
	return most
}

// NoIron reports whether the cloth may not be ironed at all: its care label
// says so, or it has no label and one of its fibers must not be ironed.
func (c *Cloth) NoIron() bool {
	iron := c.Order.Care.Iron
	return iron.Value.None || !iron.Set && c.Cap == 0 && c.Weakest != ""
}

// Dots is the number of dots that a setting comes to: none for no iron, one
// more than the hottest for a temperature beyond the scale.
func (s *Sheet) Dots(h order.Heat) int64 {
	if h.None {
		return 0
	}
	if h.Dots > 0 {
		return int64(h.Dots)
	}
	return int64(s.Tables.DotsAt((h.Milli + 999) / 1000))
}

// ClothsOf are the cloths that are sewn together in an item, the face first.
func (s *Sheet) ClothsOf(it *Item) []*Cloth {
	list := make([]*Cloth, 0, 4)
	for i, c := range it.roles {
		if c != nil && !it.kind.Roles[i].Apart && !slices.Contains(list, c) {
			list = append(list, c)
		}
	}
	return list
}

// Holds is what the item's rod or track holds, as its maker states.
func (it *Item) Holds() order.Mass {
	if it.Order.Track.Set {
		return it.Order.Track.Holds
	}
	return it.Order.Rod.Holds
}

// Diameter is how thick the item's rod or track is.
func (it *Item) Diameter() *order.Length {
	if d := &it.Order.Track.Diameter; d.Set {
		return d
	}
	return &it.Order.Rod.Diameter
}

// LessToStart is the name of a slip that is none if the bolt happens to begin well.
const LessToStart = "it leaves less than a repeat to start on"

// StartsWell reports whether the cloth ordered is enough for the cuts if the bolt begins with a
// whole motif.
func (s *Sheet) StartsWell(w *Wrong) bool {
	c := s.Cloth(w.Quantity.Of)
	return w.Short && c != nil && c.Cuts > 0 && w.Stated.Length() >= c.Cuts
}

// mainRows is the piece of which most is cut of a cloth, and how much less its rows take by
// themselves than all do; 0 where there is no other piece.
func (s *Sheet) mainRows(c *Cloth) (main string, less length.Length) {
	var most length.Length
	for _, k := range c.cuts {
		if took := k.along.Mul(k.count); took > most {
			most, main = took, k.piece.Name
		}
	}
	if !slices.ContainsFunc(c.cuts, func(k cut) bool { return k.piece.Name != main }) {
		return main, 0
	}
	w := worker{Sheet: s}
	all, _ := w.inRows(c, "")
	alone, _ := w.inRows(c, main)
	return main, all.Length - alone.Length
}

// clothSlips gives the slips of the cloth to buy.
func (s *Sheet) clothSlips(of *Stated, add func(Slipped)) {
	give := func(name string, v Value) { add(Slipped{Name: name, Value: v}) }
	c := s.Cloth(of.Quantity.Of)
	if c == nil || c.Needed == nil {
		return
	}
	needed, step := c.Needed.Value.Length(), s.soldBy(c)
	up := func(l length.Length) Value { return LengthOf(step.Mul(length.CeilDiv(l, step))) }
	give("it was rounded down to what the cloth is sold by", LengthOf(step.Mul(length.FloorDiv(needed, step))))
	if c.Repeat > 0 && s.Tables.House.StartRepeat {
		cuts := up(needed - c.Repeat)
		add(Slipped{Name: "the repeat to start on was left out", Value: cuts, Often: true})
		if of.Value.N > cuts.N && of.Value.Length() < needed {
			add(Slipped{Name: LessToStart, Value: of.Value, Often: true})
		}
	}
	if main, rest := s.mainRows(c); rest > 0 {
		give("this is for the "+Plural(main)+" alone", up(needed-rest))
	}
	for _, k := range c.cuts {
		it := &s.Items[k.item]
		each := k.along
		if k.count > 1 {
			give(k.piece.decl.leftOut, up(needed-each))
			give(k.piece.decl.forOne, up(each))
		}
		if it.Panels > 1 {
			give("this is for one panel", up(needed.Div(it.Panels, length.Up)))
			give("the panels were counted twice", up(needed.Mul(it.Panels)))
		}
		if it.Quantity > 1 {
			give("this is for one of them", up(needed.Div(it.Quantity, length.Up)))
		}
	}
}
