package fix

import (
	"sort"

	"cutgate/internal/source"
)

// place notes where the edits of a round stand once they are made, and moves
// those of the rounds before it.
func place(list []taking, taken, before []Applied) {
	shifts := make([]int, len(list)+1) // of what lies after so many edits
	for i, t := range list {
		start := t.Start + shifts[i]
		a := &taken[t.of]
		if a.Now == nil {
			a.Now = make([]source.Range, len(a.Edits))
		}
		a.Now[t.nth] = source.Range{Start: start, End: start + len(t.Text)}
		shifts[i+1] = shifts[i] + len(t.Text) - t.Len()
	}
	for i := range before {
		for k, r := range before[i].Now {
			before[i].Now[k] = moved(r, list, shifts)
		}
	}
}

// moved is where r stands after the edits were made: without them at its edges,
// and with all of those that reach into it.
func moved(r source.Range, list []taking, shifts []int) source.Range {
	first := sort.Search(len(list), func(i int) bool { return list[i].End > r.Start })
	end := sort.Search(len(list), func(i int) bool { return list[i].Start >= r.End })
	if end <= first {
		return source.Range{Start: r.Start + shifts[first], End: r.End + shifts[first]}
	}
	return source.Range{
		Start: min(r.Start, list[first].Start) + shifts[first],
		End:   max(r.End, list[end-1].End) + shifts[end],
	}
}
