package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

var unknownCloth = &rule.Rule{
	ID:    "form/unknown-cloth",
	Title: "cloth that the order does not list",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Run:   runUnknownCloth,
	Doc: `
Checks
Whether every cloth named by an item, a part of it, a cut or a measurement is one
of the order's cloths.

Because
An item whose cloth is not known can't be worked out: its widths, its pieces and
what to buy all depend on the cloth.

Working
Names are compared letter by letter. One unknown name in several places is one
mistake.

Correction
A name that differs only in capitals, spaces or hyphens is certain. One that is a
few letters off is changed with --likely.

Source
common practice, no source
`,
}

// A call is a place that names a cloth.
type call struct {
	name string
	at   source.Range
	edit func(*rule.Pass, string) (finding.Edit, bool)
}

func runUnknownCloth(p *rule.Pass) {
	if len(p.Order.Cloths) == 0 && p.Order.Misspelt(p.Order.At, "cloths") {
		return
	}
	names := make([]string, len(p.Order.Cloths))
	known := map[string]bool{}
	for i := range p.Order.Cloths {
		names[i] = p.Order.Cloths[i].Name
		known[names[i]] = true
	}
	calls := unknownCalls(p.Order, known)
	byName := map[string][]call{}
	for _, c := range calls {
		byName[c.name] = append(byName[c.name], c)
	}
	for _, c := range calls {
		if known[c.name] {
			continue
		}
		known[c.name] = true
		f := finding.Finding{At: c.at, Stated: c.name, Message: fmt.Sprintf("The order lists no cloth %s: list it, or name one that is listed.", quote(c.name))}
		near, same := nearest(c.name, names)
		fix := finding.Fix{Title: "Name the cloth " + near, Sureness: finding.Likely}
		if same {
			fix.Sureness = finding.Certain
		}
		if near != "" {
			f.Corrected = near
			f.Message = fmt.Sprintf("The order lists no cloth %s: did you mean %s?", quote(c.name), near)
		}
		for k, again := range byName[c.name] {
			if k > 0 {
				f.Related = append(f.Related, finding.Related{Range: again.at, Message: "named here too"})
			}
			if near == "" {
				continue
			}
			if edit, ok := again.edit(p, near); ok {
				fix.Edits = append(fix.Edits, edit)
			}
		}
		if len(fix.Edits) > 0 {
			f.Fixes = []finding.Fix{fix}
		}
		p.Report(f)
	}
}

// unknownCalls are the places of an order that name a cloth which is not known.
func unknownCalls(o *order.Order, known map[string]bool) (list []call) {
	for i := range o.Items {
		for leaf := range o.Items[i].Calls {
			if !leaf.Set || known[leaf.Value] {
				continue
			}
			list = append(list, call{leaf.Value, leaf.At, func(p *rule.Pass, name string) (finding.Edit, bool) {
				if !p.Editable(leaf.Node) {
					return finding.Edit{}, false
				}
				return p.Set(leaf.Node, name), true
			}})
		}
	}
	if len(o.Measured) == 0 {
		return list
	}
	measured := map[string]*order.Node{}
	if n := o.Root.Kid("measured"); n != nil && n.Form == order.Map {
		for i := range n.Kids {
			if kid := &n.Kids[i]; measured[kid.Name] == nil {
				measured[kid.Name] = kid
			}
		}
	}
	for i := range o.Measured {
		m := &o.Measured[i]
		if known[m.Name] {
			continue
		}
		list = append(list, call{m.Name, m.Key, func(p *rule.Pass, name string) (finding.Edit, bool) {
			n := measured[m.Name]
			if !p.Renamable(n) || measured[name] != nil {
				return finding.Edit{}, false
			}
			return p.SetKey(n, name), true
		}})
	}
	return list
}
