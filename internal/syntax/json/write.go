package json

import (
	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/syntax"
)

// A Writer writes edits in JSON.
type Writer struct{}

// Set implements [order.Writer].
func (Writer) Set(o *order.Order, n *order.Node, text string) finding.Edit {
	return syntax.SetQuoted(o, n, text)
}

// Rename implements [order.Writer].
func (Writer) Rename(_ *order.Order, n *order.Node, name string) finding.Edit {
	return finding.Edit{Range: n.Key, Text: syntax.Escape(name)}
}

// Add implements [order.Writer].
func (Writer) Add(o *order.Order, n *order.Node, fields []order.Added) (order.Addition, bool) {
	b, ok := syntax.NewBlock(o, n, fields, syntax.Manner{Note: "//", Quotes: true, Commas: true, Value: syntax.WithQuotes})
	if !ok {
		return order.Addition{}, false
	}
	return b.Add()
}
