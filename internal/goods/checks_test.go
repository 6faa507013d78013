package goods_test

import (
	"cmp"
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strconv"
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
// Of several names it is the first that is there.
var otherNames = map[string]map[string]string{
	"shower curtain": {"side cloth width": "sides width", "tab drop": "tab loop", "rod above": "height above the floor", "foot band": "band depth", "join allowance": "seam allowance",
		"sides across": "sides cut width", "liner across": "liner cut width", "liner along": "liner cut length", "tab across": "tab cut width", "tab along": "tab cut length", "tab gap": "gap between tabs",
		"band along": "band cut length", "band across": "band cut width", "strip shows": "strip", "holes": "holes stated"},
	"curtain": {"track": "track", "panels": "panels", "raw cut": "cut length", "panel as joined": "panel as joined", "panel flat": "panel width, flat", "fullness made": "fullness made",
		"lining in a panel": "lining least widths", "interlining in a panel": "interlining least widths", "repeats": "repeats in a cut", "spare": "waste per cut", "phase A": "cuts A", "phase B": "cuts B",
		"tab across": "tab cut width", "tab along": "tab cut length", "selvedge cover": "", "usable width": "usable width", "join margin": "join margin", "widths": "widths", "lining flat": "lining flat width"},
	"":            {"edge first": "edge first turn", "opening first": "opening first turn", "back hem turn": "back turn", "back hem folds": "back folds", "overlap made": "overlap", "each back": "back cut length", "seam allowance": "allowance", "join allowance": "seam allowance", "piece across": "piece cut width", "side across": "side cut width", "side folds": "sides folds", "side turn": "sides turn"},
	"Roman shade": {"rod length": "rod and bar length", "section count": "sections", "space": "space between rods", "rows at": "rods", "columns at": "rings", "lift cords": "cords", "sections": "sections stated", "strip shows": "strip"},
	"duvet cover": {"seam allowance": "allowance", "duvet ease": "ease stated", "strip shows": "strip", "buttons": "fastenings", "buttons at": "buttons"},
	"bedspread":   {"strip shows": "strip", "drop foot": "drop at the foot"},
	"tablecloth":  {"drop ends": "drop at the ends", "strip shows": "strip"},
	"valance": {"face": "board", "take-up": "take-up of a pleat", "spacing made": "pleat spacing", "pleat spacing": "wished spacing",
		"widths exact": "widths before rounding", "fullness made": "fullness made", "lining along": "lining cut length", "heading allowance": "heading allowance stated", "tape": "tape for the top"},
	"cornice": {"board piece": "front board", "cover run": "cover run", "welt length": "piping length", "strip shows": "strip"},
	"bed skirt": {"widths exact": "widths before rounding", "strips": "widths", "mark every": "mark the deck every", "pleat face": "face of a pleat", "fold": "fold of a pleat", "deck along": "deck cut length",
		"deck across": "deck across"},
	"cushion cover": {"seam allowance": "allowance", "front across": "front cut width, plate cut width", "front along": "front cut length, plate cut length",
		"circle": "circle cut width, end cut width", "half circle": "half circle cut length", "boxing pieces": "boxing count", "boxing joins at": "joins",
		"front strip": "front boxing cut width", "side strip": "side boxing cut width", "tube across": "tube cut width", "tube along": "tube cut length", "end strip": "end strip cut length",
		"tie across": "tie cut width", "tie along": "tie cut length"},
	"pillowcase": {"pillow ease": "ease", "strip across": "strip cut width", "strip along": "strip cut length", "piece across": "piece cut width", "piece along": "piece cut length",
		"body across": "body cut width", "body along": "body cut length", "cuff along": "cuff cut length", "front across": "front cut width", "front along": "front cut length", "back hem": "back hem"},
	"tie-back":                 {"cut across": "tie-back cut width, front cut width", "cut along": "tie-back cut length, front cut length", "interfacing across": "interfacing cut width", "interfacing along": "interfacing cut length"},
	"cushion cover, run along": {"front across": "front cut length, plate cut length", "front along": "front cut width, plate cut width", "front strip": "front boxing cut length", "side strip": "side boxing cut length"},
	"napkin":                   flatNames, "placemat": flatNames, "runner": flatNames,
}

var flatNames = map[string]string{"cut across": "piece cut width", "cut along": "piece cut length", "back across": "back cut width", "back along": "back cut length",
	"border across": "long border cut width", "long strip": "long border cut length", "short strip": "short border cut length"}

// What is not on the worksheet, and why, by term, or by check and term.
var notWorked = map[string]string{
	"center shows":                           "where there is no join",
	"CK-09 overlap made":                     "the order states the overlap of each back; that the backs lap twice as far is a finding, TestBacksThatLapTwice",
	"CK-18 piping length":                    "it goes round the cut edge, which does as well: TestPipingAtTheCutEdge",
	"shower curtain example cm cloth needed": "the piping is cut of the face as well",
	"CU-08 area bound":                       "what a square gives at most; nothing is cut by it",
	"CB-08 boxing depth":                     "a boxing deeper than its pad can't be said on the form",
	"duvet cover example in spaces":          "one more than the fastenings, which are compared",
	"CU-01 boxing length":                    "the zip strip's run is worked out, not given: TestBoxedCushions",
	"side across":                            "where the sides have a cloth of their own",
	"panel asked":                            "on the way only, within the widths in a panel",
	"half on the order":                      "in the cloth needed",
	"half at joins":                          "in the cloth needed, by the house's custom",
	"half on each cut":                       "in the cloth needed, by the house's custom",
	"in two phases":                          "in the cloth needed",
	"match seam":                             "within the usable width",
	"join lost":                              "within the usable width",
	"face area sewn":                         "within the hanging mass",
	"face area cut":                          "what the hanging mass is not worked from",
	"stack of a panel":                       "half of the stack-back",
	"pleats start":                           "from take-up and spacing of the check's own",
	"lining as joined":                       "what the widths of the lining come to",
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
		if i < 0 {
			continue
		}
		for term := range c.Gives {
			if notWorked[c.ID+" "+term]+notWorked[c.Kind+" "+c.ID+" "+term] != "" {
				delete(c.Gives, term)
			}
		}
		if len(c.Gives) == 0 {
			continue
		}
		t.Run(c.Kind+" "+c.ID, func(t *testing.T) {
			text, ok := c.order(t, goods.All().All()[i])
			if !ok {
				return
			}
			tables := tables
			if loss, ok := c.Given["bias loss"]; ok {
				other := *tables
				other.House.BiasLoss, _ = length.ParseRatio(loss)
				tables = &other
			}
			s := sheetOf(t, loader, tables, text)
			for term, want := range c.Gives {
				c.compare(t, s, term, want, text)
			}
		})
	}
}

// Where the checks give something in another field than the worksheet takes it from, and
// what they give that is not on the form: "".
var otherFields = map[string]map[string]string{
	"shower curtain": {"side shrinks": "sides/shrinks.width", "tabs": "tabs.count"},
	"curtain": {"selvedge cover": "", "raw cut": "", "lining raw": "", "face": "", "light": "", "lining": "", "interlining": "", "side hem": "", "match": "face/repeat.match", "spacing": "", "take-up": "",
		"widths": "", "pleats": "heading.pleats", "tabs": "heading.tabs"},
}

// curtain sets what the checks of curtains take for granted: the cut before the repeat
// is given as a finished length without heading or hem.
func (c check) curtain(set func(path, value string)) {
	usual := func(inches, metric string) string {
		if c.Unit == "in" {
			return inches
		}
		return metric
	}
	style := "gathered"
	if c.Given["pleats"] != "" {
		style = "pinch pleat"
	}
	if c.Given["tabs"] != "" {
		style = "tab"
		set("heading.tab_width", usual("2", "5"))
	}
	set("heading.style", style)
	set("heading.fullness", "2.25")
	if c.Given["widths"] == "6" {
		set("heading.fullness", "3")
	}
	set("heading.allowance", "0")
	set("hems.bottom.turn", "0")
	set("hems.sides.turn", usual("3", "8"))
	set("hems.sides.folds", "1")
	if turn, ok := c.Given["side hem"]; ok {
		set("hems.sides.turn", turn)
	}
	set("join.allowance", usual("5/8", "1.5"))
	set("finished.length", c.Given["raw cut"])
	if c.Given["lining raw"] != "" {
		raw, _ := strconv.ParseFloat(c.Given["raw cut"], 64)
		lining, _ := strconv.ParseFloat(c.Given["lining raw"], 64)
		set("lining.shorter", strconv.FormatFloat(raw-lining, 'f', -1, 64))
	}
	for _, layer := range []string{"lining", "interlining"} {
		if c.Given[layer] != "" {
			set(layer+".cloth", layer)
		}
	}
	if c.Given["face"] == "trimmed" {
		set("panel_width", "76")
	}
	if c.Gives["weights"] != "" {
		set("weights.kind", "single")
	}
}

// names are what the worksheet may call a term.
func (c check) names(term string) []string {
	for _, of := range []string{c.Kind + ", run " + c.Given["run"], c.Kind, ""} {
		if other, ok := otherNames[of][term]; ok {
			return strings.Split(other, ", ")
		}
	}
	return []string{term}
}

func (c check) name(term string) string { return c.names(term)[0] }

// order is the order that a check gives.
func (c check) order(t *testing.T, k *worksheet.Kind) (string, bool) {
	cloths := map[string]map[string]string{"face": {}}
	item := map[string]any{"item": c.Kind, "cloth": "face"}
	set := func(path, value string) { put(item, strings.Split(path, "."), value) }
	switch c.Kind {
	case "shower curtain":
		set("hems.bottom.turn", map[string]string{"in": "3", "cm": "7.5"}[c.Unit])
		if c.Given["holes"] != "" {
			set("holes.make", "grommet")
		}
		if c.Given["side shrinks"] != "" {
			cloth(cloths, "sides")["width"] = c.Given["cloth width"]
			set("join.side_cloth", "sides")
		}
		if c.Given["foot band"] != "" {
			cloth(cloths, "band")["width"] = c.Given["cloth width"]
			set("band.cloth", "band")
		}
	case "curtain":
		c.curtain(set)
		for _, layer := range []string{"lining", "interlining"} {
			if c.Given[layer] != "" {
				cloth(cloths, layer)
			}
		}
		if c.Given["light"] == "yes" {
			cloth(cloths, "face")["class"] = "light"
		}
	}
	for term, value := range c.Given {
		if to, ok := otherFields[c.Kind][term]; ok {
			if role, fact, ok := strings.Cut(to, "/"); ok {
				if strings.HasPrefix(fact, "shrinks") { // on the form a percentage
					f, _ := strconv.ParseFloat(value, 64)
					value = strconv.FormatFloat(100*f, 'f', -1, 64)
				}
				cloth(cloths, role)[fact] = value
			} else if to != "" {
				set(to, value)
			}
			continue
		}
		switch term {
		case "quantity":
			item["quantity"] = value
			continue
		case "bias loss": // the house's
			continue
		case "piping length": // that of a square cushion of some size
			put(item, []string{"pad", "width"}, c.quarterOf(t, value))
			put(item, []string{"pad", "length"}, c.quarterOf(t, value))
			continue
		case "pad width", "pad length":
			if c.Given["piping length"] != "" {
				continue
			}
		case "back": // the order cuts it so
			item["cuts"] = "[{piece: back, length: " + value + "}]"
			continue
		case "piping run", "bias square", "zip strip run", "spaces": // worked out, whatever the check gives
			continue
		}
		if fact, ok := clothFacts[strings.TrimPrefix(term, "cloth ")]; ok {
			cloths["face"][fact] = value
			continue
		}
		if role, ok := strings.CutSuffix(term, " cloth width"); ok {
			cloth(cloths, role)["width"] = value
			continue
		}
		if r := slices.IndexFunc(k.Roles, func(r worksheet.Role) bool { return r.Name == term && c.name(term) == term }); r >= 0 {
			cloth(cloths, term)
			put(item, strings.Split(k.Roles[r].Field, "."), term)
			continue
		}
		name := c.name(term)
		j := slices.IndexFunc(k.Given, func(g worksheet.Given) bool { return g.Term == name || g.Term == name+" stated" })
		if j < 0 || len(k.Given[j].From) == 0 {
			if t.Logf("%s can't be given", term); c.Kind == "curtain" || c.Kind == "shower curtain" {
				t.Fail()
			}
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
	if heading, ok := item["heading"].(map[string]any); ok && heading["style"] == nil {
		heading["style"] = "gathered"
	}
	var roles []string // whose cloth is asked for, or counted by itself
	for term := range c.Gives {
		if role, ok := strings.CutPrefix(term, "cloth needed "); ok {
			roles = append(roles, role)
		}
	}
	if c.Kind != "Roman shade" && c.Given["cord"]+c.Given["piping strip"] != "" {
		roles = append(roles, "piping")
	}
	if c.Given["made"] == "lined" {
		roles = append(roles, "back")
	}
	if c.Kind == "bed skirt" {
		roles = append(roles, "deck")
	}
	for _, role := range roles {
		if role == "face" || c.Kind == "shower curtain" {
			continue
		}
		cloth(cloths, role)
		put(item, []string{role, "cloth"}, role)
	}
	for _, facts := range cloths {
		if facts["width"] == "" {
			facts["width"] = c.Given["cloth width"]
		}
	}
	if join := item["join"]; c.Kind != "curtain" && c.Given["selvedge cover"] == "0" && join == nil {
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

// quarterOf is the side of a square cushion that takes so much piping, with 2 in for its
// join.
func (c check) quarterOf(t *testing.T, piping string) string {
	t.Helper()
	l, style, err := length.Parse(piping, length.In)
	if err != nil {
		t.Fatal(err)
	}
	return style.Print((l-2*length.Inch)/4, length.Nearest)
}

// compare holds what was worked out to a step of the printed value.
func (c check) compare(t *testing.T, s *worksheet.Sheet, term, want, text string) {
	t.Helper()
	if c.Kind == "curtain" && notWorked[term] != "" {
		return
	}
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
		if term == "joins from return edge" {
			at = nil
			for _, l := range slices.Backward(it.Joined) {
				at = append(at, it.Length(string(worksheet.PanelWidth))-l)
			}
		}
		for _, m := range it.Marks() {
			if m.Name == c.name(term) {
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
	names := c.names(term)
	if c.Kind == "curtain" { // a name of the worksheet may have a comma in it
		names = []string{cmp.Or(otherNames[c.Kind][term], names[0])}
	}
	name := names[0]
	if term == "lining flat" { // on the sheet of all panels
		c.near(t, term, worksheet.LengthOf(it.Length(name).Div(it.Panels, length.Nearest)), want, unit)
		return
	}
	for _, other := range names[1:] {
		if !it.Has(name) {
			name = other
		}
	}
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
