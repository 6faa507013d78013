// Package lay is the lay plan: which piece lies where on the bolts of a cloth, how much
// of them that takes, and a length that no lay is shorter than. It knows rectangles and
// bolts, not orders.
//
// # Law
//
// Lengths are exact, and the same pieces, cloth and options give the same lay on every
// machine: the search counts its steps, and no clock has a say in it. Every lay is held
// against a check that shares no work with what made it.
package lay

import (
	"cmp"
	"slices"
	"sort"

	"cutgate/internal/length"
)

// A Piece is a rectangle to cut, with its grain down the bolt.
type Piece struct {
	Name   string
	Width  length.Length // across the bolt
	Length length.Length // down the bolt
	Count  int64

	Item    int           // which one it is for: the pieces of one are never from two dye lots
	Matched bool          // it starts at a place of the repeat
	Anchor  length.Length // that place
	Turns   bool          // it may be turned, where the cloth allows
}

// A Row is pieces of one length, side by side across the bolt. Rows alike are
// one Row with a Count.
type Row struct {
	Pieces []Piece // each with its count in one row
	Length length.Length
	Count  int64
}

// A Plan is rows stacked down a bolt.
type Plan struct {
	Rows   []Row
	Length length.Length // of bolt used
}

// InRows lays pieces of one length side by side across the usable width, wider
// pieces first, and stacks the rows down the bolt. It reports the first piece
// that is wider than the bolt, if any, and then lays it in rows of its own. The
// rows of many equal pieces are counted, not listed, so the cost is that of the
// number of sizes.
func InRows(usable length.Length, pieces []Piece) (plan Plan, tooWide *Piece) {
	left := slices.Clone(pieces)
	slices.SortStableFunc(left, longestFirst)
	for i := range left {
		if left[i].Width > usable && tooWide == nil {
			tooWide = &left[i]
		}
	}
	for i := range left {
		for left[i].Count > 0 {
			row := fill(usable, left[i:], nil)
			plan.Rows = append(plan.Rows, row)
			plan.Length += row.Length.Mul(row.Count)
		}
	}
	return plan, tooWide
}

// longestFirst is the order in which pieces are laid in rows: of one length the widest first.
func longestFirst(a, b Piece) int {
	return cmp.Or(cmp.Compare(b.Length, a.Length), cmp.Compare(b.Width, a.Width))
}

// LengthInRows is the bolt used by the plan that [InRows] makes, and whether a piece is wider
// than the bolt. It uses the pieces up.
func LengthInRows(usable length.Length, pieces []Piece) (sum length.Length, tooWide bool) {
	slices.SortStableFunc(pieces, longestFirst)
	tooWide = slices.ContainsFunc(pieces, func(p Piece) bool { return p.Width > usable })
	var room [8]Piece
	for i := range pieces {
		for pieces[i].Count > 0 {
			row := fill(usable, pieces[i:], room[:])
			sum += row.Length.Mul(row.Count)
		}
	}
	return sum, tooWide
}

// fill makes the next row from the first of the pieces and as many others of
// its length as fit beside it, as often as the pieces last, and takes them. Its pieces are
// put into room as far as there is any.
func fill(usable length.Length, pieces, room []Piece) Row {
	row := Row{Length: pieces[0].Length, Pieces: room[:0]}
	left, times := usable, int64(0)
	var few [8]int
	of := few[:0] // the pieces that are in the row
	for i := 0; i < len(pieces) && pieces[i].Length == row.Length; i++ {
		p := &pieces[i]
		if len(row.Pieces) > 0 && p.Width > left && p.Width > 0 { // the next that is not too wide
			i += sort.Search(len(pieces)-i, func(k int) bool {
				q := &pieces[i+k]
				return q.Length != row.Length || q.Width <= left || q.Width <= 0
			}) - 1
			continue
		}
		if p.Count == 0 {
			continue
		}
		fit := int64(1)
		if len(row.Pieces) > 0 || p.Width <= left {
			fit = p.Count
			if p.Width > 0 {
				fit = min(fit, length.FloorDiv(left, p.Width))
			}
		}
		left -= p.Width.Mul(fit)
		one := *p
		one.Count = fit
		row.Pieces, of = append(row.Pieces, one), append(of, i)
		if n := p.Count / fit; times == 0 || n < times {
			times = n
		}
	}
	row.Count = times
	for i, one := range row.Pieces {
		pieces[of[i]].Count -= one.Count * times
	}
	return row
}
