// Package load turns the bytes of a work order into a typed order. Package syntax
// and those below it read them into a tree; load holds the tree against the order
// form, and keeps for every leaf the place that it was read from.
//
// Its law: every text gives at least one order, and whatever could not be taken
// as written is a flaw of that order, with a place inside the file. There is no
// panic and no error for bad input.
//
// The package knows none of the trade's arithmetic; that a field is understood
// does not make it right.
package load

import (
	"strings"
	"sync"
	"unicode/utf8"

	"cutgate/internal/form"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
	"cutgate/internal/syntax/table"
)

// Options say how an order may be read. The zero value is the careful one.
type Options struct {
	// TrustCUE evaluates a CUE order that computes its values, which may take
	// any time and memory.
	TrustCUE bool

	// TypedAt, where it is not 0, is one more than the offset at which somebody is
	// typing, or -1 where that is not known. What is half typed, there or elsewhere,
	// is then left out, so that the rest of its order can be read.
	TypedAt int

	// Memory is what the orders are put into; nil for memory of their own.
	Memory *order.Memory
}

// A Loader reads orders. It is safe for use by several goroutines at once.
type Loader struct {
	*form.Form
	tables *table.Reader
	names  func() map[string]bool // see allNames
}

// New returns a Loader for the order form that is compiled in.
func New() (*Loader, error) {
	f, err := form.New()
	if err != nil {
		return nil, err
	}
	return Of(f), nil
}

// Of returns a Loader for a form.
func Of(f *form.Form) *Loader {
	return &Loader{f, table.NewReader(f), sync.OnceValue(func() map[string]bool { return allNames(f.Order) })}
}

// Headings are the headings of a table that a row may have beside those that it has: see
// [table.Reader.Headings].
func (l *Loader) Headings(row string, first bool) []string { return l.tables.Headings(row, first) }

// Orders reads every order in f. The result is never empty: a text that cannot
// be read gives an order without a Root whose one flaw says why, after the
// orders that stand before the fault.
//
// Each document of a YAML file, each value of a JSON file, each line of a JSON
// Lines file and each element of a list at the top of a file is an order. They
// share f. A row of a table is an item; rows with the same number are one order's.
func (l *Loader) Orders(f *source.File, format Format, opt Options) []*order.Order {
	if opt.Memory == nil {
		opt.Memory = new(order.Memory)
	}
	roots := l.Roots(f, format, opt)
	orders := make([]*order.Order, len(roots))
	for i := range roots {
		orders[i] = l.OrderOf(f, format, &roots[i], opt.Memory)
	}
	return orders
}

// Roots reads every order in f as it is written, for [Loader.OrderOf] to be held against the
// form one after the other.
func (l *Loader) Roots(f *source.File, format Format, opt Options) []syntax.Root {
	if opt.Memory == nil {
		opt.Memory = new(order.Memory)
	}
	fault := unreadable(f.Text, format)
	if f.Cut {
		fault = syntax.NewFault(source.Range{End: len(f.Text)}, syntax.TooLong)
	}
	var roots []syntax.Root
	if fault == nil {
		roots = formats[format].read(l, f, opt)
		if opt.TypedAt != 0 {
			roots = l.readAround(f, format, opt, roots)
		}
		fault = syntax.NewFault(source.Range{}, "there is no order in this file")
	}
	if len(roots) == 0 {
		roots = []syntax.Root{syntax.Unreadable(fault)}
	}
	return roots
}

// OrderOf returns the order of a root that was read from f. It is put into m, but for what
// the memory of the reading has of it.
func (l *Loader) OrderOf(f *source.File, format Format, root *syntax.Root, m *order.Memory) *order.Order {
	o := l.typed(f, root, m)
	o.Writer = formats[format].writer
	return o
}

// unreadable says why a text is not UTF-8 without NULs; it is nil for one that is.
func unreadable(text string, format Format) *syntax.Fault {
	i, detail := strings.IndexByte(text, 0), "it is not UTF-8; save it as UTF-8"
	switch marked := syntax.IsUTF16(text) || syntax.IsUTF32(text); {
	case marked || i >= 0 && i < 4:
		how := "save it as UTF-8"
		if IsTable(format) {
			how = "save it as “CSV UTF-8”, or as a workbook"
		}
		coding := "UTF-16"
		if syntax.IsUTF32(text) || strings.Contains(text[:min(4, len(text))], "\x00\x00") {
			coding = "UTF-32"
		}
		if detail = "it is in " + coding + "; " + how; marked {
			i = 0
		}
	case i >= 4:
		detail = "it has a NUL byte, so it is not a text file"
	case utf8.ValidString(text):
		return nil
	default:
		i = len(text) - len(afterUTF8(text))
	}
	return syntax.NewFault(source.Range{Start: i, End: i + 1}, detail)
}

// afterUTF8 is text from the first byte that is not UTF-8.
func afterUTF8(text string) string {
	for {
		r, size := utf8.DecodeRuneInString(text)
		if r == utf8.RuneError && size <= 1 {
			return text
		}
		text = text[size:]
	}
}
