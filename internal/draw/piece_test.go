package draw_test

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/draw"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
)

// shaped has pieces of every shape, and one edge after the other turned.
const shaped = `order: AL-9
units: in
cloths:
  linen: {fiber: {linen: 100}, width: 60, selvedge: 1/2, shrinks: {length: 4%, width: 2%}}
  print: {fiber: {cotton: 100}, width: 54, selvedge: 1/2, nap: one way, repeat: {length: 12}}
  damask: {fiber: {cotton: 100}, width: 60, selvedge: 1/2}
items:
  - {item: tablecloth, id: round, cloth: damask, shape: round, table: {diameter: 30}, drop: 8}
  - {item: tablecloth, id: long, cloth: damask, shape: oval, oval: racetrack, table: {width: 36, length: 60}, drop: 8}
  - {item: tablecloth, id: later, cloth: linen, shape: round, table: {diameter: 50}, drop: 8}
  - {item: tablecloth, id: soft, cloth: linen, shape: rectangular, corners: rounded, table: {width: 30, length: 60}, drop: 10}
  - {item: bedspread, id: bed, cloth: print, bed: {width: 60, length: 80}, drop: 20, corners: rounded}
  - {item: cushion cover, id: stool, cloth: linen, style: round, pad: {diameter: 16, depth: 3}, closure: {kind: zip}}
  - {item: cushion cover, id: disc, cloth: linen, style: round, pad: {diameter: 16}, closure: {kind: zip}}
  - {item: cushion cover, id: tea, cloth: print, style: knife edge, pad: {width: 18, length: 18}, closure: {kind: envelope}}
  - {item: tie-back, id: bay, cloth: linen, shape: shaped, finished: {width: 4, length: 24}}
  - {item: curtain, id: bay, cloth: print, track: {width: 96, above_floor: 90, return: 3, overlap: 4}, hang: {to: floor}, heading: {style: pinch pleat, fullness: 2.5}, hems: {bottom: {turn: 4}, sides: {turn: 1 1/2}}}
`

// pieces are the pictures of the pieces of an order's items, a page of them.
func pieces(t *testing.T, text string) string {
	t.Helper()
	checker, err := lint.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	out.WriteString(draw.Shared())
	for _, r := range checker.CheckFile(&source.File{Name: "order.yaml", Text: text}, load.YAML) {
		if r.Err != nil {
			t.Fatal(r.Err)
		}
		for i := range r.Sheet.Items {
			it := &r.Sheet.Items[i]
			list := it.Patterns()
			if len(list) == 0 && len(it.Pieces) > 0 {
				t.Errorf("%s has no pictures", it.Order.ID.Value)
			}
			for j := range list {
				out.WriteString("<div>")
				if err := draw.Piece(&out, &list[j], r.Sheet.Unit); err != nil {
					t.Fatal(err)
				}
				out.WriteString("</div>\n")
			}
		}
	}
	out.WriteString("<div>" + draw.Key() + "</div>")
	return out.String()
}

func TestPieces(t *testing.T) {
	got := pieces(t, shaped)
	golden := filepath.Join("testdata", "pieces.html")
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s is not what is drawn: %s", golden, diff)
	}
}

// TestPieceTextApart measures the texts of the pictures of pieces in a browser: those of
// the shapes, and of all orders of the test data.
func TestPieceTextApart(t *testing.T) {
	body := pieces(t, shaped) + pieces(t, plain) + pieces(t, patterned)
	for _, folder := range []string{"clean", "demo", "faulty"} {
		files, err := filepath.Glob("../../testdata/orders/" + folder + "/*.yaml")
		if err != nil || len(files) == 0 {
			t.Fatalf("no orders in %s: %v", folder, err)
		}
		for _, f := range files {
			text, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			body += pieces(t, string(text))
		}
	}
	apart(t, body, strings.Count(body, "<text "))
}

// Holes in a top hem are drawn between its finished fold and its stitch line, and those
// further down below the line.
func TestHolesInTheHem(t *testing.T) {
	for fromTop, inHem := range map[string]bool{"3/4": true, "3": false} {
		got := pieces(t, `order: T1
units: in
cloths: {c: {fiber: {polyester: 100}, width: 60, selvedge: 1/2}}
items:
  - {item: shower curtain, cloth: c, finished: {width: 84, length: 76}, hems: {top: {turn: 2, folds: 2}, bottom: {turn: 3}, sides: {turn: 1/2}}, join: {layout: center and sides}, holes: {make: grommet, count: 14, from_side: 3, from_top: `+fromTop+`}}
`)
		_, panel, _ := strings.Cut(got, "<title>panel</title>")
		number := func(pattern string) float64 {
			found := regexp.MustCompile(pattern).FindStringSubmatch(panel)
			if found == nil {
				t.Fatalf("nothing is drawn like %s", pattern)
			}
			n, err := strconv.ParseFloat(found[1], 64)
			if err != nil {
				t.Fatal(err)
			}
			return n
		}
		fold, line := number(`"fold finished" d="M\S+ ([\d.]+)L`), number(`"sewn" d="M\S+ ([\d.]+)L`)
		hole, r := number(`"hole" cx="[\d.]+" cy="([\d.]+)"`), number(`"hole" .* ry="([\d.]+)"`)
		if hole-r <= fold || inHem != (hole+r < line) {
			t.Errorf("%s in below the top: fold at %v, stitch line at %v, hole at %v", fromTop, fold, line, hole)
		}
	}
}

// A piece's name and its grain's "up" lie between the lines through it, not on them.
func TestNameClearOfLines(t *testing.T) {
	page := pieces(t, `order: AL-10
units: in
cloths:
  c: {fiber: {cotton: 100}, width: 54, selvedge: 1/2}
items:
  - {item: Roman shade, cloth: c, finished: {width: 90, length: 60}, mount: outside}
  - {item: pillowcase, cloth: c, style: housewife, pillow: {width: 20, length: 30}}
  - {item: tie-back, cloth: c, shape: straight, made: folded, finished: {width: 4, length: 20}}
  - {item: tablecloth, cloth: c, shape: square, table: {width: 60}, drop: 10}
`)
	lines := regexp.MustCompile(`class="through" d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)"`)
	words := regexp.MustCompile(`<text x="([\d.]+)" y="([\d.]+)" font-size="([\d.]+)" text-anchor="middle"( transform="[^"]*")?>(panel|strip|tie-back|up)</text>`)
	number := func(text string) float64 {
		n, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	seen := 0
	for picture := range strings.SplitSeq(page, "</svg>") {
		for _, l := range lines.FindAllStringSubmatch(picture, -1) {
			x1, y1, x2, y2 := number(l[1]), number(l[2]), number(l[3]), number(l[4])
			for _, w := range words.FindAllStringSubmatch(picture, -1) {
				seen++
				x, y, high := number(w[1]), number(w[2]), number(w[3])
				long := high / 2 * float64(len(w[5]))
				left, right, top, foot := x-long/2, x+long/2, y-high*8/10, y
				if w[4] != "" { // upright
					left, right, top, foot = x-high*8/10, x, y-long/2, y+long/2
				}
				if max(left, x1) < min(right, x2) && top < y1 && y1 < foot && y1 == y2 || max(top, y1) < min(foot, y2) && left < x1 && x1 < right && x1 == x2 {
					t.Errorf("%q at %s %s lies on the line from %s %s to %s %s", w[5], w[1], w[2], l[1], l[2], l[3], l[4])
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no line lies through a piece")
	}
}
