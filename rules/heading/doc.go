// Package heading checks the top of a curtain: its fullness, and the pleats, tabs, tape
// or pocket that take it up.
package heading

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// suits is the span of fullness that suits a heading, in words: "2 to 2.5", "3".
func suits(least, most length.Ratio) string {
	if least.Cmp(most) == 0 {
		return least.Format(2)
	}
	return least.Format(2) + " to " + most.Format(2)
}

// wrong reports whether one of the item's quantities of those names is already
// found wrong.
func wrong(p *rule.Pass, it *worksheet.Item, names ...worksheet.Name) bool {
	return p.Sheet.InDoubt(it.Index, "", names...)
}

// fullness reports headings whose fullness, as it is stated or as panels of a stated width
// make it, is under a limit, where side is -1, or over it, where side is 1. Is says so.
func fullness(p *rule.Pass, side int, is string, limitOf func(*worksheet.Item) (limit length.Ratio, source string)) {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		h, stated, panel, made := it.Heading, &it.Order.Heading.Fullness, &it.Order.PanelWidth, it.Get(worksheet.Fullness)
		if h == nil || p.Sheet.Doubted(stated.Node) {
			continue
		}
		limit, source := limitOf(it)
		f := finding.Finding{
			Source: source,
			Fixes:  finding.Advice("Ask, or work with a fullness of " + h.Usual.Format(2)),
		}
		switch {
		case stated.Set && stated.Value.Cmp(limit) == side:
			f.At, f.Stated = stated.At, stated.Node.Text
			f.Message = fmt.Sprintf("A fullness of %s is %s", stated.Value.Format(2), is)
		case panel.Set && made != nil && made.Value.R.Cmp(limit) == side && !wrong(p, it, worksheet.FinishedWidth):
			f.At, f.Stated, f.Working = panel.At, panel.Node.Text, made.Working(p.Sheet.Unit)
			f.Message = fmt.Sprintf("Panels of %s make a fullness of %s, %s", p.Show(panel.Value), made.Value.R.Format(2), is)
		default:
			continue
		}
		high, _ := it.Fullest()
		f.Message += fmt.Sprintf(" for %s; %s is usual.", name(h.Style), suits(h.Least, high))
		p.Report(f)
	}
}

// name is what a heading is made of, in the plural: "pencil pleats", "eyelets".
func name(style string) string {
	switch style {
	case "gathered":
		return "gathers"
	case "wave", "goblet", "cartridge", "tab", "eyelet", "pencil pleat", "pinch pleat", "box pleat", "single pinch pleat",
		"double pinch pleat", "triple pinch pleat":
		return style + "s"
	}
	return "a " + style
}
