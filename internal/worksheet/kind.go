package worksheet

import (
	"slices"
	"unsafe"

	"cutgate/internal/length"
	"cutgate/internal/order"
)

// A Kind is a kind of goods as a value: which choices of the form it is worked
// from, the steps of its working, what of that the form may state, the pieces that
// are cut, and the slips that people make. All else that is known of a kind is
// derived from it.
type Kind struct {
	Name   string   // the form's item
	Fitted []string // what it is and does, for rules that ask: "hangs", "over a tub"
	Roles  []Role   // the cloths that it is made of, the face first
	// Setup settles what is judgement on the item as a whole, before anything is
	// worked: which heading, which hems are the house's.
	Setup    func(*Item)
	Given    []Given
	Steps    []Step
	Outcomes []Outcome
	Pieces   []Piecing
	Adds     []string // small pieces that may be added to those, cut as the order has them
	Layers   []string // and pieces that may be, of a cloth that their row names
	Slips    []Slipping
	Unlikely []Unlikely
	Marks    []Marking
	Notes    []Noting
	Hems     []Hemming
	Panels   []Paneling
	Edgings  []Edging
	Placings []Placing
	// Finish settles positions along an edge, when everything is worked.
	Finish func(*Item)
}

// Role is the index of the role of that name; -1 where the kind has none.
func (k *Kind) Role(name string) int {
	return slices.IndexFunc(k.Roles, func(r Role) bool { return r.Name == name })
}

// A Role is what a cloth is for in an item, and the field that names it. Where that
// is blank the cloth is that of the role Else. What is made of one Apart is not sewn to
// the rest.
type Role struct {
	Name, Field, Else string
	Called            string // what people call it, where that is not its name
	Apart             bool
}

// A Given is a term that is taken from the form, or from a table by what the form
// says.
type Given struct {
	Term  string
	Shown string // as formulas show it; "" for the term itself
	Name  string // as messages call the choice; "" for the term itself
	Sort  Sort
	// From are the fields that it is taken from: "finished.width", or "face/width"
	// of the cloth of a role. Without Get it is what the first of them says.
	From   []string
	Get    func(*Item) (Value, bool) // nil: as the first field says
	Else   func(*Item) (Value, bool) // without Get, where the field says nothing; nil for none
	House  string                    // the allowance of the house that Else is, if it is one
	As     string                    // without Get, the term given before it that it is the same as where the field says nothing
	Word   func(*Item) string        // of a term that is a word: what guards compare
	Choice *Choosing                 // how it is written down wrong; nil for one that nobody writes
	// Usually makes it a word as well, the one that the first field says; a flag that is
	// up is "yes". Where the field says nothing it is Usually itself; Silent is none.
	Usually string
}

// quantity is a term of every kind: how many are made of an item.
var quantity = Given{
	Term: "quantity", Sort: Count, From: []string{"quantity"},
	Get:    func(it *Item) (Value, bool) { return CountOf(it.Quantity), true },
	Choice: &Choosing{Least: 1, Most: 24, Ordered: true},
}

// Silent is what a word is Usually that is not there where the order does not say it.
const Silent = "-"

// A Stage is the part of the job in which a mark is made, or what a note says is done.
type Stage uint8

// The stages.
const (
	AsMade   Stage = iota // a note: when the item is made up; a mark: when its edges are hemmed
	AsCut                 // a note: when pieces are cut
	AsJoined              // when pieces are joined
	AsShaped              // a note: before any edge is hemmed
	AsHemmed              // a note: what a hem takes that is like no other
	AsTopped              // a note: what is done at the top
	AsLined               // a note: when the sides are hemmed and the foot is not
)

// A Marking is a row of places along an edge, for the ticket: joins, pleats, rings.
type Marking struct {
	Stage Stage
	Name  string // "joins"
	From  string // "the left finished edge"
	When  string
	Count string // the formula of how many
	At    string // the formula of the place of number {k}, from 1
}

// A Noting is a line of the ticket that says how something is made, where that is so.
type Noting struct {
	Stage Stage
	Name  string // its label
	When  string
	Text  string // terms in braces are printed
}

// Choosing is what is known of a choice as something that people write down.
type Choosing struct {
	Low, High   length.Length // the range of sense of a length; zero where not known
	Least, Most int64         // the same of a count
	Usual       []string      // usual values, in inches and in metric, as people write them: "4 in", "10 cm", "2"
	Words       []string      // those that the form allows, of a choice that is one
	Swap        string        // the term that it stands beside on the form and may be swapped with
	Ordered     bool          // a client ordered it so: a finished size, a quantity, where it hangs
	Copied      bool          // copied from a ticket or a label: a cloth's facts, a chain's mass
	Size        bool          // a hem may be counted in it, or left off it
}

// A Step works out one term. Of several steps with one term the first whose When
// holds is taken; it gives nothing where a term of its formula is not there, where it
// divides by zero, or where it comes to nothing or less and is Positive.
type Step struct {
	Term    string
	Name    Name   // as reported; "" for the term itself
	Shown   string // as formulas show it; "" for its name
	Of      string // which piece or edge, where Name does not say it
	When    string // terms that are there, "no x", "term: word/word", "{a} > {b}"; a comma is "and"
	Formula string
	Work    func(*Item) (Result, bool) // in place of Formula: judgement, or a sum over pieces
	Word    func(*Item) string         // in place of both, of a term that is a word
	Reads   []string                   // the terms that Work reads
	Sort    Sort                       // Length unless said
	Round   length.Rounding
	Source  string
	Belief  bool // what Work takes is a stated outcome, believed to be the maker's choice
	Free    bool // it is believed as a matter of course
	Own     bool // it is the choice itself: there is nothing to compare it with

	Hidden   bool // on the way only: it is not reported
	Plain    bool // its terms are shown as numbers, without their own working
	Ends     bool // others don't repeat its working
	Positive bool
}

// A Result is what a Work comes to. Formula and Terms are those to show; without a
// formula it is a number that stands for itself.
type Result struct {
	Value   Value
	Of      string
	Source  string
	Formula string
	Terms   []Term
}

// An Outcome is a worked term that the form may state.
type Outcome struct {
	Term  string
	Field string // where on the form, in the item: "holes.spacing"
	Label string // on the ticket; "" for the term's own name
	Hand  Hand   // how far it may be off when it was rounded by hand
	// AsRight are other values that are as right as the worked one.
	AsRight func(*Item) []length.Length
	// Fine reports whether a stated value that is not the worked one is a choice: a
	// roomier pocket, a cooler iron.
	Fine func(it *Item, stated Value) bool
	// Unsure reports whether the right value may be wrong itself, by something that is
	// not searched for, so that a stated one is not corrected unasked.
	Unsure func(*Item) bool
	// Unless says where nothing speaks against what is stated.
	Unless func(*Item) bool
}

// A Piecing is a piece that is cut, from the cloth of a role. It is not there where
// its width is not.
type Piecing struct {
	Name                        string // the form's word
	Role                        string
	Width, Length, Count        string // terms
	Joined                      string // the term for how many are joined side by side; "" for one
	Widths                      bool   // it is a width of what it is named for
	Whole, Half                 string // terms for the counts where the order's cuts name whole and half widths; "" where they may not
	Net                         string // the term for what is sewn of its length, where the repeat leaves more; "" for none
	Sewn                        string // the term for how many are sewn, where that is not a whole number; "" for its count
	Middle, Sides               bool   // they are joined of an odd number of the one, with one of the other at both sides
	Spare                       string // the term for what the repeat leaves of each; "" for none
	Takes                       string // the term for what each takes down the cloth; "" for its length
	Across                      string // the term for what each takes across the cloth; "" for its width
	WidthAsRight, LengthAsRight func(*Item) []length.Length
	LengthHand                  Hand             // how near its length has to be; 0 for that of a run down the cloth
	Turns                       func(*Item) bool // whether it may as well be cut the other way round, with its width along the cloth
}

// An Unlikely is something that may be so, but seldom is: evidence where it has to be
// found which stated value is wrong. Cost is in hundredths of a natural logarithm of
// odds.
type Unlikely struct {
	What string
	Cost int
	Is   func(*Item) bool
}

// A Slipping is a slip in a step's own arithmetic: the wrong number that it gives.
type Slipping struct {
	Of      string // the term
	Name    string // in the trade's words
	When    string
	Formula string
	Work    func(*Item) []Slipped // in place of Name and Formula
	Show    bool                  // its own arithmetic is shown beside its name
	Two     bool                  // it is two slips at once
	Seldom  bool                  // few people make it
	Leaps   bool                  // it is off by a whole step, as a cut for many another size would be
}

// A Slipped is a wrong number that a slip gives.
type Slipped struct {
	Name, Working string
	Value         Value
	Seldom        bool // it takes two slips at once, or one that few people make
	Leaps         bool // it is off by a whole step, as a cut for many another size would be
	Often         bool // many do it, and do well
}

// Hand is a class of outcome by how people round it.
type Hand uint8

// The classes.
const (
	Counted Hand = iota // equal
	Loose               // what nobody cuts by: a flat width
	Size                // cut and finished sizes
	Run                 // lengths along a plain cloth: also up to a rounder one
	Divided             // spacings, gaps, take-ups: what is left over goes into the last
	Curved              // with π or √2
	Bought              // cloth to buy
	Weighed
	Shared // ratios
)

// statedOf reads a leaf of any type as a Value.
func statedOf(leaf any) (v Value, node *order.Node, set bool) {
	switch l := leaf.(type) {
	case *order.Length:
		return LengthOf(l.Value), l.Node, l.Set
	case *order.Count:
		return CountOf(l.Value), l.Node, l.Set
	case *order.Ratio:
		return RatioOf(l.Value), l.Node, l.Set
	case *order.Mass:
		return MassOf(l.Value), l.Node, l.Set
	case *order.Areal:
		return ArealOf(l.Value), l.Node, l.Set
	case *order.Linear:
		return LinearOf(l.Value), l.Node, l.Set
	}
	return Value{}, nil, false
}

// noItem is one of which nothing is said. It is never written to.
var noItem order.Item

// SortOf is the sort of value that a field of an item holds; a word where it holds one.
func SortOf(path string) (sort Sort, word, ok bool) {
	f, err := fieldOf(itemType, path)
	if err != nil {
		return 0, false, false
	}
	switch v := f.leaf(unsafe.Pointer(&noItem)).(type) {
	case nil:
		return 0, false, false
	case *order.Text, *order.Flag:
		return 0, true, true
	default:
		of, _, _ := statedOf(v)
		return of.Sort, false, true
	}
}

// Silence is what a choice is where an order in those units does not say it; "" where
// it is then not there, or is what the house or the cloth makes it.
func (g *Given) Silence(u length.Unit) string {
	switch {
	case g.As != "":
		return g.As
	case g.Usually != "" && g.Usually != Silent:
		return g.Usually
	case g.Else == nil:
		return ""
	}
	if v, ok := g.Else(&Item{Sheet: &Sheet{Unit: u}}); ok {
		return v.Format(u, length.Nearest)
	}
	return ""
}
