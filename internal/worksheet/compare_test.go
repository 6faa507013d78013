package worksheet

import (
	"testing"

	"cutgate/internal/length"
)

// TestByHand holds how far people may round: a length along the cloth only up, as cloth
// that is cut short is spoilt.
func TestByHand(t *testing.T) {
	const right = 60 * length.Inch
	step := length.Inch / 16
	for _, c := range []struct {
		what string
		hand Hand
		off  length.Length
		want Agreement

		marked length.Length
	}{
		{"a length rounded up to the eighth", Run, 3 * length.Inch / 32, ByHand, 0},
		{"and beyond it", Run, length.Inch / 4, Differs, 0},
		{"a length rounded down", Run, -3 * length.Inch / 32, Differs, 0},
		{"a width rounded down", Size, -3 * length.Inch / 32, ByHand, 0},
		{"a flat width to the quarter", Loose, length.Inch / 4, ByHand, 0},
		{"a length up to the quarter that all are rounded to", Run, length.Inch/4 - length.Inch/16, Differs, 0},
		{"and where the right one lies off it", Run, 3 * length.Inch / 16, ByHand, length.Inch / 4},
		{"and down", Run, -3 * length.Inch / 16, Differs, length.Inch / 4},
		{"up to the whole inch that all are rounded to", Run, 3 * length.Inch / 4, ByHand, length.Inch},
		{"but no width", Size, 3 * length.Inch / 8, Differs, length.Inch},
		{"a count's own", Counted, length.Inch / 32, Differs, 0},
	} {
		stated := right + c.off
		if c.marked > 0 {
			stated = right
		}
		s := &Sheet{Unit: length.In, marked: c.marked}
		if got := s.byHand(stated, stated-c.off, step, c.hand, false); got != c.want {
			t.Errorf("%s: %d, not %d", c.what, got, c.want)
		}
	}
}
