package lay

// A rect is a rectangle of cloth that is cut by itself.
type rect struct{ x, y, w, h int64 }

// divide fills a stretch by cuts from edge to edge: a piece is laid in the corner of a
// rectangle, and what is left of that is cut in two.
func (b *builder) divide(n int32, s stretch, spare int64) (placed, left int64) {
	rects := append(b.rects[:0], rect{0, s.from, b.width, s.to - s.from})
	defer func() { b.rects = rects }()
	for len(rects) > 0 && len(b.items) > 0 {
		r := rects[len(rects)-1]
		rects = rects[:len(rects)-1]
		at := -1
		if r.w >= b.narrow {
			if b.repeat > 0 {
				b.pad(&s, r.y)
			}
			at = b.meet(r.w, r.h)
		}
		if at < 0 {
			if r.h >= endless/2 {
				continue
			}
			if spare -= r.w * r.h; spare < 0 {
				return placed, spare
			}
			continue
		}
		it := b.items[at]
		pad := b.pads[it.class]
		if spare -= pad * it.w; spare < 0 {
			return placed, spare
		}
		placed += it.w * it.h
		b.puts = append(b.puts, put{it.turn.kind(), n, r.x, r.y + pad})
		h := it.h + pad
		above, beside := rect{r.x, r.y + h, r.w, r.h - h}, rect{r.x + it.w, r.y, r.w - it.w, h}
		down := r.w-it.w >= r.h-h // the first cut, unless the order says the other
		if down != it.turn.flip() && r.h < endless/2 {
			above.w, beside.h = it.w, r.h
			above, beside = beside, above
		}
		if above.w > 0 && above.h > 0 {
			rects = append(rects, above)
		}
		if beside.w > 0 && beside.h > 0 {
			rects = append(rects, beside)
		}
		b.take(at)
	}
	return placed, spare
}

// meet returns the item that fills a rectangle either way, or at least one way, the first
// in the order of those that do; -1 where none fits.
func (b *builder) meet(width, room int64) (at int) {
	at, best := -1, -1
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
		score := 0
		if it.w == width {
			score++
		}
		if h == room {
			score++
		}
		if score > best {
			if at, best = i, score; best == 2 {
				break
			}
		}
	}
	b.looks += int64(len(b.items))
	return at
}
