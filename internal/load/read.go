package load

import (
	"cmp"
	"errors"
	"reflect"
	"slices"
	"strings"
	"unicode"

	"cutgate/internal/form"
	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
	"cutgate/internal/syntax/table"
)

// A reading holds one tree against the form and fills an order from it.
type reading struct {
	l     *Loader
	f     *source.File
	root  *order.Node
	mem   *order.Memory
	unit  length.Unit // what a bare number means; NoUnit until that is known
	path  syntax.Path
	item  *form.Group // the fields of the item that is read; nil outside of one
	cloth *order.Node // what it is made of; nil if it does not say
	flaws []order.Flaw
}

// typed makes the order of a root.
func (l *Loader) typed(f *source.File, root *syntax.Root, m *order.Memory) *order.Order {
	if root.Make != nil {
		root.Node, root.Flaws = root.Make(m)
	}
	o := order.New(f, root.Node)
	r := reading{l: l, f: f, root: root.Node, mem: m, flaws: root.Flaws}
	dst := reflect.ValueOf(o).Elem()
	if root.Node == nil {
		l.Order.Places.Fill(dst, source.Range{})
	} else {
		r.value(root.Node, l.Order, nil, dst)
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
func (r *reading) value(n *order.Node, s *form.Shape, m *form.Limits, dst reflect.Value) {
	if n.Unread && n.Form != order.Map && n.Form != order.List {
		s.Places.Fill(dst, n.At)
		blank(dst, n)
		if n.Cell {
			r.flaw(order.Untaken, n, s.Wanted)
		}
		return
	}
	if n.Form == order.Null {
		switch {
		case len(r.path) == 0:
			r.flaw(order.WrongKind, n, s.Wanted)
		case !s.Blank && !n.Cell:
			r.flaw(order.Blank, n, s.Wanted).Words = s.Words
		}
		s.Places.Fill(dst, n.At)
		blank(dst, n)
		return
	}
	switch {
	case s.Reads != form.NoLeaf:
		r.leaf(n, s, m, dst)
	case s.List != nil:
		if n.Form != order.List {
			r.flaw(order.WrongKind, n, s.Wanted)
			return
		}
		r.list(n, s, dst)
	case n.Form != order.Map:
		r.flaw(order.WrongKind, n, s.Wanted)
		s.Places.Fill(dst, n.At)
	case s.Named != nil:
		r.named(n, s, dst)
	case s.Of != nil:
		r.group(n, s.Of, "", dst)
	default:
		r.kind(n, s, dst)
	}
}

// list reads a list into a slice.
func (r *reading) list(n *order.Node, s *form.Shape, dst reflect.Value) {
	if len(n.Kids) < s.Least && !n.Unread {
		f := r.flaw(order.MissingField, n, s.Wanted)
		f.Detail = "the list is empty"
	}
	r.room(dst, len(n.Kids))
	for i := range n.Kids {
		r.path.Down("", i)
		r.value(&n.Kids[i], s.List, &s.List.Limits, dst.Index(i))
		r.path.Up()
	}
}

// room makes dst a slice of so many zero elements.
func (r *reading) room(dst reflect.Value, n int) {
	switch to := dst.Addr().Interface().(type) {
	case *[]order.Item:
		*to = r.mem.Items.Make(n)
	case *[]order.Cut:
		*to = r.mem.Cuts.Make(n)
	case *[]order.Entry[order.Cloth]:
		*to = r.mem.Cloths.Make(n)
	default:
		dst.Set(reflect.MakeSlice(dst.Type(), n, n))
	}
}

// named reads a group with any names into a slice of entries.
func (r *reading) named(n *order.Node, s *form.Shape, dst reflect.Value) {
	r.room(dst, len(n.Kids))
	used := 0
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
		e := dst.Index(used)
		used++
		e.Field(0).SetString(k.Name)
		*e.Field(1).Addr().Interface().(*source.Range) = k.Key
		r.path.Down(k.Name, 0)
		r.value(k, s.Named, &s.Named.Limits, e.Field(2))
		r.path.Up()
	}
	dst.SetLen(used)
}

func (r *reading) duplicate(k, first *order.Node) {
	r.flaws = append(r.flaws, order.Flaw{
		Kind: order.Duplicate, At: k.Key, Related: first.Key, Path: r.path.To(k.Name), Name: k.Name, Text: k.Name, Node: k, InKey: true,
	})
}

// kind finds out which kind of item n is, and reads it as one.
func (r *reading) kind(n *order.Node, s *form.Shape, dst reflect.Value) {
	r.cloth = n.Kid("cloth")
	defer func() { r.item = nil }()
	teller := n.Kid(s.By)
	if teller == nil {
		for i := range n.Kids {
			if _, ok := form.Meant(n.Kids[i].Name, []string{s.By}, r.l.Words.Fields); ok {
				teller = &n.Kids[i]
				break
			}
		}
	}
	switch {
	case teller == nil && n.Unread:
	case teller == nil:
		r.flaws = append(r.flaws, order.Flaw{
			Kind: order.MissingField, At: whereNew(n), Path: r.path.String(), Name: s.By, Wanted: "one of " + strings.Join(s.Known, ", "),
			Words: s.Known, Node: n,
		})
	case teller.Form == order.Null && !teller.Unread:
		r.flaws = append(r.flaws, order.Flaw{
			Kind: order.MissingField, At: teller.Key, Path: r.path.String(), Name: s.By, Wanted: "one of " + strings.Join(s.Known, ", "),
			Words: s.Known, Node: teller, InKey: true,
		})
	case s.ByWord[teller.Text] != nil && teller.Form == order.Scalar:
		r.item = s.ByWord[teller.Text]
		r.group(n, r.item, teller.Text, dst)
		return
	default:
		r.path.Down(s.By, 0)
		own, ok := "", false
		switch {
		case teller.Unread:
		default:
			if own, ok = r.goodsTold(n, teller); own == "" {
				own, ok = r.word(teller, s.Known)
			}
		}
		r.path.Up()
		if ok {
			r.item = s.ByWord[own]
			r.group(n, r.item, own, dst)
			return
		}
	}
	r.group(n, s.Common, "", dst)
}

// goodsTold is the kind of goods that a word means by the fields of the item, which it files
// as another workroom's; "" where the word is none such. Where no field tells which is meant,
// it files what it may be, and reports false.
func (r *reading) goodsTold(n, teller *order.Node) (kind string, told bool) {
	if teller.Form != order.Scalar {
		return "", false
	}
	var words, all []string
	for _, spelt := range form.Numbers(form.Fold(teller.Text)) {
		for _, w := range r.l.Words.Goods[spelt] {
			all = append(all, w.Form)
			if slices.ContainsFunc(n.Kids, func(k order.Node) bool {
				_, ok := form.Meant(k.Name, w.By, r.l.Words.Fields)
				return ok && k.Form != order.Null
			}) {
				words = append(words, w.Form)
			}
		}
	}
	switch {
	case len(all) == 0:
		return "", false
	case len(words) == 1:
		f := r.flaw(order.OtherWord, teller, "one of "+strings.Join(all, ", "))
		f.Words, f.Nearest = all, words[0]
		return words[0], true
	}
	f := r.flaw(order.UnknownWord, teller, "one of "+strings.Join(all, ", "))
	f.Words = all
	return all[0], false
}

// whereNew is where a field would go that n does not have: at the group's name,
// or the group itself where it has none.
func whereNew(n *order.Node) source.Range {
	if n.Key.Len() > 0 {
		return n.Key
	}
	return n.At
}

// group reads n as the group g. Word is what tells its kind, already read.
func (r *reading) group(n *order.Node, g *form.Group, word string, dst reflect.Value) {
	where := whereNew(n)
	g.Places.Fill(dst, where) // for what is not given; what is says so itself
	*dst.Field(0).Addr().Interface().(*order.Block) = order.Block{At: n.At, Key: where, Set: true}

	before := len(r.flaws)
	var given [form.MaxFields]*order.Node
	var spoilt [form.MaxFields]bool
	unknown := false
	for i := range n.Kids {
		k := &n.Kids[i]
		at, ok := g.Index[k.Name]
		switch {
		case !ok:
			unknown = true
		case given[at] != nil:
			r.duplicate(k, given[at])
			spoilt[at] = spoilt[at] || g.Fields[at].Is.Of == nil && k.Text != given[at].Text // nobody knows which is right
		default:
			given[at] = k
		}
	}
	if unknown && !g.Loose {
		r.unknown(n, g, &given, &spoilt)
	}
	for i := range g.Fields {
		f := &g.Fields[i]
		k := given[i]
		if k == nil {
			if f.Need && !n.Unread {
				r.flaws = append(r.flaws, order.Flaw{
					Kind: order.MissingField, At: where, Path: r.path.String(), Name: f.Name, Wanted: f.Is.Wanted, Words: f.Is.Words, Node: n,
				})
			}
			continue
		}
		slot := dst.Field(f.Slot)
		switch {
		case k.Cell && k.Form == order.Map && k.Blank():
			if f.Need {
				r.flaws = append(r.flaws, order.Flaw{
					Kind: order.MissingField, At: k.At, Path: r.path.String(), Name: f.Name, Wanted: f.Is.Wanted, Node: n,
				})
			}
			f.Is.Places.Fill(slot, k.At)
			leave(k, &f.Is, slot)
		case spoilt[i]:
			f.Is.Places.Fill(slot, k.At)
			blank(slot, k)
		case i == g.Teller:
			*slot.Addr().Interface().(*order.Text) = order.Text{Value: word, At: k.At, Set: true, Node: k}
		case f.Need && k.Form == order.Null && !k.Unread && !f.Is.Blank:
			r.flaws = append(r.flaws, order.Flaw{
				Kind: order.MissingField, At: k.Key, Path: r.path.String(), Name: f.Name, Wanted: f.Is.Wanted, Words: f.Is.Words, Node: k,
				InKey: true,
			})
			f.Is.Places.Fill(slot, k.At)
			blank(slot, k)
		default:
			r.path.Down(f.Name, 0)
			r.value(k, &f.Is, &f.Limits, slot)
			r.path.Up()
			if len(r.path) == 0 && f.Name == "units" {
				r.unit, _ = length.ParseUnit(slot.Addr().Interface().(*order.Text).Value)
			}
		}
	}
	r.exchanged(r.flaws[before:], g, dst)
}

// exchanged marks those of a group's flaws that are two numbers in each other's place:
// neither makes sense where it stands, and each does where the other is.
func (r *reading) exchanged(flaws []order.Flaw, g *form.Group, dst reflect.Value) {
	reads := func(at *order.Flaw, text string) bool {
		i, ok := g.Index[at.Name]
		if !ok || g.Fields[i].Is.Of != nil {
			return false
		}
		f := &g.Fields[i]
		n := order.Node{Form: at.Node.Form, Text: text, Unit: at.Node.Unit}
		alone := reading{l: r.l, f: r.f, root: r.root, unit: r.unit}
		alone.leaf(&n, &f.Is, &f.Limits, reflect.New(dst.Field(f.Slot).Type()).Elem())
		return len(alone.flaws) == 0
	}
	number := func(f *order.Flaw) bool {
		return (f.Kind == order.BadSpelling || f.Kind == order.OutOfSense) && f.Path == r.path.To(f.Name)
	}
	for i := range flaws {
		a := &flaws[i]
		for j := i + 1; j < len(flaws) && number(a); j++ {
			if b := &flaws[j]; number(b) && reads(a, b.Text) && reads(b, a.Text) {
				a.Kind, a.Nearest, a.Related = order.Exchanged, b.Text, b.At
				b.Kind, b.Nearest, b.Related = order.Exchanged, a.Text, a.At
			}
		}
	}
}

// leave gives the leaves below n, all of which are blank, their nodes.
func leave(n *order.Node, s *form.Shape, dst reflect.Value) {
	if s.Of == nil {
		blank(dst, n)
		return
	}
	for i := range n.Kids {
		if at, ok := s.Of.Index[n.Kids[i].Name]; ok && s.Of.Fields[at].Is.List == nil {
			f := &s.Of.Fields[at]
			leave(&n.Kids[i], &f.Is, dst.Field(f.Slot))
		}
	}
}

// unknown looks at the fields of n that g does not have.
func (r *reading) unknown(n *order.Node, g *form.Group, given *[form.MaxFields]*order.Node, spoilt *[form.MaxFields]bool) {
	for i := range n.Kids {
		k := &n.Kids[i]
		if _, ok := g.Index[k.Name]; ok || k.Cell && k.Blank() {
			continue
		}
		f := order.Flaw{
			Kind: order.UnknownField, At: k.Key, Path: r.path.To(k.Name), Name: k.Name, Text: k.Name, Words: g.Names, Node: k, InKey: true,
		}
		if k.Cell {
			if f.Elsewhere = r.elsewhere(k.Name); f.Elsewhere == nil {
				f.Detail = "leave the cell empty"
			}
			r.flaws = append(r.flaws, f)
			continue
		}
		own, ok := form.Meant(k.Name, g.Names, r.l.Words.Fields)
		at := g.Index[own]
		switch {
		case form.Fold(k.Name) == "width" && slices.Contains(g.Names, "widths"):
			f.Detail = "write a finished width under `finished`, the cloth's under `cloths`, and how many widths there are under `widths`"
		case !ok && r.corded() && ofCord(k.Name):
			f.Elsewhere = []string{r.path[:2].To("cord") + ".length"}
		case ok && g.Fields[at].Is.Reads == form.Length && k.Form == order.Scalar && strings.IndexFunc(k.Text, unicode.IsNumber) < 0: // drop: half says how a repeat drops, not how long it is
		case ok && given[at] == nil:
			f.Kind, f.Nearest = order.OtherWord, own
			given[at] = k
		case ok:
			f.Nearest, f.Related = own, given[at].Key
		case i > 0 && r.comma(&n.Kids[i-1], k):
			f.Related, f.Nearest = n.Kids[i-1].At, n.Kids[i-1].Name
			f.Detail = "inside { } a comma ends a number, so put " + r.f.Text[f.Related.Start:k.Key.End] + " in quotes"
			if at, ok := g.Index[n.Kids[i-1].Name]; ok {
				spoilt[at] = true
			}
		case unspaced(k, g) != "":
			f.Nearest = unspaced(k, g)
			f.Detail = "put a plain space behind its colon"
		case len(r.flaws) < order.ManyFlaws:
			if f.Nearest = r.besides(k.Name, g); f.Nearest != "" {
				break
			}
			if f.Elsewhere = r.elsewhere(k.Name); f.Elsewhere == nil && !r.l.Has(k.Name) { // a word of the form is no misspelling of another
				f.Nearest = form.Nearest(k.Name, g.Names)
			}
		}
		r.flaws = append(r.flaws, f)
	}
}

// corded reports whether the item that is read may have a cord.
func (r *reading) corded() bool {
	if r.item == nil {
		return false
	}
	_, has := r.item.Index["cord"]
	return has
}

// ofCord reports whether a name says something of what a covering is raised and drawn by: it is
// no misspelling of anything else, and no matter for a note, as a child may be caught in it.
func ofCord(name string) bool {
	return slices.ContainsFunc(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == ' ' || r == '_' || r == '-' }), func(word string) bool {
		switch strings.TrimSuffix(word, "s") {
		case "cord", "chain", "pull", "loop", "lift", "control", "cleat", "string", "pullcord":
			return true
		}
		return false
	})
}

// unspaced is the field of g that k begins with, as in {width:12}, where a colon without
// a space behind it parts nothing; "" for none.
func unspaced(k *order.Node, g *form.Group) string {
	name, _, ok := strings.Cut(k.Name, ":")
	if _, is := g.Index[name]; !ok || !is || k.Form != order.Null {
		return ""
	}
	return name
}

// comma reports whether k is the part after the comma of a decimal that starts
// with last, as in {width: 1,5 m}.
func (r *reading) comma(last, k *order.Node) bool {
	return k.Form == order.Null && last.Form == order.Number && k.Key.Len() > 0 && last.At.End+1 == k.Key.Start &&
		r.f.Text[last.At.End] == ',' && r.f.Text[k.Key.Start]-'0' <= 9
}

// put fills a leaf, unless its reader refused the text or the value makes no
// sense: then it files the flaw.
func put[T any](r *reading, d *order.Leaf[T], n *order.Node, s *form.Shape, v T, outside bool, err error) {
	d.At, d.Node = n.At, n
	switch {
	case err != nil:
		if n.Cell && s.Reads != form.Date {
			if fraction, ok := table.MadeDate(n.Text); ok {
				r.flaw(order.Dated, n, s.Wanted).Nearest = fraction
				return
			}
		}
		m := misread(s.Reads, n.Text, err)
		r.flaw(m.kind, n, s.Wanted).Detail = m.detail
	case outside:
		r.flaw(order.OutOfSense, n, s.Wanted)
	default:
		d.Value, d.Set = v, true
	}
}

// leaf reads n as a leaf into dst.
func (r *reading) leaf(n *order.Node, s *form.Shape, m *form.Limits, dst reflect.Value) {
	if n.Form == order.Map || n.Form == order.List || n.Form == order.Truth && s.Reads != form.Flag && s.Reads != form.Word {
		r.flaw(order.WrongKind, n, s.Wanted)
		s.Places.Fill(dst, n.At)
		return
	}
	ptr := dst.Addr().Interface()
	switch s.Reads {
	case form.Length:
		r.length(n, s, m, ptr.(*order.Length))
	case form.Count:
		v, err := parseCount(n.Text)
		put(r, ptr.(*order.Count), n, s, v, m.Outside(v), err)
	case form.Ratio:
		v, err := length.ParseRatio(n.Text)
		put(r, ptr.(*order.Ratio), n, s, v, m.OutsideRatio(v), err)
	case form.Percent:
		v, err := length.ParsePercent(n.Text)
		put(r, ptr.(*order.Percent), n, s, v, m.OutsideRatio(v), err)
	case form.Areal:
		v, _, err := mass.ParseAreal(n.Text)
		put(r, ptr.(*order.Areal), n, s, v, m.Outside(int64(v)), err)
	case form.Linear:
		v, _, err := mass.ParseLinear(n.Text)
		put(r, ptr.(*order.Linear), n, s, v, m.Outside(int64(v)), err)
	case form.Mass:
		v, _, err := mass.ParseMass(n.Text)
		put(r, ptr.(*order.Mass), n, s, v, m.Outside(int64(v)), err)
	case form.Setting:
		r.setting(n, s, m, ptr.(*order.Setting))
	case form.Temperature:
		v, err := parseTemperature(n.Text)
		put(r, ptr.(*order.Temperature), n, s, v, m.Outside(v.Milli), err)
	case form.Date:
		r.date(n, s, ptr.(*order.Date))
	case form.Text:
		put(r, ptr.(*order.Text), n, s, n.Text, false, nil)
	case form.Flag:
		r.flag(n, s, ptr.(*order.Flag))
	case form.Word:
		d := ptr.(*order.Text)
		d.At, d.Node = n.At, n
		d.Value, d.Set = r.word(n, s.Words)
	}
}

// length reads a length. Without the order's units a bare number cannot be
// read; that the units are missing has its own flaw.
func (r *reading) length(n *order.Node, s *form.Shape, m *form.Limits, d *order.Length) {
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
	put(r, d, n, s, v, m.Outside(int64(v)), err)
}

// setting reads a setting of the iron.
func (r *reading) setting(n *order.Node, s *form.Shape, m *form.Limits, d *order.Setting) {
	v, err := parseSetting(n.Text)
	if err != nil {
		own, ok := form.Meant(n.Text, []string{"none"}, r.l.Words.Values)
		if !ok {
			own = r.l.Words.Iron[form.Fold(n.Text)]
		}
		if meant, wrong := parseSetting(own); wrong == nil {
			r.flaw(order.OtherWord, n, s.Wanted).Nearest = own
			v, err = meant, nil
		}
	}
	put(r, d, n, s, v, m.Outside(v.Milli), err)
}

// date reads a date. One that is written another way is taken where it can only be
// one day, or the order's market says which.
func (r *reading) date(n *order.Node, s *form.Shape, d *order.Date) {
	v, err := parseDate(n.Text)
	if err != nil {
		switch days := otherDate(n.Text, r.market()); len(days) {
		case 1:
			r.flaw(order.OtherWord, n, s.Wanted).Nearest = days[0]
			v, err = days[0], nil
		case 2:
			err = misspelt("it could be either of two days; write " + days[0] + " or " + days[1])
		}
	}
	put(r, d, n, s, v, false, err)
}

// market is the order's market, which may stand below what depends on it; "" for
// none.
func (r *reading) market() string {
	k := r.root.Kid("market")
	if k == nil {
		return ""
	}
	own, _ := form.Meant(k.Text, r.l.Order.Of.Fields[r.l.Order.Of.Index["market"]].Is.Words, r.l.Words.Values)
	return own
}

// flag reads true or false.
func (r *reading) flag(n *order.Node, s *form.Shape, d *order.Flag) {
	d.At, d.Node = n.At, n
	own := n.Text
	if n.Form != order.Truth {
		switch form.Fold(n.Text) {
		case "true", "yes", "y", "on":
			own = "true"
		case "false", "no", "n", "off":
			own = "false"
		default:
			r.flaw(order.WrongKind, n, s.Wanted)
			return
		}
		f := r.flaw(order.OtherWord, n, s.Wanted)
		f.Nearest, f.Words = own, []string{"true", "false"}
		if n.Quote != 0 {
			f.Detail = "without quote marks"
		}
	}
	d.Value, d.Set = form.Fold(own) == "true", true
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
	if n.Cell { // where people begin with a capital, as a program may for them
		if i := slices.IndexFunc(words, func(w string) bool { return strings.EqualFold(w, n.Text) }); i >= 0 {
			return words[i], true
		}
	}
	f := r.flaw(order.UnknownWord, n, wanted)
	f.Words = words
	own, ok := form.Meant(n.Text, words, r.l.Words.Values)
	if !ok && n.Form == order.Scalar && r.item == nil && len(r.path) > 1 && r.path[0].Name == "items" {
		if kind, field, word := r.l.KindOf(n.Text); kind != "" {
			f.Words = []string{kind}
			if field != "" {
				f.Detail = field + ": " + word
			}
			return "", false
		}
	}
	if !ok && len(r.path) == 1 && r.path[0].Name == "units" {
		own, ok = form.MeantUnit(n.Text, words)
	}
	if ok && n.Form == order.Scalar {
		f.Kind, f.Nearest = order.OtherWord, own
		return own, true
	}
	f.Nearest = form.Nearest(n.Text, words)
	return "", false
}

// blank gives the leaf dst the node that it was left blank with; a group has none.
func blank(dst reflect.Value, n *order.Node) {
	if l, ok := dst.Addr().Interface().(interface{ Leave(*order.Node) }); ok {
		l.Leave(n)
	}
}
