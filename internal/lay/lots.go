package lay

import (
	"cmp"
	"encoding/binary"
	"slices"
)

// allShares is up to how many ways to share items out among lots all are tried.
const allShares = 300

// manyItems is from how many items on they are laid on a lot several at a time.
const manyItems = 64

// parts shares the pieces out among the lots, each item whole. An item that no lot has
// room for is in no part.
func (m *maker) parts() []part {
	var lots []part
	byLot := map[string]int{}
	for i := range m.bolts {
		lot := m.bolts[i].Lot
		j, ok := byLot[lot]
		if !ok {
			j = len(lots)
			byLot[lot] = j
			lots = append(lots, part{})
		}
		lots[j].bolts = append(lots[j].bolts, i)
	}
	if len(lots) == 1 {
		for i := range m.pieces {
			lots[0].pieces = append(lots[0].pieces, i)
		}
		return lots
	}
	s := &sharing{maker: m, lots: lots}
	s.gather()
	s.known = map[string]laid{}
	return s.share()
}

// A sharing finds which lot each item is cut from.
type sharing struct {
	*maker
	lots  []part
	items []shared
	known map[string]laid // what came of a lot with some items
}

// A shared is the pieces of an item.
type shared struct {
	pieces []int
	area   int64 // of its pieces, in square micrometres
}

func (s *sharing) gather() {
	at := map[int]int{}
	for i := range s.pieces {
		p := &s.pieces[i]
		if p.Count == 0 {
			continue
		}
		j, ok := at[p.Item]
		if !ok {
			j = len(s.items)
			at[p.Item] = j
			s.items = append(s.items, shared{})
		}
		s.items[j].pieces = append(s.items[j].pieces, i)
		s.items[j].area += p.area() * p.Count
	}
	slices.SortStableFunc(s.items, func(a, b shared) int { return cmp.Compare(b.area, a.area) })
}

// of is the part of a lot with some items.
func (s *sharing) of(lot int, items []int) part {
	p := part{bolts: s.lots[lot].bolts}
	for _, i := range items {
		p.pieces = append(p.pieces, s.items[i].pieces...)
	}
	slices.Sort(p.pieces)
	return p
}

// on are the items that are on a lot.
func (s *sharing) on(lot int, on []int) (items []int) {
	for i, l := range on {
		if l == lot {
			items = append(items, i)
		}
	}
	return items
}

// try lays items on a lot without searching long.
func (s *sharing) try(lot int, items []int) laid {
	key := binary.AppendUvarint(nil, uint64(lot))
	for _, i := range items {
		key = binary.AppendUvarint(key, uint64(i))
	}
	if got, ok := s.known[string(key)]; ok {
		return got
	}
	p := s.of(lot, items)
	m := s.only(p.pieces)
	got := m.rows(p.bolts)
	if s.opts.Mode != Rows && s.across != 0 {
		effort := int64(0)
		if len(s.items) <= 8 {
			effort = 200_000
		}
		for _, o := range boltOrders(s.bolts, p.bolts) {
			if q := m.search(o, effort); q.better(&got) {
				got = q
			}
		}
	}
	s.searched(m)
	got.placed = nil
	s.known[string(key)] = got
	return got
}

// A tally is what comes of all lots.
type tally struct {
	laid
	lots []laid
}

// all is what comes of all lots, with the items that are on none.
func (s *sharing) all(on []int) (t tally) {
	for lot := range s.lots {
		got := s.try(lot, s.on(lot, on))
		t.lots = append(t.lots, got)
		t.add(&got, 1)
	}
	for i, l := range on {
		if l < 0 {
			t.left += s.items[i].area
		}
	}
	return t
}

// add adds what came of a lot, or takes it away again.
func (t *tally) add(got *laid, times int64) {
	if got.left > 0 {
		t.left += times << 55 // an item in parts is none
	}
	t.left += times * got.left
	t.length += got.length.Mul(times)
}

func (s *sharing) share() []part {
	on := make([]int, len(s.items))
	ways := 1
	for range s.items {
		if ways *= len(s.lots) + 1; ways > allShares {
			break
		}
	}
	if ways <= allShares {
		on = s.tryAll(on)
	} else {
		s.firstFit(on)
		s.exchange(on)
	}
	items := make([][]int, len(s.lots))
	for i, lot := range on {
		if lot >= 0 {
			items[lot] = append(items[lot], i)
		}
	}
	var list []part
	for lot := range s.lots {
		list = append(list, s.of(lot, items[lot]))
	}
	return list
}

func (s *sharing) tryAll(on []int) []int {
	best := slices.Clone(on)
	for i := range best {
		best[i] = -1
	}
	least := s.all(best)
	var walk func(i int)
	walk = func(i int) {
		if i == len(on) {
			if got := s.all(on); got.better(&least.laid) {
				least, best = got, slices.Clone(on)
			}
			return
		}
		for lot := -1; lot < len(s.lots); lot++ {
			on[i] = lot
			walk(i + 1)
		}
	}
	walk(0)
	return best
}

// firstFit puts each item, the largest first, on the first lot that has room for it. Of
// many items as many as have room are put on a lot at a time, and where one has none, those
// like it are not tried there.
func (s *sharing) firstFit(on []int) {
	rest := make([]int, len(on))
	for i := range on {
		on[i], rest[i] = -1, i
	}
	for lot := range s.lots {
		var items, left []int
		many, growing := 1, len(on) >= manyItems
		for len(rest) > 0 {
			many = min(many, len(rest))
			switch more := append(slices.Clip(items), rest[:many]...); {
			case s.try(lot, more).left == 0:
				items, rest = more, rest[many:]
				if growing {
					many *= 2
				} else {
					many = max(1, many/2)
				}
			case many > 1:
				many, growing = many/2, false
			default:
				n := 1
				for len(on) >= manyItems && n < len(rest) && s.same(rest[0], rest[n]) {
					n++
				}
				left, rest = append(left, rest[:n]...), rest[n:]
				growing = len(on) >= manyItems
			}
		}
		for _, i := range items {
			on[i] = lot
		}
		rest = left
	}
}

// onNone is the area of an item that is on no lot.
func (s *sharing) onNone(lot, item int) int64 {
	if lot < 0 {
		return s.items[item].area
	}
	return 0
}

// same reports whether two items are made of the same pieces.
func (s *sharing) same(i, j int) bool {
	return slices.EqualFunc(s.items[i].pieces, s.items[j].pieces, func(a, b int) bool {
		return s.pieces[a].Count == s.pieces[b].Count && s.pieces[a].alike(&s.pieces[b], s.cloth)
	})
}

// exchange moves items to other lots and exchanges them for a while.
func (s *sharing) exchange(on []int) {
	d := dice(s.opts.Seed + 1)
	least := s.all(on)
	tries := 200 * max(1, s.opts.Effort)
	for range tries {
		if s.ctx.Err() != nil {
			s.short = true
			return
		}
		i, j := d.below(len(on)), d.below(len(on))
		a, b := on[i], on[j]
		if a == b {
			on[i] = d.below(len(s.lots))
		} else {
			on[i], on[j] = b, a
		}
		got := tally{laid: least.laid, lots: slices.Clone(least.lots)}
		got.left += s.onNone(on[i], i) - s.onNone(a, i)
		if i != j {
			got.left += s.onNone(on[j], j) - s.onNone(b, j)
		}
		changed := []int{a, b, on[i], on[j]}
		slices.Sort(changed)
		for _, lot := range slices.Compact(changed) {
			if lot >= 0 {
				got.add(&got.lots[lot], -1)
				got.lots[lot] = s.try(lot, s.on(lot, on))
				got.add(&got.lots[lot], 1)
			}
		}
		if got.better(&least.laid) {
			least = got
			continue
		}
		on[j] = b
		on[i] = a
	}
}
