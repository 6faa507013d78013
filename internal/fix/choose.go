package fix

import (
	"cmp"
	"fmt"
	"slices"
	"sort"

	"cutgate/internal/finding"
)

// A taking is an edit that was taken in a round, and for which fix.
type taking struct {
	finding.Edit
	of  int // index of the fix among those taken
	nth int // index of the edit among the fix's
}

// choose takes the fixes of one round, only the certain ones of the rules that are passed
// over. The edits come by place; they overlap nowhere.
func choose(text string, found []finding.Finding, least finding.Sureness, passed map[string]bool) (list []taking, taken []Applied, err error) {
	for _, f := range inOrder(found) {
		fix := Of(&f, least)
		if fix == nil || fix.Sureness < finding.Certain && passed[f.Rule] {
			continue
		}
		if err := finding.ValidEdits(fix.Edits, len(text)); err != nil {
			return nil, nil, fmt.Errorf("the fix %q of %s can't be made: %w", fix.Title, f.Rule, err)
		}
		own, ok := fresh(list, fix.Edits)
		if !ok {
			continue
		}
		for i, e := range own {
			list = insert(list, taking{Edit: e, of: len(taken), nth: i})
		}
		taken = append(taken, Applied{Finding: f, Fix: *fix, Edits: own})
	}
	return list, taken, nil
}

// fresh returns those of a fix's edits that were not taken yet, and reports
// whether all of them go with those that were.
func fresh(list []taking, fix []finding.Edit) (own []finding.Edit, ok bool) {
	for _, e := range fix {
		// Those taken are apart, so one that touches e lies near where e would go.
		i := sort.Search(len(list), func(i int) bool { return list[i].End >= e.Start })
		merged := false
		for ; i < len(list) && list[i].Start <= e.End; i++ {
			switch t := &list[i]; {
			case t.Edit == e:
				merged = true
			case t.Range == e.Range, t.Overlaps(e.Range):
				return nil, false
			}
		}
		if !merged {
			own = append(own, e)
		}
	}
	return own, true
}

// insert puts an edit in its place, after others at the same.
func insert(list []taking, t taking) []taking {
	i := sort.Search(len(list), func(i int) bool {
		return cmp.Or(cmp.Compare(list[i].Start, t.Start), cmp.Compare(list[i].End, t.End)) > 0
	})
	return slices.Insert(list, i, t)
}

// edits are the edits that were taken.
func edits(list []taking) []finding.Edit {
	out := make([]finding.Edit, len(list))
	for i := range list {
		out[i] = list[i].Edit
	}
	return out
}
