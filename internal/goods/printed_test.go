package goods_test

import (
	"encoding/json"
	"maps"
	"os"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"cutgate/internal/length"
)

// itemOf is an order of one item of one cloth without a selvedge.
func itemOf(units, width, item string) string {
	return "order: T\nunits: " + units + "\ncloths: {c: {width: " + width + ", selvedge: 0}}\nitems:\n  - " + item
}

// made are more of the published examples that are fed through the worksheet: those of
// made-up goods whose printed numbers are slips, and others that are no row of
// testdata/goods-checks.json.
var made = map[string]trial{
	"CY-20": {
		order: func(e example) string {
			return showerOf("in", "130", "100", e.n("window_height_in"), "6", "6", "0")
		},
		expect:  map[string]want{"curtain_length_in": {"items[0].cut length", "in"}},
		printed: []slip{{"curtain_length_in", cutLengthOf, "items[0].cuts[0].length", "112"}},
	},
	// A lining in one piece across two drops: of turned cloth.
	"CY-07": {
		order: func(e example) string {
			return "order: T\nunits: cm\ncloths: {c: {width: " + e.n("fabric_width_cm") + ", selvedge: 0}, l: {width: 280}}\nitems:\n  - item: curtain\n    cloth: c\n    panels: 1\n" +
				"    heading: {style: gathered, fullness: " + e.n("drops") + "}\n    finished: {width: " + e.n("fabric_width_cm") + ", length: 200}\n    join: {allowance: 0}\n" + noHems +
				"    lining: {cloth: l, run: along, narrower: 0}\n"
		},
		expect: map[string]want{"continuous_lining_cm": {"items[0].lining cut length", "cm"}},
	},
	// Eight inches for a double hem and four for the heading, which the lining runs up into.
	"CW-02": {
		order: func(e example) string {
			return "order: T\nunits: in\ncloths: {c: {width: " + e.n("face_width_in") + ", selvedge: 0}, l: {width: " + e.n("face_width_in") + "}}\nitems:\n  - item: curtain\n    cloth: c\n    panels: 1\n" +
				"    track: {width: 52, above_floor: " + e.n("ring_to_floor_in") + "}\n    hang: {to: floor, clearance: 1}\n    heading: {style: gathered, fullness: 1, allowance: 4}\n" +
				"    hems: {bottom: {turn: 4}, sides: {turn: 1, folds: 1}}\n    lining: {cloth: l, narrower: 4, shorter: 1, hem: {turn: 3}}\n"
		},
		expect: map[string]want{"finished_in": {"items[0].finished length", "in"}, "face_cut_in": {"items[0].cut length", "in"}},
		stands: func(e example) string {
			return "    cuts: [{piece: lining, width: " + plain(e.number(e.Expected, "lining_cut_in.0")) + ", length: " + plain(e.number(e.Expected, "lining_cut_in.1")) + "}]\n"
		},
	},
	"CW-03": {
		order: func(e example) string {
			return "order: T\nunits: cm\ncloths: {c: {width: " + e.n("face_cut_cm.0") + ", selvedge: 0}, l: {width: 140}}\nitems:\n  - item: curtain\n    cloth: c\n    panels: 1\n" +
				"    heading: {style: gathered, fullness: 1, allowance: 0}\n    finished: {width: 132, length: 234}\n    hems: {bottom: {turn: 8}, sides: {turn: 4, folds: 1}}\n" +
				"    lining: {cloth: l, narrower: 8, shorter: 2, hem: {turn: 5}}\n"
		},
		expect: map[string]want{"lining_cut_cm.1": {"items[0].lining cut length", "cm"}, "face_finished_width_cm": {"items[0].panel width, flat", "cm"}, "lining_turned_length_cm": {"items[0].lining cut length -10", "cm"}},
		stands: func(e example) string {
			return "    cuts: [{piece: width, length: " + e.n("face_cut_cm.1") + "}, {piece: lining, width: " + plain(e.number(e.Expected, "lining_cut_cm.0")) + "}]\n"
		},
	},
	// A front with a motif in its middle, and a repeat to start on.
	"CK-23": {
		order:  func(e example) string { return motifOf(e, 1) },
		expect: map[string]want{"waste_cm": {"cloths.c.cloth needed -97", "cm"}}, // 52 to start on, and the cut's own 45
	},
	"CY-22": {
		order: func(e example) string {
			return curtainOf("in", "54", "fullness: "+e.n("fullness"), "width: "+e.n("rod_face_in")+", return: "+e.n("return_each_in"), "", noHems)
		},
		expect:  map[string]want{"rod_with_returns_in": {"items[0].finished width", "in"}, "flat_width_in": {"items[0].flat width", "in"}},
		printed: []slip{{"rod_with_returns_in", func(s string) string { return "    finished: {width: " + s + "}\n" }, "items[0].finished.width", "55"}},
	},
	"CY-24": {
		order: func(e example) string {
			return curtainOf("in", e.n("fabric_width_in"), "fullness: 1", "", "width: 167, length: "+e.n("strip_depth_in"), noHems+"    panels: 1\n")
		},
		expect: map[string]want{
			"cut_width_in": {"items[0].flat width", "in"}, "strips_raw": {"items[0].widths before rounding", ""}, "strips": {"items[0].width pieces to cut", ""},
			"total_in": {"cloths.c.cloth needed", "in"}, "yards": {"cloths.c.cloth needed", "yd"},
		},
		// The program takes a half width, which is cut as a whole one.
		printed: []slip{{"strips", func(s string) string { return "    widths: " + s + "\n" }, "items[0].widths", "3.5"}},
	},
	"PL-04": {
		order: func(e example) string {
			return showerOf("in", "54", "40", "60", "4", "3", "1") + "    tabs: {count: 2, width: " + e.n("finished_tab_width_in") + ", allowance: " + e.n("seam_in") + "}\n"
		},
		expect: map[string]want{"tab_cut_width_in": {"items[0].tab cut width", "in"}},
	},
	"BD-05": {
		order: func(e example) string {
			return itemOf("in", "60", "{item: bedspread, cloth: c, bed: {width: "+e.n("bed_in.0")+", length: "+e.n("bed_in.1")+"}, drop: "+e.n("overhang_in")+
				", tuck: 0, hem: {turn: 1/2, folds: 1}, head_hem: 1/2, join: {layout: equal, allowance: 1/2}, corners: square, cuts: [{piece: piece}]}\n")
		},
		expect: map[string]want{"length_in": {"items[0].cut length", "in"}, "total_in": {"cloths.c.cloth needed", "in"}, "yards": {"cloths.c.cloth needed", "yd"}},
	},
	"TH-04": {
		order: func(e example) string { // two sides of 100 in, and a foot of 100
			return "order: T\nunits: in\ncloths: {c: {width: 130, selvedge: 0, thickness: " + e.n("thickness_in") + "}}\nitems:\n" +
				"  - item: shower curtain\n    cloth: c\n    finished: {width: 100, length: 100}\n" + hems("0", "0", "0") + "    join: {stitches: " + e.n("spi") + "}\n"
		},
		expect: map[string]want{"thread_in_per_in": {"items[0].thread ×1/345", "in"}}, // of 300 in, with 15 % over
	},
	"SH-01": {
		order: func(e example) string {
			return "order: T\nunits: in\ncloths: {c: {width: " + e.n("width_in") + ", selvedge: 0, shrinks: {width: 10%}}}\nitems:\n" +
				"  - item: curtain\n    cloth: c\n    panels: 1\n    heading: {style: gathered, fullness: 2}\n    join: {allowance: 0}\n    finished: {width: 100, length: 80}\n" + noHems
		},
		expect: map[string]want{"after_in": {"items[0].usable width", "in"}},
	},
	"CK-21": {
		order: func(e example) string {
			return itemOf("cm", e.n("fabric_cm.0"), "{item: cushion cover, cloth: c, style: knife edge, quantity: 3, pad: {width: "+e.n("cover_finished_cm")+", length: "+e.n("cover_finished_cm")+"}, allowance: "+e.n("seam_cm")+", closure: {kind: sewn}}\n")
		},
		expect: map[string]want{"cut_cm": {"items[0].front cut width", "cm"}, "rows": {"cloths.c.cloth needed ×2/91", "cm"}},
	},
	"CK-22": {
		order: func(e example) string {
			return itemOf("cm", e.n("fabric_cm.0"), "{item: cushion cover, cloth: c, style: knife edge, quantity: 2, pad: {width: 45.3, length: 45.3}, allowance: 1.5, closure: {kind: sewn}}\n")
		},
		expect: map[string]want{"rows": {"cloths.c.cloth needed ×10/483", "cm"}},
	},
	"DV-05": {
		order: func(e example) string {
			return itemOf("in", e.n("fabric_width_in"), "{item: duvet cover, cloth: c, finished: {width: "+e.n("finished_in.0")+", length: "+e.n("finished_in.1")+"}, allowance: 0, opening: {turn: 0, folds: 1}, join: {allowance: 0}}\n")
		},
		expect: map[string]want{"both_faces": {"cloths.c.cloth needed", "yd"}},
	},
	"PL-07": {
		order: func(e example) string {
			return "order: T\nunits: cm\ncloths: {c: {width: 140, selvedge: 0}}\nitems:\n  - item: curtain\n    cloth: c\n    panels: 1\n    track: {width: 94, return: 8}\n" +
				"    heading: {style: pinch pleat, pleats: 8}\n    finished: {length: 200}\n    panel_width: " + e.n("panel_cm") + "\n    join: {allowance: 0}\n" + noHems
		},
		expect: map[string]want{"pleat_cm": {"items[0].take-up of a pleat", "cm"}, "space_cm": {"items[0].pleat spacing", "cm"}},
	},
	"CW-05": {
		order: func(e example) string {
			return "order: T\nunits: in\ncloths: {c: {width: 54, selvedge: 0}}\nitems:\n  - item: curtain\n    cloth: c\n    heading: {style: gathered, fullness: 2, allowance: 2 1/2}\n    finished: {width: " +
				e.n("window_in.0") + ", length: " + e.n("window_in.1") + "}\n    join: {allowance: 0}\n    hems: {bottom: {turn: 4, folds: 1}, sides: {turn: 1/2, folds: 1}}\n    weights: {kind: single}\n"
		},
		expect: map[string]want{"cut_width_in": {"items[0].flat width", "in"}, "cut_length_in": {"items[0].cut length", "in"}, "weights": {"items[0].weights", ""}},
	},
	"VA-05": {
		order: func(e example) string {
			return "order: T\nunits: in\ncloths: {c: {width: 54, selvedge: 0}}\nitems:\n  - item: valance\n    cloth: c\n    board: {width: 44, return: 0}\n    heading: {style: gathered, fullness: 2.5}\n    finished: {length: 14}\n" +
				"    hems: {sides: {turn: 0}}\n    join: {allowance: 0}\n"
		},
		expect:  map[string]want{"flat_lined_in.1": {"items[0].flat width", "in"}},
		printed: []slip{{"", func(string) string { return "    flat_width: 106\n" }, "items[0].flat_width", "110"}},
	},
	"CK-01": {
		order: func(e example) string {
			return "order: T\nunits: cm\ncloths: {c: {width: 140, selvedge: 0}}\nitems:\n  - item: cushion cover\n    cloth: c\n    style: knife edge\n    pad: {width: " + e.n("pad_cm") + ", length: " + e.n("pad_cm") + "}\n    ease: " +
				e.n("smaller_cm") + "\n    allowance: " + e.n("seam_cm") + "\n    closure: {kind: sewn}\n"
		},
		expect:  map[string]want{"cut_cm": {"items[0].front cut width", "cm"}},
		printed: []slip{{"cut_cm", func(s string) string { return "    cuts: [{piece: front, width: " + s + "}]\n" }, "items[0].cuts[0].width", "46"}},
	},
	"CR-03": {
		order: func(e example) string {
			return "order: T\nunits: cm\ncloths: {c: {width: 140, selvedge: 0}}\nitems:\n  - item: cushion cover\n    cloth: c\n    style: round\n    pad: {diameter: 78, depth: 10}\n    allowance: " + e.n("seam_cm") + "\n    closure: {kind: sewn}\n"
		},
		expect:  map[string]want{},
		printed: []slip{{"side_piece_cm", func(s string) string { return "    cuts: [{piece: boxing, width: " + s + "}]\n" }, "items[0].cuts[0].width", "124.6"}},
	},
	"PW-12": {
		order: func(e example) string {
			return "order: T\nunits: in\ncloths: {c: {width: 54, selvedge: 0}}\nitems:\n  - item: pillowcase\n    cloth: c\n    style: one strip\n    finished: {width: 21, length: 27}\n    flange: 3\n    allowance: " + e.n("seam_in") +
				"\n    closure: {overlap: " + e.n("overlap_in") + ", hem: {turn: " + e.n("hem_each_in") + ", folds: 1}}\n"
		},
		expect:  map[string]want{"strip_in.0": {"items[0].strip cut length", "in"}, "strip_in.1": {"items[0].strip cut width", "in"}},
		printed: []slip{{"", func(string) string { return "    cuts: [{piece: strip, length: 63 1/2}]\n" }, "items[0].cuts[0].length", "70"}},
	},
	"TC-28": {
		order: func(e example) string {
			return "order: T\nunits: in\ncloths: {c: {width: 130, selvedge: 0}}\nitems:\n  - item: tablecloth\n    cloth: c\n    shape: rectangular\n    table: {width: " + e.n("table_in.0") + ", length: " + e.n("table_in.1") + "}\n    drop: " + e.n("drop_in") + "\n    hem: {turn: 1}\n"
		},
		expect:  map[string]want{"cloth_for_12_in.0": {"items[0].finished width", "in"}, "cloth_for_12_in.1": {"items[0].finished length", "in"}},
		printed: []slip{{"", func(string) string { return "    finished: {length: 160}\n" }, "items[0].finished.length", "108"}},
	},
	"DV-06": {
		order: func(e example) string {
			return "order: T\nunits: in\ncloths: {c: {width: 110, selvedge: 0}}\nitems:\n  - item: duvet cover\n    cloth: c\n    finished: {width: 70, length: 90}\n    closure: {kind: buttons, closed: 0, at_most: 10}\n"
		},
		expect: map[string]want{"buttons": {"items[0].fastenings", ""}},
	},
}

// motifOf is an order for so many cushion fronts of the printed cloth of CK-23, each with
// a motif in its middle.
func motifOf(e example, fronts int) string {
	return "order: T\nunits: cm\ncloths: {c: {width: 137, selvedge: 0, repeat: {length: " + e.n("vertical_repeat_cm") + ", width: " + e.n("horizontal_repeat_cm") + "}}, b: {width: 137}}\nitems:\n" +
		"  - {item: cushion cover, cloth: c, back: {cloth: b}, style: knife edge, motif: center, quantity: " + strconv.Itoa(fronts) + ", pad: {width: 42, length: 42}, allowance: 1.5, closure: {kind: sewn}}\n"
}

// A cushion with a motif in its middle takes whole repeats across the cloth as well: by
// CK-23 two of 30.5 cm, so that two fronts of 45 cm and not three lie across 137 cm.
func TestMotifInTheMiddle(t *testing.T) {
	loader, tables := tools(t)
	e := examples(t)["CK-23"]
	for fronts, centimetres := range map[int]int64{2: 52 + 52, 3: 2*52 + 52, 4: 2*52 + 52, 5: 3*52 + 52} {
		s := sheetOf(t, loader, tables, motifOf(e, fronts))
		got, _ := quantityIn(t, s, want{"cloths.c.cloth needed", "cm"}).Float64()
		if got != float64(centimetres) {
			t.Errorf("%d fronts take %v cm, not %d", fronts, got, centimetres)
		}
	}
}

// notRun are the examples that no order is made of, and why.
var notRun = map[string]string{
	"CY-17": "its lining is narrower than the finished panel; the form counts it against the face as cut",
	"CY-23": "the sum of CY-01 taken backwards",
	"RP-01": "the top is taken from the rod's circumference, which is not measured for an order",
	"EY-01": "six to eight eyelets by the page's own table, not by a spacing",
	"EY-02": "bore and pole, in the trade's tables: rules/hole/testdata/bore-tight.txtar",
	"CU-10": "what a square gives, not what is needed", "BI-02": "what a cut edge gives, not what is needed", "BI-05": "what a square gives, not what is needed",
	"CU-11": "three ways to reckon one square; the program takes the last loss, bias_loss of the house",
	"BD-08": "a quilt of squares", "BS-05": "a flat sheet that is no skirt",
	"WT-04": "a load by the foot; an order states what the rod holds in all",
	"ST-01": "stack-back as a share of the rod; the program takes it of the flat cloth", "ST-03": "stack-back as a share of the glass", "ST-05": "where the rod goes, which is not on the form",
	"TH-01": "chain stitch", "TH-03": "chain stitch", "TH-06": "chain stitch", "TH-07": "how one thread is shared between needle and bobbin", "TH-08": "the speed of a machine",
	"SH-03": "an allowance by the yard; the program divides by what is left", "LB-01": "a fiber label for two layers", "LB-03": "a filling's label",
	"CD-01": "a rule: rules/safety/testdata/cord-too-long.txtar", "CD-03": "a rule: rules/safety/testdata/loop-reachable.txtar", "FL-01": "a class for clothing",
	"FL-03": "a rule: rules/safety/testdata/filling-untested.txtar",
	"CK-24": "a sum of lengths for a chair pad with its ties, not of pieces", "CK-26": "an allowance of which a part is not explained",
	"TC-14": "a skirt clipped round a table", "DV-04": "a cover that is made larger",
	"PW-06": "French seams round a pillowcase", "SW-03": "a swag", "PL-06": "spaces rounded down, and half an inch lost", "PL-08": "pleats by the width of cloth; the program takes a spacing",
	"CW-01": "ease on a pole by its length", "CW-04": "two readings of one allowance",
	"CB-12": "foam by its area", "TC-27": "which tables a cloth fits, backwards",
}

// inOneUnit are the examples that turn a length into another unit.
var inOneUnit = map[string][3]string{ // the key, the length, and what the number is in
	"UN-01": {"mm", "3 in", "mm"}, "UN-05": {"cm", "2 in", "cm"}, "CO-03": {"m.0", "12 ft", "m"}, "CD-04": {"mm.0", "8 in", "mm"},
}

// inPlain are conversions of other measures.
var inPlain = map[string]string{
	"WT-06": "masses by area: internal/mass", "UN-03": "temperatures: internal/order", "SZ-01": "names of sizes, which are no measurements", "TH-09": "stitches by the inch, as they are stated",
}

// Every published example is fed through the worksheet, or there is a reason why not.
func TestEveryExample(t *testing.T) {
	data, err := os.ReadFile("../../testdata/goods-checks.json")
	if err != nil {
		t.Fatal(err)
	}
	var checks []check
	if err := json.Unmarshal(data, &checks); err != nil {
		t.Fatal(err)
	}
	run := map[string]int{}
	number := regexp.MustCompile(`^[A-Z]{2}-\d\d`)
	for _, c := range checks {
		if id := number.FindString(c.ID); id != "" {
			run[id] = 1
		}
	}
	for _, of := range []map[string]trial{trials, made} {
		for id := range of {
			run[id] = 1
		}
	}
	all := examples(t)
	for id := range all {
		_, unit := inOneUnit[id]
		why := notRun[id] + inPlain[id]
		if ways := run[id] + min(len(why), 1); ways == 0 && !unit {
			t.Errorf("%s, %s: is not run, without a reason", id, all[id].Source)
		} else if ways > 1 {
			t.Errorf("%s is run, though there is a reason why not: %s", id, why)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(notRun)) {
		if all[id].ID == "" {
			t.Errorf("there is no example %s", id)
		}
	}
	for id, u := range inOneUnit {
		l, _, err := length.Parse(u[1], length.NoUnit)
		if err != nil {
			t.Fatal(err)
		}
		unit, _ := length.ParseUnit(u[2])
		got := float64(l) / float64(unit.Length())
		if d := got - all[id].number(all[id].Expected, u[0]); d > 0.0051 || d < -0.0051 {
			t.Errorf("%s: %s is %v %s", id, u[1], got, u[2])
		}
	}
}
