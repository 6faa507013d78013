package load

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
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

// BenchmarkTable reads a table of many orders, each of a cloth of its own.
func BenchmarkTable(b *testing.B) {
	const orders = 1000
	var items, cloths strings.Builder
	for i := range orders {
		fmt.Fprintf(&items, "TW-%d,Tern Cottage,in,napkin,cloth %d,20,20\n", i, i)
		fmt.Fprintf(&cloths, "cloth %d,100,60,1/2\n", i)
	}
	text := "order,client,units,item,cloth,finished width,finished length\n" + items.String() +
		"\ncloth,fiber linen,width,selvedge\n" + cloths.String()
	l, err := New()
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if n := len(l.Orders(&source.File{Text: text}, CSV, Options{})); n != orders {
			b.Fatalf("there are %d orders", n)
		}
	}
}
