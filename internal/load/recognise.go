package load

import (
	"slices"
	"strings"

	"cutgate/internal/form"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// HasOrders reports whether one of the forms in a text is an order, or was meant
// for one. The formats of orders are those of many other things.
func (l *Loader) HasOrders(f *source.File, format Format, opt Options) bool {
	if IsTable(format) {
		return l.tables.HasOrders(f, format == Workbook)
	}
	return slices.ContainsFunc(l.Orders(f, format, opt), l.IsOrder)
}

// Tells reports whether a text can tell that it is none of orders: one that is empty, or
// is no text, says nothing of what it was.
func (l *Loader) Tells(f *source.File, format Format) bool {
	return strings.Trim(f.Text, " \t\r\n"+syntax.ByteOrderMark) != "" && unreadable(f.Text, format) == nil
}

// MayHaveOrders is HasOrders for a large text of which only the beginning is at hand. It
// asks for few names that an order must have, as the others may come later; of how
// many, sure says.
func (l *Loader) MayHaveOrders(f *source.File, format Format, sure bool) bool {
	switch {
	case format == Workbook:
		return true
	case format == CSV:
		return l.tables.HasOrders(f, false)
	case sure:
		return l.begun(f.Text) >= 2
	}
	return l.begun(f.Text) >= 1
}

// IsOrder reports whether a form, which may come from anywhere, is an order or one
// in the making. Names alone don't tell: other forms have `order` and `items` too,
// and mean something else by them. So it has more of an order's fields than others,
// and two signs of an order: a field that every order must have is one where
// what an order has there may stand in it, and two where that is a group or a list.
//
// An order whose names are misspelt, or another workroom's, is told by what stands
// under them: goods of a kind with measurements, cloths with a fiber, a unit. The
// names alone, which are everybody's words, tell nothing.
func (l *Loader) IsOrder(o *order.Order) bool {
	unread := slices.ContainsFunc(o.Flaws, func(f order.Flaw) bool { return f.Kind == order.Unreadable })
	if (o.Root == nil || unread) && l.Begun(o.File.Text) {
		return true
	}
	if o.Root == nil {
		return false
	}
	if head, body := l.meaning(o.Root); body >= 3 || body > 0 && head+body >= 3 && !l.strange(o.Root) {
		return true
	}
	if l.IsForeign(o.Root, "") {
		return false
	}
	signs := 0
	for _, f := range l.Fields(nil, "") {
		if k := o.Root.Kid(f.Name); k != nil && f.Need {
			signs += l.signs(k, &f)
		}
	}
	return signs >= 2
}

// Only so many names of a group, and elements of a list, are looked at for what they
// may mean.
const (
	manyNames    = 200
	manyElements = 20
)

// notAnOrder says why a form that could be read is no order.
const notAnOrder = "it doesn't look like an order, which has a number, units, cloths and items; cutgate new prints one to fill in"

// orderInside says what to do with an order that stands inside something else.
const orderInside = "an order stands here, inside something else; bring its fields out to the left, each order in a file or a document of its own"

// Refuse makes an order that could not be read of a form that was read and is none.
func (l *Loader) Refuse(o *order.Order, format Format, m *order.Memory) *order.Order {
	if IsTable(format) || !l.foreign(o.Root) {
		return o
	}
	fault, left := syntax.NewFault(o.Root.Kids[0].Key, notAnOrder), manyNodes
	if in := l.holds(o.Root, 0, &left); in != nil && l.whole(in) {
		fault = syntax.NewFault(in.Kids[0].Key, orderInside)
	}
	root := syntax.Unreadable(fault)
	return l.OrderOf(o.File, format, &root, m)
}

// foreign reports whether a form can't be taken for an order, not even for one that is
// begun or badly spelt: nothing in it is as an order has it, and its names are
// others. Then what is wrong with it as an order is of no use to anybody, and there is
// nothing in it to correct.
func (l *Loader) foreign(root *order.Node) bool {
	if root == nil || root.Form != order.Map || root.Unread || len(root.Kids) == 0 {
		return false
	}
	exact, need := 0, 0
	for i := range root.Kids {
		if at, ok := l.Order.Of.Index[root.Kids[i].Name]; ok {
			exact++
			if l.Order.Of.Fields[at].Need {
				need++
			}
		}
	}
	if need >= 2 && 2*exact >= len(root.Kids) {
		return false // as of most orders
	}
	head, body := l.meaning(root)
	if l.strange(root) {
		return head+body < 2
	}
	return need == 0 && exact < len(root.Kids) && body == 0 && head < 2
}

// strange is IsForeign where a name that is misspelt, or another workroom's word for an
// order's, is an order's.
func (l *Loader) strange(root *order.Node) bool {
	ours := 0
	for i := range root.Kids[:min(len(root.Kids), manyNames)] {
		if own, _ := l.meant(root.Kids[i].Name, l.Order.Of.Names); own != "" {
			ours++
		}
	}
	return len(root.Kids)-ours > ours
}

// meant is which of an order's names a name is or was meant for; "" for none. It is near
// where it is that name, be it misspelt, and not another workroom's word.
func (l *Loader) meant(name string, own []string) (meant string, near bool) {
	if slices.Contains(own, name) {
		return name, true
	}
	if m, ok := form.Meant(name, own, l.Words.Fields); ok {
		return m, slices.Contains(form.Numbers(form.Fold(name)), m) || form.Nearest(name, own) == m
	}
	m := form.Nearest(name, own)
	return m, m != ""
}

// meaning is how much what stands in a form speaks for an order, whatever its names
// are: the number and the units for one each in head, the items for up to three and the
// cloths for up to two in body.
func (l *Loader) meaning(root *order.Node) (head, body int) {
	if root.Form != order.Map {
		return 0, 0
	}
	items, cloths := 0, 0
	for i := range root.Kids[:min(len(root.Kids), manyNames)] {
		k := &root.Kids[i]
		own, _ := l.meant(k.Name, l.Order.Of.Names)
		switch {
		case k.Form == order.List:
			if signs := l.itemSigns(k); own == "items" || signs == 3 {
				items = max(items, signs)
			}
		case own == "cloths" && k.Form == order.Map:
			cloths = max(cloths, l.clothSigns(k))
		case own == "order" && (k.Form == order.Scalar || k.Form == order.Number) && k.Text != "":
			if _, ok := form.Meant(k.Name, []string{own}, l.Words.Fields); ok {
				head++
			}
		case own == "units" && k.Form == order.Scalar:
			words := l.Order.Of.Fields[l.Order.Of.Index[own]].Is.Words
			if _, ok := form.MeantUnit(k.Text, words); ok || slices.Contains(words, k.Text) {
				head++
			}
		}
	}
	return min(head, 2), items + cloths
}

// itemSigns is how much a list is one of items: three where an element is goods of a kind
// with a group of measurements.
func (l *Loader) itemSigns(n *order.Node) (best int) {
	s := l.Order.Of.Fields[l.Order.Of.Index["items"]].Is.List
	for i := range n.Kids[:min(len(n.Kids), manyElements)] {
		e := &n.Kids[i]
		if e.Form != order.Map {
			continue
		}
		kind, cloth, groups, near := "", false, 0, false
		for j := range e.Kids[:min(len(e.Kids), manyNames)] {
			k := &e.Kids[j]
			if k.Form != order.Scalar {
				continue
			}
			switch own, _ := l.meant(k.Name, []string{s.By, "cloth"}); own {
			case s.By:
				kind = l.goodsMeant(k.Text, s)
			case "cloth":
				cloth = true
			}
		}
		g := s.ByWord[kind]
		for j := range e.Kids[:min(len(e.Kids), manyNames)] {
			k := &e.Kids[j]
			if g == nil || k.Form != order.Map && k.Form != order.List || len(k.Kids) == 0 {
				continue
			}
			if own, asIs := l.meant(k.Name, g.Names); own != "" && g.Fields[g.Index[own]].Is.Reads == form.NoLeaf {
				groups++
				near = near || asIs
			}
		}
		switch {
		case kind != "" && near:
			return 3
		case kind != "" && (groups > 0 || cloth):
			best = 2
		case kind != "":
			best = max(best, 1)
		}
	}
	return best
}

// goodsMeant is the kind of goods that a word is or was meant for; "" for none.
func (l *Loader) goodsMeant(word string, s *form.Shape) string {
	if kind, ok := form.Meant(word, s.Known, l.Words.Values); ok {
		return kind
	}
	return form.Nearest(word, s.Known)
}

// clothSigns is how much a group is one of cloths: two where an entry says what only
// cloth has.
func (l *Loader) clothSigns(n *order.Node) (best int) {
	g := l.Order.Of.Fields[l.Order.Of.Index["cloths"]].Is.Named.Of
	for i := range n.Kids[:min(len(n.Kids), manyElements)] {
		for j := range n.Kids[i].Kids[:min(len(n.Kids[i].Kids), manyNames)] {
			switch own, near := l.meant(n.Kids[i].Kids[j].Name, g.Names); own {
			case "fiber", "selvedge", "nap", "repeat":
				if near {
					return 2
				}
			case "width":
				best = 1
			}
		}
	}
	return best
}

// IsForeign reports whether a form has more names that are not an order's than
// such as are. One that is only being typed counts for nothing.
func (l *Loader) IsForeign(root *order.Node, typed string) bool {
	ours, others := 0, 0
	top := l.Fields(nil, "")
	for i := range root.Kids {
		switch name := root.Kids[i].Name; {
		case slices.ContainsFunc(top, func(f form.Question) bool { return f.Name == name }):
			ours++
		case name != typed:
			others++
		}
	}
	return others > ours
}

// signs is how much the content of a field that every order must have speaks for
// an order.
func (l *Loader) signs(n *order.Node, f *form.Question) int {
	switch {
	case n.Unread && len(n.Kids) == 0:
		return 0
	case n.Form == order.Null:
		return 1 // only begun
	case f.Holds == form.Entries && n.Form == order.Map:
		return 2
	case f.Holds == form.Elements && n.Form == order.List:
		return l.elementSigns(n, f)
	case f.Holds == form.Value && n.Form >= order.Scalar && n.Form <= order.Truth:
		if f.Words == nil || slices.Contains(f.Words, n.Text) {
			return 1
		}
	}
	return 0
}

// elementSigns is signs of a list: one of its elements has a field that every such
// element must have, or there is none yet.
func (l *Loader) elementSigns(n *order.Node, f *form.Question) int {
	if len(n.Kids) == 0 {
		return 1
	}
	fields := l.Fields([]string{f.Name}, "")
	if slices.ContainsFunc(n.Kids, func(e order.Node) bool {
		return slices.ContainsFunc(fields, func(f form.Question) bool { return f.Need && e.Kid(f.Name) != nil })
	}) {
		return 2
	}
	return 0
}

// Plainly reports whether a text need not be read to see that it is an order's: all names that
// an order must have begin lines of it, set in as far as the first, and not more such lines
// begin with another's.
func (l *Loader) Plainly(text string, format Format) bool {
	top := l.Order.Of
	var has [form.MaxFields]bool
	ours, others, indent := 0, 0, -1
	for line := range strings.Lines(text) {
		name, _, ok := strings.Cut(line, ":")
		plain := strings.TrimLeft(name, " \t")
		if !ok || plain == "" || strings.IndexByte("#-{}[]", plain[0]) >= 0 {
			continue
		}
		if indent < 0 {
			indent = len(name) - len(plain)
		}
		if indent != len(name)-len(plain) {
			continue
		}
		if format == JSON {
			plain = strings.Trim(plain, `"`)
		}
		if at, ok := top.Index[plain]; ok {
			has[at] = true
			ours++
		} else {
			others++
		}
	}
	for i := range top.Fields {
		if top.Fields[i].Need && !has[i] {
			return false
		}
	}
	return others <= ours
}

// Begun is IsOrder for a text that can't be read: it has three of the names that
// every order must have, or some of them and names of an item. The number and items are in
// many other texts, and in templates of them, which can't be read either.
func (l *Loader) Begun(text string) bool {
	for _, mark := range [...]string{"\xff\xfe", "\xfe\xff", syntax.ByteOrderMark} { // of UTF-16, or of UTF-8
		text = strings.TrimPrefix(text, mark)
	}
	text = strings.ReplaceAll(text, "\x00", "")
	need := l.begun(text)
	return need >= 3 || need == 2 && (named(text, "cloths") || named(text, "item")) || named(text, "item") && named(text, "cloth") && named(text, "finished")
}

// begun is how many of the names that every order must have a text has.
func (l *Loader) begun(text string) (need int) {
	for _, f := range l.Fields(nil, "") {
		if f.Need && named(text, f.Name) {
			need++
		}
	}
	return need
}

// named reports whether a text has a field of that name, at the start of a line or
// of a group or behind a comma.
func named(text, name string) bool {
	for at := 0; ; at += len(name) {
		i := strings.Index(text[at:], name)
		if i < 0 {
			return false
		}
		at += i
		before, after := strings.TrimRight(text[:at], "\"' \t"), strings.TrimLeft(text[at+len(name):], "\"' \t")
		if strings.HasPrefix(after, ":") && (before == "" || strings.IndexByte("\n{[,-", before[len(before)-1]) >= 0) {
			return true
		}
	}
}
