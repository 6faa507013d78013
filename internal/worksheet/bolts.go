package worksheet

import (
	"cmp"
	"context"
	"slices"

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
	Reach   []length.Length // how far along each bolt the cuts then go; to its end where they don't all fit
	Short   bool            // between the flaws there is not room for the cuts, though the bolts are long enough
	Beyond  length.Length   // what is ordered, where the cuts would fit on it but for the flaws, and go further; 0 otherwise
	NoWhole bool            // the cuts don't fit on the bolts without their flaws either, as far as is found
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
	if m := w.Measured(c.Name); m != nil && m.Length.Set {
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
	on := c.LaidOn()
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
// be of any. room is no smaller for longer bolts.
func (w *worker) mixed(c *Cloth, bolts []bolt, room func([]length.Length, []lay.Row) bool) (items []int) {
	lots := map[string][]length.Length{}
	for _, b := range bolts {
		lots[b.lot] = append(lots[b.lot], b.length)
	}
	anyLot := lots[""]
	delete(lots, "")
	if len(lots) < 2 {
		return nil
	}
	most := mostOf(lots)
	for _, i := range c.Items() {
		rows := w.rowsOf(c, i, false)
		if len(rows) > 0 && !slices.ContainsFunc(most, func(of []length.Length) bool { return room(slices.Concat(of, anyLot), rows) }) {
			items = append(items, i)
		}
	}
	return items
}

// mostOf are the bolts of the lots, each the longest first, without the lots that give
// nothing which another one does not.
func mostOf(lots map[string][]length.Length) (most [][]length.Length) {
	falling := func(a, b length.Length) int { return cmp.Compare(b, a) }
	var all [][]length.Length
	for _, of := range lots {
		slices.SortFunc(of, falling)
		all = append(all, of)
	}
	slices.SortFunc(all, func(a, b []length.Length) int { return slices.Compare(b, a) })
	for _, of := range all {
		less := func(than []length.Length) bool {
			for i, l := range of {
				if i == len(than) || than[i] < l {
					return false
				}
			}
			return true
		}
		if !slices.ContainsFunc(most, less) {
			most = append(most, of)
		}
	}
	return most
}

// rowsOf is the lay of an item's cuts by themselves: of one of it, or of all.
func (w *worker) rowsOf(c *Cloth, item int, all bool) []lay.Row {
	var pieces []lay.Piece
	cuts := c.cutsFor(item)
	for i := range cuts {
		k := &cuts[i]
		wide, long := w.laidAs(c, k)
		p := lay.Piece{Name: k.piece.Name, Width: wide, Length: long, Count: k.piece.Count.Value.N}
		if all {
			p.Count = k.count
		}
		pieces = append(pieces, p)
	}
	plan, _ := lay.InRows(c.Lays(), pieces)
	return plan.Rows
}

// detour works out how the cuts are laid around the flaws that the cutter found. Rows on
// one bolt are laid one after the other; lead is cloth that is passed over before the
// first of them.
func (w *worker) detour(c *Cloth, rows []lay.Row, lead length.Length) {
	m := w.Measured(c.Name)
	if m == nil || len(m.Flaws) == 0 {
		return
	}
	rolls := w.Rolls(c)
	if len(c.Order.Bolts) > 1 && !slices.ContainsFunc(rolls, func(r Roll) bool { return len(r.Flaws) > 0 }) {
		return // which of them has the flaws is not known
	}
	if way := w.Way(c); w.pieceCount(c) <= mostLaid {
		w.layAround(c, way, rolls)
	} else if way == lay.Rows && len(rolls) == 1 {
		w.manyAround(c, rolls[0], rows, lead)
	}
}

// layAround searches for a lay around flaws, the one that is shown. The cuts are said not to
// fit where a lay of them is found on bolts without flaws, and none on those with them.
func (w *worker) layAround(c *Cloth, way lay.Mode, rolls []Roll) {
	pieces, _ := w.toLay(c)
	l := w.laidOn(c, way, pieces, rolls)
	if l == nil {
		return
	}
	d := &Detour{Reach: l.Reach}
	c.Detour = d
	ordered := c.Order.Ordered.Value
	beyond := len(rolls) == 1 && rolls[0].Length == 0 && c.Order.Ordered.Set && l.Reach[0] > ordered
	if l.Left == nil && !beyond {
		return
	}
	whole := w.laidOn(c, way, pieces, sound(rolls))
	switch {
	case whole == nil:
	case beyond && whole.Reach[0] <= ordered:
		d.Beyond = ordered
	case l.Left != nil:
		d.Short, d.NoWhole = whole.Left == nil, whole.Left != nil
		for i, r := range rolls {
			d.Reach[i] = r.Length
		}
	}
}

// manyAround lays more rows than are searched for around the flaws of the only roll, one
// after the other.
func (w *worker) manyAround(c *Cloth, r Roll, rows []lay.Row, lead length.Length) {
	end, known := r.Length, r.Length > 0
	if !known {
		end = length.Max
	}
	clean := lay.Between(flawsOf(r), end)
	reach, all := lay.Around(clean, rows, lead)
	if !all {
		reach = end
	}
	c.Detour = &Detour{Reach: []length.Length{reach}}
	if known && !all {
		lengths := make([]length.Length, len(clean))
		for i, s := range clean {
			lengths[i] = s.To - s.From
		}
		whole := lay.Room([]length.Length{end}, rows)
		c.Detour.Short, c.Detour.NoWhole = whole && !lay.Room(lengths, rows), !whole
	}
}

// laidOn lays pieces on rolls; nil where one is wider than the cloth.
func (s *Sheet) laidOn(c *Cloth, way lay.Mode, pieces []lay.Piece, rolls []Roll) *lay.Lay {
	on := c.LaidOn()
	for _, r := range rolls {
		on.Bolts = append(on.Bolts, lay.Bolt{Lot: r.Lot, Length: r.Length, Lead: s.Start(c), Flaws: flawsOf(r)})
	}
	all, err := lay.All(context.Background(), on, pieces, lay.Options{Mode: way})
	if err != nil {
		return nil
	}
	return all[way]
}

// sound are rolls without their flaws.
func sound(rolls []Roll) []Roll {
	list := slices.Clone(rolls)
	for i := range list {
		list[i].Flaws = nil
	}
	return list
}

// A Cutting is what is cut of a cloth where the order is laid by itself on the rolls that it
// states, around their flaws.
type Cutting struct {
	Length  length.Length // of the rolls, from their beginnings
	Flaws   int           // that were found on them
	Sources []Source      // roll by roll, what is cut from each of several; nil for one
}

// A Source is a roll that an item is cut from, from 0 on.
type Source struct{ Roll, Item int }

// CutFrom is what is cut from the rolls of a cloth, as they are laid. It reports false where
// none is stated and no flaw, or they don't hold the cuts.
func (s *Sheet) CutFrom(c *Cloth) (cut Cutting, ok bool) {
	rolls := s.Rolls(c)
	if len(rolls) == 0 || c.Needed == nil || s.pieceCount(c) > mostLaid {
		return cut, false
	}
	pieces, of := s.ToLay(c)
	if len(pieces) == 0 {
		return cut, false
	}
	l := s.laidOn(c, s.Way(c), pieces, rolls)
	if l == nil || l.Left != nil {
		return cut, false
	}
	for i, r := range rolls {
		cut.Length += l.Reach[i]
		cut.Flaws += len(r.Flaws)
	}
	if len(rolls) < 2 || s.pieceCount(c) > mostCloser {
		return cut, true
	}
	for _, p := range l.Pieces {
		if is := (Source{p.Bolt, of[p.Piece].Item}); !slices.Contains(cut.Sources, is) {
			cut.Sources = append(cut.Sources, is)
		}
	}
	slices.SortFunc(cut.Sources, func(a, b Source) int { return cmp.Or(a.Roll-b.Roll, a.Item-b.Item) })
	return cut, true
}

func flawsOf(r Roll) (list []lay.Stretch) {
	for _, f := range r.Flaws {
		list = append(list, lay.Stretch{From: f.From, To: f.To})
	}
	return list
}
