package goods_test

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/goods"
	"cutgate/internal/length"
	"cutgate/internal/worksheet"
)

// A check is a row of testdata/goods-checks.json: published examples by their number
// in worked-examples-goods.json, and examples of our own, worked by hand from the same
// formulas in exact fractions.
type check struct {
	ID, Kind, Unit string
	Given, Gives   map[string]string
}

// Terms that the checks call by another name than the worksheet, by kind; "" is any.
var otherNames = map[string]map[string]string{
	"": {"seam allowance": "allowance", "join allowance": "seam allowance", "piece across": "piece cut width", "side across": "side cut width", "side folds": "sides folds", "side turn": "sides turn"},
	"shower curtain": {"side cloth width": "sides width", "tab drop": "tab loop", "rod above": "height above the floor", "foot band": "band depth", "join allowance": "seam allowance",
		"sides across": "sides cut width", "liner across": "liner cut width", "liner along": "liner cut length", "tab across": "tab cut width", "tab along": "tab cut length", "tab gap": "gap between tabs",
		"band along": "band cut length", "band across": "band cut width", "strip shows": "strip", "holes": "holes stated"},
	"tablecloth": {"drop ends": "drop at the ends", "strip shows": "strip"},
	"napkin":     flatNames, "placemat": flatNames, "runner": flatNames,
}

var flatNames = map[string]string{"cut across": "piece cut width", "cut along": "piece cut length", "back across": "back cut width", "back along": "back cut length",
	"border across": "long border cut width", "long strip": "long border cut length", "short strip": "short border cut length"}

// What is not on the worksheet, and why.
var notWorked = map[string]string{
	"center shows": "where there is no join",
}

// Facts of cloths, which the checks name after their role.
var clothFacts = map[string]string{"width": "width", "selvedge": "selvedge", "shrinks along": "shrinks.length", "shrinks across": "shrinks.width", "repeat": "repeat.length", "repeat across": "repeat.width"}

func TestChecks(t *testing.T) {
	loader, tables := tools(t)
	data, err := os.ReadFile("../../testdata/goods-checks.json")
	if err != nil {
		t.Fatal(err)
	}
	var list []check
	if err := json.Unmarshal(data, &list); err != nil {
		t.Fatal(err)
	}
	for _, c := range list {
		i := slices.IndexFunc(goods.All().All(), func(k *worksheet.Kind) bool { return k.Name == c.Kind })
		if i < 0 || c.Kind == "cushion cover" {
			continue
		}
		t.Run(c.Kind+" "+c.ID, func(t *testing.T) {
			text, ok := c.order(t, goods.All().All()[i])
			if !ok {
				return
			}
			s := sheetOf(t, loader, tables, text)
			for term, want := range c.Gives {
				c.compare(t, s, term, want, text)
			}
		})
	}
}

func (c check) name(term string) string {
	for _, of := range []string{c.Kind, ""} {
		if other, ok := otherNames[of][term]; ok {
			return other
		}
	}
	return term
}

// order is the order that a check gives.
func (c check) order(t *testing.T, k *worksheet.Kind) (string, bool) {
	cloths := map[string]map[string]string{"face": {}}
	item := map[string]any{"item": c.Kind, "cloth": "face"}
	for term, value := range c.Given {
		if fact, ok := clothFacts[strings.TrimPrefix(term, "cloth ")]; ok {
			cloths["face"][fact] = value
			continue
		}
		if role, ok := strings.CutSuffix(term, " cloth width"); ok {
			cloth(cloths, role)["width"] = value
			continue
		}
		name := c.name(term)
		j := slices.IndexFunc(k.Given, func(g worksheet.Given) bool { return g.Term == name || g.Term == name+" stated" })
		if j < 0 || len(k.Given[j].From) == 0 {
			t.Logf("%s can't be given", term)
			return "", false
		}
		path := k.Given[j].From[0]
		if role, ok := strings.CutSuffix(path, ".cloth"); ok {
			cloth(cloths, role)
			value = role
		}
		if value == "yes" {
			value = "true"
		}
		put(item, strings.Split(path, "."), value)
	}
	for _, facts := range cloths {
		if facts["width"] == "" {
			facts["width"] = c.Given["cloth width"]
		}
	}
	if join := item["join"]; c.Given["selvedge cover"] == "0" && join == nil {
		return "", false
	}
	var b strings.Builder
	fmt.Fprintf(&b, "order: T\nunits: %s\ncloths:\n", c.Unit)
	for name, facts := range cloths {
		nested := map[string]any{}
		for fact, value := range facts {
			put(nested, strings.Split(fact, "."), value)
		}
		fmt.Fprintf(&b, "  %s: %s\n", name, flow(nested))
	}
	fmt.Fprintf(&b, "items:\n  - %s\n", flow(item))
	return b.String(), true
}

func cloth(all map[string]map[string]string, name string) map[string]string {
	if all[name] == nil {
		all[name] = map[string]string{}
	}
	return all[name]
}

func put(in map[string]any, path []string, value string) {
	for _, name := range path[:len(path)-1] {
		next, ok := in[name].(map[string]any)
		if !ok {
			next = map[string]any{}
			in[name] = next
		}
		in = next
	}
	in[path[len(path)-1]] = value
}

func flow(m map[string]any) string {
	var parts []string
	for name, v := range m {
		switch v := v.(type) {
		case string:
			parts = append(parts, name+": "+v)
		case map[string]any:
			parts = append(parts, name+": "+flow(v))
		}
	}
	slices.Sort(parts)
	return "{" + strings.Join(parts, ", ") + "}"
}

// compare holds what was worked out to a step of the printed value.
func (c check) compare(t *testing.T, s *worksheet.Sheet, term, want, text string) {
	t.Helper()
	it := &s.Items[0]
	unit, _ := length.ParseUnit(c.Unit)
	if role, ok := strings.CutPrefix(term, "cloth needed"); ok {
		name := strings.TrimSpace(role)
		if name == "" {
			name = "face"
		}
		cl := s.Cloth(name)
		if cl == nil || cl.Needed == nil {
			t.Errorf("no %s in\n%s", term, text)
			return
		}
		c.near(t, term, worksheet.LengthOf(cl.Needed.Value.Length()), want, unit)
		return
	}
	if inside, ok := strings.CutPrefix(want, "["); ok {
		places := strings.Split(strings.TrimSuffix(inside, "]"), ", ")
		at := it.Joined
		for _, m := range it.Marks {
			if m.Name == term {
				at = m.At
			}
		}
		if len(at) != len(places) {
			t.Errorf("%s are %v, not %s, in\n%s", term, at, want, text)
			return
		}
		for i := range at {
			c.near(t, term, worksheet.LengthOf(at[i]), places[i], unit)
		}
		return
	}
	name := c.name(term)
	if !it.Has(name) {
		if want != "0" && notWorked[term] == "" {
			t.Errorf("%s is not worked out, and should be %s, in\n%s", name, want, text)
		}
		return
	}
	c.near(t, term, it.Value(name), want, unit)
}

func (c check) near(t *testing.T, term string, got worksheet.Value, want string, unit length.Unit) {
	t.Helper()
	if got.Sort == worksheet.Length {
		l, _, err := length.Parse(want, unit)
		if step := length.Step(unit); err != nil || !worksheet.Near(got.Length(), l, step+step/10) {
			t.Errorf("%s is %s, not %s", term, got.Format(unit, length.Nearest), want)
		}
		return
	}
	r, err := length.ParseRatio(want)
	if err != nil {
		t.Fatal(err)
	}
	is := got.R
	if got.Sort == worksheet.Count {
		is = length.NewRatio(got.N, 1)
	}
	if d := is.Sub(r); d.Mul(d).Cmp(length.NewRatio(1, 10_000)) > 0 {
		t.Errorf("%s is %s, not %s", term, is.Format(2), want)
	}
}
