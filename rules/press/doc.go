// Package press checks heat: the iron's setting and its steam against what the
// fibers can take and the care labels allow, and what is fused on.
package press

import (
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// ironSymbols is the source of what the dots of an iron stand for.
const ironSymbols = "ISO 3758:2012, from memory"

// noIron returns the first cloth of the item that may not be ironed at all, or
// nil.
func noIron(p *rule.Pass, it *worksheet.Item) *worksheet.Cloth {
	for _, c := range p.Sheet.ClothsOf(it) {
		if c.NoIron() {
			return c
		}
	}
	return nil
}

// stands returns the degrees Celsius, in thousandths, of the hottest setting
// that every cloth of the item can take: 0 where one must not be ironed. It reports
// false where that is not known.
func stands(p *rule.Pass, it *worksheet.Item) (milli int64, ok bool) {
	if noIron(p, it) != nil {
		return 0, true
	}
	if it.Get(worksheet.PressSetting) == nil {
		return 0, false
	}
	s := p.Tables.Setting(int(it.Get(worksheet.PressSetting).Value.N))
	if s == nil {
		return 0, false
	}
	return s.Celsius * 1000, true
}

// milli is the heat in thousandths of a degree Celsius; of dots, the most that
// they allow.
func milli(p *rule.Pass, h order.Heat) int64 {
	if h.Dots == 0 {
		return h.Milli
	}
	if s := p.Tables.Setting(h.Dots); s != nil {
		return s.Celsius * 1000
	}
	return 0
}

// unfused reports whether the stated setting is too cool for the item's fusing,
// though its cloths stand the heat that this needs.
func unfused(p *rule.Pass, it *worksheet.Item) bool {
	o := &it.Order.Press
	if !o.Fusing.Set || o.Fusing.Value == "none" || !o.FusingAt.Set || !o.Setting.Set || o.Setting.Value.None {
		return false
	}
	needs := o.FusingAt.Value.Milli
	most, ok := stands(p, it)
	return ok && needs <= most && milli(p, o.Setting.Value) < needs
}

// weakest names what allows no more: the fiber, or the care label of its cloth.
func weakest(c *worksheet.Cloth, dots int64) string {
	if int64(c.Cap) == dots && c.Weakest == c.Name {
		return "the " + c.Name
	}
	if int64(c.Cap) == dots && c.Weakest != "" {
		return "the " + c.Weakest + " in " + c.Name
	}
	return "the care label of " + c.Name
}
