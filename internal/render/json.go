package render

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"
	"unicode"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// order writes an order in the shape that schema/report.cue promises, on one
// line, in place of what was written before. Offsets count the bytes of the
// whole input.
func (j *jsonText) order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) []byte {
	o := s.Order
	j.b = j.b[:0]
	j.braces(func() {
		j.text("file", o.File.Name)
		j.optional("order", o.Number.Value)
		j.text("verdict", aside.Verdict(found).String())
		j.objects("findings", len(found), func(i int) { j.finding(o, &found[i]) })
		j.optionalObjects("waived", len(aside.Waived), func(i int) { j.waived(o, &aside.Waived[i]) })
		j.optionalObjects("known", len(aside.Known), func(i int) { j.finding(o, &aside.Known[i]) })
		j.optionalObjects("above", len(aside.Above), func(i int) { j.finding(o, &aside.Above[i]) })
		if aside.House != nil {
			j.object("house", func() { j.house(aside.House) })
		}
		if o.Root != nil {
			j.object("worked", func() {
				for _, q := range s.All {
					j.object(q.Path(), func() { j.quantity(q, s.Unit) })
				}
			})
		}
	})
	return j.b
}

func (j *jsonText) finding(o *order.Order, f *finding.Finding) {
	j.text("rule", f.Rule)
	j.text("level", f.Level.String())
	j.text("message", f.Message)
	j.place(o.File, f.At, o.Quoted(f.Path))
	j.optional("stated", f.Stated)
	j.optional("corrected", f.Corrected)
	j.optional("slip", f.Slip)
	j.optionalTexts("working", f.Working)
	j.optional("source", f.Source)
	j.optionalObjects("related", len(f.Related), func(i int) {
		j.text("message", f.Related[i].Message)
		j.place(o.File, f.Related[i].Range, "")
	})
	j.optionalObjects("fixes", len(f.Fixes), func(i int) { j.fix(o.File, &f.Fixes[i]) })
}

func (j *jsonText) waived(o *order.Order, w *finding.Waived) {
	j.text("rule", w.Rule)
	j.text("because", w.Because)
	j.optional("by", w.By)
	j.optional("until", w.Until)
	j.place(o.File, w.At, o.Quoted(w.Path))
}

// house writes the house rules that an order was checked by.
func (j *jsonText) house(h *finding.House) {
	j.text("file", h.File)
	j.optionalTexts("off", h.Off)
	j.optionalObjects("lowered", len(h.Lowered), func(i int) {
		j.text("of", h.Lowered[i].Of)
		j.text("to", h.Lowered[i].To.String())
	})
}

func (j *jsonText) place(f *source.File, r source.Range, path string) {
	start, end := f.Position(r.Start), f.Position(r.End)
	cell, ok := f.Cell(r.Start)
	if ok && f.Drawn() {
		end = source.Position{Line: start.Line, Column: start.Column + 1}
	}
	j.object("at", func() {
		j.position(start)
		j.object("end", func() { j.position(end) })
		j.optional("path", path)
		if ok {
			j.text("cell", cell.String())
		}
	})
}

func (j *jsonText) position(p source.Position) {
	j.number("line", p.Line)
	j.number("column", p.Column)
}

func (j *jsonText) fix(file *source.File, f *finding.Fix) {
	j.text("title", f.Title)
	j.text("sureness", f.Sureness.String())
	j.objects("edits", len(f.Edits), func(i int) { j.edit(file, &f.Edits[i]) })
}

// edit writes a change of the text; of a workbook, what a cell is to say.
func (j *jsonText) edit(file *source.File, e *finding.Edit) {
	if c, ok := file.Cell(e.Start); ok && file.Drawn() {
		at := file.CellRange(e.Start)
		j.text("cell", c.String())
		j.text("text", file.Slice(source.Range{Start: at.Start, End: e.Start})+e.Text+file.Slice(source.Range{Start: e.End, End: at.End}))
		return
	}
	j.number("start", file.Base+e.Start)
	j.number("end", file.Base+e.End)
	j.text("text", e.Text)
}

func (j *jsonText) quantity(q *worksheet.Quantity, u length.Unit) {
	value, unit := single(q, u)
	j.text("value", value)
	j.text("unit", unit)
	j.texts("working", q.Working(u))
	j.text("source", q.Source)
}

// single prints a quantity in one unit, apart from it: what is usually said in
// two, as 4 lb 3 oz, is in inches or grams.
func single(q *worksheet.Quantity, u length.Unit) (value, unit string) {
	value, unit = split(q.Value.Format(u, q.Round))
	if strings.ContainsFunc(value, unicode.IsLetter) && unit != "" {
		simpler := length.In
		if q.Value.Sort != worksheet.Length {
			simpler = length.MM
		}
		value, unit = split(q.Value.Format(simpler, q.Round))
	}
	return value, unit
}

// split takes the unit off a printed value.
func split(printed string) (value, unit string) {
	if value, ok := strings.CutSuffix(printed, "%"); ok {
		return value, "%"
	}
	i := strings.LastIndexByte(printed, ' ')
	if i < 0 || printed[i+1] < 'A' {
		return printed, ""
	}
	if printed[i+1:] == "dot" {
		return printed[:i], "dots"
	}
	return printed[:i], printed[i+1:]
}

// jsonReport is one object with a list of all orders, written as they come.
type jsonReport struct {
	unsaid
	out   sink
	opts  Options
	text  jsonText
	begun bool
}

func newJSON(w io.Writer, o Options) Report { return &jsonReport{out: sink{w: w}, opts: o} }

func (r *jsonReport) Order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) error {
	if r.opts.skipped(found, &aside) {
		return nil
	}
	var b bytes.Buffer
	if r.begun {
		b.WriteString(",\n    ")
	} else {
		b.WriteString("{\n  \"orders\": [\n    ")
	}
	r.begun = true
	if err := json.Indent(&b, r.text.order(s, found, aside), "    ", "  "); err != nil {
		return err
	}
	r.out.write(b.Bytes())
	return r.out.err
}

func (r *jsonReport) Close() error {
	if r.begun {
		r.out.print("\n  ]\n}\n")
	} else {
		r.out.print("{\n  \"orders\": []\n}\n")
	}
	return r.out.err
}

// jsonLines is an object on a line for each order.
type jsonLines struct {
	unsaid
	out  sink
	opts Options
	text jsonText
}

func newJSONLines(w io.Writer, o Options) Report { return &jsonLines{out: sink{w: w}, opts: o} }

func (r *jsonLines) Order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) error {
	if r.opts.skipped(found, &aside) {
		return nil
	}
	r.out.write(append(r.text.order(s, found, aside), '\n'))
	return r.out.err
}

func (r *jsonLines) Close() error { return r.out.err }
