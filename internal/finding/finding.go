// Package finding is what cutgate says about an order: plain data, never an
// error. It knows neither rules nor formats.
package finding

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"cutgate/internal/source"
)

// A Level is how much a finding matters. The zero Level is Off.
type Level uint8

// The levels, least first.
const (
	Off Level = iota
	Note
	Warning // ask first
	Error   // cutting would spoil cloth, or someone could be hurt
)

var levelNames = [...]string{"skip", "note", "warning", "error"}

func (l Level) String() string { return levelNames[l] }

// Levels are the levels a finding can have, least first.
func Levels() []Level { return []Level{Note, Warning, Error} }

// ParseLevel reads a level's name. Off went by its own name once, and still may.
func ParseLevel(s string) (Level, error) {
	if s == "off" {
		return Off, nil
	}
	if i := slices.Index(levelNames[:], s); i >= 0 {
		return Level(i), nil
	}
	return Off, fmt.Errorf("unknown level %q: one of %s", s, strings.Join(levelNames[:], ", "))
}

// Sureness is how sure a fix is.
type Sureness uint8

// The degrees of sureness.
const (
	Shown   Sureness = iota // for a person to do
	Likely                  // a choice is made for the person; applied only on request
	Certain                 // the arithmetic leaves one value
)

var surenessNames = [...]string{"shown", "likely", "certain"}

func (s Sureness) String() string { return surenessNames[s] }

// An Edit replaces a range of the order's text.
type Edit struct {
	source.Range
	Text string
}

// A Fix is one way to mend what was found. Its title is an imperative.
type Fix struct {
	Title    string
	Sureness Sureness
	Edits    []Edit
}

// Advice is the one way to mend what was found, where that is for a person to do.
func Advice(title string) []Fix { return []Fix{{Title: title, Sureness: Shown}} }

// Related is a further place that the finding speaks of.
type Related struct {
	source.Range
	Message string
}

// A Finding is one thing to say about an order.
type Finding struct {
	Rule      string // topic/slug
	Level     Level
	At        source.Range
	Path      string // of the field, as items[0].cuts[1].width
	Message   string
	Stated    string // as the order has it; "" where it is blank
	Corrected string // in the person's own way of writing; "" where there is no one value
	Slip      string // how the mistake happened, where it is known
	Working   []string
	Source    string
	Related   []Related
	Fixes     []Fix  // alternatives: at most one is applied
	Facts     []Fact // what an error about safety rests on, to tell whether it has got worse
}

// A Fact is something that an error about safety rests on.
type Fact struct {
	Of    string // the field
	Is    string // a word that it says; "" for a measure
	Value int64  // of a measure, in nanometres
	Limit int64  // that it is held against, in nanometres; 0 for none
	More  bool   // more of it is worse, and else less of it
}

// WorseThan reports whether a fact is worse than it was, or is not held against the
// same limit any more.
func (f Fact) WorseThan(was Fact) bool {
	if f.Of != was.Of || f.Is != was.Is || f.Limit != was.Limit {
		return true
	}
	if f.More {
		return f.Value > was.Value
	}
	return f.Value < was.Value
}

// Compare orders findings by place, then rule, then message.
func Compare(a, b Finding) int {
	return cmp.Or(
		cmp.Compare(a.At.Start, b.At.Start),
		cmp.Compare(a.At.End, b.At.End),
		strings.Compare(a.Rule, b.Rule),
		strings.Compare(a.Message, b.Message),
	)
}

// Validate reports what is wrong with f as a finding about text of the given
// size: an empty message, a range outside the text, edits that overlap.
func (f *Finding) Validate(size int) error {
	if f.Message == "" {
		return errors.New("the message is empty")
	}
	if err := inside(f.At, size); err != nil {
		return err
	}
	for _, r := range f.Related {
		if err := inside(r.Range, size); err != nil {
			return fmt.Errorf("related: %w", err)
		}
	}
	for _, fix := range f.Fixes {
		if err := ValidEdits(fix.Edits, size); err != nil {
			return fmt.Errorf("fix %q: %w", fix.Title, err)
		}
	}
	return nil
}

// ValidEdits reports the first edit that lies outside a text of the given size
// or overlaps another.
func ValidEdits(edits []Edit, size int) error {
	sorted := slices.SortedFunc(slices.Values(edits), func(a, b Edit) int { return cmp.Compare(a.Start, b.Start) })
	for i, e := range sorted {
		if err := inside(e.Range, size); err != nil {
			return err
		}
		if i > 0 && e.Start < sorted[i-1].End {
			return fmt.Errorf("edits %v and %v overlap", sorted[i-1].Range, e.Range)
		}
	}
	return nil
}

func inside(r source.Range, size int) error {
	if r.Start < 0 || r.End < r.Start || r.End > size {
		return fmt.Errorf("range %d-%d is outside the text of %d bytes", r.Start, r.End, size)
	}
	return nil
}
