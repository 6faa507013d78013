package render_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/cuecontext"
	cuejson "cuelang.org/go/encoding/json"

	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/house"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/render"
	"cutgate/internal/ruletest"
	"cutgate/internal/source"
	allrules "cutgate/rules"
)

// schemaFile is a published schema, which is no part of this project; the test is
// skipped where they are not at hand.
func schemaFile(t *testing.T, name string) string {
	t.Helper()
	dir := os.Getenv("CUTGATE_SCHEMAS")
	if dir == "" {
		t.Skip("CUTGATE_SCHEMAS is not set: it is the folder of the published schemas")
	}
	if !filepath.IsAbs(dir) {
		t.Fatalf("CUTGATE_SCHEMAS is %q: it has to be a whole path", dir)
	}
	return filepath.Join(dir, name)
}

// realChecker checks with all rules of the trade, and under the house rules that
// lie beside orders.
func realChecker(t *testing.T) *lint.Checker {
	t.Helper()
	list := allrules.All()
	c, err := lint.New(list)
	if err != nil {
		t.Fatal(err)
	}
	c.Today = "2026-08-01"
	c.Houses = &house.Finder{Tables: c.Tables, Known: lint.Settable(list)}
	return c
}

// realOptions are those of a report on what realChecker finds.
func realOptions() render.Options { return render.Options{Rules: allrules.All()} }

// realOrders are the results of all orders that people might have written.
func realOrders(t *testing.T) []lint.Result { return once(t, &realOnce, checkReal) }

// fixtureOrders are the results of every order of every rule's fixture.
func fixtureOrders(t *testing.T) []lint.Result { return once(t, &fixturesOnce, checkFixtures) }

// The orders are checked when the first test asks for them.
var realOnce, fixturesOnce []lint.Result

func once(t *testing.T, list *[]lint.Result, check func(*testing.T) []lint.Result) []lint.Result {
	t.Helper()
	if *list == nil {
		*list = check(t)
	}
	return slices.Clone(*list)
}

func checkReal(t *testing.T) []lint.Result {
	t.Helper()
	c := realChecker(t)
	var all []lint.Result
	inputs := &lint.Inputs{Paths: []string{"../../testdata/orders", "../../testdata/houses"}, Loader: c.Loader}
	err := c.Run(context.Background(), inputs.All(), func(results []lint.Result) error {
		all = append(all, results...)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func checkFixtures(t *testing.T) []lint.Result {
	t.Helper()
	c := realChecker(t)
	c.Houses = nil
	var all []lint.Result
	files, err := ruletest.Fixtures(allrules.Fixtures)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		format, _ := load.FormatOf(f.Name)
		all = append(all, c.CheckFile(f, format)...)
	}
	if len(all) < len(allrules.All()) {
		t.Fatalf("only %d orders in the fixtures", len(all))
	}
	return all
}

// checkedText are the results of one text.
func checkedText(t *testing.T, name, text string) []lint.Result {
	t.Helper()
	format, ok := load.FormatOf(name)
	if !ok {
		t.Fatalf("%s: not a kind of file that holds orders", name)
	}
	c := realChecker(t)
	c.Houses = nil
	return c.CheckFile(&source.File{Name: name, Text: text}, format)
}

// reportOf is the report of results.
func reportOf(t *testing.T, format string, o render.Options, results []lint.Result) string {
	t.Helper()
	f, err := render.Named(render.Formats(), format)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	r := f.Writer(&b, o)
	for i := range results {
		res := &results[i]
		if res.Err != nil {
			err = r.Failed(res.File.Name, res.Err)
		} else {
			err = r.Order(res.Sheet, res.Findings, res.Aside)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// failures are results of files that could not be checked, more than are reported.
func failures() []lint.Result {
	var list []lint.Result
	for i := range 120 {
		list = append(list, lint.Result{File: &source.File{Name: fmt.Sprintf("none %d.yaml", i)}, Err: fmt.Errorf("there is no file %d\nand no other", i)})
	}
	return list
}

// waivedText has an order with an error, a warning, a note and something waived.
const waivedText = `order: QL-7
client: Quince Lane
units: in
cloths:
  lawn: {width: 60, fibre: {cotton: 95}}
items:
  - item: curtain
    id: den
    cloth: lawn
    finished: {width: 50, length: 40}
    heading: {style: eyelet, allowance: 3}
    holes: {count: 7, make: grommet, bore: 1 5/8, flange: 2 1/2, from_top: 1 1/2, from_side: 3}
    hems: {bottom: {turn: 3, folds: 2}, sides: {turn: 1 1/2, folds: 2}}
    cuts: [{piece: width, width: 57, length: 40}]
    waive: [{rule: hole/odd-count, because: "the client's rings are 7", by: RM, until: 2027-01-31}]
`

// countLevels counts findings by level, and what was waived.
func countLevels(results []lint.Result) (levels map[string]int, waived int) {
	levels = make(map[string]int)
	for _, res := range results {
		for _, f := range res.Findings {
			levels[f.Level.String()]++
		}
		waived += len(res.Aside.Waived)
	}
	return levels, waived
}

func TestWaivedText(t *testing.T) {
	levels, waived := countLevels(checkedText(t, "den.yaml", waivedText))
	if waived != 1 || levels["error"] == 0 || levels["warning"] == 0 || levels["note"] == 0 {
		t.Errorf("the order has not one of each kind of finding: %v, %d waived\n%s", levels, waived,
			strings.TrimSpace(reportOf(t, "text", realOptions(), checkedText(t, "den.yaml", waivedText))))
	}
}

// TestReportSchemaNames holds reports of orders whose names are no identifiers to the
// schema: such names are quoted in paths.
func TestReportSchemaNames(t *testing.T) {
	ctx := cuecontext.New()
	def := definition(t, ctx, "#Report")
	for _, text := range []string{
		"order: 1\nunits: in\ncloths: {blue ticking: {width: wide, 'odd.name': 3, 2nd: {x: y}}, \"q\\\"uote\": {width: x}, '': {width: x}, é: {width: y}}\nitems: [{item: napkin, cloth: blue ticking, 3x: [a, {b c: 1}]}]\n",
		"order: 1\nunits: in\n'[0]': 1\n'a]b[': {c: 1}\n\"tab\\there\": 1\ncloths: {'a.width': {}, a: {width: x}}\nitems: [{item: napkin}]\n",
	} {
		checker := realChecker(t)
		var b bytes.Buffer
		r, err := render.Named(render.Formats(), "json")
		if err != nil {
			t.Fatal(err)
		}
		out := r.Writer(&b, render.Options{})
		paths := 0
		for _, res := range checker.CheckFile(&source.File{Name: "odd.yaml", Text: text}, load.YAML) {
			paths += len(res.Findings)
			if err := out.Order(res.Sheet, res.Findings, res.Aside); err != nil {
				t.Fatal(err)
			}
		}
		if err := out.Close(); err != nil {
			t.Fatal(err)
		}
		expr, err := cuejson.Extract("report.json", b.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		if err := def.Unify(ctx.BuildExpr(expr)).Validate(cue.Concrete(true)); err != nil || paths < 5 {
			t.Errorf("%d findings: %v\n%s", paths, err, b.String())
		}
	}
}

// TestTextFits writes text for people at several widths: no line is wider, unless it is
// of one word that is, and no word is broken.
func TestTextFits(t *testing.T) {
	text, err := render.Named(render.Formats(), "text")
	if err != nil {
		t.Fatal(err)
	}
	list := allrules.All()
	orders := fixtureOrders(t)
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	usual, err := house.Practices(nil, tables)
	if err != nil {
		t.Fatal(err)
	}
	words := func(s string) map[string]bool {
		set := map[string]bool{}
		for _, w := range strings.Fields(s) {
			set[w] = true
		}
		return set
	}
	written := func(o render.Options) map[string]string {
		var report, practices, catalogue, page, kinds bytes.Buffer
		out := text.Writer(&report, o)
		for i := 0; i < len(orders); i += 9 {
			if err := out.Order(orders[i].Sheet, orders[i].Findings, orders[i].Aside); err != nil {
				t.Fatal(err)
			}
		}
		for _, err := range []error{
			out.Close(), render.House(&practices, nil, usual, list, o), render.Catalogue(&catalogue, list, o),
		} {
			if err != nil {
				t.Fatal(err)
			}
		}
		for _, r := range list {
			if err := render.RulePage(&page, r, nil, o); err != nil {
				t.Fatal(err)
			}
		}
		for _, k := range goods.All().All() {
			for _, o.All = range []bool{false, true} {
				if err := render.KindPage(&kinds, k, o); err != nil {
					t.Fatal(err)
				}
			}
		}
		return map[string]string{"kinds": kinds.String(), "report": report.String(), "house": practices.String(), "catalogue": catalogue.String(), "rule": page.String()}
	}
	wide := written(render.Options{Width: 1000})
	for _, width := range []int{40, 60, 80, 100, 120} {
		for name, text := range written(render.Options{Width: width}) {
			whole, over := words(wide[name]), 0
			for line := range strings.Lines(text) {
				line = strings.TrimRight(line, "\n")
				if source.Width(line) > width && len(strings.Fields(line)) > 1 {
					if over++; over < 4 {
						t.Errorf("%s at %d is %d wide: %q", name, width, source.Width(line), line)
					}
				}
				for _, w := range strings.Fields(line) {
					if !whole[w] && !strings.ContainsAny(w, "─·") {
						t.Errorf("%s at %d has %q, which is no whole word", name, width, w)
					}
				}
			}
		}
	}
}
