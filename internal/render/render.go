// Package render writes what was found, and what was worked out, for people and
// for other programs: one file for each way of writing it.
//
// Its law: the same sheets and findings give the same bytes, whatever the
// processor, the terminal or the time of day. Text that comes from an order is
// made harmless before it is put on a terminal.
//
// It decides nothing: levels, verdicts, places and numbers come from the layers
// below.
package render

import (
	"fmt"
	"io"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// Options say how a report looks, and what it has to know beside the orders.
type Options struct {
	Color   bool
	Quiet   bool          // leaves out orders that are clear to cut
	Width   int           // of a line of text for people, in cells; 0 for 80
	HoldAt  finding.Level // the level that holds an order; 0 for Error
	Rules   []*rule.Rule  // the rules that may have found something, but for a shop's own
	Version string        // of the program; "" where it is not known
	Brief   bool          // a ticket without its workings
	Home    string        // address of information about the program; "" where there is none
	All     bool          // a report for people lists each order that is clear to cut, however many; a kind's page has every step
	Known   bool          // findings that were known before are told from new ones
}

// A Report is written order by order.
type Report interface {
	// Order adds an order with what was found in it, sorted by place, and what there
	// is to say beside that.
	Order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) error
	// Failed adds a file, or an order of it, that could not be checked, and why.
	// Reports for people leave that to whoever says errors.
	Failed(file string, why error) error
	// Close ends the report. It does not close what was written to.
	Close() error
}

// A Format is a way to write something.
type Format[F any] struct {
	Name   string
	Says   string // what it is for, in a few words
	Writer F
}

// Named returns the format of that name.
func Named[F any](list []Format[F], name string) (Format[F], error) {
	var names []string
	for _, f := range list {
		if f.Name == name {
			return f, nil
		}
		names = append(names, f.Name)
	}
	return Format[F]{}, fmt.Errorf("unknown format %q: one of %s", name, strings.Join(names, ", "))
}

// Formats lists the ways to write a report, the usual one first.
func Formats() []Format[func(io.Writer, Options) Report] {
	return []Format[func(io.Writer, Options) Report]{
		{"text", "for people", newText},
		{"lines", "file:line:column: message, a line for each finding", newLines},
		{"json", "one report with every finding and every quantity", newJSON},
		{"jsonl", "the same, a line for each order", newJSONLines},
		{"sarif", "SARIF 2.1.0, for programs that show findings beside the text", newSARIF},
		{"junit", "JUnit XML, for programs that show the outcome of tests", newJUnit},
	}
}

// skipped reports whether a quiet report leaves an order out.
func (o Options) skipped(found []finding.Finding, aside *finding.Aside) bool {
	return o.Quiet && aside.Verdict(found) == finding.Clear
}

// holds reports whether a finding of that level holds an order.
func (o Options) holds(l finding.Level) bool {
	if o.HoldAt == finding.Off {
		return l >= finding.Error
	}
	return l >= o.HoldAt
}

// unsaid is a report that leaves it to others to say what could not be checked.
type unsaid struct{}

func (unsaid) Failed(string, error) error { return nil }

// A sink writes until the first error, which it keeps.
type sink struct {
	w   io.Writer
	err error
}

func (s *sink) write(b []byte) {
	if s.err == nil {
		_, s.err = s.w.Write(b)
	}
}

func (s *sink) print(text string) {
	if s.err == nil {
		_, s.err = io.WriteString(s.w, text)
	}
}
