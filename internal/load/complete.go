package load

import "strings"

// A FormField is a field of the form, as a person who fills it in is told of it.
type FormField struct {
	Name    string
	Need    bool     // it must be given
	Outcome bool     // it may be left blank: it is worked out then
	Wanted  string   // what belongs there, in the form's words: "a length"
	Words   []string // the words that may stand there; nil where there is no list of them
	Says    string   // what the form remarks on it, or ""
	Holds   Holds
}

// Holds is what stands in a field.
type Holds uint8

// A field holds one value, or fields, or entries with names of their own, or a
// list.
const (
	Value Holds = iota
	Fields
	Entries
	Elements
)

// Fields returns the fields of the group that names lead to from the top of an
// order, in the order of the form. The names are those of fields and entries;
// that an element of a list lies between is understood. Kind is the word of the
// item that they lead through: of an unknown one, or "", there are the fields that
// all have. Where no group is, there are none.
func (l *Loader) Fields(names []string, kind string) []FormField {
	s := l.form.inside()
	for _, name := range names {
		if s.Named != nil {
			s = s.Named.inside()
			continue
		}
		g := s.groupOf(kind)
		if g == nil {
			return nil
		}
		i, ok := g.index[name]
		if !ok {
			return nil
		}
		s = g.Fields[i].Is.inside()
	}
	g := s.groupOf(kind)
	if g == nil {
		return nil
	}
	var list []FormField
	if g == s.common {
		list = append(list, s.teller())
	}
	for i := range g.Fields {
		list = append(list, g.Fields[i].tell(s))
	}
	return list
}

// inside is the shape of what a list is of, or s.
func (s *shape) inside() *shape {
	for s.List != nil {
		s = s.List
	}
	return s
}

// groupOf is the group that stands in a place, or nil.
func (s *shape) groupOf(kind string) *group {
	if s.kinds == nil {
		return s.group
	}
	if g := s.kinds[kind]; g != nil {
		return g
	}
	return s.common
}

// tell is the field of a group in the shape in.
func (f *field) tell(in *shape) FormField {
	out := FormField{Name: f.Name, Need: f.Need, Outcome: f.Is.Blank, Wanted: f.Is.wanted, Words: f.Is.Words, Says: f.Says}
	switch {
	case in.kinds != nil && f.Name == in.By:
		return in.teller()
	case f.Is.leaf == flag:
		out.Words = []string{"true", "false"}
	case f.Is.Named != nil:
		out.Holds = Entries
	case f.Is.List != nil:
		out.Holds = Elements
	case f.Is.leaf == noLeaf:
		out.Holds = Fields
	}
	return out
}

// teller is the field that tells the kind of what s is.
func (s *shape) teller() FormField {
	return FormField{Name: s.By, Need: true, Wanted: "one of " + strings.Join(s.known, ", "), Words: s.known}
}
