package render_test

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/cuecontext"
	cuejson "cuelang.org/go/encoding/json"

	"cutgate/internal/finding"
	"cutgate/internal/lay"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/render"
	"cutgate/internal/source"
	"cutgate/internal/spread"
	"cutgate/internal/worksheet"
)

// cushions are two of a cloth with two short bolts, and a cloth that is too narrow.
const cushions = `order: SX-80
units: in
cloths:
  ticking: {name: cotton ticking, width: 54, nap: none, bolts: [{lot: A, length: 40}, {length: 15}]}
  tape: {width: 20}
items:
  - {item: cushion cover, id: bench, quantity: 2, cloth: ticking, style: boxed, pad: {width: 20, length: 22, depth: 4}, allowance: 1/2}
  - {item: cushion cover, cloth: tape, style: boxed, pad: {width: 20, length: 22, depth: 4}, allowance: 1/2}
`

// laid lays the cushions.
func laid(t *testing.T) *render.Laid {
	t.Helper()
	checker, err := lint.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	l := &render.Laid{Verdicts: map[*worksheet.Sheet]finding.Verdict{}}
	var sheets []*worksheet.Sheet
	for _, r := range checker.CheckFile(&source.File{Name: "seats.yaml", Text: cushions}, load.YAML) {
		if r.Err != nil {
			t.Fatal(r.Err)
		}
		sheets = append(sheets, r.Sheet)
		l.Verdicts[r.Sheet] = finding.Hold
	}
	l.Spreads, l.Left, err = spread.Of(context.Background(), sheets, spread.Options{Mode: new(lay.Free), Turn: []string{"boxing"}})
	if err != nil || len(l.Spreads) != 1 || len(l.Left) != 1 || l.Spreads[0].Lay().Left == nil {
		t.Fatalf("%v: %+v", err, l)
	}
	return l
}

// A picture of an order on hold says so where it is seen and where it is read out.
func TestLayPictureOnHold(t *testing.T) {
	format, err := render.Named(render.LayFormats(), "svg")
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := format.Writer(&out, laid(t), render.Options{}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{">ON HOLD: DO NOT CUT: SX-80</text>", "<title>Lay of cotton ticking. ON HOLD: DO NOT CUT: SX-80</title>"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in the picture", want)
		}
	}
}

// TestLayText pins the lay for people of an order on hold, with pieces left and a cloth
// that is not laid.
func TestLayText(t *testing.T) {
	format, err := render.Named(render.LayFormats(), "text")
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := format.Writer(&b, laid(t), render.Options{}); err != nil {
		t.Fatal(err)
	}
	golden(t, "lay.text", b.String())
}

// TestLayTextSays holds the lay to what it says where one lot has no room for all of an item, and
// where pieces are to match across the cloth.
func TestLayTextSays(t *testing.T) {
	format, err := render.Named(render.LayFormats(), "text")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ order, want string }{
		{"cloths: {c: {width: 137, bolts: [{lot: A, length: 8 m}, {lot: B, length: 12.6 m}]}}\nitems:\n" +
			"  - {item: curtain, quantity: 3, panels: 2, cloth: c, heading: {style: pencil pleat, fullness: 2, allowance: 8}, finished: {width: 200, length: 150}, hems: {bottom: {turn: 10, folds: 2}, sides: {turn: 3, folds: 2}}, join: {allowance: 2}}\n",
			"548 cm of bolt 2 is left, but one item is cut from one dye lot"}, // 4 of 178 cm take 712 cm
		{"cloths: {c: {width: 138, repeat: {width: 46}}, b: {width: 240}}\nitems:\n" +
			"  - {item: duvet cover, cloth: c, finished: {width: 200, length: 200}, opening: {turn: 3, folds: 2}, join: {layout: center and sides}, back: {cloth: b}}\n",
			"the sides are not placed across the cloth"},
	} {
		checker, err := lint.New(nil)
		if err != nil {
			t.Fatal(err)
		}
		res := checker.CheckFile(&source.File{Name: "a.yaml", Text: "order: T\nunits: cm\n" + c.order}, load.YAML)
		spreads, _, err := spread.Of(context.Background(), []*worksheet.Sheet{res[0].Sheet}, spread.Options{})
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := format.Writer(&b, &render.Laid{Spreads: spreads}, render.Options{}); err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(strings.Fields(b.String()), " "); !strings.Contains(got, c.want) {
			t.Errorf("%q is not in\n%s", c.want, b.String())
		}
	}
}

// TestLaySchema holds the lays for programs to their schema.
func TestLaySchema(t *testing.T) {
	format, err := render.Named(render.LayFormats(), "json")
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := format.Writer(&b, laid(t), render.Options{}); err != nil {
		t.Fatal(err)
	}
	ctx := cuecontext.New()
	expr, err := cuejson.Extract("lays.json", b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if err := definition(t, ctx, "#Lays").Unify(ctx.BuildExpr(expr)).Validate(cue.Concrete(true)); err != nil {
		t.Error(err)
	}
	for _, field := range []string{`"left"`, `"not_laid"`, `"lot"`, `"turned"`} {
		if !bytes.Contains(b.Bytes(), []byte(field)) {
			t.Errorf("nothing of what is laid has %s", field)
		}
	}
}
