package diagnose

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/length"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// A mistaken is a clean order in which one number was changed.
type mistaken struct {
	what string
	work func(m *worksheet.Memory) *worksheet.Sheet
}

// A clean is a clean order of the test data, and the way to read its text again.
type clean struct {
	name string // of its file
	text string
	nth  int // which of the orders in the file it is
	*order.Order
}

// sheets works orders out as the program does.
type sheets struct {
	loader *load.Loader
	tables *trade.Tables
	kinds  *worksheet.Kinds
}

func newSheets(t testing.TB) sheets {
	t.Helper()
	loader, err := load.New()
	if err != nil {
		t.Fatal(err)
	}
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	return sheets{loader, tables, goods.All()}
}

func (w sheets) orders(text string) []*order.Order {
	return w.loader.Orders(&source.File{Name: "order.yaml", Text: text}, load.YAML, load.Options{})
}

func (w sheets) work(m *worksheet.Memory, o *order.Order) *worksheet.Sheet {
	s := worksheet.WorkIn(m, o, w.tables, w.kinds)
	s.Allowed = w.loader.WordsOf
	return s
}

// clean are the clean orders of the test data.
func (w sheets) clean(t testing.TB) (list []clean) {
	t.Helper()
	names, err := filepath.Glob("../../testdata/orders/clean/*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatalf("no clean orders: %v", err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for n, o := range w.orders(string(text)) {
			list = append(list, clean{filepath.Base(name), string(text), n, o})
		}
	}
	return list
}

// mistakes multiplies by a factor each stated outcome of every clean order, and each choice
// too where choices are wanted. There are those that something disagrees with.
func mistakes(t testing.TB, factor length.Ratio, choices bool) (list []mistaken) {
	t.Helper()
	w := newSheets(t)
	for _, o := range w.clean(t) {
		right := w.work(new(worksheet.Memory), o.Order)
		change := func(node *order.Node, v worksheet.Value) {
			v.N, v.R = length.NewRatio(v.N, 1).Mul(factor).Int(length.Nearest), v.R.Mul(factor)
			wrong := w.orders(o.text[:node.At.Start] + right.Print(node, v, length.Nearest) + o.text[node.At.End:])[o.nth]
			work := func(m *worksheet.Memory) *worksheet.Sheet { return w.work(m, wrong) }
			if disagrees(work(new(worksheet.Memory))) {
				list = append(list, mistaken{o.name + ": " + node.Text + " times " + factor.Format(2), work})
			}
		}
		for _, of := range right.Stated {
			change(of.Node, of.Value)
		}
		if choices {
			for _, c := range right.Choices() {
				change(c.Node, c.Value)
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

// TestWordsRest has each word of every clean order say something else, and works out once what
// rests on it and once all: they have to come out alike, so that a kind says of every term
// which words it is read from.
func TestWordsRest(t *testing.T) {
	compared := 0
	w := newSheets(t)
	for _, o := range w.clean(t) {
		s := w.work(new(worksheet.Memory), o.Order)
		p := newProblem(s)
		p.choices = s.Worded()
		for i := range p.choices {
			c := &p.choices[i]
			for n, word := range c.Words {
				h := hypothesis{edits: []edit{{choice: i, value: worksheet.Value{Sort: worksheet.Word, N: int64(n)}}}}
				some := p.try(&h, nil)
				c.Take(h.edits[0].value)
				all := s.Try(o.Order, &worksheet.Trial{})
				c.Take(c.Value)
				for k, of := range some.at {
					j := slices.IndexFunc(all.Stated, func(a worksheet.Stated) bool { return a.Node == p.outs[k].Node })
					compared++
					switch {
					case of == nil && j < 0:
					case of == nil || j < 0 || of.Agrees != all.Stated[j].Agrees || of.Quantity != nil && of.Quantity.Value != all.Stated[j].Quantity.Value:
						t.Errorf("%s: with %s %s the %s (%s) comes out otherwise than in an order that says so", o.name, c.Name, word, p.outs[k].Node.Name, p.outs[k].Quantity.Called())
					case of.Quantity != nil && p.outs[k].Quantity != nil && of.Quantity.Value != p.outs[k].Quantity.Value && !s.Moves(c, of):
						t.Errorf("%s: with %s %s the %s comes out otherwise, and is not said to rest on it", o.name, c.Name, word, p.outs[k].Quantity.Called())
					}
				}
				p.done(some)
			}
		}
		p.leave()
	}
	if compared < 1000 {
		t.Errorf("only %d outcomes were compared", compared)
	}
}
