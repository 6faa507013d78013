// Package spread takes the cuts of orders to the cutting table: what several orders cut
// of one cloth is spread and laid together, and it says what that saves.
//
// # Law
//
// What is cut, and how large, is the worksheet's to say. Nothing is worked out here but
// where pieces lie.
package spread

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"cutgate/internal/lay"
	"cutgate/internal/length"
	"cutgate/internal/worksheet"
)

// Options say how orders are spread.
type Options struct {
	// Mode is how the cloth is to be cut; nil for as its order or the house says.
	Mode   *lay.Mode
	Only   string   // the one cloth to lay, by its name or the order's word for it; "" for all
	Apart  bool     // each order by itself
	Turn   []string // pieces, by the form's words, that may be turned where the cloth allows
	Effort int64
	Seed   uint64
}

// mode is how a cloth is to be cut.
func (o *Options) mode(s *worksheet.Sheet, c *worksheet.Cloth) lay.Mode {
	if o.Mode != nil {
		return *o.Mode
	}
	return s.Way(c)
}

// A Spread is one cloth, and what orders cut of it.
type Spread struct {
	Cloth  string        // its name, or the word that the order has for it
	Width  length.Length // edge to edge; Stuff is what pieces are laid on
	Unit   length.Unit
	Orders []*worksheet.Sheet
	Stuff  lay.Cloth
	Start  length.Length // passed over at most at the beginning of each bolt, before the first motif
	Across length.Length // the repeat across; 0 where there is none
	Drop   bool          // the repeat is a half drop
	Pieces []lay.Piece
	Cuts   []Cut      // what each piece is
	Lays   []*lay.Lay // by mode
	Mode   lay.Mode   // that is asked for
	// Alone is what the orders take, in that mode, when each is laid by itself; 0 where
	// there is one, or where bolts are stated, which are not there for each.
	Alone    length.Length
	NotTurns string // why no piece of it may be turned; "" where one may
}

// A Cut says what a piece of a lay is for.
type Cut struct {
	Order int // of the spread's
	worksheet.Copy
}

// Called is what the piece is called: by the form's word, with its letter where every other
// one starts half a repeat on.
func (c *Cut) Called() string {
	if c.Drop == "" {
		return c.Name
	}
	return c.Name + " " + c.Drop
}

// Within says how the width is laid on, where that is not from edge to edge; "" otherwise.
func (sp *Spread) Within() string {
	if sp.Stuff.Width == sp.Width {
		return ""
	}
	return sp.Stuff.Width.Format(sp.Unit, length.Nearest) + " between the selvedges"
}

// Lay is the lay in the mode that is asked for.
func (sp *Spread) Lay() *lay.Lay { return sp.Lays[sp.Mode] }

// Size is how a piece is cut, across and along, rounded up as on the ticket, and what it
// takes of the cloth, which is more where a motif is set in its middle.
func (sp *Spread) Size(i int) (cut, takes string) {
	up := func(l length.Length) string { return l.Format(sp.Unit, length.Up) }
	p := &sp.Pieces[i]
	takes = up(p.Width) + " × " + up(p.Length)
	for j := range sp.Item(&sp.Cuts[i]).Pieces {
		c := &sp.Item(&sp.Cuts[i]).Pieces[j]
		if c.Name != sp.Cuts[i].Name || c.Width == nil || c.Length == nil {
			continue
		}
		wide, long := min(c.Width.Value.Length(), p.Width), min(max(c.Length.Value.Length(), sp.Item(&sp.Cuts[i]).SplitWidth(c)), p.Length)
		return up(wide) + " × " + up(long), takes
	}
	return takes, takes
}

// MatchedAcross reports whether pieces are matched across the cloth, of which the lay knows no place.
func (sp *Spread) MatchedAcross() bool {
	return slices.ContainsFunc(sp.Cuts, func(c Cut) bool { return c.Name == "side" && sp.Item(&c).Has("stripe stops") })
}

// Item is the item that a piece is for.
func (sp *Spread) Item(c *Cut) *worksheet.Item { return &sp.Orders[c.Order].Items[c.Item] }

// ItemName is what the item that a piece is for is called: its id, with its kind where an
// item of another kind has the same one; its kind where it has none. With that goes its
// number in the order where another item is called the same.
func (sp *Spread) ItemName(c *Cut) string {
	o := sp.Item(c).Order
	items := sp.Orders[c.Order].Items
	name, alike := cmp.Or(o.ID.Value, o.Kind.Value), false
	for i := range items {
		other := items[i].Order
		if other == o || other.ID.Value != o.ID.Value {
			continue
		}
		if other.Kind.Value == o.Kind.Value {
			alike = true
		} else if o.ID.Value != "" {
			name = o.ID.Value + " " + o.Kind.Value
		}
	}
	if alike {
		return fmt.Sprintf("item %d, %s", c.Item+1, name)
	}
	return name
}

// A Left is a cloth that could not be laid, and why.
type Left struct {
	Order *worksheet.Sheet
	Cloth string
	Why   string
}

// Of spreads the cuts of orders. When ctx is done, the best lays so far are given.
func Of(ctx context.Context, sheets []*worksheet.Sheet, o Options) (spreads []*Spread, left []Left, err error) {
	byKey := map[string]*Spread{}
	for i, s := range sheets {
		for j := range s.Cloths {
			c := &s.Cloths[j]
			none := s.Nothing(c)
			if len(c.Items()) == 0 && none == nil || o.Only != "" && !strings.EqualFold(o.Only, name(c)) && o.Only != c.Name {
				continue
			}
			pieces, of := s.ToLay(c)
			switch {
			case c.TooWide != nil:
				left = append(left, Left{s, name(c), fmt.Sprintf("the %s is wider than the cloth", c.TooWide.Name)})
				continue
			case none != nil:
				left = append(left, Left{s, name(c), "the " + none.NothingIn()})
				continue
			case len(pieces) == 0:
				left = append(left, Left{s, name(c), "not everything cut from it could be worked out"})
				continue
			}
			key := key(s, c, o.mode(s, c))
			if o.Apart || !s.Tables.House.LayTogether {
				key = fmt.Sprint(i, "\n", key)
			}
			sp := byKey[key]
			if sp == nil {
				sp = begin(s, c, o)
				byKey[key] = sp
				spreads = append(spreads, sp)
			}
			sp.Stuff.Width = max(sp.Stuff.Width, c.Lays())
			sp.add(s, pieces, of, o)
		}
	}
	for _, sp := range spreads {
		if err := sp.lay(ctx, o); err != nil {
			return nil, nil, err
		}
	}
	return spreads, left, nil
}

// name is what people call a cloth.
func name(c *worksheet.Cloth) string {
	if n := c.Order.Name.Value; n != "" {
		return n
	}
	return c.Name
}

// key is the same for cloths of two orders that are one: by its name, and everything
// that it is laid by. Which bolts there are goes into it, as those of two orders that
// state different ones may be the same or not.
func key(s *worksheet.Sheet, c *worksheet.Cloth, mode lay.Mode) string {
	along, across := c.Shrinks()
	return fmt.Sprintln(strings.ToLower(strings.Join(strings.Fields(name(c)), " ")), c.Width, c.Repeat, c.Across, c.Order.Repeat.Match.Value,
		c.Order.Nap.Value, c.Order.EdgeStripe.Value, along, across, s.Start(c), s.Rolls(c), mode)
}

// begin begins the spread of a cloth.
func begin(s *worksheet.Sheet, c *worksheet.Cloth, o Options) *Spread {
	sp := &Spread{
		Cloth: name(c), Unit: s.Unit, Mode: o.mode(s, c), Start: s.Start(c), Across: c.Across, Drop: c.Order.Repeat.Match.Value == "half drop",
		Width: c.Width, Stuff: *c.LaidOn(),
	}
	sp.NotTurns = notTurned(c)
	sp.Stuff.Directed = sp.NotTurns != ""
	for _, r := range s.Rolls(c) {
		b := lay.Bolt{Lot: r.Lot, Length: r.Length, Lead: sp.Start}
		for _, f := range r.Flaws {
			b.Flaws = append(b.Flaws, lay.Stretch{From: f.From, To: f.To})
		}
		sp.Stuff.Bolts = append(sp.Stuff.Bolts, b)
	}
	return sp
}

// OneWay is why no piece may be turned where the nap says so.
const OneWay = "its nap runs one way"

// notTurned says why no piece of a cloth may be turned; "" where one may.
func notTurned(c *worksheet.Cloth) string {
	along, across := c.Shrinks()
	switch {
	case c.Order.Nap.Value == "one way":
		return OneWay
	case c.Order.Nap.Value == "":
		return "the order does not say that the cloth has no nap"
	case c.Repeat > 0 || c.Across > 0:
		return "it has a pattern"
	case c.Order.EdgeStripe.Value:
		return "it has a stripe at the edge"
	case along.Cmp(across) != 0:
		return "it shrinks more one way than the other"
	}
	return ""
}

// add adds the cuts of an order.
func (sp *Spread) add(s *worksheet.Sheet, pieces []lay.Piece, of []worksheet.Copy, o Options) {
	if len(sp.Orders) == 0 || sp.Orders[len(sp.Orders)-1] != s {
		sp.Orders = append(sp.Orders, s)
	}
	order, before := len(sp.Orders)-1, 0
	if len(sp.Pieces) > 0 {
		before = slices.MaxFunc(sp.Pieces, func(a, b lay.Piece) int { return a.Item - b.Item }).Item + 1
	}
	for i, p := range pieces {
		p.Item += before
		p.Turns = slices.Contains(o.Turn, p.Name)
		sp.Pieces, sp.Cuts = append(sp.Pieces, p), append(sp.Cuts, Cut{order, of[i]})
	}
}

// lay lays the pieces in every mode, and each order by itself to compare.
func (sp *Spread) lay(ctx context.Context, o Options) (err error) {
	sp.Lays, err = lay.All(ctx, &sp.Stuff, sp.Pieces, lay.Options{Mode: lay.Free, Effort: o.Effort, Seed: o.Seed})
	var wide *lay.WideError
	switch {
	case errors.As(err, &wide):
		return fmt.Errorf("laying %s: the %s is wider than the cloth", sp.Cloth, sp.Pieces[wide.Piece].Name)
	case err != nil:
		return fmt.Errorf("laying %s: %w", sp.Cloth, err)
	}
	if len(sp.Orders) < 2 || len(sp.Stuff.Bolts) > 0 {
		return nil
	}
	for i := range sp.Orders {
		var pieces []lay.Piece
		for j, c := range sp.Cuts {
			if c.Order == i {
				pieces = append(pieces, sp.Pieces[j])
			}
		}
		all, err := lay.All(ctx, &sp.Stuff, pieces, lay.Options{Mode: sp.Mode, Effort: o.Effort, Seed: o.Seed})
		if err != nil {
			return fmt.Errorf("laying %s of one order: %w", sp.Cloth, err)
		}
		sp.Alone += all[sp.Mode].Length
	}
	return nil
}
