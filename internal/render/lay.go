package render

import (
	"fmt"
	"io"
	"slices"
	"strconv"

	"cutgate/internal/draw"
	"cutgate/internal/finding"
	"cutgate/internal/lay"
	"cutgate/internal/length"
	"cutgate/internal/source"
	"cutgate/internal/spread"
	"cutgate/internal/worksheet"
)

// A Laid is what came of laying orders: the cloths, what could not be laid, and the
// verdict of each order.
type Laid struct {
	Spreads  []*spread.Spread
	Left     []spread.Left
	Verdicts map[*worksheet.Sheet]finding.Verdict
}

// LayFormats lists the ways to write lays, the usual one first.
func LayFormats() []Format[func(io.Writer, *Laid, Options) error] {
	return []Format[func(io.Writer, *Laid, Options) error]{
		{"text", "for people", layTexts},
		{"svg", "a picture to scale", laySVG},
		{"json", "every piece and its place, for programs", layJSON},
	}
}

func laySVG(w io.Writer, l *Laid, _ Options) error {
	return draw.Lays(w, l.Spreads, l.Left, l.warn)
}

func layTexts(w io.Writer, l *Laid, o Options) error {
	t := &layText{sheet: newSheet(o), laid: l}
	for i, s := range l.Spreads {
		if i > 0 {
			t.line("")
			t.line("")
		}
		t.spread(s)
	}
	for i, left := range l.Left {
		if i == 0 && len(l.Spreads) > 0 {
			t.line("")
			t.line("")
		}
		t.para(0, "NOT LAID", headInk, ticketValue, notLaid(left), plainInk)
	}
	_, err := io.WriteString(w, t.String())
	return err
}

// notLaid says what could not be laid, and why.
func notLaid(left spread.Left) string {
	return source.Show(fmt.Sprintf("%s of %s: %s", left.Cloth, number(left.Order), left.Why))
}

// A layText writes lays for people.
type layText struct {
	sheet
	laid *Laid
	unit length.Unit
}

func (t *layText) show(l length.Length) string { return l.Format(t.unit, length.Nearest) }

// bought is a length of cloth as it is sold: in metres or yards.
func (t *layText) bought(l length.Length) string {
	if t.unit.Metric() {
		return l.Format(length.M, length.Up)
	}
	return l.Format(length.Yd, length.Up)
}

func (t *layText) spread(s *spread.Spread) {
	t.unit = s.Unit
	l := s.Lay()
	var orders []string
	for _, o := range s.Orders {
		orders = append(orders, number(o))
	}
	t.both("LAY  "+source.Show(s.Cloth)+", "+t.show(s.Width)+" wide", headInk, worksheet.FirstOf(orders, 3), plainInk)
	t.holds(s)
	t.row("laid", layWords[s.Mode]+": "+t.bought(l.Length)+t.bounded(l))
	if within := s.Within(); within != "" {
		t.row("", "on "+within+", from inside the left one")
	}
	if s.Start > 0 {
		t.row("", "and up to "+t.show(s.Start)+" before the first motif")
	}
	if s.MatchedAcross() {
		t.row("", "the sides are not placed across the cloth: before cutting, mark them where the ticket has their pattern match")
	}
	for _, o := range s.Lays {
		if o.Mode != s.Mode {
			t.row(layLabels[o.Mode], t.saves(s, l, o))
		}
	}
	if s.Alone > 0 {
		text := "no shorter than each order by itself"
		if saved := s.Alone - l.Length; saved > 0 {
			text = fmt.Sprintf("%s, saves %s over laying each order by itself", togetherWords[s.Mode], t.bought(saved))
		}
		t.row("together", text)
	}
	if slices.ContainsFunc(s.Lays, func(l *lay.Lay) bool { return l.Short }) {
		t.row("search", "stopped before it was finished; another run may give another lay")
	}
	if wanted := slices.ContainsFunc(s.Pieces, func(p lay.Piece) bool { return p.Turns }); wanted && s.NotTurns != "" {
		t.row("turning", "no piece is turned: "+s.NotTurns)
	}
	t.bolts(s, l)
	t.left(s, l)
	t.line("")
	t.line(t.ink(headInk, "CUTS"))
	t.cuts(s, l)
}

// bounded says how short a lay can be at all.
func (t *layText) bounded(l *lay.Lay) string {
	switch {
	case l.Left != nil:
		return " for the pieces that fit; all of them take at least " + t.bought(l.Bound)
	case l.Length == l.Bound:
		return ", the shortest possible"
	}
	return "; no lay could be shorter than " + t.bought(l.Bound)
}

// layWords and layLabels are the modes, of a lay and of another one to compare.
var (
	layWords  = [...]string{lay.Rows: "in rows, right across", lay.Guillotine: "for cuts from edge to edge", lay.Free: "freely"}
	layLabels = [...]string{lay.Rows: "in rows", lay.Guillotine: "edge to edge", lay.Free: "freely"}

	togetherWords = [...]string{lay.Rows: "in rows", lay.Guillotine: "cut from edge to edge", lay.Free: "laid freely"}
)

func (t *layText) row(label, text string) {
	t.para(ticketLabel, label, faintInk, ticketValue+3, text, plainInk)
}

// A held is the orders of a spread that have a verdict.
type held struct {
	verdict finding.Verdict
	orders  []string
}

// held are the orders of a spread that are not clear to cut, the worst first.
func (l *Laid) held(s *spread.Spread) (list []held) {
	for _, v := range []finding.Verdict{finding.Hold, finding.Ask} {
		h := held{verdict: v}
		for _, o := range s.Orders {
			if l.Verdicts[o] == v {
				h.orders = append(h.orders, number(o))
			}
		}
		if h.orders != nil {
			list = append(list, h)
		}
	}
	return list
}

// warn says the same for a picture, a line for each verdict.
func (l *Laid) warn(s *spread.Spread) (list []string) {
	for _, h := range l.held(s) {
		list = append(list, banners[h.verdict]+": "+worksheet.FirstOf(h.orders, 4))
	}
	return list
}

// holds says which of the orders are not clear to cut.
func (t *layText) holds(s *spread.Spread) {
	list := t.laid.held(s)
	if list == nil {
		t.rule("─", 0)
		return
	}
	t.rule("═", 0)
	for _, h := range list {
		t.para(ticketLabel, banners[h.verdict]+":", verdictInks[h.verdict], ticketValue, worksheet.FirstOf(h.orders, 12), plainInk)
	}
	t.rule("═", 0)
}

// saves says what another lay would save, or take more.
func (t *layText) saves(s *spread.Spread, l, o *lay.Lay) string {
	was, would := count(l.Left), count(o.Left)
	switch {
	case was != would:
		return fmt.Sprintf("%s don't fit, instead of %d", worksheet.Many(int(would), "piece"), was)
	case o.Length < l.Length:
		return fmt.Sprintf("%s, %s less", t.bought(o.Length), t.bought(l.Length-o.Length))
	case o.Length > l.Length:
		return fmt.Sprintf("%s, %s more", t.bought(o.Length), t.bought(o.Length-l.Length))
	}
	return "saves nothing"
}

func count(left []int64) (sum int64) {
	for _, n := range left {
		sum += n
	}
	return sum
}

func (t *layText) bolts(s *spread.Spread, l *lay.Lay) {
	for i, b := range s.Stuff.Bolts {
		text := ""
		if b.Lot != "" {
			text = "lot " + source.Show(b.Lot) + ", "
		}
		if b.Length > 0 {
			text += t.bought(b.Length) + ": "
		}
		switch r := l.Reach[i]; {
		case r == 0:
			text += "not cut"
		case b.Length > 0:
			text += "cut to " + t.show(r) + ", " + t.show(b.Length-r) + " left"
		default:
			text += "cut to " + t.show(r)
		}
		for _, f := range b.Flaws {
			text += "; flaw from " + t.show(f.From) + " to " + t.show(f.To)
		}
		t.row("bolt "+strconv.Itoa(i+1), text)
	}
}

// left says what found no room.
func (t *layText) left(s *spread.Spread, l *lay.Lay) {
	label := "no room for"
	for i, n := range l.Left {
		if n > 0 {
			t.row(label, fmt.Sprintf("%d × %s %s, %s", n, s.Cuts[i].Called(), size(s, i), whose(s, &s.Cuts[i])))
			label = ""
		}
	}
	if rest := t.ofOtherLots(s, l); rest != "" {
		t.row("", rest+" is left, but one item is cut from one dye lot")
	}
}

// ofOtherLots says what is left of bolts of several lots that one piece which found no room
// would fit on by itself; "" where there is no such bolt.
func (t *layText) ofOtherLots(s *spread.Spread, l *lay.Lay) string {
	bolts := s.Stuff.Bolts
	if l.Left == nil || !slices.ContainsFunc(bolts, func(b lay.Bolt) bool { return b.Lot != "" && bolts[0].Lot != "" && b.Lot != bolts[0].Lot }) {
		return ""
	}
	least := length.Max // that one of them takes
	for i, n := range l.Left {
		if n > 0 {
			least = min(least, s.Pieces[i].Length+s.Stuff.Repeat)
		}
	}
	var list []string
	for i, b := range bolts {
		if rest := b.Length - max(l.Reach[i], b.Lead); b.Lot != "" && len(b.Flaws) == 0 && rest >= least {
			list = append(list, t.show(rest)+" of bolt "+strconv.Itoa(i+1))
		}
	}
	return worksheet.All(list)
}

// size is how a piece is cut, and from how much of the cloth where that is more.
func size(s *spread.Spread, piece int) string {
	cut, takes := s.Size(piece)
	if cut == takes {
		return cut
	}
	return cut + " from " + takes
}

// whose is the item that a piece is for, and its order where there are several.
func whose(s *spread.Spread, c *spread.Cut) string {
	it := s.Item(c)
	text := s.ItemName(c)
	if it.Quantity > 1 {
		text += " " + strconv.FormatInt(c.N+1, 10)
	}
	if len(s.Orders) > 1 {
		text += " of " + number(s.Orders[c.Order])
	}
	return source.Show(text)
}

// cuts lists the pieces along each bolt, those alike side by side as one.
func (t *layText) cuts(s *spread.Spread, l *lay.Lay) {
	bolt, y, edge := -1, length.Length(-1), "edge"
	if s.Within() != "" {
		edge = "selvedge"
	}
	for i := 0; i < len(l.Pieces); {
		p := &l.Pieces[i]
		end := i + 1
		for end < len(l.Pieces) && l.Pieces[end].Piece == p.Piece && l.Pieces[end].Bolt == p.Bolt && l.Pieces[end].Y == p.Y && l.Pieces[end].X == l.Pieces[end-1].X+p.Width {
			end++
		}
		if p.Bolt != bolt && len(s.Stuff.Bolts) > 1 {
			t.line("  " + t.ink(headInk, "bolt "+strconv.Itoa(p.Bolt+1)))
		}
		if p.Bolt != bolt || p.Y != y {
			from := "at " + t.show(p.Y)
			if s.Mode == lay.Rows {
				from = "row from " + t.show(p.Y) + " to " + t.show(p.Y+p.Length)
			}
			t.line("  " + t.ink(faintInk, from))
		}
		bolt, y = p.Bolt, p.Y
		number := strconv.Itoa(i + 1)
		text := s.Cuts[p.Piece].Called() + ", " + size(s, p.Piece)
		if end > i+1 {
			number += "–" + strconv.Itoa(end)
			text += " each"
		}
		if p.X > 0 {
			text += ", " + t.show(p.X) + " from the left " + edge
		}
		if p.Turned {
			text += ", turned"
		}
		if pc := &s.Pieces[p.Piece]; pc.Matched && pc.Anchor > 0 {
			text += ", half a repeat down"
		}
		t.para(4, number, headInk, 11, text+"; "+whose(s, &s.Cuts[p.Piece]), plainInk)
		i = end
	}
}

// layJSON writes lays in the shape that schema/report.cue promises.
func layJSON(w io.Writer, l *Laid, _ Options) error {
	var j jsonText
	j.braces(func() {
		j.objects("lays", len(l.Spreads), func(i int) { j.lay(l.Spreads[i]) })
		j.optionalObjects("not_laid", len(l.Left), func(i int) {
			left := &l.Left[i]
			j.optional("order", left.Order.Order.Number.Value)
			j.text("cloth", left.Cloth)
			j.text("why", left.Why)
		})
	})
	_, err := w.Write(append(j.b, '\n'))
	return err
}

// mm writes a length in millimetres, exactly.
func (j *jsonText) mm(name string, l length.Length) {
	j.name(name)
	j.b = append(j.b, length.RatioOf(l, length.Millimetre).Format(6)...)
}

// optionalMM leaves out a length of 0.
func (j *jsonText) optionalMM(name string, l length.Length) {
	if l > 0 {
		j.mm(name, l)
	}
}

func (j *jsonText) lay(s *spread.Spread) {
	l := s.Lay()
	j.text("cloth", s.Cloth)
	j.mm("width", s.Width)
	if s.Stuff.Width != s.Width {
		j.mm("laid_on", s.Stuff.Width)
	}
	j.objects("orders", len(s.Orders), func(i int) {
		o := s.Orders[i].Order
		j.text("file", o.File.Name)
		j.optional("order", o.Number.Value)
	})
	j.text("mode", s.Mode.String())
	j.mm("bound", l.Bound)
	j.object("lengths", func() {
		for _, o := range s.Lays {
			j.mm(o.Mode.String(), o.Length)
		}
	})
	j.optionalMM("alone", s.Alone)
	j.optionalMM("start", s.Start)
	j.objects("bolts", len(l.Reach), func(i int) {
		if len(s.Stuff.Bolts) > 0 {
			b := &s.Stuff.Bolts[i]
			j.optional("lot", b.Lot)
			j.optionalMM("length", b.Length)
		}
		j.mm("cut_to", l.Reach[i])
	})
	j.objects("pieces", len(l.Pieces), func(i int) {
		p := &l.Pieces[i]
		j.number("number", i+1)
		j.piece(s, p.Piece)
		j.number("bolt", p.Bolt+1)
		j.mm("across", p.X)
		j.mm("along", p.Y)
		j.mm("width", p.Width)
		j.mm("length", p.Length)
		if p.Turned {
			j.truth("turned", true)
		}
	})
	if l.Left == nil {
		return
	}
	var left []int // the pieces that found no room
	for i, n := range l.Left {
		if n > 0 {
			left = append(left, i)
		}
	}
	j.objects("left", len(left), func(i int) {
		j.piece(s, left[i])
		j.number("count", int(l.Left[left[i]]))
	})
}

// piece says which piece of which item of which order it is.
func (j *jsonText) piece(s *spread.Spread, i int) {
	c := &s.Cuts[i]
	j.text("piece", c.Name)
	j.number("of", c.Order+1)
	j.number("item", c.Item+1)
	j.number("copy", int(c.N)+1)
	j.optional("id", s.Item(c).Order.ID.Value)
	j.optional("drop", c.Drop)
}
