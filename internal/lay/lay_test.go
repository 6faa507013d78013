package lay

import (
	"maps"
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

// TestFullest holds the widths that pieces make up side by side against trying every
// choice of them.
func TestFullest(t *testing.T) {
	d := dice(1)
	for range 300 {
		unit := 1 + int64(d.below(3))
		p := &problem{width: unit + int64(d.below(200))}
		for i := range 1 + d.below(4) {
			p.kinds = append(p.kinds, kind{w: unit * (1 + int64(d.below(int(p.width/unit)))), h: 1, stock: int32(i)})
			p.count = append(p.count, int32(d.below(4)))
		}
		b := &brancher{search: &search{builder: newBuilder(p)}, left: p.count}
		b.measure()
		b.addUp()
		made := map[int64]bool{0: true}
		for i, k := range p.kinds {
			for range p.count[i] {
				for w := range maps.Clone(made) {
					made[w+k.w] = true
				}
			}
		}
		want := int64(0)
		for w := range p.width + 1 {
			if made[w] {
				want = w
			}
			if got := b.fullest(w); got != want {
				t.Fatalf("%v, %v: of %d at most %d is taken, not %d", p.kinds, p.count, w, want, got)
			}
		}
	}
}
