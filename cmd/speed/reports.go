package main

import (
	"fmt"
	"slices"

	"cutgate/internal/render"
)

// reportFigures times each form of report over a stream of orders that grows, and
// says whether its memory grows with it.
func (b *bench) reportFigures(g *maker) error {
	if err := b.writeLines(g); err != nil {
		return err
	}
	if err := b.build(); err != nil {
		return err
	}
	all := cores()
	var jobs []*job
	for _, f := range render.Formats() {
		add := func(files []string, orders int) {
			jobs = append(jobs, &job{
				what: "check --as " + f.Name, args: []string{b.cutgate, "check", "--as", f.Name, "-"}, stdin: files,
				cores: all[len(all)-1], found: true, traced: true, orders: orders, self: b.self,
			})
		}
		add([]string{b.shortFile()}, b.short())
		add([]string{b.lineFile()}, b.lines)
		add(slices.Repeat([]string{b.lineFile()}, 10), 10*b.lines)
	}
	f, err := measure(jobs, b.runs)
	if err != nil {
		return err
	}
	printFigures(b.w, f)
	var goals []goal
	for i := 0; i < len(f); i += 3 {
		goals = append(goals, steady(f[i], f[i+1], f[i+2]))
	}
	fmt.Fprintln(b.w)
	printGoals(b.w, goals)
	return nil
}

// steady is how much lives in memory for few, more and many orders. The peak is no
// measure of that, as it is the highest of ever more collections.
func steady(few, more, many *figure) goal {
	mb := func(f *figure) float64 { return float64(f.live) / (1 << 20) }
	return goal{
		what:   fmt.Sprintf("%s, what lives for %d, %d, %d orders", few.what, few.orders, more.orders, many.orders),
		figure: fmt.Sprintf("%.1f, %.1f, %.1f MB", mb(few), mb(more), mb(many)),
		wanted: "wanted: no growth", met: many.live <= 2*few.live, // what waits for a core comes on top
	}
}
