package order

import (
	"sort"
	"strconv"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/source"
)

// Form is what a Node is in its file.
type Form uint8

// The forms of a node.
const (
	Null Form = iota
	Scalar
	Number // a bare number
	Truth  // true or false
	List
	Map
)

// A Node is one piece of an order as written, before anything is known of what
// it means. Maps keep their entries in the order of the file.
type Node struct {
	Form Form
	// At is the value's own text: inside the quotes of a quoted text. For a
	// null that YAML leaves unwritten it is empty, after the colon and a space;
	// where no space stands, a value written there needs one.
	At    source.Range
	Key   source.Range // the name's own text, of an entry of a map
	Name  string       // the name, of an entry of a map
	Text  string       // what a scalar says
	Quote byte         // the quote mark around a text, 0 for a plain one
	Fixed bool         // behind an alias, a reference or a computed value: never edited
	// Unread says that the value, or a part of a map or a list, could not be
	// read. There is a Flaw for it, and nothing more to say of what is missing.
	Unread bool
	// Cell says that it is a cell of a table, or what cells of a row make
	// together. An empty cell says nothing, be it of a field that may not be left
	// blank or that the kind of item does not have.
	Cell bool
	Kids []Node

	// Unit is what a bare number meant, where the leaf was read as a length; before
	// that, what the heading of a table says that it means.
	Unit length.Unit
}

// LengthStyle is how a person wrote a length, so that a corrected one looks alike.
func (n *Node) LengthStyle() length.Style {
	if _, style, err := length.Parse(n.Text, n.Unit); err == nil {
		return style
	}
	return length.StyleOf(n.Unit, true)
}

// MassStyle is how a person wrote a weight of any kind.
func (n *Node) MassStyle() mass.Style {
	_, style, err := mass.ParseAreal(n.Text)
	if err != nil {
		_, style, err = mass.ParseLinear(n.Text)
	}
	if err != nil {
		_, style, _ = mass.ParseMass(n.Text)
	}
	return style
}

// Kid returns the entry of a map by its name, or nil. Of two entries of one
// name it is the first.
func (n *Node) Kid(name string) *Node {
	if n == nil || n.Form != Map {
		return nil
	}
	for i := range n.Kids {
		if n.Kids[i].Name == name {
			return &n.Kids[i]
		}
	}
	return nil
}

// Index returns which of n's entries kid is, or -1.
func (n *Node) Index(kid *Node) int {
	// As a rule they stand in their order.
	if i := sort.Search(len(n.Kids), func(i int) bool { return n.Kids[i].At.Start >= kid.At.Start }); i < len(n.Kids) && &n.Kids[i] == kid {
		return i
	}
	for i := range n.Kids {
		if &n.Kids[i] == kid {
			return i
		}
	}
	return -1
}

// Blank reports whether nothing is written: of a cell, or of all cells that make
// up a group or a list.
func (n *Node) Blank() bool {
	if !n.Cell || n.Form != Map && n.Form != List {
		return n.Form == Null && !n.Unread
	}
	for i := range n.Kids {
		if !n.Kids[i].Blank() {
			return false
		}
	}
	return true
}

// Lead returns the nodes that lead from below the root to the smallest one whose name
// or value covers r, quote marks included. The groups of a table lie across each
// other, and names may be headings, so all of them are looked into.
func (o *Order) Lead(r source.Range) []*Node { return o.Root.lead(r, 0, o.large) }

// lead is Lead with room in front for the given number of nodes, which lead to n.
func (n *Node) lead(r source.Range, before int, large *index) (best []*Node) {
	kids := n.Kids
	if large != nil && len(kids) >= manyKids {
		kids = large.around(n, r)
	}
	for i := range kids {
		k := &kids[i]
		own := k.covers(r)
		if !own && (!k.Cell || n.Name == "items") { // a row has all of its cells
			continue
		}
		lead := k.lead(r, before+1, large)
		if lead == nil {
			if !own {
				continue
			}
			lead = make([]*Node, before+1)
		}
		lead[before] = k
		if best == nil || lead[len(lead)-1].At.Len() < best[len(best)-1].At.Len() {
			best = lead
		}
		if !k.Cell {
			break
		}
	}
	return best
}

func (n *Node) covers(r source.Range) bool {
	own := n.quoted()
	return own == r || covers(own, r) || covers(n.Key, r)
}

// quoted is where the value stands, quote marks included.
func (n *Node) quoted() source.Range {
	if n.Quote == 0 {
		return n.At
	}
	return source.Range{Start: n.At.Start - 1, End: n.At.End + 1}
}

// span is where the name and the value stand.
func (n *Node) span() source.Range {
	s := n.quoted()
	if n.Key.Len() > 0 {
		s.Start, s.End = min(s.Start, n.Key.Start), max(s.End, n.Key.End)
	}
	return s
}

// PathAt returns the path of the smallest node whose name or value covers r,
// as `items[0].cuts[1].width`; "" for the order itself.
func (o *Order) PathAt(r source.Range) string {
	if o.Root == nil {
		return ""
	}
	var b strings.Builder
	n := o.Root
	for _, next := range o.Root.lead(r, 0, o.large) {
		if n.Form == List {
			b.WriteString("[" + strconv.Itoa(n.Index(next)) + "]")
		} else {
			if b.Len() > 0 {
				b.WriteByte('.')
			}
			b.WriteString(next.Name)
		}
		n = next
	}
	return b.String()
}

func covers(outer, inner source.Range) bool {
	return outer.Start <= inner.Start && inner.End <= outer.End && outer.End > outer.Start
}
