package lay

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
