package main

import (
	"fmt"
	"io"
	"text/tabwriter"
)

// printFigures prints what was timed, a row each, and the commands below.
func printFigures(w io.Writer, figures []*figure) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "\tcores\torders\torders/s\torders/s/core\tMB/s\tpeak MB\t")
	for i, f := range figures {
		peak := "-"
		if f.peak > 0 {
			peak = fmt.Sprintf("%.0f", float64(f.peak)/(1<<20))
		}
		fmt.Fprintf(t, "%2d %-46s\t%d\t%d\t%.0f\t%.0f\t%.1f\t%s\t\n", i+1, f.what, f.cores, f.orders, f.perSecond(), f.perCore(),
			float64(f.bytes)/1e6/f.clock.Seconds(), peak)
	}
	t.Flush()
	fmt.Fprintln(w, "\norders/s is by the clock, orders/s/core by the processor time that was used, user and system.")
	for i, f := range figures {
		fmt.Fprintf(w, "%2d  %s\n", i+1, f.command())
	}
}

// A goal is a figure with what is wanted of it.
type goal struct {
	what   string
	figure string
	wanted string
	met    bool
}

// goals are worked from figures. A time is by the processor, so that what else
// the machine does weighs little.
func printGoals(w io.Writer, goals []goal) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, g := range goals {
		met := "short of it"
		switch {
		case g.wanted == "":
			met = ""
		case g.met:
			met = "met"
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\n", g.what, g.figure, g.wanted, met)
	}
	t.Flush()
}

// times is how many times as many orders one job does as another in a second of
// a core.
func times(what string, f, than *figure, least float64) goal {
	x := f.perCore() / than.perCore()
	return goal{what, fmt.Sprintf("%.0f ×", x), fmt.Sprintf("wanted: %.0f × or more", least), x >= least}
}

// share is how many times as long one job takes for an order as another; wanted
// is at most that, and 0 wants nothing.
func share(what string, f, than *figure, most float64) goal {
	x := than.perCore() / f.perCore()
	g := goal{what: what, figure: fmt.Sprintf("%.2f ×", x), met: x <= most}
	if most > 0 {
		g.wanted = fmt.Sprintf("wanted: %.0f × or less", most)
	}
	return g
}
