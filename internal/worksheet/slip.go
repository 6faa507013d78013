package worksheet

import (
	"slices"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/mass"
)

// A candidate is a number that a known slip would have given.
type candidate struct {
	name    string
	value   Value
	working string
}

// slipOf finds the slip that explains a wrong value: first those of its own
// arithmetic, then those of writing numbers down.
func (w *worker) slipOf(x *Wrong) *Slip {
	for _, c := range w.candidates(x) {
		if sameValue(c.value, x.Stated, w.Unit) && !sameValue(c.value, x.right, w.Unit) {
			return &Slip{Name: c.name, Working: c.working}
		}
	}
	return w.genericSlip(x)
}

// SlipValues are the numbers that known slips would have given for a stated
// outcome: of its own arithmetic first, then of writing numbers down.
func (s *Sheet) SlipValues(of Stated) []Value {
	w := &worker{Sheet: s}
	x := &Wrong{Quantity: of.Quantity, Node: of.Node, piece: of.piece}
	var list []Value
	for _, c := range w.candidates(x) {
		list = append(list, c.value)
	}
	v := of.Quantity.Value
	if v.Sort == Dots {
		return append(list, DotsOf(v.N+1))
	}
	for _, f := range [...]length.Ratio{{Num: 10, Den: 1}, {Num: 1, Den: 10}, {Num: 254, Den: 100}, {Num: 100, Den: 254},
		{Num: 250, Den: 254}, {Num: 254, Den: 250}, {Num: 2, Den: 1}, {Num: 1, Den: 2}} {
		if v.Sort == Ratio {
			list = append(list, RatioOf(v.R.Mul(f)))
		} else if n, ok := length.MulDiv(v.N, f.Num, f.Den, length.Nearest); ok && (v.Sort != Count || n*f.Den == v.N*f.Num) {
			list = append(list, Value{Sort: v.Sort, N: n})
		}
	}
	return list
}

// Print writes v in the manner that the stated outcome is written in.
func (s *Sheet) Print(of Stated, v Value) string { return s.print(of.Node, v, of.Quantity.Round) }

func sameValue(a, b Value, u length.Unit) bool {
	switch {
	case a.Sort != b.Sort:
		return false
	case a.Sort == Length:
		return near(a.Length(), b.Length(), length.Step(u))
	case a.Sort == Ratio:
		d := a.R.Sub(b.R)
		return d.Mul(d).Cmp(length.NewRatio(1, 10_000)) <= 0 // within 0.01, as ratios are written
	case a.Sort == Percent:
		return a.R.Cmp(b.R) == 0
	case a.Sort == Mass:
		d := a.N - b.N
		return max(d, -d)*50 <= max(b.N, -b.N)
	}
	return a.N == b.N
}

// candidates are the numbers that slips in a quantity's own arithmetic give.
func (w *worker) candidates(x *Wrong) []candidate {
	q := x.Quantity
	if q.Item < 0 {
		return w.clothSlips(q)
	}
	it := &w.Items[q.Item]
	switch q.Name {
	case CutLength:
		return w.cutSlips(it)
	case LiningCut, InterliningCut:
		return w.liningSlips(it, q)
	case FinishedLength:
		return w.termSlips(q)
	case CutWidth:
		return append(w.widthSlips(it, q), w.swapped(x)...)
	case FinishedWidth, FlatWidth:
		return w.termSlips(q)
	case Widths, LiningWidths, InterliningWidths, PieceCount:
		return w.widthsSlips(it, q)
	case HoleCount, PleatCount:
		return []candidate{{"the spaces were counted, not the posts between them: there is one more", CountOf(q.Value.N - 1), ""},
			{"one too many was counted", CountOf(q.Value.N + 1), ""}}
	case HoleSpacing:
		return w.spacingSlips(it)
	case PleatSpacing, TakeUp, TabGap:
		return w.pleatSlips(it, q)
	case PocketHeight:
		return w.pocketSlips(it)
	case HemTakes:
		return w.hemSlips(q)
	case HangingMass:
		return w.massSlips(it)
	}
	return nil
}

// cutSlips are the slips of a face's cut length.
func (w *worker) cutSlips(it *Item) (list []candidate) {
	if it.FinishedLength == nil || it.RawCut == nil {
		return nil
	}
	finished := it.FinishedLength.Value.Length()
	top := it.Top.Takes
	if it.Order.Kind.Value == "curtain" {
		top, _ = it.topAllowance()
	}
	bottom := it.Bottom.Takes
	add := func(name string, raw length.Length) {
		if raw <= 0 {
			return
		}
		right := w.cutOf(it.Face, raw)
		list = append(list, candidate{name, LengthOf(right), ""})
		if right != raw && it.Face.Repeat > 0 {
			list = append(list, candidate{name + ", and the repeat was ignored", LengthOf(raw), ""})
		}
	}
	add("the bottom hem was counted once, not "+times2(it.Bottom.Folds), finished+top+it.Bottom.Turn)
	if top == it.Top.Takes {
		add("the top hem was counted once, not "+times2(it.Top.Folds), finished+it.Top.Turn+bottom)
		add("both hems were counted once", finished+it.Top.Turn+it.Bottom.Turn)
	}
	add("the bottom hem was left out", finished+top)
	add("the top was left out", finished+bottom)
	add("hems and heading were left out: this is the finished length", finished)
	add("the bottom hem was added twice over", finished+top+2*bottom)
	return append(list, w.runSlips(it.Face, finished+top+bottom, it.RawCut.Value.Length(), it.Repeats)...)
}

// runSlips are the slips of shrinkage and repeat.
func (w *worker) runSlips(c *Cloth, run, raw length.Length, repeats *Quantity) (list []candidate) {
	if c == nil {
		return nil
	}
	if s := c.shrinkLength; !s.IsZero() {
		list = append(list,
			candidate{"the shrinkage was multiplied on; it has to be divided off: what shrinks is the cut", LengthOf(w.repeated(c, run.MulRatio(one.Add(s), length.Up))), ""},
			candidate{"the shrinkage was left out", LengthOf(w.repeated(c, run)), ""})
	}
	if c.Repeat > 0 {
		n := length.CeilDiv(raw, c.Repeat)
		list = append(list,
			candidate{"the pattern repeat was ignored", LengthOf(raw), ""},
			candidate{"a repeat was added, where the cut is to be rounded up to whole repeats", LengthOf(raw + c.Repeat), ""},
			candidate{"a repeat was added to whole repeats", LengthOf(c.Repeat.Mul(n + 1)), ""},
			candidate{"the repeats were rounded down", LengthOf(c.Repeat.Mul(n - 1)), ""},
			candidate{"the number of repeats was taken for a length", LengthOf(w.Unit.Length().Mul(n)), ""})
	}
	return list
}

// cutOf is a run taken through shrinkage and repeat.
func (w *worker) cutOf(c *Cloth, run length.Length) length.Length {
	if c == nil {
		return run
	}
	if !c.shrinkLength.IsZero() && c.shrinkLength.Cmp(one) < 0 {
		run = run.QuoRatio(one.Sub(c.shrinkLength), length.Up)
	}
	return w.repeated(c, run)
}

func (w *worker) repeated(c *Cloth, run length.Length) length.Length {
	if c.Repeat <= 0 {
		return run
	}
	return c.Repeat.Mul(length.CeilDiv(run, c.Repeat))
}

func times2(folds int64) string {
	switch folds {
	case 2:
		return "twice"
	case 3:
		return "three times"
	}
	return "for each fold"
}

func (w *worker) liningSlips(it *Item, q *Quantity) (list []candidate) {
	list = w.termSlips(q)
	if q.Name == LiningCut {
		if it.LiningHem.Takes > 0 {
			list = append(list, candidate{"its hem was counted once, not " + times2(it.LiningHem.Folds),
				LengthOf(q.Value.Length() - it.LiningHem.Takes + it.LiningHem.Turn), ""})
		}
	}
	if it.CutLength != nil {
		list = append(list, candidate{"it was cut like the face", it.CutLength.Value, ""})
	}
	return list
}

// termSlips are the slips of a sum: each of its terms left out, or put in with
// the wrong sign.
func (w *worker) termSlips(q *Quantity) (list []candidate) {
	for i, t := range q.Terms {
		if i == 0 || t.Value.Sort != Length {
			continue
		}
		at := strings.Index(q.Formula, "{"+t.Name+"}")
		if at < 0 {
			continue
		}
		n := t.Value.N
		before := q.Formula[:at]
		if strings.HasSuffix(before, "2 × ") {
			before = strings.TrimSuffix(before, "2 × ")
			list = append(list, candidate{t.Name + " was counted once, not twice", LengthOf(q.Value.Length() - length.Length(n)), ""})
			n *= 2
		}
		if strings.HasSuffix(before, "- ") {
			n = -n
		} else if !strings.HasSuffix(before, "+ ") {
			continue
		}
		list = append(list,
			candidate{t.Name + " was left out", LengthOf(q.Value.Length() - length.Length(n)), ""},
			candidate{t.Name + " went in with the wrong sign", LengthOf(q.Value.Length() - 2*length.Length(n)), ""})
	}
	if q.Name == FlatWidth && w.Items[q.Item].FinishedWidth != nil {
		list = append(list, candidate{"the fullness was left out", w.Items[q.Item].FinishedWidth.Value, ""})
	}
	return list
}

func (w *worker) widthSlips(it *Item, q *Quantity) (list []candidate) {
	if it.FinishedWidth == nil || it.Face == nil {
		return nil
	}
	finished, hem, a := it.FinishedWidth.Value.Length(), it.Sides.Takes, it.Allowance
	l := q.Value.Length()
	add := func(name string, l length.Length, working string) {
		if l > 0 {
			list = append(list, candidate{name, LengthOf(it.Face.beforeWash(l)), working})
		}
	}
	switch q.Of {
	case "side":
		short := (finished-it.Face.Washed).Div(2, length.Up) + hem + a
		add("the center panel's own two allowances were forgotten", short,
			w.figure("({finished width} - {cloth width}) ÷ 2 + {side hem} + {allowance}", short,
				finished, it.Face.Washed, hem, a))
		if it.CenterShows != nil {
			shows := it.CenterShows.Value.Length()
			each := (finished - shows).Div(2, length.Up)
			add("the side hem was left out", each+a, "")
			add("the side hem was counted once, not "+times2(it.Sides.Folds), each+a+it.Sides.Turn, "")
			add("the seam allowance was left out", each+hem, "")
			add("seam allowance and hem were left out", each, "")
			add("it was not halved: this is for both sides", (finished-shows)+a+hem, "")
			add("the seam allowance was added twice", each+2*a+hem, "")
		}
	case "piece":
		n := it.Joins + 1
		add("the side hems were left out", l-hem.Mul(2).Div(n, length.Up), "")
		add("one side hem was left out", l-hem.Div(n, length.Up), "")
		if it.Joins > 0 {
			add("the seam allowances were left out", (finished+2*hem).Div(n, length.Up), "")
			add("each join takes the allowance from both pieces; one was counted", (finished+2*hem+a.Mul(it.Joins)).Div(n, length.Up), "")
			add("a join was counted for every piece; there is one less", (finished+2*hem+a.Mul(2*n)).Div(n, length.Up), "")
			add("it was divided by the joins, not the pieces", (finished+2*hem+a.Mul(2*it.Joins)).Div(it.Joins, length.Up), "")
		}
		add("hems and seams were left out: this is the finished width", finished, "")
	default:
		if it.Usable != nil {
			list = append(list, candidate{"this is the usable width; the cloth is cut edge to edge", it.Usable.Value, ""})
		}
		add("half of it: a width is split after it is cut to length", l.Div(2, length.Up), "")
	}
	return list
}

// figure is a slip's own arithmetic with the numbers in.
func (w *worker) figure(formula string, result length.Length, numbers ...length.Length) string {
	q := Quantity{Formula: formula, Value: LengthOf(result), Round: length.Nearest}
	for _, n := range numbers {
		q.Terms = append(q.Terms, Term{Value: LengthOf(n)})
	}
	return q.Figures(w.Unit)
}

// swapped is a piece's length written for its width, or the reverse.
func (w *worker) swapped(x *Wrong) []candidate {
	if x.piece == nil || x.piece.Length == nil {
		return nil
	}
	return []candidate{{sidesSwapped, x.piece.Length.Value, ""}}
}

func (w *worker) widthsSlips(it *Item, q *Quantity) (list []candidate) {
	v := q.Value.R
	if q.Value.Sort == Count {
		v = length.NewRatio(q.Value.N, 1)
	}
	add := func(name string, r length.Ratio) {
		if q.Value.Sort == Count {
			if r.Den > 1 {
				return
			}
			list = append(list, candidate{name, CountOf(r.Num), ""})
			return
		}
		list = append(list, candidate{name, RatioOf(r), ""})
	}
	panels := length.NewRatio(it.Panels, 1)
	if it.Panels > 1 {
		add("this is for one panel; the order makes "+panels.Format(0), v.Quo(panels))
		add("the panels were counted twice", v.Mul(panels))
	}
	if it.Quantity > 1 {
		many := length.NewRatio(it.Quantity, 1)
		add("this is for all of them; cuts are for one", v.Mul(many))
	}
	if it.WidthsExact != nil && q.Name != PieceCount {
		exact := it.WidthsExact.Value.R
		add("the widths were not rounded up", exact)
		add("the widths were rounded down", length.NewRatio(exact.Int(length.Down), 1))
		if it.FlatWidth != nil && it.Face != nil {
			full := length.RatioOf(it.FlatWidth.Value.Length(), it.Face.Width).Mul(length.NewRatio(2, 1)).Int(length.Up)
			add("selvedge and seams were not taken off the cloth", length.NewRatio(full, 2))
		}
	}
	add("it was rounded down", v.Sub(one))
	return list
}

func (w *worker) spacingSlips(it *Item) (list []candidate) {
	n := int64(len(it.Holes))
	over := it.FinishedWidth
	if it.Heading != nil {
		over = it.PanelWidth
	}
	if over == nil || n < 2 {
		return nil
	}
	return spacingCandidates(over.Value.Length(), it.Holes[0], n)
}

// spacingCandidates are the spacings that slips give for so many holes on a width.
func spacingCandidates(width, inset length.Length, n int64) []candidate {
	span := width - 2*inset
	return []candidate{
		{"it was divided by the holes; there is one space less", LengthOf(span.Div(n, length.Nearest)), ""},
		{"the inset was left out", LengthOf(width.Div(n-1, length.Nearest)), ""},
		{"the inset was taken off once, not twice", LengthOf((width - inset).Div(n-1, length.Nearest)), ""},
		{"the inset was left out, and it was divided by the holes", LengthOf(width.Div(n, length.Nearest)), ""},
	}
}

func (w *worker) pleatSlips(it *Item, q *Quantity) (list []candidate) {
	n := int64(0)
	switch {
	case q.Name == TabGap && it.TabCount != nil:
		n = it.TabCount.Value.N
	case it.PleatCount != nil:
		n = it.PleatCount.Value.N
	}
	if n < 2 {
		return nil
	}
	l := q.Value.Length()
	if q.Name == TakeUp {
		list = append(list, candidate{"it was divided by the spaces; there is one pleat more", LengthOf(l.Mul(n).Div(n-1, length.Nearest)), ""})
		if it.PanelWidth != nil {
			list = append(list, candidate{"the finished width was not taken off", LengthOf(it.PanelWidth.Value.Length().Div(n, length.Nearest)), ""})
		}
		return list
	}
	return append(list, candidate{"it was divided by their number; there is one space less", LengthOf(l.Mul(n-1).Div(n, length.Nearest)), ""})
}

func (w *worker) pocketSlips(it *Item) []candidate {
	d := it.Order.Track.Diameter.Value
	around := d.MulRatio(pi, length.Up)
	ease := valueOr(it.Order.Heading.Ease, w.Tables.House.PocketEase)
	return []candidate{
		{"the diameter was taken for half the circumference", LengthOf(d + ease), ""},
		{"the diameter was taken for half the circumference, and there is no ease", LengthOf(d), ""},
		{"the diameter and half the ease were taken", LengthOf(d + ease/2), ""},
		{"there is no ease", LengthOf(around.Div(2, length.Up)), ""},
		{"the whole circumference was taken for half of it", LengthOf(around + ease), ""},
	}
}

func (w *worker) hemSlips(q *Quantity) (list []candidate) {
	for _, t := range q.Terms {
		if t.Name == "turn" {
			list = append(list, candidate{"the turn was counted once", t.Value, ""},
				candidate{"one fold was left out", LengthOf(q.Value.Length() - t.Value.Length()), ""},
				candidate{"one fold too many was counted", LengthOf(q.Value.Length() + t.Value.Length()), ""})
		}
	}
	return list
}

func (w *worker) massSlips(it *Item) (list []candidate) {
	total := it.HangingMass.Value.N
	of := func(p *Piece) int64 {
		return int64(p.Cloth.Order.Weight.Value.Of(p.Width.Value.Length(), p.Length.Value.Length()).Times(p.Count.Value.N))
	}
	for i := range it.Pieces {
		p := &it.Pieces[i]
		if len(it.Pieces) > 1 {
			list = append(list, candidate{"the " + p.Name + " was left out", MassOf(mass.Mass(total - of(p))), ""})
		}
	}
	if it.Panels > 1 {
		list = append(list, candidate{"this is for one panel", MassOf(mass.Mass(total / it.Panels)), ""})
	}
	if it.WetMass != nil {
		list = append(list, candidate{"this is the wet mass", it.WetMass.Value, ""})
	}
	return list
}

// clothSlips are the slips of the cloth to buy.
func (w *worker) clothSlips(q *Quantity) (list []candidate) {
	c := w.Cloth(q.Of)
	if c == nil || c.Needed == nil {
		return nil
	}
	needed := c.Needed.Value.Length()
	step := q.Value.Length() - 1
	if t := q.Terms; len(t) > 0 {
		step = t[len(t)-1].Value.Length()
	}
	up := func(l length.Length) Value { return LengthOf(step.Mul(length.CeilDiv(l, step))) }
	list = append(list,
		candidate{"it was rounded down to what the cloth is sold by", LengthOf(step.Mul(length.FloorDiv(needed, step))), ""})
	if c.Repeat > 0 && w.Tables.House.StartRepeat {
		list = append(list, candidate{"the repeat to start on was left out", up(needed - c.Repeat), ""})
	}
	for _, k := range c.cuts {
		it := &w.Items[k.item]
		each := k.piece.Length.Value.Length()
		if k.count > 1 {
			list = append(list, candidate{"one " + k.piece.Name + " was left out", up(needed - each), ""},
				candidate{"this is for one " + k.piece.Name, up(each), ""})
		}
		if it.Panels > 1 {
			list = append(list, candidate{"this is for one panel", up(needed.Div(it.Panels, length.Up)), ""},
				candidate{"the panels were counted twice", up(needed.Mul(it.Panels)), ""})
		}
		if it.Quantity > 1 {
			list = append(list, candidate{"this is for one of them", up(needed.Div(it.Quantity, length.Up)), ""})
		}
	}
	return list
}

const (
	countedTwice         = "it was counted twice"
	halved               = "it was halved"
	decimalPlace         = "the decimal place is wrong"
	digitsTurned         = "two digits were swapped"
	inchesForCentimetres = "inches were written as centimetres, or the reverse"
	strayWhole           = "a stray whole number stands before the fraction"
	lostSpace            = "the space before the fraction was lost"
	sidesSwapped         = "width and length were swapped"
	feetForInches        = "feet were written for inches, or the reverse"
)

// genericSlip finds a slip of writing a number down.
func (w *worker) genericSlip(x *Wrong) *Slip {
	stated, right := x.Stated.number(), x.right.number()
	if stated.Num <= 0 || right.Num <= 0 || x.Stated.Sort == Dots {
		return nil
	}
	r := stated.Quo(right)
	is := func(num, den int64) bool {
		f := length.NewRatio(num, den)
		return closeTo(r, f) || x.Stated.Sort == Length && x.Node != nil && x.Node.Text ==
			w.print(x.Node, LengthOf(x.right.Length().MulRatio(f, length.Nearest)), x.Quantity.Round)
	}
	switch {
	case is(10, 1), is(1, 10), is(100, 1), is(1, 100), is(1000, 1), is(1, 1000):
		return &Slip{Name: decimalPlace}
	case x.Node != nil && spaceLost(x.Node.Text, w.print(x.Node, x.right, x.Quantity.Round)):
		return &Slip{Name: lostSpace}
	case x.Node != nil && digitsSwapped(x.Node.Text, w.print(x.Node, x.right, x.Quantity.Round)):
		return &Slip{Name: digitsTurned}
	case x.Stated.Sort == Length && (is(254, 100) || is(100, 254)):
		return &Slip{Name: inchesForCentimetres}
	case x.Stated.Sort == Length && w.yards(x) && (is(3, 1) || is(1, 3)):
		return &Slip{Name: "feet were written for yards, or the reverse"}
	case x.Stated.Sort == Length && (is(36, 1) || is(1, 36)):
		return &Slip{Name: "inches were written for yards, or the reverse"}
	case x.Stated.Sort == Length && w.roughInch(x):
		return &Slip{Name: "an inch was taken as 2.5 cm; it is 2.54"}
	case is(2, 1):
		return &Slip{Name: countedTwice}
	case is(1, 2):
		return &Slip{Name: halved}
	}
	return w.fractionSlip(x)
}

func (w *worker) yards(x *Wrong) bool { return w.lengthStyle(x.Node).Unit() == length.Yd }

// number is the value as a plain number.
func (v Value) number() length.Ratio {
	if v.Sort == Ratio || v.Sort == Percent {
		return v.R
	}
	return length.NewRatio(v.N, 1)
}

// closeTo reports whether a is within a thousandth of b.
func closeTo(a, b length.Ratio) bool {
	d := a.Sub(b)
	if d.Num < 0 {
		d = d.Neg()
	}
	return d.Mul(length.NewRatio(1000, 1)).Cmp(b) <= 0
}

// roughInch reports whether a metric value is the right one's inches at 2.5 cm
// each, to the millimetre.
func (w *worker) roughInch(x *Wrong) bool {
	right, stated := length.Length(x.right.N), length.Length(x.Stated.N)
	return near(stated, right.MulRatio(length.NewRatio(250, 254), length.Nearest), length.Millimetre) ||
		near(stated, right.MulRatio(length.NewRatio(254, 250), length.Nearest), length.Millimetre)
}

// fractionSlip finds a fraction that was dropped, or a stray whole number.
func (w *worker) fractionSlip(x *Wrong) *Slip {
	if x.Stated.Sort != Length && x.Stated.Sort != Ratio {
		return nil
	}
	stated, right := x.Stated.number(), x.right.number()
	if x.Stated.Sort == Length {
		unit := length.NewRatio(int64(w.lengthStyle(x.Node).Unit().Length()), 1)
		stated, right = stated.Quo(unit), right.Quo(unit)
	}
	whole := right.Int(length.Down)
	switch {
	case right.Den > 1 && stated.Den <= 1 && stated.Num == whole:
		return &Slip{Name: "the fraction was dropped"}
	case right.Den > 1 && closeTo(stated, right.Sub(length.NewRatio(whole, 1))) && whole > 0:
		return &Slip{Name: "the whole number before the fraction was dropped"}
	case whole == 0 && stated.Den > 1 && stated.Sub(length.NewRatio(stated.Int(length.Down), 1)).Cmp(right) == 0:
		return &Slip{Name: strayWhole}
	}
	return nil
}

// digitsSwapped reports whether b is a with two neighboring digits changed
// about.
func digitsSwapped(a, b string) bool {
	x, y := digitsOf(a), digitsOf(b)
	if len(x) != len(y) || len(x) < 2 || slices.Equal(x, y) {
		return false
	}
	for i := 0; i+1 < len(x); i++ {
		x[i], x[i+1] = x[i+1], x[i]
		if slices.Equal(x, y) {
			return true
		}
		x[i], x[i+1] = x[i+1], x[i]
	}
	return false
}

// spaceLost reports whether b is a with a space before its fraction.
func spaceLost(a, b string) bool {
	return a != b && strings.Contains(a, "/") && strings.ReplaceAll(a, " ", "") == strings.ReplaceAll(b, " ", "")
}

func digitsOf(s string) (d []byte) {
	for i := range len(s) {
		if '0' <= s[i] && s[i] <= '9' {
			d = append(d, s[i])
		}
	}
	return d
}
