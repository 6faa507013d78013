package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"cutgate/internal/lint"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// readKnown reads a file of known findings, up to so many bytes; without a name, nothing
// is known.
func readKnown(name string, largest int64) (*lint.Known, error) {
	if name == "" {
		return new(lint.Known), nil
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("reading known findings: %w", withoutCall(err))
	}
	defer f.Close()
	text, err := lint.ReadAll(f, largest)
	if err != nil {
		return nil, fmt.Errorf("reading known findings from %s: %w", name, err)
	}
	known, err := lint.ReadKnown([]byte(text))
	if err != nil {
		return nil, fmt.Errorf("reading known findings from %s: %w", name, err)
	}
	return known, nil
}

// A savedKnown is the file that known findings are to be kept in, and what it
// said when the command began.
type savedKnown struct {
	name string // "" for none
	was  []byte // nil where there was no file
}

// toSave looks at the file that known findings are to be kept in before anything is
// read or written. It must not be there, or be one of known findings, and can't be
// among the orders: of a shell's pattern behind the flag, the first file that it
// stands for would be taken for it.
func toSave(name string, paths []string) (savedKnown, error) {
	to := savedKnown{name: name}
	if name == "" {
		return to, nil
	}
	for _, p := range paths {
		if samePath(p, name) {
			return to, fmt.Errorf("%s is among the orders to check: known findings can't be saved over it", name)
		}
	}
	info, err := os.Lstat(name)
	if err == nil && info.Mode()&fs.ModeSymlink != 0 {
		info, err = os.Stat(name)
		if errors.Is(err, fs.ErrNotExist) {
			return to, fmt.Errorf("%s is a broken link: known findings can't be saved there", name)
		}
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if folder, err := os.Stat(filepath.Dir(name)); err != nil || !folder.IsDir() {
			return to, fmt.Errorf("there is no folder %s to save known findings in", filepath.Dir(name))
		}
		return to, nil
	case err != nil:
		return to, fmt.Errorf("saving known findings: %w", err)
	case !info.Mode().IsRegular():
		return to, fmt.Errorf("%s is not a file: known findings can't be saved there", name)
	}
	if to.was, err = os.ReadFile(name); err != nil {
		return to, fmt.Errorf("saving known findings: %w", err)
	}
	if _, err := lint.ReadKnown(to.was); err != nil {
		return to, fmt.Errorf("%s exists and is not a known-findings file, so it was not overwritten", name)
	}
	return to, nil
}

// samePath reports whether two paths are of one file, or of one that is yet to be.
func samePath(a, b string) bool {
	one, err1 := os.Stat(a)
	other, err2 := os.Stat(b)
	if err1 == nil && err2 == nil {
		return os.SameFile(one, other)
	}
	a, err1 = filepath.Abs(a)
	b, err2 = filepath.Abs(b)
	return err1 == nil && err2 == nil && a == b
}

// settleKnown says how many known findings are gone, and saves all findings
// where that is wanted and every order was looked at.
func settleKnown(std streams, to savedKnown, known, all *lint.Known, failed bool) error {
	switch gone := known.Gone(); {
	case gone == 0 || to.name != "":
	case gone == 1:
		complain(std.err, errors.New("1 known finding is gone; --save-known updates the file"))
	default:
		complain(std.err, fmt.Errorf("%d known findings are gone; --save-known updates the file", gone))
	}
	if to.name == "" {
		return nil
	}
	if failed {
		complain(std.err, fmt.Errorf("%s was left as it was, because not every order could be checked", to.name))
		return nil
	}
	if err := to.save(all.Text()); err != nil {
		return fmt.Errorf("saving known findings: %w", err)
	}
	fmt.Fprintf(std.err, "%s: saved %s in %s\n", programName, worksheet.Many(all.Len(), "finding"), source.Show(to.name))
	return nil
}

// save writes the file, whole or not at all, unless it has become another meanwhile.
func (to savedKnown) save(text []byte) error {
	new(sweeper).sweep(filepath.Dir(to.name))
	if to.was != nil {
		return rewriteFile(to.name, to.was, text)
	}
	return putFile(to.name, text, func(temp *os.File) error { return temp.Chmod(0o644) }, func() error {
		if _, err := os.Lstat(to.name); err == nil {
			return errors.New("a file of that name exists now")
		}
		return nil
	})
}
