package lay

import (
	"cmp"
	"math/bits"
	"slices"
)

// A builder lays the pieces of a problem by an order. It keeps its memory between
// lays.
type builder struct {
	*problem
	looks int64 // pieces looked at, over all lays: the effort, the same on every machine
	plain bool  // the first piece that fits is laid, whether or not another meets the place better

	wide, long index   // the kinds by width, and by length
	thin       []int32 // the kinds, the narrowest first
	every      int     // steps between marks

	on       []stretch
	order    []turn
	places   []int32 // of each kind in the order
	next     []int32 // the first place of the order that some are left of, and after each place the next
	left     []int32
	rest     int64 // pieces that are left, of all kinds
	narrow   int   // the first of thin that some are left of
	waste    int64 // area that nothing can lie on any more
	unplaced int64 // area of the pieces that are left
	pads     []int64
	segs     []segment
	rects    []rect

	kept trail // of the lay that others are made from
	from int   // where the last lay left it
	last trail // of the last lay from there
}

// A trail is how a lay came about, step by step, and every so many steps what was free then.
type trail struct {
	steps    []step
	marks    []mark
	segs     []segment
	rects    []rect
	unplaced int64 // at its end
}

// A step is a piece laid in a place, and how well it meets it.
type step struct {
	put
	at    place
	score int32
	alone bool // no other kind was left that meets it as well
}

// A place is where the next piece is laid: how wide it is, and how far it is from there to
// the end of the cloth and to the tops of what is on the left and on the right.
type place struct{ y, width, room, left, right int64 }

// A mark is what was free before a step: where that ends in its trail; and the area that was
// wasted and unplaced then.
type mark struct {
	segs, rects     int
	waste, unplaced int64
}

// mostMarks is about how many marks a trail has, so that those of many pieces take little memory.
const mostMarks = 256

func newBuilder(p *problem) *builder {
	n := len(p.kinds)
	b := &builder{
		problem: p, left: make([]int32, len(p.count)), pads: make([]int64, len(p.anchors)+1), every: 1 + int(p.pieces/mostMarks),
		wide: indexOf(p.kinds, func(k *kind) int64 { return k.w }), long: indexOf(p.kinds, func(k *kind) int64 { return k.h }),
		thin: make([]int32, n), places: make([]int32, n), next: make([]int32, n+1),
	}
	for i := range b.thin {
		b.thin[i] = int32(i)
	}
	slices.SortStableFunc(b.thin, func(i, j int32) int { return cmp.Compare(p.kinds[i].w, p.kinds[j].w) })
	return b
}

// An index is kinds by one of their sizes.
type index struct {
	shift int // of a hash of the size to its slot
	slots []slot
}

type slot struct {
	size  int64
	kinds []int32
}

func indexOf(kinds []kind, size func(k *kind) int64) index {
	n := bits.Len(uint(2 * len(kinds)))
	x := index{shift: 64 - n, slots: make([]slot, 1<<n)}
	for i := range kinds {
		s := x.slot(size(&kinds[i]))
		s.size, s.kinds = size(&kinds[i]), append(s.kinds, int32(i))
	}
	return x
}

// slot is where the kinds of a size are; it has none where there are none.
func (x *index) slot(size int64) *slot {
	i := uint64(size) * 0x9e3779b97f4a7c15 >> x.shift
	for len(x.slots[i].kinds) > 0 && x.slots[i].size != size {
		i = (i + 1) % uint64(len(x.slots))
	}
	return &x.slots[i]
}

// fill lays the pieces by the order on the stretches and returns the area that was
// left unplaced. It gives up, and returns false, as soon as that is sure to be more than
// most: whatever is wasted beyond what there is to spare stays unplaced. The lay is kept, for
// others to be made from.
func (b *builder) fill(order []turn, stretches []stretch, most int64) (unplaced int64, ok bool) {
	b.on = stretches
	b.kept.cut(0, b.every)
	unplaced, ok = b.refill(order, -1, -1, most)
	b.accept()
	return unplaced, ok
}

// refill is [builder.fill] with an order that differs from that of the lay kept by one kind
// that is now earlier, one that is now later, or both, -1 for none; or by one's turn, and then
// it is both. It begins where that makes a difference. The lay is kept only if it is accepted.
func (b *builder) refill(order []turn, earlier, later int32, most int64) (unplaced int64, ok bool) {
	copy(b.left, b.count)
	b.order, b.rest, b.narrow, b.waste, b.unplaced = order, b.pieces, 0, 0, b.area
	for i, t := range order {
		b.places[t.kind()] = int32(i)
	}
	b.last.cut(0, b.every)
	b.from = b.follow(earlier, later)
	if b.from > 0 && b.from == len(b.kept.steps) {
		b.unplaced = b.kept.unplaced
		return b.unplaced, b.unplaced <= most
	}
	first := b.back()
	at := 0
	for i, t := range order {
		if b.left[b.kinds[t.kind()].stock] > 0 {
			b.next[at] = int32(i)
			at = i + 1
		}
	}
	b.next[at] = int32(len(order))
	spare := most - b.area
	for _, s := range b.on {
		if s.to >= endless {
			spare = 1 << 61
			break
		}
		spare += b.width * (s.to - s.from)
	}
	for i := first; i < len(b.on) && b.rest > 0 && b.waste <= spare; i++ {
		s := &b.on[i]
		if i > first || b.from == 0 {
			b.segs = append(b.segs[:0], segment{0, s.from, b.width})
			b.rects = append(b.rects[:0], rect{0, s.from, b.width, s.to - s.from})
		}
		if b.edges {
			b.divide(int32(i), s, spare)
		} else {
			b.pile(int32(i), s, spare)
		}
	}
	return b.unplaced, b.waste <= spare && b.unplaced <= most
}

// follow goes along the trail kept as far as the order now leads the same way.
func (b *builder) follow(earlier, later int32) int {
	b.looks += 8 + int64(len(b.kept.steps))/3
	for i := range b.kept.steps {
		st := &b.kept.steps[i]
		if st.kind == later {
			if !st.alone || later == earlier {
				return i
			}
		} else if earlier >= 0 && b.places[earlier] < b.places[st.kind] && b.left[b.kinds[earlier].stock] > 0 {
			if b.repeat > 0 {
				b.pad(&b.on[st.stretch], st.at.y)
			}
			if b.score(&b.kinds[earlier], &st.at) == st.score {
				return i
			}
		}
		b.left[b.kinds[st.kind].stock]--
		b.rest--
	}
	return len(b.kept.steps)
}

// back goes back to the last mark, and returns the stretch that it is on.
func (b *builder) back() int {
	for b.from%b.every > 0 {
		b.from--
		b.left[b.kinds[b.kept.steps[b.from].kind].stock]++
		b.rest++
	}
	if b.from == 0 {
		return 0
	}
	at := b.from / b.every
	m, was := &b.kept.marks[at], &b.kept.marks[at-1]
	b.waste, b.unplaced = m.waste, m.unplaced
	b.segs = append(b.segs[:0], b.kept.segs[was.segs:m.segs]...)
	b.rects = append(b.rects[:0], b.kept.rects[was.rects:m.rects]...)
	return int(b.kept.steps[b.from].stretch)
}

// take lays a piece: the next step of the trail.
func (b *builder) take(st step) {
	t := &b.last
	if len(t.steps)%b.every == 0 {
		t.segs, t.rects = append(t.segs, b.segs...), append(t.rects, b.rects...)
		t.marks = append(t.marks, mark{len(t.segs), len(t.rects), b.waste, b.unplaced})
	}
	t.steps = append(t.steps, st)
	k := &b.kinds[st.kind]
	b.left[k.stock]--
	b.rest--
	b.unplaced -= k.w * k.h
}

// accept keeps the last lay.
func (b *builder) accept() {
	k, l := &b.kept, &b.last
	if k.unplaced = b.unplaced; b.from == len(k.steps) && b.from > 0 {
		return
	}
	k.cut(b.from, b.every)
	segs, rects := len(k.segs), len(k.rects)
	for _, m := range l.marks {
		k.marks = append(k.marks, mark{segs + m.segs, rects + m.rects, m.waste, m.unplaced})
	}
	k.steps = append(k.steps, l.steps...)
	k.segs, k.rects = append(k.segs, l.segs...), append(k.rects, l.rects...)
}

// cut leaves the first steps of a trail, up to a mark.
func (t *trail) cut(n, every int) {
	t.steps, t.marks = t.steps[:n], t.marks[:n/every]
	segs, rects := 0, 0
	if n > 0 {
		m := &t.marks[n/every-1]
		segs, rects = m.segs, m.rects
	}
	t.segs, t.rects = t.segs[:segs], t.rects[:rects]
}

// tooWide reports whether all that is left is wider than a place.
func (b *builder) tooWide(width int64) bool {
	for b.left[b.kinds[b.thin[b.narrow]].stock] == 0 {
		b.narrow++
	}
	return b.kinds[b.thin[b.narrow]].w > width
}

// sooner is the one of two kinds that is the first in the order; -1 is none.
func (b *builder) sooner(m, n int32) int32 {
	if m < 0 || n >= 0 && b.places[n] < b.places[m] {
		return n
	}
	return m
}

// asLong is the first kind of the order that goes up to a length and is narrower than the
// place, -1 where there is none, and how many kinds are.
func (b *builder) asLong(h, width int64) (n int32, many int) {
	n = -1
	for class, pad := range b.pads {
		of := b.long.slot(h - pad).kinds
		b.looks += int64(len(of))
		for _, i := range of {
			if k := &b.kinds[i]; k.w < width && k.class == int32(class) && b.left[k.stock] > 0 {
				n = b.sooner(n, i)
				many++
			}
		}
	}
	return n, many
}

// first is the first kind of the order that fits; -1 where none does.
func (b *builder) first(width, room int64) int32 {
	for at := &b.next[0]; int(*at) < len(b.order); {
		b.looks++
		i := *at
		n := b.order[i].kind()
		k := &b.kinds[n]
		switch {
		case b.left[k.stock] == 0:
			*at = b.next[i+1]
		case k.w <= width && k.h+b.pads[k.class] <= room:
			return n
		default:
			at = &b.next[i+1]
		}
	}
	return -1
}
