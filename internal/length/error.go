package length

import "strconv"

// Kind says what is wrong with a text.
type Kind uint8

const (
	ErrSyntax          Kind = iota + 1 // not written as what was expected
	ErrUnit                            // no unit, or one of something else
	ErrInexact                         // no whole number of nanometres
	ErrRange                           // too large either way
	ErrZeroDenominator                 // a fraction over zero
	ErrEmpty                           // nothing there
	ErrPercent                         // a percent where a plain number is wanted
)

// Error says why a text could not be read.
type Error struct {
	Kind Kind
	// Text is the whole of what was to be read.
	Text string
	// Word is the part of Text that is at fault. It is empty if that is the
	// whole of Text, or something that is not there.
	Word string
	// Want is what was expected instead, a phrase in lower case.
	Want string
}

// Error returns the fault and what was expected, in lower case.
func (e *Error) Error() string {
	of := ""
	if e.Word != "" && e.Word != e.Text {
		of = strconv.Quote(e.Word) + " in "
	}
	of += strconv.Quote(e.Text)
	var what string
	switch e.Kind {
	case ErrUnit:
		if e.Word == "" {
			what = of + " has no unit"
		} else {
			what = of + " is not a unit for this"
		}
	case ErrInexact:
		what = of + " is no whole number of nanometres"
	case ErrRange:
		what = of + " is out of range"
	case ErrZeroDenominator:
		what = of + " is a fraction over zero"
	case ErrEmpty:
		what = "nothing is written"
	case ErrPercent:
		what = of + " is a percent"
	default:
		what = of + " is not understood"
	}
	if e.Want == "" {
		return what
	}
	return what + ": want " + e.Want
}

// fail returns an Error with no Text, which the exported function that was
// called fills in.
func fail(k Kind, word, want string) *Error { return &Error{Kind: k, Word: word, Want: want} }
