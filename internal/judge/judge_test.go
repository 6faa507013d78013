package judge

import (
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/rules"
)

// limits are what the program is held to in a sample of mistakes, a row for each
// sort of order and of mistake.
var limits = []struct {
	set  Set
	hits Hits

	least int     // mistakes in the sample, so that the row can be gone by
	found float64 // at least so many percent of those that contradict something have an error or a warning
	named float64 // at least so many have a fix offered there and nowhere else, or the right value in the first reading
	wrong float64 // of at most so many a fix is offered for a value that is right
	harm  float64 // at most so many percent of all have the certain corrections change a value that is right
}{
	{Ordinary, Outcome, 55, 98, 98, 0, 0},
	{Ordinary, Choice, 50, 97, 86, 1, 0},
	{Odd, Outcome, 50, 97, 96, 1, 0},
	{Odd, Choice, 50, 97, 80, 3, 0},
}

// alarmed is how many percent of orders without a mistake may have an error or a
// warning: none.
var alarmed = map[Set]float64{Ordinary: 0, Odd: 0, Half: 0, Hand: 0}

// sample is how many orders of each sort the sample has.
const sample = 5

func newChecker(t *testing.T) *lint.Checker {
	t.Helper()
	checker, err := lint.New(rules.All())
	if err != nil {
		t.Fatal(err)
	}
	return checker
}

// TestSample makes one mistake in a number at a time and holds what is found, and
// what the correction then writes, to the limits.
func TestSample(t *testing.T) {
	r := &Run{Checker: newChecker(t), Seed: 41, Orders: sample, Each: Each{Singles: [setEnd]int{Ordinary: 1, Odd: 1}}}
	all, err := r.Run()
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range all.Broken {
		t.Error(b)
	}
	for _, x := range limits {
		c := all.Of(x.set, x.hits)
		harm := 100 * float64(c.Harm[0]+c.Harm[1]) / float64(max(1, c.Made))
		found, named, wrong := c.Share(c.Found), c.Share(c.Field+c.Rank[0]), c.Share(c.Wrong)
		t.Logf("%s, %s: %d mistakes, %.1f %% found, %.1f %% named, %.1f %% at a right value, harm %.1f %%", x.set, x.hits, c.Made, found, named, wrong, harm)
		if c.Made-c.Quiet < x.least || found < x.found || named < x.named || wrong > x.wrong || harm > x.harm {
			t.Errorf("%s, %s: beyond the limits %+v", x.set, x.hits, x)
		}
	}
	for set, most := range alarmed {
		orders, raised := all.Alarms(set)
		if share := 100 * float64(raised) / float64(max(1, orders)); orders != sample || share > most {
			t.Errorf("%s, without a mistake: something is found in %d of %d orders", set, raised, orders)
		}
	}
}

// TestSlips writes numbers down wrong in every way that they have a place for.
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		text string
		unit length.Unit
		want map[string][]string
	}{
		{"84 1/2", length.In, map[string][]string{
			"digits swapped": {"48 1/2"}, "digit dropped": {"4 1/2", "8 1/2", "84 /2", "84 1/"}, "digit doubled": {"884 1/2", "844 1/2", "84 11/2", "84 1/22"},
			"ten times": {"845"}, "a tenth": {"8 7/16"}, "twice": {"169"}, "half": {"42 1/4"}, "in for cm, cm for in": {"214 5/8"}, "mm for in, in for mm": {"2146 5/16"},
			"a unit off": {"85 1/2", "83 1/2"}, "half a unit off": {"85", "84"}, "fraction dropped": {"84"}, "whole part dropped": {"1/2"},
			"a hem more or less": {"87 1/2", "81 1/2", "90 1/2", "78 1/2"},
		}},
		{"4.5 cm", length.MM, map[string][]string{
			"digits swapped": nil, "digit dropped": {".5 cm", "4. cm"}, "digit doubled": {"44.5 cm", "4.55 cm"}, "ten times": {"45 cm"}, "a tenth": {"0.5 cm"},
			"twice": {"9 cm"}, "half": {"2.3 cm"}, "in for cm, cm for in": {"1.8 cm"}, "mm for in, in for mm": {"0.2 cm"}, "a unit off": {"5.5 cm", "3.5 cm"},
			"half a unit off": {"5 cm", "4 cm"}, "fraction dropped": {"4 cm"}, "whole part dropped": {"0.5 cm"},
		}},
		{"3/8", length.In, map[string][]string{"a stray whole number": {"1 3/8", "2 3/8"}}},
		{"11", length.NoUnit, map[string][]string{"one more or less": {"10", "12"}, "twice": {"22"}, "half": nil, "a unit off": nil, "digit dropped": {"1", "1"}}},
		{"2.25", length.NoUnit, map[string][]string{"digits swapped": {"2.52"}, "half": {"1.13"}, "one more or less": nil}},
	} {
		l := &leaf{node: &order.Node{Form: order.Scalar, Text: c.text, Unit: c.unit}}
		ok := false
		if l.value, ok = valueOf(l.node); !ok {
			t.Fatalf("%q is no number", c.text)
		}
		own := newSlipping(rand.New(rand.NewPCG(1, 1)), l, []length.Length{3 * length.Inch})
		got := make(map[string][]string)
		for _, k := range kinds {
			if _, ok := c.want[k.name]; ok {
				got[k.name] = k.make(own)
			}
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%q (-want +got)\n%s", c.text, d)
		}
	}
}

const bath = `order: 1
client: Hall
units: in
cloths:
  duck: {name: plain duck, fiber: {cotton: 100}, width: 60, selvedge: 1/2, washed: true, sold_by: 1/4 yd, ordered: }
items:
  - item: shower curtain
    cloth: duck
    finished: {width: 50, length: 70}
    hems: {top: {turn: 2, folds: 2}, bottom: {turn: 3, folds: 2}, sides: {turn: 1/2, folds: 2}}
    widths:
    cuts:
      - {piece: piece, width: , length: , count: }
`

func newBath(t *testing.T) *Subject {
	t.Helper()
	checker := newChecker(t)
	out, err := checker.Correct(&source.File{Name: "order.yaml", Text: bath}, load.YAML, lint.Correcting{Fill: true})
	if err != nil {
		t.Fatal(err)
	}
	s, err := NewSubject(checker, out.File, load.YAML)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestSubject(t *testing.T) {
	s := newBath(t)
	var got []string
	for _, l := range s.leaves {
		if l.outcome {
			got = append(got, l.path+" "+l.node.Text)
		}
	}
	want := []string{
		"cloths.duck.ordered 2 1/4 yd", "items[0].hems.top.allowance 4", "items[0].hems.bottom.allowance 6", "items[0].hems.sides.allowance 1", "items[0].widths 1", "items[0].cuts[0].width 52", "items[0].cuts[0].length 80", "items[0].cuts[0].count 1",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("outcomes (-want +got)\n%s", d)
	}
	if s.paths["items[0].finished.width"] == nil || s.paths["order"] != nil || s.paths["cloths.duck.fiber.cotton"] != nil {
		t.Error("the choices are others than those that something rests on")
	}
}

func TestContradicted(t *testing.T) {
	s := newBath(t)
	for _, c := range []struct {
		path, text string
		want       bool
	}{
		{"items[0].cuts[0].length", "81", true},
		{"items[0].cuts[0].length", "80 1/16", false},
		{"items[0].hems.bottom.turn", "4", true},
		{"items[0].hems.bottom.folds", "1", true},
		{"items[0].hems.top.turn", "2 1/16", false},
		{"cloths.duck.width", "61", false},
		{"cloths.duck.ordered", "2 yd", true},
		{"cloths.duck.ordered", "2 1/2 yd", false},
		{"cloths.duck.ordered", "22 1/4 yd", true},
		{"cloths.duck.sold_by", "1/2 yd", false},
		{"units", "cm", true},
	} {
		got, err := s.contradicted([]write{{s.paths[c.path], c.text}})
		if err != nil || len(got) > 0 != c.want {
			t.Errorf("%s written as %q contradicts something: %v, %v", c.path, c.text, got, err)
		}
	}
}

// TestWeigh weighs findings that are made up.
func TestWeigh(t *testing.T) {
	s := newBath(t)
	const cut, turn = "items[0].cuts[0].length", "items[0].hems.bottom.turn"
	m := s.mutation("a unit off", 1, write{s.paths[cut], "81"})
	res, err := s.check(m.Text)
	if err != nil {
		t.Fatal(err)
	}
	at := func(path string) source.Range { return byPath(leaves(res.Order))[path].node.At }
	set := func(path, text string) finding.Finding {
		return finding.Finding{Rule: "length/off", Level: finding.Error, At: at(path), Path: path, Corrected: text,
			Fixes: []finding.Fix{{Sureness: finding.Likely, Edits: []finding.Edit{{Range: at(path), Text: text}}}}}
	}
	readings := func(first, text string, also ...finding.Related) finding.Finding {
		return finding.Finding{Rule: "form/values-disagree", Level: finding.Error, At: at(first), Path: first, Corrected: text, Related: also}
	}
	also := func(path, message string) finding.Related { return finding.Related{Range: at(path), Message: message} }
	for _, c := range []struct {
		name string
		list []finding.Finding
		want Verdict
	}{
		{"nothing", nil, Verdict{}},
		{"a note", []finding.Finding{{Level: finding.Note, At: at(cut)}}, Verdict{}},
		{"no fix", []finding.Finding{{Level: finding.Error, At: at(cut)}}, Verdict{Found: true, One: true}},
		{"right", []finding.Finding{set(cut, "80")}, Verdict{Found: true, One: true, Field: true, Value: true, Both: true}},
		{"another value", []finding.Finding{set(cut, "82")}, Verdict{Found: true, One: true, Field: true}},
		{"another field", []finding.Finding{set(turn, "3 1/2")}, Verdict{Found: true, One: true, Wrong: true}},
		{"both fields", []finding.Finding{set(cut, "80"), set(turn, "3 1/2")}, Verdict{Found: true, Field: true, Value: true, Wrong: true, Both: true}},
		{"first", []finding.Finding{readings(cut, "80", also(turn, "the turn is 3 1/2"))}, Verdict{Found: true, One: true, Rank: 1, Both: true}},
		{"second", []finding.Finding{readings(turn, "3 1/2", also(cut, "the cut length is 80, not 81"))}, Verdict{Found: true, One: true, Rank: 2, Both: true}},
		{"first, with another", []finding.Finding{readings(turn, "3", also(cut, "and the cut length should be 80"))}, Verdict{Found: true, One: true, Rank: 1, Both: true}},
		{"third", []finding.Finding{readings(turn, "3", also(turn, "or the turn should be 4"), also(cut, "or the cut length should be 80 in"))}, Verdict{Found: true, One: true, Rank: 3}},
		{"second with another value", []finding.Finding{readings(turn, "3 1/2", also(cut, "the cut length is 180, not 81"))}, Verdict{Found: true, One: true}},
	} {
		var got Verdict
		s.weigh(m, &lint.Result{Order: res.Order, Findings: c.list}, &got)
		got.Findings = nil
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s (-want +got)\n%s", c.name, d)
		}
	}
}

// TestHarm counts right values that corrections change, by rules that are made up.
func TestHarm(t *testing.T) {
	const cut, turn, folds = "items[0].cuts[0].length", "items[0].hems.bottom.turn", "items[0].hems.bottom.folds"
	// writes is a rule that writes a text into a field where the cut length is wrong.
	writes := func(id string, sure finding.Sureness, path, text string) *rule.Rule {
		return &rule.Rule{ID: id, Level: finding.Error, Fix: rule.Always, Run: func(p *rule.Pass) {
			all := byPath(leaves(p.Order))
			if l := all[cut]; l != nil && l.node.Text == "81" {
				n := all[path].node
				p.Report(finding.Finding{At: n.At, Message: "A word.", Corrected: text,
					Fixes: []finding.Fix{{Title: "Write it", Sureness: sure, Edits: []finding.Edit{p.Set(n, text)}}}})
			}
		}}
	}
	for _, c := range []struct {
		name         string
		rules        []*rule.Rule
		harm, likely int
	}{
		{"nothing", nil, 0, 0},
		{"the right one", []*rule.Rule{writes("made/a", finding.Certain, cut, "80")}, 0, 0},
		{"another value of it", []*rule.Rule{writes("made/a", finding.Certain, cut, "82")}, 0, 0},
		{"another field", []*rule.Rule{writes("made/a", finding.Certain, turn, "4"), writes("made/b", finding.Certain, cut, "82")}, 1, 1},
		{"two others", []*rule.Rule{writes("made/a", finding.Certain, turn, "4"), writes("made/b", finding.Certain, folds, "3"), writes("made/c", finding.Certain, cut, "82")}, 2, 2},
		{"likely", []*rule.Rule{writes("made/a", finding.Likely, turn, "4"), writes("made/b", finding.Certain, cut, "80")}, 0, 1},
		{"only shown", []*rule.Rule{writes("made/a", finding.Shown, turn, "4")}, 0, 0},
	} {
		checker, err := lint.New(c.rules)
		if err != nil {
			t.Fatal(err)
		}
		s, err := NewSubject(checker, &source.File{Name: "order.yaml", Text: newBath(t).file.Text}, load.YAML)
		if err != nil {
			t.Fatal(err)
		}
		v, err := s.Judge(s.mutation("a unit off", 1, write{s.paths[cut], "81"}))
		if err != nil || v.Harm != c.harm || v.Likely != c.likely || len(v.Contradicts) == 0 {
			t.Errorf("%s: %+v: %v", c.name, v, err)
		}
	}
}

// TestKinds makes every sort of mistake in ordinary orders.
func TestKinds(t *testing.T) {
	r := &Run{Checker: newChecker(t), Seed: 5, Orders: 4, Each: Full}
	made := make(map[Hits]int)
	swapped := make(map[string]bool)
	for n := range r.Orders {
		s, err := r.subject(Ordinary, n, rand.New(rand.NewPCG(1, uint64(n))))
		if err != nil {
			t.Fatal(err)
		}
		list, err := r.mutations(s, Ordinary, rand.New(rand.NewPCG(2, uint64(n))))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range list {
			made[m.Hits]++
			if m.Text == s.file.Text {
				t.Errorf("%s changes nothing", m.Kind)
			}
			if m.Kind == "two of a block swapped" {
				swapped[m.writes[0].leaf.name+", "+m.writes[1].leaf.name] = true
			}
		}
	}
	for h := range hitsEnd {
		if made[h] == 0 {
			t.Errorf("there is no mistake in %s", h)
		}
	}
	if len(swapped) < 10 {
		t.Errorf("only %v are swapped", swapped)
	}
}
