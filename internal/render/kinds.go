package render

import (
	"io"
	"maps"
	"slices"
	"strings"

	"cutgate/internal/rule"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// Kinds writes the list of the kinds of goods that are worked out, each with what it
// is cut from and into.
func Kinds(w io.Writer, kinds []*worksheet.Kind, o Options) error {
	p := newSheet(o)
	for _, k := range kinds {
		var pieces []string
		for _, q := range k.Pieces {
			if !slices.Contains(pieces, q.Name) {
				pieces = append(pieces, q.Name)
			}
		}
		p.para(0, k.Name, headInk, 18, strings.Join(pieces, ", "), plainInk)
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// Sources writes every source that the trade's tables, the kinds of goods and the rules
// name, with what rests on it.
func Sources(w io.Writer, kinds []*worksheet.Kind, tables *trade.Tables, rules []*rule.Rule, o Options) error {
	rests := map[string][]string{}
	add := func(source, what string) {
		source = strings.TrimSuffix(strings.TrimSpace(source), ".")
		if rest, ok := strings.CutPrefix(source, "Common practice"); ok {
			source = "common practice" + rest
		}
		if source != "" && source != "the order" && !slices.Contains(rests[source], what) {
			rests[source] = append(rests[source], what)
		}
	}
	tables.Sources(add)
	for _, k := range kinds {
		for i := range k.Steps {
			add(k.Steps[i].Source, k.Name+": "+k.Steps[i].Term)
		}
	}
	for _, r := range rules {
		for _, s := range r.Sections() {
			if s.Heading == "Source" {
				add(strings.Join(strings.Fields(s.Text), " "), r.ID)
			}
		}
	}
	p := newSheet(o)
	for i, source := range slices.Sorted(maps.Keys(rests)) {
		if i > 0 {
			p.line("")
		}
		p.para(0, "", plainInk, 0, source, headInk)
		p.para(2, "", plainInk, 4, strings.Join(rests[source], "; "), plainInk)
	}
	_, err := io.WriteString(w, p.String())
	return err
}
