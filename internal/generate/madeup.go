package generate

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
)

// made are the made-up goods, and how each is drawn.
var made = map[string]func(*draft, *block){
	"valance":       (*draft).valance,
	"Roman shade":   (*draft).romanShade,
	"cushion cover": (*draft).cushionCover,
	"tablecloth":    (*draft).tablecloth,
	"runner":        (*draft).runner,
	"placemat":      (*draft).placemat,
	"napkin":        (*draft).napkin,
	"duvet cover":   (*draft).duvetCover,
	"pillowcase":    (*draft).pillowcase,
	"bedspread":     (*draft).bedspread,
	"bed skirt":     (*draft).bedSkirt,
	"tie-back":      (*draft).tieBack,
	"cornice":       (*draft).cornice,
}

// kindsMade are the made-up goods in order, so that what is drawn depends on the seed
// alone.
var kindsMade = slices.Sorted(maps.Keys(made))

// madeUp draws an item of made-up goods.
func (d *draft) madeUp(i int, kind string) {
	wide := d.rng.IntN(3) == 0
	item := of("item", kind, "id", fmt.Sprintf("made-%d", i+1), "room", oneOf(d.rng, rooms...),
		"cloth", d.cloth(fmt.Sprintf("cloth%d", i+1), faceCloths, wide, d.rng.IntN(3) == 0, false))
	if d.rng.IntN(3) == 0 {
		item.set("quantity", oneOf(d.rng, "2", "4", "6"))
	}
	made[kind](d, item)
	item.set("cuts", []*block{})
	item.set("press", of("setting", nil))
	d.items = append(d.items, item)
}

// sized writes a length from least to most, in inches.
func (d *draft) sized(least, most int64) string { return d.write(d.size(least, most)) }

// small writes one of two lengths for the same purpose.
func (d *draft) small(sixteenths, mm int64) string { return d.write(d.either(sixteenths, mm)) }

// second draws a further cloth for a part of the item.
func (d *draft) second(part string) string {
	return d.cloth(part+strconv.Itoa(len(d.items)+1), linings, false, false, false)
}

func (d *draft) coin() bool { return d.rng.IntN(2) == 0 }

func (d *draft) sewn() *block {
	return of("layout", "center and sides", "seam", "plain", "allowance", d.small(8, 12), "finish", "overlocked")
}

func (d *draft) tablecloth(item *block) {
	shape := oneOf(d.rng, "rectangular", "rectangular", "square", "round", "oval")
	item.set("shape", shape)
	table := &block{}
	switch shape {
	case "round":
		table.set("diameter", d.sized(30, 60))
	case "square":
		table.set("width", d.sized(30, 44))
	default:
		table.set("width", d.sized(30, 44))
		table.set("length", d.sized(48, 96))
	}
	table.set("height", d.sized(28, 30))
	item.set("table", table)
	if shape == "oval" {
		item.set("oval", oneOf(d.rng, "racetrack", "ellipse"))
	}
	item.set("drop", d.sized(6, 12))
	turn := d.either(16, 25)
	if shape == "round" || shape == "oval" {
		turn = d.either(8, 10)
	}
	item.set("hem", of("turn", d.write(turn), "folds", "2"))
	item.set("join", d.sewn())
	if shape == "round" {
		item.set("finished", of("diameter", nil))
	} else {
		item.set("finished", of("width", nil, "length", nil))
	}
	item.set("widths", nil)
}

func (d *draft) runner(item *block) {
	if d.coin() {
		item.set("finished", of("width", d.sized(12, 18), "length", nil))
		item.set("table", of("width", d.sized(36, 44), "length", d.sized(54, 96)))
		item.set("overhang", d.sized(6, 12))
	} else {
		item.set("finished", of("width", d.sized(12, 18), "length", d.sized(54, 90)))
	}
	d.edged(item, 12, 20)
}

func (d *draft) placemat(item *block) {
	item.set("finished", of("width", d.sized(17, 20), "length", d.sized(12, 15)))
	d.edged(item, 8, 12)
}

func (d *draft) napkin(item *block) {
	side := d.sized(12, 22)
	item.set("finished", of("width", side, "length", side))
	item.set("hem", d.hem(4, 6))
}

// edged draws how a small piece is finished at its edges.
func (d *draft) edged(item *block, sixteenths, mm int64) {
	switch d.rng.IntN(3) {
	case 0:
		item.set("hem", d.hem(sixteenths, mm))
	case 1:
		item.set("made", "lined")
		item.set("allowance", d.small(8, 12))
		item.set("back", of("cloth", d.second("back")))
	default:
		item.set("made", "bordered")
		item.set("allowance", d.small(8, 12))
		item.set("border", of("width", d.sized(1, 2), "spare", d.small(16, 25), "cloth", d.second("edge")))
	}
}

func (d *draft) cushionCover(item *block) {
	style := oneOf(d.rng, "knife edge", "piped", "boxed", "boxed", "round", "bolster")
	item.set("style", style)
	pad := &block{}
	switch style {
	case "round":
		pad.set("diameter", d.sized(14, 20))
		if d.coin() {
			pad.set("depth", d.sized(2, 4))
		}
	case "bolster":
		pad.set("diameter", d.sized(6, 9))
		pad.set("length", d.sized(16, 24))
	default:
		pad.set("width", d.sized(14, 24))
		pad.set("length", d.sized(14, 24))
		if style == "boxed" {
			pad.set("depth", d.sized(2, 4))
		}
	}
	item.set("pad", pad)
	item.set("allowance", d.small(8, 15))
	item.set("fit", "plain")
	if (style == "knife edge" || style == "piped") && d.coin() {
		item.set("closure", of("kind", "envelope", "overlap", d.sized(4, 6), "hem", of("turn", d.small(16, 25), "folds", "2")))
	} else {
		item.set("zip", of("length", nil))
	}
	if style == "boxed" || style == "piped" {
		item.set("piping", of("cloth", d.second("piping"), "cord", d.small(3, 5), "strip", nil, "allowance", d.small(8, 15), "join", d.small(32, 50), "length", nil, "bias_square", nil))
	}
}

func (d *draft) duvetCover(item *block) {
	item.set("duvet", of("width", d.sized(54, 90), "length", d.sized(78, 90)))
	item.set("finished", of("width", nil, "length", nil))
	item.set("allowance", d.small(8, 15))
	item.set("opening", d.hem(16, 25))
	item.set("join", d.sewn())
	item.set("widths", nil)
	if d.coin() {
		item.set("closure", of("kind", "buttons", "closed", d.sized(8, 12), "spacing", nil, "count", nil))
	}
}

func (d *draft) pillowcase(item *block) {
	style := oneOf(d.rng, "housewife", "plain", "Oxford", "cuffed")
	item.set("style", style)
	item.set("finished", of("width", d.sized(18, 22), "length", d.sized(26, 32)))
	item.set("allowance", d.small(8, 15))
	switch style {
	case "housewife":
		item.set("opening", d.hem(32, 50))
		item.set("flap", d.sized(7, 9))
	case "plain":
		item.set("opening", d.hem(32, 50))
	case "cuffed":
		item.set("cuff", of("shows", d.sized(3, 5), "cloth", d.second("cuff")))
	default:
		item.set("flange", d.sized(2, 3))
		item.set("closure", of("overlap", d.sized(4, 6), "hem", of("turn", d.small(16, 25), "folds", "2")))
	}
}

func (d *draft) bedspread(item *block) {
	item.set("bed", of("width", d.sized(38, 64), "length", d.sized(74, 80), "height", d.sized(23, 26)))
	item.set("drop", d.sized(14, 21))
	item.set("tuck", d.sized(13, 16))
	item.set("hem", d.hem(16, 25))
	item.set("join", d.sewn())
	item.set("widths", nil)
	item.set("finished", of("width", nil, "length", nil))
	if d.coin() {
		item.set("lining", of("cloth", d.second("lining")))
	}
}

func (d *draft) bedSkirt(item *block) {
	item.set("bed", of("width", d.sized(38, 64), "length", d.sized(74, 80), "height", d.sized(13, 17)))
	item.set("drop", nil)
	item.set("style", oneOf(d.rng, "gathered", "tailored"))
	if item.text("style") == "gathered" {
		item.set("fullness", oneOf(d.rng, "2", "2.25", "2.5"))
	} else {
		item.set("pleats", "2")
		item.set("pleat", d.sized(14, 18))
	}
	item.set("hem", d.hem(16, 25))
	item.set("end_hem", d.small(16, 25))
	item.set("allowance", d.small(8, 15))
	item.set("join", of("seam", "plain", "allowance", d.small(10, 15), "finish", "overlocked"))
	item.set("flat_width", nil)
	item.set("widths", nil)
	item.set("deck", of("cloth", d.second("deck")))
}

func (d *draft) tieBack(item *block) {
	item.set("finished", of("width", d.sized(3, 5), "length", d.sized(16, 30)))
	item.set("allowance", d.small(8, 12))
	item.set("shape", oneOf(d.rng, "straight", "straight", "shaped"))
	item.set("rings", "2")
}

func (d *draft) cornice(item *block) {
	run := oneOf(d.rng, "along", "across")
	item.set("board", of("width", d.sized(40, 90), "return", d.sized(4, 6), "height", d.sized(10, 16), "inside", nil))
	item.set("wrap", d.sized(2, 3))
	item.set("run", run)
	if run == "across" {
		item.set("join", d.sewn())
	}
}

func (d *draft) valance(item *block) {
	style := oneOf(d.rng, "gathered", "box pleat", "rod pocket")
	item.set("board", of("width", d.sized(36, 80), "return", d.sized(3, 5)))
	heading := of("style", style)
	switch style {
	case "box pleat":
		heading.set("sections", strconv.Itoa(3+d.rng.IntN(4)))
		heading.set("fold", d.small(32, 50))
		heading.set("pleats", nil)
		heading.set("take_up", nil)
	case "rod pocket":
		item.set("mount", "rod")
		item.set("rod", of("diameter", d.small(16, 25)))
		heading.set("header", d.small(24, 40))
		heading.set("fullness", oneOf(d.rng, "2", "2.5"))
		heading.set("pocket", nil)
	default:
		heading.set("fullness", oneOf(d.rng, "2", "2.25", "2.5"))
	}
	item.set("heading", heading)
	item.set("finished", of("width", nil, "length", d.sized(12, 18)))
	item.set("hems", of("bottom", d.hem(24, 40), "sides", d.hem(16, 25)))
	item.set("join", of("seam", "plain", "allowance", d.small(10, 15), "finish", "overlocked"))
	item.set("flat_width", nil)
	item.set("widths", nil)
	if d.coin() {
		item.set("lining", of("cloth", d.second("lining"), "hem", d.hem(16, 25)))
	}
}

func (d *draft) romanShade(item *block) {
	width := d.size(24, 60)
	if d.coin() {
		item.set("mount", "inside")
		item.set("recess", of("width", d.write(width+d.either(8, 12))))
	} else {
		item.set("mount", "outside")
	}
	item.set("finished", of("width", d.write(width), "length", d.sized(36, 70)))
	item.set("hems", of("bottom", d.hem(32, 50), "sides", of("turn", d.small(24, 40), "folds", "1")))
	item.set("join", of("seam", "plain", "allowance", d.small(8, 12), "finish", "overlocked")) // in one piece, if it fits
	item.set("headrail", d.small(40, 65))
	item.set("top_wrap", d.sized(4, 6))
	item.set("section", nil)
	item.set("pockets", nil)
	item.set("flap", nil)
	item.set("columns", of("edge", d.small(32, 51), "spacing", nil, "count", nil))
	item.set("lining", of("cloth", d.second("lining"), "inset", d.small(8, 12)))
}
