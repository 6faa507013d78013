package house

import (
	"fmt"
	"strings"

	"cutgate/internal/trade"
	"cutgate/schema"
)

// A Practice is one thing that is done where an order does not say, or that
// limits what is.
type Practice struct {
	Table  string // "allowances", "hems", "headings", "seams" or "classes"
	Row    string // the hem, the heading, the seam or the class; "" for an allowance
	Name   string // of the field, as house.cue has it
	Says   string // what it is, of an allowance
	Share  bool   // it is a part of one, said as a percentage
	Value  string
	Source string // who says so
	Line   int    // of house.cue; 0 where the table stands
	Usual  string // the table's value, where the shop has another; "" where it has none
}

// Practices are all that is in force under a house, or under none where h is
// nil. Tables are the trade's own.
func Practices(h *House, tables *trade.Tables) ([]Practice, error) {
	var c struct {
		Trade struct {
			House    map[string]any   `json:"house"`
			Headings []map[string]any `json:"headings"`
			Seams    []map[string]any `json:"seams"`
			Classes  []map[string]any `json:"classes"`
		} `json:"trade"`
		Allowances []struct {
			Name, Says string
			Share      bool
		} `json:"allowances"`
	}
	if err := decodeText(schema.Compiled, &c); err != nil {
		return nil, fmt.Errorf("reading the compiled tables: %w", err)
	}
	var hems []map[string]any
	rows, _ := c.Trade.House["hems"].([]any)
	for _, row := range rows {
		if m, ok := row.(map[string]any); ok {
			hems = append(hems, m)
		}
	}
	if h == nil {
		h = &House{Tables: tables}
	}
	l := lister{house: h}
	t := h.Tables
	for _, a := range c.Allowances {
		l.add(Practice{Table: "allowances", Name: a.Name, Says: a.Says, Share: a.Share, Source: t.SelfSource(a.Name)}, c.Trade.House[a.Name], h.given[a.Name])
	}
	l.hems(t.House.Hems, hems)
	for i, row := range c.Trade.Headings {
		d := &t.Headings[i]
		l.row("headings", d.Style, row, headingSources(d), "least", "usual", "most", "sheer_most", "allowance")
	}
	for i, row := range c.Trade.Seams {
		s := &t.Seams[i]
		l.row("seams", s.Name, row, seamSources(s), "least", "usual", "most", "trim")
	}
	for i, row := range c.Trade.Classes {
		k := &t.Classes[i]
		l.row("classes", k.Name, row, classSources(k), "below", "hem_least", "stitches", "needle")
	}
	return l.list, nil
}

// A lister lists practices.
type lister struct {
	house *House
	list  []Practice
}

// add lists a practice: what the table has, and what the shop gives in its
// place, if it gives anything.
func (l *lister) add(p Practice, usual, own any) {
	p.Value = written(usual, nil)
	if own != nil {
		way := p.Name
		if p.Row != "" {
			way = path(p.Table, p.Row, p.Name)
		}
		p.Usual, p.Value, p.Line = p.Value, written(own, usual), l.house.lines[way]
		if p.Usual == p.Value {
			p.Usual = ""
		}
	}
	if p.Value != "" {
		l.list = append(l.list, p)
	}
}

// row lists the fields of a row.
func (l *lister) row(table, name string, usual map[string]any, sources map[string]*string, fields ...string) {
	rows, _ := l.house.given[table].(map[string]any)
	own, _ := rows[name].(map[string]any)
	for _, f := range fields {
		l.add(Practice{Table: table, Row: name, Name: f, Source: *sources[f]}, usual[f], own[f])
	}
}

// hems lists the hems, each of the shop's beside the table's that it replaces.
func (l *lister) hems(list []trade.HouseHem, usual []map[string]any) {
	given, _ := l.house.given["hems"].([]any)
	for i := range list {
		h := &list[i]
		p := Practice{Table: "hems", Row: hemName(h), Name: "turn", Source: h.Source}
		for _, row := range usual {
			if isHem(row, h) {
				p.Value = hemSaid(row)
			}
		}
		for _, row := range given {
			if own, _ := row.(map[string]any); isHem(own, h) {
				p.Usual, p.Value, p.Line = p.Value, hemSaid(own), l.house.lines[path("hems", p.Row)]
			}
		}
		if p.Usual == p.Value {
			p.Usual = ""
		}
		l.list = append(l.list, p)
	}
}

// isHem reports whether a row is for the edge that h is for.
func isHem(row map[string]any, h *trade.HouseHem) bool {
	where, _ := row["where"].(string)
	return row["item"] == h.Item && row["edge"] == h.Edge && where == h.Where
}

func hemSaid(row map[string]any) string {
	return inBoth(row["turn"], row["turn"], func(turn, _ any) string { return fmt.Sprint(turn) }) + fmt.Sprintf(" × %v", row["folds"])
}

// inBoth says something of two lengths: once, or for inch orders and for metric ones
// where one of them is a pair.
func inBoth(a, b any, say func(a, b any) string) string {
	in, cm, two := strings.Cut(fmt.Sprint(a), " / ")
	in2, cm2, two2 := strings.Cut(fmt.Sprint(b), " / ")
	switch {
	case !two && !two2:
		return say(a, b)
	case !two:
		cm = in
	case !two2:
		cm2 = in2
	}
	return say(in, in2) + " / " + say(cm, cm2)
}

// written is a value as it is written in a table or a house, without quotes.
// What a group leaves out is as in the usual one.
func written(v, usual any) string {
	switch v := v.(type) {
	case nil:
		return ""
	case bool:
		return yes(v)
	case map[string]any:
		other, _ := usual.(map[string]any)
		of := func(name string) any {
			if v[name] != nil {
				return v[name]
			}
			return other[name]
		}
		return inBoth(of("least"), of("most"), func(least, most any) string { return fmt.Sprintf("%v to %v", least, most) })
	}
	return fmt.Sprint(v)
}
