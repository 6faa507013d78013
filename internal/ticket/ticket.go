// Package ticket is the cut ticket of an order as a document: what stands on it, in
// which section and in which order. How it is laid out is for whoever prints it, so
// that a text, a page and a picture can't disagree.
//
// # Law
//
// A document holds words and places only, and nothing on it is worked out: every
// figure is one of the worksheet's, or stands on the order.
package ticket

import (
	"cmp"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/worksheet"
)

// A Document is a ticket. Its texts are the order's own where they name something, and
// are shown as such: they may have any characters in them.
type Document struct {
	Due      string // as the order says it; "" for none
	Verdict  finding.Verdict
	Reasons  []Row // why not to cut, or what to ask first: the place in the file, and the message
	Waived   []Row // errors that somebody waives: the place in the file, the message, and who, why and until when
	Notes    string
	House    *finding.House // the shop's own rules in force; nil for none
	Items    []Item
	Cloths   []Row // what to buy, by the name of the cloth
	Cautions []string
	Workings []Group // of each item, and then of each cloth
}

// An Item is one thing to make: its size, its pieces, and how they are made up.
type Item struct {
	ID, Kind, Room string
	Make           int64 // how many of it
	Rows           []Row
}

// A Row is a labelled line. One without a label goes on with the row above it.
type Row struct {
	Label, Text string
	Marks       []length.Length // the places that it tells of, from the left finished edge
}

// A Group is the workings of an item, or of a cloth.
type Group struct {
	ID, Kind string // of an item; a cloth has its name and "cloth"
	Cloth    bool
	Workings []Working
}

// A Working is how a quantity was worked out.
type Working struct {
	Name, Value string
	Lines       []string // the formula in words, and in figures
	Source      string   // "" for none
}

// Of is the ticket of an order that was worked out, with what was found on it and what
// there is to say beside that.
func Of(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) *Document {
	t := &ticket{work: s, told: make(map[*worksheet.Quantity]bool)}
	d := &Document{Due: s.Order.Due.Value, Verdict: finding.VerdictOf(found, aside.Known), Notes: s.Order.Notes.Value, House: aside.House}
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
	for i := range s.Items {
		d.Items = append(d.Items, t.item(&s.Items[i]))
	}
	for i := range s.Cloths {
		c := &s.Cloths[i]
		if text := t.cloth(c); text != "" {
			d.Cloths = append(d.Cloths, Row{Label: c.Name, Text: text})
		}
	}
	said := make(map[string]bool)
	for i := range s.Items {
		for _, c := range s.Cautions(&s.Items[i]) {
			if !said[c] {
				d.Cautions = append(d.Cautions, c)
			}
			said[c] = true
		}
	}
	d.Workings = t.workings()
	return d
}

// waiver says who waives a finding, why, and until when.
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

// A ticket is a document that is being made.
type ticket struct {
	work *worksheet.Sheet
	told map[*worksheet.Quantity]bool // quantities that a row of their own has said
	rows []Row                        // of the item at hand
}

// row adds a labelled row, or a further one where there is no label.
func (t *ticket) row(label, text string, marks ...length.Length) {
	if text != "" {
		t.rows = append(t.rows, Row{Label: label, Text: text, Marks: marks})
	}
}

// says prints a quantity and notes that it was told; "" for none.
func (t *ticket) says(q *worksheet.Quantity) string {
	if q == nil {
		return ""
	}
	t.told[q] = true
	return q.Value.Format(t.work.Unit, q.Round)
}

func (t *ticket) length(l length.Length) string { return l.Format(t.work.Unit, length.Nearest) }

func (t *ticket) item(it *worksheet.Item) Item {
	o := it.Order
	t.rows = nil
	t.row("notes", o.Notes.Value)
	t.row("finished", t.finished(it))
	t.cut(it)
	label := "folds"
	for _, edge := range []struct {
		name string
		hem  *worksheet.Hem
	}{{"top", &it.Top}, {"bottom", &it.Bottom}, {"sides", &it.Sides}, {"lining", &it.LiningHem}} {
		if text := t.fold(edge.hem); text != "" {
			t.row(label, cmp.Or(edge.hem.Edge, edge.name)+" "+text)
			label = ""
		}
	}
	t.row("seams", t.seams(it), it.Joined...)
	for _, m := range it.Marks {
		t.row(m.Name, t.positions(m.At)+" from "+m.From, m.At...)
	}
	for i, n := range it.Notes {
		label := n.Name
		if i > 0 && it.Notes[i-1].Name == label {
			label = ""
		}
		t.row(label, n.Text)
	}
	t.heading(it)
	t.holes(it)
	t.row("press", t.press(it))
	t.hardware(it)
	t.figures(it)
	return Item{ID: o.ID.Value, Kind: o.Kind.Value, Room: o.Room.Value, Make: it.Quantity, Rows: t.rows}
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
		parts = append(parts, t.says(q)+" in diameter")
	}
	text := strings.Join(parts, ", ")
	if it.Panels > 1 && text != "" {
		text += ", in " + worksheet.Many(int(it.Panels), "panel")
	}
	return text
}

// cut lists the pieces: how many in all, their sizes, and the cloth.
func (t *ticket) cut(it *worksheet.Item) {
	label := "cut"
	for i := range it.Pieces {
		p := &it.Pieces[i]
		text := p.Name
		if p.Count != nil {
			t.told[p.Count] = true
			each := p.Count.Value.N
			if each*it.Quantity != 1 {
				text = worksheet.Plural(text)
			}
			text = strconv.FormatInt(each*it.Quantity, 10) + " " + text
			if it.Quantity > 1 {
				text += " (" + strconv.FormatInt(each, 10) + " each)"
			}
		}
		if width, along := t.says(p.Width), t.says(p.Length); width != "" && along != "" {
			text += ", " + width + " wide × " + along + " long"
		} else if width+along != "" {
			text += ", " + width + along
		}
		if p.Cloth != nil {
			text += ", of " + p.Cloth.Name
		}
		t.row(label, text)
		label = ""
	}
	if label != "" {
		return // nothing to cut
	}
	switch c := it.Face; {
	case c == nil || c.Repeat <= 0:
	case c.Order.Repeat.Match.Value == "half drop" && it.Joins > 0:
		t.row("", "half drop: cut all of A on the whole motif, then all of B, each starting half a repeat further on; mark A or B at the top of every cut")
		t.row("", "join them A B A B from the left, through all panels, so that the pattern continues where the panels meet")
	default:
		t.row("", "start every cut at the same point of the pattern, a whole motif at the foot")
	}
	if c := it.Face; c != nil && c.Order.Nap.Value == "one way" {
		t.row("", "lay all pieces the same way up: the nap runs one way")
	}
	if q := it.Get(worksheet.WidthsPerPanel); q != nil && q.Value.R.Den == 2 {
		t.row("", "split one width down its length for every two half widths; the half goes at the return edge")
	}
}

// fold says how an edge is turned; "" where it has no hem.
func (t *ticket) fold(h *worksheet.Hem) string {
	if h.Takes == 0 {
		return ""
	}
	text := t.length(h.Turn) + ", turned " + times(h.Folds)
	if o := h.Order; o != nil {
		if o.First.Set {
			text = t.length(o.First.Value) + " first, then " + text
		}
		if o.Stitch.Set {
			text += ", stitched " + t.length(o.Stitch.Value) + " from the inner fold"
		}
		if o.Corners.Value != "" {
			text += ", corners " + o.Corners.Value
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
func (t *ticket) seams(it *worksheet.Item) string {
	if it.Joins <= 0 || it.Seam == nil {
		return ""
	}
	text := it.Seam.Name + ", " + t.length(it.Allowance) + " from each piece"
	j := &it.Order.Join
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
		if it.Heading != nil { // half widths hang at the return
			from = "the leading edge, where the panels meet"
		}
		text += "; " + t.positions(it.Joined) + " from " + from
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
		{it.Get(worksheet.TakeUp), " to each pleat"}, {it.Get(worksheet.PocketHeight), " pocket, flat"}, {it.Get(worksheet.TabCount), " tabs a panel"}, {it.Get(worksheet.TabGap), " between tabs"},
	} {
		if part.q != nil {
			text += ", " + t.says(part.q) + part.after
		}
	}
	t.row("heading", text)
}

// holes says what holes there are, and where each of a panel lies.
func (t *ticket) holes(it *worksheet.Item) {
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
	t.row("", "from the left finished edge: "+t.positions(it.Holes), it.Holes...)
}

// press says the setting of the iron and what goes with it.
func (t *ticket) press(it *worksheet.Item) string {
	o := &it.Order.Press
	var parts []string
	if s := t.says(it.Get(worksheet.PressSetting)); s != "" {
		parts = append(parts, s)
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
	return strings.Join(parts, ", ")
}

func choose(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}

// hardware says what is needed beside cloth, for all of the item.
func (t *ticket) hardware(it *worksheet.Item) {
	o := it.Order
	label := "hardware"
	row := func(text string) {
		t.row(label, text)
		label = ""
	}
	if n := len(it.Holes); n > 0 && o.Holes.Make.Value == "grommet" {
		text := worksheet.Many(n*int(it.Panels*it.Quantity), "grommet") + " in all"
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
		if w.Count.Set {
			text = worksheet.Many(int(w.Count.Value), "weight") + ": " + w.Kind.Value
		}
		row(text)
	}
	if l := o.Zip.Length; l.Set {
		row("zip, " + t.length(l.Value))
	}
	if l := o.Rod.Length; l.Set {
		row("rod, " + t.length(l.Value))
	}
}

// figures lists what else was worked out for an item.
func (t *ticket) figures(it *worksheet.Item) {
	label := "figures"
	for _, q := range t.work.All {
		if q.Item == it.Index && !t.told[q] && q.Name != worksheet.HemTakes {
			t.row(label, quantityName(q)+": "+t.says(q))
			label = ""
		}
	}
}

// quantityName is a quantity's name with what it is of.
func quantityName(q *worksheet.Quantity) string {
	if q.Of == "" || q.Item < 0 {
		return string(q.Name)
	}
	return string(q.Name) + ", " + q.Of
}

// cloth says what to buy of a cloth, and what the cuts take.
func (t *ticket) cloth(c *worksheet.Cloth) string {
	var parts []string
	if n := c.Order.Name.Value; n != "" {
		parts = append(parts, n)
	}
	if c.ToBuy != nil {
		parts = append(parts, "buy "+t.bought(c.ToBuy))
	}
	if c.Needed != nil {
		parts = append(parts, "the cuts take "+t.bought(c.Needed))
	}
	return strings.Join(parts, "; ")
}

// bought prints a length of cloth as it is sold: in metres or yards.
func (t *ticket) bought(q *worksheet.Quantity) string {
	t.told[q] = true
	unit := length.Yd
	if t.work.Unit.Metric() {
		unit = length.M
	}
	return q.Value.Format(unit, q.Round)
}

// workings are all quantities with a formula, item by item and then cloth by cloth.
func (t *ticket) workings() (groups []Group) {
	for _, q := range t.work.All {
		if q.Formula == "" {
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

// owner is the group of the item or the cloth that a quantity is of.
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
