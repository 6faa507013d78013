package worksheet

import (
	"slices"
	"testing"

	"cutgate/internal/lay"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/trade"
)

const yd = length.Yard

func leafOf(l length.Length) order.Length { return order.Length{Value: l, Set: true} }

func TestRoom(t *testing.T) {
	row := func(l length.Length, n int64) lay.Row { return lay.Row{Length: l, Count: n} }
	for _, c := range []struct {
		name    string
		lengths []length.Length
		rows    []lay.Row
		want    bool
	}{
		{"to the end", []length.Length{6 * yd}, []lay.Row{row(2*yd, 3)}, true},
		{"a hair too short", []length.Length{6*yd - 1}, []lay.Row{row(2*yd, 3)}, false},
		{"ends that are too short for a row", []length.Length{3 * yd, 3 * yd}, []lay.Row{row(2*yd, 3)}, false},
		{"short rows on the ends", []length.Length{3 * yd, 3 * yd}, []lay.Row{row(2*yd, 2), row(yd, 2)}, true},
		{"a place for each, but not cloth enough", []length.Length{5 * yd}, []lay.Row{row(3*yd, 1), row(2*yd, 2)}, false},
		{"nothing to lay", []length.Length{yd}, nil, true},
	} {
		if got := lay.Room(c.lengths, c.rows); got != c.want {
			t.Errorf("%s: got %t", c.name, got)
		}
	}
}

// cutting is an order with one cloth, 54 in wide, from which each item takes so
// many widths of 2 yd.
func cutting(items ...int64) (*worker, *Cloth) {
	o := &order.Order{Cloths: []order.Entry[order.Cloth]{{Name: "fern"}}}
	s := &Sheet{Order: o, Tables: new(trade.Tables), Unit: length.In, Items: make([]Item, len(items))}
	s.Cloths = []Cloth{{Order: &o.Cloths[0].Of, Name: "fern", Width: 54 * length.Inch}}
	c := &s.Cloths[0]
	for i, n := range items {
		p := &Piece{Name: "width", Cloth: c, Width: &Quantity{Value: LengthOf(c.Width)},
			Length: &Quantity{Value: LengthOf(2 * yd)}, Count: &Quantity{Value: CountOf(n)}}
		c.cuts = append(c.cuts, cut{item: i, piece: p, count: n, widths: n, along: p.Length.Value.Length(), across: c.Width})
		s.Items[i] = Item{Order: new(order.Item), Index: i, Face: c, Panels: 1, Quantity: 1}
	}
	return &worker{Sheet: s}, c
}

func (c *Cloth) allRows() []lay.Row {
	var pieces []lay.Piece
	for _, k := range c.cuts {
		pieces = append(pieces, lay.Piece{Width: c.Width, Length: k.along, Count: k.count})
	}
	plan, _ := lay.InRows(c.Width, pieces)
	return plan.Rows
}

func TestStock(t *testing.T) {
	bolt := func(lot string, l length.Length) order.Bolt {
		return order.Bolt{Lot: order.Text{Value: lot, Set: lot != ""}, Length: leafOf(l)}
	}
	for _, c := range []struct {
		name  string
		items []int64
		bolts []order.Bolt
		long  bool
		out   bool
		mixed []int
	}{
		{"one bolt", []int64{4}, []order.Bolt{bolt("A", 8*yd)}, false, false, nil},
		{"a bolt too short for a cut", []int64{1}, []order.Bolt{bolt("A", yd), bolt("A", yd+1)}, true, false, nil},
		{"not enough on all", []int64{4}, []order.Bolt{bolt("A", 5*yd), bolt("A", 3*yd)}, false, true, nil},
		{"two bolts of a lot", []int64{4}, []order.Bolt{bolt("A", 4*yd), bolt("A", 4*yd)}, false, false, nil},
		{"two lots", []int64{4}, []order.Bolt{bolt("A", 4*yd), bolt("B", 4*yd)}, false, false, []int{0}},
		{"two lots, of which one will do", []int64{4}, []order.Bolt{bolt("A", 4*yd), bolt("B", 9*yd)}, false, false, nil},
		{"two lots, an item from each", []int64{2, 2}, []order.Bolt{bolt("A", 4*yd), bolt("B", 4*yd)}, false, false, nil},
		{"a bolt of a lot not stated", []int64{4}, []order.Bolt{bolt("A", 4*yd), bolt("B", 3*yd), bolt("", 4*yd)}, false, false, nil},
	} {
		w, cloth := cutting(c.items...)
		cloth.Order.Bolts = c.bolts
		w.stock(cloth, cloth.allRows())
		s := cloth.Stock
		if (s.TooLong != nil) != c.long || s.RunsOut != c.out || !slices.Equal(s.Mixed, c.mixed) {
			t.Errorf("%s: got %+v", c.name, *s)
		}
	}
	w, cloth := cutting(4)
	if w.stock(cloth, cloth.allRows()); cloth.Stock != nil {
		t.Error("without bolts there is no stock")
	}
	cloth.Order.Bolts = []order.Bolt{bolt("A", 8*yd)}
	w.Order.Measured = []order.Entry[order.Measurements]{{Name: "fern", Of: order.Measurements{Length: leafOf(7 * yd)}}}
	if w.stock(cloth, cloth.allRows()); !cloth.Stock.RunsOut {
		t.Error("the length measured on the one bolt wins over the stated one")
	}
}

func TestDetour(t *testing.T) {
	for _, c := range []struct {
		name      string
		end, lead length.Length
		flaws     [][2]length.Length
		reach     length.Length
		beyond    bool // what is ordered
		nil       bool
	}{
		{"after the cuts", 9 * yd, 0, [][2]length.Length{{6 * yd, 7 * yd}}, 6 * yd, false, false},
		{"in the third cut", 9 * yd, 0, [][2]length.Length{{5 * yd, 5*yd + 1}}, 7*yd + 1, false, false},
		{"in the third cut of just enough", 6 * yd, 0, [][2]length.Length{{5 * yd, 5*yd + 1}}, 7*yd + 1, true, false},
		{"at the start", 9 * yd, 0, [][2]length.Length{{0, yd}}, 7 * yd, false, false},
		{"after a lead", 9 * yd, yd, [][2]length.Length{{8 * yd, 9 * yd}}, 7 * yd, false, false},
		{"two that overlap", 9 * yd, 0, [][2]length.Length{{2 * yd, 4 * yd}, {yd * 3 / 2, 3 * yd}}, 10 * yd, true, false},
		{"the length is not known", 0, 0, [][2]length.Length{{yd, 2 * yd}}, 8 * yd, false, false},
		{"none", 9 * yd, 0, nil, 0, false, true},
	} {
		w, cloth := cutting(3)
		var m order.Measurements
		for _, f := range c.flaws {
			m.Flaws = append(m.Flaws, order.Fault{From: leafOf(f[0]), To: leafOf(f[1])})
		}
		w.Order.Measured = []order.Entry[order.Measurements]{{Name: "fern", Of: m}}
		if c.end > 0 {
			cloth.Order.Ordered = leafOf(c.end)
		}
		if cloth.Repeat = c.lead; c.lead > 0 {
			w.Tables.House.StartRepeat = true
		}
		w.detour(cloth, cloth.allRows(), c.lead)
		if (cloth.Detour == nil) != c.nil {
			t.Errorf("%s: got %v", c.name, cloth.Detour)
		} else if d := cloth.Detour; d != nil && (d.Reach[0] != c.reach || (d.Beyond > 0) != c.beyond || d.Short) {
			t.Errorf("%s: got reach %s, beyond %s, short %t", c.name, d.Reach[0].Format(length.Yd, length.Nearest), d.Beyond, d.Short)
		}
	}
}
