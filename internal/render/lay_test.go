package render_test

import (
	"bytes"
	"context"
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

// TestLayText pins the lay for people of an order on hold, with pieces left and a cloth
// that is not laid.
func TestLayText(t *testing.T) {
	format, err := render.LayFormatNamed("text")
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := format.Write(&b, laid(t), render.Options{}); err != nil {
		t.Fatal(err)
	}
	golden(t, "lay.text", b.String())
}

// TestLaySchema holds the lays for programs to their schema.
func TestLaySchema(t *testing.T) {
	format, err := render.LayFormatNamed("json")
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := format.Write(&b, laid(t), render.Options{}); err != nil {
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
