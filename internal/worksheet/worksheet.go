// Package worksheet works out every quantity of an order once, each with its
// working, and finds which stated values disagree with them.
//
// # Law
//
// A quantity is worked from choices only, never from a stated outcome, so that
// a wrong outcome has no consequences. Rules compare; they don't compute.
//
// # What it is not
//
// It knows no findings, levels or messages to people beyond the working and the
// name of a slip, and no file format.
package worksheet

import (
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/trade"
)

// A Quantity is one thing worked out, with its working as data.
type Quantity struct {
	Name    Name
	Of      string // which piece or cloth, where there are several; else ""
	Item    int    // index of the item; -1 for a cloth's
	Value   Value
	Round   length.Rounding // how it is rounded to the step that people cut by
	Formula string          // in the trade's words, terms in braces: "{finished width} - 2 × {from side}"
	Terms   []Term          // in the order of the formula
	Source  string          // who says so, or "common practice, no source"
}

// A Term is one named number of a formula.
type Term struct {
	Name  string
	Value Value
}

// Name says which quantity it is, in the trade's words.
type Name string

// A Wrong is a stated outcome that disagrees with what was worked out.
type Wrong struct {
	Quantity  *Quantity
	At        source.Range
	Node      *order.Node // as written
	Stated    Value
	Corrected string        // the right value, in the person's own way of writing
	Slip      *Slip         // nil where no known slip explains it
	Also      []*order.Node // further places that state the same wrong value
	Short     bool          // the stated value is less than it should be
}

// A Slip is a known way to get a number wrong.
type Slip struct {
	Name    string // "bottom hem counted once"
	Working string // the slip's own arithmetic with the numbers in
}

// A Misread is a choice that was written down wrong: every stated outcome that
// disagrees with it agrees with another value of it.
type Misread struct {
	Name      string // the choice, in the form's words: "finished length"
	At        source.Range
	Node      *order.Node
	Stated    Value
	Corrected string   // in the person's own way of writing
	Agree     []*Wrong // the outcomes that then agree
}

// A Sheet is an order worked out.
type Sheet struct {
	Order  *order.Order
	Tables *trade.Tables
	Unit   length.Unit // the order's units
	Items  []Item
	Cloths []Cloth
	All    []*Quantity // in the order that they were worked

	Wrong   []Wrong
	Misread []Misread
}

// Wrongs returns the stated outcomes of that name that are wrong and that no
// misread choice explains, in the order of the form.
func (s *Sheet) Wrongs(name Name) []*Wrong {
	var list []*Wrong
	for i := range s.Wrong {
		if s.Wrong[i].Quantity.Name == name {
			list = append(list, &s.Wrong[i])
		}
	}
	return list
}
