package worksheet

import "cutgate/internal/length"

// A Railroad is what an item would save with its cloth turned, so that the
// length of the work runs across the bolt.
type Railroad struct {
	Item   int
	Joins  int64         // in all panels of one, that are then not sewn
	Across length.Length // of the bolt that the work takes
	Along  length.Length // of the bolt that is then cut, for all of the item
	Saves  length.Length // of cloth; never below zero
}

// railroads works out which items could have their cloth turned: it has no nap
// and no pattern to stand on its side, the length with its hems fits across it,
// and it takes no more of it.
func (w *worker) railroads(c *Cloth) {
	o := c.Order
	if o.Nap.Value != "none" || c.Repeat > 0 || c.Across > 0 || o.EdgeStripe.Value ||
		c.shrinkLength.Cmp(one) >= 0 {
		return
	}
	for _, i := range c.Items() {
		it := &w.Items[i]
		if it.Face != c || it.Count("joins") < 1 || !it.Has(string(FinishedLength)) || !it.Has(string(FinishedWidth)) {
			continue
		}
		top, along := it.Length("top hem"), it.Length(string(FinishedWidth))+it.Sides.Takes.Mul(2)
		if it.Heading != nil && !it.Has(string(FlatWidth)) {
			continue
		}
		if it.Has(string(FlatWidth)) {
			along = it.Length(string(FlatWidth))
		}
		for _, term := range [...]string{"heading allowance", "top allowance"} {
			if it.Has(term) {
				top = it.Length(term)
			}
		}
		r := Railroad{
			Item: i, Joins: it.Count("joins") * it.Panels,
			Across: c.BeforeWash(it.Length(string(FinishedLength)) + top + it.Bottom.Takes),
			Along:  along.QuoRatio(one.Sub(c.shrinkLength), length.Up).Mul(it.Quantity),
		}
		for _, row := range w.rowsOf(c, i, true) {
			r.Saves += row.Length.Mul(row.Count)
		}
		r.Saves -= r.Along
		if r.Across <= c.Width && r.Saves >= 0 {
			c.Railroads = append(c.Railroads, r)
		}
	}
}
