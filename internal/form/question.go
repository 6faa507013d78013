package form

import "strings"

// A Question is a field of the form, as a person who fills it in is asked it.
type Question struct {
	Name    string
	Need    bool     // it must be given
	Outcome bool     // it may be left blank: it is worked out then
	Wanted  string   // what belongs there, in the form's words: "a measurement"
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
func (f *Form) Fields(names []string, kind string) []Question {
	s := f.Order.inside()
	for _, name := range names {
		if s.Named != nil {
			s = s.Named.inside()
			continue
		}
		g := s.groupOf(kind)
		if g == nil {
			return nil
		}
		i, ok := g.Index[name]
		if !ok {
			return nil
		}
		s = g.Fields[i].Is.inside()
	}
	g := s.groupOf(kind)
	if g == nil {
		return nil
	}
	var list []Question
	if g == s.Common {
		list = append(list, s.teller())
	}
	for i := range g.Fields {
		list = append(list, g.Fields[i].tell(s))
	}
	return list
}

// Kinds are the kinds of item, in the order of the form.
func (f *Form) Kinds() []string {
	for _, q := range f.Fields([]string{"items"}, "") {
		if q.Name == "item" {
			return q.Words
		}
	}
	return nil
}

// inside is the shape of what a list is of, or s.
func (s *Shape) inside() *Shape {
	for s.List != nil {
		s = s.List
	}
	return s
}

// groupOf is the group that stands in a place, or nil.
func (s *Shape) groupOf(kind string) *Group {
	if s.ByWord == nil {
		return s.Of
	}
	if g := s.ByWord[kind]; g != nil {
		return g
	}
	return s.Common
}

// tell is the field of a group in the shape in.
func (f *Field) tell(in *Shape) Question {
	out := Question{Name: f.Name, Need: f.Need, Outcome: f.Is.Blank, Wanted: f.Is.Wanted, Words: f.Is.Words, Says: f.Says}
	switch {
	case in.ByWord != nil && f.Name == in.By:
		return in.teller()
	case f.Is.Reads == Flag:
		out.Words = []string{"true", "false"}
	case f.Is.Named != nil:
		out.Holds = Entries
	case f.Is.List != nil:
		out.Holds = Elements
	case f.Is.Reads == NoLeaf:
		out.Holds = Fields
	}
	return out
}

// teller is the field that tells the kind of what s is.
func (s *Shape) teller() Question {
	return Question{Name: s.By, Need: true, Wanted: "one of " + strings.Join(s.Known, ", "), Words: s.Known}
}
