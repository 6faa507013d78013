package diagnose_test

import (
	"bytes"
	"os"
	"testing"

	"cutgate/internal/diagnose"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/rules"
)

func BenchmarkSlips(b *testing.B) {
	c, err := lint.New(rules.All())
	if err != nil {
		b.Fatal(err)
	}
	data, _ := os.ReadFile("/tmp/base/gen/slips.jsonl")
	lines := bytes.Split(bytes.TrimSpace(data), []byte("\n"))
	b.ResetTimer()
	for i := 0; b.Loop(); i++ {
		c.CheckFile(&source.File{Name: "x", Text: string(lines[i%len(lines)])}, load.JSON)
	}
}

func TestRuns(t *testing.T) {
	c, _ := lint.New(rules.All())
	data, _ := os.ReadFile("/tmp/base/gen/slips.jsonl")
	lines := bytes.Split(bytes.TrimSpace(data), []byte("\n"))
	n, runs, reads, most := 0, 0, 0, 0
	diagnose.Trace = func(a, b int) { n++; runs += a; reads += b; most = max(most, a) }
	for _, l := range lines[:300] {
		c.CheckFile(&source.File{Name: "x", Text: string(l)}, load.JSON)
	}
	t.Logf("%d: runs %d readings %d most %d", n, runs/n, reads/n, most)
}
