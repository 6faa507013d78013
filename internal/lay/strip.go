package lay

import "slices"

// endless is where a stretch ends that has no end, in units of a problem.
const endless = int64(1) << 52

// A problem is pieces and the cloth for them in whole numbers, in units of their
// common measure.
type problem struct {
	width     int64
	repeat    int64   // 0 for a plain cloth
	anchors   []int64 // where in the repeat pieces of a class start; class 0 starts anywhere
	kinds     []kind
	count     []int32   // by stock
	pieces    int64     // in all
	area      int64     // of all pieces
	stretches []stretch // to fill one after the other, whole bolts or parts of them
	edges     bool      // every piece must come free by cuts from edge to edge
}

// A kind is pieces of one size, one way round.
type kind struct {
	w, h  int64
	stock int32 // whose count it takes from: a piece that may be turned is two kinds of one stock
	class int32 // of anchors
}

// A stretch is cloth of a bolt that pieces may lie on. The bolt begins at origin, and
// with it the repeat.
type stretch struct {
	from, to, origin int64
	bolt             int
}

// A put is a piece laid.
type put struct {
	kind, stretch int32
	x, y          int64
}

// A turn of an order is a kind, and in the lowest bit which of two ways it is laid:
// at which wall, or in guillotine lays which cut is made first.
type turn int32

func (t turn) kind() int32 { return int32(t) >> 1 }
func (t turn) flip() bool  { return t&1 != 0 }

// A builder lays the pieces of a problem by an order. It keeps its memory between
// lays.
type builder struct {
	*problem
	looks int64 // pieces looked at, over all lays: the effort, the same on every machine
	plain bool  // the first piece that fits is laid, whether or not another meets the place better
	puts  []put // of the last lay

	left   []int32
	items  []item
	narrow int64 // the least width of items
	pads   []int64
	segs   []segment
	rects  []rect
}

// An item is a kind that some are left of, in the order given.
type item struct {
	w, h  int64
	class int32
	turn  turn
}

// A segment is a piece of the skyline: what is above it is free.
type segment struct{ x, y, w int64 }

func newBuilder(p *problem) *builder {
	return &builder{problem: p, left: make([]int32, len(p.count)), pads: make([]int64, len(p.anchors)+1)}
}

// fill lays the pieces by the order on the stretches and returns the area that was
// left unplaced. It gives up, and returns false, as soon as that is sure to be more than
// most: whatever is wasted beyond what there is to spare stays unplaced.
func (b *builder) fill(order []turn, stretches []stretch, most int64) (unplaced int64, ok bool) {
	copy(b.left, b.count)
	b.items, b.puts = b.items[:0], b.puts[:0]
	b.narrow = endless
	for _, t := range order {
		k := &b.kinds[t.kind()]
		if b.left[k.stock] > 0 {
			b.items = append(b.items, item{k.w, k.h, k.class, t})
			b.narrow = min(b.narrow, k.w)
		}
	}
	spare := most - b.area
	for _, s := range stretches {
		if s.to >= endless {
			spare = 1 << 61
			break
		}
		spare += b.width * (s.to - s.from)
	}
	unplaced = b.area
	for i, s := range stretches {
		if len(b.items) == 0 {
			break
		}
		var placed int64
		if b.edges {
			placed, spare = b.divide(int32(i), s, spare)
		} else {
			placed, spare = b.pile(int32(i), s, spare)
		}
		if unplaced -= placed; spare < 0 {
			return unplaced, false
		}
	}
	return unplaced, unplaced <= most
}

// pad sets how far up from y the pieces of each class start.
func (b *builder) pad(s *stretch, y int64) {
	for i, a := range b.anchors {
		b.pads[i+1] = after(s.origin+a-y, b.repeat)
	}
}

// after is the least number from 0 on that is d over a multiple of m.
func after(d, m int64) int64 {
	if d %= m; d < 0 {
		d += m
	}
	return d
}

// take counts a piece of the i-th item as laid.
func (b *builder) take(i int) {
	k := &b.kinds[b.items[i].turn.kind()]
	if b.left[k.stock]--; b.left[k.stock] > 0 {
		return
	}
	narrow := b.items[i].w
	b.items = slices.Delete(b.items, i, i+1)
	if len(b.kinds) != len(b.count) { // there may be its other way round
		b.items = slices.DeleteFunc(b.items, func(it item) bool { return b.kinds[it.turn.kind()].stock == k.stock })
		narrow = b.narrow
	}
	if narrow == b.narrow {
		b.narrow = endless
		for j := range b.items {
			b.narrow = min(b.narrow, b.items[j].w)
		}
	}
}

// pile fills a stretch from below, always at its lowest, leftmost place.
func (b *builder) pile(n int32, s stretch, spare int64) (placed, left int64) {
	segs := append(b.segs[:0], segment{0, s.from, b.width})
	defer func() { b.segs = segs }()
	for len(b.items) > 0 {
		i := 0
		for j := 1; j < len(segs); j++ {
			if segs[j].y < segs[i].y {
				i = j
			}
		}
		g := segs[i]
		if g.y >= s.to {
			break
		}
		room := s.to - g.y
		left, right := room, room
		if i > 0 {
			left = segs[i-1].y - g.y
		}
		if i+1 < len(segs) {
			right = segs[i+1].y - g.y
		}
		at, onRight := -1, false
		if g.w >= b.narrow {
			if b.repeat > 0 {
				b.pad(&s, g.y)
			}
			at, onRight = b.choose(g.w, room, left, right)
		}
		if at < 0 {
			up := min(left, right)
			if spare -= up * g.w; spare < 0 {
				return placed, spare
			}
			segs[i].y += up
			segs = merge(segs, i)
			continue
		}
		it := b.items[at]
		pad := b.pads[it.class]
		if spare -= pad * it.w; spare < 0 {
			return placed, spare
		}
		placed += it.w * it.h
		x := g.x
		if onRight {
			x += g.w - it.w
		}
		b.puts = append(b.puts, put{it.turn.kind(), n, x, g.y + pad})
		top := segment{x, g.y + pad + it.h, it.w}
		switch {
		case it.w == g.w:
			segs[i] = top
		case onRight:
			segs[i].w -= it.w
			segs = slices.Insert(segs, i+1, top)
			i++
		default:
			segs[i].x += it.w
			segs[i].w -= it.w
			segs = slices.Insert(segs, i, top)
		}
		segs = merge(segs, i)
		b.take(at)
	}
	return placed, spare
}

// merge joins the i-th segment with neighbors at its height.
func merge(segs []segment, i int) []segment {
	if i+1 < len(segs) && segs[i+1].y == segs[i].y {
		segs[i].w += segs[i+1].w
		segs = slices.Delete(segs, i+1, i+2)
	}
	if i > 0 && segs[i-1].y == segs[i].y {
		segs[i-1].w += segs[i].w
		segs = slices.Delete(segs, i, i+1)
	}
	return segs
}

// choose returns the item that meets a place best, the first in the order of those that
// do so equally well, and whether it is laid at the right wall; -1 where none fits. A plain
// choice is the first that fits.
func (b *builder) choose(width, room, left, right int64) (at int, onRight bool) {
	high, low := max(left, right), min(left, right)
	at, best := -1, int64(-1)
	for i := range b.items {
		it := &b.items[i]
		if it.w > width {
			continue
		}
		h := it.h + b.pads[it.class]
		if h > room {
			continue
		}
		if b.plain {
			at = i
			break
		}
		var score int64
		if it.w == width {
			switch {
			case h == high:
				score = 7
			case h == low, h == room:
				score = 6
			case h > high:
				score = 4
			case h > low:
				score = 3
			default:
				score = 2
			}
		} else {
			switch h {
			case high, room:
				score = 5
			case low:
				score = 1
			}
		}
		if score > best {
			if at, best = i, score; best == 7 {
				break
			}
		}
	}
	b.looks += int64(len(b.items))
	if at < 0 {
		return at, false
	}
	it := &b.items[at]
	h := it.h + b.pads[it.class]
	onRight = right > left
	switch {
	case h == left && h != right:
		return at, false
	case h == right && h != left:
		return at, true
	}
	return at, onRight != it.turn.flip()
}
