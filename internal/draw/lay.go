package draw

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strconv"

	"cutgate/internal/lay"
	"cutgate/internal/length"
	"cutgate/internal/spread"
	"cutgate/internal/worksheet"
)

// The parts of a lay's picture, from the left: the running length, the cloth, and what is
// said beside it.
const (
	clothWide px = 56000
	scaleWide px = 11000
	leaderGap px = 2600
	layMargin px = 2000
	pad       px = 500 // between a piece's edge and its words
)

// Lay writes the picture of a spread in the mode that is asked for: each bolt with its
// pieces, as they lie, from the top down. Pieces have the numbers of the cut list: along
// each bolt, and across it from the left.
func Lay(w io.Writer, s *spread.Spread) error {
	_, err := io.WriteString(w, layOf(s).whole("Lay of "+s.Cloth))
	return err
}

// LayInline writes the same as a part of a page that has [Shared] in it.
func LayInline(w io.Writer, s *spread.Spread) error {
	p := layOf(s)
	p.reach(p.right+pad, p.bottom+pad)
	_, err := io.WriteString(w, p.inline("Lay of "+s.Cloth))
	return err
}

func layOf(s *spread.Spread) *layPicture {
	p := &layPicture{Spread: s, lay: s.Lay()}
	p.begin()
	bolts := s.Stuff.Bolts
	if len(bolts) == 0 {
		bolts = []lay.Bolt{{}}
	}
	for i := range bolts {
		if p.lay.Reach[i] > 0 || len(bolts) == 1 {
			p.bolt(i, &bolts[i])
		}
	}
	p.key()
	return p
}

type layPicture struct {
	svg
	*spread.Spread
	lay *lay.Lay
	y   px // where the next thing goes
}

// scale is a length in the picture.
func (p *layPicture) scale(l length.Length) px {
	n, _ := length.MulDiv(int64(l), int64(clothWide), int64(p.Stuff.Width), length.Nearest)
	return px(n)
}

func (p *layPicture) show(l length.Length) string { return l.Format(p.Unit, length.Nearest) }

// begin writes the heading.
func (p *layPicture) begin() {
	p.y = layMargin + headSize
	p.text(layMargin, p.y, headSize, "start", fit("Lay of "+p.Cloth, headSize, scaleWide+clothWide+24000), false)
	wide := p.show(p.Width) + " wide"
	if within := p.Within(); within != "" {
		wide += ", " + within
	}
	lines := []string{fmt.Sprintf("%s, laid %s: %s", wide, modeWords[p.Mode], p.show(p.lay.Length))}
	if p.lay.Left == nil {
		lines = append(lines, "no lay is shorter than "+p.show(p.lay.Bound))
	} else {
		lines = append(lines, "NOT ALL PIECES FIND ROOM: see the list of cuts")
	}
	if p.Start > 0 && len(p.Stuff.Bolts) == 0 {
		lines = append(lines, "and up to "+p.show(p.Start)+" before the first motif")
	}
	var orders []string
	for _, s := range p.Orders {
		orders = append(orders, cmp.Or(s.Order.Number.Value, "order without a number"))
	}
	lines = append(lines, worksheet.Many(len(orders), "order")+": "+worksheet.FirstOf(orders, 4))
	for _, l := range lines {
		p.y += textSize * 14 / 10
		p.text(layMargin, p.y, textSize, "start", fit(l, textSize, scaleWide+clothWide+24000), false)
	}
	p.y += textSize
}

// modeWords are the modes as they are said of a lay.
var modeWords = [...]string{lay.Rows: "in rows", lay.Guillotine: "for cuts from edge to edge", lay.Free: "freely"}

// fit shortens a text to a width.
func fit(text string, size, room px) string {
	for wide(text, size) > room {
		r := []rune(text)
		if len(r) < 3 {
			return ""
		}
		text = string(r[:len(r)-2]) + "…"
	}
	return text
}

// bolt draws one bolt as far as it is cut.
func (p *layPicture) bolt(n int, b *lay.Bolt) {
	p.y += textSize * 2
	title := fmt.Sprintf("Bolt %d", n+1)
	if b.Lot != "" {
		title += ", lot " + b.Lot
	}
	if b.Length > 0 {
		title += ", " + p.show(b.Length)
	}
	p.text(layMargin, p.y, textSize, "start", fit(title, textSize, scaleWide+clothWide+24000), false)
	p.y += textSize
	left, top := layMargin+scaleWide, p.y
	end := p.lay.Reach[n]
	at := func(l length.Length) px { return top + p.scale(l) }
	p.rect("cloth", box{left, top, clothWide, p.scale(end)})
	if b.Lead > 0 {
		lead := box{left, top, clothWide, p.scale(min(b.Lead, end))}
		p.rect("lead", lead)
		p.within(lead, []string{"up to " + p.show(b.Lead) + " before the first motif"}, false)
	}
	for _, f := range b.Flaws {
		if f.From < end {
			p.rect("flaw", box{left, at(f.From), clothWide, p.scale(min(f.To, end)) - p.scale(f.From)})
		}
	}
	var beside []note
	marks := []length.Length{0, end}
	for i, l := range p.lay.Pieces {
		if l.Bolt != n {
			continue
		}
		marks = append(marks, l.Y, l.Y+l.Length)
		piece := box{left + p.scale(l.X), at(l.Y), p.scale(l.X+l.Width) - p.scale(l.X), p.scale(l.Y+l.Length) - p.scale(l.Y)}
		p.rect("piece", piece)
		if !p.label(piece, i, &l) {
			beside = append(beside, note{piece.x + piece.w/2, piece.y + piece.h/2, strconv.Itoa(i+1) + " " + p.words(i, &l, true)})
		}
	}
	for _, f := range b.Flaws {
		if f.From < end {
			beside = append(beside, note{left + clothWide, (at(f.From) + at(min(f.To, end))) / 2, "flaw, " + p.show(f.From) + " to " + p.show(f.To)})
		}
	}
	p.grid(left, top, b.Lead, end)
	p.line("edge", left, top, left, at(end))
	p.line("edge", left+clothWide, top, left+clothWide, at(end))
	p.line("open", left, top, left+clothWide, top)
	p.line("edge", left, at(end), left+clothWide, at(end))
	low := p.running(left, top, marks)
	low = max(low, p.notes(beside, left+clothWide, top), at(end))
	if rest := b.Length - end; b.Length > 0 && rest > 0 {
		p.text(left, at(end)+textSize*15/10, textSize, "start", p.show(rest)+" left on the bolt", false)
		low = max(low, at(end)+textSize*2)
	}
	p.y = low + textSize
}

// words say what a piece is: its name and size, and the item and order that it is for.
func (p *layPicture) words(i int, l *lay.Placed, short bool) string {
	c := &p.Cuts[l.Piece]
	text := c.Name + " " + p.size(l)
	if who := p.who(c); who != "" {
		text += ", " + who
	}
	if short {
		return fit(text, smallSize, 34000)
	}
	return text
}

// size is a piece's, across and along, in one unit.
func (p *layPicture) size(l *lay.Placed) string {
	text, _ := p.Size(l.Piece)
	if l.Turned {
		text += ", turned"
	}
	if a := p.Pieces[l.Piece]; a.Matched && a.Anchor > 0 {
		text += ", half a repeat down"
	}
	return text
}

// who is the item that a piece is for, and its order where there are several.
func (p *layPicture) who(c *spread.Cut) string {
	it := p.Item(c)
	text := p.ItemName(c)
	if it.Quantity > 1 {
		text += fmt.Sprintf(" %d", c.N+1)
	}
	if len(p.Orders) > 1 {
		text += " of " + cmp.Or(p.Orders[c.Order].Order.Number.Value, "order without a number")
	}
	return text
}

// label writes what a piece is into it, as much as has room, and its grain. It reports
// whether it could.
func (p *layPicture) label(b box, i int, l *lay.Placed) bool {
	c := &p.Cuts[l.Piece]
	number := strconv.Itoa(i + 1)
	name := number + "  " + c.Name
	for _, lines := range [][]string{
		{name, p.size(l), p.who(c)},
		{name + " " + p.size(l), p.who(c)},
		{name + " " + p.size(l) + ", " + p.who(c)},
	} {
		if p.within(b, lines, true) {
			return true
		}
	}
	return false
}

// within writes lines into a box, beside an arrow for the grain or its room, and reports
// whether they have room; turned, where it is narrow.
func (p *layPicture) within(b box, lines []string, grain bool) bool {
	for _, size := range []px{textSize, smallSize} {
		var across px
		for _, l := range lines {
			across = max(across, wide(l, size))
		}
		along := size * px(len(lines)*13) / 10
		arrow := 2 * pad
		switch {
		case across+arrow+3*pad <= b.w && along+pad <= b.h:
			if grain {
				p.grain(b.x+2*pad, b.y, b.h)
			}
			y := b.y + (b.h-along)/2 + size
			for _, l := range lines {
				p.text(b.x+arrow+2*pad, y, size, "start", l, false)
				y += size * 13 / 10
			}
			return true
		case along+arrow+3*pad <= b.w && across+2*pad <= b.h:
			if grain {
				p.grain(b.x+2*pad, b.y, b.h)
			}
			x := b.x + arrow + 2*pad + size
			for _, l := range lines {
				p.text(x, b.y+b.h/2+across/2, size, "start", l, true)
				x += size * 13 / 10
			}
			return true
		}
	}
	return false
}

// grain draws an arrow along the bolt: with a head where the nap runs, or with two.
func (p *layPicture) grain(x, y, h px) {
	if h < 2400 {
		return
	}
	class := "grain both"
	if p.NotTurns == spread.OneWay {
		class = "grain"
	}
	in := min(h/8, 2000)
	p.line(class, x, y+in, x, y+h-in)
}

// grid draws where the repeat begins, over the cloth and the pieces.
func (p *layPicture) grid(left, top px, lead, end length.Length) {
	if p.Stuff.Repeat > 0 {
		for y := lead; y < end; y += p.Stuff.Repeat {
			p.line("repeat", left, top+p.scale(y), left+clothWide, top+p.scale(y))
			if half := y + p.Stuff.Repeat/2; p.Drop && half < end {
				p.line("drop", left, top+p.scale(half), left+clothWide, top+p.scale(half))
			}
		}
	}
	if p.Across > 0 {
		for x := p.Across; x < p.Stuff.Width; x += p.Across {
			p.line("repeat", left+p.scale(x), top+p.scale(lead), left+p.scale(x), top+p.scale(end))
		}
	}
}

// running writes the running length beside the cloth, at the edges of pieces that are far
// enough apart to be read, and returns how far down it goes.
func (p *layPicture) running(left, top px, marks []length.Length) (low px) {
	slices.Sort(marks)
	marks = slices.Compact(marks)
	end := top + p.scale(marks[len(marks)-1])
	next := top
	for i, m := range marks {
		y := top + p.scale(m)
		p.line("mark", left-700, y, left, y)
		if i == len(marks)-1 || y >= next && y+textSize*12/10 <= end {
			p.text(left-1000, y+textSize*35/100, textSize, "end", p.show(m), false)
			next = y + textSize*12/10
			low = y + textSize/2
		}
	}
	return low
}

// A note is said beside the cloth of a place on it.
type note struct {
	x, y px
	text string
}

// notes writes notes one below the other, each with a line to its place, and returns how
// far down they go.
func (p *layPicture) notes(list []note, x, top px) px {
	slices.SortStableFunc(list, func(a, b note) int { return cmp.Compare(a.y, b.y) })
	next := top
	for _, n := range list {
		y := max(next, n.y)
		p.line("leader", n.x, n.y, x+leaderGap-400, y)
		p.text(x+leaderGap, y+smallSize*35/100, smallSize, "start", n.text, false)
		next = y + smallSize*13/10
	}
	return next
}

// key says what the lines and areas are.
func (p *layPicture) key() {
	type entry struct{ kind, class, says string }
	list := []entry{{"rect", "cloth", "waste, or cloth for something else"}, {"arrow", "grain both", "grain"}}
	if p.NotTurns == spread.OneWay {
		list[1] = entry{"arrow", "grain", "grain, and the way the nap runs: all pieces lie the same way up"}
	}
	if p.Stuff.Repeat > 0 {
		list = append(list, entry{"line", "repeat", "repeat, every " + p.show(p.Stuff.Repeat)})
		if p.Drop {
			list = append(list, entry{"line", "drop", "half a repeat down, for every other width of a half drop"})
		}
	}
	if slices.ContainsFunc(p.Stuff.Bolts, func(b lay.Bolt) bool { return len(b.Flaws) > 0 }) {
		list = append(list, entry{"rect", "flaw", "flaw"})
	}
	p.y += textSize
	for _, e := range list {
		p.y += textSize * 17 / 10
		mid := p.y - textSize*35/100
		switch e.kind {
		case "rect":
			p.rect(e.class, box{layMargin, mid - 700, 5000, 1400})
			if e.class == "cloth" {
				p.rect("mark", box{layMargin, mid - 700, 5000, 1400})
			}
		default:
			p.line(e.class, layMargin, mid, layMargin+5000, mid)
		}
		p.text(layMargin+6500, p.y, textSize, "start", e.says, false)
	}
	p.reach(0, p.y)
}
