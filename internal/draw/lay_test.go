package draw_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"context"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/browser"
	"cutgate/internal/draw"
	"cutgate/internal/lay"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/spread"
	"cutgate/internal/worksheet"
)

// plain has small pieces beside large ones, a flaw and two orders.
const plain = `order: SX-80
client: Saxby Mill
units: in
cloths:
  ticking: {name: cotton ticking, fiber: {cotton: 100}, width: 54, selvedge: 1/2, nap: none}
measured:
  ticking: {flaws: [{from: 30, to: 33}]}
items:
  - {item: cushion cover, id: bench, quantity: 3, cloth: ticking, style: boxed, pad: {width: 20, length: 22, depth: 4}, allowance: 1/2, zip: {length: 28, round_corner: 4, strip_allowance: 3/4}}
---
order: SX-81
units: in
cloths:
  ticking: {name: cotton ticking, fiber: {cotton: 100}, width: 54, selvedge: 1/2, nap: none}
measured:
  ticking: {flaws: [{from: 30, to: 33}]}
items:
  - {item: cushion cover, id: stool, quantity: 2, cloth: ticking, style: boxed, pad: {width: 14, length: 14, depth: 1 1/2}, allowance: 1/2, zip: {length: 16, round_corner: 2, strip_allowance: 3/4}}
`

// patterned has a half drop, a nap, two lots, and names that are longer than there is
// room for.
const patterned = `order: PB-61 <the "long" one> & more of a number than anybody would ever write on a docket
client: Pebble House
units: cm
cloths:
  thistle:
    name: thistle print of a name that goes on, and on, and on, beyond what any merchant has ever called a cloth
    fiber: {cotton: 100}
    width: 137
    selvedge: 1
    repeat: {length: 64, width: 68.5, match: half drop}
    nap: one way
    bolts:
      - {lot: K12 of a lot with a long name, length: 9 m}
      - {lot: K14, length: 15 m}
items:
  - item: curtain
    id: a curtain with quite a long name for the landing upstairs, beside the window that looks to the north
    cloth: thistle
    track: {width: 200, above_floor: 245}
    hang: {to: floor, clearance: 1}
    heading: {style: pencil pleat, fullness: 2}
    hems: {bottom: {turn: 7.5}, sides: {turn: 2.5}}
  - item: cushion cover
    id: seat
    quantity: 6
    cloth: thistle
    style: boxed
    pad: {width: 50, length: 55, depth: 3}
    allowance: 1.5
    zip: {length: 60, round_corner: 10, strip_allowance: 1}
`

// spreads lays the orders of a text.
func spreads(t *testing.T, text string, mode lay.Mode) []*spread.Spread {
	t.Helper()
	checker, err := lint.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	var sheets []*worksheet.Sheet
	for _, r := range checker.CheckFile(&source.File{Name: "order.yaml", Text: text}, load.YAML) {
		if r.Err != nil {
			t.Fatal(r.Err)
		}
		sheets = append(sheets, r.Sheet)
	}
	list, left, err := spread.Of(context.Background(), sheets, spread.Options{Mode: &mode, Turn: []string{"boxing"}})
	if err != nil || len(left) > 0 || len(list) == 0 {
		t.Fatalf("%d spreads, left %v, %v", len(list), left, err)
	}
	return list
}

func unwarned(*spread.Spread) []string { return nil }

func held(*spread.Spread) []string { return []string{"ON HOLD: DO NOT CUT: SX-80"} }

func picture(t *testing.T, s *spread.Spread) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := draw.Lays(&out, []*spread.Spread{s}, nil, unwarned); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// whole requires that a picture is XML, with one root.
func whole(t *testing.T, got []byte) {
	t.Helper()
	roots, depth := 0, 0
	for d := xml.NewDecoder(bytes.NewReader(got)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		switch token.(type) {
		case xml.StartElement:
			if depth == 0 {
				roots++
			}
			depth++
		case xml.EndElement:
			depth--
		}
	}
	if roots != 1 {
		t.Errorf("a picture has %d roots", roots)
	}
}

// numbered reports whether a picture has the number of a piece.
func numbered(picture []byte, n int) bool {
	return regexp.MustCompile(fmt.Sprintf(`>%d( [^<]*)?<`, n)).Match(picture)
}

// TestLay pins the pictures and requires that they are XML, and that each piece is drawn
// once and told of.
func TestLay(t *testing.T) {
	for name, text := range map[string]string{"plain": plain, "patterned": patterned} {
		for _, mode := range lay.Modes() {
			s := spreads(t, text, mode)[0]
			got := picture(t, s)
			whole(t, got)
			if n, want := bytes.Count(got, []byte(`class="piece"`)), len(s.Lay().Pieces); n != want {
				t.Errorf("%s, %s: %d pieces are drawn of %d", name, mode, n, want)
			}
			for i, l := range s.Lay().Pieces {
				if size, _ := s.Size(l.Piece); !numbered(got, i+1) || !bytes.Contains(got, []byte(size)) {
					t.Errorf("%s, %s: piece %d has no number or no size", name, mode, i+1)
				}
			}
			golden := filepath.Join("testdata", name+"-"+mode.String()+".svg")
			if os.Getenv("UPDATE") != "" {
				if err := os.WriteFile(golden, got, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), string(got)); diff != "" {
				t.Errorf("%s is not what is drawn: %s", golden, diff)
			}
		}
	}
}

// long is a lay of 22 widths of the cloth, and one whose pieces are longer than a column.
const long = `order: SX-82
units: in
cloths:
  ticking: {name: cotton ticking, fiber: {cotton: 100}, width: 54, selvedge: 1/2, bolts: [{lot: A, length: 60 yd}, {lot: B, length: 60 yd}]}
measured:
  ticking: {flaws: [{bolt: 1, from: 300, to: 303}]}
items:
  - {item: curtain, id: hall, quantity: 4, cloth: ticking, track: {width: 100, above_floor: 96}, hang: {to: floor}, heading: {style: pencil pleat, fullness: 2}, hems: {bottom: {turn: 4}, sides: {turn: 1 1/2}}}
  - {item: napkin, id: table, quantity: 40, cloth: ticking, finished: {width: 12, length: 12}}
`

// Lays of several cloths are one picture, with every piece of each, and so are a lay whose
// pieces are longer than a column, and cloths none of which could be laid.
func TestLays(t *testing.T) {
	list := append(spreads(t, plain, lay.Rows), spreads(t, long, lay.Rows)...)
	list = append(list, spreads(t, strings.NewReplacer("above_floor: 96", "above_floor: 800", "60 yd", "600 yd").Replace(long), lay.Rows)...)
	left := []spread.Left{{Order: list[0].Orders[0], Cloth: "braid", Why: "the strap is wider than the cloth"}}
	var all, none bytes.Buffer
	if err := errors.Join(draw.Lays(&all, list, left, held), draw.Lays(&none, nil, left, held)); err != nil {
		t.Fatal(err)
	}
	want := 0
	for _, s := range list {
		want += len(s.Lay().Pieces)
	}
	if n := bytes.Count(all.Bytes(), []byte(`class="piece"`)); n != want {
		t.Errorf("%d pieces are drawn of %d", n, want)
	}
	// It is said on each sheet, and heard first of the picture and of each sheet of it.
	sheets := bytes.Count(all.Bytes(), []byte(`role="img"`))
	said, heard := bytes.Count(all.Bytes(), []byte(">ON HOLD: DO NOT CUT: SX-80</text>")), bytes.Count(all.Bytes(), []byte(". ON HOLD: DO NOT CUT: SX-80</title>"))
	if said != sheets || heard != sheets+1 {
		t.Errorf("%d sheets: the hold is said %d times and heard %d times", sheets, said, heard)
	}
	for _, p := range [][]byte{all.Bytes(), none.Bytes()} {
		whole(t, p)
		if !bytes.Contains(p, []byte("NOT LAID: braid of SX-80: the strap is wider than the cloth")) {
			t.Error("what was not laid is not told of")
		}
	}
}

// A lay for sheets of paper has each piece once, whole, and on a sheet there is room for it.
func TestLaysInline(t *testing.T) {
	for _, text := range []string{plain, patterned, long} {
		for _, s := range spreads(t, text, lay.Rows) {
			list := draw.LaysInline(s, unwarned)
			all := strings.Join(list, "")
			if n, want := strings.Count(all, `class="piece"`), len(s.Lay().Pieces); n != want {
				t.Errorf("%s: %d pieces are drawn of %d", s.Cloth, n, want)
			}
			for _, p := range list {
				size := regexp.MustCompile(`width="([0-9]+)[^"]*" height="([0-9]+)`).FindStringSubmatch(p)
				if wide, high := number(t, size[1]), number(t, size[2]); wide > 1000 || high > 900 {
					t.Errorf("%s: a picture is %d by %d", s.Cloth, wide, high)
				}
			}
			for i := range s.Lay().Pieces {
				if !numbered([]byte(all), i+1) {
					t.Errorf("%s: piece %d has no number", s.Cloth, i+1)
				}
			}
		}
	}
	far := strings.NewReplacer("above_floor: 96", "above_floor: 800", "60 yd", "600 yd").Replace(long)
	if n := len(draw.LaysInline(spreads(t, far, lay.Rows)[0], unwarned)); n != 0 {
		t.Errorf("pieces longer than a column are drawn in %d pictures", n)
	}
}

func number(t *testing.T, text string) int {
	t.Helper()
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// measure is a script that writes which texts of a page lie on each other, or beyond the
// edges of their picture.
const measure = `<script>
const found = [];
let count = 0;
for (const svg of document.querySelectorAll("svg:not(svg svg)")) {
  const texts = [...svg.querySelectorAll("text")], boxes = texts.map(t => t.getBoundingClientRect()), page = svg.getBoundingClientRect();
  const say = (what, ...which) => found.push(svg.querySelector("title").textContent + ": " + what + ": " + which.map(i => texts[i].textContent).join(" / "));
  count += texts.length;
  boxes.forEach((a, i) => {
    if (a.left < page.left || a.top < page.top || a.right > page.right || a.bottom > page.bottom) say("beyond the edge", i);
    // The box of a line has room above and below its letters: a fifth of it is not counted.
    boxes.slice(i + 1).forEach((b, j) => {
      const w = Math.min(a.right, b.right) - Math.max(a.left, b.left), h = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (w > 1 && h > 1 && Math.min(w, h) > Math.min(a.width, a.height, b.width, b.height) / 5) say("overlap", i, i + 1 + j);
    });
  });
}
document.body.innerHTML = "<pre>measured " + count + "\n" + found.map(f => f.replace(/[<&]/g, " ")).join("\n") + "</pre>";
</script>`

// TestTextApart measures the texts of the pictures in a browser: none lies on another,
// none beyond an edge. Two texts that do are found, so that the measure is one.
func TestTextApart(t *testing.T) {
	var body strings.Builder
	texts := 0
	for _, text := range []string{plain, patterned} {
		for _, mode := range lay.Modes() {
			p := picture(t, spreads(t, text, mode)[0])
			texts += bytes.Count(p, []byte("<text "))
			body.WriteString("<div>" + string(p) + "</div>")
		}
	}
	body.WriteString(draw.Shared())
	for _, text := range []string{patterned, long} {
		for _, p := range draw.LaysInline(spreads(t, text, lay.Rows)[0], unwarned) {
			texts += strings.Count(p, "<text ")
			body.WriteString("<div>" + p + "</div>")
		}
	}
	apart(t, body.String(), texts)
}

// apart requires that no text of the pictures in a page lies on another or beyond an edge,
// and that so many were measured.
func apart(t *testing.T, body string, texts int) {
	t.Helper()
	body += `<div><svg xmlns="http://www.w3.org/2000/svg" width="200" height="50"><title>bad</title><text x="20" y="30">one</text><text x="25" y="31">two</text></svg></div>`
	told := browser.Measured(t, "<!doctype html><meta charset=utf-8><body style='margin:0'>"+body+measure, "1400,1000")
	want := fmt.Sprintf("%d\nbad: overlap: one / two", texts+2)
	if diff := cmp.Diff(want, told); diff != "" {
		t.Errorf("texts are not apart (-want +got):\n%s", diff)
	}
}
