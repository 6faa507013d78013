package fabric

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

var clothUnused = &rule.Rule{
	ID:    "fabric/cloth-unused",
	Title: "cloth that no item uses",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runClothUnused,
	Doc: `
Checks
Whether every cloth on the order is used by an item, a lining, an interlining, a piping or
a cut.

Because
An unused cloth is left over from another order, or an item names the wrong one.

Working
Names are compared letter by letter. Not checked while a name is unknown or part of the
order can't be read.

Source
common practice, no source
`,
}

func runClothUnused(p *rule.Pass) {
	used := map[string]bool{}
	for i := range p.Order.Items {
		it := &p.Order.Items[i]
		if !it.Kind.Set || unsure(p.Order, it.At) {
			return
		}
		for n := range it.Calls {
			if n.Set && p.Sheet.Cloth(n.Value) == nil || n.Node != nil && n.Node.Unread {
				return
			}
			used[n.Value] = used[n.Value] || n.Set
		}
	}
	if p.Order.Misspelt(p.Order.At, "items") {
		return
	}
	for i := range p.Order.Cloths {
		if c := &p.Order.Cloths[i]; !used[c.Name] {
			p.Report(finding.Finding{
				At:      c.Key,
				Message: fmt.Sprintf("No item uses the cloth %s.", c.Name),
				Source:  worksheet.Common,
				Fixes:   finding.Advice("Take the cloth off the order, or name it where it is used"),
			})
		}
	}
}

// unsure reports whether something in a place on the form could not be read that
// may name a cloth: its name, or the group that it stands in.
func unsure(o *order.Order, in source.Range) bool {
	for _, field := range []string{"cloth", "lining", "interlining", "piping", "back", "wadding", "interfacing", "border", "cuff", "deck", "join", "liner", "band",
		"tabs", "heading", "tie_backs", "cuts", "item"} {
		if o.Misspelt(in, field) {
			return true
		}
	}
	return false
}
