// Command strips measures the lay planner on published sets of strip-packing instances:
// rectangles on a strip of fixed width, none turned, the length to be as small as
// possible. The sets are not part of the project; CUTGATE_STRIPS, or -dir, is the folder
// that has them. For each set it prints how far the lays are above the best proven bound,
// in percent, and the time that an instance takes, beside the figures that are published
// for three other methods. Those are of a table that states no time limits.
//
//	go run ./cmd/strips                      all sets
//	go run ./cmd/strips -sets kr,ht-c -mode guillotine
//	go run ./cmd/strips -steps 1000000000    a longer search
package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"time"

	"cutgate/internal/lay"
)

// usualSteps are about what a core searches in a second.
const usualSteps = 150_000_000

// settings are the flags.
type settings struct {
	dir   string
	sets  string
	mode  string
	steps int64
	each  int
	show  bool
}

func main() {
	var s settings
	flag.StringVar(&s.dir, "dir", os.Getenv("CUTGATE_STRIPS"), "`folder` with the sets")
	flag.StringVar(&s.sets, "sets", "", "the sets to lay, by their `files`' names, with commas between; all where none is given")
	flag.StringVar(&s.mode, "mode", lay.Free.String(), "free or guillotine")
	flag.Int64Var(&s.steps, "steps", usualSteps, "`steps` that are searched for each instance")
	flag.IntVar(&s.each, "each", 1, "lay only every so many-th instance of a set")
	flag.BoolVar(&s.show, "show", false, "print a line for each instance too")
	flag.Parse()
	if err := run(os.Stdout, &s); err != nil {
		fmt.Fprintln(os.Stderr, "strips:", err)
		os.Exit(1)
	}
}

func run(w io.Writer, s *settings) error {
	if s.dir == "" {
		return fmt.Errorf("set CUTGATE_STRIPS, or give -dir: the folder with the sets")
	}
	mode, ok := lay.ModeNamed(s.mode)
	if !ok {
		return fmt.Errorf("unknown mode %q", s.mode)
	}
	names, err := setNames(s.dir, s.sets)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%-13s %9s %8s %8s  %8s", "set", "instances", "gap %", "worst %", "seconds")
	for _, m := range methods {
		fmt.Fprintf(w, " %8s", m)
	}
	fmt.Fprintln(w)
	for _, name := range names {
		list, err := readSet(s.dir, name)
		if err != nil {
			return err
		}
		t := newTally()
		for j := 0; j < len(list); j += max(1, s.each) {
			in := &list[j]
			cloth, pieces := in.order()
			start := time.Now()
			l, err := lay.Make(context.Background(), cloth, pieces, lay.Options{Mode: mode, Steps: s.steps, Seed: 1})
			if err != nil {
				return fmt.Errorf("%s: %w", in.Name, err)
			}
			gap := t.add(in, l, time.Since(start))
			if s.show {
				fmt.Fprintf(w, "  %-20s %4d pieces: %d, bound %d (%d in the set), %.2f %%\n", in.Name, in.N, l.Length/unit, l.Bound/unit, in.Bound, gap)
			}
		}
		t.print(w, name)
	}
	return nil
}

// A tally is what came of a set.
type tally struct {
	n       int
	seconds float64
	groups  map[string]*group
	order   []*group
}

// A group is instances whose lengths are compared together; mostly one.
type group struct {
	bound, length float64
	n             float64
	published     map[string]float64
}

func newTally() *tally { return &tally{groups: map[string]*group{}} }

// add counts a lay, and returns its own gap.
func (t *tally) add(in *instance, l *lay.Lay, took time.Duration) float64 {
	name := cmp.Or(in.Group, in.Name)
	g := t.groups[name]
	if g == nil {
		g = &group{published: in.Reference.Gaps}
		if in.Group != "" {
			g.published = in.Reference.GroupGaps
		}
		t.groups[name] = g
		t.order = append(t.order, g)
	}
	bound := in.Reference.Bound
	if bound == 0 {
		bound = float64(in.Bound)
	}
	g.bound += cmp.Or(in.Reference.GroupBound, bound)
	g.length += float64(l.Length / unit)
	g.n++
	t.n++
	t.seconds += took.Seconds()
	return 100 * (float64(l.Length/unit) - bound) / bound
}

func (t *tally) print(w io.Writer, name string) {
	var sum, worst float64
	means := map[string]float64{}
	for _, g := range t.order {
		gap := 100 * (g.length - g.bound) / g.bound
		sum += gap
		worst = math.Max(worst, gap)
		for m, v := range g.published {
			means[m] += v
		}
	}
	n := float64(len(t.order))
	fmt.Fprintf(w, "%-13s %9d %8.2f %8.2f  %8.2f", name, t.n, sum/n, worst, t.seconds/float64(t.n))
	for _, m := range methods {
		if _, ok := means[m]; ok {
			fmt.Fprintf(w, " %8.2f", means[m]/n)
		} else {
			fmt.Fprintf(w, " %8s", "–")
		}
	}
	fmt.Fprintln(w)
}

// setNames are the sets that are asked for, or all of the folder.
func setNames(dir, sets string) (names []string, err error) {
	if sets != "" {
		return strings.Split(sets, ","), nil
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, fmt.Errorf("looking for sets: %w", err)
	}
	for _, e := range entries {
		if name, ok := strings.CutSuffix(e.Name(), ".json"); ok {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("there are no sets in %s", dir)
	}
	return names, nil
}
