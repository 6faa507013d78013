// Package cloth checks the cloth bought and the cloth on the shelf: the length
// ordered, the step a cloth is sold by, its bolts and their dye lots, flaws along a
// bolt, and what turning the cloth, or cutting it in another way, would save.
package cloth

import (
	"slices"

	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// byTheBolt writes a length as cloth is bought: in metres, or in yards.
func byTheBolt(p *rule.Pass, l length.Length) string {
	unit := length.Yd
	if p.Sheet.Unit.Metric() {
		unit = length.M
	}
	return l.Format(unit, length.Nearest)
}

// misordered reports whether the length ordered of a cloth is already found to
// be wrong.
func misordered(p *rule.Pass, c *worksheet.Cloth) bool {
	return p.Sheet.InDoubt(-1, c.Name, worksheet.ClothToBuy)
}

// unread reports whether an item could not be read, which may be cut from any cloth.
func unread(p *rule.Pass) bool {
	for i := range p.Sheet.Items {
		if p.Sheet.Items[i].Unread {
			return true
		}
	}
	return false
}

// unsettled reports whether what is cut from a cloth may be worked from a wrong number.
func unsettled(p *rule.Pass, c *worksheet.Cloth) bool {
	for i := range p.Sheet.Items {
		if slices.Contains(p.Sheet.Items[i].ClothNames(), c.Name) && p.Sheet.Unsettled(i) {
			return true
		}
	}
	return false
}
