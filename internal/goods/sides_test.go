package goods_test

import (
	"strings"
	"testing"

	"cutgate/internal/worksheet"
)

// TestSidesAcross looks whether one width of a pattern that runs across has both sides of a duvet
// cover where they match. By hand, of 138 cm: the center's seam lines are 134.8 cm apart, the left
// one 1.5 cm from the edge or up to 1.7. A side is 34.1 cm beyond its seam line and 1.5 cm before
// it. Of a repeat of 68 cm the left side's seam line lies 69.5 cm to 69.7 cm from the edge, and the
// right one's 0.3 cm, where the side has no room, or 68.3 cm to 68.5 cm: both would have the same
// cloth. Of a repeat of 46 cm the left one lies at 47.6 cm, and the right one at 90.4 cm; of a
// repeat of 2 cm they can lie anywhere.
func TestSidesAcross(t *testing.T) {
	loader, tables := tools(t)
	const order = `order: T
units: cm
cloths: {c: {width: 138, selvedge: 1.5, repeat: {length: 46, width: 68}}, s: {width: 240}}
items:
  - {item: duvet cover, cloth: c, finished: {width: 200, length: 200}, allowance: 1.5, opening: {turn: 3, folds: 2}, join: {layout: center and sides, allowance: 1.5}, back: {cloth: s}}
`
	for _, c := range []struct {
		from, to string
		apart    bool
	}{
		{"", "", true},
		{"width: 68", "width: 46", false},
		{"width: 68", "width: 2", false},
		{", width: 68", "", false},
		{"width: 68}", "width: 68}, shrinks: {width: 1}", false}, // where it lies is not known
	} {
		s := sheetOf(t, loader, tables, strings.Replace(order, c.from, c.to, 1))
		if apart := s.Items[0].Has("side across"); apart != c.apart {
			t.Errorf("%q: each side of its own width: %v", c.to, apart)
		}
	}
	for _, widths := range []string{"2", "3"} { // one for both sides, or each its own
		s := sheetOf(t, loader, tables, strings.Replace(order, "allowance: 1.5, opening", "widths: "+widths+", allowance: 1.5, opening", 1))
		if s.Disagreements != nil || len(s.Misread) > 0 {
			t.Errorf("%s widths: %+v %+v", widths, s.Disagreements, s.Misread)
		}
		for i := range s.Stated {
			if s.Stated[i].Agrees == worksheet.Differs {
				t.Errorf("%s widths differ", widths)
			}
		}
	}
}
