package cloth

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var halvesLeft = &rule.Rule{
	ID:    "cloth/halves-left",
	Title: "half widths left over would do for each other",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runHalvesLeft,
	Doc: `
Checks
Panels of one plain cloth that end in half a width, where the other half of that width is
left over.

Because
Of a pair of one and a half widths each, one width is split for both. A single panel leaves
half a width over, and so does the next one: one width split for the two of them is a whole
cut less.

Working
Each half is used for one that is as long or shorter. Reported where the cloth to buy is
then a selling step less. Not looked for in a cloth with a pattern, as a half joins on by
one of its edges only, nor where the way of cutting, bolts or flaws are stated.

Correction
Shown: cut a width less, and split one.

Source
common practice, no source
`,
}

func runHalvesLeft(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		h, ok := p.Sheet.Halves(c)
		if !ok || misordered(p, c) {
			continue
		}
		names := make([]string, len(h.Items))
		for j, item := range h.Items {
			names[j] = itemName(p, item)
		}
		slices.Sort(names)
		split := "a width for two of them"
		if h.Widths > 1 {
			split = fmt.Sprintf("%d widths, each for two of them,", h.Widths)
		}
		saved := c.ToBuy.Value.Length() - h.ToBuy
		p.Report(finding.Finding{
			At: c.Order.At,
			Message: fmt.Sprintf("Half widths of %s are left over from %s: split %s and it takes %s, %s less.",
				c.Name, worksheet.FirstOf(names, 4), split, toBuy(p, c, h.ToBuy), toBuy(p, c, saved)),
			Working: c.ToBuy.Working(p.Sheet.Unit),
			Source:  worksheet.Common,
			Fixes:   finding.Advice(fmt.Sprintf("Cut %s less, and use the halves for each other", worksheet.Many(h.Widths, "width"))),
		})
	}
}

// itemName is what an item is called, and how many there are of it.
func itemName(p *rule.Pass, item int) string {
	it := &p.Sheet.Items[item]
	switch name := it.Order.ID.Value; {
	case name != "" && it.Quantity > 1:
		return fmt.Sprintf("%s (%d)", name, it.Quantity)
	case name != "":
		return name
	case it.Quantity > 1:
		return "the " + worksheet.Many(it.Quantity, it.Order.Kind.Value)
	}
	return "the " + it.Order.Kind.Value
}
