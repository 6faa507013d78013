package worksheet_test

import (
	"fmt"
	"os"
	"testing"

	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

func TestDump(t *testing.T) {
	l, err := load.New()
	if err != nil {
		t.Fatal(err)
	}
	tb, err := load.Tables()
	if err != nil {
		t.Fatal(err)
	}
	name := os.Getenv("F")
	b, _ := os.ReadFile(name)
	f, _ := load.FormatOf(name)
	for _, o := range l.Orders(&source.File{Name: name, Text: string(b)}, f, load.Options{}) {
		for _, fl := range o.Flaws {
			fmt.Printf("FLAW %+v\n", fl)
		}
		s := worksheet.Work(o, tb)
		for _, q := range s.All {
			w := q.Working(s.Unit)
			fmt.Printf("%-45s %s\n", q.Path(), w[len(w)-1])
		}
		for _, x := range s.Wrong {
			fmt.Printf("WRONG %s %q -> %q slip %+v also %d\n", x.Quantity.Path(), x.Node.Text, x.Corrected, x.Slip, len(x.Also))
		}
		for _, x := range s.Misread {
			fmt.Printf("MISREAD %s %q -> %q slip %+v\n", x.Name, x.Node.Text, x.Corrected, x.Slip)
		}
	}
}
