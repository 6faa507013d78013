package trade_test

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/build"
	"cuelang.org/go/cue/cuecontext"
	"cuelang.org/go/cue/parser"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/trade"
	"cutgate/schema"
)

// schemaValue is the whole schema, evaluated.
var schemaValue = sync.OnceValues(func() (cue.Value, error) {
	inst := build.NewContext().NewInstance("schema", nil)
	names, err := fs.Glob(schema.Files, "*.cue")
	if err != nil {
		return cue.Value{}, err
	}
	for _, name := range names {
		text, err := schema.Files.ReadFile(name)
		if err != nil {
			return cue.Value{}, err
		}
		file, err := parser.ParseFile(name, text)
		if err != nil {
			return cue.Value{}, err
		}
		if err := inst.AddSyntax(file); err != nil {
			return cue.Value{}, err
		}
	}
	v := cuecontext.New().BuildInstance(inst)
	return v, v.Err()
})

func evaluate(t *testing.T) cue.Value {
	t.Helper()
	v, err := schemaValue()
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func tables(t *testing.T) *trade.Tables {
	t.Helper()
	v := evaluate(t).LookupPath(cue.ParsePath("trade"))
	if err := v.Validate(cue.Concrete(true)); err != nil {
		t.Fatal(err)
	}
	text, err := v.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	d := json.NewDecoder(bytes.NewReader(new(trade.Tables).Pick(text)))
	d.DisallowUnknownFields()
	if err := d.Decode(new(trade.Tables)); err != nil {
		t.Fatal(err)
	}
	tab, err := trade.Read(text)
	if err != nil {
		t.Fatal(err)
	}
	return tab
}

// parsed reads a length that the test wrote.
func parsed(t *testing.T, text string) length.Length {
	t.Helper()
	l, _, err := length.Parse(text, length.NoUnit)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func ratio(num, den int64) length.Ratio { return length.NewRatio(num, den) }

const gram = mass.Linear(mass.Gram)

// Every string field whose JSON name ends in source says something, but where
// the figure beside it is not known.
func TestSources(t *testing.T) {
	tab := tables(t)
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer:
			walk(path, v.Elem())
		case reflect.Slice:
			for i := range v.Len() {
				walk(path, v.Index(i))
			}
		case reflect.Struct:
			for i := range v.NumField() {
				name := v.Type().Field(i).Tag.Get("json")
				if name == "" {
					continue
				}
				if strings.HasSuffix(name, "source") {
					s := v.Field(i).String()
					if strings.ContainsAny(s, "[]") {
						t.Errorf("%s.%s cites by number: %q", path, name, s)
					}
					if f, ok := v.Interface().(trade.Fiber); ok && name == "shrink_source" && f.Shrinks.Num == 0 {
						if s != "" {
							t.Errorf("%s %s: source of a shrinkage that isn't there", path, f.Name)
						}
						continue
					}
					if len(s) < 8 {
						t.Errorf("%s.%s: no source: %+v", path, name, v.Interface())
					}
				} else {
					walk(path+"."+name, v.Field(i))
				}
			}
		}
	}
	walk("trade", reflect.ValueOf(tab))
}

// Every house default is set, and has its source.
func TestHouseIsComplete(t *testing.T) {
	tab := tables(t)
	text, err := evaluate(t).LookupPath(cue.ParsePath("trade.house")).MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	var set map[string]json.RawMessage
	if err := json.Unmarshal(text, &set); err != nil {
		t.Fatal(err)
	}
	typ := reflect.TypeFor[trade.House]()
	for i := range typ.NumField() {
		name := typ.Field(i).Tag.Get("json")
		if _, ok := set[name]; !ok {
			t.Errorf("%s is not set", name)
		}
		if name == "hems" || name == "sources" {
			continue
		}
		if tab.House.Sources[name] == "" {
			t.Errorf("%s has no source", name)
		}
		if tab.SelfSource(name) != tab.House.Sources[name] {
			t.Errorf("SelfSource(%q) = %q", name, tab.SelfSource(name))
		}
		delete(tab.House.Sources, name)
	}
	for name := range tab.House.Sources {
		t.Errorf("source of %s, which is no default", name)
	}
	if got := tab.SelfSource("nothing"); got != trade.Unsourced {
		t.Errorf("SelfSource of an unknown field = %q", got)
	}
}

func TestRowsAreSane(t *testing.T) {
	tab := tables(t)
	less := func(what string, a, b length.Ratio) {
		t.Helper()
		if a.Cmp(b) > 0 {
			t.Errorf("%s: %v is above %v", what, a, b)
		}
	}
	for _, f := range tab.Fibers {
		if f.Creases > f.Dots {
			t.Errorf("%s: creases want %d dots, it stands %d", f.Name, f.Creases, f.Dots)
		}
		less(f.Name, f.Across, f.Shrinks)
		less(f.Name, f.Shrinks, ratio(1, 4))
	}
	for i, s := range tab.Settings {
		if s.Dots != i+1 || i > 0 && s.Celsius <= tab.Settings[i-1].Celsius {
			t.Errorf("setting %d is out of order", i)
		}
	}
	for i, c := range tab.Classes {
		less(c.Name, c.Stitches.Least, c.Stitches.Most)
		if c.Needle.Least > c.Needle.Most {
			t.Errorf("%s: needles", c.Name)
		}
		last := i == len(tab.Classes)-1
		if (c.Below == 0) != last {
			t.Errorf("%s: below %d", c.Name, c.Below)
		}
		if i > 0 {
			p := tab.Classes[i-1]
			if !last && c.Below <= p.Below || c.HemLeast <= p.HemLeast || c.Needle.Most < p.Needle.Most {
				t.Errorf("%s is not heavier than %s", c.Name, p.Name)
			}
		}
	}
	for _, s := range tab.Seams {
		if s.Least > s.Usual || s.Usual > s.Most || s.Least <= 0 {
			t.Errorf("%s: allowances", s.Name)
		}
		if s.Trim*2 >= s.Least*2 || s.Trim*2 >= s.Usual {
			t.Errorf("%s: the trim is not under half the allowance", s.Name)
		}
	}
	for _, h := range tab.Headings {
		less(h.Style, ratio(1, 1), h.Least)
		less(h.Style, h.Least, h.Usual)
		less(h.Style, h.Usual, h.Most)
		less(h.Style, h.Most, h.SheerMost)
		if h.Allowance <= 0 {
			t.Errorf("%s: no allowance", h.Style)
		}
	}
	house := tab.House
	for i, e := range tab.Eyelets {
		if e.Flange <= e.Bore || i > 0 && (e.Bore <= tab.Eyelets[i-1].Bore || e.Rod < tab.Eyelets[i-1].Rod) {
			t.Errorf("eyelet %d: %+v", i, e)
		}
		if e.Rod == 0 {
			continue
		}
		over := length.NewRatio(int64(e.Bore), int64(e.Rod))
		less("bore over rod", house.BoreLeast, over)
		less("bore over rod", over, house.BoreMost)
	}
	for i, c := range tab.Chains {
		if c.Mass <= 0 || i > 0 && c.Mass <= tab.Chains[i-1].Mass {
			t.Errorf("chain %d: %+v", i, c)
		}
	}
	for _, g := range []trade.Gap{house.PleatGap, house.TabGap, house.OffFloor} {
		if g.Least <= 0 || g.Least > g.Most {
			t.Errorf("gap %+v", g)
		}
	}
	less("bore", house.BoreLeast, house.BoreMost)
	for _, h := range house.Hems {
		if h.Turn <= 0 || h.Folds < 1 {
			t.Errorf("hem %+v", h)
		}
	}
}

// TestEditions holds the two editions against each other: no metric figure of a shop's
// is an inch one turned into millimetres, and either edition leads to the other.
func TestEditions(t *testing.T) {
	inches := tables(t)
	metric := inches.For(length.CM)
	if metric == inches || inches.For(length.Yd) != inches || metric.For(length.M) != metric || metric.For(length.Ft) != inches {
		t.Fatal("an edition does not lead to the other")
	}
	even := func(name string, in, mm length.Length) {
		t.Helper()
		if in%(length.Inch/16) != 0 || mm%length.Millimetre != 0 {
			t.Errorf("%s: %v and %v", name, in.Format(length.In, length.Nearest), mm)
		}
		if d := in - mm; max(d, -d)*4 > max(in, length.Inch/16) {
			t.Errorf("%s: %v is not about %v", name, in.Format(length.In, length.Nearest), mm)
		}
	}
	a, b := reflect.ValueOf(inches.House), reflect.ValueOf(metric.House)
	for i := range a.NumField() {
		name := a.Type().Field(i).Tag.Get("json")
		if strings.HasPrefix(name, "selling") || name == "selvedge_cover" || name == "selvedge_hide" {
			continue // single, or as fine as is marked: 1/16 in, 1 mm
		}
		switch x := a.Field(i).Interface().(type) {
		case length.Length:
			even(name, x, b.Field(i).Interface().(length.Length))
		case trade.Gap:
			y := b.Field(i).Interface().(trade.Gap)
			even(name+" least", x.Least, y.Least)
			even(name+" most", x.Most, y.Most)
		}
	}
	for i, h := range inches.House.Hems {
		even(h.Item+" "+h.Edge, h.Turn, metric.House.Hems[i].Turn)
	}
	for i, h := range inches.Headings {
		even(h.Style, h.Allowance, metric.Headings[i].Allowance)
	}
	for i, s := range inches.Seams {
		even(s.Name+" least", s.Least, metric.Seams[i].Least)
		even(s.Name+" usual", s.Usual, metric.Seams[i].Usual)
		even(s.Name+" most", s.Most, metric.Seams[i].Most)
	}
}

// No row says what another says already.
func TestNoDuplicates(t *testing.T) {
	tab := tables(t)
	seen := map[string]bool{}
	once := func(parts ...string) {
		t.Helper()
		k := strings.ToLower(strings.Join(parts, "\t"))
		if seen[k] {
			t.Errorf("twice: %q", parts)
		}
		seen[k] = true
	}
	for _, f := range tab.Fibers {
		once("fiber", f.Name)
		for _, name := range append(slices.Clone(f.Also), f.Brands...) {
			once("fiber", name)
		}
	}
	for _, c := range tab.Classes {
		once("class", c.Name)
	}
	for _, s := range tab.Seams {
		once("seam", s.Name)
	}
	for _, n := range tab.Needles {
		once("needle", strconv.FormatInt(n.Metric, 10))
		once("needle", strconv.FormatInt(n.Number, 10))
	}
	for _, s := range tab.Stitches {
		once("stitch", s.Name)
	}
	for _, h := range tab.Headings {
		once("heading", h.Style)
	}
	for _, c := range tab.Cords {
		once("cord", c.Market, c.Limit)
	}
	for _, f := range tab.Fire {
		once("fire", f.Market, f.Use, f.Goods)
	}
	for _, h := range tab.House.Hems {
		once("hem", h.Item, h.Edge, h.Where)
	}
	for _, w := range tab.Words {
		if w.Where == "goods" {
			once("goods", w.Other, w.Form)
			continue
		}
		if w.Where != "value" {
			once("field", w.Other)
		}
		if w.Where != "field" {
			once("value", w.Other)
		}
	}
	last, done := "", map[string]bool{}
	for _, c := range tab.Cords {
		if c.Market != last && done[c.Market] {
			t.Errorf("the limits of %s are not together", c.Market)
		}
		last, done[c.Market] = c.Market, true
	}
}

// What the sources print, as the tables have it, with a part of the citation.
func TestPublished(t *testing.T) {
	tab := tables(t)
	fiber := func(name string) *trade.Fiber {
		t.Helper()
		f, ok := tab.FiberByName(name)
		if !ok {
			t.Fatalf("no fiber %q", name)
		}
		return f
	}
	for name, dots := range map[string]int{
		"acrylic": 1, "polyamide": 1, "acetate": 1,
		"wool": 2, "silk": 2, "polyester": 2, "viscose": 2,
		"cotton": 3, "linen": 3,
	} {
		if f := fiber(name); f.Dots != dots || !strings.Contains(f.Source, "DonnaD") {
			t.Errorf("%s: %d dots by %q, want %d", name, f.Dots, f.Source, dots)
		}
	}
	for i, celsius := range []int64{110, 150, 200} {
		if s := tab.Setting(i + 1); s.Celsius != celsius || !strings.HasSuffix(s.Source, "from memory") {
			t.Errorf("%d dots: %+v", i+1, *s)
		}
	}

	type fullness struct{ least, most length.Ratio }
	for style, want := range map[string]fullness{
		"pencil pleat":       {ratio(2, 1), ratio(5, 2)},
		"single pinch pleat": {ratio(3, 2), ratio(2, 1)},
		"double pinch pleat": {ratio(11, 5), ratio(12, 5)},
		"triple pinch pleat": {ratio(2, 1), ratio(5, 2)},
		"goblet":             {ratio(5, 2), ratio(5, 2)},
		"cartridge":          {ratio(2, 1), ratio(9, 4)},
		"box pleat":          {ratio(5, 2), ratio(3, 1)},
		"eyelet":             {ratio(3, 2), ratio(9, 4)},
		"wave":               {ratio(17, 10), ratio(9, 4)},
		"tab":                {ratio(5, 4), ratio(2, 1)},
		"rod pocket":         {ratio(2, 1), ratio(3, 1)},
		"gathered":           {ratio(3, 2), ratio(5, 2)},
	} {
		h := tab.Heading(style)
		if h.Least.Cmp(want.least) != 0 || h.Most.Cmp(want.most) != 0 || h.Source == trade.Unsourced {
			t.Errorf("%s: %v to %v by %q", style, h.Least, h.Most, h.Source)
		}
	}

	if e := tab.EyeletForRod(30 * length.Millimetre); e.Bore != 40*length.Millimetre || !strings.Contains(e.Source, "Curtains4u") {
		t.Errorf("eyelet for a 30 mm pole: %+v", *e)
	}
	house := tab.House
	if house.BoreLeast.Cmp(ratio(13, 10)) != 0 || house.BoreMost.Cmp(ratio(7, 5)) != 0 || !strings.Contains(tab.SelfSource("bore_least"), "Singer") {
		t.Errorf("bore %v to %v", house.BoreLeast, house.BoreMost)
	}
	if house.Pitch != 6*length.Inch || house.FromSide != 3*length.Inch || !strings.Contains(tab.SelfSource("pitch"), "standard shower curtain") {
		t.Errorf("pitch %v, from side %v", house.Pitch, house.FromSide)
	}
	if house.MinorFiber.Cmp(ratio(1, 20)) != 0 || tab.SelfSource("minor_fiber") != "16 CFR 303.3" {
		t.Errorf("minor fiber %v", house.MinorFiber)
	}
	if house.LiningNarrower != 4*length.Inch || house.BelowSill != 6*length.Inch || tab.For(length.CM).House.BelowSill != 15*length.Centimetre ||
		house.RecessGap != length.Inch/4 || tab.For(length.MM).House.RecessGap != 6*length.Millimetre {
		t.Error("lining, sill or recess gap")
	}

	for _, want := range []struct {
		market, limit string
		most, height  string
		source        string
	}{
		{"US", "length", "8 in", "0 in", "16 CFR 1260"},
		{"EU", "loop", "200 mm", "1500 mm", "Classy Curtains"},
		{"UK", "hold", "0 in", "1.5 m", "Curtain Express"},
		{"UK", "lowest", "0 in", "0.6 m", "Curtain Express"},
		{"AU", "loop", "220 mm", "1600 mm", "Product Safety Australia"},
		{"AU", "hold", "0 in", "1600 mm", "Product Safety Australia"},
		{"CA", "length", "22 cm", "0 in", "from memory"},
		{"CA", "loop", "44 cm", "0 in", "from memory"},
	} {
		limits := tab.CordLimits(want.market)
		i := slices.IndexFunc(limits, func(c trade.Cord) bool { return c.Limit == want.limit })
		if i < 0 {
			t.Errorf("%s has no limit of %s", want.market, want.limit)
			continue
		}
		c := limits[i]
		if c.Most != parsed(t, want.most) || c.Height != parsed(t, want.height) || !strings.Contains(c.Source, want.source) {
			t.Errorf("%s %s: %+v", want.market, want.limit, c)
		}
	}

	for name, base := range map[string]int64{"101": 3, "301": 2, "401": 4} {
		if s := tab.Stitch(name); s.Base != base || !strings.Contains(s.Source, "Textile Calculations") {
			t.Errorf("stitch %s: %+v", name, *s)
		}
	}
	if h := tab.HemFor("curtain", "bottom", "floor"); h.Turn != 4*length.Inch || h.Folds != 2 || !strings.Contains(h.Source, "Inweave") {
		t.Errorf("floor hem: %+v", *h)
	}
}

// Ordinary hems of ordinary cloths are heavy enough.
func TestOrdinaryHemsHang(t *testing.T) {
	tab := tables(t)
	for _, c := range []struct {
		grams int64
		turn  string
	}{
		{40, "5 in"}, {60, "5 in"}, {100, "5 in"}, {100, "3 in"}, {110, "3 in"}, {140, "3 in"}, {140, "4 in"},
		{170, "7.5 cm"}, {200, "3 in"}, {240, "3 in"}, {300, "3 in"}, {320, "7.5 cm"}, {450, "4 in"}, {520, "3 in"}, {600, "4 in"},
	} {
		areal := mass.Areal(mass.Mass(c.grams) * mass.Gram)
		hem := areal.Strip(2 * parsed(t, c.turn))
		if class := tab.Class(areal); hem < class.HemLeast {
			t.Errorf("%d g/m2, %s double: %d g/m, under the %d of %s cloth", c.grams, c.turn, hem/gram, class.HemLeast/gram, class.Name)
		}
	}
}

func TestLookUps(t *testing.T) {
	tab := tables(t)
	for _, name := range []string{"flax", "Rayon", "olefin", "PEVA", "pvc", "polyamide", "Spandex"} {
		if _, ok := tab.FiberByName(name); !ok {
			t.Errorf("no fiber %q", name)
		}
	}
	if _, ok := tab.FiberByName("lycra"); ok {
		t.Error("a trade name was taken for a generic one")
	}
	if f, ok := tab.FiberByBrand("Lycra"); !ok || f.Name != "elastane" {
		t.Error("lycra is elastane")
	}
	for celsius, dots := range map[int64]int{90: 1, 110: 1, 111: 2, 150: 2, 200: 3, 201: 4} {
		if got := tab.DotsAt(celsius); got != dots {
			t.Errorf("DotsAt(%d) = %d, want %d", celsius, got, dots)
		}
	}
	for grams, name := range map[int64]string{60: "sheer", 110: "light", 169: "light", 240: "medium", 300: "heavy", 900: "very heavy"} {
		c := tab.Class(mass.Areal(mass.Mass(grams) * mass.Gram))
		if c.Name != name || tab.ClassByName(name) != c {
			t.Errorf("%d g/m2 is %s, want %s", grams, c.Name, name)
		}
	}
	if e := tab.EyeletForRod(length.Inch); e.Rod != length.Inch {
		t.Errorf("eyelet for a 1 in rod: %+v", *e)
	}
	if e := tab.EyeletForRod(60 * length.Millimetre); e != nil {
		t.Errorf("eyelet for a 60 mm rod: %+v", *e)
	}
	if e := tab.EyeletOfBore(length.Inch / 2); e == nil || e.Flange != length.Inch*17/16 || e.Rod != 0 {
		t.Errorf("eyelet of 1/2 in: %+v", e)
	}
	if n := tab.NeedleByNumber(14); n == nil || n.Metric != 90 {
		t.Errorf("needle 14: %+v", n)
	}
	if n := tab.NeedleByNumber(90); n != nil {
		t.Errorf("needle 90 by its other number: %+v", n)
	}
	if c := tab.ChainFor(20 * gram); c == nil || c.Mass != 35*gram {
		t.Errorf("chain for 20 g/m: %+v", c)
	}
	if c := tab.ChainFor(1000 * gram); c != nil {
		t.Errorf("chain for 1 kg/m: %+v", c)
	}
	if got := tab.CordLimits("XX"); got != nil {
		t.Errorf("limits of an unknown market: %v", got)
	}
	if f := tab.FireFor("US", "public", "curtain"); f == nil || f.Claims[0] != "NFPA 701" {
		t.Errorf("fire: %+v", f)
	}
	for _, market := range []string{"US", "EU", "UK", "AU", "CA"} {
		for _, use := range []string{"home", "nursery"} {
			for _, goods := range []string{"curtain", "table", "upholstery"} {
				if f := tab.FireFor(market, use, goods); f == nil || goods != "upholstery" && f.Claims != nil {
					t.Errorf("fire in %s, %s, of %s: %+v", market, use, goods, f)
				}
			}
		}
	}
	if f := tab.FireFor("AU", "public", "table"); f != nil {
		t.Errorf("fire: %+v", f)
	}
	if h := tab.HemFor("curtain", "bottom", "puddle"); h == nil || h.Where != "" {
		t.Errorf("hem of a puddled curtain: %+v", h)
	}
	if h := tab.HemFor("curtain", "bottom", "sheer"); h == nil || h.Turn != 5*length.Inch {
		t.Errorf("hem of a sheer: %+v", h)
	}
	if h := tab.HemFor("napkin", "bottom", ""); h != nil {
		t.Errorf("hem of a napkin: %+v", h)
	}
	if tab.Seam("lapped") != nil || tab.Heading("frill") != nil || tab.Stitch("999") != nil || tab.Setting(4) != nil || tab.ClassByName("stiff") != nil {
		t.Error("a row that isn't there was found")
	}
}

func TestLookUpsDoNotAllocate(t *testing.T) {
	tab := tables(t)
	n := testing.AllocsPerRun(100, func() {
		tab.FiberByName("GLASS")
		tab.Class(mass.Areal(700 * mass.Gram))
		tab.CordLimits("CA")
		tab.HemFor("pillowcase", "opening", "")
	})
	if n != 0 {
		t.Errorf("%v allocations", n)
	}
}
