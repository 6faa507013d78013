package worksheet

import (
	"cmp"
	"slices"

	"cutgate/internal/lay"
	"cutgate/internal/length"
)

// Halves are half widths that items leave over of a cloth, where one width split down its
// length gives two of them.
type Halves struct {
	Items  []int         // that leave one over, the longest first
	Widths int64         // that need not be cut
	Saves  length.Length // of cloth
	ToBuy  length.Length // then
}

// Halves finds what is saved where the half widths that are left over of a cloth's panels
// are used for each other, if that is a selling step or more. A half is used for one that
// is as long or shorter. Halves of a pattern don't do for each other, as both join on the
// same side; where bolts, flaws or another way of cutting than rows are stated, or a size
// that it is worked from may be wrong, nothing is said.
func (s *Sheet) Halves(c *Cloth) (h Halves, ok bool) {
	step := s.soldBy(c)
	if c.ToBuy == nil || c.unread || step <= 0 || c.Repeat > 0 || c.Across > 0 || c.Order.EdgeStripe.Value || s.Way(c) != lay.Rows || len(c.Order.Bolts) > 0 || len(s.Rolls(c)) > 0 || s.unsettled(c) {
		return h, false
	}
	var left []cut // each with a half left over of one of its widths
	for _, k := range c.cuts {
		if n, _ := s.Items[k.item].Sewn(k.piece); n.Den == 2 && n.Int(length.Up) == k.piece.Count.Value.N {
			left = append(left, k)
		}
	}
	slices.SortStableFunc(left, func(a, b cut) int { return cmp.Compare(b.along, a.along) })
	odd := int64(0) // a longer half without another
	for _, k := range left {
		n := s.Items[k.item].Quantity + odd
		h.Items = append(h.Items, k.item)
		h.Widths += n / 2
		h.Saves += k.along.Round(length.Step(s.Unit), length.Up).Mul(n / 2)
		odd = n % 2
	}
	h.ToBuy = step.Mul(length.CeilDiv(c.Needed.Value.Length()-h.Saves, step))
	return h, h.Widths > 0 && h.ToBuy < c.ToBuy.Value.Length()
}
