package main

import (
	"context"
	"os"
	"testing"

	"cutgate/internal/lay"
)

// TestPublished lays the first instances of published sets, whose shortest lengths are
// known: Hopper and Turton, European Journal of Operational Research 128, 2001; Burke,
// Kendall and Whitwell, Operations Research 52, 2004; Beasley, Operations Research 33, 1985.
func TestPublished(t *testing.T) {
	dir := os.Getenv("CUTGATE_STRIPS")
	if dir == "" {
		t.Skip("CUTGATE_STRIPS is not set to the folder that has the published sets")
	}
	for _, c := range []struct {
		set   string
		first int
		above int64 // the shortest, in all
	}{
		{"ht-c", 9, 1}, {"bkw-n", 4, 0}, {"beng", 3, 1}, {"ngcut", 9, 1},
	} {
		list, err := readSet(dir, c.set)
		if err != nil {
			t.Fatal(err)
		}
		var above int64
		for i := range list[:c.first] {
			in := &list[i]
			cloth, pieces := in.order()
			l, err := lay.Make(context.Background(), cloth, pieces, lay.Options{Mode: lay.Free, Steps: 40_000_000})
			if err != nil {
				t.Fatalf("%s: %v", in.Name, err)
			}
			if l.Bound > unit.Mul(in.Bound) {
				t.Errorf("%s: no lay is said to be shorter than %s, and the shortest is %d", in.Name, l.Bound, in.Bound)
			}
			above += int64(l.Length/unit) - in.Bound
		}
		if above > c.above {
			t.Errorf("%s: the lays are %d above the shortest in all; %d is allowed", c.set, above, c.above)
		}
	}
}
