package table

import (
	"slices"

	"cutgate/internal/cells"
	"cutgate/internal/form"
	"cutgate/internal/order"
)

// A clothRow is a row about a cloth.
type clothRow struct {
	number   int    // of the cloths of the table, from 0
	name, of string // of: the number of the one order it belongs to; empty for any
	under    *header
	cells    *cells.Row
	split    *order.Flaw
	users    int     // how many orders make something of it
	first    *tabled // of the orders that list it
}

// cloth reads a row of a cloth.
func (t *tabular) cloth(h *header, r *cells.Row, split *order.Flaw) {
	row := &clothRow{number: len(t.cloths), name: h.textIn(h.name, r), of: h.textIn(h.order, r), under: h, cells: r, split: split}
	if row.name == "" {
		f := order.Flaw{Kind: order.MissingField, Path: "cloths", Name: "cloth", Wanted: "a name", Node: new(order.Node), InKey: true}
		if h.name != nil {
			*f.Node = h.leafIn(h.name, r).Node
		}
		f.At = f.Node.At
		t.flaws = append(t.flaws, f)
		return
	}
	t.cloths = append(t.cloths, row)
	if row.of != "" {
		t.owned[row.of] = append(t.owned[row.of], row)
	} else {
		t.free = append(t.free, row)
		t.named[row.name] = append(t.named[row.name], row)
	}
}

// shareCloths gives each order its cloths: those marked as its own, and those of the
// others that it uses. An order that names an unlisted cloth, or no cloth, gets them all,
// so that the nearest name can be suggested; so does the only order of a table.
func (t *tabular) shareCloths() {
	for _, o := range t.orders {
		o.cloths = t.clothsOf(o)
		for _, row := range o.cloths {
			if row.first == nil {
				row.first = o
			}
			if t.makesOf(o, row) {
				row.users++
			}
		}
	}
}

// makesOf reports whether an order makes something of the row's cloth, or may: the only
// order of a table gets all its cloths.
func (t *tabular) makesOf(o *tabled, row *clothRow) bool {
	return row.isOf(o) || o.uses[row.name] || len(t.orders) == 1
}

// clothsOf returns the rows of an order's cloths, in the order of the table.
func (t *tabular) clothsOf(o *tabled) []*clothRow {
	own := make(map[string]bool)
	list := slices.Clone(t.owned[o.number])
	for _, row := range list {
		own[row.name] = true
	}
	add := func(rows []*clothRow) {
		for _, row := range rows {
			if !own[row.name] {
				list = append(list, row)
			}
		}
	}
	all := len(t.orders) == 1 || len(o.uses) == 0
	for name := range o.uses {
		all = all || !own[name] && t.named[name] == nil
	}
	if all {
		add(t.free)
	} else {
		for name := range o.uses {
			add(t.named[name])
		}
	}
	slices.SortFunc(list, func(a, b *clothRow) int { return a.number - b.number })
	return list
}

// isOf reports whether the row is marked as that order's own.
func (row *clothRow) isOf(o *tabled) bool { return row.of != "" && row.of == o.number }

// named returns the row's entry among the cloths of an order.
func (row *clothRow) named(n order.Node) order.Node {
	n.Form, n.Cell, n.Name, n.Key, n.At = order.Map, true, row.name, row.under.leafIn(row.under.name, row.cells).At, row.cells.Range()
	return n
}

// unshare takes out of a row's tree what can't be true for each of several orders: how much
// of the cloth there is.
func (row *clothRow) unshare(n *order.Node, which string, names ...string) (flaws []order.Flaw) {
	n.Kids = slices.DeleteFunc(n.Kids, func(k order.Node) bool {
		out := slices.Contains(names, k.Name)
		if out && !k.Blank() {
			flaws = append(flaws, order.Flaw{Kind: order.Shared, At: k.At, Name: which + k.Name, Text: row.name})
		}
		return out
	})
	return flaws
}

// ofNoOrder returns the flaws of cloths marked for an order that the table does not have.
func (t *tabular) ofNoOrder() (flaws []order.Flaw) {
	var numbers []string
	for _, o := range t.orders {
		if o.number != "" {
			numbers = append(numbers, o.number)
		}
	}
	for _, row := range t.cloths {
		if row.of != "" && t.byNumber[row.of] == nil {
			n := row.under.leafIn(row.under.order, row.cells).Node
			flaws = append(flaws, order.Flaw{
				Kind: order.UnknownWord, At: n.At, Path: "cloths", Name: "order", Text: row.of, Words: numbers,
				Nearest: form.Nearest(row.of, numbers), Wanted: "the number of an order in this table", Node: &n,
			})
		}
	}
	return flaws
}
