package lay

import (
	"cmp"
	"context"
	"fmt"
	"math/bits"
	"slices"

	"cutgate/internal/length"
)

// A Mode is how the cloth may be cut.
type Mode uint8

const (
	// Rows is right across: the cloth is cut into rows, each of pieces of one length.
	Rows Mode = iota
	// Guillotine is from edge to edge: every cut goes through what it cuts in two.
	Guillotine
	// Free is any way that pieces don't overlap.
	Free
)

// Modes are the modes, the strictest first: what one allows, those after it do too.
func Modes() []Mode { return []Mode{Rows, Guillotine, Free} }

// ModeNamed is the mode of that word.
func ModeNamed(word string) (Mode, bool) {
	i := slices.IndexFunc(Modes(), func(m Mode) bool { return m.String() == word })
	return Mode(max(0, i)), i >= 0
}

// String is the mode as a word: rows, guillotine or free.
func (m Mode) String() string { return [...]string{"rows", "guillotine", "free"}[m] }

// A Cloth is what pieces are laid on.
type Cloth struct {
	Width  length.Length // that may be cut, above 0
	Repeat length.Length // along; 0 for a plain cloth
	// Directed cloth has a nap or a pattern: no piece of it may be turned.
	Directed bool
	Bolts    []Bolt // where none is given, one without end
}

// A Bolt is one roll of cloth.
type Bolt struct {
	Lot    string        // dye lot; bolts without one are of a lot by themselves
	Length length.Length // 0 for one without end
	Lead   length.Length // passed over at its beginning; the repeat begins after it
	Flaws  []Stretch     // no piece lies on any part of them
}

// Options say how pieces are to be laid.
type Options struct {
	Mode Mode
	// Effort is how long to search, from 1 on. It is counted in steps, so that the
	// same pieces are laid in the same way on every machine.
	Effort int64
	Steps  int64  // to search in all, in place of an effort; 0 for none
	Seed   uint64 // where the search begins; 0 is 1
	// Enough is a length that will do: where all pieces lie within it, none shorter is
	// searched for.
	Enough length.Length
}

// Glance is a number of steps that only the first orders of the pieces are tried in.
const Glance = 1

// A Lay says where each piece lies.
type Lay struct {
	Mode   Mode
	Pieces []Placed        // bolt by bolt and along each
	Left   []int64         // of each piece, how many found no room; nil where all did
	Reach  []length.Length // of each bolt, how far the pieces go along it, with what is passed over; 0 where none lies on it
	Length length.Length   // of cloth that is cut, over all bolts, without what is passed over
	Bound  length.Length   // no lay of all pieces on this cloth is shorter, whatever the mode
	Steps  int64           // that were searched
	// Short reports that the search was ended from outside, so that the next may end
	// with another lay.
	Short bool
}

// A Placed is a piece that is laid.
type Placed struct {
	Piece  int           // of those that were to be laid
	Bolt   int           // of the cloth's
	X, Y   length.Length // of its corner, across and along the bolt
	Width  length.Length // as it lies, across
	Length length.Length // as it lies, along
	Turned bool
}

// WideError says that a piece is wider than the cloth, however it is laid.
type WideError struct {
	Piece int
	Width length.Length // of the cloth
}

func (e *WideError) Error() string {
	return fmt.Sprintf("piece %d is wider than %s", e.Piece+1, e.Width)
}

// Make lays pieces on a cloth. Each must have a width and a length above 0, and a count
// from 0 on; an error is a [*WideError], or says what of that is amiss. When ctx is done,
// the best lay so far is returned. Every lay is held against [Check] before it is.
func Make(ctx context.Context, cloth *Cloth, pieces []Piece, o Options) (*Lay, error) {
	if cloth.Width <= 0 {
		return nil, fmt.Errorf("lay: a cloth %s wide", cloth.Width)
	}
	for i := range pieces {
		p := &pieces[i]
		if p.Width <= 0 || p.Length <= 0 || p.Count < 0 {
			return nil, fmt.Errorf("lay: piece %d: %d of %s by %s", i+1, p.Count, p.Width, p.Length)
		}
		if p.Width > cloth.Width && (!p.turns(cloth) || p.Length > cloth.Width) {
			return nil, &WideError{i, cloth.Width}
		}
	}
	if o.Seed == 0 {
		o.Seed = 1
	}
	l := newMaker(ctx, cloth, pieces, o).lay()
	if upright, ok := upright(cloth, pieces); ok {
		// What may be turned has more ways to be laid than are searched, and where no unit
		// measures both ways round none are.
		as := newMaker(ctx, cloth, upright, o).lay()
		as.Bound, as.Steps, as.Short = l.Bound, l.Steps+as.Steps, l.Short || as.Short
		if as.betterThan(l, pieces) {
			l = as
		} else {
			l.Steps, l.Short = as.Steps, as.Short
		}
	}
	if err := Check(cloth, pieces, l); err != nil {
		return nil, fmt.Errorf("lay: a lay that is not one: %w", err)
	}
	return l, nil
}

// turns reports whether a piece may be turned on a cloth.
func (p *Piece) turns(c *Cloth) bool {
	return p.Turns && !c.Directed && c.Repeat <= 0 && p.Width != p.Length
}

// upright are pieces of which only those that fit no other way are turned. It reports false
// where that leaves them as they are.
func upright(c *Cloth, pieces []Piece) (list []Piece, ok bool) {
	list = slices.Clone(pieces)
	for i := range list {
		if p := &list[i]; p.Width <= c.Width {
			ok = ok || p.turns(c) && p.Count > 0
			p.Turns = false
		}
	}
	return list, ok
}

// A maker makes one lay.
type maker struct {
	ctx    context.Context
	cloth  *Cloth
	bolts  []Bolt
	pieces []Piece
	opts   Options

	across, along length.Length // what a unit of a problem is; 0 where there is no common measure that will do
	steps         int64         // searched
	short         bool
}

func newMaker(ctx context.Context, cloth *Cloth, pieces []Piece, o Options) *maker {
	m := &maker{ctx: ctx, cloth: cloth, bolts: cloth.Bolts, pieces: pieces, opts: o}
	if len(m.bolts) == 0 {
		m.bolts = []Bolt{{}}
	}
	m.measure()
	return m
}

// measure finds the units: the common measures of all widths and of all lengths. Where
// areas in them would be beyond what is counted with, there are none.
func (m *maker) measure() {
	x, y := m.cloth.Width, m.cloth.Repeat
	most := m.cloth.Repeat
	turns := false
	for i := range m.pieces {
		p := &m.pieces[i]
		x, y = measureOf(x, p.Width), measureOf(y, p.Length)
		if p.Matched && m.cloth.Repeat > 0 {
			y = measureOf(y, p.Anchor)
		}
		most += p.Length.Mul(p.Count) + m.cloth.Repeat.Mul(p.Count)
		turns = turns || p.turns(m.cloth)
	}
	for i := range m.bolts {
		b := &m.bolts[i]
		y = measureOf(measureOf(y, b.Length), b.Lead)
		for _, f := range b.Flaws {
			y = measureOf(measureOf(y, f.From), f.To)
		}
		most += b.Length
	}
	if turns {
		x = measureOf(x, y)
		y = x
		for i := range m.pieces {
			if p := &m.pieces[i]; p.turns(m.cloth) {
				most += p.Width.Mul(p.Count)
			}
		}
	}
	if x <= 0 || y <= 0 || int64(most/y) >= endless/4 {
		return
	}
	if hi, lo := bits.Mul64(uint64(m.cloth.Width/x), uint64(most/y)); hi == 0 && lo < 1<<52 { // times 100 in bounds
		m.across, m.along = x, y
	}
}

// measureOf is the greatest common measure of two lengths.
func measureOf(a, b length.Length) length.Length {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}

// Steps that are searched at effort 1: for each piece, and at least and at most in all.
const (
	stepsEach  = 20_000
	stepsLeast = 100_000
	stepsMost  = 300_000_000
)

// lay lays all pieces.
func (m *maker) lay() *Lay {
	l := &Lay{Mode: m.opts.Mode, Reach: make([]length.Length, len(m.bolts))}
	counts := m.counts()
	var all int64
	for _, n := range counts {
		all += n
	}
	effort := min(max(all*stepsEach, stepsLeast), stepsMost) * max(1, m.opts.Effort)
	if m.opts.Steps > 0 {
		effort = m.opts.Steps
	}
	for _, part := range m.parts() {
		of := m.only(part.pieces)
		var n int64
		for i := range of.pieces {
			n += of.pieces[i].Count
		}
		got := of.solve(part.bolts, effort*n/max(1, all))
		for _, p := range got.placed {
			p.Piece = part.pieces[p.Piece]
			l.Pieces = append(l.Pieces, p)
		}
		m.searched(of)
	}
	slices.SortFunc(l.Pieces, func(a, b Placed) int {
		return cmp.Or(cmp.Compare(a.Bolt, b.Bolt), cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X), cmp.Compare(a.Piece, b.Piece))
	})
	for _, p := range l.Pieces {
		counts[p.Piece]--
		l.Reach[p.Bolt] = max(l.Reach[p.Bolt], p.Y+p.Length)
	}
	for i, r := range l.Reach {
		l.Length += max(0, r-m.bolts[i].Lead)
	}
	if slices.ContainsFunc(counts, func(n int64) bool { return n > 0 }) {
		l.Left = counts
	}
	l.Bound = m.bound()
	l.Steps, l.Short = m.steps, m.short
	return l
}

// counts are how many there are of each piece.
func (m *maker) counts() []int64 {
	counts := make([]int64, len(m.pieces))
	for i := range m.pieces {
		counts[i] = m.pieces[i].Count
	}
	return counts
}

// A part is pieces and the bolts of one lot that they are to lie on.
type part struct {
	bolts  []int
	pieces []int // in their order
}

// only is a maker of a lay of some of the pieces.
func (m *maker) only(pieces []int) *maker {
	some := *m
	some.pieces = make([]Piece, len(pieces))
	for i, p := range pieces {
		some.pieces[i] = m.pieces[p]
	}
	some.steps, some.short = 0, false
	return &some
}

// searched counts what a maker of some of the pieces has searched.
func (m *maker) searched(some *maker) {
	m.steps += some.steps
	m.short = m.short || some.short
}

// A laid is what came of a part.
type laid struct {
	placed []Placed
	left   int64 // area that found no room, in square micrometres
	length length.Length
}

func (a *laid) better(b *laid) bool {
	return cmp.Or(cmp.Compare(a.left, b.left), cmp.Compare(a.length, b.length)) < 0
}

// solve lays the pieces on bolts as well as the effort allows.
func (m *maker) solve(bolts []int, effort int64) laid {
	best := m.rows(bolts)
	if m.opts.Mode == Rows || m.across == 0 {
		return best
	}
	orders := boltOrders(m.bolts, bolts)
	quick := make([]laid, len(orders))
	pick := 0
	for i, o := range orders {
		if len(orders) > 1 {
			quick[i] = m.search(o, 0)
		}
		if quick[i].better(&quick[pick]) {
			pick = i
		}
	}
	if got := m.search(orders[pick], effort); got.better(&best) {
		best = got
	}
	return best
}

// boltOrders are the orders in which bolts are begun that are tried: as given, and where
// there are few of them every other.
func boltOrders(bolts []Bolt, of []int) [][]int {
	// One without end is last: nothing is laid after it.
	of = slices.Clone(of)
	slices.SortStableFunc(of, func(a, b int) int {
		return cmp.Compare(boolInt(bolts[a].Length == 0), boolInt(bolts[b].Length == 0))
	})
	list := [][]int{of}
	if len(of) > 4 {
		byLength := slices.Clone(of)
		slices.SortStableFunc(byLength, func(a, b int) int {
			return cmp.Or(cmp.Compare(boolInt(bolts[a].Length == 0), boolInt(bolts[b].Length == 0)), cmp.Compare(bolts[b].Length, bolts[a].Length))
		})
		return append(list, byLength)
	}
	var permute func(done, rest []int)
	permute = func(done, rest []int) {
		if len(rest) == 0 {
			if !slices.Equal(done, of) {
				list = append(list, slices.Clone(done))
			}
			return
		}
		for i := range rest {
			if bolts[rest[i]].Length == 0 && len(rest) > 1 {
				continue
			}
			permute(append(slices.Clone(done), rest[i]), append(slices.Clone(rest[:i]), rest[i+1:]...))
		}
	}
	permute(nil, of)
	return list
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// search lays the pieces on bolts by the search; without effort, by the first orders only.
func (m *maker) search(bolts []int, effort int64) laid {
	p, of := m.problem(bolts)
	s := &search{
		builder: newBuilder(p), dice: dice(m.opts.Seed), until: effort, bound: p.bound(), enough: int64(m.opts.Enough / m.along),
		stop: func() bool { return m.ctx.Err() != nil },
	}
	s.run()
	m.steps += s.looks
	m.short = m.short || s.looks < s.until && m.ctx.Err() != nil && s.best.length > s.bound
	got := laid{length: m.along.Mul(s.best.length)}
	for _, u := range s.best.puts {
		k := &p.kinds[u.kind]
		i := of[k.stock]
		w, h := m.across.Mul(k.w), m.along.Mul(k.h)
		got.placed = append(got.placed, Placed{
			Piece: i, Bolt: p.stretches[u.stretch].bolt, X: m.across.Mul(u.x), Y: m.along.Mul(u.y),
			Width: w, Length: h, Turned: w != m.pieces[i].Width || h != m.pieces[i].Length,
		})
	}
	m.share(got.placed)
	got.left = m.left(got.placed)
	return got
}

// left is the area of what found no room, in square micrometres.
func (m *maker) left(placed []Placed) (sum int64) {
	left := m.counts()
	for _, p := range placed {
		left[p.Piece]--
	}
	for i, n := range left {
		if n > 0 {
			sum += m.pieces[i].area() * n
		}
	}
	return sum
}

// area is that of one piece, in square micrometres, down to a whole one.
func (p *Piece) area() int64 {
	n, ok := length.MulDiv(int64(p.Width), int64(p.Length), 1_000_000, length.Down)
	if !ok {
		return 1 << 50
	}
	return n
}

// problem is the pieces and the bolts in units. Of is the piece, or the first of those alike, of each stock.
func (m *maker) problem(bolts []int) (p *problem, of []int) {
	p = &problem{width: int64(m.cloth.Width / m.across), repeat: int64(m.cloth.Repeat / m.along), edges: m.opts.Mode == Guillotine}
	for _, b := range bolts {
		for _, s := range m.stretches(b) {
			u := stretch{int64(s.From / m.along), int64(s.To / m.along), int64(m.bolts[b].Lead / m.along), b}
			if m.bolts[b].Length == 0 && s.To == length.Max {
				u.to = endless
			}
			p.stretches = append(p.stretches, u)
		}
	}
	var all int64
	for i := range m.pieces {
		all += m.pieces[i].Count
	}
	// Where there are few, pieces alike may each have their own turn, unless all ways are
	// tried anyway.
	apart := all <= few && (p.edges || len(p.stretches) > 1)
	for i := range m.pieces {
		pc := &m.pieces[i]
		n := pc.Count
		if n == 0 {
			continue
		}
		w, h := int64(pc.Width/m.across), int64(pc.Length/m.along)
		p.pieces += n
		p.area += w * h * n
		add := func(n int64) {
			k := kind{w: w, h: h, stock: int32(len(of)), class: p.class(m.anchor(pc))}
			of, p.count = append(of, i), append(p.count, int32(n))
			if k.w <= p.width {
				p.kinds = append(p.kinds, k)
			}
			if pc.turns(m.cloth) && h <= p.width {
				k.w, k.h = h, w
				p.kinds = append(p.kinds, k)
			}
		}
		stock := -1
		if !apart {
			stock = slices.IndexFunc(of, func(j int) bool { return pc.alike(&m.pieces[j], m.cloth) })
		}
		switch {
		case apart:
			for range n {
				add(1)
			}
		case stock < 0:
			add(n)
		default:
			p.count[stock] += int32(n)
		}
	}
	return p, of
}

// anchor is where in the repeat a piece starts, in units; -1 for anywhere.
func (m *maker) anchor(p *Piece) int64 {
	if !p.Matched || m.cloth.Repeat <= 0 {
		return -1
	}
	return int64(p.Anchor / m.along)
}

// class is the class of pieces that start there.
func (p *problem) class(anchor int64) int32 {
	if anchor < 0 {
		return 0
	}
	anchor = after(anchor, p.repeat)
	for i, a := range p.anchors {
		if a == anchor {
			return int32(i + 1)
		}
	}
	p.anchors = append(p.anchors, anchor)
	return int32(len(p.anchors))
}

// alike reports whether two pieces may change places on a cloth.
func (p *Piece) alike(o *Piece, c *Cloth) bool {
	same := p.Width == o.Width && p.Length == o.Length && p.turns(c) == o.turns(c)
	if c.Repeat > 0 {
		same = same && p.Matched == o.Matched && (!p.Matched || (p.Anchor-o.Anchor)%c.Repeat == 0)
	}
	return same
}

// share gives each of the pieces laid that are alike its own number.
func (m *maker) share(placed []Placed) {
	left := m.counts()
	slices.SortStableFunc(placed, func(a, b Placed) int {
		return cmp.Or(cmp.Compare(a.Bolt, b.Bolt), cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X))
	})
	next := make(map[int]int, len(placed)) // by the first piece of those alike, the one whose turn it is
	first := make(map[int]int, len(placed))
	for i := range placed {
		p := placed[i].Piece
		f, ok := first[p]
		if !ok {
			f = slices.IndexFunc(m.pieces, func(o Piece) bool { return o.alike(&m.pieces[p], m.cloth) })
			first[p], next[f] = f, max(f, next[f])
		}
		j := next[f]
		for left[j] == 0 || !m.pieces[j].alike(&m.pieces[f], m.cloth) {
			j++
		}
		left[j]--
		next[f] = j
		placed[i].Piece = j
	}
}

// stretches are what of a bolt pieces may lie on.
func (m *maker) stretches(bolt int) (list []Stretch) {
	b := &m.bolts[bolt]
	end := b.Length
	if end == 0 {
		end = length.Max
	}
	for _, s := range Between(b.Flaws, end) {
		if s.From = max(s.From, b.Lead); s.From < s.To {
			list = append(list, s)
		}
	}
	return list
}

// bound is a length that no lay of all pieces is shorter than.
func (m *maker) bound() length.Length {
	if m.across == 0 {
		return roughly(m.cloth.Width, m.pieces)
	}
	var bolts []int
	for i := range m.bolts {
		bolts = append(bolts, i)
	}
	p, _ := m.problem(bolts)
	least := m.along.Mul(p.bound())
	if len(m.bolts) > 1 || least == 0 {
		return least
	}
	// On one bolt the flaws before that length are passed over.
	var sum length.Length
	for _, s := range m.stretches(0) {
		if sum += s.To - s.From; sum >= least {
			return s.To - (sum - least) - m.bolts[0].Lead
		}
	}
	return least
}

// Bound is a length that no lay of pieces on a cloth is shorter than, whatever the mode.
// What [Make] wants of them holds here too.
func Bound(cloth *Cloth, pieces []Piece) length.Length {
	return newMaker(context.Background(), cloth, pieces, Options{}).bound()
}

// Fits reports whether nothing speaks against laying all pieces on the cloth within a length
// as a mode has it. It sees more than [Bound], and may still miss that they don't fit.
func Fits(cloth *Cloth, pieces []Piece, mode Mode, within length.Length) bool {
	m := newMaker(context.Background(), cloth, pieces, Options{})
	if m.across == 0 || len(m.bolts) > 1 || len(m.bolts[0].Flaws) > 0 {
		return m.bound() <= within
	}
	p, _ := m.problem([]int{0})
	units := int64(within / m.along)
	return (mode == Free || p.comeFree(units)) && p.fits(units)
}

// All lays pieces in every mode up to the one in o. None of the lays is longer than one
// that is stricter, or leaves more.
func All(ctx context.Context, cloth *Cloth, pieces []Piece, o Options) (lays []*Lay, err error) {
	for i, mode := range Modes()[:o.Mode+1] {
		if i > 0 && lays[i-1].Left == nil && lays[i-1].Length <= o.Enough {
			as := *lays[i-1]
			as.Mode = mode
			lays = append(lays, &as)
			continue
		}
		o.Mode = mode
		l, err := Make(ctx, cloth, pieces, o)
		if err != nil {
			return nil, err
		}
		if i > 0 {
			if was := lays[i-1]; was.betterThan(l, pieces) {
				as := *was
				as.Mode, as.Steps, as.Short = mode, l.Steps, l.Short
				l = &as
			}
		}
		lays = append(lays, l)
	}
	return lays, nil
}

// betterThan reports whether more of the pieces are laid, or as much on less cloth.
func (l *Lay) betterThan(o *Lay, pieces []Piece) bool {
	return cmp.Or(cmp.Compare(o.area(pieces), l.area(pieces)), cmp.Compare(l.Length, o.Length)) < 0
}

// area is that of the pieces that are laid, in square micrometres.
func (l *Lay) area(pieces []Piece) (sum int64) {
	for _, p := range l.Pieces {
		sum += pieces[p.Piece].area()
	}
	return sum
}
