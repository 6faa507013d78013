package lint

import (
	"slices"
	"sort"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/fix"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// A Change is one thing that was written otherwise, for a person to read.
type Change struct {
	At       source.Range // in the new text
	Field    string       // "side width"
	Was, Now string       // on one line and of a readable length; Was is "" for a blank
	Rule     string       // or Filled
	Sureness finding.Sureness
}

// changes adds the changes of one fix.
func (m *mending) changes(list []Change, a *fix.Applied) []Change {
	r := &m.rounds[a.Round-1]
	if a.Finding.Rule == Filled {
		return r.filled(list, a)
	}
	for i := 0; i < len(a.Edits); i++ {
		at, now, text := a.Edits[i].Range, a.Now[i], a.Edits[i].Text
		// What is only put in, as a quote mark is, goes with what follows.
		for a.Edits[i].Len() == 0 && i+1 < len(a.Edits) && r.inLine(at.Start, a.Edits[i+1].Start) {
			i++
			text += r.file.Text[at.End:a.Edits[i].Start] + a.Edits[i].Text
			at.End, now.End = a.Edits[i].End, a.Now[i].End
		}
		list = append(list, Change{
			At: now, Field: fieldOf(r.namesAt(at)), Was: r.legible(r.file.Slice(at)), Now: r.legible(text),
			Rule: a.Finding.Rule, Sureness: a.Fix.Sureness,
		})
	}
	return list
}

// inLine reports whether b comes after a on the same line.
func (r *round) inLine(a, b int) bool { return a <= b && !strings.Contains(r.file.Text[a:b], "\n") }

// filled adds the changes of a block whose blanks were filled in.
func (r *round) filled(list []Change, a *fix.Applied) []Change {
	fill := r.fills[a.Finding.At]
	for i, b := range fill.blanks {
		k := slices.Index(a.Edits, fill.edits[i])
		if k < 0 {
			continue
		}
		at := min(a.Now[k].Start+fill.at[i], a.Now[k].End)
		list = append(list, Change{
			At: source.Range{Start: at, End: a.Now[k].End}, Field: fieldOf(append(namesOn(fill.root, fill.leadTo(b.In)), b.Field)),
			Now: b.Text, Rule: Filled, Sureness: finding.Certain,
		})
	}
	return list
}

// merged puts the changes of one value in several rounds together: what it was
// at first, and what it is in the end.
func merged(list []Change) []Change {
	slices.SortStableFunc(list, func(a, b Change) int { return a.At.Start - b.At.Start })
	out := list[:0]
	for _, c := range list {
		// A quote mark may stand between the places.
		if n := len(out); n > 0 && out[n-1].Field == c.Field && c.At.Start <= out[n-1].At.Start+1 {
			c.Was = out[n-1].Was
			out[n-1] = c
			continue
		}
		out = append(out, c)
	}
	return out
}

// fieldOf is what people call the field that the names lead to: the last two,
// without that of the list at the top of the order.
func fieldOf(names []string) string {
	if len(names) > 1 {
		names = names[max(1, len(names)-2):]
	}
	return strings.ReplaceAll(strings.Join(names, " "), "_", " ")
}

// namesAt returns the names that lead to what stands at a place; to the group of
// a field, where it is the field's name.
func (r *round) namesAt(at source.Range) (names []string) {
	var in *order.Node
	var lead []*order.Node
	for _, o := range r.around(at) {
		if l := o.Lead(at); lead == nil && len(l) > 0 || in == nil && o.Root.At == at {
			in, lead = o.Root, l
		}
	}
	if n := len(lead); n > 0 && lead[n-1].Key == at && lead[n-1].At != at {
		lead = lead[:n-1] // a new name
	}
	return namesOn(in, lead)
}

// around are the orders that a place may be in: its own and those beside it where the
// orders stand one behind the other, or else all.
func (r *round) around(at source.Range) []*order.Order {
	if r.orders == nil {
		r.inTurn = true
		end := 0
		for i := range r.results {
			o := r.results[i].Order
			if o.Root == nil {
				continue
			}
			r.orders = append(r.orders, o)
			r.inTurn = r.inTurn && o.Root.At.Start >= end
			end = o.Root.At.End
		}
	}
	if !r.inTurn {
		return r.orders
	}
	i := sort.Search(len(r.orders), func(i int) bool { return r.orders[i].Root.At.End >= at.Start })
	return r.orders[max(0, i-1):min(len(r.orders), i+2)]
}

// leadTo returns the nodes that lead from below the root to n, or nil.
func (f *filling) leadTo(n *order.Node) (lead []*order.Node) {
	for n != f.root && n != nil {
		lead = append(lead, n)
		n = f.parents[n]
	}
	slices.Reverse(lead)
	return lead
}

// parents are the nodes that others are entries of.
func parents(root *order.Node) map[*order.Node]*order.Node {
	of := map[*order.Node]*order.Node{}
	var walk func(n *order.Node)
	walk = func(n *order.Node) {
		for i := range n.Kids {
			k := &n.Kids[i]
			of[k] = n
			walk(k)
		}
	}
	walk(root)
	return of
}

// namesOn returns the names of the nodes that lead on from a root.
func namesOn(in *order.Node, lead []*order.Node) (names []string) {
	for _, kid := range lead {
		name := kid.Name
		if in.Form == order.List {
			name = entryName(kid, in.Index(kid))
		}
		if in.Name == "cuts" {
			name += " cut" // the width of a side, and not of its hem
		}
		names = append(names, name)
		in = kid
	}
	return names
}

// entryName is what an entry of a list goes by: its id, its piece, what it is, or
// else its number.
func entryName(n *order.Node, i int) string {
	if name := n.GoesBy("item"); name != "" {
		return name
	}
	return strconv.Itoa(i + 1)
}

// legible is a piece of the round's text as [legible] has it; in a CSV text a
// quote mark is written twice.
func (r *round) legible(text string) string {
	text = legible(text)
	if r.file.Table != nil && !r.file.Drawn() {
		text = strings.ReplaceAll(text, `""`, `"`)
	}
	return text
}

// longestChange is the most characters of a changed text that are shown.
const longestChange = 40

// legible is a piece of the order's text on one line, without its own quote marks.
func legible(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	if n := len(text); n >= 2 && text[0] == text[n-1] && (text[0] == '"' || text[0] == '\'') {
		text = text[1 : n-1]
	}
	if letters := []rune(text); len(letters) > longestChange {
		text = string(letters[:longestChange-1]) + "…"
	}
	return text
}
