package table

import (
	"slices"

	"cutgate/internal/cells"
	"cutgate/internal/form"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// A clothRow is a row about a cloth.
type clothRow struct {
	number          int      // of the cloths of the table, from 0
	name, of        cellLeaf // of: the number of the one order it belongs to; empty for any
	cloth, measured order.Node
	at              source.Range
	flaws           []order.Flaw
}

// cloth reads a row of a cloth.
func (t *tabular) cloth(h *header, r *cells.Row) {
	row := &clothRow{number: len(t.cloths), at: r.Range()}
	cloth, measured := emptied(&t.rooms[0]), emptied(&t.rooms[1])
	leaves := h.leaves(r, h.empty("", false))
	for i := range leaves {
		leaf := &leaves[i]
		row.flaws = append(row.flaws, leaf.flaws()...)
		switch c := leaf.column; {
		case !c.known:
			continue
		case c.about == clothName:
			row.name = *leaf
		case c.about == clothOrder:
			if !c.unread {
				row.of = *leaf
			}
		case c.about == aboutMeasured:
			plant(measured, c.way, leaf.Node)
		default:
			plant(cloth, c.way, leaf.Node)
		}
	}
	settleCells(cloth)
	settleCells(measured)
	row.cloth, row.measured = t.copied(cloth), t.copied(measured)
	if row.name.Text == "" {
		t.flaws = append(t.flaws, order.Flaw{
			Kind: order.MissingField, At: row.name.At, Path: "cloths", Name: "cloth", Wanted: "a name", Node: &row.name.Node, InKey: true,
		})
		return
	}
	t.cloths = append(t.cloths, row)
	if of := row.of.Text; of != "" {
		t.owned[of] = append(t.owned[of], row)
	} else {
		t.free = append(t.free, row)
		t.named[row.name.Text] = append(t.named[row.name.Text], row)
	}
}

// shareCloths gives each order its cloths: those marked as its own, and those of the
// others that it uses. An order that names an unlisted cloth, or no cloth, gets them all,
// so that the nearest name can be suggested; so does the only order of a table.
func (t *tabular) shareCloths() {
	users, takers := make([]int, len(t.cloths)), make([]int, len(t.cloths))
	takes := make([][]*clothRow, len(t.orders))
	for i, o := range t.orders {
		takes[i] = t.clothsOf(o)
		for _, row := range takes[i] {
			takers[row.number]++
			if t.makesOf(o, row) {
				users[row.number]++
			}
		}
	}
	for i, o := range t.orders {
		cloths := order.Node{Form: order.Map, Cell: true, Name: "cloths"}
		measured := order.Node{Form: order.Map, Cell: true, Name: "measured"}
		for _, row := range takes[i] {
			o.add(row.flaws...)
			if users[row.number] > 1 {
				o.add(row.unshare()...)
			}
			if takers[row.number]--; takers[row.number] > 0 {
				row = t.copiedRow(row)
			}
			if users[row.number] > 0 && !t.makesOf(o, row) {
				row.unshare()
			}
			cloths.Kids = append(cloths.Kids, row.named(&row.cloth))
			if !row.measured.Blank() {
				measured.Kids = append(measured.Kids, row.named(&row.measured))
			}
		}
		for _, n := range []order.Node{cloths, measured} {
			if len(n.Kids) > 0 {
				n.At = spanOf(n.Kids)
				o.cloths = append(o.cloths, n)
			}
		}
	}
	t.ofNoOrder()
}

// makesOf reports whether an order makes something of the row's cloth, or may: the only
// order of a table gets all its cloths.
func (t *tabular) makesOf(o *tabled, row *clothRow) bool {
	return row.isOf(o) || o.uses[row.name.Text] || len(t.orders) == 1
}

// copiedRow returns a copy of a row, as orders may read its cells each in their own way.
func (t *tabular) copiedRow(row *clothRow) *clothRow {
	out := *row
	out.cloth, out.measured = t.copied(&row.cloth), t.copied(&row.measured)
	return &out
}

// clothsOf returns the rows of an order's cloths, in the order of the table.
func (t *tabular) clothsOf(o *tabled) []*clothRow {
	own := make(map[string]bool)
	list := slices.Clone(t.owned[o.number])
	for _, row := range list {
		own[row.name.Text] = true
	}
	add := func(rows []*clothRow) {
		for _, row := range rows {
			if !own[row.name.Text] {
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
func (row *clothRow) isOf(o *tabled) bool { return row.of.Text != "" && row.of.Text == o.number }

// named returns the row's entry among the cloths of an order.
func (row *clothRow) named(n *order.Node) order.Node {
	c := *n
	c.Form, c.Cell, c.Name, c.Key, c.At = order.Map, true, row.name.Text, row.name.At, row.at
	return c
}

// unshare takes out of a row what can't be true for each of several orders: how much of
// the cloth there is.
func (row *clothRow) unshare() (flaws []order.Flaw) {
	take := func(n *order.Node, which string, names ...string) {
		n.Kids = slices.DeleteFunc(n.Kids, func(k order.Node) bool {
			out := slices.Contains(names, k.Name)
			if out && !k.Blank() {
				flaws = append(flaws, order.Flaw{Kind: order.Shared, At: k.At, Name: which + k.Name, Text: row.name.Text})
			}
			return out
		})
	}
	take(&row.cloth, "", "ordered", "bolts")
	take(&row.measured, "measured ", "length", "flaws")
	return flaws
}

// ofNoOrder reports cloths marked for an order that the table does not have.
func (t *tabular) ofNoOrder() {
	var numbers []string
	for _, o := range t.orders {
		if o.number != "" {
			numbers = append(numbers, o.number)
		}
	}
	for _, row := range t.cloths {
		if row.of.Text != "" && t.byNumber[row.of.Text] == nil {
			t.orders[0].flaws = append(t.orders[0].flaws, order.Flaw{
				Kind: order.UnknownWord, At: row.of.At, Path: "cloths", Name: "order", Text: row.of.Text, Words: numbers,
				Nearest: form.Nearest(row.of.Text, numbers), Wanted: "the number of an order in this table", Node: &row.of.Node,
			})
		}
	}
}
