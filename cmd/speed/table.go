package main

import (
	"fmt"
	"io"
	"text/tabwriter"
	"time"
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

// printGoals prints what is wanted beside what came. A ratio is one of times by
// the processor, so that what else the machine does weighs little.
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

// share is how many times as long one job takes for an order as another; most is
// what is wanted, 0 for nothing.
func share(what string, f, than *figure, most float64) goal {
	x := than.perCore() / f.perCore()
	g := goal{what: what, figure: fmt.Sprintf("%.2f ×", x), met: x <= most}
	if most > 0 {
		g.wanted = fmt.Sprintf("wanted: %.0f × or less", most)
	}
	return g
}

// atLeast is a figure that should not be less.
func atLeast(what string, x, least float64) goal {
	return goal{what, fmt.Sprintf("%.0f", x), fmt.Sprintf("wanted: %.0f or more", least), x >= least}
}

// under is a time that should be less.
func under(what string, d, most time.Duration) goal {
	ms := func(d time.Duration) float64 { return d.Seconds() * 1000 }
	return goal{what, fmt.Sprintf("%.1f ms", ms(d)), fmt.Sprintf("wanted: under %.0f ms", ms(most)), d < most}
}

// growth is how much more memory a long input takes than a short one.
func growth(long, short *figure) goal {
	return goal{
		what:   fmt.Sprintf("memory, %d orders to %d", long.orders, short.orders),
		figure: fmt.Sprintf("%.2f ×", float64(long.peak)/float64(max(1, short.peak))),
		wanted: "wanted: no growth", met: long.peak <= short.peak+short.peak/4,
	}
}
