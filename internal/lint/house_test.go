package lint_test

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/house"
	"cutgate/internal/length"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/rule"
)

// measures finds the shop's clearance, which a house sets.
var measures = &rule.Rule{ID: "head/clearance", Level: finding.Note, Run: func(p *rule.Pass) {
	p.Report(finding.Finding{At: p.Order.Number.At, Message: p.Tables.House.Clearance.Format(length.MM, length.Nearest) + ", " + p.Tables.SelfSource("clearance")})
}}

// cords finds a cord.
var cords = &rule.Rule{ID: "safety/cord", Level: finding.Error, Run: func(p *rule.Pass) {
	p.Report(finding.Finding{At: p.Order.Number.At, Message: "A cord."})
}}

// under checks the orders below a folder, each under its own house, and says
// what was found and what went wrong.
func under(t *testing.T, files map[string]string, rules ...*rule.Rule) []string {
	t.Helper()
	t.Chdir(t.TempDir())
	for name, text := range files {
		if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	c := checker(rules...)
	c.Houses = &house.Finder{Tables: c.Tables, Known: lint.Settable(rules)}
	in := &lint.Inputs{Paths: []string{"."}, Loader: c.Loader}
	var got []string
	err := c.Run(t.Context(), in.All(), func(results []lint.Result) error {
		got = append(got, said(results...)...)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func TestHouses(t *testing.T) {
	got := under(t, map[string]string{
		"a/house.cue":  `clearance: "20 mm", levels: {"head/client-named": "off", items: "note"}`,
		"a/1.json":     docket("A1", "Hall"),
		"a/sub/2.json": docket("A2", "Hall"),
		"b/house.cue": `rules: "tea-napkins": {check: finished: width: <400, at: "finished.width", message: "{finished.width} is wide."}
units: "mm"`,
		"b/3.jsonl": docket("B3", "Hall") + "\n" + docket("B4", "Mill"),
		"c/4.json":  docket("C5", "Hall"),
	}, measures, client, items)
	want := []string{
		"A1 note order 20 mm, house rules, a/house.cue:1", "A1 note items[0].item There is an item.", "A1 note items[1].item There is an item.", "A1 clear to cut",
		"A2 note order 20 mm, house rules, a/house.cue:1", "A2 note items[0].item There is an item.", "A2 note items[1].item There is an item.", "A2 clear to cut",
		"B3 note order 13 mm, " + machinery().tables.SelfSource("clearance"), "B3 error client The client is Hall.",
		"B3 warning items[0].item There is an item.", "B3 warning items[0].finished.width 20 in is wide.",
		"B3 warning items[1].item There is an item.", "B3 warning items[1].finished.width 16 in is wide.", "B3 hold",
		"B4 note order 13 mm, " + machinery().tables.SelfSource("clearance"), "B4 error client The client is Mill.",
		"B4 warning items[0].item There is an item.", "B4 warning items[0].finished.width 20 in is wide.",
		"B4 warning items[1].item There is an item.", "B4 warning items[1].finished.width 16 in is wide.", "B4 hold",
		"C5 note order 13 mm, " + machinery().tables.SelfSource("clearance"), "C5 error client The client is Hall.",
		"C5 warning items[0].item There is an item.", "C5 warning items[1].item There is an item.", "C5 hold",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

func TestWrongHouseHoldsItsOrdersOnly(t *testing.T) {
	got := under(t, map[string]string{
		"a/house.cue": `levels: {"head/client-nmaed": "off", safety: "off"}`,
		"a/1.json":    docket("A1", "Hall"), "a/2.jsonl": docket("A2", "Hall") + "\n" + docket("A3", "Hall"),
		"b/4.json": docket("B4", "Hall"),
	}, client, cords)
	fault := "error: a/house.cue:1:10: there is no rule head/client-nmaed: did you mean head/client-named?\n" +
		"a/house.cue:1:46: safety/cord can be lowered to warning, and no further: someone could be hurt"
	want := []string{fault, fault, fault, "B4 error order A cord.", "B4 error client The client is Hall.", "B4 hold"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

// TestOwnRuleIsARule has an own rule waived, and left alone where nothing could
// be read.
func TestOwnRuleIsARule(t *testing.T) {
	waived := strings.Replace(docket("A1", "Hall"), `"items":`, `"waive": [{"rule": "house/tea-napkins", "because": "agreed"}], "items":`, 1)
	got := under(t, map[string]string{
		"house.cue": `rules: "tea-napkins": {check: finished: width: <400, level: "error", message: "m"}
units: "mm"`,
		"1.json": waived, "2.json": docket("A2", "Hall"), "3.json": `{"order": "A3", "units": "in", "cloths": `,
	}, flaws)
	want := []string{"A1 clear to cut", "A2 error items[0].item m", "A2 error items[1].item m", "A2 hold", " note  A flaw.", " clear to cut"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

func TestCheckOrderLooksForItsHouse(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "house.cue"), []byte(`levels: head: "off"`), 0o666); err != nil {
		t.Fatal(err)
	}
	c := checker(client)
	f := line("A1").File
	f.Name = filepath.Join(dir, "orders.jsonl")
	o := c.Loader.Orders(f, load.JSONLines, load.Options{})[0]
	if res := c.CheckOrder(o); len(res.Findings) != 1 {
		t.Errorf("without a finder: %v", res.Findings)
	}
	c.Houses = &house.Finder{Tables: c.Tables, Known: lint.Settable(c.Rules)}
	if res := c.CheckOrder(o); res.Err != nil || len(res.Findings) != 0 {
		t.Errorf("with a finder: %v, %v", res.Err, res.Findings)
	}
	c = checker(client)
	c.Houses = &house.Finder{File: filepath.Join(dir, "gone.cue"), Tables: c.Tables}
	if res := c.CheckOrder(o); !errors.Is(res.Err, os.ErrNotExist) || res.Findings != nil {
		t.Errorf("with a house that is not there: %v, %v", res.Err, res.Findings)
	}
}

// TestHouseCheckerIsTheSame holds what a checker under a house takes over: all
// but what a house is about.
func TestHouseCheckerIsTheSame(t *testing.T) {
	c := &lint.Checker{Rules: []*rule.Rule{client}, Tables: machinery().tables, Loader: machinery().loader, Levels: map[string]finding.Level{"head": finding.Note, "x": finding.Off}, TrustCUE: true, Today: "2026-01-02", AsStated: true, Reuse: true}
	h, err := house.Read("house.cue", `levels: head: "warning"`, c.Tables, lint.Settable(c.Rules))
	if err != nil {
		t.Fatal(err)
	}
	own := lint.InHouse(c, h)
	if d := cmp.Diff(map[string]finding.Level{"head": finding.Note, "x": finding.Off}, own.Levels); d != "" {
		t.Errorf("levels that the caller sets go before the house's: %s", d)
	}
	was, is := reflect.ValueOf(c).Elem(), reflect.ValueOf(own).Elem()
	for i := range was.NumField() {
		f := was.Type().Field(i)
		switch f.Name {
		case "Tables", "Levels", "Houses", "Kinds":
		default:
			if f.IsExported() && !reflect.DeepEqual(was.Field(i).Interface(), is.Field(i).Interface()) {
				t.Errorf("%s is not taken over", f.Name)
			}
			if f.IsExported() && was.Field(i).IsZero() {
				t.Errorf("the test leaves %s out", f.Name)
			}
		}
	}
}

func TestSettable(t *testing.T) {
	list := lint.Settable([]*rule.Rule{client, cords, {ID: "safety/small", Level: finding.Warning}, {ID: "form/unreadable", Level: finding.Error}, {ID: "form/odd", Level: finding.Error}})
	want := []house.Known{
		{ID: "head/client-named", Level: finding.Error},
		{ID: "safety/cord", Level: finding.Error, Least: finding.Warning, Why: "someone could be hurt"},
		{ID: "safety/small", Level: finding.Warning},
		{ID: "form/unreadable", Level: finding.Error, Least: finding.Error, Why: "nothing else is checked there"},
		{ID: "form/odd", Level: finding.Error},
	}
	if d := cmp.Diff(want, list); d != "" {
		t.Error(d)
	}
}
