package draw

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/worksheet"
)

// How much of a piece's picture an edge takes: these are drawn wider than they are, so
// that the lines in them can be told apart.
const (
	foldDeep  px = 1300
	seamDeep  px = 1500
	turnDeep  px = 2600
	spareDeep px = 3000
)

// Piece writes the picture of a piece, or of a panel as it lies flat, right side up: its
// cut edges, fold and stitch lines, what is marked along its edges, and its sizes. It
// stands in a page that has [Shared] in it. It is not to scale.
func Piece(w io.Writer, of *worksheet.Pattern, u length.Unit) error {
	p := &piecePicture{Pattern: of, unit: u}
	p.lay()
	p.outline()
	p.edges()
	p.rows()
	p.sizes()
	p.name()
	_, err := io.WriteString(w, p.inline(of.Name, 0, 0))
	return err
}

type piecePicture struct {
	svg
	*worksheet.Pattern
	unit  length.Unit
	body  box   // the cloth as it is cut
	in    box   // between what the edges take
	band  [4]px // what they take of the picture, by side
	spare px
	round bool // it has one edge all round
}

func (p *piecePicture) show(l length.Length) string { return l.Format(p.unit, length.Nearest) }

// lay settles where the body lies.
func (p *piecePicture) lay() {
	switch p.Shape {
	case worksheet.Circle, worksheet.Racetrack, worksheet.HalfCircle:
		p.round = true
	}
	w, h, most, least := px(20000), px(19000), px(20000), px(11000)
	if p.wide() {
		w, most, least = 56000, 22000, 17000
	}
	if p.Width >= p.Length || p.wide() {
		h = min(max(scaled(p.Length, p.Width, w), least), most)
	} else {
		w = max(scaled(p.Width, p.Length, h), 9000)
	}
	for side := range p.Edges {
		e := &p.Edges[side]
		switch e.Making {
		case worksheet.Hemmed:
			p.band[side] = foldDeep * px(len(e.Folds))
		case worksheet.Seamed:
			p.band[side] = seamDeep
		case worksheet.Turned:
			p.band[side] = turnDeep
		}
		if e.Takes == 0 {
			p.band[side] = 0
		}
	}
	if p.Spare > 0 {
		p.spare = spareDeep
	}
	for i := range p.Rows {
		if r := &p.Rows[i]; r.Edge == worksheet.Right {
			h = max(h, min(wide(r.Name+", from "+r.From, smallSize), mostHigh))
		}
	}
	w = max(w, p.band[worksheet.Left]+p.band[worksheet.Right]+6000)
	h = max(h, p.band[worksheet.Top]+p.band[worksheet.Foot]+p.spare+8000)
	if p.Shape == worksheet.Circle && p.Width == p.Length { // whatever room there is, it is round
		w = max(h, min(w, mostRound))
		h = w
	}
	var lead [4]px
	for side := range lead {
		lead[side] = p.reachOf(worksheet.Side(side))
	}
	p.body = box{lead[worksheet.Left], lead[worksheet.Top], w, h}
	p.in = box{p.body.x + p.band[worksheet.Left], p.body.y + p.spare + p.band[worksheet.Top],
		w - p.band[worksheet.Left] - p.band[worksheet.Right], h - p.spare - p.band[worksheet.Top] - p.band[worksheet.Foot]}
	p.reach(p.body.x+w+lead[worksheet.Right]+600, p.body.y+h+lead[worksheet.Foot]+600)
	for i := range p.Rows { // what is marked along an edge is said from the body's left on
		if r := &p.Rows[i]; !upright(r.Edge) {
			_, long := p.rowSays(r)
			p.reach(min(p.body.x+long+600, mostWide), 0)
		}
	}
}

// As wide as a picture, and as high as a piece in it, are made for words; and as wide as a
// circle is drawn unless it has to be high.
const (
	mostWide  px = 68000
	mostHigh  px = 40000
	mostRound px = 26000
)

// upright reports whether a side runs up the picture.
func upright(side worksheet.Side) bool { return side == worksheet.Left || side == worksheet.Right }

// rowSays is what a row is and where it is measured from, small where there is not room
// for it large, and how long that is.
func (p *piecePicture) rowSays(r *worksheet.PatternRow) (size, long px) {
	says := r.Name + ", from " + r.From
	if long = wide(says, textSize); p.body.x+long+600 <= mostWide {
		return textSize, long
	}
	return smallSize, wide(says, smallSize)
}

// wide reports whether the picture takes the whole width of a page.
func (p *piecePicture) wide() bool {
	n := 0
	for _, r := range p.Rows {
		if !upright(r.Edge) {
			n = max(n, len(r.At))
		}
	}
	return p.Joined || n > 4
}

// The heights of a line of text, of the least of it, and of a measure with its text.
const (
	lineHigh       = textSize * 13 / 10
	measureHigh    = lineHigh + 500
	tickLong    px = 900
)

// reachOf is how much room the texts beyond a side take.
func (p *piecePicture) reachOf(side worksheet.Side) px {
	room := measureHigh
	if p.said(side) != "" {
		room += lineHigh
	}
	for i := range p.Rows {
		if r := &p.Rows[i]; r.Edge == side {
			room += p.rowDeep(r)
		}
	}
	return room + 700
}

// rowDeep is how much room the figures of a row take.
func (p *piecePicture) rowDeep(r *worksheet.PatternRow) px {
	var most px
	for _, l := range r.At {
		most = max(most, wide(p.show(l), textSize))
	}
	return tickLong + 300 + most + 300 + lineHigh
}

// said is what is said of an edge.
func (p *piecePicture) said(side worksheet.Side) string {
	e := &p.Edges[side]
	if p.round && side == worksheet.Top && p.Shape != worksheet.HalfCircle && e.Takes > 0 {
		return e.Word + " " + p.show(e.Takes) + " all round"
	}
	if p.round && (side != worksheet.Foot && side != worksheet.Top || p.Shape != worksheet.HalfCircle) {
		return ""
	}
	named := ""
	switch side {
	case worksheet.Left:
		named = p.Left
	case worksheet.Right:
		named = p.Right
	}
	text := e.Word
	if e.Takes > 0 {
		text += " " + p.show(e.Takes)
	}
	if n := len(e.Folds); e.Making == worksheet.Hemmed && n > 1 {
		text += fmt.Sprintf(", %d turns", n)
	}
	switch {
	case named == "":
		return text
	case text == "":
		return named
	}
	return named + ": " + text
}

// outline draws the cut edge, and the finished one.
func (p *piecePicture) outline() {
	b := p.body
	switch p.Shape {
	case worksheet.Circle:
		p.oval("cut", b)
		p.within(func(class string, in box) { p.oval(class, in) })
	case worksheet.HalfCircle:
		p.path("cut", "M%s %sV%sA%s %s 0 0 1 %s %sV%sZ", b.x, b.y+b.h, b.y+b.h-p.band[worksheet.Foot], b.w/2, b.h-p.band[worksheet.Foot], b.x+b.w, b.y+b.h-p.band[worksheet.Foot], b.y+b.h)
		d, low := p.band[worksheet.Top], b.y+b.h-p.band[worksheet.Foot]
		p.path("sewn", "M%s %sA%s %s 0 0 1 %s %s", b.x+d, low, b.w/2-d, b.h-p.band[worksheet.Foot]-d, b.x+b.w-d, low)
	case worksheet.Racetrack:
		p.rounded("cut", b, min(b.w, b.h)/2, true)
		p.within(func(class string, in box) { p.rounded(class, in, min(in.w, in.h)/2, true) })
	case worksheet.RoundFoot, worksheet.RoundAll:
		p.rounded("cut", b, min(b.w, b.h)/5, p.Shape == worksheet.RoundAll)
	case worksheet.Crescent:
		p.rect("cut", b)
		x, y, w, h := b.x+b.w/12, b.y+b.h/10, b.w*10/12, b.h*8/10
		p.path("sewn", "M%s %sQ%s %s %s %sL%s %sQ%s %s %s %sZ", x, y, b.x+b.w/2, y+h*9/10, x+w, y, x+w, y+h/2, b.x+b.w/2, y+h*16/10, x, y+h/2)
	default:
		p.rect("cut", b)
	}
}

// within draws the lines of an edge that goes all round.
func (p *piecePicture) within(draw func(class string, in box)) {
	b, e, deep := p.body, &p.Edges[worksheet.Top], p.band[worksheet.Top]
	for i := range e.Folds {
		draw(foldClass(e, i), b.inside(deep*px(i+1)/px(len(e.Folds))))
	}
	if e.Making == worksheet.Seamed && deep > 0 {
		draw("sewn", b.inside(deep))
	}
}

// foldClass is the kind of line of a fold: the last one is the finished edge.
func foldClass(e *worksheet.Edge, i int) string {
	if i == len(e.Folds)-1 {
		return "fold finished"
	}
	return "fold"
}

// oval draws an ellipse that fills a box.
func (s *svg) oval(class string, b box) {
	fmt.Fprintf(s, "<ellipse class=%q cx=\"%s\" cy=\"%s\" rx=\"%s\" ry=\"%s\"/>\n", class, b.x+b.w/2, b.y+b.h/2, b.w/2, b.h/2)
}

// path draws an outline: format is its commands, with a %s for each place.
func (s *svg) path(class, format string, at ...px) {
	args := make([]any, len(at))
	for i, a := range at {
		args[i] = a
	}
	fmt.Fprintf(s, "<path class=%q d=%q/>\n", class, fmt.Sprintf(format, args...))
}

// rounded draws a rectangle with rounded corners: all of them, or those at the foot.
func (s *svg) rounded(class string, b box, r px, all bool) {
	if all {
		fmt.Fprintf(s, "<rect class=%q x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\" rx=\"%s\"/>\n", class, b.x, b.y, b.w, b.h, r)
		return
	}
	s.path(class, "M%s %sH%sV%sA%s %s 0 0 1 %s %sH%sA%s %s 0 0 1 %s %sZ", b.x, b.y, b.x+b.w, b.y+b.h-r, r, r, b.x+b.w-r, b.y+b.h, b.x+r, r, r, b.x, b.y+b.h-r)
}

// edges draws the lines along the edges, and says what each edge is.
func (p *piecePicture) edges() {
	b := p.body
	if p.spare > 0 {
		p.rect("cloth", box{b.x, b.y, b.w, p.spare})
		p.line("cut", b.x, b.y+p.spare, b.x+b.w, b.y+p.spare)
		off := p.show(p.Spare)
		text, size := fitted(b.w-400, "cut away "+off, off+" off", off)
		p.text(b.x+b.w/2, b.y+p.spare/2+sink(size), size, "middle", text, false)
	}
	for side := range p.Edges {
		e, s := &p.Edges[side], worksheet.Side(side)
		if p.corners() {
			if s == worksheet.Foot || s == worksheet.Top && p.Shape == worksheet.RoundFoot {
				p.bends(e, s)
			}
		} else if !p.round || p.Shape == worksheet.HalfCircle && s == worksheet.Foot {
			for i := range e.Folds {
				p.along(s, foldClass(e, i), p.band[side]*px(i+1)/px(len(e.Folds)))
			}
			switch {
			case e.Making == worksheet.Seamed && e.Takes > 0:
				p.along(s, "sewn", p.band[side])
			case len(e.Sewn) > 0:
				p.along(s, "sewn", p.band[side]+p.sewnDeep(s))
			}
		}
		p.say(s, p.said(s))
	}
	if p.Shape == worksheet.Circle && p.Width == p.Length || p.Shape == worksheet.HalfCircle {
		r := "radius " + p.show(p.Width.Div(2, length.Nearest))
		text, size := fitted(p.in.w*9/10, r)
		p.text(p.in.x+p.in.w/2, p.in.y+p.in.h*7/8, size, "middle", text, false)
	}
	if p.Radius > 0 {
		r := p.show(p.Radius)
		text, size := fitted(p.in.w-1200, "corner radius "+r, "radius "+r, r)
		p.text(p.in.x+p.in.w-600, p.in.y+p.in.h-1800, size, "end", text, false)
	}
}

// belowFold is how far below the finished top the centers of holes are drawn.
const belowFold px = 1700

// sewnDeep is how far in from the finished edge a hem's stitch line is drawn. Holes in the
// hem lie between the two: both are measured from the finished edge.
func (p *piecePicture) sewnDeep(side worksheet.Side) px {
	e := &p.Edges[side]
	for i := range p.Rows {
		if r := &p.Rows[i]; side == worksheet.Top && r.Holes && r.Below > 0 && r.Below < e.Sewn[0]-e.Takes {
			return belowFold + 1100
		}
	}
	return foldDeep * 8 / 10
}

// fitted is the first of some wordings that has room, and its size: large, or else as
// small as may be read. Where none has room it is the last, shortened.
func fitted(room px, wordings ...string) (string, px) {
	for _, size := range []px{textSize, smallSize} {
		for _, text := range wordings {
			if wide(text, size) <= room {
				return text, size
			}
		}
	}
	return fit(wordings[len(wordings)-1], smallSize, room), smallSize
}

// corners reports whether some corners of it are rounded.
func (p *piecePicture) corners() bool {
	return p.Shape == worksheet.RoundFoot || p.Shape == worksheet.RoundAll
}

// bends draws the folds of an edge that goes round corners.
func (p *piecePicture) bends(e *worksheet.Edge, side worksheet.Side) {
	for i := range e.Folds {
		in, class := p.band[side]*px(i+1)/px(len(e.Folds)), foldClass(e, i)
		if side == worksheet.Top {
			p.along(side, class, in)
			continue
		}
		b := p.body.inside(in)
		if p.Shape == worksheet.RoundFoot {
			b.y, b.h = p.body.y, p.body.h-in
		}
		p.rounded(class, b, min(p.body.w, p.body.h)/5-in, p.Shape == worksheet.RoundAll)
	}
}

// along draws a line along an edge, so far in from it.
func (p *piecePicture) along(side worksheet.Side, class string, in px) {
	b := p.body
	switch top := b.y + p.spare; side {
	case worksheet.Top:
		p.line(class, b.x, top+in, b.x+b.w, top+in)
	case worksheet.Foot:
		p.line(class, b.x, b.y+b.h-in, b.x+b.w, b.y+b.h-in)
	case worksheet.Left:
		p.line(class, b.x+in, top, b.x+in, b.y+b.h)
	case worksheet.Right:
		p.line(class, b.x+b.w-in, top, b.x+b.w-in, b.y+b.h)
	}
}

// say writes what an edge is beside it.
func (p *piecePicture) say(side worksheet.Side, text string) {
	if text == "" {
		return
	}
	b := p.body
	off := px(500)
	for i := range p.Rows {
		if p.Rows[i].Edge == side {
			off += p.rowDeep(&p.Rows[i])
		}
	}
	across, down := b.x+b.w/2, b.y+b.h/2
	level := b.w + 2*min(b.x, p.reachOf(worksheet.Right))
	tall := b.h + 2*min(b.y, p.reachOf(worksheet.Foot)) - 2*lineHigh // clear of the measures
	if p.said(worksheet.Top) != "" || p.said(worksheet.Foot) != "" {
		tall = b.h
	}
	line := func(x, y px, most px, turned bool) {
		short, _, _ := strings.Cut(text, ", ")
		wordings := []string{text, short, strings.TrimSuffix(short, " all round")}
		if takes := p.show(p.Edges[side].Takes); p.Edges[side].Takes > 0 {
			if named, _, ok := strings.Cut(short, ": "); ok {
				wordings = append(wordings, named+", "+takes, strings.TrimSuffix(named, " edge")+", "+takes)
			}
			wordings = append(wordings, takes)
		}
		said, size := fitted(most, wordings...)
		p.text(x, y, size, "middle", said, turned)
	}
	switch side {
	case worksheet.Top:
		line(across, b.y-off, level, false)
	case worksheet.Foot:
		line(across, b.y+b.h+off+textSize, level, false)
	case worksheet.Left:
		line(b.x-off, down, tall, true)
	case worksheet.Right:
		line(b.x+b.w+off+textSize, down, tall, true)
	}
}

// place is where a length from the raw edge lies in the picture, from the left or up
// from the foot.
func (p *piecePicture) place(side worksheet.Side, l length.Length) px {
	netX, netY := p.Net()
	start, net, all, room, first := p.Edges[worksheet.Left].Takes, netX, p.Width, p.in.w, p.band[worksheet.Left]
	if upright(side) {
		start, net, all, room, first = p.Edges[worksheet.Foot].Takes, netY, p.Length-p.Spare, p.in.h, p.band[worksheet.Foot]
	}
	var at px
	switch l = min(max(l, 0), all); {
	case l < start:
		at = scaled(l, start, first)
	case l <= start+net:
		at = first + scaled(l-start, net, room)
	default:
		last := p.band[worksheet.Right]
		if upright(side) {
			last = p.band[worksheet.Top]
		}
		at = first + room + scaled(l-start-net, all-start-net, last)
	}
	if upright(side) {
		return p.body.y + p.body.h - at
	}
	return p.body.x + at
}

// rows draws what is marked along the edges, with running measurements.
func (p *piecePicture) rows() {
	var out [4]px
	for i := range p.Rows {
		r := &p.Rows[i]
		p.row(r, out[r.Edge])
		out[r.Edge] += p.rowDeep(r)
	}
}

func (p *piecePicture) row(r *worksheet.PatternRow, off px) {
	b := p.body
	last, next := px(0), px(-1<<40)
	if len(r.At) > 0 {
		last = p.place(r.Edge, r.Start+r.At[len(r.At)-1])
	}
	for i, l := range r.At {
		at := p.place(r.Edge, r.Start+l)
		p.mark(r, at)
		// Figures that would lie on each other are left to the ticket's lines.
		gap := textSize * 12 / 10
		step, end := at, last
		if upright(r.Edge) {
			step, end = -at, -last
		}
		fits := step >= next && (i == len(r.At)-1 || step+gap <= end)
		if fits {
			next = step + gap
		}
		switch r.Edge {
		case worksheet.Top:
			y := b.y - off
			p.line("mark", at, y, at, y-tickLong)
			if fits {
				p.text(at+sink(textSize), y-tickLong-300, textSize, "start", p.show(l), true)
			}
		case worksheet.Foot:
			y := b.y + b.h + off
			p.line("mark", at, y, at, y+tickLong)
			if fits {
				p.text(at+sink(textSize), y+tickLong+300, textSize, "end", p.show(l), true)
			}
		default:
			x := b.x + b.w + off
			p.line("mark", x, at, x+tickLong, at)
			if fits {
				p.text(x+tickLong+300, at+sink(textSize), textSize, "start", p.show(l), false)
			}
		}
	}
	says := r.Name + ", from " + r.From
	size, _ := p.rowSays(r)
	level := mostWide - b.x - 600
	deep := off + p.rowDeep(r) - lineHigh + 300
	switch r.Edge {
	case worksheet.Top:
		p.text(b.x, b.y-deep, size, "start", fit(says, size, level), false)
	case worksheet.Foot:
		p.text(b.x, b.y+b.h+deep+textSize, size, "start", fit(says, size, level), false)
	default:
		text, size := fitted(b.h+2*min(b.y, 5000), says)
		p.text(b.x+b.w+deep+size, b.y+b.h/2, size, "middle", text, true)
	}
}

// mark draws what a mark is on the cloth: a line through it, a hole, or a nick.
func (p *piecePicture) mark(r *worksheet.PatternRow, at px) {
	b, in := p.body, p.in
	switch {
	case r.Through && upright(r.Edge):
		p.line("through", b.x, at, b.x+b.w, at)
	case r.Through:
		p.line("through", at, b.y+p.spare, at, b.y+b.h)
	case r.Holes:
		y := in.y
		if r.Below > 0 {
			y += belowFold
		}
		p.oval("hole", box{at - 550, y - 550, 1100, 1100})
		p.line("mark", at, b.y, at, y)
	case r.Edge == worksheet.Top:
		p.line("nick", at, in.y, at, in.y+1600)
		p.line("mark", at, b.y, at, in.y)
	case r.Edge == worksheet.Foot:
		p.line("nick", at, in.y+in.h-1600, at, in.y+in.h)
		p.line("mark", at, in.y+in.h, at, b.y+b.h)
	default:
		p.line("nick", in.x+in.w-1600, at, in.x+in.w, at)
	}
}

// sizes draws the measures of the cut edges, above and at the right, and of what is
// between the lines, below and at the left.
func (p *piecePicture) sizes() {
	b, in := p.body, p.in
	across, along := p.Net()
	cutW, cutL := p.Width.Format(p.unit, p.Round[0]), p.Length.Format(p.unit, p.Round[1])
	what := "cut "
	if p.Joined {
		what = "flat "
	}
	off := func(side worksheet.Side) px { return p.reachOf(side) - measureHigh - 100 }
	p.measure(b.x, b.y-off(worksheet.Top), b.w, false, what+cutW, cutW)
	p.measure(b.y, b.x+b.w+off(worksheet.Right)+lineHigh+200, b.h, true, what+cutL, cutL)
	if across != p.Width {
		p.measure(in.x, b.y+b.h+off(worksheet.Foot)+lineHigh+200, in.w, false, p.show(across)+" between the lines", p.show(across))
	}
	if along != p.Length {
		p.measure(in.y, b.x-off(worksheet.Left), in.h, true, p.show(along)+" between the lines", p.show(along))
	}
}

// measure draws a measure with its text over it: from a place on, so long, at a height.
// Where there is not room for all of the text it is the length alone, which is read at
// arm's length.
func (p *piecePicture) measure(from, at, long px, up bool, text, alone string) {
	text, size := fitted(long+4000, text, alone)
	if up {
		p.line("measure", at, from, at, from+long)
		p.text(at-300, from+long/2, size, "middle", text, true)
		return
	}
	p.line("measure", from, at, from+long, at)
	p.text(from+long/2, at-300, size, "middle", text, false)
}

// through is where lines lie through the piece: from the left, and from the top.
func (p *piecePicture) through() (across, up []px) {
	for i := range p.Rows {
		for _, l := range p.Rows[i].At {
			if r := &p.Rows[i]; r.Through {
				at := p.place(r.Edge, r.Start+l)
				if upright(r.Edge) {
					up = append(up, at)
				} else {
					across = append(across, at)
				}
			}
		}
	}
	return across, up
}

// gaps are the stretches that some places leave of one, each as where it begins and ends.
func gaps(at []px, from, to px) (list [][2]px) {
	slices.Sort(at)
	for _, next := range append(at, to) {
		if next = min(max(next, from), to); next > from {
			list = append(list, [2]px{from, next})
			from = next
		}
	}
	return list
}

// widest is the widest of some gaps.
func widest(list [][2]px) (from, long px) {
	for _, g := range list {
		if g[1]-g[0] > long {
			from, long = g[0], g[1]-g[0]
		}
	}
	return from, long
}

// between is the middle of the gap nearest to a place that has so much room; the place
// itself where it has that, or none has.
func between(list [][2]px, at, room px) px {
	best := px(1 << 40)
	mid := at
	for _, g := range list {
		if g[1]-g[0] < room {
			continue
		}
		to := min(max(at, g[0]+room/2), g[1]-room/2)
		if d := max(to-at, at-to); d < best {
			best, mid = d, to
		}
	}
	return mid
}

// name writes what the piece is, and how it lies.
func (p *piecePicture) name() {
	in := p.in
	joins, rods := p.through()
	if from, long := widest(gaps(joins, in.x, in.x+in.w)); long >= 7000 {
		in.x, in.w = from, long
	}
	rows := gaps(rods, in.y, in.y+in.h)
	if from, long := widest(rows); long >= 7000 {
		in.y, in.h, rows = from, long, nil
	}
	x := in.x + 2200
	if p.round {
		x = in.x + in.w/4
	}
	top, foot := in.y+in.h/4, in.y+in.h*3/4
	class := "grain both"
	if p.Cloth != nil && p.Cloth.Order.Nap.Value == "one way" {
		class = "grain"
	}
	if p.Cloth != nil {
		top = between(rows, top-500-sink(smallSize), smallSize*12/10) + 500 + sink(smallSize)
		p.line(class, x, foot, x, top)
		p.text(x, top-500, smallSize, "middle", "up", false)
	}
	room := in.x + in.w - x - 800
	if p.Shape == worksheet.Crescent { // on the band, which is lowest in the middle
		p.text(in.x+in.w/2, in.y+in.h*7/10+sink(textSize), textSize, "middle", p.Name, false)
		return
	}
	if wide(p.Name, textSize) <= room {
		p.text(x+800+room/2, between(rows, in.y+in.h/2, lineHigh)+sink(textSize), textSize, "middle", p.Name, false)
		return
	}
	p.text(x+800+room/2+sink(textSize), in.y+in.h/2, textSize, "middle", fit(p.Name, textSize, in.h-1000), true)
}

// Key says what the lines of the pictures of pieces are.
func Key() string {
	var p svg
	x, y := px(0), px(0)
	for i, e := range []struct{ class, says string }{
		{"cut", "cut edge"}, {"fold", "fold"}, {"fold finished", "fold at the finished edge"}, {"sewn", "stitch line"}, {"hole", "center of a hole"},
		{"through", "join, rod, fold or corner to mark"}, {"nick", "a pleat, a button, a zip's end to mark"},
		{"grain both", "grain, its top up"}, {"grain", "nap that runs one way, its top up"},
	} {
		if i == 5 {
			x, y = 29000, 0
		}
		y += 2200
		switch mid := y - 550; e.class {
		case "hole":
			p.oval("hole", box{x + 2200, mid - 550, 1100, 1100})
		case "nick":
			p.line("nick", x+2750, mid-800, x+2750, mid+800)
		default:
			p.line(e.class, x+200, mid, x+5200, mid)
		}
		p.text(x+6200, y, textSize, "start", e.says, false)
	}
	y = 5 * 2200
	p.reach(0, y+700)
	return p.inline("what the lines are", 0, 0)
}
