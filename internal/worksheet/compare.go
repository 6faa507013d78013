package worksheet

import (
	"strconv"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
)

// Every stated outcome is compared with its quantity in one of these, and in no
// other place. Lengths agree within a step, 1/16 in or 1 mm, so that neither
// way of rounding is a mistake.

// compares reports whether a leaf states the outcome of a quantity, and notes
// that it does.
func compares[T any](w *worker, q *Quantity, leaf *order.Leaf[T]) bool {
	if q == nil || !leaf.Set || leaf.Node == nil {
		return false
	}
	w.stated(q, leaf.Node)
	return true
}

// compareLength compares a stated length; other lengths that are as right are
// given in or.
func (w *worker) compareLength(q *Quantity, leaf *order.Length, or ...length.Length) {
	if !compares(w, q, leaf) {
		return
	}
	style := w.lengthStyle(leaf.Node)
	step := length.Step(style.Unit())
	exact := q.Value.Length()
	if near(leaf.Value, exact, step) {
		return
	}
	for _, l := range or {
		if near(leaf.Value, l, step) {
			return
		}
	}
	w.wrong(q, leaf.Node, LengthOf(leaf.Value), LengthOf(exact))
}

func near(a, b, step length.Length) bool { return a-b < step && b-a < step }

// compareCount compares a stated count.
func (w *worker) compareCount(q *Quantity, leaf *order.Count) {
	if !compares(w, q, leaf) {
		return
	}
	if leaf.Value == q.Value.N {
		return
	}
	w.wrong(q, leaf.Node, CountOf(leaf.Value), q.Value)
}

// compareRatio compares stated widths.
func (w *worker) compareRatio(q *Quantity, leaf *order.Ratio) {
	if !compares(w, q, leaf) {
		return
	}
	if leaf.Value.Cmp(q.Value.R) == 0 {
		return
	}
	w.wrong(q, leaf.Node, RatioOf(leaf.Value), q.Value)
}

// compareMass compares a stated mass; within 2 % is as good as a maker's
// weight of a cloth.
func (w *worker) compareMass(q *Quantity, leaf *order.Mass) {
	if !compares(w, q, leaf) {
		return
	}
	d := int64(leaf.Value) - q.Value.N
	if max(d, -d) <= q.Value.N/50 || leaf.Node.Text == w.print(leaf.Node, q.Value, q.Round) || sameInPrint(leaf.Value, q.Value, w.Unit) {
		return
	}
	w.wrong(q, leaf.Node, MassOf(leaf.Value), q.Value)
}

// sameInPrint reports whether a mass and a value are printed alike, in whole
// ounces or grams.
func sameInPrint(m mass.Mass, v Value, u length.Unit) bool {
	stated := MassOf(m)
	stated.As = v.As
	return stated.Format(u, length.Nearest) == v.Format(u, length.Nearest)
}

// stated notes that an outcome is stated, and where.
func (w *worker) stated(q *Quantity, n *order.Node) {
	w.Stated = append(w.Stated, Stated{q, n, w.piecing})
}

// wrong notes a stated outcome that is wrong, with the right value as the
// person would have written it.
func (w *worker) wrong(q *Quantity, n *order.Node, stated, right Value) {
	if w.doubtful(q) {
		return
	}
	corrected := ""
	if right.Sort != Length || right.N > 0 { // nothing can be cut to less
		corrected = w.print(n, right, q.Round)
	}
	w.Wrong = append(w.Wrong, Wrong{
		Quantity: q, At: n.At, Node: n, Stated: stated, right: right,
		Corrected: corrected, Short: less(stated, right),
		piece: w.piecing,
	})
}

func less(a, b Value) bool {
	if a.Sort == Ratio {
		return a.R.Cmp(b.R) < 0
	}
	return a.N < b.N
}

// print writes v in the manner that n is written in.
func (s *Sheet) print(n *order.Node, v Value, r length.Rounding) string {
	switch v.Sort {
	case Length:
		return s.lengthStyle(n).Print(v.Length(), r)
	case Mass:
		_, style, _ := mass.ParseMass(n.Text)
		m := mass.Mass(v.N)
		if style.Metric() {
			m = significant(m)
		}
		return style.PrintMass(m)
	case Ratio:
		return ratioLike(n.Text, v.R)
	case Dots:
		return s.heatLike(n.Text, v)
	case Count:
		return strconv.FormatInt(v.N, 10)
	}
	return v.Format(s.Unit, r)
}

func (s *Sheet) lengthStyle(n *order.Node) length.Style {
	unit := s.bare(n)
	if n != nil {
		if _, style, err := length.Parse(n.Text, unit); err == nil {
			return style
		}
	}
	return length.StyleOf(unit, true)
}

// bare is what a bare number at n means: what the order says, or the heading that
// it stands under in a table.
func (s *Sheet) bare(n *order.Node) length.Unit {
	if n != nil && n.Unit != length.NoUnit {
		return n.Unit
	}
	return s.Unit
}

// significant rounds a mass to three figures: no cloth's weight is known better.
func significant(m mass.Mass) mass.Mass {
	unit := mass.Mass(1)
	for m/unit >= 1000 {
		unit *= 10
	}
	return (m + unit/2) / unit * unit
}

// heatLike writes a setting as dots, or as a temperature where text is one.
func (s *Sheet) heatLike(text string, v Value) string {
	setting := s.Tables.Setting(int(v.N))
	if setting == nil || strings.Contains(text, "dot") || !strings.ContainsAny(text, "cCfF") {
		return v.Format(s.Unit, length.Nearest)
	}
	h := order.Heat{Milli: setting.Celsius * 1000, Deg: 'C'}
	if strings.ContainsAny(text, "fF") {
		h.Deg = 'F'
	}
	return h.String()
}

// ratioLike writes r as text is written: with a fraction, or as a decimal with
// a point or a comma.
func ratioLike(text string, r length.Ratio) string {
	if n, _, err := length.ScanNumber(text); err == nil {
		return n.Print(r, 2)
	}
	return r.Format(2)
}
