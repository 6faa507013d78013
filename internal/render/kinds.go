package render

import (
	"io"
	"maps"
	"slices"
	"strings"

	"cutgate/internal/length"
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

// KindPage writes the worksheet of a kind: what it is worked from, each step with its
// formula and its source, the pieces, and the slips that are known.
func KindPage(w io.Writer, k *worksheet.Kind, o Options) error {
	p := newSheet(o)
	p.line(p.ink(headInk, k.Name))
	p.line("")
	p.line(p.ink(headInk, "Cloths"))
	for _, r := range k.Roles {
		says := "`" + r.Field + "`"
		if r.Else != "" {
			says += ", or the cloth of the " + r.Else
		}
		p.para(2, r.Name, plainInk, 28, says, plainInk)
	}
	p.line("")
	p.line(p.ink(headInk, "Worked from"))
	for i := range k.Given {
		g := &k.Given[i]
		if len(g.From) == 0 || strings.Contains(g.From[0], "/") {
			if text := silence(g); text != "" {
				p.para(2, unstated(g.Term), plainInk, 28, text, plainInk)
			}
			continue
		}
		says := "`" + strings.Join(g.From, "`, `") + "`"
		if text := silence(g); text != "" {
			says += "; where it is not stated, " + text
		}
		p.para(2, unstated(g.Term), plainInk, 28, says, plainInk)
	}
	p.line("")
	p.line(p.ink(headInk, "Worked out"))
	for i := range k.Steps {
		s := &k.Steps[i]
		text := s.Formula
		if text == "" {
			text = "depends on " + strings.Join(s.Reads, ", ")
		}
		if s.When != "" {
			text += "   [when " + s.When + "]"
		}
		if s.Source != "" && s.Source != worksheet.Common && s.Source != "the order" {
			text += "   (" + s.Source + ")"
		}
		p.para(2, s.Term, plainInk, 28, text, plainInk)
	}
	p.line("")
	p.line(p.ink(headInk, "Pieces"))
	for _, q := range k.Pieces {
		p.para(2, q.Name, plainInk, 28, "{"+q.Width+"} across × {"+q.Length+"} along, of the "+q.Role+" cloth", plainInk)
	}
	if len(k.Slips) > 0 {
		p.line("")
		p.line(p.ink(headInk, "Known slips"))
		for _, s := range knownSlips(k) {
			p.para(2, s.Of, plainInk, 28, s.Name+": "+s.Formula, plainInk)
		}
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// knownSlips are the slips of a kind, each once and in its plainest case: those for cloth
// that shrinks or has a repeat are worked out like it.
func knownSlips(k *worksheet.Kind) (list []worksheet.Slipping) {
	type slip struct{ of, name string }
	at := map[slip]int{}
	for _, s := range k.Slips {
		if s.Name == "" || strings.HasSuffix(s.Name, ", and the repeat was ignored") {
			continue
		}
		key := slip{s.Of, s.Name}
		if i, ok := at[key]; !ok {
			at[key] = len(list)
			list = append(list, s)
		} else if len(s.Formula) < len(list[i].Formula) {
			list[i] = s
		}
	}
	return list
}

// unstated is the term for a choice without what sets it apart from what is worked out.
func unstated(term string) string { return strings.TrimSuffix(term, " stated") }

// silence is what a choice is where an order does not say it, in both systems where
// they differ.
func silence(g *worksheet.Given) string {
	inches, metric := g.Silence(length.In), g.Silence(length.CM)
	if strings.HasPrefix(metric, "0.") && strings.HasSuffix(metric, " cm") {
		metric = g.Silence(length.MM)
	}
	switch {
	case inches == "":
		return ""
	case g.As != "":
		return "the same as the " + g.As
	case inches == metric:
		return inches
	}
	return inches + ", or " + metric + " in a metric order"
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
