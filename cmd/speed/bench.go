package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"

	"cutgate/internal/finding"
)

// coldStarts is how often the program is started on one order.
const coldStarts = 20

// mostInTables is how many orders are put into one table: with the columns of all kinds they
// are not far from the cells that a workbook may have.
const mostInTables = 500

// mostCorrected is how many orders are corrected in one file.
const mostCorrected = 2_000

// cueModule is the module of CUE's own command.
const cueModule = "cuelang.org/go"

// A bench is one run of the measurements.
type bench struct {
	*settings
	*tools
	w io.Writer
}

func (b *bench) path(name string) string { return filepath.Join(b.dir, name) }
func (b *bench) yamlDir() string         { return b.path("orders") }
func (b *bench) yamlSample() string      { return b.path("sample.yaml") }
func (b *bench) lineFile() string        { return b.path("orders.jsonl") }
func (b *bench) shortFile() string       { return b.path("tenth.jsonl") }
func (b *bench) lineSample() string      { return b.path("sample.jsonl") }
func (b *bench) correctFile() string     { return b.path("correct.jsonl") }
func (b *bench) corrected() int          { return min(b.lines, mostCorrected) }
func (b *bench) table() string           { return b.path("orders.csv") }
func (b *bench) workbook() string        { return b.path("orders.xlsx") }
func (b *bench) short() int              { return max(1, b.lines/10) }

// write writes the orders and says what the check makes of them.
func (b *bench) write(g *maker) error {
	t, err := g.folder(b.yamlDir(), 0, b.yaml, b.sample, b.yamlSample())
	if err != nil {
		return err
	}
	t.print(b.w, "YAML")
	if err := b.writeLines(g); err != nil {
		return err
	}
	return b.writeTables(g)
}

// writeLines writes the JSON Lines orders and says what the check makes of them.
func (b *bench) writeLines(g *maker) error {
	t, err := g.lines(b.lineFile(), b.yaml, b.lines)
	if err != nil {
		return err
	}
	t.print(b.w, "JSON Lines")
	fmt.Fprintln(b.w)
	return errors.Join(head(b.lineFile(), b.shortFile(), b.short()), head(b.lineFile(), b.lineSample(), b.sample),
		head(b.lineFile(), b.correctFile(), b.corrected()))
}

// writeTables writes what tables have of the JSON Lines orders.
func (b *bench) writeTables(g *maker) error {
	some := b.path("tables.jsonl")
	if err := head(b.lineFile(), some, b.inTables()); err != nil {
		return err
	}
	if err := g.tables(some, b.table(), b.workbook()); err != nil {
		return err
	}
	for _, path := range []string{b.table(), b.workbook()} {
		if err := g.check(path, b.inTables(), func([]finding.Finding) {}); err != nil {
			return err
		}
	}
	return nil
}

// inTables is how many orders the tables have.
func (b *bench) inTables() int { return min(b.lines, mostInTables) }

// build builds the programs that are timed.
func (b *bench) build() error {
	info, ok := debug.ReadBuildInfo()
	if ok {
		for _, dep := range info.Deps {
			if dep.Path == cueModule {
				var err error
				b.tools, err = build(b.dir, dep.Version)
				return err
			}
		}
	}
	return fmt.Errorf("this program does not know its version of %s: build it in module mode", cueModule)
}

// measure times everything and prints it.
func (b *bench) measure() error {
	schema, err := filepath.Glob("schema/*.cue")
	if err != nil || len(schema) == 0 {
		return errors.New("there is no schema/*.cue here: this program runs at the top of the module")
	}
	all := cores()
	last := all[len(all)-1]
	var jobs []*job
	add := func(j job) int {
		j.self = b.self
		jobs = append(jobs, &j)
		return len(jobs) - 1
	}
	check := func(what, path string, cores, orders int) int {
		return add(job{what: what, args: []string{b.cutgate, "check", path}, cores: cores, found: true, orders: orders})
	}
	piped := func(what string, files []string, cores, orders int) int {
		return add(job{what: what, args: []string{b.cutgate, "check", "-"}, stdin: files, cores: cores, found: true, orders: orders})
	}
	decoded := func(what, path string, orders int) int {
		return add(job{what: what, args: []string{b.self, "-decode", path}, cores: 1, orders: orders})
	}
	vetting := func(path string) []string {
		return slices.Concat([]string{b.cue, "vet", "-d", "#Order"}, schema, []string{path})
	}
	vet := func(path string) int {
		return add(job{what: "cue vet, the same sample", args: vetting(path), cores: 1, orders: b.sample})
	}

	yaml := check("check, YAML, a file an order", b.yamlDir(), 1, b.yaml)
	check("the same", b.yamlDir(), last, b.yaml)
	yamlOnly := decoded("decode only, the same files", b.yamlDir(), b.yaml)
	yamlSample := check("check, YAML, sample in one file", b.yamlSample(), 1, b.sample)
	yamlVet := vet(b.yamlSample())
	lines := check("check, JSON Lines", b.lineFile(), 1, b.lines)
	linesAll := check("the same", b.lineFile(), last, b.lines)
	piped("check, JSON Lines, standard input", []string{b.lineFile()}, 1, b.lines)
	long := piped("the same", []string{b.lineFile()}, last, b.lines)
	short := piped("the same, a tenth of it", []string{b.shortFile()}, last, b.short())
	if b.long {
		long = piped("the same, ten times over", slices.Repeat([]string{b.lineFile()}, 10), last, 10*b.lines)
	}
	linesOnly := decoded("decode only, the same lines", b.lineFile(), b.lines)
	lineSample := check("check, JSON Lines, sample", b.lineSample(), 1, b.sample)
	lineVet := vet(b.lineSample())
	csv := check("check, CSV", b.table(), 1, b.inTables())
	csvOnly := decoded("decode only, the same table", b.table(), b.inTables())
	workbook := check("check, XLSX", b.workbook(), 1, b.inTables())
	workbookOnly := decoded("decode only, the same workbook", b.workbook(), b.inTables())
	corrected := add(job{what: "correct, JSON Lines, as a difference", args: []string{b.cutgate, "correct", "--diff", b.correctFile()}, cores: 1, found: true, orders: b.corrected()})
	f, err := measure(jobs, b.runs)
	if err != nil {
		return err
	}
	small, err := b.smallest()
	if err != nil {
		return err
	}
	cold, err := b.cold(last, []string{b.cutgate, "check", small}, vetting(small), []string{b.empty})
	if err != nil {
		return err
	}
	printFigures(b.w, f)
	fmt.Fprintln(b.w)
	sample := fmt.Sprintf(", sample of %d", b.sample)
	starts := fmt.Sprintf("one order cold, median of %d starts", coldStarts)
	printGoals(b.w, []goal{
		times("YAML, check over cue vet"+sample, f[yamlSample].perCore()/f[yamlVet].perCore(), 80),
		times("JSON Lines, check over cue vet"+sample, f[lineSample].perCore()/f[lineVet].perCore(), 120),
		share("YAML, time of check to that of decoding", f[yamlOnly].perCore()/f[yaml].perCore(), 0.6),
		share("JSON Lines, time of check to that of decoding", f[linesOnly].perCore()/f[lines].perCore(), 1.5),
		share("CSV, time of check to that of decoding", f[csvOnly].perCore()/f[csv].perCore(), 3),
		share("XLSX, time of check to that of decoding", f[workbookOnly].perCore()/f[workbook].perCore(), 1.3),
		times("JSON Lines, orders a second on all cores to one", f[linesAll].perSecond()/f[lines].perSecond(), 0.9*float64(last)),
		share(fmt.Sprintf("memory, %d orders to %d", f[long].orders, f[short].orders), float64(f[long].peak)/float64(max(1, f[short].peak)), 1.1),
		below("memory, JSON Lines", float64(f[long].peak)/(1<<20), 64, "MB"),
		below(fmt.Sprintf("memory, correct of %d orders in a file", b.corrected()), float64(f[corrected].peak)/(1<<20), 120, "MB"),
		share(starts+", to cue vet of it", cold[0].clock.Seconds()/cold[1].clock.Seconds(), 0.4),
		below(starts+", over an empty program", (cold[0].clock-cold[2].clock).Seconds()*1000, 8, "ms"),
	})
	fmt.Fprintf(b.w, "\none order cold: %s\n", cold[0].command())
	return nil
}

// smallest is the smallest of the first orders.
func (b *bench) smallest() (path string, err error) {
	paths, err := filepath.Glob(filepath.Join(b.yamlDir(), "000", "*.yaml"))
	if err != nil {
		return "", fmt.Errorf("looking for a small order: %w", err)
	}
	least := int64(math.MaxInt64)
	for _, p := range paths {
		info, err := os.Stat(p)
		if err != nil {
			return "", fmt.Errorf("looking for a small order: %w", err)
		}
		if info.Size() < least {
			path, least = p, info.Size()
		}
	}
	return path, nil
}

// cold starts programs again and again, in turn.
func (b *bench) cold(cores int, programs ...[]string) ([]*figure, error) {
	var jobs []*job
	for _, args := range programs {
		jobs = append(jobs, &job{args: args, cores: cores, found: true, orders: 1})
	}
	return measure(jobs, coldStarts)
}
