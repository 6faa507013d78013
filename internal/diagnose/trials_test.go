package diagnose

import (
	"os"
	"path/filepath"
	"testing"

	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/length"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// TestTrials doubles each stated outcome of every clean order, and holds how often the
// order is worked out to find the mistake: that is what a diagnosis takes its time for.
func TestTrials(t *testing.T) {
	const most = 350
	loader, err := load.New()
	if err != nil {
		t.Fatal(err)
	}
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	kinds := goods.All()
	names, err := filepath.Glob("../../testdata/orders/clean/*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatalf("no clean orders: %v", err)
	}
	work := func(text string) []*worksheet.Sheet {
		var list []*worksheet.Sheet
		for _, o := range loader.Orders(&source.File{Name: "order.yaml", Text: text}, load.YAML, load.Options{}) {
			list = append(list, worksheet.Work(o, tables, kinds))
		}
		return list
	}
	made, sum, worst := 0, 0, 0
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for n, clean := range work(string(text)) {
			for _, of := range clean.Stated {
				v := of.Value
				if v.N *= 2; v.Sort == worksheet.Ratio {
					v.R = v.R.Add(v.R)
				}
				at := of.Node.At
				s := work(string(text[:at.Start]) + clean.Print(of.Node, v, length.Nearest) + string(text[at.End:]))[n]
				if !disagrees(s) {
					continue
				}
				p := newProblem(s)
				p.search()
				if made, sum = made+1, sum+p.runs; p.runs > worst {
					worst = p.runs
					t.Logf("%s: %s doubled: %d trials", filepath.Base(name), of.Node.Text, p.runs)
				}
			}
		}
	}
	if t.Logf("%d mistakes took %d trials", made, sum); made < 500 || worst > most {
		t.Errorf("of %d mistakes the worst took %d trials", made, worst)
	}
}
