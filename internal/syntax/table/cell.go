package table

import (
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/cells"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// A cellLeaf is a cell under a heading: a leaf of an order, and the cell's remark.
type cellLeaf struct {
	order.Node
	column *column
	remark cells.Remark
	detail string
}

// leaves returns the leaves of a row: of its cells that are not empty, and of the empty
// ones that are asked for, by their columns. It is good until the next row is read.
func (h *header) leaves(r *cells.Row, empty []bool) []cellLeaf {
	list, rest := h.room[:0], r.Cells
	for i := range h.columns {
		c := &h.columns[i]
		for len(rest) > 0 && rest[0].Column < c.cell.Column {
			rest = rest[1:]
		}
		var leaf cellLeaf
		switch {
		case len(rest) > 0 && rest[0].Column == c.cell.Column:
			leaf = leafOfCell(&rest[0])
		case empty[i]:
			leaf.Node = emptyCell(r, c.cell.Column)
		default:
			continue
		}
		if c.unread && leaf.Text != "" {
			leaf.Form, leaf.Unread = order.Null, true
		}
		leaf.column, leaf.Unit = c, c.unit
		if !c.key.IsZero() {
			leaf.Key = c.key
		}
		list = append(list, leaf)
	}
	h.room = list
	return list
}

// emptyCell returns the node of an empty cell. One beyond the end of the row can't be
// written to.
func emptyCell(r *cells.Row, column int) order.Node {
	at, ok := r.Place(column)
	if !ok {
		end := r.Range().End
		at = source.Range{Start: end, End: end}
	}
	return order.Node{Cell: true, Fixed: !ok, At: at, Key: at}
}

// leafOfCell returns the leaf of a cell that is not empty. The value of a formula is fixed:
// only the spreadsheet may change it.
func leafOfCell(c *cells.Cell) cellLeaf {
	n := order.Node{Form: order.Scalar, Cell: true, At: c.At, Key: c.At, Text: c.Text, Fixed: c.Remark == cells.Formula || c.Remark == cells.Valueless}
	switch {
	case c.Text == "":
		n.Form = order.Null
		if c.Remark == cells.Covered || c.Remark == cells.Valueless { // its value is unknown, and that is reported
			n.Unread, n.Fixed = true, true
		}
	case strings.EqualFold(c.Text, "true"), strings.EqualFold(c.Text, "false"):
		n.Form, n.Text = order.Truth, strings.ToLower(c.Text)
	}
	return cellLeaf{Node: n, remark: c.Remark, detail: c.Detail}
}

// flaws returns the flaws of a cell: of its heading, of a formula, of merged cells. Cells
// about the order as a whole may be merged down its rows, as they count for all of them.
func (cell *cellLeaf) flaws() []order.Flaw {
	switch c := cell.column; {
	case cell.remark == cells.Valueless && c.known:
		return []order.Flaw{{Kind: order.Valueless, At: cell.At, Text: cell.detail, Detail: cell.detail}}
	case cell.Text == "" || c.shops:
		return nil
	case c.flaw != nil:
		return []order.Flaw{*c.flaw}
	case cell.remark == cells.Formula:
		return []order.Flaw{{Kind: order.FromFormula, At: cell.At, Text: cell.Text, Detail: cell.detail}}
	case cell.remark == cells.Merged && (c.about != aboutOrder || !cells.OneColumn(cell.detail)):
		return []order.Flaw{{Kind: order.Merged, At: cell.At, Text: cell.Text, Detail: cell.detail}}
	}
	return nil
}

// plant puts a leaf at the end of a path from n. Until [settleCells] runs, entries of a
// list are named by their numbers.
func plant(n *order.Node, w syntax.Path, leaf order.Node) {
	if len(w) == 0 {
		leaf.Name = n.Name
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
	n.Kids = slices.DeleteFunc(n.Kids, func(k order.Node) bool {
		return n.Form == order.List && k.Blank() || k.Form == order.List && len(k.Kids) == 0
	})
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

// copied returns a deep copy of n in the memory of the orders.
func (t *tabular) copied(n *order.Node) order.Node {
	to := *n
	to.Kids = nil
	if len(n.Kids) > 0 {
		to.Kids = t.mem.Nodes.MakeOf(len(n.Kids), 1<<10)
	}
	for i := range n.Kids {
		to.Kids[i] = t.copied(&n.Kids[i])
	}
	return to
}
