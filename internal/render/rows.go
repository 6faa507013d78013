package render

import (
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/source"
)

// A Row is one thing that is said of a finding beside its message.
type Row struct{ Label, Text string }

// The labels of rows.
const (
	LabelWrite   = "write"   // the right value in place of the stated one, where it is certain
	LabelPerhaps = "perhaps" // a fix that makes a choice for the person
	LabelToDo    = "to do"   // a fix without a value to write, or one that is for a person to make
	LabelSlip    = "slip"
	LabelWorking = "working" // a row for each of its lines
	LabelSee     = "see"
	LabelSource  = "source"
	LabelRule    = "rule"
)

// rowInks are how rows look that are not plain.
var rowInks = map[string]ink{LabelWrite: writeInk, LabelSource: faintInk, LabelRule: faintInk}

// sure reports whether a finding has a value to write that is certain.
func sure(f *finding.Finding) bool {
	return f.Corrected != "" && slices.ContainsFunc(f.Fixes, func(x finding.Fix) bool { return x.Sureness == finding.Certain })
}

// Rows are what there is to say of a finding in a file, in the order that it is
// said in.
func Rows(file *source.File, f *finding.Finding) (rows []Row) {
	add := func(label, text string) {
		if text != "" {
			rows = append(rows, Row{label, text})
		}
	}
	if sure(f) {
		to := f.Corrected
		if f.Stated != "" {
			to += "   instead of " + f.Stated
		}
		add(LabelWrite, to)
	}
	for _, fix := range f.Fixes {
		switch {
		case fix.Sureness == finding.Likely:
			add(LabelPerhaps, fix.Title)
		case fix.Sureness == finding.Shown, f.Corrected == "":
			add(LabelToDo, fix.Title)
		}
	}
	if !strings.Contains(f.Message, f.Slip) {
		add(LabelSlip, f.Slip)
	}
	for _, l := range f.Working {
		add(LabelWorking, l)
	}
	for _, r := range f.Related {
		if r.Range == f.At { // it sends nobody anywhere
			continue
		}
		add(LabelSee, file.Place(r.Start)+": "+r.Message)
	}
	add(LabelSource, f.Source)
	add(LabelRule, f.Rule)
	return rows
}
