package main

import (
	"path/filepath"
	"testing"

	"cutgate/internal/load"
	"cutgate/internal/source"
)

const sampleOrders = 300

// leastFound is how many of a hundred mistakes are found, those in choices too.
const leastFound = 90

// TestOrders checks that orders without a mistake are clear to cut and that
// mistakes are found, in both ways of writing.
func TestOrders(t *testing.T) {
	g, err := newMaker(7)
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
			t.Errorf("%d orders without a mistake and %d with one, of %d", got.clean, got.faulty, sampleOrders)
		}
		if got.clear < got.clean {
			t.Errorf("%d of %d orders without a mistake are clear to cut%s", got.clear, got.clean, got.alarms.list("; a word from"))
		}
		if 100*got.found < leastFound*got.faulty {
			t.Errorf("%d of %d mistakes are found%s", got.found, got.faulty, got.missed.list("; missed"))
		}
	}
	sample := &tally{truth: yaml.truth[:20], missed: counts{}, alarms: counts{}}
	if err := g.verify(filepath.Join(dir, "sample.yaml"), sample); err != nil {
		t.Error(err)
	}
}

// TestDecode decodes what was written, so that the ratio to it means something.
func TestDecode(t *testing.T) {
	g, err := newMaker(7)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if _, err := g.lines(filepath.Join(dir, "orders.jsonl"), 0, 20); err != nil {
		t.Fatal(err)
	}
	if err := g.tables(filepath.Join(dir, "orders.jsonl"), filepath.Join(dir, "orders.csv"), filepath.Join(dir, "orders.xlsx")); err != nil {
		t.Fatal(err)
	}
	if _, err := g.folder(filepath.Join(dir, "orders"), 0, 20, 5, filepath.Join(dir, "sample.yaml")); err != nil {
		t.Fatal(err)
	}
	if err := decode(dir); err != nil {
		t.Error(err)
	}
}

// BenchmarkCheck checks one generated order after the other, those without a mistake and
// those with one, in which the wrong value has to be found.
func BenchmarkCheck(b *testing.B) {
	g, err := newMaker(7)
	if err != nil {
		b.Fatal(err)
	}
	texts := map[string][]string{}
	for m, err := range g.all(0, 3*sampleOrders, load.JSONLines) {
		if err != nil {
			b.Fatal(err)
		}
		what := "faulty"
		if m.mistake == "" {
			what = "clean"
		}
		texts[what] = append(texts[what], m.text)
	}
	for what, list := range texts {
		b.Run(what, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				g.Checker.CheckFile(&source.File{Name: "orders.jsonl", Text: list[i%len(list)]}, load.JSONLines)
			}
		})
	}
}
