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
	"cutgate/internal/generate"
	"cutgate/internal/length"
	"cutgate/internal/lint"
)

// A tally is what checking generated orders showed.
type tally struct {
	truth []made // without their texts
	bytes int64
	again counts // by rule, choices drawn again before anything was stated

	orders, clean, clear int    // clear: of the clean ones
	faulty, found        int    // found: of the faulty ones
	told, named          int    // those with the right value given, those with how it happened
	missed               counts // by kind of mistake
	alarms               counts // by rule, clean orders that it spoke up on
}

func newTally() *tally { return &tally{again: counts{}, missed: counts{}, alarms: counts{}} }

// counts are how often something happened, by its name.
type counts map[string]*happened

type happened struct {
	times int
	first int // the number of the first order that it happened on
}

func (c counts) add(what string, number int) {
	if c[what] == nil {
		c[what] = &happened{first: number}
	}
	c[what].times++
}

// wrote counts an order as written, and returns its index.
func (t *tally) wrote(m made) int {
	t.bytes += int64(len(m.text))
	for _, rule := range m.again {
		t.again.add(rule, m.number)
	}
	m.text, m.again = "", nil
	t.truth = append(t.truth, m)
	return len(t.truth) - 1
}

// verify checks what was written to a path, and counts what is found against
// the mistakes that are in it.
func (g *maker) verify(path string, t *tally) error {
	return g.check(path, len(t.truth), t.checked)
}

// check checks the orders of a path, which has to have so many.
func (g *maker) check(path string, want int, checked func([]finding.Finding)) error {
	inputs := &lint.Inputs{Paths: []string{path}, Loader: g.Checker.Loader}
	n := 0
	err := g.Checker.Run(context.Background(), inputs.All(), func(results []lint.Result) error {
		for i := range results {
			if err := results[i].Err; err != nil {
				return err
			}
			if n++; n > want {
				return errors.New("more orders were read than written")
			}
			checked(results[i].Findings)
		}
		return nil
	})
	if err == nil && n < want {
		err = fmt.Errorf("%d orders were written, %d read", want, n)
	}
	if err != nil {
		return fmt.Errorf("checking the generated orders: %w", err)
	}
	return nil
}

// checked counts the next order with what was found on it.
func (t *tally) checked(found []finding.Finding) {
	m := &t.truth[t.orders]
	t.orders++
	f := generate.Gravest(found)
	if m.mistake == "" {
		t.clean++
		if f == nil {
			t.clear++
		} else {
			t.alarms.add(f.Rule, m.number)
		}
		return
	}
	t.faulty++
	if f == nil {
		t.missed.add(m.mistake, m.number)
		return
	}
	t.found++
	if slices.ContainsFunc(found, m.putBack) {
		t.told++
	}
	if slices.ContainsFunc(found, func(f finding.Finding) bool { return f.Slip != "" }) {
		t.named++
	}
}

// putBack reports whether a finding gives what stood where the mistake is as the
// corrected value, in whatever manner.
func (m *made) putBack(f finding.Finding) bool {
	return f.Corrected != "" && m.same(m.was, f.Corrected)
}

// same reports whether two texts say the same: as lengths, where they are some.
func (m *made) same(a, b string) bool {
	x, _, err := length.Parse(a, m.unit)
	y, _, other := length.Parse(b, m.unit)
	if err != nil || other != nil {
		return a == b
	}
	return x == y
}

// print says how many orders were right and wrong, and how many of them the
// check told so.
func (t *tally) print(w io.Writer, what string) {
	fmt.Fprintf(w, "%s: %d orders, %.1f MB, %d bytes an order\n", what, t.orders, float64(t.bytes)/1e6, t.bytes/int64(max(1, t.orders)))
	fmt.Fprintf(w, "  without a mistake  %6d, clear to cut %6d%s\n", t.clean, t.clear, t.alarms.list("; a word from"))
	fmt.Fprintf(w, "  with a mistake     %6d, found        %6d (%.2f %%)%s\n", t.faulty, t.found,
		100*float64(t.found)/float64(max(1, t.faulty)), t.missed.list("; missed"))
	fmt.Fprintf(w, "  of those found, %d with the right value given, %d with how it happened\n", t.told, t.named)
	fmt.Fprintf(w, "  drawn again before outcomes were stated%s\n", t.again.list(" for"))
}

// list lists what was counted, most first, after a word.
func (c counts) list(word string) string {
	if len(c) == 0 {
		return ""
	}
	names := slices.Sorted(maps.Keys(c))
	slices.SortStableFunc(names, func(a, b string) int { return c[b].times - c[a].times })
	for i, name := range names {
		names[i] = fmt.Sprintf("%s (%d, as %s)", name, c[name].times, generate.Name(c[name].first))
	}
	return word + " " + strings.Join(names, ", ")
}
