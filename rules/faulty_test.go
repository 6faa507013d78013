package rules_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/load"
	"cutgate/internal/source"
)

// TestFaulty holds what is said of the faulty and the demo orders against
// testdata/orders/want.txt, a line for each finding. UPDATE=1 rewrites it.
func TestFaulty(t *testing.T) {
	const golden = "../testdata/orders/want.txt"
	checker := newChecker(t)
	var b strings.Builder
	for _, dir := range []string{"demo", "faulty"} {
		names, err := filepath.Glob("../testdata/orders/" + dir + "/*")
		if err != nil {
			t.Fatal(err)
		}
		slices.Sort(names)
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			format, ok := load.FormatOf(name)
			if !ok {
				t.Fatalf("%s: no format of that ending", name)
			}
			file := &source.File{Name: name, Text: string(text)}
			for _, r := range checker.CheckFile(file, format) {
				fmt.Fprintf(&b, "%s %s: %s\n", dir+"/"+filepath.Base(name), r.Order.Number.Value, r.Verdict)
				for _, f := range r.Findings {
					at := file.Position(f.At.Start)
					fmt.Fprintf(&b, "  %d:%d %s %s: %s\n", at.Line, at.Column, f.Level, f.Rule, f.Message)
					if f.Stated != "" || f.Corrected != "" {
						fmt.Fprintf(&b, "      %q → %q\n", f.Stated, f.Corrected)
					}
				}
			}
		}
	}
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(golden, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), b.String()); d != "" {
		t.Errorf("what is said has changed (UPDATE=1 rewrites %s):\n%s", golden, d)
	}
}
