package lay_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/lay"
	"cutgate/internal/length"
)

const cm = length.Centimetre

func TestRoom(t *testing.T) {
	rows := []lay.Row{{Length: 200 * cm, Count: 2}, {Length: 50 * cm, Count: 1}}
	for _, c := range []struct {
		name  string
		bolts []length.Length
		want  bool
	}{
		{"one bolt of just enough", []length.Length{450 * cm}, true},
		{"a centimetre short", []length.Length{449 * cm}, false},
		{"enough in all, but a long row goes across an end", []length.Length{390 * cm, 60 * cm}, false},
		{"two bolts", []length.Length{200 * cm, 250 * cm}, true},
		{"none", nil, false},
	} {
		if got := lay.Room(c.bolts, rows); got != c.want {
			t.Errorf("%s: %t", c.name, got)
		}
	}
}

func TestBetween(t *testing.T) {
	for _, c := range []struct {
		name  string
		flaws []lay.Stretch
		want  []lay.Stretch
	}{
		{"no flaw", nil, []lay.Stretch{{0, 500 * cm}}},
		{"out of order and overlapping", []lay.Stretch{{300 * cm, 320 * cm}, {100 * cm, 110 * cm}, {105 * cm, 130 * cm}},
			[]lay.Stretch{{0, 100 * cm}, {130 * cm, 300 * cm}, {320 * cm, 500 * cm}}},
		{"at both ends, and beyond", []lay.Stretch{{0, 20 * cm}, {480 * cm, 600 * cm}}, []lay.Stretch{{20 * cm, 480 * cm}}},
		{"all of it", []lay.Stretch{{0, 500 * cm}}, nil},
	} {
		if diff := cmp.Diff(c.want, lay.Between(c.flaws, 500*cm)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

func TestAround(t *testing.T) {
	clean := []lay.Stretch{{0, 230 * cm}, {250 * cm, 500 * cm}}
	for _, c := range []struct {
		name  string
		rows  []lay.Row
		lead  length.Length
		reach length.Length
		all   bool
	}{
		{"before the flaw", []lay.Row{{Length: 200 * cm, Count: 1}}, 0, 200 * cm, true},
		{"past the flaw, as a lead is passed over", []lay.Row{{Length: 200 * cm, Count: 1}}, 40 * cm, 450 * cm, true},
		{"on both sides", []lay.Row{{Length: 200 * cm, Count: 2}, {Length: 25 * cm, Count: 1}}, 0, 450 * cm, true},
		{"no place for the third", []lay.Row{{Length: 200 * cm, Count: 3}}, 0, 450 * cm, false},
	} {
		if reach, all := lay.Around(clean, c.rows, c.lead); reach != c.reach || all != c.all {
			t.Errorf("%s: reaches %v, all %t", c.name, reach, all)
		}
	}
}
