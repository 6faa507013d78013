package lint

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
)

// Known are findings that were there before, so that only new ones are reported.
// A finding is the same as a known one where rule, order, item, field and stated
// text are the same, on whatever line it stands; of several that are the same, as
// many are known as were there. The zero value knows none.
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

// knownTimes are how often a finding is known, and how often it is yet to come.
type knownTimes struct{ all, left int }

// knownForm says what a file of known findings is.
const knownForm = "known findings 1"

// A knownFile is a file of known findings.
type knownFile struct {
	Form     string      `json:"form"`
	Findings []knownLine `json:"findings"`
}

type knownLine struct {
	order.Mark
	Times int `json:"times,omitempty"` // 0 for once
}

// ReadKnown reads a file of known findings.
func ReadKnown(text []byte) (*Known, error) {
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	var file knownFile
	if err := d.Decode(&file); err != nil {
		return nil, fmt.Errorf("not a file of known findings: %w", err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("not a file of known findings: there is more after its end")
	}
	if file.Form != knownForm {
		return nil, fmt.Errorf("not a file of known findings: its form is %q, not %q", file.Form, knownForm)
	}
	k := new(Known)
	for i, l := range file.Findings {
		if l.Rule == "" || l.Times < 0 {
			return nil, fmt.Errorf("not a file of known findings: finding %d has no rule, or less than none of it are known", i+1)
		}
		k.add(l.Mark, max(1, l.Times))
	}
	return k, nil
}

// Add makes what was found in an order known.
func (k *Known) Add(res *Result) {
	for i := range res.Findings {
		k.add(mark(res, i), 1)
	}
}

func (k *Known) add(m order.Mark, times int) {
	if k.entries == nil {
		k.entries = make(map[order.Mark]*knownTimes)
	}
	if k.entries[m] == nil {
		k.entries[m] = new(knownTimes)
	}
	k.entries[m].all += times
	k.entries[m].left += times
}

// mark is what finding i of a result goes by.
func mark(res *Result, i int) order.Mark {
	f := &res.Findings[i]
	return res.Order.Mark(f.Path, f.Rule, f.Stated)
}

// Leave takes the known findings out of a result. They count as come, so that of
// equal findings no more are left out than are known.
func (k *Known) Leave(res *Result) {
	if k.seen == nil {
		k.seen = make(map[order.Docket]bool)
	}
	k.seen[res.Order.Docket()] = true
	if len(res.Findings) == 0 {
		return
	}
	kept := make([]finding.Finding, 0, len(res.Findings))
	for i := range res.Findings {
		if e := k.entries[mark(res, i)]; e != nil && e.left > 0 {
			e.left--
			res.Aside.Known++
		} else {
			kept = append(kept, res.Findings[i])
		}
	}
	res.Findings, res.Verdict = kept, finding.VerdictOf(kept)
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
		l := knownLine{Mark: m}
		if e.all > 1 {
			l.Times = e.all
		}
		lines = append(lines, l)
	}
	slices.SortFunc(lines, func(a, b knownLine) int { return compare(&a.Mark, &b.Mark) })
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
