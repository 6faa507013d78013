package lay

import (
	"cmp"
	"slices"

	"cutgate/internal/length"
)

// A Stretch is a part of a bolt, from its beginning on: a flaw, or the cloth between two.
type Stretch struct{ From, To length.Length }

// Room reports whether nothing speaks against laying the rows on the lengths,
// none across an end: there is a place for each of the longest rows, for each
// of those and of the next, and cloth enough for all.
func Room(lengths []length.Length, rows []Row) bool {
	var takes, gives length.Length
	for _, l := range lengths {
		gives += l
	}
	for _, r := range rows {
		if r.Length <= 0 {
			continue
		}
		takes += r.Length.Mul(r.Count)
		var places, wanted int64
		for _, l := range lengths {
			places += length.FloorDiv(l, r.Length)
		}
		for _, as := range rows {
			if as.Length >= r.Length {
				wanted += as.Count
			}
		}
		if wanted > places {
			return false
		}
	}
	return takes <= gives
}

// Between are the stretches of a bolt of that length that lie between its flaws, in
// order. Flaws may overlap and may run beyond the end.
func Between(flaws []Stretch, end length.Length) (clean []Stretch) {
	flaws = append(slices.Clone(flaws), Stretch{end, end})
	slices.SortFunc(flaws, func(a, b Stretch) int { return cmp.Compare(a.From, b.From) })
	at := length.Length(0)
	for _, f := range flaws {
		if from := min(f.From, end); from > at {
			clean = append(clean, Stretch{at, from})
		}
		at = max(at, f.To)
	}
	return clean
}

// Around lays rows on the clean stretches of a bolt, the rows of a plan one after the
// other, and returns how far along they reach, and whether all of them found a place.
// Lead is cloth that is passed over before the first.
func Around(clean []Stretch, rows []Row, lead length.Length) (reach length.Length, all bool) {
	left := slices.Clone(rows)
	for i := 0; i < len(clean) && !all; i++ {
		at := clean[i].From
		if i == 0 {
			at = min(at+lead, clean[i].To)
		}
		all = true
		for j := range left {
			r := &left[j]
			if r.Length > 0 {
				n := min(r.Count, length.FloorDiv(clean[i].To-at, r.Length))
				r.Count -= n
				if at += r.Length.Mul(n); n > 0 {
					reach = at
				}
			}
			all = all && r.Count == 0
		}
	}
	return reach, all
}
