package generate

import (
	"context"
	"slices"
	"testing"

	"cutgate/internal/lay"
	"cutgate/internal/length"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/spread"
	"cutgate/internal/worksheet"
)

// drawn works orders of a kind of goods, or of all, from number 1 on out, and gives each of their cloths.
func drawn(t *testing.T, kind string, count int) func(func(*worksheet.Sheet, *worksheet.Cloth) bool) {
	g := newGenerator(t)
	g.Kind = kind
	return func(yield func(*worksheet.Sheet, *worksheet.Cloth) bool) {
		for o, err := range g.All(1, count) {
			if err != nil {
				t.Fatal(err)
			}
			s := worked(t, g.Checker, o)
			for i := range s.Cloths {
				if c := &s.Cloths[i]; len(c.Items()) > 0 && !yield(s, c) {
					return
				}
			}
		}
	}
}

func worked(t *testing.T, checker *lint.Checker, o *Order) *worksheet.Sheet {
	res := checker.CheckFile(written(o.form), load.JSON)[0]
	if res.Err != nil {
		t.Fatal(res.Err)
	}
	return res.Sheet
}

// laidOut lays a cloth of an order.
func laidOut(t *testing.T, s *worksheet.Sheet, c *worksheet.Cloth, o spread.Options) *spread.Spread {
	o.Only = c.Name
	list, _, err := spread.Of(context.Background(), []*worksheet.Sheet{s}, o)
	if err != nil || len(list) != 1 {
		t.Fatalf("%s of %s: %d lays: %v", c.Name, s.Order.Number.Value, len(list), err)
	}
	return list[0]
}

// TestLaid holds the lays of orders of every kind to the length that the cloth to buy is
// worked from.
func TestLaid(t *testing.T) {
	for s, c := range drawn(t, "", 60**orders) {
		if got := laidOut(t, s, c, spread.Options{}).Lay().Length; got != c.Cuts {
			t.Errorf("%s of %s: the lay is %s, and the cuts take %s", c.Name, s.Order.Number.Value, got, c.Cuts)
		}
	}
}

// TestLaidAroundFlaws puts a flaw into the cloths of orders of every kind: it is laid around in
// one way, by what is checked, what the ticket says and what is shown.
func TestLaidAroundFlaws(t *testing.T) {
	for s, c := range drawn(t, "", 30**orders) {
		name, at := c.Name, c.Cuts/5
		flaw := order.Fault{From: order.Length{Value: at, Set: true}, To: order.Length{Value: at + 3*length.Centimetre, Set: true}}
		i := slices.IndexFunc(s.Order.Measured, func(m order.Entry[order.Measurements]) bool { return m.Name == name })
		if i < 0 {
			i = len(s.Order.Measured)
			s.Order.Measured = append(s.Order.Measured, order.Entry[order.Measurements]{Name: name})
		}
		s.Order.Measured[i].Of.Flaws = append(s.Order.Measured[i].Of.Flaws, flaw)
		as := worksheet.Work(s.Order, s.Tables, s.Kinds)
		c = as.Cloth(name)
		l := laidOut(t, as, c, spread.Options{}).Lay()
		if c.Detour == nil || l.Left != nil || !slices.Equal(c.Detour.Reach, l.Reach) {
			t.Errorf("%s of %s: %+v, and the lay goes to %s", name, s.Order.Number.Value, c.Detour, l.Reach)
		}
		if cut, ok := as.CutFrom(c); !ok || cut.Length != l.Reach[0] {
			t.Errorf("%s of %s: %s is cut, and the lay goes to %s", name, s.Order.Number.Value, cut.Length, l.Reach)
		}
	}
}

// TestTurnedNoLonger lets pieces of orders of several kinds be turned, on cloth without a nap. No
// such lay is longer than the one without.
func TestTurnedNoLonger(t *testing.T) {
	turned, shorter := 0, 0
	for _, kind := range []string{"", "cushion cover", "placemat", "bedspread", "tie-back"} {
		for s, c := range drawn(t, kind, 5**orders) {
			if along, across := c.Shrinks(); c.Repeat > 0 || c.Across > 0 || c.Order.EdgeStripe.Value || along.Cmp(across) != 0 {
				continue
			}
			c.Order.Nap.Value = "none"
			var names []string
			pieces, _ := s.ToLay(c)
			for i := range pieces {
				if !slices.Contains(names, pieces[i].Name) {
					names = append(names, pieces[i].Name)
				}
			}
			without := laidOut(t, s, c, spread.Options{})
			for _, name := range append([]string{""}, names...) {
				turn := names
				if name != "" {
					turn = []string{name}
				}
				with := laidOut(t, s, c, spread.Options{Turn: turn})
				for _, m := range lay.Modes() {
					turned++
					if a, b := with.Lays[m].Length, without.Lays[m].Length; a > b {
						t.Errorf("%s of %s, %s, with %v turned: %s, and without %s", c.Name, s.Order.Number.Value, m, turn, a, b)
					} else if a < b {
						shorter++
					}
				}
			}
		}
	}
	if turned < 100 || shorter < 5 {
		t.Errorf("of %d lays of pieces that may be turned %d are shorter", turned, shorter)
	}
}
