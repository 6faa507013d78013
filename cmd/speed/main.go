// Command speed measures cutgate: it writes thousands of orders that are as
// people write them, one in ten with a slip, and times the check of them, beside
// decoding the same bytes and beside CUE's own command with the same schema.
//
// Every figure that it prints comes from this run, as the median of several,
// with the command that gives it. It also counts how many of the slips the check
// found, and whether it kept silent on the rest.
//
//	go run ./cmd/speed          writes to .bench/ and prints the figures
//	go run ./cmd/speed -long    a million JSON Lines orders too
//
// It has to run at the top of the module.
package main

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"runtime/pprof"
	"slices"
	"time"

	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/rules"
)

// coldStarts is how often the program is started on one order.
const coldStarts = 20

type settings struct {
	dir     string
	seed    uint64
	yaml    int
	lines   int
	sample  int
	runs    int
	long    bool
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
	flag.IntVar(&s.runs, "runs", 5, "`times` that each is run, for the median")
	flag.BoolVar(&s.long, "long", false, "also check the JSON Lines orders ten times over in one go")
	flag.StringVar(&s.profile, "profile", "", "write the processor profile of one check of the JSON Lines orders to a `file`")
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
	g, err := newGenerator(s.seed)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(s.dir, 0o755); err != nil {
		return fmt.Errorf("making a folder for orders: %w", err)
	}
	fmt.Fprintf(w, "%s, %s/%s, %d cores, seed %d, median of %d runs\n\n", runtime.Version(), runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), s.seed, s.runs)
	b := &bench{settings: s}
	if err := b.write(w, g); err != nil {
		return err
	}
	if s.profile != "" {
		if err := profile(g, b.path("orders.jsonl"), s.profile); err != nil {
			return err
		}
	}
	g, runtime := nil, debugFree
	runtime()
	_ = g
	return b.measure(w)
}

func debugFree() { debug.FreeOSMemory() }

var _ = cmp.Compare[int]
var _ = errors.New
var _ = filepath.Join
var _ = pprof.StartCPUProfile
var _ = slices.Sort[[]int]
var _ = time.Now
var _ = lint.Stdin
var _ = load.New
var _ = rules.All
