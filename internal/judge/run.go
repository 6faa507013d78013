package judge

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"runtime"
	"sync"

	"cutgate/internal/finding"
	"cutgate/internal/generate"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
)

// A Set is a sort of order that mistakes are made in.
type Set uint8

// The sorts of orders.
const (
	Ordinary Set = iota
	Odd          // unusual sizes
	Half         // half of the outcomes are blank
	Hand         // outcomes are rounded by hand
	setEnd
)

var setNames = [...]string{"ordinary", "unusual sizes", "half blank", "rounded by hand"}

func (s Set) String() string { return setNames[s] }

// Each is how many mistakes are made in an order of each sort.
type Each struct {
	Singles [setEnd]int // in a number
	Swaps   bool        // whether neighbors are swapped, in an ordinary order
	Worked  int         // worked on from, in an ordinary order
	Pairs   int         // of each sort, in an ordinary order
}

// Full is how many are made where time matters little.
var Full = Each{Singles: [setEnd]int{Ordinary: 2, Odd: 1, Half: 1, Hand: 1}, Swaps: true, Worked: 2, Pairs: 3}

// A Run makes and judges the orders of a seed.
type Run struct {
	Checker *lint.Checker
	Kind    string // of goods, where only one is looked at
	Seed    uint64
	Orders  int
	Each    Each
	Done    func()             // after each order of each sort, from any goroutine; may be nil
	Keep    func(Verdict) bool // which mistakes the tally keeps as cases; may be nil
}

// Run judges on all processors.
func (r *Run) Run() (*Tally, error) {
	type result struct {
		t   *Tally
		err error
	}
	results := make([]result, r.Orders*int(setEnd))
	next := make(chan int)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				t := NewTally()
				results[i] = result{t, r.order(t, Set(i%int(setEnd)), i/int(setEnd))}
				if r.Done != nil {
					r.Done()
				}
			}
		})
	}
	for i := range results {
		next <- i
	}
	close(next)
	wg.Wait()
	all := NewTally()
	for i, x := range results {
		if x.err != nil {
			return nil, fmt.Errorf("seed %d, order %d: %w", r.Seed, i/int(setEnd), x.err)
		}
		all.Add(x.t)
	}
	return all, nil
}

// subject makes an order of one sort: every other one is YAML, the rest JSON Lines.
func (r *Run) subject(set Set, n int, rng *rand.Rand) (*Subject, error) {
	g := generate.Generator{Seed: r.Seed, Kind: r.Kind, Checker: r.Checker, Odd: set == Odd}
	o, err := g.Order(n)
	if err != nil {
		return nil, err
	}
	agree := &rounded
	switch set {
	case Half:
		o.BlankHalf(rng)
	case Hand:
		o.RoundByHand(rng)
		agree = &byHand
	}
	f, format := &source.File{Name: "order.yaml", Text: string(o.YAML())}, load.YAML
	if n%2 == 1 {
		f, format = &source.File{Name: "order.jsonl", Text: string(o.JSON()) + "\n"}, load.JSONLines
	}
	return newSubject(r.Checker, f, format, agree)
}

// order judges the mistakes of an order of one sort.
func (r *Run) order(t *Tally, set Set, n int) error {
	rng := rand.New(rand.NewPCG(r.Seed, uint64(n)<<8|uint64(set)))
	s, err := r.subject(set, n, rng)
	if err != nil {
		return err
	}
	t.sober(set, s.alarms, len(s.spoilt) > 0)
	list, err := r.mutations(s, set, rng)
	if err != nil {
		return err
	}
	for _, m := range list {
		v, err := s.Judge(m)
		c := Case{Seed: r.Seed, Order: n, Set: set, Mutation: m, Verdict: v}
		var b *lint.Broken
		switch {
		case errors.As(err, &b):
			t.Broken = append(t.Broken, fmt.Sprintf("%s\n    %v", &c, err))
			continue
		case err != nil:
			return fmt.Errorf("%s: %w", &c, err)
		}
		t.add(set, m, &v)
		if r.Keep != nil && r.Keep(v) {
			t.Cases = append(t.Cases, c)
		}
	}
	return nil
}

func (r *Run) mutations(s *Subject, set Set, rng *rand.Rand) ([]*Mutation, error) {
	list := s.singles(rng, r.Each.Singles[set])
	if set != Ordinary {
		return list, nil
	}
	if r.Each.Swaps {
		list = append(list, s.swaps()...)
	}
	for range r.Each.Worked {
		m, err := s.workedOn(rng)
		if err != nil {
			return nil, err
		}
		if m != nil {
			list = append(list, m)
		}
	}
	for range r.Each.Pairs {
		for choices := range 3 {
			if m := s.pair(rng, choices); m != nil {
				list = append(list, m)
			}
		}
	}
	return list, nil
}

// raised are the rules that say more than a note.
func raised(list []finding.Finding) (rules []string) {
	for i := range list {
		if list[i].Level >= finding.Warning {
			rules = append(rules, list[i].Rule)
		}
	}
	return rules
}
