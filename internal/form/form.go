// Package form is the order form: what may be written where, what whoever fills it in
// is asked, and other workrooms' words for the form's own.
//
// The form is defined in CUE, in package schema. It is compiled once, when the
// program is built, into schema/compiled.json, so that reading an order needs no CUE
// evaluator, and into builtin.go, so that it need not be decoded either. A fuzz test
// compares the verdict on an order's shape with CUE's own.
package form

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"sync"

	"github.com/go-json-experiment/json/jsontext"

	"cutgate/internal/order"
	"cutgate/internal/trade"
)

// compiled mirrors schema/compiled.json.
type compiled struct {
	Order      definition     `json:"order"`
	Trade      jsontext.Value `json:"trade,omitzero"`
	Allowances []allowance    `json:"allowances,omitzero"`
}

// An allowance describes a field of #Allowances.
type allowance struct {
	Name  string `json:"name"`
	Says  string `json:"says"`           // its remark in the schema
	Share bool   `json:"share,omitzero"` // a fraction, shown as a percentage
}

// A definition is the compiled order form: its groups of fields, and the name of the
// group to start from.
type definition struct {
	Start  string  `json:"start"`
	Groups []Group `json:"groups"`
}

// A Group is a closed set of fields.
type Group struct {
	Name   string  `json:"name"`
	Fields []Field `json:"fields"`

	Index  map[string]int `json:"-"` // of each field, by its name
	Names  []string       `json:"-"` // of the fields
	Fills  reflect.Type   `json:"-"` // the Go struct
	Places Places         `json:"-"`
	Teller int            `json:"-"` // in a kind of item, the field that names the kind; -1 for none
	Loose  bool           `json:"-"` // fields not listed here are allowed, as the kind is unknown
}

// A Field is one field of a group.
type Field struct {
	Name string `json:"name"`
	Need bool   `json:"need,omitzero"`
	Is   Shape  `json:"is"`
	Says string `json:"says,omitzero"` // its remark in the schema

	Slot   int    `json:"-"` // the field of the Go struct
	Limits Limits `json:"-"`
}

// A Shape is what may be written in one place. Exactly one of Leaf, Words, Group, Kinds,
// Named and List is set.
type Shape struct {
	Blank bool     `json:"blank,omitzero"` // null is allowed: it is an outcome
	Leaf  string   `json:"leaf,omitzero"`  // the name of a leaf's reader
	Words []string `json:"words,omitzero"` // one of these
	Group string   `json:"group,omitzero"` // a group, by name
	Kinds []string `json:"kinds,omitzero"` // one of these groups, chosen by the field By
	By    string   `json:"by,omitzero"`
	Named *Shape   `json:"named,omitzero"` // entries with any names, each of this shape
	List  *Shape   `json:"list,omitzero"`  // a list of these
	Least int      `json:"least,omitzero"` // the fewest elements of a list

	Reads  Leaf              `json:"-"` // of a leaf
	Of     *Group            `json:"-"` // of a group
	ByWord map[string]*Group `json:"-"` // the kinds, by their word in the field By
	Common *Group            `json:"-"` // the fields that all kinds have
	Known  []string          `json:"-"` // the words of kinds, in order
	Wanted string            `json:"-"` // what a message says belongs here
	Places Places            `json:"-"`
	Limits Limits            `json:"-"` // of a leaf that is an element or an entry
}

// schemas is what was compiled, as Go values.
type schemas struct {
	Order          definition
	Inches, Metric trade.Tables
}

var builtIn *schemas // nil while builtin.go is missing

var errNotBuiltIn = errors.New("internal/form/builtin.go is missing: run go generate ./internal/form")

// A Form is the order form, and other workrooms' words for its own. It is immutable.
type Form struct {
	Order   *Shape
	Words   Synonyms
	Columns []string // a shop's own headings in its tables, whose columns are skipped
}

// New returns the built-in form.
var New = sync.OnceValues(func() (*Form, error) {
	if builtIn == nil {
		return nil, errNotBuiltIn
	}
	return builtIn.Order.form()
})

// form builds the form that d describes.
func (d *definition) form() (*Form, error) {
	top, err := d.link()
	if err != nil {
		return nil, fmt.Errorf("link the order form: %w", err)
	}
	return &Form{Order: top, Words: synonyms(builtIn.Inches.Words)}, nil
}

// MaxFields is an upper bound on the fields of a group.
const MaxFields = 128

// Tables returns the built-in tables of the trade.
var Tables = sync.OnceValues(func() (*trade.Tables, error) {
	if builtIn == nil {
		return nil, errNotBuiltIn
	}
	return trade.Editions(&builtIn.Inches, &builtIn.Metric), nil
})

// link resolves the names in d and binds its groups to the fields of
// [order.Order].
func (d *definition) link() (*Shape, error) {
	groups := make(map[string]*Group, len(d.Groups))
	for i := range d.Groups {
		g := &d.Groups[i]
		g.Teller = -1
		g.Index = make(map[string]int, len(g.Fields))
		g.Names = make([]string, len(g.Fields))
		for j := range g.Fields {
			g.Index[g.Fields[j].Name] = j
			g.Names[j] = g.Fields[j].Name
		}
		groups[g.Name] = g
	}
	start := &Shape{Group: d.Start}
	l := linker{groups, allPlaces{}, map[reflect.Type]map[string]int{}}
	if err := l.shape(start, "", reflect.TypeFor[order.Order]()); err != nil {
		return nil, err
	}
	return start, nil
}

type linker struct {
	groups map[string]*Group
	places allPlaces
	slots  map[reflect.Type]map[string]int // the fields of each struct, by their names on the form
}

// shape links s, the shape of the named field, which fills a value of type t.
func (l linker) shape(s *Shape, name string, t reflect.Type) error {
	s.Places = l.places.of(t)
	switch {
	case s.Leaf != "":
		k, ok := leafOf(s.Leaf)
		if !ok {
			return fmt.Errorf("there is no reader %q", s.Leaf)
		}
		s.Reads, s.Wanted, s.Limits = k, k.Wanted(), limitsOf(k, "", name)
		if t != k.fills() {
			return fmt.Errorf("%v holds no %s", t, s.Leaf)
		}
	case s.Words != nil:
		s.Reads, s.Wanted = Word, "one of "+strings.Join(s.Words, ", ")
		if t != Word.fills() {
			return fmt.Errorf("%v holds no word", t)
		}
	case s.Group != "":
		s.Of = l.groups[s.Group]
		s.Wanted = s.Of.sample()
		return l.group(s.Of, s.Group, t)
	case s.Kinds != nil:
		return l.kinds(s, t)
	case s.Named != nil:
		s.Wanted = "{name: " + l.groups[s.Named.Group].sample() + "}"
		if s.Named.Leaf == "percent" {
			s.Wanted = "{cotton: 60, linen: 40}"
		}
		of, ok := t.Elem().FieldByName("Of")
		if !ok {
			return fmt.Errorf("%v has no entries", t)
		}
		return l.shape(s.Named, name, of.Type)
	case s.List != nil:
		s.Wanted = "a list of " + strings.ReplaceAll(name, "_", " ")
		switch {
		case s.List.Leaf == "text":
			s.Wanted = order.WantList
		case s.List.Group != "" && !strings.Contains(s.List.Group, "."):
			s.Wanted = "a list of " + strings.ToLower(s.List.Group) + "s"
		}
		return l.shape(s.List, name, t.Elem())
	default:
		return fmt.Errorf("the form says nothing of %q", name)
	}
	return nil
}

// sample shows how a group is written: with its required fields, or else its first
// two.
func (g *Group) sample() string {
	if g == nil {
		return "…"
	}
	var must, first []string
	for i := range g.Fields {
		name := g.Fields[i].Name + ": …"
		if g.Fields[i].Need {
			must = append(must, name)
		}
		if i < 2 {
			first = append(first, name)
		}
	}
	if must == nil {
		must = first
	}
	return "{" + strings.Join(must, ", ") + "}"
}

// group links g and binds it to the fields of t.
func (l linker) group(g *Group, name string, t reflect.Type) error {
	if g == nil {
		return fmt.Errorf("there is no group %q", name)
	}
	if g.Fills == t {
		return nil
	}
	if g.Fills != nil {
		return fmt.Errorf("group %s fills both %v and %v", name, g.Fills, t)
	}
	g.Fills = t
	slots := l.slotsOf(t)
	for i := range g.Fields {
		f := &g.Fields[i]
		var ok bool
		if f.Slot, ok = slots[f.Name]; !ok {
			return fmt.Errorf("%v has no field for %s of %s", t, f.Name, name)
		}
		if err := l.shape(&f.Is, f.Name, t.Field(f.Slot).Type); err != nil {
			return fmt.Errorf("%s.%s: %w", name, f.Name, err)
		}
		f.Limits = limitsOf(f.Is.Reads, t.Name(), f.Name)
	}
	g.Places = l.places.of(t)
	return nil
}

// slotsOf returns which fields of t are tagged with names of the form.
func (l linker) slotsOf(t reflect.Type) map[string]int {
	slots, ok := l.slots[t]
	if !ok {
		slots = make(map[string]int, t.NumField())
		l.slots[t] = slots
		for i := range t.NumField() {
			if name := t.Field(i).Tag.Get("form"); name != "" {
				slots[name] = i
			}
		}
	}
	return slots
}

// kinds links the kinds of an item.
func (l linker) kinds(s *Shape, t reflect.Type) error {
	s.Wanted = l.groups[s.Kinds[0]].sample()
	s.ByWord = make(map[string]*Group, len(s.Kinds))
	for _, name := range s.Kinds {
		g := l.groups[name]
		if err := l.group(g, name, t); err != nil {
			return err
		}
		at, ok := g.Index[s.By]
		if !ok || len(g.Fields[at].Is.Words) != 1 {
			return fmt.Errorf("%s is not told apart by %s", name, s.By)
		}
		g.Teller = at
		word := g.Fields[at].Is.Words[0]
		s.ByWord[word] = g
		s.Known = append(s.Known, word)
	}
	first := l.groups[s.Kinds[0]]
	s.Common = &Group{Name: first.Name, Index: map[string]int{}, Fills: t, Places: l.places.of(t), Teller: -1, Loose: true}
	for _, f := range first.Fields {
		everywhere := f.Name != s.By
		for _, name := range s.Kinds {
			_, ok := l.groups[name].Index[f.Name]
			everywhere = everywhere && ok
		}
		if everywhere {
			s.Common.Index[f.Name] = len(s.Common.Fields)
			s.Common.Names = append(s.Common.Names, f.Name)
			s.Common.Fields = append(s.Common.Fields, f)
		}
	}
	return nil
}
