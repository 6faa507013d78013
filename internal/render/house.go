package render

import (
	"bytes"
	"encoding/json"
	"io"
	"strconv"
	"strings"

	"cutgate/internal/house"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// The columns of a practice: its value, and who says so.
const (
	practiceColumn = 20
	hemColumn      = 31
	rowColumn      = 22
	levelColumn    = 34
)

// tableWords are the tables of practices, as headings.
var tableWords = map[string]string{
	"allowances": "ALLOWANCES, where an order does not say",
	"hems":       "HEMS, turn × folds, where an order does not say",
	"headings":   "HEADINGS, fullness and the allowance above the top",
	"seams":      "SEAMS, allowance from each piece",
	"classes":    "CLOTH CLASSES, by weight",
}

// House writes what is in force under a house, or under none where h is nil, and
// where each of it comes from. The rules are those that a house can set levels
// for.
func House(w io.Writer, h *house.House, list []house.Practice, rules []*rule.Rule, o Options) error {
	p := newSheet(o)
	if h == nil {
		p.line(p.ink(headInk, "HOUSE RULES"))
		p.rule("─", 0)
		p.para(0, "", plainInk, 0, "no "+house.FileName+" here or above: the built-in tables are used", plainInk)
	} else {
		name := "HOUSE RULES"
		if h.Name != "" {
			name += "  " + source.Show(h.Name)
		}
		p.both(name, headInk, source.Show(h.File), faintInk)
		p.rule("─", 0)
		p.para(0, "", plainInk, 0, "the shop's own: "+counts(h, list), plainInk)
	}
	if h != nil {
		p.ownGoods(h)
		p.ownRules(h)
		p.houseLevels(h, rules)
	}
	for len(list) > 0 {
		n := 1
		for n < len(list) && list[n].Table == list[0].Table {
			n++
		}
		p.line("")
		p.para(0, "", plainInk, 0, tableWords[list[0].Table], headInk)
		p.practices(list[:n])
		list = list[n:]
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// counts says how much of each the shop has of its own.
func counts(h *house.House, list []house.Practice) string {
	var parts []string
	for _, c := range []struct {
		n    int
		what string
	}{{own(list), "figure"}, {len(h.Levels), "level"}, {len(h.Rules), "rule"}} {
		if c.n > 0 {
			parts = append(parts, worksheet.Many(c.n, c.what))
		}
	}
	if n := len(h.Own); n == 1 {
		parts = append(parts, "1 kind of goods")
	} else if n > 1 {
		parts = append(parts, strconv.Itoa(n)+" kinds of goods")
	}
	if parts == nil {
		return "nothing"
	}
	return strings.Join(parts, ", ")
}

// ownGoods names the shop's own kinds of goods.
func (p *sheet) ownGoods(h *house.House) {
	if len(h.Own) == 0 {
		return
	}
	p.line("")
	p.para(0, "", plainInk, 0, "THE SHOP'S OWN GOODS, which cutgate kinds explains", headInk)
	for _, name := range h.Own {
		p.para(2, source.Show(name), plainInk, 4, "", plainInk)
	}
}

// own is how many of the practices are the shop's.
func own(list []house.Practice) (n int) {
	for i := range list {
		if list[i].Line > 0 {
			n++
		}
	}
	return n
}

// practices writes the practices of one table, those of a row together.
func (p *sheet) practices(list []house.Practice) {
	for len(list) > 0 {
		n := 1
		for n < len(list) && list[0].Row != "" && list[n].Row == list[0].Row {
			n++
		}
		switch {
		case list[0].Row == "":
			p.practice(strings.ReplaceAll(list[0].Name, "_", " "), practiceColumn, &list[0])
		case list[0].Table == "hems":
			p.practice(list[0].Row, hemColumn, &list[0])
		default:
			p.row(list[:n])
		}
		list = list[n:]
	}
}

// practice writes one practice on its own, then who says so.
func (p *sheet) practice(name string, column int, one *house.Practice) {
	value, says := inWords(one, one.Value), one.Source
	if one.Says != "" {
		value += ", " + one.Says
	}
	if one.Usual != "" {
		says += "; instead of " + inWords(one, one.Usual)
	}
	i := inkOf(one.Line > 0)
	p.para(2, name, i, column, source.Show(value), i)
	p.para(2, "", plainInk, column, source.Show(says), faintInk)
}

// inWords is a value of a practice as people say it.
func inWords(one *house.Practice, value string) string {
	switch q, err := length.ParseRatio(value); {
	case value == "true":
		return "yes"
	case value == "false":
		return "no"
	case err == nil && one.Share:
		return q.Percent()
	}
	return value
}

// row writes the practices of one row of a table, and then who says so.
func (p *sheet) row(list []house.Practice) {
	var values, usual []string
	var sources []string
	said := map[string][]string{} // the fields by their source
	for i := range list {
		one := &list[i]
		name := strings.ReplaceAll(one.Name, "_", " ")
		values = append(values, name+" "+one.Value)
		if one.Usual != "" {
			usual = append(usual, name+" "+one.Usual)
		}
		if said[one.Source] == nil {
			sources = append(sources, one.Source)
		}
		said[one.Source] = append(said[one.Source], name)
	}
	i := inkOf(own(list) > 0)
	p.para(2, list[0].Row, i, rowColumn, source.Show(strings.Join(values, ", ")), i)
	if len(usual) > 0 {
		p.para(2, "", plainInk, rowColumn, "instead of "+source.Show(strings.Join(usual, ", ")), faintInk)
	}
	for _, s := range sources {
		p.para(2, "", plainInk, rowColumn, source.Show(strings.Join(said[s], ", ")+": "+s), faintInk)
	}
}

// inkOf is the ink of what the shop sets itself.
func inkOf(own bool) ink {
	if own {
		return headInk
	}
	return plainInk
}

// houseLevels writes the levels that the shop sets.
func (p *sheet) houseLevels(h *house.House, rules []*rule.Rule) {
	if len(h.Levels) == 0 {
		return
	}
	p.line("")
	p.line(p.ink(headInk, "LEVELS, other than usual"))
	for _, l := range h.Levels {
		says := l.Level.String()
		switch u := usualLevel(l.Of, rules); {
		case u == "":
			says += ", for all of " + l.Of
		case u != says:
			says += ", not " + u
		}
		p.both("  "+l.Of+strings.Repeat(" ", max(2, levelColumn-2-source.Width(l.Of)))+says, plainInk, source.Show(h.File)+":"+strconv.Itoa(l.Line), faintInk)
	}
}

// usualLevel is the level of a rule where no house says otherwise; "" for a
// topic.
func usualLevel(name string, rules []*rule.Rule) string {
	for _, r := range rules {
		if r.ID == name {
			return r.Level.String()
		}
	}
	return ""
}

// ownRules writes the shop's own rules.
func (p *sheet) ownRules(h *house.House) {
	if len(h.Rules) == 0 {
		return
	}
	p.line("")
	p.line(p.ink(headInk, "THE SHOP'S OWN RULES"))
	for _, r := range h.Rules {
		says := r.Level.String()
		if len(r.Items) > 0 {
			says += ", of " + strings.Join(r.Items, ", ")
		}
		p.both("  "+r.ID, headInk, source.Show(h.File)+":"+strconv.Itoa(r.Line), faintInk)
		p.para(6, "", plainInk, 6, says+": "+source.Show(r.Message), plainInk)
		if r.Because != "" {
			p.para(6, "", plainInk, 6, "because "+source.Show(r.Because), faintInk)
		}
	}
}

// HouseJSON writes the same for programs, in the shape of #HouseReport.
func HouseJSON(w io.Writer, h *house.House, list []house.Practice, rules []*rule.Rule) error {
	var j jsonText
	j.braces(func() {
		if h != nil {
			j.text("house", h.File)
			j.optional("name", h.Name)
		}
		j.objects("practices", len(list), func(i int) { j.practice(&list[i]) })
		if h == nil {
			return
		}
		j.objects("levels", len(h.Levels), func(i int) {
			l := &h.Levels[i]
			j.text("of", l.Of)
			j.text("level", l.Level.String())
			j.optional("usual", usualLevel(l.Of, rules))
			j.number("line", l.Line)
		})
		j.objects("rules", len(h.Rules), func(i int) {
			r := h.Rules[i]
			j.text("rule", r.ID)
			j.text("level", r.Level.String())
			j.optionalTexts("items", r.Items)
			j.text("message", r.Message)
			j.optional("because", r.Because)
			j.number("line", r.Line)
		})
	})
	var b bytes.Buffer
	if err := json.Indent(&b, j.b, "", "  "); err != nil {
		return err
	}
	b.WriteByte('\n')
	_, err := w.Write(b.Bytes())
	return err
}

func (j *jsonText) practice(one *house.Practice) {
	j.text("table", one.Table)
	j.optional("row", one.Row)
	j.text("name", one.Name)
	j.optional("says", one.Says)
	j.text("value", one.Value)
	j.optional("usual", one.Usual)
	j.text("source", one.Source)
	if one.Line > 0 {
		j.number("line", one.Line)
	}
}
