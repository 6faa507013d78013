package house

import (
	"cmp"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/format"
	"cuelang.org/go/cue/token"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
	"cutgate/internal/worksheet"
)

// A value is a part of an item as the shop's rules see it.
type value struct {
	name string
	kids []value // of a group or a list
	form order.Form
	text string // of a leaf: a text, a plain number, true or false
	said string // a leaf as people read it, with its unit
}

// A viewer makes values of one order.
type viewer struct {
	sheet *worksheet.Sheet
	unit  length.Unit // of plain numbers
	right map[*order.Node]*worksheet.Quantity
}

func newViewer(s *worksheet.Sheet, unit length.Unit) *viewer {
	v := &viewer{sheet: s, unit: unit}
	for i := range s.Wrong {
		if w := &s.Wrong[i]; w.Node != nil {
			if v.right == nil {
				v.right = map[*order.Node]*worksheet.Quantity{}
			}
			v.right[w.Node] = w.Quantity
		}
	}
	return v
}

// Worked writes the items of an order as the rules of a house see them, in CUE;
// lengths are in millimetres where h is nil.
func Worked(h *House, s *worksheet.Sheet) (string, error) {
	unit := length.MM
	if h != nil {
		unit = h.unit
	}
	v := newViewer(s, unit)
	items := value{name: "items", form: order.List}
	for i := range s.Items {
		items.kids = append(items.kids, v.item(&s.Items[i]))
	}
	text, err := format.Node(&ast.Field{Label: ast.NewIdent("items"), Value: items.syntax(&keep{all: true})})
	if err != nil {
		return "", fmt.Errorf("writing the items of %s: %w", s.Order.File.Name, err)
	}
	units := "// lengths: " + unit.String() + "; weights: g, g/m, g/m2; fiber and shrinkage: percent\n"
	return units + strings.TrimSpace(string(text)) + "\n", nil
}

// item is what a rule sees of an item.
func (v *viewer) item(it *worksheet.Item) value {
	root := value{form: order.Map, kids: v.group(reflect.ValueOf(it.Order).Elem(), "")}
	v.blanks(&root, it)
	v.cloths(&root)
	root.put("docket", v.docket())
	root.put("worked", v.quantities(it))
	return root
}

// docket is what the order says of itself.
func (v *viewer) docket() value {
	o := v.sheet.Order
	d := value{form: order.Map}
	for _, f := range []struct {
		name string
		leaf *order.Text
	}{{"order", &o.Number}, {"client", &o.Client}, {"due", (*order.Text)(&o.Due)}, {"units", &o.Units}, {"market", &o.Market}, {"use", &o.Use}, {"notes", &o.Notes}} {
		if f.leaf.Set {
			d.put(f.name, text(f.leaf.Value))
		}
	}
	if !o.Use.Set {
		d.put("use", text("home"))
	}
	return d
}

// group reads the fields of a block by their names in the form.
func (v *viewer) group(s reflect.Value, parent string) []value {
	var list []value
	t := s.Type()
	for i := range t.NumField() {
		name := t.Field(i).Tag.Get("form")
		if name == "" || name == "waive" {
			continue
		}
		if one, ok := v.field(s.Field(i), name, parent); ok {
			one.name = name
			list = append(list, one)
		}
	}
	return list
}

// field reads a field. It reports false for one that the order leaves blank.
func (v *viewer) field(f reflect.Value, name, parent string) (value, bool) {
	switch leaf := f.Addr().Interface().(type) {
	case *order.Text:
		return text(leaf.Value), leaf.Set
	case *order.Flag:
		return value{form: order.Truth, text: strconv.FormatBool(leaf.Value), said: yes(leaf.Value)}, leaf.Set
	case *order.Count:
		return v.leaf(worksheet.CountOf(leaf.Value), leaf.Node), leaf.Set
	case *order.Length:
		return v.leaf(worksheet.LengthOf(leaf.Value), leaf.Node), leaf.Set
	case *order.Mass:
		return v.leaf(worksheet.MassOf(leaf.Value), leaf.Node), leaf.Set
	case *order.Areal:
		return v.leaf(worksheet.ArealOf(leaf.Value), leaf.Node), leaf.Set
	case *order.Linear:
		return v.leaf(worksheet.LinearOf(leaf.Value), leaf.Node), leaf.Set
	case *order.Ratio: // percentages are ratios too
		if parent == "shrinks" || parent == "fiber" {
			return v.leaf(worksheet.PercentOf(leaf.Value), leaf.Node), leaf.Set
		}
		return v.leaf(worksheet.RatioOf(leaf.Value), leaf.Node), leaf.Set
	case *order.Setting:
		if name == "iron" || name == "setting" {
			return v.leaf(worksheet.DotsOf(v.sheet.Dots(leaf.Value)), leaf.Node), leaf.Set
		}
		return value{form: order.Number, text: plain(leaf.Value.Milli, 1000), said: leaf.Value.String()}, leaf.Set
	}
	switch f.Kind() {
	case reflect.Slice:
		return v.list(f, name)
	case reflect.Struct:
		if block, ok := f.FieldByName("Block").Interface().(order.Block); ok && block.Set {
			return value{form: order.Map, kids: v.group(f, name)}, true
		}
	}
	return value{}, false
}

// list reads a list, or the entries of a group of any names.
func (v *viewer) list(f reflect.Value, name string) (value, bool) {
	out := value{form: order.List}
	for i := range f.Len() {
		e := f.Index(i)
		entry := e.Kind() == reflect.Struct && e.FieldByName("Of").IsValid()
		if entry {
			out.form = order.Map
			one, ok := v.field(e.FieldByName("Of"), "", name)
			if !ok {
				continue
			}
			one.name = e.FieldByName("Name").String()
			out.kids = append(out.kids, one)
			continue
		}
		one, ok := v.field(e, "", name)
		if !ok {
			continue
		}
		out.kids = append(out.kids, one)
	}
	return out, f.Len() > 0
}

// leaf is a stated number, or the one that should be there.
func (v *viewer) leaf(n worksheet.Value, at *order.Node) value {
	if q := v.right[at]; at != nil && q != nil {
		return v.quantity(q)
	}
	return v.number(n, length.Nearest)
}

// quantity is a quantity as it is printed: a length to the step that people cut
// by.
func (v *viewer) quantity(q *worksheet.Quantity) value {
	n := q.Value
	if n.Sort == worksheet.Length {
		n = worksheet.LengthOf(n.Length().Round(length.Step(v.sheet.Unit), q.Round))
	}
	return v.number(n, q.Round)
}

// number is a number in plain units, and as people read it.
func (v *viewer) number(n worksheet.Value, round length.Rounding) value {
	out := value{form: order.Number, said: n.Format(v.sheet.Unit, round)}
	switch n.Sort {
	case worksheet.Length:
		out.text = plain(n.N, int64(v.unit.Length()))
	case worksheet.Ratio:
		out.text = decimals(n.R)
	case worksheet.Percent:
		out.text = decimals(n.R.Mul(length.NewRatio(100, 1)))
	case worksheet.Mass, worksheet.Linear, worksheet.Areal:
		out.text = plain(n.N, int64(mass.Gram))
	default:
		out.text = strconv.FormatInt(n.N, 10)
	}
	return out
}

// plain is n in units of so many, as a decimal: exact where it has no more than
// nine places.
func plain(n, unit int64) string { return decimals(length.NewRatio(n, unit)) }

func decimals(r length.Ratio) string { return r.Format(9) }

func text(s string) value { return value{form: order.Scalar, text: s, said: s} }

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// blanks fills in what the order leaves blank and was worked out.
func (v *viewer) blanks(root *value, it *worksheet.Item) {
	root.fill("quantity", v.number(worksheet.CountOf(it.Quantity), length.Nearest))
	if !it.Worked {
		return
	}
	if it.Order.Kind.Value == "curtain" {
		root.fill("panels", v.number(worksheet.CountOf(it.Panels), length.Nearest))
	}
	for _, h := range []struct {
		path string
		hem  *worksheet.Hem
	}{{"hems.top", &it.Top}, {"hems.bottom", &it.Bottom}, {"hems.sides", &it.Sides}, {"lining.hem", &it.LiningHem}} {
		if h.hem.Takes > 0 {
			h.path = cmp.Or(h.hem.Field, h.path)
			root.fill(h.path+".turn", v.number(worksheet.LengthOf(h.hem.Turn), length.Nearest))
			root.fill(h.path+".folds", v.number(worksheet.CountOf(h.hem.Folds), length.Nearest))
			root.fill(h.path+".allowance", v.number(worksheet.LengthOf(h.hem.Takes), length.Nearest))
		}
	}
	if it.Joins > 0 && it.Seam != nil {
		root.fill("join.seam", text(it.Seam.Name))
		root.fill("join.allowance", v.number(worksheet.LengthOf(it.Allowance), length.Nearest))
	}
	if h := it.Heading; h != nil {
		root.fill("heading.fullness", v.number(worksheet.RatioOf(h.Usual), length.Nearest))
		if !it.Order.Hems.Top.Set {
			root.fill("heading.allowance", v.number(worksheet.LengthOf(h.Allowance), length.Nearest))
		}
	}
	for _, e := range it.Entries() {
		if e.Quantity != nil {
			root.fill(e.Field, v.quantity(e.Quantity))
		}
	}
	if q := it.Get(worksheet.PanelWidth); q != nil {
		root.fill("panel_width", v.quantity(q))
	}
	if cuts := v.cuts(it); len(cuts.kids) > 0 {
		root.put("cuts", cuts)
	}
}

// cuts are the pieces of an item as they should be cut.
func (v *viewer) cuts(it *worksheet.Item) value {
	list := value{form: order.List}
	for i := range it.Pieces {
		p := &it.Pieces[i]
		cut := value{form: order.Map}
		cut.put("piece", text(p.Name))
		if p.Cloth != nil {
			cut.put("cloth", text(p.Cloth.Name))
		}
		for _, q := range []struct {
			name string
			q    *worksheet.Quantity
		}{{"width", p.Width}, {"length", p.Length}, {"count", p.Count}} {
			if q.q != nil {
				cut.put(q.name, v.quantity(q.q))
			}
		}
		list.kids = append(list.kids, cut)
	}
	return list
}

// cloths puts a cloth's own fields wherever one is named.
func (v *viewer) cloths(at *value) {
	for i := range at.kids {
		k := &at.kids[i]
		if k.name == "cloth" && k.form == order.Scalar {
			*k = v.cloth(k.text)
			k.name = "cloth"
			continue
		}
		v.cloths(k)
	}
}

func (v *viewer) cloth(name string) value {
	out := value{form: order.Map}
	c := v.sheet.Cloth(name)
	if c != nil {
		out.kids = v.group(reflect.ValueOf(c.Order).Elem(), "")
		v.measured(&out, name)
		if c.Class != nil {
			out.fill("class", text(c.Class.Name))
		}
		w := value{form: order.Map}
		for _, q := range []*worksheet.Quantity{c.Needed, c.ToBuy} {
			if q != nil {
				w.put(quantityName("", q.Name), v.quantity(q))
			}
		}
		out.put("worked", w)
	}
	out.put("known_as", text(name))
	return out
}

// measured puts what was found at the bench in place of what a cloth states.
func (v *viewer) measured(cloth *value, name string) {
	m := v.sheet.Measured(name)
	if m == nil {
		return
	}
	for _, l := range []struct {
		path string
		leaf *order.Length
	}{{"width", &m.Width}, {"repeat.length", &m.Repeat.Length}, {"repeat.width", &m.Repeat.Width}} {
		if l.leaf.Set {
			cloth.set(l.path, v.number(worksheet.LengthOf(l.leaf.Value), length.Nearest))
		}
	}
	for _, l := range []struct {
		path string
		leaf *order.Percent
	}{{"shrinks.length", &m.Shrinks.Length}, {"shrinks.width", &m.Shrinks.Width}} {
		if l.leaf.Set {
			cloth.set(l.path, v.number(worksheet.PercentOf(l.leaf.Value), length.Nearest))
		}
	}
}

// quantities are what was worked out of an item, by name.
func (v *viewer) quantities(it *worksheet.Item) value {
	out := value{form: order.Map}
	for _, q := range v.sheet.AllOf(it.Index) {
		of := q.Of
		if q.Name == worksheet.PressSetting {
			of = "" // the cloth that it is for
		}
		out.fill(quantityName(of, q.Name), v.quantity(q))
	}
	return out
}

// kid returns the entry of that name, or nil.
func (v *value) kid(name string) *value {
	for i := range v.kids {
		if v.kids[i].name == name {
			return &v.kids[i]
		}
	}
	return nil
}

// put sets an entry of a group.
func (v *value) put(name string, to value) {
	to.name = name
	if k := v.kid(name); k != nil {
		*k = to
		return
	}
	v.kids = append(v.kids, to)
}

// set sets the value at a path, and makes the groups on the way to it.
func (v *value) set(p string, to value) {
	way, _ := steps(p)
	for _, s := range way[:len(way)-1] {
		if v.kid(s.name) == nil {
			v.put(s.name, value{form: order.Map})
		}
		v = v.kid(s.name)
	}
	v.put(way[len(way)-1].name, to)
}

// fill sets the value at a path where there is none.
func (v *value) fill(p string, to value) {
	if way, _ := steps(p); v.find(way) == nil {
		v.set(p, to)
	}
}

// find returns the value at the end of a way, or nil.
func (v *value) find(way []step) *value {
	for _, s := range way {
		switch {
		case s.name != "":
			v = v.kid(s.name)
		case v.form == order.List && s.index < len(v.kids):
			v = &v.kids[s.index]
		default:
			v = nil
		}
		if v == nil {
			return nil
		}
	}
	return v
}

// syntax is the value in CUE, as far as it is to be kept.
func (v *value) syntax(k *keep) ast.Expr {
	switch v.form {
	case order.Map:
		g := &ast.StructLit{}
		for i := range v.kids {
			if of := k.field(v.kids[i].name); of != nil {
				g.Elts = append(g.Elts, &ast.Field{Label: ast.NewStringLabel(v.kids[i].name), Value: v.kids[i].syntax(of)})
			}
		}
		return g
	case order.List:
		l := &ast.ListLit{}
		for i := range v.kids {
			l.Elts = append(l.Elts, v.kids[i].syntax(k.element()))
		}
		return l
	case order.Number:
		return number(v.text)
	case order.Truth:
		return ast.NewBool(v.text == "true")
	}
	return ast.NewString(v.text)
}

// number is a decimal in CUE, whole ones as such.
func number(s string) ast.Expr {
	if s[0] == '-' {
		return &ast.UnaryExpr{Op: token.SUB, X: number(s[1:])}
	}
	if strings.Contains(s, ".") {
		return &ast.BasicLit{Kind: token.FLOAT, Value: s}
	}
	return &ast.BasicLit{Kind: token.INT, Value: s}
}
