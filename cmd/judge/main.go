// Command judge measures how well cutgate finds and puts right what is wrong on an
// order. It draws clean orders, makes mistakes in them, checks and corrects them,
// and prints a table of what became of the mistakes.
//
//	go run ./cmd/judge                          seeds 1 to 5
//	go run ./cmd/judge -seeds 301-305 -orders 60
//	go run ./cmd/judge -seeds 301 -show wrong,harm
//	                                            and the mistakes that are in those columns
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strconv"
	"strings"
	"sync/atomic"

	"cutgate/internal/judge"
	"cutgate/internal/lint"
	"cutgate/rules"
)

func main() {
	seeds := flag.String("seeds", "1-5", "`range` of seeds of the dice")
	orders := flag.Int("orders", 60, "`number` of orders of each sort for a seed")
	kind := flag.String("kind", "", "only this `kind` of goods")
	show := flag.String("show", "", "also print the mistakes of these `columns`: "+strings.Join(judge.Columns(), ", "))
	flag.Parse()
	if err := run(os.Stdout, os.Stderr, *seeds, *kind, *orders, strings.Split(*show, ",")); err != nil {
		fmt.Fprintln(os.Stderr, "judge:", err)
		os.Exit(1)
	}
}

func run(w, progress io.Writer, seeds, kind string, orders int, show []string) error {
	debug.SetGCPercent(400) // as cutgate itself
	first, last, err := parseRange(seeds)
	if err != nil {
		return err
	}
	checker, err := lint.New(rules.All())
	if err != nil {
		return err
	}
	all := judge.NewTally()
	for seed := first; seed <= last; seed++ {
		var done atomic.Int64
		r := &judge.Run{Checker: checker, Kind: kind, Seed: seed, Orders: orders, Each: judge.Full, Keep: func(v judge.Verdict) bool { return v.In(show) }, Done: func() {
			if n := done.Add(1); n%20 == 0 {
				fmt.Fprintf(progress, "\rseed %d: %d orders ", seed, n)
			}
		}}
		t, err := r.Run()
		if err != nil {
			return err
		}
		all.Add(t)
	}
	fmt.Fprintln(progress)
	for i := range all.Cases {
		fmt.Fprintln(w, &all.Cases[i])
	}
	for _, b := range all.Broken {
		fmt.Fprintln(w, b)
	}
	all.Print(w)
	return nil
}

// parseRange reads a seed, or the first and the last of several.
func parseRange(text string) (first, last uint64, err error) {
	a, b, several := strings.Cut(text, "-")
	if !several {
		b = a
	}
	if first, err = strconv.ParseUint(a, 10, 64); err == nil {
		last, err = strconv.ParseUint(b, 10, 64)
	}
	if err != nil || last < first {
		return 0, 0, fmt.Errorf("%q is no seed and no range of seeds such as 301-305", text)
	}
	return first, last, nil
}
