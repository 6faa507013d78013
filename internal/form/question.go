package form

import "strings"

// A Question is a field of the form, as it is put to whoever fills it in.
type Question struct {
	Name    string
	Need    bool     // it is required
	Outcome bool     // it may be left blank, and is then worked out
	Wanted  string   // what belongs there, in the form's words: "a measurement"
	Words   []string // the words allowed there; nil where any value of its kind is
	Says    string   // the form's remark on it, or ""
	Holds   Holds
}

// Holds is what a field holds.
type Holds uint8

// A field holds one value, or fields, or entries with names of their own, or a
// list.
const (
	Value Holds = iota
	Fields
	Entries
	Elements
)

// Fields returns the fields of the group at a path of names from the top of an order,
// in the order of the form. The names are those of fields and entries; elements of
// lists are not named. Kind is the kind of the item on the path; for "" or an unknown
// kind the fields are those that every kind has. It returns nil if there is no group.
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

// WordsOf are the words allowed in a field of an item of a kind, such as "hem.corners"; nil
// where any value may stand there.
func (f *Form) WordsOf(kind, field string) []string {
	top := f.Order.Of
	is := &Shape{Of: top.Fields[top.Index["items"]].Is.List.ByWord[kind]}
	for name := range strings.SplitSeq(field, ".") {
		if is.Of == nil {
			return nil
		}
		at, ok := is.Of.Index[name]
		if !ok {
			return nil
		}
		is = &is.Of.Fields[at].Is
	}
	return is.Words
}

// Kinds returns the kinds of item, in the order of the form.
func (f *Form) Kinds() []string {
	for _, q := range f.Fields([]string{"items"}, "") {
		if q.Name == "item" {
			return q.Words
		}
	}
	return nil
}

// KindOf is the kind of item that a text means in the words of any workroom, and which field of
// it says the rest: a bolster is a cushion cover whose style is that, a bench cushion a cushion
// cover. Each is "" where the text does not tell.
func (f *Form) KindOf(text string) (kind, field, word string) {
	kinds := f.Kinds()
	words := strings.Fields(text)
	for i := range words {
		tail := strings.Join(words[i:], " ")
		own, ok := Meant(tail, kinds, f.Words.Values)
		if of := f.Words.Goods[Fold(tail)]; !ok && len(of) == 1 {
			own, ok = of[0].Form, true
		}
		if ok {
			field, word = f.fieldSaying(own, strings.Join(words[:i], " "))
			return own, field, word
		}
	}
	for _, k := range kinds {
		in, says := f.fieldSaying(k, text)
		if in != "" && kind != "" {
			return "", "", "" // of several
		}
		if in != "" {
			kind, field, word = k, in, says
		}
	}
	return kind, field, word
}

// fieldSaying is the field of an item of a kind that may say a word; "" if there is none.
func (f *Form) fieldSaying(kind, text string) (field, word string) {
	for _, q := range f.Fields([]string{"items"}, kind) {
		if own, ok := Meant(text, f.WordsOf(kind, q.Name), f.Words.Values); ok && q.Name != "item" {
			return q.Name, own
		}
	}
	return "", ""
}

// inside returns the shape of a list's elements, or s if it is no list.
func (s *Shape) inside() *Shape {
	for s.List != nil {
		s = s.List
	}
	return s
}

// groupOf returns the group that a shape is, or nil.
func (s *Shape) groupOf(kind string) *Group {
	if s.ByWord == nil {
		return s.Of
	}
	if g := s.ByWord[kind]; g != nil {
		return g
	}
	return s.Common
}

// tell makes a question of a field of a group in the shape in.
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

// teller returns the field that names the kind, if s is one of several kinds.
func (s *Shape) teller() Question {
	return Question{Name: s.By, Need: true, Wanted: "one of " + strings.Join(s.Known, ", "), Words: s.Known}
}
