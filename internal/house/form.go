package house

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"sync"

	"cuelang.org/go/cue"

	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/worksheet"
)

// A part is a part of an item as the shop's rules see it: what can be named
// there, and what kind of value it has.
type part struct {
	kind   cue.Kind // of a leaf; struct or list for the others
	words  []string // that a text is one of; nil for any text
	names  []string // the fields of a group, in the order of the form
	fields map[string]*part
	any    *part // entries of any name
	list   *part // elements
	length bool  // of a number: it is a length
}

// kinds are the kinds of item, with their parts, from the compiled order form.
var kinds = sync.OnceValues(func() (map[string]*part, error) {
	of, err := form.New()
	if err != nil {
		return nil, err
	}
	return kindsOf(of, goods.All()), nil
})

// kindsOf are the kinds of item of a form.
func kindsOf(of *form.Form, worked *worksheet.Kinds) map[string]*part {
	var b builder
	docket := &part{kind: cue.StructKind, fields: map[string]*part{}}
	var items *form.Shape
	for i := range of.Order.Of.Fields {
		f := &of.Order.Of.Fields[i]
		switch {
		case f.Name == "items":
			items = f.Is.List
		case f.Name == "cloths":
			b.cloth = b.group(f.Is.Named.Of)
			b.cloth.add("known_as", &part{kind: cue.StringKind})
			b.cloth.add("worked", quantities(worked, true))
		case f.Is.Leaf != "" || f.Is.Words != nil:
			docket.add(f.Name, b.part(&f.Is))
		}
	}
	all := map[string]*part{}
	for word, kind := range items.ByWord {
		p := b.group(kind)
		p.add("docket", docket)
		p.add("worked", quantities(worked, false))
		all[word] = p
	}
	return all
}

// A builder makes the parts of an item.
type builder struct{ cloth *part }

func (b *builder) group(of *form.Group) *part {
	p := &part{kind: cue.StructKind, fields: map[string]*part{}}
	for i := range of.Fields {
		f := &of.Fields[i]
		switch {
		case f.Name == "waive":
		case f.Name == "cloth" && f.Is.Leaf == "text":
			p.add(f.Name, b.cloth)
		default:
			p.add(f.Name, b.part(&f.Is))
		}
	}
	return p
}

func (b *builder) part(s *form.Shape) *part {
	switch {
	case s.Group != "":
		return b.group(s.Of)
	case s.List != nil:
		return &part{kind: cue.ListKind, list: b.part(s.List)}
	case s.Named != nil:
		return &part{kind: cue.StructKind, any: b.part(s.Named)}
	case s.Words != nil:
		return &part{kind: cue.StringKind, words: s.Words}
	}
	switch s.Leaf {
	case "text", "date":
		return &part{kind: cue.StringKind}
	case "flag":
		return &part{kind: cue.BoolKind}
	}
	return &part{kind: cue.NumberKind, length: s.Leaf == "length"}
}

func (p *part) add(name string, of *part) {
	p.names = append(p.names, name)
	p.fields[name] = of
}

// partsOf is what can be named of items of those kinds, or of any kind where none is
// said, the shop's own among them.
func (h *House) partsOf(items []string) (*part, error) {
	all, err := kinds()
	if err != nil {
		return nil, err
	}
	if h.parts != nil {
		all = h.parts
	}
	p := &part{kind: cue.StructKind}
	for _, kind := range slices.Sorted(maps.Keys(all)) {
		if len(items) == 0 || slices.Contains(items, kind) {
			p = union(p, all[kind])
		}
	}
	return p, nil
}

// union is what can be named of either.
func union(a, b *part) *part {
	switch {
	case a == nil || a == b:
		return b
	case b == nil:
		return a
	}
	p := &part{kind: a.kind | b.kind, any: union(a.any, b.any), list: union(a.list, b.list), length: a.length && b.length}
	if a.words != nil && b.words != nil {
		p.words = slices.Clone(a.words)
		for _, w := range b.words {
			if !slices.Contains(p.words, w) {
				p.words = append(p.words, w)
			}
		}
	}
	if a.fields == nil && b.fields == nil {
		return p
	}
	p.fields = map[string]*part{}
	for _, from := range []*part{a, b} {
		for _, name := range from.names {
			if _, ok := p.fields[name]; !ok {
				p.add(name, union(a.fields[name], b.fields[name]))
			}
		}
	}
	return p
}

// quantities are what is worked out of an item, whatever its kind, or of a cloth.
func quantities(kinds *worksheet.Kinds, cloth bool) *part {
	p := &part{kind: cue.StructKind, fields: map[string]*part{}}
	add := func(of string, name worksheet.Name) {
		if said := quantityName(of, name); p.fields[said] == nil {
			p.add(said, &part{kind: cue.NumberKind})
		}
	}
	if cloth {
		add("", worksheet.ClothNeeded)
		add("", worksheet.ClothToBuy)
		return p
	}
	for _, k := range kinds.All() {
		for i := range k.Steps {
			if s := &k.Steps[i]; !s.Hidden {
				add(s.Of, cmp.Or(s.Name, worksheet.Name(s.Term)))
			}
		}
	}
	return p
}

// quantityName is a quantity's name as rules write it: bottom_hem_takes.
func quantityName(of string, name worksheet.Name) string {
	said := string(name)
	if of != "" {
		said = of + " " + said
	}
	var b strings.Builder
	gap := false
	for i := 0; i < len(said); i++ {
		c := said[i]
		if c|0x20 < 'a' || c|0x20 > 'z' {
			gap = true
			continue
		}
		if gap && b.Len() > 0 {
			b.WriteByte('_')
		}
		gap = false
		b.WriteByte(c)
	}
	return b.String()
}

// find returns the part that a path leads to. Where it leads to none, it returns
// the name that is not there and what is.
func (p *part) find(steps []step) (found *part, lacks string, has []string) {
	for _, s := range steps {
		var next *part
		switch {
		case s.name == "":
			next = p.list
		case p.fields[s.name] != nil:
			next = p.fields[s.name]
		default:
			next = p.any
		}
		if next == nil {
			return nil, s.String(), p.names
		}
		p = next
	}
	return p, "", nil
}
