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
	f := s.Order.File
	j.b = j.b[:0]
	j.open('{')
	j.text("file", f.Name)
	j.optional("order", s.Order.Number.Value)
	j.text("verdict", aside.Verdict(found).String())
	j.name("findings")
	j.open('[')
	for i := range found {
		j.finding(s.Order, &found[i])
	}
	j.close(']')
	if len(aside.Waived) > 0 {
		j.name("waived")
		j.open('[')
		for i := range aside.Waived {
			j.waived(s.Order, &aside.Waived[i])
		}
		j.close(']')
	}
	if len(aside.Known) > 0 {
		j.name("known")
		j.open('[')
		for i := range aside.Known {
			j.finding(s.Order, &aside.Known[i])
		}
		j.close(']')
	}
	if len(aside.Above) > 0 {
		j.name("above")
		j.open('[')
		for i := range aside.Above {
			j.finding(s.Order, &aside.Above[i])
		}
		j.close(']')
	}
	if aside.House != nil {
		j.house(aside.House)
	}
	if s.Order.Root != nil {
		j.name("worked")
		j.open('{')
		for _, q := range s.All {
			j.quantity(q, s.Unit)
		}
		j.close('}')
	}
	j.close('}')
	return j.b
}

func (j *jsonText) finding(o *order.Order, f *finding.Finding) {
	file := o.File
	j.open('{')
	j.text("rule", f.Rule)
	j.text("level", f.Level.String())
	j.text("message", f.Message)
	j.place(file, f.At, o.Quoted(f.Path))
	j.optional("stated", f.Stated)
	j.optional("corrected", f.Corrected)
	j.optional("slip", f.Slip)
	if len(f.Working) > 0 {
		j.texts("working", f.Working)
	}
	j.optional("source", f.Source)
	if len(f.Related) > 0 {
		j.name("related")
		j.open('[')
		for _, r := range f.Related {
			j.open('{')
			j.text("message", r.Message)
			j.place(file, r.Range, "")
			j.close('}')
		}
		j.close(']')
	}
	if len(f.Fixes) > 0 {
		j.name("fixes")
		j.open('[')
		for i := range f.Fixes {
			j.fix(file, &f.Fixes[i])
		}
		j.close(']')
	}
	j.close('}')
}

func (j *jsonText) waived(o *order.Order, w *finding.Waived) {
	j.open('{')
	j.text("rule", w.Rule)
	j.text("because", w.Because)
	j.optional("by", w.By)
	j.optional("until", w.Until)
	j.place(o.File, w.At, o.Quoted(w.Path))
	j.close('}')
}

// house writes the house rules that an order was checked by.
func (j *jsonText) house(h *finding.House) {
	j.name("house")
	j.open('{')
	j.text("file", h.File)
	if len(h.Off) > 0 {
		j.texts("off", h.Off)
	}
	if len(h.Lowered) > 0 {
		j.name("lowered")
		j.open('[')
		for _, l := range h.Lowered {
			j.open('{')
			j.text("of", l.Of)
			j.text("to", l.To.String())
			j.close('}')
		}
		j.close(']')
	}
	j.close('}')
}

func (j *jsonText) place(f *source.File, r source.Range, path string) {
	start, end := f.Position(r.Start), f.Position(r.End)
	cell, ok := f.Cell(r.Start)
	if ok && f.Drawn() {
		end = source.Position{Line: start.Line, Column: start.Column + 1}
	}
	j.name("at")
	j.open('{')
	j.number("line", start.Line)
	j.number("column", start.Column)
	j.name("end")
	j.open('{')
	j.number("line", end.Line)
	j.number("column", end.Column)
	j.close('}')
	j.optional("path", path)
	if ok {
		j.text("cell", cell.String())
	}
	j.close('}')
}

func (j *jsonText) fix(file *source.File, f *finding.Fix) {
	j.open('{')
	j.text("title", f.Title)
	j.text("sureness", f.Sureness.String())
	j.name("edits")
	j.open('[')
	for _, e := range f.Edits {
		j.open('{')
		if c, ok := file.Cell(e.Start); ok && file.Drawn() {
			j.text("cell", c.String())
			at := file.CellRange(e.Start)
			j.text("text", file.Slice(source.Range{Start: at.Start, End: e.Start})+e.Text+file.Slice(source.Range{Start: e.End, End: at.End}))
			j.close('}')
			continue
		}
		j.number("start", file.Base+e.Start)
		j.number("end", file.Base+e.End)
		j.text("text", e.Text)
		j.close('}')
	}
	j.close(']')
	j.close('}')
}

func (j *jsonText) quantity(q *worksheet.Quantity, u length.Unit) {
	value, unit := single(q, u)
	j.name(q.Path())
	j.open('{')
	j.text("value", value)
	j.text("unit", unit)
	j.texts("working", q.Working(u))
	j.text("source", q.Source)
	j.close('}')
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
