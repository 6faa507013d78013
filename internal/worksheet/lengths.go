package worksheet

import (
	"context"

	"cutgate/internal/lay"
	"cutgate/internal/length"
)

// A Cutting is the pieces of one size that an item takes of a cloth, as they are laid.
type Cutting struct {
	Item    int
	Piece   *Piece
	Count   int64         // in one of the item
	Dropped int64         // of those, cut half a repeat further along than the others
	Width   length.Length // across the cloth
	Length  length.Length // along it, up to what can be marked
}

// Cuttings are the pieces that are cut of a cloth, item by item; nil where not all that is
// made of it is worked out, so that a lay of them would mislead.
func (s *Sheet) Cuttings(c *Cloth) (list []Cutting) {
	if c.Needed == nil {
		return nil
	}
	for _, k := range c.cuts {
		cut := Cutting{
			Item: k.item, Piece: k.piece, Count: k.piece.Count.Value.N,
			Width: k.across, Length: k.along.Round(length.Step(s.Unit), length.Up),
		}
		if c.dropped && k.widths > 1 {
			cut.Dropped = k.widths / 2 * (cut.Count / k.widths)
		}
		list = append(list, cut)
	}
	return list
}

// Laid is the cutting of one item as pieces to lay: those of a half drop that start half
// a repeat further on apart from the others.
func (k *Cutting) Laid(c *Cloth) (list []lay.Piece) {
	for _, part := range [2]struct {
		count  int64
		anchor length.Length
	}{{k.Count - k.Dropped, 0}, {k.Dropped, c.Repeat.Div(2, length.Up)}} {
		if part.count > 0 {
			list = append(list, lay.Piece{Name: k.Piece.Name, Width: k.Width, Length: k.Length, Count: part.count, Anchor: part.anchor,
				Matched: c.Repeat > 0 && k.Length%c.Repeat == 0})
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
// are stated, or one can't be read. Which of several has the flaws that were found is not
// known, and then none has.
func (s *Sheet) Rolls(c *Cloth) (list []Roll) {
	w := worker{Sheet: s}
	for _, b := range w.bolts(c) {
		list = append(list, Roll{Lot: b.lot, Length: b.length})
	}
	if m := s.measured(c.Name); m != nil && len(m.Flaws) > 0 && len(c.Order.Bolts) < 2 {
		if len(list) == 0 {
			list = append(list, Roll{})
		}
		for _, f := range m.Flaws {
			if f.From.Set && f.To.Set && f.From.Value != f.To.Value {
				list[0].Flaws = append(list[0].Flaws, Span{min(f.From.Value, f.To.Value), max(f.From.Value, f.To.Value)})
			}
		}
	}
	return list
}

// The most pieces that are laid, and how long is searched, to say what another way of
// cutting takes: a few milliseconds.
const (
	closePieces = 200
	closeSteps  = 2000
)

// EdgeToEdge is what the cuts of a cloth take where each goes from edge to edge of what is
// left, and not right across the bolt; 0 where that is not known. It is searched for, and
// there may be a shorter lay. Of bolts that are stated, or have flaws, it knows nothing.
func (s *Sheet) EdgeToEdge(c *Cloth) length.Length {
	if c.TooWide != nil || len(c.Order.Bolts) > 0 || len(s.Rolls(c)) > 0 {
		return 0
	}
	var pieces []lay.Piece
	all := int64(0)
	for _, k := range s.Cuttings(c) {
		for _, p := range k.Laid(c) {
			p.Count *= s.Items[k.Item].Quantity
			all += p.Count
			pieces = append(pieces, p)
		}
	}
	if all == 0 || all > closePieces {
		return 0
	}
	l, err := lay.Make(context.Background(), &lay.Cloth{Width: c.Lays(), Repeat: c.Repeat}, pieces, lay.Options{Mode: lay.Guillotine, Steps: closeSteps})
	if err != nil || l.Left != nil {
		return 0
	}
	return l.Length + s.Start(c)
}
