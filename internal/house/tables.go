package house

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"cuelang.org/go/cue"

	"cutgate/internal/length"
	"cutgate/internal/trade"
)

// others are the fields of a house that are no allowances.
var others = []string{"name", "headings", "seams", "classes", "sources", "levels", "kinds", "columns", "units", "rules"}

// allowances makes the shop's tables: a copy of the trade's with what the shop
// gives in its place, and each of it with where it comes from.
func (r *reader) allowances(v cue.Value) (err error) {
	r.house.Tables, err = r.house.Tables.Revised(func(t *trade.Tables) error {
		r.tables = t
		return r.edition(v)
	})
	return err
}

// edition fills in what the shop gives in one edition of its tables.
func (r *reader) edition(v cue.Value) error {
	t := r.tables
	says := map[string]string{}
	if err := decode(field(v, "sources"), &says); err != nil {
		return err
	}
	for name, said := range fields(v) {
		if slices.Contains(others, name) {
			continue
		}
		if err := r.give(name, said); err != nil {
			return err
		}
		if name == "hems" {
			if err := r.hems(said); err != nil {
				return err
			}
			continue
		}
		if err := r.decodeField(name, said, &t.House); err != nil {
			return err
		}
		r.house.lines[name] = r.line(name)
		t.House.Sources[name] = r.from(name, says[name])
		t.SetOwn(name)
		delete(says, name)
	}
	for _, name := range slices.Sorted(maps.Keys(says)) {
		r.fault(r.key(path("sources", name)), "sources.%s: the shop gives no %s of its own", name, name)
	}
	if err := r.rows(v); err != nil {
		return err
	}
	r.sense()
	return nil
}

// give keeps what the shop sets as it is written.
func (r *reader) give(name string, v cue.Value) error {
	var said any
	if err := decode(v, &said); err != nil {
		return err
	}
	if said != nil {
		r.house.given[name] = said
	}
	return nil
}

// from is where something that the shop sets comes from, in the words of a
// source.
func (r *reader) from(p, says string) string {
	s := fmt.Sprintf("house rules, %s:%d", r.house.File, r.line(p))
	if says != "" {
		s += ": " + says
	}
	return s
}

// hems puts the shop's hems in place of the tables'. One that does not say where
// is for every place that the shop does not list by itself.
func (r *reader) hems(v cue.Value) error {
	var own []trade.HouseHem
	if err := r.decode(v, &own); err != nil {
		return err
	}
	t := &r.tables.House
	for i := range own {
		h := &own[i]
		p := element("hems", i)
		for j := range own[:i] {
			if same(h, &own[j]) {
				r.fault(r.key(p), "%s is for the same edge as hems[%d]: keep one", p, j)
			}
		}
		r.house.lines[path("hems", hemName(h))] = r.line(p)
		h.Source = r.from(p, h.Source)
	}
	t.Hems = merged(t.Hems, own)
	return nil
}

// merged puts hems of the shop in the places of those that they replace, and
// the others after them.
func merged(usual, own []trade.HouseHem) []trade.HouseHem {
	var list []trade.HouseHem
	put := make([]bool, len(own))
	for i := range usual {
		kept := true
		for j := range own {
			if !replaced(&usual[i], &own[j]) {
				continue
			}
			kept = false
			if !put[j] {
				put[j], list = true, append(list, own[j])
			}
		}
		if kept {
			list = append(list, usual[i])
		}
	}
	for j := range own {
		if !put[j] {
			list = append(list, own[j])
		}
	}
	return list
}

// replaced reports whether a hem of the tables goes for one of the shop's.
func replaced(old, own *trade.HouseHem) bool {
	return same(old, own) || own.Where == "" && old.Item == own.Item && old.Edge == own.Edge
}

func same(a, b *trade.HouseHem) bool {
	return a.Item == b.Item && a.Edge == b.Edge && a.Where == b.Where
}

// hemName is a hem of the shop in a few words: curtain bottom floor.
func hemName(h *trade.HouseHem) string {
	return strings.TrimSpace(h.Item + " " + h.Edge + " " + h.Where)
}

// rows puts what the shop gives into the rows of the tables.
func (r *reader) rows(v cue.Value) error {
	t := r.tables
	err := r.each(v, "headings", func(style, p string, row cue.Value) error {
		h := t.Heading(style)
		if h == nil {
			return fmt.Errorf("the tables have no heading %s", style)
		}
		r.sources(p, row, headingSources(h))
		return r.decode(row, h)
	})
	if err != nil {
		return err
	}
	err = r.each(v, "seams", func(name, p string, row cue.Value) error {
		s := t.Seam(name)
		if s == nil {
			return fmt.Errorf("the tables have no seam %s", name)
		}
		r.sources(p, row, seamSources(s))
		return r.decode(row, s)
	})
	if err != nil {
		return err
	}
	return r.each(v, "classes", func(name, p string, row cue.Value) error {
		c := t.ClassByName(name)
		if c == nil {
			return fmt.Errorf("the tables have no class of cloth %s", name)
		}
		r.sources(p, row, classSources(c))
		return r.decode(row, c)
	})
}

// headingSources, seamSources and classSources are where the fields of a row come from.
func headingSources(h *trade.Heading) map[string]*string {
	return map[string]*string{"least": &h.Source, "usual": &h.Source, "most": &h.Source, "sheer_most": &h.SheerSource, "allowance": &h.AllowanceSource}
}

func seamSources(s *trade.Seam) map[string]*string {
	return map[string]*string{"least": &s.Source, "usual": &s.Source, "most": &s.Source, "trim": &s.Source}
}

func classSources(c *trade.Class) map[string]*string {
	return map[string]*string{"below": &c.Source, "hem_least": &c.HemSource, "stitches": &c.SewSource, "needle": &c.SewSource}
}

// each gives the rows of one of the shop's tables.
func (r *reader) each(v cue.Value, table string, do func(name, p string, row cue.Value) error) error {
	rows := field(v, table)
	if err := r.give(table, rows); err != nil {
		return err
	}
	for name, row := range fields(rows) {
		if err := do(name, path(table, name), row); err != nil {
			return fmt.Errorf("row %s of %s: %w", name, table, err)
		}
	}
	return nil
}

// sources notes where the fields of a row come from. Of a source that speaks of
// several fields, the table's own is kept for those that the shop leaves.
func (r *reader) sources(p string, row cue.Value, of map[string]*string) {
	said := map[*string][]string{}
	var order []*string
	for name := range fields(row) {
		r.house.lines[path(p, name)] = r.line(path(p, name))
		to := of[name]
		if said[to] == nil {
			order = append(order, to)
		}
		said[to] = append(said[to], name)
	}
	for _, to := range order {
		names := said[to]
		shared := 0
		for _, other := range of {
			if other == to {
				shared++
			}
		}
		own := r.from(path(p, names[0]), "")
		if len(names) < shared {
			own += " (" + and(names) + "); " + *to
		}
		*to = own
	}
}

// decode fills to with a value that was held against its shape, each length as the
// edition at hand has it; a value that does not exist fills nothing.
func (r *reader) decode(v cue.Value, to any) error { return decodeAs(v, r.tables.Pick, to) }

// decode fills to with a value as it is written; one that does not exist fills nothing.
func decode(v cue.Value, to any) error {
	return decodeAs(v, func(text []byte) []byte { return text }, to)
}

func decodeAs(v cue.Value, as func([]byte) []byte, to any) error {
	if !v.Exists() {
		return nil
	}
	text, err := v.MarshalJSON()
	if err != nil {
		return err
	}
	return decodeText(as(text), to)
}

// decodeText fills to with JSON. Numbers of no certain type stay as written.
func decodeText(text []byte, to any) error {
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	return d.Decode(to)
}

func (r *reader) decodeField(name string, v cue.Value, to any) error {
	text, err := v.MarshalJSON()
	if err != nil {
		return err
	}
	key, err := json.Marshal(name)
	if err != nil {
		return err
	}
	return json.Unmarshal(r.tables.Pick(slices.Concat([]byte("{"), key, []byte(":"), text, []byte("}"))), to)
}

// sense files numbers that can't be meant: nothing where there must be
// something, and a least over its most.
func (r *reader) sense() {
	t := r.tables
	h := &t.House
	for _, l := range []struct {
		name string
		l    length.Length
	}{{"pitch", h.Pitch}, {"selling_metric", h.SellingMetric}, {"selling_yards", h.SellingYards}, {"machine_sews", h.MachineSews}} {
		if l.l <= 0 {
			r.nothing(l.name)
		}
	}
	if h.WetFactor.Num <= 0 {
		r.nothing("wet_factor")
	}
	if h.BoreLeast.Cmp(h.BoreMost) > 0 {
		r.over("", "bore_least", "bore_most")
	}
	for _, g := range []struct {
		name string
		gap  trade.Gap
	}{{"high_off_floor", h.HighOffFloor}, {"pleat_gap", h.PleatGap}, {"tab_gap", h.TabGap}, {"off_floor", h.OffFloor}} {
		if g.gap.Least > g.gap.Most {
			r.over(g.name, "least", "most")
		}
	}
	for i := range t.Headings {
		d := &t.Headings[i]
		r.ascending(path("headings", d.Style), []string{"least", "usual", "most", "sheer_most"}, []length.Ratio{d.Least, d.Usual, d.Most, d.SheerMost})
	}
	for i := range t.Seams {
		s := &t.Seams[i]
		p := path("seams", s.Name)
		r.ascending(p, []string{"least", "usual", "most"}, []length.Ratio{ratio(s.Least), ratio(s.Usual), ratio(s.Most)})
		if s.Trim >= s.Usual {
			r.over(p, "trim", "usual")
		}
	}
	r.classes()
}

// classes holds the classes of cloth against each other.
func (r *reader) classes() {
	t := r.tables
	for i := range t.Classes {
		c := &t.Classes[i]
		p := path("classes", c.Name)
		last := i == len(t.Classes)-1
		switch {
		case last && c.Below != 0:
			r.fault(r.key(path(p, "below")), "%s.below: the heaviest class has no cloth above it", p)
		case !last && c.Below == 0:
			r.nothing(path(p, "below"))
		case i > 0 && !last && c.Below <= t.Classes[i-1].Below:
			r.fault(r.own(path(p, "below"), path("classes", t.Classes[i-1].Name, "below")), "%s.below must be more than that of %s, the class under it", p, t.Classes[i-1].Name)
		}
		r.ascending(path(p, "stitches"), []string{"least", "most"}, []length.Ratio{c.Stitches.Least, c.Stitches.Most})
		if c.Needle.Least > c.Needle.Most {
			r.over(path(p, "needle"), "least", "most")
		}
	}
}

func ratio(l length.Length) length.Ratio { return length.NewRatio(int64(l), 1) }

// ascending files the first field that is more than the one after it.
func (r *reader) ascending(p string, names []string, values []length.Ratio) {
	if values[0].Num <= 0 {
		r.nothing(path(p, names[0]))
		return
	}
	for i := range names[1:] {
		if values[i].Cmp(values[i+1]) > 0 {
			r.over(p, names[i], names[i+1])
			return
		}
	}
}

// own returns the place of the first of the fields that the shop gives.
func (r *reader) own(paths ...string) int {
	for _, p := range paths {
		if at, ok := r.places[p]; ok {
			return at.value
		}
	}
	return r.value(paths[0])
}

func (r *reader) nothing(p string) {
	if _, ok := r.places[p]; ok { // the tables are held to the same by their own tests
		r.fault(r.value(p), "%s must be more than zero", p)
	}
}

func (r *reader) over(p, low, high string) {
	r.fault(r.own(path(p, low), path(p, high)), "%s is more than %s: give both, so that they agree", path(p, low), path(p, high))
}
