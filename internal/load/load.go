// Package load turns the bytes of a work order into a typed order: it reads
// YAML, JSON, JSON Lines, CUE and tables into one tree, holds the tree against the
// order form, and keeps for every leaf the place that it was read from.
//
// Its law: every text gives at least one order, and whatever could not be taken
// as written is a flaw of that order, with a place inside the file. There is no
// panic and no error for bad input.
//
// # Shape
//
// The order form is defined in CUE, in package schema. It is compiled once, when
// the program is built, into schema/compiled.json, and checked natively from
// there, so that reading an order starts no evaluator. A fuzz test holds the
// verdict against CUE's own. Only an order that is itself written in CUE and
// computes its values is evaluated, and only where the caller trusts it.
//
// # Places
//
// A syntax tree tells where a token starts. Where it ends is found in the file's
// own text, so that a range never takes in a comment, a quote mark or a comma.
//
// The package knows none of the trade's arithmetic; that a field is understood
// does not make it right.
package load

import (
	"strings"
	"unicode/utf8"

	"cutgate/internal/order"
	"cutgate/internal/source"
)

// Options say how an order may be read. The zero value is the careful one.
type Options struct {
	// TrustCUE evaluates a CUE order that computes its values, which may take
	// any time and memory.
	TrustCUE bool
}

// A Loader reads orders. It is safe for use by several goroutines at once.
type Loader struct {
	form  *shape
	words synonyms

	headings func() *headings // of tables, listed when first asked for
}

// Orders reads every order in f. The result is never empty: a text that cannot
// be read gives an order without a Root whose one flaw says why, after the
// orders that stand before the fault.
//
// Each document of a YAML file, each value of a JSON file, each line of a JSON
// Lines file and each element of a list at the top of a file is an order. They
// share f. A row of a table is an item; rows with the same number are one order's.
func (l *Loader) Orders(f *source.File, format Format, opt Options) []*order.Order {
	b := newBuilder(f, format)
	defer b.done()
	if b.readable() {
		switch format {
		case YAML:
			b.yaml()
		case JSON:
			b.json(f.Text, 0)
		case JSONLines:
			b.jsonLines()
		case CUE:
			b.cue(opt.TrustCUE)
		case CSV, Workbook:
			b.table(l, format)
		}
	}
	if len(b.roots) == 0 {
		b.unreadable(source.Range{}, "there is no order in this file")
	}
	orders := make([]*order.Order, len(b.roots))
	for i := range b.roots {
		orders[i] = l.typed(f, &b.roots[i])
	}
	return orders
}

// readable reports whether the text is UTF-8 without NULs, and says so if not.
func (b *builder) readable() bool {
	text := b.f.Text
	if i := strings.IndexByte(text, 0); i >= 0 {
		detail := "a NUL byte stands in it: it is no text"
		if i < 4 {
			detail = notUTF8
		}
		b.unreadable(source.Range{Start: i, End: i + 1}, detail)
		return false
	}
	if !utf8.ValidString(text) {
		i := 0
		for {
			r, size := utf8.DecodeRuneInString(text[i:])
			if r == utf8.RuneError && size <= 1 {
				break
			}
			i += size
		}
		b.unreadable(source.Range{Start: i, End: i + 1}, notUTF8)
		return false
	}
	return true
}

const notUTF8 = "it is not UTF-8: save it as UTF-8"

// byteOrderMark is what some editors put before a text.
const byteOrderMark = "\ufeff"
