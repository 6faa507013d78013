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
	}{
		{"a length rounded up to the eighth", Run, 3 * length.Inch / 32, ByHand},
		{"and beyond it", Run, length.Inch / 4, Differs},
		{"a length rounded down", Run, -3 * length.Inch / 32, Differs},
		{"a width rounded down", Size, -3 * length.Inch / 32, ByHand},
		{"a flat width to the quarter", Loose, length.Inch / 4, ByHand},
		{"a count's own", Counted, length.Inch / 32, Differs},
	} {
		s := &Sheet{Unit: length.In}
		if got := s.byHand(right+c.off, right, step, c.hand); got != c.want {
			t.Errorf("%s: %d, not %d", c.what, got, c.want)
		}
	}
}
