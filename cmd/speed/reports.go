package main

import (
	"slices"

	"cutgate/internal/render"
)

// reportFigures times each form of report over a stream of orders that grows, and
// says whether its memory grows with it.
func (b *bench) reportFigures(g *generator) error {
	if err := b.writeLines(g); err != nil {
		return err
	}
	if err := b.build(); err != nil {
		return err
	}
	all := cores()
	var jobs []*job
	for _, f := range render.Formats() {
		add := func(files []string, orders int, size int64) {
			jobs = append(jobs, &job{
				what: "check --as " + f.Name, args: []string{b.cutgate, "check", "--as", f.Name, "-"}, stdin: files,
				cores: all[len(all)-1], found: true, orders: orders, bytes: size, self: b.self,
			})
		}
		add([]string{b.shortFile()}, b.short(), b.shortSize)
		add([]string{b.lineFile()}, b.lines, b.lineSize)
		add(slices.Repeat([]string{b.lineFile()}, 10), 10*b.lines, 10*b.lineSize)
	}
	f, err := measure(jobs, b.runs)
	if err != nil {
		return err
	}
	printFigures(b.w, f)
	var goals []goal
	for i := 0; i < len(f); i += 3 {
		goal := growth(f[i+2], f[i])
		goal.what = f[i].what + ", " + goal.what
		goals = append(goals, goal)
	}
	printGoals(b.w, goals)
	return nil
}
