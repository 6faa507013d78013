package main

import (
	"io/fs"
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/rules"
)

// TestKinds holds the orders to fill in to the kinds of the order form.
func TestKinds(t *testing.T) {
	kinds := here(t).names
	files, err := fs.Glob(blanks, "orders/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if len(files) != len(kinds)+1 {
		t.Errorf("%d orders to fill in for %d kinds and a head", len(files), len(kinds))
	}
}

// TestNewOrders holds every order to fill in to be read without a flaw and to
// be clear to cut.
func TestNewOrders(t *testing.T) {
	checker, err := lint.New(rules.All())
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range here(t).names {
		t.Run(slug(kind), func(t *testing.T) {
			text, err := here(t).blankOrder(kind)
			if err != nil {
				t.Fatal(err)
			}
			f := &source.File{Name: slug(kind) + ".yaml", Text: text}
			results := checker.CheckFile(f, load.YAML)
			if len(results) != 1 || results[0].Err != nil {
				t.Fatalf("not one order: %+v", results)
			}
			o := results[0].Order
			for _, flaw := range o.Flaws {
				t.Errorf("%v: %+v", f.Position(flaw.At.Start), flaw)
			}
			for _, found := range results[0].Findings {
				if found.Level > finding.Note {
					t.Errorf("%v: %s: %s: %s", f.Position(found.At.Start), found.Level, found.Rule, found.Message)
				}
			}
			for i := range o.Items {
				if o.Items[i].Kind.Value != kind {
					t.Errorf("it is not an order for a %s", kind)
				}
			}
		})
	}
}

func TestHint(t *testing.T) {
	words := []string{"curtain", "valance", "length/cut-length-off"}
	for word, want := range map[string]string{
		"curtian": ": did you mean curtain?", "Valence": ": did you mean valance?", "xyz": ": one of curtain, valance, length/cut-length-off",
	} {
		if got := hint(word, words); got != want {
			t.Errorf("%s: got %q, want %q", word, got, want)
		}
	}
}

func here(t *testing.T) *shop {
	t.Helper()
	s, err := shopHere()
	if err != nil {
		t.Fatal(err)
	}
	return s
}
