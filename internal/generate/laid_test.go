package generate

import (
	"context"
	"testing"

	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/spread"
	"cutgate/internal/worksheet"
)

// drawn works the orders of the numbers from 1 on out, and gives each of their cloths.
func drawn(t *testing.T, count int) func(func(*worksheet.Sheet, *worksheet.Cloth) bool) {
	g := newGenerator(t)
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
	for s, c := range drawn(t, 60**orders) {
		if got := laidOut(t, s, c, spread.Options{}).Lay().Length; got != c.Cuts {
			t.Errorf("%s of %s: the lay is %s, and the cuts take %s", c.Name, s.Order.Number.Value, got, c.Cuts)
		}
	}
}
