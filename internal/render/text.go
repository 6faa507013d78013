package render

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// text is the report for people, set out as a workroom's docket: the order's
// head, then under each item what is wrong with it, what to write instead and
// how it was worked out.
type text struct {
	unsaid
	out    sink
	opts   Options
	page   sheet
	inked  bool // something was written
	loose  bool // the last order took more than a line
	totals totals
	houses []*finding.House
	clear  int // orders that are clear to cut, with nothing to say of them
}

// mostClear is how many orders with nothing to say of them are listed one by one.
const mostClear = 20

func newText(w io.Writer, o Options) Report {
	return &text{out: sink{w: w}, opts: o, page: newSheet(o)}
}

// totals count orders by verdict, findings by level, and what was set aside.
type totals struct {
	orders        [finding.Hold + 1]int
	findings      [finding.Error + 1]int
	waived, known int
}

// many says a verdict of several orders.
var many = [...]string{finding.Clear: "clear to cut", finding.Ask: "ask first", finding.Hold: "on hold"}

// The columns of a finding's rows.
const (
	labelColumn = 8
	valueColumn = 17
)

// stamps are the words that a finding of a level is headed with.
var stamps = [...]string{finding.Off: "", finding.Note: "NOTE", finding.Warning: "ASK", finding.Error: "HOLD"}

// Stamp is the word that a finding of a level is headed with.
func Stamp(l finding.Level) string { return stamps[l] }

func stampInk(l finding.Level) ink {
	switch l {
	case finding.Error:
		return verdictInks[finding.Hold]
	case finding.Warning:
		return verdictInks[finding.Ask]
	}
	return headInk
}

func (t *text) Order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) error {
	verdict := aside.Verdict(found)
	t.inForce(aside.House)
	t.totals.orders[verdict]++
	for i := range found {
		t.totals.findings[found[i].Level]++
	}
	t.totals.waived += len(aside.Waived)
	t.totals.known += len(aside.Known)
	if t.opts.skipped(found, &aside) {
		return t.out.err
	}
	if verdict == finding.Clear && len(found)+len(aside.Waived)+len(aside.Known) == 0 {
		if t.clear++; t.clear > mostClear && !t.opts.All {
			return t.out.err
		}
	}
	p := &t.page
	loose := len(found)+len(aside.Waived)+len(aside.Known)+len(aside.Above) > 0
	if t.inked && (t.loose || loose) {
		p.line("")
	}
	t.inked, t.loose = true, loose
	if len(found) == 0 {
		t.short(s, verdict)
	} else {
		t.docket(s, found, verdict)
	}
	p.aside(s.Order.File, aside)
	return t.flush()
}

// aside says what of an order was set aside: waivers alike are one, and of what was
// known before each that is more than a note.
func (p *sheet) aside(file *source.File, aside finding.Aside) {
	var said []string
	times := make(map[string]int)
	for i := range aside.Waived {
		text := waiver(&aside.Waived[i])
		if times[text]++; times[text] == 1 {
			said = append(said, text)
		}
	}
	for i, text := range said {
		said[i] = strconv.Itoa(times[text]) + " waived: " + text
	}
	if n := len(aside.Known); n > 0 {
		said = append(said, strconv.Itoa(n)+" known before: "+strings.Join(byLevel(aside.Known), ", "))
	}
	for i := range aside.Above {
		if f := &aside.Above[i]; f.Level > finding.Note {
			said = append(said, "also "+f.Level.String()+", "+file.Place(f.At.Start)+", as reported above ("+f.Rule+")")
		}
	}
	for i := range aside.Known {
		if f := &aside.Known[i]; f.Level > finding.Note {
			said = append(said, "known "+f.Level.String()+", "+file.Place(f.At.Start)+": "+f.Message+" ("+f.Rule+")")
		}
	}
	for _, text := range said {
		p.faint(2, text)
	}
}

// faint writes a text from an indent on, with its further lines set in a little more.
func (p *sheet) faint(indent int, text string) {
	further := indent + 2
	for _, l := range wrap(source.Show(text), p.width-further, p.width-further) {
		p.line(strings.Repeat(" ", indent) + p.ink(faintInk, l))
		indent = further
	}
}

// byLevel counts findings by their levels, the gravest first.
func byLevel(found []finding.Finding) (counts []string) {
	for _, level := range slices.Backward(finding.Levels()) {
		n := 0
		for i := range found {
			if found[i].Level == level {
				n++
			}
		}
		if n > 0 {
			counts = append(counts, worksheet.Many(n, level.String()))
		}
	}
	return counts
}

// inForce keeps the house rules that orders were checked by, each once.
func (t *text) inForce(h *finding.House) {
	if h != nil && !slices.Contains(t.houses, h) {
		t.houses = append(t.houses, h)
	}
}

// houseSaid names house rules, and says what they let through; houseText is the same
// after a label.
func houseSaid(h *finding.House) string {
	return "house rules: " + houseText(h)
}

func houseText(h *finding.House) string {
	said := h.File
	if lets := houseLets(h); lets != "" {
		said += "; it " + lets
	}
	return said
}

// houseLets says what house rules let through; "" for nothing.
func houseLets(h *finding.House) string {
	var parts []string
	if len(h.Off) > 0 {
		parts = append(parts, "skips "+strings.Join(h.Off, ", "))
	}
	for _, l := range h.Lowered {
		parts = append(parts, "lowers "+l.Of+" to "+l.To.String())
	}
	return strings.Join(parts, " and ")
}

// waiver is a waiver's rule and reason, and who signed it for how long.
func waiver(w *finding.Waived) string { return w.Rule + ", because " + reason(w) }

// reason is why something is waived, and who signed that for how long.
func reason(w *finding.Waived) string {
	var signed []string
	if w.By != "" {
		signed = append(signed, w.By)
	}
	if w.Until != "" {
		signed = append(signed, "until "+w.Until)
	}
	if len(signed) == 0 {
		return w.Because
	}
	return w.Because + " (" + strings.Join(signed, ", ") + ")"
}

func (t *text) flush() error {
	t.out.print(t.page.String())
	t.page.Reset()
	return t.out.err
}

// short is the one line of an order without new findings. The client gives way to a
// long file name.
func (t *text) short(s *worksheet.Sheet, verdict finding.Verdict) {
	p := &t.page
	const clearColumn = 44
	where, word := whereabouts(s), verdict.String()
	head := heading(s)
	room := func() int { return p.width - source.Width(head) - len(word) - source.Width(where) } // for the two gaps
	if room() < 4 {
		head = number(s)
	}
	gap := max(2, min(clearColumn-source.Width(head), room()-2))
	line := head + strings.Repeat(" ", gap) + p.ink(verdictInks[verdict], word)
	if rest := room() - gap; rest >= 2 {
		p.line(line + strings.Repeat(" ", rest) + p.ink(faintInk, where))
		return
	}
	p.line(line)
	p.line(strings.Repeat(" ", max(2, p.width-source.Width(where))) + p.ink(faintInk, where))
}

// docket is an order with findings.
func (t *text) docket(s *worksheet.Sheet, found []finding.Finding, verdict finding.Verdict) {
	p := &t.page
	p.both(heading(s), headInk, whereabouts(s), faintInk)
	p.rule("─", 0)
	for _, g := range groups(s, found) {
		if g.heading != "" {
			p.line(p.ink(headInk, g.heading))
		}
		for _, f := range g.findings {
			p.line("")
			p.finding(s.Order.File, f)
		}
		p.line("")
	}
	p.rule("─", 2)
	p.line("  " + strings.Join(append([]string{p.ink(verdictInks[verdict], verdict.String())}, byLevel(found)...), " · "))
}

// finding is one finding: what is wrong and where, then a row for each thing
// that there is to say of it.
func (p *sheet) finding(file *source.File, f *finding.Finding) {
	where := source.Show(file.Place(f.At.Start))
	room := p.width - labelColumn - len(where) - 2
	lines := wrap(source.Show(f.Message), room, room)
	stamp := stamps[f.Level]
	pad := strings.Repeat(" ", max(2, p.width-labelColumn-source.Width(lines[0])-len(where)))
	p.line("  " + p.ink(stampInk(f.Level), stamp) + strings.Repeat(" ", labelColumn-2-len(stamp)) + lines[0] + pad + p.ink(faintInk, where))
	for _, l := range lines[1:] {
		p.line(strings.Repeat(" ", labelColumn) + l)
	}
	last := ""
	for _, r := range Rows(file, f) {
		label := r.Label
		if label == last && label == LabelWorking {
			label = ""
		}
		last = r.Label
		p.entry(label, r.Text, rowInks[r.Label])
	}
}

// entry is a label in a finding's margin and what it labels.
func (p *sheet) entry(label, value string, i ink) {
	p.para(labelColumn, label, faintInk, valueColumn, source.Show(value), i)
}

// Close writes the totals of all orders.
func (t *text) Close() error {
	p := &t.page
	all := 0
	for _, n := range t.totals.orders {
		all += n
	}
	if t.inked {
		p.line("")
	}
	if more := t.clear - mostClear; more > 0 && !t.opts.All && !t.opts.Quiet {
		p.para(0, "", plainInk, 0, worksheet.Many(more, "more order")+" clear to cut, not listed; --all lists each", faintInk)
	}
	head := worksheet.Many(all, "order") + ": "
	if all == 0 {
		head = "no orders checked"
	}
	var orders, levels, aside tally
	for _, v := range finding.Verdicts() {
		orders.add(t.totals.orders[v], many[v], verdictInks[v])
	}
	for level := finding.Error; level >= finding.Note; level-- {
		word := level.String()
		if t.totals.findings[level] != 1 {
			word += "s"
		}
		levels.add(t.totals.findings[level], word, plainInk)
	}
	aside.add(t.totals.waived, "waived", plainInk)
	aside.add(t.totals.known, "known", plainInk)
	p.tallies(head, orders, levels, aside)
	for _, h := range t.houses {
		p.faint(0, houseSaid(h))
	}
	return t.flush()
}

// A tally is numbers of things that belong together.
type tally struct {
	parts []string
	inks  []ink
}

// add adds a number of things, unless there is none of them.
func (t *tally) add(n int, things string, i ink) {
	if n > 0 {
		t.parts, t.inks = append(t.parts, strconv.Itoa(n)+" "+things), append(t.inks, i)
	}
}

// tallies writes tallies on a line, and on a further one what it has no room for.
func (p *sheet) tallies(head string, list ...tally) {
	line, cells := head, source.Width(head)
	for i, t := range list {
		if len(t.parts) == 0 {
			continue
		}
		w := source.Width(strings.Join(t.parts, ", "))
		switch {
		case i == 0:
		case cells+3+w > p.width:
			p.line(line)
			line, cells = "  ", 2
		default:
			line, cells = line+" · ", cells+3
		}
		for j, part := range t.parts {
			w := source.Width(part)
			switch {
			case j > 0 && cells+2+w+1 > p.width: // with the comma behind it
				p.line(line + ",")
				line, cells = "  ", 2
			case j > 0:
				line, cells = line+", ", cells+2
			}
			line, cells = line+p.ink(t.inks[j], part), cells+w
		}
	}
	p.line(line)
}

// heading is an order's number and client.
func heading(s *worksheet.Sheet) string {
	if c := s.Order.Client.Value; c != "" {
		return number(s) + "  " + source.Show(c)
	}
	return number(s)
}

// number is an order's number, or words that say why there is none.
func number(s *worksheet.Sheet) string {
	switch n := s.Order.Number.Value; {
	case n != "":
		return source.Show(n)
	case s.Order.Root == nil:
		return "unreadable order"
	}
	return "order without a number"
}

// whereabouts is the file of an order, with its line where each line of the file
// is an order.
func whereabouts(s *worksheet.Sheet) string {
	f := s.Order.File
	if f.FirstLine == 0 {
		return source.Show(f.Name)
	}
	return source.Show(f.Name) + ":" + strconv.Itoa(f.FirstLine)
}

// A group is the findings of one item, of one cloth, or of the order's head.
type group struct {
	heading  string
	findings []*finding.Finding
}

// groups sorts findings by what they are about: the head, the cloths, the
// items, each in the order of the form.
func groups(s *worksheet.Sheet, found []finding.Finding) []group {
	subjects := subjectsOf(s)
	list := make([]group, len(subjects.headings))
	for i, h := range subjects.headings {
		list[i].heading = h
	}
	for i := range found {
		g := &list[subjects.at(found[i].Path)]
		g.findings = append(g.findings, &found[i])
	}
	kept := list[:0]
	for _, g := range list {
		if len(g.findings) > 0 {
			kept = append(kept, g)
		}
	}
	return kept
}

// subjects are what findings may be about: the head, which has no heading, then the
// cloths and the items.
type subjects struct {
	headings []string
	cloths   map[string]int // by their names
	items    int            // the first of them
}

func subjectsOf(s *worksheet.Sheet) subjects {
	sub := subjects{headings: make([]string, 1), cloths: make(map[string]int, len(s.Order.Cloths))}
	for i := range s.Order.Cloths {
		c := &s.Order.Cloths[i]
		sub.cloths[c.Name] = len(sub.headings)
		sub.headings = append(sub.headings, named(c.Name, "cloth", c.Of.Name.Value))
	}
	sub.items = len(sub.headings)
	for i := range s.Order.Items {
		it := &s.Order.Items[i]
		sub.headings = append(sub.headings, named(it.ID.Value, it.Kind.Value, it.Room.Value))
	}
	return sub
}

// at is which subject a path belongs to.
func (sub *subjects) at(path string) int {
	if rest, ok := strings.CutPrefix(path, "items["); ok {
		digits, _, _ := strings.Cut(rest, "]")
		if n, err := strconv.Atoi(digits); err == nil && sub.items+n < len(sub.headings) {
			return sub.items + n
		}
	}
	for _, field := range [...]string{"cloths.", "measured."} {
		name, ok := strings.CutPrefix(path, field)
		// A name may have points in it: the longest counts.
		for end := len(name); ok && end >= 0; end = strings.LastIndexByte(name[:end], '.') {
			if c, is := sub.cloths[name[:end]]; is {
				return c
			}
		}
	}
	return 0
}

// named is the heading of a group: its name, what it is, and more of it.
func named(name, kind, more string) string {
	s := kind
	if name != "" {
		s = name + "  " + kind
	}
	if more != "" {
		s += ", " + more
	}
	return source.Show(s)
}
