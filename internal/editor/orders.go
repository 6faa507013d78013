package editor

import (
	"slices"
	"strings"

	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// ordersOf keeps the results of texts that are orders. An editor may send every
// file of a kind, and what is none of ours is none of our business.
func ordersOf(l *load.Loader, f *source.File, format load.Format, results []lint.Result) []lint.Result {
	if load.IsTable(format) {
		if !l.HasOrders(f, format) {
			return nil
		}
		return results
	}
	top := l.Fields(nil, "")
	return slices.DeleteFunc(results, func(r lint.Result) bool {
		if r.Order == nil || r.Order.Root == nil {
			return !begun(top, f.Text)
		}
		return !isOrder(top, r.Order.Root)
	})
}

// isOrder reports whether a form is an order, or one in the making: it has a
// field that every order must have, and is none of another kind.
func isOrder(top []load.FormField, root *order.Node) bool {
	return !isForeign(top, root) && slices.ContainsFunc(root.Kids, func(k order.Node) bool {
		f := fieldNamed(top, k.Name)
		return f != nil && f.Need
	})
}

// isForeign reports whether a form has more names that are not an order's than
// such as are.
func isForeign(top []load.FormField, root *order.Node) bool {
	ours, others := 0, 0
	for i := range root.Kids {
		switch name := root.Kids[i].Name; {
		case fieldNamed(top, name) != nil:
			ours++
		case name != mark:
			others++
		}
	}
	return others > ours
}

// begun is isOrder for a text that can't be read: it has two names that every
// order must have.
func begun(top []load.FormField, text string) bool {
	need := 0
	for _, f := range top {
		if f.Need && named(text, f.Name) {
			need++
		}
	}
	return need >= 2
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

// fieldNamed returns the field of that name, or nil.
func fieldNamed(fields []load.FormField, name string) *load.FormField {
	for i := range fields {
		if fields[i].Name == name {
			return &fields[i]
		}
	}
	return nil
}
