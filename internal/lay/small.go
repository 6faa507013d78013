package lay

import (
	"math/bits"

	"cutgate/internal/length"
)

// few is up to how many pieces all ways to lay them are tried one by one.
const few = 25

// mostCells is up to how many different widths those that pieces make up are noted of.
const mostCells = 1 << 12

// branch tries one way after the other to lay all pieces on a stretch, until one does or
// the effort is spent. At the lowest place it lays each kind at either wall, or none, the
// first of the order first.
func (s *search) branch(order []turn, on []stretch, looks int64) bool {
	t := &brancher{search: s, on: on[0], end: min(s.until, s.looks+looks), order: order, pads: make([]int64, len(s.anchors)+1)}
	t.left = append(t.left, s.count...)
	t.measure()
	most := bits.Len64(uint64(max(1, min(looks/int64(len(t.order)), 1<<18-1)))) // a place is tried at that cost at least
	t.shift = 64 - most
	if len(s.seen) < 1<<most {
		s.seen = make([]uint64, 1<<most)
	} else {
		clear(s.seen[:1<<most])
	}
	spare := s.width*(t.on.to-t.on.from) - s.area
	if spare < 0 || !t.lay([]segment{{0, t.on.from, s.width}}, spare, int(s.pieces)) {
		return false
	}
	return s.keepPuts(order, t.puts, 0)
}

type brancher struct {
	*search
	on    stretch
	end   int64
	order []turn
	left  []int32
	pads  []int64
	puts  []put
	free  [][]segment // to use again
	unit  int64       // that all widths of pieces are so many of
	sums  []uint64    // the widths that pieces side by side make up: a bit for each, in units; none where there are too many
	shift int         // of a hash to its place among those seen
}

// lay lays what is left of the pieces above a skyline, and reports whether it did.
func (t *brancher) lay(segs []segment, spare int64, pieces int) bool {
	if pieces == 0 {
		return true
	}
	if t.looks >= t.end || t.stop() {
		return false
	}
	i := 0
	for j := range segs {
		if segs[j].y < segs[i].y {
			i = j
		}
	}
	g := segs[i]
	room := t.on.to - g.y
	if room <= 0 {
		return false
	}
	if t.wasted(segs) > spare || t.tried(segs) {
		return false
	}
	t.looks += 4 * int64(len(t.order))
	for exact := range 2 { // what is as wide as the place first
		for _, o := range t.order {
			n := o.kind()
			k := &t.kinds[n]
			if t.left[k.stock] == 0 || k.w > g.w || (k.w == g.w) != (exact == 0) {
				continue
			}
			pad := int64(0)
			if k.class > 0 {
				pad = after(t.on.origin+t.anchors[k.class-1]-g.y, t.repeat)
			}
			if pad+k.h > room || pad*k.w > spare {
				continue
			}
			t.left[k.stock]--
			for side := range 2 {
				if side > 0 && (k.w == g.w || len(t.puts) == 0) { // the other would be its mirror image
					break
				}
				x := g.x + int64(side)*(g.w-k.w)
				t.puts = append(t.puts, put{n, 0, x, g.y + pad})
				next := t.with(segs, i, segment{x, g.y + pad + k.h, k.w})
				if t.lay(next, spare-pad*k.w, pieces-1) {
					return true
				}
				t.free = append(t.free, next)
				t.puts = t.puts[:len(t.puts)-1]
			}
			t.left[k.stock]++
		}
	}
	up := room
	if i > 0 {
		up = min(up, segs[i-1].y-g.y)
	}
	if i+1 < len(segs) {
		up = min(up, segs[i+1].y-g.y)
	}
	if up*g.w > spare {
		return false
	}
	next := t.with(segs, i, segment{g.x, g.y + up, g.w})
	if t.lay(next, spare-up*g.w, pieces) {
		return true
	}
	t.free = append(t.free, next)
	return false
}

// wasted is area above a skyline that no piece can lie on: as far up as its walls go, each
// dip is only as full as widths of what is left, side by side, make it; and so is the cloth
// above the highest place.
func (t *brancher) wasted(segs []segment) (sum int64) {
	if t.sums == nil {
		return 0
	}
	t.addUp()
	high := int64(0)
	for i, s := range segs {
		up := t.on.to
		if i > 0 {
			up = min(up, segs[i-1].y)
		}
		if i+1 < len(segs) {
			up = min(up, segs[i+1].y)
		}
		if len(segs) > 1 && up > s.y {
			sum += (s.w - t.fullest(s.w)) * (up - s.y)
		}
		high = max(high, s.y)
	}
	return sum + (t.width-t.fullest(t.width))*max(0, t.on.to-high)
}

// measure finds the unit of widths, and makes room for those that pieces make up.
func (t *brancher) measure() {
	for i := range t.kinds {
		t.unit = length.GCD(t.unit, t.kinds[i].w)
	}
	if cells := t.width / t.unit; cells < mostCells {
		t.sums = make([]uint64, cells/64+1)
	}
}

// addUp finds the widths that pieces that are left make up side by side.
func (t *brancher) addUp() {
	clear(t.sums)
	t.sums[0] = 1
	reach, most := int64(0), t.width/t.unit // the widest so far, and of all
	for i := range t.kinds {
		k := &t.kinds[i]
		w := k.w / t.unit
		words, bits := int(w/64), uint(w%64)
		for range min(int64(t.left[k.stock]), most/w) {
			reach = min(reach+w, most)
			for j := int(reach / 64); j >= words; j-- {
				moved := t.sums[j-words] << bits
				if j > words {
					moved |= t.sums[j-words-1] >> (64 - bits) // none where bits is 0
				}
				t.sums[j] |= moved
			}
			t.looks += reach/64 + 2
		}
	}
}

// fullest is how much of a width pieces side by side take at most.
func (t *brancher) fullest(w int64) int64 {
	w /= t.unit
	word := t.sums[w/64] << (63 - w%64)
	for w > 0 && word == 0 {
		w -= w%64 + 1
		word = t.sums[w/64]
	}
	return (w - int64(bits.LeadingZeros64(word))) * t.unit
}

// tried reports whether the same pieces were left above the same skyline before, and
// notes them. What is taken for tried by mistake is a way less, and no wrong lay.
func (t *brancher) tried(segs []segment) bool {
	var d dice
	for _, s := range segs {
		d = dice(d.roll() ^ uint64(s.x)<<32 ^ uint64(s.y))
	}
	for _, n := range t.left {
		d = dice(d.roll() ^ uint64(n))
	}
	h := d.roll() | 1
	e := &t.seen[h>>t.shift]
	was := *e == h
	*e = h
	return was
}

// with is a skyline with a piece laid on its i-th segment.
func (t *brancher) with(segs []segment, i int, top segment) []segment {
	var next []segment
	if n := len(t.free); n > 0 {
		next, t.free = t.free[n-1][:0], t.free[:n-1]
	}
	g := segs[i]
	add := func(s segment) {
		if n := len(next); n > 0 && next[n-1].y == s.y {
			next[n-1].w += s.w
			return
		}
		next = append(next, s)
	}
	for j, s := range segs {
		if j != i {
			add(s)
			continue
		}
		if top.x > g.x {
			add(segment{g.x, g.y, top.x - g.x})
		}
		add(top)
		if rest := g.x + g.w - top.x - top.w; rest > 0 {
			add(segment{top.x + top.w, g.y, rest})
		}
	}
	return next
}
