package table

import (
	"slices"

	"cutgate/internal/form"
	"cutgate/internal/order"
	"cutgate/internal/syntax"
)

// Sheets are an order as a table has it.
type Sheets struct {
	Head          []Column   // what it says of itself
	Items, Cloths [][]Column // by their rows
}

// A Column is a heading and what stands under it in one row.
type Column struct {
	Heading string
	Text    string
	Field   form.Question // that it is
}

// Flatten returns what an order gives, and what it leaves blank, as a table has
// it. What a table has no place for is left out: lists and groups that hold
// nothing.
func Flatten(of *form.Form, o *order.Order) (s Sheets) {
	if o.Root == nil {
		return s
	}
	for i := range o.Root.Kids {
		k := &o.Root.Kids[i]
		switch k.Name {
		case "items":
			for j := range k.Kids {
				kind := ""
				if item := k.Kids[j].Kid("item"); item != nil {
					kind = item.Text
				}
				f := flattening{of, aboutItem, []string{"items"}, kind}
				s.Items = append(s.Items, f.columns(&k.Kids[j], nil))
			}
		case "cloths":
			for j := range k.Kids {
				name := Column{Heading: heading{about: clothName}.String(), Text: k.Kids[j].Name}
				name.Field.Says = "a name of your own; items refer to the cloth by it"
				f := flattening{of, aboutCloth, []string{"cloths", ""}, ""}
				s.Cloths = append(s.Cloths, append([]Column{name}, f.columns(&k.Kids[j], nil)...))
				if m := o.Root.Kid("measured").Kid(k.Kids[j].Name); m != nil {
					f := flattening{of, aboutMeasured, []string{"measured", ""}, ""}
					s.Cloths[j] = append(s.Cloths[j], f.columns(m, nil)...)
				}
			}
		case "measured":
		default:
			f := flattening{of, aboutOrder, nil, ""}
			s.Head = append(s.Head, f.columns(k, syntax.Path{{Name: k.Name}})...)
		}
	}
	return s
}

// A flattening is what is made columns of: its subject, and where it stands on
// the form.
type flattening struct {
	form  *form.Form
	about subject
	names []string
	kind  string
}

// columns returns the leaves below n, which a way leads to from the subject.
func (f *flattening) columns(n *order.Node, to syntax.Path) (list []Column) {
	if n.Form != order.Map && n.Form != order.List {
		text := n.Text
		if n.Form == order.Null {
			text = ""
		}
		return []Column{{heading{about: f.about, way: to}.String(), text, f.field(to)}}
	}
	for i := range n.Kids {
		next := syntax.Step{Name: n.Kids[i].Name, Index: i}
		list = append(list, f.columns(&n.Kids[i], append(slices.Clone(to), next))...)
	}
	return list
}

// field is what the form says of the leaf that a way leads to.
func (f *flattening) field(to syntax.Path) form.Question {
	names := slices.Clone(f.names)
	for _, s := range to {
		if s.Name != "" {
			names = append(names, s.Name)
		}
	}
	last := len(names) - 1
	for _, field := range f.form.Fields(names[:last], f.kind) {
		if field.Name == names[last] {
			return field
		}
	}
	return form.Question{}
}
