package lay

import (
	"slices"

	"cutgate/internal/length"
)

// bound is a length, in units, that no lay of the problem's pieces is shorter than: the
// longest piece, or what their widths take at any height, made larger by functions that
// keep what fits side by side fitting (dual feasible functions: Fekete and Schepers,
// Mathematical Programming 91, 2001; Carlier, Clautiaux and Moukrim, Computers &
// Operations Research 34, 2007). True lengths go into it, so that it holds for a cloth
// with a repeat too; pieces that lie one above another whatever is done also lose what
// the repeat takes between them. Pieces that nothing lies beside are taken by themselves.
func (p *problem) bound() int64 {
	if p.turns() {
		return p.least() // either width may be the one that counts
	}
	alone, rest := p.alone()
	if alone == 0 || len(rest.kinds) == 0 {
		return p.least()
	}
	return max(p.least(), alone+rest.least())
}

// alone is the length of the pieces that no other fits beside, and the problem of the rest. As
// none of the rest lies anywhere along them, a lay stays one where what they take is cut out
// of it, though the rest then no longer starts at its places of the repeat.
func (p *problem) alone() (sum int64, rest *problem) {
	narrow := endless
	for i := range p.kinds {
		narrow = min(narrow, p.kinds[i].w)
	}
	rest = &problem{width: p.width}
	for _, k := range p.kinds {
		n := int64(p.count[k.stock])
		if k.w+narrow > p.width {
			sum += k.h * n
			continue
		}
		rest.kinds = append(rest.kinds, kind{w: k.w, h: k.h, stock: int32(len(rest.count))})
		rest.count = append(rest.count, p.count[k.stock])
		rest.area += k.w * k.h * n
	}
	return sum, rest
}

// least is the bound of all pieces together.
func (p *problem) least() int64 {
	var most int64
	var widths []int64
	for _, k := range p.pieceKinds() {
		most = max(most, k.h)
		widths = append(widths, k.w)
	}
	most = max(most, ceilDiv(p.area, p.width), p.stacked())
	if p.turns() {
		return most
	}
	raise := func(f func(w int64) int64) {
		var sum int64
		for i := range p.kinds {
			k := &p.kinds[i]
			sum += f(k.w) * k.h * int64(p.count[k.stock])
		}
		most = max(most, ceilDiv(sum, f(p.width)))
	}
	for _, f := range duals(p.width, widths, 400) {
		raise(f)
	}
	for k := int64(1); k <= 100; k++ {
		raise(func(w int64) int64 { // u(k), k × width × it
			whole := (k + 1) * w / p.width * p.width
			if whole == (k+1)*w {
				return k * w
			}
			return whole
		})
	}
	return most
}

// duals are functions of sizes, at most for so many of them, that keep what fits side by
// side into the whole fitting.
func duals(whole int64, sizes []int64, most int) (list []func(size int64) int64) {
	slices.Sort(sizes)
	tries := slices.Compact(sizes)
	if n := len(tries); n > most {
		for i := range most {
			tries[i] = tries[i*n/most]
		}
		tries = tries[:most]
	}
	for _, e := range tries {
		if e > whole/2 {
			break
		}
		list = append(list, func(w int64) int64 { // f0: what is wide takes the whole, what is narrow nothing
			switch {
			case w > whole-e:
				return whole
			case w < e:
				return 0
			}
			return w
		}, func(w int64) int64 { // fCCM1
			times := whole / e
			switch {
			case 2*w > whole:
				return 2 * (times - (whole-w)/e)
			case 2*w == whole:
				return times
			}
			return 2 * (w / e)
		})
	}
	return list
}

// fits reports whether nothing speaks against laying the problem's pieces within a length:
// neither is their area too large when both their widths and their lengths are made larger.
func (p *problem) fits(within int64) bool {
	if within < p.bound() {
		return false
	}
	if p.turns() || len(p.stretches) > 1 {
		return true
	}
	var widths, lengths []int64
	for _, k := range p.kinds {
		widths, lengths = append(widths, k.w, p.width-k.w+1), append(lengths, k.h, within-k.h+1)
	}
	same := func(size int64) int64 { return size }
	down := append(duals(within, lengths, 40), same)
	for _, f := range append(duals(p.width, widths, 40), same) {
		for _, g := range down {
			var sum int64
			for _, k := range p.kinds {
				sum += f(k.w) * g(k.h) * int64(p.count[k.stock])
			}
			if sum > f(p.width)*g(within) {
				return false
			}
		}
	}
	return true
}

// pieceKinds are the kinds of the problem, of one that may be turned the way in which it is
// shorter.
func (p *problem) pieceKinds() []kind {
	kinds := make([]kind, len(p.count))
	for _, k := range p.kinds {
		if o := &kinds[k.stock]; o.h == 0 || k.h < o.h {
			*o = k
		}
	}
	return kinds
}

// turns reports whether there are pieces that may be turned.
func (p *problem) turns() bool { return len(p.kinds) != len(p.count) }

// stacked is what the pieces take that are wider than half the cloth, so that no two lie
// side by side: their lengths, and where they start at a place of the repeat, the least
// that is lost before the next.
func (p *problem) stacked() int64 {
	var sum, lost, last, cross int64
	places := make([]bool, len(p.anchors)+1)
	cross = endless
	wide := func(k *kind) bool { return 2*k.w > p.width }
	for i := range p.kinds {
		if k := &p.kinds[i]; wide(k) {
			places[k.class] = true
		}
	}
	turned := make([]int, len(p.count))
	for _, k := range p.kinds {
		turned[k.stock]++
	}
	phases := 0
	for _, is := range places[1:] {
		if is {
			phases++
		}
	}
	for i := range p.kinds {
		k := &p.kinds[i]
		if !wide(k) || turned[k.stock] > 1 {
			continue
		}
		n := int64(p.count[k.stock])
		sum += k.h * n
		if places[0] || k.class == 0 || phases == 0 {
			continue
		}
		least, other := endless, endless
		for c, is := range places[1:] {
			if !is {
				continue
			}
			gap := after(p.anchors[c]-p.anchors[k.class-1]-k.h, p.repeat)
			least = min(least, gap)
			if int32(c+1) != k.class {
				other = min(other, gap)
			}
		}
		lost += least * n
		last = max(last, least)
		cross = min(cross, other-least)
	}
	if places[0] || len(p.bolts()) > 1 || len(p.stretches) > 1 {
		return sum
	}
	if sum += lost - last; phases > 1 {
		sum += cross // at least one piece is followed by one of the other phase
	}
	return sum
}

// bolts are the bolts that there are stretches of.
func (p *problem) bolts() (list []int) {
	for _, s := range p.stretches {
		if len(list) == 0 || list[len(list)-1] != s.bolt {
			list = append(list, s.bolt)
		}
	}
	return list
}

func ceilDiv(a, b int64) int64 { return (a + b - 1) / b }

// roughly is a bound where there are no units to count areas in: the longest piece, or the
// area over the width, down to a whole millimetre.
func roughly(usable length.Length, pieces []Piece) length.Length {
	var most length.Length
	area := length.Ratio{}
	for _, p := range pieces {
		if p.Count > 0 {
			most = max(most, p.Length)
			area = area.Add(length.RatioOf(p.Width, length.Millimetre).Mul(length.RatioOf(p.Length.Mul(p.Count), length.Millimetre)))
		}
	}
	byArea := area.Quo(length.RatioOf(usable, length.Millimetre)).Int(length.Down)
	return max(most, length.Length(byArea)*length.Millimetre)
}
