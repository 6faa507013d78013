package render

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"
	"unicode"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// The shape that schema/report.cue promises. Offsets count the bytes of the whole input.
type (
	orderJSON struct {
		File     string        `json:"file"`
		Order    string        `json:"order,omitempty"`
		Verdict  string        `json:"verdict"`
		Findings []findingJSON `json:"findings"`
		Worked   *workedJSON   `json:"worked,omitempty"`
	}
	findingJSON struct {
		Rule      string        `json:"rule"`
		Level     string        `json:"level"`
		Message   string        `json:"message"`
		At        placeJSON     `json:"at"`
		Stated    string        `json:"stated,omitempty"`
		Corrected string        `json:"corrected,omitempty"`
		Slip      string        `json:"slip,omitempty"`
		Working   []string      `json:"working,omitempty"`
		Source    string        `json:"source,omitempty"`
		Related   []relatedJSON `json:"related,omitempty"`
		Fixes     []fixJSON     `json:"fixes,omitempty"`
	}
	spotJSON struct {
		Line   int `json:"line"`
		Column int `json:"column"`
	}
	placeJSON struct {
		spotJSON
		End  spotJSON `json:"end"`
		Path string   `json:"path,omitempty"`
	}
	relatedJSON struct {
		Message string    `json:"message"`
		At      placeJSON `json:"at"`
	}
	fixJSON struct {
		Title    string     `json:"title"`
		Sureness string     `json:"sureness"`
		Edits    []editJSON `json:"edits"`
	}
	editJSON struct {
		Start int    `json:"start"`
		End   int    `json:"end"`
		Text  string `json:"text"`
	}
	quantityJSON struct {
		Value   string   `json:"value"`
		Unit    string   `json:"unit"`
		Working []string `json:"working"`
		Source  string   `json:"source"`
	}
)

// workedJSON is an object in the order that the quantities were worked out in.
type workedJSON struct{ sheet *worksheet.Sheet }

func (w workedJSON) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	b.WriteByte('{')
	for i, q := range w.sheet.All {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := enc.Encode(q.Path()); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		value, unit := single(q, w.sheet.Unit)
		err := enc.Encode(quantityJSON{value, unit, q.Working(w.sheet.Unit), q.Source})
		if err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
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

// orderOf gives an order the report's shape.
func orderOf(s *worksheet.Sheet, found []finding.Finding) orderJSON {
	f := s.Order.File
	o := orderJSON{
		File: f.Name, Order: s.Order.Number.Value, Verdict: finding.VerdictOf(found).String(),
		Findings: make([]findingJSON, len(found)),
	}
	if s.Order.Root != nil {
		o.Worked = &workedJSON{s}
	}
	for i := range found {
		o.Findings[i] = findingOf(f, &found[i])
	}
	return o
}

func findingOf(file *source.File, f *finding.Finding) findingJSON {
	j := findingJSON{
		Rule: f.Rule, Level: f.Level.String(), Message: f.Message,
		At:     place(file, f.At, f.Path),
		Stated: f.Stated, Corrected: f.Corrected, Slip: f.Slip, Working: f.Working, Source: f.Source,
	}
	for _, r := range f.Related {
		j.Related = append(j.Related, relatedJSON{r.Message, place(file, r.Range, "")})
	}
	for _, fix := range f.Fixes {
		edits := make([]editJSON, len(fix.Edits))
		for i, e := range fix.Edits {
			edits[i] = editJSON{file.Base + e.Start, file.Base + e.End, e.Text}
		}
		j.Fixes = append(j.Fixes, fixJSON{fix.Title, fix.Sureness.String(), edits})
	}
	return j
}

func place(f *source.File, r source.Range, path string) placeJSON {
	return placeJSON{spot(f, r.Start), spot(f, r.End), path}
}

func spot(f *source.File, offset int) spotJSON {
	p := f.Position(offset)
	return spotJSON{p.Line, p.Column}
}

// encode returns an order as JSON, with nothing escaped that need not be.
func encode(s *worksheet.Sheet, found []finding.Finding) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(orderOf(s, found)); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// jsonReport is one object with a list of all orders, written as they come.
type jsonReport struct {
	out   sink
	opts  Options
	begun bool
}

func newJSON(w io.Writer, o Options) Report { return &jsonReport{out: sink{w: w}, opts: o} }

func (r *jsonReport) Order(s *worksheet.Sheet, found []finding.Finding) error {
	if r.opts.skipped(found) {
		return nil
	}
	flat, err := encode(s, found)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if r.begun {
		b.WriteString(",\n    ")
	} else {
		b.WriteString("{\n  \"orders\": [\n    ")
	}
	r.begun = true
	if err := json.Indent(&b, bytes.TrimSuffix(flat, []byte("\n")), "    ", "  "); err != nil {
		return err
	}
	r.out.print(b.String())
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
	out  sink
	opts Options
}

func newJSONLines(w io.Writer, o Options) Report { return &jsonLines{sink{w: w}, o} }

func (r *jsonLines) Order(s *worksheet.Sheet, found []finding.Finding) error {
	if r.opts.skipped(found) {
		return nil
	}
	line, err := encode(s, found)
	if err != nil {
		return err
	}
	r.out.print(string(line))
	return r.out.err
}

func (r *jsonLines) Close() error { return r.out.err }
