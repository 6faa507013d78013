package worksheet

import (
	"testing"

	"cutgate/internal/length"
	"cutgate/internal/order"
)

func TestRailroads(t *testing.T) {
	const in = length.Inch
	// A flat hanging 96 in wide and 50 in long with its hems, of two widths joined.
	for _, c := range []struct {
		name string
		make func(*Cloth, *Item)
		want bool
	}{
		{"plain", func(*Cloth, *Item) {}, true},
		{"nap not stated", func(c *Cloth, _ *Item) { c.Order.Nap.Value = "" }, false},
		{"nap one way", func(c *Cloth, _ *Item) { c.Order.Nap.Value = "one way" }, false},
		{"a pattern", func(c *Cloth, _ *Item) { c.Repeat = 13 * in }, false},
		{"no joins", func(_ *Cloth, it *Item) { it.Joins = 0 }, false},
		{"just as wide as the cloth", func(_ *Cloth, it *Item) { it.FinishedLength.Value = LengthOf(44 * in) }, true},
		{"wider than the cloth", func(_ *Cloth, it *Item) { it.FinishedLength.Value = LengthOf(44*in + 1) }, false},
		{"as much cloth", func(_ *Cloth, it *Item) { it.FinishedWidth.Value = LengthOf(4*yd - 2*in) }, true},
		{"more cloth", func(_ *Cloth, it *Item) { it.FinishedWidth.Value = LengthOf(4*yd - 2*in + 1) }, false},
		{"shrinks across", func(c *Cloth, it *Item) {
			it.FinishedLength.Value = LengthOf(44 * in)
			c.shrinkWidth = length.NewRatio(1, 100)
		}, false},
	} {
		w, cloth := cutting(2)
		cloth.Order.Nap = order.Text{Value: "none", Set: true}
		it := &w.Items[0]
		it.Joins = 1
		it.Top, it.Bottom, it.Sides = Hem{Takes: 4 * in}, Hem{Takes: 6 * in}, Hem{Takes: in}
		it.FinishedWidth, it.FinishedLength = &Quantity{Value: LengthOf(94 * in)}, &Quantity{Value: LengthOf(40 * in)}
		c.make(cloth, it)
		w.railroads(cloth)
		if got := len(cloth.Railroads) == 1; got != c.want {
			t.Errorf("%s: got %+v", c.name, cloth.Railroads)
		}
	}
}
