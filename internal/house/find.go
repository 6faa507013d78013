package house

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"

	"cuelang.org/go/cue/parser"

	"cutgate/internal/source"
	syntax "cutgate/internal/syntax/cue"
	"cutgate/internal/trade"
)

// A Finder finds the house that an order stands under. It looks into each
// folder once and reads each house once, and may be used by many goroutines at
// once; its fields must not change after its first use.
type Finder struct {
	File   string        // the one house of all orders; "" to look for one in an order's folder and above it
	Tables *trade.Tables // what a house's allowances take the place of
	Known  []Known       // the rules that a house can set levels for
	// Apart is the command of a process that calls Serve, for rules that do more than to
	// compare; nil to evaluate them in this process, whatever they take.
	Apart func() *exec.Cmd

	asked sync.Map // folder as it was named → *found

	lock    sync.Mutex
	folders map[string]*found // absolute folder → what stands in it or above it
	one     *found            // of File
	doubts  []string          // of the houses that were read
}

// found is a house, or why it can't be used; neither where there is none.
type found struct {
	house *House
	err   error
}

// Of returns the house of the order with that file name, or nil where it stands
// under none. A name that is no path stands in the working folder, so that an
// order on standard input has the house of that.
func (f *Finder) Of(order string) (*House, error) { return f.In(filepath.Dir(order)) }

// In returns the house of the orders in a folder, or nil.
func (f *Finder) In(folder string) (*House, error) {
	if got, ok := f.asked.Load(folder); ok {
		return got.(*found).house, got.(*found).err
	}
	f.lock.Lock()
	defer f.lock.Unlock()
	got := f.look(folder)
	f.asked.Store(folder, got)
	return got.house, got.err
}

// look finds the house of a folder that was not asked for before.
func (f *Finder) look(folder string) *found {
	if f.File != "" {
		if f.one == nil {
			f.one = f.read(f.File, f.File)
		}
		return f.one
	}
	abs, err := filepath.Abs(folder)
	if err != nil {
		return &found{err: fmt.Errorf("looking for house rules: %w", err)}
	}
	if f.folders == nil {
		f.folders = make(map[string]*found)
	}
	return f.above(abs)
}

// above finds the nearest house in an absolute folder or above it.
func (f *Finder) above(folder string) *found {
	if got, ok := f.folders[folder]; ok {
		return got
	}
	got := &found{}
	path := filepath.Join(folder, FileName)
	info, err := os.Stat(path)
	switch {
	case err == nil && info.Mode().IsRegular():
		got = f.read(path, shown(path))
	case err == nil && !info.IsDir():
		got.err = fmt.Errorf("reading house rules: %s is not a file", shown(path))
	case errors.Is(err, fs.ErrNotExist) && isLink(path):
		got.err = fmt.Errorf("reading house rules: %s is a broken link", shown(path))
	case err != nil && !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, syscall.ENOTDIR):
		got.err = fmt.Errorf("looking for house rules: %w", err)
	case filepath.Dir(folder) != folder:
		got = f.above(filepath.Dir(folder))
	}
	f.folders[folder] = got
	return got
}

// isLink reports whether a path is of a link, wherever that leads.
func isLink(path string) bool {
	info, err := os.Lstat(path)
	return err == nil && info.Mode()&fs.ModeSymlink != 0
}

// read reads a house. An evaluator that breaks on it is an error too.
func (f *Finder) read(path, name string) (got *found) {
	defer func() {
		if v := recover(); v != nil {
			got = &found{err: fmt.Errorf("reading %s: the evaluator crashed: %v", name, v)}
		}
	}()
	text, err := readStart(path)
	if err != nil {
		return &found{err: fmt.Errorf("reading house rules: %w", err)}
	}
	if info, err := os.Stat(path); err == nil {
		if d := doubt(info); d != "" {
			f.doubts = append(f.doubts, name+": "+d)
		}
	}
	away, err := f.tried(name, text)
	if err != nil {
		return &found{err: err}
	}
	h, err := Read(name, text, f.Tables, f.Known)
	if err == nil && len(h.Rules) > 0 {
		h.Rules[0].pool.apart = away
	}
	return &found{h, err}
}

// readStart reads a file up to a little more than house rules may have.
func readStart(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, maxText+1))
	return string(text), err
}

// tried has a house that does more than to compare read by a process of its own first,
// which is ended where it takes too much. It returns how its rules are evaluated then;
// nil for one that only compares.
func (f *Finder) tried(name, text string) (*apart, error) {
	if f.Apart == nil || len(text) > maxText || syntax.TooNested(text) >= 0 {
		return nil, nil
	}
	file, err := parser.ParseFile(name, strings.TrimPrefix(text, byteOrderMark))
	if err != nil {
		return nil, nil // which is told when it is read
	}
	at, does := computes(file)
	if !does {
		return nil, nil
	}
	if r := (&reader{src: &source.File{Name: name, Text: text}, places: places{}}); r.parse() == nil {
		return nil, nil // the same
	}
	away := &apart{start: f.Apart, known: f.Known, first: at.Line()}
	away.tried, err = startApart(f.Apart, name, text, f.Known, at.Line())
	if err != nil {
		return nil, err
	}
	return away, nil
}

// Doubts returns, for each house that was read so far and may not be the shop's own
// words, which it is and why.
func (f *Finder) Doubts() []string {
	f.lock.Lock()
	defer f.lock.Unlock()
	return slices.Sorted(slices.Values(f.doubts))
}

// shown is how people are shown a path: from the working folder where that is
// shorter.
func shown(path string) string {
	here, err := os.Getwd()
	if err != nil {
		return path
	}
	if rel, err := filepath.Rel(here, path); err == nil && len(rel) < len(path) {
		return rel
	}
	return path
}
