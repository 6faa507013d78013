package load

import (
	"slices"
	"strings"

	"cutgate/internal/form"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// HasOrders reports whether one of the forms in a text is an order, or was meant
// for one. The formats of orders are those of many other things.
func (l *Loader) HasOrders(f *source.File, format Format, opt Options) bool {
	if IsTable(format) {
		return l.tables.HasOrders(f, format == Workbook)
	}
	return slices.ContainsFunc(l.Orders(f, format, opt), l.IsOrder)
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
func (l *Loader) IsOrder(o *order.Order) bool {
	unread := slices.ContainsFunc(o.Flaws, func(f order.Flaw) bool { return f.Kind == order.Unreadable })
	if (o.Root == nil || unread) && l.Begun(o.File.Text) {
		return true
	}
	if o.Root == nil {
		return false
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

// Begun is IsOrder for a text that can't be read: it has three of the names that
// every order must have. Two of them are in many other texts, and in templates of
// them, which can't be read either.
func (l *Loader) Begun(text string) bool { return l.begun(text) >= 3 }

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
