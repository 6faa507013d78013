package table

import (
	"slices"
	"strconv"

	"cutgate/internal/cells"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// rooms are what trees are made in, to be copied when it is known how large they are.
type rooms struct{ root, row, measured order.Node }

// A growing is an order of a table whose tree is being made.
type growing struct {
	*rooms
	mem   *order.Memory
	flaws []order.Flaw
}

// treeOf returns an order as written, and what is wrong with its writing.
func (t *tabular) treeOf(o *tabled, m *order.Memory) (*order.Node, []order.Flaw) {
	g := growing{rooms: &t.rooms, mem: m}
	emptied(&g.root)
	items := order.Node{Form: order.List, Cell: true, Name: "items", Kids: make([]order.Node, 0, len(o.rows))}
	var under *header
	for _, r := range o.rows {
		if r.split != nil {
			g.add(*r.split)
		}
		if n := g.item(r.under, r.cells, r.under != under); !n.Blank() {
			items.Kids = append(items.Kids, n)
		}
		under = r.under
	}
	if o == t.orders[0] {
		g.flaws = append(g.flaws, t.flaws...)
	}
	cloths := order.Node{Form: order.Map, Cell: true, Name: "cloths"}
	measured := order.Node{Form: order.Map, Cell: true, Name: "measured"}
	for _, row := range o.cloths {
		g.cloth(row, row.users > 1 || row.users > 0 && !t.makesOf(o, row), row.users > 1 && row.first == o)
		cloths.Kids = append(cloths.Kids, row.named(copied(&g.row, m)))
		if !g.measured.Blank() {
			measured.Kids = append(measured.Kids, row.named(copied(&g.measured, m)))
		}
	}
	if o == t.orders[0] {
		g.flaws = append(g.flaws, t.ofNoOrder()...)
	}

	settleCells(&g.root)
	root := copied(&g.root, m)
	root.Form, root.Key = order.Map, source.Range{}
	root.Kids = slices.Grow(root.Kids, 3)
	for _, n := range []order.Node{cloths, measured, items} {
		if len(n.Kids) > 0 {
			n.At = spanOf(n.Kids)
			root.Kids = append(root.Kids, n)
		}
	}
	if len(items.Kids) > 0 {
		root.At = spanOf(items.Kids)
	}
	return &root, g.flaws
}

// item makes the tree of an item's row. Head says that no row before it under its headings
// said anything of the order.
func (g *growing) item(h *header, r *cells.Row, head bool) order.Node {
	item := emptied(&g.row)
	leaves := h.leaves(r, h.empty(h.textIn(h.kind, r), head))
	for i := range leaves {
		leaf := &leaves[i]
		g.add(leaf.flaws()...)
		switch c := leaf.column; {
		case !c.known:
		case c.about == aboutItem:
			plant(item, c.way, leaf.Node)
		default:
			g.head(c.way, leaf.Node)
		}
	}
	if settleCells(item); item.Blank() {
		return order.Node{}
	}
	n := copied(item, g.mem)
	n.At, n.Key = r.Range(), source.Range{}
	return n
}

// cloth makes the trees of a cloth's row. If several orders use the cloth, what can't be
// true for each of them is taken out, and the first of them says so.
func (g *growing) cloth(row *clothRow, unshare, say bool) {
	if row.split != nil {
		g.add(*row.split)
	}
	cloth, measured := emptied(&g.row), emptied(&g.measured)
	leaves := row.under.leaves(row.cells, row.under.empty("", false))
	for i := range leaves {
		leaf := &leaves[i]
		g.add(leaf.flaws()...)
		switch c := leaf.column; {
		case !c.known:
		case c.about == aboutMeasured:
			plant(measured, c.way, leaf.Node)
		case c.about == aboutCloth:
			plant(cloth, c.way, leaf.Node)
		}
	}
	settleCells(cloth)
	settleCells(measured)
	if unshare {
		flaws := append(row.unshare(cloth, "", "ordered", "bolts"), row.unshare(measured, "measured ", "length", "flaws")...)
		if say {
			g.add(flaws...)
		}
	}
}

// add adds the flaws that the order does not have yet.
func (g *growing) add(flaws ...order.Flaw) {
	for _, f := range flaws {
		if !slices.ContainsFunc(g.flaws, func(of order.Flaw) bool { return of.Kind == f.Kind && of.At == f.At }) {
			g.flaws = append(g.flaws, f)
		}
	}
}

// head adds what a row says of the order as a whole. Any row may say it; the first that
// does counts.
func (g *growing) head(w syntax.Path, leaf order.Node) {
	n := &g.root
	for _, s := range w {
		n = child(n, s)
		if n == nil {
			plant(&g.root, w, leaf)
			return
		}
	}
	switch {
	case leaf.Form == order.Null || leaf.Text == n.Text:
	case n.Form == order.Null:
		leaf.Name = n.Name
		*n = leaf
	default:
		g.flaws = append(g.flaws, order.Flaw{
			Kind: order.Duplicate, At: leaf.At, Related: n.At, Path: w.String(), Name: w[len(w)-1].Name, Text: leaf.Text,
		})
	}
}

// plant puts a leaf at the end of a path from n. Until [settleCells] runs, entries of a
// list are named by their numbers.
func plant(n *order.Node, w syntax.Path, leaf order.Node) {
	if len(w) == 0 {
		leaf.Name, leaf.Kids = n.Name, n.Kids[:0]
		*n = leaf
		return
	}
	n.Cell, n.Form = true, order.Map
	if w[0].Name == "" {
		n.Form = order.List
	}
	kid := child(n, w[0])
	if kid == nil {
		if k := len(n.Kids); k < cap(n.Kids) {
			n.Kids = n.Kids[:k+1]
		} else {
			n.Kids = append(n.Kids, order.Node{})
		}
		kid = emptied(&n.Kids[len(n.Kids)-1])
		kid.Name = w[0].Key()
	}
	plant(kid, w[1:], leaf)
}

// emptied empties a node, but for the room that its entries had.
func emptied(n *order.Node) *order.Node {
	*n = order.Node{Kids: n.Kids[:0]}
	return n
}

// child returns the node one step down from n, or nil.
func child(n *order.Node, s syntax.Step) *order.Node {
	for i := range n.Kids {
		if n.Kids[i].Name == s.Key() {
			return &n.Kids[i]
		}
	}
	return nil
}

// settleCells finishes a row: it takes out blank entries of lists, and gives each group
// the range of its cells.
func settleCells(n *order.Node) {
	for i := range n.Kids {
		if f := n.Kids[i].Form; f == order.Map || f == order.List {
			settleCells(&n.Kids[i])
		}
	}
	kept := 0
	for i := range n.Kids {
		if k := &n.Kids[i]; !(n.Form == order.List && k.Blank() || k.Form == order.List && len(k.Kids) == 0) {
			n.Kids[kept], n.Kids[i] = n.Kids[i], n.Kids[kept] // what is left out keeps its room
			kept++
		}
	}
	n.Kids = n.Kids[:kept]
	if n.Form == order.List {
		slices.SortStableFunc(n.Kids, func(a, b order.Node) int { return number(a.Name) - number(b.Name) })
		for i := range n.Kids {
			n.Kids[i].Name, n.Kids[i].Key = "", source.Range{}
		}
	}
	n.At = spanOf(n.Kids)
	n.Key = n.At
}

// number returns the number by which an entry of a list is named.
func number(name string) int {
	n, _ := strconv.Atoi(name)
	return n
}

// spanOf returns the range that covers the nodes that are not blank; if all are blank,
// the range of the first.
func spanOf(nodes []order.Node) (at source.Range) {
	some := false
	for i := range nodes {
		n := &nodes[i]
		switch {
		case n.Blank():
		case !some:
			at, some = n.At, true
		default:
			at.Start, at.End = min(at.Start, n.At.Start), max(at.End, n.At.End)
		}
	}
	if !some && len(nodes) > 0 {
		return nodes[0].At
	}
	return at
}

// copied returns a deep copy of n in the memory of orders.
func copied(n *order.Node, m *order.Memory) order.Node {
	to := *n
	to.Kids = nil
	if len(n.Kids) > 0 {
		to.Kids = m.Nodes.MakeOf(len(n.Kids), 1<<10)
	}
	for i := range n.Kids {
		to.Kids[i] = copied(&n.Kids[i], m)
	}
	return to
}
