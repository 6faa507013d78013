package worksheet

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/bits"
	"reflect"
	"slices"
	"strings"
	"sync"
	"unsafe"

	"cutgate/internal/formula"
	"cutgate/internal/length"
	"cutgate/internal/order"
)

// Kinds are the kinds of goods that sizes are worked out for. Each is declared, and its
// formulas and guards are read, when the first item of it is worked out.
type Kinds struct {
	list     []declared
	unworked declared // of goods whose sizes are not worked out
}

// A Declaring is a kind that is declared when it is wanted, by its name.
type Declaring struct {
	Name    string
	Declare func() *Kind
}

// A declared is a kind that is read when it is wanted.
type declared struct {
	name string
	kind func() *Kind
	read func() (*kind, error)
}

func (d Declaring) once() declared {
	decl := sync.OnceValue(d.Declare)
	return declared{d.Name, decl, sync.OnceValues(func() (*kind, error) {
		if k := decl(); k.Name != d.Name {
			return nil, fmt.Errorf("it calls itself %q", k.Name)
		}
		return compile(decl())
	})}
}

// whole reads the kind, with what is otherwise read only when it is wanted.
func (d declared) whole() error {
	k, err := d.read()
	if err != nil {
		return err
	}
	for i := range k.slips {
		if err := k.slips[i].read(k); err != nil {
			return err
		}
	}
	_, err = k.pictures()
	return err
}

// sound is the kind as it was read.
func (d declared) sound() *kind {
	k, err := d.read()
	mustRead(d.name, err)
	return k
}

// mustRead panics where a part of one of the program's own kinds can't be read: a house's are
// read as a whole before they are used.
func mustRead(kind string, err error) {
	if err != nil {
		panic("kind " + kind + ": " + err.Error())
	}
}

// KindsOf are kinds by their names. The one without a name stands for goods whose sizes
// are not worked out.
func KindsOf(list ...Declaring) *Kinds {
	k := new(Kinds)
	for _, d := range list {
		if d.Name == "" {
			k.unworked = d.once()
			continue
		}
		k.list = append(k.list, d.once())
	}
	return k
}

// Read reads every kind. It is an error where a formula can't be read, uses a term
// that is neither given nor worked before, or adds what does not measure the same.
func (k *Kinds) Read() error {
	for _, d := range append(slices.Clone(k.list), k.unworked) {
		if err := d.whole(); err != nil {
			return fmt.Errorf("%s: %w", d.name, err)
		}
	}
	return nil
}

// With returns the kinds with a further one. The error is a [Fault] of it.
func (k *Kinds) With(decl *Kind) (*Kinds, error) {
	d := Declaring{decl.Name, func() *Kind { return decl }}.once()
	if err := d.whole(); err != nil {
		return nil, err
	}
	return &Kinds{list: append(slices.Clone(k.list), d), unworked: k.unworked}, nil
}

// All are the kinds as they were declared.
func (k *Kinds) All() (list []*Kind) {
	for _, d := range k.list {
		list = append(list, d.kind())
	}
	return list
}

// Knows reports whether a kind is worked out.
func (k *Kinds) Knows(name string) bool {
	return slices.ContainsFunc(k.list, func(d declared) bool { return d.name == name })
}

// of is the kind that an item is worked by; nil where it is not worked out.
func (k *Kinds) of(o *order.Item) *kind {
	for i := range k.list {
		if d := &k.list[i]; d.name == o.Kind.Value {
			return d.sound()
		}
	}
	return nil
}

// A Fault is what is wrong with a row of a kind: a choice, a step, a piece, an outcome,
// a slip or a mark.
type Fault struct {
	Part, Of string // "step", "flat width"
	Err      error
}

func (f *Fault) Error() string { return f.Part + " " + f.Of + ": " + f.Err.Error() }
func (f *Fault) Unwrap() error { return f.Err }

// A kind is a Kind with its formulas read and its terms numbered: those that are given
// first, and then those of the steps, in their order.
type kind struct {
	*Kind
	slots    map[string]int // by term
	terms    []string       // by slot, as are the following
	shown    []string
	sorts    []Sort
	words    []bool
	given    []given
	steps    []step
	outcomes []outcome
	pieces   []piecing
	slips    []slipping
	marks    []marking
	notes    []noting
	pictures func() (*picturing, error)
	above    []slotSet // for each slot those that it is worked from, itself included
	below    []slotSet // for each slot those that are worked from it, itself included
	ends     []bool    // by slot
	cut      slotSet   // what the pieces are worked from, and how many joins they have
	beliefs  []int     // the steps that may believe a stated outcome

	roleFields []*field

	// What was read of the declaration so far, as it says much more than once; nil when
	// all was.
	formulas   map[string]*bound
	conditions map[string][]guard
}

type given struct {
	*Given
	slot   int
	as     int      // of As; -1 for none
	fields []*field // of From, without those that are blocks
	roles  []int    // of each of them; -1 for the item's own
	made   *sync.Map
	cone   slotSet // what rests on the field that it is written in, by this term or another
	worded []*row  // those that read it, where each goes by a word
}

// mostRows is how many rows a cell can tell apart, with 0 for none.
const mostRows = 1<<8 - 1

// A step is all rows of one term.
type step struct {
	slot     int
	rows     []row
	reads    slotSet // of all rows
	guards   slotSet // of those, what the guards go by
	settled  int     // so many of the rows, from the first, have none before them that may be passed over in spite of its guards
	believes bool    // a row of it takes what is stated: it goes by more than what it reads
}

type row struct {
	*Step
	when  []guard
	bound *bound
	slots []int // of Reads
}

// from is where to look for the row that is taken, and whether that is known to be it: as
// it was before, where no guard has come out otherwise and all rows before it were passed
// over for their guards.
func (s *step) from(it *Item, was *cell) (row int, known bool) {
	if was == nil || was.row == 0 || int(was.row) > s.settled || it.mask.meets(s.guards) {
		return 0, false
	}
	return int(was.row) - 1, true
}

type outcome struct {
	*Outcome
	slot   int
	field  *field
	chosen bool // a step takes it as it is stated
}

type piecing struct {
	*Piecing
	role                              int
	width, length, count, joined      int // slots; -1 for none
	whole, half, spare, takes, across int
	net, sewn                         int

	leftOut, forOne string // the names of slips in the cloth to buy
}

// undeclared is a piece without any terms.
var undeclared = piecing{role: -1, width: -1, length: -1, count: -1, joined: -1, whole: -1, half: -1, spare: -1, takes: -1, across: -1, net: -1, sewn: -1}

// call names the slips after the piece.
func (p *piecing) call() {
	p.leftOut, p.forOne = "one "+p.Name+" was left out", "this is for one "+p.Name
}

type slipping struct {
	*Slipping
	slot  int
	once  sync.Once // for what follows
	when  []guard
	bound *bound
	err   error
}

// read reads the guards and the formula of a slip, once: few slips of a kind are asked for.
func (s *slipping) read(k *kind) error {
	s.once.Do(func() {
		if s.when, s.err = k.guards(s.When); s.err == nil && s.Formula != "" {
			if s.bound, s.err = k.bind(s.Formula, k.sorts[s.slot]); s.err == nil && s.Show {
				s.bound.show(k)
			}
		}
		if s.err != nil {
			s.err = &Fault{"slip", s.Of, s.err}
		}
	})
	return s.err
}

// A bound formula knows the slots of its terms.
type bound struct {
	f        *formula.Formula
	slots    []int
	optional [][]int // the slots of each part that may be left out
	shown    []text  // by which of those are there
}

// A text is a formula as it is shown, with the slots of its terms.
type text struct {
	words string
	slots []int
}

// A guard is one condition of a When.
type guard struct {
	slot int
	no   bool
	word []string // that the term is one of; nil for one that just has to be there
	a, b *bound   // a comparison
	op   *comparison
}

// A comparison is a sign between two numbers, and how the one on its left may stand to the
// other.
type comparison struct {
	sign                string
	less, equal, larger bool
}

var comparisons = [...]comparison{
	{" ≤ ", true, true, false}, {" ≥ ", false, true, true}, {" < ", true, false, false}, {" > ", false, false, true},
	{" = ", false, true, false}, {" ≠ ", true, false, true},
}

// A field is a leaf of the form: where it lies in its struct, and of which type it is.
type field struct {
	path     string
	offset   uintptr
	of       reflect.Type
	as       func(unsafe.Pointer) any // what points to it, by its type; nil for a block or a list
	measured *field                   // of a cloth's, where it is when it was measured at the bench; nil where that is not
}

// isLeaf reports whether the field is one value, not a block or a list.
func (f *field) isLeaf() bool { return f.as != nil }

// leaf is the field of the item or the cloth that base points to.
func (f *field) leaf(base unsafe.Pointer) any {
	if f.as == nil {
		return nil
	}
	return f.as(unsafe.Add(base, f.offset))
}

// leaves make a pointer to a leaf of each type.
var leaves = map[reflect.Type]func(unsafe.Pointer) any{
	reflect.TypeFor[order.Length]():  func(p unsafe.Pointer) any { return (*order.Length)(p) },
	reflect.TypeFor[order.Count]():   func(p unsafe.Pointer) any { return (*order.Count)(p) },
	reflect.TypeFor[order.Ratio]():   func(p unsafe.Pointer) any { return (*order.Ratio)(p) },
	reflect.TypeFor[order.Mass]():    func(p unsafe.Pointer) any { return (*order.Mass)(p) },
	reflect.TypeFor[order.Areal]():   func(p unsafe.Pointer) any { return (*order.Areal)(p) },
	reflect.TypeFor[order.Linear]():  func(p unsafe.Pointer) any { return (*order.Linear)(p) },
	reflect.TypeFor[order.Text]():    func(p unsafe.Pointer) any { return (*order.Text)(p) },
	reflect.TypeFor[order.Flag]():    func(p unsafe.Pointer) any { return (*order.Flag)(p) },
	reflect.TypeFor[order.Setting](): func(p unsafe.Pointer) any { return (*order.Setting)(p) },
}

// blockFields are the fields of the blocks of the form that were asked for.
var blockFields sync.Map

// formFields are the fields of a block of the form, by their names there.
func formFields(t reflect.Type) map[string]reflect.StructField {
	if known, ok := blockFields.Load(t); ok {
		return known.(map[string]reflect.StructField)
	}
	fields := map[string]reflect.StructField{}
	for i := 0; t.Kind() == reflect.Struct && i < t.NumField(); i++ {
		if s := t.Field(i); s.Tag.Get("form") != "" {
			fields[s.Tag.Get("form")] = s
		}
	}
	blockFields.Store(t, fields)
	return fields
}

// fieldOf finds the field of a path in a block of the form.
func fieldOf(t reflect.Type, path string) (*field, error) {
	f := &field{path: path, of: t}
	for name := range strings.SplitSeq(path, ".") {
		s, ok := formFields(f.of)[name]
		if !ok {
			return nil, fmt.Errorf("the form has no field %s", path)
		}
		f.offset, f.of = f.offset+s.Offset, s.Type
	}
	f.as = leaves[f.of]
	return f, nil
}

var (
	itemType  = reflect.TypeFor[order.Item]()
	clothType = reflect.TypeFor[order.Cloth]()

	measuredType = reflect.TypeFor[order.Measurements]()
)

func compile(decl *Kind) (*kind, error) {
	k := &kind{Kind: decl, slots: map[string]int{}, formulas: map[string]*bound{}, conditions: map[string][]guard{}}
	for _, r := range decl.Roles {
		f, err := fieldOf(itemType, r.Field)
		if err != nil {
			return nil, err
		}
		k.roleFields = append(k.roleFields, f)
	}
	add := func(term, shown string, sort Sort, word bool) (int, error) {
		if _, ok := k.slots[term]; ok {
			return 0, fmt.Errorf("the term %s is there twice", term)
		}
		if shown == "" {
			shown = term
		}
		k.slots[term] = len(k.terms)
		k.terms, k.shown, k.sorts, k.words = append(k.terms, term), append(k.shown, shown), append(k.sorts, sort), append(k.words, word)
		return len(k.terms) - 1, nil
	}
	all := append(slices.Clip(decl.Given), quantity)
	for i := range all {
		g := given{Given: &all[i], as: -1, made: new(sync.Map)}
		var err error
		if g.As != "" {
			if g.as, err = k.slot(g.As); err != nil {
				return nil, &Fault{"choice", g.Term, err}
			}
		}
		if g.slot, err = add(g.Term, g.Shown, g.Sort, g.Word != nil || g.Usually != ""); err != nil {
			return nil, &Fault{"choice", g.Term, err}
		}
		for _, from := range g.From {
			f, role, err := k.fieldFrom(from)
			if err != nil {
				return nil, &Fault{"choice", g.Term, err}
			}
			if f.isLeaf() {
				g.fields, g.roles = append(g.fields, f), append(g.roles, role)
			}
		}
		if g.Get == nil && g.Word == nil && g.Else == nil && len(g.fields) == 0 {
			return nil, &Fault{"choice", g.Term, errors.New("nothing says what it is")}
		}
		k.given = append(k.given, g)
	}
	for i := range decl.Steps {
		s := &decl.Steps[i]
		n := len(k.steps)
		if n == 0 || k.steps[n-1].rows[0].Term != s.Term {
			shown := cmp.Or(s.Shown, string(s.Name))
			slot, err := add(s.Term, shown, s.Sort, s.Word != nil)
			if err != nil {
				return nil, &Fault{"step", s.Term, err}
			}
			k.steps = append(k.steps, step{slot: slot})
			n++
		}
		r := row{Step: s}
		var err error
		if r.when, err = k.guards(s.When); err == nil && s.Formula != "" {
			if r.bound, err = k.bind(s.Formula, s.Sort); err == nil {
				r.bound.show(k)
			}
		}
		for _, term := range s.Reads {
			if err == nil {
				var slot int
				slot, err = k.slot(term)
				r.slots = append(r.slots, slot)
			}
		}
		if err != nil {
			return nil, &Fault{"step", s.Term, err}
		}
		if k.steps[n-1].rows = append(k.steps[n-1].rows, r); len(k.steps[n-1].rows) > mostRows {
			return nil, &Fault{"step", s.Term, errors.New("it has too many rows")}
		}
	}
	for i := range decl.Outcomes {
		o := outcome{Outcome: &decl.Outcomes[i]}
		var err error
		if o.slot, err = k.slot(o.Term); err == nil {
			o.field, err = fieldOf(itemType, o.Field)
		}
		if err != nil {
			return nil, &Fault{"outcome", o.Term, err}
		}
		o.chosen = slices.ContainsFunc(k.steps, func(s step) bool {
			return s.slot == o.slot && slices.ContainsFunc(s.rows, func(r row) bool { return r.Own })
		})
		k.outcomes = append(k.outcomes, o)
	}
	// In the order of the form.
	slices.SortStableFunc(k.outcomes, func(a, b outcome) int { return cmp.Compare(a.field.offset, b.field.offset) })
	for i := range decl.Pieces {
		p := undeclared
		p.Piecing, p.role = &decl.Pieces[i], k.Kind.Role(decl.Pieces[i].Role)
		p.call()
		var err error
		for _, t := range []struct {
			slot *int
			term string
		}{{&p.width, p.Width}, {&p.length, p.Length}, {&p.count, p.Count}, {&p.joined, p.Joined}, {&p.whole, p.Whole}, {&p.half, p.Half}, {&p.spare, p.Spare}, {&p.takes, p.Takes}, {&p.across, p.Across}, {&p.net, p.Net}, {&p.sewn, p.Sewn}} {
			if t.term == "" {
				continue
			}
			if *t.slot, err = k.slot(t.term); err != nil {
				return nil, &Fault{"piece", p.Name, err}
			}
		}
		k.pieces = append(k.pieces, p)
	}
	k.slips = make([]slipping, len(decl.Slips))
	for i := range decl.Slips {
		s := &k.slips[i]
		s.Slipping = &decl.Slips[i]
		var err error
		if s.slot, err = k.slot(s.Of); err != nil {
			return nil, &Fault{"slip", s.Of, err}
		}
	}
	if err := k.mark(add); err != nil {
		return nil, err
	}
	k.pictures = sync.OnceValues(k.picture)
	if err := k.note(); err != nil {
		return nil, err
	}
	k.formulas, k.conditions = nil, nil
	return k, k.close()
}

// A marking is a Marking with its formulas read.
type marking struct {
	*Marking
	when      []guard
	count, at *bound
	number    int // the slot of {k}
}

// mark reads the formulas of the kind's marks.
func (k *kind) mark(add func(term, shown string, sort Sort, word bool) (int, error)) error {
	if len(k.Marks) == 0 {
		return nil
	}
	number, err := add("k", "", Count, false)
	if err != nil {
		return err
	}
	for i := range k.Marks {
		m := marking{Marking: &k.Marks[i], number: number}
		if m.when, err = k.guards(m.When); err == nil {
			if m.count, err = k.bind(m.Count, Count); err == nil {
				m.at, err = k.bind(m.At, Length)
			}
		}
		if err != nil {
			return &Fault{"mark", m.Name, err}
		}
		k.marks = append(k.marks, m)
	}
	return nil
}

// A noting is a Noting with its guards read.
type noting struct {
	*Noting
	when []guard
}

// note reads the guards of the kind's notes, and looks for the terms in their texts.
func (k *kind) note() error {
	for i := range k.Notes {
		n := noting{Noting: &k.Notes[i]}
		var err error
		if n.when, err = k.guards(n.When); err != nil {
			return fmt.Errorf("note %s: %w", n.Name, err)
		}
		for rest := n.Text; err == nil; {
			var term string
			var ok bool
			if _, rest, ok = strings.Cut(rest, "{"); !ok {
				break
			}
			term, rest, _ = strings.Cut(rest, "}")
			if _, err = k.slot(term); err != nil {
				return fmt.Errorf("note %s: %w", n.Name, err)
			}
		}
		k.notes = append(k.notes, n)
	}
	return nil
}

// fieldFrom finds what a field of Given.From names.
func (k *kind) fieldFrom(from string) (*field, int, error) {
	if role, path, ok := strings.Cut(from, "/"); ok {
		f, err := fieldOf(clothType, path)
		if err == nil {
			f.measured, _ = fieldOf(measuredType, path)
		}
		return f, k.Kind.Role(role), err
	}
	f, err := fieldOf(itemType, from)
	return f, -1, err
}

func (k *kind) slot(term string) (int, error) {
	if s, ok := k.slots[term]; ok {
		return s, nil
	}
	return -1, fmt.Errorf("there is no term {%s}", term)
}

// bind reads a formula whose result has to be of a sort.
func (k *kind) bind(text string, sort Sort) (*bound, error) {
	b := k.formulas[text]
	if b == nil {
		f, err := formula.Parse(text)
		if err != nil {
			return nil, err
		}
		b = &bound{f: f}
	}
	d, err := b.f.Dimension(func(term string) (formula.Dimension, bool) {
		s, ok := k.slots[term]
		if !ok || k.words[s] {
			return formula.Plain, false
		}
		return k.sorts[s].dimension(), true
	})
	if err != nil {
		return nil, err
	}
	if want := sort.dimension(); d != want {
		return nil, fmt.Errorf("formula %q comes to %s, not %s", text, d, want)
	}
	if terms := b.f.Terms(); b.slots == nil && len(terms) > 0 {
		b.slots = make([]int, len(terms))
		for i, t := range terms {
			b.slots[i] = k.slots[t]
		}
	}
	if k.formulas != nil {
		k.formulas[text] = b
	}
	return b, nil
}

// needs reports whether the formula has no result without what is in a slot.
func (b *bound) needs(slot int) bool {
	term := slices.Index(b.slots, slot)
	return term >= 0 && b.f.Needs(term)
}

// show makes the texts of a formula, one for each way to leave parts of it out.
func (b *bound) show(k *kind) {
	if b.shown != nil {
		return
	}
	parts := b.f.Optional()
	for _, terms := range parts {
		var slots []int
		for _, t := range terms {
			slots = append(slots, b.slots[t])
		}
		b.optional = append(b.optional, slots)
	}
	for there := range 1 << len(parts) {
		has := func(term int) bool {
			for i, terms := range parts {
				if there&(1<<i) == 0 && slices.Contains(terms, term) {
					return false
				}
			}
			return true
		}
		words, terms := b.f.Words(has, func(t int) string { return k.shown[b.slots[t]] })
		one := text{words: words}
		for _, t := range terms {
			one.slots = append(one.slots, b.slots[t])
		}
		b.shown = append(b.shown, one)
	}
}

// guards reads a When.
func (k *kind) guards(when string) (list []guard, err error) {
	if when == "" {
		return nil, nil
	}
	if list, ok := k.conditions[when]; ok {
		return list, nil
	}
	for _, part := range Conditions(when) {
		var g guard
		if strings.Contains(part, "{") || strings.Contains(part, " = ") {
			for i := range comparisons {
				op := &comparisons[i]
				a, b, ok := strings.Cut(part, op.sign)
				if !ok {
					continue
				}
				g.op = op
				if g.a, g.b, err = k.compared(a, b); err != nil {
					return nil, err
				}
				break
			}
			if g.a == nil {
				return nil, fmt.Errorf("guard %q compares nothing", part)
			}
			list = append(list, g)
			continue
		}
		name := part
		if term, words, ok := strings.Cut(part, ": "); ok {
			name, g.word = term, strings.Split(words, "/")
		} else if rest, ok := strings.CutPrefix(part, "no "); ok {
			name, g.no = rest, true
		}
		if g.slot, err = k.slot(name); err != nil {
			return nil, fmt.Errorf("guard %q: %w", part, err)
		}
		list = append(list, g)
	}
	if k.conditions != nil {
		k.conditions[when] = list
	}
	return list, nil
}

// Conditions splits a When at its commas, but for those in braces or parentheses.
func Conditions(when string) (list []string) {
	start, deep := 0, 0
	for i := range len(when) {
		switch when[i] {
		case '{', '(':
			deep++
		case '}', ')':
			deep--
		case ',':
			if deep == 0 {
				list = append(list, strings.TrimSpace(when[start:i]))
				start = i + 1
			}
		}
	}
	return append(list, strings.TrimSpace(when[start:]))
}

// compared reads the two sides of a comparison, which have to measure the same.
func (k *kind) compared(a, b string) (x, y *bound, err error) {
	for _, sort := range []Sort{Length, Ratio} {
		if x, err = k.bind(a, sort); err != nil {
			continue
		}
		if y, err = k.bind(b, sort); err == nil {
			return x, y, nil
		}
		if b == "0" {
			y, err = k.bind(b, Ratio)
			return x, y, err
		}
	}
	return nil, nil, err
}

// dimension is what values of the sort measure.
func (s Sort) dimension() formula.Dimension {
	switch s {
	case Length:
		return formula.Length
	case Mass:
		return formula.Mass
	case Linear:
		return formula.Linear
	case Areal:
		return formula.Areal
	case Dots:
		return formula.Heat
	}
	return formula.Plain
}

// wordedRows are the rows that read a slot, if each of them goes by a word; nil if one does not.
func (k *kind) wordedRows(slot int) (list []*row) {
	for i := range k.steps {
		for j := range k.steps[i].rows {
			r := &k.steps[i].rows[j]
			switch {
			case !slices.Contains(r.reads(), slot):
			case slices.ContainsFunc(r.when, func(g guard) bool { return g.word != nil }):
				list = append(list, r)
			default:
				return nil
			}
		}
	}
	return list
}

// reads are the slots that a row goes by: those of its formula, its guards and its Reads.
func (r *row) reads() []int {
	list := append(guarded(r.when), r.slots...)
	if r.bound != nil {
		list = append(list, r.bound.slots...)
	}
	return list
}

// reckons are the slots that a row is worked out with: those of its formula, or its Reads.
func (r *row) reckons() []int {
	if r.bound != nil {
		return r.bound.slots
	}
	return r.slots
}

func guarded(when []guard) (list []int) {
	for _, g := range when {
		if g.a != nil {
			list = append(append(list, g.a.slots...), g.b.slots...)
		} else {
			list = append(list, g.slot)
		}
	}
	return list
}

// A slotSet is a set of slots, a bit for each.
type slotSet []uint64

func (s slotSet) add(slot int)      { s[slot/64] |= 1 << (slot % 64) }
func (s slotSet) has(slot int) bool { return s[slot/64]&(1<<(slot%64)) != 0 }

func (s slotSet) drop(slot int) { s[slot/64] &^= 1 << (slot % 64) }

// slotSet is an empty set of the kind's slots.
func (k *kind) slotSet() slotSet { return make(slotSet, len(k.terms)/64+1) }

// join adds the slots of another set of the same kind.
func (s slotSet) join(other slotSet) {
	for i, word := range other {
		s[i] |= word
	}
}

// meet drops the slots that are not in another set of the same kind.
func (s slotSet) meet(other slotSet) {
	for i, word := range other {
		s[i] &= word
	}
}

// fill adds every slot.
func (s slotSet) fill() {
	for i := range s {
		s[i] = math.MaxUint64
	}
}

// meets reports whether a slot is in both sets.
func (s slotSet) meets(other slotSet) bool {
	for i, word := range other {
		if s[i]&word != 0 {
			return true
		}
	}
	return false
}

// all gives the slots in their order. The set may lose meanwhile those that were given.
func (s slotSet) all(yield func(slot int) bool) {
	for i, word := range s {
		for ; word != 0; word &= word - 1 {
			if !yield(64*i + bits.TrailingZeros64(word)) {
				return
			}
		}
	}
}

// close finds what rests on what.
func (k *kind) close() error {
	above := make([]slotSet, len(k.terms)) // what a slot is worked from
	for i := range above {
		above[i] = k.slotSet()
		above[i].add(i)
	}
	for i := range k.given {
		if g := &k.given[i]; g.as >= 0 {
			above[g.slot].join(above[g.as])
		}
	}
	for i := range k.steps {
		s := &k.steps[i]
		s.reads, s.guards = k.slotSet(), k.slotSet()
		if s.settled = 1 + slices.IndexFunc(s.rows, func(r row) bool { return r.Work != nil }); s.settled == 0 {
			s.settled = len(s.rows)
		}
		s.believes = slices.ContainsFunc(s.rows, func(r row) bool { return r.Belief })
		for j := range s.rows {
			for _, slot := range guarded(s.rows[j].when) {
				s.guards.add(slot)
			}
			for _, r := range s.rows[j].reads() {
				if r > s.slot {
					return &Fault{"step", s.rows[j].Term, fmt.Errorf("it reads {%s}, which is worked out later", k.terms[r])}
				}
				s.reads.add(r)
				above[s.slot].join(above[r])
			}
		}
	}
	k.ends = make([]bool, len(k.terms))
	for i := range k.steps {
		k.ends[k.steps[i].slot] = k.steps[i].rows[0].Ends
		if k.steps[i].believes {
			k.beliefs = append(k.beliefs, i)
		}
	}
	k.above, k.below = above, make([]slotSet, len(k.terms))
	for i := range k.below {
		k.below[i] = k.slotSet()
	}
	for slot, ups := range above {
		for up := range ups.all {
			k.below[up].add(slot)
		}
	}
	k.cut = k.slotSet()
	for i := range k.pieces {
		p := &k.pieces[i]
		for _, slot := range [...]int{p.width, p.length, p.count, p.joined, p.whole, p.half, p.spare, p.takes, p.across, p.net, p.sewn} {
			if slot >= 0 {
				k.cut.join(above[slot])
			}
		}
	}
	for _, term := range [...]string{"joins", string(WidthsPerPanel)} { // by which a half drop goes
		if slot, ok := k.slots[term]; ok {
			k.cut.join(above[slot])
		}
	}
	for i := range k.given {
		g := &k.given[i]
		if g.Choice == nil {
			continue
		}
		g.cone = k.coneOf(g)
		if g.Choice != nil && len(g.roles) > 0 && g.roles[0] < 0 {
			g.worded = k.wordedRows(g.slot)
		}
	}
	return nil
}

// coneOf is what rests on the field that a term is written in, by this term or another.
func (k *kind) coneOf(g *given) slotSet {
	cone := k.slotSet()
	for i := range k.given {
		o := &k.given[i]
		if slices.ContainsFunc(g.From, func(f string) bool { return slices.ContainsFunc(o.From, func(b string) bool { return within(f, b) }) }) {
			cone.join(k.below[o.slot])
		}
	}
	return cone
}

// eval works a formula out with the numbers of an item.
func (b *bound) eval(it *Item) (length.Ratio, bool) {
	return b.f.Eval(func(term int) (length.Ratio, bool) {
		c := &it.cells[b.slots[term]]
		return c.value.number(), c.has
	})
}

// impossible reports whether a formula has no result though all that is needed was
// given: a term of it is less than nothing, or nothing where it divides.
func (b *bound) impossible(it *Item) bool {
	missing := false
	for i, slot := range b.slots {
		c := &it.cells[slot]
		if c.impossible {
			return true
		}
		missing = missing || !c.has && b.f.Needs(i)
	}
	return !missing
}

// as is the formula as it is shown for an item.
func (b *bound) as(it *Item) text {
	there := 0
	for i, slots := range b.optional {
		if !slices.ContainsFunc(slots, func(s int) bool { return !it.cells[s].has }) {
			there |= 1 << i
		}
	}
	return b.shown[there]
}

// hold reports whether all conditions hold.
func hold(when []guard, it *Item) bool {
	for i := range when {
		if !when[i].holds(it) {
			return false
		}
	}
	return true
}

func (g *guard) holds(it *Item) bool {
	if g.a != nil {
		a, ok := g.a.eval(it)
		b, ok2 := g.b.eval(it)
		if !ok || !ok2 {
			return false
		}
		switch c := a.Cmp(b); {
		case c < 0:
			return g.op.less
		case c > 0:
			return g.op.larger
		}
		return g.op.equal
	}
	c := &it.cells[g.slot]
	if g.word != nil {
		return slices.Contains(g.word, c.word)
	}
	return c.has != g.no
}
