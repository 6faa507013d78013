package diagnose

import (
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/length"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// A mistaken is a clean order in which one number was changed.
type mistaken struct {
	what string
	work func(m *worksheet.Memory) *worksheet.Sheet
}

// mistakes multiplies by a factor each stated outcome of every clean order, and each choice
// too where choices are wanted. There are those that something disagrees with.
func mistakes(t testing.TB, factor length.Ratio, choices bool) (list []mistaken) {
	t.Helper()
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
	orders := func(text string) []*order.Order {
		return loader.Orders(&source.File{Name: "order.yaml", Text: text}, load.YAML, load.Options{})
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for n, o := range orders(string(text)) {
			clean := worksheet.Work(o, tables, kinds)
			change := func(node *order.Node, v worksheet.Value) {
				v.N, v.R = length.NewRatio(v.N, 1).Mul(factor).Int(length.Nearest), v.R.Mul(factor)
				at := node.At
				wrong := orders(string(text[:at.Start]) + clean.Print(node, v, length.Nearest) + string(text[at.End:]))[n]
				work := func(m *worksheet.Memory) *worksheet.Sheet { return worksheet.WorkIn(m, wrong, tables, kinds) }
				if disagrees(work(new(worksheet.Memory))) {
					list = append(list, mistaken{filepath.Base(name) + ": " + node.Text + " times " + factor.Format(2), work})
				}
			}
			for _, of := range clean.Stated {
				change(of.Node, of.Value)
			}
			if choices {
				for _, c := range clean.Choices() {
					change(c.Node, c.Value)
				}
			}
		}
	}
	return list
}

// TestTrials doubles each stated outcome of every clean order, and holds how often the
// order is worked out to find the mistake: that is what a diagnosis takes its time for.
func TestTrials(t *testing.T) {
	const most = 350
	list := mistakes(t, length.NewRatio(2, 1), false)
	sum, worst := 0, 0
	for _, m := range list {
		p := newProblem(m.work(new(worksheet.Memory)))
		p.search()
		if sum += p.runs; p.runs > worst {
			worst = p.runs
			t.Logf("%s: %d trials", m.what, p.runs)
		}
	}
	if t.Logf("%d mistakes took %d trials", len(list), sum); len(list) < 500 || worst > most {
		t.Errorf("of %d mistakes the worst took %d trials", len(list), worst)
	}
}

// BenchmarkDiagnose diagnoses each mistake of a sample: outcomes and choices that are
// twice, ten times and an inch to the centimetre what they should be. Of each the fastest
// run counts, so that what else the machine does shows less; every run works through all.
func BenchmarkDiagnose(b *testing.B) {
	var list []mistaken
	for _, f := range []length.Ratio{{Num: 2, Den: 1}, {Num: 10, Den: 1}, {Num: 100, Den: 254}} {
		for i, m := range mistakes(b, f, true) {
			if i%4 == 0 {
				list = append(list, m)
			}
		}
	}
	fastest := make([]time.Duration, len(list))
	for i := range fastest {
		fastest[i] = math.MaxInt64
	}
	b.ReportAllocs()
	memory := new(worksheet.Memory)
	for b.Loop() {
		for i, m := range list {
			b.StopTimer()
			memory.Reset()
			s := m.work(memory)
			b.StartTimer()
			start := time.Now()
			Order(s)
			fastest[i] = min(fastest[i], time.Since(start))
		}
	}
	var sum, worst time.Duration
	var slowest string
	for i, d := range fastest {
		if sum += d; d > worst {
			worst, slowest = d, list[i].what
		}
	}
	b.Logf("slowest: %s", slowest)
	b.ReportMetric(float64(sum.Microseconds())/float64(len(list)), "mean-µs")
	b.ReportMetric(float64(worst.Microseconds()), "worst-µs")
	b.ReportMetric(float64(len(list)), "orders")
}

// TestWanted works mistaken orders out with every choice a little more, once for what is
// contradicted alone and once in whole: what is contradicted has to come out alike.
func TestWanted(t *testing.T) {
	compared := 0
	for i, m := range mistakes(t, length.NewRatio(10, 1), true) {
		if i%8 != 0 {
			continue
		}
		p := newProblem(m.work(new(worksheet.Memory)))
		p.consider(hypothesis{})
		wrong := p.trouble()
		p.choices = p.base.Choices()
		wanted := p.base.Wanting(wrong)
		for choice := range p.choices {
			h, ok := p.with(hypothesis{}, choice, number(p.choices[choice].Value)*(1+little))
			if !ok {
				continue
			}
			some, all := p.tryFor(wanted, &h, nil), p.try(&h, nil)
			for k, off := range p.off(some, wrong) {
				compared++
				if want := p.off(all, wrong)[k]; off != want && !(math.IsNaN(off) && math.IsNaN(want)) {
					t.Errorf("%s: with another %s the %s is %g off, and %g by itself", m.what, p.choices[choice].Name, p.outs[wrong[k]].Node.Name, want, off)
				}
			}
			p.done(some)
			p.done(all)
		}
	}
	if compared < 1000 {
		t.Errorf("only %d outcomes were compared", compared)
	}
}
