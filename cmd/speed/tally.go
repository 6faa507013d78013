package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
)

// A tally is what checking generated orders showed.
type tally struct {
	truth []string // the slip in each order; "" for a right one
	bytes int64
	again map[string]int // by rule, choices drawn again before anything was stated

	orders, clean, clear int            // clear: of the clean ones
	faulty, found        int            // found: of the faulty ones
	missed               map[string]int // by slip
	alarms               map[string]int // by rule, clean orders that it spoke up on
}

func newTally() *tally {
	return &tally{again: map[string]int{}, missed: map[string]int{}, alarms: map[string]int{}}
}

// wrote counts an order of that size as written, and returns its index.
func (t *tally) wrote(m made, size int) int {
	t.bytes += int64(size)
	for _, rule := range m.again {
		t.again[rule]++
	}
	t.truth = append(t.truth, m.slip)
	return len(t.truth) - 1
}

// verify checks what was written to a path, and counts what is found against
// the slips that are in it.
func (g *generator) verify(path string, t *tally) error {
	inputs := &lint.Inputs{Paths: []string{path}, Loader: g.checker.Loader}
	err := g.checker.Run(context.Background(), inputs.All(), func(results []lint.Result) error {
		for i := range results {
			if err := results[i].Err; err != nil {
				return err
			}
			if t.orders == len(t.truth) {
				return errors.New("more orders were read than written")
			}
			t.checked(gravest(results[i].Findings))
		}
		return nil
	})
	if err == nil && t.orders < len(t.truth) {
		err = fmt.Errorf("%d orders were written, %d read", len(t.truth), t.orders)
	}
	if err != nil {
		return fmt.Errorf("checking the generated orders: %w", err)
	}
	return nil
}

// checked counts the next order with the first thing that was found on it.
func (t *tally) checked(f *finding.Finding) {
	slip := t.truth[t.orders]
	t.orders++
	switch {
	case slip == "" && f == nil:
		t.clean++
		t.clear++
	case slip == "":
		t.clean++
		t.alarms[f.Rule]++
	case f == nil:
		t.faulty++
		t.missed[slip]++
	default:
		t.faulty++
		t.found++
	}
}

// print says how many orders were right and wrong, and how many of them the
// check told so.
func (t *tally) print(w io.Writer, what string) {
	fmt.Fprintf(w, "%s: %d orders, %.1f MB, %d bytes an order\n", what, t.orders, float64(t.bytes)/1e6, t.bytes/int64(max(1, t.orders)))
	fmt.Fprintf(w, "  without a slip  %6d, clear to cut %6d%s\n", t.clean, t.clear, list("; spoken up on by", t.alarms))
	fmt.Fprintf(w, "  with a slip     %6d, found        %6d (%.2f %%)%s\n", t.faulty, t.found, 100*float64(t.found)/float64(max(1, t.faulty)), list("; missed:", t.missed))
	total := 0
	for _, n := range t.again {
		total += n
	}
	fmt.Fprintf(w, "  choices drawn again %d times before outcomes were stated%s\n", total, list(", for", t.again))
}

// list lists what was counted, most first, after a word; nothing where there is
// nothing.
func list(word string, counts map[string]int) string {
	names := slices.Sorted(maps.Keys(counts))
	slices.SortStableFunc(names, func(a, b string) int { return counts[b] - counts[a] })
	if len(names) == 0 {
		return ""
	}
	for i, name := range names {
		names[i] = fmt.Sprintf("%s (%d)", name, counts[name])
	}
	return word + " " + strings.Join(names, ", ")
}
