package rule_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/syntax/yaml"
	"cutgate/internal/worksheet"
)

const doc = `
Checks
That the hem is deep enough.

Because
A shallow hem
curls.

Working
depth = turn × folds

Source
Common practice.
`

func TestSections(t *testing.T) {
	r := &rule.Rule{Doc: doc}
	want := []rule.Section{
		{Heading: "Checks", Text: "That the hem is deep enough."},
		{Heading: "Because", Text: "A shallow hem\ncurls."},
		{Heading: "Working", Text: "depth = turn × folds"},
		{Heading: "Source", Text: "Common practice."},
	}
	if d := cmp.Diff(want, r.Sections()); d != "" {
		t.Error(d)
	}
}

const text = "cut: 13 5/8\nagain: 13 5/8\n"

// pass makes a pass over an order with two scalars, which it returns.
func pass() (*rule.Pass, *order.Node, *order.Node) {
	o := &order.Order{File: &source.File{Name: "order.yaml", Text: text}, Writer: yaml.Writer{}}
	o.Root = &order.Node{Form: order.Map, At: source.Range{Start: 0, End: len(text)}, Kids: []order.Node{
		{Form: order.Scalar, Name: "cut", Key: source.Range{Start: 0, End: 3}, At: source.Range{Start: 5, End: 11}, Text: "13 5/8"},
		{Form: order.Scalar, Name: "again", Key: source.Range{Start: 12, End: 17}, At: source.Range{Start: 19, End: 25}, Text: "13 5/8"},
	}}
	return rule.NewPass(&worksheet.Sheet{Order: o}), &o.Root.Kids[0], &o.Root.Kids[1]
}

func TestReportStamps(t *testing.T) {
	p, n, _ := pass()
	r := &rule.Rule{ID: "cut/short", Level: finding.Error, Run: func(p *rule.Pass) {
		p.Report(finding.Finding{At: n.At, Message: "Short."})
	}}
	p.Run(r, finding.Warning)
	want := []finding.Finding{{Rule: "cut/short", Level: finding.Warning, At: n.At, Path: "cut", Message: "Short."}}
	if d := cmp.Diff(want, p.Found()); d != "" {
		t.Error(d)
	}
}

func TestReportPanics(t *testing.T) {
	for name, f := range map[string]finding.Finding{
		"the message is empty": {},
		"outside the text":     {Message: "Long.", At: source.Range{Start: 0, End: len(text) + 1}},
	} {
		func() {
			defer func() {
				if v, _ := recover().(string); !strings.Contains(v, name) || !strings.Contains(v, "cut/short") {
					t.Errorf("%s: panicked with %q", name, v)
				}
			}()
			p, _, _ := pass()
			p.Run(&rule.Rule{ID: "cut/short", Run: func(p *rule.Pass) { p.Report(f) }}, finding.Error)
		}()
	}
}

func TestReportWrong(t *testing.T) {
	for _, c := range []struct {
		name  string
		fixed [2]bool
		want  string // the text after the fix; "" where there is none
	}{
		{"both", [2]bool{}, "cut: 14 1/4\nagain: 14 1/4\n"},
		{"one behind an alias", [2]bool{true, false}, "cut: 13 5/8\nagain: 14 1/4\n"},
		{"both behind aliases", [2]bool{true, true}, ""},
	} {
		p, first, second := pass()
		first.Fixed, second.Fixed = c.fixed[0], c.fixed[1]
		p.Sheet.Stated = []worksheet.Stated{{Node: second, Quantity: &worksheet.Quantity{Name: worksheet.CutWidth, Of: "back"}}}
		w := &worksheet.Wrong{
			Quantity: &worksheet.Quantity{Name: worksheet.CutWidth, Value: worksheet.CountOf(3), Source: "a book"},
			At:       first.At, Node: first, Corrected: "14 1/4",
			Slip: &worksheet.Slip{Name: "an allowance was forgotten", Working: "1 + 1 = 2"},
			Also: []worksheet.Also{{Node: second, Corrected: "14 1/4"}},
		}
		p.Run(&rule.Rule{ID: "cut/short", Run: func(p *rule.Pass) {
			p.ReportWrong(w, "Wrong.", "Cut it wider")
		}}, finding.Error)
		got := p.Found()[0]
		fixes := got.Fixes
		got.Fixes = nil
		want := finding.Finding{
			Rule: "cut/short", Level: finding.Error, At: first.At, Path: "cut", Message: "Wrong.",
			Stated: "13 5/8", Corrected: "14 1/4", Slip: "an allowance was forgotten: 1 + 1 = 2",
			Working: []string{"3"}, Source: "a book",
			Related: []finding.Related{{Range: second.At, Message: "the cut width of the back too: 14 1/4, not 13 5/8"}},
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
		after := ""
		if len(fixes) > 0 {
			after = finding.Apply(text, fixes[0].Edits)
		}
		if after != c.want {
			t.Errorf("%s: the fix makes %q, want %q", c.name, after, c.want)
		}
	}
}

func TestEditable(t *testing.T) {
	p, _, _ := pass()
	for want, n := range map[bool]*order.Node{true: {}, false: {Fixed: true}} {
		if got := p.Editable(n); got != want {
			t.Errorf("%+v: got %t", n, got)
		}
	}
	if p.Editable(nil) {
		t.Error("a node that is not there can't be edited")
	}
}
