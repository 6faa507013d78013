package main

import (
	"bytes"
	"io"
	"strings"
	"testing"
)

func TestParseRange(t *testing.T) {
	for _, c := range []struct {
		text        string
		first, last uint64
		ok          bool
	}{
		{"7", 7, 7, true}, {"301-305", 301, 305, true}, {"5-1", 0, 0, false}, {"", 0, 0, false}, {"1-", 0, 0, false}, {"-3", 0, 0, false},
	} {
		first, last, err := parseRange(c.text)
		if first != c.first || last != c.last || (err == nil) != c.ok {
			t.Errorf("%q: %d to %d: %v", c.text, first, last, err)
		}
	}
}

func TestRun(t *testing.T) {
	var out bytes.Buffer
	if err := run(&out, io.Discard, "3", "", 1, []string{"quiet"}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"seed 3, order 0, ordinary: choice, ", "\nordinary: outcome ", "\nhalf blank: choice ", "rounded by hand, without a mistake"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("it does not say %q:\n%s", want, out.String())
		}
	}
	if err := run(&out, io.Discard, "x", "", 1, nil); err == nil {
		t.Error("x is taken for a seed")
	}
}
