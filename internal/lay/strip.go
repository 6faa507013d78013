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

// A segment is a piece of the skyline: what is above it is free.
type segment struct{ x, y, w int64 }

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

// pile fills a stretch from below, always at its lowest, leftmost place, until the waste is
// more than there is to spare.
func (b *builder) pile(n int32, s *stretch, spare int64) {
	segs := b.segs
	for b.rest > 0 {
		b.looks += 3 + int64(len(segs))/3
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
		p := place{g.y, g.w, room, room, room}
		if i > 0 {
			p.left = segs[i-1].y - g.y
		}
		if i+1 < len(segs) {
			p.right = segs[i+1].y - g.y
		}
		at, score, alone, onRight := int32(-1), int32(-1), false, false
		if !b.tooWide(g.w) {
			if b.repeat > 0 {
				b.pad(s, g.y)
			}
			at, score, alone, onRight = b.choose(&p)
		}
		if at < 0 {
			up := min(p.left, p.right)
			if b.waste += up * g.w; b.waste > spare {
				break
			}
			segs[i].y += up
			segs = merge(segs, i)
			continue
		}
		b.segs = segs
		k := &b.kinds[at]
		x := g.x
		if onRight {
			x += g.w - k.w
		}
		pad := b.pads[k.class]
		b.take(step{put{at, n, x, g.y + pad}, p, score, alone})
		if b.waste += pad * k.w; b.waste > spare {
			break
		}
		top := segment{x, g.y + pad + k.h, k.w}
		switch {
		case k.w == g.w:
			segs[i] = top
		case onRight:
			segs[i].w -= k.w
			segs = slices.Insert(segs, i+1, top)
			i++
		default:
			segs[i].x += k.w
			segs[i].w -= k.w
			segs = slices.Insert(segs, i, top)
		}
		segs = merge(segs, i)
	}
	b.segs = segs
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

// asWide returns the kind as wide as a place that meets it best, the first in the order of
// those that do so equally well, how well that is, and whether no other does; what it is given
// where none does better. A score below 0 is of one that doesn't fit.
func (b *builder) asWide(p *place, n, best int32) (at, how int32, alone bool) {
	of := b.wide.slot(p.width).kinds
	b.looks += int64(len(of))
	for _, i := range of {
		k := &b.kinds[i]
		if b.left[k.stock] == 0 {
			continue
		}
		switch s := b.score(k, p); {
		case s > best:
			n, best, alone = i, s, true
		case s == best && s >= 0:
			n, alone = b.sooner(n, i), false
		}
	}
	return n, best, alone
}

// choose returns the kind that meets a place best, the first in the order of those that
// do so equally well, how well that is, whether it is sure that no other does, and whether it
// is laid at the right wall; -1 where none fits. A plain choice is the first that fits.
func (b *builder) choose(p *place) (n, best int32, alone, onRight bool) {
	b.looks += 6
	n, best = -1, -1
	if !b.plain {
		n, best, alone = b.asWide(p, n, best)
		if best < 6 {
			high, low := max(p.left, p.right), min(p.left, p.right)
			m, many := b.asLong(high, p.width)
			if high < p.room {
				o, more := b.asLong(p.room, p.width)
				m, many = b.sooner(m, o), many+more
			}
			if m < 0 && best < 0 {
				if n, many = b.asLong(low, p.width); n >= 0 {
					best, alone = 1, many == 1
				}
			}
			if m >= 0 {
				n, best, alone = m, 5, many == 1
			}
		}
	}
	if n < 0 {
		if n = b.first(p.width, p.room); n < 0 {
			return n, best, false, false
		}
		best = 0
	}
	k := &b.kinds[n]
	h := k.h + b.pads[k.class]
	onRight = p.right > p.left
	switch {
	case h == p.left && h != p.right:
		return n, best, alone, false
	case h == p.right && h != p.left:
		return n, best, alone, true
	}
	return n, best, alone, onRight != b.order[b.places[n]].flip()
}

// score is how well a kind meets a place, as the cloth is cut; -1 where it doesn't fit.
func (b *builder) score(k *kind, p *place) int32 {
	if b.edges {
		return b.fills(k, p)
	}
	return b.meets(k, p)
}

// meets is how well a kind meets a place: from 7, where it is as wide and as long as the
// higher wall, to 0; -1 where it doesn't fit.
func (b *builder) meets(k *kind, p *place) int32 {
	h := k.h + b.pads[k.class]
	if k.w > p.width || h > p.room {
		return -1
	}
	if b.plain {
		return 0
	}
	high, low := max(p.left, p.right), min(p.left, p.right)
	if k.w < p.width {
		switch h {
		case high, p.room:
			return 5
		case low:
			return 1
		}
		return 0
	}
	switch {
	case h == high:
		return 7
	case h == low, h == p.room:
		return 6
	case h > high:
		return 4
	case h > low:
		return 3
	}
	return 2
}
