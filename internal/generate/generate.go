// Package generate draws work orders as people write them: the dice give the
// choices, and the outcomes are what the program fills in where they are blank.
//
// # Law
//
// What is made of a number depends on the seed, the tables and the rules alone.
// Choices that a rule has something against are drawn again before any outcome
// is stated; what is found once they are stated is not looked at, so that it can
// be measured.
//
// # What it is not
//
// It knows no mistakes: its orders are right as far as the program goes.
package generate

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
)

// mostDraws is how often an order is drawn until its choices suit each other.
const mostDraws = 500

// A Generator makes orders.
type Generator struct {
	Seed    uint64
	Checker *lint.Checker
	Kind    string // the only kind of goods; "" for all
	Odd     bool   // sizes to an eighth of an inch or a millimetre, odd cloth widths and allowances
}

// An Order is one that was made.
type Order struct {
	Number int
	Unit   length.Unit
	Again  []string // why its choices were drawn again: the rules' names

	form     *block
	outcomes []outcome
}

// An outcome is a place of the form that the program filled in.
type outcome struct {
	in   *block
	name string
	cut  bool // in is a cut
}

// Name is what an order of that number is called.
func Name(number int) string { return fmt.Sprintf("TR-%d", number) }

// YAML writes the order as people type it.
func (o *Order) YAML() []byte { return appendYAML(nil, o.form, 0) }

// JSON writes the order on one line, without its end.
func (o *Order) JSON() []byte { return appendJSON(nil, o.form) }

// Order makes the order of that number.
func (g *Generator) Order(number int) (*Order, error) {
	rng := rand.New(rand.NewPCG(g.Seed, uint64(number)))
	p := drawPlan(rng, number, g.Checker.Tables)
	if g.Kind != "" {
		p.kinds = []string{g.Kind}
	}
	o := &Order{Number: number, Unit: p.unit}
	for range mostDraws {
		d, err := draw(rng, p, g.Checker.Tables, g.Odd)
		if err != nil {
			return nil, fmt.Errorf("drawing order %d: %w", number, err)
		}
		res := g.Checker.CheckFile(written(d.order), load.JSON)[0]
		if res.Err != nil {
			return nil, fmt.Errorf("working out order %d: %w", number, res.Err)
		}
		switch f := Gravest(res.Findings); {
		case f != nil:
			o.Again = append(o.Again, f.Rule)
			continue
		case holeOnJoin(res.Sheet):
			o.Again = append(o.Again, "a hole on a join")
			continue
		}
		o.form = d.order
		if o.outcomes, err = g.fill(d, res.Sheet); err != nil {
			return nil, fmt.Errorf("filling in order %d: %w", number, err)
		}
		return o, nil
	}
	return nil, fmt.Errorf("order %d (%v): no choices suit each other in %d draws, the last for %v", number, p.kinds, mostDraws, o.Again[mostDraws-3:])
}

func written(form *block) *source.File {
	return &source.File{Name: "drawn", Text: string(appendJSON(nil, form))}
}

// fill states what the program works out, as the person writes it: the pieces of
// the sheet with blank sizes first, then every blank that the program fills in.
func (g *Generator) fill(d *draft, s *worksheet.Sheet) (list []outcome, err error) {
	for i, item := range d.items {
		it := &s.Items[i]
		var cuts []*block
		for k := range it.Pieces {
			p := &it.Pieces[k]
			cut := of("piece", p.Name, "width", nil, "length", nil, "count", nil)
			if p.Cloth == nil {
				continue // bought by the piece
			}
			if p.Cloth != it.Face {
				cut.set("cloth", p.Cloth.Name)
			}
			cuts = append(cuts, cut)
		}
		item.set("cuts", cuts)
	}
	out, err := g.Checker.Correct(written(d.order), load.JSON, lint.Correcting{Fill: true})
	if err != nil {
		return nil, err
	}
	res := &out.Results[0]
	if res.Err != nil {
		return nil, res.Err
	}
	for i := range res.Sheet.Stated {
		n := res.Sheet.Stated[i].Node
		path := res.Order.PathAt(n.At)
		in, name := d.order.place(path)
		if !in.blank(name) {
			continue // not on the form, or a choice that may be an outcome too
		}
		text := n.Text
		if n.Unit != length.NoUnit {
			l, _, err := length.Parse(text, n.Unit)
			if err != nil {
				return nil, fmt.Errorf("reading %s again: %w", path, err)
			}
			style := d.style
			if name == "ordered" {
				style = d.buys
			}
			text = style.Print(l, length.Nearest)
		}
		in.set(name, text)
		list = append(list, outcome{in, name, in.get("piece") != nil})
	}
	for i := range res.Sheet.Items { // and what is a choice once it is stated
		for _, e := range res.Sheet.Items[i].Entries() {
			if in, name := d.items[i].place(e.Field); e.Set && in.blank(name) {
				in.set(name, e.Node.Text)
			}
		}
	}
	return list, nil
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

// Gravest returns the first finding that an order is not clear to cut for; nil
// where it is.
func Gravest(list []finding.Finding) *finding.Finding {
	for i := range list {
		if list[i].Level >= finding.Warning {
			return &list[i]
		}
	}
	return nil
}

// All makes the orders of the numbers from first on, in their order, on all
// processors.
func (g *Generator) All(first, count int) iter.Seq2[*Order, error] {
	type result struct {
		o   *Order
		err error
	}
	const chunk = 2000
	return func(yield func(*Order, error) bool) {
		for from := 0; from < count; from += chunk {
			results := make([]result, min(chunk, count-from))
			workers := runtime.GOMAXPROCS(0)
			var wg sync.WaitGroup
			for w := range workers {
				wg.Go(func() {
					for i := w; i < len(results); i += workers {
						results[i].o, results[i].err = g.Order(first + from + i)
					}
				})
			}
			wg.Wait()
			for _, r := range results {
				if !yield(r.o, r.err) {
					return
				}
			}
		}
	}
}
