// Package formula is a line of a worksheet as a value: it is read once, says
// which terms it needs and what its result measures, and works the result out.
//
// # The grammar
//
// Terms stand in braces, in the trade's words: "{finished width} + 2 × {side hem}".
// Beside them there are whole numbers, + - × ÷ and brackets, "rounded up (…)",
// "rounded down (…)", "rounded (…)", all to a whole, "rounded up to a half (…)",
// "square root (…)", "the larger of (…, …)", "the smaller of (…, …)" and, at the
// very end, ", made even". A part in [ ] is left out where one of its terms is not
// there: "{track} [+ {overlap}]". There are no conditions: the step that a formula
// belongs to says when it is taken.
//
// # Law
//
// A result is exact; only a root is rounded, down to a millionth of a plain number or of a
// nanometre. A formula that adds a length to a plain number does not get past
// [Formula.Dimension].
package formula

import (
	"fmt"
	"math"
	"math/bits"
	"slices"
	"strings"

	"cutgate/internal/length"
)

// A Formula is a line that was read. It is not changed afterwards, and may be used
// by many goroutines.
type Formula struct {
	text     string
	root     *node
	terms    []string // distinct, in the order of their first places
	places   []place  // of the terms, in the order of the text
	optional []span   // the parts in [ ]
}

// A place is where a term stands in the text, braces included.
type place struct {
	term       int
	start, end int
}

// A span is a part in [ ], brackets included.
type span struct {
	start, end int
	terms      []int
}

type op uint8

const (
	number op = iota
	term
	add
	sub
	mul
	quo
	up
	down
	nearest
	half
	root
	larger
	smaller
	even
)

// A node is a part of a formula. One with an optional b is just a where a term of
// b is not there.
type node struct {
	op    op
	a, b  *node
	n     length.Ratio
	term  int
	needs []int // the terms of an optional b; nil where b is not optional
}

// Parse reads a formula.
func Parse(text string) (*Formula, error) {
	p := parser{f: &Formula{text: text}, rest: text}
	n := p.sum()
	if p.skip(); p.err == nil && p.take(", made even") {
		n = &node{op: even, a: n}
	}
	if p.skip(); p.err == nil && p.rest != "" {
		p.fail("nothing may follow here")
	}
	if p.err != nil {
		return nil, p.err
	}
	p.f.root = n
	return p.f, nil
}

// String is the formula as it was read.
func (f *Formula) String() string { return f.text }

// Terms are the terms of the formula, each once. They are not to be changed.
func (f *Formula) Terms() []string { return f.terms }

// Needs reports whether the formula has no result without that one of its terms.
func (f *Formula) Needs(term int) bool {
	for _, p := range f.places {
		if p.term == term && !slices.ContainsFunc(f.optional, func(s span) bool { return s.start < p.start && p.end < s.end }) {
			return true
		}
	}
	return false
}

// Optional are the terms of each part in [ ], in the order of the text.
func (f *Formula) Optional() (list [][]int) {
	for _, s := range f.optional {
		list = append(list, s.terms)
	}
	return list
}

var withoutBrackets = strings.NewReplacer("[", "", "]", "")

// Words is the formula as it stands when only some of its terms are there: without
// the parts that are left out, each term written by write, in braces, and the terms
// by number in the order of the text.
func (f *Formula) Words(has func(term int) bool, write func(term int) string) (text string, terms []int) {
	var b strings.Builder
	at := 0
	skipTo := -1
	emit := func(to int) {
		if at < to {
			b.WriteString(withoutBrackets.Replace(f.text[at:to]))
		}
		at = to
	}
	next := 0
	for _, p := range f.places {
		for next < len(f.optional) && f.optional[next].start < p.start {
			s := f.optional[next]
			next++
			if slices.ContainsFunc(s.terms, func(t int) bool { return !has(t) }) {
				emit(len(strings.TrimRight(f.text[:s.start], " ")))
				at, skipTo = s.end, s.end
			}
		}
		if p.start < skipTo {
			continue
		}
		emit(p.start)
		b.WriteString("{" + write(p.term) + "}")
		at = p.end
		terms = append(terms, p.term)
	}
	emit(len(f.text))
	return b.String(), terms
}

type parser struct {
	f    *Formula
	rest string
	err  error
}

func (p *parser) fail(why string) {
	if p.err == nil {
		p.err = fmt.Errorf("formula %q at %q: %s", p.f.text, p.rest, why)
	}
}

func (p *parser) skip()     { p.rest = strings.TrimLeft(p.rest, " ") }
func (p *parser) at() int   { return len(p.f.text) - len(p.rest) }
func (p *parser) end() bool { p.skip(); return p.rest == "" || p.err != nil }

func (p *parser) take(word string) bool {
	rest, ok := strings.CutPrefix(p.rest, word)
	if ok {
		p.rest = rest
	}
	return ok
}

// option reads one in [ ]: an operation and what it is done with.
func (p *parser) option(n *node, ops string, operand func() *node) *node {
	s := span{start: p.at()}
	first := len(p.f.places)
	p.take("[")
	for !p.end() && !p.take("]") {
		o := p.operator(ops)
		if o == number {
			p.fail("an operation has to stand here")
			return n
		}
		n = &node{op: o, a: n, b: operand(), needs: []int{}}
	}
	s.end = p.at()
	for _, at := range p.f.places[first:] {
		s.terms = append(s.terms, at.term)
	}
	if len(s.terms) == 0 {
		p.fail("a part in [ ] needs a term")
	}
	// All of the part goes when one term of it is not there.
	for m := n; m.needs != nil && len(m.needs) == 0; m = m.a {
		m.needs = s.terms
	}
	p.f.optional = append(p.f.optional, s)
	return n
}

// operator reads one of the operations; number where there is none.
func (p *parser) operator(ops string) op {
	p.skip()
	for _, o := range [...]struct {
		mark string
		op   op
	}{{"+", add}, {"-", sub}, {"×", mul}, {"÷", quo}} {
		if strings.Contains(ops, o.mark) && p.take(o.mark) {
			return o.op
		}
	}
	return number
}

func (p *parser) sum() *node {
	n := p.product()
	for !p.end() {
		if strings.HasPrefix(p.rest, "[+") || strings.HasPrefix(p.rest, "[-") {
			n = p.option(n, "+-", p.product)
			continue
		}
		o := p.operator("+-")
		if o == number {
			break
		}
		n = &node{op: o, a: n, b: p.product()}
	}
	return n
}

func (p *parser) product() *node {
	n := p.single()
	for !p.end() {
		if strings.HasPrefix(p.rest, "[×") || strings.HasPrefix(p.rest, "[÷") {
			n = p.option(n, "×÷", p.single)
			continue
		}
		o := p.operator("×÷")
		if o == number {
			break
		}
		n = &node{op: o, a: n, b: p.single()}
	}
	return n
}

func (p *parser) single() *node {
	p.skip()
	for _, w := range [...]struct {
		word string
		op   op
		two  bool
	}{{"rounded up to a half", half, false}, {"rounded up", up, false}, {"rounded down", down, false}, {"rounded", nearest, false},
		{"square root", root, false}, {"the larger of", larger, true}, {"the smaller of", smaller, true}} {
		if !p.take(w.word) {
			continue
		}
		if p.skip(); !p.take("(") {
			p.fail("a bracket has to open here")
			return &node{}
		}
		n := &node{op: w.op, a: p.sum()}
		if w.two {
			if p.skip(); !p.take(",") {
				p.fail("a comma has to stand here")
				return n
			}
			n.b = p.sum()
		}
		p.closing()
		return n
	}
	switch {
	case p.take("("):
		n := p.sum()
		p.closing()
		return n
	case strings.HasPrefix(p.rest, "{"):
		return p.term()
	case strings.HasPrefix(p.rest, "π"):
		p.take("π")
		return &node{op: number, n: Pi}
	}
	digits := len(p.rest) - len(strings.TrimLeft(p.rest, "0123456789"))
	if digits == 0 || digits > 9 {
		p.fail("a term or a number has to stand here")
		return &node{}
	}
	var n int64
	for _, c := range p.rest[:digits] {
		n = 10*n + int64(c-'0')
	}
	p.rest = p.rest[digits:]
	return &node{op: number, n: length.NewRatio(n, 1)}
}

func (p *parser) closing() {
	if p.skip(); !p.take(")") {
		p.fail("a bracket has to close here")
	}
}

func (p *parser) term() *node {
	start := p.at()
	end := strings.IndexByte(p.rest, '}')
	if end < 2 {
		p.fail("a term has to stand in braces")
		p.rest = ""
		return &node{}
	}
	name := p.rest[1:end]
	p.rest = p.rest[end+1:]
	i := slices.Index(p.f.terms, name)
	if i < 0 {
		i = len(p.f.terms)
		p.f.terms = append(p.f.terms, name)
	}
	p.f.places = append(p.f.places, place{i, start, p.at()})
	return &node{op: term, term: i}
}

// Pi is within a ten-millionth of the ratio of circumference to diameter.
var Pi = length.NewRatio(355, 113)

var two = length.NewRatio(2, 1)

// Eval works the formula out. It reports false where a term that it needs is not
// there, a divisor is zero or a root is of less than nothing.
func (f *Formula) Eval(get func(term int) (length.Ratio, bool)) (length.Ratio, bool) {
	return f.root.eval(get)
}

func (n *node) eval(get func(int) (length.Ratio, bool)) (length.Ratio, bool) {
	switch n.op {
	case number:
		return n.n, true
	case term:
		return get(n.term)
	}
	a, ok := n.a.eval(get)
	if !ok {
		return a, false
	}
	for _, t := range n.needs {
		if _, ok := get(t); !ok {
			return a, true
		}
	}
	var b length.Ratio
	if n.b != nil {
		if b, ok = n.b.eval(get); !ok {
			return b, false
		}
	}
	switch n.op {
	case add:
		return a.Add(b), true
	case sub:
		return a.Sub(b), true
	case mul:
		return a.Mul(b), true
	case quo:
		if b.IsZero() {
			return b, false
		}
		return a.Quo(b), true
	case up:
		return length.NewRatio(a.Int(length.Up), 1), true
	case down:
		return length.NewRatio(a.Int(length.Down), 1), true
	case nearest:
		return length.NewRatio(a.Int(length.Nearest), 1), true
	case half:
		return length.NewRatio(a.Mul(two).Int(length.Up), 2), true
	case larger:
		if b.Cmp(a) > 0 {
			return b, true
		}
		return a, true
	case smaller:
		if b.Cmp(a) < 0 {
			return b, true
		}
		return a, true
	case even:
		if n := a.Int(length.Nearest); n%2 != 0 {
			return length.NewRatio(n+1, 1), true
		}
		return a, true
	}
	return sqrt(a)
}

// sqrt is the square root to 1e-12: that of a square of nanometres is then exact
// far below one.
func sqrt(a length.Ratio) (length.Ratio, bool) {
	if a.Num < 0 {
		return a, false
	}
	for _, parts := range [...]uint64{1_000_000, 1} { // of a length: a millionth of a nanometre
		if n, ok := rootOf(uint64(a.Num), parts*parts, uint64(max(a.Den, 1))); ok {
			return length.NewRatio(n, int64(parts)), true
		}
	}
	return a, false
}

// rootOf is the square root of a × b ÷ c, rounded down; false where it is beyond an int64.
func rootOf(a, b, c uint64) (int64, bool) {
	hi, lo := bits.Mul64(a, b)
	high, hi := bits.Div64(0, hi, c)
	low, _ := bits.Div64(hi, lo, c)
	if high >= 1<<62 {
		return 0, false
	}
	n := uint64(math.Sqrt(float64(high)*(1<<64) + float64(low)))
	more := func(n uint64) bool { // its square is more
		h, l := bits.Mul64(n, n)
		return h > high || h == high && l > low
	}
	for step := uint64(1) << 12; step > 0; step /= 2 { // a float64 may be so far off
		for more(n) {
			n -= min(n, step)
		}
		for !more(n + step) {
			n += step
		}
	}
	return int64(n), n <= math.MaxInt64
}
