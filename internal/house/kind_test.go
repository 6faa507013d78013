package house

import (
	"errors"
	"os"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/form"
)

const ownKind = `kinds: "headboard cover": {
	choices: {
		"board width": {field: "board.width", between: "60 to 220 cm"}
		allowance: {field: "allowance", otherwise: "1/2 in / 15 mm"}
		made: {field: "made", words: ["lined", "hemmed"]}
	}
	steps: [
		{term: "flat width", formula: "{board width} + 2 × {allowance}"},
		{term: "widths asked", formula: "rounded up ({flat width} ÷ {face width})", round: "whole"},
	]
	pieces: [{name: "front", across: "{flat width}", along: "{board width}"}]
	outcomes: [{term: "flat width", field: "flat_width"}]
	slips: [{of: "flat width", name: "one seam was left out", formula: "{board width} + {allowance}"}]
	marks: [{name: "buttons", from: "the left edge", count: "4", at: "{k} × {board width} ÷ 5"}]
}
`

func readHouse(t *testing.T, text string) (*House, error) {
	t.Helper()
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	return Read("house.cue", text, tables, nil)
}

// A kind of the shop's own is on its form, among its kinds, and known to its rules.
func TestOwnKind(t *testing.T) {
	h, err := readHouse(t, ownKind+`rules: narrow: {items: ["headboard cover"], check: board: width: >900, message: "It is {board.width} wide."}, units: "mm"`)
	if err != nil {
		t.Fatal(err)
	}
	if !h.Kinds.Knows("headboard cover") || !h.Kinds.Knows("curtain") || !slices.Contains(h.Words(), "headboard cover") {
		t.Error("the kind is not among those of the house")
	}
	for _, q := range h.Form.Fields([]string{"items"}, "headboard cover") {
		if q.Name == "flat_width" && !q.Outcome || q.Name == "board" && q.Holds != form.Fields {
			t.Errorf("the form asks for %+v", q)
		}
	}
	if words := h.Form.Fields([]string{"items", "cuts"}, "headboard cover")[0].Words; !slices.Equal(words, []string{"front"}) {
		t.Errorf("it is cut into %q", words)
	}
}

// A rule about a kind that is declared wrong says nothing of its own.
func TestRuleOfFaultyKind(t *testing.T) {
	text := strings.Replace(ownKind, "{board width} + 2", "{plank} + 2", 1) + `rules: deep: {items: ["headboard cover"], check: worked: flat_width: >5, message: "m {board.width}"}` + "\nunits: \"cm\"\n"
	_, err := readHouse(t, text)
	var e *Error
	if !errors.As(err, &e) || len(e.Faults) != 1 {
		t.Errorf("the faults are %v", err)
	}
	text = ownKind + `rules: deep: {items: ["headbord cover"], check: worked: flat_width: >5, message: "m {board.width}"}` + "\nunits: \"cm\"\n"
	if _, err := readHouse(t, text); !errors.As(err, &e) || len(e.Faults) != 1 || !strings.Contains(err.Error(), "did you mean headboard cover?") {
		t.Errorf("the faults of a rule about a kind that there is none of are %v", err)
	}
}

// Each fault of a kind is reported on the line of the row that is wrong.
func TestOwnKindFaults(t *testing.T) {
	for _, c := range []struct {
		name, from, to string
		says           []string
	}{
		{"a field that the form lacks", `"board.width"`, `"plank.width"`, []string{"3:3: choice board width: the form has no field plank.width"}},
		{"a size that is none", "1/2 in / 15 mm", "a bit / more", []string{"4:3: choice allowance: "}},
		{"a term that nobody gives", "{board width} + 2 × {allowance}", "{plank} + 2 × {allowance}", []string{"there is no term {plank}", "8:3: step flat width: "}},
		{"a length and a count", "{board width} + 2 × {allowance}", "{board width} + 2", []string{"8:3: step flat width: "}},
		{"a formula that ends early", "{board width} + 2 × {allowance}", "{board width} +", []string{"8:3: step flat width: "}},
		{"a piece", `along: "{board width}"`, `along: "{board length}"`, []string{"there is no term {board length}", "11:11: step front cut length: "}},
		{"an outcome", `{term: "flat width", field`, `{term: "flat length", field`, []string{"12:13: outcome flat length: there is no term {flat length}"}},
		{"a slip", "{board width} + {allowance}\"}", "{board width} + {seam}\"}", []string{"there is no term {seam}", "13:10: slip flat width: "}},
		{"what a slip is of", `of: "flat width"`, `of: "flat length"`, []string{"13:10: slip flat length: there is no term {flat length}"}},
		{"a range that runs backward", "60 to 220 cm", "220 to 60 cm", []string{"3:3: choice board width: between 220 to 60 cm: the least comes first"}},
		{"a word that may not stand there", `along: "{board width}"}]`, `along: "{board width}", when: "board width, made: lned"}]`, []string{`11:11: piece front: when "board width, made: lned": made can't be "lned"; it is one of lined, hemmed`}},
		{"a mark", "{k} × {board width}", "{k} + {board width}", []string{"14:10: mark buttons: "}},
		{"a kind of cutgate's own", `"headboard cover"`, `"curtain"`, []string{"1:8: \"curtain\" is a kind that cutgate has itself"}},
		{"no pieces", `[{name: "front", across: "{flat width}", along: "{board width}"}]`, "[]", []string{"11:"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(ownKind, c.from, c.to, 1)
			if text == ownKind {
				t.Fatal("nothing was replaced")
			}
			_, err := readHouse(t, text)
			var e *Error
			if !errors.As(err, &e) {
				t.Fatalf("read as %v", err)
			}
			for _, says := range c.says {
				if got := e.Error(); !strings.Contains(got, says) {
					t.Errorf("says %q, not %q", got, says)
				}
			}
		})
	}
}

// The example house declares two kinds of its own.
func TestExampleHouse(t *testing.T) {
	text, err := os.ReadFile("../../testdata/houses/lantern-yard/house.cue")
	if err != nil {
		t.Fatal(err)
	}
	h, err := readHouse(t, string(text))
	if err != nil {
		t.Fatal(err)
	}
	own := []string{"headboard cover", "lampshade band"}
	for _, kind := range own {
		if !h.Kinds.Knows(kind) {
			t.Errorf("there is no %s", kind)
		}
	}
	if !slices.Equal(h.Own, own) {
		t.Errorf("the shop's own goods are %q", h.Own)
	}
}
