package lint

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
)

// Known are findings that were there before, to tell which are new. A finding is the
// same as a known one where rule, order, item, field and stated text are the same,
// on whatever line it stands; of several that are the same, as many are known as were
// there. An error about safety is the same while nothing that it rests on has got
// worse, or is held against another limit, whatever is stated. The zero value knows
// none.
//
// The marks of the findings are as the file has them, which is #KnownFindings of
// the schemas.
//
// It is used by one goroutine at a time, as what is known of equal findings are
// the first ones.
type Known struct {
	entries map[order.Mark]*knownTimes
	seen    map[order.Docket]bool
}

// Len is how many findings are known.
func (k *Known) Len() (n int) {
	for _, t := range k.entries {
		n += t.all
	}
	return n
}

// knownTimes are how often a finding is known, and how often it is yet to come; of
// an error about safety, each with what it rested on.
type knownTimes struct {
	all, left int
	facts     [][]finding.Fact
	come      []bool // which of these have come
}

// takes counts a finding as come, and reports whether it was known.
func (e *knownTimes) takes(facts []finding.Fact) bool {
	if e == nil || e.left == 0 {
		return false
	}
	if len(facts) > 0 {
		i := slices.IndexFunc(e.facts, func(was []finding.Fact) bool { return noWorse(facts, was) })
		for i >= 0 && e.come[i] {
			next := slices.IndexFunc(e.facts[i+1:], func(was []finding.Fact) bool { return noWorse(facts, was) })
			if next < 0 {
				return false
			}
			i += 1 + next
		}
		if i < 0 {
			return false
		}
		e.come[i] = true
	}
	e.left--
	return true
}

// noWorse reports whether what an error about safety rests on is what it was, or
// better.
func noWorse(facts, was []finding.Fact) bool {
	return slices.EqualFunc(facts, was, func(f, was finding.Fact) bool { return !f.WorseThan(was) })
}

// knownForm says what a file of known findings is.
const knownForm = "known findings 1"

// A knownFile is a file of known findings.
type knownFile struct {
	Form     string      `json:"form"`
	Findings []knownLine `json:"findings"`
}

type knownLine struct {
	order.Mark
	Facts []knownFact `json:"facts,omitempty"`
	Times int         `json:"times,omitempty"` // 0 for once
}

// A knownFact is a fact that an error about safety rested on.
type knownFact struct {
	Of    string      `json:"of"`
	Is    string      `json:"is,omitempty"`
	MM    json.Number `json:"mm,omitempty"`
	Limit json.Number `json:"limit_mm,omitempty"`
}

// millimetres writes nanometres; "" for none.
func millimetres(nm int64) json.Number {
	if nm == 0 {
		return ""
	}
	return json.Number(strconv.FormatFloat(float64(nm)/1e6, 'f', -1, 64))
}

// nanometres reads what millimetres writes.
func nanometres(mm json.Number) int64 {
	f, _ := mm.Float64() // no number is none
	return int64(math.Round(f * 1e6))
}

// read returns the fact; which way is worse, the finding that comes knows.
func (f *knownFact) read() finding.Fact {
	return finding.Fact{Of: f.Of, Is: f.Is, Value: nanometres(f.MM), Limit: nanometres(f.Limit)}
}

// ReadKnown reads a file of known findings.
func ReadKnown(text []byte) (*Known, error) {
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	var file knownFile
	if err := d.Decode(&file); err != nil {
		return nil, fmt.Errorf("not a known-findings file: %w", err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("not a known-findings file: there is more after its end")
	}
	if file.Form != knownForm {
		return nil, fmt.Errorf("not a known-findings file: its form is %q, not %q", file.Form, knownForm)
	}
	k := new(Known)
	for i, l := range file.Findings {
		if l.Rule == "" || l.Times < 0 {
			return nil, fmt.Errorf("not a known-findings file: finding %d has no rule, or a count below zero", i+1)
		}
		var facts []finding.Fact
		for _, f := range l.Facts {
			facts = append(facts, f.read())
		}
		k.add(l.Mark, max(1, l.Times), facts)
	}
	return k, nil
}

// Add makes what was found in an order known.
func (k *Known) Add(res *Result) {
	for i := range res.Findings {
		k.add(mark(res, i), 1, res.Findings[i].Facts)
	}
}

func (k *Known) add(m order.Mark, times int, facts []finding.Fact) {
	if k.entries == nil {
		k.entries = make(map[order.Mark]*knownTimes)
	}
	if k.entries[m] == nil {
		k.entries[m] = new(knownTimes)
	}
	e := k.entries[m]
	e.all += times
	e.left += times
	if len(facts) > 0 {
		for range times {
			e.facts, e.come = append(e.facts, facts), append(e.come, false)
		}
	}
}

// mark is what finding i of a result goes by.
func mark(res *Result, i int) order.Mark {
	f := &res.Findings[i]
	m := res.Order.Mark(f.Path, f.Rule, f.Stated)
	if len(f.Facts) > 0 {
		m.Stated = "" // the facts say more
	}
	return m
}

// SetAside moves the known findings of a result from its findings to what is beside
// them. They count as come, so that of equal findings no more are known than were
// there. The verdict stays: it is worked from all.
func (k *Known) SetAside(res *Result) {
	if k.seen == nil {
		k.seen = make(map[order.Docket]bool)
	}
	k.seen[res.Order.Docket()] = true
	if len(res.Findings) == 0 {
		return
	}
	kept := make([]finding.Finding, 0, len(res.Findings))
	for i := range res.Findings {
		if k.entries[mark(res, i)].takes(res.Findings[i].Facts) {
			res.Aside.Known = append(res.Aside.Known, res.Findings[i])
		} else {
			kept = append(kept, res.Findings[i])
		}
	}
	res.Findings = kept
}

// Gone returns how many known findings of the orders that were looked at did not
// come. What became of other orders' findings is not known.
func (k *Known) Gone() int {
	n := 0
	for m, e := range k.entries {
		if k.seen[m.Docket] {
			n += e.left
		}
	}
	return n
}

// Text is the known findings as a file: sorted, a finding a line.
func (k *Known) Text() []byte {
	var lines []knownLine
	for m, e := range k.entries {
		for _, facts := range e.facts {
			l := knownLine{Mark: m}
			for _, f := range facts {
				l.Facts = append(l.Facts, knownFact{f.Of, f.Is, millimetres(f.Value), millimetres(f.Limit)})
			}
			lines = append(lines, l)
		}
		switch times := e.all - len(e.facts); {
		case times > 1:
			lines = append(lines, knownLine{Mark: m, Times: times})
		case times == 1:
			lines = append(lines, knownLine{Mark: m})
		}
	}
	slices.SortFunc(lines, func(a, b knownLine) int {
		return cmp.Or(compare(&a.Mark, &b.Mark), strings.Compare(fmt.Sprint(a.Facts), fmt.Sprint(b.Facts)))
	})
	var b bytes.Buffer
	b.WriteString("{\n  \"form\": \"" + knownForm + "\",\n  \"findings\": [")
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	for i := range lines {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString("\n    ")
		// Texts and numbers can always be written.
		_ = encoder.Encode(&lines[i])
		b.Truncate(b.Len() - len("\n"))
	}
	if len(lines) > 0 {
		b.WriteString("\n  ")
	}
	b.WriteString("]\n}\n")
	return b.Bytes()
}

func compare(f, g *order.Mark) int {
	return cmp.Or(
		strings.Compare(f.Order, g.Order), strings.Compare(f.File, g.File),
		strings.Compare(f.ID, g.ID), strings.Compare(f.Item, g.Item), strings.Compare(f.Path, g.Path),
		strings.Compare(f.Rule, g.Rule), strings.Compare(f.Stated, g.Stated),
	)
}
