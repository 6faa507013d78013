package editor

import (
	"context"
	"cutgate/internal/fill"
	"slices"
	"strconv"
	"strings"

	"go.lsp.dev/protocol"

	"cutgate/internal/finding"
	"cutgate/internal/form"
	"cutgate/internal/lint"
	"cutgate/internal/render"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// Hover shows all that is known about a place: what was found there, what
// was worked out for it or from it, and what the form allows there.
func (s *Server) Hover(ctx context.Context, params *protocol.HoverParams) (*protocol.Hover, error) {
	p := s.snapshot(params.TextDocument.URI)
	letGo(ctx)
	if p == nil {
		return nil, nil
	}
	results := p.check()
	offset := offsetOf(p.places, params.Position)
	at := source.Range{Start: offset, End: offset}
	out := page{markdown: s.can.markdown}
	var over source.Range
	explained := false // how it is worked out was said
	for i := range results {
		for j := range results[i].Findings {
			if f := &results[i].Findings[j]; touches(f.At, at) {
				out.finding(p, f, ruleOf(p.checker.For(p.file), f.Rule))
				over, explained = f.At, explained || len(f.Working) > 0
			}
		}
	}
	if there := spotAt(results, offset); there != nil {
		n, said := there.node(), false
		if !explained || there.onName {
			said = out.worked(there)
		}
		if there.onName || out.Len() == 0 {
			said = out.field(there.field(p.checker.For(p.file).Loader)) || said
		}
		if over.IsZero() && said {
			if over = n.At; there.onName {
				over = n.Key
			}
		}
	}
	if out.Len() == 0 || ctx.Err() != nil {
		return nil, ctx.Err()
	}
	where := rangeOf(p.places, over)
	return &protocol.Hover{Contents: out.content(), Range: &where}, nil
}

// ruleOf returns the rule of that name; nil for one of a house's own.
func ruleOf(c *lint.Checker, id string) *rule.Rule {
	i := slices.IndexFunc(c.Rules, func(r *rule.Rule) bool { return r.ID == id })
	if i < 0 {
		return nil
	}
	return c.Rules[i]
}

// finding says what was found, how it was worked out, and why it matters.
func (p *page) finding(at *snapshot, f *finding.Finding, r *rule.Rule) {
	p.head(render.Stamp(f.Level), f.Message)
	p.rows(render.Rows(at.file, f))
	if r == nil {
		return
	}
	for _, s := range r.Sections() {
		if s.Heading == "Checks" || s.Heading == "Because" {
			p.row(strings.ToLower(s.Heading), s.Text)
		}
	}
}

// worked says what was worked out for the field there, or from it, and reports
// whether anything was.
func (p *page) worked(there *spot) bool {
	sheet, n := there.result.Sheet, there.node()
	before := p.Len()
	for i := range sheet.Stated {
		if sheet.Stated[i].Node == n {
			p.quantity(sheet, sheet.Stated[i].Quantity, "worked out: "+value(sheet, sheet.Stated[i].Quantity))
		}
	}
	for _, b := range fill.Blanks(sheet) {
		if b.Node == n {
			p.quantity(sheet, b.Quantity, "left blank, worked out: "+value(sheet, b.Quantity))
		}
		if there.onName && b.In == n && b.Node == nil {
			p.head("", spaced(b.Field)+" is left out, worked out: "+value(sheet, b.Quantity))
			p.workings(sheet, b.Quantity)
		}
	}
	p.uses(there)
	return p.Len() > before
}

// uses says what is worked from the choice there; from one of a cloth, for every
// item.
func (p *page) uses(there *spot) {
	sheet := there.result.Sheet
	item, _ := there.item()
	var rows []render.Row
	for i := range sheet.Items {
		if item >= 0 && i != item {
			continue
		}
		for _, q := range sheet.Uses(i, there.node()) {
			label := title(q)
			if item < 0 && len(sheet.Items) > 1 {
				label = called(&sheet.Items[i]) + ", " + label
			}
			rows = append(rows, render.Row{Label: label, Text: q.Figures(sheet.Unit)})
		}
	}
	if len(rows) > 0 {
		p.head("", "used for")
		p.rows(rows)
	}
}

// called is what an item is called among several.
func called(it *worksheet.Item) string {
	if id := it.Order.ID.Value; id != "" {
		return id
	}
	return "item " + strconv.Itoa(it.Index+1)
}

func (p *page) quantity(sheet *worksheet.Sheet, q *worksheet.Quantity, says string) {
	p.head(title(q), says)
	p.workings(sheet, q)
}

func (p *page) workings(sheet *worksheet.Sheet, q *worksheet.Quantity) {
	var rows []render.Row
	if q.Formula != "" {
		for _, l := range q.Working(sheet.Unit) {
			rows = append(rows, render.Row{Label: render.LabelWorking, Text: l})
		}
	}
	if q.Source != "" {
		rows = append(rows, render.Row{Label: render.LabelSource, Text: q.Source})
	}
	p.rows(rows)
}

// value is what a quantity comes to: in the order's unit, as it stands in the
// workings; cloth to buy also as it is sold.
func value(sheet *worksheet.Sheet, q *worksheet.Quantity) string {
	text := q.Value.Format(sheet.Unit, q.Round)
	if q.Name != worksheet.ClothToBuy {
		return text
	}
	if sold := sheet.Written(q, nil); sold != text {
		text = sold + ", which is " + text
	}
	return text
}

// title is what a quantity is called: side cut width.
func title(q *worksheet.Quantity) string { return strings.TrimSpace(q.Of + " " + string(q.Name)) }

// field says what the form allows in a field, and reports whether it says
// anything.
func (p *page) field(f *form.Question) bool {
	if f == nil {
		return false
	}
	p.head(f.Name, f.Says)
	p.row("takes", allowed(f))
	return true
}

// allowed is what may stand in a field.
func allowed(f *form.Question) string {
	text := f.Wanted
	switch {
	case f.Need:
		text += "; required"
	case f.Outcome:
		text += "; worked out if left blank"
	}
	return text
}

// spaced is a field's name as people say it.
func spaced(name string) string { return strings.ReplaceAll(name, "_", " ") }
