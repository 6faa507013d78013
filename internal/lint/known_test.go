package lint_test

import (
	"strings"
	"testing"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/build"
	"cuelang.org/go/cue/cuecontext"
	"cuelang.org/go/cue/parser"
	cuejson "cuelang.org/go/encoding/json"
	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/schema"
)

// Made-up rules that find every cut, every bolt and every field that is missing.
var (
	cuts = &rule.Rule{ID: "items/cut-there", Level: finding.Error, Run: func(p *rule.Pass) {
		for i := range p.Order.Items {
			for j := range p.Order.Items[i].Cuts {
				w := &p.Order.Items[i].Cuts[j].Width
				p.Report(finding.Finding{At: w.At, Stated: w.Node.Text, Message: "There is a cut."})
			}
		}
	}}
	bolts = &rule.Rule{ID: "cloth/bolt-there", Level: finding.Note, Run: func(p *rule.Pass) {
		for i := range p.Order.Cloths {
			for j := range p.Order.Cloths[i].Of.Bolts {
				p.Report(finding.Finding{At: p.Order.Cloths[i].Of.Bolts[j].Length.At, Message: "There is a bolt."})
			}
		}
	}}
	missing = &rule.Rule{ID: "form/missing", Level: finding.Error, Run: func(p *rule.Pass) {
		for _, f := range p.Order.Flaws {
			p.Report(finding.Finding{At: f.At, Path: strings.TrimPrefix(f.Path+"."+f.Name, "."), Message: f.Name + " is missing."})
		}
	}}
)

const legacy = `order: A1
units: in
cloths:
  reef: {width: 60, bolts: [{length: 5 yd}, {lot: B, length: 6 yd}]}
  a.b: {width: 60}
items:
  - item: shower curtain
    id: bath
    cloth: reef
    finished: {width: 84, length: 78}
    hems: {bottom: {turn: 3}}
    cuts:
      - {piece: center, width: 60}
      - {piece: side, width: 14}
  - item: napkin
    cloth: a.b
    finished: {width: 20, length: 20}
    hem: {turn: 1/4}
    cuts: [{piece: piece, width: 21}]
  - item: napkin
    cloth: a.b
    finished: {width: 20, length: 20}
    hem: {folds: 2}
    cuts: [{piece: piece, width: "21"}, {piece: piece, width: 21}]
`

const legacyKnown = `{
  "form": "known findings 1",
  "findings": [
    {"order":"A1","path":"cloths.reef.bolts[0].length","rule":"cloth/bolt-there","stated":"5 yd"},
    {"order":"A1","path":"cloths.reef.bolts[B].length","rule":"cloth/bolt-there","stated":"6 yd"},
    {"order":"A1","item":"napkin 1","path":"cuts[piece].width","rule":"items/cut-there","stated":"21"},
    {"order":"A1","item":"napkin 2","path":"cuts[piece].width","rule":"items/cut-there","stated":"21","times":2},
    {"order":"A1","item":"napkin 2","path":"hem.turn","rule":"form/missing"},
    {"order":"A1","id":"bath","path":"cuts[center].width","rule":"items/cut-there","stated":"60"},
    {"order":"A1","id":"bath","path":"cuts[side].width","rule":"items/cut-there","stated":"14"}
  ]
}
`

// checked checks a text for what the made-up rules find.
func checked(t *testing.T, name, text string) []lint.Result {
	t.Helper()
	results := checker(cuts, bolts, missing).CheckFile(&source.File{Name: name, Text: text}, load.YAML)
	for _, res := range results {
		if res.Err != nil {
			t.Fatal(res.Err)
		}
	}
	return results
}

func knownOf(t *testing.T, name, text string) *lint.Known {
	t.Helper()
	k := new(lint.Known)
	for _, res := range checked(t, name, text) {
		k.Add(&res)
	}
	return k
}

func readKnown(t *testing.T, text string) *lint.Known {
	t.Helper()
	k, err := lint.ReadKnown([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func TestKnownText(t *testing.T) {
	for name, c := range map[string]struct{ file, text, want string }{
		"by item and field": {"a.yaml", legacy, legacyKnown},
		"nothing found":     {"a.yaml", "order: A1\nunits: in\ncloths: {}\nitems: [{item: tie-back, cloth: a, finished: {width: 20, length: 3}}]\n", "{\n  \"form\": \"known findings 1\",\n  \"findings\": []\n}\n"},
		"without a number": {"./b//a.yaml", "units: in\ncloths: {reef: {width: 60, bolts: [{lot: \"<\\\"\\n\", length: 1}]}}\nitems: [{item: tie-back, cloth: reef, finished: {width: 20, length: 3}}]\n", `{
  "form": "known findings 1",
  "findings": [
    {"file":"b/a.yaml","path":"cloths.reef.bolts[<\"\n].length","rule":"cloth/bolt-there","stated":"1"},
    {"file":"b/a.yaml","path":"order","rule":"form/missing"}
  ]
}
`},
	} {
		got := string(knownOf(t, c.file, c.text).Text())
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: (-want +got)\n%s", name, d)
		}
		if d := cmp.Diff(got, string(readKnown(t, got).Text())); d != "" {
			t.Errorf("%s: written, read and written again: (-first +again)\n%s", name, d)
		}
	}
}

// TestKnownLeaves changes an order whose findings are known, and wants only what
// is new.
func TestKnownLeaves(t *testing.T) {
	const (
		hold    = "A1 hold" // by what was known before
		bolt    = "  reef: {width: 60, bolts: [{length: 5 yd}, {lot: B, length: 6 yd}]}\n"
		center  = "      - {piece: center, width: 60}\n"
		side    = "      - {piece: side, width: 14}\n"
		another = "  - {item: tie-back, cloth: a.b, finished: {width: 20, length: 3}}\n"
	)
	for _, c := range []struct {
		name     string
		old, new string
		want     []string
		gone     int
	}{
		{"nothing", "", "", []string{hold}, 0},
		{"lines before", "units: in\n", "# as agreed\n\nclient: Moss Hall\nunits: in\n", []string{hold}, 0},
		{"cuts the other way round", center + side, side + center, []string{hold}, 0},
		{"an item of another kind before", "items:\n", "items:\n" + another, []string{hold}, 0},
		{"another stated value", "piece: side, width: 14", "piece: side, width: 15", []string{"A1 error items[0].cuts[1].width There is a cut.", "A1 hold"}, 1},
		{"one more of the same", side, side + side, []string{"A1 error items[0].cuts[2].width There is a cut.", "A1 hold"}, 0},
		{"a note", "5 yd", "7 yd", []string{"A1 note cloths.reef.bolts[0].length There is a bolt.", hold}, 1},
		{"bolts gone", bolt, "  reef: {width: 60}\n", []string{hold}, 2},
		{"another field missing", "hem: {turn: 1/4}", "hem: {folds: 2}", []string{"A1 error items[1].hem.turn turn is missing.", "A1 hold"}, 0},
		{"another order", "order: A1", "order: A2", []string{
			"A2 note cloths.reef.bolts[0].length There is a bolt.", "A2 note cloths.reef.bolts[1].length There is a bolt.",
			"A2 error items[0].cuts[0].width There is a cut.", "A2 error items[0].cuts[1].width There is a cut.", "A2 error items[1].cuts[0].width There is a cut.",
			"A2 error items[2].hem.turn turn is missing.", "A2 error items[2].cuts[0].width There is a cut.", "A2 error items[2].cuts[1].width There is a cut.", "A2 hold",
		}, 0}, // A1 was not looked at
	} {
		known := readKnown(t, legacyKnown)
		text := strings.Replace(legacy, c.old, c.new, 1)
		if c.old != "" && text == legacy {
			t.Fatalf("%s: nothing changed", c.name)
		}
		results := checked(t, "b.yaml", text)
		before := len(results[0].Findings)
		known.SetAside(&results[0])
		if d := cmp.Diff(c.want, said(results...)); d != "" {
			t.Errorf("%s: (-want +got)\n%s", c.name, d)
		}
		if res := &results[0]; before != len(res.Findings)+len(res.Aside.Known) {
			t.Errorf("%s: %d findings, of which %d are known and %d are not", c.name, before, len(res.Aside.Known), len(res.Findings))
		}
		if got := known.Gone(); got != c.gone {
			t.Errorf("%s: %d are gone, want %d", c.name, got, c.gone)
		}
	}
}

// TestKnownNone holds the zero value to know nothing.
func TestKnownNone(t *testing.T) {
	results := checked(t, "a.yaml", legacy)
	want := said(results...)
	var known lint.Known
	known.SetAside(&results[0])
	if d := cmp.Diff(want, said(results...)); d != "" || known.Gone() != 0 || len(results[0].Aside.Known) != 0 {
		t.Errorf("%d known, %d gone\n%s", len(results[0].Aside.Known), known.Gone(), d)
	}
}

func TestReadKnownRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":                        "not a known-findings file: EOF",
		"order: A1\n":             "not a known-findings file: invalid character",
		`{"orders": []}`:          "not a known-findings file: json: unknown field",
		`{"findings": []}`:        `its form is "", not "known findings 1"`,
		`[]`:                      "not a known-findings file: json: cannot unmarshal array",
		legacyKnown + legacyKnown: "there is more after its end",
		`{"form": "known findings 1", "findings": [{"order": "A1"}]}`:                            "finding 1 has no rule",
		`{"form": "known findings 1", "findings": [{"rule": "a/b"}, {"rule": "b", "times":-1}]}`: "finding 2 has no rule, or a count below zero",
		`{"form": "known findings 1", "findings": [{"rule": "a/b", "line": 12}]}`:                `unknown field "line"`,
	} {
		if _, err := lint.ReadKnown([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%.40q: %v, want %q", text, err, want)
		}
	}
}

// TestKnownSchema holds the file to its schema.
func TestKnownSchema(t *testing.T) {
	ctx := cuecontext.New()
	entries, err := schema.Files.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	inst := build.NewContext().NewInstance("schema", nil)
	for _, e := range entries {
		text, err := schema.Files.ReadFile(e.Name())
		if err != nil {
			t.Fatal(err)
		}
		file, err := parser.ParseFile(e.Name(), text)
		if err != nil {
			t.Fatal(err)
		}
		if err := inst.AddSyntax(file); err != nil {
			t.Fatal(err)
		}
	}
	def := ctx.BuildInstance(inst).LookupPath(cue.ParsePath("#KnownFindings"))
	fits := func(text string) error {
		expr, err := cuejson.Extract("known.json", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		return def.Unify(ctx.BuildExpr(expr)).Validate(cue.Concrete(true))
	}
	if err := fits(string(knownOf(t, "a.yaml", legacy).Text())); err != nil {
		t.Error(err)
	}
	for _, wrong := range []string{strings.Replace(legacyKnown, `"rule"`, `"line"`, 1), strings.Replace(legacyKnown, `"times":2`, `"times":1`, 1)} {
		if fits(wrong) == nil {
			t.Errorf("the schema takes anything:\n%s", wrong)
		}
	}
}

// TestKnownSafety changes what an error about safety rests on. It is known while that
// has not got worse and is held against the same limit.
func TestKnownSafety(t *testing.T) {
	var fact finding.Fact
	cord := &rule.Rule{ID: "safety/cord-there", Level: finding.Error, Run: func(p *rule.Pass) {
		for i := range p.Order.Items {
			p.Report(finding.Finding{At: p.Order.Items[i].Kind.At, Message: "There is a cord.", Facts: []finding.Fact{fact}})
		}
	}}
	check := func() *lint.Result {
		res := checker(cord).CheckFile(&source.File{Name: "a.yaml", Text: legacy}, load.YAML)
		return &res[0]
	}
	was := finding.Fact{Of: "cord length", Value: 1_016_000_000, Limit: 222_250_000, More: true}
	for _, c := range []struct {
		name  string
		is    finding.Fact
		known bool
	}{
		{"the same", was, true},
		{"shorter, and still too long", finding.Fact{Of: "cord length", Value: 900_000_000, Limit: 222_250_000, More: true}, true},
		{"longer", finding.Fact{Of: "cord length", Value: 1_016_000_001, Limit: 222_250_000, More: true}, false},
		{"another limit", finding.Fact{Of: "cord length", Value: 1_016_000_000, Limit: 222_000_000, More: true}, false},
		{"something else", finding.Fact{Of: "loop length", Value: 1_016_000_000, Limit: 222_250_000, More: true}, false},
		{"less is worse", finding.Fact{Of: "cord length", Value: 900_000_000, Limit: 222_250_000}, false},
	} {
		fact = was
		first := new(lint.Known)
		first.Add(check())
		known := readKnown(t, string(first.Text()))
		if d := cmp.Diff(string(first.Text()), string(known.Text())); d != "" {
			t.Errorf("%s: written, read and written again: %s", c.name, d)
		}
		fact = c.is
		res := check()
		found := len(res.Findings)
		known.SetAside(res)
		if got := len(res.Aside.Known); got != 0 && !c.known || got != found && c.known {
			t.Errorf("%s: %d of %d are known", c.name, got, found)
		}
		if res.Verdict != finding.Hold {
			t.Errorf("%s: the verdict is %v", c.name, res.Verdict)
		}
	}
}
