package order

import (
	"iter"
	"slices"

	"cutgate/internal/source"
)

// FlawKind is how something on a form could not be taken as written.
type FlawKind uint8

// The kinds of flaw.
const (
	Unreadable   FlawKind = iota // the text is not the format that it should be; Detail says what is wrong
	Computed                     // a CUE order that computes or imports; Detail says which construct
	Duplicate                    // a name that was given before; Related is where
	UnknownField                 // a name that the form does not have; Nearest is the closest that it has, or the field that a comma cut in two
	OtherWord                    // another workroom's word for Nearest, which is what it was taken for
	MissingField                 // Name must be given; At is where it would go
	WrongKind                    // Wanted says what kind of value belongs there
	UnknownWord                  // Text is not one of Words; Nearest is the closest, or ""
	BadSpelling                  // Text can't be read as Wanted; Detail says why
	OddUnit                      // Text's unit does not fit Wanted, as kg for a length
	OutOfSense                   // Text is a number beyond all sense for Wanted
	Exchanged                    // Text makes no sense, nor does Nearest, which stands at Related in the same group: each does in the other's place
	Blank                        // a choice was left blank; only outcomes may be
	Dated                        // Text is a date that a spreadsheet made of a fraction; Nearest is that, or ""
	FromFormula                  // Text is the last value of the formula Detail, in a workbook
	Valueless                    // the formula Detail stands there, in a workbook that does not have its value
	Merged                       // Text stands in the cells Detail of a workbook, which were merged into one
	Unheaded                     // Text stands under no heading of a table
	Split                        // a row of a table has more cells than headings, as if its comma had split Nearest, of which Text is what is before it; Words are all numbers that it may have been
	Untaken                      // Text stands under a heading that has a flaw of its own, and was not taken
	Shared                       // Name says how much there is of the cloth Text, which several orders of a table use
)

// A Flaw is something on the form that could not be taken as written. The field
// it stands at counts as not given, except for OtherWord and what is said of a
// table's cells from FromFormula on.
type Flaw struct {
	Kind      FlawKind
	At        source.Range
	Related   source.Range // zero where there is none
	Path      string       // the field's path, or the block's for a missing one
	Name      string       // the field
	Text      string       // what was written
	Wanted    string       // as a message says it: "a measurement", "a whole number", "one of …"
	Words     []string     // the words allowed there, or the fields
	Nearest   string       // the closest of Words, or the field's own word; "" for none
	Elsewhere []string     // the paths of the fields that the Name means in other places
	Detail    string
	Node      *Node // as written, for an edit; nil where there is none
	InKey     bool  // At is the field's name, not its value
}

// What is wanted of two kinds of field.
const (
	WantLength = "a measurement"
	WantList   = "a list in square brackets" // of names or notes
)

// ManyFlaws are so many that nobody looks at them one by one.
const ManyFlaws = 1000

// Misspelt reports whether a flaw may be why a field of a group is not there: it
// is the field's own, or of a name that was meant for it.
func (o *Order) Misspelt(group source.Range, field string) bool {
	for f := range o.FlawsIn(group) {
		if f.Kind != OtherWord && (f.Name == field || f.Nearest == field) {
			return true
		}
	}
	return false
}

// FlawsIn are the flaws within a range: they stand in the order of the file.
func (o *Order) FlawsIn(in source.Range) iter.Seq[*Flaw] {
	return func(yield func(*Flaw) bool) {
		i, _ := slices.BinarySearchFunc(o.Flaws, in.Start, func(f Flaw, at int) int { return f.At.Start - at })
		for ; i < len(o.Flaws) && o.Flaws[i].At.Start <= in.End; i++ {
			if f := &o.Flaws[i]; f.At.End <= in.End && !yield(f) {
				return
			}
		}
	}
}
