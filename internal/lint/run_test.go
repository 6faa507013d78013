package lint_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
)

func line(number string) lint.Input {
	return lint.Input{File: &source.File{Name: "orders.jsonl", Text: docket(number, "Hall")}, Format: load.JSONLines}
}

func TestRunKeepsTheOrder(t *testing.T) {
	const n = 1000
	inputs := func(yield func(lint.Input, error) bool) {
		for i := range n {
			in, err := line(fmt.Sprint(i)), error(nil)
			if i%100 == 7 {
				in, err = lint.Input{}, fmt.Errorf("no order %d", i)
			}
			if !yield(in, err) {
				return
			}
		}
	}
	var want []string
	for i := range n {
		if i%100 == 7 {
			want = append(want, fmt.Sprintf("error: no order %d", i))
		} else {
			want = append(want, fmt.Sprintf("%d clear to cut", i))
		}
	}
	var got []string
	err := checker().Run(t.Context(), inputs, func(results []lint.Result) error {
		got = append(got, said(results...)...)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// TestRunDoesNotWait gives each order only when what was said of the one before
// has come.
func TestRunDoesNotWait(t *testing.T) {
	next := make(chan struct{}, 1)
	next <- struct{}{}
	inputs := func(yield func(lint.Input, error) bool) {
		for i := range 20 {
			<-next
			if !yield(line(fmt.Sprint(i)), nil) {
				return
			}
		}
	}
	n := 0
	err := checker().Run(t.Context(), inputs, func(results []lint.Result) error {
		for range results {
			n++
			next <- struct{}{}
		}
		return nil
	})
	if err != nil || n != 20 {
		t.Errorf("%d orders, error %v", n, err)
	}
}

func endless(given *int) iter.Seq2[lint.Input, error] {
	return func(yield func(lint.Input, error) bool) {
		for yield(line("A1"), nil) {
			*given++
		}
	}
}

func TestRunEndsWithEmit(t *testing.T) {
	enough := errors.New("enough")
	var given int
	err := checker().Run(t.Context(), endless(&given), func([]lint.Result) error { return enough })
	if !errors.Is(err, enough) {
		t.Errorf("the error is %v", err)
	}
}

func TestRunEndsWithContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	var given int
	err := checker().Run(ctx, endless(&given), func([]lint.Result) error { cancel(); return nil })
	if !errors.Is(err, context.Canceled) {
		t.Errorf("the error is %v", err)
	}
}

// TestRunIsBounded looks at the memory of a long stream.
func TestRunIsBounded(t *testing.T) {
	if testing.Short() {
		t.Skip("takes a second")
	}
	r, w := io.Pipe()
	go func() {
		text := docket("A1", strings.Repeat("Hall ", 100)) + "\n"
		for range 30_000 {
			if _, err := io.WriteString(w, text); err != nil {
				return
			}
		}
		w.Close()
	}()
	in := &lint.Inputs{Paths: []string{lint.Stdin}, Stdin: r, Loader: machinery().loader}
	n, most := 0, uint64(0)
	err := checker().Run(t.Context(), in.All(), func(results []lint.Result) error {
		before := n / 5000
		if n += len(results); n/5000 != before {
			var m runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&m)
			most = max(most, m.HeapAlloc)
		}
		return nil
	})
	if err != nil || n != 30_000 {
		t.Fatalf("%d orders, error %v", n, err)
	}
	if limit := uint64(48 << 20); most > limit {
		t.Errorf("%d MB are held", most>>20)
	}
}

func BenchmarkRun(b *testing.B) {
	text := docket("A1", "Hall")
	inputs := func(yield func(lint.Input, error) bool) {
		for b.Loop() {
			if !yield(lint.Input{File: &source.File{Name: "orders.jsonl", Text: text}, Format: load.JSONLines}, nil) {
				return
			}
		}
	}
	b.ReportAllocs()
	err := checker().Run(b.Context(), inputs, func([]lint.Result) error { return nil })
	if err != nil {
		b.Fatal(err)
	}
}
