package render

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/source"
	"cutgate/internal/ticket"
	"cutgate/internal/worksheet"
)

// Tickets are the cut tickets of orders, written one after the other: for each item what
// to cut, fold, sew, set and press, in the order that the job is done in, the cloth to
// buy, the cautions, and at the end every working. The ticket of an order on hold says
// above all not to cut, and why.
type Tickets interface {
	// Order adds the ticket of an order, with what was found in it.
	Order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) error
	// Lays adds where the pieces of the orders lie on their cloth, those of one cloth
	// together.
	Lays(l *Laid) error
	// Close ends the tickets. It does not close what was written to.
	Close() error
}

// TicketFormats lists the ways to write tickets, the usual one first.
func TicketFormats() []Format[func(io.Writer, Options) Tickets] {
	return []Format[func(io.Writer, Options) Tickets]{
		{"text", "for people", func(w io.Writer, o Options) Tickets { return &ticketTexts{out: sink{w: w}, opts: o} }},
		{"html", "a page to print, with a picture of each piece", func(w io.Writer, o Options) Tickets { return &ticketPage{out: sink{w: w}, opts: o} }},
	}
}

// ticketTexts are tickets as text.
type ticketTexts struct {
	out   sink
	opts  Options
	begun bool
}

func (t *ticketTexts) Order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) error {
	if t.begun {
		t.out.print("\n\n")
	}
	t.begun = true
	t.out.print(ticketAsText(s, ticket.Of(s, found, aside), t.opts))
	return t.out.err
}

func (t *ticketTexts) Lays(l *Laid) error {
	t.out.print("\n\n")
	if t.out.err == nil {
		t.out.err = layTexts(t.out.w, l, t.opts)
	}
	return t.out.err
}

func (t *ticketTexts) Close() error { return t.out.err }

func ticketAsText(s *worksheet.Sheet, d *ticket.Document, o Options) string {
	t := &ticketText{newSheet(o)}
	due := ""
	if d.Due != "" {
		due = source.Show("due " + d.Due)
	}
	t.both("CUT TICKET  "+heading(s), headInk, due, plainInk)
	t.banner(d)
	t.waived(d)
	t.row(ticket.Row{Label: "notes", Text: strings.TrimSpace(d.Notes)})
	if d.House != nil {
		t.row(ticket.Row{Label: "house", Text: "house rules of " + houseText(d.House)})
	}
	for i := range d.Items {
		it := &d.Items[i]
		t.line("")
		t.both(named(it.ID, it.Kind, it.Room), headInk, "make "+strconv.FormatInt(it.Make, 10), headInk)
		if len(it.Alike) > 0 {
			t.row(ticket.Row{Label: "alike", Text: alike(it)})
		}
		for i, r := range it.Rows {
			if i > 0 && r.Label == it.Rows[i-1].Label && (r.Stage != ticket.Marks || it.Rows[i-1].Stage == ticket.Marks) {
				r.Label = ""
			}
			if r.Measured {
				r.Text += blank
			}
			t.row(r)
		}
		t.row(ticket.Row{Label: "check", Text: strings.Join(append(slices.Clone(it.Checks), "cut by", "checked by"), blank+" · ") + blank})
	}
	if len(d.Cloths) > 0 {
		t.section("CLOTH")
	}
	for _, r := range d.Cloths {
		t.row(ticket.Row{Label: source.Show(r.Label), Text: r.Text})
		t.row(ticket.Row{Text: "width" + blank + " · lot" + blank + " · flaws" + blank})
	}
	if len(d.Cautions) > 0 {
		t.section("CAUTIONS")
	}
	for _, c := range d.Cautions {
		t.para(ticketLabel, "•", faintInk, ticketLabel+3, source.Show(c), plainInk)
	}
	if !o.Brief {
		t.workings(d.Workings)
	}
	return t.String()
}

// blank is a place to write a measured value, or initials.
const blank = " ______"

// alike says which items are made in the same way as an item.
func alike(it *ticket.Item) string {
	return "also " + strings.Join(it.Alike, " · ") + "; " + strconv.FormatInt(it.Make, 10) + " in all"
}

type ticketText struct{ sheet }

// The columns of a ticket's rows.
const (
	ticketLabel = 2
	ticketValue = 15
)

func (t *ticketText) section(name string) {
	t.line("")
	t.line(t.ink(headInk, name))
}

func (t *ticketText) row(r ticket.Row) {
	if r.Text != "" {
		t.para(ticketLabel, r.Label, faintInk, ticketValue, source.Show(r.Text), plainInk)
	}
}

// banners are the words above a ticket that is not clear to cut.
var banners = [...]string{finding.Ask: "ASK BEFORE CUTTING", finding.Hold: "ON HOLD: DO NOT CUT"}

func (t *ticketText) banner(d *ticket.Document) {
	if d.Verdict == finding.Clear {
		t.rule("─", 0)
		return
	}
	t.rule("═", 0)
	t.line("  " + t.ink(verdictInks[d.Verdict], banners[d.Verdict]))
	for _, r := range d.Reasons {
		t.row(ticket.Row{Label: source.Show(r.Label), Text: r.Text})
	}
	t.rule("═", 0)
}

// waived writes the errors that somebody waives.
func (t *ticketText) waived(d *ticket.Document) {
	if len(d.Waived) == 0 {
		return
	}
	t.line("  " + t.ink(verdictInks[finding.Ask], "WAIVED"))
	for _, r := range d.Waived {
		t.row(ticket.Row{Label: source.Show(r.Label), Text: r.Text})
	}
	t.rule("─", 0)
}

// The columns of a working.
const (
	workingIndent = 6
	workingColumn = 40
)

func (t *ticketText) workings(groups []ticket.Group) {
	for i, g := range groups {
		if i == 0 {
			t.section("WORKINGS")
		} else {
			t.line("")
		}
		owner := source.Show("cloth " + g.ID)
		if !g.Cloth {
			owner = named(g.ID, g.Kind, "")
		}
		t.line("  " + t.ink(headInk, owner))
		for _, w := range g.Workings {
			t.para(ticketLabel, source.Show(w.Name), plainInk, workingColumn, w.Value, headInk)
			for _, l := range w.Lines {
				t.para(workingIndent, "", plainInk, workingIndent, source.Show(l), plainInk)
			}
			if w.Source != "" {
				t.para(workingIndent, "", plainInk, workingIndent, source.Show(w.Source), faintInk)
			}
		}
	}
}
