package worksheet

import (
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/order"
)

// doubts finds the items that a choice could not be read for. Their quantities
// are worked out as far as they go, but no stated outcome of theirs is called
// wrong: it may be right for what the choice was meant to say.
func (w *worker) doubts() {
	for i := range w.Order.Flaws {
		f := &w.Order.Flaws[i]
		if !hidesChoice(f) {
			continue
		}
		for j := range w.Order.Items {
			if w.doubted[j] {
				continue
			}
			o := &w.Order.Items[j]
			under := strings.HasPrefix(f.Path, "items["+strconv.Itoa(j)+"]")
			for _, name := range []string{o.Cloth.Value, o.Lining.Cloth.Value, o.Interlining.Cloth.Value} {
				under = under || name != "" && (strings.HasPrefix(f.Path, "cloths."+name+".") || strings.HasPrefix(f.Path, "measured."+name+"."))
			}
			w.doubted[j] = under
		}
	}
}

// hidesChoice reports whether a flaw leaves a choice unknown that numbers are
// worked from.
func hidesChoice(f *order.Flaw) bool {
	switch f.Kind {
	case order.OtherWord, order.Unreadable, order.Computed:
		return false
	case order.UnknownField:
		return f.Nearest != ""
	}
	return !isOutcome(f.Path)
}

// isOutcome reports whether a field states an outcome, or one that nothing is
// worked from.
func isOutcome(path string) bool {
	if strings.Contains(path, ".cuts[") {
		return true
	}
	name := path[strings.LastIndexByte(path, '.')+1:]
	switch name {
	case "spacing", "slit", "widths", "flat_width", "hanging_mass", "take_up", "gap", "ordered", "id", "room", "notes", "name", "fire":
		return true
	case "allowance":
		return strings.Contains(path, ".hems.") || strings.Contains(path, ".hem.")
	}
	return strings.Contains(path, ".press") || strings.Contains(path, ".cord") || strings.Contains(path, ".care")
}

// doubtful reports whether a quantity is one of an item that was doubted, or of
// a cloth that goes into one.
func (w *worker) doubtful(q *Quantity) bool {
	if q.Item >= 0 {
		return w.doubted[q.Item]
	}
	return w.Cloth(q.Of).unread
}

// unread reports whether a cloth goes into an item that was doubted.
func (w *worker) unread(c *Cloth) bool {
	return slices.ContainsFunc(c.cuts, func(k cut) bool { return w.doubted[k.item] })
}
