package lay

import (
	"maps"
	"slices"
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

// A lay made from another is the one that its order makes by itself, whatever was moved.
func TestRefill(t *testing.T) {
	d := dice(1)
	for range 500 {
		p := &problem{width: 10 + int64(d.below(10)), edges: d.below(3) == 0}
		if d.below(3) == 0 {
			p.repeat, p.anchors = 5, []int64{0, 2}
		}
		for range 2 + d.below(12) {
			k := kind{w: 1 + int64(d.below(10)), h: 1 + int64(d.below(8)), stock: int32(len(p.count)), class: int32(d.below(len(p.anchors) + 1))}
			n := 1 + d.below(3)
			p.count, p.pieces, p.area = append(p.count, int32(n)), p.pieces+int64(n), p.area+k.w*k.h*int64(n)
			p.kinds = append(p.kinds, k)
			if k.class == 0 && d.below(4) == 0 {
				k.w, k.h = k.h, k.w
				p.kinds = append(p.kinds, k)
			}
		}
		high := 1 + p.area/p.width
		on := []stretch{{to: high/2 + 1}, {from: high, to: high*2 + int64(d.below(5)), origin: 0}}
		moved, fresh := newBuilder(p), newBuilder(p)
		moved.every = 1 + d.below(3)
		moved.plain = d.below(4) == 0
		fresh.plain = moved.plain
		order := moved.orders()[0]
		moved.fill(order, on, 1<<60)
		for range 40 {
			was := slices.Clone(order)
			i, j := d.below(len(order)), d.below(len(order))
			earlier, later := exchange(order, i, j, d.below(8))
			most := int64(d.below(int(p.area)))
			got, ok := moved.refill(order, earlier, later, most)
			want, wantOK := fresh.fill(order, on, most)
			if ok != wantOK || ok && got != want {
				t.Fatalf("%d unplaced, %v; by itself the order leaves %d, %v", got, ok, want, wantOK)
			}
			if !ok || d.below(3) == 0 {
				copy(order, was)
				continue
			}
			moved.accept()
			for i := range fresh.kept.steps {
				if moved.kept.steps[i].put != fresh.kept.steps[i].put {
					t.Fatalf("step %d is %v; by itself it is %v", i, moved.kept.steps[i].put, fresh.kept.steps[i].put)
				}
			}
		}
	}
}
