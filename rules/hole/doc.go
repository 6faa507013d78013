// Package hole checks the holes along a top edge, grommets and buttonholes: that
// they come out even, lie wholly on the hem and off the joins, and are large enough
// for what goes through them.
package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// word is what the holes are, in the order's word for one of them.
func word(h *order.Holes) string {
	if h.Make.Value == "buttonhole" {
		return "buttonhole"
	}
	return "grommet"
}

// many is so many of them: "1 grommet", "12 grommets".
func many(n int64, h *order.Holes) string { return worksheet.Many(n, word(h)) }

// small prints a size of hardware, finer than the step that cloth is cut by.
func small(p *rule.Pass, l length.Length) string {
	if p.Sheet.Unit.Metric() {
		return length.RatioOf(l, length.Millimetre).Format(1) + " mm"
	}
	return p.Show(l)
}

// part is the part of a grommet that [order.Holes.Reach] speaks of.
func part(h *order.Holes) string {
	if h.Flange.Set {
		return "grommet's flange"
	}
	return "grommet's bore"
}

// misfits reports whether grommets are of a size that cannot be theirs: a flange no
// wider than the bore, or one that no place on a stated top hem would hold. That is
// said once, and not again of every edge and seam that they reach.
func misfits(p *rule.Pass, it *worksheet.Item) bool {
	if inverted(&it.Order.Holes) {
		return true
	}
	_, ok := centered(p, it)
	return it.OffHem() && !ok
}

// inverted reports whether a grommet's flange is stated no wider than its bore.
func inverted(h *order.Holes) bool {
	return h.Make.Value == "grommet" && h.Bore.Set && h.Flange.Set && h.Flange.Value <= h.Bore.Value
}

// centered is the place from the top edge that puts grommets in the middle of a
// stated top hem, if they lie whole on the hem there and clear of the edge.
func centered(p *rule.Pass, it *worksheet.Item) (length.Length, bool) {
	h, turn := &it.Order.Holes, it.Order.Hems.Top.Turn
	if !turn.Set {
		return 0, false
	}
	middle := turn.Value.Div(2, length.Down).Round(length.Step(p.Sheet.Unit), length.Nearest)
	r := h.Reach()
	return middle, middle+r < turn.Value && middle-r >= p.Tables.House.EdgeToFlange
}

// setFromTop is the fix that sets grommets so far from the top edge.
func setFromTop(p *rule.Pass, h *order.Holes, right length.Length) []finding.Fix {
	n := h.FromTop.Node
	return p.Likely(n, n.LengthStyle().Print(right, length.Nearest), fmt.Sprintf("Set the grommets %s from the top edge", p.Show(right)))
}

// told reports whether the order tells where the holes are along the top, so
// that their places are its own and not only what is usual.
func told(h *order.Holes) bool {
	return h.Count.Set && h.Spacing.Set || h.FromSide.Set && (h.Count.Set || h.Spacing.Set)
}
