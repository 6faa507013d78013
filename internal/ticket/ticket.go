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
	text := idOf(it)
	if room := it.Order.Room.Value; room != "" {
		text += ", " + room
	}
	return text
}

func idOf(it *worksheet.Item) string {
	return cmp.Or(it.Order.ID.Value, "item "+strconv.Itoa(it.Index+1))
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

// before returns text with the mark that divides it from what follows; "" for "".
func before(text, mark string) string {
	if text == "" {
		return ""
	}
	return text + mark
}

// pictures returns the patterns with their captions.
func (t *ticket) pictures(it *worksheet.Item, patterns []worksheet.Pattern) (list []Picture) {
	for i := range patterns {
		p := &patterns[i]
		n := p.Count * it.Quantity * t.times
		text, stage := worksheet.Many(n, p.Name), Cut
		if at := slices.IndexFunc(it.Pieces, func(of worksheet.Piece) bool { return of.Name == p.Name }); at >= 0 && !p.Joined {
			text = worksheet.Many(n, it.Pieces[at].AsCounted())
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

// sizes returns the finished sizes of an item.
func (t *ticket) sizes(it *worksheet.Item) (list []string) {
	for _, c := range []struct {
		name worksheet.Name
		says string
	}{{worksheet.FinishedWidth, " wide"}, {worksheet.FinishedLength, " long"}, {worksheet.FinishedDiameter, " across"}} {
		if q := it.Get(c.name); q != nil {
			list = append(list, t.says(q)+c.says)
		}
	}
	return list
}

// checks returns what to measure on a finished item.
func (t *ticket) checks(it *worksheet.Item) []string {
	list := t.sizes(it)
	if list == nil { // what has neither width nor length of its own
		for _, c := range []struct{ term, says string }{{"drop", " drop"}, {"outside", " wide outside"}, {"height", " high"}, {"return", " returns"}} {
			if it.Has(c.term) && it.Length(c.term) > 0 {
				list = append(list, t.length(it.Length(c.term))+c.says)
			}
		}
	}
	if it.Has("overall width") && it.Has("overall length") { // with what stands out round the finished size
		list = append(list, t.length(it.Length("overall width"))+" × "+t.length(it.Length("overall length"))+" over all")
	}
	if n := len(it.Holes); n > 0 {
		list = append(list, worksheet.Many(n, cmp.Or(it.Order.Holes.Make.Value, "hole")))
	}
	return list
}

func (t *ticket) finished(it *worksheet.Item) string {
	text := strings.Join(t.sizes(it), ", ")
	if it.Panels > 1 && text != "" {
		text += ", in " + worksheet.Many(it.Panels, "panel")
	}
	return text
}

// positions lists lengths.
func (t *ticket) positions(list []length.Length) string {
	texts := make([]string, len(list))
	for i, l := range list {
		texts[i] = t.length(l)
	}
	return strings.Join(texts, " · ")
}

func choose(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}
