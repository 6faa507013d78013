package render

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/worksheet"
)

// The start of a SARIF log, and the name of the fingerprints: another number
// when they are made in another way.
const (
	sarifStart      = `{"$schema":"https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json","version":"2.1.0","runs":[`
	fingerprintName = "cutgate/1"
)

// mostNotices is how many of the files that could not be checked are reported,
// as they have to be kept to the end.
const mostNotices = 100

// sarif is a log in the Static Analysis Results Interchange Format of OASIS,
// version 2.1.0. The rules come first, and results are written as they come, each
// on a line of its own.
type sarif struct {
	out     sink
	opts    Options
	text    jsonText
	index   map[string]int // of the rules, by ID
	begun   bool
	results int
	notices []notice
	more    int // notices that were not kept
	houses  []*finding.House

	// How often each finding came in the orders of one docket, which stand one
	// after the other. They are counted by what they go by, so that memory grows
	// with the kinds of mistake in unnumbered orders and not with the orders.
	docket order.Docket
	times  map[order.Mark]int
}

// A notice is a file that could not be checked, and why.
type notice struct{ file, why string }

func newSARIF(w io.Writer, o Options) Report {
	r := &sarif{out: sink{w: w}, opts: o, index: make(map[string]int)}
	for i, rule := range o.Rules {
		r.index[rule.ID] = i
	}
	return r
}

// flush writes what is ready.
func (r *sarif) flush() error {
	r.out.write(r.text.b)
	r.text.b = r.text.b[:0]
	return r.out.err
}

// begin writes everything before the first result.
func (r *sarif) begin() {
	if r.begun {
		return
	}
	r.begun = true
	j := &r.text
	j.b = append(j.b, sarifStart...)
	j.open('{')
	j.object("tool", func() {
		j.object("driver", func() {
			j.text("name", "cutgate")
			j.optional("version", r.opts.Version)
			j.optional("informationUri", r.opts.Home)
			j.name("rules")
			j.open('[')
			for i, rule := range r.opts.Rules {
				r.line(i)
				j.braces(func() { j.sarifRule(rule) })
			}
			j.close(']')
		})
	})
	// Units of UTF-16 are what most viewers count columns in.
	j.text("columnKind", "utf16CodeUnits")
	j.name("results")
	j.open('[')
}

// line begins a line for entry i of a list.
func (r *sarif) line(i int) {
	if i > 0 {
		r.text.b = append(r.text.b, ',')
	}
	r.text.b = append(r.text.b, '\n')
}

// message is a message of its text alone.
func (j *jsonText) message(name, text string) { j.content(name, sarifText(text)) }

// content is a text of a file.
func (j *jsonText) content(name, text string) {
	j.object(name, func() { j.text("text", text) })
}

// sarifText is text as it stands in a message, where a brace alone begins or ends
// the place of an argument.
func sarifText(text string) string { return doubleBraces.Replace(text) }

var doubleBraces = strings.NewReplacer("{", "{{", "}", "}}")

func (r *sarif) Order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) error {
	r.inForce(aside.House)
	if r.opts.skipped(found, &aside) {
		return nil
	}
	r.begin()
	waived := make(map[*finding.Finding]*finding.Waived, len(aside.Waived))
	known := make(map[*finding.Finding]bool, len(aside.Known))
	all := make([]*finding.Finding, 0, len(found)+len(aside.Waived)+len(aside.Known))
	for i := range aside.Known {
		known[&aside.Known[i]] = true
		all = append(all, &aside.Known[i])
	}
	for i := range found {
		all = append(all, &found[i])
	}
	for i := range aside.Waived {
		w := &aside.Waived[i]
		waived[&w.Finding] = w
		all = append(all, &w.Finding)
	}
	slices.SortStableFunc(all, func(a, b *finding.Finding) int { return finding.Compare(*a, *b) })
	for _, f := range all {
		r.line(r.results)
		r.results++
		r.result(s.Order, f, waived[f], known[f])
	}
	return r.flush()
}

// result writes a finding; a waived one with its waiver, else nil.
func (r *sarif) result(o *order.Order, f *finding.Finding, waived *finding.Waived, known bool) {
	j := &r.text
	j.braces(func() {
		j.text("ruleId", f.Rule)
		if i, ok := r.index[f.Rule]; ok {
			j.number("ruleIndex", i)
		}
		j.text("level", f.Level.String())
		j.message("message", told(f))
		j.objects("locations", 1, func(int) { j.location(o.File, f.At, f.Path, 0, "") })
		j.optionalObjects("relatedLocations", len(f.Related), func(i int) {
			j.location(o.File, f.Related[i].Range, "", i+1, f.Related[i].Message)
		})
		j.object("partialFingerprints", func() { j.text(fingerprintName, r.fingerprint(o, f)) })
		// Where one result says whether it is new, every one has to; and so whether it is
		// suppressed.
		switch {
		case !r.opts.Known:
		case known:
			j.text("baselineState", "unchanged")
		default:
			j.text("baselineState", "new")
		}
		suppressions := 0
		if waived != nil {
			suppressions = 1
		}
		j.objects("suppressions", suppressions, func(int) {
			j.text("kind", "inSource")
			j.text("justification", reason(waived))
		})
		j.sarifFixes(o.File, f.Fixes)
		if len(f.Working) > 0 || f.Source != "" {
			j.object("properties", func() {
				j.optionalTexts("working", f.Working)
				j.optional("source", f.Source)
			})
		}
	})
}

// told is what is wrong, what to write instead, and how it went wrong.
func told(f *finding.Finding) string {
	text := f.Message
	if sure(f) {
		text += " Write " + f.Corrected
		if f.Stated != "" {
			text += " instead of " + f.Stated
		}
		text += "."
	}
	if !strings.Contains(f.Message, f.Slip) {
		text += " Slip: " + f.Slip + "."
	}
	return text
}

// fingerprint is what a finding is known by wherever its lines move to. Of equal
// ones each has its own, in the order that they stand in.
func (r *sarif) fingerprint(o *order.Order, f *finding.Finding) string {
	m := o.Mark(f.Path, f.Rule, f.Stated)
	if m.Docket != r.docket || r.times == nil {
		r.docket, r.times = m.Docket, make(map[order.Mark]int)
	}
	r.times[m]++
	var b bytes.Buffer
	for _, part := range []string{m.Order, m.File, m.ID, m.Item, m.Path, m.Rule, m.Stated, strconv.Itoa(r.times[m])} {
		b.WriteString(strconv.Quote(part)) // quoted, so that no two lists of parts look alike
	}
	sum := sha256.Sum256(b.Bytes())
	return hex.EncodeToString(sum[:16])
}

// inForce keeps the house rules that orders were checked by, each once.
func (r *sarif) inForce(h *finding.House) {
	if h != nil && !slices.Contains(r.houses, h) && len(r.houses) < mostNotices {
		r.houses = append(r.houses, h)
	}
}

func (r *sarif) Failed(file string, why error) error {
	n := notice{file, why.Error()}
	switch {
	case slices.ContainsFunc(r.notices, func(m notice) bool { return m.why == n.why }): // of house rules, for each of their orders
	case len(r.notices) == mostNotices:
		r.more++
	default:
		r.notices = append(r.notices, n)
	}
	return nil
}

func (r *sarif) Close() error {
	r.begin()
	j := &r.text
	if r.results > 0 {
		j.b = append(j.b, '\n')
	}
	j.close(']')
	j.objects("invocations", 1, func(int) {
		j.truth("executionSuccessful", len(r.notices) == 0)
		if r.more > 0 {
			r.notices = append(r.notices, notice{why: strconv.Itoa(r.more) + " more could not be checked"})
		}
		j.optionalObjects("toolExecutionNotifications", len(r.notices), func(i int) { j.notice(finding.Error, r.notices[i]) })
		j.optionalObjects("toolConfigurationNotifications", len(r.houses), func(i int) {
			j.notice(finding.Note, notice{r.houses[i].File, houseSaid(r.houses[i])})
		})
	})
	j.close('}')
	j.b = append(j.b, "]}\n"...)
	return r.flush()
}

func (j *jsonText) notice(level finding.Level, n notice) {
	j.text("level", level.String())
	j.message("message", n.why)
	if n.file != "" {
		j.objects("locations", 1, func(int) {
			j.object("physicalLocation", func() { j.artifact(n.file) })
		})
	}
}
