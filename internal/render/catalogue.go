package render

import (
	"fmt"
	"io"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// Catalogue writes the list of rules by topic, in the order given.
func Catalogue(w io.Writer, rules []*rule.Rule, o Options) error {
	p := newSheet(o)
	widest := 0
	for _, r := range rules {
		widest = max(widest, len(r.ID))
	}
	column, topic := widest+4, ""
	for _, r := range rules {
		if r.Topic() != topic {
			if topic != "" {
				p.line("")
			}
			topic = r.Topic()
			p.line(p.ink(headInk, topic))
		}
		p.para(2, r.ID, plainInk, column, r.Level.String()+": "+r.Title, plainInk)
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// An Example shows a rule at work: an order, and what the rule finds in it.
type Example struct {
	Sheet *worksheet.Sheet
	Found []finding.Finding
}

// fixWords say how often a rule's findings can be corrected.
var fixWords = [...]string{
	rule.Never:     "never: you decide what to write",
	rule.Sometimes: "sometimes",
	rule.Always:    "always, if the place can be edited",
}

// RulePage writes all that there is to say of one rule. The example may be nil.
func RulePage(w io.Writer, r *rule.Rule, ex *Example, o Options) error {
	p := newSheet(o)
	p.both(r.ID, headInk, r.Level.String(), stampInk(r.Level))
	p.para(0, "", plainInk, 0, r.Title, plainInk)
	for _, s := range r.Sections() {
		p.line("")
		section(&p, s.Heading, s.Text)
	}
	p.line("")
	corrected := fixWords[r.Fix]
	if r.Asked {
		corrected = "with --likely, " + corrected
	}
	section(&p, "Corrected", corrected)
	if ex != nil {
		example(&p, ex)
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// example writes an order with its lines numbered, and what is found in it as a
// report says it.
func example(p *sheet, ex *Example) {
	file := ex.Sheet.Order.File
	p.line("")
	p.line("  " + p.ink(faintInk, "An order"))
	for n, line := range strings.Split(strings.TrimRight(file.Text, "\n"), "\n") {
		p.line(fmt.Sprintf("  %s  %s", p.ink(faintInk, fmt.Sprintf("%3d", n+1)), source.Show(strings.TrimRight(line, "\r"))))
	}
	p.line("")
	p.line("  " + p.ink(faintInk, "What cutgate reports"))
	for i := range ex.Found {
		p.line("")
		p.finding(file, &ex.Found[i])
	}
}

// section is a heading in the margin and its paragraphs beside it.
func section(p *sheet, heading, text string) {
	const column = 15
	label := heading
	for para := range strings.SplitSeq(text, "\n\n") {
		if label == "" {
			p.line("")
		}
		p.para(2, label, faintInk, column, para, plainInk)
		label = ""
	}
}
