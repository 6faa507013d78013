package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"
)

// A job is a command that is timed.
type job struct {
	what   string
	args   []string
	stdin  []string // files that come on standard input, one after the other
	cores  int      // that the program may use
	found  bool     // an exit code of 1, for findings, is as good as 0
	traced bool     // the program is Go and tells what lives after each collection
	orders int
	self   string // this program, which is written as it was started
}

// command is how to run the job by hand.
func (j *job) command() string {
	words := slices.Clone(j.args)
	if j.args[0] == j.self {
		words[0] = "go run ./cmd/speed"
	}
	for i, word := range words {
		if strings.HasPrefix(word, "#") {
			words[i] = "'" + word + "'"
		}
	}
	s := fmt.Sprintf("GOMAXPROCS=%d %s", j.cores, strings.Join(words, " "))
	switch len(j.stdin) {
	case 0:
		return s
	case 1:
		return s + " < " + j.stdin[0]
	}
	return fmt.Sprintf("for i in $(seq %d); do cat %s; done | %s", len(j.stdin), j.stdin[0], s)
}

// bytes is how many bytes the job reads: what comes on standard input, or else what lies
// at its last argument.
func (j *job) bytes() (n int64) {
	paths := j.stdin
	if len(paths) == 0 {
		paths = j.args[len(j.args)-1:]
	}
	for _, path := range paths {
		filepath.WalkDir(path, func(_ string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			info, err := d.Info()
			if err == nil {
				n += info.Size()
			}
			return err
		})
	}
	return n
}

// A figure is what came of a job, each number the median of several runs.
type figure struct {
	*job
	clock     time.Duration
	processor time.Duration // of all cores, user and system
	peak      int64         // bytes of memory at most; 0 where the system does not tell
	live      int64         // bytes that live after a collection, on average; 0 where it is not traced
}

// perSecond is orders by the clock, perCore orders by a second of a core.
func (f *figure) perSecond() float64 { return float64(f.orders) / f.clock.Seconds() }
func (f *figure) perCore() float64   { return float64(f.orders) / f.processor.Seconds() }

// measure runs every job several times, in rounds, so that what else the
// machine does at a time weighs on all of them.
func measure(jobs []*job, runs int) ([]*figure, error) {
	clock, processor := make([][]time.Duration, len(jobs)), make([][]time.Duration, len(jobs))
	peak, live := make([][]int64, len(jobs)), make([][]int64, len(jobs))
	for range runs {
		for i, j := range jobs {
			f, err := j.run()
			if err != nil {
				return nil, fmt.Errorf("timing %s: %w", j.command(), err)
			}
			clock[i], processor[i] = append(clock[i], f.clock), append(processor[i], f.processor)
			peak[i], live[i] = append(peak[i], f.peak), append(live[i], f.live)
		}
	}
	figures := make([]*figure, len(jobs))
	for i, j := range jobs {
		figures[i] = &figure{job: j, clock: median(clock[i]), processor: median(processor[i]), peak: median(peak[i]), live: median(live[i])}
	}
	return figures, nil
}

func median[T int64 | time.Duration](list []T) T {
	slices.Sort(list)
	n := len(list)
	return (list[(n-1)/2] + list[n/2]) / 2
}

// run runs the job once, its output thrown away.
func (j *job) run() (*figure, error) {
	cmd := exec.Command(j.args[0], j.args[1:]...)
	cmd.Env = append(os.Environ(), "GOMAXPROCS="+strconv.Itoa(j.cores))
	if j.traced {
		cmd.Env = append(cmd.Env, "GODEBUG=gctrace=1")
	}
	var said bytes.Buffer
	cmd.Stderr = &said
	var texts []io.Reader
	for _, path := range j.stdin {
		f, err := os.Open(path)
		if err != nil {
			return nil, fmt.Errorf("opening what to check: %w", err)
		}
		defer f.Close()
		texts = append(texts, f)
	}
	switch len(texts) {
	case 0:
	case 1:
		cmd.Stdin = texts[0]
	default:
		cmd.Stdin = io.MultiReader(texts...)
	}
	start := time.Now()
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	done, highest := make(chan bool), make(chan int64)
	go watch(cmd.Process.Pid, done, highest)
	err := cmd.Wait()
	clock := time.Since(start)
	close(done)
	peak := <-highest
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() == 1 && j.found {
		err = nil
	}
	if err != nil {
		return nil, fmt.Errorf("%w: %.300s", err, said.String())
	}
	return &figure{
		job: j, clock: clock, processor: cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), peak: peak, live: lives(said.String()),
	}, nil
}

// collected is what the trace of a collection says of the heap: its megabytes
// before it, at its end, and of that what lives.
var collected = regexp.MustCompile(`(?m)^gc \d.* \d+->\d+->(\d+) MB`)

// lives is how many bytes live after a collection, on average over a trace.
func lives(trace string) int64 {
	var sum, n int64
	for _, m := range collected.FindAllStringSubmatch(trace, -1) {
		mb, _ := strconv.ParseInt(m[1], 10, 64)
		sum, n = sum+mb<<20, n+1
	}
	return sum / max(1, n)
}

// watch follows a process's high-water mark of memory until done. The mark never
// falls, so that only what a process takes in its last moments escapes; the
// system's own sum at its end is no use, as it begins with that of the process
// which started it.
func watch(pid int, done <-chan bool, highest chan<- int64) {
	path := fmt.Sprintf("/proc/%d/status", pid)
	tick := time.NewTicker(5 * time.Millisecond)
	defer tick.Stop()
	var most int64
	for {
		select {
		case <-done:
			highest <- most
			return
		case <-tick.C:
			most = max(most, highWater(path))
		}
	}
}

// highWater reads VmHWM of a process; 0 where there is none.
func highWater(path string) int64 {
	text, err := os.ReadFile(path)
	if err != nil {
		return 0
	}
	_, rest, _ := strings.Cut(string(text), "VmHWM:")
	words := strings.Fields(rest)
	if len(words) == 0 {
		return 0
	}
	kb, _ := strconv.ParseInt(words[0], 10, 64)
	return kb << 10
}

// tools are the programs that are timed.
type tools struct{ cutgate, cue, empty, self string }

// build builds cutgate, CUE's own command in the version that cutgate is built with, and a
// program that does nothing.
func build(dir, cueVersion string) (*tools, error) {
	self, err := os.Executable()
	if err != nil {
		return nil, fmt.Errorf("finding this program: %w", err)
	}
	bin, err := filepath.Abs(dir)
	if err != nil {
		return nil, fmt.Errorf("finding %s: %w", dir, err)
	}
	t := &tools{cutgate: filepath.Join(dir, "cutgate"), cue: filepath.Join(dir, "cue"), empty: filepath.Join(dir, "empty"), self: self}
	nothing := t.empty + ".go"
	if err := os.WriteFile(nothing, []byte("package main\n\nfunc main() {}\n"), 0o644); err != nil {
		return nil, fmt.Errorf("writing an empty program: %w", err)
	}
	for _, args := range [][]string{
		{"go", "build", "-o", t.cutgate, "./cmd/cutgate"},
		{"go", "build", "-o", t.empty, nothing},
		{"go", "install", "cuelang.org/go/cmd/cue@" + cueVersion},
	} {
		cmd := exec.Command(args[0], args[1:]...)
		cmd.Env = append(os.Environ(), "GOBIN="+bin, "CGO_ENABLED=0") // as make build
		if out, err := cmd.CombinedOutput(); err != nil {
			return nil, fmt.Errorf("building with %q: %w: %s", strings.Join(args, " "), err, out)
		}
	}
	return t, nil
}

// cores are the cores that programs are timed on.
func cores() []int {
	if n := runtime.NumCPU(); n > 1 {
		return []int{1, n}
	}
	return []int{1}
}
