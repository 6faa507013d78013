package lay

import (
	"math/bits"
	"slices"
)

// A rect is a rectangle of cloth that is cut by itself.
type rect struct{ x, y, w, h int64 }

// divide fills a stretch by cuts from edge to edge: a piece is laid in the corner of a
// rectangle, and what is left of that is cut in two. It ends where the waste is more than
// there is to spare.
func (b *builder) divide(n int32, s *stretch, spare int64) {
	for len(b.rects) > 0 && b.rest > 0 {
		last := len(b.rects) - 1
		r := b.rects[last]
		b.looks += 2
		at, score := int32(-1), int32(-1)
		p := place{y: r.y, width: r.w, room: r.h}
		if !b.tooWide(r.w) {
			if b.repeat > 0 {
				b.pad(s, r.y)
			}
			at, score = b.fits(&p)
		}
		if at < 0 {
			b.rects = b.rects[:last]
			if r.h >= endless/2 {
				continue
			}
			if b.waste += r.w * r.h; b.waste > spare {
				break
			}
			continue
		}
		k := &b.kinds[at]
		pad := b.pads[k.class]
		b.take(step{put{at, n, r.x, r.y + pad}, p, score, false})
		b.rects = b.rects[:last]
		if b.waste += pad * k.w; b.waste > spare {
			break
		}
		h := k.h + pad
		above, beside := rect{r.x, r.y + h, r.w, r.h - h}, rect{r.x + k.w, r.y, r.w - k.w, h}
		down := r.w-k.w >= r.h-h // the first cut, unless the order says the other
		if down != b.order[b.places[at]].flip() && r.h < endless/2 {
			above.w, beside.h = k.w, r.h
			above, beside = beside, above
		}
		if above.w > 0 && above.h > 0 {
			b.rects = append(b.rects, above)
		}
		if beside.w > 0 && beside.h > 0 {
			b.rects = append(b.rects, beside)
		}
	}
}

// fits returns the kind that fills a rectangle both ways, or else one way, the first
// in the order of those that do, and how many ways it fills it; -1 where none fits.
func (b *builder) fits(p *place) (n, best int32) {
	b.looks += 4
	n = -1
	if !b.plain {
		if n, _ = b.asLong(p.room, p.width); n >= 0 {
			best = 1
		}
		n, best, _ = b.asWide(p, n, best)
	}
	if n < 0 {
		n = b.first(p.width, p.room)
	}
	return n, best
}

// fills is how many ways a kind fills a rectangle; -1 where it doesn't fit.
func (b *builder) fills(k *kind, p *place) (ways int32) {
	h := k.h + b.pads[k.class]
	switch {
	case k.w > p.width || h > p.room:
		return -1
	case b.plain:
		return 0
	}
	if k.w == p.width {
		ways++
	}
	if h == p.room {
		ways++
	}
	return ways
}

// mostSets is up to how many sets of pieces are put together.
const mostSets = 1 << 9

// A box is how wide and how long a set of pieces is.
type box struct{ w, h int64 }

// comeFree reports whether nothing speaks against laying the problem's pieces within a length by
// cuts from edge to edge. Every set of them is put together of two smaller ones, beside or above
// each other, in all ways that waste no more than there is to spare. It knows nothing of the
// repeat, and says nothing of very many sets.
func (p *problem) comeFree(within int64) bool {
	var all, ones int // a set is a number: how many it has of each stock, in a few bits for each
	one, shift := make([]int, len(p.count)), 0
	for i, n := range p.count {
		one[i] = 1 << shift
		all, ones = all+one[i]*int(n), ones+one[i]
		if shift += bits.Len32(uint32(n)); 1<<shift > mostSets {
			return true
		}
	}
	has := func(set, part int) bool { return part <= set && (set^part^(set-part))&ones == 0 } // nothing is borrowed
	spare := p.width*within - p.area
	areas := make([]int64, all+1)
	boxes := make([][]box, all+1) // none that another lies within
	var some []int                // the sets that there are boxes of
	add := func(set int, b box) {
		if b.w > p.width || b.h > within || b.w*b.h-areas[set] > spare ||
			slices.ContainsFunc(boxes[set], func(o box) bool { return o.w <= b.w && o.h <= b.h }) {
			return
		}
		boxes[set] = append(slices.DeleteFunc(boxes[set], func(o box) bool { return o.w >= b.w && o.h >= b.h }), b)
	}
	for _, k := range p.kinds {
		areas[one[k.stock]] = k.w * k.h
		add(one[k.stock], box{k.w, k.h})
	}
	for set := 1; set <= all; set++ {
		if !has(all, set) {
			continue
		}
		of := one[slices.IndexFunc(one, func(o int) bool { return has(set, o) })]
		areas[set] = areas[of] + areas[set-of]
		for _, part := range some {
			if part > set/2 {
				break
			}
			if rest := set - part; len(boxes[rest]) > 0 && has(set, part) {
				for _, a := range boxes[part] {
					for _, b := range boxes[rest] {
						add(set, box{a.w + b.w, max(a.h, b.h)})
						add(set, box{max(a.w, b.w), a.h + b.h})
					}
				}
			}
		}
		if len(boxes[set]) > 0 {
			some = append(some, set)
		}
	}
	return len(boxes[all]) > 0
}
