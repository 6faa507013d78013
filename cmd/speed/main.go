// Command speed measures cutgate: it writes thousands of orders that are as
// people write them, one in ten with a mistake, as YAML, JSON Lines, CSV and a
// workbook. It times the check of them beside decoding the same bytes and beside CUE's
// own command with the same schema, correcting them, and the start on one order beside
// that of an empty program.
//
// Every figure that it prints comes from this run, as the median of several, with the
// command that gives it; below them stand the ratios, times and memory that are wanted,
// and whether each is met. It also counts how many of the mistakes the check found, and
// whether it kept silent on the rest.
//
//	go run ./cmd/speed          writes to .bench/ and prints the figures
//	go run ./cmd/speed -long    a million JSON Lines orders too
//	go run ./cmd/speed -reports -runs 1
//	                            the memory that each report takes for up to a million
//	go run ./cmd/speed -growth  how the time grows with twice as much of something
//
// It has to run at the top of the module.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/pprof"

	"cutgate/internal/lint"
)

// settings are the flags.
type settings struct {
	dir     string
	seed    uint64
	yaml    int
	lines   int
	sample  int
	runs    int
	long    bool
	reports bool
	growth  bool
	only    string
	profile string
	decode  string
}

func main() {
	var s settings
	flag.StringVar(&s.dir, "dir", ".bench", "`folder` for orders and programs")
	flag.Uint64Var(&s.seed, "seed", 1, "seed of the dice")
	flag.IntVar(&s.yaml, "yaml", 5_000, "`number` of YAML orders, a file each")
	flag.IntVar(&s.lines, "lines", 100_000, "`number` of JSON Lines orders")
	flag.IntVar(&s.sample, "sample", 500, "`number` of orders that CUE's own command is timed on")
	flag.IntVar(&s.runs, "runs", 3, "`times` that each is run, for the median")
	flag.BoolVar(&s.long, "long", false, "also check the JSON Lines orders ten times over in one go")
	flag.BoolVar(&s.reports, "reports", false, "measure only what each form of report takes, for a tenth of the JSON Lines orders, for all, and ten times over")
	flag.BoolVar(&s.growth, "growth", false, "measure only how the time grows with twice as much of what a file may have very many of")
	flag.StringVar(&s.only, "only", "", "of -growth, only what has this `text` in its name")
	flag.StringVar(&s.profile, "profile", "", "write the processor profile of one check of the JSON Lines orders, or of -growth, to a `file`")
	flag.StringVar(&s.decode, "decode", "", "do nothing but decode the orders of a file or folder")
	flag.Parse()
	if err := run(os.Stdout, &s); err != nil {
		fmt.Fprintln(os.Stderr, "speed:", err)
		os.Exit(1)
	}
}

func run(w io.Writer, s *settings) error {
	if s.decode != "" {
		return decode(s.decode)
	}
	if s.growth {
		return grow(w, s)
	}
	g, err := newMaker(s.seed)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(s.dir, 0o755); err != nil {
		return fmt.Errorf("making a folder for orders: %w", err)
	}
	fmt.Fprintf(w, "%s, %s/%s, %d cores, seed %d, median of %d runs\n\n",
		runtime.Version(), runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), s.seed, s.runs)
	b := &bench{settings: s, w: w}
	if s.reports {
		return b.reportFigures(g)
	}
	if err := b.write(g); err != nil {
		return err
	}
	if s.profile != "" {
		return profile(g, b.lineFile(), s.profile)
	}
	if err := b.build(); err != nil {
		return err
	}
	return b.measure()
}

// profile checks a file of orders once more, without a report, and writes where
// the time went.
func profile(g *maker, path, to string) error {
	stop, err := startProfile(to)
	if err != nil {
		return err
	}
	defer stop()
	g.Checker.Reuse = true // as the command has it
	inputs := &lint.Inputs{Paths: []string{path}, Loader: g.Checker.Loader}
	err = g.Checker.Run(context.Background(), inputs.All(), func([]lint.Result) error { return nil })
	if err != nil {
		return fmt.Errorf("checking under a profile: %w", err)
	}
	return nil
}

// startProfile writes where the time goes to a file until it is stopped.
func startProfile(to string) (stop func(), err error) {
	f, err := os.Create(to)
	if err != nil {
		return nil, fmt.Errorf("writing a profile: %w", err)
	}
	if err := pprof.StartCPUProfile(f); err != nil {
		f.Close()
		return nil, fmt.Errorf("starting a profile: %w", err)
	}
	return func() { pprof.StopCPUProfile(); f.Close() }, nil
}
