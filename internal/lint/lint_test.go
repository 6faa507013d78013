package lint_test

import (
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/form"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/trade"
)

// Three made-up rules: one that finds the client's name, one that finds each
// item twice, one of the form.
var (
	client = &rule.Rule{ID: "head/client-named", Level: finding.Error, Run: func(p *rule.Pass) {
		if c := p.Order.Client; c.Set {
			p.Report(finding.Finding{At: c.At, Message: "The client is " + c.Value + "."})
		}
	}}
	items = &rule.Rule{ID: "items/item-there", Level: finding.Warning, Run: func(p *rule.Pass) {
		for range 2 {
			for i := len(p.Order.Items) - 1; i >= 0; i-- {
				p.Report(finding.Finding{At: p.Order.Items[i].Kind.At, Message: "There is an item."})
			}
		}
	}}
	flaws = &rule.Rule{ID: "form/flawed", Level: finding.Note, Run: func(p *rule.Pass) {
		for _, f := range p.Order.Flaws {
			p.Report(finding.Finding{At: f.At, Message: "A flaw."})
		}
	}}
	breaks = &rule.Rule{ID: "head/breaks", Level: finding.Note, Run: func(p *rule.Pass) {
		if p.Order.Client.Value == "Breaker" {
			panic("no such cloth")
		}
	}}
)

type parts struct {
	loader *load.Loader
	tables *trade.Tables
}

var machinery = sync.OnceValue(func() parts {
	l, err := load.New()
	if err != nil {
		panic(err)
	}
	t, err := form.Tables()
	if err != nil {
		panic(err)
	}
	return parts{l, t}
})

func checker(rules ...*rule.Rule) *lint.Checker {
	return &lint.Checker{Rules: rules, Loader: machinery().loader, Tables: machinery().tables}
}

// docket is a small order in JSON, on one line.
func docket(number, client string) string {
	return fmt.Sprintf(`{"order": %q, "client": %q, "units": "in", "cloths": {"reef": {"width": 60}}, `+
		`"items": [{"item": "napkin", "cloth": "reef", "finished": {"width": 20, "length": 20}, "hem": {"turn": "1/4"}}, `+
		`{"item": "napkin", "cloth": "reef", "finished": {"width": 16, "length": 16}, "hem": {"turn": "1/4"}}]}`, number, client)
}

func said(results ...lint.Result) []string {
	var list []string
	for _, r := range results {
		if r.Err != nil {
			list = append(list, "error: "+r.Err.Error())
			continue
		}
		for _, f := range r.Findings {
			list = append(list, fmt.Sprintf("%s %s %s %s", r.Order.Number.Value, f.Level, f.Path, f.Message))
		}
		list = append(list, r.Order.Number.Value+" "+r.Verdict.String())
	}
	return list
}

func TestCheckFile(t *testing.T) {
	for _, c := range []struct {
		name   string
		text   string
		format load.Format
		rules  []*rule.Rule
		levels map[string]finding.Level
		want   []string
	}{
		{
			"sorted by place, the same said once", docket("A1", "Hall"), load.JSON, []*rule.Rule{items, client}, nil,
			[]string{"A1 error client The client is Hall.", "A1 warning items[0].item There is an item.", "A1 warning items[1].item There is an item.", "A1 hold"},
		},
		{
			"levels by topic and by rule", docket("A1", "Hall"), load.JSON, []*rule.Rule{items, client},
			map[string]finding.Level{"items": finding.Off, "head": finding.Error, "head/client-named": finding.Note},
			[]string{"A1 note client The client is Hall.", "A1 clear to cut"},
		},
		{
			"several orders", docket("A1", "Hall") + "\n" + docket("A2", "Mill"), load.JSONLines, []*rule.Rule{client}, nil,
			[]string{"A1 error client The client is Hall.", "A1 hold", "A2 error client The client is Mill.", "A2 hold"},
		},
		{
			"only the form's rules on what can't be read", "order: [", load.YAML, []*rule.Rule{client, items, flaws, {ID: "head/always", Run: func(p *rule.Pass) { panic("run") }}}, nil,
			[]string{" note  A flaw.", " clear to cut"},
		},
	} {
		ch := checker(c.rules...)
		ch.Levels = c.levels
		got := said(ch.CheckFile(&source.File{Name: "orders", Text: c.text}, c.format)...)
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: (-want +got)\n%s", c.name, d)
		}
	}
}

func TestBrokenRule(t *testing.T) {
	text := docket("A1", "Breaker") + "\n" + docket("A2", "Mill")
	results := checker(client, breaks).CheckFile(&source.File{Name: "orders.jsonl", Text: text}, load.JSONLines)
	want := []string{
		"error: rule head/breaks crashed on order A1 in orders.jsonl: no such cloth",
		"A2 error client The client is Mill.",
		"A2 hold",
	}
	if d := cmp.Diff(want, said(results...)); d != "" {
		t.Error(d)
	}
	var broken *lint.Broken
	if !errors.As(results[0].Err, &broken) || !strings.Contains(string(broken.Stack), "lint_test.go") {
		t.Errorf("the error does not tell where it broke: %v", results[0].Err)
	}
}

func BenchmarkCheckFile(b *testing.B) {
	text := docket("A1", "Hall")
	var rules []*rule.Rule
	for range 80 {
		rules = append(rules, &rule.Rule{ID: "head/idle", Level: finding.Note, Run: func(*rule.Pass) {}})
	}
	ch := checker(rules...)
	b.ReportAllocs()
	for b.Loop() {
		ch.CheckFile(&source.File{Name: "orders.jsonl", Text: text}, load.JSON)
	}
}
