package rule

import "testing"

func TestSaid(t *testing.T) {
	for _, c := range []struct{ when, want string }{
		{"seated, height, {drop} > {lap limit}, {drop} < {height} × 4 ÷ 5", "people sit at it and the drop is more than the longest drop that stays out of laps and less than 4/5 of the height"},
		{"{rings} < 2", "the number of rings is less than 2"},
		{"style: Oxford/one strip, {flange} > {flange most}", "the style is Oxford or one strip and the flange is more than the largest flange"},
		{"2 × {allowance} ≥ {finished width}", "twice the seam allowance is at least the finished width"},
		{"style: gathered, {fullness made} < 17 ÷ 10", "the style is gathered and the fullness made is less than 1.7"},
		{"shape: oval, no oval", "the shape is oval and the oval is not stated"},
		{"style: box pleat, no pleats", "the style is box pleat and no number of pleats is stated"},
		{"corners: square, {drop} ≤ {height} ÷ 2", "the corners are square and the drop is no more than half the height"},
		{"shrinks apart, {shrinks apart} > 3 ÷ 100", "the difference in shrinkage is more than 3%"},
		{"tuck, {tuck} > 0, {tuck} < {least tuck}", "the tuck is more than 0 and less than the least tuck"},
		{"curtain length, {height} > {depth most} + {wrap least}", "the curtain length is known and the height is more than the largest depth plus the least wrap"},
		{"layout: one piece, face selvedge, {whole across} > {face washed width} - 2 × {face selvedge}", "it is in one piece and the whole width to cut is more than the cloth's width less twice the cloth's selvedge"},
	} {
		if got := said(c.when); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.when, got, c.want)
		}
	}
}
