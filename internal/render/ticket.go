package render

import (
	"io"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/source"
	"cutgate/internal/ticket"
	"cutgate/internal/worksheet"
)

// Ticket writes the cut ticket of an order as a text: for each item what to cut, fold,
// sew, set and press, the cloth to buy, the cautions, and at the end every working. The
// ticket of an order on hold says above all not to cut, and why.
func Ticket(w io.Writer, s *worksheet.Sheet, found []finding.Finding, aside finding.Aside, o Options) error {
	d := ticket.Of(s, found, aside)
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
		for _, r := range it.Rows {
			t.row(r)
		}
	}
	if len(d.Cloths) > 0 {
		t.section("CLOTH")
	}
	for _, r := range d.Cloths {
		t.row(ticket.Row{Label: source.Show(r.Label), Text: r.Text})
	}
	if len(d.Cautions) > 0 {
		t.section("CAUTIONS")
	}
	for _, c := range d.Cautions {
		t.para(ticketLabel, "•", faintInk, ticketLabel+3, source.Show(c), plainInk)
	}
	t.workings(d.Workings)
	_, err := io.WriteString(w, t.String())
	return err
}

type ticketText struct{ sheet }

// The columns of a ticket's rows.
const (
	ticketLabel = 2
	ticketValue = 13
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
