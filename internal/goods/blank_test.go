package goods_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/diagnose"
	"cutgate/internal/fill"
	"cutgate/internal/goods"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

func TestBlanks(t *testing.T) {
	loader, tables := tools(t)
	head := "order: T\nunits: in\ncloths:\n  duck: {width: 60, selvedge: 1/2, sold_by: 1/4 yd, ordered: 5 yd}\nitems:\n"
	metric := "order: T\nunits: cm\ncloths:\n  face: {width: 138, selvedge: 1, weight: 300 g/m2, fiber: {cotton: 100}}\n  back: {width: 138}\nitems:\n"
	curtain := "  - item: curtain\n    cloth: face\n    hems: {}\n"
	bathItem := "  - item: shower curtain\n    cloth: duck\n    finished: {width: 84, length: 79}\n    hems: {bottom: {turn: 3, allowance: 6}}\n    join: {layout: center and sides, seam: flat felled, allowance: 5/8}\n    widths: 3\n"
	for _, c := range []struct {
		name, order string
		want        string // block and field with the value; a * where the field stands there blank
	}{
		{"nothing", bath, "top allowance 3, bottom allowance 6, sides allowance 1, - widths 3"},
		{"cuts", head + bathItem + "    cuts:\n      - {piece: center, width: , length: 88}\n      - {piece: side}\n",
			""},
		{"a wrong one beside a blank", head + bathItem + "    cuts: [{piece: center, width: 60, length: 80, count: }]\n", ""},
		{"two cuts of one piece", head + bathItem + "    cuts: [{piece: side, count: 1}, {piece: side, length: 89, count: }]\n",
			"- width 14 1/4, - length 89, - width 14 1/4"},
		{"a piece that is not cut", head + bathItem + "    cuts: [{piece: tab}]\n", ""},
		{"holes", head + bathItem + "    holes: {make: buttonhole, hook: 1/4, count: null}\n", "holes count* 14, holes spacing 6, holes slit 3/8"},
		{"holes by their count", head + bathItem + "    holes: {make: grommet, count: 13}\n", "holes spacing 6 1/2"},
		{"a misspelt name", head + bathItem + "    holes: {make: grommet, count: 13, spacin: 6 1/2}\n", ""},
		{"what could not be read", head + bathItem + "    holes: {make: grommet, count: 13, spacing: six}\n", ""},
		{"a group in the place of a value", head + bathItem + "    holes: {make: grommet, count: 13, spacing: {in: 6}}\n", ""},
		{"cloth to buy", strings.Replace(head, "ordered: 5 yd", "ordered: ", 1) + bathItem, "duck ordered* 5 yd"},
		{"cloth to buy, left out", strings.Replace(head, ", sold_by: 1/4 yd, ordered: 5 yd", "", 1) + bathItem, "duck ordered 5 yd"},
		{"cloth sold in metres", strings.Replace(head, "sold_by: 1/4 yd, ordered: 5 yd", "sold_by: 10 cm", 1) + bathItem, "duck ordered 4.6 m"},
		{"cloth sold by odd lengths", strings.Replace(head, "sold_by: 1/4 yd, ordered: 5 yd", "sold_by: 7 in", 1) + bathItem, "duck ordered 5 yd 2 in"},
		{"a block behind an alias", head + strings.Replace(bathItem, "  - item", "  - &b\n    item", 1) + "  - *b\n", ""},
		{"finished sizes come alone", metric + curtain + "    track: {width: 240, above_floor: 230}\n    hang: {to: floor, clearance: 1}\n    heading: {style: pencil pleat, hook_drop: 4}\n    finished: {width: }\n",
			"finished width* 240, finished length 233"},
		{"a curtain", metric + strings.Replace(curtain, "{}", "{sides: {turn: 2.5}}", 1) + "    heading: {style: pencil pleat, fullness: 2, allowance: 8}\n    finished: {width: 240, length: 200}\n    lining: {cloth: back, hem: {turn: 5}}\n    interlining: {cloth: back}\n    press: {}\n",
			"press setting 3 dots, sides allowance 5, - flat_width 500, - widths 4, hem allowance 10, lining widths 4, interlining widths 4, face ordered 9.2 m, back ordered 16.3 m"},
		{"pleats", metric + curtain + "    heading: {style: pinch pleat, fullness: 2.5, pleats: }\n    finished: {width: 240, length: 200}\n    widths: 5\n",
			"- flat_width 632, heading pleats* 11, heading spacing 12, heading take_up 18.6, - hanging_mass 4.97 kg, face ordered 12 m"},
		{"tabs", metric + curtain + "    panels: 1\n    heading: {style: tab, fullness: 1.5, tab_width: 5}\n    finished: {width: 150, length: 200}\n    widths: 2\n",
			"- flat_width 241, heading tabs 12, heading gap 18, - hanging_mass 1.97 kg, face ordered 5.1 m"},
		{"a pocket", metric + curtain + "    track: {width: 150, diameter: 3}\n    heading: {style: rod pocket, fullness: 2}\n    finished: {width: 150, length: 200}\n    widths: 3\n",
			"heading pocket 5.4"},
		{"a choice that could not be read", strings.Replace(curtains, "widths: 5\n    cuts:", "widths:\n    cuts:", 1), "bottom allowance 15, sides allowance 6, - widths* 5, hem allowance 10, lining widths 5"},
		{"its width too", strings.Replace(strings.Replace(curtains, "widths: 5\n    cuts:", "widths:\n    cuts:", 1), "overlap: 10", "overlap: ten", 1),
			"bottom allowance 15, sides allowance 6, hem allowance 10"},
		{"a misread choice", strings.Replace(bath, "length: 79", "length: 97", 1), ""},
		{"no order", "[", ""},
	} {
		o := loader.Orders(&source.File{Name: "t.yaml", Text: c.order}, load.YAML, load.Options{})[0]
		s := worksheet.Work(o, tables, goods.All())
		diagnose.Order(s)
		var got []string
		for _, b := range fill.Blanks(s) {
			name := b.In.Name
			if name == "" {
				name = "-"
			}
			mark := ""
			if b.Node != nil {
				mark = "*"
			}
			got = append(got, name+" "+b.Field+mark+" "+b.Text)
		}
		if d := cmp.Diff(c.want, strings.Join(got, ", ")); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
	}
}
