package house_test

import (
	"cutgate/internal/diagnose"
	"cutgate/internal/form"
	"cutgate/internal/goods"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"cuelang.org/go/cue/format"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"cutgate/internal/finding"
	"cutgate/internal/house"
	"cutgate/internal/length"
	"cutgate/internal/load"
	"cutgate/internal/mass"
	"cutgate/internal/source"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// known are a few rules that a house can set levels for.
var known = []house.Known{
	{ID: "hole/odd-count", Level: finding.Warning},
	{ID: "hem/shallow", Level: finding.Note},
	{ID: "safety/near-heat", Level: finding.Warning},
	{ID: "safety/cord-too-long", Level: finding.Error, Least: finding.Warning, Why: "someone could be hurt"},
	{ID: "safety/hold-low", Level: finding.Error, Least: finding.Warning, Why: "someone could be hurt"},
	{ID: "form/unreadable", Level: finding.Error, Least: finding.Error, Why: "nothing else is checked there"},
}

var usual = sync.OnceValue(func() *trade.Tables {
	t, err := form.Tables()
	if err != nil {
		panic(err)
	}
	return t
})

// read reads house rules that must be right.
func read(t testing.TB, text string) *house.House {
	t.Helper()
	if strings.Contains(text, "rules:") && !strings.Contains(text, "units:") {
		text += "\nunits: \"mm\"\n"
	}
	h, err := house.Read("house.cue", text, usual(), known)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// sheets works out the orders of a text in YAML, by the tables of h.
func sheets(t testing.TB, h *house.House, text string) []*worksheet.Sheet {
	t.Helper()
	l, err := load.New()
	if err != nil {
		t.Fatal(err)
	}
	var list []*worksheet.Sheet
	for _, o := range l.Orders(&source.File{Name: "order.yaml", Text: text}, load.YAML, load.Options{}) {
		s := worksheet.Work(o, h.Tables, goods.All())
		diagnose.Order(s)
		list = append(list, s)
	}
	return list
}

func TestAllowancesTakeThePlaceOfTheTables(t *testing.T) {
	before, err := json.Marshal(usual())
	if err != nil {
		t.Fatal(err)
	}
	h := read(t, `
name: "Tern Lofts"
_t: "6 in"
clearance: "3/8 in"
start_repeat: false
shrink_ask: "0.05"
fusing_dots: 3
holds_ask: "7 kg"
half_drop: "half at joins"
tab_gap: {least: "5 cm", most: "9 cm"}
hook_drop: _t
sources: hook_drop: "our own hooks"
headings: {
	goblet: {usual: "2.75", most: "3"}
	"pencil pleat": allowance: "12 cm"
	wave: sheer_most: "3.5"
}
seams: French: {least: "1/2 in", usual: "1/2 in", most: "3/4 in", trim: "4 mm"}
classes: {
	light: {hem_least: "20 g/m", needle: least: 70}
	sheer: below: "100 g/m2"
}
`)
	tab, house := h.Tables, &h.Tables.House
	if h.Name != "Tern Lofts" {
		t.Errorf("the shop is %q", h.Name)
	}
	for _, c := range []struct {
		what      string
		got, want any
	}{
		{"clearance", house.Clearance, length.Inch * 3 / 8},
		{"start_repeat", house.StartRepeat, false},
		{"shrink_ask", house.ShrinkAsk, length.NewRatio(1, 20)},
		{"fusing_dots", house.FusingDots, 3},
		{"holds_ask", house.HoldsAsk, 7 * mass.Kilogram},
		{"half_drop", house.HalfDrop, "half at joins"},
		{"tab_gap", house.TabGap, trade.Gap{Least: 5 * length.Centimetre, Most: 9 * length.Centimetre}},
		{"hook_drop", house.HookDrop, 6 * length.Inch},
		{"goblet usual", tab.Heading("goblet").Usual, length.NewRatio(11, 4)},
		{"goblet most", tab.Heading("goblet").Most, length.NewRatio(3, 1)},
		{"pencil pleat allowance", tab.Heading("pencil pleat").Allowance, 12 * length.Centimetre},
		{"wave sheer", tab.Heading("wave").SheerMost, length.NewRatio(7, 2)},
		{"French usual", tab.Seam("French").Usual, length.Inch / 2},
		{"French trim", tab.Seam("French").Trim, 4 * length.Millimetre},
		{"light hem", tab.ClassByName("light").HemLeast, mass.Linear(20 * mass.Gram)},
		{"light needle", tab.ClassByName("light").Needle, trade.Sizes{Least: 70, Most: usual().ClassByName("light").Needle.Most}},
		{"sheer below", tab.ClassByName("sheer").Below, mass.Areal(100 * mass.Gram)},
		// What the shop leaves out stays.
		{"puddle", house.Puddle, usual().House.Puddle},
		{"goblet least", tab.Heading("goblet").Least, usual().Heading("goblet").Least},
		{"French layers", tab.Seam("French").Layers, usual().Seam("French").Layers},
		{"plain", *tab.Seam("plain"), *usual().Seam("plain")},
		{"light below", tab.ClassByName("light").Below, usual().ClassByName("light").Below},
		// Where each comes from.
		{"clearance source", tab.SelfSource("clearance"), "house rules, house.cue:4"},
		{"hook drop source", tab.SelfSource("hook_drop"), "house rules, house.cue:11: our own hooks"},
		{"puddle source", tab.SelfSource("puddle"), usual().SelfSource("puddle")},
		{"goblet source", tab.Heading("goblet").Source, "house rules, house.cue:14 (usual and most); " + usual().Heading("goblet").Source},
		{"goblet allowance source", tab.Heading("goblet").AllowanceSource, usual().Heading("goblet").AllowanceSource},
		{"pencil pleat allowance source", tab.Heading("pencil pleat").AllowanceSource, "house rules, house.cue:15"},
		{"wave sheer source", tab.Heading("wave").SheerSource, "house rules, house.cue:16"},
		{"French source", tab.Seam("French").Source, "house rules, house.cue:18"},
		{"light hem source", tab.ClassByName("light").HemSource, "house rules, house.cue:20"},
		{"light sewing source", tab.ClassByName("light").SewSource, "house rules, house.cue:20 (needle); " + usual().ClassByName("light").SewSource},
	} {
		if d := cmp.Diff(c.want, c.got); d != "" {
			t.Errorf("%s: (-want +got)\n%s", c.what, d)
		}
	}
	after, err := json.Marshal(usual())
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(before), string(after)); d != "" {
		t.Errorf("the trade's own tables changed: (-want +got)\n%s", d)
	}
}

func TestAnEmptyHouseIsTheTables(t *testing.T) {
	for _, text := range []string{"", "// nothing yet\n", "\ufeffname: \"x\"\r\n", "package shop\n"} {
		h := read(t, text)
		for _, u := range []length.Unit{length.In, length.CM} {
			if d := cmp.Diff(usual().For(u), h.Tables.For(u), cmpopts.IgnoreUnexported(trade.Tables{})); d != "" {
				t.Errorf("%q, orders in %s: (-want +got)\n%s", text, u, d)
			}
		}
		if len(h.Levels)+len(h.Rules) > 0 {
			t.Errorf("%q has levels or rules", text)
		}
	}
}

// TestBothEditions holds that what a shop gives counts in inch and in metric orders, and
// that it may give one length for each.
func TestBothEditions(t *testing.T) {
	h := read(t, `clearance: "1 in"
pitch: "5 1/2 in / 14 cm"
pleat_gap: {least: "2 in / 5 cm", most: "8 in / 20 cm"}
hems: [{item: "curtain", edge: "sides", turn: "1 in / 25 mm", folds: 2}]
seams: plain: usual: "3/8 in / 1 cm"
`)
	for _, c := range []struct {
		unit                                      length.Unit
		clearance, pitch, least, most, side, seam string
	}{
		{length.In, "1 in", "5 1/2 in", "2 in", "8 in", "1 in", "3/8 in"},
		{length.CM, "1 in", "14 cm", "5 cm", "20 cm", "25 mm", "1 cm"},
	} {
		tab := h.Tables.For(c.unit)
		house := &tab.House
		for name, got := range map[string][2]any{
			"clearance": {house.Clearance, c.clearance}, "pitch": {house.Pitch, c.pitch}, "least gap": {house.PleatGap.Least, c.least},
			"most gap": {house.PleatGap.Most, c.most}, "side hem": {tab.HemFor("curtain", "sides", "").Turn, c.side}, "seam": {tab.Seam("plain").Usual, c.seam},
		} {
			want, _, err := length.Parse(got[1].(string), length.NoUnit)
			if err != nil || got[0] != want {
				t.Errorf("%s of %s orders is %v, want %v", name, c.unit, got[0], got[1])
			}
		}
	}
}

func TestHems(t *testing.T) {
	h := read(t, `hems: [
	{item: "curtain", edge: "bottom", where: "sheer", turn: "8 cm", folds: 2},
	{item: "curtain", edge: "bottom", turn: "10 cm", folds: 3, source: "the fitter's book"},
	{item: "valance", edge: "top", turn: "3 cm", folds: 1},
	{item: "shower curtain", edge: "sides", where: "sheer", turn: "2 cm", folds: 1},
]
`)
	for _, c := range []struct {
		item, edge, where string
		turn              length.Length
		folds             int64
		source            string
	}{
		{"curtain", "bottom", "sheer", 8 * length.Centimetre, 2, "house rules, house.cue:2"},
		{"curtain", "bottom", "floor", 10 * length.Centimetre, 3, "house rules, house.cue:3: the fitter's book"},
		{"curtain", "bottom", "sill", 10 * length.Centimetre, 3, "house rules, house.cue:3: the fitter's book"},
		{"valance", "top", "", 3 * length.Centimetre, 1, "house rules, house.cue:4"},
		{"shower curtain", "sides", "sheer", 2 * length.Centimetre, 1, "house rules, house.cue:5"},
		{"shower curtain", "sides", "", length.Inch / 2, 2, trade.Unsourced},
		{"curtain", "sides", "", length.Inch * 3 / 2, 2, usual().HemFor("curtain", "sides", "").Source},
	} {
		got := h.Tables.HemFor(c.item, c.edge, c.where)
		if got == nil || got.Turn != c.turn || got.Folds != c.folds || got.Source != c.source {
			t.Errorf("%s %s %s: %+v", c.item, c.edge, c.where, got)
		}
	}
}

// TestSheetFollowsTheHouse looks at the numbers that come of it.
func TestSheetFollowsTheHouse(t *testing.T) {
	const order = `
order: TL-1
units: in
cloths: {moss: {width: 54, selvedge: 1/2, fiber: {cotton: 100}}}
items:
  - item: curtain
    cloth: moss
    track: {width: 60, above_floor: 90}
    hang: {to: floor}
    heading: {style: pencil pleat}
    hems: {}
`
	of := func(text string) *worksheet.Item { return &sheets(t, read(t, text), order)[0].Items[0] }
	plain := of("")
	for _, c := range []struct {
		text string
		got  func(*worksheet.Item) length.Length
		more length.Length // than without a house
	}{
		{`hems: [{item: "curtain", edge: "bottom", turn: "6 in", folds: 2}]`, func(it *worksheet.Item) length.Length { return it.Get(worksheet.CutLength).Value.Length() }, 4 * length.Inch},
		{`headings: "pencil pleat": allowance: "6 in"`, func(it *worksheet.Item) length.Length { return it.Get(worksheet.CutLength).Value.Length() }, 2 * length.Inch},
		{`clearance: "1 in"`, func(it *worksheet.Item) length.Length { return it.Get(worksheet.FinishedLength).Value.Length() }, -length.Inch / 2},
		{`headings: "pencil pleat": usual: "2.5"`, func(it *worksheet.Item) length.Length { return it.Get(worksheet.FlatWidth).Value.Length() }, 15 * length.Inch},
		{`hems: [{item: "curtain", edge: "sides", turn: "2 in", folds: 2}]`, func(it *worksheet.Item) length.Length { return it.Get(worksheet.FlatWidth).Value.Length() }, 4 * length.Inch},
		{`seams: plain: usual: "3/4 in"`, func(it *worksheet.Item) length.Length { return it.Allowance }, length.Inch / 4},
	} {
		if got := c.got(of(c.text)) - c.got(plain); got != c.more {
			t.Errorf("%s: %v more, want %v", c.text, got, c.more)
		}
	}
}

func TestLevels(t *testing.T) {
	h := read(t, `levels: {
	hole: "note"
	"hole/odd-count": "off"
	safety: "warning"
	"safety/near-heat": "off"
	"hem/shallow": _ask
}
_ask: "error"
`)
	want := []house.Level{
		{Of: "hole", Level: finding.Note, Line: 2}, {Of: "hole/odd-count", Level: finding.Off, Line: 3},
		{Of: "safety", Level: finding.Warning, Line: 4}, {Of: "safety/near-heat", Level: finding.Off, Line: 5}, {Of: "hem/shallow", Level: finding.Error, Line: 6},
	}
	if d := cmp.Diff(want, h.Levels); d != "" {
		t.Error(d)
	}
}

// TestFaults holds what is said of a wrong file, with its place.
func TestFaults(t *testing.T) {
	const inches = `a length with its unit, such as "5/8 in" or "12 mm"`
	for _, c := range []struct {
		text string
		want []string
	}{
		// Names and values.
		{`clearence: "1/2 in"`, []string{"1:1: there is no clearence in house rules: did you mean clearance?"}},
		{"name: \"x\"\nzzzzzz: 1", []string{"2:1: there is no zzzzzz in house rules"}},
		{`clearance: "1/2"`, []string{`1:12: clearance is "1/2": it takes ` + inches}},
		{`pitch: 6`, []string{"1:8: pitch takes " + inches}},
		{`pitch: "0 in"`, []string{"1:8: pitch must be more than zero"}},
		{`half_drop: "half on order"`, []string{`1:12: half_drop is "half on order": did you mean "half on the order"?`}},
		{`start_repeat: "yes"`, []string{`1:15: start_repeat is "yes": it takes true or false`}},
		{`fusing_dots: 4`, []string{"1:14: fusing_dots takes a whole number from 1 to 3"}},
		{`shrink_ask: "4 %"`, []string{`1:13: shrink_ask is "4 %": it takes a part of one in quotes, such as "0.05" for 5 percent`}},
		{`tab_gap: least: "2 in"`, []string{"1:1: tab_gap needs most: " + inches}},
		{`tab_gap: {least: "9 in", most: "8 in"}`, []string{"1:18: tab_gap.least is more than tab_gap.most: give both, so that they agree"}},
		{`bore_least: "1.5"`, []string{"1:13: bore_least is more than bore_most: give both, so that they agree"}},
		{`headings: gobblet: most: "3"`, []string{"1:11: there is no gobblet in headings: did you mean goblet?"}},
		{`headings: "goblet": usual: "3.5"`, []string{"1:28: headings.goblet.usual is more than headings.goblet.most: give both, so that they agree"}},
		{`headings: goblet: least: "0"`, []string{"1:26: headings.goblet.least must be more than zero"}},
		{`seams: "flat felled": trim: "1 in"`, []string{`1:29: seams."flat felled".trim is more than seams."flat felled".usual: give both, so that they agree`}},
		{`seams: plain: [1]`, []string{"1:15: seams.plain takes fields in braces"}},
		{`classes: light: below: "90 g/m2"`, []string{"1:24: classes.light.below must be more than that of sheer, the class under it"}},
		{`classes: "very heavy": below: "900 g/m2"`, []string{`1:24: classes."very heavy".below: the heaviest class has no cloth above it`}},
		{`classes: light: needle: least: 110`, []string{"1:32: classes.light.needle.least is more than classes.light.needle.most: give both, so that they agree"}},
		{`hems: [{item: "curtan", edge: "bottom", turn: "3 in", folds: 2}]`, []string{`1:15: hems[0].item is "curtan": did you mean "curtain"?`}},
		{`hems: [{item: "curtain", edge: "bottom", turn: "3 in"}]`, []string{"1:8: hems[0] needs folds: a whole number from 1 to 3"}},
		{`hems: {}`, []string{"1:7: hems takes a list in square brackets"}},
		{
			"_h: {item: \"curtain\", edge: \"top\", turn: \"1 in\", folds: 2}\nhems: [_h, _h]",
			[]string{"2:12: hems[1] is for the same edge as hems[0]: keep one"},
		},
		{`sources: pitch: "the old foreman"`, []string{"1:10: sources.pitch: the shop gives no pitch of its own"}},
		{`clearance: _c, _c: >5`, []string{"1:12: clearance is not a plain value: write " + inches}},
		{`units: "ft"`, []string{`1:8: units is "ft": it takes one of mm, cm or in`}},

		// Levels.
		{`levels: "hole/odd-count": "fatal"`, []string{`1:27: levels."hole/odd-count" is "fatal": it takes one of error, warning, note, skip or off`}},
		{`levels: "hole/odd-count": "warnig"`, []string{`1:27: levels."hole/odd-count" is "warnig": did you mean "warning"?`}},
		{`levels: "hole/odd-cuont": "off"`, []string{"1:9: there is no rule hole/odd-cuont: did you mean hole/odd-count?"}},
		{`levels: "odd-count": "off"`, []string{"1:9: there is no rule or topic odd-count: did you mean hole/odd-count?"}},
		{`levels: holes: "off"`, []string{"1:9: there is no rule or topic holes: did you mean hole?"}},
		{`levels: Hole: "off"`, []string{"1:9: levels can't have Hole: a name is small letters and digits, with hyphens between words"}},
		{`levels: "quilt/lumpy": "off"`, []string{"1:9: there is no rule quilt/lumpy: cutgate rules lists them"}},
		{`levels: "safety/hold-low": "off"`, []string{"1:28: safety/hold-low can be lowered to warning, and no further: someone could be hurt"}},
		{`levels: safety: "note"`, []string{"1:17: safety/cord-too-long and 1 more can be lowered to warning, and no further: someone could be hurt"}},
		{`levels: form: "off"`, []string{"1:15: form/unreadable can't be lowered: nothing else is checked there"}},
		{`levels: "house/deep-hems": "off"`, []string{"1:9: house/deep-hems is the shop's own: set its level where the rule is written"}},

		// The file itself.
		{`clearance: "1/2 in", clearance: "1/4 in"`, []string{`1:12: two values that don't agree, "1/4 in" and "1/2 in": keep one`}},
		{"clearance: missing", []string{"1:12: nothing in this file is called missing: give it a value, or put the words in quotes"}},
		{"name: \"x\"\nclearance: {", []string{"2:13: this can't be read as CUE: expected '}', found the end of the file"}},
		{"import \"encoding/json\"\nname: json.Marshal(1)", []string{`1:8: house rules can't import "encoding/json": rules may use list, math and strings`}},
		{"{for x in [1, 2] {name: \"x\"}}", []string{"1:2: house rules have no loops: write [...{}] for what every element of a list must agree with"}},
		{"a: " + strings.Repeat("[", 1500) + strings.Repeat("]", 1500), []string{"1:1003: brackets or names are nested too deeply"}},
		{bomb(), []string{"1:1: the references in this file expand to too much: write out what a rule needs"}},
		{"// " + strings.Repeat("x", 256<<10), []string{"1:1: house rules can be at most 256 KiB"}},

		// The shop's own rules.
		{`rules: "Deep": {check: {}, message: "m"}`, []string{"1:8: rules can't have Deep: a name is small letters and digits, with hyphens between words"}},
		{`rules: a: {check: {}}`, []string{"1:8: rules.a needs message: words in quotes"}},
		{`rules: a: {message: "m"}`, []string{"1:8: rules.a needs check: fields in braces"}},
		{`rules: a: {check: 5, message: "m"}`, []string{"1:19: rules.a.check takes fields in braces"}},
		{`rules: a: {check: {}, message: ""}`, []string{`1:32: rules.a.message is "": it takes words in quotes`}},
		{`rules: a: {check: {}, message: "m", items: []}`, []string{"1:44: rules.a.items is empty: leave it out, or name one"}},
		{`rules: a: {check: {}, message: "m", items: ["curtains"]}`, []string{`1:45: there is no kind of goods "curtains": did you mean curtain?`}},
		{`rules: a: {check: {}, message: "m", level: "off"}`, []string{`1:44: rules.a.level is "off": it takes one of warning, error or note`}},
		{`rules: a: {check: hems: botom: turn: >=5, message: "m"}`, []string{"1:25: no item has hems.botom: did you mean bottom?"}},
		{`rules: a: {items: ["napkin"], check: hems: bottom: turn: >=5, message: "m"}`, []string{"1:38: no item has hems: did you mean hem?"}},
		{`rules: a: {check: hems: bottom: turn: "75", message: "m"}`, []string{"1:39: hems.bottom.turn is a plain number: it can't be words in quotes"}},
		{`rules: a: {check: hems: 5, message: "m"}`, []string{"1:25: hems is a group of fields in braces: it can't be a plain number"}},
		{`rules: a: {check: {}, when: hang: to: "flor", message: "m"}`, []string{`1:39: hang.to is never "flor": did you mean floor?`}},
		{`rules: a: {check: join: seam: "plain" | "french", message: "m"}`, []string{`1:41: join.seam is never "french": did you mean French?`}},
		{`rules: a: {check: cuts: [...{lenght: <5}], message: "m"}`, []string{"1:30: no item has cuts[0].lenght: did you mean length?"}},
		{`rules: a: {check: worked: cut_lenght: <5, message: "m"}`, []string{"1:27: no item has worked.cut_lenght: did you mean cut_length?"}},
		{`rules: a: {check: cloth: fiber: [string]: "x", message: "m"}`, []string{"1:33: cloth.fiber[string] is a plain number: it can't be words in quotes"}},
		{`rules: a: {check: {room: _, if room == "hall" {qantity: 5}}, message: "m"}`, []string{"1:48: no item has qantity: did you mean quantity?"}},
		{`_h: botom: turn: >5, rules: a: {check: hems: _h, message: "m"}`, []string{"1:5: no item has hems.botom: did you mean bottom?"}},
		{"let least = 5\nrules: a: {check: hems: top: turn: >=least, message: \"m\"}", []string{"1:13: hems.top.turn is a length, and nothing says what 5 is in: add units: \"in\", \"cm\" or \"mm\" to this file"}},
		{"_own: top: turn: >=5\nrules: a: {check: hems: _own, message: \"m\"}", []string{"1:20: hems.top.turn is a length, and nothing says what 5 is in: add units: \"in\", \"cm\" or \"mm\" to this file"}},
		{`rules: a: {check: {hems: botom: turn: 5} | {romo: "x"}, message: "m"}`, []string{"1:26: no item has hems.botom: did you mean bottom?", "1:45: no item has romo: did you mean room?"}},
		{`rules: a: {check: {}, message: "m", at: "hems.bottom.trun"}`, []string{"1:41: hems.bottom.trun leads nowhere: there is no trun: did you mean turn?"}},
		{`rules: a: {check: {}, message: "{cuts[0].widht}, {}"}`, []string{
			`1:32: "" is not the path of a field: write one such as hems.bottom.turn`, "1:32: cuts[0].widht leads nowhere: there is no widht: did you mean width?",
		}},
		{`rules: a: {check: {finished: length: _, hems: bottom: turn: >=finished.length/20}, message: "m"}`,
			[]string{"1:61: put what comes after >= in parentheses: >=(a + b), not >=a + b"}},
		{"let p = \"[z-a]\"\nrules: a: {when: item: =~p, check: room: =~\"(\" & !~\"^.*$\", message: \"m\"}",
			[]string{"1:9: this pattern can't be used: invalid character class range: `z-a`", "2:44: this pattern can't be used: missing closing ): `(`"}},
		{`rules: a: {check: {finished: length: _, hems: bottom: turn: >=(finished.lenght/20)}, message: "m"}`,
			[]string{"1:73: there is no lenght to refer to: name the field in the rule too, as in finished: length: _"}},
		{`rules: a: {check: finished: {length: _, width: <rules.a.check.finished.length}, message: "m"}`,
			[]string{"1:49: rules.a.check.finished.length is what the rule says, and never what an item has: write finished.length"}},
		{`rules: a: {check: finished: {length: _, width: <rules["a"].check.finished.length}, message: "m"}`,
			[]string{"1:49: rules.a.check.finished.length is what the rule says, and never what an item has: write finished.length"}},
		{`rules: a: {check: hems: bottom: turn: >5 & <3, message: "m"}`, []string{"1:44: incompatible number bounds <3 and >5"}},
		{"import \"math\"\nrules: a: {check: hems: bottom: turn: math.MultipelOf(5), message: \"m\"}", []string{"2:39: cannot call non-function math.MultipelOf (type _|_)"}},
		// Everything is told at once, by place.
		{"pitch: 6\nclearance: 5\nlevels: hole: 5\nlevels: hol: \"skip\"\nrules: a: {check: {romo: 5}, message: \"{rom}\"}\nrules: b: 5", []string{
			"1:8: pitch takes " + inches, "2:12: clearance takes " + inches, "3:15: levels.hole takes one of error, warning, note, skip or off",
			"4:9: there is no rule or topic hol: did you mean hole?",
			"5:20: no item has romo: did you mean room?", "5:39: rom leads nowhere: there is no rom: did you mean room?", "6:11: rules.b takes fields in braces",
		}},
	} {
		_, err := house.Read("house.cue", c.text, usual(), known)
		var wrong *house.Error
		if !errors.As(err, &wrong) {
			t.Errorf("%s: %v, want faults", shortened(c.text), err)
			continue
		}
		var got []string
		for line := range strings.SplitSeq(err.Error(), "\n") {
			got = append(got, strings.TrimPrefix(line, "house.cue:"))
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: (-want +got)\n%s", shortened(c.text), d)
		}
	}
}

// bomb is a short file whose references stand for millions of values.
func bomb() string {
	text := "_a0: [1, 2, 3, 4]\n"
	for i := 1; i < 12; i++ {
		text += fmt.Sprintf("_a%d: [_a%[2]d, _a%[2]d, _a%[2]d, _a%[2]d]\n", i, i-1)
	}
	return text + "rules: a: {check: {}, message: \"m\", because: _a11}\n"
}

func shortened(s string) string {
	if len(s) > 80 {
		s = s[:80] + "…"
	}
	return s
}

func TestErrorTellsSoMany(t *testing.T) {
	text := ""
	for i := range 25 {
		text += fmt.Sprintf("wrong%d: 1\n", i)
	}
	_, err := house.Read("house.cue", text, usual(), nil)
	lines := strings.Split(err.Error(), "\n")
	if len(lines) != 21 || lines[20] != "house.cue: and 5 more" {
		t.Errorf("%d lines, the last %q", len(lines), lines[len(lines)-1])
	}
}

// examples are the houses of testdata.
func examples(t *testing.T) []string {
	t.Helper()
	list, err := filepath.Glob("../../testdata/houses/*/house.cue")
	if err != nil || len(list) < 2 {
		t.Fatalf("example houses: %q, %v", list, err)
	}
	return list
}

func TestExamples(t *testing.T) {
	for _, name := range examples(t) {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		levels := []house.Known{{ID: "hem/shallow"}, {ID: "hem/hangs-light"}, {ID: "length/repeat-nearly-saved"}, {ID: "fabric/cloth-unused"}, {ID: "seam/wrong-side-shows"}, {ID: "hole/odd-count"}}
		h, err := house.Read(name, string(text), usual(), levels)
		if err != nil {
			t.Error(err)
			continue
		}
		if h.Name == "" || h.Kinds == nil && (len(h.Levels) == 0 || len(h.Rules) < 3) {
			t.Errorf("%s shows too little", name)
		}
		neat, err := format.Source(text)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(string(neat), string(text)); d != "" {
			t.Errorf("%s is not set out as CUE usually is: (-want +got)\n%s", name, d)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, text := range []string{
		"", `clearance: "1/2 in"`, `levels: hole: "off"`, "import \"math\"\nrules: a: {check: cuts: [...{width: math.MultipleOf(5)}], message: \"{cuts}\", at: \"cuts[0].width\"}",
		`hems: [_h, {item: "curtain"}], _h: {item: "curtain", edge: "top", turn: "1 in", folds: 2}`, `rules: a: {when: hang: to: "floor", check: {finished: length: _, room!: _}, message: "m"}`,
		`headings: goblet: usual: "3"`, `rules: a: {check: {} | {room: "x"}, message: "{"}`, "name: \"x\"\r\nlevels: {", `rules: "a": {check: {if 1 < 2 {room: "x"}}, message: "m"}`,
	} {
		f.Add(text)
	}
	names, _ := filepath.Glob("../../testdata/houses/*/house.cue")
	for _, name := range names {
		if text, err := os.ReadFile(name); err == nil {
			f.Add(string(text))
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 4<<10 {
			return
		}
		h, err := house.Read("house.cue", text, usual(), known)
		var wrong *house.Error
		switch {
		case errors.As(err, &wrong):
			file := &source.File{Name: "house.cue", Text: text}
			for _, at := range wrong.Faults {
				if at.Message == "" || at.At.Line < 1 || at.At.Line > file.Lines() || at.At.Column < 1 {
					t.Errorf("a fault at %v: %q", at.At, at.Message)
				}
			}
		case err != nil:
			t.Error(err)
		default:
			for _, s := range sheets(t, h, curtains) {
				for _, r := range h.Rules {
					for _, got := range agreed(t, r, s) {
						if err := got.Validate(len(curtains)); err != nil {
							t.Errorf("%s: %v", r.ID, err)
						}
					}
				}
			}
			if _, err := house.Practices(h, usual()); err != nil {
				t.Error(err)
			}
		}
	})
}

// agreed are the findings of a rule that is not too much to evaluate.
func agreed(t testing.TB, r *house.Rule, s *worksheet.Sheet) []finding.Finding {
	t.Helper()
	found, err := r.Check(s)
	if err != nil {
		t.Error(err)
	}
	return found
}
