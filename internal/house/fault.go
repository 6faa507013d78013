package house

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"cutgate/internal/source"
)

// maxFaults is how many faults of a file are told at a time.
const maxFaults = 20

// An Error is why a file of house rules can't be used.
type Error struct {
	File   string
	Faults []Fault // by place; never empty
}

// A Fault is one thing that is wrong in a file of house rules.
type Fault struct {
	At      source.Position
	Message string
}

// Error says every fault with its place, a line for each, harmless to a terminal.
func (e *Error) Error() string {
	var b strings.Builder
	for i, f := range e.Faults {
		if i == maxFaults {
			fmt.Fprintf(&b, "\n%s: and %d more", source.Show(e.File), len(e.Faults)-i)
			break
		}
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(source.Show(fmt.Sprintf("%s:%d:%d: %s", e.File, f.At.Line, f.At.Column, f.Message)))
	}
	return b.String()
}

// settle sorts the faults by place and drops what is said twice of one place.
func (e *Error) settle() {
	slices.SortStableFunc(e.Faults, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.At.Line, b.At.Line), cmp.Compare(a.At.Column, b.At.Column), strings.Compare(a.Message, b.Message))
	})
	e.Faults = slices.Compact(e.Faults)
}
