package slab_test

import (
	"slices"
	"testing"

	"cutgate/internal/slab"
)

func TestSlab(t *testing.T) {
	var s slab.Slab[int]
	for round := range 3 {
		var all [][]int
		for n := range 50 {
			list := s.MakeOf(n, 20)
			if len(list) != n || cap(list) != n || slices.ContainsFunc(list, func(v int) bool { return v != 0 }) {
				t.Fatalf("round %d: %d elements wanted, got %v of %d", round, n, list, cap(list))
			}
			for i := range list {
				list[i] = 100*n + i + 1
			}
			all = append(all, list)
		}
		for n, list := range all { // none lies in another
			for i, v := range list {
				if v != 100*n+i+1 {
					t.Fatalf("round %d: element %d of %d is %d", round, i, n, v)
				}
			}
		}
		s.Reset()
	}
	if n := testing.AllocsPerRun(10, func() { s.Make(100); s.Reset() }); n != 0 {
		t.Errorf("%v allocations for memory that was given back", n)
	}
}
