package lint

import (
	"bufio"
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"cutgate/internal/house"
	"cutgate/internal/load"
)

// list gives the orders and the house rules of a list of paths, each as its path is
// read. Of files that hold neither nothing is said, as a list may come from
// something that knows none of orders; a path that leads nowhere is an error.
func (s *Inputs) list(yield func(Input, error) bool) bool {
	from := s.Stdin
	if s.List != Stdin {
		f, err := os.Open(s.List)
		if err != nil {
			return fail(yield, s.List, fmt.Errorf("reading a list of paths: %w", err))
		}
		defer f.Close()
		from = f
	}
	paths := bufio.NewScanner(from)
	paths.Split(new(separator).split)
	for paths.Scan() {
		if path := paths.Text(); path != "" && !s.listed(path, yield) {
			return false
		}
	}
	if err := paths.Err(); err != nil {
		return fail(yield, s.List, fmt.Errorf("reading a list of paths: %w", err))
	}
	return true
}

// listed gives the orders of a path of a list.
func (s *Inputs) listed(path string, yield func(Input, error) bool) bool {
	format, ok := s.orders(path)
	info, err := os.Stat(path)
	if err != nil {
		if _, none := os.Lstat(path); none == nil && !ok {
			return true // a link to nothing, that isn't called as an order is
		}
		return fail(yield, path, looking(err))
	}
	if info.IsDir() {
		return s.folder(path, yield)
	}
	switch {
	case !info.Mode().IsRegular(), hiddenBelow(path):
		return true
	case filepath.Base(path) == house.FileName:
		return yield(houseInput(path), nil)
	case !ok:
		return true
	}
	return s.file(path, Input{Format: format, Listed: true}, yield)
}

// orders reports whether a file that nobody named by itself may hold orders, and
// in which format: one that is not hidden, has the ending of a format, and is
// neither a shop's own rules nor one of the files that are no orders.
func (s *Inputs) orders(path string) (load.Format, bool) {
	format, ok := load.FormatOf(path)
	name := filepath.Base(path)
	return format, ok && !strings.HasPrefix(name, ".") && !strings.HasPrefix(name, "~$") && name != house.FileName && !s.excepted(path)
}

// hiddenBelow reports whether a path leads through a hidden folder. One that is
// given from the root of the file system was meant, whatever it leads through.
func hiddenBelow(path string) bool {
	if filepath.IsAbs(path) {
		return false
	}
	for name := range strings.SplitSeq(filepath.ToSlash(filepath.Clean(path)), "/") {
		if strings.HasPrefix(name, ".") && name != "." && name != ".." {
			return true
		}
	}
	return false
}

// A separator is what stands between the paths of a list: NUL where there is one
// in what comes first of it, as no path has one, else the end of a line.
type separator struct {
	known bool
	nul   bool
}

// split is a [bufio.SplitFunc].
func (s *separator) split(data []byte, atEnd bool) (advance int, path []byte, err error) {
	if !s.known && len(data) > 0 {
		s.known, s.nul = true, bytes.IndexByte(data, 0) >= 0
	}
	if !s.nul {
		return bufio.ScanLines(data, atEnd)
	}
	if i := bytes.IndexByte(data, 0); i >= 0 {
		return i + 1, data[:i], nil
	}
	if atEnd && len(data) > 0 {
		return len(data), data, nil
	}
	return 0, nil, nil
}
