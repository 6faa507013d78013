package worksheet

import (
	"context"

	"cutgate/internal/lay"
	"cutgate/internal/length"
)

// A Stock is what the bolts at hand give of what an order takes of a cloth. It
// says only what no laying of the cuts could mend.
type Stock struct {
	Longest length.Length // bolt
	Total   length.Length // of all bolts
	TooLong *Piece        // a piece longer than every bolt; nil where there is none
	RunsOut bool          // the bolts together don't give the cuts, none too long for them
	Mixed   []int         // items whose cuts no one lot gives, though the bolts together do
}

// A Detour is how a lay runs around the flaws that were found on a bolt.
type Detour struct {
	Reach length.Length // how far along the bolt the cuts then go
	Short bool          // between the flaws there is not room for the cuts, though the bolt is long enough
}

// A bolt is one roll, as stated; a single one as measured at the bench.
type bolt struct {
	lot    string
	length length.Length
}

func (w *worker) bolts(c *Cloth) []bolt {
	list := make([]bolt, 0, len(c.Order.Bolts))
	for i := range c.Order.Bolts {
		if b := &c.Order.Bolts[i]; b.Length.Set {
			list = append(list, bolt{b.Lot.Value, b.Length.Value})
		}
	}
	if len(list) < len(c.Order.Bolts) {
		return nil // one of them could not be read
	}
	if m := w.measured(c.Name); m != nil && m.Length.Set {
		switch len(list) {
		case 0:
			return append(list, bolt{length: m.Length.Value})
		case 1:
			list[0].length = m.Length.Value
		}
	}
	return list
}

// stock works out what the bolts at hand give of the rows of a lay.
func (w *worker) stock(c *Cloth, rows []lay.Row) {
	bolts := w.bolts(c)
	if len(bolts) == 0 {
		return
	}
	s := new(Stock)
	all := make([]length.Length, len(bolts))
	for i, b := range bolts {
		all[i] = b.length
		s.Longest = max(s.Longest, b.length)
		s.Total += b.length
	}
	c.Stock = s
	for _, k := range c.cuts {
		if k.along > s.Longest {
			s.TooLong = k.piece
			return
		}
	}
	room := lay.Room
	if w.Way(c) != lay.Rows {
		room = w.areaRoom(c)
	}
	if s.RunsOut = !room(all, rows); !s.RunsOut {
		s.Mixed = w.mixed(c, bolts, room)
	}
}

// areaRoom is [lay.Room] where cloth is not cut in rows: the pieces of the rows may lie in
// any way, so that only more of them than there is cloth speaks against it.
func (w *worker) areaRoom(c *Cloth) func([]length.Length, []lay.Row) bool {
	on := &lay.Cloth{Width: c.Lays(), Repeat: c.Repeat}
	return func(bolts []length.Length, rows []lay.Row) bool {
		var pieces []lay.Piece
		for _, r := range rows {
			for _, p := range r.Pieces {
				p.Count *= r.Count
				pieces = append(pieces, p)
			}
		}
		var gives length.Length
		for _, l := range bolts {
			gives += l
		}
		return lay.Bound(on, pieces) <= gives
	}
}

// mixed are the items whose cuts no one dye lot gives. A bolt without a lot may
// be of any.
func (w *worker) mixed(c *Cloth, bolts []bolt, room func([]length.Length, []lay.Row) bool) (items []int) {
	lots := map[string]bool{}
	for _, b := range bolts {
		if b.lot != "" {
			lots[b.lot] = true
		}
	}
	if len(lots) < 2 {
		return nil
	}
	for i := range w.Items {
		rows := w.rowsOf(c, i, false)
		if len(rows) == 0 {
			continue
		}
		fits := false
		for lot := range lots {
			var of []length.Length
			for _, b := range bolts {
				if b.lot == lot || b.lot == "" {
					of = append(of, b.length)
				}
			}
			fits = fits || room(of, rows)
		}
		if !fits {
			items = append(items, i)
		}
	}
	return items
}

// rowsOf is the lay of an item's cuts by themselves: of one of it, or of all.
func (w *worker) rowsOf(c *Cloth, item int, all bool) []lay.Row {
	mark := length.Step(w.Unit)
	var pieces []lay.Piece
	for _, k := range c.cuts {
		if k.item != item {
			continue
		}
		p := lay.Piece{Name: k.piece.Name, Width: k.piece.Width.Value.Length(), Length: k.along.Round(mark, length.Up), Count: k.piece.Count.Value.N}
		if all {
			p.Count = k.count
		}
		pieces = append(pieces, p)
	}
	plan, _ := lay.InRows(c.Lays(), pieces)
	return plan.Rows
}

// detour works out how the rows are laid around the flaws that the cutter found.
// Lead is cloth that is passed over before the first of them. Which of several
// bolts has the flaws is not known, and then nothing is said.
func (w *worker) detour(c *Cloth, rows []lay.Row, lead length.Length) {
	m := w.measured(c.Name)
	if m == nil || len(m.Flaws) == 0 || len(c.Order.Bolts) > 1 {
		return
	}
	end, known := length.Max, false
	if bolts := w.bolts(c); len(bolts) == 1 {
		end, known = bolts[0].length, true
	} else if c.Order.Ordered.Set {
		end, known = c.Order.Ordered.Value, true
	}
	clean := cleanOf(w, c, end)
	c.Detour = new(Detour)
	if way := w.Way(c); way != lay.Rows && w.pieceCount(c) <= mostLaid {
		pieces, _ := w.toLay(c)
		b := lay.Bolt{Length: end, Lead: min(w.Start(c), end)}
		for _, f := range w.Rolls(c)[0].Flaws {
			b.Flaws = append(b.Flaws, lay.Stretch{From: f.From, To: f.To})
		}
		if !known {
			b.Length = 0
		}
		all, err := lay.All(context.Background(), &lay.Cloth{Width: c.Lays(), Repeat: c.Repeat, Bolts: []lay.Bolt{b}}, pieces, lay.Options{Mode: way})
		if err == nil {
			c.Detour.Reach, c.Detour.Short = all[way].Reach[0], false
			if all[way].Left != nil {
				b.Flaws = nil
				whole, err := lay.All(context.Background(), &lay.Cloth{Width: c.Lays(), Repeat: c.Repeat, Bolts: []lay.Bolt{b}}, pieces, lay.Options{Mode: way})
				c.Detour.Reach, c.Detour.Short = end, err == nil && whole[way].Left == nil
			}
			return
		}
	}
	reach, all := lay.Around(clean, rows, lead)
	if c.Detour.Reach = reach; !all {
		c.Detour.Reach = end
	}
	if known {
		lengths := make([]length.Length, len(clean))
		for i, s := range clean {
			lengths[i] = s.To - s.From
		}
		c.Detour.Short = lay.Room([]length.Length{end}, rows) && !lay.Room(lengths, rows)
	}
}

// cleanOf are the stretches of a bolt between its flaws.
func cleanOf(w *worker, c *Cloth, end length.Length) []lay.Stretch {
	flaws := make([]lay.Stretch, 0, 4)
	for _, f := range w.measured(c.Name).Flaws {
		if f.From.Set && f.To.Set && f.From.Value != f.To.Value { // measured from either end
			flaws = append(flaws, lay.Stretch{From: min(f.From.Value, f.To.Value), To: max(f.From.Value, f.To.Value)})
		}
	}
	return lay.Between(flaws, end)
}
