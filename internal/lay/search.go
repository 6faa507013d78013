package lay

import (
	"cmp"
	"math/bits"
	"slices"
)

// A search looks for ever shorter lays of a problem on one run of stretches.
type search struct {
	*builder
	dice  dice
	stop  func() bool
	until int64 // looks

	bound  int64 // no lay is shorter
	enough int64 // one that is no longer will do
	order  []turn
	best   answer
	seen   []uint64 // by branch: what was tried in vain, by its hash
}

// An answer is a lay of all pieces, or of as many as found room.
type answer struct {
	puts     []put
	unplaced int64
	length   int64 // of cloth, over all bolts
	reach    int64 // how far the last stretch that is used is, along all stretches
}

// dice are numbers by chance that are the same everywhere for a seed.
type dice uint64

// roll is a number of 64 bits (splitmix64, Steele, Lea and Flood, 2014).
func (d *dice) roll() uint64 {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below is a number from 0 to n-1.
func (d *dice) below(n int) int {
	hi, _ := bits.Mul64(d.roll(), uint64(n))
	return int(hi)
}

// wait is about a time to wait for what happens every so often, in exact arithmetic:
// as often longer as shorter by as many halves.
func (d *dice) wait(mean int64) int64 {
	r := d.roll()
	halves := int64(bits.TrailingZeros64(r | 1<<40))
	// ln 2 = 0.693
	return mean * (halves<<10 + int64(r>>54)) / 1024 * 693 / 1000
}

// orders are the orders to begin with: long pieces first, wide ones, large ones.
func (b *builder) orders() (list [][]turn) {
	by := func(key func(k *kind) (int64, int64)) {
		order := make([]turn, len(b.kinds))
		for i := range order {
			order[i] = turn(i << 1)
		}
		slices.SortStableFunc(order, func(x, y turn) int {
			p, q := key(&b.kinds[x.kind()])
			r, s := key(&b.kinds[y.kind()])
			return cmp.Or(cmp.Compare(r, p), cmp.Compare(s, q))
		})
		list = append(list, order)
	}
	by(func(k *kind) (int64, int64) { return k.h, k.w })
	by(func(k *kind) (int64, int64) { return k.w, k.h })
	by(func(k *kind) (int64, int64) { return k.w * k.h, k.w })
	by(func(k *kind) (int64, int64) { return k.w + k.h, k.w })
	by(func(k *kind) (int64, int64) { return max(k.w, k.h), k.w })
	return list
}

// measure is what a lay comes to: on each bolt, as far as it goes.
func (s *search) measure(puts []put, unplaced int64) answer {
	a := answer{puts: puts, unplaced: unplaced}
	reach := make([]int64, len(s.stretches))
	for _, p := range puts {
		reach[p.stretch] = max(reach[p.stretch], p.y+s.kinds[p.kind].h)
	}
	begin := int64(0) // of the bolt at hand, along all
	for i, st := range s.stretches {
		if i == 0 || st.bolt != s.stretches[i-1].bolt {
			if i > 0 {
				begin += s.stretches[i-1].to - s.stretches[i-1].origin
			}
			far := int64(0)
			for j := i; j < len(s.stretches) && s.stretches[j].bolt == st.bolt; j++ {
				if reach[j] > 0 {
					far = reach[j] - st.origin
				}
			}
			if a.length += far; far > 0 {
				a.reach = begin + far
			}
		}
	}
	return a
}

// better reports whether a is better than b.
func (a *answer) better(b *answer) bool {
	return b.puts == nil || cmp.Or(cmp.Compare(a.unplaced, b.unplaced), cmp.Compare(a.length, b.length)) < 0
}

// keep takes the builder's lay, made by that order, where it is better than the best so far.
func (s *search) keep(order []turn, unplaced int64) bool {
	puts := make([]put, len(s.kept.steps))
	for i := range puts {
		puts[i] = s.kept.steps[i].put
	}
	return s.keepPuts(order, puts, unplaced)
}

// keepPuts is keep for a lay that is not the builder's.
func (s *search) keepPuts(order []turn, puts []put, unplaced int64) bool {
	a := s.measure(puts, unplaced)
	if !a.better(&s.best) {
		return false
	}
	s.best = a
	s.order = append(s.order[:0], order...)
	return true
}

// within are the stretches as far as a place along all of them.
func (s *search) within(end int64) (list []stretch) {
	begin := int64(0)
	for i, st := range s.stretches {
		if i > 0 && st.bolt != s.stretches[i-1].bolt {
			begin += s.stretches[i-1].to - s.stretches[i-1].origin
		}
		if st.to = min(st.to, end-begin+st.origin); st.to <= st.from {
			break
		}
		list = append(list, st)
	}
	return list
}

// over reports whether the search is to end.
func (s *search) over() bool { return s.looks >= s.until || s.settled() || s.stop() }

// settled reports whether the best lay can't be bettered, or will do.
func (s *search) settled() bool {
	return s.best.puts != nil && s.best.unplaced == 0 && s.best.length <= max(s.bound, s.enough)
}

// run searches until the effort is spent or a lay is found that settles it.
func (s *search) run() {
	starts := s.orders()
	for _, o := range starts {
		if u, _ := s.fill(o, s.stretches, 1<<60); s.keep(o, u) && s.settled() {
			return
		}
	}
	if len(s.kinds) == 0 {
		return
	}
	total := s.until - s.looks
	// Orders to try all ways by: wide pieces first, as the fewest places will do for them,
	// large ones, and that of the best lay.
	branches := [][]turn{starts[1], starts[2], nil}
	if s.pieces > few || s.edges || len(s.stretches) > 1 {
		branches = nil
	}
	sideways := !s.edges && s.repeat == 0 && len(s.stretches) == 1
	aside := false // try sideways next
	bolts := s.bolts()
	step := max(1, (s.best.length-s.bound)/4)
	for try := 0; !s.over(); try++ {
		s.plain = s.pieces <= few && (s.edges || len(s.stretches) > 1) && try%2 == 1
		if s.best.unplaced > 0 { // there is not cloth enough: lay as much as can be
			if s.anneal(s.order, s.stretches, total/8) {
				step = max(1, (s.best.length-s.bound)/4)
			}
			continue
		}
		step = min(step, s.best.length-s.bound)
		limited := s.within(s.best.reach - step)
		if len(bolts) > 1 && try%3 > 0 {
			if limited = s.elsewhere(step); limited == nil {
				s.looks++
				continue
			}
		}
		found := false
		for _, o := range starts {
			if u, ok := s.fill(o, limited, 0); ok && s.keep(o, u) {
				found = true
				break
			}
		}
		if !found {
			share := total / 60
			switch {
			case len(bolts) > 1:
				share = total / 100
			case step == 1:
				share = total / 16
			}
			if sideways && step == 1 && aside {
				found = s.sideways(limited[0], share)
			} else {
				found = s.anneal(s.order, limited, share)
			}
			aside = aside != (step == 1)
			if !found && step == 1 && len(branches) > 0 {
				order := branches[0]
				if order == nil {
					order = s.order
				}
				branches = branches[1:]
				found = s.branch(order, limited, total/max(4, s.pieces-10))
			}
		}
		if found {
			step *= 2
		} else {
			step = max(1, step/2)
		}
	}
}

// sideways is anneal with the cloth filled from one edge to the other, not from below: some
// lays are only found that way.
func (s *search) sideways(on stretch, looks int64) bool {
	p := *s.problem
	p.width = on.to - on.from
	p.kinds = slices.Clone(p.kinds)
	for i := range p.kinds {
		k := &p.kinds[i]
		k.w, k.h = k.h, k.w
	}
	side := &search{builder: newBuilder(&p), dice: s.dice, stop: s.stop, until: looks}
	found := side.anneal(s.order, []stretch{{to: s.width}}, looks)
	s.looks += side.looks
	s.dice = side.dice
	if !found {
		return false
	}
	for i := range side.best.puts {
		u := &side.best.puts[i]
		u.x, u.y = u.y, on.from+u.x
	}
	return s.keepPuts(side.order, side.best.puts, 0)
}

// elsewhere are stretches that are shorter by a step than what the best lay takes of each
// bolt, with what one gives up given to another by chance; nil where it can't be.
func (s *search) elsewhere(step int64) []stretch {
	bolts := s.bolts()
	ends := make([]int64, len(bolts)) // along each bolt
	room := make([]int64, len(bolts))
	at := make(map[int]int, len(bolts))
	for i, b := range bolts {
		at[b] = i
	}
	for _, st := range s.stretches {
		room[at[st.bolt]] = st.to - st.origin
	}
	for _, p := range s.best.puts {
		st := &s.stretches[p.stretch]
		ends[at[st.bolt]] = max(ends[at[st.bolt]], p.y+s.kinds[p.kind].h-st.origin)
	}
	from, to := s.dice.below(len(bolts)), s.dice.below(len(bolts))
	give := step
	if from != to {
		give += s.kinds[s.dice.below(len(s.kinds))].h * int64(s.dice.below(3))
	}
	if give = min(give, ends[from]); give < step {
		return nil
	}
	ends[from] -= give
	ends[to] = min(room[to], ends[to]+give-step)
	var list []stretch
	for _, st := range s.stretches {
		st.to = max(st.from, min(st.to, st.origin+ends[at[st.bolt]]))
		list = append(list, st)
	}
	return list
}

// anneal tries for a while to lay all on the stretches, by exchanging turns of an
// order.
func (s *search) anneal(from []turn, on []stretch, looks int64) bool {
	order := slices.Clone(from)
	n := len(order)
	now, _ := s.fill(order, on, 1<<60)
	begin := s.looks
	end := min(s.until, begin+looks)
	mean := s.area / s.pieces
	hot := max(1, mean/7)
	if s.edges {
		hot = max(1, mean/12)
	}
	for now > 0 && s.looks < end && !s.stop() {
		left := (end - s.looks) << 10 / (end - begin)
		heat := hot * left / 1024 * left / 1024
		i, j, move := s.dice.below(n), s.dice.below(n), s.dice.below(8)
		earlier, later := exchange(order, i, j, move)
		u, ok := s.refill(order, earlier, later, now+s.dice.wait(heat))
		if !ok {
			if move > 4 {
				i, j = j, i
			}
			exchange(order, i, j, move)
			continue
		}
		s.accept()
		if now = u; now < s.best.unplaced {
			s.keep(order, now)
		}
	}
	return now == 0 && s.keep(order, now)
}

// exchange turns one of an order's turns round, exchanges two of them, or takes one to
// another place, by the number of the move. It returns the kind that is earlier now and the
// one that is later, as [builder.refill] wants them.
func exchange(order []turn, i, j, move int) (earlier, later int32) {
	earlier, later = order[max(i, j)].kind(), order[min(i, j)].kind()
	switch {
	case move == 0:
		earlier, later = order[i].kind(), order[i].kind()
		order[i] ^= 1
	case move < 5 || i == j:
		order[i], order[j] = order[j], order[i]
	case i < j:
		earlier = -1
		shift(order, i, j)
	default:
		later = -1
		shift(order, i, j)
	}
	return earlier, later
}

// shift takes the turn at i out and puts it in at j.
func shift(order []turn, i, j int) {
	t := order[i]
	if i < j {
		copy(order[i:j], order[i+1:j+1])
	} else {
		copy(order[j+1:i+1], order[j:i])
	}
	order[j] = t
}
