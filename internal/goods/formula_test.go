package goods

import (
	"math/big"
	"os"
	"path/filepath"
	"testing"

	"cutgate/internal/form"
	"cutgate/internal/load"
	"cutgate/internal/source"
	ws "cutgate/internal/worksheet"
)

// TestFormulas evaluates the formula of every quantity of every order in
// testdata, with the numbers that people are shown, and requires the value that
// the sheet has: the working cannot disagree with the result.
func TestFormulas(t *testing.T) {
	loader, err := load.New()
	if err != nil {
		t.Fatal(err)
	}
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	names, err := filepath.Glob("../../testdata/orders/*/*")
	if err != nil {
		t.Fatal(err)
	}
	done := 0
	for _, name := range names {
		format, ok := load.FormatOf(name)
		if !ok {
			continue
		}
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range loader.Orders(&source.File{Name: name, Text: string(data)}, format, load.Options{}) {
			for _, q := range ws.Work(o, tables, All()).All {
				if q.Formula == "" || q.Value.Sort == ws.Dots {
					continue
				}
				v := evaluate(t, q)
				if v == nil {
					continue
				}
				done++
				d := v.Sub(v, exact(q.Value))
				if d.Abs(d).Cmp(big.NewRat(1, 100_000)) > 0 { // 10 µm, 10 µg, or so of a ratio
					t.Errorf("%s: %s: %s is not %s", name, q.Path(), q.Words(), q.Figures(ws.Work(o, tables, All()).Unit))
				}
			}
		}
	}
	if done < 200 {
		t.Errorf("only %d formulas were evaluated", done)
	}
}
