package ticket

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/worksheet"
)

// cut lists the pieces: how many in all, their sizes, and the cloth.
func (t *ticket) cut(it *worksheet.Item, patterns []worksheet.Pattern) {
	label := "cut"
	row := func(p *worksheet.Piece, more string) {
		text := p.Name
		if p.Count != nil {
			t.told[p.Count] = true
			each := p.Count.Value.N
			all := each * it.Quantity * t.times
			text = worksheet.Many(all, p.AsCounted())
			if all > each {
				text += " (" + strconv.FormatInt(each, 10) + " each)"
			}
		}
		if width, along := t.says(p.Width), t.says(p.Length); width != "" && width == along && round(patterns, p.Name) {
			text += choose(strings.HasPrefix(p.Name, "circle"), ", ", choose(p.Count != nil && p.Count.Value.N == 1, ", a circle ", ", circles ")) + width + " across"
		} else if width != "" && along != "" {
			text += ", " + width + " wide × " + along + " long"
			if long := it.SplitWidth(p); long > 0 {
				text += fmt.Sprintf(", %d of them %s", it.Quantity*t.times, t.length(long))
			}
		} else if width+along != "" {
			text += ", " + width + along
		}
		if p.Cloth != nil {
			text += ", of " + p.Cloth.Name
		}
		text += more
		t.row(label, text)
		if n := len(t.rows); text != "" {
			t.rows[n-1].Measured = true
		}
		if slices.ContainsFunc(it.Order.Cuts, func(c order.Cut) bool { of, _ := it.PieceOf(&c); return of == p && it.Turned(p, &c) }) {
			t.row("", "the order has the "+p.Name+" turned, "+t.says(p.Length)+" wide × "+t.says(p.Width)+" long: in a plain cloth either will do")
		}
		label = ""
	}
	for i := range it.Pieces {
		row(&it.Pieces[i], "")
	}
	for i := range it.Added {
		row(&it.Added[i], ", as the order has it")
	}
	if label != "" {
		return // nothing to cut
	}
	t.turned(it)
	t.pattern(it)
	if c := it.Face; c != nil && c.Order.Nap.Value == "one way" {
		t.row("", "lay all pieces the same way up: the nap runs one way")
	}
	t.halves(it)
}

// pattern says how the cuts of a patterned cloth lie to its repeat.
func (t *ticket) pattern(it *worksheet.Item) {
	switch c := it.Face; {
	case c == nil || c.Repeat <= 0 || it.Order.Motif.Value == "none":
	case it.Order.Motif.Value == "center":
		t.row("", "cut every "+worksheet.All(it.Centered())+" with a whole motif in its middle")
	case it.Heading != nil && it.Word("run") == "along":
		t.row("", "start every piece at the same point of the pattern")
	case c.Order.Repeat.Match.Value == "half drop" && it.Joins > 0:
		t.halfDrop(it)
	default:
		switch placed, anywhere := it.Placed(); {
		case len(anywhere) == 0:
			t.row("", "start every cut at the same point of the pattern, a whole motif at the foot")
		case len(placed) == 0:
			t.row("", "cut every "+worksheet.All(anywhere)+" anywhere in the pattern")
		default:
			t.row("", "start every "+worksheet.All(placed)+" at the same point of the pattern, a whole motif at the foot; cut every "+worksheet.All(anywhere)+" anywhere in it")
		}
		t.trimmed(it)
	}
}

// halfDrop says which cuts of a half drop are A and which B, and how they are joined.
func (t *ticket) halfDrop(it *worksheet.Item) {
	c := it.Face
	half, marks, ab := t.length(c.Repeat.Div(2, length.Nearest)), "mark A or B at the top of every cut", "A and B"
	first := "cut all of A on the whole motif, then all of B"
	if a, b := it.Get("cuts A"), it.Get("cuts B"); a != nil && b != nil {
		ab = fmt.Sprintf("%d A and %d B", a.Value.N*t.times, b.Value.N*t.times)
		first = fmt.Sprintf("cut %d A on the whole motif, then %d B", a.Value.N*t.times, b.Value.N*t.times)
		t.told[a], t.told[b] = true, true
	}
	switch waste := it.Get(worksheet.WastePerCut); {
	case it.Believes("half repeats"):
		t.row("", "half drop: cut A B A B down the cloth, "+ab+", the first A on the whole motif; each starts where the one before ends, half a repeat further on in the pattern, "+half+"; "+marks)
	case waste != nil && 2*waste.Value.Length() >= c.Repeat && !c.Dropped(): // B lies within its cut
		t.row("", "half drop: start every cut on the whole motif, "+ab+"; use each B from half a repeat further on, "+half+"; "+marks)
	default:
		t.row("", "half drop: "+first+", each starting half a repeat further on, "+half+"; "+marks)
	}
	switch {
	case it.Word("layout") == "center and sides":
		t.row("", "join side B, center A, side B")
	case it.Panels < 2:
		t.row("", "join them A B A B from the left")
	default:
		t.row("", "join them A B A B from the left, through all panels, so that the pattern continues where the panels meet")
	}
}

// halves says how widths are split that a panel has a half of.
func (t *ticket) halves(it *worksheet.Item) {
	q := it.Get(worksheet.WidthsPerPanel)
	if q == nil || q.Value.R.Den != 2 {
		return
	}
	t.row("", "split one width down its length for every two half widths; the half goes at the return edge")
	if it.HalvesDiffer() {
		text := "the two halves of a split width start half a repeat apart, one as A, one as B"
		for i := range it.Pieces {
			if long := it.SplitWidth(&it.Pieces[i]); long > 0 {
				text += ": cut " + t.splits(it, long)
			}
		}
		t.row("", text)
	}
}

// round reports whether a piece of that name is a circle.
func round(patterns []worksheet.Pattern, name string) bool {
	return slices.ContainsFunc(patterns, func(p worksheet.Pattern) bool { return p.Name == name && !p.Joined && p.Shape == worksheet.Circle })
}

// splits says how long and where the widths are cut that are split for both letters of a half
// drop: each is followed by the other letter, where that has to begin.
func (t *ticket) splits(it *worksheet.Item, long length.Length) string {
	switch a, b := (it.Quantity+1)/2*t.times, it.Quantity/2*t.times; {
	case a+b == 1:
		return "that width " + t.length(long) + " long, as the last A"
	case b == 0:
		return fmt.Sprintf("those %d widths %s long, all as A", a, t.length(long))
	case a+b == 2:
		return "those 2 widths " + t.length(long) + " long, one as the last A, one as the last B"
	default:
		return fmt.Sprintf("those %d widths %s long, %d as A and %d as B, each the last before the other letter", a+b, t.length(long), a, b)
	}
}

// trimmed says how much the repeat leaves of each piece, to be cut off at its top.
func (t *ticket) trimmed(it *worksheet.Item) {
	var off []string
	one := true // all pieces leave as much
	for i := range it.Pieces {
		p := &it.Pieces[i]
		spare := it.Spare(p)
		one = one && spare == it.Spare(&it.Pieces[0])
		if spare > 0 {
			off = append(off, t.length(spare)+" of every "+p.AsCounted())
		}
	}
	switch {
	case len(off) == 0:
	case one:
		t.row("", "then trim the repeat's waste, "+t.length(it.Spare(&it.Pieces[0]))+", off the top of each")
	default:
		t.row("", "then trim the repeat's waste off the top: "+worksheet.All(off))
	}
}

// turned says which cloths of a curtain run sideways.
func (t *ticket) turned(it *worksheet.Item) {
	if it.Heading == nil {
		return
	}
	for _, l := range [...]struct{ run, what string }{{"run", "the cloth is"}, {"lining run", "the lining is"}, {"interlining run", "the interlining is"}} {
		if it.Word(l.run) == "along" && (l.run == "run" || it.Cloth(strings.TrimSuffix(l.run, " run")) != nil) {
			t.row("", l.what+" turned: its width runs up the curtain, and nothing is joined")
		}
	}
}
