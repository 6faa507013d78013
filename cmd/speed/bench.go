package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"time"
)

// coldStarts is how often the program is started on one order.
const coldStarts = 20

// cueModule is the module of CUE's own command.
const cueModule = "cuelang.org/go"

// A bench is one run of the measurements.
type bench struct {
	*settings
	*tools
	w io.Writer

	yamlSize, lineSize, shortSize, yamlSampleSize, lineSampleSize int64
}

func (b *bench) path(name string) string { return filepath.Join(b.dir, name) }
func (b *bench) yamlDir() string         { return b.path("orders") }
func (b *bench) yamlSample() string      { return b.path("sample.yaml") }
func (b *bench) lineFile() string        { return b.path("orders.jsonl") }
func (b *bench) shortFile() string       { return b.path("tenth.jsonl") }
func (b *bench) lineSample() string      { return b.path("sample.jsonl") }
func (b *bench) short() int              { return max(1, b.lines/10) }

// write writes the orders and says what the check makes of them.
func (b *bench) write(g *maker) error {
	t, err := g.folder(b.yamlDir(), 0, b.yaml, b.sample, b.yamlSample())
	if err != nil {
		return err
	}
	t.print(b.w, "YAML")
	b.yamlSize = t.bytes
	info, err := os.Stat(b.yamlSample())
	if err != nil {
		return fmt.Errorf("looking at the sample: %w", err)
	}
	b.yamlSampleSize = info.Size()
	return b.writeLines(g)
}

// writeLines writes the JSON Lines orders and says what the check makes of them.
func (b *bench) writeLines(g *maker) error {
	t, err := g.lines(b.lineFile(), b.yaml, b.lines)
	if err != nil {
		return err
	}
	t.print(b.w, "JSON Lines")
	b.lineSize = t.bytes
	if b.shortSize, err = head(b.lineFile(), b.shortFile(), b.short()); err != nil {
		return err
	}
	b.lineSampleSize, err = head(b.lineFile(), b.lineSample(), b.sample)
	fmt.Fprintln(b.w)
	return err
}

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
	check := func(what, path string, cores, orders int, size int64) int {
		return add(job{what: what, args: []string{b.cutgate, "check", path}, cores: cores, found: true, orders: orders, bytes: size})
	}
	piped := func(what string, files []string, cores, orders int, size int64) int {
		return add(job{what: what, args: []string{b.cutgate, "check", "-"}, stdin: files, cores: cores, found: true, orders: orders, bytes: size})
	}
	decoded := func(what, path string, orders int, size int64) int {
		return add(job{what: what, args: []string{b.self, "-decode", path}, cores: 1, orders: orders, bytes: size})
	}
	vet := func(path string, size int64) int {
		args := append(append([]string{b.cue, "vet", "-d", "#Order"}, schema...), path)
		return add(job{what: "cue vet, the same sample", args: args, cores: 1, orders: b.sample, bytes: size})
	}

	yaml := check("check, YAML, a file an order", b.yamlDir(), 1, b.yaml, b.yamlSize)
	check("the same", b.yamlDir(), last, b.yaml, b.yamlSize)
	yamlOnly := decoded("decode only, the same files", b.yamlDir(), b.yaml, b.yamlSize)
	yamlSample := check("check, YAML, sample in one file", b.yamlSample(), 1, b.sample, b.yamlSampleSize)
	yamlVet := vet(b.yamlSample(), b.yamlSampleSize)
	lines := check("check, JSON Lines", b.lineFile(), 1, b.lines, b.lineSize)
	check("the same", b.lineFile(), last, b.lines, b.lineSize)
	piped("check, JSON Lines, standard input", []string{b.lineFile()}, 1, b.lines, b.lineSize)
	long := piped("the same", []string{b.lineFile()}, last, b.lines, b.lineSize)
	short := piped("the same, a tenth of it", []string{b.shortFile()}, last, b.short(), b.shortSize)
	if b.long {
		long = piped("the same, ten times over", slices.Repeat([]string{b.lineFile()}, 10), last, 10*b.lines, 10*b.lineSize)
	}
	linesOnly := decoded("decode only, the same lines", b.lineFile(), b.lines, b.lineSize)
	lineSample := check("check, JSON Lines, sample", b.lineSample(), 1, b.sample, b.lineSampleSize)
	lineVet := vet(b.lineSample(), b.lineSampleSize)
	f, err := measure(jobs, b.runs)
	if err != nil {
		return err
	}
	cold, err := b.cold(last)
	if err != nil {
		return err
	}
	printFigures(b.w, f)
	fmt.Fprintln(b.w)
	sample := fmt.Sprintf(", sample of %d", b.sample)
	printGoals(b.w, []goal{
		times("YAML, check over cue vet"+sample, f[yamlSample], f[yamlVet], 50),
		times("JSON Lines, check over cue vet"+sample, f[lineSample], f[lineVet], 50),
		share("YAML, time of check to that of decoding", f[yaml], f[yamlOnly], 2),
		share("JSON Lines, time of check to that of decoding", f[lines], f[linesOnly], 0),
		atLeast("JSON Lines, orders a second and core", f[lines].perCore(), 15_000),
		growth(f[long], f[short]),
		under(fmt.Sprintf("one order cold, median of %d starts", coldStarts), cold.clock, 20*time.Millisecond),
	})
	fmt.Fprintf(b.w, "\none order cold: %s\n", cold.command())
	return nil
}

// cold starts the program again and again on the smallest of the first orders.
func (b *bench) cold(cores int) (*figure, error) {
	paths, err := filepath.Glob(filepath.Join(b.yamlDir(), "000", "*.yaml"))
	if err != nil {
		return nil, fmt.Errorf("looking for a small order: %w", err)
	}
	var small string
	var least int64
	for _, path := range paths {
		info, err := os.Stat(path)
		if err != nil {
			return nil, fmt.Errorf("looking for a small order: %w", err)
		}
		if small == "" || info.Size() < least {
			small, least = path, info.Size()
		}
	}
	j := &job{args: []string{b.cutgate, "check", small}, cores: cores, found: true, orders: 1, bytes: least}
	f, err := measure([]*job{j}, coldStarts)
	if err != nil {
		return nil, err
	}
	return f[0], nil
}
