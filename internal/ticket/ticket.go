// Package ticket is the cut ticket of an order as a document: what it says, in which
// section and in which order. Laying it out is left to the renderers, so that a text, a
// page and a picture can't disagree.
//
// # Law
//
// A document holds words and places only, and works nothing out: every figure comes
// from the worksheet or from the order.
package ticket

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/worksheet"
)

// A Document is a ticket. Names in it are the order's own text, which may have any
// characters in it; renderers must make it harmless.
type Document struct {
	Number   string // of the order; "" for none
	Client   string
	Due      string // as written on the order; "" for none
	Verdict  finding.Verdict
	Reasons  []Row // why not to cut, or what to ask first: the place in the file and the message
	Waived   []Row // waived errors: the place in the file, the message, and who waived it, why and until when
	Notes    string
	House    *finding.House // the shop's own rules in force; nil for none
	Items    []Item
	Cloths   []Row // by the name of the cloth: what to buy, and which bolts to cut from
	Unit     length.Unit
	Cautions []string
	Workings []Group // of each item, then of each cloth
}

// An Item is one thing to make: its size, its pieces, and how they are made up. Items
// that are alike are merged into one.
type Item struct {
	ID, Kind, Room string
	Alike          []string // the names of the other items made in the same way
	Make           int64    // how many in all, with those that are alike
	Rows           []Row    // in the order of the job
	Pictures       []Picture
	Checks         []string // what to measure on the finished item, and what it should be
}

// A Picture is a piece, or a joined panel, with its caption.
type Picture struct {
	Pattern *worksheet.Pattern
	Text    string
	Stage   Stage // the stage it belongs to: Cut, or Join for a joined panel
}

// A Row is a labeled line. One without a label continues the row above it.
type Row struct {
	Stage       Stage
	Label, Text string
	Marks       []length.Length // the places it lists, from the left finished edge
	Measured    bool            // to be measured at the bench and written down
}

// A Stage is a part of the job.
type Stage uint8

// The stages, in the order of the job.
const (
	Measure Stage = iota
	Cut
	Join
	Hems // of edges that are not named by their side
	Sides
	Foot
	Top
	Marks
	Holes
	MakeUp
	Press
	Hang
	Trims
	Figures
)

var stages = [...]string{"measure", "cut", "join", "hems", "side hems", "foot", "top", "marks", "holes", "make up", "press", "hang", "trims", "further figures"}

func (s Stage) String() string { return stages[s] }

// A Part is the rows of one stage, with the pictures to look at.
type Part struct {
	Stage    Stage
	Number   int // among the steps of the job; 0 if it is not one
	Rows     []Row
	Pictures []Picture
}

// Figures reports whether the part is the further figures.
func (p *Part) Figures() bool { return p.Stage == Figures }

// Parts returns the rows and the pictures of an item by the stages of the job.
func (it *Item) Parts() (list []Part) {
	for i, r := range it.Rows {
		if i == 0 || r.Stage != it.Rows[i-1].Stage {
			p := Part{Stage: r.Stage}
			if r.Stage < Trims {
				p.Number = len(list) + 1
			}
			list = append(list, p)
		}
		p := &list[len(list)-1]
		p.Rows = append(p.Rows, r)
	}
	for _, c := range it.Pictures {
		i := slices.IndexFunc(list, func(p Part) bool { return p.Stage == c.Stage })
		if i < 0 { // no row is about joining it
			i = max(0, slices.IndexFunc(list, func(p Part) bool { return p.Stage == Cut }))
		}
		if len(list) > 0 {
			list[i].Pictures = append(list[i].Pictures, c)
		}
	}
	return list
}

// A Group is the workings of an item, or of a cloth.
type Group struct {
	ID, Kind string // of an item; for a cloth its name and "cloth"
	Cloth    bool
	Workings []Working
}

// A Working is how a quantity was worked out.
type Working struct {
	Name, Value string
	Lines       []string // the formula in words, then in figures
	Source      string   // "" for none
}

// Of returns the ticket of an order that was worked out, with its findings and what was
// set aside.
func Of(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) *Document {
	t := &ticket{work: s, told: make(map[*worksheet.Quantity]bool), alike: make(map[int]bool)}
	d := &Document{Number: s.Order.Number.Value, Client: s.Order.Client.Value, Unit: s.Unit, Due: s.Order.Due.Value, Verdict: finding.VerdictOf(found, aside.Known), Notes: s.Order.Notes.Value, House: aside.House}
	for i := range found {
		if f := &found[i]; f.Level > finding.Note {
			d.Reasons = append(d.Reasons, Row{Label: s.Order.File.Place(f.At.Start), Text: f.Message})
		}
	}
	for i := range aside.Waived {
		if w := &aside.Waived[i]; w.Level == finding.Error {
			d.Waived = append(d.Waived, Row{Label: s.Order.File.Place(w.At.Start), Text: w.Message + " " + waiver(w)})
		}
	}
	d.Items = t.items()
	for i := range s.Cloths {
		c := &s.Cloths[i]
		if text := t.cloth(c); text != "" {
			d.Cloths = append(d.Cloths, Row{Label: c.Name, Text: text})
		}
	}
	d.Cautions = s.Cautions()
	d.Workings = t.workings()
	return d
}

// waiver says who waived a finding, why, and until when.
func waiver(w *finding.Waived) string {
	text := "Waived"
	if w.By != "" {
		text += " by " + w.By
	}
	if w.Until != "" {
		text += " until " + w.Until
	}
	return text + ": " + w.Because
}

// A ticket is a document in the making.
type ticket struct {
	work *worksheet.Sheet
	told map[*worksheet.Quantity]bool // quantities that some row has given already
	rows []Row                        // of the current item

	stage Stage // of the rows being added
	times int64 // how many items are like the current one, itself included

	alike map[int]bool // items merged into an earlier one
}

// items returns what is to be made, with items that are alike merged.
func (t *ticket) items() (list []Item) {
	first := make(map[string]int) // the index in list, by what the ticket says
	of := []*worksheet.Item{}
	count := []int64{}
	for i := range t.work.Items {
		it := &t.work.Items[i]
		t.times = 1
		one := t.item(it)
		key := fmt.Sprintln(one.Kind, one.Make, one.Rows)
		if !it.Worked { // its sizes are not among the rows
			key = strconv.Itoa(i)
		}
		if n, ok := first[key]; ok {
			list[n].Alike = append(list[n].Alike, called(it))
			count[n]++
			t.alike[i] = true
			continue
		}
		first[key] = len(list)
		list, of, count = append(list, one), append(of, it), append(count, 1)
	}
	for n := range list {
		if t.times = count[n]; t.times > 1 {
			all := t.item(of[n])
			all.Alike = list[n].Alike
			list[n] = all
		}
	}
	return list
}

// called returns what people call an item: its id, or its number, and its room.
func called(it *worksheet.Item) string {
	o := it.Order
	text := o.ID.Value
	if text == "" {
		text = "item " + strconv.Itoa(it.Index+1)
	}
	if o.Room.Value != "" {
		text += ", " + o.Room.Value
	}
	return text
}

// kindOf is what the order calls an item, as written where the form has no such kind.
func (t *ticket) kindOf(o *order.Item) string {
	for f := range t.work.Order.FlawsIn(o.At) {
		if strings.HasSuffix(f.Path, "].item") && f.Text != "" {
			return f.Text
		}
	}
	return cmp.Or(o.Kind.Value, "unnamed item")
}

// row adds a row, unless the text is empty. Without a label it continues the one before.
func (t *ticket) row(label, text string, marks ...length.Length) {
	if text != "" {
		t.rows = append(t.rows, Row{Stage: t.stage, Label: label, Text: text, Marks: marks})
	}
}

// says formats a quantity and notes that it was given; "" for nil.
func (t *ticket) says(q *worksheet.Quantity) string {
	if q == nil {
		return ""
	}
	t.told[q] = true
	if v, ok := t.chosen(q); ok {
		return v.Format(t.work.Unit, length.Nearest)
	}
	if s := q.Value.Sort; s == worksheet.Mass || s == worksheet.Linear {
		return t.work.Weighs(q.Value)
	}
	return q.Value.Format(t.work.Unit, q.Round)
}

// chosen returns the value the order states in place of q where that is the maker's
// choice: a cooler iron, a roomier pocket, a longer slit.
func (t *ticket) chosen(q *worksheet.Quantity) (v worksheet.Value, ok bool) {
	switch q.Name {
	case worksheet.PressSetting, worksheet.PocketHeight, worksheet.HoleSlit:
	default:
		return v, false
	}
	for i := range t.work.Stated {
		if s := &t.work.Stated[i]; s.Quantity == q && s.Agrees == worksheet.AsRight {
			return s.Value, true
		}
	}
	return v, false
}

func (t *ticket) value(v worksheet.Value) string { return v.Format(t.work.Unit, length.Nearest) }

func (t *ticket) length(l length.Length) string { return l.Format(t.work.Unit, length.Nearest) }

func (t *ticket) item(it *worksheet.Item) Item {
	o := it.Order
	t.rows, t.told = nil, make(map[*worksheet.Quantity]bool)
	patterns := it.Patterns()
	t.stage = Measure
	t.row("notes", o.Notes.Value)
	if !it.Worked {
		t.row("sizes", "not worked out: work out its cuts by hand before cutting")
		return Item{ID: o.ID.Value, Kind: t.kindOf(o), Room: o.Room.Value, Make: it.Quantity, Rows: t.rows}
	}
	t.row("finished", t.finished(it))
	if it.Nothing() != nil {
		t.stage = Cut
		t.row("cut", "nothing: the "+it.NothingIn())
		return Item{ID: o.ID.Value, Kind: t.kindOf(o), Room: o.Room.Value, Make: it.Quantity, Rows: t.rows}
	}
	t.row("each panel", t.panel(it))
	t.row("window", t.window(it))
	t.stage = Cut
	t.cut(it, patterns)
	t.notes(it, worksheet.AsCut)
	washed := t.unwashed(it, patterns)
	if t.stage = Join; it.Joins <= 0 {
		t.stage = Cut
	}
	t.row("sewing", t.sewing(it))
	t.stage = Join
	t.row("join", t.seams(it, washed), it.Joined...)
	t.row("", t.hands(it))
	t.notes(it, worksheet.AsJoined)
	t.marks(it, worksheet.AsJoined, washed)
	if it.Joins <= 0 {
		t.stage = Cut
	}
	t.notes(it, worksheet.AsShaped)
	label := "hems"
	for _, edge := range []struct {
		name string
		hem  *worksheet.Hem
	}{{"sides", &it.Sides}, {"bottom", &it.Bottom}, {"lining", &it.LiningHem}, {"top", &it.Top}} {
		bagged := it.Order.Lining.Made.Value == "bagged" && it.Cloth("lining") != nil && (edge.name == "sides" || edge.name == "bottom")
		if text := t.fold(edge.hem); text != "" && !bagged { // a note says how it is sewn and turned
			name := cmp.Or(edge.hem.Edge, edge.name)
			t.stage = Hems
			if stage, ok := hemStages[name]; ok {
				t.stage = stage
			}
			t.row(label, name+" "+text)
			label = ""
		}
	}
	t.stage = Hems
	t.notes(it, worksheet.AsHemmed)
	t.stage = Sides
	t.notes(it, worksheet.AsLined)
	t.stage = Foot
	t.row("lining", t.lining(it))
	t.stage = Top
	t.heading(it)
	t.notes(it, worksheet.AsTopped)
	t.stage = Marks
	t.marks(it, worksheet.AsMade, washed)
	t.stage = Holes
	t.holes(it, washed)
	t.stage = MakeUp
	t.notes(it, worksheet.AsMade)
	t.liner(it)
	t.stage = Press
	t.row("press", t.press(it))
	t.stage = Hang
	t.row("hang", t.hang(it))
	t.stage = Trims
	t.hardware(it)
	t.stage = Figures
	t.figures(it)
	return Item{ID: o.ID.Value, Kind: o.Kind.Value, Room: o.Room.Value, Make: it.Quantity * t.times, Rows: t.inOrder(),
		Pictures: t.pictures(it, patterns), Checks: t.checks(it)}
}

// hemStages are the stages of hems that are named by their side.
var hemStages = map[string]Stage{"sides": Sides, "bottom": Foot, "foot": Foot, "lining": Foot, "top": Top}

// inOrder sorts the rows into the order of the job. The first row of a stage gets a label.
func (t *ticket) inOrder() []Row {
	for i := 1; i < len(t.rows); i++ {
		if r := &t.rows[i]; r.Label == "" && r.Stage != t.rows[i-1].Stage {
			r.Label = t.labelAbove(i)
		}
	}
	slices.SortStableFunc(t.rows, func(a, b Row) int { return cmp.Compare(a.Stage, b.Stage) })
	for i := len(t.rows) - 1; i > 0; i-- {
		if t.rows[i].Label == t.rows[i-1].Label && t.rows[i].Stage == t.rows[i-1].Stage {
			t.rows[i].Label = ""
		}
	}
	return t.rows
}

func (t *ticket) labelAbove(i int) string {
	for ; i > 0 && t.rows[i].Label == ""; i-- {
	}
	return t.rows[i].Label
}

// panel gives the size of one of several panels.
func (t *ticket) panel(it *worksheet.Item) string {
	q := it.Get(worksheet.PanelWidth)
	if it.Panels < 2 || !it.Has(string(worksheet.FinishedWidth)) {
		return ""
	}
	text := t.length(it.Length(string(worksheet.FinishedWidth)).Div(it.Panels, length.Nearest)) + " wide as it hangs"
	if q != nil {
		text += ", " + t.says(q) + " flat"
	}
	return text
}

// window gives what was measured at the window.
func (t *ticket) window(it *worksheet.Item) string {
	o := &it.Order.Track
	var parts []string
	carrier, level := cmp.Or(o.Kind.Value, "track"), cmp.Or(o.Kind.Value, "track or pole")
	for _, p := range []struct {
		leaf       order.Length
		what, more string
	}{{o.Width, carrier, ""}, {o.Return, "returns of", ""}, {o.Overlap, "overlap", ""}, {o.AboveFloor, level, " above the floor"}, {o.AboveSill, level, " above the sill"}, {o.Diameter, "pole", " thick"}} {
		if p.leaf.Set {
			parts = append(parts, p.what+" "+t.length(p.leaf.Value)+p.more)
		}
	}
	return strings.Join(parts, ", ")
}

// hands says which edge is the leading edge, in a pair of panels with joins.
func (t *ticket) hands(it *worksheet.Item) string {
	if it.Heading == nil || len(it.Joined) == 0 {
		return ""
	}
	if it.Panels == 2 {
		return "right-hand panel: the leading edge is at the left; left-hand panel: at the right"
	}
	return ""
}

// lining says how a lining lies behind the face.
func (t *ticket) lining(it *worksheet.Item) string {
	if !it.Has("lining shorter") || it.Cloth("lining") == nil {
		return ""
	}
	if it.Order.Lining.Made.Value == "bagged" { // cut and sewn to the size of the face
		return ""
	}
	text := "its foot " + t.length(it.Length("lining shorter")) + " above the foot of the face"
	if l := it.Length("lining narrower"); l > 0 {
		text += ", " + t.length(l.Div(it.Panels, length.Nearest)) + " narrower than the panel"
	}
	return text
}

// liner says how a shower curtain's liner is hemmed.
func (t *ticket) liner(it *worksheet.Item) {
	if it.HemCalled("liner sides") == nil || it.Cloth("liner") == nil {
		return
	}
	label := "liner"
	for _, edge := range [...]string{"sides", "bottom", "top"} {
		if h := it.HemCalled("liner " + edge); h != nil {
			if text := t.fold(h); text != "" {
				t.row(label, edge+" "+text)
				label = ""
			}
		}
	}
	if q := it.Get("liner hole spacing"); q != nil && len(it.Holes) > 0 {
		text := worksheet.Many(len(it.Holes), "hole") + ", " + t.says(q) + " from center to center"
		if side := it.Get("liner from side"); side != nil {
			text += ", the first " + t.says(side) + " from its side"
		}
		t.row(label, text)
	}
}

// sewing gives the needle and the stitches for the weight of the cloth, and the thread.
func (t *ticket) sewing(it *worksheet.Item) string {
	var parts []string
	if it.Face != nil && it.Face.Class != nil {
		c := it.Face.Class
		if c.Needle.Most > 0 {
			parts = append(parts, "needle "+t.needle(c.Needle.Least)+" to "+t.needle(c.Needle.Most))
		}
		if !c.Stitches.Most.IsZero() {
			if least, most := c.StitchLengths(); t.work.Unit.Metric() {
				parts = append(parts, "stitches "+least.Format(1)+" to "+most.Format(1)+" mm long")
			} else {
				parts = append(parts, c.Stitches.Least.Format(1)+" to "+c.Stitches.Most.Format(1)+" stitches to the inch")
			}
		}
	}
	if q := it.Get(worksheet.Thread); q != nil {
		parts = append(parts, "thread "+t.bought(q)+" for each")
	}
	return strings.Join(parts, ", ")
}

// needle gives a needle by both of its numbers, as 90/14.
func (t *ticket) needle(metric int64) string {
	text := strconv.FormatInt(metric, 10)
	for i := range t.work.Tables.Needles {
		if n := &t.work.Tables.Needles[i]; n.Metric == metric {
			return text + "/" + strconv.FormatInt(n.Number, 10)
		}
	}
	return text
}

// hang says where the foot hangs, and what the item weighs.
func (t *ticket) hang(it *worksheet.Item) string {
	var parts []string
	switch to := it.Order.Hang.To; to.Value {
	case "":
	case "puddle":
		parts = append(parts, "puddles on the floor")
	case "below sill":
		parts = append(parts, "below the sill")
	default:
		parts = append(parts, "to the "+to.Value)
	}
	if q := it.Get(worksheet.FootGap); q != nil {
		if gap := q.Value.Length(); gap < 0 {
			t.told[q] = true
			parts = append(parts, t.length(-gap)+" of it on the floor")
		} else {
			parts = append(parts, t.says(q)+" from foot to floor")
		}
	}
	if q := it.Get(worksheet.HangingMass); q != nil {
		text := "weighs " + t.says(q) + " hanging"
		switch uncounted := it.Uncounted(); len(uncounted) {
		case 0:
		case 1:
			text += " without the " + uncounted[0]
		default:
			text += " without " + worksheet.All(uncounted)
		}
		parts = append(parts, text)
	}
	if q := it.Get(worksheet.WetMass); q != nil {
		parts = append(parts, t.says(q)+" wet")
	}
	if q := it.Get(worksheet.StackBack); q != nil {
		parts = append(parts, "drawn back it takes "+t.says(q))
	}
	return strings.Join(parts, ", ")
}

// unwashed gives the sizes and marks on cloth that is cut before it shrinks. It returns
// the words that then mark places on the finished work: "once washed".
func (t *ticket) unwashed(it *worksheet.Item, patterns []worksheet.Pattern) (washed string) {
	patterns = slices.DeleteFunc(slices.Clone(patterns), func(p worksheet.Pattern) bool { return !p.Unwashed })
	if len(patterns) == 0 {
		return ""
	}
	if washedFirst(it) {
		t.row("unwashed", "the cloth is cut before its first wash, and shrinks in it")
		t.marksBefore(patterns)
		return "once washed"
	}
	var sizes, edges []string
	for i := range patterns {
		p := &patterns[i]
		across, along := p.Net()
		if across == p.Width && slices.ContainsFunc(patterns, func(of worksheet.Pattern) bool { return of.Joined && of.Cloth == p.Cloth }) {
			continue // a whole width: its panel says how wide
		}
		sizes = append(sizes, p.Name+" "+t.length(across)+" wide × "+t.length(along)+" long")
		for side := range p.Edges {
			if text := t.edge(patterns, p, worksheet.Side(side)); text != "" && !slices.Contains(edges, text) {
				edges = append(edges, text)
			}
		}
	}
	t.row("unwashed", "the cloth is cut before its first wash, and shrinks in it. Make up to these sizes, between hems and seams: "+strings.Join(sizes, "; "))
	if len(edges) > 0 {
		t.row("", "hems and seams before the wash: "+strings.Join(edges, ", "))
	}
	t.marksBefore(patterns)
	return "once washed"
}

// marksBefore gives the places of marks on cloth that is not washed yet.
func (t *ticket) marksBefore(patterns []worksheet.Pattern) {
	for i := range patterns {
		for _, r := range patterns[i].Rows {
			t.row("", "before the wash, "+r.Name+" from "+fromThe(r.From)+": "+t.positions(r.At))
		}
	}
}

// marks says where along its edges an item is marked at a stage.
func (t *ticket) marks(it *worksheet.Item, stage worksheet.Stage, washed string) {
	for _, m := range it.Marks() {
		if m.Stage == stage {
			t.row(m.Name, before(washed, ": ")+t.positions(m.At)+" from "+m.From, m.At...)
		}
	}
}

// notes says what is done to an item at a stage.
func (t *ticket) notes(it *worksheet.Item, stage worksheet.Stage) {
	last := ""
	for _, n := range it.Notes() {
		if n.Stage != stage {
			continue
		}
		label := n.Name
		if label == last {
			label = ""
		}
		last = n.Name
		t.row(label, n.Text)
	}
}

// washedFirst reports whether a piece is washed before it is made up: a note says when.
func washedFirst(it *worksheet.Item) bool { return it.Has("washed first") }

// edge says what an edge of a piece takes, and which edge it is if others of that name
// take a different length; "" if it takes nothing.
func (t *ticket) edge(patterns []worksheet.Pattern, p *worksheet.Pattern, side worksheet.Side) string {
	e := &p.Edges[side]
	if e.Takes <= 0 {
		return ""
	}
	text := e.Word + " " + t.length(e.Takes)
	for i := range patterns {
		for k := range patterns[i].Edges {
			if of := &patterns[i].Edges[k]; of.Word == e.Word && of.Takes > 0 && t.length(of.Takes) != t.length(e.Takes) {
				return text + where(p, side)
			}
		}
	}
	return text
}

// where names an edge, or two opposite edges of the same name.
func where(p *worksheet.Pattern, side worksheet.Side) string {
	both := p.Edges[worksheet.Top].Word == p.Edges[worksheet.Foot].Word
	switch {
	case side == worksheet.Left || side == worksheet.Right:
		return " at the sides"
	case both:
		return " at top and foot"
	case side == worksheet.Top:
		return " at the top"
	}
	return " at the foot"
}

// before returns text with the mark that divides it from what follows; "" for "".
func before(text, mark string) string {
	if text == "" {
		return ""
	}
	return text + mark
}

// fromThe puts an article before where figures are measured from.
func fromThe(from string) string {
	if strings.HasPrefix(from, "the ") || strings.HasPrefix(from, "its ") {
		return from
	}
	return "the " + from
}

// pictures returns the patterns with their captions.
func (t *ticket) pictures(it *worksheet.Item, patterns []worksheet.Pattern) (list []Picture) {
	for i := range patterns {
		p := &patterns[i]
		n := p.Count * it.Quantity * t.times
		text, stage := many(n, p.Name), Cut
		if at := slices.IndexFunc(it.Pieces, func(of worksheet.Piece) bool { return of.Name == p.Name }); at >= 0 && !p.Joined {
			text = many(n, it.Pieces[at].AsCounted())
		}
		switch {
		case p.Turned && it.Panels == 2:
			text += ", flat, as they hang: the right-hand one; the left-hand one is its mirror image"
		case p.Turned:
			text += ", flat, as hung"
		case p.Joined && p.Left != "" && it.Panels == 2 && it.Joins > 0:
			text, stage = text+", joined and flat: the right-hand one; the left-hand one is its mirror image", Join
		case p.Joined && strings.Contains(p.Name, "joined"):
			text, stage = strconv.FormatInt(n, 10)+" "+p.Name, Join
		case p.Joined && it.Joins == 0:
			text += ", cut down and flat"
		case p.Joined:
			text, stage = text+", joined and flat", Join
		case n > 1 && p.Count%2 == 0 && p.Edges[worksheet.Left].Takes != p.Edges[worksheet.Right].Takes:
			text += ", half of them the other way round"
		}
		if p.Cloth != nil {
			text += ", of " + p.Cloth.Name
		}
		if p.Unwashed {
			text += ". Sizes before the first wash"
			if washedFirst(it) {
				text += "; the curve is cut after it"
			}
		}
		list = append(list, Picture{p, text, stage})
	}
	return list
}

// many counts pieces: 1 side, 2 sides.
func many(n int64, piece string) string {
	if n != 1 {
		piece = worksheet.Plural(piece)
	}
	return strconv.FormatInt(n, 10) + " " + piece
}

// checks returns what to measure on a finished item.
func (t *ticket) checks(it *worksheet.Item) (list []string) {
	for _, c := range []struct {
		name worksheet.Name
		says string
	}{{worksheet.FinishedWidth, " wide"}, {worksheet.FinishedLength, " long"}, {worksheet.FinishedDiameter, " across"}} {
		if q := it.Get(c.name); q != nil {
			list = append(list, t.says(q)+c.says)
		}
	}
	if n := len(it.Holes); n > 0 {
		list = append(list, worksheet.Many(n, cmp.Or(it.Order.Holes.Make.Value, "hole")))
	}
	return list
}

func (t *ticket) finished(it *worksheet.Item) string {
	var parts []string
	if q := it.Get(worksheet.FinishedWidth); q != nil {
		parts = append(parts, t.says(q)+" wide")
	}
	if q := it.Get(worksheet.FinishedLength); q != nil {
		parts = append(parts, t.says(q)+" long")
	}
	if q := it.Get(worksheet.FinishedDiameter); q != nil {
		parts = append(parts, t.says(q)+" across")
	}
	text := strings.Join(parts, ", ")
	if it.Panels > 1 && text != "" {
		text += ", in " + worksheet.Many(it.Panels, "panel")
	}
	return text
}

// cut lists the pieces: how many in all, their sizes, and the cloth.
func (t *ticket) cut(it *worksheet.Item, patterns []worksheet.Pattern) {
	label := "cut"
	row := func(p *worksheet.Piece, more string) {
		text := p.Name
		if p.Count != nil {
			t.told[p.Count] = true
			each := p.Count.Value.N
			all := each * it.Quantity * t.times
			text = many(all, p.AsCounted())
			if all > each {
				text += " (" + strconv.FormatInt(each, 10) + " each)"
			}
		}
		if width, along := t.says(p.Width), t.says(p.Length); width != "" && width == along && round(patterns, p.Name) {
			text += choose(strings.HasPrefix(p.Name, "circle"), ", ", choose(p.Count != nil && p.Count.Value.N == 1, ", a circle ", ", circles ")) + width + " across"
		} else if width != "" && along != "" {
			text += ", " + width + " wide × " + along + " long"
			if long := it.SplitWidth(p); long > 0 {
				text += fmt.Sprintf(", %d of them %s", it.Quantity*t.times, t.length(long))
			}
		} else if width+along != "" {
			text += ", " + width + along
		}
		if p.Cloth != nil {
			text += ", of " + p.Cloth.Name
		}
		text += more
		t.row(label, text)
		if n := len(t.rows); text != "" {
			t.rows[n-1].Measured = true
		}
		if slices.ContainsFunc(it.Order.Cuts, func(c order.Cut) bool { of, _ := it.PieceOf(&c); return of == p && it.Turned(p, &c) }) {
			t.row("", "the order has the "+p.Name+" turned, "+t.says(p.Length)+" wide × "+t.says(p.Width)+" long: in a plain cloth either will do")
		}
		label = ""
	}
	for i := range it.Pieces {
		row(&it.Pieces[i], "")
	}
	for i := range it.Added {
		row(&it.Added[i], ", as the order has it")
	}
	if label != "" {
		return // nothing to cut
	}
	t.turned(it)
	switch c := it.Face; {
	case c == nil || c.Repeat <= 0 || it.Order.Motif.Value == "none":
	case it.Order.Motif.Value == "center":
		t.row("", "cut every "+worksheet.All(it.Centered())+" with a whole motif in its middle")
	case it.Heading != nil && it.Word("run") == "along":
		t.row("", "start every piece at the same point of the pattern")
	case c.Order.Repeat.Match.Value == "half drop" && it.Joins > 0:
		half, marks, ab := t.length(c.Repeat.Div(2, length.Nearest)), "mark A or B at the top of every cut", "A and B"
		first := "cut all of A on the whole motif, then all of B"
		if a, b := it.Get("cuts A"), it.Get("cuts B"); a != nil && b != nil {
			ab = fmt.Sprintf("%d A and %d B", a.Value.N*t.times, b.Value.N*t.times)
			first = fmt.Sprintf("cut %d A on the whole motif, then %d B", a.Value.N*t.times, b.Value.N*t.times)
			t.told[a], t.told[b] = true, true
		}
		switch waste := it.Get(worksheet.WastePerCut); {
		case it.Believes("half repeats"):
			t.row("", "half drop: cut A B A B down the cloth, "+ab+", the first A on the whole motif; each starts where the one before ends, half a repeat further on in the pattern, "+half+"; "+marks)
		case waste != nil && 2*waste.Value.Length() >= c.Repeat && !c.Dropped(): // B lies within its cut
			t.row("", "half drop: start every cut on the whole motif, "+ab+"; use each B from half a repeat further on, "+half+"; "+marks)
		default:
			t.row("", "half drop: "+first+", each starting half a repeat further on, "+half+"; "+marks)
		}
		switch {
		case it.Word("layout") == "center and sides":
			t.row("", "join side B, center A, side B")
		case it.Panels < 2:
			t.row("", "join them A B A B from the left")
		default:
			t.row("", "join them A B A B from the left, through all panels, so that the pattern continues where the panels meet")
		}
	default:
		switch placed, anywhere := it.Placed(); {
		case len(anywhere) == 0:
			t.row("", "start every cut at the same point of the pattern, a whole motif at the foot")
		case len(placed) == 0:
			t.row("", "cut every "+worksheet.All(anywhere)+" anywhere in the pattern")
		default:
			t.row("", "start every "+worksheet.All(placed)+" at the same point of the pattern, a whole motif at the foot; cut every "+worksheet.All(anywhere)+" anywhere in it")
		}
		t.trimmed(it)
	}
	if c := it.Face; c != nil && c.Order.Nap.Value == "one way" {
		t.row("", "lay all pieces the same way up: the nap runs one way")
	}
	if q := it.Get(worksheet.WidthsPerPanel); q != nil && q.Value.R.Den == 2 {
		t.row("", "split one width down its length for every two half widths; the half goes at the return edge")
		if it.HalvesDiffer() {
			text := "the two halves of a split width start half a repeat apart, one as A, one as B"
			for i := range it.Pieces {
				if long := it.SplitWidth(&it.Pieces[i]); long > 0 {
					text += ": cut " + t.splits(it, long)
				}
			}
			t.row("", text)
		}
	}
}

// round reports whether a piece of that name is a circle.
func round(patterns []worksheet.Pattern, name string) bool {
	return slices.ContainsFunc(patterns, func(p worksheet.Pattern) bool { return p.Name == name && !p.Joined && p.Shape == worksheet.Circle })
}

// splits says how long and where the widths are cut that are split for both letters of a half
// drop: each is followed by the other letter, where that has to begin.
func (t *ticket) splits(it *worksheet.Item, long length.Length) string {
	switch a, b := (it.Quantity+1)/2*t.times, it.Quantity/2*t.times; {
	case a+b == 1:
		return "that width " + t.length(long) + " long, as the last A"
	case b == 0:
		return fmt.Sprintf("those %d widths %s long, all as A", a, t.length(long))
	case a+b == 2:
		return "those 2 widths " + t.length(long) + " long, one as the last A, one as the last B"
	default:
		return fmt.Sprintf("those %d widths %s long, %d as A and %d as B, each the last before the other letter", a+b, t.length(long), a, b)
	}
}

// trimmed says how much the repeat leaves of each piece, to be cut off at its top.
func (t *ticket) trimmed(it *worksheet.Item) {
	var off []string
	one := true // all pieces leave as much
	for i := range it.Pieces {
		p := &it.Pieces[i]
		spare := it.Spare(p)
		one = one && spare == it.Spare(&it.Pieces[0])
		if spare > 0 {
			off = append(off, t.length(spare)+" of every "+p.AsCounted())
		}
	}
	switch {
	case len(off) == 0:
	case one:
		t.row("", "then trim the repeat's waste, "+t.length(it.Spare(&it.Pieces[0]))+", off the top of each")
	default:
		t.row("", "then trim the repeat's waste off the top: "+worksheet.All(off))
	}
}

// turned says which cloths of a curtain run sideways.
func (t *ticket) turned(it *worksheet.Item) {
	if it.Heading == nil {
		return
	}
	for _, l := range [...]struct{ run, what string }{{"run", "the cloth is"}, {"lining run", "the lining is"}, {"interlining run", "the interlining is"}} {
		if it.Word(l.run) == "along" && (l.run == "run" || it.Cloth(strings.TrimSuffix(l.run, " run")) != nil) {
			t.row("", l.what+" turned: its width runs up the curtain, and nothing is joined")
		}
	}
}

// fold says how an edge is turned; "" if it has no hem.
func (t *ticket) fold(h *worksheet.Hem) string {
	if h.Takes == 0 {
		return ""
	}
	text := t.length(h.Turn) + ", turned " + times(h.Folds)
	if o := h.Order; o != nil {
		if o.First.Set && o.First.Value != h.Turn {
			text = t.length(o.First.Value) + " first, then " + text
		}
		if o.Stitch.Set {
			text += ", stitched " + t.length(o.Stitch.Value) + " from the inner fold"
		}
		if o.Corners.Value != "" {
			text += ", corners " + strings.Replace(o.Corners.Value, "mitred", "mitered", 1)
		}
	}
	text += "; uses " + t.length(h.Takes)
	if h.House {
		text += " (usual hem, not stated)"
	}
	return text
}

func times(n int64) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return strconv.FormatInt(n, 10) + " times"
}

// seams says how widths or pieces are joined, and where.
func (t *ticket) seams(it *worksheet.Item, washed string) string {
	if it.Joins <= 0 || it.Seam == nil {
		return ""
	}
	text := it.Seam.Name + ", " + t.length(taken(it)) + " from each piece"
	if it.Has("width to join") {
		text += ", once each width is cut down to " + t.length(it.Length("width to join")) + " for the pattern to meet"
	}
	j := &it.Order.Join
	if it.Seam.Name == "French" && !j.FirstRow.Set && !j.Trim.Set {
		text += ": wrong sides together first, and trimmed; then right sides together, so that both rows take that much"
	}
	if j.FirstRow.Set {
		text += ", first row at " + t.length(j.FirstRow.Value)
	}
	if j.Trim.Set {
		text += ", one edge trimmed to " + t.length(j.Trim.Value)
	}
	if j.Finish.Value != "" {
		text += ", raw edges: " + j.Finish.Value
	}
	if len(it.Joined) > 0 {
		from := "the left finished edge"
		if it.Heading != nil { // half widths go at the return
			from = "the leading edge"
			if it.Panels == 2 {
				from += ", where the panels meet"
			}
		}
		text += "; " + before(washed, ": ") + t.positions(it.Joined) + " from " + from
		if flat := it.Get(worksheet.PanelWidth); it.Heading != nil && flat != nil {
			back := make([]length.Length, len(it.Joined))
			for i, l := range it.Joined {
				back[len(back)-1-i] = flat.Value.Length() - l
			}
			text += "; " + t.positions(back) + " from the return edge"
		}
	}
	return text
}

// taken returns what a join takes from each piece. Whole widths are joined inside the
// selvedge, or where their pattern meets; the pieces of a flat panel are cut narrower instead.
func taken(it *worksheet.Item) length.Length {
	if it.Get(worksheet.FlatWidth) == nil || !it.Has("join margin") {
		return it.Allowance
	}
	usable := it.Get(worksheet.UsableWidth)
	if usable == nil {
		return max(it.Allowance, it.Length("join margin"))
	}
	width := it.Face.Washed
	if it.Has("joined width") {
		width = it.Length("joined width")
	}
	return (width - usable.Value.Length()).Div(2, length.Nearest)
}

// positions lists lengths.
func (t *ticket) positions(list []length.Length) string {
	texts := make([]string, len(list))
	for i, l := range list {
		texts[i] = t.length(l)
	}
	return strings.Join(texts, " · ")
}

// heading says how the top is gathered, pleated or hung.
func (t *ticket) heading(it *worksheet.Item) {
	if it.Heading == nil {
		return
	}
	text := it.Heading.Style
	for _, part := range []struct {
		q     *worksheet.Quantity
		after string
	}{
		{it.Get(worksheet.Fullness), " fullness"}, {it.Get(worksheet.PleatCount), " pleats a panel"}, {it.Get(worksheet.PleatSpacing), " between pleats"},
		{it.Get(worksheet.TakeUp), " to each pleat"}, {it.Get(worksheet.PocketHeight), " pocket, measured flat"}, {it.Get(worksheet.TabCount), " tabs a panel"}, {it.Get(worksheet.TabGap), " between tabs"},
	} {
		if part.q != nil {
			text += ", " + t.says(part.q) + part.after
		}
	}
	h := &it.Order.Heading
	for _, part := range []struct {
		leaf  order.Length
		after string
	}{{h.HookDrop, " from hooks to top"}, {h.Header, " header above the pocket"}, {h.Tape, " tape"}, {h.TabDrop, " from pole to top"}} {
		if part.leaf.Set {
			text += ", " + t.length(part.leaf.Value) + part.after
		}
	}
	t.row("heading", text)
	if it.Has("heading allowance") && it.Length("heading allowance") > 0 {
		t.row("", t.length(it.Length("heading allowance"))+" of cloth above the finished top, to fold over")
	}
	if it.Get(worksheet.TabCount) != nil && it.Length("tab width") > 0 {
		t.row("", "tabs "+t.length(it.Length("tab width"))+" wide, "+t.length(it.Length("tab loop"))+" from pole to top, "+t.length(it.Length("tab end"))+" sewn in at each end")
	}
}

// holes says what holes there are, and where each lies on a panel.
func (t *ticket) holes(it *worksheet.Item, washed string) {
	h := &it.Order.Holes
	if !h.Set || len(it.Holes) == 0 {
		return
	}
	text := worksheet.Many(len(it.Holes), h.Make.Value)
	if it.Panels > 1 {
		text += " a panel"
	}
	if it.Get(worksheet.HoleCount) != nil {
		t.told[it.Get(worksheet.HoleCount)] = true
	}
	if it.Get(worksheet.HoleSpacing) != nil {
		text += ", " + t.says(it.Get(worksheet.HoleSpacing)) + " from center to center"
	}
	if h.FromTop.Set {
		text += ", centers " + t.length(h.FromTop.Value) + " below the finished top"
	}
	if it.Get(worksheet.HoleSlit) != nil {
		text += ", slits " + t.says(it.Get(worksheet.HoleSlit)) + " long"
	}
	t.row("holes", text)
	from := "the left finished edge"
	if it.Heading != nil {
		from = "the leading edge"
	}
	if h.Make.Value == "buttonhole" && h.Backing.Value != "none" {
		t.row("", "back them with "+cmp.Or(h.Backing.Value, "interfacing")+" before they are sewn")
	}
	t.row("", before(washed, ", ")+"from "+from+": "+t.positions(it.Holes), it.Holes...)
}

// press gives the setting of the iron and what goes with it.
func (t *ticket) press(it *worksheet.Item) string {
	o := &it.Order.Press
	var parts []string
	q := it.Get(worksheet.PressSetting)
	dots, bare := int64(0), o.Setting.Value.None || it.Face != nil && it.Face.NoIron() // of the face
	if s := t.says(q); bare {
		parts = append(parts, "no iron")
	} else if s != "" {
		if dots = q.Value.N; o.Setting.Set {
			dots = min(dots, t.work.Dots(o.Setting.Value))
		}
		parts = append(parts, s)
		if cool := t.coolest(it, q.Value.N); cool != "" {
			parts[0] += ", for the " + cool
		}
	}
	if o.Steam.Set {
		parts = append(parts, choose(o.Steam.Value, "steam", "no steam"))
	}
	if o.Cloth.Set {
		parts = append(parts, choose(o.Cloth.Value, "through a press cloth", "no press cloth"))
	}
	if f := o.Fusing.Value; f != "" && f != "none" {
		parts = append(parts, "fusible "+f)
	}
	text := strings.Join(parts, ", ")
	for _, l := range it.Layers() { // one that stands less than the item is pressed with
		says := ""
		switch stands := t.work.Stands(l.Cloth); {
		case bare:
		case l.NoIron():
			says = "no iron on the " + l.Role
		case l.Apart && stands > 0 && (stands < dots || dots == 0):
			says = "the " + l.Role + ": " + t.value(worksheet.DotsOf(stands))
		}
		if says != "" && !strings.Contains(text, says) {
			text = before(text, "; ") + says
		}
	}
	return text
}

// coolest names the layers that an item is pressed cooler for than its face stands.
func (t *ticket) coolest(it *worksheet.Item, dots int64) string {
	var names []string
	if it.Face == nil || t.work.Stands(it.Face) <= dots {
		return ""
	}
	for _, l := range it.Layers() {
		if !l.Apart && t.work.Stands(l.Cloth) == dots {
			names = append(names, l.Role)
		}
	}
	return worksheet.All(names)
}

func choose(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}

// hardware lists what is needed besides cloth, for all items that are alike.
func (t *ticket) hardware(it *worksheet.Item) {
	o := it.Order
	label := "hardware"
	row := func(text string) {
		t.row(label, text)
		label = ""
	}
	all := it.Quantity * t.times
	each := ""
	if all > 1 {
		each = " for each"
	}
	if n := len(it.Holes); n > 0 && o.Holes.Make.Value == "grommet" {
		text := worksheet.Many(n*int(it.Panels*it.Quantity*t.times), "grommet") + " in all"
		if o.Holes.Bore.Set {
			text += ", bore " + t.length(o.Holes.Bore.Value)
		}
		if o.Holes.Flange.Set {
			text += ", flange " + t.length(o.Holes.Flange.Value)
		}
		row(text)
	}
	if w := &o.Weights; w.Set {
		text := "weights: " + w.Kind.Value
		if q := it.Get("weights"); w.Count.Set {
			text = worksheet.Many(w.Count.Value, "weight") + ": " + w.Kind.Value
		} else if q != nil {
			text = worksheet.Many(q.Value.N*it.Quantity*t.times, "weight") + ": " + w.Kind.Value + ", " + weighted(it)
			t.told[q] = true
		}
		if q := it.Get("length of the weights"); q != nil {
			text += ", " + t.bought(q) + each
		}
		row(text)
	}
	zip := it.Get("zip length")
	if l := o.Zip.Length; l.Set {
		row("zip, " + t.length(l.Value) + each)
		if zip != nil {
			t.told[zip] = true
		}
	} else if zip != nil {
		row("zip, " + t.says(zip) + each)
	}
	if l := o.Rod.Length; l.Set {
		row("rod, " + t.length(l.Value) + each)
	}
	for _, bought := range trims {
		q := it.Get(bought.name)
		switch {
		case q == nil || t.told[q]:
		case q.Value.Sort == worksheet.Count:
			t.told[q] = true
			row(many(q.Value.N*all, cmp.Or(bought.says, strings.TrimSuffix(it.Word("closure"), "s"))))
		default:
			row(cmp.Or(bought.says, choose(it.Word("closure") == "snaps", "snap tape", it.Word("closure"))) + ", " + t.says(q) + each)
		}
	}
}

// trims are quantities bought besides cloth, and what they are of; "" for the item's
// closure.
var trims = [...]struct {
	name worksheet.Name
	says string
}{{"rings", "ring"}, {"rings on each", "ring"}, {"tie-back rings", "tie-back ring"}, {"rod and bar length", "rods and bar"}, {"board length", "board"}, {"cord in all", "cord"},
	{"fastenings", ""}, {"fastener", ""}, {"tape for the top", "tape for the top"}, {"piping length", "piping cord"}}

// weighted says where single weights go.
func weighted(it *worksheet.Item) string {
	switch class := it.Word("cloth's class"); {
	case class == "sheer" || class == "light":
		return "evenly along the foot"
	case it.Joins == 0:
		return "at the bottom corners"
	}
	return "at the bottom corners and the joins"
}

// figures lists whatever else was worked out for an item.
func (t *ticket) figures(it *worksheet.Item) {
	label := "figures"
	for _, q := range t.work.AllOf(it.Index) {
		if !t.told[q] && q.Name != worksheet.HemTakes {
			t.row(label, quantityName(q)+": "+t.says(q))
			label = ""
		}
	}
}

// quantityName returns a quantity's name and what it is of.
func quantityName(q *worksheet.Quantity) string {
	if q.Of == "" || q.Item < 0 {
		return string(q.Name)
	}
	return string(q.Name) + ", " + q.Of
}

// ways says how a cloth is cut if not in rows right across.
var ways = map[string]string{
	"guillotine": ", every cut from edge to edge, as cutgate lay shows",
	"free":       ", laid freely, as cutgate lay shows",
}

// cloth says how much of a cloth to buy, unless its bolts are enough, and what the cuts
// take.
func (t *ticket) cloth(c *worksheet.Cloth) string {
	var parts []string
	if n := c.Order.Name.Value; n != "" {
		parts = append(parts, n)
	}
	var atHand length.Length
	for i := range c.Order.Bolts {
		atHand += c.Order.Bolts[i].Length.Value
	}
	none := t.work.Nothing(c) != nil // what is worked out for the rest would mislead
	if c.ToBuy != nil && !none && (c.Needed == nil || atHand < c.Needed.Value.Length()) {
		parts = append(parts, "buy "+t.bought(c.ToBuy))
	}
	cut, laid := t.work.CutFrom(c)
	if c.Needed != nil && !none {
		text := "the cuts take " + t.bought(c.Needed)
		if laid && cut.Length > c.Needed.Value.Length() {
			text += ", " + cut.Length.Format(t.sold(), length.Up) + around(cut.Flaws)
		}
		parts = append(parts, text+ways[t.work.Way(c).String()])
	}
	var bolts []string
	for i := range c.Order.Bolts {
		b := &c.Order.Bolts[i]
		text := "bolt " + strconv.Itoa(i+1)
		if b.Lot.Value != "" {
			text = "lot " + b.Lot.Value
		}
		if b.Length.Set {
			text += ", " + b.Length.Value.Format(t.sold(), length.Down)
		}
		bolts = append(bolts, text)
	}
	if len(bolts) > 0 {
		parts = append(parts, "at hand: "+strings.Join(bolts, " · "))
	}
	last := -1
	for _, from := range cut.Sources {
		item := called(&t.work.Items[from.Item])
		if from.Roll == last {
			parts[len(parts)-1] += " · " + item
			continue
		}
		roll, _, _ := strings.Cut(bolts[from.Roll], ", ")
		parts = append(parts, "from "+roll+": "+item)
		last = from.Roll
	}
	return strings.Join(parts, "; ")
}

// around says what the cuts are laid on that so take more of.
func around(flaws int) string {
	switch flaws {
	case 0:
		return " on these bolts"
	case 1:
		return " laid around the flaw"
	}
	return " laid around the flaws"
}

// sold returns the unit that cloth is sold by.
func (t *ticket) sold() length.Unit {
	if t.work.Unit.Metric() {
		return length.M
	}
	return length.Yd
}

// bought formats a length of cloth as it is sold: in meters or yards.
func (t *ticket) bought(q *worksheet.Quantity) string {
	t.told[q] = true
	return q.Value.Format(t.sold(), q.Round)
}

// workings returns all quantities with a formula, item by item, then cloth by cloth.
func (t *ticket) workings() (groups []Group) {
	for _, q := range t.work.All {
		if q.Formula == "" || t.alike[q.Item] || q.Item >= 0 && !t.work.Items[q.Item].Worked {
			continue
		}
		if g := t.owner(q); len(groups) == 0 || groups[len(groups)-1].ID != g.ID || groups[len(groups)-1].Kind != g.Kind || groups[len(groups)-1].Cloth != g.Cloth {
			groups = append(groups, g)
		}
		g := &groups[len(groups)-1]
		g.Workings = append(g.Workings, Working{Name: quantityName(q), Value: q.Value.Format(t.work.Unit, q.Round), Lines: q.Step(t.work.Unit), Source: q.Source})
	}
	return groups
}

// owner returns an empty group for the item or the cloth of a quantity.
func (t *ticket) owner(q *worksheet.Quantity) Group {
	if q.Item < 0 || q.Item >= len(t.work.Items) {
		return Group{ID: q.Of, Kind: "cloth", Cloth: true}
	}
	o := t.work.Items[q.Item].Order
	g := Group{ID: o.ID.Value, Kind: o.Kind.Value}
	if g.ID == "" {
		g.ID = "item " + strconv.Itoa(q.Item+1)
	}
	return g
}
