package form

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

var unknownField = &rule.Rule{
	ID:    "form/unknown-field",
	Title: "field that the form does not have",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Run:   runUnknownField,
	Doc: `
Checks
Whether every name on the order is a field of the form, in the group where it
stands.

Because
What a misspelt field says is not looked at: the house's own value, or none,
would be taken in its place.

Working
A name that is a letter or two off one of the group's fields is taken for that
one, if it is not given yet. A decimal comma inside { } cuts a number in two, and
its end then looks like a field.

Correction
A near miss is renamed on request. A number that was cut in two at its comma is
put in quotes.

Source
common practice, no source
`,
}

// fewFields is how many fields a message lists.
const fewFields = 8

func runUnknownField(p *rule.Pass) {
	list := flaws(p, order.UnknownField)
	if len(list) == 0 {
		return
	}
	groups := map[*order.Node]*order.Node{} // of each field, the group that it stands in
	regroup(groups, p.Order.Root)
	type place struct {
		group *order.Node
		field string
	}
	renamed := map[place]bool{} // a field is meant once
	for _, f := range list {
		out := finding.Finding{At: f.At, Stated: f.Name}
		switch {
		case f.Detail != "":
			out.Message = and("There is no field "+field(f)+" here.", f.Detail)
			out.Fixes = putInQuotes(p, f)
			if !f.Related.IsZero() {
				out.At = source.Range{Start: f.Related.Start, End: f.At.End}
			}
		case !f.Related.IsZero():
			out.Message = fmt.Sprintf("%s is another name for `%s`, which is given already. Which one is meant?", field(f), f.Nearest)
			out.Related = []finding.Related{{Range: f.Related, Message: "the one that was taken"}}
			out.Fixes = []finding.Fix{{Title: "Take out the one that is not meant"}}
		case f.Nearest != "":
			out.Message = fmt.Sprintf("There is no field %s here: did you mean `%s`?", field(f), f.Nearest)
			to := place{groups[f.Node], f.Nearest}
			if p.Renamable(f.Node) && to.group.Kid(f.Nearest) == nil && !renamed[to] {
				renamed[to] = true
				out.Corrected = f.Nearest
				out.Fixes = []finding.Fix{{
					Title: "Rename it " + f.Nearest, Sureness: finding.Likely, Edits: []finding.Edit{p.SetKey(f.Node, f.Nearest)},
				}}
			}
		case len(f.Words) > 0 && len(f.Words) <= fewFields:
			out.Message = fmt.Sprintf("There is no field %s here; the fields are %s.", field(f), strings.Join(f.Words, ", "))
		default:
			out.Message = fmt.Sprintf("There is no field %s here.", field(f))
			if f.Node != nil && f.Node.Cell {
				out.Message += " A column of the shop's own has a heading that begins with #, or that `columns` in house.cue lists."
			}
		}
		p.Report(out)
	}
}

// putInQuotes puts a number that a comma cut in two back together.
func putInQuotes(p *rule.Pass, f *order.Flaw) []finding.Fix {
	if f.Related.IsZero() || !p.Editable(f.Node) {
		return nil
	}
	whole := p.Order.File.Text[f.Related.Start:f.At.End]
	return []finding.Fix{{
		Title: "Put " + clip(whole) + " in quotes", Sureness: finding.Certain,
		Edits: []finding.Edit{
			{Range: source.Range{Start: f.Related.Start, End: f.Related.Start}, Text: `"`},
			{Range: source.Range{Start: f.At.End, End: f.At.End}, Text: `"`},
		},
	}}
}

// regroup notes of each field below n which group it stands in.
func regroup(groups map[*order.Node]*order.Node, n *order.Node) {
	for i := range n.Kids {
		groups[&n.Kids[i]] = n
		regroup(groups, &n.Kids[i])
	}
}
