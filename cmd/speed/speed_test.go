package main

import (
	"bytes"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const sampleOrders = 300

// TestDeterministic makes the same orders twice, in other company.
func TestDeterministic(t *testing.T) {
	g, err := newGenerator(7)
	if err != nil {
		t.Fatal(err)
	}
	var text []byte
	for m, err := range g.all(10, 40) {
		if err != nil {
			t.Fatal(err)
		}
		text = append(appendJSON(text, m.form), '\n')
	}
	for n := 49; n >= 10; n-- {
		m, err := g.order(n)
		if err != nil {
			t.Fatal(err)
		}
		line := append(appendJSON(nil, m.form), '\n')
		if !bytes.HasSuffix(text, line) {
			t.Fatalf("order %d is not the same a second time:\n%s", n, line)
		}
		text = bytes.TrimSuffix(text, line)
	}
}

// TestOrders checks that orders without a slip are clear to cut and that every
// slip is found, in both ways of writing.
func TestOrders(t *testing.T) {
	g, err := newGenerator(7)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	yaml, err := g.folder(filepath.Join(dir, "orders"), 0, sampleOrders, 20, filepath.Join(dir, "sample.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	lines, err := g.lines(filepath.Join(dir, "orders.jsonl"), 0, sampleOrders)
	if err != nil {
		t.Fatal(err)
	}
	for _, got := range []*tally{yaml, lines} {
		if got.clean+got.faulty != sampleOrders || got.faulty < sampleOrders/20 {
			t.Errorf("%d orders without a slip and %d with one, of %d", got.clean, got.faulty, sampleOrders)
		}
		if got.clear < got.clean {
			t.Errorf("%d of %d orders without a slip are clear to cut%s", got.clear, got.clean, got.alarms.list("; a word from"))
		}
		if got.found < got.faulty {
			t.Errorf("%d of %d slips are found%s", got.found, got.faulty, got.missed.list("; missed"))
		}
	}
	sample := &tally{truth: yaml.truth[:20], missed: counts{}, alarms: counts{}}
	if err := g.verify(filepath.Join(dir, "sample.yaml"), sample); err != nil {
		t.Error(err)
	}
}

// TestDecode decodes what was written, so that the ratio to it means something.
func TestDecode(t *testing.T) {
	g, err := newGenerator(7)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if _, err := g.lines(filepath.Join(dir, "orders.jsonl"), 0, 20); err != nil {
		t.Fatal(err)
	}
	if _, err := g.folder(filepath.Join(dir, "orders"), 0, 20, 5, filepath.Join(dir, "sample.yaml")); err != nil {
		t.Fatal(err)
	}
	if err := decode(dir); err != nil {
		t.Error(err)
	}
}

// TestYAML writes a form the way that people do.
func TestYAML(t *testing.T) {
	form := of("order", "TR-1", "units", "in",
		"cloths", of("duck", of("name", "plain duck", "width", `54"`, "shrinks", of("length", "3%"), "washed", true, "ordered", nil)),
		"items", []*block{of("item", "shower curtain", "cuts", []*block{of("piece", "side", "width", "14 1/4", "length", nil)},
			"hems", of("top", of("turn", "10½", "folds", "2")), "waive", []*block{})})
	want := `order: TR-1
units: in
cloths:
  duck:
    name: plain duck
    width: "54\""
    shrinks: {length: "3%"}
    washed: true
    ordered:
items:
  - item: shower curtain
    cuts:
      - {piece: side, width: 14 1/4, length: null}
    hems:
      top: {turn: 10½, folds: 2}
    waive: []
`
	if diff := cmp.Diff(want, string(appendYAML(nil, form, 0))); diff != "" {
		t.Error(diff)
	}
}
