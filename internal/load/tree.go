package load

import (
	"slices"
	"strings"
	"sync"

	"cutgate/internal/order"
	"cutgate/internal/source"
)

// maxDepth is how deep groups and lists may lie in one another. The form itself
// needs six.
const maxDepth = 100

// maxCopies is how many values all aliases or references of a file may stand
// for together.
const maxCopies = 100_000

// A root is one order as written, and what is wrong with its writing.
type root struct {
	node  *order.Node // nil where it could not be read
	flaws []order.Flaw
}

// A builder makes the trees of one file. Nodes wait on a stack until the group
// or list around them ends, and then move to where they stay.
type builder struct {
	f     *source.File
	bare  bool // the syntax quotes everything but numbers
	roots []root

	flaws  []order.Flaw // of the order that is being read
	stack  []order.Node // borrowed from stacks
	arena  []order.Node
	chunk  int
	copies int // values made for aliases or references so far
}

func newBuilder(f *source.File, format Format) *builder {
	// A value is followed by a comma, a line end or its group's end.
	n := strings.Count(f.Text, ",") + 8
	if format != JSON && format != JSONLines {
		n += strings.Count(f.Text, "\n")
	} else {
		n += strings.Count(f.Text, "{") + strings.Count(f.Text, "[")
	}
	return &builder{
		f:     f,
		bare:  format != YAML,
		chunk: min(n, 1024),
		stack: (*stacks.Get().(*[]order.Node))[:0],
	}
}

// stacks are for the builders to use one after the other.
var stacks = sync.Pool{New: func() any { s := make([]order.Node, 0, 64); return &s }}

// done gives the stack back. What has been built stays as it is.
func (b *builder) done() {
	if cap(b.stack) > 4096 {
		return
	}
	clear(b.stack[:cap(b.stack)]) // what it points to is not kept alive
	stacks.Put(&b.stack)
}

// push puts an empty node on the stack.
func (b *builder) push() *order.Node {
	if n := len(b.stack); n < cap(b.stack) {
		b.stack = b.stack[:n+1]
		b.stack[n] = order.Node{}
	} else {
		b.stack = append(b.stack, order.Node{})
	}
	return &b.stack[len(b.stack)-1]
}

// settle moves the nodes that were put on the stack since mark to where they
// stay, and returns them.
func (b *builder) settle(mark int) []order.Node {
	n := len(b.stack) - mark
	if n == 0 {
		return nil
	}
	if cap(b.arena)-len(b.arena) < n {
		b.arena = make([]order.Node, 0, max(b.chunk, n))
	}
	at := len(b.arena)
	b.arena = append(b.arena, b.stack[mark:]...)
	b.stack = b.stack[:mark]
	return b.arena[at:len(b.arena):len(b.arena)]
}

// finish makes orders of n, which stands at the top of the file: one, or one an
// element of a list.
func (b *builder) finish(n order.Node) {
	flaws := b.flaws
	b.flaws = nil
	if n.Form != order.List || len(n.Kids) == 0 {
		b.stack = append(b.stack, n)
		b.roots = append(b.roots, root{&b.settle(len(b.stack) - 1)[0], flaws})
		return
	}
	first := len(b.roots)
	for i := range n.Kids {
		b.roots = append(b.roots, root{node: &n.Kids[i]})
	}
	for _, f := range flaws {
		// The path of a flaw starts from its own order.
		_, f.Path, _ = strings.Cut(f.Path, "]")
		f.Path = strings.TrimPrefix(f.Path, ".")
		to := slices.IndexFunc(n.Kids, func(k order.Node) bool { return k.At.Start <= f.At.Start && f.At.End <= k.At.End })
		own := &b.roots[first+max(to, 0)]
		own.flaws = append(own.flaws, f)
	}
}

// unreadable makes an order that could not be read.
func (b *builder) unreadable(at source.Range, detail string) {
	b.stack = b.stack[:0]
	b.roots = append(b.roots, root{flaws: append(b.flaws, order.Flaw{Kind: order.Unreadable, At: at, Detail: detail})})
	b.flaws = nil
}

// A fault is why a text could not be read to its end.
type fault struct {
	at     source.Range
	detail string
}

func tooDeep(at source.Range) *fault {
	return &fault{at, "groups lie more than 100 deep in one another"}
}
