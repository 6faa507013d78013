package cue

import (
	"unicode"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// A Writer writes edits in CUE.
type Writer struct{}

// Set implements [order.Writer].
func (Writer) Set(o *order.Order, n *order.Node, text string) finding.Edit {
	return syntax.SetQuoted(o, n, text)
}

// Rename implements [order.Writer].
func (Writer) Rename(o *order.Order, n *order.Node, name string) finding.Edit {
	switch {
	case syntax.Quoted(o.File.Text, n.Key) != 0:
		name = syntax.Escape(name)
	case !isIdentifier(name):
		name = syntax.Quote(name)
	}
	return finding.Edit{Range: n.Key, Text: name}
}

// Add implements [order.Writer]. A struct without braces, as in holes: make:
// "grommet", gets some.
func (Writer) Add(o *order.Order, n *order.Node, fields []order.Added) (order.Addition, bool) {
	b, ok := syntax.NewBlock(o, n, fields, syntax.Manner{Note: "//", Quotes: true, Value: syntax.WithQuotes})
	switch {
	case !ok:
		return order.Addition{}, false
	case b.Open:
		return b.Add()
	case len(b.Entries) != 1 || b.Entries[0].At != n.At:
		return order.Addition{}, false
	}
	a := b.Put(n.At.End, &b.Entries[0], ", ", "")
	for i := range a.Of {
		a.Of[i]++
	}
	edge := func(at int, brace string) finding.Edit {
		return finding.Edit{Range: source.Range{Start: at, End: at}, Text: brace}
	}
	a.Edits = append(append([]finding.Edit{edge(n.At.Start, "{")}, a.Edits...), edge(n.At.End, "}"))
	return a, true
}

// isIdentifier reports whether name can be a field of a CUE struct without
// quotes. One that begins with an underscore would be hidden.
func isIdentifier(name string) bool {
	for i, r := range name {
		if r != '_' && !unicode.IsLetter(r) && (i == 0 || !unicode.IsDigit(r)) {
			return false
		}
	}
	return name != "" && name[0] != '_'
}
