package diagnose_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/diagnose"
)

// In an order with very many mistakes, what they have in common is found; where they have
// nothing in common, each is told, and none is certain.
func TestCrowded(t *testing.T) {
	const (
		head = "order: T\nunits: %s\ncloths:\n  lawn: {width: 150 cm%s}\nitems:\n"
		item = "  - {item: napkin, cloth: lawn, finished: {width: %d, length: 40}, hem: {turn: 0.5}, cuts: [{piece: piece, width: %d cm, length: %s cm, count: 1}]}\n"
		many = 150
	)
	items := func(off int, length string) string {
		var b strings.Builder
		for i := range many {
			fmt.Fprintf(&b, item, 40+i%9, 42+i%9+off, length)
		}
		return b.String()
	}
	for _, c := range []struct {
		what, text string
		want       []string
	}{
		{"other units", fmt.Sprintf(head, "in", "") + items(0, "42"), []string{"likely units cm"}},
		{"a shrinkage", fmt.Sprintf(head, "cm", ", shrinks: {length: 6%}") + items(0, "43.5"), []string{"likely shrinkage in length 3.5%"}},
		{"nothing in common", fmt.Sprintf(head, "cm", "") + items(1, "42"), slices.Repeat([]string{"likely cut width"}, many)},
	} {
		s := worked(t, c.text)
		diagnose.Order(s)
		got := said(s)
		if len(got) > 1 {
			for i := range got {
				got[i] = strings.Join(strings.Fields(got[i])[:3], " ") // the values differ
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %d findings, of which %q…; want %d, %q…", c.what, len(got), got[:min(2, len(got))], len(c.want), c.want[:1])
		}
	}
}
