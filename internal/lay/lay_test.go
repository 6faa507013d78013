package lay

import (
	"testing"

	"cutgate/internal/length"
)

// TestInRowsTooWide holds a piece that is wider than the bolt to a row of its
// own, whatever else has its length.
func TestInRowsTooWide(t *testing.T) {
	const in = length.Inch
	plan, tooWide := InRows(60*in, []Piece{
		{Name: "side", Width: 72 * in, Length: 80 * in, Count: 2},
		{Name: "center", Width: 60 * in, Length: 80 * in, Count: 1},
		{Name: "strip", Width: 20 * in, Length: 80 * in, Count: 2},
	})
	if tooWide == nil || tooWide.Name != "side" {
		t.Errorf("too wide is %v", tooWide)
	}
	if want := 4 * 80 * in; plan.Length != want {
		t.Errorf("got %s, want %s", plan.Length.Format(length.In, length.Nearest), want.Format(length.In, length.Nearest))
	}
}
