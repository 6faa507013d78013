// Package syntax is what the syntaxes of orders have in common: the tree of nodes
// that each of them is read into, and how an edit is spelt.
//
// Each syntax has a package below it, which reads its texts and writes edits in
// its own spelling. None of them knows what an order means.
//
// A parser tells where a token starts. Where it ends is found in the file's own
// text, so that a range never takes in a comment, a quote mark or a comma.
package syntax

import (
	"slices"
	"strings"
	"sync"

	"cutgate/internal/order"
	"cutgate/internal/slab"
	"cutgate/internal/source"
)

// MaxDepth is how deep groups and lists may lie in one another. The form itself
// needs six.
const MaxDepth = 100

// A Root is one order as written, and what is wrong with its writing.
type Root struct {
	Node  *order.Node // nil where it could not be read
	Flaws []order.Flaw

	// Make returns the two where it is set: of an order in a large text, when its turn comes.
	Make func(*order.Memory) (*order.Node, []order.Flaw)
}

// A Builder makes the trees of one file. Nodes wait on a stack until the group
// or list around them ends, and then move to where they stay.
type Builder struct {
	File  *source.File
	Roots []Root
	Flaws []order.Flaw // of the order that is being read
	Stack []order.Node // borrowed from stacks

	nodes *slab.Slab[order.Node]
	chunk int
}

// NewBuilder returns a Builder, which is to be told when it is done. The trees are put
// into m. Marks are the bytes of which a value has one before or behind it in that syntax.
func NewBuilder(f *source.File, m *order.Memory, marks ...string) *Builder {
	n := 8
	for _, m := range marks {
		n += strings.Count(f.Text, m)
	}
	return &Builder{File: f, nodes: &m.Nodes, chunk: min(n, 1024), Stack: (*stacks.Get().(*[]order.Node))[:0]}
}

// stacks are for the builders to use one after the other.
var stacks = sync.Pool{New: func() any { s := make([]order.Node, 0, 64); return &s }}

// Done gives the stack back. What has been built stays as it is.
func (b *Builder) Done() {
	if cap(b.Stack) > 4096 {
		return
	}
	clear(b.Stack[:cap(b.Stack)]) // what it points to is not kept alive
	stacks.Put(&b.Stack)
}

// Push puts an empty node on the stack.
func (b *Builder) Push() *order.Node {
	if n := len(b.Stack); n < cap(b.Stack) {
		b.Stack = b.Stack[:n+1]
		b.Stack[n] = order.Node{}
	} else {
		b.Stack = append(b.Stack, order.Node{})
	}
	return &b.Stack[len(b.Stack)-1]
}

// Settle moves the nodes that were put on the stack since mark to where they
// stay, and returns them.
func (b *Builder) Settle(mark int) []order.Node {
	n := len(b.Stack) - mark
	if n == 0 {
		return nil
	}
	list := b.nodes.MakeOf(n, b.chunk)
	copy(list, b.Stack[mark:])
	b.Stack = b.Stack[:mark]
	return list
}

// Finish makes orders of n, which stands at the top of the file: one, or one an
// element of a list.
func (b *Builder) Finish(n order.Node) {
	flaws := b.Flaws
	b.Flaws = nil
	if n.Form != order.List || len(n.Kids) == 0 {
		b.Stack = append(b.Stack, n)
		b.Roots = append(b.Roots, Root{Node: &b.Settle(len(b.Stack) - 1)[0], Flaws: flaws})
		return
	}
	first := len(b.Roots)
	for i := range n.Kids {
		b.Roots = append(b.Roots, Root{Node: &n.Kids[i]})
	}
	for _, f := range flaws {
		// The path of a flaw starts from its own order.
		_, f.Path, _ = strings.Cut(f.Path, "]")
		f.Path = strings.TrimPrefix(f.Path, ".")
		to := slices.IndexFunc(n.Kids, func(k order.Node) bool { return k.At.Start <= f.At.Start && f.At.End <= k.At.End })
		own := &b.Roots[first+max(to, 0)]
		own.Flaws = append(own.Flaws, f)
	}
}

// Restart forgets what was built.
func (b *Builder) Restart() {
	b.Roots, b.Flaws, b.Stack = nil, nil, b.Stack[:0]
}

// Unreadable makes an order that could not be read.
func (b *Builder) Unreadable(flt *Fault) {
	b.Stack = b.Stack[:0]
	b.Roots = append(b.Roots, Unreadable(flt, b.Flaws...))
	b.Flaws = nil
}

// Unreadable is an order that could not be read, after what else is wrong.
func Unreadable(flt *Fault, after ...order.Flaw) Root {
	return Root{Flaws: append(after, order.Flaw{Kind: order.Unreadable, At: flt.At, Detail: flt.Detail})}
}

// A Fault is why a text could not be read to its end.
type Fault struct {
	At     source.Range
	Detail string
}

// NewFault returns a fault at a place.
func NewFault(at source.Range, detail string) *Fault { return &Fault{at, detail} }

// TooDeep is the fault of groups beyond [MaxDepth].
func TooDeep(at source.Range) *Fault {
	return &Fault{at, "groups lie more than 100 deep in one another"}
}

// Fix marks n and all below it as not to be edited.
func Fix(n *order.Node) {
	n.Fixed = true
	for i := range n.Kids {
		Fix(&n.Kids[i])
	}
}
