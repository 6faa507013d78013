package lay

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"cutgate/internal/length"
)

// Check says what is wrong with a lay of pieces on a cloth; nil for nothing. It shares no
// work with what makes lays: each piece is laid as often as it is wanted or counted as
// left, lies inside its bolt and across no flaw, overlaps no other, starts where the
// repeat wants it, and is turned only where it may be; no item is of two lots; the cuts
// are such as the mode allows; and the lengths are those of the pieces.
func Check(cloth *Cloth, pieces []Piece, l *Lay) error {
	bolts := cloth.Bolts
	if len(bolts) == 0 {
		bolts = []Bolt{{}}
	}
	if len(l.Reach) != len(bolts) {
		return fmt.Errorf("%d reaches for %d bolts", len(l.Reach), len(bolts))
	}
	if err := checkCounts(pieces, l, len(bolts)); err != nil {
		return err
	}
	for i := range l.Pieces {
		if err := checkPlace(cloth, bolts, pieces, &l.Pieces[i]); err != nil {
			return fmt.Errorf("piece %d at %s, %s of bolt %d: %w", l.Pieces[i].Piece+1, l.Pieces[i].X, l.Pieces[i].Y, l.Pieces[i].Bolt+1, err)
		}
	}
	if err := checkLots(bolts, pieces, l); err != nil {
		return err
	}
	var sum length.Length
	for b := range bolts {
		var on []Placed
		var reach length.Length
		for _, p := range l.Pieces {
			if p.Bolt == b {
				on = append(on, p)
				reach = max(reach, p.Y+p.Length)
			}
		}
		if reach != l.Reach[b] {
			return fmt.Errorf("bolt %d is cut to %s, not %s", b+1, reach, l.Reach[b])
		}
		if reach > 0 {
			sum += reach - bolts[b].Lead
		}
		if err := checkApart(on); err != nil {
			return fmt.Errorf("bolt %d: %w", b+1, err)
		}
		if l.Mode == Rows && !inRows(on) {
			return fmt.Errorf("bolt %d is not cut in rows", b+1)
		}
		if l.Mode != Free && !comeFree(on, true) {
			return fmt.Errorf("bolt %d can't be cut from edge to edge", b+1)
		}
	}
	if sum != l.Length {
		return fmt.Errorf("the lay is %s long, not %s", sum, l.Length)
	}
	if l.Left == nil && l.Bound > l.Length {
		return fmt.Errorf("the lay is %s long, and none is said to be shorter than %s", l.Length, l.Bound)
	}
	return nil
}

func checkCounts(pieces []Piece, l *Lay, bolts int) error {
	counts := make([]int64, len(pieces))
	copy(counts, l.Left)
	for _, p := range l.Pieces {
		if p.Piece < 0 || p.Piece >= len(pieces) || p.Bolt < 0 || p.Bolt >= bolts {
			return errors.New("there is no such piece, or no such bolt")
		}
		counts[p.Piece]++
	}
	for i, n := range counts {
		if n != pieces[i].Count {
			return fmt.Errorf("there are %d of piece %d, not %d", n, i+1, pieces[i].Count)
		}
	}
	return nil
}

func checkPlace(cloth *Cloth, bolts []Bolt, pieces []Piece, at *Placed) error {
	p, b := &pieces[at.Piece], &bolts[at.Bolt]
	w, h := p.Width, p.Length
	if at.Turned {
		w, h = h, w
		if !p.Turns || cloth.Directed || cloth.Repeat > 0 {
			return errors.New("it may not be turned")
		}
	}
	switch {
	case at.Width != w || at.Length != h:
		return errors.New("it is not of its size")
	case at.X < 0 || at.X+w > cloth.Width:
		return errors.New("it does not lie on the width of the cloth")
	case at.Y < b.Lead || b.Length > 0 && at.Y+h > b.Length:
		return errors.New("it does not lie on the bolt")
	case p.Matched && cloth.Repeat > 0 && (at.Y-b.Lead-p.Anchor)%cloth.Repeat != 0:
		return errors.New("it starts at another place of the repeat")
	}
	for _, f := range b.Flaws {
		if f.From < f.To && at.Y < f.To && f.From < at.Y+h {
			return errors.New("it lies on a flaw")
		}
	}
	return nil
}

func checkLots(bolts []Bolt, pieces []Piece, l *Lay) error {
	lots := map[int]string{}
	for _, p := range l.Pieces {
		item, lot := pieces[p.Piece].Item, bolts[p.Bolt].Lot
		if was, ok := lots[item]; ok && was != lot {
			return fmt.Errorf("item %d is cut from lot %q and lot %q", item, was, lot)
		}
		lots[item] = lot
	}
	return nil
}

// checkApart says which two pieces of a bolt overlap. It goes along the bolt with the
// pieces that are cut through there.
func checkApart(on []Placed) error {
	on = slices.Clone(on)
	slices.SortFunc(on, func(a, b Placed) int { return cmp.Compare(a.Y, b.Y) })
	var open []Placed
	for _, p := range on {
		open = slices.DeleteFunc(open, func(o Placed) bool { return o.Y+o.Length <= p.Y })
		for _, o := range open {
			if o.X < p.X+p.Width && p.X < o.X+o.Width {
				return fmt.Errorf("pieces %d and %d overlap at %s, %s", o.Piece+1, p.Piece+1, p.X, p.Y)
			}
		}
		open = append(open, p)
	}
	return nil
}

// inRows reports whether pieces that start beside each other start and end together.
func inRows(on []Placed) bool {
	rows := map[length.Length]length.Length{}
	for _, p := range on {
		if l, ok := rows[p.Y]; ok && l != p.Length {
			return false
		}
		rows[p.Y] = p.Length
	}
	var end length.Length
	for _, y := range sorted(rows) {
		if y < end {
			return false
		}
		end = y + rows[y]
	}
	return true
}

func sorted(rows map[length.Length]length.Length) (list []length.Length) {
	for y := range rows {
		list = append(list, y)
	}
	slices.Sort(list)
	return list
}

// comeFree reports whether every piece comes free by cuts that go through all of what
// they cut in two, the first of them across or along.
func comeFree(on []Placed, across bool) bool {
	if len(on) < 2 {
		return true
	}
	if parts := cutUp(on, across); len(parts) > 1 {
		for _, p := range parts {
			if !comeFree(p, !across) {
				return false
			}
		}
		return true
	}
	parts := cutUp(on, !across)
	if len(parts) < 2 {
		return false
	}
	for _, p := range parts {
		if !comeFree(p, across) {
			return false
		}
	}
	return true
}

// cutUp cuts pieces apart everywhere that no piece lies in the way.
func cutUp(on []Placed, across bool) (parts [][]Placed) {
	span := func(p *Placed) (from, to length.Length) {
		if across {
			return p.Y, p.Y + p.Length
		}
		return p.X, p.X + p.Width
	}
	on = slices.Clone(on)
	slices.SortFunc(on, func(a, b Placed) int {
		x, _ := span(&a)
		y, _ := span(&b)
		return cmp.Compare(x, y)
	})
	var end length.Length
	begin := 0
	for i := range on {
		from, to := span(&on[i])
		if i > begin && from >= end {
			parts = append(parts, on[begin:i])
			begin = i
		}
		end = max(end, to)
	}
	return append(parts, on[begin:])
}
