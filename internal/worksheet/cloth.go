package worksheet

import (
	"slices"

	"cutgate/internal/lay"
	"cutgate/internal/length"
	"cutgate/internal/order"
)

// A cut is so many pieces of one size, of one cloth, for one item.
type cut struct {
	item   int
	piece  *Piece
	count  int64 // for all of the item's quantity
	widths int64 // across the work where they are joined, for the half drop; 1 otherwise
	spare  length.Length
}

// clothsOf takes the cloths of the order, with what was measured at the bench
// in place of what was stated.
func (w *worker) clothsOf() {
	w.Cloths = make([]Cloth, len(w.Order.Cloths))
	for i := range w.Cloths {
		e := &w.Order.Cloths[i]
		c := &w.Cloths[i]
		*c = Cloth{Order: &e.Of, Name: e.Name, Width: e.Of.Width.Value, Repeat: e.Of.Repeat.Length.Value, Across: e.Of.Repeat.Width.Value}
		if !e.Of.Washed.Value {
			c.shrinkLength, c.shrinkWidth = e.Of.Shrinks.Length.Value, e.Of.Shrinks.Width.Value
		}
		if m := w.measured(e.Name); m != nil {
			c.Width = valueOr(m.Width, c.Width)
			c.Repeat = valueOr(m.Repeat.Length, c.Repeat)
			c.Across = valueOr(m.Repeat.Width, c.Across)
			if !e.Of.Washed.Value {
				c.shrinkLength = valueOr(m.Shrinks.Length, c.shrinkLength)
				c.shrinkWidth = valueOr(m.Shrinks.Width, c.shrinkWidth)
			}
		}
		c.Washed = c.Width.MulRatio(one.Sub(c.shrinkWidth), length.Down)
		if e.Of.Class.Set {
			c.Class = w.Tables.ClassByName(e.Of.Class.Value)
		} else if e.Of.Weight.Set {
			c.Class = w.Tables.Class(e.Of.Weight.Value)
		}
		w.heat(c)
	}
}

func (w *worker) measured(name string) *order.Measurements {
	for i := range w.Order.Measured {
		if w.Order.Measured[i].Name == name {
			return &w.Order.Measured[i].Of
		}
	}
	return nil
}

var one = length.NewRatio(1, 1)

// heat finds what the weakest fiber of a cloth stands. A fiber under the share
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

// joinMargin is what a width of cloth loses at a join: the seam allowance, or
// the selvedge and a little more where that is wider.
func (w *worker) joinMargin(c *Cloth, allowance length.Length) length.Length {
	margin := allowance
	if s := c.Order.Selvedge.Value; s > 0 {
		margin = max(margin, s+w.Tables.House.SelvedgeCover)
	}
	return margin
}

// usable works out what a width of cloth gives between two joins.
func (w *worker) usable(c *Cloth, allowance length.Length, of string) *Quantity {
	if c == nil || c.Width <= 0 {
		return nil
	}
	margin := w.joinMargin(c, allowance)
	l := c.Washed - 2*margin
	if l <= 0 {
		return nil
	}
	formula, src := "{cloth width} - 2 × {seam allowance}", Common
	name := "seam allowance"
	if margin > allowance {
		formula, name = "{cloth width} - 2 × {selvedge and cover}", "selvedge and cover"
	}
	terms := []Term{len1("cloth width", c.Washed), len1(name, margin)}
	if across := c.Across; across > 0 && across <= l && c.Order.Repeat.Match.Set {
		n := length.FloorDiv(l, across)
		whole := across.Mul(n)
		// A mill that prints a whole number of repeats across its cloth makes them
		// meet at the selvedges; a join in any other cloth meets on the repeat only
		// if the rest is cut away.
		if whole != l && across.Mul(n+1) > c.Washed {
			q := w.put(UsableWidth, of, LengthOf(whole), length.Nearest, Common,
				"rounded down (("+formula+") ÷ {repeat across}) × {repeat across}",
				append(terms, len1("repeat across", across), len1("repeat across", across))...)
			return q
		}
	}
	return w.put(UsableWidth, of, LengthOf(l), length.Nearest, src, formula, terms...)
}

// A run is a length down the cloth, before shrinkage and repeat.
type run struct {
	formula string // of what lies in it
	terms   []Term
	length  length.Length
	source  string
}

// cutLength works out the length to cut from the run: shrinkage first, then up
// to whole repeats.
func (w *worker) cutLength(c *Cloth, name Name, of string, r run) (raw, repeats, cutq, waste *Quantity) {
	if r.length <= 0 {
		return
	}
	l, formula, terms, src := r.length, r.formula, r.terms, r.source
	if c != nil && !c.shrinkLength.IsZero() && c.shrinkLength.Cmp(one) < 0 {
		l = l.QuoRatio(one.Sub(c.shrinkLength), length.Up)
		formula = "(" + formula + ") ÷ (1 - {shrinkage})"
		terms = append(terms, Term{Name: "shrinkage", Value: PercentOf(c.shrinkLength)})
		src = "Dimensional stability (fabric), WikiSum: the rule of division"
	}
	if c == nil || c.Repeat <= 0 {
		cutq = w.put(name, of, LengthOf(l), length.Up, src, formula, terms...)
		return cutq, nil, cutq, nil
	}
	raw = w.put(RawCut, of, LengthOf(l), length.Up, src, formula, terms...)
	n := length.CeilDiv(l, c.Repeat)
	const repeatSource = "M.Y.L. Ltd., Commonly used formulas with examples"
	repeats = w.put(Repeats, of, CountOf(n), length.Up, repeatSource,
		"rounded up ({cut before the repeat} ÷ {repeat})", via(raw), len1("repeat", c.Repeat))
	cutq = w.put(name, of, LengthOf(c.Repeat.Mul(n)), length.Up, repeatSource,
		"{repeats in a cut} × {repeat}", via(repeats), len1("repeat", c.Repeat))
	waste = w.put(WastePerCut, of, LengthOf(cutq.Value.Length()-l), length.Nearest, Common,
		"{"+string(name)+"} - {cut before the repeat}", term(cutq), term(raw))
	return
}

// faceCut works out the face's cut length: the finished length, what the top
// takes by that name, and the bottom hem.
func (w *worker) faceCut(it *Item, top length.Length, name string) {
	it.RawCut, it.Repeats, it.CutLength, it.WastePerCut = w.cutLength(it.Face, CutLength, "", run{
		formula: "{finished length} + {" + name + "} + {bottom hem}",
		terms:   []Term{term(it.FinishedLength), len1(name, top), len1("bottom hem", it.Bottom.Takes)},
		length:  it.FinishedLength.Value.Length() + top + it.Bottom.Takes,
		source:  "B. Talmadge, How to Calculate Yardage for Custom Draperies",
	})
}

// piece adds a size of piece to the item, and to what its cloth must give.
// widths is how many of it are joined side by side.
func (w *worker) piece(it *Item, p Piece, widths int64, waste *Quantity) {
	it.Pieces = append(it.Pieces, p)
	if p.Cloth == nil || p.Width == nil || p.Length == nil || p.Count == nil {
		return
	}
	c := cut{item: it.Index, count: p.Count.Value.N * it.Quantity, widths: widths}
	if waste != nil {
		c.spare = waste.Value.Length()
	}
	kept := p
	c.piece = &kept
	p.Cloth.cuts = append(p.Cloth.cuts, c)
}

// need works out how much of a cloth the order takes, and compares what was
// ordered.
func (w *worker) need(c *Cloth) {
	if len(c.cuts) == 0 || c.Width <= 0 {
		return
	}
	mark := length.Step(w.Unit) // what is cut is a whole number of them
	pieces := make([]lay.Piece, 0, 8)
	for _, k := range c.cuts {
		p := lay.Piece{Name: k.piece.Name, Width: k.piece.Width.Value.Length(), Length: k.piece.Length.Value.Length().Round(mark, length.Up), Count: k.count}
		pieces = append(pieces, p)
	}
	plan, tooWide := lay.InRows(c.Width, pieces)
	if tooWide != nil {
		for _, k := range c.cuts {
			if k.piece.Width.Value.Length() > c.Width {
				c.TooWide = k.piece
				return // a lay of pieces that don't fit says nothing
			}
		}
	}
	extra := w.halfDrop(c)
	lead := extra
	if c.Repeat > 0 && w.Tables.House.StartRepeat {
		lead += c.Repeat
	}
	if c.unread = w.unread(c); !c.unread {
		w.stock(c, plan.Rows)
		w.detour(c, plan.Rows, lead)
		w.railroads(c)
	}
	if !w.complete(c) {
		return // the cloth for a part of the work would mislead
	}
	formula, terms := "", make([]Term, 0, 8)
	for i, row := range plan.Rows {
		if i > 0 {
			formula += " + "
		}
		formula += "{rows} × {cut length}"
		terms = append(terms, num("rows", row.Count), len1("cut length", row.Length))
	}
	total, src := plan.Length, Common
	house := &w.Tables.House
	if extra > 0 {
		formula += " + {for the half drop}"
		terms = append(terms, len1("for the half drop", extra))
		total += extra
		src = "Soft furnishing questions, trade forum: half-drop repeats"
	}
	c.Cuts = total
	if c.Repeat > 0 && house.StartRepeat {
		formula += " + {repeat to start on}"
		terms = append(terms, len1("repeat to start on", c.Repeat))
		total += c.Repeat
		src = "Sew Helpful, Half drop pattern repeat: a repeat more for positioning"
	}
	c.Needed = w.put(ClothNeeded, c.Name, LengthOf(total), length.Up, src, formula, terms...)
	step := valueOr(c.Order.SoldBy, house.SellingMetric)
	if !c.Order.SoldBy.Set && !w.Unit.Metric() {
		step = house.SellingYards
	}
	if step <= 0 {
		return
	}
	buy := step.Mul(length.CeilDiv(total, step))
	c.ToBuy = w.put(ClothToBuy, c.Name, LengthOf(buy), length.Up, "Cotswold Sewing School, Calculating fabric: up to what it is sold by",
		"rounded up ({cloth needed} ÷ {sold by}) × {sold by}", via(c.Needed), len1("sold by", step), len1("sold by", step))
	w.compareOrdered(c)
}

// complete reports whether everything that the order makes of the cloth has
// been worked out.
func (w *worker) complete(c *Cloth) bool {
	for i := range w.Items {
		it := &w.Items[i]
		o := it.Order
		if o.Cloth.Value == c.Name && !c.gives(i, func(piece string) bool { return piece != "lining" && piece != "interlining" }) ||
			o.Lining.Cloth.Value == c.Name && !c.gives(i, func(piece string) bool { return piece == "lining" }) ||
			o.Interlining.Cloth.Value == c.Name && !c.gives(i, func(piece string) bool { return piece == "interlining" }) ||
			o.Piping.Cloth.Value == c.Name {
			return false
		}
		for j := range o.Cuts {
			k := &o.Cuts[j]
			if valueOr(k.Cloth, o.Cloth.Value) == c.Name && !slices.ContainsFunc(it.Pieces, func(p Piece) bool { return samePiece(k.Piece.Value, p.Name) }) {
				return false
			}
		}
	}
	return true
}

// gives reports whether such a piece of an item is cut from the cloth.
func (c *Cloth) gives(item int, such func(piece string) bool) bool {
	return slices.ContainsFunc(c.cuts, func(k cut) bool { return k.item == item && such(k.piece.Name) })
}

// halfDrop is the extra length that a half-drop match takes on the order, by
// the house's custom.
func (w *worker) halfDrop(c *Cloth) length.Length {
	if c.Repeat <= 0 || c.Order.Repeat.Match.Value != "half drop" {
		return 0
	}
	half := c.Repeat.Div(2, length.Up)
	var joins, cuts int64
	scant := false
	for _, k := range c.cuts {
		if k.widths > 1 {
			joins += k.widths - 1
			cuts += k.count
			scant = scant || k.spare < half
		}
	}
	switch {
	case joins == 0:
		return 0
	case w.Tables.House.HalfDrop == "whole on the order":
		return c.Repeat
	case w.Tables.House.HalfDrop == "half at joins":
		return half.Mul(joins)
	case w.Tables.House.HalfDrop == "half on each cut":
		return half.Mul(cuts)
	case scant:
		return half
	}
	return 0
}

// compareOrdered compares the cloth ordered. Too little is wrong; more is
// wrong only where a known slip made it so, since a maker may buy a little
// more on purpose.
func (w *worker) compareOrdered(c *Cloth) {
	leaf := &c.Order.Ordered
	if !leaf.Set || leaf.Node == nil {
		return
	}
	w.stated(c.ToBuy, leaf.Node)
	right := c.ToBuy.Value.Length()
	switch {
	case leaf.Value <= c.Needed.Value.Length()-length.Step(w.Unit):
		w.wrong(c.ToBuy, leaf.Node, LengthOf(leaf.Value), LengthOf(right))
	case leaf.Value >= right+c.Longest():
		x := Wrong{Quantity: c.ToBuy, At: leaf.Node.At, Node: leaf.Node, Stated: LengthOf(leaf.Value), right: LengthOf(right)}
		if w.slipOf(&x) != nil {
			w.wrong(c.ToBuy, leaf.Node, LengthOf(leaf.Value), LengthOf(right))
		}
	}
}

// Over is the cloth ordered beyond what is to be bought; 0 where none is
// stated, or where a choice that it is worked from could not be read.
func (c *Cloth) Over() length.Length {
	if c.ToBuy == nil || c.unread || !c.Order.Ordered.Set {
		return 0
	}
	return max(0, c.Order.Ordered.Value-c.ToBuy.Value.Length())
}

// Longest is the longest cut of the cloth.
func (c *Cloth) Longest() (most length.Length) {
	for _, k := range c.cuts {
		most = max(most, k.piece.Length.Value.Length())
	}
	return most
}
