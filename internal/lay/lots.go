package lay

import (
	"cmp"
	"slices"
)

// allShares is up to how many ways to share items out among lots all are tried.
const allShares = 300

// parts shares the pieces out among the lots, each item whole. An item that no lot has
// room for is in no part.
func (m *maker) parts(counts []int64) []part {
	var lots []part
	byLot := map[string]int{}
	for i := range m.bolts {
		lot := m.bolts[i].Lot
		j, ok := byLot[lot]
		if !ok {
			j = len(lots)
			byLot[lot] = j
			lots = append(lots, part{counts: make([]int64, len(counts))})
		}
		lots[j].bolts = append(lots[j].bolts, i)
	}
	if len(lots) == 1 {
		lots[0].counts = counts
		return lots
	}
	s := &sharing{maker: m, lots: lots}
	s.gather(counts)
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

func (s *sharing) gather(counts []int64) {
	at := map[int]int{}
	for i := range s.pieces {
		if counts[i] == 0 {
			continue
		}
		p := &s.pieces[i]
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

// of is the part of a lot with the items that are on it.
func (s *sharing) of(lot int, on []int) part {
	p := part{bolts: s.lots[lot].bolts, counts: make([]int64, len(s.pieces))}
	for i, l := range on {
		if l == lot {
			for _, j := range s.items[i].pieces {
				p.counts[j] = s.pieces[j].Count
			}
		}
	}
	return p
}

// try lays the items of a lot without searching long.
func (s *sharing) try(lot int, on []int) laid {
	key := make([]byte, 1, 1+len(on))
	key[0] = byte(lot)
	for _, l := range on {
		key = append(key, byte(boolInt(l == lot)))
	}
	if got, ok := s.known[string(key)]; ok {
		return got
	}
	p := s.of(lot, on)
	got := s.rows(p)
	if s.opts.Mode != Rows && s.across != 0 {
		effort := int64(0)
		if len(s.items) <= 8 {
			effort = 200_000
		}
		for _, o := range boltOrders(s.bolts, p.bolts) {
			if q := s.search(part{o, p.counts}, effort); q.better(&got) {
				got = q
			}
		}
	}
	got.placed = nil
	s.known[string(key)] = got
	return got
}

// all is what comes of all lots, with the items that are on none.
func (s *sharing) all(on []int) (sum laid) {
	for lot := range s.lots {
		got := s.try(lot, on)
		if got.left > 0 {
			sum.left += 1 << 55 // an item in parts is none
		}
		sum.left += got.left
		sum.length += got.length
	}
	for i, l := range on {
		if l < 0 {
			sum.left += s.items[i].area
		}
	}
	return sum
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
	var list []part
	for lot := range s.lots {
		list = append(list, s.of(lot, on))
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
			if got := s.all(on); got.better(&least) {
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

// firstFit puts each item, the largest first, on the first lot that has room for it.
func (s *sharing) firstFit(on []int) {
	for i := range on {
		on[i] = -1
	}
	for i := range on {
		for lot := range s.lots {
			on[i] = lot
			if s.try(lot, on).left == 0 {
				break
			}
			on[i] = -1
		}
	}
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
		if got := s.all(on); got.better(&least) {
			least = got
			continue
		}
		on[j] = b
		on[i] = a
	}
}
