package worksheet

import (
	"slices"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/order"
)

// curtain works out a gathered or pleated hanging of one panel or more.
func (w *worker) curtain(it *Item) {
	o := it.Order
	it.Panels = max(1, valueOr(o.Panels, 2))
	if style := o.Heading.Style.Value; style != "" {
		it.Heading = w.Tables.Heading(style)
	}
	where := "floor"
	if to := o.Hang.To.Value; to == "sill" || to == "below sill" {
		where = "sill"
	}
	if it.Face != nil && it.Face.Class != nil && it.Face.Class.Name == "sheer" {
		where = "sheer"
	}
	it.Bottom = w.hem(&o.Hems.Bottom, "curtain", "bottom", where)
	it.Sides = w.hem(&o.Hems.Sides, "curtain", "sides", "")
	it.Top = Hem{Order: &o.Hems.Top, Folds: 2}
	if o.Hems.Top.Set {
		it.Top = w.hem(&o.Hems.Top, "curtain", "top", "")
	}
	w.hemAllowances(&o.Hems)
	w.seam(it)
	w.lengthFromWindow(it)
	if it.FinishedLength != nil {
		top, name := it.topAllowance()
		w.faceCut(it, top, name)
	}
	w.gathered(it)
	w.backing(it)
	w.heading(it)
	w.hanging(it)
	w.sewing(it)
	if it.Widths != nil && w.Tables.House.StackPerWidth > 0 {
		it.StackBack = w.put(StackBack, "", LengthOf(w.Tables.House.StackPerWidth.MulRatio(it.Widths.Value.R, length.Up)), length.Nearest,
			"Measuring for stackback, 2008: 5 to 6 in for each width of cloth",
			"{widths} × {a width stacks to}", term(it.Widths), len1("a width stacks to", w.Tables.House.StackPerWidth))
	}
}

// topDrop is how far a curtain's top edge stands above the level that it hangs
// from: the hooks, where a ring's bore or a pocket rests on the pole. One on tabs
// hangs below it.
func (w *worker) topDrop(it *Item) length.Length {
	o := it.Order
	hangs := ""
	if it.Heading != nil {
		hangs = it.Heading.Hangs
	}
	switch {
	case hangs == "holes" && o.Holes.FromTop.Set:
		bore := o.Holes.Bore.Value
		if o.Holes.Flange.Set {
			bore = min(bore, o.Holes.Flange.Value) // the two may be changed about
		}
		return o.Holes.FromTop.Value - bore/2
	case o.Heading.HookDrop.Set:
		return o.Heading.HookDrop.Value
	case hangs == "tabs" && o.Heading.TabDrop.Set:
		return -o.Heading.TabDrop.Value
	case hangs == "pocket" && o.Heading.Header.Set:
		return o.Heading.Header.Value
	}
	return w.Tables.House.HookDrop
}

// dropUnsaid reports whether the order does not say how far a curtain's top edge
// is from the level that it hangs from. A stated length may then be right for
// any distance that headings have.
func (w *worker) dropUnsaid(it *Item) bool {
	o := it.Order
	if it.Heading == nil || o.Heading.HookDrop.Set {
		return false
	}
	switch it.Heading.Hangs {
	case "holes":
		return !o.Holes.FromTop.Set
	case "tabs":
		return !o.Heading.TabDrop.Set
	case "pocket":
		return !o.Heading.Header.Set
	}
	return true
}

// cutSaysLength reports whether the stated cut is right for the one finished
// length and not for the other.
func (w *worker) cutSaysLength(it *Item, one, other length.Length) bool {
	c := statedCut(it, "width")
	if c == nil || !c.Length.Set {
		return false
	}
	top, _ := it.topAllowance()
	fits := func(l length.Length) bool {
		return near(c.Length.Value, w.cutOf(it.Face, l+top+it.Bottom.Takes), length.Step(w.Unit))
	}
	return fits(one) && !fits(other)
}

// lengthFromWindow works out the finished length from the window where the
// order says where the foot comes to, and takes the stated one otherwise.
func (w *worker) lengthFromWindow(it *Item) {
	o, house := it.Order, &w.Tables.House
	stated := &o.Finished.Length
	top := w.topDrop(it)
	defer func() {
		if it.FinishedLength != nil {
			w.footGap(it, o.Track.AboveFloor, top)
		}
	}()
	level, to := o.Track.AboveFloor, valueOr(o.Hang.To, "floor")
	if to == "sill" || to == "below sill" {
		level = o.Track.AboveSill
	}
	if !level.Set || stated.Set && !o.Hang.To.Set {
		if stated.Set {
			it.FinishedLength = w.asStated(FinishedLength, "", LengthOf(stated.Value))
		}
		return
	}
	clearance, sign, what := valueOr(o.Hang.Clearance, house.Clearance), length.Length(-1), "clearance"
	switch to {
	case "below sill":
		clearance, sign, what = valueOr(o.Hang.Clearance, house.BelowSill), 1, "below the sill"
	case "puddle":
		clearance, sign, what = valueOr(o.Hang.Clearance, house.Puddle), 1, "on the floor"
	}
	l := level.Value + top + sign*clearance
	if l <= 0 {
		return
	}
	if stated.Set && w.dropUnsaid(it) && !w.cutSaysLength(it, l, stated.Value) {
		over := stated.Value - l
		if hangsTabs := it.Heading != nil && it.Heading.Hangs == "tabs"; hangsTabs {
			over = -over
		} else if sign < 0 {
			over = stated.Value - level.Value
		}
		if over > 0 && over <= 6*length.Inch {
			it.FinishedLength = w.asStated(FinishedLength, "", LengthOf(stated.Value))
			return
		}
	}
	// Clearances in print run from 3/8 in to 1 in, so without one of the order's
	// own a length within those is the maker's choice.
	if !o.Hang.Clearance.Set && stated.Set {
		gap := level.Value + top - stated.Value
		if what != "clearance" || gap >= length.Inch*3/8 && gap <= length.Inch {
			it.FinishedLength = w.asStated(FinishedLength, "", LengthOf(stated.Value))
			return
		}
	}
	op := " - "
	if sign > 0 {
		op = " + "
	}
	formula, terms := withDrop("{hook level}", []Term{len1("hook level", level.Value)}, top)
	it.FinishedLength = w.put(FinishedLength, "", LengthOf(l), length.Down,
		"Inweave Fabric and RLF Home, measuring pages: 1/2 in clear", formula+op+"{"+what+"}", append(terms, len1(what, clearance))...)
	w.compareLength(it.FinishedLength, stated)
}

// topAllowance is the cloth above the finished top: the heading's allowance, or
// what the top hem takes.
func (it *Item) topAllowance() (length.Length, string) {
	h := &it.Order.Heading
	switch {
	case h.Allowance.Set:
		return h.Allowance.Value, "heading allowance"
	case it.Order.Hems.Top.Set:
		return it.Top.Takes, "top hem"
	case it.Heading != nil:
		return it.Heading.Allowance, "heading allowance"
	}
	return 0, "heading allowance"
}

// fullness is the order's, or what is usual for the heading.
func (it *Item) fullness() length.Ratio {
	if f := it.Order.Heading.Fullness; f.Set {
		return f.Value
	}
	if it.Heading != nil {
		return it.Heading.Usual
	}
	return length.Ratio{}
}

// gathered works out the widths of cloth that go into the panels.
func (w *worker) gathered(it *Item) {
	o := it.Order
	w.finishedWidth(it)
	f := it.fullness()
	if it.FinishedWidth == nil || f.IsZero() {
		return
	}
	w.flatWidth(it, f)
	it.Usable = w.usable(it.Face, it.Allowance, "")
	if it.Usable == nil {
		return
	}
	per := length.RatioOf(it.FlatWidth.Value.Length(), it.Usable.Value.Length()).Quo(length.NewRatio(it.Panels, 1))
	const src = "Contract Decor, Calculating Drapery Yardage: whole and half widths only"
	it.WidthsExact = w.put(WidthsExact, "", RatioOf(per.Mul(length.NewRatio(it.Panels, 1))), length.Nearest, src,
		"{flat width} ÷ {usable width}", via(it.FlatWidth), via(it.Usable))
	up := per.Mul(length.NewRatio(2, 1)).Int(length.Up)
	halves := w.chosenHalves(it, per, up)
	if halves <= 0 {
		return
	}
	panel := length.NewRatio(halves, 2)
	if halves == up {
		it.WidthsPerPanel = w.put(WidthsPerPanel, "", RatioOf(panel), length.Up, src,
			"rounded up to a half ({widths before rounding} ÷ {panels})", via(it.WidthsExact), num("panels", it.Panels))
	} else {
		it.WidthsPerPanel = w.put(WidthsPerPanel, "", RatioOf(panel), length.Up, "the order", "")
	}
	it.Widths = w.put(Widths, "", RatioOf(panel.Mul(length.NewRatio(it.Panels, 1))), length.Up, src,
		"{widths in a panel} × {panels}", via(it.WidthsPerPanel), num("panels", it.Panels))
	it.Joins = panel.Int(length.Up) - 1
	w.panelWidth(it, panel)
	w.compareRatio(it.Widths, &o.Widths)
	if it.Face.Width > 0 {
		width := w.put(CutWidth, "width", LengthOf(it.Face.Width), length.Nearest, Common, "{cloth width}", len1("cloth width", it.Face.Width))
		w.lengths(it, "width", it.Face, width, it.CutLength, it.Widths, it.WastePerCut, asRight{widths: w.trimmed(it, it.Face, it.FlatWidth.Value.Length())})
	}
}

// trimmed is what a cut of one width to a panel comes to where it is cut no wider
// than it is needed.
func (w *worker) trimmed(it *Item, c *Cloth, flat ...length.Length) (list []length.Length) {
	for _, l := range flat {
		if each := c.beforeWash(l.Div(it.Panels, length.Up)); each < c.Width {
			list = append(list, each)
		}
	}
	return list
}

// lengths adds the lengths to cut of one cloth: the widths, up to whole ones.
func (w *worker) lengths(it *Item, piece string, c *Cloth, width, cutLength, widths, waste *Quantity, or asRight) {
	n := widths.Value.R.Int(length.Up)
	count := w.put(PieceCount, piece, CountOf(n), length.Up, "Contract Decor, Calculating Drapery Yardage: whole lengths are cut",
		"rounded up ({widths})", Term{Name: "widths", Value: widths.Value, via: widths})
	p := Piece{Name: piece, Cloth: c, Width: width, Length: cutLength, Count: count}
	w.piece(it, p, max(it.Joins+1, 1), waste)
	p.or = or
	if c.Repeat == 0 { // more than whole repeats is no rounding
		p.or.lengths = append(p.or.lengths, w.rounder(cutLength)...)
	}
	if halves := widths.Value.R.Quo(length.NewRatio(it.Panels, 1)).Mul(length.NewRatio(2, 1)).Int(length.Up); halves%2 == 1 && w.splits(it, &p) {
		p.or.widths = append(p.or.widths, c.Width/2)
		p.whole = w.put(PieceCount, "whole "+piece, CountOf(halves/2*it.Panels), length.Nearest, Common,
			"{whole widths in a panel} × {panels}", num("whole widths in a panel", halves/2), num("panels", it.Panels))
		p.half = w.put(PieceCount, "half "+piece, CountOf(it.Panels), length.Nearest, Common, "{panels}", num("panels", it.Panels))
	}
	w.compareCuts(it, &p)
}

// splits reports whether the order's cuts name whole and half widths of a piece
// one by one.
func (w *worker) splits(it *Item, p *Piece) bool {
	whole, half := false, false
	for i := range it.Order.Cuts {
		k := &it.Order.Cuts[i]
		if !samePiece(k.Piece.Value, p.Name) || k.Cloth.Set && k.Cloth.Value != p.Cloth.Name || !k.Width.Set {
			continue
		}
		whole = whole || near(k.Width.Value, p.Cloth.Width, length.Step(w.Unit))
		half = half || isHalf(k.Width.Value, p.Cloth.Width)
	}
	return whole && half
}

// isHalf reports whether a cut is half a width of cloth wide.
func isHalf(cut, cloth length.Length) bool { return near(cut, cloth/2, length.Millimetre) }

// asRight are sizes of a cut that are as right as the worked ones.
type asRight struct{ widths, lengths []length.Length }

// rounder is a length up to a rounder one: to the quarter and the whole inch, to
// half and whole centimetres. What is rounded off is trimmed at the table.
func (w *worker) rounder(q *Quantity) []length.Length {
	if q == nil {
		return nil
	}
	l, unit := q.Value.Length(), length.Inch
	if w.Unit.Metric() {
		unit = length.Centimetre
	}
	part := unit / 4
	if w.Unit.Metric() {
		part = unit / 2
	}
	return []length.Length{l.Round(part, length.Up), l.Round(unit, length.Up)}
}

// finishedWidth works out what the panels cover: the track, the overlap and the
// returns; without a track it is as stated.
func (w *worker) finishedWidth(it *Item) {
	o := it.Order
	stated := &o.Finished.Width
	if !o.Track.Width.Set {
		if stated.Set {
			it.FinishedWidth = w.asStated(FinishedWidth, "", LengthOf(stated.Value))
		}
		return
	}
	l := o.Track.Width.Value + o.Track.Return.Value.Mul(2)
	formula, terms := "{track}", []Term{len1("track", o.Track.Width.Value)}
	if o.Track.Overlap.Set && it.Panels > 1 {
		l += o.Track.Overlap.Value
		formula, terms = formula+" + {overlap}", append(terms, len1("overlap", o.Track.Overlap.Value))
	}
	if o.Track.Return.Set {
		formula, terms = formula+" + 2 × {return}", append(terms, len1("return", o.Track.Return.Value))
	}
	it.FinishedWidth = w.put(FinishedWidth, "", LengthOf(l), length.Nearest, "Contract Decor, Calculating Drapery Yardage", formula, terms...)
	w.compareLength(it.FinishedWidth, stated)
}

// flatWidth works out the cloth that the fullness takes, with the side hems.
func (w *worker) flatWidth(it *Item, f length.Ratio) {
	o := it.Order
	sides := it.Sides.Takes.Mul(2 * it.Panels)
	returns := o.Track.Return.Value.Mul(2)
	covered := it.FinishedWidth.Value.Length() - returns
	custom := valueOr(o.Heading.Returns, w.Tables.House.Returns)
	if o.FlatWidth.Set && !o.Heading.Returns.Set { // it tells which
		with, after := covered.MulRatio(f, length.Up)+returns.MulRatio(f, length.Up)+sides, covered.MulRatio(f, length.Up)+returns+sides
		switch step := length.Step(w.Unit); {
		case near(o.FlatWidth.Value, after, step):
			custom = "after fullness"
		case near(o.FlatWidth.Value, with, step):
			custom = "with fullness"
		}
	}
	if custom == "after fullness" && o.Track.Width.Set && returns > 0 {
		it.FlatWidth = w.put(FlatWidth, "", LengthOf(covered.MulRatio(f, length.Up)+returns+sides), length.Up,
			"eHow UK, How to calculate the amount of fabric needed for curtains",
			"({finished width} - 2 × {return}) × {fullness} + 2 × {return} + {side hems}",
			term(it.FinishedWidth), len1("return", o.Track.Return.Value), rat("fullness", f),
			len1("return", o.Track.Return.Value), len1("side hems", sides))
	} else {
		it.FlatWidth = w.put(FlatWidth, "", LengthOf(it.FinishedWidth.Value.Length().MulRatio(f, length.Up)+sides), length.Up,
			"Contract Decor, Calculating Drapery Yardage", "{finished width} × {fullness} + {side hems}",
			term(it.FinishedWidth), rat("fullness", f), len1("side hems", sides))
	}
	w.compareLength(it.FlatWidth, &o.FlatWidth, w.rounder(it.FlatWidth)...)
}

// chosenHalves is the number of half widths in a panel. A stated number of
// widths is the maker's choice where the cuts, if they are stated, agree with it
// and it is a little scant, four in place of 4.08, or makes a half width whole.
func (w *worker) chosenHalves(it *Item, per length.Ratio, halves int64) int64 {
	stated, cuts := it.Order.Widths, cutCount(it, "width", it.Face)
	whole := halves + halves%2
	if !stated.Set {
		if cuts == whole/2*it.Panels && w.takesUp(it, whole) {
			return whole
		}
		return halves
	}
	want := stated.Value.Mul(length.NewRatio(2, it.Panels))
	if want.Den > 1 || want.Num < 1 || cuts > 0 && cuts != stated.Value.Int(length.Up) {
		return halves
	}
	if want.Num == whole && w.takesUp(it, whole) || want.Num < halves && w.scant(per, length.NewRatio(want.Num, 2)) {
		return want.Num
	}
	return halves
}

// takesUp reports whether a panel may have so many half widths, more than its
// fullness asks for: the length that the other half is cut from is cut anyway, or
// the heading takes up the fullness that they make.
func (w *worker) takesUp(it *Item, halves int64) bool {
	if it.Panels == 1 {
		return true
	}
	if it.Heading == nil {
		return false
	}
	most := it.Heading.Most
	if it.Face.Class != nil && it.Face.Class.Name == "sheer" {
		most = it.Heading.SheerMost
	}
	flat := it.Usable.Value.Length().MulRatio(length.NewRatio(halves*it.Panels, 2), length.Down) - it.Sides.Takes.Mul(2*it.Panels)
	return length.RatioOf(flat, it.FinishedWidth.Value.Length()).Cmp(most.Add(w.Tables.House.FullnessSlack)) <= 0
}

// cutCount is how many of a piece the order's cuts state; 0 where one of them
// leaves it out, or is half a width.
func cutCount(it *Item, piece string, c *Cloth) (n int64) {
	for i := range it.Order.Cuts {
		k := &it.Order.Cuts[i]
		if !samePiece(k.Piece.Value, piece) || k.Cloth.Set && k.Cloth.Value != c.Name {
			continue
		}
		if !k.Count.Set || k.Width.Set && isHalf(k.Width.Value, c.Width) {
			return 0
		}
		n += k.Count.Value
	}
	return n
}

// scant reports whether so many widths are less than the exact number by no
// more than the house's nearness.
func (w *worker) scant(exact, widths length.Ratio) bool {
	d := exact.Sub(widths)
	return d.Num > 0 && d.Cmp(w.Tables.House.NearWidth) <= 0
}

// NearMiss reports whether the widths of a panel come to just over a number
// that would do with a little less fullness, and that fullness.
func (s *Sheet) NearMiss(it *Item) (widths, fullness length.Ratio, ok bool) {
	if it.WidthsExact == nil || it.Usable == nil || it.FinishedWidth == nil {
		return
	}
	w := worker{Sheet: s}
	panels := length.NewRatio(it.Panels, 1)
	per := it.WidthsExact.Value.R.Quo(panels)
	less := length.NewRatio(per.Mul(length.NewRatio(2, 1)).Int(length.Up)-1, 2)
	if less.Num < 1 || !w.scant(per, less) {
		return
	}
	sides := it.Sides.Takes.Mul(2 * it.Panels)
	flat := it.Usable.Value.Length().MulRatio(less.Mul(panels), length.Down) - sides
	return less.Mul(panels), length.RatioOf(flat, it.FinishedWidth.Value.Length()), true
}

// panelWidth works out how wide one panel is when its widths are joined and its
// sides hemmed, and the fullness that gives.
func (w *worker) panelWidth(it *Item, widths length.Ratio) {
	margin := w.joinMargin(it.Face, it.Allowance)
	width := min(it.Face.Washed, it.Usable.Value.Length()+2*margin) // less what a match across cuts away
	if stated := it.Order.PanelWidth; stated.Set {
		it.PanelWidth = w.asStated(PanelWidth, "", LengthOf(stated.Value))
		w.made(it)
		return
	}
	l := width.MulRatio(widths, length.Down) - margin.Mul(2*it.Joins) - it.Sides.Takes.Mul(2)
	if l <= 0 {
		return
	}
	it.PanelWidth = w.put(PanelWidth, "", LengthOf(l), length.Nearest, Common,
		"{widths in a panel} × {cloth width} - 2 × {seam allowance} × {joins} - 2 × {side hem}",
		term(it.WidthsPerPanel), len1("cloth width", width), len1("seam allowance", margin), num("joins", it.Joins),
		len1("side hem", it.Sides.Takes))
	w.made(it)
	seam := width - it.Sides.Takes - margin
	for i := int64(0); i < it.Joins; i++ {
		it.Joined = append(it.Joined, seam)
		seam += width - 2*margin
	}
}

// made works out the fullness that the made-up panels give.
func (w *worker) made(it *Item) {
	if it.FinishedWidth.Value.Length() <= 0 {
		return
	}
	it.Fullness = w.put(Fullness, "", RatioOf(length.RatioOf(it.PanelWidth.Value.Length().Mul(it.Panels), it.FinishedWidth.Value.Length())), length.Nearest,
		"Decorating Basics, Fullness and what it means", "{panel width, flat} × {panels} ÷ {finished width}",
		via(it.PanelWidth), num("panels", it.Panels), term(it.FinishedWidth))
}

// backing works out the lining and the interlining.
func (w *worker) backing(it *Item) {
	o := it.Order
	house := &w.Tables.House
	if o.Lining.Set {
		c := w.Cloth(o.Lining.Cloth.Value)
		w.hemAllowance(&o.Lining.Hem, "lining")
		it.LiningHem = w.hem(&o.Lining.Hem, "curtain", "lining", "")
		narrower := valueOr(o.Lining.Narrower, house.LiningNarrower)
		w.behind(it, behind{
			piece: "lining", cut: LiningCut, widths: LiningWidths, cloth: c, hem: it.LiningHem.Takes, stated: &o.Lining.Widths,
			shorter: valueOr(o.Lining.Shorter, house.LiningShorter), narrower: narrower.Mul(it.Panels), less: "narrower",
		})
	}
	if o.Interlining.Set {
		w.behind(it, behind{
			piece: "interlining", cut: InterliningCut, widths: InterliningWidths, cloth: w.Cloth(o.Interlining.Cloth.Value),
			stated: &o.Interlining.Widths, shorter: o.Interlining.Shorter.Value, narrower: it.Sides.Takes.Mul(2 * it.Panels), less: "side hems",
		})
	}
}

// behind is a layer behind the face cloth.
type behind struct {
	piece       string
	cut, widths Name
	cloth       *Cloth
	hem         length.Length
	shorter     length.Length
	narrower    length.Length // all panels
	less        string        // what the narrower is called
	stated      *order.Ratio
}

func (w *worker) behind(it *Item, b behind) {
	if b.cloth == nil || it.FinishedLength == nil {
		return
	}
	l := it.FinishedLength.Value.Length() - b.shorter + b.hem
	formula, terms := "{finished length} - {shorter}", []Term{term(it.FinishedLength), len1("shorter", b.shorter)}
	if b.hem > 0 {
		formula, terms = formula+" + {its hem}", append(terms, len1("its hem", b.hem))
	}
	_, _, cutq, waste := w.cutLength(b.cloth, b.cut, "", run{formula: formula, terms: terms, length: l, source: Common})
	if cutq == nil {
		return
	}
	if b.piece == "lining" {
		it.LiningCut = cutq
	} else {
		it.InterliningCut = cutq
	}
	usable := w.usable(b.cloth, it.Allowance, b.piece)
	if usable == nil || it.FlatWidth == nil {
		return
	}
	flat := it.FlatWidth.Value.Length() - b.narrower
	if flat <= 0 {
		return
	}
	panels := length.NewRatio(it.Panels, 1)
	halves := length.RatioOf(flat, usable.Value.Length()).Quo(panels).Mul(length.NewRatio(2, 1)).Int(length.Up)
	chosen := w.backingHalves(it, &b, halves)
	widths := w.put(b.widths, "", RatioOf(length.NewRatio(chosen, 2).Mul(panels)), length.Up, "the order", "")
	if chosen == halves {
		widths.Source, widths.Formula = Common, "rounded up to a half (({flat width} - {"+b.less+"}) ÷ {usable width} ÷ {panels}) × {panels}"
		widths.Terms = []Term{via(it.FlatWidth), len1(b.less, b.narrower), via(usable), num("panels", it.Panels), num("panels", it.Panels)}
	}
	w.compareRatio(widths, b.stated)
	if b.piece == "lining" {
		it.LiningWidths = widths
	} else {
		it.InterliningWidths = widths
	}
	width := w.put(CutWidth, b.piece, LengthOf(b.cloth.Width), length.Nearest, Common, "{cloth width}", len1("cloth width", b.cloth.Width))
	w.lengths(it, b.piece, b.cloth, width, cutq, widths, waste, asRight{
		widths:  w.trimmed(it, b.cloth, flat, flat-it.Sides.Takes.Mul(2*it.Panels)),
		lengths: w.backingLengths(it, &b, l),
	})
}

// backingHalves is the number of half widths of a layer in a panel. As many as
// the face has are the maker's choice, and so is a single panel's half width made
// whole: the length that the other half is cut from is cut anyway.
func (w *worker) backingHalves(it *Item, b *behind, halves int64) int64 {
	others := [2]int64{halves, halves}
	if it.Panels == 1 {
		others[0] += halves % 2
	}
	if it.WidthsPerPanel != nil {
		others[1] = it.WidthsPerPanel.Value.R.Mul(length.NewRatio(2, 1)).Int(length.Up)
	}
	cuts := cutCount(it, b.piece, b.cloth)
	for _, n := range others {
		widths := length.NewRatio(n*it.Panels, 2)
		whole := widths.Int(length.Up)
		switch {
		case n <= halves:
		case b.stated.Set && b.stated.Value.Cmp(widths) == 0 && (cuts == 0 || cuts == whole):
			return n
		case !b.stated.Set && cuts == whole && whole > length.NewRatio(halves*it.Panels, 2).Int(length.Up):
			return n
		}
	}
	return halves
}

// backingLengths are lengths that a layer is cut to in other workrooms: a lining
// that runs up into the heading, an interlining that lies in the hem or in the
// heading, or is cut like the lining, where the order does not say how much
// shorter it is.
func (w *worker) backingLengths(it *Item, b *behind, run length.Length) (list []length.Length) {
	top, _ := it.topAllowance()
	if b.piece == "lining" {
		return []length.Length{w.cutOf(b.cloth, run+top)}
	}
	if it.Order.Interlining.Shorter.Set {
		return nil
	}
	for _, more := range [...]length.Length{it.Bottom.Turn, it.Bottom.Takes, top, top + it.Bottom.Turn, top + it.Bottom.Takes} {
		list = append(list, w.cutOf(b.cloth, run+more))
	}
	if it.LiningCut != nil {
		list = append(list, it.LiningCut.Value.Length())
	}
	return list
}

// heading works out what is spaced along the top: holes, pleats, tabs, or the
// height of a rod pocket.
func (w *worker) heading(it *Item) {
	if it.Heading == nil {
		return
	}
	switch {
	case it.Heading.Hangs == "holes" && it.Order.Holes.Set && it.PanelWidth != nil:
		w.holesOver(it, it.PanelWidth, w.Tables.House.Pitch)
		w.slit(it)
	case it.Heading.Hangs == "pocket":
		w.pocket(it)
	case it.Heading.Hangs == "tabs":
		w.tabs(it)
	case it.Heading.Pleats:
		w.pleats(it)
	}
}

// pi is within a ten-millionth of the ratio of circumference to diameter.
var pi = length.NewRatio(355, 113)

// pocket works out the height of a rod pocket, flat: half the circumference
// and ease, not the diameter.
func (w *worker) pocket(it *Item) {
	h := &it.Order.Heading
	d := it.Order.Track.Diameter
	if !d.Set {
		return
	}
	ease := valueOr(h.Ease, w.Tables.House.PocketEase)
	around := d.Value.MulRatio(pi, length.Up)
	it.PocketHeight = w.put(PocketHeight, "", LengthOf((around+ease).Div(2, length.Up)), length.Up,
		"98905 household articles, Rod pocket height", "({rod diameter} × {π} + {ease}) ÷ 2",
		len1("rod diameter", d.Value), rat("π", pi), len1("ease", ease))
	if h.Pocket.Set && h.Pocket.Value < it.PocketHeight.Value.Length() { // a roomier pocket is a choice
		w.compareLength(it.PocketHeight, &h.Pocket)
	}
}

// tabs works out the tabs of a panel: one at each edge, and the gaps between.
func (w *worker) tabs(it *Item) {
	h := &it.Order.Heading
	if it.PanelWidth == nil || !h.TabWidth.Set {
		return
	}
	count := h.Tabs.Value
	if w.Tables.House.TabGap.Most+h.TabWidth.Value <= 0 {
		return
	}
	switch {
	case !h.Tabs.Set && h.Gap.Set:
		return // the gap says how many; nothing speaks against it
	case h.Tabs.Set:
		it.TabCount = w.asStated(TabCount, "", CountOf(count))
	default:
		most := w.Tables.House.TabGap.Most
		count = length.CeilDiv(it.PanelWidth.Value.Length()-h.TabWidth.Value, h.TabWidth.Value+most) + 1
		it.TabCount = w.put(TabCount, "", CountOf(count), length.Up, w.Tables.SelfSource("tab_gap"),
			"rounded up (({panel width, flat} - {tab width}) ÷ ({tab width} + {widest gap})) + 1",
			via(it.PanelWidth), len1("tab width", h.TabWidth.Value), len1("tab width", h.TabWidth.Value), len1("widest gap", most))
	}
	l := it.PanelWidth.Value.Length() - h.TabWidth.Value.Mul(count)
	if l <= 0 || count < 2 {
		return
	}
	it.TabGap = w.put(TabGap, "", LengthOf(l.Div(count-1, length.Nearest)), length.Nearest,
		"Singer Sewing for the Home, casings and tabs: one at each edge",
		"({panel width, flat} - {tabs} × {tab width}) ÷ ({tabs} - 1)",
		via(it.PanelWidth), num("tabs", count), len1("tab width", h.TabWidth.Value), num("tabs", count))
	// On a panel cut down to the width that its fullness asks for they are less.
	l = it.FlatWidth.Value.Length().Div(it.Panels, length.Nearest) - it.Sides.Takes.Mul(2) - h.TabWidth.Value.Mul(count)
	w.compareLength(it.TabGap, &h.Gap, l.Div(count-1, length.Nearest))
}

const pleatSource = "Singer Sewing for the Home, pleats: one more pleat than spaces"

// pleats works out the pleats between the overlap and the return of a panel:
// one more than the spaces. Count and spacing over-determine the width, like
// holes.
func (w *worker) pleats(it *Item) {
	h, t := &it.Order.Heading, &it.Order.Track
	if it.FinishedWidth == nil {
		return
	}
	whole := it.FinishedWidth.Value.Length().Div(it.Panels, length.Nearest)
	span, formula, terms := whole, "{finished panel}", []Term{len1("finished panel", whole)}
	if t.Width.Set {
		span = t.Width.Value.Div(it.Panels, length.Nearest)
		formula, terms = "{track} ÷ {panels}", []Term{len1("track", t.Width.Value), num("panels", it.Panels)}
	}
	gap := w.Tables.House.PleatGap
	middle := (gap.Least + gap.Most).Div(2, length.Nearest)
	if span <= 0 || middle <= 0 {
		return
	}
	spaces := max(1, length.RatioOf(span, middle).Int(length.Nearest))
	count, chosen := h.Pleats.Value, h.Pleats.Set && h.Pleats.Value >= 2
	bySpacing := w.fitting(span, h.Spacing.Value)
	step := length.Step(w.Unit)
	// Spaces counted as pleats: one pleat more makes the stated spacing right.
	if chosen && h.Spacing.Set && bySpacing >= 2 && bySpacing != count &&
		!near(span.Div(count-1, length.Nearest), h.Spacing.Value, step) && w.pleatsBlamed(it, span, count, bySpacing) {
		chosen, spaces = false, bySpacing-1
	} else if !chosen && bySpacing >= 2 {
		spaces = bySpacing - 1
	} else if !chosen && worksFrom(h.Spacing.Value, middle) {
		spaces = max(1, length.RatioOf(span, h.Spacing.Value).Int(length.Nearest))
	}
	if chosen {
		it.PleatCount = w.asStated(PleatCount, "", CountOf(count))
		if h.Spacing.Set { // else nothing speaks against it
			w.compareCount(it.PleatCount, &h.Pleats)
		}
	} else {
		count = spaces + 1
		by, name := middle, "usual spacing"
		if bySpacing == count || worksFrom(h.Spacing.Value, middle) {
			by, name = h.Spacing.Value, "spacing"
		}
		it.PleatCount = w.put(PleatCount, "", CountOf(count), length.Nearest, pleatSource,
			"rounded ("+formula+" ÷ {"+name+"}) + 1", append(slices.Clone(terms), len1(name, by))...)
		w.compareCount(it.PleatCount, &h.Pleats)
	}
	it.PleatSpacing = w.put(PleatSpacing, "", LengthOf(span.Div(count-1, length.Nearest)), length.Nearest, pleatSource,
		formula+" ÷ ({pleats} - 1)", append(terms, num("pleats", count))...)
	w.compareLength(it.PleatSpacing, &h.Spacing)
	if it.PanelWidth == nil || it.PanelWidth.Value.Length() <= whole {
		return
	}
	spare := it.PanelWidth.Value.Length() - whole
	it.TakeUp = w.put(TakeUp, "", LengthOf(spare.Div(count, length.Nearest)), length.Nearest, pleatSource,
		"({panel width, flat} - {finished panel}) ÷ {pleats}", via(it.PanelWidth), len1("finished panel", whole), num("pleats", count))
	// A panel cut down to the width that its fullness asks for takes up less.
	trimmed := it.FlatWidth.Value.Length().Div(it.Panels, length.Nearest) - it.Sides.Takes.Mul(2) - whole
	w.compareLength(it.TakeUp, &h.TakeUp, trimmed.Div(count, length.Nearest))
}

// pleatsBlamed reports whether the count of pleats is wrong rather than their
// spacing: the stated take-up goes with the other count, or nothing tells and
// the spacing is one that pleats have and the count is one off.
func (w *worker) pleatsBlamed(it *Item, span length.Length, stated, bySpacing int64) bool {
	h, gap := &it.Order.Heading, w.Tables.House.PleatGap
	if h.TakeUp.Set && it.PanelWidth != nil {
		spare := it.PanelWidth.Value.Length() - it.FinishedWidth.Value.Length().Div(it.Panels, length.Nearest)
		with := near(spare.Div(bySpacing, length.Nearest), h.TakeUp.Value, length.Step(w.Unit))
		without := near(spare.Div(stated, length.Nearest), h.TakeUp.Value, length.Step(w.Unit))
		if with != without {
			return with
		}
	}
	if s := h.Spacing.Value; s < gap.Least || s > gap.Most {
		return false
	}
	right := span.Div(stated-1, length.Nearest)
	return stated == bySpacing-1 || right < gap.Least || right > gap.Most
}

// Plural is the piece's name for more than one of it.
func Plural(piece string) string {
	if strings.HasSuffix(piece, "s") || strings.HasSuffix(piece, "x") {
		return piece + "es"
	}
	return piece + "s"
}
