package goods_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/goods"
	"cutgate/internal/length"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
	ws "cutgate/internal/worksheet"
)

// Every piece says what lies along its edges, or is cut to its size and has none.
func TestEdgesSaid(t *testing.T) {
	bare := []string{"piping square", "interfacing", "wadding", "cornice lining", "bedspread lining", "bedspread interlining", "bedspread lining center", "bedspread lining side",
		"bedspread interlining center", "bedspread interlining side"}
	for _, k := range goods.All().All() {
		name := k.Name
		for _, p := range k.Pieces {
			said := slices.ContainsFunc(k.Edgings, func(e ws.Edging) bool { return slices.Contains(strings.Split(e.Of, "/"), p.Name) })
			if !said && !slices.Contains(bare, p.Name) && !slices.Contains(bare, name+" "+p.Name) {
				t.Errorf("%s: nothing says what lies along the edges of the %s", name, p.Name)
			}
		}
	}
}

// What edges take is what was added to the finished size: between its lines a panel is
// as large as it finishes, and so are its pieces together.
func TestEdgesAddUp(t *testing.T) {
	checker, err := lint.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	flat := []string{"shower curtain", "tablecloth", "Roman shade", "duvet cover", "bedspread"}
	seen := map[string]bool{}
	files, _ := filepath.Glob("../../testdata/orders/[cd]*/*.yaml")
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range checker.CheckFile(&source.File{Name: f, Text: string(text)}, load.YAML) {
			for i := range r.Sheet.Items {
				it := &r.Sheet.Items[i]
				kind := it.Order.Kind.Value
				list := it.Patterns()
				if len(list) == 0 {
					continue
				}
				panel := &list[0]
				wide, long := panel.Net()
				for side, e := range panel.Edges { // a hem that is made after the wash
					if s := ws.Side(side); s == ws.Left || s == ws.Right {
						wide -= e.Later
					} else {
						long -= e.Later
					}
				}
				step := 2 * it.Step()
				near := func(what string, got, want length.Length) {
					if !ws.Near(got, want, step) {
						t.Errorf("%s, %s: %s between the lines, and %s of %s", f, it.Order.ID.Value, got.Format(r.Sheet.Unit, length.Nearest), what, want.Format(r.Sheet.Unit, length.Nearest))
					}
				}
				share := func(l length.Length, s length.Ratio) length.Length {
					return l.QuoRatio(length.NewRatio(1, 1).Sub(s), length.Nearest)
				}
				if slices.Contains(flat, kind) {
					seen[kind] = true
					along, across := panel.Cloth.Shrinks()
					near("finished width", wide, share(it.Length("finished width"), across))
					near("finished length", long, share(it.Length("finished length"), along))
				}
				var sum length.Length
				for _, p := range list[1:] {
					if p.Name == "center" || p.Name == "side" {
						w, l := p.Net()
						sum += w.Mul(p.Count)
						near("length of the panel", l, long)
					}
				}
				if sum > 0 {
					near("width of the panel", sum, wide)
				}
			}
		}
	}
	for _, kind := range flat {
		if !seen[kind] && kind != "tablecloth" {
			t.Errorf("no %s was looked at", kind)
		}
	}
}
