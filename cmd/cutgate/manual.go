//go:build manual

// Built with the tag manual, the command writes its own manual pages and does
// nothing else, so that the program itself need not carry what writes them:
//
//	go run -tags manual ./cmd/cutgate bin/man
package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "name the folder for the pages")
		os.Exit(exitCould)
	}
	if err := writePages(newRootCmd(streams{os.Stdin, os.Stdout, os.Stderr}), os.Args[1]); err != nil {
		complain(os.Stderr, err)
		os.Exit(exitCould)
	}
}

// writePages writes a page for c and for each command below it.
func writePages(c *cobra.Command, dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("making a folder for pages: %w", err)
	}
	page, err := manualPage(c)
	if err != nil {
		return err
	}
	name := strings.ReplaceAll(c.CommandPath(), " ", "-") + ".1"
	if err := os.WriteFile(filepath.Join(dir, name), page, 0o644); err != nil {
		return fmt.Errorf("writing a page: %w", err)
	}
	for _, sub := range c.Commands() {
		if !sub.IsAvailableCommand() && !sub.IsAdditionalHelpTopicCommand() {
			continue
		}
		if err := writePages(sub, dir); err != nil {
			return err
		}
	}
	return nil
}

// manualPage is the page of a command. It has no date, so that the same commands
// give the same bytes.
func manualPage(c *cobra.Command) ([]byte, error) {
	c.DisableAutoGenTag = true
	c.InitDefaultVersionFlag()
	long, day := c.Long, time.Unix(0, 0).UTC()
	// What is set in by a little stays as it is, which Markdown wants four spaces for.
	c.Long = strings.ReplaceAll(long, "\n  ", "\n    ")
	defer func() { c.Long = long }()
	var b bytes.Buffer
	if err := doc.GenMan(c, &doc.GenManHeader{Section: "1", Date: &day, Manual: programName}, &b); err != nil {
		return nil, fmt.Errorf("making the page of %s: %w", c.CommandPath(), err)
	}
	page := bytes.Replace(b.Bytes(), []byte(day.Format(`"Jan 2006"`)), []byte(`""`), 1)
	page = off.ReplaceAll(page, []byte("$1"))
	switch {
	case c.IsAdditionalHelpTopicCommand():
		page = asRun.ReplaceAll(page, []byte("$1$2"))
	case !c.HasParent():
		page = bytes.Replace(page, []byte(c.Name()+" [flags]"), []byte(c.Name()+" COMMAND [flags]"), 1)
		for _, t := range topics {
			page = fmt.Appendf(page, ", \\fB%s-%s(1)\\fP", c.Name(), strings.ReplaceAll(t.name, "-", "\\-"))
		}
		page = append(joined.ReplaceAll(page, []byte(",")), '\n')
	}
	return nothing.ReplaceAll(page, []byte("$1=...")), nil
}

// How a topic would be run, and with which flags, and the line's end before a list goes on.
var (
	asRun  = regexp.MustCompile(`(?s)\.SH SYNOPSIS.*?(\.SH DESCRIPTION)|\.SH OPTIONS.*?(\.SH SEE ALSO)`)
	joined = regexp.MustCompile(`\n,`)
)

// A flag with what it is where it is not given: off or nothing, which would read
// as if it had to be written so.
var (
	off     = regexp.MustCompile(`(?m)^(\\fB.*\\fP)\[=false\]$`)
	nothing = regexp.MustCompile(`(?m)^(\\fB.*\\fP)=""$`)
)
