package rule

import (
	"cmp"
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/worksheet"
)

// A Guard is a rule that only compares terms of one kind of goods, or of several.
type Guard struct {
	ID, Title string
	Level     finding.Level
	Kinds     []string            // of goods
	When      worksheet.Condition // what is wrong, in the kinds' terms
	At        []string            // the field reported, and others for where that is not stated
	Message   string              // a term in braces is printed with its unit
	Checks    string              // a sentence for the rule's page
	Because   string
	Source    string
	Put       string // what a likely fix writes at the first of At: a term in braces, or a word; "" for none
	Fix       string // what that fix is called; terms as in Message
	Likely    string // the same for the rule's page, where Fix has terms
}

// Guards makes rules of guards.
func Guards(guards []Guard) []*Rule {
	list := make([]*Rule, len(guards))
	for i := range guards {
		list[i] = guards[i].Rule()
	}
	return list
}

// Rule makes a rule of it.
func (g *Guard) Rule() *Rule {
	r := &Rule{ID: g.ID, Title: g.Title, Level: g.Level, Table: true, Run: g.run, page: g.page}
	if g.Put != "" {
		r.Fix, r.Asked = Always, true
		if len(g.At) > 1 {
			r.Fix = Sometimes // where another field is reported there is nothing to write
		}
	}
	return r
}

// page is the guard's Doc.
func (g *Guard) page() string {
	correction := ""
	if g.Put != "" {
		correction = "\n\nCorrection\n" + fold("Likely: "+lower(cmp.Or(g.Likely, g.Fix))+". One of the other figures may be wrong instead.")
	}
	return "\nChecks\n" + fold(g.Checks) + "\n\nBecause\n" + fold(g.Because) + "\n\nWorking\n" + fold("Reported when "+said(string(g.When))+".") +
		correction + "\n\nSource\n" + fold(g.Source) + "\n"
}

func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// fold breaks a text into lines of a page.
func fold(text string) string {
	var b strings.Builder
	at := 0
	for i, word := range strings.Fields(text) {
		switch {
		case i == 0:
		case at+1+len(word) > 80:
			b.WriteByte('\n')
			at = 0
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(word)
		at += len(word)
	}
	return b.String()
}

func (g *Guard) run(p *Pass) {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		if !slices.Contains(g.Kinds, it.Order.Kind.Value) || !it.Meets(g.When) || p.Sheet.Unsettled(i) {
			continue
		}
		f := finding.Finding{At: it.Order.Kind.At, Message: it.Say(g.Message), Source: g.Source}
		for j, path := range g.At {
			n := p.fieldOf(i, path)
			if n == nil || n.Form != order.Scalar && n.Form != order.Number && n.Form != order.Truth {
				continue
			}
			f.At, f.Stated = n.At, n.Text
			if j == 0 && g.Put != "" {
				f.Corrected = g.put(it, n)
				f.Fixes = p.Likely(n, f.Corrected, it.Say(g.Fix))
				if p.Choosing(n) < finding.Likely { // what was worked from it would have to be written anew
					f.Fixes = []finding.Fix{{Title: it.Say(g.Fix)}}
				}
			}
			break
		}
		p.Report(f)
	}
}

// put is what the fix writes at n.
func (g *Guard) put(it *worksheet.Item, n *order.Node) string {
	term, ok := strings.CutPrefix(g.Put, "{")
	if !ok {
		return g.Put
	}
	return it.Sheet.Print(n, it.Value(strings.TrimSuffix(term, "}")), length.Nearest)
}

// fieldOf is the field at a path of an item, as written; nil where it is not.
func (p *Pass) fieldOf(item int, path string) *order.Node {
	items := p.Order.Root.Kid("items")
	if items == nil || item >= len(items.Kids) {
		return nil
	}
	n := &items.Kids[item]
	for name := range strings.SplitSeq(path, ".") {
		n = n.Kid(name)
	}
	return n
}
