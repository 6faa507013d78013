package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
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
	orders int
	bytes  int64
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

// A figure is what came of a job, each number the median of several runs.
type figure struct {
	*job
	clock     time.Duration
	processor time.Duration // of all cores, user and system
	peak      int64         // bytes of memory at most; 0 where the system does not tell
}

// perSecond is orders by the clock, perCore orders by a second of a core.
func (f *figure) perSecond() float64 { return float64(f.orders) / f.clock.Seconds() }
func (f *figure) perCore() float64   { return float64(f.orders) / f.processor.Seconds() }

// measure runs every job several times, in rounds, so that what else the
// machine does at a time weighs on all of them.
func measure(jobs []*job, runs int) ([]*figure, error) {
	clock, processor := make([][]time.Duration, len(jobs)), make([][]time.Duration, len(jobs))
	peak := make([][]int64, len(jobs))
	for range runs {
		for i, j := range jobs {
			c, p, m, err := j.run()
			if err != nil {
				return nil, fmt.Errorf("timing %s: %w", j.command(), err)
			}
			clock[i], processor[i], peak[i] = append(clock[i], c), append(processor[i], p), append(peak[i], m)
		}
	}
	figures := make([]*figure, len(jobs))
	for i, j := range jobs {
		figures[i] = &figure{job: j, clock: median(clock[i]), processor: median(processor[i]), peak: median(peak[i])}
	}
	return figures, nil
}

func median[T int64 | time.Duration](list []T) T {
	slices.Sort(list)
	n := len(list)
	return (list[(n-1)/2] + list[n/2]) / 2
}

// run runs the job once, its output thrown away.
func (j *job) run() (clock, processor time.Duration, peak int64, err error) {
	cmd := exec.Command(j.args[0], j.args[1:]...)
	cmd.Env = append(os.Environ(), "GOMAXPROCS="+strconv.Itoa(j.cores))
	var said bytes.Buffer
	cmd.Stderr = &said
	var texts []io.Reader
	for _, path := range j.stdin {
		f, err := os.Open(path)
		if err != nil {
			return 0, 0, 0, fmt.Errorf("opening what to check: %w", err)
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
		return 0, 0, 0, err
	}
	done, highest := make(chan bool), make(chan int64)
	go watch(cmd.Process.Pid, done, highest)
	err = cmd.Wait()
	clock = time.Since(start)
	close(done)
	peak = <-highest
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() == 1 && j.found {
		err = nil
	}
	if err != nil {
		return 0, 0, 0, fmt.Errorf("%w: %.300s", err, said.String())
	}
	return clock, cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), peak, nil
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
type tools struct{ cutgate, cue, self string }

// build builds cutgate, and CUE's own command in the version that cutgate is
// built with.
func build(dir, cueVersion string) (*tools, error) {
	self, err := os.Executable()
	if err != nil {
		return nil, fmt.Errorf("finding this program: %w", err)
	}
	bin, err := filepath.Abs(dir)
	if err != nil {
		return nil, fmt.Errorf("finding %s: %w", dir, err)
	}
	t := &tools{cutgate: filepath.Join(dir, "cutgate"), cue: filepath.Join(dir, "cue"), self: self}
	for _, args := range [][]string{
		{"go", "build", "-o", t.cutgate, "./cmd/cutgate"},
		{"go", "install", "cuelang.org/go/cmd/cue@" + cueVersion},
	} {
		cmd := exec.Command(args[0], args[1:]...)
		cmd.Env = append(os.Environ(), "GOBIN="+bin)
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
