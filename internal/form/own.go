package form

import (
	"fmt"
	"slices"
	"strings"

	"github.com/go-json-experiment/json"

	"cutgate/schema"
)

// A Kind is a kind of item that a shop adds to the form. Its fields are fields that the
// form has for some built-in kind, given by path: "board.width".
type Kind struct {
	Name   string
	Fields []KindField
	Pieces []string // the names of the pieces it is cut into
}

// A KindField is a field of a shop's own kind.
type KindField struct {
	Path    string
	Says    string   // the shop's name for it, shown as its remark; "" for none
	Words   []string // the words allowed there; nil for the form's own
	Outcome bool     // it may be left blank
}

// With returns the form with a shop's kinds of item added. It is an error if no built-in
// kind has one of their fields.
func With(kinds []Kind) (*Form, error) {
	var c compiled
	if err := json.Unmarshal(schema.Compiled, &c); err != nil { // a copy of its own, as linking changes it
		return nil, fmt.Errorf("read the compiled order form: %w", err)
	}
	d := &c.Order
	items := &d.group(d.Start).field("items").Is.List.Kinds
	own := slices.Clone(*items)
	for i := range kinds {
		k := &kinds[i]
		name := fmt.Sprintf("Own%d", i+1)
		g := Group{Name: name}
		for _, f := range d.group(own[0]).Fields { // what any item may say
			if f.Name == "item" {
				f.Is.Words = []string{k.Name}
			} else if slices.ContainsFunc(own, func(of string) bool { return d.group(of).field(f.Name) == nil }) {
				continue
			}
			if f.Name == "cuts" {
				cut := *d.group(f.Is.List.Group)
				cut.Name, cut.Fields = name+".cut", slices.Clone(cut.Fields)
				cut.field("piece").Is.Words = k.Pieces
				d.Groups = append(d.Groups, cut)
				f.Is.List = &Shape{Group: cut.Name}
			}
			g.Fields = append(g.Fields, f)
		}
		d.Groups = append(d.Groups, g)
		for _, f := range k.Fields {
			if err := d.ask(own, name, f); err != nil {
				return nil, err
			}
		}
		*items = append(*items, name)
	}
	return d.form()
}

// group returns the group of that name, or nil.
func (d *definition) group(name string) *Group {
	for i := range d.Groups {
		if d.Groups[i].Name == name {
			return &d.Groups[i]
		}
	}
	return nil
}

// field returns the field of that name, or nil.
func (g *Group) field(name string) *Field {
	for i := range g.Fields {
		if g.Fields[i].Name == name {
			return &g.Fields[i]
		}
	}
	return nil
}

// ask adds a field to a group, copied from the first of the kinds that has it.
func (d *definition) ask(kinds []string, in string, f KindField) error {
	path := strings.Split(f.Path, ".")
	for i, name := range path {
		if i == len(path)-1 {
			break
		}
		next := in + "." + name
		if d.group(in).field(name) == nil {
			d.group(in).Fields = append(d.group(in).Fields, Field{Name: name, Is: Shape{Group: next}})
			d.Groups = append(d.Groups, Group{Name: next})
		}
		in = next
	}
	if d.group(in).field(path[len(path)-1]) != nil {
		return nil
	}
	for _, kind := range kinds {
		of := d.leaf(kind, path)
		if of == nil {
			continue
		}
		of.Need, of.Is.Blank, of.Says = false, f.Outcome, f.Says
		if f.Words != nil && of.Is.Words != nil {
			of.Is.Words = f.Words
		}
		d.group(in).Fields = append(d.group(in).Fields, *of)
		return nil
	}
	return fmt.Errorf("the form has no field %s", f.Path)
}

// leaf returns a copy of the field at a path in a kind, or nil.
func (d *definition) leaf(kind string, path []string) *Field {
	g := d.group(kind)
	for i, name := range path {
		if g == nil {
			return nil
		}
		f := g.field(name)
		switch {
		case f == nil:
			return nil
		case i == len(path)-1:
			if f.Is.Leaf == "" && f.Is.Words == nil {
				return nil
			}
			of := *f
			return &of
		}
		g = d.group(f.Is.Group)
	}
	return nil
}
