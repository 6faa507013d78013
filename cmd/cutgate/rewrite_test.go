package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

const (
	wrongOrder = `order: TR-3
units: in
cloths:
  lawn: {width: 60, fiber: {cotton: 100}}
items:
  - {item: napkin, cloth: lawn, finished: {width: 12, length: 12}, hem: {turn: 1/4, folds: 2}, near_heat: "yes"}
`
	rightOrder = `order: TR-3
units: in
cloths:
  lawn: {width: 60, fiber: {cotton: 100}}
items:
  - {item: napkin, cloth: lawn, finished: {width: 12, length: 12}, hem: {turn: 1/4, folds: 2}, near_heat: true}
`
)

// killedAt names the step at which the test's own child ends, and what it does
// before.
const killedAt = "CUTGATE_TEST_KILLED_AT"

// TestKilledChild corrects a file and is killed at a step. It runs as a child of
// TestPowerCut.
func TestKilledChild(t *testing.T) {
	at := os.Getenv(killedAt)
	if at == "" {
		t.Skip("run by TestPowerCut")
	}
	rewriteStep = func(step, temp string) {
		if step != at {
			return
		}
		if step == "made" { // half of the text may have come out
			if err := os.WriteFile(temp, []byte(rightOrder[:len(rightOrder)/2]), 0o600); err != nil {
				panic(err)
			}
		}
		self, err := os.FindProcess(os.Getpid())
		if err == nil {
			err = self.Kill()
		}
		if err != nil {
			panic(err)
		}
		select {}
	}
	run([]string{"correct", os.Getenv(killedAt + "_FILE")}, streams{os.Stdin, os.Stdout, os.Stderr})
	t.Fatal("it was not killed")
}

// TestPowerCut kills a correction after each of its steps. The old or the new
// text is there in full, and the next run finds nothing in its way.
func TestPowerCut(t *testing.T) {
	for _, step := range rewriteSteps {
		t.Run(step, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			name := filepath.Join(dir, "order.yaml")
			write(t, name, wrongOrder)
			child := exec.Command(os.Args[0], "-test.run=^TestKilledChild$")
			child.Env = append(os.Environ(), killedAt+"="+step, killedAt+"_FILE="+name, "TMPDIR="+t.TempDir())
			out, err := child.CombinedOutput()
			var exit *exec.ExitError
			if !errors.As(err, &exit) || exit.Exited() || strings.Contains(string(out), "not killed") {
				t.Fatalf("the child was not killed: %v\n%s", err, out)
			}
			want := wrongOrder
			if step == "renamed" || step == "done" {
				want = rightOrder
			}
			if got := read(t, name); got != want {
				t.Errorf("killed when it had %s, the file says\n%s", step, got)
			}
			if code := correctQuietly(t, dir); code != exitClean {
				t.Errorf("the next run ends with %d", code)
			}
			if got := read(t, name); got != rightOrder {
				t.Errorf("after the next run the file says\n%s", got)
			}
		})
	}
}

// TestInterrupted interrupts a correction after each of its steps. What was being written
// is gone, and the next run finds nothing in its way.
func TestInterrupted(t *testing.T) {
	for _, sign := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		for _, step := range rewriteSteps[:slices.Index(rewriteSteps, "renamed")] {
			t.Run(fmt.Sprint(sign, " ", step), func(t *testing.T) {
				t.Parallel()
				dir := t.TempDir()
				name := filepath.Join(dir, "order.yaml")
				write(t, name, wrongOrder)
				child := exec.Command(os.Args[0], "-test.run=^TestInterruptedChild$")
				child.Env = append(os.Environ(), killedAt+"="+step, killedAt+"_FILE="+name, "TMPDIR="+t.TempDir())
				out, err := child.StdoutPipe()
				if err == nil {
					err = child.Start()
				}
				if err != nil {
					t.Fatal(err)
				}
				if _, err := out.Read(make([]byte, 1)); err != nil { // it is at the step
					t.Fatal(err)
				}
				if err := child.Process.Signal(sign); err != nil {
					t.Skip(err)
				}
				var exit *exec.ExitError
				if err := child.Wait(); !errors.As(err, &exit) || exit.Exited() {
					t.Fatalf("the child was not ended by the signal: %v", err)
				}
				left, err := os.ReadDir(dir)
				if err != nil || len(left) != 1 || read(t, name) != wrongOrder {
					t.Errorf("%v is in the folder, %v; the file says\n%s", left, err, read(t, name))
				}
				if code := correctQuietly(t, dir); code != exitClean || read(t, name) != rightOrder {
					t.Errorf("the next run ends with %d", code)
				}
			})
		}
	}
}

// TestInterruptedChild corrects a file and waits at a step. It runs as a child of
// TestInterrupted.
func TestInterruptedChild(t *testing.T) {
	at := os.Getenv(killedAt)
	if at == "" {
		t.Skip("run by TestInterrupted")
	}
	rewriteStep = func(step, _ string) {
		if step == at {
			fmt.Print(".")
			select {}
		}
	}
	run([]string{"correct", os.Getenv(killedAt + "_FILE")}, streams{os.Stdin, os.Stderr, os.Stderr})
	t.Fatal("it was not interrupted")
}

// TestSweep holds that leftovers of a killed run go with the next one, when they are its
// own and old, and nothing else does.
func TestSweep(t *testing.T) {
	dir := t.TempDir()
	old := time.Now().Add(-2 * leftFor)
	for _, f := range []struct {
		name string
		old  bool
	}{
		{".cutgate-123.tmp", true}, {".cutgate-124.tmp", false}, {".cutgate-notes.tmp", true}, {".cutgate-125", true}, {"cutgate-126.tmp", true},
	} {
		name := filepath.Join(dir, f.name)
		write(t, name, "half")
		if f.old {
			if err := os.Chtimes(name, old, old); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := os.Mkdir(filepath.Join(dir, ".cutgate-127.tmp"), 0o777); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "order.yaml"), rightOrder)
	if code := correctQuietly(t, dir); code != exitClean {
		t.Errorf("it ends with %d", code)
	}
	list, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range list {
		names = append(names, e.Name())
	}
	if want := []string{".cutgate-124.tmp", ".cutgate-125", ".cutgate-127.tmp", ".cutgate-notes.tmp", "cutgate-126.tmp", "order.yaml"}; !slices.Equal(names, want) {
		t.Errorf("%q are left, want %q", names, want)
	}
}

// TestHardLink holds that a file with two names is left alone.
func TestHardLink(t *testing.T) {
	dir := t.TempDir()
	one, other := filepath.Join(dir, "one.yaml"), filepath.Join(dir, "other.yaml")
	write(t, one, "old")
	if err := os.Link(one, other); err != nil {
		t.Skip(err)
	}
	err := rewriteFile(one, []byte("old"), []byte("new"))
	if err == nil || !strings.Contains(err.Error(), "second name") || read(t, one) != "old" || read(t, other) != "old" {
		t.Errorf("%v; the file says %q", err, read(t, one))
	}
}

// TestRewriteSteps holds that a text is on the disk before it is renamed.
func TestRewriteSteps(t *testing.T) {
	name := filepath.Join(t.TempDir(), "order.yaml")
	write(t, name, "old")
	var steps []string
	rewriteStep = func(step, temp string) {
		steps = append(steps, step)
		if filepath.Dir(temp) != filepath.Dir(name) {
			t.Errorf("%s lies in another folder", temp)
		}
	}
	defer func() { rewriteStep = func(string, string) {} }()
	if err := rewriteFile(name, []byte("old"), []byte("new")); err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(steps, rewriteSteps) || slices.Index(steps, "synced") > slices.Index(steps, "renamed") {
		t.Errorf("its steps are %v", steps)
	}
}

func TestRewriteKeepsPermissions(t *testing.T) {
	name := filepath.Join(t.TempDir(), "order.yaml")
	for _, mode := range []os.FileMode{0o600, 0o644, 0o664, 0o666, 0o755} {
		write(t, name, "old")
		if err := os.Chmod(name, mode); err != nil {
			t.Fatal(err)
		}
		if err := rewriteFile(name, []byte("old"), []byte("new")); err != nil {
			t.Fatal(err)
		}
		if info, err := os.Stat(name); err != nil || info.Mode() != mode || read(t, name) != "new" {
			t.Errorf("%v has become %v, %v", mode, info.Mode(), err)
		}
	}
}

func TestRewriteFollowsLinks(t *testing.T) {
	dir := t.TempDir()
	file, link := filepath.Join(dir, "kept", "order.yaml"), filepath.Join(dir, "order.yaml")
	if err := os.Mkdir(filepath.Dir(file), 0o777); err != nil {
		t.Fatal(err)
	}
	write(t, file, "old")
	if err := os.Symlink(filepath.Join("kept", "order.yaml"), link); err != nil {
		t.Skip(err)
	}
	if err := rewriteFile(link, []byte("old"), []byte("new")); err != nil {
		t.Fatal(err)
	}
	if to, err := os.Readlink(link); err != nil || to != filepath.Join("kept", "order.yaml") {
		t.Errorf("the link leads to %q: %v", to, err)
	}
	if got := read(t, file); got != "new" {
		t.Errorf("the file says %q", got)
	}
}

// TestRewriteLeavesAlone holds that a file which must not be written stays, and
// nothing is left beside it.
func TestRewriteLeavesAlone(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(string) error
		says string
		want string
	}{
		{"read-only", func(name string) error { return os.Chmod(name, 0o444) }, "it is read-only", "old"},
		{"changed meanwhile", func(name string) error { return os.WriteFile(name, []byte("other"), 0o666) }, "it was changed in the meantime", "other"},
		{"gone", os.Remove, "no such file", ""},
		{"a folder", func(name string) error { return errors.Join(os.Remove(name), os.Mkdir(name, 0o777)) }, "is not a file", ""},
	} {
		dir := t.TempDir()
		name := filepath.Join(dir, "order.yaml")
		write(t, name, "old")
		if err := c.make(name); err != nil {
			t.Fatal(err)
		}
		if err := rewriteFile(name, []byte("old"), []byte("new")); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: the error is %v", c.name, err)
		}
		if c.want != "" && read(t, name) != c.want {
			t.Errorf("%s: the file says %q", c.name, read(t, name))
		}
		entries, err := os.ReadDir(dir)
		if err != nil || len(entries) > 1 {
			t.Errorf("%s: %v is left in the folder, %v", c.name, entries, err)
		}
	}
}

// TestChangedAtTheLastMoment changes a file when all but the comparison is done.
func TestChangedAtTheLastMoment(t *testing.T) {
	name := filepath.Join(t.TempDir(), "order.yaml")
	write(t, name, "old")
	rewriteStep = func(step, _ string) {
		if step == "synced" {
			write(t, name, "other")
		}
	}
	defer func() { rewriteStep = func(string, string) {} }()
	err := rewriteFile(name, []byte("old"), []byte("new"))
	if err == nil || read(t, name) != "other" {
		t.Errorf("the file says %q, the error is %v", read(t, name), err)
	}
}

// correctQuietly runs the program on a path and returns its exit code.
func correctQuietly(t *testing.T, path string) int {
	t.Helper()
	null, err := os.OpenFile(os.DevNull, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer null.Close()
	return run([]string{"correct", path}, streams{null, null, null})
}

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}

func read(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
