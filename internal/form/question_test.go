package form

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// line is a field on one line, as far as it says anything beyond its name.
func line(f Question) string {
	s := f.Name
	if f.Need {
		s += "!"
	}
	if f.Outcome {
		s += " null"
	}
	return fmt.Sprintf("%s %d: %s (%s) %s", s, f.Holds, f.Wanted, strings.Join(f.Words, ", "), f.Says)
}

// TestQuestions compares with what schema/order.cue says of a few places.
func TestQuestions(t *testing.T) {
	l, err := New()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		names, kind string
		want        []string
	}{
		{"", "", []string{
			"order! 0: a name or a few words () the order's number",
			"client 0: a name or a few words () ",
			"due 0: a date such as 2026-12-18 () ",
			"units! 0: one of in, cm, mm, m, ft, yd (in, cm, mm, m, ft, yd) what a bare number means",
			"market 0: one of US, EU, UK, AU, CA (US, EU, UK, AU, CA) whose safety rules apply",
			"use 0: one of home, public, nursery (home, public, nursery) home unless stated",
			"notes 0: a name or a few words () ",
			"cloths! 2: {name: {width: …}} () ",
			"measured 2: {name: {width: …, repeat: …}} () ",
			"items! 3: a list of items () ",
			"waive 3: a list of waivers () ",
		}},
		{"cloths kelp repeat", "", []string{
			"length 0: a measurement () along the cloth", "width 0: a measurement () across it",
			"match 0: one of straight, half drop (straight, half drop) ",
		}},
		{"cloths kelp bolts", "", []string{"lot 0: a name or a few words () ", "length! 0: a measurement () "}},
		{"items tub", "shower curtain", []string{
			"rim 0: a measurement () above the floor", "inside 0: true or false (true, false) hangs inside the tub",
		}},
		{"items tub", "curtain", nil},
		{"items tub", "", nil},
		{"items cuts", "", []string{
			"piece! 0: one of piece, center, side, width, lining, interlining, front, back, plate, boxing, front boxing, side boxing, zip strip, piping strip, piping square, circle, half circle, tube, end, end strip, body, cuff, strip, deck, skirt, tab, tie, tie-back, long border, short border, cover, wadding, interfacing, liner, band, band center, band side, lining center, lining side, interlining center, interlining side, back center, back side (piece, center, side, width, lining, interlining, front, back, plate, boxing, front boxing, side boxing, zip strip, piping strip, piping square, circle, half circle, tube, end, end strip, body, cuff, strip, deck, skirt, tab, tie, tie-back, long border, short border, cover, wadding, interfacing, liner, band, band center, band side, lining center, lining side, interlining center, interlining side, back center, back side) ",
			"cloth 0: a name or a few words () ", "width null 0: a measurement () across the cloth", "length null 0: a measurement () along the cloth", "count null 0: a whole number () for one of the item",
		}},
		{"items lining hem turn", "curtain", nil},
		{"cloths", "", nil},
		{"nothing", "", nil},
	} {
		var got []string
		for _, f := range l.Fields(strings.Fields(c.names), c.kind) {
			got = append(got, line(f))
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%q %q: (-want +got)\n%s", c.names, c.kind, d)
		}
	}
}

// TestQuestionsOfItems gives the kinds to choose from where none is given, and the
// fields of one where one is.
func TestQuestionsOfItems(t *testing.T) {
	l, err := New()
	if err != nil {
		t.Fatal(err)
	}
	names := func(kind string) (list []string) {
		for _, f := range l.Fields([]string{"items"}, kind) {
			list = append(list, f.Name)
		}
		return list
	}
	if d := cmp.Diff([]string{"item", "id", "room", "notes", "quantity", "cloth", "press", "near_heat", "cuts", "waive"}, names("")); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]string{"id", "room", "notes", "quantity", "cloth", "press", "near_heat", "cuts", "waive", "hem", "made", "allowance", "border", "gap", "back", "wadding", "item", "finished"}, names("napkin")); d != "" {
		t.Error(d)
	}
	for _, f := range l.Fields([]string{"items"}, "napkin") {
		if f.Name == "item" && len(f.Words) != 15 { // the kinds of #Item
			t.Errorf("an item is one of %q", f.Words)
		}
	}
}
