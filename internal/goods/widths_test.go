package goods_test

import (
	"fmt"
	"testing"

	"cutgate/internal/length"
	"cutgate/internal/worksheet"
)

// Widths that are joined side by side: two of 54 in with 5/8 in allowances come to
// 106 3/4 in, as their outer edges are not joined; and which number of them is the
// maker's choice.
func TestWidthsJoined(t *testing.T) {
	loader, tables := tools(t)
	for _, c := range []struct {
		flat, more, widths string
		agrees             worksheet.Agreement
	}{
		{"54", "", "1", worksheet.Exactly},
		{"54 1/16", "", "2", worksheet.Exactly},
		{"106 3/4", "", "2", worksheet.Exactly},
		{"106 13/16", "", "3", worksheet.Exactly},
		{"106 13/16", "widths: 2.5", "2.5", worksheet.Exactly},
		{"106 13/16", "widths: 2", "2", worksheet.Exactly}, // a little scant
		{"114", "widths: 2", "3", worksheet.Differs},
		{"130", "widths: 2.5", "2.5", worksheet.Exactly},
		{"134", "widths: 2.5", "2.5", worksheet.Exactly}, // a little scant
		{"140", "widths: 2.5", "3", worksheet.Differs},
		{"130", "widths: 2.5\n    cuts: [{piece: width, count: 2}]", "3", worksheet.Differs},
	} {
		s := sheetOf(t, loader, tables, fmt.Sprintf(`order: T
units: in
cloths: {c: {width: 54}}
items:
  - item: valance
    cloth: c
    board: {width: %s, return: 0}
    heading: {style: gathered, fullness: 1}
    finished: {length: 12}
    hems: {sides: {turn: 0}}
    join: {allowance: 5/8}
    %s
`, c.flat, c.more))
		want, err := length.ParseRatio(c.widths)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Items[0].Ratio(string(worksheet.Widths)); got.Cmp(want) != 0 {
			t.Errorf("%s in of cloth, %q: %s widths, not %s", c.flat, c.more, got, c.widths)
		}
		for _, of := range s.Stated {
			if of.Quantity != nil && of.Quantity.Name == worksheet.Widths && of.Agrees != c.agrees {
				t.Errorf("%s in of cloth, %q: agrees %v, not %v", c.flat, c.more, of.Agrees, c.agrees)
			}
		}
	}
}
