//go:build manual

package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// TestManual requires a page of each command, with each of its flags, that is the
// same on another day.
func TestManual(t *testing.T) {
	pages := func() (map[string]string, *cobra.Command) {
		dir := filepath.Join(t.TempDir(), "man")
		root := newRootCmd(streams{os.Stdin, os.Stdout, os.Stderr})
		if err := writePages(root, dir); err != nil {
			t.Fatal(err)
		}
		entries, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		texts := map[string]string{}
		for _, e := range entries {
			text, err := os.ReadFile(filepath.Join(dir, e.Name()))
			if err != nil {
				t.Fatal(err)
			}
			texts[e.Name()] = string(text)
		}
		return texts, root
	}
	texts, root := pages()
	t.Setenv("SOURCE_DATE_EPOCH", "1234567890")
	again, _ := pages()
	if d := cmp.Diff(texts, again); d != "" {
		t.Errorf("the pages depend on the day: %s", d)
	}
	if page := texts["cutgate.1"]; !strings.Contains(page, `\fB-v\fP, \fB--version\fP`) {
		t.Errorf("the page of the program has no --version: %s", page)
	}
	date := regexp.MustCompile(`\b(19|20)\d\d\b`)
	for name, text := range texts {
		if head, _, _ := strings.Cut(text, ".SH NAME"); date.MatchString(head) {
			t.Errorf("%s has a date: %s", name, head)
		}
	}
	for _, c := range root.Commands() {
		if c.Name() == "help" || c.Hidden {
			continue
		}
		page := texts["cutgate-"+c.Name()+".1"]
		if !strings.Contains(page, c.Short) {
			t.Errorf("there is no page of %s", c.Name())
		}
		if c.IsAdditionalHelpTopicCommand() {
			if strings.Contains(page, "SYNOPSIS") || strings.Contains(page, "OPTIONS") || !strings.Contains(texts["cutgate.1"], strings.ReplaceAll(c.Name(), "-", "\\-")+"(1)") {
				t.Errorf("the page of %s is that of a command, or not named on the first", c.Name())
			}
			continue
		}
		c.Flags().VisitAll(func(f *pflag.Flag) {
			usual := `="` + f.DefValue + `"`
			switch {
			case f.DefValue == "false":
				usual = ""
			case f.DefValue == "":
				usual = "=..."
			case f.Value.Type() != "string":
				usual = "=" + f.DefValue
			}
			if !strings.Contains(page, `\fB--`+f.Name+`\fP`+usual+"\n") {
				t.Errorf("the page of %s has --%s without %s", c.Name(), f.Name, usual)
			}
		})
	}
}
