package fabric

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/trade"
)

var fiberUnknown = &rule.Rule{
	ID:    "fabric/fiber-unknown",
	Title: "fiber without its generic name",
	Level: finding.Warning,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runFiberUnknown,
	Doc: `
Checks
Whether every fiber has its generic name: polyester, not a maker's trade name for it.

Because
How hot a cloth may be ironed, and whether it shrinks, is known from the generic name. A
label has to give that name too.

Working
Names are looked up among the generic names and the trade names of the tables.
Words before a generic name, as in organic cotton, its raw material, as in viscose from
bamboo, and "other fibers" are all right.

Correction
With --likely, a trade name or a near miss becomes the generic name, if the cloth does
not name that fiber already.

Source
16 CFR 303, generic names, from memory
`,
}

func runFiberUnknown(p *rule.Pass) {
	for i := range p.Order.Cloths {
		c := &p.Order.Cloths[i].Of
		for k := range c.Fiber {
			e := &c.Fiber[k]
			if _, ok := generic(p.Tables, e.Name); ok || isOther(e.Name) {
				continue
			}
			f := finding.Finding{At: e.Key, Stated: e.Name, Source: "16 CFR 303, generic names, from memory"}
			name := ""
			if fiber, ok := p.Tables.FiberByBrand(e.Name); ok {
				name = fiber.Name
				f.Message = fmt.Sprintf("“%s” is a trade name; the fiber's generic name is %s.", e.Name, name)
			} else if name = nearest(e.Name, names(p.Tables)); name != "" && len(e.Name) > 3 {
				f.Message = fmt.Sprintf("“%s” is not a generic fiber name: did you mean %s?", e.Name, name)
			} else { // a mill's code of two or three letters is near to all of them
				name = ""
				f.Message = fmt.Sprintf("“%s” is not a generic fiber name that cutgate knows, so how hot it may be ironed is not known: write the generic name.", e.Name)
			}
			if name != "" {
				f.Corrected = name
			}
			if name != "" && p.Renamable(e.Of.Node) && !named(p.Tables, c, name) {
				f.Fixes = []finding.Fix{{
					Title: "Name it " + name, Sureness: finding.Likely, Edits: []finding.Edit{p.SetKey(e.Of.Node, name)},
				}}
			}
			p.Report(f)
		}
	}
}

// names are all generic names.
func names(t *trade.Tables) (list []string) {
	for i := range t.Fibers {
		list = append(append(list, t.Fibers[i].Name), t.Fibers[i].Also...)
	}
	return list
}

// named reports whether a cloth names the fiber already.
func named(t *trade.Tables, c *order.Cloth, name string) bool {
	want, _ := t.FiberByName(name)
	for i := range c.Fiber {
		if f, ok := generic(t, c.Fiber[i].Name); ok && f == want {
			return true
		}
	}
	return false
}
