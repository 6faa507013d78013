package table

import (
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// A Writer writes edits in the cells of a table.
type Writer struct{}

// Set implements [order.Writer].
func (Writer) Set(o *order.Order, n *order.Node, text string) finding.Edit { return set(o, n.At, text) }

// Rename implements [order.Writer].
func (Writer) Rename(o *order.Order, n *order.Node, name string) finding.Edit {
	return set(o, n.Key, name)
}

// Add implements [order.Writer]: a field without a column can't be added to a row.
func (Writer) Add(*order.Order, *order.Node, []order.Added) (order.Addition, bool) {
	return order.Addition{}, false
}

// set returns the edit that makes a cell say text. A text drawn from a workbook has one
// line for each cell; in a CSV text the cell is quoted if it has to be.
func set(o *order.Order, at source.Range, text string) finding.Edit {
	switch {
	case o.File.Drawn():
		text = strings.Join(strings.Fields(text), " ")
	case syntax.Quoted(o.File.Text, at) == '"':
		text = strings.ReplaceAll(text, `"`, `""`)
	case strings.ContainsAny(text, "\"\r\n"+string(o.File.Table.Comma)) || strings.TrimSpace(text) != text:
		text = `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return finding.Edit{Range: at, Text: text}
}
