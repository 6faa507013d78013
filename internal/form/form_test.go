package form_test

import (
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/cuecontext"
	"cuelang.org/go/cue/errors"

	"cutgate/internal/form"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// TestFields holds the form and the typed order against each other: each field
// of the one has its place in the other.
func TestFields(t *testing.T) {
	l := loaderFor(t)
	asked := map[reflect.Type]map[string]bool{}
	seen := map[*form.Group]bool{}
	var walk func(s *form.Shape)
	walkGroup := func(g *form.Group) {
		if seen[g] {
			return
		}
		seen[g] = true
		if asked[g.Fills] == nil {
			asked[g.Fills] = map[string]bool{}
		}
		for i := range g.Fields {
			asked[g.Fills][g.Fields[i].Name] = true
			walk(&g.Fields[i].Is)
		}
	}
	walk = func(s *form.Shape) {
		switch {
		case s == nil:
			return
		case s.Of != nil:
			walkGroup(s.Of)
		case s.ByWord != nil:
			for _, g := range s.ByWord {
				walkGroup(g)
			}
		}
		walk(s.Named)
		walk(s.List)
	}
	walk(l.Order)
	if len(asked) < 20 {
		t.Errorf("the form fills %d kinds of group only", len(asked))
	}
	for of, names := range asked {
		for i := range of.NumField() {
			if name := of.Field(i).Tag.Get("form"); name != "" && !names[name] {
				t.Errorf("%v has a field for %s, which the form does not ask for", of, name)
			}
		}
		if len(names) > form.MaxFields {
			t.Errorf("%v has more than %d fields", of, form.MaxFields)
		}
	}
}

func loaderFor(t testing.TB) *load.Loader {
	t.Helper()
	l, err := load.New()
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// A forger writes JSON orders that are mostly right. What it does hangs on the
// bytes that it is given, so that a fuzzer can steer it.
type forger struct {
	b     strings.Builder
	dice  []byte
	rate  byte // how often something is wrong: below this of 256
	depth int
}

// roll returns a number below n.
func (f *forger) roll(n int) int {
	if len(f.dice) == 0 {
		return 0
	}
	d := int(f.dice[0])
	f.dice = f.dice[1:]
	return d % n
}

// wrong reports whether something is to be wrong here.
func (f *forger) wrong() bool { return len(f.dice) > 0 && byte(f.roll(256)) < f.rate }

var spellings = map[string][]string{
	"text":        {`"a name"`, `12`, `"é \"quoted\" \\"`, `""`},
	"flag":        {`true`, `false`, `"yes"`, `"off"`},
	"count":       {`2`, `"3"`, `0`, `12.5`, `"two"`, `-1`, `99999`, `"4 in"`},
	"ratio":       {`2.25`, `"2 1/4"`, `"1½"`, `"⅕"`, `"2x"`, `"225%"`, `40`, `0`},
	"percent":     {`2`, `"2%"`, `"2.5 %"`, `"½"`, `"half"`, `300`},
	"length":      {`72`, `"10 1/2 in"`, `"1,5 m"`, `"6' 2\""`, `"½"`, `"⅝"`, `"5 kg"`, `"a yard"`, `-3`, `"9 km"`, `"1/0"`, `"1500 m"`},
	"areal":       {`"240 g/m2"`, `"7 oz/yd²"`, `"240 gsm"`, `"7 oz"`, `240`, `"9000 gsm"`},
	"linear":      {`"50 g/m"`, `"0.5 oz/ft"`, `50`, `"50 g"`},
	"mass":        {`"5 kg"`, `"9 lb 4 oz"`, `5`, `"5 m"`},
	"setting":     {`"2 dots"`, `"1 dot"`, `"none"`, `"••"`, `"150 C"`, `"300°F"`, `"5 dots"`, `2`, `"hot"`, `"None"`, `"2"`},
	"temperature": {`"40 C"`, `"104 °F"`, `40`, `"900 C"`, `"warm"`, `"4 in"`},
	"date":        {`"2026-12-18"`, `"2026-02-30"`, `"18.12.2026"`, `2026`},
}

// value writes something of shape s.
func (f *forger) value(s *form.Shape) {
	f.depth++
	defer func() { f.depth-- }()
	if f.wrong() {
		f.b.WriteString([]string{`null`, `true`, `7`, `"none"`, `[]`, `{}`, `[1]`, `{"width": 1}`, `"a b"`}[f.roll(9)])
		return
	}
	switch {
	case s.Blank && f.roll(4) == 3:
		f.b.WriteString("null")
	case s.Leaf != "":
		all := spellings[s.Leaf]
		if f.rate == 0 {
			all = all[:1]
		}
		f.b.WriteString(all[f.roll(len(all))])
	case s.Words != nil:
		f.word(s.Words[f.roll(len(s.Words))])
	case s.List != nil:
		f.b.WriteByte('[')
		n := s.Least + f.roll(2)
		if f.wrong() {
			n = 0
		}
		for i := range n {
			if i > 0 {
				f.b.WriteByte(',')
			}
			f.value(s.List)
		}
		f.b.WriteByte(']')
	case s.Named != nil:
		f.b.WriteByte('{')
		for i := range f.roll(3) {
			if i > 0 {
				f.b.WriteByte(',')
			}
			fmt.Fprintf(&f.b, "\"name %d\": ", i)
			f.value(s.Named)
		}
		f.b.WriteByte('}')
	case s.Of != nil:
		f.group(s.Of)
	default:
		f.group(s.ByWord[s.Known[f.roll(len(s.Known))]])
	}
}

// word writes a word, or something like it.
func (f *forger) word(w string) {
	if f.wrong() {
		w = []string{strings.ToUpper(w), strings.ReplaceAll(w, " ", "-"), w + "s", w + "x", "fitted", "zz", ""}[f.roll(7)]
	}
	f.b.WriteString(strconv.Quote(w))
}

// group writes the fields of g, most of those that need not be there left out.
func (f *forger) group(g *form.Group) {
	f.b.WriteByte('{')
	n := 0
	used := map[string]bool{}
	write := func(name string, s *form.Shape) {
		if used[name] {
			return // CUE takes two of one name for one
		}
		used[name] = true
		if n > 0 {
			f.b.WriteByte(',')
		}
		n++
		f.b.WriteString(strconv.Quote(name) + ": ")
		f.value(s)
	}
	for i := range g.Fields {
		fl := &g.Fields[i]
		if fl.Need != f.wrong() {
			name := fl.Name
			if f.wrong() {
				name = []string{strings.ToUpper(name), name + "s", name + "x", "zz", strings.ReplaceAll(name, "_", " "), ""}[f.roll(6)]
			}
			write(name, &fl.Is)
		} else if f.roll(3+f.depth) == 1 {
			write(fl.Name, &fl.Is)
		}
	}
	if f.wrong() {
		write([]string{"fibre", "drop", "blind", "colour", "width"}[f.roll(5)], &form.Shape{Leaf: "text"})
	}
	f.b.WriteByte('}')
}

// An oracle is the order form as CUE has it: the whole, and in parts, since CUE takes
// long over which of all kinds an item may be.
type oracle struct {
	order, item cue.Value
	around      cue.Value // the order, whatever its items
	kinds       map[string]cue.Value
}

var theOracle = sync.OnceValues(func() (*oracle, error) {
	v, err := form.Schema()
	if err != nil {
		return nil, err
	}
	loose, err := form.AnyItem()
	if err != nil {
		return nil, err
	}
	o := &oracle{v.LookupPath(cue.ParsePath("#Order")), v.LookupPath(cue.ParsePath("#Item")),
		loose.LookupPath(cue.ParsePath("#Order")), map[string]cue.Value{}}
	defs, err := v.Fields(cue.Definitions(true))
	if err != nil {
		return nil, err
	}
	for defs.Next() {
		if word, err := defs.Value().LookupPath(cue.MakePath(cue.Str("item").Required())).String(); err == nil {
			o.kinds[word] = defs.Value()
		}
	}
	return o, nil
})

// said is what CUE says of v as one of of.
func said(of, v cue.Value) error { return of.Unify(v).Validate(cue.Concrete(true), cue.Final()) }

// inParts is what CUE says of an order, each item held against the kind that it names.
// No item is of two kinds, so it is what CUE says of the whole.
func (o *oracle) inParts(v cue.Value) error {
	err := said(o.around, v)
	items, e := v.LookupPath(cue.ParsePath("items")).List()
	for e == nil && err == nil && items.Next() {
		of := o.item
		if word, e := items.Value().LookupPath(cue.ParsePath("item")).String(); e == nil && o.kinds[word].Exists() {
			of = o.kinds[word]
		}
		err = said(of, items.Value())
	}
	return err
}

// plain is a right spelling for what a leaf wants, to put in the place of a
// wrong one.
func plain(wanted string) string {
	for k := form.Text; k <= form.Date; k++ {
		if k.Wanted() == wanted {
			return spellings[form.LeafName(k)][0]
		}
	}
	return ""
}

// FuzzShape holds the verdict on an order's shape against CUE's own.
func FuzzShape(f *testing.F) {
	dice := rand.New(rand.NewPCG(1, 2))
	for i := range 60 {
		seed := make([]byte, 400)
		for k := 0; k+8 <= len(seed); k += 8 {
			binary.LittleEndian.PutUint64(seed[k:], dice.Uint64())
		}
		f.Add(seed, byte(i%12))
	}
	f.Fuzz(checkShape)
}

func checkShape(t *testing.T, dice []byte, rate byte) {
	l := loaderFor(t)
	cue, err := theOracle()
	if err != nil {
		t.Fatal(err)
	}
	w := forger{dice: dice, rate: rate}
	w.value(l.Order)
	text := w.b.String()
	orders := l.Orders(&source.File{Name: "forged.json", Text: text}, load.JSON, load.Options{})
	if len(orders) != 1 {
		if strings.HasPrefix(text, "[") {
			return // a list of orders
		}
		t.Fatalf("%d orders in %s", len(orders), text)
	}
	o := orders[0]
	if strings.HasPrefix(text, "[") && len(text) > 2 {
		return // its one element is the order
	}
	var shape []string
	spelt := text
	slices.SortStableFunc(o.Flaws, func(a, b order.Flaw) int { return b.At.Start - a.At.Start })
	for _, fl := range o.Flaws {
		switch fl.Kind {
		case order.BadSpelling, order.OddUnit, order.OutOfSense:
			at := fl.At
			if fl.Node.Quote != 0 {
				at.Start, at.End = at.Start-1, at.End+1
			}
			spelt = spelt[:at.Start] + plain(fl.Wanted) + spelt[at.End:]
		default:
			shape = append(shape, fmt.Sprintf("%s %s: kind %d, wanted %s", fl.Path, fl.Name, fl.Kind, fl.Wanted))
		}
	}
	v := cuecontext.New().CompileString(spelt)
	if v.Err() != nil {
		t.Fatalf("%s\n%v", spelt, v.Err())
	}
	parts := cue.inParts(v)
	if len(dice)%16 == 0 { // as all seeds are
		if whole := said(cue.order, v); (whole != nil) != (parts != nil) {
			t.Errorf("%s\nCUE in parts: %v\nCUE: %v", spelt, parts, whole)
		}
	}
	if (parts != nil) != (shape != nil) {
		t.Errorf("%s\nhere: %q\nCUE: %s", spelt, shape, errors.Details(parts, nil))
	}
}
