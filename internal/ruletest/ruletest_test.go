package ruletest_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/ruletest"
)

const doc = `
Checks
The folds of a napkin's hem.

Because
A raw edge frays.

Working
folds are 2

Source
Common practice.
`

// folds is a made-up rule that keeps every law.
func folds() *rule.Rule {
	return &rule.Rule{
		ID: "hem/one-fold", Title: "hem is folded once", Doc: doc, Level: finding.Warning, Fix: rule.Always,
		Run: func(p *rule.Pass) {
			for i := range p.Order.Items {
				f := &p.Order.Items[i].Hem.Folds
				if !f.Set || f.Value != 1 {
					continue
				}
				found := finding.Finding{At: f.At, Message: "The hem is folded once.", Stated: f.Node.Text, Corrected: "2"}
				if p.Editable(f.Node) {
					found.Fixes = []finding.Fix{{Title: "Fold it twice", Sureness: finding.Certain, Edits: []finding.Edit{p.Set(f.Node, "2")}}}
				}
				p.Report(found)
			}
		},
	}
}

const orderYAML = `order: N-1
units: in
cloths: {lawn: {width: 60}}
items:
  - {item: napkin, cloth: lawn, finished: {width: 20, length: 20}, hem: {turn: 1/4, folds: %s}}
  - {item: napkin, cloth: lawn, finished: {width: 16, length: 16}, hem: {turn: 1/4, folds: %[1]s}}
`

const orderJSON = `{"order": "N-1", "units": "in", "cloths": {"lawn": {"width": 60}}, "items": [
{"item": "napkin", "cloth": "lawn", "finished": {"width": 20, "length": 20}, "hem": {"turn": "1/4", "folds": %s}},
{"item": "napkin", "cloth": "lawn", "finished": {"width": 16, "length": 16}, "hem": {"turn": "1/4", "folds": %[1]s}}
]}
`

// fixture is a fixture that folds keeps, as UPDATE=1 would leave it.
func fixture() string {
	wrongYAML, wrongJSON := fmt.Sprintf(orderYAML, "1"), fmt.Sprintf(orderJSON, "1")
	return "One fold leaves the raw edge bare.\n" +
		"-- wrong/order.json --\n" + wrongJSON +
		"-- wrong/order.yaml --\n" + wrongYAML +
		"-- wrong/want --\n" +
		"order.json:2:110: The hem is folded once.\norder.json:3:110: The hem is folded once.\n" +
		"order.yaml:5:92: The hem is folded once.\norder.yaml:6:92: The hem is folded once.\n" +
		"-- wrong/fixed/order.json --\n" + fmt.Sprintf(orderJSON, "2") +
		"-- wrong/fixed/order.yaml --\n" + fmt.Sprintf(orderYAML, "2") +
		"-- right/order.yaml --\n" + fmt.Sprintf(orderYAML, "2") +
		"-- right/want --\n" +
		"-- borderline-none/order.yaml --\n" + fmt.Sprintf(orderYAML, "0") +
		"-- borderline-none/want --\n"
}

// topic writes a topic's folder with that fixture.
func topic(t *testing.T, fixture string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{"doc.go": "", "rules.go": "// hem/left-out is left out", "one_fold.go": "", "left_out.go": "", "testdata/one-fold.txtar": fixture} {
		file := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func TestRun(t *testing.T) {
	t.Setenv("UPDATE", "")
	ruletest.Run(t, []*rule.Rule{folds()}, topic(t, fixture()))
}

// TestOthers runs a rule with others, whose findings are not looked at.
func TestOthers(t *testing.T) {
	t.Setenv("UPDATE", "")
	ran := false
	other := &rule.Rule{ID: "item/there", Level: finding.Note, Run: func(p *rule.Pass) {
		ran = true
		p.Report(finding.Finding{At: p.Order.Items[0].Kind.At, Message: "There is an item."})
	}}
	ruletest.Run(t, []*rule.Rule{folds()}, topic(t, fixture()), other, folds())
	if !ran {
		t.Error("the other rule was not run")
	}
}

func TestUpdate(t *testing.T) {
	t.Setenv("UPDATE", "1")
	stale := strings.NewReplacer(":92: The hem", ":1: A hem", "-- wrong/fixed/order.json --\n"+fmt.Sprintf(orderJSON, "2"), "").Replace(fixture())
	dir := topic(t, stale)
	ruletest.Run(t, []*rule.Rule{folds()}, dir)
	got, err := os.ReadFile(filepath.Join(dir, "testdata", "one-fold.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(fixture(), string(got)); d != "" {
		t.Error(d)
	}
}

func TestFixtures(t *testing.T) {
	files, err := ruletest.Fixtures(os.DirFS(topic(t, fixture())))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range files {
		names = append(names, strings.TrimPrefix(f.Name, "testdata/"))
	}
	want := []string{"one-fold.txtar/wrong/order.json", "one-fold.txtar/wrong/order.yaml", "one-fold.txtar/right/order.yaml", "one-fold.txtar/borderline-none/order.yaml"}
	if d := cmp.Diff(want, names); d != "" {
		t.Error(d)
	}
}

// A breach is a rule or a fixture that breaks a law, and what is said of it.
type breach struct {
	rule    func(*rule.Rule)
	fixture func(string) string
	want    string
}

func replace(old, with string) func(string) string {
	return func(s string) string { return strings.ReplaceAll(s, old, with) }
}

// changed makes the rule report its findings differently.
func changed(change func(*finding.Finding)) func(*rule.Rule) {
	return func(r *rule.Rule) {
		r.Run = func(p *rule.Pass) {
			q := rule.NewPass(p.Sheet)
			q.Run(folds(), finding.Warning)
			for _, f := range q.Found() {
				change(&f)
				p.Report(f)
			}
		}
	}
}

var runs int

var breaches = map[string]breach{
	"title":         {func(r *rule.Rule) { r.Title = "Hem is folded once." }, nil, "is not a lower-case phrase"},
	"file":          {func(r *rule.Rule) { r.ID = "hem/two-folds" }, nil, "not in a file of its own"},
	"list":          {func(r *rule.Rule) { r.ID = "hem/two-folds" }, nil, "no rule hem/one-fold in the list"},
	"heading":       {func(r *rule.Rule) { r.Doc = strings.Replace(doc, "Because", "Why", 1) }, nil, "no heading Because"},
	"heading order": {func(r *rule.Rule) { r.Doc = doc + "\nChecks\nAgain.\n" }, nil, "out of order or there twice"},
	"no prose":      {nil, replace("One fold leaves the raw edge bare.\n", ""), "does not open with prose"},
	"no borderline": {nil, replace("borderline", "wrongish"), "no case whose name begins with borderline"},
	"want":          {nil, replace("order.yaml:5:92", "order.yaml:5:93"), "other findings than wanted"},
	"fixed":         {nil, replace("wrong/fixed/order.yaml", "wrong/fixed/other.yaml"), "certain fixes make other orders"},
	"right":         {nil, replace("right/order.yaml --\n"+fmt.Sprintf(orderYAML, "2"), "right/order.yaml --\n"+fmt.Sprintf(orderYAML, "1")), "something is found, though"},
	"flaw":          {nil, replace("borderline-none/order.yaml --\n", "borderline-none/order.yaml --\nodd: 1\n"), "could not be taken as written"},
	"formats": {func(r *rule.Rule) {
		changed(func(*finding.Finding) {})(r)
		inner := r.Run
		r.Run = func(p *rule.Pass) {
			if strings.HasSuffix(p.Order.File.Name, ".yaml") {
				inner(p)
			}
		}
	}, nil, "do not give the same findings"},
	"fix declared": {func(r *rule.Rule) { r.Fix = rule.Never }, nil, "declares that its findings come with a fix never"},
	"two runs": {changed(func(f *finding.Finding) {
		runs++
		f.Message = fmt.Sprintf("Run %d.", runs)
	}), nil, "two runs do not find the same"},
	"shuffled": {func(r *rule.Rule) {
		r.Run = func(p *rule.Pass) {
			p.Report(finding.Finding{At: p.Order.Items[0].Hem.Folds.At, Message: "First is " + p.Order.Items[0].Finished.Width.Node.Text + "."})
		}
	}, nil, "with items and cloths in another order"},
	"mutation": {func(r *rule.Rule) {
		r.Run = func(p *rule.Pass) {
			f := &p.Order.Items[0].Hem.Folds
			p.Report(finding.Finding{At: f.At, Message: fmt.Sprintf("Folded %d.", f.Value)})
			f.Value++
		}
	}, nil, "checking changed the order"},
	"fix that mends nothing": {changed(func(f *finding.Finding) { f.Fixes[0].Edits[0].Text = "1" }), nil, "leaves the finding"},
	"fix that spoils":        {changed(func(f *finding.Finding) { f.Fixes[0].Edits[0].Text = "twice" }), nil, "could not be taken as written"},
	"fix that swings": {func(r *rule.Rule) {
		r.Run = func(p *rule.Pass) {
			f := &p.Order.Items[0].Hem.Folds
			p.Report(finding.Finding{At: f.At, Message: fmt.Sprintf("Folded %d.", f.Value), Fixes: []finding.Fix{
				{Title: "Fold on", Sureness: finding.Certain, Edits: []finding.Edit{p.Set(f.Node, fmt.Sprint(3-f.Value))}}}})
		}
	}, nil, "have not settled"},
	"message": {changed(func(f *finding.Finding) { f.Message = "Folded" }), nil, "ends in a full stop"},
	"panic":   {func(r *rule.Rule) { r.Run = func(*rule.Pass) { panic("no cloth") } }, nil, "rule hem/one-fold crashed on order N-1"},
}

// TestBreach runs one breach, in a process of its own as it fails.
func TestBreach(t *testing.T) {
	name := os.Getenv("RULETEST_BREACH")
	if name == "" {
		t.Skip("run by TestLaws")
	}
	b, r, fx := breaches[name], folds(), fixture()
	if b.rule != nil {
		b.rule(r)
	}
	if b.fixture != nil {
		fx = b.fixture(fx)
	}
	ruletest.Run(t, []*rule.Rule{r}, topic(t, fx))
}

func TestLaws(t *testing.T) {
	for name, b := range breaches {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			cmd := exec.Command(os.Args[0], "-test.run=^TestBreach$")
			cmd.Env = append(os.Environ(), "RULETEST_BREACH="+name, "UPDATE=")
			out, err := cmd.CombinedOutput()
			if err == nil {
				t.Fatalf("the breach passed:\n%s", out)
			}
			if !strings.Contains(string(out), b.want) {
				t.Errorf("nothing said of %q:\n%s", b.want, out)
			}
		})
	}
}
