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
	return l.Format(worksheet.Sold(p.Sheet.Unit), length.Nearest)
}

// toBuy is a length of a cloth to buy: in what the cloth is sold by, with the order's own
// unit in parentheses where that is of the other system.
func toBuy(p *rule.Pass, c *worksheet.Cloth, l length.Length) string {
	text := byTheBolt(p, l)
	if as := p.Sheet.SoldIn(c); as != worksheet.Sold(p.Sheet.Unit) {
		text = l.Format(as, length.Nearest) + " (" + text + ")"
	}
	return text
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
