// Package hem checks turned edges: what they take of the cut, whether they can
// be folded and sewn as the order says, and whether a bottom hem is heavy enough
// to hang straight.
package hem

import (
	"iter"

	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// An edge is a hem that the order states, with what it is called.
type edge struct {
	name string // "bottom hem"
	*order.Hem
}

// edges are the hems that the order states, with the items that have them.
func edges(p *rule.Pass) iter.Seq2[*worksheet.Item, edge] {
	return func(yield func(*worksheet.Item, edge) bool) {
		for i := range p.Sheet.Items {
			it := &p.Sheet.Items[i]
			o := it.Order
			for _, e := range [...]edge{
				{"top hem", &o.Hems.Top}, {"bottom hem", &o.Hems.Bottom}, {"side hem", &o.Hems.Sides},
				{"hem", &o.Hem}, {"hem of the opening", &o.Opening}, {"lining's hem", &o.Lining.Hem},
			} {
				if e.Set && !yield(it, e) {
					return
				}
			}
		}
	}
}

// sheer reports whether an item is made of a sheer.
func sheer(it *worksheet.Item) bool {
	return it.Face != nil && it.Face.Class != nil && it.Face.Class.Name == "sheer"
}

// turned reports whether the hem has a turn above zero that was not misread.
func (e edge) turned(p *rule.Pass) bool { return e.Turn.Value > 0 && !p.Sheet.Doubted(e.Turn.Node) }

// fullLength reports whether the order says that a curtain comes to the floor.
func fullLength(o *order.Item) bool {
	if o.Kind.Value != "curtain" {
		return false
	}
	to := o.Hang.To.Value
	return to == "floor" || to == "puddle" || to == "" && o.Track.AboveFloor.Set && !o.Track.AboveSill.Set
}

// light returns the hem mass that the item's cloth hangs straight from, where
// its own is less as far as the order tells: not where single weights or a chain
// of unknown mass are put into it, nor where an interlining is. A valance is too short
// to need it.
func light(p *rule.Pass, it *worksheet.Item) (least worksheet.Value, ok bool) {
	if it.Get(worksheet.HemMass) == nil || it.Face.Class == nil || it.Bottom.House || !it.Bottom.Order.Set {
		return
	}
	o := it.Order
	if o.Kind.Value == "valance" || o.Interlining.Set || o.Weights.Set && (o.Weights.Kind.Value == "single" || !o.Weights.Mass.Set) {
		return
	}
	least = worksheet.LinearOf(it.Face.Class.HemLeast)
	least.As = it.Get(worksheet.HemMass).Value.As
	return least, it.Get(worksheet.HemMass).Value.N*20 < least.N*19 // no mass is known more nearly
}
