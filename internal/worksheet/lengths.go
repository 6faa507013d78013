package worksheet

import (
	"context"
	"fmt"
	"slices"

	"cutgate/internal/lay"
	"cutgate/internal/length"
	"cutgate/internal/order"
)

// A Copy says what a piece of a lay is for.
type Copy struct {
	Item int    // of the order's
	N    int64  // which of so many that are made, from 0
	Name string // of the piece, as the form's word
	Drop string // A or B, where every other one of a half drop is B, and starts half a repeat on
}

// ToLay are the pieces that are cut of a cloth, item by item and copy by copy, and what
// each is for: as the form has them cut, up to what can be marked. There are none where not
// all that is made of it is worked out, or a piece comes to nothing, so that a lay of them would
// mislead.
func (s *Sheet) ToLay(c *Cloth) (pieces []lay.Piece, of []Copy) {
	if c.Needed == nil || s.Nothing(c) != nil {
		return nil, nil
	}
	return s.toLay(c)
}

func (s *Sheet) toLay(c *Cloth) (pieces []lay.Piece, of []Copy) {
	wholes := map[Copy]int{} // by item and copy, the number of both, for lots
	for _, k := range c.cuts {
		for n := range s.Items[k.item].Quantity {
			whole, ok := wholes[Copy{Item: k.item, N: n}]
			if !ok {
				whole = len(wholes)
				wholes[Copy{Item: k.item, N: n}] = whole
			}
			for _, p := range s.parts(c, &k, n) {
				p.Piece.Item = whole
				pieces, of = append(pieces, p.Piece), append(of, Copy{k.item, n, p.Name, p.drop})
			}
		}
	}
	return pieces, of
}

// A part is pieces of a cut, those of a half drop with their letter.
type part struct {
	lay.Piece
	drop string
}

// parts are the pieces of a cut for the nth of its item: those of a half drop that start half
// a repeat further on apart from the others, whether that takes more of the cloth or what the
// repeat leaves of each is enough. Where what can be marked is no half of a repeat, those
// that go by turns are laid one after the other, wherever they start then. A width that is
// split for both letters is longer.
func (s *Sheet) parts(c *Cloth, k *cut, n int64) (list []part) {
	wide, long := s.laidAs(c, k)
	a := part{lay.Piece{Name: k.piece.Name, Width: wide, Length: long, Count: k.piece.Count.Value.N}, ""}
	if !c.halves(k) {
		a.Matched = c.Repeat > 0 && long%c.Repeat == 0
		return append(list, a)
	}
	b := a
	a.drop, b.drop = "A", "B"
	if c.drops(k) {
		b.Anchor = c.Repeat.Div(2, length.Up)
	}
	if c.byTurns(k) && 2*long%c.Repeat != 0 {
		a.Count, b.Count = 1, 1
		for i := range k.piece.Count.Value.N {
			list = append(list, [2]part{a, b}[(n*k.piece.Count.Value.N+i)%2])
		}
		return list
	}
	a.Matched = c.byTurns(k) || long%c.Repeat == 0
	b.Matched = a.Matched
	b.Count = c.droppedOf(k, n+1) - c.droppedOf(k, n)
	a.Count -= b.Count
	if long := s.Items[k.item].SplitWidth(k.piece); long > 0 && c.drops(k) { // of the letter of which there is one more
		of := &a
		if b.Count > a.Count {
			of = &b
		}
		of.Count--
		split := *of
		split.Count, split.Length = 1, long
		list = append(list, split)
	}
	for _, p := range [2]part{a, b} {
		if p.Count > 0 {
			list = append(list, p)
		}
	}
	return list
}

// Start is cloth that is passed over at the beginning of a bolt, at most, before the first
// motif.
func (s *Sheet) Start(c *Cloth) length.Length {
	if s.Tables.House.StartRepeat {
		return c.Repeat
	}
	return 0
}

// A Roll is a bolt of a cloth that the order states, with the flaws that were found on it.
type Roll struct {
	Lot    string
	Length length.Length
	Flaws  []Span
}

// A Span is a part of a roll, from its beginning.
type Span struct{ From, To length.Length }

// Rolls are the bolts of a cloth, the single one as measured at the bench; nil where none
// are stated, or one can't be read. A flaw of which it is not said which of several bolts
// has it is on none.
func (s *Sheet) Rolls(c *Cloth) (list []Roll) {
	w := worker{Sheet: s}
	for _, b := range w.bolts(c) {
		list = append(list, Roll{Lot: b.lot, Length: b.length})
	}
	if m := s.Measured(c.Name); m != nil && len(m.Flaws) > 0 {
		if len(list) == 0 && len(c.Order.Bolts) < 2 {
			list = append(list, Roll{})
		}
		for i := range m.Flaws {
			f := &m.Flaws[i]
			n := boltOf(f, len(list))
			if n >= 0 && f.From.Set && f.To.Set && f.From.Value != f.To.Value { // measured from either end
				list[n].Flaws = append(list[n].Flaws, Span{min(f.From.Value, f.To.Value), max(f.From.Value, f.To.Value)})
			}
		}
	}
	return list
}

// boltOf is which of so many bolts has a flaw, from 0 on; -1 where that is not known.
func boltOf(f *order.Fault, bolts int) int {
	switch {
	case bolts == 1 && !f.Bolt.Set:
		return 0
	case f.Bolt.Set && f.Bolt.Value <= int64(bolts):
		return int(f.Bolt.Value) - 1
	}
	return -1
}

// ReachOf is how far along the bolt that has a flaw the cuts go, laid around it, and which
// of several bolts it is; 0 for the only one. It reports false where that is not known.
func (d *Detour) ReachOf(f *order.Fault) (reach length.Length, bolt int, ok bool) {
	n := boltOf(f, len(d.Reach))
	if n < 0 {
		return 0, 0, false
	}
	if len(d.Reach) > 1 {
		bolt = n + 1
	}
	return d.Reach[n], bolt, true
}

// The most pieces that are laid to work out the cloth to buy, and to look for what another
// way of cutting would save; beyond them the rows are taken.
const (
	mostLaid   = 2000
	mostCloser = 200
	firstSteps = 5000 // that are searched to see whether it is worth more
)

// Way is how a cloth is cut: as the order says of it, or else the house.
func (s *Sheet) Way(c *Cloth) lay.Mode {
	word := c.Order.Laid.Value
	if word == "" {
		word = s.Tables.House.Laid
	}
	m, _ := lay.ModeNamed(word)
	return m
}

// pieceCount is how many pieces are cut of a cloth.
func (s *Sheet) pieceCount(c *Cloth) (n int64) {
	for _, k := range c.cuts {
		n += k.piece.Count.Value.N * s.Items[k.item].Quantity
	}
	return n
}

// lays are how long lays are, by mode, by everything that they depend on, so that a trial
// which changes nothing of them finds them as they were, and no rule searches again.
type lays map[string][]length.Length

// laid is how long the lays of pieces on a cloth are, by mode up to one; nil where they can't
// be laid. Lays that were searched for in other than the usual steps are not kept.
func (s *Sheet) laid(c *Cloth, pieces []lay.Piece, o lay.Options) []length.Length {
	on := c.LaidOn()
	key := fmt.Sprint(o.Mode, *on, pieces)
	if known, ok := s.lays[key]; ok {
		return known
	}
	list, err := lay.All(context.Background(), on, pieces, o)
	if err != nil {
		return nil
	}
	lengths := make([]length.Length, len(list))
	for i, l := range list {
		lengths[i] = l.Length
	}
	if o.Steps == 0 {
		if s.lays == nil {
			s.lays = lays{}
		}
		s.lays[key] = lengths
	}
	return lengths
}

// saves is what a way of cutting saves over rows, on a bolt without an end; nothing where
// no lay is found that does, or there are too many pieces to lay.
func (w *worker) saves(c *Cloth, mode lay.Mode) length.Length {
	if mode == lay.Rows || w.pieceCount(c) > mostLaid {
		return 0
	}
	pieces, _ := w.toLay(c)
	o := lay.Options{Mode: mode}
	if w.trial != nil && w.trial.Base != nil {
		o.Steps = lay.Glance
	}
	lengths := w.laid(c, pieces, o)
	if lengths == nil {
		return 0
	}
	return lengths[lay.Rows] - lengths[mode]
}

// A Closer is a way of cutting a cloth that takes less of it than rows right across.
type Closer struct {
	Way   lay.Mode
	ToBuy length.Length
}

// Closer finds the ways of cutting, the strictest first, that need at least a selling step
// and a tenth less of a cloth than the rows that are bought for, each a step less than the
// one before it. There may be some that are not found. It says nothing where the order or
// the house has chosen another way than rows, where bolts or flaws are stated, which
// cutting has to keep to, or where a size that it is worked from may be wrong.
func (s *Sheet) Closer(c *Cloth) (list []Closer) {
	step := s.soldBy(c)
	if c.ToBuy == nil || c.unread || step <= 0 || c.Order.Laid.Set || s.Way(c) != lay.Rows || len(c.Order.Bolts) > 0 || len(s.Rolls(c)) > 0 || s.pieceCount(c) > mostCloser || s.unsettled(c) || s.Nothing(c) != nil {
		return nil
	}
	rows, start := c.Needed.Value.Length(), s.Start(c)
	buy := func(l length.Length) length.Length { return step.Mul(length.CeilDiv(l, step)) }
	worth := min(buy(rows)-step, buy(rows)-buy(rows)/10) // what it has to come down to
	if buy(start+c.leastByArea()) > worth {
		return nil
	}
	pieces, _ := s.ToLay(c)
	on := c.LaidOn()
	least := buy(start + lay.Bound(on, pieces))
	raise := func(mode lay.Mode) {
		for least <= worth && !lay.Fits(on, pieces, mode, least-start) {
			least += step
		}
	}
	if raise(lay.Free); least > worth {
		return nil
	}
	// Where a short search saves nothing, no more is spent on it, and what no lay is bought
	// less for needs no shorter one.
	o := lay.Options{Mode: lay.Free, Steps: firstSteps, Enough: least - start}
	all, err := lay.All(context.Background(), on, pieces, o)
	if err != nil || buy(start+all[lay.Free].Length) > worth {
		return nil
	}
	free := least
	for _, mode := range lay.Modes()[lay.Guillotine:] {
		if least = free; mode == lay.Guillotine && buy(start+all[mode].Length) > least {
			raise(mode)
		}
		l := all[mode]
		if least <= worth && buy(start+l.Length) > least {
			if l, err = lay.Make(context.Background(), on, pieces, lay.Options{Mode: mode, Enough: least - start}); err != nil {
				return nil
			}
		}
		if is := (Closer{mode, buy(start + l.Length)}); is.ToBuy <= worth {
			worth, list = is.ToBuy-1, append(list, is)
		}
	}
	return list
}

// unsettled reports whether an item that is cut of a cloth has a choice that may be
// misread, or values that can be made to agree in several ways.
func (s *Sheet) unsettled(c *Cloth) bool {
	for _, item := range c.Items() {
		for i := range s.Misread {
			if m := &s.Misread[i]; m.Items == nil || slices.Contains(m.Items, item) {
				return true
			}
		}
		for _, d := range s.Disagreements {
			for _, r := range d.Readings {
				for _, w := range r.Writes {
					if slices.Contains(w.Items, item) || w.Quantity != nil && w.Quantity.Item == item {
						return true
					}
				}
			}
		}
	}
	return false
}

// leastByArea is the area of the cuts over the width of the cloth, down to a whole
// micrometre for each size.
func (c *Cloth) leastByArea() (sum length.Length) {
	for _, k := range c.cuts {
		if n, ok := length.MulDiv(int64(k.along.Mul(k.count)), int64(k.piece.Width.Value.Length()), int64(c.Lays()), length.Down); ok {
			sum += length.Length(n)
		}
	}
	return sum
}

// EdgeToEdge is what the cuts of a cloth take where each goes from edge to edge of what is
// left, and not right across the bolt; 0 where that is not known. It is searched for, and
// there may be a shorter lay. Of bolts that are stated, or have flaws, it knows nothing.
func (s *Sheet) EdgeToEdge(c *Cloth) length.Length {
	if s.Way(c) != lay.Rows || c.TooWide != nil || len(c.Order.Bolts) > 0 || len(s.Rolls(c)) > 0 || s.pieceCount(c) > mostCloser {
		return 0
	}
	pieces, _ := s.ToLay(c)
	if len(pieces) == 0 {
		return 0
	}
	lengths := s.laid(c, pieces, lay.Options{Mode: lay.Guillotine})
	if lengths == nil {
		return 0
	}
	return lengths[lay.Guillotine] + s.Start(c)
}

// Suffices is what the cuts of a cloth take from edge to edge of what is left, where the
// order has enough for that, though too little for rows; 0 where it has not.
func (s *Sheet) Suffices(w *Wrong) length.Length {
	if c := s.Cloth(w.Quantity.Of); c != nil {
		return s.sufficesFor(c, w.Stated.Length())
	}
	return 0
}

// sufficesFor is Suffices of a cloth of which there is so much.
func (s *Sheet) sufficesFor(c *Cloth, ordered length.Length) length.Length {
	if l := s.EdgeToEdge(c); l <= ordered {
		return l
	}
	return 0
}
