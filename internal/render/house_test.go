package render_test

import (
	"bytes"
	"strings"
	"testing"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/cuecontext"
	cuejson "cuelang.org/go/encoding/json"

	"cutgate/internal/finding"
	"cutgate/internal/form"
	"cutgate/internal/house"
	"cutgate/internal/render"
	"cutgate/internal/source"
)

const houseText = `name: "Moss Hall"
clearance: "3/8 in"
pitch: "6 in"
tab_gap: {least: "5 cm", most: "9 cm"}
sources: tab_gap: "the fitter, who has hung our tabs for twenty years"
hems: [{item: "curtain", edge: "bottom", where: "floor", turn: "6 in", folds: 2}]
headings: "double pinch pleat": {usual: "2.3", allowance: "7 in"}
seams: French: usual: "1/2 in"
classes: light: needle: least: 70
levels: {
	"hem/one-fold": "error"
	hole:           "skip"
	"hem/shallow":  "error"
}
rules: {
	"velvet-is-interlined": {
		items: ["curtain"]
		when: cloth: name: =~"velvet"
		check: interlining!: _
		message: "Velvet is interlined here, whatever the client asks for, and this is {cloth.name}."
		because: "it hangs like paper otherwise, and the pile goes flat where the wind pushes it to the pane"
	}
	plain: {level: "note", check: {}, message: "\u001b[31mm"}
}
`

// practices are those under houseText, and under no house.
func practices(t *testing.T) (h *house.House, own, usual []house.Practice) {
	t.Helper()
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	var known []house.Known
	for _, r := range rules() {
		known = append(known, house.Known{ID: r.ID, Level: r.Level})
	}
	if h, err = house.Read("moss/house.cue", houseText, tables, known); err != nil {
		t.Fatal(err)
	}
	if own, err = house.Practices(h, tables); err == nil {
		usual, err = house.Practices(nil, tables)
	}
	if err != nil {
		t.Fatal(err)
	}
	return h, own, usual
}

func TestHouse(t *testing.T) {
	h, own, usual := practices(t)
	var b bytes.Buffer
	if err := render.House(&b, h, own, rules(), render.Options{}); err != nil {
		t.Fatal(err)
	}
	golden(t, "house.text", b.String())
	if strings.Contains(b.String(), "\x1b") {
		t.Error("a message reaches the terminal as it is")
	}
	b.Reset()
	if err := render.House(&b, nil, usual, rules(), render.Options{}); err != nil {
		t.Fatal(err)
	}
	if got := b.String(); !strings.Contains(got, "no house.cue here or above") || strings.Contains(got, "house rules,") {
		t.Errorf("without a house:\n%s", got)
	}
	for _, width := range []int{72, 80, 100} {
		b.Reset()
		if err := render.House(&b, h, own, rules(), render.Options{Width: width}); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(b.String()) {
			if w := source.Width(strings.TrimSuffix(line, "\n")); w > width {
				t.Errorf("%d cells in a line of %d: %q", w, width, line)
			}
		}
	}
}

// TestHouseListsAll holds the practices of a house against those of none: as
// many, and different only where the house says so.
func TestHouseListsAll(t *testing.T) {
	_, own, usual := practices(t)
	if len(own) != len(usual) || len(usual) < 150 {
		t.Fatalf("%d practices under the house, %d under none", len(own), len(usual))
	}
	lines := 0
	for i, p := range own {
		was := usual[i]
		if p.Table != was.Table || p.Row != was.Row || p.Name != was.Name {
			t.Fatalf("%d: %v instead of %v", i, p, was)
		}
		if p.Line > 0 {
			lines++
			if !strings.HasPrefix(p.Source, "house rules, moss/house.cue:") || p.Usual != was.Value && p.Usual != "" || p.Usual == "" && p.Value != was.Value {
				t.Errorf("%v instead of %v", p, was)
			}
			continue
		}
		if p.Value != was.Value || p.Usual != "" {
			t.Errorf("%v instead of %v", p, was)
		}
	}
	if lines != 8 {
		t.Errorf("%d practices are the shop's own", lines)
	}
}

func TestHouseJSON(t *testing.T) {
	ctx := cuecontext.New()
	def := definition(t, ctx, "#HouseReport")
	h, own, usual := practices(t)
	for _, c := range []struct {
		h    *house.House
		list []house.Practice
	}{{h, own}, {nil, usual}} {
		var b bytes.Buffer
		if err := render.HouseJSON(&b, c.h, c.list, rules()); err != nil {
			t.Fatal(err)
		}
		expr, err := cuejson.Extract("house.json", b.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		v := def.Unify(ctx.BuildExpr(expr))
		if err := v.Validate(cue.Concrete(true)); err != nil {
			t.Errorf("%v", err)
		}
		n, _ := v.LookupPath(cue.ParsePath("practices")).Len().Int64()
		if int(n) != len(c.list) {
			t.Errorf("%d practices, want %d", n, len(c.list))
		}
		if c.h == nil {
			continue
		}
		for path, want := range map[string]string{
			"house": "moss/house.cue", "name": "Moss Hall", "levels[1].of": "hole", "levels[0].usual": finding.Warning.String(),
			"rules[0].rule": "house/velvet-is-interlined", "rules[1].level": "note", "practices[0].usual": "1/2 in / 12 mm",
		} {
			if got, err := v.LookupPath(cue.ParsePath(path)).String(); err != nil || got != want {
				t.Errorf("%s is %q, %v, want %q", path, got, err, want)
			}
		}
	}
}
