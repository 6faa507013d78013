package form

import (
	"fmt"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

var unknownField = &rule.Rule{
	ID:    "form/unknown-field",
	Title: "unknown field",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Run:   runUnknownField,
	Doc: `
Checks
Whether every field on the order is one the form has, in that place.

Because
What stands under a misspelt name is not read: the house's usual, or nothing, would be
used instead.

Working
A name a letter or two off one of the fields is taken for that one, unless that is
given already. One that the order has in one other place is named with it. Where no column of a table is headed cloth, one that lists only names of
its cloths is taken for it, whatever its heading. A decimal comma inside { } cuts a
number in two, and its end then looks like a field.

Correction
With --likely, a near miss is renamed, and a lost cloth heading is written in. A number cut in two at its comma is put in quotes.

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
			out.Message = unknown(p, f) + ": " + f.Detail + "."
			out.Fixes = putInQuotes(p, f)
			if !f.Related.IsZero() {
				out.At = source.Range{Start: f.Related.Start, End: f.At.End}
			}
		case !f.Related.IsZero():
			out.Message = fmt.Sprintf("%s means the same as `%s`, which is given too: which is right?", field(f), f.Nearest)
			out.Related = []finding.Related{{Range: f.Related, Message: "the one that was used"}}
			out.Fixes = finding.Advice("Take out the wrong one")
		case flawsOfCloth(f):
			cloth := strings.TrimSuffix(strings.TrimPrefix(f.Path, "cloths."), "."+f.Name)
			out.Message = fmt.Sprintf("%s: what is found at the bench is written under `measured`, as in measured: {%s: {flaws: [{from: 3 yd, to: 3 1/4 yd}]}}.", unknown(p, f), cloth)
		case f.Elsewhere != nil:
			out.Message = fmt.Sprintf("%s: write it %s.", unknown(p, f), placesOf(f))
		case f.Nearest != "":
			out.Message = fmt.Sprintf("%s: did you mean `%s`?", unknown(p, f), f.Nearest)
			title := "Rename it " + f.Nearest
			if f.Name == "" {
				out.Message = fmt.Sprintf("This column names cloths and has no heading: head it `%s`.", f.Nearest)
				title = "Head it " + f.Nearest
			}
			to := place{groups[f.Node], f.Nearest}
			if p.Renamable(f.Node) && to.group.Kid(f.Nearest) == nil && !renamed[to] {
				renamed[to] = true
				out.Corrected = f.Nearest
				out.Fixes = []finding.Fix{{
					Title: title, Sureness: finding.Likely, Edits: []finding.Edit{p.SetKey(f.Node, f.Nearest)},
				}}
			}
		case len(f.Words) > 0 && f.Node != nil && f.Node.Cell:
			out.Message = unknown(p, f) + ": write " + oneOf(f.Words[:min(len(f.Words), fewFields)]) + ". If it is a column of your own, begin its heading with #."
		case len(f.Words) > 0 && len(f.Words) <= fewFields:
			out.Message = fmt.Sprintf("%s; it can have %s.", unknown(p, f), worksheet.All(f.Words))
		default:
			out.Message = unknown(p, f)
			if kind := kindAt(p, f); kind != "" {
				out.Message += fmt.Sprintf(": see cutgate kinds %s, or put it under `notes` if nothing is worked from it", kind)
			}
			out.Message += "."
			if f.Node != nil && f.Node.Cell && strings.EqualFold(f.Name, "repeat") {
				out.Message += " The repeat of a cloth is written where the cloths are listed, under `repeat length`."
			} else if f.Node != nil && f.Node.Cell {
				out.Message += " If it is a column of your own, begin its heading with #, or list it under `columns` in house.cue."
			}
		}
		p.Report(out)
	}
}

// placesOf is where a field that stands in the wrong place may be written, in words.
func placesOf(f *order.Flaw) string {
	inTable := f.Node != nil && f.Node.Cell
	var places []string
	for _, path := range f.Elsewhere {
		if inTable {
			places = append(places, "`"+heading(path)+"`")
		} else {
			places = append(places, placeOf(f.Name, path))
		}
	}
	if inTable {
		return "in a column headed " + worksheet.Any(places)
	}
	return worksheet.Any(places)
}

// placeOf is where what was written as a field is written, in words.
func placeOf(field, path string) string {
	in, name := path[:max(0, strings.LastIndexByte(path, '.'))], path[strings.LastIndexByte(path, '.')+1:]
	as := ""
	if name != field && !strings.HasSuffix(in, ".cord") { // of a cord, it may be anything
		as = "as `" + name + "` "
	}
	if _, block, ok := strings.Cut(in, "]."); ok {
		return as + "under `" + block + "`"
	}
	switch {
	case in == "":
		return as + "at the head of the order"
	case strings.HasPrefix(in, "cloths."):
		if _, block, ok := strings.Cut(strings.TrimPrefix(in, "cloths."), "."); ok {
			as += "under `" + block + "`, "
		}
		return as + "on its cloth, under `cloths`"
	}
	return as + "on the item itself"
}

// flawsOfCloth reports whether a field is the flaws of a cloth, which are not written under it.
func flawsOfCloth(f *order.Flaw) bool {
	name := strings.ToLower(f.Name)
	return strings.HasPrefix(f.Path, "cloths.") && strings.Count(f.Path, ".") == 2 && (name == "flaws" || name == "flaw") && (f.Node == nil || !f.Node.Cell)
}

// unknown says that a field is not known, as a sentence without its end.
func unknown(p *rule.Pass, f *order.Flaw) string {
	if kind := kindAt(p, f); kind != "" {
		a := "A"
		if strings.ContainsAny(kind[:1], "aeiouAEIOU") {
			a = "An"
		}
		return fmt.Sprintf("%s %s has no %s", a, kind, field(f))
	}
	if f.Node != nil && f.Node.Cell {
		return fmt.Sprintf("The heading %s is not known", field(f))
	}
	in := group(strings.TrimSuffix(strings.TrimSuffix(f.Path, f.Name), "."))
	return fmt.Sprintf("%s takes no %s", begin(in), field(f))
}

// kindAt is the kind of the item that an unknown field was given to; "" where the
// field is not an item's own.
func kindAt(p *rule.Pass, f *order.Flaw) string {
	of, item := strings.CutPrefix(f.Path, "items[")
	number, field, _ := strings.Cut(of, "].")
	if i, err := strconv.Atoi(number); err == nil && item && i < len(p.Order.Items) && field == f.Name {
		return p.Order.Items[i].Kind.Value
	}
	return ""
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
