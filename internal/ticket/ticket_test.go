package ticket_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/length"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/ticket"
	"cutgate/internal/worksheet"
)

func documentOf(t *testing.T, name string, found ...finding.Finding) (*ticket.Document, *worksheet.Sheet) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/orders/clean/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return documentFrom(t, string(text), found...)
}

func documentFrom(t *testing.T, text string, found ...finding.Finding) (*ticket.Document, *worksheet.Sheet) {
	t.Helper()
	loader, err := load.New()
	if err != nil {
		t.Fatal(err)
	}
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	o := loader.Orders(&source.File{Name: "order.yaml", Text: text}, load.YAML, load.Options{})[0]
	s := worksheet.Work(o, tables, goods.All())
	return ticket.Of(s, found, finding.Aside{}), s
}

// labelled are the texts of the rows under a label.
func labelled(rows []ticket.Row, label string) (texts []string) {
	under := ""
	for _, r := range rows {
		if r.Label != "" {
			under = r.Label
		}
		if under == label {
			texts = append(texts, r.Text)
		}
	}
	return texts
}

func TestShowerCurtain(t *testing.T) {
	d, s := documentOf(t, "ashgrove-guest-bath.yaml")
	if d.Verdict != finding.Clear || len(d.Reasons) != 0 {
		t.Errorf("a clear order: verdict %v, reasons %v", d.Verdict, d.Reasons)
	}
	it := d.Items[0]
	if it.ID != "guest" || it.Kind != "shower curtain" || it.Make != 1 {
		t.Errorf("the item is %+v", it)
	}
	if got := labelled(it.Rows, "cut"); !slices.Equal(got, []string{"1 piece, 74 in wide × 86 in long, of wave"}) {
		t.Errorf("cut: %q", got)
	}
	i := slices.IndexFunc(it.Rows, func(r ticket.Row) bool { return len(r.Marks) > 0 })
	if i < 0 || !slices.Equal(it.Rows[i].Marks, s.Items[0].Holes) {
		t.Errorf("the holes are not marked: %+v", it.Rows)
	}
	if len(d.Cloths) != 1 || d.Cloths[0].Label != "wave" || !strings.Contains(d.Cloths[0].Text, "buy 2 1/2 yd") {
		t.Errorf("cloths: %+v", d.Cloths)
	}
	if len(d.Cautions) == 0 {
		t.Error("no cautions")
	}
}

// That local codes come first is said once, below the cautions of every item.
func TestCautionsEnd(t *testing.T) {
	d, _ := documentOf(t, "ashgrove-sitting-room.yaml")
	comeFirst := func(c string) bool { return strings.HasPrefix(c, "These are the usual cautions.") }
	if len(d.Items) < 2 || slices.IndexFunc(d.Cautions, comeFirst) != len(d.Cautions)-1 {
		t.Errorf("the cautions of %d items: %q", len(d.Items), d.Cautions)
	}
}

// Every quantity with a formula is worked on the ticket, under what it is of.
func TestWorkings(t *testing.T) {
	for _, name := range []string{"quince-lane-bedrooms.yaml", "saxby-window-seat.yaml"} {
		d, s := documentOf(t, name)
		want, got := 0, 0
		for _, q := range s.All {
			if q.Formula != "" {
				want++
			}
		}
		for _, g := range d.Workings {
			for _, w := range g.Workings {
				if got++; w.Name == "" || w.Value == "" || len(w.Lines) < 2 {
					t.Errorf("%s: a working of %s says too little: %+v", name, g.ID, w)
				}
			}
		}
		if got != want || want == 0 {
			t.Errorf("%s: %d workings of %d", name, got, want)
		}
		if last := d.Workings[len(d.Workings)-1]; !last.Cloth {
			t.Errorf("%s: the cloths don't come last, but %s", name, last.ID)
		}
	}
}

func TestWhyNotToCut(t *testing.T) {
	d, _ := documentOf(t, "ashgrove-guest-bath.yaml",
		finding.Finding{Level: finding.Error, Message: "The cut is short."}, finding.Finding{Level: finding.Note, Message: "By the way."})
	if d.Verdict != finding.Hold || len(d.Reasons) != 1 || d.Reasons[0].Text != "The cut is short." {
		t.Errorf("verdict %v, reasons %+v", d.Verdict, d.Reasons)
	}
}

// What a bench needs beside the cuts: what is bought, the bolt that each item is cut from,
// and what is marked before the first wash. The figures are worked by hand: 6 rows of 4
// rings on 2 shades; 8 and 38 in over 96 % are 8 1/3 and 39.58 in; 12 in over 98 %, and 4
// in over 96 %.
func TestAtTheBench(t *testing.T) {
	d, _ := documentFrom(t, `order: T4
units: in
cloths:
  print: {fiber: {cotton: 100}, width: 54, selvedge: 1/2, bolts: [{lot: K12, length: 4 yd}, {lot: K14, length: 9 yd}]}
  linen: {fiber: {linen: 100}, width: 90, selvedge: 1/2, shrinks: {length: 4%, width: 2%}}
  sailcloth: {fiber: {polyester: 100}, width: 60}
items:
  - {item: cushion cover, id: seat, quantity: 2, cloth: print, style: boxed, pad: {width: 20, length: 22, depth: 3}, zip: {length: 28, round_corner: 4}}
  - {item: curtain, id: hall, cloth: print, panels: 1, track: {width: 60, above_floor: 90}, hang: {to: floor}, heading: {style: pencil pleat}, hems: {bottom: {turn: 4}, sides: {turn: 1 1/2}}}
  - {item: Roman shade, id: shade, quantity: 2, cloth: sailcloth, finished: {width: 30, length: 50}, mount: outside}
  - {item: pillowcase, cloth: linen, style: housewife, pillow: {width: 20, length: 30}}
  - {item: tie-back, cloth: linen, shape: shaped, finished: {width: 4, length: 24}}
`)
	for _, c := range []struct {
		item        int
		label, want string
	}{
		{0, "hardware", "zip, 28 in"},
		{1, "join", "from the leading edge;"},
		{2, "hardware", "48 rings"},
		{2, "hardware", "rods and bar, 29 1/2 in for each"},
		{3, "unwashed", "before the wash, folds from the pocket's hemmed end: 8 5/16 in · 39 9/16 in"},
		{3, "folds", "once washed: 8 in · 38 in from the pocket's hemmed end"},
		{3, "make up", "mark a line 8 5/16 in from the pocket's hemmed end; fold the other end over, right sides together, at 31 1/4 in past the line, so that its hem meets the line; fold the pocket back along the line, over that hem; sew the two long sides, and turn: the pocket then lies inside"},
		{4, "template", "draw the template 12 1/4 in long for 12 in"},
		{4, "template", "draw the fold 4 3/16 in deep for 4 in"},
	} {
		if got := strings.Join(labelled(d.Items[c.item].Rows, c.label), "\n"); !strings.Contains(got, c.want) {
			t.Errorf("item %d, %s: %q is not in %q", c.item, c.label, c.want, got)
		}
	}
	if text := d.Cloths[0].Text; !strings.Contains(text, "from lot K12: seat; from lot K14: hall") {
		t.Errorf("print: %s", text)
	}
	if i := slices.IndexFunc(d.Items[3].Pictures, func(p ticket.Picture) bool {
		return slices.ContainsFunc(p.Pattern.Rows, func(r worksheet.PatternRow) bool { return r.Name == "folds" && len(r.At) == 2 })
	}); i < 0 {
		t.Error("the folds of the pillowcase are not in its picture")
	}
}

// Rows stand in the order that the job is done in, each stage once, and what a curtain
// needs at the bench is said.
func TestOrderOfWork(t *testing.T) {
	d, _ := documentOf(t, "quince-lane-bedrooms.yaml")
	it := &d.Items[0]
	if !slices.IsSortedFunc(it.Rows, func(a, b ticket.Row) int { return int(a.Stage) - int(b.Stage) }) {
		t.Errorf("rows are out of order: %+v", it.Rows)
	}
	pictures := 0
	for i, p := range it.Parts() {
		if p.Rows[0].Label == "" {
			t.Errorf("%s begins without a label: %q", p.Stage, p.Rows[0].Text)
		}
		if want := i + 1; p.Stage < ticket.Trims && p.Number != want {
			t.Errorf("%s is step %d, not %d", p.Stage, p.Number, want)
		}
		pictures += len(p.Pictures)
	}
	if pictures == 0 || pictures != len(it.Pictures) {
		t.Errorf("%d pictures stand beside the steps, of %d", pictures, len(it.Pictures))
	}
	for label, want := range map[string]string{
		"each panel": "53 1/2 in wide as it hangs, 153 1/2 in flat",
		"window":     "returns of 3 1/2 in, overlap 4 in",
		"heading":    "1 1/2 in from hooks to top",
		"lining":     "its foot 1 in above the foot of the face",
		// The first pleat lies half the overlap from the leading edge; the others follow
		// by the space between two and what each takes: 96 in ÷ 2 ÷ 11 + 8 5/16 in.
		"pleats start": "2 in · 14 11/16 in",
	} {
		if got := labelled(it.Rows, label); len(got) == 0 || !strings.Contains(strings.Join(got, " "), want) {
			t.Errorf("%s: %q, without %q", label, got, want)
		}
	}
}

// Whole widths are joined past the selvedge, where the pattern meets, and a bagged
// lining hangs level with its face: the seams, the places of the joins and the sizes
// of what is cut must not contradict each other.
func TestJoinsTaken(t *testing.T) {
	const cloth = `order: T
units: in
cloths:
  print: {width: 54, selvedge: 1/2, washed: true%s}
items:
  - item: valance
    cloth: print
    board: {width: 48, return: 4}
    heading: {style: gathered, fullness: 2}
    finished: {length: 14}
    lining: {cloth: print, made: %s}
  - item: curtain
    cloth: print
    track: {width: 72}
    heading: {style: eyelet, fullness: 2}
    finished: {length: 80}
    hems: {bottom: {turn: 4}, sides: {turn: 1 1/2}}
%s`
	const join = "    join: {allowance: 5/8}\n"
	for _, c := range []struct {
		repeat, made, join string
		valance, curtain   string // how they are joined
		lining             bool   // its foot is told
	}{
		{"", "hemmed", "", "plain, 9/16 in from each piece", "plain, 9/16 in from each piece; 50 7/16 in from", true},
		{"", "bagged", join, "plain, 9/16 in from each piece", "plain, 5/8 in from each piece; 50 3/8 in from", false},
		// Two repeats of 26 in lie between the seams, and 9/16 in beyond them: 53 1/8 in.
		{", repeat: {width: 26, match: straight}", "hemmed", "", "plain, 1 in from each piece", "plain, 9/16 in from each piece, once each width is cut down to 53 1/8 in for the pattern to meet; 49 9/16 in from", true},
	} {
		d, _ := documentFrom(t, fmt.Sprintf(cloth, c.repeat, c.made, c.join))
		for i, want := range []string{c.valance, c.curtain} {
			if got := labelled(d.Items[i].Rows, "join"); len(got) == 0 || !strings.HasPrefix(got[0], want) {
				t.Errorf("%+v: item %d: %q, not %q", c, i, got, want)
			}
		}
		if got := labelled(d.Items[0].Rows, "lining"); len(got) > 0 != c.lining {
			t.Errorf("%+v: lining %q", c, got)
		}
	}
}

// A width that is split for the outer halves of a pair gives one in each phase of a half
// drop, so that it takes half a repeat more than its raw length; where two pairs are made,
// the second one's is the last B.
func TestSplitWidthOfAHalfDrop(t *testing.T) {
	order := func(quantity, length string) string {
		return "order: T\nunits: cm\ncloths: {c: {width: 137, selvedge: 1, repeat: {length: 64, match: half drop}}}\nitems:\n" +
			"  - {item: curtain, cloth: c, quantity: " + quantity + ", track: {width: 200}, heading: {style: pencil pleat, fullness: 1.75}, finished: {length: " + length + "}, hems: {sides: {turn: 4}, bottom: {turn: 10}}}\n"
	}
	for _, c := range []struct{ quantity, length, says, needed string }{
		{"1", "280", "one as B: cut that width 342 cm long, as the last A", "1056 cm"}, // 3 of 320, and 32 and 64
		// 6 of 320, and 2 of 32, and 64
		{"2", "280", "one as B: cut those 2 widths 342 cm long, one as the last A, one as the last B", "2048 cm"},
		{"1", "240", "one as B", "1024 cm"}, // 302 cm of the 320 that are cut
		{"3", "280", "one as B: cut those 3 widths 342 cm long, 2 as A and 1 as B, each the last before the other letter", "3040 cm"},
	} {
		doc, sheet := documentFrom(t, order(c.quantity, c.length))
		said := false
		for _, text := range labelled(doc.Items[0].Rows, "cut") {
			said = said || strings.HasSuffix(text, c.says)
		}
		if !said {
			t.Errorf("%s of %s cm: the ticket does not say %q", c.quantity, c.length, c.says)
		}
		if got := sheet.Cloth("c").Needed.Value.Format(sheet.Unit, length.Nearest); got != c.needed {
			t.Errorf("%s of %s cm take %s, not %s", c.quantity, c.length, got, c.needed)
		}
	}
}

// The front of a faced tie-back has a motif, and its back lies where the cloth has room.
func TestAnywhereInThePattern(t *testing.T) {
	for back, want := range map[string]string{
		"":                   "start every front at the same point of the pattern, a whole motif at the foot; cut every back anywhere in it",
		", back: {cloth: b}": "start every cut at the same point of the pattern, a whole motif at the foot",
	} {
		d, _ := documentFrom(t, "order: T\nunits: cm\ncloths: {c: {width: 137, repeat: {length: 64}}, b: {width: 137}, i: {width: 90}}\nitems:\n"+
			"  - {item: tie-back, cloth: c, shape: shaped, finished: {width: 8, length: 50}, interfacing: {cloth: i}"+back+"}\n")
		if got := labelled(d.Items[0].Rows, "cut"); !slices.Contains(got, want) {
			t.Errorf("%q is not in %q", want, got)
		}
	}
}

// Cuts of 4 1/2 repeats of a half drop, where 103 in would take 5, go A B A B down the cloth:
// by hand, so many times 112 1/2 in, and a repeat to start on. Cut as all of A and then all of
// B, they take whole repeats.
func TestHalfDropByTurns(t *testing.T) {
	order := func(cut, quantity string) string {
		return "order: T\nunits: in\ncloths: {c: {width: 54, selvedge: 1/2, repeat: {length: 25, match: half drop}}}\nitems:\n" +
			"  - {item: curtain, cloth: c, quantity: " + quantity + ", panels: 1, finished: {width: 66, length: 91}, heading: {style: pencil pleat, fullness: 2.25, allowance: 4}, hems: {sides: {turn: 1 1/2}, bottom: {turn: 4}}, join: {allowance: 5/8}, cuts: [{piece: width, width: 54, length: " + cut + ", count: 3}]}\n"
	}
	for _, c := range []struct{ cut, quantity, says, needed string }{
		{"112 1/2", "1", "cut A B A B down the cloth, 2 A and 1 B", "362 1/2 in"},
		{"112 1/2", "2", "cut A B A B down the cloth, 3 A and 3 B", "700 in"},
		{"125", "1", "start every cut on the whole motif, 2 A and 1 B; use each B from half a repeat further on, 12 1/2 in", "400 in"},
	} {
		doc, sheet := documentFrom(t, order(c.cut, c.quantity))
		if got := strings.Join(labelled(doc.Items[0].Rows, "cut"), " "); !strings.Contains(got, c.says) {
			t.Errorf("%s of cuts of %s in: %q is not in %q", c.quantity, c.cut, c.says, got)
		}
		if got := sheet.Cloth("c").Needed.Value.Format(sheet.Unit, length.Nearest); got != c.needed {
			t.Errorf("%s of cuts of %s in take %s, not %s", c.quantity, c.cut, got, c.needed)
		}
	}
}

// A pattern meets before the first wash, so its widths are cut down by the repeat as it is
// bought: two of 60 cm, and 1.5 cm for each join. Washed, they lose 2 percent: 117.6 cm.
func TestRepeatShrinks(t *testing.T) {
	d, sheet := documentFrom(t, `order: PB-70
units: cm
cloths:
  thistle: {width: 137, selvedge: 1, shrinks: {width: 2}, repeat: {length: 64, width: 60, match: half drop}}
items:
  - {item: curtain, cloth: thistle, track: {width: 230, above_floor: 245}, hang: {to: floor, clearance: 1}, heading: {style: pencil pleat, fullness: 2.2}, hems: {bottom: {turn: 7.5}, sides: {turn: 2.5}}, join: {seam: plain, allowance: 1.5}}
`)
	if got := sheet.Items[0].Get(worksheet.UsableWidth).Value.Format(sheet.Unit, length.Nearest); got != "117.6 cm" {
		t.Errorf("the usable width is %s", got)
	}
	for label, want := range map[string]string{
		"join": "1.5 cm from each piece, once each width is cut down to 123 cm for the pattern to meet; once washed: 114.1 cm · 231.7 cm from the leading edge",
		// 123 - 1.5 - the side hem of 5 ÷ 0.98; then 120 further on
		"unwashed": "joins from the leading edge: 116.4 cm · 236.4 cm",
	} {
		if got := strings.Join(labelled(d.Items[0].Rows, label), " "); !strings.Contains(got, want) {
			t.Errorf("%q is not in %q", want, got)
		}
	}
}

// A panel of one width is cut down, not joined, and by as much more as it will shrink: the
// 53 in washed are 54 1/16 in of the cloth as it is bought.
func TestOneWidthCutDown(t *testing.T) {
	d, _ := documentOf(t, "marlpit-kitchen-window.yaml")
	door := d.Items[1]
	got := strings.Join(labelled(door.Rows, "cut down"), " ")
	if want := "cut each width down to 54 1/16 in, at"; !strings.Contains(got, want) {
		t.Errorf("%q is not in %q", want, got)
	}
	if got, want := door.Pictures[0].Text, "1 panel, cut down and flat"; !strings.HasPrefix(got, want) {
		t.Errorf("the picture is of %q", got)
	}
	if got := strings.Join(labelled(door.Rows, "unwashed"), " "); strings.Contains(got, "width 56 in") {
		t.Errorf("a whole width has a size to make up to in %q", got)
	}
}

// What shapes an edge comes before its hem, and a curve is cut of washed cloth: the ticket
// has no sizes to make up to before the wash.
func TestShapeBeforeHems(t *testing.T) {
	d, _ := documentOf(t, "ambrose-street-balcony.yaml")
	var stage ticket.Stage
	for _, r := range d.Items[0].Rows {
		if r.Label == "curve" {
			stage = r.Stage
		}
	}
	if stage != ticket.Cut {
		t.Errorf("the curve stands in stage %s", stage)
	}
	if got, want := labelled(d.Items[0].Rows, "unwashed"), []string{"the cloth is cut before its first wash, and shrinks in it"}; !slices.Equal(got, want) {
		t.Errorf("it says %q", got)
	}
}

// What is cut before its first wash is told in the sizes that it is cut in.
func TestUnwashed(t *testing.T) {
	d, _ := documentOf(t, "larkspur-family-bath.yaml")
	// The finished 76 in shrink by 4 percent: 76 ÷ 0.96.
	got := strings.Join(labelled(d.Items[0].Rows, "unwashed"), " ")
	for _, want := range []string{"79 3/16 in long", "top hem 4 3/16 in", "holes from the left finished edge: 3 1/16 in"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in %q", want, got)
		}
	}
}

// An item of a kind that is not known stands on the ticket by its own name, each apart, with
// no step to do and no working.
func TestUnknownKind(t *testing.T) {
	d, _ := documentFrom(t, `
order: FR-7
units: in
cloths: {fern: {fiber: {cotton: 100}, width: 54}}
items:
  - {item: swag, cloth: fern, finished: {width: 18, length: 18}}
  - {item: swag, cloth: fern, finished: {width: 20, length: 20}}
`)
	if len(d.Items) != 2 || len(d.Workings) != 0 {
		t.Fatalf("%d items, %d workings", len(d.Items), len(d.Workings))
	}
	for _, it := range d.Items {
		if it.Kind != "swag" || it.Make != 1 || len(it.Rows) != 1 || !strings.Contains(it.Rows[0].Text, "not worked out") {
			t.Errorf("the item is %+v", it)
		}
	}
}

// A piece that the order states turned is on the ticket as it was worked out, and the ticket
// says so.
func TestStatedTurned(t *testing.T) {
	for size, want := range map[string]int{"width: 26.5, length: 53": 1, "width: 53, length: 26.5": 0} {
		d, _ := documentFrom(t, `
order: FR-8
units: cm
cloths: {ticking: {fiber: {cotton: 100}, width: 140, selvedge: 1}}
items:
  - item: cushion cover
    cloth: ticking
    style: knife edge
    pad: {width: 50, length: 30}
    closure: {kind: envelope, overlap: 12, hem: {turn: 2, folds: 2}}
    cuts: [{piece: back, `+size+`, count: 2}]
`)
		got := 0
		for _, text := range labelled(d.Items[0].Rows, "cut") {
			if strings.HasPrefix(text, "the order has the back turned, 26.5 cm wide × 53 cm long") {
				got++
			}
		}
		if got != want {
			t.Errorf("%s: %q", size, labelled(d.Items[0].Rows, "cut"))
		}
	}
}

// The cloth on the ticket is what its lay takes of the bolts. By hand: rows of 21 in, of which
// none lies before the flaw at 20 in: four of them go from 24 in to 108 in. Of a pattern each of two
// bolts has a repeat to start on.
func TestClothAroundFlaws(t *testing.T) {
	for _, c := range []struct{ cloth, measured, says string }{
		{"", "flaws: [{from: 20, to: 24}]", "buy 2 1/2 yd; the cuts take 2 1/3 yd, 3 yd laid around the flaw"},
		{", bolts: [{lot: A, length: 4 yd}]", "flaws: [{from: 20, to: 24}, {from: 110, to: 111}]", "the cuts take 2 1/3 yd, 3 yd laid around the flaws; at hand: lot A, 4 yd"},
		{", bolts: [{lot: A, length: 4 yd}]", "flaws: [{from: 90, to: 91}]", "the cuts take 2 1/3 yd; at hand: lot A, 4 yd"},
		{", repeat: {length: 21}, bolts: [{length: 50}, {length: 120}]", "flaws: []", "the cuts take 2 yd 33 in, 3 1/2 yd on these bolts; at hand: bolt 1, 1 yd 14 in · bolt 2, 3 1/3 yd"},
	} {
		d, _ := documentFrom(t, "order: T\nunits: in\ncloths:\n  plain: {width: 54, selvedge: 1/2, sold_by: 1/4 yd"+c.cloth+"}\nmeasured: {plain: {"+c.measured+"}}\nitems:\n"+
			"  - {item: cushion cover, id: seat, quantity: 4, cloth: plain, style: knife edge, pad: {width: 20, length: 20}}\n")
		if got := d.Cloths[0].Text; !strings.HasPrefix(got, c.says) {
			t.Errorf("%s: %q; want %q", c.measured, got, c.says)
		}
	}
}

// The steps stand in the order of the work: widths are joined and cut down, and joins are
// set out, before any hem is turned.
func TestJoinsBeforeHems(t *testing.T) {
	d, _ := documentFrom(t, `order: T5
units: in
cloths:
  chintz: {fiber: {cotton: 100}, width: 54, selvedge: 1/2}
  sateen: {fiber: {cotton: 100}, width: 54}
items:
  - {item: valance, cloth: chintz, board: {width: 48, return: 4}, heading: {style: box pleat, sections: 4}, finished: {length: 14}, lining: {cloth: sateen}}
  - {item: valance, cloth: chintz, board: {width: 30, return: 0}, heading: {style: gathered}, finished: {length: 14}, lining: {cloth: sateen}}
  - {item: bed skirt, cloth: chintz, bed: {width: 60, length: 80, height: 15}, style: box pleat, pleats: 20}
  - {item: bedspread, cloth: chintz, bed: {width: 60, length: 80}, drop: 21, lining: {cloth: sateen}, interlining: {cloth: sateen}}
  - {item: Roman shade, cloth: chintz, finished: {width: 100, length: 60}, mount: outside, lining: {cloth: sateen}}
`)
	for i, want := range [][]string{{"cut down", "joins"}, {"cut down"}, {"cut down"}, {"joins"}, {"joins"}} {
		var under []string
		for _, r := range d.Items[i].Rows {
			about := r.Label == "cut down" || r.Label == "joins" || strings.Contains(r.Text, "join the widths")
			if about && r.Stage != ticket.Join {
				t.Errorf("item %d: among %s: %s %s", i+1, r.Stage, r.Label, r.Text)
			}
			if about && r.Stage == ticket.Join && r.Label != "" {
				under = append(under, r.Label)
			}
		}
		if !slices.Equal(under, want) {
			t.Errorf("item %d: on joining it says %q, not %q", i+1, under, want)
		}
	}
}

// What a picture shows to be turned, a step says: each hem and fold of a piece, with what it
// takes. Cloth that shrinks is left out, as its pictures have the sizes before the wash.
func TestTurnsSaid(t *testing.T) {
	files, err := filepath.Glob("../../testdata/orders/*/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	seen := 0
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		d, _ := documentFrom(t, string(text))
		for i := range d.Items {
			it := &d.Items[i]
			var steps strings.Builder
			for _, r := range it.Rows {
				if r.Stage != ticket.Cut && r.Stage < ticket.Trims {
					fmt.Fprintln(&steps, r.Text)
				}
			}
			for _, p := range it.Pictures {
				for _, e := range p.Pattern.Edges {
					if e.Making != worksheet.Hemmed && e.Making != worksheet.Turned || e.Takes == 0 || p.Pattern.Unwashed {
						continue
					}
					if seen++; !strings.Contains(steps.String(), e.Takes.Format(d.Unit, length.Nearest)) {
						t.Errorf("%s: %s %s: no step says %s %s of the %s", filepath.Base(name), it.ID, it.Kind, e.Word, e.Takes.Format(d.Unit, length.Nearest), p.Pattern.Name)
					}
				}
			}
		}
	}
	if seen < 100 {
		t.Errorf("only %d turned edges", seen)
	}
}

// The hems of a bed skirt's ends and of its deck's head are among the steps, as the sizes
// have them; so are both hems of a pillowcase, and neither is called top or foot.
func TestHemsByTheirNames(t *testing.T) {
	d, _ := documentFrom(t, `order: T6
units: in
cloths:
  poplin: {fiber: {cotton: 100}, width: 54, selvedge: 1/2}
  percale: {fiber: {cotton: 100}, width: 94, selvedge: 1/2}
items:
  - {item: bed skirt, cloth: poplin, bed: {width: 60, length: 80, height: 15}, style: gathered, end_hem: 1 1/4}
  - {item: bed skirt, cloth: poplin, bed: {width: 60, length: 80, height: 15}, style: tailored, corners: split}
  - {item: pillowcase, cloth: percale, style: housewife, pillow: {width: 20, length: 30}}
`)
	for i, want := range [][]string{
		{"the hem at each end of the skirt takes 1 1/4 in", "the hem at its head takes 2 in (usual hem, not stated)"},
		{"the hem at the head end of each side takes 1 in (usual hem, not stated)"},
		{"opening 2 in, turned twice; uses 4 in (usual hem, not stated)", "flap 1/2 in, turned twice; uses 1 in (usual hem, not stated)"},
	} {
		for _, text := range want {
			if !slices.ContainsFunc(d.Items[i].Rows, func(r ticket.Row) bool { return r.Stage == ticket.Hems && r.Text == text }) {
				t.Errorf("item %d: no step on hems says %q", i+1, text)
			}
		}
	}
}

// A round cloth that is washed before its curve is cut has no hem before the wash: its
// picture shows none, and the places of its joins are those of the steps. The figures are
// worked by hand: the finished 298 cm and two hems of 2 cm are 302 cm, 311.3 cm over 97 %;
// a join 62.9 cm from the finished edge is 64.9 cm from the cut one, 66.9 cm over 97 %.
func TestCurveAfterTheWash(t *testing.T) {
	d, _ := documentFrom(t, `order: T8
units: cm
cloths:
  dam: {fiber: {linen: 100}, width: 180, selvedge: 1, shrinks: {length: 5%, width: 3%}}
items:
  - {item: tablecloth, cloth: dam, shape: round, table: {diameter: 150}, drop: 74, hem: {turn: 1}}
`)
	for _, p := range d.Items[0].Pictures {
		if p.Pattern.Shape != worksheet.Rectangle {
			t.Errorf("the %s is drawn cut to its curve", p.Pattern.Name)
		}
		for _, e := range p.Pattern.Edges {
			if e.Making == worksheet.Hemmed {
				t.Errorf("the %s is drawn with a %s", p.Pattern.Name, e.Word)
			}
		}
		if p.Pattern.Name != "panel" {
			continue
		}
		if got := p.Pattern.Width.Format(d.Unit, length.Nearest); got != "311.3 cm" {
			t.Errorf("the panel is %s wide", got)
		}
		if r := p.Pattern.Rows[0]; r.From != "left cut edge" || r.At[0].Format(d.Unit, length.Nearest) != "66.9 cm" {
			t.Errorf("its joins are %+v", r)
		}
	}
	if got := strings.Join(labelled(d.Items[0].Rows, "unwashed"), " "); !strings.Contains(got, "before the wash, joins from the left cut edge: 66.9 cm") {
		t.Errorf("unwashed: %q", got)
	}
}

// An oval is drawn by its steps. By hand, with hems of 2 cm on 160 by 230 cm: half circles
// of 82 cm, 70 cm apart; or an ellipse whose half axes are 117 and 82 cm, so that its
// foci are the root of 117² - 82², 83.5 cm, from the middle (Euclid, Elements I 47).
func TestOvalsDrawn(t *testing.T) {
	d, _ := documentFrom(t, `order: T9
units: cm
cloths:
  dam: {fiber: {linen: 100}, width: 180, selvedge: 1}
items:
  - {item: tablecloth, cloth: dam, shape: oval, oval: racetrack, table: {width: 110, length: 180}, drop: 25, hem: {turn: 1}}
  - {item: tablecloth, cloth: dam, shape: oval, oval: ellipse, table: {width: 110, length: 180}, drop: 25, hem: {turn: 1}}
`)
	for i, want := range []string{
		"mark 35 cm from the folded corner along the longer fold, and swing 82 cm from that mark",
		"set a pin on the long line 83.5 cm to each side of the middle, tie a string 234 cm long",
	} {
		if got := strings.Join(labelled(d.Items[i].Rows, "curve"), " "); !strings.Contains(got, want) {
			t.Errorf("curve: %q is not in %q", want, got)
		}
	}
}

// What is bought and how hot it is pressed, for each part. By hand: half of a rod of 1 in round
// and of an ease of 1/2 in is 1 7/8 in up to the next sixteenth; two panels 75 7/8 in
// wide flat have 151 3/4 in of foot, 4 yd 7 3/4 in of chain; nylon stands one dot (ISO 3758,
// from memory), whatever the face stands.
func TestBoughtAndPressed(t *testing.T) {
	d, _ := documentFrom(t, `order: T10
units: in
cloths:
  c: {fiber: {cotton: 100}, width: 54, selvedge: 1/2, care: {iron: 3 dots}}
  n: {fiber: {nylon: 100}, width: 84}
  p: {fiber: {cotton: 100}, width: 54, repeat: {length: 12, width: 12}}
items:
  - {item: curtain, cloth: c, track: {width: 60, above_floor: 84}, hang: {to: floor}, heading: {style: pencil pleat}, hems: {bottom: {turn: 4}, sides: {turn: 1}}, weights: {kind: chain, mass: 2 oz/yd}}
  - {item: shower curtain, cloth: c, finished: {width: 50, length: 72}, liner: {cloth: n}}
  - {item: Roman shade, cloth: c, finished: {width: 40, length: 60}, mount: outside, lining: {cloth: n}}
  - {item: cushion cover, quantity: 2, cloth: p, motif: center, style: round, pad: {diameter: 16}, closure: {kind: zip}, zip: {length: 12}}
  - {item: valance, cloth: c, mount: rod, rod: {diameter: 1}, heading: {style: rod pocket, header: 1}, finished: {width: 40, length: 14}}
  - {item: tie-back, quantity: 2, cloth: c, shape: straight, made: folded, finished: {width: 4, length: 20}}
  - {item: shower curtain, cloth: c, finished: {width: 50, length: 72}, band: {cloth: p, depth: 12}}
  - {item: cushion cover, cloth: c, style: knife edge, pad: {width: 16, length: 16}, ties: {count: 4}}
  - {item: curtain, cloth: c, track: {width: 60, above_floor: 84}, hang: {to: floor}, heading: {style: pencil pleat}, hems: {bottom: {turn: 4}, sides: {turn: 1}}, weights: {kind: single, count: 6, each: 25 g}}
`)
	for _, c := range []struct {
		item        int
		stage       ticket.Stage
		label, want string
	}{
		{0, ticket.Trims, "hardware", "weights: chain, 4 yd 7 3/4 in"},
		{8, ticket.Trims, "hardware", "6 weights: single, 25 g each"},
		{1, ticket.Press, "press", "3 dots; the liner: 1 dot"},
		{2, ticket.Press, "press", "1 dot, for the lining"},
		{3, ticket.Trims, "hardware", "zip, 12 in for each"},
		{3, ticket.Cut, "cut", "cut every circle with a whole motif in its middle"},
		{4, ticket.Top, "top", "stitch 1 in below the top for the header, and again 1 7/8 in below that"},
		{5, ticket.Trims, "hardware", "4 rings"},
		{5, ticket.Marks, "fold", "4 in from the lower finished edge"},
		{6, ticket.Join, "band", "sew the band to the panel's foot"},
		{7, ticket.MakeUp, "ties", "3/4 in wide and 12 in long"},
	} {
		var rows []ticket.Row
		for _, r := range d.Items[c.item].Rows {
			if r.Stage == c.stage {
				rows = append(rows, r)
			}
		}
		if got := strings.Join(labelled(rows, c.label), " | "); !strings.Contains(got, c.want) {
			t.Errorf("item %d: under %q: %q is not in %q", c.item+1, c.label, c.want, got)
		}
	}
}

// Pieces are counted as people say it, and a miter's mark has a place. A hem turned twice by
// 1/4 in is mitered on a line 1/2 in along the turned edges from the corner: plain geometry,
// and as Selvedge Studio marks it, Mitered corner napkins.
func TestWords(t *testing.T) {
	d, _ := documentFrom(t, `order: T11
units: in
cloths:
  c: {fiber: {cotton: 100}, width: 54, selvedge: 1/2}
items:
  - {item: bed skirt, cloth: c, bed: {width: 60, length: 80, height: 15}}
  - {item: curtain, cloth: c, track: {width: 60, above_floor: 84}, hang: {to: floor}, heading: {style: pencil pleat}, lining: {cloth: c}}
  - {item: cushion cover, cloth: c, style: boxed, pad: {width: 20, length: 22, depth: 3}, closure: {kind: sewn}}
  - {item: napkin, cloth: c, finished: {width: 18, length: 18}, hem: {turn: 1/4, folds: 2, corners: mitred}}
  - {item: Roman shade, cloth: c, finished: {width: 40, length: 60}, mount: outside, lining: {cloth: c}}
`)
	for i, want := range []string{"9 skirt widths,", "3 lining widths,", "2 pieces of boxing,", "mark both edges 1/2 in from the corner", "slip-stitch it 1/2 in inside the finished sides"} {
		if !slices.ContainsFunc(d.Items[i].Rows, func(r ticket.Row) bool { return strings.Contains(r.Text, want) }) {
			t.Errorf("item %d: nothing says %q: %+v", i+1, want, d.Items[i].Rows)
		}
	}
	for i := range d.Items {
		for _, r := range d.Items[i].Rows {
			if strings.Contains(r.Text, "mitre") || r.Stage == ticket.Sides && strings.HasPrefix(r.Text, "edge") {
				t.Errorf("item %d: %q", i+1, r.Text)
			}
		}
	}
}

// Of an item of which a piece comes to less than nothing the ticket has nothing cut, and says why.
func TestNothingToCut(t *testing.T) {
	d, _ := documentFrom(t, `order: T12
units: in
cloths: {reef: {width: 60}}
items:
  - {item: shower curtain, cloth: reef, finished: {width: 8.4, length: 78}, join: {layout: center and sides}, cuts: [{piece: center}, {piece: side}]}
`)
	var rows []string
	for _, r := range d.Items[0].Rows {
		rows = append(rows, r.Text)
	}
	if !slices.Contains(rows, "nothing: the side of the shower curtain comes to -23 3/4 in, and can't be so wide") {
		t.Errorf("the ticket says %q", rows)
	}
}

// Cloth is bought in what it is sold by, with the order's own unit after it where that is
// of the other system.
func TestSoldInTheOtherSystem(t *testing.T) {
	for _, c := range []struct{ units, soldBy, want string }{
		{"in", "1/2 m", "buy 5.5 m (6 yd 9/16 in); the cuts take "},
		{"in", "1/4 yd", " yd; the cuts take "},
		{"cm", "1/4 yd", " m); the cuts take "},
		{"cm", "50 cm", "buy 5.5 m; the cuts take "},
	} {
		d, _ := documentFrom(t, "order: T1\nunits: "+c.units+`
cloths: {c: {fiber: {cotton: 100}, width: 54 in, selvedge: 1/2 in, sold_by: `+c.soldBy+`}}
items:
  - {item: tablecloth, cloth: c, shape: rectangular, table: {width: 60 in, length: 80 in}, drop: 12 in, hem: {turn: 1 in, folds: 2}}
`)
		if got := d.Cloths[0].Text; !strings.Contains(got, c.want) {
			t.Errorf("sold by %s on an order in %s: %q is not in %q", c.soldBy, c.units, c.want, got)
		}
	}
}

// What has no width or length of its own is checked by its drop, or its box; and a pile
// is pressed from the back.
func TestChecksAndPile(t *testing.T) {
	d, _ := documentFrom(t, `order: T1
units: in
cloths:
  v: {fiber: {cotton: 100}, width: 54, selvedge: 1/2, nap: one way}
  c: {fiber: {cotton: 100}, width: 54, selvedge: 1/2, nap: none}
items:
  - {item: bed skirt, cloth: c, spring: {width: 60, length: 80}, drop: 14, style: gathered, deck: {cloth: c}}
  - {item: cornice, cloth: v, board: {width: 60, height: 12, return: 4}}
`)
	for i, c := range []struct {
		checks string
		pile   bool
	}{{"14 in drop", false}, {"60 in wide outside · 12 in high · 4 in returns", true}} {
		it := &d.Items[i]
		if got := strings.Join(it.Checks, " · "); got != c.checks {
			t.Errorf("item %d is checked by %q, not %q", i+1, got, c.checks)
		}
		if got := strings.Join(labelled(it.Rows, "press"), " "); strings.Contains(got, "a pile from the back, on a needle board or a towel, without weight") != c.pile {
			t.Errorf("item %d: press %q", i+1, got)
		}
	}
}
