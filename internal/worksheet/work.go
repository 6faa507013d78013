package worksheet

import (
	"cmp"
	"slices"

	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/trade"
)

// Work works out an order. It never fails: what can't be worked out for want of
// a number is left out of the sheet.
func Work(o *order.Order, t *trade.Tables) *Sheet {
	s := work(o, t)
	s.commas = o.Root != nil && o.Root.Cell && decimalCommas(o.Root)
	s.explain()
	slices.SortStableFunc(s.Wrong, func(a, b Wrong) int { return cmp.Compare(a.At.Start, b.At.Start) })
	return s
}

// work is Work without the search for misread choices and for slips.
func work(o *order.Order, t *trade.Tables) *Sheet {
	s := &Sheet{Order: o, Tables: t, Unit: unitOf(o)}
	n := len(o.Items) // what an order of n items needs, as a rule
	w := &worker{Sheet: s, slab: make([]Quantity, 0, 30*n+4), terms: make([]Term, 0, 64*n+8)}
	s.All = make([]*Quantity, 0, 30*n+4)
	s.Stated = make([]Stated, 0, 24)
	w.clothsOf()
	s.Items = make([]Item, len(o.Items))
	w.doubted = make([]doubt, len(o.Items))
	w.doubts()
	for i := range o.Items {
		it := &s.Items[i]
		it.Order, it.Index, it.Panels = &o.Items[i], i, 1
		it.Quantity = valueOr(o.Items[i].Quantity, 1)
		it.Face = s.Cloth(it.Order.Cloth.Value)
		it.Unread = w.doubted[i] != 0
		w.item = i
		switch it.Order.Kind.Value {
		case "shower curtain":
			it.Worked = true
			w.showerCurtain(it)
		case "curtain":
			it.Worked = true
			w.curtain(it)
		}
		w.press(it)
	}
	w.item = -1
	for i := range s.Cloths {
		w.need(&s.Cloths[i])
	}
	return s
}

func unitOf(o *order.Order) length.Unit {
	if u, ok := length.ParseUnit(o.Units.Value); ok {
		return u
	}
	return length.MM
}

// A worker is the state of one working out.
type worker struct {
	*Sheet
	item  int
	slab  []Quantity // quantities are handed out from it, so that their addresses hold
	terms []Term

	doubted []doubt // by item
	piecing *Piece  // the piece whose cuts are being compared
}

// put adds a quantity to the sheet. The terms stand in the order of the
// formula's braces.
func (w *worker) put(name Name, of string, v Value, r length.Rounding, src, formula string, terms ...Term) *Quantity {
	if len(w.slab) == cap(w.slab) {
		w.slab = make([]Quantity, 0, 16)
	}
	if len(w.terms)+len(terms) > cap(w.terms) {
		w.terms = make([]Term, 0, max(32, len(terms)))
	}
	from := len(w.terms)
	w.terms = append(w.terms, terms...)
	w.slab = append(w.slab, Quantity{
		Name: name, Of: of, Item: w.item, Value: v, Round: r, Source: src, Formula: formula,
		Terms: w.terms[from:len(w.terms):len(w.terms)],
	})
	q := &w.slab[len(w.slab)-1]
	w.All = append(w.All, q)
	return q
}

// asStated adds a quantity that the order itself gives.
func (w *worker) asStated(name Name, of string, v Value) *Quantity {
	return w.put(name, of, v, length.Nearest, "the order", "")
}

// len1, num and rat name a number for a formula.
func len1(name string, l length.Length) Term { return Term{Name: name, Value: LengthOf(l)} }
func num(name string, n int64) Term          { return Term{Name: name, Value: CountOf(n)} }
func rat(name string, r length.Ratio) Term   { return Term{Name: name, Value: RatioOf(r)} }
func term(q *Quantity) Term                  { return Term{Name: string(q.Name), Value: q.Value} }

// via is a quantity whose own working belongs to that of the one it goes into.
func via(q *Quantity) Term { return Term{Name: string(q.Name), Value: q.Value, via: q} }

func valueOr[T any](l order.Leaf[T], otherwise T) T {
	if l.Set {
		return l.Value
	}
	return otherwise
}

// hem is a hem as the item has it.
func (w *worker) hem(h *order.Hem, kind, edge, where string) Hem {
	out := Hem{Order: h, Folds: 2}
	if h.Set {
		out.Turn, out.Folds = h.Turn.Value, valueOr(h.Folds, 2)
		out.Takes = takes(h)
		return out
	}
	row := w.Tables.HemFor(kind, edge, where)
	if row == nil {
		return out
	}
	out.Turn, out.Folds, out.House = row.Turn, row.Folds, true
	out.Takes = row.Turn.Mul(row.Folds)
	return out
}

// takes is what a hem takes of the cut: turn × folds, or the first turn and the
// others.
func takes(h *order.Hem) length.Length {
	folds := valueOr(h.Folds, 2)
	if h.First.Set && folds > 0 { // a first turn makes the other at least the second
		return h.First.Value + h.Turn.Value.Mul(max(1, folds-1))
	}
	return h.Turn.Value.Mul(folds)
}

// hemAllowances works out what the stated hems of a hanging take.
func (w *worker) hemAllowances(h *order.Hems) {
	w.hemAllowance(&h.Top, "top")
	w.hemAllowance(&h.Bottom, "bottom")
	w.hemAllowance(&h.Sides, "sides")
}

// hemAllowance works out what a stated hem takes, and compares what is stated.
func (w *worker) hemAllowance(h *order.Hem, edge string) {
	if !h.Set || !h.Turn.Set {
		return
	}
	var q *Quantity
	folds := valueOr(h.Folds, 2)
	if h.First.Set {
		q = w.put(HemTakes, edge, LengthOf(takes(h)), length.Nearest, Common,
			"{first turn} + {turn} × ({folds} - 1)", len1("first turn", h.First.Value), len1("turn", h.Turn.Value), num("folds", max(2, folds)))
	} else {
		q = w.put(HemTakes, edge, LengthOf(takes(h)), length.Nearest, "B. Talmadge, How to Calculate Yardage for Custom Draperies",
			"{turn} × {folds}", len1("turn", h.Turn.Value), num("folds", folds))
	}
	w.compareLength(q, &h.Allowance)
}
