package house_test

import (
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/house"
	"cutgate/internal/source"
)

// curtains is an order of a pair with a lining and a napkin, in inches.
const curtains = `order: TL-9
client: Tern Lofts
units: in
use: public
cloths:
  moss: {name: moss velvet, width: 54, selvedge: 1/2, fiber: {cotton: 60, viscose: 40}, weight: 300 g/m2, washed: true, care: {iron: 2 dots, wash: 40 C}, fire: [NFPA 701]}
  calico: {width: 54, fiber: {cotton: 100}, weight: 150 g/m2, shrinks: {length: 2.5%}}
measured: {moss: {width: 53}}
items:
  - item: curtain
    id: pair
    room: study
    cloth: moss
    track: {width: 60, above_floor: 90}
    hang: {to: floor}
    heading: {style: pencil pleat, fullness: 2 1/4}
    finished: {length: 89 1/2}
    hems: {bottom: {turn: 4}}
    lining: {cloth: calico}
    widths: 3
    press: {setting: 150 C}
  - {item: napkin, id: tea, quantity: 6, cloth: calico, finished: {width: 18, length: 18}, hem: {turn: 1/4}, cuts: [{piece: piece, width: 19}]}
`

// said says the findings of a house's rules on the orders of a text.
func said(t *testing.T, rules, order string) []string {
	t.Helper()
	h := read(t, rules)
	var list []string
	for _, s := range sheets(t, h, order) {
		for _, r := range h.Rules {
			for _, f := range agreed(t, r, s) {
				at := s.Order.File.Position(f.At.Start)
				list = append(list, fmt.Sprintf("%s %s %d:%d %s", r.ID, f.Level, at.Line, at.Column, f.Message))
			}
		}
	}
	return list
}

func TestOwnRules(t *testing.T) {
	for _, c := range []struct {
		name, rule string // the rule's body
		want       []string
	}{
		{"a bound", `items: ["curtain"], check: hems: bottom: turn: >=102, at: "hems.bottom.turn", message: "{hems.bottom.turn}"`,
			[]string{"house/r warning 18:27 4 in"}},
		{"just the bound", `items: ["curtain"], check: hems: bottom: turn: >=101.6, message: "m"`, nil},
		{"another kind", `items: ["napkin"], check: hem: turn: >7, at: "hem.turn", level: "error", message: "{hem.turn}, {hem.folds}"`,
			[]string{"house/r error 22:104 1/4 in, 2"}},
		{"any kind", `check: quantity: 6, at: "quantity", level: "note", message: "{quantity}"`, []string{"house/r note 10:5 1"}},
		{"at the item where none is said", `check: room: "hall", message: "{room}"`, []string{"house/r warning 10:11 study"}},
		{"a field that must be there", `check: room!: _, message: "{item}"`, []string{"house/r warning 22:12 napkin"}},
		{"a field that need not", `check: room: =~"^s", message: "{item}"`, nil},
		{"a nested field that must be there", `check: lining: hem!: turn: >1, message: "m"`, nil},
		{"only where when is agreed with", `when: finished: length: <500, check: quantity: <6, message: "{quantity}"`, []string{"house/r warning 22:12 6"}},
		{"a field that when names must be there", `when: {room: string}, check: quantity: 5, message: "{item}"`, []string{"house/r warning 10:11 curtain"}},
		{"when with a choice", `when: {hang: to: "sill"} | {hang: to: "floor"}, check: quantity: 5, message: "{item}"`, []string{"house/r warning 10:11 curtain"}},
		{"when with a sum", `when: {finished: {length: _, width: <(length * 0.9)}}, check: quantity: 5, message: "{item}"`, []string{"house/r warning 10:11 curtain"}},
		{"every element", `check: cuts: [...{width: <500}], message: "{cuts[0].width}"`, []string{"house/r warning 10:11 53 in"}},
		{"every entry", `check: cloth: fiber: [string]: <=60, message: "{cloth}: {cloth.fiber}"`, []string{"house/r warning 22:12 calico: cotton 100%"}},
		{"a cloth, measured", `items: ["curtain"], check: cloth: width: >1350, at: "cloth.width", message: "{cloth.width}"`, []string{"house/r warning 6:36 53 in"}},
		{"a list of a cloth", `check: cloth: fire!: _, at: "cloth.fire", message: "{cloth.known_as}"`, []string{"house/r warning 7:3 calico"}},
		{"another cloth", `check: lining: cloth: shrinks: length: <2, at: "lining.cloth.shrinks.length", message: "{lining.cloth.shrinks.length}"`, []string{"house/r warning 7:81 2.5%"}},
		{"a fiber", `check: cloth: fiber: viscose: <40, at: "cloth.fiber.viscose", message: "{cloth.fiber.viscose}"`, []string{"house/r warning 6:84 40%"}},
		{"the docket", `check: docket: use: "home", at: "docket.use", message: "{docket.client} {docket.use}"`, []string{"house/r warning 4:6 Tern Lofts public", "house/r warning 4:6 Tern Lofts public"}},
		{"a quantity", `check: worked: cut_length: <2500, message: "{worked.cut_length}"`, []string{"house/r warning 10:11 101 1/2 in"}},
		{"a setting by its heat", `check: press: setting: 1, at: "press.setting", message: "{press.setting} {cloth.care.wash}"`, []string{"house/r warning 21:22 2 dots 40 C", "house/r warning 22:5 3 dots none"}},
		{"a sum", `check: {finished: length: _, hems: bottom: turn: >=(finished.length / 20)}, message: "m"`, []string{"house/r warning 10:11 m"}},
		{"a condition", `check: {room: _, if room == "study" {quantity: >1}}, message: "m"`, []string{"house/r warning 10:11 m"}},
		{"a choice", `check: heading: style: "wave" | "goblet", message: "{heading.style}"`, []string{"house/r warning 10:11 pencil pleat"}},
		{"a refusal", `check: heading: style: !="pencil pleat", message: "{heading.fullness}"`, []string{"house/r warning 10:11 2.25"}},
	} {
		if d := cmp.Diff(c.want, said(t, "rules: r: {"+c.rule+"}", curtains)); d != "" {
			t.Errorf("%s: (-want +got)\n%s", c.name, d)
		}
	}
}

func TestRulesUseTheLibrary(t *testing.T) {
	got := said(t, `import (
	"list"
	"math"
	"strings"
)
units: "in"
rules: {
	whole: {check: cuts: [...{width: math.MultipleOf(0.5)}], message: "{cuts[0].width}"}
	quarter: {check: cuts: [...{length: math.MultipleOf(1/4)}], message: "{cuts[0].length}"}
	few: {check: cuts: list.MaxItems(1), message: "many"}
	named: {check: room: strings.MinRunes(6), message: "short"}
}`, curtains)
	want := []string{
		"house/quarter warning 10:11 101 1/2 in",
		"house/few warning 10:11 many",
		"house/named warning 10:11 short",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestFindingOfAnOwnRule(t *testing.T) {
	h := read(t, `units: "in"
rules: {
	"deep-hems": {
		items: ["curtain"]
		check: hems: bottom: turn: >=5
		at:      "hems.bottom.turn"
		message: "Hems are deep here; this has {hems.bottom.turn}."
		because: "velvet drops"
		source:  "the fitter's own book"
	}
	choice: {check: {hems: bottom: turn: 3} | {room: "hall"}, message: "m", items: ["curtain"]}
	lacks: {check: {track: holds!: >5, weights!: _}, message: "m", items: ["curtain"]}
}
`)
	s := sheets(t, h, curtains)[0]
	var got []finding.Finding
	for _, r := range h.Rules {
		got = append(got, agreed(t, r, s)...)
	}
	at := func(text string) source.Range {
		i := strings.Index(curtains, text)
		return source.Range{Start: i, End: i + len(text)}
	}
	turn := at("turn: 4")
	turn.Start = turn.End - 1
	want := []finding.Finding{
		{
			Level: finding.Warning, At: turn, Message: "Hems are deep here; this has 4 in.", Stated: "4",
			Working: []string{"hems.bottom.turn: 4, wanted >=5"},
			Source:  "house rules, house.cue:3: velvet drops; the fitter's own book",
		},
		{
			Level: finding.Warning, At: at("curtain"), Message: "m",
			Working: []string{"hems.bottom.turn: 4, wanted 3", `room: study, wanted "hall"`},
			Source:  "house rules, house.cue:11",
		},
		{
			Level: finding.Warning, At: at("curtain"), Message: "m",
			Working: []string{"track.holds is not stated", "weights is not stated"},
			Source:  "house rules, house.cue:12",
		},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
	if r := h.Rules[0]; r.ID != "house/deep-hems" || r.Title() != "deep hems" || r.Line != 3 {
		t.Errorf("the rule is %s, %s, of line %d", r.ID, r.Title(), r.Line)
	}
}

// TestUnreadIsLeftAlone: what can't be read of an item leaves the rules without
// a ground.
func TestUnreadIsLeftAlone(t *testing.T) {
	order := strings.Replace(curtains, "bottom: {turn: 4}", "bottom: {turn: four}", 1)
	if got := said(t, `rules: r: {check: hems: bottom: turn: >5000, message: "m"}`, order); got != nil {
		t.Errorf("%q", got)
	}
}

// TestWrongOutcomeIsRight: rules see what an outcome should be.
func TestWrongOutcomeIsRight(t *testing.T) {
	order := strings.Replace(curtains, "widths: 3", "widths: 9", 1)
	order = strings.Replace(order, "widths: 9", "widths: 9\n    cuts: [{piece: width, count: 3}]", 1)
	if got := said(t, `rules: r: {check: widths: <5, message: "m"}`, order); got != nil {
		t.Errorf("%q", got)
	}
	if got := said(t, `rules: r: {check: widths: <2, message: "{widths}"}`, order); len(got) != 1 || !strings.HasSuffix(got[0], " 3") {
		t.Errorf("%q", got)
	}
}

// TestRulesInParallel has many goroutines at one house.
func TestRulesInParallel(t *testing.T) {
	h := read(t, `units: "mm"
rules: {
	a: {check: {finished: length: _, hems: bottom: turn: >=(finished.length / 20)}, message: "{hems.bottom.turn}"}
	b: {when: hang: to: "floor", check: cuts: [...{length: <100}], message: "{cuts[0].length}"}
}`)
	s := sheets(t, h, curtains)[0]
	other := sheets(t, h, strings.ReplaceAll(curtains, "turn: 4", "turn: 3"))[0]
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for i := range 30 {
				at, want := s, "4 in"
				if i%3 == 0 {
					at, want = other, "3 in"
				}
				a, b := agreed(t, h.Rules[0], at), agreed(t, h.Rules[1], at)
				if len(a) != 1 || a[0].Message != want || len(b) != 1 {
					t.Errorf("%d and %d findings, want %s", len(a), len(b), want)
				}
			}
		})
	}
	wait.Wait()
}

// TestRulesThatSpeakOfAll hang on fields that they don't name.
func TestRulesThatSpeakOfAll(t *testing.T) {
	for rule, want := range map[string]int{
		`check: lining: close({cloth: _})`:                                                           1, // it has a hem too
		`check: lining: close({cloth: _, hem: _, widths: _})`:                                        0,
		`check: {hems: _, if len(hems) > 1 {room: "x"}}`:                                             1,
		`check: hems: [string]: turn: <100`:                                                          1,
		`check: {hems: {bottom: turn: _, sides: turn: _}, if hems.bottom != hems.sides {room: "x"}}`: 1,
		`check: _deep`: 1,
		`check: {#least: 500, hems: bottom: turn: >#least}`:    1,
		`check: {let least = 500, hems: bottom: turn: >least}`: 1,
		`check: "hems": "bottom": "turn": >500`:                1,
	} {
		got := said(t, "units: \"mm\"\n_deep: hems: bottom: turn: >500\nrules: r: {items: [\"curtain\"], message: \"m\", "+rule+"}", curtains)
		if len(got) != want {
			t.Errorf("%s: %q, want %d", rule, got, want)
		}
	}
}

func BenchmarkOwnRule(b *testing.B) {
	h := read(b, `rules: a: {when: hang: to: "floor", check: hems: bottom: turn: >=200, at: "hems.bottom.turn", message: "{hems.bottom.turn}"}`)
	s := sheets(b, h, curtains+strings.Repeat("---\n"+curtains, 1))
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		agreed(b, h.Rules[0], s[i%2])
	}
}

// TestBareLengths refuses numbers that lengths are compared with, where nothing says
// what they are in, and takes those that need no unit.
func TestBareLengths(t *testing.T) {
	for rule, wrong := range map[string]bool{
		`check: hems: bottom: turn: >=4`:                                             true,
		`check: hems: bottom: turn: >=4 & <=10`:                                      true,
		`check: cuts: [...{length: <=144}]`:                                          true,
		`when: {finished: length: >1000}, check: id: "x"`:                            true,
		`check: {finished: length: _, hems: bottom: turn: >=(finished.length - 2)}`:  true,
		`check: {finished: length: _, hems: bottom: turn: >=(finished.length / 20)}`: false,
		`check: hems: bottom: turn: >0`:                                              false,
		`check: hems: bottom: folds: 2`:                                              false,
		`check: widths: <5`:                                                          false,
	} {
		text := `rules: r: {items: ["curtain"], message: "m", ` + rule + `}`
		_, err := house.Read("house.cue", text, usual(), known)
		if got := err != nil && strings.Contains(err.Error(), "add units: "); got != wrong {
			t.Errorf("%s: %v", rule, err)
		}
		if _, err := house.Read("house.cue", "units: \"in\"\n"+text, usual(), known); err != nil {
			t.Errorf("%s, with units: %v", rule, err)
		}
	}
}
