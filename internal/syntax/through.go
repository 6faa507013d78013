package syntax

import (
	"slices"

	"cutgate/internal/source"
)

// maxCopies is how many values all aliases or references of a file may stand
// for together.
const maxCopies = 100_000

// A Through reads what aliases or references stand for, which are nodes N of a
// parser's tree. All of it stands at the first of them.
type Through[N comparable] struct {
	On bool         // reading what an alias or a reference stands for
	At source.Range // that alias or reference

	opened []N // those that are being read
	copies int // values made so far
}

// Place is where something stands: at the alias, where it is read through one.
func (t *Through[N]) Place(at source.Range) source.Range {
	if t.On {
		return t.At
	}
	return at
}

// Read reads what stands for something else at a place.
func (t *Through[N]) Read(at func() source.Range, read func() *Fault) *Fault {
	on, was := t.On, t.At
	if !on {
		t.On, t.At = true, at()
	}
	defer func() { t.On, t.At = on, was }()
	return read()
}

// Follow is Read for n, which what it stands for may not have in it. What is n, in
// words.
func (t *Through[N]) Follow(n N, what string, at func() source.Range, read func() *Fault) *Fault {
	return t.Read(at, func() *Fault {
		if slices.Contains(t.opened, n) {
			return &Fault{t.At, "the " + what + " stands inside what it stands for"}
		}
		t.opened = append(t.opened, n)
		defer func() { t.opened = t.opened[:len(t.opened)-1] }()
		return read()
	})
}

// Copy counts a value that stands for something else. Too many of them are a fault.
func (t *Through[N]) Copy(at source.Range, what string) *Fault {
	if t.copies++; t.copies > maxCopies {
		return &Fault{at, what + " more than 100,000 values"}
	}
	return nil
}
