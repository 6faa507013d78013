package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"cutgate/internal/lint"
)

// readKnown reads a file of known findings; without a name, nothing is known.
func readKnown(name string) (*lint.Known, error) {
	if name == "" {
		return new(lint.Known), nil
	}
	text, err := os.ReadFile(name)
	if err != nil {
		return nil, fmt.Errorf("reading known findings: %w", err)
	}
	known, err := lint.ReadKnown(text)
	if err != nil {
		return nil, fmt.Errorf("reading known findings from %s: %w", name, err)
	}
	return known, nil
}

// settleKnown says how many known findings are gone, and saves all findings
// where that is wanted and every order was looked at.
func settleKnown(std streams, flags checkFlags, known, all *lint.Known, failed bool) error {
	switch gone := known.Gone(); {
	case gone == 0 || flags.saveKnown != "":
	case gone == 1:
		complain(std.err, errors.New("1 known finding is gone; --save-known makes the file anew"))
	default:
		complain(std.err, fmt.Errorf("%d known findings are gone; --save-known makes the file anew", gone))
	}
	if flags.saveKnown == "" {
		return nil
	}
	if failed {
		complain(std.err, fmt.Errorf("%s is left as it was, as not every order could be checked", flags.saveKnown))
		return nil
	}
	if err := saveFile(flags.saveKnown, all.Text()); err != nil {
		return fmt.Errorf("saving known findings: %w", err)
	}
	return nil
}

// saveFile writes a file that may be there or not: whole or not at all.
func saveFile(name string, text []byte) error {
	was, err := os.ReadFile(name)
	if err == nil {
		return rewriteFile(name, was, text)
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return putFile(name, text, func(temp *os.File) error { return temp.Chmod(0o644) }, func() error { return nil })
}
