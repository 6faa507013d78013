package load

import (
	"fmt"
	"reflect"
	"strings"
	"sync"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"cutgate/internal/order"
	"cutgate/internal/trade"
	"cutgate/schema"
)

// compiled is the content of schema/compiled.json.
type compiled struct {
	Order form           `json:"order"`
	Trade jsontext.Value `json:"trade,omitzero"`
}

// A form is the order form: its groups of fields by name, and where to start.
type form struct {
	Start  string  `json:"start"`
	Groups []group `json:"groups"`
}

// A group is a closed set of fields.
type group struct {
	Name   string  `json:"name"`
	Fields []field `json:"fields"`

	index  map[string]int // by the field's name
	names  []string
	of     reflect.Type // the Go struct that it fills
	vacant vacancy
	by     int  // the field that tells the kind, of a kind of item; -1 for none
	loose  bool // further fields may be given: those of kinds unknown
}

// A field is one field of a group.
type field struct {
	Name string `json:"name"`
	Need bool   `json:"need,omitzero"`
	Is   shape  `json:"is"`
	Says string `json:"says,omitzero"` // the schema's remark on it

	slot   int // the field of the Go struct
	limits limits
}

// A shape is what may stand in one place: exactly one of its parts is given.
type shape struct {
	Blank bool     `json:"blank,omitzero"` // null may stand here: it is an outcome
	Leaf  string   `json:"leaf,omitzero"`  // the reader of a leaf
	Words []string `json:"words,omitzero"` // one of these
	Group string   `json:"group,omitzero"` // a group, by name
	Kinds []string `json:"kinds,omitzero"` // one of these groups, told apart by the field By
	By    string   `json:"by,omitzero"`
	Named *shape   `json:"named,omitzero"` // any names, with this for each
	List  *shape   `json:"list,omitzero"`  // a list of these
	Least int      `json:"least,omitzero"` // the fewest elements of a list

	leaf   leaf
	group  *group
	kinds  map[string]*group // by the word that tells them apart
	common *group            // what all kinds have
	known  []string          // the words of kinds, in order
	wanted string            // in the form's words
	vacant vacancy
	limits limits // of a leaf that is an element or an entry
}

// load reads the compiled schemas, once.
var load = sync.OnceValues(func() (*compiled, error) {
	var c compiled
	if err := json.Unmarshal(schema.Compiled, &c); err != nil {
		return nil, fmt.Errorf("read the compiled order form: %w", err)
	}
	return &c, nil
})

// loader makes the one Loader: it never changes once it is made.
var loader = sync.OnceValues(func() (*Loader, error) {
	c, err := load()
	if err != nil {
		return nil, err
	}
	words, err := readWords(c.Trade)
	if err != nil {
		return nil, err
	}
	l := &Loader{words: words}
	if l.form, err = c.Order.link(); err != nil {
		return nil, fmt.Errorf("link the order form: %w", err)
	}
	l.headings = sync.OnceValue(l.listHeadings)
	return l, nil
})

// New returns a Loader for the order form that is compiled in.
func New() (*Loader, error) { return loader() }

// Tables returns the trade's tables that are compiled in.
func Tables() (*trade.Tables, error) {
	c, err := load()
	if err != nil {
		return nil, err
	}
	t := new(trade.Tables)
	if len(c.Trade) == 0 {
		return t, nil
	}
	if err := json.Unmarshal(c.Trade, t); err != nil {
		return nil, fmt.Errorf("read the compiled trade tables: %w", err)
	}
	return t, nil
}

// link resolves the names in f and binds its groups to the fields of
// [order.Order].
func (f *form) link() (*shape, error) {
	groups := make(map[string]*group, len(f.Groups))
	for i := range f.Groups {
		g := &f.Groups[i]
		g.by = -1
		g.index = make(map[string]int, len(g.Fields))
		g.names = make([]string, len(g.Fields))
		for j := range g.Fields {
			g.index[g.Fields[j].Name] = j
			g.names[j] = g.Fields[j].Name
		}
		groups[g.Name] = g
	}
	start := &shape{Group: f.Start}
	l := linker{groups, vacancies{}, map[reflect.Type]map[string]int{}}
	if err := l.shape(start, "", reflect.TypeFor[order.Order]()); err != nil {
		return nil, err
	}
	return start, nil
}

type linker struct {
	groups map[string]*group
	vacant vacancies
	slots  map[reflect.Type]map[string]int // of the fields of a struct, by the form's name
}

// shape links s, which stands in the named field and fills t.
func (l linker) shape(s *shape, name string, t reflect.Type) error {
	s.vacant = l.vacant.of(t)
	switch {
	case s.Leaf != "":
		k, ok := leafOf(s.Leaf)
		if !ok {
			return fmt.Errorf("there is no reader %q", s.Leaf)
		}
		s.leaf, s.wanted, s.limits = k, k.wanted(), limitsOf(k, "", name)
		if t != k.fills() {
			return fmt.Errorf("%v holds no %s", t, s.Leaf)
		}
	case s.Words != nil:
		s.leaf, s.wanted = word, "one of "+strings.Join(s.Words, ", ")
		if t != word.fills() {
			return fmt.Errorf("%v holds no word", t)
		}
	case s.Group != "":
		s.wanted = "a group of fields"
		s.group = l.groups[s.Group]
		return l.group(s.group, s.Group, t)
	case s.Kinds != nil:
		return l.kinds(s, t)
	case s.Named != nil:
		s.wanted = "a group with a name for each entry"
		of, ok := t.Elem().FieldByName("Of")
		if !ok {
			return fmt.Errorf("%v has no entries", t)
		}
		return l.shape(s.Named, name, of.Type)
	case s.List != nil:
		s.wanted = "a list of " + strings.ReplaceAll(name, "_", " ")
		switch {
		case s.List.Leaf == "text":
			s.wanted = "a list of texts"
		case s.List.Group != "" && !strings.Contains(s.List.Group, "."):
			s.wanted = "a list of " + strings.ToLower(s.List.Group) + "s"
		}
		return l.shape(s.List, name, t.Elem())
	default:
		return fmt.Errorf("the form says nothing of %q", name)
	}
	return nil
}

// group links g and binds it to the fields of t.
func (l linker) group(g *group, name string, t reflect.Type) error {
	if g == nil {
		return fmt.Errorf("there is no group %q", name)
	}
	if g.of == t {
		return nil
	}
	if g.of != nil {
		return fmt.Errorf("group %s fills both %v and %v", name, g.of, t)
	}
	g.of = t
	slots := l.slotsOf(t)
	for i := range g.Fields {
		f := &g.Fields[i]
		var ok bool
		if f.slot, ok = slots[f.Name]; !ok {
			return fmt.Errorf("%v has no field for %s of %s", t, f.Name, name)
		}
		if err := l.shape(&f.Is, f.Name, t.Field(f.slot).Type); err != nil {
			return fmt.Errorf("%s.%s: %w", name, f.Name, err)
		}
		f.limits = limitsOf(f.Is.leaf, t.Name(), f.Name)
	}
	g.vacant = l.vacant.of(t)
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
func (l linker) kinds(s *shape, t reflect.Type) error {
	s.wanted = "a group of fields"
	s.kinds = make(map[string]*group, len(s.Kinds))
	for _, name := range s.Kinds {
		g := l.groups[name]
		if err := l.group(g, name, t); err != nil {
			return err
		}
		at, ok := g.index[s.By]
		if !ok || len(g.Fields[at].Is.Words) != 1 {
			return fmt.Errorf("%s is not told apart by %s", name, s.By)
		}
		g.by = at
		word := g.Fields[at].Is.Words[0]
		s.kinds[word] = g
		s.known = append(s.known, word)
	}
	first := l.groups[s.Kinds[0]]
	s.common = &group{Name: first.Name, index: map[string]int{}, of: t, vacant: l.vacant.of(t), by: -1, loose: true}
	for _, f := range first.Fields {
		everywhere := f.Name != s.By
		for _, name := range s.Kinds {
			_, ok := l.groups[name].index[f.Name]
			everywhere = everywhere && ok
		}
		if everywhere {
			s.common.index[f.Name] = len(s.common.Fields)
			s.common.names = append(s.common.names, f.Name)
			s.common.Fields = append(s.common.Fields, f)
		}
	}
	return nil
}
