package load

import (
	"os"
	"path/filepath"
	"testing"

	"cutgate/internal/source"
)

// BenchmarkOrders reads one order from text to typed order, in each format.
func BenchmarkOrders(b *testing.B) {
	names, err := filepath.Glob("testdata/docket.*")
	if err != nil || len(names) == 0 {
		b.Fatal("no orders to read", err)
	}
	l, err := New()
	if err != nil {
		b.Fatal(err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			b.Fatal(err)
		}
		format, _ := FormatOf(name)
		b.Run(format.String(), func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			for b.Loop() {
				l.Orders(&source.File{Name: name, Text: string(text)}, format, Options{})
			}
		})
	}
}
