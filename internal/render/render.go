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
	"cutgate/internal/worksheet"
)

// Options say how a report looks.
type Options struct {
	Color bool
	Quiet bool // leaves out orders that are clear to cut
	Width int  // of a line of text for people, in cells; 0 for 80
}

// A Report is written order by order.
type Report interface {
	// Order adds an order with what was found in it, sorted by place, and what
	// was set aside.
	Order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) error
	// Close ends the report. It does not close what was written to.
	Close() error
}

// A Format is a way to write a report.
type Format struct {
	Name string
	Says string // what it is for, in a few words
	New  func(io.Writer, Options) Report
}

// Formats lists the ways to write a report, the usual one first.
func Formats() []Format {
	return []Format{
		{"text", "for people", newText},
		{"lines", "file:line:column: message, a line for each finding", newLines},
		{"json", "one report with every finding and every quantity", newJSON},
		{"jsonl", "the same, a line for each order", newJSONLines},
	}
}

// FormatNamed returns the format of that name.
func FormatNamed(name string) (Format, error) {
	var names []string
	for _, f := range Formats() {
		if f.Name == name {
			return f, nil
		}
		names = append(names, f.Name)
	}
	return Format{}, fmt.Errorf("unknown report format %q: one of %s", name, strings.Join(names, ", "))
}

// skipped reports whether a quiet report leaves an order out.
func (o Options) skipped(found []finding.Finding) bool {
	return o.Quiet && finding.VerdictOf(found) == finding.Clear
}

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
