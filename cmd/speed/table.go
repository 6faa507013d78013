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
			float64(f.bytes())/1e6/f.clock.Seconds(), peak)
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

// printGoals prints what is wanted beside what came.
func printGoals(w io.Writer, goals []goal) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, g := range goals {
		met := "short of it"
		if g.met {
			met = "met"
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\n", g.what, g.figure, g.wanted, met)
	}
	t.Flush()
}

// times is a ratio that should be no less than least.
func times(what string, x, least float64) goal {
	return goal{what, fmt.Sprintf("%.3g ×", x), fmt.Sprintf("wanted: %.3g × or more", least), x >= least}
}

// share is a ratio that should be no more than most.
func share(what string, x, most float64) goal {
	return goal{what, fmt.Sprintf("%.2f ×", x), fmt.Sprintf("wanted: %.2g × or less", most), x <= most}
}

// below is a figure that should be no more than most.
func below(what string, x, most float64, unit string) goal {
	return goal{what, fmt.Sprintf("%.1f %s", x, unit), fmt.Sprintf("wanted: %.0f %s or less", most, unit), x <= most}
}
