// Package worksheet works out every quantity of an order once, each with its
// working, and finds which stated values disagree with them.
//
// # Law
//
// A quantity is worked from choices only, never from a stated outcome, so that
// a wrong outcome has no consequences. Rules compare; they don't compute. Where
// numbers over-determine each other (holes by count, spacing and inset), or
// several outcomes agree with each other but not with a choice, the explanation
// that changes the fewest of them is taken, and among those the one that a known
// slip explains.
//
// # What it is not
//
// It knows no findings, levels or messages to people beyond the working and the
// name of a slip, and no file format.
package worksheet

import (
	"slices"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/trade"
)

// Common is the source of what the trade does without a single source.
const Common = trade.Unsourced

// A Quantity is one thing worked out, with its working as data.
type Quantity struct {
	Name    Name
	Of      string // which piece or cloth, where there are several; else ""
	Item    int    // index of the item; -1 for a cloth's
	Value   Value
	Round   length.Rounding // how it is rounded to the step that people cut by
	Formula string          // in the trade's words, its terms in braces: "{finished width} - 2 × {from side}"
	Terms   []Term          // in the order of the formula
	Source  string          // who says so, or Common
}

// A Term is one named number of a formula.
type Term struct {
	Name  string
	Value Value
	via   *Quantity // worked out on the way to this one; nil for a number of its own
}

// A Stated is an outcome that the order states, with what it is compared with.
type Stated struct {
	Quantity *Quantity   // nil where there is no right value
	Node     *order.Node // as written
	Value    Value
	Agrees   Agreement
	Doubtful bool // it rests on a choice that could not be read
	Unsure   bool // the worked value may be wrong itself
	FarMore  bool // so much more cloth than needed that it is asked about though no slip explains it
	Slot     Slot // which it is of its item or its cloth

	piece *Piece
	cut   int // of the order's, which states it
}

// A Wrong is a stated outcome that disagrees with what was worked out.
type Wrong struct {
	Quantity  *Quantity
	At        source.Range
	Node      *order.Node // as written
	Stated    Value
	Corrected string // the right value, in the person's own way of writing; "" where none can be cut
	Slip      *Slip  // nil where no known slip explains it
	Also      []Also // further places that are wrong with it
	Short     bool   // the stated value is less than it should be
	Likely    bool   // it is not certain enough to be corrected unasked
	Open      bool   // nor to be corrected at all

	piece *Piece
}

// An Also is a further place that states the same wrong value, or one that
// follows from it.
type Also struct {
	Node      *order.Node
	Corrected string
}

// A Slip is a known way to get a number wrong.
type Slip struct {
	Name    string // "the bottom hem was counted once"
	Working string // the slip's own arithmetic, with the numbers in; "" where the name says it all
}

// String is the slip with its working; "" for none.
func (s *Slip) String() string {
	switch {
	case s == nil:
		return ""
	case s.Working == "":
		return s.Name
	}
	return s.Name + ": " + s.Working
}

// A Misread is a choice that was likely written down wrong: stated outcomes that
// disagree with it agree with another value of it. Or it is the outcome that such a
// choice was swapped with.
type Misread struct {
	Name      string // the choice, in the form's words: "finished length"
	Items     []int  // that are worked from it; nil for the order's units
	At        source.Range
	Node      *order.Node
	Stated    Value
	Corrected string      // in the person's own way of writing
	Slip      *Slip       // nil where no known slip explains it
	Agree     []Wrong     // the outcomes that then agree
	With      *order.Node // what it was swapped with; nil where it was not
	Units     bool        // it is the order's units
	FarAhead  bool        // no other reading comes near: what a client ordered may then be changed on request
}

// A Disagreement is stated values that don't go together and can be read in
// several ways.
type Disagreement struct {
	Readings []Reading    // the likeliest first
	Instead  *Alternative // what else the order might say, and all would agree; nil for nothing
	Off      *Wrong       // what the order contradicts as it stands, where none of them writes an outcome; else nil
	More     bool         // there is more cloth than needed, and nothing else
	Beyond   bool         // nothing else contradicts the value, but it is beyond all sense
}

// A Reading is one way to make stated values agree: what would have to be written.
type Reading struct{ Writes []Write }

// A Write is another text for one field.
type Write struct {
	Name     string
	Node     *order.Node
	Text     string
	Or       []Write // other texts for it, which do about as well
	Slip     *Slip
	Follows  bool      // it was worked on from another one
	Quantity *Quantity // of an outcome; nil for a choice
	Items    []int     // that are worked from a choice
	Word     bool      // the choice is a word
}

// A Sheet is an order worked out. It is complete as far as the order goes: a
// quantity that something is missing for is nil.
type Sheet struct {
	Order    *order.Order
	Tables   *trade.Tables // the edition for the order's units
	Kinds    *Kinds
	Unit     length.Unit // the order's units
	Items    []Item
	Cloths   []Cloth
	All      []*Quantity // in the order that they were worked
	Stated   []Stated    // outcomes that the order states, those of items first
	Wrong    []Wrong     // stated outcomes that no misread choice explains, in the order of the form
	Misread  []Misread
	Misnamed []Misnamed // rows of cuts, which the sheet takes for rows of another piece

	Disagreements []Disagreement

	// Allowed are the words that the form allows in a field of a kind of goods; nil where nobody
	// says.
	Allowed func(kind, field string) []string

	Lean     bool                         // nobody will read its workings
	named    map[string]int               // its cloths by their names: see index
	benched  map[string]int               // what was measured of them, likewise
	disputed map[string]bool              // its cloths of which a cut says that it is of the one, and its item that it is of the other
	styles   map[*order.Node]length.Style // in which lengths are written, as they are looked up
	doubts   *doubts                      // see Unsettled; nil before it was asked
	ofItems  int                          // how many of the stated outcomes are
	commas   bool                         // it is a table whose numbers have decimal commas
	marked   length.Length                // the marks on a tape that its cuts are rounded to; 0 for none
	room     *room                        // of a trial that gives its memory back; else nil
	memory   *Memory                      // nil for that of a trial with a base
	lays     lays                         // that were found for its cloths
}

// An Item is one item worked out. Panels and pieces are for one of it; its
// Quantity says how many are made.
type Item struct {
	Order *order.Item
	Sheet *Sheet
	Index int
	Face  *Cloth // nil where the order has no such cloth

	Panels   int64 // 1 for all but curtains
	Quantity int64
	Worked   bool // its kind is one that sizes are worked out for
	Unread   bool // a choice of it could not be read, so what is worked out may be off

	Top, Bottom, Sides Hem
	LiningHem          Hem
	Seam               *trade.Seam
	Allowance          length.Length  // of a join, on each piece
	Heading            *trade.Heading // nil for all but curtains
	Joins              int64          // in one panel

	Pieces []Piece
	Added  []Piece         // beside them, as the order has them
	Holes  []length.Length // centers from the left finished edge of one panel
	Joined []length.Length // seams from the left finished edge of one panel

	// Keep is what a Setup or a Work leaves for those that come after it.
	Keep any

	extra []int // the cuts that may add a piece

	disputed bool // a cut says another cloth than its role has

	kind  *kind
	cells []cell
	mask  slotSet  // of a trial: which of them came out otherwise, or may have
	roles []*Cloth // by role; nil where the order names none, or one that it has not
}

// A Mark is a row of places along an edge.
type Mark struct {
	Name, From string // "rings", "the left finished edge"
	At         []length.Length
	Stage      Stage
}

// A Note is a line on how something is made.
type Note struct {
	Name, Text string
	Stage      Stage
}

// A Hem is a hem as the item has it: stated, or the house's.
type Hem struct {
	Order *order.Hem
	Edge  string // what the edge is called, where that is not by its place
	Field string // where it stands on the form, where that is not in hems
	Turn  length.Length
	Folds int64
	Takes length.Length // of the cut; 0 where there is no such hem
	House bool          // not stated: the house's own
}

// A Piece is one size of piece to cut.
type Piece struct {
	Name   string // as the form's word: center, side, width, lining
	Cloth  *Cloth
	Width  *Quantity
	Length *Quantity
	Count  *Quantity

	Role        string
	decl        *piecing
	whole, half *Quantity // counts where the order's cuts name whole and half widths; nil otherwise
}

// A Cloth is a cloth of the order with what is needed of it.
type Cloth struct {
	Order   *order.Cloth
	Name    string
	Class   *trade.Class  // nil where neither class nor weight is given
	Width   length.Length // edge to edge, as measured at the bench where it was; 0 where not given
	Washed  length.Length // the same after the first wash, where it shrinks
	Repeat  length.Length // along; 0 for a plain cloth
	Across  length.Length
	Cap     int           // dots that the weakest fiber can take; 0 where it must not be ironed, or is not known
	Weakest string        // that fiber; "" where not known
	Creases int           // dots that take its creases out
	Weighed System        // that its weight is written in
	Cuts    length.Length // what the cuts take, without a repeat to start on; 0 where Needed is nil
	Needed  *Quantity
	ToBuy   *Quantity
	TooWide *Piece // a piece that the cloth is too narrow for

	Stock     *Stock     // what the bolts at hand give; nil where none are stated
	Detour    *Detour    // around the flaws found at the bench; nil where there are none
	Railroads []Railroad // items that would save by turning the cloth, in their order

	index                     int
	shrinkLength, shrinkWidth length.Ratio
	cuts                      []cut
	usable                    length.Length // what Lays comes to, once all cuts are known
	dropped                   bool          // every other width is cut half a repeat along
	fewer                     length.Length // that does too, where split widths go by turns that are all A on their tickets
	lacks                     bool          // not all that is made of it was worked out
	unread                    bool          // it goes into an item of which a choice could not be read
	asBefore                  bool          // in a trial: nothing that is cut of it was worked out anew
}

// AllOf are all quantities of an item, which stand item by item, before those of cloths.
func (s *Sheet) AllOf(item int) []*Quantity {
	return OfItem(s.All, item, func(q *Quantity) int { return q.Item })
}

// statedOf are the stated outcomes of an item.
func (s *Sheet) statedOf(item int) []Stated {
	return OfItem(s.Stated[:s.ofItems], item, func(of Stated) int { return of.Slot.Item })
}

// OfItem are those of a list that are an item's: they stand item by item, and those that
// are of none come last. Of gives the item of one, or a number below 0 for none.
func OfItem[T any](list []T, item int, of func(T) int) []T {
	by := func(x T, item int) int {
		if at := of(x); at >= 0 {
			return at - item
		}
		return 1
	}
	first, _ := slices.BinarySearchFunc(list, item, by)
	next, _ := slices.BinarySearchFunc(list, item+1, by)
	return list[first:next]
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

// InDoubt reports whether a stated outcome of one of those names is found to be wrong,
// or may be: of an item, or of the cloth of a quantity.
func (s *Sheet) InDoubt(item int, of string, names ...Name) bool {
	is := func(q *Quantity) bool {
		return q != nil && q.Item == item && (of == "" || q.Of == of) && slices.Contains(names, q.Name)
	}
	for i := range s.Wrong {
		if is(s.Wrong[i].Quantity) {
			return true
		}
	}
	for _, d := range s.Disagreements {
		for _, r := range d.Readings {
			for _, w := range r.Writes {
				if is(w.Quantity) {
					return true
				}
			}
		}
	}
	return false
}

// Doubted reports whether one of several is a choice that was found to be misread, or one
// that may be, so that what is odd about it has been said.
func (s *Sheet) Doubted(nodes ...*order.Node) bool {
	in := func(n *order.Node) bool { return n != nil && slices.Contains(nodes, n) }
	for _, d := range s.Disagreements {
		for _, r := range d.Readings {
			for _, w := range r.Writes {
				if in(w.Node) {
					return true
				}
			}
		}
	}
	for i := range s.Misread {
		if in(s.Misread[i].Node) {
			return true
		}
	}
	return false
}

// Unsettled reports whether a stated value of an item, or of what it is made of, is in
// doubt, so that what is worked out would fit one reading of the order and not another.
func (s *Sheet) Unsettled(item int) bool {
	if len(s.Wrong)+len(s.Misread)+len(s.Disagreements) == 0 {
		return false
	}
	if n := [...]int{len(s.Wrong), len(s.Misread), len(s.Disagreements)}; s.doubts == nil || s.doubts.of != n {
		s.doubts = s.findDoubts()
		s.doubts.of = n
	}
	d := s.doubts
	return d.all || d.items[item] || len(d.cloths) > 0 && slices.ContainsFunc(s.Items[item].ClothNames(), func(name string) bool { return d.cloths[name] })
}

// doubts are the items and cloths of which a stated value is in doubt.
type doubts struct {
	of     [3]int // how many wrong outcomes, misread choices and disagreements they were found from
	all    bool
	items  map[int]bool
	cloths map[string]bool
}

func (s *Sheet) findDoubts() *doubts {
	d := &doubts{items: map[int]bool{}, cloths: map[string]bool{}}
	add := func(items []int, q *Quantity) {
		for _, i := range items {
			d.items[i] = true
		}
		if q != nil && q.Item >= 0 {
			d.items[q.Item] = true
		} else if q != nil {
			d.cloths[q.Of] = true
		}
	}
	for i := range s.Wrong {
		if w := &s.Wrong[i]; w.Likely {
			add(nil, w.Quantity)
		}
	}
	for i := range s.Misread {
		m := &s.Misread[i]
		d.all = d.all || m.Units
		add(m.Items, nil)
	}
	for _, of := range s.Disagreements {
		for _, r := range of.Readings {
			for _, w := range r.Writes {
				d.all = d.all || w.Items == nil && w.Quantity == nil
				add(w.Items, w.Quantity)
			}
		}
	}
	return d
}

// WordAsked reports whether it is asked if a word of an item is another, which may be why its rows
// are of none of its pieces, or why it lacks something.
func (s *Sheet) WordAsked(item int) bool {
	for i := range s.Disagreements {
		for _, r := range s.Disagreements[i].Readings {
			if slices.ContainsFunc(r.Writes, func(w Write) bool { return w.Word && slices.Contains(w.Items, item) }) {
				return true
			}
		}
	}
	return false
}

// Doubtful reports whether what is cut of the cloth rests on a choice that could not
// be read.
func (c *Cloth) Doubtful() bool { return c.unread }

// Keep takes from another sheet of the same order what no working out gives.
func (s *Sheet) Keep(from *Sheet) { s.commas, s.Misnamed = from.commas, from.Misnamed }

// Rebase makes the items say that they stand on this sheet, after it was copied.
func (s *Sheet) Rebase() {
	for i := range s.Items {
		s.Items[i].Sheet = s
	}
}

// WrongOf is a stated outcome as one that is wrong, with the right value as the
// person would have written it.
func (s *Sheet) WrongOf(of *Stated, slip *Slip) Wrong {
	right := of.Quantity.Value
	w := Wrong{Quantity: of.Quantity, At: of.Node.At, Node: of.Node, Stated: of.Value, Slip: slip, Short: less(of.Value, right), Open: slip != nil && slip.Name == LessToStart, piece: of.piece}
	if right.Sort != Length || right.N > 0 { // nothing can be cut to less
		w.Corrected = s.Print(of.Node, right, of.Quantity.Round)
	}
	return w
}

// Called is what messages call the quantity: with its piece, where the name does not
// say it.
func (q *Quantity) Called() string {
	switch {
	case q.Name == HemTakes && q.Of != "":
		return "allowance of the " + strings.TrimSuffix(strings.TrimSuffix(q.Of, " hem"), "s") + " hem"
	case q.Name == PieceCount && q.Of != "":
		return "number of " + Plural(q.Of) + " to cut"
	case q.Name == PressSetting && q.Of != "" && q.Item >= 0:
		return "iron setting for the " + q.Of
	case q.Name == PressSetting:
		return "iron setting"
	case q.Name == HoleInset:
		return "distance of the first hole from the side"
	case q.Of != "" && q.Item >= 0 && !strings.Contains(string(q.Name), q.Of):
		return string(q.Name) + " of the " + q.Of
	}
	return counted(string(q.Name), q.Value.Sort)
}

// counted is what messages call a term: the number of holes, for holes. Folds are those
// of a hem: the bottom hem's folds.
func counted(term string, sort Sort) string {
	many := sort == Count && (term == string(PieceCount) || strings.HasSuffix(term, "s")) || term == string(Widths)
	if many && !strings.HasPrefix(term, "number of ") && !strings.Contains(term, "'") {
		return "number of " + term
	}
	return term
}

// Cloth returns the cloth of that name, or nil.
func (s *Sheet) Cloth(name string) *Cloth {
	if i := find(s.Order.Cloths, s.named, name); i >= 0 && i < len(s.Cloths) {
		return &s.Cloths[i]
	}
	return nil
}
