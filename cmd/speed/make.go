package main

import (
	"fmt"
	"iter"
	"math/rand/v2"

	"cutgate/internal/generate"
	"cutgate/internal/judge"
	"cutgate/internal/length"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/rules"
)

// faultyIn is in how many orders one is got wrong.
const faultyIn = 10

// A maker makes orders, some of them with a mistake.
type maker struct{ generate.Generator }

// newMaker returns a maker with the trade's tables and all rules.
func newMaker(seed uint64) (*maker, error) {
	checker, err := lint.New(rules.All())
	return &maker{generate.Generator{Seed: seed, Checker: checker}}, err
}

// A made order.
type made struct {
	number  int
	unit    length.Unit
	text    string
	mistake string   // its kind; "" for a right one
	was     string   // what stood where the mistake is
	again   []string // why its choices were drawn again: the rules' names
}

// all makes the orders of the numbers from first on, as files of a format.
func (g *maker) all(first, count int, format load.Format) iter.Seq2[made, error] {
	return func(yield func(made, error) bool) {
		for o, err := range g.All(first, count) {
			var m made
			if err == nil {
				m, err = g.made(o, format)
			}
			if !yield(m, err) {
				return
			}
		}
	}
}

// made writes an order, and gets one in ten wrong.
func (g *maker) made(o *generate.Order, format load.Format) (made, error) {
	m := made{number: o.Number, unit: o.Unit, again: o.Again, text: string(o.JSON()) + "\n"}
	if format == load.YAML {
		m.text = string(o.YAML())
	}
	rng := rand.New(rand.NewPCG(^g.Seed, uint64(o.Number)))
	if rng.IntN(faultyIn) > 0 {
		return m, nil
	}
	s, err := judge.NewSubject(g.Checker, &source.File{Name: "drawn", Text: m.text}, format)
	if err != nil {
		return m, fmt.Errorf("order %d: %w", o.Number, err)
	}
	x, err := s.Draw(rng)
	if err != nil {
		return m, fmt.Errorf("order %d: %w", o.Number, err)
	}
	if x != nil {
		m.text, m.mistake, m.was = x.Text, x.Kind, x.Was
	}
	return m, nil
}
