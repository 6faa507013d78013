package generate

import (
	"fmt"
	"math/rand/v2"
	"strconv"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/trade"
)

// A draft is an order as it is being drawn: its choices, with every outcome
// left blank.
type draft struct {
	rng    *rand.Rand
	tables *trade.Tables
	unit   length.Unit
	style  length.Style // how this person writes lengths
	buys   length.Style // how this person writes lengths of cloth to buy
	market string
	use    string
	odd    bool // sizes, widths and allowances are unusual

	order  *block
	cloths *block
	items  []*block
}

// A plan is what is settled before the dice are thrown, so that an order that
// has to be drawn again is of the same sort.
type plan struct {
	number int
	unit   length.Unit
	kinds  []string // "shower curtain", made-up goods, or the style of a curtain's heading, for each item
}

// drawPlan draws what an order is about: a fifth are shower curtains, two fifths
// curtains of every heading, the rest made-up goods.
func drawPlan(rng *rand.Rand, number int, tables *trade.Tables) plan {
	p := plan{number: number, unit: oneOf(rng, length.In, length.In, length.In, length.CM, length.CM, length.CM, length.MM)}
	for range oneOf(rng, 1, 1, 1, 1, 1, 1, 2, 2, 2, 3) {
		kind := "shower curtain"
		switch rng.IntN(5) {
		case 0, 1:
			kind = oneOf(rng, tables.Headings...).Style
		case 2, 3:
			kind = oneOf(rng, kindsMade...)
		}
		p.kinds = append(p.kinds, kind)
	}
	return p
}

func oneOf[T any](rng *rand.Rand, of ...T) T { return of[rng.IntN(len(of))] }

// The people and houses are made up.
var (
	houses = []string{"Otterbourne Hall", "Marlpit Cottage", "Ashgrove Lodge", "Fenwick Row", "Quince Lane 7", "Saltmarsh House",
		"The Old Creamery", "Larkfield Terrace", "Widow's Acre", "Penhallow Mill", "Brackenside", "Villa Ondina", "Huis ten Dijk"}
	rooms    = []string{"study", "landing", "guest room", "main bedroom", "dining room", "office", "annexe", "sun room"}
	baths    = []string{"bath", "wet room", "guest bath", "shower room", "ground floor bath"}
	patterns = []string{"kelp stripe", "heather", "fern print", "slate weave", "plain", "oat basket", "marsh check", "cobble", "small vine"}
)

// Ways in which people write lengths, by example.
var (
	inchWays   = []string{"10 1/2", "10 1/2", "10-1/2", "10 1/2 in", "10½", `10½"`, "10.5"}
	metricWays = map[length.Unit][]string{
		length.CM: {"10.5", "10.5", "10.5 cm", "10,5", "10.5cm"},
		length.MM: {"105", "105", "105 mm", "105mm"},
	}
)

// draw throws the dice for the choices of an order.
func draw(rng *rand.Rand, p plan, tables *trade.Tables, odd bool) (*draft, error) {
	d := &draft{rng: rng, tables: tables, unit: p.unit, odd: odd, market: "US", use: oneOf(rng, "home", "home", "home", "public")}
	ways, buys := inchWays, oneOf(rng, "5 1/4 yd", "5 1/4 yards")
	if p.unit.Metric() {
		ways, buys = metricWays[p.unit], oneOf(rng, "5.5 m", "5.5m")
		d.market = oneOf(rng, "UK", "EU", "AU")
	}
	var err error
	if _, d.style, err = length.Parse(oneOf(rng, ways...), p.unit); err != nil {
		return nil, fmt.Errorf("a way to write lengths: %w", err)
	}
	if _, d.buys, err = length.Parse(buys, p.unit); err != nil {
		return nil, fmt.Errorf("a way to write cloth to buy: %w", err)
	}
	d.order = of("order", Name(p.number), "client", oneOf(rng, houses...))
	if rng.IntN(2) == 0 {
		d.order.set("due", fmt.Sprintf("2027-%02d-%02d", 1+rng.IntN(12), 1+rng.IntN(28)))
	}
	d.order.set("units", p.unit.String())
	d.order.set("market", d.market)
	if d.use != "home" || rng.IntN(3) == 0 {
		d.order.set("use", d.use)
	}
	d.cloths = &block{}
	d.order.set("cloths", d.cloths)
	for i, kind := range p.kinds {
		switch {
		case kind == "shower curtain":
			d.showerCurtain(i)
		case made[kind] != nil:
			d.madeUp(i, kind)
		default:
			d.curtain(i, tables.Heading(kind))
		}
	}
	d.order.set("items", d.items)
	return d, nil
}

// size draws a length from least to most, given in inches, to a whole step that
// people measure by: half an inch or a centimetre, an odd one an eighth or a
// millimetre.
func (d *draft) size(least, most int64) length.Length {
	step := length.Inch / 2
	switch {
	case d.unit.Metric() && d.odd:
		step = length.Millimetre
	case d.unit.Metric():
		step = length.Centimetre
	case d.odd:
		step = length.Inch / 8
	}
	low, high := length.CeilDiv(length.Inch.Mul(least), step), length.FloorDiv(length.Inch.Mul(most), step)
	return step.Mul(low + d.rng.Int64N(high-low+1))
}

// either is one of two lengths for the same purpose: sixteenths of an inch or
// millimetres. An odd one is up to a quarter more.
func (d *draft) either(sixteenths, mm int64) length.Length {
	if d.odd {
		sixteenths += 2 * d.rng.Int64N(sixteenths/8+1)
		mm += d.rng.Int64N(mm/4 + 1)
	}
	if d.unit.Metric() {
		return length.Millimetre.Mul(mm)
	}
	return (length.Inch / 16).Mul(sixteenths)
}

// write writes a length as the person does.
func (d *draft) write(l length.Length) string { return d.style.Print(l, length.Nearest) }

// named writes a length of hardware as it is sold, with its unit.
func (d *draft) named(l length.Length) string {
	if l%length.Millimetre == 0 {
		return l.Format(length.MM, length.Nearest)
	}
	return l.Format(length.In, length.Nearest)
}

// mass writes a mass in the system of the order.
func (d *draft) mass(kg int64) string {
	if d.unit.Metric() {
		return strconv.FormatInt(kg, 10) + " kg"
	}
	return strconv.FormatInt(kg*22/10, 10) + " lb"
}

// hem is a hem of so many sixteenths of an inch or millimetres a turn, folded
// twice.
func (d *draft) hem(sixteenths, mm int64) *block {
	return of("turn", d.write(d.either(sixteenths, mm)), "folds", "2")
}

// A weave is a sort of cloth.
type weave struct {
	fibers  []string // name and percent by turns
	dots    string   // of its care label
	least   int64    // weight in g/m2
	most    int64
	shrinks int64 // percent along, unless it is washed first
	dry     bool  // not to be washed
}

var (
	bathCloths = []weave{
		{[]string{"polyester", "100"}, "2 dots", 120, 260, 0, false},
		{[]string{"polyester", "60", "linen", "40"}, "2 dots", 180, 280, 2, false},
		{[]string{"cotton", "100"}, "3 dots", 180, 300, 3, false},
	}
	faceCloths = []weave{
		{[]string{"polyester", "100"}, "2 dots", 180, 320, 0, false},
		{[]string{"cotton", "100"}, "3 dots", 170, 290, 3, false},
		{[]string{"linen", "55", "cotton", "45"}, "3 dots", 200, 340, 4, false},
		{[]string{"wool", "70", "viscose", "30"}, "2 dots", 300, 480, 0, true},
		{[]string{"viscose", "60", "linen", "40"}, "2 dots", 220, 380, 0, true},
	}
	linings = []weave{
		{[]string{"cotton", "100"}, "3 dots", 120, 165, 3, false},
		{[]string{"polyester", "65", "cotton", "35"}, "2 dots", 115, 160, 2, false},
	}
)

// cloth draws a cloth and returns its name. Wide is one that goes across
// without a join.
func (d *draft) cloth(name string, of1 []weave, wide, patterned, damp bool) string {
	w := oneOf(d.rng, of1...)
	fiber := &block{}
	for i := 0; i < len(w.fibers); i += 2 {
		fiber.set(w.fibers[i], w.fibers[i+1])
	}
	c := of("name", oneOf(d.rng, patterns...)+" "+strings.TrimRight(name, "123456789"), "fiber", fiber, "width", d.write(d.clothWidth(wide)),
		"selvedge", d.write(d.either(8, 10)), "weight", d.weight(w.least+10*d.rng.Int64N((w.most-w.least)/10+1)))
	if patterned && d.rng.IntN(3) == 0 {
		repeat := of("length", d.write(d.size(6, 26)), "match", oneOf(d.rng, "straight", "straight", "half drop"))
		c.set("repeat", repeat)
		c.set("nap", oneOf(d.rng, "none", "one way"))
	}
	switch {
	case w.shrinks > 0 && d.rng.IntN(2) == 0:
		c.set("shrinks", of("length", strconv.FormatInt(w.shrinks, 10)+"%"))
	case w.shrinks > 0:
		c.set("washed", true)
	}
	if damp {
		c.set("damp", "resists")
	}
	care := of("iron", w.dots)
	if !w.dry {
		care.set("wash", "40 C")
	}
	c.set("care", care)
	if d.use == "public" {
		if ask := d.tables.FireFor(d.market, d.use, "curtain"); ask != nil {
			c.set("fire", ask.Claims[:1])
		}
	}
	c.set("sold_by", map[bool]string{true: "10 cm", false: "1/4 yd"}[d.unit.Metric()])
	c.set("ordered", nil)
	d.cloths.set(name, c)
	return name
}

func (d *draft) clothWidth(wide bool) length.Length {
	switch metric := d.unit.Metric(); {
	case d.odd && wide:
		return d.size(100, 120)
	case d.odd:
		return d.size(46, 62)
	case wide && metric:
		return length.Centimetre.Mul(oneOf[int64](d.rng, 280, 300))
	case wide:
		return length.Inch.Mul(oneOf[int64](d.rng, 108, 118))
	case metric:
		return length.Centimetre.Mul(oneOf[int64](d.rng, 137, 138, 140, 150))
	}
	return length.Inch.Mul(oneOf[int64](d.rng, 54, 55, 57, 60))
}

// weight writes a weight per area as the country does.
func (d *draft) weight(gsm int64) string {
	if d.unit.Metric() {
		return fmt.Sprintf("%d g/m2", gsm)
	}
	return fmt.Sprintf("%d.%d oz/yd2", gsm*100/3391, gsm*1000/3391%10)
}

// showerCurtain draws a flat hanging with grommets along its top.
func (d *draft) showerCurtain(i int) {
	wide := d.rng.IntN(3) == 0
	cloth := d.cloth(fmt.Sprintf("duck%d", i+1), bathCloths, wide, !wide, true)
	width, drop := d.size(70, 100), d.size(70, 84)
	top := oneOf(d.rng, 1, 2)
	hems := of("top", d.hem(24, 40), "bottom", d.hem(48, 75), "sides", d.hem(8, 15))
	if top == 2 {
		hems.set("top", d.hem(32, 50))
	}
	item := of("item", "shower curtain", "id", fmt.Sprintf("bath-%d", i+1), "room", oneOf(d.rng, baths...), "cloth", cloth,
		"finished", of("width", d.write(width), "length", d.write(drop)), "hems", hems)
	if !wide {
		item.set("join", d.join(oneOf(d.rng, "center and sides", "center and sides", "equal")))
	}
	item.set("widths", nil)
	item.set("cuts", []*block{})
	fromTop := d.either(int64(8+4*top), 20)
	item.set("holes", of("make", "grommet", "count", nil, "spacing", nil, "from_side", d.write(d.either(48, 76)),
		"from_top", d.write(fromTop), "bore", d.named(length.Inch/2), "flange", d.named(length.Inch)))
	item.set("press", of("setting", nil))
	item.set("rod", of("length", d.write(width-d.size(6, 12)), "diameter", d.write(d.either(16, 25)),
		"above_floor", d.write(drop-fromTop+d.either(24, 38)), "holds", d.mass(14)))
	item.set("weights", of("kind", "chain", "mass", oneOf(d.rng, "50 g/m", "35 g/m")))
	item.set("hanging_mass", nil)
	d.items = append(d.items, item)
}

// join draws how the pieces of a flat hanging are joined.
func (d *draft) join(layout string) *block {
	j := of("layout", layout, "seam", oneOf(d.rng, "plain", "French", "flat felled"), "allowance", d.write(d.either(10, 16)))
	switch j.text("seam") {
	case "plain":
		j.set("finish", oneOf(d.rng, "overlocked", "zigzag", "bound"))
	case "French":
		j.set("first_row", d.write(d.either(4, 6)))
		j.set("trim", d.write(d.either(2, 3)))
	default:
		j.set("trim", d.write(d.either(4, 6)))
	}
	return j
}

// curtain draws a curtain of a heading, lined or not. Of a wide cloth it may be turned, so
// that its length lies across the cloth.
func (d *draft) curtain(i int, h *trade.Heading) {
	wide := d.rng.IntN(8) == 0
	turned := wide && d.rng.IntN(2) == 0
	cloth := d.cloth(fmt.Sprintf("face%d", i+1), faceCloths, wide, !wide, false)
	panels := oneOf(d.rng, "1", "2", "2", "2")
	item := of("item", "curtain", "id", fmt.Sprintf("window-%d", i+1), "room", oneOf(d.rng, rooms...),
		"panels", panels, "cloth", cloth)

	track := d.size(40, 120)
	rail := of("kind", "track", "width", d.write(track))
	item.set("track", rail)
	heading := of("style", h.Style)
	hems := of("bottom", d.hem(64, 100), "sides", d.hem(24, 38))
	item.set("hang", nil)
	item.set("heading", heading)
	item.set("finished", of("width", nil, "length", nil))
	item.set("hems", hems)
	item.set("join", of("seam", "plain", "allowance", d.write(d.either(10, 16)), "finish", "overlocked"))
	item.set("flat_width", nil)
	item.set("widths", nil)
	if turned {
		item.set("run", "along")
	}
	item.set("cuts", []*block{})
	heading.set("fullness", d.fullness(h))
	switch h.Hangs {
	case "hooks":
		rail.set("return", d.write(d.either(56, 80)))
		if panels == "2" {
			rail.set("overlap", d.write(d.either(64, 100)))
		}
		heading.set("allowance", d.write(h.Allowance.Round(d.either(8, 10), length.Nearest)))
		heading.set("hook_drop", d.write(d.either(24, 40)))
	case "holes":
		d.eyelets(item)
	case "pocket":
		rail.set("kind", "pole")
		rail.set("diameter", d.write(d.either(16, 25)))
		heading.set("header", d.write(d.either(24, 40)))
		heading.set("pocket", nil)
		heading.set("hook_drop", d.write(d.either(24, 40)))
		heading.set("allowance", d.write(d.either(88, 140)))
	case "tabs":
		rail.set("kind", "pole")
		rail.set("diameter", d.write(d.either(16, 25)))
		heading.set("tab_width", d.write(d.either(32, 50)))
		heading.set("tab_drop", d.write(d.either(48, 80)))
		heading.set("tabs", strconv.Itoa(5+d.rng.IntN(12)))
		heading.set("gap", nil)
	}
	if h.Pleats {
		heading.set("pleats", nil)
		heading.set("spacing", nil)
		heading.set("take_up", nil)
	}
	d.hang(item, rail)
	if d.rng.IntN(2) == 0 {
		lining := of("cloth", d.cloth(fmt.Sprintf("lining%d", i+1), linings, wide, false, false),
			"shorter", d.write(d.either(16, 25)), "narrower", d.write(d.either(64, 100)),
			"hem", d.hem(32, 50), "widths", nil)
		if turned {
			lining.set("run", "along")
		}
		item.set("lining", lining)
	}
	rail.set("holds", d.mass(60))
	item.set("press", of("setting", nil))
	item.set("hanging_mass", nil)
	d.items = append(d.items, item)
}

// fullness draws a fullness that suits a heading, in steps of a twentieth.
func (d *draft) fullness(h *trade.Heading) string {
	twenty := length.NewRatio(20, 1)
	least, most := h.Least.Mul(twenty).Int(length.Up), h.Most.Mul(twenty).Int(length.Down)
	return length.NewRatio(least+d.rng.Int64N(max(1, most-least+1)), 20).Format(2)
}

// eyelets draws the holes of an eyelet heading and the pole that goes through.
func (d *draft) eyelets(item *block) {
	var fit []trade.Eyelet
	for _, e := range d.tables.Eyelets {
		if e.Rod >= length.Inch {
			fit = append(fit, e)
		}
	}
	e := oneOf(d.rng, fit...)
	step := d.either(8, 5)
	fromTop := (e.Flange/2 + d.either(8, 15)).Round(step, length.Up)
	side := (e.Flange/2 + d.either(32, 50)).Round(step, length.Up)
	turn := (fromTop + e.Flange/2 + d.either(8, 10)).Round(step, length.Up)
	item.at("track").set("kind", "pole")
	item.at("track").set("diameter", d.named(e.Rod))
	item.at("hems").set("top", of("turn", d.write(turn), "folds", "2"))
	item.set("holes", of("make", "grommet", "count", nil, "spacing", nil, "from_side", d.write(side),
		"from_top", d.write(fromTop), "bore", d.named(e.Bore), "flange", d.named(e.Flange)))
}

// hang draws where a curtain's foot comes to.
func (d *draft) hang(item, rail *block) {
	to := oneOf(d.rng, "floor", "floor", "floor", "sill", "below sill")
	hang := of("to", to)
	switch to {
	case "floor":
		hang.set("clearance", d.write(d.either(8, 12)))
		rail.set("above_floor", d.write(d.size(84, 108)))
	case "sill":
		hang.set("clearance", d.write(d.either(8, 12)))
		rail.set("above_sill", d.write(d.size(40, 66)))
		item.at("hems").set("bottom", d.hem(48, 75))
	default:
		hang.set("clearance", d.write(d.either(96, 150)))
		rail.set("above_sill", d.write(d.size(40, 66)))
		item.at("hems").set("bottom", d.hem(48, 75))
	}
	item.set("hang", hang)
}
