package load

import (
	"cmp"
	"errors"
	"reflect"
	"slices"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// A reading holds one tree against the form and fills an order from it.
type reading struct {
	l     *Loader
	f     *source.File
	unit  length.Unit // what a bare number means; NoUnit until that is known
	path  syntax.Path
	flaws []order.Flaw
}

// typed makes the order of a root.
func (l *Loader) typed(f *source.File, root *syntax.Root) *order.Order {
	o := &order.Order{File: f, Root: root.Node}
	r := reading{l: l, f: f, flaws: root.Flaws}
	dst := reflect.ValueOf(o).Elem()
	if root.Node == nil {
		l.form.vacant.fill(dst, source.Range{})
	} else {
		r.value(root.Node, l.form, nil, dst)
	}
	slices.SortStableFunc(r.flaws, func(a, b order.Flaw) int { return cmp.Compare(a.At.Start, b.At.Start) })
	o.Flaws = r.flaws
	return o
}

// flaw files what is wrong with the value n, which the path leads to.
func (r *reading) flaw(kind order.FlawKind, n *order.Node, wanted string) *order.Flaw {
	f := order.Flaw{Kind: kind, At: n.At, Path: r.path.String(), Text: n.Text, Wanted: wanted, Node: n}
	if len(r.path) > 0 {
		f.Name = r.path[len(r.path)-1].Name
	}
	r.flaws = append(r.flaws, f)
	return &r.flaws[len(r.flaws)-1]
}

// value reads n, which should be of shape s, into dst. The limits are those of
// the field.
func (r *reading) value(n *order.Node, s *shape, m *limits, dst reflect.Value) {
	if n.Unread && n.Form != order.Map && n.Form != order.List {
		s.vacant.fill(dst, n.At)
		blank(dst, n)
		if n.Cell {
			r.flaw(order.Untaken, n, s.wanted)
		}
		return
	}
	if n.Form == order.Null {
		switch {
		case len(r.path) == 0:
			r.flaw(order.WrongKind, n, s.wanted)
		case !s.Blank && !n.Cell:
			r.flaw(order.Blank, n, s.wanted).Words = s.Words
		}
		s.vacant.fill(dst, n.At)
		blank(dst, n)
		return
	}
	switch {
	case s.leaf != noLeaf:
		r.leaf(n, s, m, dst)
	case s.List != nil:
		if n.Form != order.List {
			r.flaw(order.WrongKind, n, s.wanted)
			return
		}
		r.list(n, s, dst)
	case n.Form != order.Map:
		r.flaw(order.WrongKind, n, s.wanted)
		s.vacant.fill(dst, n.At)
	case s.Named != nil:
		r.named(n, s, dst)
	case s.group != nil:
		r.group(n, s.group, "", dst)
	default:
		r.kind(n, s, dst)
	}
}

// list reads a list into a slice.
func (r *reading) list(n *order.Node, s *shape, dst reflect.Value) {
	if len(n.Kids) < s.Least && !n.Unread {
		f := r.flaw(order.MissingField, n, s.wanted)
		f.Detail = "the list is empty"
	}
	elems := reflect.MakeSlice(dst.Type(), len(n.Kids), len(n.Kids))
	dst.Set(elems)
	for i := range n.Kids {
		r.path.Down("", i)
		r.value(&n.Kids[i], s.List, &s.List.limits, elems.Index(i))
		r.path.Up()
	}
}

// named reads a group with any names into a slice of entries.
func (r *reading) named(n *order.Node, s *shape, dst reflect.Value) {
	elems := reflect.MakeSlice(dst.Type(), 0, len(n.Kids))
	firsts := make(map[string]*order.Node, len(n.Kids))
	for i := range n.Kids {
		k := &n.Kids[i]
		if k.Cell && k.Blank() {
			continue // the column is another row's
		}
		if first := firsts[k.Name]; first != nil {
			r.duplicate(k, first)
			continue
		}
		firsts[k.Name] = k
		elems = elems.Slice(0, elems.Len()+1)
		e := elems.Index(elems.Len() - 1)
		e.Field(0).SetString(k.Name)
		*e.Field(1).Addr().Interface().(*source.Range) = k.Key
		r.path.Down(k.Name, 0)
		r.value(k, s.Named, &s.Named.limits, e.Field(2))
		r.path.Up()
	}
	dst.Set(elems)
}

func (r *reading) duplicate(k, first *order.Node) {
	r.flaws = append(r.flaws, order.Flaw{
		Kind: order.Duplicate, At: k.Key, Related: first.Key, Path: r.path.To(k.Name), Name: k.Name, Text: k.Name, Node: k, InKey: true,
	})
}

// kind finds out which kind of item n is, and reads it as one.
func (r *reading) kind(n *order.Node, s *shape, dst reflect.Value) {
	teller := n.Kid(s.By)
	if teller == nil {
		for i := range n.Kids {
			if _, ok := meant(n.Kids[i].Name, []string{s.By}, r.l.words.fields); ok {
				teller = &n.Kids[i]
				break
			}
		}
	}
	switch {
	case teller == nil && n.Unread:
	case teller == nil:
		r.flaws = append(r.flaws, order.Flaw{
			Kind: order.MissingField, At: whereNew(n), Path: r.path.String(), Name: s.By, Wanted: "one of " + strings.Join(s.known, ", "),
			Words: s.known, Node: n,
		})
	case teller.Form == order.Null && !teller.Unread:
		r.flaws = append(r.flaws, order.Flaw{
			Kind: order.MissingField, At: teller.Key, Path: r.path.String(), Name: s.By, Wanted: "one of " + strings.Join(s.known, ", "),
			Words: s.known, Node: teller, InKey: true,
		})
	case s.kinds[teller.Text] != nil && teller.Form == order.Scalar:
		r.group(n, s.kinds[teller.Text], teller.Text, dst)
		return
	default:
		r.path.Down(s.By, 0)
		own, ok := "", false
		switch {
		case teller.Unread:
		default:
			own, ok = r.word(teller, s.known)
		}
		r.path.Up()
		if ok {
			r.group(n, s.kinds[own], own, dst)
			return
		}
	}
	r.group(n, s.common, "", dst)
}

// whereNew is where a field would go that n does not have: at the group's name,
// or the group itself where it has none.
func whereNew(n *order.Node) source.Range {
	if n.Key.Len() > 0 {
		return n.Key
	}
	return n.At
}

// manyFlaws are so many that nobody looks at them one by one.
const manyFlaws = 1000

// maxFields is more than any group of the form has.
const maxFields = 64

// group reads n as the group g. Word is what tells its kind, already read.
func (r *reading) group(n *order.Node, g *group, word string, dst reflect.Value) {
	where := whereNew(n)
	g.vacant.fill(dst, where) // for what is not given; what is says so itself
	*dst.Field(0).Addr().Interface().(*order.Block) = order.Block{At: n.At, Key: where, Set: true}

	var given [maxFields]*order.Node
	var spoilt [maxFields]bool
	unknown := false
	for i := range n.Kids {
		k := &n.Kids[i]
		at, ok := g.index[k.Name]
		switch {
		case !ok:
			unknown = true
		case given[at] != nil:
			r.duplicate(k, given[at])
		default:
			given[at] = k
		}
	}
	if unknown && !g.loose {
		r.unknown(n, g, &given, &spoilt)
	}
	for i := range g.Fields {
		f := &g.Fields[i]
		k := given[i]
		if k == nil {
			if f.Need && !n.Unread {
				r.flaws = append(r.flaws, order.Flaw{
					Kind: order.MissingField, At: where, Path: r.path.String(), Name: f.Name, Wanted: f.Is.wanted, Words: f.Is.Words, Node: n,
				})
			}
			continue
		}
		slot := dst.Field(f.slot)
		switch {
		case k.Cell && k.Form == order.Map && k.Blank():
			if f.Need {
				r.flaws = append(r.flaws, order.Flaw{
					Kind: order.MissingField, At: k.At, Path: r.path.String(), Name: f.Name, Wanted: f.Is.wanted, Node: n,
				})
			}
			f.Is.vacant.fill(slot, k.At)
			leave(k, &f.Is, slot)
		case spoilt[i]:
			f.Is.vacant.fill(slot, k.At)
			blank(slot, k)
		case i == g.by:
			*slot.Addr().Interface().(*order.Text) = order.Text{Value: word, At: k.At, Set: true, Node: k}
		case f.Need && k.Form == order.Null && !k.Unread && !f.Is.Blank:
			r.flaws = append(r.flaws, order.Flaw{
				Kind: order.MissingField, At: k.Key, Path: r.path.String(), Name: f.Name, Wanted: f.Is.wanted, Words: f.Is.Words, Node: k,
				InKey: true,
			})
			f.Is.vacant.fill(slot, k.At)
			blank(slot, k)
		default:
			r.path.Down(f.Name, 0)
			r.value(k, &f.Is, &f.limits, slot)
			r.path.Up()
			if len(r.path) == 0 && f.Name == "units" {
				r.unit, _ = length.ParseUnit(slot.Addr().Interface().(*order.Text).Value)
			}
		}
	}
}

// leave gives the leaves below n, all of which are blank, their nodes.
func leave(n *order.Node, s *shape, dst reflect.Value) {
	if s.group == nil {
		blank(dst, n)
		return
	}
	for i := range n.Kids {
		if at, ok := s.group.index[n.Kids[i].Name]; ok && s.group.Fields[at].Is.List == nil {
			f := &s.group.Fields[at]
			leave(&n.Kids[i], &f.Is, dst.Field(f.slot))
		}
	}
}

// unknown looks at the fields of n that g does not have.
func (r *reading) unknown(n *order.Node, g *group, given *[maxFields]*order.Node, spoilt *[maxFields]bool) {
	for i := range n.Kids {
		k := &n.Kids[i]
		if _, ok := g.index[k.Name]; ok || k.Cell && k.Blank() {
			continue
		}
		f := order.Flaw{
			Kind: order.UnknownField, At: k.Key, Path: r.path.To(k.Name), Name: k.Name, Text: k.Name, Words: g.names, Node: k, InKey: true,
		}
		if k.Cell {
			f.Detail = "this kind of item has none: leave the cell empty"
			r.flaws = append(r.flaws, f)
			continue
		}
		own, ok := meant(k.Name, g.names, r.l.words.fields)
		at := g.index[own]
		switch {
		case ok && given[at] == nil:
			f.Kind, f.Nearest = order.OtherWord, own
			given[at] = k
		case ok:
			f.Nearest, f.Related = own, given[at].Key
		case i > 0 && r.comma(&n.Kids[i-1], k):
			f.Related = n.Kids[i-1].At
			f.Detail = "a decimal comma ends the value inside { }: put " + r.f.Text[f.Related.Start:k.Key.End] + " in quotes"
			if at, ok := g.index[n.Kids[i-1].Name]; ok {
				spoilt[at] = true
			}
		case len(r.flaws) < manyFlaws:
			f.Nearest = nearest(k.Name, g.names)
		}
		r.flaws = append(r.flaws, f)
	}
}

// comma reports whether k is the part after the comma of a decimal that starts
// with last, as in {width: 1,5 m}.
func (r *reading) comma(last, k *order.Node) bool {
	return k.Form == order.Null && last.Form == order.Number && k.Key.Len() > 0 && last.At.End+1 == k.Key.Start &&
		r.f.Text[last.At.End] == ',' && r.f.Text[k.Key.Start]-'0' <= 9
}

// put fills a leaf, unless its reader refused the text or the value makes no
// sense: then it files the flaw.
func put[T any](r *reading, d *order.Leaf[T], n *order.Node, s *shape, v T, outside bool, err error) {
	d.At, d.Node = n.At, n
	switch {
	case err != nil:
		if n.Cell && s.leaf != date {
			if fraction, ok := madeDate(n.Text); ok {
				r.flaw(order.Dated, n, s.wanted).Nearest = fraction
				return
			}
		}
		m := misread(s.leaf, n.Text, err)
		r.flaw(m.kind, n, s.wanted).Detail = m.detail
	case outside:
		r.flaw(order.OutOfSense, n, s.wanted)
	default:
		d.Value, d.Set = v, true
	}
}

// leaf reads n as a leaf into dst.
func (r *reading) leaf(n *order.Node, s *shape, m *limits, dst reflect.Value) {
	if n.Form == order.Map || n.Form == order.List || n.Form == order.Truth && s.leaf != flag && s.leaf != word {
		r.flaw(order.WrongKind, n, s.wanted)
		s.vacant.fill(dst, n.At)
		return
	}
	ptr := dst.Addr().Interface()
	switch s.leaf {
	case measure:
		r.length(n, s, m, ptr.(*order.Length))
	case count:
		v, err := parseCount(n.Text)
		put(r, ptr.(*order.Count), n, s, v, m.outside(v), err)
	case ratio:
		v, err := length.ParseRatio(n.Text)
		put(r, ptr.(*order.Ratio), n, s, v, m.outsideRatio(v), err)
	case percent:
		v, err := length.ParsePercent(n.Text)
		put(r, ptr.(*order.Percent), n, s, v, m.outsideRatio(v), err)
	case areal:
		v, _, err := mass.ParseAreal(n.Text)
		put(r, ptr.(*order.Areal), n, s, v, m.outside(int64(v)), err)
	case linear:
		v, _, err := mass.ParseLinear(n.Text)
		put(r, ptr.(*order.Linear), n, s, v, m.outside(int64(v)), err)
	case weight:
		v, _, err := mass.ParseMass(n.Text)
		put(r, ptr.(*order.Mass), n, s, v, m.outside(int64(v)), err)
	case setting:
		r.setting(n, s, m, ptr.(*order.Setting))
	case temperature:
		v, err := parseTemperature(n.Text)
		put(r, ptr.(*order.Temperature), n, s, v, m.outside(v.Milli), err)
	case date:
		v, err := parseDate(n.Text)
		put(r, ptr.(*order.Date), n, s, v, false, err)
	case text:
		put(r, ptr.(*order.Text), n, s, n.Text, false, nil)
	case flag:
		r.flag(n, s, ptr.(*order.Flag))
	case word:
		d := ptr.(*order.Text)
		d.At, d.Node = n.At, n
		d.Value, d.Set = r.word(n, s.Words)
	}
}

// length reads a length. Without the order's units a bare number cannot be
// read; that the units are missing has its own flaw.
func (r *reading) length(n *order.Node, s *shape, m *limits, d *order.Length) {
	unit := r.unit
	if n.Unit != length.NoUnit { // a heading's
		unit = n.Unit
	}
	v, _, err := length.Parse(n.Text, unit)
	if err != nil && unit == length.NoUnit {
		if e := (*length.Error)(nil); errors.As(err, &e) && e.Kind == length.ErrUnit && e.Word == "" {
			d.At, d.Node = n.At, n
			return
		}
	}
	n.Unit = unit
	put(r, d, n, s, v, m.outside(int64(v)), err)
}

// setting reads a setting of the iron.
func (r *reading) setting(n *order.Node, s *shape, m *limits, d *order.Setting) {
	v, err := parseSetting(n.Text)
	if err != nil && n.Form == order.Scalar {
		if own, ok := meant(n.Text, []string{"none"}, r.l.words.values); ok {
			f := r.flaw(order.OtherWord, n, s.wanted)
			f.Nearest = own
			v, err = order.Heat{None: true}, nil
		}
	}
	put(r, d, n, s, v, m.outside(v.Milli), err)
}

// flag reads true or false.
func (r *reading) flag(n *order.Node, s *shape, d *order.Flag) {
	d.At, d.Node = n.At, n
	own := n.Text
	if n.Form != order.Truth {
		switch fold(n.Text) {
		case "true", "yes", "y", "on":
			own = "true"
		case "false", "no", "n", "off":
			own = "false"
		default:
			r.flaw(order.WrongKind, n, s.wanted)
			return
		}
		f := r.flaw(order.OtherWord, n, s.wanted)
		f.Nearest, f.Words = own, []string{"true", "false"}
		if n.Quote != 0 {
			f.Detail = "without quote marks"
		}
	}
	d.Value, d.Set = fold(own) == "true", true
}

// word returns the one of words that n is or was meant to be. Where it is not
// the word itself, it files the flaw.
func (r *reading) word(n *order.Node, words []string) (string, bool) {
	if n.Form == order.Scalar {
		for _, w := range words {
			if w == n.Text {
				return w, true
			}
		}
	}
	wanted := "one of " + strings.Join(words, ", ")
	if n.Form == order.Map || n.Form == order.List {
		r.flaw(order.WrongKind, n, wanted)
		return "", false
	}
	f := r.flaw(order.UnknownWord, n, wanted)
	f.Words = words
	own, ok := meant(n.Text, words, r.l.words.values)
	if !ok && len(r.path) == 1 && r.path[0].Name == "units" {
		own, ok = meantUnit(n.Text, words)
	}
	if ok && n.Form == order.Scalar {
		f.Kind, f.Nearest = order.OtherWord, own
		return own, true
	}
	f.Nearest = nearest(n.Text, words)
	return "", false
}
