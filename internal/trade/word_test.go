package trade_test

import (
	"slices"
	"strings"
	"testing"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/cuecontext"
)

// places are the order form's word lists: the field names of each of its
// groups, and the words of each field that takes one of several.
type places struct{ fields, values [][]string }

// collect adds the word lists of v and of all that is in it.
func (p *places) collect(v cue.Value) {
	v = cue.Dereference(v)
	if op, args := v.Expr(); op == cue.OrOp {
		var words []string
		for _, a := range args {
			if s, err := a.String(); err == nil {
				words = append(words, s)
				continue
			}
			p.collect(a)
		}
		if words != nil {
			p.values = append(p.values, words)
		}
		return
	}
	switch v.IncompleteKind() {
	case cue.StructKind:
		var names []string
		for it, err := v.Fields(cue.Optional(true)); err == nil && it.Next(); {
			names = append(names, it.Selector().Unquoted())
			p.collect(it.Value())
		}
		if names != nil {
			p.fields = append(p.fields, names)
		}
		if any := v.LookupPath(cue.MakePath(cue.AnyString)); any.Exists() {
			p.collect(any)
		}
	case cue.ListKind:
		if any := v.LookupPath(cue.MakePath(cue.AnyIndex)); any.Exists() {
			p.collect(any)
		}
	}
}

// Another workroom's word stands for one of the form's, in a place where it
// can't be meant itself.
func TestWordsOfTheForm(t *testing.T) {
	all := evaluate(t)
	var p places
	p.collect(all.LookupPath(cue.ParsePath("#Order")))
	// The kinds of item are words of one list, though each is in a group of its own.
	var kinds []string
	_, items := all.LookupPath(cue.ParsePath("#Item")).Expr()
	for _, item := range items {
		s, err := item.LookupPath(cue.MakePath(cue.Str("item").Required())).String()
		if err != nil {
			t.Fatal(err)
		}
		kinds = append(kinds, s)
	}
	p.values = append(p.values, kinds)
	for _, want := range []string{"fiber", "selvedge", "turn", "fullness", "because", "bias_square"} {
		if !slices.ContainsFunc(p.fields, func(l []string) bool { return slices.Contains(l, want) }) {
			t.Fatalf("the walk of the order form misses the field %s", want)
		}
	}
	for _, want := range []string{"mm", "half drop", "flat felled", "Roman shade", "grommet", "below sill", "draw loop"} {
		if !slices.ContainsFunc(p.values, func(l []string) bool { return slices.Contains(l, want) }) {
			t.Fatalf("the walk of the order form misses the word %s", want)
		}
	}

	words := tables(t).Words
	if len(words) < 60 {
		t.Errorf("only %d words", len(words))
	}
	for _, w := range words {
		if w.Where == "iron" { // [load] reads it, and its test has every one of them
			continue
		}
		lists := p.fields
		if w.Where == "value" || w.Where == "goods" {
			lists = p.values
		}
		meant := false
		for _, l := range lists {
			form, other := slices.Contains(l, w.Form), slices.Contains(l, w.Other)
			meant = meant || form && !other
			if form && other {
				t.Errorf("%q and %q are both the form's own in one place: %q", w.Other, w.Form, l)
			}
		}
		if !meant {
			t.Errorf("%q stands for %q, which is no %s of the form", w.Other, w.Form, w.Where)
		}
	}
}

// The tables speak of what the form has, with the form's words, and leave none
// of them out.
func TestTablesMatchTheForm(t *testing.T) {
	all := evaluate(t)
	tab := tables(t)
	list := func(path string) []string {
		t.Helper()
		// A field after the definition is one that must be there.
		def, field, ok := strings.Cut(path, ".")
		v := all.LookupPath(cue.ParsePath(def))
		if ok {
			v = v.LookupPath(cue.MakePath(cue.Str(field).Required()))
		}
		if !v.Exists() {
			t.Fatalf("no %s", path)
		}
		_, args := v.Expr()
		var words []string
		for _, a := range args {
			s, err := a.String()
			if err != nil {
				t.Fatalf("%s: %v", path, err)
			}
			words = append(words, s)
		}
		slices.Sort(words)
		return words
	}
	same := func(path string, got []string) {
		t.Helper()
		slices.Sort(got)
		if want := list(path); !slices.Equal(got, want) {
			t.Errorf("%s: %q, and the form has %q", path, got, want)
		}
	}
	var got []string
	for _, h := range tab.Headings {
		got = append(got, h.Style)
	}
	same("#HeadedBy", got)
	same("#Style", list("#HeadedBy"))
	got = nil
	for _, s := range tab.Seams {
		got = append(got, s.Name)
	}
	same("#SeamName", got)
	got = nil
	for _, c := range tab.Classes {
		got = append(got, c.Name)
	}
	same("#ClassName", got)
}

// A shop's rules are taken, and their slips are not.
func TestHouseFile(t *testing.T) {
	all := evaluate(t)
	house := all.LookupPath(cue.ParsePath("#House"))
	for _, c := range []struct {
		text string
		ok   bool
	}{
		{``, true},
		{`clearance: "1/2 in", half_drop: "half at joins", tab_gap: {least: "5 cm", most: "10 cm"}`, true},
		{`levels: {"hole/odd-count": "skip", hem: "note"}`, true},
		{`headings: goblet: most: "3", seams: French: usual: "1.5 cm", classes: light: hem_least: "20 g/m"`, true},
		{`rules: "deep-hems": {items: ["curtain"], when: hang: to: "floor", check: hems: bottom: turn: >=75, at: "hems.bottom.turn", message: "too shallow"}`, true},
		{`clearance: "1/2"`, false},
		{`clearence: "1/2 in"`, false},
		{`levels: "hole/odd-count": "fatal"`, false},
		{`levels: "Hole": "skip"`, false},
		{`headings: frill: most: "3"`, false},
		{`rules: "Deep hems": {check: {}, message: "m"}`, false},
	} {
		v := house.Unify(cuecontext.New().CompileString(c.text))
		if err := v.Validate(); (err == nil) != c.ok {
			t.Errorf("%s: %v", c.text, err)
		}
	}
}
