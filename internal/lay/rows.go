package lay

import (
	"cmp"
	"slices"
	"strconv"

	"cutgate/internal/length"
)

// A band is rows alike that are to be laid on stretches.
type band struct {
	Row
	pieces []int         // that the row's pieces are
	match  bool          // it starts at a place of the repeat
	anchor length.Length // that place
}

// A strip is a stretch with how far it is filled.
type strip struct {
	Stretch
	bolt int
	lead length.Length
	at   length.Length // where the next row may begin
	end  length.Length // of the last row; 0 for none
}

// exactRows is up to how many rows all ways to share them out are tried.
const exactRows = 14

// rows lays the pieces on bolts in rows, those that start at one place of the repeat before those that
// start at another, long ones first.
func (m *maker) rows(bolts []int) laid {
	bands := m.bands()
	var strips []strip
	for _, b := range bolts {
		for _, s := range m.stretches(b) {
			strips = append(strips, strip{Stretch: s, bolt: b, lead: m.bolts[b].Lead, at: s.From})
		}
	}
	var rows int64
	for i := range bands {
		rows += bands[i].Count
	}
	on := m.inOrder(bands, strips)
	if len(strips) > 1 && rows <= exactRows && len(strips) <= 8 {
		on = m.tryAll(bands, strips, on)
	}
	return m.layRows(bands, strips, on)
}

// bands are the rows of pieces, by the place where they start.
func (m *maker) bands() (bands []band) {
	type start struct {
		match  bool
		anchor length.Length
	}
	starts := map[start][]Piece{}
	for i := range m.pieces {
		p := m.pieces[i]
		if p.Count == 0 {
			continue
		}
		var at start
		if p.Matched && m.cloth.Repeat > 0 {
			at = start{true, length.Length(after(int64(p.Anchor), int64(m.cloth.Repeat)))}
		}
		if p.Width > m.cloth.Width { // it fits only turned
			p.Width, p.Length = p.Length, p.Width
		}
		p.Name = strconv.Itoa(i)
		starts[at] = append(starts[at], p)
	}
	var keys []start
	for k := range starts {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b start) int {
		return cmp.Or(cmp.Compare(boolInt(b.match), boolInt(a.match)), cmp.Compare(a.anchor, b.anchor))
	})
	for _, k := range keys {
		plan, _ := InRows(m.cloth.Width, starts[k])
		for _, r := range plan.Rows {
			b := band{Row: r, match: k.match, anchor: k.anchor}
			for _, p := range r.Pieces {
				i, _ := strconv.Atoi(p.Name)
				b.pieces = append(b.pieces, i)
			}
			bands = append(bands, b)
		}
	}
	return m.byTurns(bands)
}

// byTurns puts rows that end between two places of the repeat in such an order that each
// begins where the one before it ends, or as little further on as can be. Others stay as they are.
func (m *maker) byTurns(bands []band) []band {
	whole := func(b *band) bool { return b.Length%m.cloth.Repeat == 0 }
	if m.cloth.Repeat <= 0 || !slices.ContainsFunc(bands, func(b band) bool { return b.match && !whole(&b) }) {
		return bands
	}
	left := slices.Clone(bands)
	list := make([]band, 0, len(bands))
	at := length.Length(0) // after what is passed over
	for {
		pick, best := -1, int64(0)
		for i := range left {
			b := &left[i]
			if b.Count == 0 || !b.match {
				continue
			}
			gap := 2 * after(int64(b.anchor-at), int64(m.cloth.Repeat))
			if !whole(b) { // after those that end where they began
				gap++
			}
			if pick < 0 || gap < best {
				pick, best = i, gap
			}
		}
		if pick < 0 {
			break
		}
		b := left[pick]
		if !whole(&b) {
			b.Count = 1
		}
		left[pick].Count -= b.Count
		at += length.Length(after(int64(b.anchor-at), int64(m.cloth.Repeat))) + b.Length.Mul(b.Count)
		list = append(list, b)
	}
	for _, b := range left {
		if b.Count > 0 {
			list = append(list, b) // it starts anywhere
		}
	}
	return list
}

// start is where a row of a band begins that may not begin before at.
func (m *maker) start(b *band, s *strip) length.Length {
	if !b.match {
		return s.at
	}
	return s.at + length.Length(after(int64(s.lead+b.anchor-s.at), int64(m.cloth.Repeat)))
}

// inOrder fills one strip after the other, each with the rows in their order, and returns
// the strip of each row; -1 where it found no room.
func (m *maker) inOrder(bands []band, strips []strip) (on []int) {
	var groups []alike
	for i := range bands {
		b := &bands[i]
		if n := len(groups); n == 0 || !groups[n-1].like(b) {
			groups = append(groups, alike{band: b, next: len(on)})
		}
		for range b.Count {
			on = append(on, -1)
		}
		groups[len(groups)-1].end = len(on)
	}
	for j, s := range strips {
		for i := range groups {
			for g := &groups[i]; g.next < g.end; g.next++ {
				at := m.start(g.band, &s)
				if at+g.Length > s.To {
					break
				}
				on[g.next], s.at = j, at+g.Length
			}
		}
		groups = slices.DeleteFunc(groups, func(g alike) bool { return g.next == g.end })
	}
	return on
}

// An alike is rows one after the other that take the same of a strip.
type alike struct {
	*band
	next, end int // those that have found no strip yet
}

func (a *alike) like(b *band) bool {
	return a.Length == b.Length && a.match == b.match && a.anchor == b.anchor
}

// tryAll tries all ways to share rows out among strips, and returns the best, or on.
func (m *maker) tryAll(bands []band, strips []strip, on []int) []int {
	var of []int
	for i := range bands {
		for range bands[i].Count {
			of = append(of, i)
		}
	}
	strips = slices.Clone(strips)
	best := slices.Clone(on)
	least := m.layRows(bands, strips, on)
	try := make([]int, len(of))
	steps := 200_000
	var walk func(i int, left int64)
	walk = func(i int, left int64) {
		if steps--; steps < 0 || left > least.left {
			return
		}
		if i == len(of) {
			if got := (laid{left: left, length: cut(strips)}); got.better(&least) {
				least, best = got, slices.Clone(try)
			}
			return
		}
		b := &bands[of[i]]
		from := 0
		if i > 0 && of[i] == of[i-1] && try[i-1] >= 0 {
			from = try[i-1] // rows alike in order
		}
		for j := from; j < len(strips); j++ {
			was := strips[j]
			if at := m.start(b, &was); at+b.Length <= was.To {
				strips[j].at = at + b.Length
				strips[j].end = strips[j].at
				try[i] = j
				walk(i+1, left)
				strips[j] = was
			}
		}
		try[i] = -1
		walk(i+1, left+b.area())
	}
	walk(0, 0)
	return best
}

// area is that of the pieces of one row, in square micrometres.
func (b *band) area() (sum int64) {
	for i := range b.Row.Pieces {
		sum += b.Row.Pieces[i].area() * b.Row.Pieces[i].Count
	}
	return sum
}

// cut is how much cloth strips are filled with, bolt by bolt.
func cut(strips []strip) (sum length.Length) {
	done := -1 // the strips of a bolt stand one after the other
	for _, s := range slices.Backward(strips) {
		if s.end > 0 && s.bolt != done {
			sum += s.end - s.lead
			done = s.bolt
		}
	}
	return sum
}

// layRows lays the rows, each on its strip.
func (m *maker) layRows(bands []band, strips []strip, on []int) (got laid) {
	strips = slices.Clone(strips)
	row := 0
	for i := range bands {
		b := &bands[i]
		for range b.Count {
			j := on[row]
			row++
			if j < 0 {
				got.left += b.area()
				continue
			}
			s := &strips[j]
			at := m.start(b, s)
			x := length.Length(0)
			for k, p := range b.Row.Pieces {
				for range p.Count {
					got.placed = append(got.placed, Placed{
						Piece: b.pieces[k], Bolt: s.bolt, X: x, Y: at, Width: p.Width, Length: p.Length,
						Turned: p.Width != m.pieces[b.pieces[k]].Width || p.Length != m.pieces[b.pieces[k]].Length,
					})
					x += p.Width
				}
			}
			s.at = at + b.Length
			s.end = s.at
		}
	}
	got.length = cut(strips)
	return got
}
