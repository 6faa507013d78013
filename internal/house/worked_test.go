package house

import (
	"cutgate/internal/form"
	"cutgate/internal/goods"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/cuecontext"
	"github.com/google/go-cmp/cmp"

	"cutgate/internal/length"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// works works out the orders of a file.
func works(t *testing.T, name, text string) []*worksheet.Sheet {
	t.Helper()
	l, err := load.New()
	if err != nil {
		t.Fatal(err)
	}
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	format, _ := load.FormatOf(name)
	var list []*worksheet.Sheet
	for _, o := range l.Orders(&source.File{Name: name, Text: text}, format, load.Options{}) {
		list = append(list, worksheet.Work(o, tables, goods.All()))
	}
	return list
}

// TestNamesOfWhatIsSeen holds what rules see of real orders against what they
// may name: every field is known, and of the kind that is told.
func TestNamesOfWhatIsSeen(t *testing.T) {
	names, err := filepath.Glob("../../testdata/orders/*/*")
	if err != nil || len(names) == 0 {
		t.Fatalf("orders: %v", err)
	}
	forms, err := filepath.Glob("../../cmd/cutgate/orders/*.yaml")
	if err != nil || len(forms) == 0 {
		t.Fatalf("forms: %v", err)
	}
	all, err := kinds()
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, name := range append(names, forms...) {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range works(t, name, string(text)) {
			v := newViewer(s, length.MM)
			for i := range s.Items {
				it := &s.Items[i]
				of := all[it.Order.Kind.Value]
				if of == nil {
					continue
				}
				seen++
				item := v.item(it)
				testPart(t, name, of, &item, "")
			}
		}
	}
	if seen < 10 {
		t.Errorf("only %d items were seen", seen)
	}
}

func testPart(t *testing.T, file string, of *part, v *value, p string) {
	t.Helper()
	kind := map[order.Form]cue.Kind{order.Map: cue.StructKind, order.List: cue.ListKind, order.Number: cue.NumberKind, order.Scalar: cue.StringKind, order.Truth: cue.BoolKind}[v.form]
	if of.kind&kind == 0 {
		t.Errorf("%s: %s is %v, and rules are told that it is %v", file, p, kind, of.kind)
		return
	}
	if of.words != nil && !slices.Contains(of.words, v.text) {
		t.Errorf("%s: %s is %q, which is none of its words", file, p, v.text)
	}
	for i := range v.kids {
		k := &v.kids[i]
		to, at := of.list, element(p, i)
		if v.form == order.Map {
			if to, at = of.fields[k.name], path(p, k.name); to == nil {
				to = of.any
			}
		}
		if to == nil {
			t.Errorf("%s: rules are not told of %s", file, at)
			continue
		}
		testPart(t, file, to, k, at)
	}
}

// TestQuantitiesAreAllNamed holds the list of quantities against the
// worksheet's own names.
func TestQuantitiesAreAllNamed(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), "../worksheet/name.go", nil, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	ast.Inspect(file, func(n ast.Node) bool {
		if spec, ok := n.(*ast.ValueSpec); ok {
			for _, v := range spec.Values {
				if lit, ok := v.(*ast.BasicLit); ok {
					name, err := strconv.Unquote(lit.Value)
					if err != nil {
						t.Fatal(err)
					}
					names = append(names, name)
				}
			}
		}
		return true
	})
	if len(names) < 40 {
		t.Fatalf("only %d quantities", len(names))
	}
	told := append(quantities(goods.All(), false).names, quantities(goods.All(), true).names...)
	for _, name := range names {
		said := quantityName("", worksheet.Name(name))
		if !slices.ContainsFunc(told, func(one string) bool { return one == said || strings.HasSuffix(one, "_"+said) }) {
			t.Errorf("rules can't name the quantity %q", name)
		}
	}
}

func TestQuantityName(t *testing.T) {
	for _, c := range []struct {
		of   string
		name worksheet.Name
		want string
	}{
		{"", worksheet.WetMass, "hanging_mass_wet"}, {"", worksheet.StackBack, "stack_back"}, {"bottom", worksheet.HemTakes, "bottom_hem_takes"},
		{"cut down", worksheet.PanelWidth, "cut_down_panel_width_flat"}, {"", worksheet.HoleInset, "first_hole_from_the_side"},
	} {
		if got := quantityName(c.of, c.name); got != c.want {
			t.Errorf("%s %s is %s, want %s", c.of, c.name, got, c.want)
		}
	}
}

func TestSteps(t *testing.T) {
	for p, want := range map[string][]step{
		"room":                    {{name: "room"}},
		"cuts[1].width":           {{name: "cuts"}, {index: 1}, {name: "width"}},
		`cloth.fiber."new wool"`:  {{name: "cloth"}, {name: "fiber"}, {name: "new wool"}},
		`cloth."a.b[0]"[2]`:       {{name: "cloth"}, {name: "a.b[0]"}, {index: 2}},
		"":                        nil,
		".":                       nil,
		"a.":                      nil,
		"a..b":                    nil,
		"[0]":                     nil,
		"a[x]":                    nil,
		"a[1":                     nil,
		"a[-1]":                   nil,
		`a."b`:                    nil,
		`a.""`:                    nil,
		`"a"b`:                    nil,
		"a[99999999999999999999]": nil,
	} {
		got, ok := steps(p)
		if ok != (want != nil) || ok && !cmp.Equal(want, got, cmp.AllowUnexported(step{})) {
			t.Errorf("%q: %v, %v", p, got, ok)
		}
	}
}

// TestWorked shows what rules see of a curtain whose hems, cuts and seams the
// order leaves blank, in centimetres.
func TestWorked(t *testing.T) {
	const text = `order: TL-3
units: in
cloths:
  moss: {width: 54, weight: 8 oz/yd2, fiber: {cotton: 100}, shrinks: {length: 2.5%}}
measured: {moss: {width: 53, shrinks: {length: 3%}}}
items:
  - item: curtain
    cloth: moss
    panels: 1
    track: {width: 30, above_floor: 90}
    hang: {to: floor, clearance: 1/2}
    heading: {style: gathered}
    hems: {bottom: {turn: 4}}
    press: {setting: 150 C, steam: true}
    near_heat: false
`
	s := works(t, "order.yaml", text)[0]
	h := &House{unit: length.CM, Tables: &trade.Tables{}}
	got, err := Worked(h, s)
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "worked.cue", got)
	if _, err := Worked(nil, s); err != nil {
		t.Error(err)
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(file, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s: (-want +got)\n%s", name, d)
	}
}

func TestPlainNumbers(t *testing.T) {
	for _, c := range []struct {
		n, unit int64
		want    string
	}{
		{int64(3 * length.Inch), int64(length.Millimetre), "76.2"}, {int64(3 * length.Inch), int64(length.Inch), "3"},
		{int64(length.Inch / 16), int64(length.Inch), "0.0625"}, {int64(-length.Inch), int64(length.Centimetre), "-2.54"},
		{int64(length.Metre), int64(length.Inch), "39.37007874"}, {0, int64(length.Inch), "0"},
	} {
		if got := plain(c.n, c.unit); got != c.want {
			t.Errorf("%d by %d is %s, want %s", c.n, c.unit, got, c.want)
		}
	}
	for text, want := range map[string]string{"-2.5": "-2.5", "3": "3", "-7": "-7"} {
		v := value{form: order.Number, text: text}
		if got := fmt.Sprint(cuecontext.New().BuildExpr(v.syntax(nil))); got != want {
			t.Errorf("%s comes out as %s", text, got)
		}
	}
}
