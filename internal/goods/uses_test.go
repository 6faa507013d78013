package goods_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/goods"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// TestUses wants what formulas have each choice of an order as a term, by what
// the order says and by what trade it is.
func TestUses(t *testing.T) {
	loader, tables := tools(t)
	o := loader.Orders(&source.File{Name: "t.yaml", Text: `order: T
units: cm
cloths:
  face: {width: 138, repeat: {length: 32}}
  back: {width: 140}
items:
  - item: curtain
    cloth: face
    track: {width: 240, return: 8, overlap: 10, above_floor: 232}
    hang: {to: floor, clearance: 1.2}
    heading: {style: pencil pleat, fullness: 2.25, allowance: 10, hook_drop: 4}
    hems: {bottom: {turn: 7.5, folds: 2}, sides: {turn: 3, folds: 2}}
    join: {seam: plain, allowance: 1.5}
    lining: {cloth: back, shorter: 2.5, hem: {turn: 5}}
    notes: read it
  - item: napkin
    cloth: other
    finished: {width: 50, length: 50}
    hem: {turn: 1}
`}, load.YAML, load.Options{})[0]
	s := worksheet.Work(o, tables, goods.All())
	for path, want := range map[string]string{
		"items track width":         "finished width",
		"items track return":        "finished width",
		"items hang clearance":      "finished length",
		"items heading fullness":    "flat width",
		"items heading allowance":   "cut before the repeat",
		"items hems bottom turn":    "bottom hem takes",
		"items hems sides folds":    "sides hem takes",
		"items join allowance":      "usable width, widths before rounding, widths in a panel, panel width, flat, lining usable width, lining widths",
		"items lining shorter":      "lining cut length",
		"items lining hem turn":     "lining hem takes",
		"items notes":               "",
		"items heading style":       "",
		"cloths face width":         "usable width, panel width, flat, width cut width",
		"cloths back width":         "lining usable width, lining cut width",
		"cloths face repeat length": "repeats in a cut, cut length",
		"items track above_floor":   "finished length, foot to floor",
	} {
		n := o.Root
		for name := range strings.FieldsSeq(path) {
			if n = n.Kid(name); n.Form == order.List {
				n = &n.Kids[0]
			}
		}
		var got []string
		for _, q := range s.Uses(0, n) {
			got = append(got, strings.TrimSpace(q.Of+" "+string(q.Name)))
		}
		if d := cmp.Diff(want, strings.Join(got, ", ")); d != "" {
			t.Errorf("%s: (-want +got)\n%s", path, d)
		}
		if len(s.Uses(1, n)) > 0 || len(s.Uses(2, n)) > 0 || len(s.Uses(-1, n)) > 0 {
			t.Errorf("%s is of another item too", path)
		}
	}
	if s.Uses(0, nil) != nil {
		t.Error("nothing goes into something")
	}
}
