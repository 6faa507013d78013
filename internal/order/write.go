package order

import "cutgate/internal/finding"

// A Writer writes edits of an order in the spelling of the syntax that it was read
// from.
type Writer interface {
	// Set returns the edit that makes n say text. The words true and false are
	// always taken for the truth values, whose quotes go.
	Set(o *Order, n *Node, text string) finding.Edit
	// Rename returns the edit that renames the field n.
	Rename(o *Order, n *Node, name string) finding.Edit
	// Add returns how fields are put into the block n, after those that it has and
	// in the manner that they are written in: on lines of their own or beside each
	// other, with quote marks or without, lined up or not. It reports false where
	// the block can't be edited, or is written in a way that leaves no plain place.
	Add(o *Order, n *Node, fields []Added) (Addition, bool)
}

// An Added field is put into a block: its name and what it says.
type Added struct{ Name, Text string }

// An Addition is how fields are put into a block.
type Addition struct {
	Edits []finding.Edit
	Of    []int // the index of the edit that has each field
	At    []int // where in its text the field's value begins
}
