package table

import (
	"strings"

	"cutgate/internal/cells"
	"cutgate/internal/order"
	"cutgate/internal/source"
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
		switch {
		case len(rest) > 0 && rest[0].Column == c.cell.Column:
			list = append(list, c.leaf(&rest[0]))
		case empty[i]:
			list = append(list, c.empty(r))
		}
	}
	h.room = list
	return list
}

// leafIn returns the leaf of a row in a column.
func (h *header) leafIn(c *column, r *cells.Row) cellLeaf {
	if is := r.Filled(c.cell.Column); is != nil {
		return c.leaf(is)
	}
	return c.empty(r)
}

// leaf returns the leaf of a cell that is not empty.
func (c *column) leaf(is *cells.Cell) cellLeaf {
	leaf := leafOfCell(is)
	if c.unread && leaf.Text != "" {
		leaf.Form, leaf.Unread = order.Null, true
	}
	return c.under(leaf)
}

// empty returns the leaf of an empty cell. One beyond the end of the row can't be written
// to.
func (c *column) empty(r *cells.Row) cellLeaf {
	at, ok := r.Place(c.cell.Column)
	if !ok {
		end := r.Range().End
		at = source.Range{Start: end, End: end}
	}
	return c.under(cellLeaf{Node: order.Node{Cell: true, Fixed: !ok, At: at, Key: at}})
}

// under returns a leaf with what its heading says.
func (c *column) under(leaf cellLeaf) cellLeaf {
	leaf.column, leaf.Unit = c, c.unit
	if !c.key.IsZero() {
		leaf.Key = c.key
	}
	return leaf
}

// leafOfCell returns the leaf of a cell that is not empty, whatever its heading. The value of a formula is fixed:
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
