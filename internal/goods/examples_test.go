package goods_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/big"
	"os"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/diagnose"
	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/length"
	"cutgate/internal/load"
	"cutgate/internal/mass"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// An example is one of testdata/worked-examples.json and worked-examples-goods.json: published worked examples
// of the trade, each with its source, and with the slips that some of them print.
type example struct {
	ID       string         `json:"id"`
	Source   string         `json:"source"`
	Inputs   map[string]any `json:"inputs"`
	Expected map[string]any `json:"expected"`
	Printed  map[string]any `json:"as_printed"`
	Verdict  string         `json:"verdict"`
}

func examples(t *testing.T) map[string]example {
	t.Helper()
	byID := map[string]example{}
	for _, file := range []string{"worked-examples.json", "worked-examples-goods.json"} {
		data, err := os.ReadFile("../../testdata/" + file)
		if err != nil {
			t.Fatal(err)
		}
		var list []example
		if err := json.Unmarshal(data, &list); err != nil {
			t.Fatal(err)
		}
		for _, e := range list {
			byID[e.ID] = e
		}
	}
	return byID
}

// n is a number of the example as text, for an order: inputs["a"], or
// inputs["a"][0] as "a.0".
func (e example) n(key string) string { return plain(e.number(e.Inputs, key)) }

func (e example) number(in map[string]any, key string) float64 {
	name, index, listed := strings.Cut(key, ".")
	v := in[name]
	if listed {
		v = v.([]any)[int(index[0]-'0')]
	}
	return v.(float64)
}

func plain(f float64) string { return strings.TrimSuffix(fmt.Sprintf("%g", f), ".0") }

// A trial turns one example into an order and says which quantities are to come
// out as the example has them.
type trial struct {
	order  func(e example) string
	expect map[string]want // by the example's name of the number
	// printed names the example's printed number and where the order would state
	// it; the order with the printed slip in it must be corrected to the right
	// value at that place.
	printed []slip
	// stands are further numbers of the example as the order states them: none is called
	// wrong.
	stands func(e example) string
}

type want struct {
	quantity string // its path in the sheet
	unit     string // that the example's number is in; "" for a plain number
}

type slip struct {
	key   string // of as_printed
	state func(text string) string
	path  string // of the field that is wrong
	right string // as the order would write it
}

// curtainOf is a curtain without selvedge, seam allowance or hems but those
// given: the published examples name none.
func curtainOf(units, cloth, heading, track, finished, rest string) string {
	return fmt.Sprintf(`order: T
units: %s
cloths: {c: {width: %s, selvedge: 0%s
items:
  - item: curtain
    cloth: c
    heading: {style: gathered, %s}
    join: {allowance: 0}
%s%s%s`, units, cloth, "}}", heading, line("track", track), line("finished", finished), rest)
}

func line(name, fields string) string {
	if fields == "" {
		return ""
	}
	return "    " + name + ": {" + fields + "}\n"
}

const noHems = "    hems: {top: {turn: 0}, bottom: {turn: 0}, sides: {turn: 0}}\n"

func hems(top, bottom, sides string) string {
	return fmt.Sprintf("    hems: {top: {turn: %s, folds: 1}, bottom: {turn: %s, folds: 1}, sides: {turn: %s, folds: 1}}\n", top, bottom, sides)
}

var trials = map[string]trial{
	"CY-01": {
		order: func(e example) string {
			return curtainOf("in", e.n("fabric_width_in"), "fullness: "+e.n("fullness"), "width: "+e.n("rod_width_in")+", overlap: "+e.n("overlap_and_returns_in"), "", noHems)
		},
		expect: map[string]want{
			"finished_width_in": {"items[0].finished width", "in"}, "flat_width_in": {"items[0].flat width", "in"},
			"widths_raw": {"items[0].widths before rounding", ""}, "widths": {"items[0].widths", ""}, "widths_per_panel": {"items[0].widths in a panel", ""},
		},
	},
	"CY-02": {
		order: func(e example) string {
			return curtainOf("in", e.n("fabric_width_in"), "fullness: "+e.n("fullness"), "width: "+e.n("rod_width_in")+", overlap: "+e.n("returns_and_overlap_in"), "", noHems)
		},
		expect: map[string]want{
			"finished_width_in": {"items[0].finished width", "in"}, "flat_width_in": {"items[0].flat width", "in"},
			"widths_raw": {"items[0].widths before rounding", ""}, "widths": {"items[0].widths", ""}, "widths_per_panel": {"items[0].widths in a panel", ""},
		},
	},
	"CY-04": {
		order: func(e example) string {
			return curtainOf("in", e.n("fabric_width_in"), "fullness: "+e.n("fullness"), "",
				"width: "+e.n("window_outside_width_in")+", length: "+e.n("unfinished_length_in"), noHems+"    panels: 1\n")
		},
		expect: map[string]want{
			"flat_width_in": {"items[0].flat width", "in"}, "widths": {"items[0].width pieces to cut", ""},
			"total_in": {"cloths.c.cloth needed", "in"}, "yards": {"cloths.c.cloth needed", "yd"},
		},
	},
	"CY-05": {
		order: func(e example) string {
			return curtainOf("cm", e.n("fabric_width_cm"), "fullness: "+e.n("fullness"), "width: "+e.n("track_cm")+", above_floor: "+e.n("track_to_floor_cm"), "",
				hems("0", e.n("hems_cm"), "20")+"    panels: 1\n    hang: {to: floor, clearance: "+e.n("hang_and_floor_clearance_cm")+"}\n")
		},
		expect: map[string]want{
			"flat_width_cm": {"items[0].flat width", "cm"}, "drops": {"items[0].width pieces to cut", ""}, "drop_length_cm": {"items[0].cut length", "cm"},
			"total_cm": {"cloths.c.cloth needed", "cm"}, "metres": {"cloths.c.cloth needed", "m"},
		},
	},
	"CY-08": {
		order: func(e example) string {
			return curtainOf("cm", e.n("fabric_width_cm"), "fullness: "+e.n("fullness"), "",
				"width: "+e.n("window_width_cm")+", length: "+e.n("window_drop_cm"), hems("0", e.n("length_allowance_cm"), "0")+"    panels: 1\n")
		},
		expect: map[string]want{
			"flat_width_cm": {"items[0].flat width", "cm"}, "drops_raw": {"items[0].widths before rounding", ""}, "drops": {"items[0].width pieces to cut", ""},
			"drop_length_cm": {"items[0].cut length", "cm"}, "total_m": {"cloths.c.cloth needed", "m"},
		},
		printed: []slip{{"drops", func(s string) string { return "    cuts: [{piece: width, count: " + s + "}]\n" }, "items[0].cuts[0].count", "2"}},
	},
	"CY-09": {
		order: func(e example) string {
			return curtainOf("cm", e.n("fabric_width_cm"), "fullness: "+e.n("fullness"), "",
				"width: "+e.n("pole_cm")+", length: "+e.n("finished_drop_cm"), hems(e.n("heading_cm"), e.n("hem_cm"), "0"))
		},
		expect: map[string]want{
			"flat_width_cm": {"items[0].flat width", "cm"}, "widths_raw": {"items[0].widths before rounding", ""}, "widths": {"items[0].widths", ""},
			"cut_drop_cm": {"items[0].cut length", "cm"}, "total_cm": {"cloths.c.cloth needed", "cm"}, "metres": {"cloths.c.cloth needed", "m"},
		},
	},
	"CY-11": {
		order: func(e example) string {
			return curtainOf("in", e.n("fabric_width_in"), "returns: after fullness, fullness: "+e.n("fullness"), "width: "+e.n("coverage_in")+", return: 3 1/2",
				"length: "+e.n("length_in"), hems(e.n("casing_heading_in"), e.n("hem_in"), "2"))
		},
		expect: map[string]want{
			"cut_width_in": {"items[0].flat width", "in"}, "widths_raw": {"items[0].widths before rounding", ""}, "widths": {"items[0].widths", ""},
			"cut_length_in": {"items[0].cut length", "in"}, "total_in": {"cloths.c.cloth needed", "in"}, "yards": {"cloths.c.cloth needed", "yd"},
		},
		// The page calls five widths "5 yards of material".
		printed: []slip{{"unit_of_widths", func(string) string { return "    widths: 5 1/2\n" }, "items[0].widths", "5"}},
	},
	"CY-12": {
		order: func(e example) string {
			return curtainOf("cm", e.n("fabric_width_cm"), "fullness: "+e.n("fullness"), "", "width: "+e.n("pole_cm")+", length: 200", hems("0", "0", "5"))
		},
		expect: map[string]want{
			"flat_width_cm": {"items[0].flat width", "cm"}, "widths_raw": {"items[0].widths before rounding", ""}, "widths": {"items[0].widths", ""},
			"widths_per_curtain": {"items[0].widths in a panel", ""},
		},
	},
	"CY-14": {
		order: func(e example) string {
			return fmt.Sprintf(`order: T
units: in
cloths: {c: {width: 54}}
items:
  - item: curtain
    cloth: c
    heading: {style: pinch pleat, allowance: %s}
    finished: {width: %s, length: %s}
    hems: {bottom: {turn: %s, folds: 2}}
`, "10", e.n("finished_width_in"), e.n("finished_length_in"), e.n("bottom_double_hem_in")) // 2 × 4 turned and 2 of working allowance
		},
		expect: map[string]want{"bottom_allowance_in": {"items[0].bottom hem takes", "in"}, "cut_length_in": {"items[0].cut length", "in"}},
	},
	"CY-16": {
		order: func(e example) string {
			return curtainOf("in", "125", "fullness: 2", "", "width: "+e.n("finished_width_in")+", length: 90", noHems+"    panel_width: 125\n")
		},
		expect: map[string]want{"fullness": {"items[0].fullness made", ""}},
	},
	"CY-18": {
		order: func(e example) string {
			return curtainOf("in", e.n("fabric_width_in"), "fullness: 2", "", "width: 54, length: "+e.n("finished_length_in"),
				hems(e.n("top_in"), e.n("bottom_hem_in"), "0"))
		},
		expect: map[string]want{"face_cut_length_in": {"items[0].cut length", "in"}},
	},
	"PR-01": {
		order: func(e example) string {
			return strings.Replace(curtainOf("in", e.n("fabric_width_in"), "fullness: "+e.n("fullness")+", allowance: "+e.n("hem_and_heading_in"),
				"width: "+e.n("rod_width_in")+", overlap: "+e.n("overlap_in")+", return: "+e.n("return_left_in"), "length: "+e.n("finished_length_in"), noHems),
				"selvedge: 0", "selvedge: 0, repeat: {length: "+e.n("repeat_in")+"}", 1)
		},
		expect: map[string]want{
			"overall_width_in": {"items[0].finished width", "in"}, "flat_width_in": {"items[0].flat width", "in"},
			"widths_raw": {"items[0].widths before rounding", ""}, "widths": {"items[0].widths", ""}, "raw_cut_in": {"items[0].cut before the repeat", "in"},
			"repeats": {"items[0].repeats in a cut", ""}, "cut_length_in": {"items[0].cut length", "in"},
		},
	},
	"PR-03": {order: repeatOf("cm", "raw_drop_cm", "repeat_cm"), expect: map[string]want{
		"repeats": {"items[0].repeats in a cut", ""}, "drop_cm": {"items[0].cut length", "cm"}}},
	"PR-04": {order: repeatOf("in", "needed_length_in", "repeat_in"), expect: map[string]want{
		"repeats": {"items[0].repeats in a cut", ""}, "cut_length_in": {"items[0].cut length", "in"}, "waste_per_cut_in": {"items[0].waste per cut", "in"}}},
	"PR-06": {order: repeatOf("in", "finished_length_in", "repeat_in"), expect: map[string]want{
		"repeats": {"items[0].repeats in a cut", ""}, "cut_length_in": {"items[0].cut length", "in"}, "trim_in": {"items[0].waste per cut", "in"}}},
	"PR-07": {order: repeatOf("in", "raw_cut_in", "repeat_in"), expect: map[string]want{
		"repeats": {"items[0].repeats in a cut", ""}, "cut_length_in": {"items[0].cut length", "in"}}},
	"PR-08": {order: repeatOf("cm", "cut_drop_cm", "repeat_cm"), expect: map[string]want{
		"repeats": {"items[0].repeats in a cut", ""}, "cut_length_cm": {"items[0].cut length", "cm"}},
		printed: []slip{{"cut_length_cm", cutLengthOf, "items[0].cuts[0].length", "135"}}},
	"PR-09": {
		order: func(e example) string {
			return strings.Replace(repeatOf("cm", "cut_drop_cm", "repeat_cm")(e), "repeat: {", "repeat: {match: half drop, ", 1)
		},
		expect: map[string]want{"repeats": {"items[0].repeats in a cut", ""}, "cut_length_cm": {"items[0].cut length", "cm"},
			"spare_per_cut_cm": {"items[0].waste per cut", "cm"}},
	},
	"PR-12": {
		order: func(e example) string {
			return strings.Replace(curtainOf("in", "54", "fullness: 2, allowance: "+e.n("hem_and_heading_in"), "", "width: 72, length: "+e.n("finished_length_in"), noHems),
				"selvedge: 0", "selvedge: 0, repeat: {length: "+e.n("repeat_in")+"}", 1)
		},
		expect: map[string]want{"raw_cut_in": {"items[0].cut before the repeat", "in"}, "repeats": {"items[0].repeats in a cut", ""},
			"cut_length_in": {"items[0].cut length", "in"}},
	},
	"PR-13": {order: repeatOf("in", "cut_depth_in", "repeat_in"), expect: map[string]want{
		"repeats": {"items[0].repeats in a cut", ""}, "matched_cut_in": {"items[0].cut length", "in"}},
		printed: []slip{{"matched_cut_in", cutLengthOf, "items[0].cuts[0].length", "46"}}},
	"PL-01": {
		order: func(e example) string {
			return strings.Replace(curtainOf("in", "100", "pleats: 8", "width: "+e.n("pleated_span_in"), "length: 90", noHems+"    panels: 1\n    panel_width: 85\n"),
				"gathered", "pinch pleat", 1) // 85: the flat panel less its two outside pleats' ends and seams
		},
		expect: map[string]want{"pleats": {"items[0].pleats", ""}},
	},
	"RP-02": {
		order: func(e example) string {
			return curtainOf("in", "54", "fullness: 2, allowance: 8 1/2", "", "width: 54, length: 40", "    hems: {bottom: {turn: "+e.n("bottom_hem_in")+", folds: 1}}\n")
		},
		expect: map[string]want{"length_allowance_in": {"items[0].cut length -40", "in"}},
	},
	"RP-04": {
		order: func(e example) string {
			return curtainOf("in", "54", "fullness: 2", "", "width: 54, length: 40",
				"    hems: {top: {turn: "+e.n("top_double_fold_in")+"}, bottom: {turn: "+e.n("bottom_double_hem_in")+"}}\n")
		},
		expect: map[string]want{"length_allowance_in": {"items[0].cut length -40", "in"}},
	},
	"SC-01": {
		order: func(e example) string {
			return showerOf("in", "108", e.n("finished_in.0"), e.n("finished_in.1"), e.n("top_add_in"), e.n("bottom_add_in"), e.n("side_add_each_in")) +
				"    holes: {make: grommet}\n"
		},
		expect: map[string]want{"cut_in.0": {"items[0].piece cut width", "in"}, "cut_in.1": {"items[0].cut length", "in"}, "holes": {"items[0].holes", ""}},
	},
	"SC-02": {
		order: func(e example) string {
			return showerOf("in", e.n("fabric_width_in"), e.n("finished_in.0"), e.n("finished_in.1"), "6", "6", "1 1/2")
		},
		expect: map[string]want{"yards_raw": {"cloths.c.cloth needed", "yd"}, "order_yd": {"cloths.c.cloth to buy", "yd"}},
	},
	"SC-04": {
		order: func(e example) string {
			return showerOf("in", "45", "86", e.n("piece_length_in"), "0", "0", "0") + "    join: {layout: equal, allowance: 1/2}\n"
		},
		expect: map[string]want{"total_in": {"cloths.c.cloth needed", "in"}, "yards": {"cloths.c.cloth needed", "yd"}, "order_yd": {"cloths.c.cloth to buy", "yd"}},
	},
	"SC-06": {
		order: func(e example) string {
			first := showerOf("in", "108", e.n("widths_in.0"), "72", "3", "3", "1") + "    holes: {make: grommet, from_side: 3}\n"
			_, second, _ := strings.Cut(showerOf("in", "108", e.n("widths_in.1"), "72", "3", "3", "1")+"    holes: {make: grommet, from_side: 3}\n", "items:\n")
			return first + second
		},
		expect: map[string]want{"holes.0": {"items[0].holes", ""}, "holes.1": {"items[1].holes", ""}},
	},
	"SH-04": {
		order: func(e example) string {
			return strings.Replace(showerOf("cm", "300", "180", e.n("finished_cm"), "0", "0", "0"), "selvedge: 0", "selvedge: 0, shrinks: {length: 3%}", 1)
		},
		expect: map[string]want{"cut_cm": {"items[0].cut length", "cm"}},
		printed: []slip{{"naive", func(string) string {
			return "    cuts: [{piece: piece, length: 257.5}]\n"
		}, "items[0].cuts[0].length", "257.8"}},
	},
	"WT-01": {
		order:  func(e example) string { return weightOf(e.n("length_yd"), e.n("fabric_width_in"), e.n("areal_oz_yd2")) },
		expect: map[string]want{"ounces": {"items[0].hanging mass", "oz"}, "pounds": {"items[0].hanging mass", "lb"}},
	},
	"WT-02": {
		order:   func(e example) string { return weightOf(e.n("length_yd"), e.n("fabric_width_in"), e.n("areal_oz_yd2")) },
		expect:  map[string]want{"ounces": {"items[0].hanging mass", "oz"}, "pounds": {"items[0].hanging mass", "lb"}},
		printed: []slip{{"pounds", func(s string) string { return "    hanging_mass: " + s + " lb\n" }, "items[0].hanging_mass", "18 lb"}},
	},
	"TC-06": { // the circumference of a rod: twice a pocket without ease
		order: func(e example) string {
			return strings.Replace(curtainOf("in", "54", "fullness: 2, ease: 0", "width: 90, diameter: "+e.n("diameter_in"), "length: 90", noHems), "gathered", "rod pocket", 1)
		},
		expect: map[string]want{"circumference_in": {"items[0].pocket height ×2", "in"}},
	},
}

// repeatOf is an order for one raw cut on a patterned cloth.
func repeatOf(units, raw, repeat string) func(e example) string {
	return func(e example) string {
		return strings.Replace(showerOf(units, "130", "100", e.n(raw), "0", "0", "0"), "selvedge: 0", "selvedge: 0, repeat: {length: "+e.n(repeat)+"}", 1)
	}
}

func cutLengthOf(s string) string { return "    cuts: [{piece: piece, length: " + s + "}]\n" }

func showerOf(units, cloth, width, long, top, bottom, sides string) string {
	return fmt.Sprintf(`order: T
units: %s
cloths: {c: {width: %s, selvedge: 0}}
items:
  - item: shower curtain
    cloth: c
    finished: {width: %s, length: %s}
    hems: {top: {turn: %s, folds: 1}, bottom: {turn: %s, folds: 1}, sides: {turn: %s, folds: 1}}
`, units, cloth, width, long, top, bottom, sides)
}

func weightOf(yards, width, areal string) string {
	return strings.Replace(showerOf("in", width, width, yards+" yd", "0", "0", "0"), "selvedge: 0", "selvedge: 0, weight: "+areal+" oz/yd2", 1)
}

// TestWorkedExamples feeds the published worked examples that apply through the
// worksheet. The numbers agree to the places that are printed; a printed slip is
// corrected to the right value.
func TestWorkedExamples(t *testing.T) {
	all := examples(t)
	loader, tables := tools(t)
	list := maps.Clone(made)
	maps.Copy(list, trials)
	for _, id := range slices.Sorted(maps.Keys(list)) {
		tr, e := list[id], all[id]
		t.Run(id, func(t *testing.T) {
			if e.ID == "" {
				t.Fatal("there is no such example")
			}
			t.Log(e.Source)
			text := tr.order(e)
			s := sheetOf(t, loader, tables, text)
			for key, w := range tr.expect {
				expected := e.number(e.Expected, key)
				got := quantityIn(t, s, w)
				printed, _ := got.Float64()
				if d := printed - expected; d > 0.0051 || d < -0.0051 {
					t.Errorf("%s: %s is %v, expected %v", key, w.quantity, printed, expected)
				}
			}
			if tr.stands != nil {
				for _, x := range said(sheetOf(t, loader, tables, text+tr.stands(e))) {
					t.Errorf("%s is called wrong, and should be %s", x.path, x.text)
				}
			}
			for _, p := range tr.printed {
				value := ""
				if v, ok := e.Printed[p.key].(float64); ok {
					value = plain(v)
				}
				s := sheetOf(t, loader, tables, text+p.state(value))
				list := said(s)
				if len(list) != 1 {
					t.Fatalf("printed %s %s: %d things are wrong, not one", p.key, value, len(list))
				}
				x := list[0]
				if x.how == "either" { // of several readings the printed slip has to be one
					x = among(s, x, p.path)
				}
				if x.path != p.path || x.text != p.right {
					t.Errorf("printed %s: %s is corrected to %q, not %s to %q", p.key, x.path, x.text, p.path, p.right)
				}
				if x.slip != nil {
					t.Logf("printed %s: %s", p.key, x.slip.Name)
				}
			}
		})
	}
}

func tools(t testing.TB) (*load.Loader, *trade.Tables) {
	t.Helper()
	loader, err := load.New()
	if err != nil {
		t.Fatal(err)
	}
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	return loader, tables
}

// sheetOf works out the one order of a YAML text, which must have no flaws.
func sheetOf(t testing.TB, loader *load.Loader, tables *trade.Tables, text string) *worksheet.Sheet {
	t.Helper()
	orders := loader.Orders(&source.File{Name: "order.yaml", Text: text}, load.YAML, load.Options{})
	if len(orders) != 1 {
		t.Fatalf("%d orders in\n%s", len(orders), text)
	}
	for _, f := range orders[0].Flaws {
		if f.Kind != order.Blank {
			t.Fatalf("flaw %+v in\n%s", f, text)
		}
	}
	s := worksheet.Work(orders[0], tables, goods.All())
	diagnose.Order(s)
	return s
}

// quantityIn is a quantity of the sheet in a unit. Its path may end in " -n" or
// " ×n", for a number that an example states less or more of.
func quantityIn(t *testing.T, s *worksheet.Sheet, w want) *big.Rat {
	t.Helper()
	path, less, _ := strings.Cut(w.quantity, " -")
	path, times, _ := strings.Cut(path, " ×")
	for _, q := range s.All {
		if q.Path() != path {
			continue
		}
		v := new(big.Rat)
		switch q.Value.Sort {
		case worksheet.Length:
			u, ok := length.ParseUnit(w.unit)
			if !ok {
				t.Fatalf("no unit for %s", path)
			}
			v.SetFrac64(q.Value.N, int64(u.Length()))
		case worksheet.Mass:
			v.SetFrac64(q.Value.N, map[string]int64{"oz": int64(mass.Ounce), "lb": int64(mass.Pound)}[w.unit])
		case worksheet.Ratio:
			v.SetFrac64(q.Value.R.Num, max(1, q.Value.R.Den))
		default:
			v.SetInt64(q.Value.N)
		}
		if n, ok := new(big.Rat).SetString(less); ok {
			v.Sub(v, n)
		}
		if n, ok := new(big.Rat).SetString(times); ok {
			v.Mul(v, n)
		}
		return v
	}
	t.Errorf("nothing is worked out for %s", path)
	return new(big.Rat)
}
