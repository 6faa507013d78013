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

// A cellLeaf is a cell under a heading: a leaf of an order, and what there is to
// say of the cell.
type cellLeaf struct {
	order.Node
	remark cells.Remark
	detail string
}

// leavesOf returns the leaves of a row, by the columns. A cell that the row is too
// short for is empty and can't be written to; what a formula says is the
// spreadsheet's to change.
func leavesOf(columns []column, r *cells.Row) []cellLeaf {
	end := r.Range().End
	list := make([]cellLeaf, len(columns))
	for i := range columns {
		at := source.Range{Start: end, End: end}
		list[i].Node = order.Node{Cell: true, Fixed: true, At: at, Key: at}
		if c := r.Cell(columns[i].cell.Column); c != nil {
			list[i] = leafOfCell(c)
		}
		if n := &list[i].Node; columns[i].unread && n.Text != "" {
			n.Form, n.Unread = order.Null, true
		}
		list[i].Unit = columns[i].unit
		if own := columns[i].ownName(); !own.IsZero() {
			list[i].Key = own
		}
	}
	return list
}

func leafOfCell(c *cells.Cell) cellLeaf {
	n := order.Node{Form: order.Scalar, Cell: true, At: c.At, Key: c.At, Text: c.Text, Fixed: c.Remark == cells.Formula || c.Remark == cells.Valueless}
	switch {
	case c.Text == "":
		n.Form = order.Null
		if c.Remark == cells.Covered || c.Remark == cells.Valueless { // what it shows is not known here, which is reported
			n.Unread, n.Fixed = true, true
		}
	case strings.EqualFold(c.Text, "true"), strings.EqualFold(c.Text, "false"):
		n.Form, n.Text = order.Truth, strings.ToLower(c.Text)
	}
	return cellLeaf{n, c.Remark, c.Detail}
}

// flaws are those of a cell under a column that says more, or less, than its text.
// What an order says of itself may be merged over its rows, as it counts for all of
// them.
func (c *column) flaws(cell *cellLeaf) []order.Flaw {
	switch {
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

// plant puts a leaf where the way leads to from n. Until [settleCells] the entries
// of a list have their numbers for names.
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
		n.Kids = append(n.Kids, order.Node{Name: w[0].Key()})
		kid = &n.Kids[len(n.Kids)-1]
	}
	plant(kid, w[1:], leaf)
}

// child returns where a step leads to from n, or nil.
func child(n *order.Node, s syntax.Step) *order.Node {
	for i := range n.Kids {
		if n.Kids[i].Name == s.Key() {
			return &n.Kids[i]
		}
	}
	return nil
}

// settleCells ends the reading of a row: it takes out the entries of lists that
// are blank, and says of each group where its cells are.
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

// number is the number that an entry of a list has for a name.
func number(name string) int {
	n, _ := strconv.Atoi(name)
	return n
}

// spanOf is where the nodes that are not blank stand; all are, where the first
// does.
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

// cloned is a copy of n that shares nothing with it.
func cloned(n order.Node) order.Node {
	n.Kids = slices.Clone(n.Kids)
	for i := range n.Kids {
		n.Kids[i] = cloned(n.Kids[i])
	}
	return n
}
