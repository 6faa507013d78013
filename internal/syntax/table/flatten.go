package table

import (
	"slices"

	"cutgate/internal/form"
	"cutgate/internal/order"
	"cutgate/internal/syntax"
)

// Sheets are an order in the form of tables.
type Sheets struct {
	Head          []Column   // what is said of the order as a whole
	Items, Cloths [][]Column // row by row
}

// A Column is a heading and the entry under it in one row.
type Column struct {
	Heading string
	Text    string
	Field   form.Question // the field of the form
}

// Flatten turns an order, blanks included, into tables. Empty lists and groups are left
// out, as a table has no place for them.
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

// A flattening makes columns of one subject: the order, an item or a cloth.
type flattening struct {
	form  *form.Form
	about subject
	names []string
	kind  string
}

// columns returns the leaves below n, which lies at the path to from the subject.
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

// field returns the form's question about the leaf at a path.
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
