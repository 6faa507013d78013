package goods_test

import (
	"slices"
	"testing"

	"cutgate/internal/diagnose"
	"cutgate/internal/length"
	"cutgate/internal/worksheet"
)

// Published boxed cushions, of testdata/worked-examples-goods.json: the order that
// their inputs make, and the sizes that they print.
func TestBoxedCushions(t *testing.T) {
	loader, tables := tools(t)
	for _, c := range []struct {
		id, pad, more string
		want          map[string]string // by the name of the piece and of its size
	}{
		{"CB-01", "{width: 20, length: 20, depth: 4}", "    boxing: {ease: 3/4}\n    zip: {round_corner: 5}\n",
			map[string]string{"boxing cut length": "4 1/4 in", "zip strip cut length": "2 7/8 in", "zip length": "30 in"}},
		{"CB-02", "{width: 19, length: 23, depth: 4}", "    zip: {strip_allowance: 1/2}\n",
			map[string]string{"plate cut width": "20 in", "plate cut length": "24 in", "boxing cut length": "5 in", "zip strip cut length": "3 in"}},
		{"CB-06", "{width: 11, length: 15, depth: 3}", "",
			map[string]string{"plate cut width": "12 in", "plate cut length": "16 in", "boxing cut length": "4 in"}},
		{"CU-01", "{width: 12, length: 12, depth: 4}", "    zip: {round_corner: 1 1/2}\n",
			map[string]string{"plate cut width": "13 in", "perimeter": "48 in", "zip strip cut width": "16 in", "boxing cut width": "34 in"}},
	} {
		t.Run(c.id, func(t *testing.T) {
			s := sheetOf(t, loader, tables, "order: T\nunits: in\ncloths:\n  face: {width: 70}\nitems:\n  - item: cushion cover\n    cloth: face\n    style: boxed\n    pad: "+c.pad+"\n"+c.more)
			got := map[string]string{}
			for _, q := range s.All {
				name := string(q.Name)
				if q.Of != "" {
					name = q.Of + " " + name
				}
				got[name] = q.Value.Format(s.Unit, q.Round)
			}
			for name, want := range c.want {
				if got[name] != want {
					t.Errorf("%s is %q, published %s", name, got[name], want)
				}
			}
		})
	}
}

// The piping of a cushion of 46 cm: two rounds of CU-02, each with 5 cm for its join.
func TestPipingOfTwoRounds(t *testing.T) {
	loader, tables := tools(t)
	s := sheetOf(t, loader, tables, "order: T\nunits: cm\ncloths:\n  face: {width: 140}\nitems:\n  - item: cushion cover\n    cloth: face\n    style: boxed\n    pad: {width: 46, length: 46, depth: 8}\n    piping: {strip: 5}\n")
	if q := s.Items[0].Get("piping length"); q == nil || q.Value.Length() != 2*1890*length.Millimetre {
		t.Errorf("two rounds take %v, twice the published 189 cm", q)
	}
}

// readings are the outcomes of an item that are called wrong, and what else values that
// disagree are said to be.
func readings(t *testing.T, item string) (list []string) {
	t.Helper()
	loader, tables := tools(t)
	s := sheetOf(t, loader, tables, "order: T\n"+item)
	diagnose.Order(s)
	for _, w := range s.Wrong {
		list = append(list, w.Quantity.Called()+" "+w.Corrected)
	}
	for _, d := range s.Disagreements {
		for _, r := range d.Readings {
			list = append(list, r.Writes[0].Name+" "+r.Writes[0].Text)
		}
	}
	return list
}

// CK-18 takes the piping round the cut edge: four times 36 cm and 5 cm. The seam line is
// 12 cm shorter; the longer one does as well. In words the page has four times the round.
func TestPipingAtTheCutEdge(t *testing.T) {
	const piped = "units: cm\ncloths:\n  face: {width: 140}\nitems:\n  - item: cushion cover\n    cloth: face\n    style: piped\n    pad: {width: 35, length: 35}\n    ease: 2\n    piping: {strip: 4, length: "
	if got := readings(t, piped+"149}\n"); len(got) > 0 {
		t.Errorf("149 cm of piping: %q", got)
	}
	if got := readings(t, piped+"581}\n"); !slices.Contains(got, "piping length 137") {
		t.Errorf("581 cm of piping: %q", got)
	}
}

// CK-09 prints an overlap of 5 in and backs of 14 in, which lap 10: either is wrong.
func TestBacksThatLapTwice(t *testing.T) {
	got := readings(t, "units: in\ncloths:\n  face: {width: 54}\nitems:\n  - item: cushion cover\n    cloth: face\n    style: knife edge\n    pad: {width: 16, length: 16}\n    closure: {kind: envelope, overlap: 5, hem: {turn: 1/2, folds: 1}}\n    cuts:\n      - {piece: back, width: 17, length: 14, count: 2}\n")
	if len(got) < 2 || got[0] != "cut length of the back 11 1/2" || got[1] != "overlap 10" {
		t.Errorf("backs of 14 in that lap 5 are read as %q", got)
	}
}

// Without an overlap on the order the backs say it: CK-10, backs of 34 cm with hems of
// 3 cm behind a front of 46 cm lap 16.
func TestOverlapOfStatedBacks(t *testing.T) {
	loader, tables := tools(t)
	s := sheetOf(t, loader, tables, "order: T\nunits: cm\ncloths:\n  face: {width: 140}\nitems:\n  - item: cushion cover\n    cloth: face\n    style: knife edge\n    pad: {width: 45, length: 45}\n    ease: 2\n    closure: {kind: envelope, overlap: , hem: {turn: 3, folds: 1}}\n    cuts:\n      - {piece: back, width: 46, length: 34, count: 2}\n")
	if got := s.Items[0].Get("overlap"); got == nil || got.Value.Length() != 160*length.Millimetre {
		t.Errorf("the backs lap %v, published 16 cm", got)
	}
}

// A square for piping is worked from the strip as it is round the cord; one for the strip
// as it is cut is a little larger, and as right. A smaller one is not.
func TestPipingSquares(t *testing.T) {
	loader, tables := tools(t)
	const cushion = "order: T\nunits: in\ncloths:\n  c: {width: 54, repeat: {length: 5}}\nitems:\n  - item: cushion cover\n    cloth: c\n    style: boxed\n    pad: {width: 24, length: 21, depth: 4}\n    allowance: 5/8\n    fit: firm\n" +
		"    boxing: {layout: four sides}\n    piping: {cord: 3/16, allowance: 5/8"
	for side, right := range map[string]bool{"19 1/4": false, "19 5/8": true, "19 3/4": true, "19 7/8": true, "20": true, "20 1/2": false} {
		s := sheetOf(t, loader, tables, cushion+", bias_square: "+side+"}\n    cuts: [{piece: piping square, width: "+side+", length: "+side+", count: 1}]\n")
		for _, of := range s.Stated {
			if got := of.Agrees != worksheet.Differs; of.Value.Sort == worksheet.Length && got != right {
				t.Errorf("a square of %s for %s: agrees %v, want %v", side, of.Quantity.Value.Format(s.Unit, of.Quantity.Round), got, right)
			}
		}
	}
}
