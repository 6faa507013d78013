package worksheet

import (
	"cutgate/internal/length"
	"cutgate/internal/order"
)

// showerCurtain works out a flat hanging of joined pieces, with holes along its
// top.
func (w *worker) showerCurtain(it *Item) {
	o := it.Order
	kind := o.Kind.Value
	it.Top = w.hem(&o.Hems.Top, kind, "top", "")
	it.Bottom = w.hem(&o.Hems.Bottom, kind, "bottom", "")
	it.Sides = w.hem(&o.Hems.Sides, kind, "sides", "")
	w.hemAllowances(&o.Hems)
	w.seam(it)
	if o.Finished.Width.Set {
		it.FinishedWidth = w.asStated(FinishedWidth, "", LengthOf(o.Finished.Width.Value))
	}
	if o.Finished.Length.Set {
		it.FinishedLength = w.asStated(FinishedLength, "", LengthOf(o.Finished.Length.Value))
		w.faceCut(it, it.Top.Takes, "top hem")
	}
	w.acrossPanel(it)
	w.holes(it)
	top := length.Length(0) // the top edge stands above the eye of the rings
	if o.Holes.FromTop.Set {
		top = max(0, o.Holes.FromTop.Value-o.Holes.Bore.Value/2)
	}
	w.footGap(it, o.Rod.AboveFloor, top)
	w.hanging(it)
	w.sewing(it)
}

// seam takes the kind of seam and its allowance, stated or the house's.
func (w *worker) seam(it *Item) {
	j := &it.Order.Join
	it.Seam = w.Tables.Seam(valueOr(j.Seam, "plain"))
	if it.Seam != nil {
		it.Allowance = it.Seam.Usual
	}
	it.Allowance = valueOr(j.Allowance, it.Allowance)
}

// acrossPanel works out the pieces of a joined flat panel: one piece, a center
// and two sides, or equal pieces.
func (w *worker) acrossPanel(it *Item) {
	c := it.Face
	if c == nil || c.Width <= 0 || it.FinishedWidth == nil {
		return
	}
	it.Usable = w.usable(c, it.Allowance, "")
	whole := it.FinishedWidth.Value.Length() + it.Sides.Takes.Mul(2)
	layout := it.Order.Join.Layout.Value
	if layout == "" {
		layout = w.layoutOf(it, whole)
	}
	switch layout {
	case "one piece":
		w.onePiece(it, whole)
	case "equal":
		w.equalPieces(it, whole)
	default:
		w.centerAndSides(it)
	}
	pieces := int64(0)
	for i := range it.Pieces {
		pieces += it.Pieces[i].Count.Value.N
	}
	if pieces > 0 {
		it.Widths = w.put(Widths, "", RatioOf(length.NewRatio(pieces, 1)), length.Nearest, Common, "")
		w.compareRatio(it.Widths, &it.Order.Widths)
	}
}

// layoutOf is how a panel is pieced where the order does not say: as its cuts
// are named, else in one piece if that fits, else with a full width in the
// center.
func (w *worker) layoutOf(it *Item, whole length.Length) string {
	for i := range it.Order.Cuts {
		switch it.Order.Cuts[i].Piece.Value {
		case "center", "side":
			return "center and sides"
		}
	}
	if whole <= it.Face.Washed {
		return "one piece"
	}
	if statedCut(it, "piece") != nil {
		return "equal"
	}
	return "center and sides"
}

// beforeWash is the width to cut so that l is left after the first wash.
func (c *Cloth) beforeWash(l length.Length) length.Length {
	if c.shrinkWidth.IsZero() || c.shrinkWidth.Cmp(one) >= 0 {
		return l
	}
	return l.QuoRatio(one.Sub(c.shrinkWidth), length.Up)
}

// across is a width across the cloth, before shrinkage.
func (w *worker) across(c *Cloth, of string, r run) *Quantity {
	l, formula, terms := r.length, r.formula, r.terms
	if before := c.beforeWash(l); before != l {
		l, formula, terms = before, "("+formula+") ÷ (1 - {shrinkage})", append(terms, Term{Name: "shrinkage", Value: PercentOf(c.shrinkWidth)})
	}
	return w.put(CutWidth, of, LengthOf(l), length.Up, r.source, formula, terms...)
}

const joinedSource = Common + ": each join takes the allowance from both pieces"

func (w *worker) onePiece(it *Item, whole length.Length) {
	width := w.across(it.Face, "piece", run{
		formula: "{finished width} + 2 × {side hem}",
		terms:   []Term{term(it.FinishedWidth), len1("side hem", it.Sides.Takes)},
		length:  whole, source: Common,
	})
	w.cutPiece(it, "piece", width, 1, 1)
}

func (w *worker) equalPieces(it *Item, whole length.Length) {
	c := it.Face
	a := it.Allowance
	most := w.widestCut(c, a)
	n := int64(1)
	cutOf := func(n int64) length.Length { return (whole + a.Mul(2*(n-1))).Div(n, length.Up) }
	if most <= 2*a {
		return // all seam
	}
	for n < 100 && cutOf(n) > most {
		n++
	}
	if stated := it.Order.Widths.Value; it.Order.Widths.Set && stated.Num > n*max(stated.Den, 1) && stated.Den <= 1 && w.cutsCount(it) == stated.Num {
		n = stated.Num // more pieces than it takes is a choice
	}
	width := w.across(c, "piece", run{
		formula: "({finished width} + 2 × {side hem} + 2 × {seam allowance} × ({pieces} - 1)) ÷ {pieces}",
		terms: []Term{term(it.FinishedWidth), len1("side hem", it.Sides.Takes), len1("seam allowance", a),
			num("pieces", n), num("pieces", n)},
		length: cutOf(n), source: joinedSource,
	})
	it.Joins = n - 1
	visible := cutOf(n) - 2*a // after the first wash
	for i := int64(1); i < n; i++ {
		it.Joined = append(it.Joined, visible.Mul(i)+a-it.Sides.Takes)
	}
	w.cutPiece(it, "piece", width, n, n)
}

// cutsCount is how many pieces the order's cuts state in all.
func (w *worker) cutsCount(it *Item) (n int64) {
	for i := range it.Order.Cuts {
		n += it.Order.Cuts[i].Count.Value
	}
	return n
}

// widestCut is the widest piece with a join on each side that a cloth gives:
// its whole width where the allowance covers the selvedge.
func (w *worker) widestCut(c *Cloth, allowance length.Length) length.Length {
	return c.Washed - 2*(w.joinMargin(c, allowance)-allowance)
}

func (w *worker) centerAndSides(it *Item) {
	c, a := it.Face, it.Allowance
	full := w.widestCut(c, a)
	if full <= 2*a {
		return
	}
	finished, hem := it.FinishedWidth.Value.Length(), it.Sides.Takes
	side := func(center length.Length) length.Length { return (finished-(center-2*a)).Div(2, length.Up) + a + hem }
	center, stated := full, statedCut(it, "center")
	chosen := stated != nil && stated.Width.Set && w.chosenCenter(it, c, stated.Width.Value, full, side)
	if chosen {
		center = stated.Width.Value.MulRatio(one.Sub(c.shrinkWidth), length.Down)
	}
	var centerWidth *Quantity
	switch {
	case chosen:
		centerWidth = w.asStated(CutWidth, "center", LengthOf(stated.Width.Value))
	case full == c.Washed:
		centerWidth = w.put(CutWidth, "center", LengthOf(c.Width), length.Down, Common,
			"{cloth width}", len1("cloth width", c.Width))
	default:
		margin := w.joinMargin(c, a)
		centerWidth = w.put(CutWidth, "center", LengthOf(c.beforeWash(full)), length.Down, Common,
			"{cloth width} - 2 × ({selvedge and cover} - {seam allowance})",
			len1("cloth width", c.Width), len1("selvedge and cover", margin), len1("seam allowance", a))
	}
	it.CenterShows = w.put(CenterShows, "", LengthOf(center-2*a), length.Nearest, joinedSource,
		"{center} - 2 × {seam allowance}", len1("center", center), len1("seam allowance", a))
	sideLength := side(center)
	if sideLength <= 0 && statedCut(it, "side") == nil {
		w.cutPiece(it, "center", centerWidth, 1, 1)
		return
	}
	sideWidth := w.across(c, "side", run{
		formula: "({finished width} - {center shows}) ÷ 2 + {seam allowance} + {side hem}",
		terms:   []Term{term(it.FinishedWidth), via(it.CenterShows), len1("seam allowance", a), len1("side hem", hem)},
		length:  sideLength, source: joinedSource,
	})
	it.Joins = 2
	strip := sideLength - a - hem
	it.Joined = append(it.Joined, strip, finished-strip)
	w.cutPiece(it, "center", centerWidth, 1, 3)
	w.cutPiece(it, "side", sideWidth, 2, 3)
}

// chosenCenter reports whether a stated center width is the maker's choice: it is
// narrower than the cloth gives. With sides that fit the full width it is a slip.
func (w *worker) chosenCenter(it *Item, c *Cloth, stated, full length.Length, side func(length.Length) length.Length) bool {
	step := length.Step(w.Unit)
	// Cut edge to edge by an allowance that does not hide the selvedge: what is
	// wrong is the allowance.
	if full < c.Washed && near(stated, c.Width, step) {
		s := statedCut(it, "side")
		return s == nil || !s.Width.Set || near(s.Width.Value, c.beforeWash(side(c.Washed)), step)
	}
	after := stated.MulRatio(one.Sub(c.shrinkWidth), length.Down)
	if after >= full || near(after, full, step) || after <= 2*it.Allowance {
		return false
	}
	s := statedCut(it, "side")
	if s == nil || !s.Width.Set {
		return true
	}
	if near(s.Width.Value, c.beforeWash(side(full)), step) {
		return false
	}
	return true
}

// statedCut is the order's cut of that piece, or nil.
func statedCut(it *Item, piece string) *order.Cut {
	for i := range it.Order.Cuts {
		if samePiece(it.Order.Cuts[i].Piece.Value, piece) {
			return &it.Order.Cuts[i]
		}
	}
	return nil
}

// samePiece reports whether the form's two words can mean the same piece.
func samePiece(stated, piece string) bool {
	if stated == piece {
		return true
	}
	return (stated == "width" || stated == "piece") && (piece == "piece" || piece == "width")
}

// cutPiece adds a piece of the face cloth and compares what the order's cuts
// say of it.
func (w *worker) cutPiece(it *Item, name string, width *Quantity, count, widths int64) {
	n := w.put(PieceCount, name, CountOf(count), length.Nearest, Common, "")
	p := Piece{Name: name, Cloth: it.Face, Width: width, Length: it.CutLength, Count: n}
	if it.Face.Repeat == 0 {
		p.or.lengths = w.rounder(it.CutLength)
	}
	w.piece(it, p, widths, it.WastePerCut)
	w.compareCuts(it, &p)
}

// compareCuts compares every stated cut of a piece.
func (w *worker) compareCuts(it *Item, p *Piece) {
	for i := range it.Order.Cuts {
		c := &it.Order.Cuts[i]
		if !samePiece(c.Piece.Value, p.Name) || c.Cloth.Set && p.Cloth != nil && c.Cloth.Value != p.Cloth.Name {
			continue
		}
		w.piecing = p
		w.compareLength(p.Width, &c.Width, p.or.widths...)
		w.compareLength(p.Length, &c.Length, p.or.lengths...)
		switch {
		case p.half == nil:
			w.compareCount(p.Count, &c.Count)
		case c.Width.Set && isHalf(c.Width.Value, p.Cloth.Width):
			w.compareCount(p.half, &c.Count)
		default:
			w.compareCount(p.whole, &c.Count)
		}
		w.piecing = nil
	}
}
