package draw

import (
	"cmp"
	"fmt"
	"io"
	"iter"
	"slices"
	"strconv"
	"strings"

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

// saysWide is the longest line above and below the cloth.
const saysWide px = scaleWide + clothWide + 24000

// highest is the height of a picture of a lay on a sheet of paper, without the words above
// and below it.
const highest px = 56000

// Lays writes the lays of spreads as one picture, in rows of sheets, with what could not
// be laid below them. Pieces have the numbers of the cut list: along each bolt, and across
// it from the left. What warn says stands above each, and in the picture's title.
func Lays(w io.Writer, list []*spread.Spread, left []spread.Left, warn Warn) error {
	var sheets []*layPicture
	var cloths, warnings []string
	for _, s := range list {
		said := warn(s)
		of := sheetsOf(s, said)
		if of == nil {
			of = []*layPicture{inOne(s, said)}
		}
		for _, text := range said {
			if !slices.Contains(warnings, text) {
				warnings = append(warnings, text)
			}
		}
		sheets = append(sheets, of...)
		cloths = append(cloths, s.Cloth)
	}
	title := "Lay"
	if cloths != nil {
		title += " of " + strings.Join(cloths, ", ")
	}
	title = warned(title, warnings)
	across := 1
	for across*across < len(sheets) {
		across++
	}
	var all svg
	var wide, y px
	for _, p := range sheets {
		p.list()
		p.key()
		wide = max(wide, p.right)
	}
	for row := range slices.Chunk(sheets, across) {
		low := y
		for i, p := range row {
			x := px(i) * (wide + sheetGap)
			all.WriteString(p.inline(p.called(), x, y))
			all.reach(x+p.right, y+p.bottom)
			low = max(low, y+p.bottom)
		}
		y = low + sheetGap
	}
	for _, l := range left {
		y += textSize * 17 / 10
		all.text(layMargin, y, textSize, "start", "NOT LAID: "+l.Cloth+" of "+number(l.Order)+": "+l.Why, false)
	}
	_, err := io.WriteString(w, all.whole(title))
	return err
}

// A Warn says what stands in the way of cutting a spread: a line for each; none where
// nothing does.
type Warn func(*spread.Spread) []string

// warned is a title with what is to be heard before it is cut.
func warned(title string, warnings []string) string {
	return strings.Join(append([]string{title}, warnings...), ". ")
}

// called is the title of the picture.
func (p *layPicture) called() string { return warned("Lay of "+p.Cloth, p.warnings) }

// number is what an order is called.
func number(s *worksheet.Sheet) string {
	return cmp.Or(s.Order.Number.Value, "order without a number")
}

// sheetGap is between the sheets of a picture.
const sheetGap px = 2000

// LaysInline are pictures of the same as parts of a page that has [Shared] in it, each for
// a sheet of paper; none are returned where that can't be done.
func LaysInline(s *spread.Spread, warn Warn) (list []string) {
	for _, p := range sheetsOf(s, warn(s)) {
		p.key()
		list = append(list, p.inline(p.called(), 0, 0))
	}
	return list
}

// sheetsOf are pictures of a spread in the mode that is asked for, each for a sheet of
// paper: each bolt with its pieces, as they lie, from the top down. A lay that is too long
// to be read in one piece is cut where no piece is, and stands in columns; none are
// returned where that can't be done.
func sheetsOf(s *spread.Spread, warnings []string) (list []*layPicture) {
	if l := s.Lay(); 4*l.Length <= 5*s.Stuff.Width {
		return []*layPicture{inOne(s, warnings)}
	}
	for i, b := range boltsOf(s) {
		sheets := inColumns(s, i, &b, warnings)
		if sheets == nil {
			return nil
		}
		list = append(list, sheets...)
	}
	return list
}

// inColumns are pictures of a bolt: one with two columns if they hold it, or else as many
// as it takes with three. Beside the columns is only room for numbers where pieces are too
// small for them.
func inColumns(s *spread.Spread, bolt int, b *lay.Bolt, warnings []string) (list []*layPicture) {
	at := clearings(s.Lay(), bolt)
	for _, c := range [...]format{{2, 0}, {2, numbersWide}, {3, 0}, {3, numbersWide}} {
		sheets, ok := c.divide(at, s.Stuff.Width)
		if !ok || c.columns == 2 && len(sheets) > 1 {
			continue
		}
		list = nil
		unsaid := false
		for _, sheet := range sheets {
			p := begun(s, warnings)
			p.columns(bolt, b, sheet, c)
			list = append(list, p)
			unsaid = unsaid || p.unsaid
		}
		if !unsaid || c.beside > 0 {
			return list
		}
	}
	return list
}

// A format is how many columns a sheet has, and the room beside each.
type format struct {
	columns int
	beside  px
}

const numbersWide px = leaderGap + 3*smallSize

// wide is how wide the cloth is in a column.
func (f format) wide() px { return (mostWide-layMargin)/px(f.columns) - scaleWide - f.beside }

// clearings are the places along a bolt that no piece lies across, with its ends.
func clearings(l *lay.Lay, bolt int) []length.Length {
	at, reach := []length.Length{0}, length.Length(0)
	for _, p := range l.Pieces {
		if p.Bolt != bolt {
			continue
		}
		if p.Y >= reach && p.Y > at[len(at)-1] {
			at = append(at, p.Y)
		}
		reach = max(reach, p.Y+p.Length)
	}
	return append(at, l.Reach[bolt])
}

// divide cuts a lay, at the given places, into columns of much the same length, so many to
// a sheet, and reports whether each has room.
func (f format) divide(at []length.Length, wide length.Length) (sheets [][]lay.Stretch, ok bool) {
	most, _ := length.MulDiv(int64(highest), int64(wide), int64(f.wide()), length.Down)
	list := divided(at, length.Length(most))
	if list == nil {
		return nil, false
	}
	full := (len(list) + f.columns - 1) / f.columns * f.columns
	for room := most * 15 / 16; ; room = room * 15 / 16 {
		shorter := divided(at, length.Length(room))
		if shorter == nil || len(shorter) > full {
			break
		}
		list = shorter
	}
	for c := range slices.Chunk(list, f.columns) {
		sheets = append(sheets, c)
	}
	return sheets, true
}

// divided is a lay in stretches no longer than room; nil where one has to be.
func divided(at []length.Length, room length.Length) (list []lay.Stretch) {
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] > room {
			return nil
		}
		if k := len(list); k > 0 && at[i]-list[k-1].From <= room {
			list[k-1].To = at[i]
			continue
		}
		list = append(list, lay.Stretch{From: at[i-1], To: at[i]})
	}
	return list
}

// inOne is a picture of a spread with every bolt in one piece.
func inOne(s *spread.Spread, warnings []string) *layPicture {
	p := begun(s, warnings)
	p.bolts()
	return p
}

// begun is a picture with its heading.
func begun(s *spread.Spread, warnings []string) *layPicture {
	p := &layPicture{Spread: s, lay: s.Lay(), wide: clothWide, warnings: warnings}
	p.begin()
	return p
}

// boltsOf are the bolts of a spread that anything is cut from; one without an end where
// none are stated.
func boltsOf(s *spread.Spread) iter.Seq2[int, lay.Bolt] {
	bolts := s.Stuff.Bolts
	if len(bolts) == 0 {
		bolts = []lay.Bolt{{}}
	}
	return func(yield func(int, lay.Bolt) bool) {
		for i, b := range bolts {
			if (s.Lay().Reach[i] > 0 || len(bolts) == 1) && !yield(i, b) {
				return
			}
		}
	}
}

func (p *layPicture) bolts() {
	for i, b := range boltsOf(p.Spread) {
		p.bolt(i, &b)
	}
}

type layPicture struct {
	svg
	*spread.Spread
	lay    *lay.Lay
	y      px            // where the next thing goes
	wide   px            // the cloth
	narrow bool          // it stands in columns, with room for numbers at most beside it
	brief  []int         // the pieces that do not say all in the columns, from 0
	also   []string      // what else has no room to be said there
	unsaid bool          // a piece has no number in it
	goesOn bool          // a bolt goes on in another column
	from   length.Length // where the stretch of the bolt begins that is drawn

	warnings []string
}

// scale is a length in the picture.
func (p *layPicture) scale(l length.Length) px { return scaled(l, p.Stuff.Width, p.wide) }

// down is where a length along the bolt lies in a stretch of it that is drawn from top.
func (p *layPicture) down(top px, l length.Length) px { return top + p.scale(l) - p.scale(p.from) }

func (p *layPicture) show(l length.Length) string { return l.Format(p.Unit, length.Nearest) }

// begin writes the heading.
func (p *layPicture) begin() {
	p.y = layMargin + headSize
	p.text(layMargin, p.y, headSize, "start", fit("Lay of "+p.Cloth, headSize, saysWide), false)
	for _, text := range p.warnings {
		p.y += headSize * 13 / 10
		p.text(layMargin, p.y, headSize, "start", fit(text, headSize, saysWide), false)
	}
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
		orders = append(orders, number(s))
	}
	lines = append(lines, worksheet.Many(len(orders), "order")+": "+worksheet.FirstOf(orders, 4))
	for _, l := range lines {
		p.y += textSize * 14 / 10
		p.text(layMargin, p.y, textSize, "start", fit(l, textSize, saysWide), false)
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
	p.title(n, b)
	end := p.lay.Reach[n]
	left, low := layMargin+scaleWide, p.y+p.scale(end)
	p.y = p.stretch(n, b, left, lay.Stretch{To: end})
	if rest := b.Length - end; b.Length > 0 && rest > 0 {
		p.text(left, low+textSize*15/10, textSize, "start", p.show(rest)+" left on the bolt", false)
		p.y = max(p.y, low+textSize*2)
	}
	p.y += textSize
}

// columns draws stretches of a bolt side by side.
func (p *layPicture) columns(i int, b *lay.Bolt, list []lay.Stretch, f format) {
	p.title(i, b)
	p.wide, p.narrow = f.wide(), true
	top, low := p.y, p.y
	for c, s := range list {
		p.y = top
		low = max(low, p.stretch(i, b, layMargin+scaleWide+px(c)*(scaleWide+p.wide+f.beside), s))
	}
	if end := list[len(list)-1].To; end == p.lay.Reach[i] && b.Length > end {
		p.also = append(p.also, p.show(b.Length-end)+" left on the bolt")
	}
	p.y = low + textSize
}

// title writes what a bolt is.
func (p *layPicture) title(n int, b *lay.Bolt) {
	p.y += textSize * 2
	title := fmt.Sprintf("Bolt %d", n+1)
	if b.Lot != "" {
		title += ", lot " + b.Lot
	}
	if b.Length > 0 {
		title += ", " + p.show(b.Length)
	}
	p.text(layMargin, p.y, textSize, "start", fit(title, textSize, saysWide), false)
	p.y += textSize
}

// stretch draws a part of a bolt from a place on, and returns how far down it goes. No
// piece lies across its ends.
func (p *layPicture) stretch(n int, b *lay.Bolt, left px, s lay.Stretch) px {
	top := p.y
	p.from = s.From
	at := func(l length.Length) px { return p.down(top, l) }
	p.rect("cloth", box{left, top, p.wide, at(s.To) - top})
	if b.Lead > 0 && s.From == 0 {
		lead := box{left, top, p.wide, at(min(b.Lead, s.To)) - top}
		p.rect("lead", lead)
		if says := "up to " + p.show(b.Lead) + " before the first motif"; !p.within(lead, []string{says}, false) {
			p.also = append(p.also, says)
		}
	}
	var flaws, whole []lay.Stretch // as far as they are drawn, and all of each
	for _, f := range b.Flaws {
		if f.From < s.To && f.To > s.From {
			whole = append(whole, f)
			f.From, f.To = max(f.From, s.From), min(f.To, s.To)
			flaws = append(flaws, f)
			p.rect("flaw", box{left, at(f.From), p.wide, at(f.To) - at(f.From)})
		}
	}
	var beside []note
	marks := []length.Length{s.From, s.To}
	for i, l := range p.lay.Pieces {
		if l.Bolt != n || l.Y < s.From || l.Y >= s.To {
			continue
		}
		marks = append(marks, l.Y, l.Y+l.Length)
		piece := box{left + p.scale(l.X), at(l.Y), p.scale(l.X+l.Width) - p.scale(l.X), at(l.Y+l.Length) - at(l.Y)}
		p.rect("piece", piece)
		switch {
		case p.label(piece, i, &l):
		case p.narrow:
			p.unsaid = true
			p.brief = append(p.brief, i)
			beside = append(beside, note{piece.x + piece.w/2, piece.y + piece.h/2, strconv.Itoa(i + 1)})
		default:
			beside = append(beside, note{piece.x + piece.w/2, piece.y + piece.h/2, strconv.Itoa(i+1) + " " + p.words(i, &l, true)})
		}
	}
	for i, f := range flaws {
		says := "flaw, " + p.show(whole[i].From) + " to " + p.show(whole[i].To)
		if p.narrow {
			p.also = append(p.also, says)
		} else {
			beside = append(beside, note{left + p.wide, (at(f.From) + at(f.To)) / 2, says})
		}
	}
	p.grid(left, top, b.Lead, s.To)
	p.line("edge", left, top, left, at(s.To))
	p.line("edge", left+p.wide, top, left+p.wide, at(s.To))
	ends := [2]string{"edge", "edge"}
	if s.From > 0 {
		ends[0], p.goesOn = "open", true
	}
	if s.To < p.lay.Reach[n] {
		ends[1], p.goesOn = "open", true
	}
	p.line(ends[0], left, top, left+p.wide, top)
	p.line(ends[1], left, at(s.To), left+p.wide, at(s.To))
	low := p.running(left, top, marks)
	return max(low, p.notes(beside, left+p.wide, top), at(s.To))
}

// words say what a piece is: its name and size, and the item and order that it is for.
func (p *layPicture) words(i int, l *lay.Placed, short bool) string {
	c := &p.Cuts[l.Piece]
	text := c.Called() + " " + p.size(l)
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

// who is the item that a piece is for, which of them, and its order where there are several.
func (p *layPicture) who(c *spread.Cut) string {
	if p.Item(c).Quantity > 1 {
		return p.of(c, fmt.Sprintf(" %d", c.N+1))
	}
	return p.of(c, "")
}

// of is an item, with which of them it is, and its order where there are several.
func (p *layPicture) of(c *spread.Cut, which string) string {
	text := p.ItemName(c) + which
	if len(p.Orders) > 1 {
		text += " of " + number(p.Orders[c.Order])
	}
	return text
}

// label writes what a piece is into it, as much as has room, and its grain. It reports
// whether it could.
func (p *layPicture) label(b box, i int, l *lay.Placed) bool {
	c := &p.Cuts[l.Piece]
	number := strconv.Itoa(i + 1)
	name := number + "  " + c.Called()
	for _, lines := range [][]string{
		{name, p.size(l), p.who(c)},
		{name + " " + p.size(l), p.who(c)},
		{name + " " + p.size(l) + ", " + p.who(c)},
	} {
		if p.within(b, lines, true) {
			return true
		}
	}
	if p.narrow { // the list of cuts says the rest
		if p.within(b, []string{name}, true) {
			p.brief = append(p.brief, i)
			return true
		}
		text, size := fitted(b.w-pad, number)
		if text == number && size+pad <= b.h {
			p.text(b.x+b.w/2, b.y+b.h/2+sink(size), size, "middle", number, false)
			p.brief = append(p.brief, i)
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

// grain draws an arrow along the bolt: with a head at the top of the piece where the nap
// runs one way, as in the piece's own picture, or with two.
func (p *layPicture) grain(x, y, h px) {
	if h < 2400 {
		return
	}
	class := "grain both"
	if p.NotTurns == spread.OneWay {
		class = "grain"
	}
	in := min(h/8, 2000)
	p.line(class, x, y+h-in, x, y+in)
}

// grid draws where the repeat begins, over the cloth and the pieces.
func (p *layPicture) grid(left, top px, lead, end length.Length) {
	at := func(l length.Length) px { return p.down(top, l) }
	line := func(class string, y length.Length) {
		if y >= p.from && y < end {
			p.line(class, left, at(y), left+p.wide, at(y))
		}
	}
	if p.Stuff.Repeat > 0 {
		first := lead + p.Stuff.Repeat.Mul(max(0, length.FloorDiv(p.from-lead, p.Stuff.Repeat)))
		for y := first; y < end; y += p.Stuff.Repeat {
			line("repeat", y)
			if p.Drop {
				line("drop", y+p.Stuff.Repeat/2)
			}
		}
	}
	if p.Across > 0 {
		for x := p.Across; x < p.Stuff.Width; x += p.Across {
			p.line("repeat", left+p.scale(x), at(max(lead, p.from)), left+p.scale(x), at(end))
		}
	}
}

// running writes the running length beside the cloth, at the edges of pieces that are far
// enough apart to be read, and returns how far down it goes.
func (p *layPicture) running(left, top px, marks []length.Length) (low px) {
	slices.Sort(marks)
	marks = slices.Compact(marks)
	end := p.down(top, marks[len(marks)-1])
	next := top
	for i, m := range marks {
		y := p.down(top, m)
		p.line("mark", left-700, y, left, y)
		if i == len(marks)-1 || y >= next && y+textSize*12/10 <= end {
			p.text(left-1000, y+sink(textSize), textSize, "end", p.show(m), false)
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
		p.text(x+leaderGap, y+sink(smallSize), smallSize, "start", n.text, false)
		next = y + smallSize*13/10
	}
	return next
}

// list says what there is no room for in the picture. Pieces that are alike and follow
// each other at once are one line, copies of an item too.
func (p *layPicture) list() {
	says := func(i int, each string) string {
		l := &p.lay.Pieces[i]
		c := &p.Cuts[l.Piece]
		return c.Called() + " " + p.size(l) + each + ", " + p.of(c, "")
	}
	line := func(text string) {
		p.y += textSize * 14 / 10
		p.text(layMargin, p.y, textSize, "start", fit(text, textSize, saysWide), false)
	}
	for k := 0; k < len(p.brief); {
		first := p.brief[k]
		last, text := first, says(first, "")
		for k++; k < len(p.brief) && p.brief[k] == last+1 && says(last+1, "") == text; k++ {
			last++
		}
		numbers := strconv.Itoa(first + 1)
		if last > first {
			numbers += "–" + strconv.Itoa(last+1)
			text = says(first, " each")
		}
		line(numbers + " " + text)
	}
	for _, text := range slices.Compact(p.also) { // a flaw may lie in two columns
		line(text)
	}
}

// key says what the lines and areas are.
func (p *layPicture) key() {
	type entry struct{ kind, class, says string }
	list := []entry{{"rect", "cloth", "waste, or cloth for something else"}, {"arrow", "grain both", "grain"}}
	if p.NotTurns == spread.OneWay {
		list[1] = entry{"arrow", "grain", "nap that runs one way, its top up: all pieces lie the same way"}
	}
	across := ""
	if p.Across > 0 && p.Across < p.Stuff.Width {
		across = p.show(p.Across) + " across"
	}
	switch {
	case p.Stuff.Repeat > 0:
		says := "repeat, every " + p.show(p.Stuff.Repeat)
		if across != "" {
			says += " down and " + across
		}
		list = append(list, entry{"line", "repeat", says})
		if p.Drop {
			list = append(list, entry{"line", "drop", "half a repeat down, for every other width of a half drop"})
		}
	case across != "":
		list = append(list, entry{"line", "repeat", "repeat, every " + across})
	}
	if slices.ContainsFunc(p.Stuff.Bolts, func(b lay.Bolt) bool { return len(b.Flaws) > 0 }) {
		list = append(list, entry{"rect", "flaw", "flaw"})
	}
	if p.goesOn {
		list = append(list, entry{"line", "open", "the cloth goes on from one column to the next"})
	}
	p.y += textSize
	for _, e := range list {
		p.y += textSize * 17 / 10
		mid := p.y - sink(textSize)
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
	p.reach(p.right+pad, max(p.y, p.bottom)+pad)
}
