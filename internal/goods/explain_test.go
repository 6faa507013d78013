package goods_test

import (
	"strings"
	"testing"

	"cutgate/internal/worksheet"
)

// bath is an order whose outcomes all agree; the tests write a wrong number into
// it. The sizes are invented.
const bath = `order: T
units: in
cloths:
  duck: {width: 60, selvedge: 1/2, sold_by: 1/4 yd, ordered: 5 yd}
items:
  - item: shower curtain
    cloth: duck
    finished: {width: 84, length: 79}
    hems: {top: {turn: 1 1/2}, bottom: {turn: 3}, sides: {turn: 1/2}}
    join: {layout: center and sides, seam: flat felled, allowance: 5/8}
    cuts:
      - {piece: center, width: 60, length: 88, count: 1}
      - {piece: side, width: 14 1/4, length: 88, count: 2}
    holes: {make: grommet, count: 14, spacing: 6, from_side: 3}
`

// curtains is another, of a pair.
const curtains = `order: T
units: cm
cloths:
  face: {width: 138, selvedge: 1, sold_by: 10 cm, ordered: 12.9 m}
  back: {width: 138, selvedge: 1, sold_by: 10 cm, ordered: 12.2 m}
items:
  - item: curtain
    panels: 2
    cloth: face
    track: {width: 240, return: 8, overlap: 10}
    heading: {style: pencil pleat, fullness: 2.25, allowance: 10}
    finished: {width: 266, length: 232}
    hems: {bottom: {turn: 7.5}, sides: {turn: 3}}
    join: {seam: plain, allowance: 1.5}
    lining: {cloth: back, shorter: 2.5, narrower: 10, hem: {turn: 5}}
    flat_width: 622.5
    widths: 5
    cuts:
      - {piece: width, width: 138, length: 257, count: 5}
      - {piece: lining, cloth: back, width: 138, length: 239.5, count: 5}
`

func TestExplanations(t *testing.T) {
	loader, tables := tools(t)
	for _, c := range []struct {
		name, order string
		from, to    string // what is written wrong
		path        string // of the one thing that is said to be wrong
		corrected   string
		how         string
		slip        string // part of the slip's name; "" for none wanted
	}{
		// The finished length of 76 where all cuts and the cloth fit 79.
		{"finished length", bath, "length: 79}", "length: 76}", "items[0].finished.length", "79", "either", ""},
		{"finished width", bath, "width: 84, length: 79", "width: 48, length: 79", "items[0].finished.width", "84", "likely", "digits"},
		{"the same slip in two cuts", bath, "length: 88", "length: 85", "items[0].cuts[0].length", "88", "either", "bottom hem was counted once"},
		// 88 less a turn of 3 is 85; all cuts of the order are whole inches.
		{"the same slip, rounded up", strings.ReplaceAll(bath, "length: 79}", "length: 78 1/4}"), "length: 88", "length: 85", "items[0].cuts[0].length", "87 1/4", "either", "bottom hem was counted once"},
		{"lengths in centimeters", bath, "length: 88", "length: 223.5", "items[0].cuts[0].length", "88", "certainly", "centimeters"},
		{"counts for both", strings.ReplaceAll(strings.ReplaceAll(bath, ", ordered: 5 yd", ""), "    cloth: duck", "    quantity: 2\n    cloth: duck"), "count: 1}\n      - {piece: side, width: 14 1/4, length: 88, count: 2}",
			"count: 2}\n      - {piece: side, width: 14 1/4, length: 88, count: 4}", "items[0].cuts[0].count", "1", "certainly", "for all 2 items"},
		// An inch more both ways may be meant, so it is asked.
		{"an inch all round", bath, "width: 14 1/4, length: 88", "width: 15 1/4, length: 89", "items[0].cuts[1].width", "14 1/4", "either", "one off"},
		{"shortcut of the side", bath, "14 1/4", "13 5/8", "items[0].cuts[1].width", "14 1/4", "likely", "own two allowances"},
		{"center read wrong", bath, "center, width: 60", "center, width: 54", "items[0].cuts[0].width", "60", "certainly", ""},
		{"posts and spaces", bath, "count: 14", "count: 13", "items[0].holes.count", "14", "either", "spaces"},
		{"spaces and posts", bath, "spacing: 6", "spacing: 5 9/16", "items[0].holes.spacing", "6", "either", "divided by the number of holes"},
		{"inset", bath, "from_side: 3", "from_side: 6", "items[0].holes.from_side", "3", "either", ""},
		{"cloth rounded down", bath, "ordered: 5 yd", "ordered: 4 3/4 yd", "cloths.duck.ordered", "5 yd", "certainly", "rounded down"},
		{"overlap forgotten", curtains, "width: 266", "width: 256", "items[0].finished.width", "266", "certainly", "the overlap was left out"},
		{"for one panel", curtains, "widths: 5", "widths: 2.5", "items[0].widths", "5", "certainly", "one panel"},
		{"fullness", curtains, "fullness: 2.25", "fullness: 3", "items[0].heading.fullness", "2.25", "likely", ""},
		{"length of a pair", curtains, "length: 232", "length: 223", "items[0].finished.length", "232", "likely", "digits"},
		{"width too many, and a length for it", curtains, "widths: 5\n    cuts:\n      - {piece: width, width: 138, length: 257, count: 5}",
			"widths: 6\n    cuts:\n      - {piece: width, width: 138, length: 257, count: 6}", "items[0].widths", "5", "either", ""},
		{"one size for both", curtains, "width, width: 138, length: 257", "width, width: 257, length: 257", "items[0].cuts[0].width", "138", "certainly", ""},
		// One outcome is enough where a slip explains the choice and none the outcome.
		{"cuts alone, and digits", strings.ReplaceAll(bath, ", ordered: 5 yd", ""), "length: 79}", "length: 97}", "items[0].finished.length", "79", "likely", "digits"},
		{"a stray whole number", bath, "sides: {turn: 1/2}", "sides: {turn: 2 1/2}", "items[0].hems.sides.turn", "1/2", "likely", "stray"},
		{"the decimal place of a hem", curtains, "bottom: {turn: 7.5}", "bottom: {turn: 75}", "items[0].hems.bottom.turn", "7.5", "likely", "decimal"},
		{"a cut with its sizes swapped", curtains, "width, width: 138, length: 257", "width, width: 257, length: 138", "items[0].cuts[0].width", "138", "certainly", "swapped"},
		{"inches for centimetres", curtains, "length: 239.5", "length: 94.3", "items[0].cuts[1].length", "239.5", "certainly", "centimeters"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if s := sheetOf(t, loader, tables, c.order); len(said(s)) > 0 {
				t.Fatalf("the order is not clean: %v", said(s))
			}
			if !strings.Contains(c.order, c.from) {
				t.Fatalf("%q is not in the order", c.from)
			}
			s := sheetOf(t, loader, tables, strings.ReplaceAll(c.order, c.from, c.to))
			list := said(s)
			if len(list) != 1 {
				t.Fatalf("that is not one thing wrong: %v", list)
			}
			x := list[0]
			if c.how == "either" {
				x = among(s, x, c.path)
			}
			slip := x.slip
			if x.path != c.path || x.text != c.corrected || x.how != c.how {
				t.Errorf("%s is %s %q, not %s, %s %q", x.path, x.how, x.text, c.path, c.how, c.corrected)
			}
			switch {
			case c.slip != "" && (slip == nil || !strings.Contains(slip.Name, c.slip)):
				t.Errorf("slip %v, not %q", slip, c.slip)
			case c.slip == "" && slip != nil:
				t.Logf("slip: %s", slip.Name)
			}
		})
	}
}

// A saying is one thing that is said to be wrong: what it should be, and how sure that
// is.
type saying struct {
	path, text, how string
	slip            *worksheet.Slip
}

// said is what is said to be wrong; of several readings the first.
func said(s *worksheet.Sheet) (list []saying) {
	for _, w := range s.Wrong {
		how := "certainly"
		if w.Likely {
			how = "likely"
		}
		list = append(list, saying{s.Order.PathAt(w.At), w.Corrected, how, w.Slip})
	}
	for _, m := range s.Misread {
		list = append(list, saying{s.Order.PathAt(m.At), m.Corrected, "likely", m.Slip})
	}
	for _, d := range s.Disagreements {
		w := d.Readings[0].Writes[0]
		list = append(list, saying{s.Order.PathAt(w.Node.At), w.Text, "either", w.Slip})
	}
	return list
}

// among is the reading of the one disagreement that is about a field, or else x.
func among(s *worksheet.Sheet, x saying, path string) saying {
	for _, d := range s.Disagreements {
		for _, r := range d.Readings {
			for _, w := range r.Writes {
				if s.Order.PathAt(w.Node.At) == path {
					return saying{path, w.Text, x.how, w.Slip}
				}
			}
		}
	}
	return x
}
