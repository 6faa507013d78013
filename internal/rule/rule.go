// Package rule is the contract between the pipeline and the rules: what a rule
// is, and all that it sees. A rule is a value without state; a Pass is its
// whole world.
package rule

import (
	"fmt"
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// Fixes says whether a rule's findings come with a fix.
type Fixes uint8

// How often a finding of a rule has a fix that can be applied. A place that
// can't be edited has none under any of them.
const (
	Never Fixes = iota
	Sometimes
	Always
)

var fixesNames = [...]string{"never", "sometimes", "always"}

func (f Fixes) String() string { return fixesNames[f] }

// A Rule checks one thing.
type Rule struct {
	ID    string // topic/slug: what is wrong, never the remedy
	Title string // a lower-case phrase
	Doc   string // under the headings of Headings, each on a line of its own; of a row of a table its page is written from the row
	Level finding.Level
	Fix   Fixes
	Asked bool // what it corrects is a choice, which is made only where that is asked for
	Table bool // it is a row of its topic's table of guards

	// Run checks the order, and Each one of its items at a time. A rule has one of the
	// two, or none if it only says that a stated outcome is wrong.
	Run  func(*Pass)
	Each func(*Pass, *worksheet.Item)

	// Outcomes are the stated outcomes that the rule says are wrong, and Off what it says
	// of one of them and what a fix of it is called; nothing for one that is not its
	// own.
	Outcomes []worksheet.Name
	Off      func(*Pass, *worksheet.Wrong) (message, title string)

	page func() string // writes the Doc of a row of a table; nil for another rule
}

// off reports of every wrong outcome of its own what the rule says of it.
func (r *Rule) off(p *Pass) {
	for _, name := range r.Outcomes {
		for _, w := range p.Sheet.Wrongs(name) {
			if message, title := r.Off(p, w); message != "" {
				p.ReportWrong(w, message, title)
			}
		}
	}
}

// Claims reports whether the rule has a sentence of its own for a wrong outcome.
func (r *Rule) Claims(p *Pass, w *worksheet.Wrong) bool {
	if !slices.Contains(r.Outcomes, w.Quantity.Name) {
		return false
	}
	message, _ := r.Off(p, w)
	return message != ""
}

// Headings are the headings of a rule's Doc, in their order. Correction may be
// left out where the correction is certain or where there is none.
func Headings() []string { return []string{"Checks", "Because", "Working", "Correction", "Source"} }

// Topic is the part of the ID before the slash.
func (r *Rule) Topic() string { topic, _, _ := strings.Cut(r.ID, "/"); return topic }

// A Section is what a rule's Doc says under one heading.
type Section struct{ Heading, Text string }

// Sections splits the rule's Doc at its headings, in the order of the Doc. What
// stands before the first of them is a section without a heading.
func (r *Rule) Sections() []Section {
	doc := r.Doc
	if r.page != nil {
		doc = r.page()
	}
	var list []Section
	for line := range strings.Lines(doc) {
		if h := strings.TrimRight(line, "\r\n"); isHeading(h) {
			list = append(list, Section{Heading: h})
			continue
		}
		if len(list) == 0 {
			if strings.TrimSpace(line) == "" {
				continue
			}
			list = append(list, Section{})
		}
		list[len(list)-1].Text += line
	}
	for i := range list {
		list[i].Text = strings.TrimSpace(list[i].Text)
	}
	return list
}

func isHeading(line string) bool {
	for _, h := range Headings() {
		if line == h {
			return true
		}
	}
	return false
}

// A Pass is a rule's view of one order. One pass serves all rules in turn.
type Pass struct {
	Order  *order.Order
	Tables *trade.Tables
	Sheet  *worksheet.Sheet
	// Waivers are the order's waivers and what came of them. They are there for
	// the rules about waivers only, which are run last.
	Waivers []WaiverUse
	// Rules are all rules, those that are off too: which outcomes have a sentence of
	// their own.
	Rules []*Rule

	rule  *Rule
	level finding.Level
	found []finding.Finding

	byClient map[*order.Node]bool             // what a client ordered, when first asked for
	given    map[*order.Node][]worksheet.Slot // what is written where, when first asked for
}

// NewPass makes a pass over an order that was worked out.
func NewPass(sheet *worksheet.Sheet) *Pass {
	return &Pass{Order: sheet.Order, Tables: sheet.Tables, Sheet: sheet}
}

// Run runs r over the order. What it reports has the given level, which is the
// rule's own unless the shop sets another.
func (p *Pass) Run(r *Rule, level finding.Level) {
	p.rule, p.level = r, level
	if r.Off != nil {
		r.off(p)
	}
	if r.Run != nil {
		r.Run(p)
	}
	if r.Each != nil {
		for i := range p.Sheet.Items {
			r.Each(p, &p.Sheet.Items[i])
		}
	}
}

// Rule is the rule that runs, or that ran last; nil before the first.
func (p *Pass) Rule() *Rule { return p.rule }

// Found returns what was reported, in the order of the reports.
func (p *Pass) Found() []finding.Finding { return p.found }

// Report files a finding: it stamps the rule, the level and the path, and
// panics on an empty message, a range outside the order's file, and edits that
// overlap or lie outside it.
func (p *Pass) Report(f finding.Finding) {
	f.Rule = p.rule.ID
	if f.Level == finding.Off || f.Level > p.level { // a finding may weigh less than its rule
		f.Level = p.level
	}
	if f.Path == "" {
		f.Path = p.Order.PathAt(f.At)
	}
	if err := f.Validate(len(p.Order.File.Text)); err != nil {
		panic(fmt.Sprintf("rule %s: %v", p.rule.ID, err))
	}
	p.found = append(p.found, f)
}

// ReportWrong files the common finding of a stated outcome that is wrong: where
// it stands, what it should say, how it was worked out and by which slip it went
// wrong. One certain fix with the given title corrects it and every place that is
// wrong with it, as far as they can be edited. It is likely where the value is, and only
// shown where more cloth is bought than is needed.
func (p *Pass) ReportWrong(w *worksheet.Wrong, message, title string) {
	f := finding.Finding{
		At:        w.At,
		Message:   message,
		Corrected: w.Corrected,
		Slip:      w.Slip.String(),
		Working:   w.Quantity.Working(p.Sheet.Unit),
		Source:    w.Quantity.Source,
	}
	if w.Node != nil {
		f.Stated = w.Node.Text
	}
	var edits []finding.Edit
	if p.Editable(w.Node) && w.Corrected != "" {
		edits = append(edits, p.Set(w.Node, w.Corrected))
	}
	for _, also := range w.Also {
		says := "the " + p.called(also.Node) + " too"
		if also.Corrected != "" {
			says += fmt.Sprintf(": %s, not %s", WithUnit(also.Node, also.Corrected), also.Node.Text)
		}
		f.Related = append(f.Related, finding.Related{Range: also.Node.At, Message: says})
		if p.Editable(also.Node) && also.Corrected != "" {
			edits = append(edits, p.Set(also.Node, also.Corrected))
		}
	}
	if len(edits) > 0 {
		f.Fixes = []finding.Fix{{Title: title, Sureness: finding.Certain, Edits: edits}}
		switch {
		case w.Open, w.Quantity.Name == worksheet.ClothToBuy && (!w.Short || p.Sheet.Idle() != nil):
			f.Fixes[0].Sureness = finding.Shown // more may be wanted, or more be made, or another cloth be meant
		case w.Likely, w.Quantity.Name == worksheet.ClothToBuy && p.Sheet.Suffices(w) > 0: // as it may be cut otherwise
			f.Fixes[0].Sureness = finding.Likely
		}
	}
	p.Report(f)
}

// called is what messages call the outcome stated at n.
func (p *Pass) called(n *order.Node) string {
	i := slices.IndexFunc(p.Sheet.Stated, func(of worksheet.Stated) bool { return of.Node == n && of.Quantity != nil })
	if i < 0 {
		return n.Name
	}
	return p.Sheet.Stated[i].Quantity.Called()
}

// Editable reports whether an edit may touch n: it is there, and it is not
// behind an alias, a reference or a computed value.
func (p *Pass) Editable(n *order.Node) bool { return n != nil && !n.Fixed }

// Renamable reports whether an edit may touch the name of n: it is editable, and
// the name is its own, where a table has a name for a whole column.
func (p *Pass) Renamable(n *order.Node) bool {
	return p.Editable(n) && (!n.Cell || n.Key != n.At)
}

// Set returns the edit that makes n say text: see [order.Writer].
func (p *Pass) Set(n *order.Node, text string) finding.Edit {
	return p.Order.Writer.Set(p.Order, n, text)
}

// SetKey returns the edit that renames the field n.
func (p *Pass) SetKey(n *order.Node, name string) finding.Edit {
	return p.Order.Writer.Rename(p.Order, n, name)
}

// Add returns how fields are put into the block n, and whether they can be.
func (p *Pass) Add(n *order.Node, fields []order.Added) (order.Addition, bool) {
	return p.Order.Writer.Add(p.Order, n, fields)
}

// Show is a length in the order's units, as messages give it.
func (p *Pass) Show(l length.Length) string { return l.Format(p.Sheet.Unit, length.Nearest) }

// WithUnit is a text at n as it reads away from there: a bare length has its unit.
func WithUnit(n *order.Node, text string) string {
	if n.Unit == length.NoUnit || !length.Bare(text) {
		return text
	}
	return text + " " + n.Unit.String()
}

// Likely is the fix that writes text at n and makes a choice for the person by
// it; none where n can't be edited.
func (p *Pass) Likely(n *order.Node, text, title string) []finding.Fix {
	if !p.Editable(n) {
		return nil
	}
	f := finding.Fix{Title: title, Sureness: p.Choosing(n), Edits: []finding.Edit{p.Set(n, text)}}
	if p.ordered(n) {
		f.Sureness = finding.Shown
	}
	return []finding.Fix{f}
}

// Choosing is how sure a fix is that makes other choices at some places: likely, but only
// shown where a stated outcome is worked from what stands at one of them and is not written
// anew by the same fix. It would then be wrong, or put right by what is no more.
func (p *Pass) Choosing(at ...*order.Node) finding.Sureness {
	if p.given == nil {
		p.given = p.Sheet.Given()
	}
	if slices.ContainsFunc(at, func(n *order.Node) bool { return n != nil && p.Sheet.Bears(n, p.given[n], at...) }) {
		return finding.Shown
	}
	return finding.Likely
}

// ordered reports whether n is what a client ordered: a finished size, how many, or
// the width of the track. No rule changes it for the person.
func (p *Pass) ordered(n *order.Node) bool {
	if n == nil {
		return false
	}
	if p.byClient == nil {
		p.byClient = map[*order.Node]bool{}
		for i := range p.Order.Items {
			it := &p.Order.Items[i]
			for _, n := range [...]*order.Node{it.Finished.Width.Node, it.Finished.Length.Node, it.Finished.Diameter.Node, it.Quantity.Node, it.Panels.Node, it.Track.Width.Node} {
				p.byClient[n] = true
			}
		}
	}
	return p.byClient[n]
}
