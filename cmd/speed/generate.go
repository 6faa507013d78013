package main

import (
	"fmt"
	"iter"
	"math/rand/v2"
	"runtime"
	"sync"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
	"cutgate/rules"
)

// How orders are drawn.
const (
	faultyIn  = 10  // one in so many orders is got wrong
	mostDraws = 500 // of one order, until its choices suit each other
	numbered  = "TR-%d"
)

// A generator makes orders. What it makes of a number depends on the seed, the
// tables and the rules alone.
type generator struct {
	seed    uint64
	checker *lint.Checker
}

// newGenerator returns a generator with the trade's tables and all rules.
func newGenerator(seed uint64) (*generator, error) {
	checker, err := lint.New(rules.All())
	return &generator{seed: seed, checker: checker}, err
}

// A made order.
type made struct {
	number int
	unit   length.Unit
	form   *block
	slip   string   // the name of the slip in it; "" for a right one
	was    []string // what stood where the slip is
	again  []string // why its choices were drawn again: the rules' names
}

// order makes the order of that number: the dice give its choices, the
// worksheet its outcomes, and one order in ten gets a slip. Choices that a rule
// has something against, such as a fullness that wants a sliver of one more
// width, are drawn again before any outcome is stated, and so are those that
// would set a hole on a join.
func (g *generator) order(number int) (made, error) {
	rng := rand.New(rand.NewPCG(g.seed, uint64(number)))
	faulty := rng.IntN(faultyIn) == 0
	p := drawPlan(rng, number, g.checker.Tables)
	m := made{number: number, unit: p.unit}
	for range mostDraws {
		d, err := draw(rng, p, g.checker.Tables)
		if err != nil {
			return made{}, fmt.Errorf("drawing order %d: %w", number, err)
		}
		res := g.check(d.order)
		if res.Err != nil {
			return made{}, fmt.Errorf("working out order %d: %w", number, res.Err)
		}
		if f := gravest(res.Findings); f != nil {
			m.again = append(m.again, f.Rule)
			continue
		}
		if holeOnJoin(res.Sheet) {
			m.again = append(m.again, "a hole on a join")
			continue
		}
		d.state(res.Sheet)
		m.form = d.order
		if !faulty {
			return m, nil
		}
		if m.slip, m.was = d.spoil(res.Sheet); m.slip != "" {
			return m, nil
		}
	}
	return made{}, fmt.Errorf("order %d (%v): no choices suit each other in %d draws, the last for %v", number, p.kinds, mostDraws, m.again[max(0, len(m.again)-3):])
}

// check checks a form as it stands.
func (g *generator) check(form *block) lint.Result {
	text := string(appendJSON(nil, form))
	return g.checker.CheckFile(&source.File{Name: "drawn", Text: text}, load.JSON)[0]
}

// holeOnJoin reports whether a grommet would sit on a seam.
func holeOnJoin(s *worksheet.Sheet) bool {
	for i := range s.Items {
		it := &s.Items[i]
		reach := it.Order.Holes.Flange.Value / 2
		for _, hole := range it.Holes {
			for _, join := range it.Joined {
				if d := hole - join; max(d, -d) < reach {
					return true
				}
			}
		}
	}
	return false
}

// gravest returns the first finding that an order is not clear to cut for; nil
// where it is.
func gravest(list []finding.Finding) *finding.Finding {
	for i := range list {
		if list[i].Level >= finding.Warning {
			return &list[i]
		}
	}
	return nil
}

// all makes the orders of the numbers from first on, in their order, on all
// processors.
func (g *generator) all(first, count int) iter.Seq2[made, error] {
	type result struct {
		m   made
		err error
	}
	const chunk = 2000
	return func(yield func(made, error) bool) {
		for from := 0; from < count; from += chunk {
			results := make([]result, min(chunk, count-from))
			workers := runtime.GOMAXPROCS(0)
			var wg sync.WaitGroup
			for w := range workers {
				wg.Go(func() {
					for i := w; i < len(results); i += workers {
						results[i].m, results[i].err = g.order(first + from + i)
					}
				})
			}
			wg.Wait()
			for _, r := range results {
				if !yield(r.m, r.err) {
					return
				}
			}
		}
	}
}
