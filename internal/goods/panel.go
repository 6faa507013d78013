package goods

import (
	"strings"

	"cutgate/internal/length"
	ws "cutgate/internal/worksheet"
)

// A panel is a flat panel that is cut in one piece where the cloth is wide enough, and
// is joined otherwise: a full width in the middle and equal sides, or equal pieces.
type panel struct {
	across, takes string // terms: what it finishes at, and what a side hem or an outer seam takes
	turn, folds   string // terms of that hem; "" for a seam
	called        string // what takes is called in slips: "side hem"
	each          string // the term for how many such panels are in one of the item; "" for one
	middle        bool   // where two sides are not enough, more widths go in the middle
	sides         string // the role of the cloth that its sides may be cut from instead; "" for none
	runs          []run  // what lies in a cut of that cloth
	when          string // the guard under which there is such a panel; "" for always
	byCloth       bool   // its widths are widths of cloth: two sides that come out of one width are one

	in func(string) string // a formula with the panel's terms in for {W}, {H}, {T} and {F}
}

// flatPanel adds the pieces of a panel, and where they are joined.
func flatPanel(k *ws.Kind, p panel) {
	p.in = strings.NewReplacer("{W}", "{"+p.across+"}", "{H}", "{"+p.takes+"}", "{T}", "{"+p.turn+"}", "{F}", "{"+p.folds+"}").Replace
	p.equalPieces(k)
	p.centerAndSides(k)
	p.counts(k)
	p.slips(k)
	k.Finish = after(k.Finish, func(it *ws.Item) { it.Joined = p.joins(it) })
}

// equalPieces adds how a panel is pieced, and what one of equal pieces is cut to, or the one
// that it is made of.
func (p panel) equalPieces(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "layout stated", From: []string{"join.layout"}, Usually: ws.Silent},
		ws.Given{Term: "pieces stated", Sort: ws.Count, From: []string{"widths"}, Get: func(it *ws.Item) (ws.Value, bool) {
			w := it.Order.Widths
			return ws.CountOf(w.Value.Num), w.Set && w.Value.Den <= 1
		}})
	var faces []string // that are cut alike
	if given(k, "faces") != nil {
		faces = append(faces, "faces")
	}
	if p.sides != "" {
		choices(k, choice{"side cloth", "join.side_cloth", "", "", ""})
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: "layout", Word: p.layout, Reads: []string{"layout stated", p.across, p.takes, "face washed width"}},
		ws.Step{Term: "whole across", When: both("face width", p.when), Formula: p.in("{W} + 2 × {H}"), Hidden: true},
		ws.Step{Term: "widest piece", Formula: "{face washed width} - 2 × ({join margin} - {seam allowance})", Hidden: true},
		// one piece
		ws.Step{Term: "piece across", Name: "pieces", When: "layout: one piece, whole across", Formula: "1", Sort: ws.Count, Hidden: true},
		// equal pieces
		ws.Step{Term: "pieces across", Name: "pieces", When: "layout: equal, whole across, {widest piece} > 2 × {seam allowance}", Work: p.equal,
			Reads: append(faces, "whole across", "widest piece", "seam allowance", "pieces stated"), Sort: ws.Count, Hidden: true},
		ws.Step{Term: "equal piece", When: "pieces across", Formula: "({whole across} + 2 × {seam allowance} × ({pieces across} - 1)) ÷ {pieces across}", Round: length.Up, Hidden: true})
	p.cutAcross(k, "piece cut width", "piece", "whole across, layout: one piece", "{W} + 2 × {H}", "face", ws.Common)
	p.cutAcross(k, "piece cut width", "piece", "pieces across", "({W} + 2 × {H} + 2 × {seam allowance} × ({pieces across} - 1)) ÷ {pieces across}", "face", joined)
}

// cutAcross adds the width that pieces of the cloth of a role are cut to.
func (p panel) cutAcross(k *ws.Kind, term, of, when, formula, role, source string) {
	formula = p.in(formula)
	shrunk := role + " shrinkage across"
	k.Steps = append(k.Steps,
		ws.Step{Term: term, Name: ws.CutWidth, Of: of, When: both(when, shrunk), Formula: "(" + formula + ") ÷ (1 - {" + shrunk + "})", Round: length.Up, Source: source},
		ws.Step{Term: term, Name: ws.CutWidth, Of: of, When: when, Formula: formula, Round: length.Up, Source: source})
	washedWrong(k, term, when, formula, shrunk)
}

// centerAndSides adds what the pieces of a panel with a full width in its middle are cut to.
func (p panel) centerAndSides(k *ws.Kind) {
	const (
		shrunk = "face shrinkage across"
		sides  = "layout: center and sides"
	)
	own := "" // the guard for sides of the panel's own cloth
	if p.sides != "" {
		own = "no side cloth"
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: "center cut width", Name: ws.CutWidth, Of: "center", When: both(sides, "whole across, {widest piece} > 2 × {seam allowance}"), Work: p.chosenCenter,
			Reads: []string{p.across, p.takes, "seam allowance", "widest piece", "face width", "face washed width", shrunk}, Belief: true, Round: length.Down},
		ws.Step{Term: "center cut width", Name: ws.CutWidth, Of: "center", When: both(sides, "whole across, {widest piece} > 2 × {seam allowance}, {widest piece} = {face washed width}"), Formula: "{face width}", Round: length.Down, Source: ws.Common},
		ws.Step{Term: "center cut width", Name: ws.CutWidth, Of: "center", When: both(sides, "whole across, {widest piece} > 2 × {seam allowance}", shrunk), Formula: "({face washed width} - 2 × ({face selvedge and cover} - {seam allowance})) ÷ (1 - {" + shrunk + "})", Round: length.Down, Source: ws.Common},
		ws.Step{Term: "center cut width", Name: ws.CutWidth, Of: "center", When: both(sides, "whole across, {widest piece} > 2 × {seam allowance}"), Formula: "{face width} - 2 × ({face selvedge and cover} - {seam allowance})", Round: length.Down, Source: ws.Common},
		ws.Step{Term: "center", Work: centerWashed, Reads: []string{"center cut width", "widest piece", shrunk}, Hidden: true},
		ws.Step{Term: string(ws.CenterShows), Formula: "{center} - 2 × {seam allowance}", Source: joined},
		ws.Step{Term: "centers", Work: p.centers, Reads: []string{"whole across", "widest piece", string(ws.CenterShows)}, Sort: ws.Count, Hidden: true},
		ws.Step{Term: "strip", When: "{centers} > 1", Formula: p.in("({W} - {centers} × {center shows}) ÷ 2"), Round: length.Up, Hidden: true},
		ws.Step{Term: "strip", Formula: p.in("({W} - {center shows}) ÷ 2"), Round: length.Up, Hidden: true},
		ws.Step{Term: "sides made", Work: p.sidesMade, Reads: []string{"strip", "seam allowance", p.takes}, Sort: ws.Count, Hidden: true})
	// A stripe runs on where the center stopped.
	k.Given = append(k.Given, ws.Given{Term: "stripe", From: []string{"face/repeat.width"}, Get: func(it *ws.Item) (ws.Value, bool) {
		if it.Face == nil {
			return ws.Value{}, false
		}
		return ws.LengthOf(it.Face.Across), it.Face.Across > 0
	}})
	steps(k,
		step{"stripe stops", both(sides, own, "sides made, {centers} = 1, stripe, {stripe} < {center shows}"), "{center shows} - rounded down ({center shows} ÷ {stripe}) × {stripe}", "near, hidden", ws.Common})
	mayBeNothing(k, "stripe stops")
	notesAs(k, ws.AsCut,
		note{"pattern", "stripe stops, {stripe stops} > 0", "set the start of a repeat, such as the edge of a stripe, on the center's left seam line: its right seam line then lies {stripe stops} past the start of a repeat; start the right side there, and end the left side on the start of a repeat"},
		note{"pattern", "stripe stops, {stripe stops} = 0", "set the start of a repeat, such as the edge of a stripe, on both of the center's seam lines, and on those of the sides"})
	side := func(term, cloth, role string) {
		p.cutAcross(k, term, "side", both("sides made, {centers} > 1", cloth), "({W} - {centers} × {center shows}) ÷ 2 + {seam allowance} + {H}", role, joined)
		p.cutAcross(k, term, "side", both("sides made", cloth), "({W} - {center shows}) ÷ 2 + {seam allowance} + {H}", role, joined)
	}
	side("side cut width", own, "face")
	if p.sides != "" {
		side(p.ownSides(), "side cloth", p.sides)
		cut(k, p.sides+" ", p.sides, ws.Name(p.sides+" cut length"), talmadge, p.ownRuns()...)
	}
	// Sides that no one width of cloth has both of where they match take one each: the maker may
	// count so, or let the pattern go.
	k.Steps = append(k.Steps, ws.Step{Term: "side across", When: "side cut width, stripe stops", Work: sideAcross, Hidden: true,
		Reads: []string{"side cut width", "center cut width", string(ws.CenterShows), "seam allowance", "stripe", "face width", "face washed width"}})
	notesAs(k, ws.AsCut, note{"", "side across", "no one width of the cloth has both sides at these places: to match both, cut each from a width of its own, a length more than is counted here"})
}

// counts adds how many pieces and widths there are, and how many joins.
func (p panel) counts(k *ws.Kind) {
	count := func(piece, when, n string) {
		k.Steps = append(k.Steps, ws.Step{Term: piece + " count", Name: ws.PieceCount, Of: piece, When: when, Sort: ws.Count,
			Work: func(it *ws.Item) (ws.Result, bool) {
				c := it.Count(n)
				if p.each != "" {
					c *= it.Count(p.each)
				}
				return ws.Result{Value: ws.CountOf(c), Source: ws.Common}, true
			}, Reads: terms(n, p.each)})
		if p.sides != "" && piece == "side" {
			k.Pieces = append(k.Pieces, ws.Piecing{Name: piece, Role: p.sides, Width: p.ownSides(), Length: p.sides + " cut length", Count: "side count", Joined: "joined", Sides: true, Spare: p.sides + " " + string(ws.WastePerCut), Net: p.sides + " " + string(ws.RawCut),
				LengthAsRight: func(it *ws.Item) []length.Length {
					if it.Cloth(p.sides).Repeat != 0 {
						return nil
					}
					return it.Rounder(p.sides + " cut length")
				}})
		}
		k.Pieces = append(k.Pieces, ws.Piecing{Name: piece, Role: "face", Width: piece + " cut width", Length: string(ws.CutLength), Count: piece + " count", Joined: "joined", Middle: piece == "center", Sides: piece == "side", Spare: string(ws.WastePerCut), Net: string(ws.RawCut), LengthAsRight: rounderCut})
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: "joins", When: "sides made", Formula: "{centers} + 1", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "joins", When: "pieces across", Formula: "{pieces across} - 1", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "joins", When: "whole across", Formula: "0", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "joined", Formula: "{joins} + 1", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "pieces to join", When: "pieces across", Formula: "{pieces across}", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "pieces to join", When: "piece across", Formula: "1", Sort: ws.Count, Hidden: true})
	count("piece", "piece cut width", "pieces to join")
	count("center", "center cut width", "centers")
	count("side", "sides made", "sides made")
	if p.byCloth {
		k.Steps = append(k.Steps,
			ws.Step{Term: "widths for the sides", When: "sides made", Formula: "rounded up (2 × {side cut width} ÷ {face width})", Sort: ws.Count, Hidden: true},
			ws.Step{Term: string(ws.Widths), When: "sides made", Formula: "{centers} + {widths for the sides}", Sort: ws.Ratio, Source: ws.Common},
			ws.Step{Term: string(ws.Widths), Formula: "{pieces to join}", Sort: ws.Ratio, Source: ws.Common})
	} else {
		k.Steps = append(k.Steps, ws.Step{Term: string(ws.Widths), Work: widthsAcross, Reads: []string{"piece count", "center count", "side count"}, Sort: ws.Ratio})
	}
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: string(ws.Widths), Field: "widths", Hand: ws.Shared, Fine: p.halfForSides,
		Unsure: func(it *ws.Item) bool { // how many there are is a choice then, or the cut is no center
			return it.Has("pieces across") && cutsCount(it) == 0 || it.Word("layout stated") == "" && it.StatedCut("center") != nil && it.StatedCut("side") == nil
		}})
	more := func(it *ws.Item) bool {
		n := it.Count("pieces across")
		return n > 1 && piecesFit(it, n-1)
	}
	k.Unlikely = append(k.Unlikely,
		ws.Unlikely{What: "more pieces than the cloth's width asks for", Cost: 300, Is: more},
		ws.Unlikely{What: "more pieces, by their number alone", Cost: 300, Is: func(it *ws.Item) bool { return more(it) && cutsCount(it) != it.Count("pieces across") }})
}

// sideAcross is what a side takes across the cloth where the pattern of no one width has both
// sides in it: all of it. The left side's seam line lies where the pattern is as on the center's
// left one, and the right side's as on its right one; where on the cloth the center is cut is
// left open as far as it is narrower.
func sideAcross(it *ws.Item) (ws.Result, bool) {
	if it.Face.Washed != it.Face.Width {
		return ws.Result{}, false // where the pattern lies is known before the wash
	}
	whole, seam, repeat := it.Face.Width, it.Length("seam allowance"), it.Length("stripe")
	shows, free := it.Length(string(ws.CenterShows)), max(0, whole-it.Length("center cut width"))
	rest := it.Length("side cut width") - seam                // of a side, beyond its seam line
	after := func(least, place length.Length) length.Length { // the first such place from least on
		return least + ((place-least)%repeat+repeat)%repeat
	}
	// between are the places of the left side's seam line, from the center's.
	between := func(from, to length.Length) bool { return after(from-free, 0) <= to }
	leftFirst, rightFirst := after(2*seam, shows), after(2*rest, -shows)
	if between(rest-seam, whole-rest-leftFirst-seam) || between(rightFirst, whole-2*seam) {
		return ws.Result{}, false
	}
	return ws.Result{Value: ws.LengthOf(whole), Source: ws.Common}, true
}

// halfForSides reports whether the stated widths count half a width of cloth for two sides
// that both come out of it, or one or two widths for sides of a pattern that runs across.
func (p panel) halfForSides(it *ws.Item, stated ws.Value) bool {
	if !p.byCloth || !it.Has("sides made") {
		return false
	}
	least := it.Count("centers") + length.CeilDiv(it.Length("side cut width").Mul(2), it.Length("face width"))
	if n := stated.R; it.Has("stripe stops") && n.Den == 1 && n.Num >= least && n.Num <= it.Count("centers")+2 {
		return true
	}
	halves := length.CeilDiv(it.Length("side cut width").Mul(4), it.Length("face width"))
	return stated.R.Cmp(length.NewRatio(2*it.Count("centers")+halves, 2)) == 0
}

// terms are those of some terms that there are.
func terms(list ...string) (named []string) {
	for _, t := range list {
		if t != "" {
			named = append(named, t)
		}
	}
	return named
}

// joins are the places of the panel's joins, from its left finished edge.
func (p panel) joins(it *ws.Item) (at []length.Length) {
	it.Joins = it.Count("joins")
	if it.Has("strip") {
		for i := range min(it.Count("centers")+1, mostJoins) {
			at = append(at, it.Length("strip")+it.Length(string(ws.CenterShows)).Mul(i))
		}
	}
	if n := it.Count("pieces across"); it.Has("equal piece") {
		shows := it.Length("equal piece") - 2*it.Allowance // after the first wash
		for i := int64(1); i < min(n, mostJoins); i++ {
			at = append(at, shows.Mul(i)+it.Allowance-it.Length(p.takes))
		}
	}
	return at
}

// rounderCut is a cut of plain cloth up to a rounder length.
func rounderCut(it *ws.Item) []length.Length {
	if it.Face.Repeat != 0 {
		return nil
	}
	return it.Rounder(string(ws.CutLength))
}

func widthsAcross(it *ws.Item) (ws.Result, bool) {
	n := it.Count("piece count") + it.Count("center count") + it.Count("side count")
	return ws.Result{Value: ws.RatioOf(length.NewRatio(n, 1)), Source: ws.Common}, n > 0
}

// layout is how a panel is pieced: as the order says; where it does not, as its
// cuts are named, else in one piece if that fits, else with a full width in the
// center.
func (p panel) layout(it *ws.Item) string {
	if layout := it.Order.Join.Layout.Value; layout != "" {
		return layout
	}
	for i := range it.Order.Cuts {
		switch it.Order.Cuts[i].Piece.Value {
		case "center", "side":
			return "center and sides"
		}
	}
	if it.Face != nil && it.Length(p.across)+it.Length(p.takes).Mul(2) <= it.Face.Washed {
		return "one piece"
	}
	if it.StatedCut("piece") != nil {
		return "equal"
	}
	return "center and sides"
}

// equal is how many equal pieces a panel takes; more is a choice where the
// widths and the cuts both say so, and so is one more that keeps a join out of the
// middle, where the cuts don't say that it is not.
func (p panel) equal(it *ws.Item) (ws.Result, bool) {
	n := int64(1)
	for n < 100 && !piecesFit(it, n) {
		n++
	}
	if stated := it.Count("pieces stated"); it.Has("pieces stated") && stated > n && (cutsCount(it) == stated || stated == n+1 && stated%2 == 1 && cutsCount(it) != n) {
		n = stated
	}
	return ws.Result{Value: ws.CountOf(n)}, true
}

// piecesFit reports whether so many equal pieces come out of the width of the cloth.
func piecesFit(it *ws.Item, n int64) bool {
	return (it.Length("whole across")+it.Allowance.Mul(2*(n-1))).Div(n, length.Up) <= it.Length("widest piece")
}

// cutsCount is how many pieces the order's cuts state of a panel.
func cutsCount(it *ws.Item) (n int64) {
	for i := range it.Order.Cuts {
		n += it.Order.Cuts[i].Count.Value
	}
	if faces := it.Count("faces"); faces > 1 && n%faces == 0 {
		return n / faces
	}
	return n
}

// widestSelvedge is wider than any that mills weave; common practice, no source.
const widestSelvedge = inch

// chosenCenter is a stated center width where it is the maker's choice: it is
// narrower than the cloth gives. With sides that fit the full width it is a slip.
func (p panel) chosenCenter(it *ws.Item) (ws.Result, bool) {
	cut := it.StatedCut("center")
	if cut == nil || !cut.Width.Set {
		return ws.Result{}, false
	}
	c, a, step := it.Face, it.Allowance, it.Step()
	sides := c
	if p.sides != "" && it.Cloth(p.sides) != nil {
		sides = it.Cloth(p.sides)
	}
	finished, hem, full, stated := it.Length(p.across), it.Length(p.takes), it.Length("widest piece"), cut.Width.Value
	side := func(center length.Length) length.Length {
		n := p.inMiddle(finished+2*hem, full, center-2*a)
		return sides.BeforeWash((finished-(center-2*a).Mul(n)).Div(2, length.Up) + a + hem)
	}
	res, _ := as(&cut.Width, ws.LengthOf)
	s := it.StatedCut("side")
	// Cut edge to edge by an allowance that does not hide the selvedge: what is
	// wrong is the allowance, unless the full width is what people round it to.
	if it.ByHand(c.Width, c.BeforeWash(full), ws.Size) && ws.Near(stated, c.Width, step) {
		return res, false
	}
	if full < c.Washed && ws.Near(stated, c.Width, step) && c.Order.Selvedge.Value <= widestSelvedge {
		if s != nil && s.Width.Set && s.Length.Set && cut.Length.Set && it.ByHand(stated, full, ws.Size) && it.ByHand(s.Width.Value, side(full), ws.Size) {
			return res, false // all is rounded to such marks on the tape
		}
		return res, s == nil || !s.Width.Set || ws.Near(s.Width.Value, side(c.Washed), step) || !ws.Near(s.Width.Value, side(full), step)
	}
	after := c.AfterWash(stated)
	if after >= full || ws.Near(after, full, step) || after <= 2*a {
		return res, false
	}
	return res, s == nil || !s.Width.Set || !ws.Near(s.Width.Value, side(full), step)
}

// inMiddle is how many pieces that show so much lie between the sides of a panel of a
// whole width.
func (p panel) inMiddle(whole, widest, shows length.Length) int64 {
	if !p.middle || shows <= 0 || whole <= widest {
		return 1
	}
	return max(1, 2*length.CeilDiv((whole-widest).Div(2, length.Up), shows)-1)
}

// centers is how many pieces lie between the sides.
func (p panel) centers(it *ws.Item) (ws.Result, bool) {
	n := p.inMiddle(it.Length("whole across"), it.Length("widest piece"), it.Length(string(ws.CenterShows)))
	return ws.Result{Value: ws.CountOf(n)}, it.Has(string(ws.CenterShows))
}

// centerWashed is the center as it is after the first wash.
func centerWashed(it *ws.Item) (ws.Result, bool) {
	if !it.Has("center cut width") {
		return ws.Result{}, false
	}
	if it.Believes("center cut width") {
		return ws.Result{Value: ws.LengthOf(it.Face.AfterWash(it.Length("center cut width")))}, true
	}
	return ws.Result{Value: ws.LengthOf(it.Length("widest piece"))}, true
}

// sidesMade is 2 where there are sides: there is something left for them, or the
// order states them all the same.
func (p panel) sidesMade(it *ws.Item) (ws.Result, bool) {
	left := it.Length("strip")+it.Allowance+it.Length(p.takes) > 0
	return ws.Result{Value: ws.CountOf(2)}, it.Has("strip") && (left || it.StatedCut("side") != nil)
}

// slips adds the slips of the widths of the panel's pieces.
func (p panel) slips(k *ws.Kind) {
	add := func(of, when, name, formula string, show bool) {
		shrunk := "face shrinkage across"
		if of == p.ownSides() {
			shrunk = p.sides + " shrinkage across"
		}
		when, name, formula = p.in(when), strings.ReplaceAll(name, "side hem", p.called), p.in(formula)
		k.Slips = append(k.Slips,
			ws.Slipping{Of: of, When: both(when, "no "+shrunk), Name: name, Formula: formula, Show: show},
			ws.Slipping{Of: of, When: both(when, shrunk), Name: name, Formula: "(" + formula + ") ÷ (1 - {" + shrunk + "})", Show: show})
	}
	strip := "({W} - {center shows}) ÷ 2"
	for _, side := range terms("side cut width", p.ownSides()) {
		add(side, "", "the center panel's own two allowances were forgotten", "({W} - {face washed width}) ÷ 2 + {H} + {seam allowance}", true)
		add(side, "", "the side hem was left out", strip+" + {seam allowance}", false)
		if p.turn != "" {
			add(side, p.turn+", {F} = 2", "the side hem was counted once, not twice", strip+" + {seam allowance} + {T}", false)
			add(side, p.turn+", {F} = 3", "the side hem was counted once, not three times", strip+" + {seam allowance} + {T}", false)
		}
		add(side, "", "the seam allowance was left out", strip+" + {H}", false)
		add(side, "", "seam allowance and hem were left out", strip, false)
		add(side, "", "it was not halved: this is for both sides", "{W} - {center shows} + {seam allowance} + {H}", false)
		add(side, "", "the seam allowance was added twice", strip+" + 2 × {seam allowance} + {H}", false)
	}
	piece, w := "piece cut width", "({W} + 2 × {H}"
	add(piece, "pieces across", "the side hems were left out", "({W} + 2 × {seam allowance} × ({pieces across} - 1)) ÷ {pieces across}", false)
	add(piece, "pieces across", "one side hem was left out", "({W} + {H} + 2 × {seam allowance} × ({pieces across} - 1)) ÷ {pieces across}", false)
	add(piece, "no pieces across", "one side hem was left out", "{W} + {H}", false)
	if p.turn != "" {
		add(piece, "no pieces across, {F} > 1", "the hem was counted once, not folded twice", "{W} + 2 × {T}", false)
		add(piece, "no pieces across, {F} = 1", "the hem was folded twice; it is folded once", "{W} + 4 × {T}", false)
	}
	add(piece, "pieces across, {joins} > 0", "the seam allowances were left out", w+") ÷ {pieces across}", false)
	add(piece, "pieces across, {joins} > 0", "each join takes the allowance from both pieces; one was counted", w+" + {seam allowance} × {joins}) ÷ {pieces across}", false)
	add(piece, "pieces across, {joins} > 0", "a join was counted for every piece; there is one fewer", w+" + 2 × {seam allowance} × {pieces across}) ÷ {pieces across}", false)
	add(piece, "pieces across, {joins} > 0", "it was divided by the joins, not the pieces", w+" + 2 × {seam allowance} × {joins}) ÷ {joins}", false)
	add(piece, "", "hems and seams were left out: this is the finished width", "{W}", false)
	k.Slips = append(k.Slips, ws.Slipping{Of: "center cut width", Name: "this is the usable width; the cloth is cut edge to edge", Formula: "{usable width}"},
		ws.Slipping{Of: "center cut width", Name: "this is half; a width is split after it is cut to length", Formula: "{center cut width} ÷ 2"})
	miscounted(k, string(ws.Widths), "piece count", "center count", "side count")
}

// ownRuns is what lies in a cut of the sides' own cloth.
func (p panel) ownRuns() (list []run) {
	for _, r := range p.runs {
		r.when = both("side cloth", r.when)
		list = append(list, r)
	}
	return list
}

// ownSides is the term for the width of sides of a cloth of their own; "" where there
// may be none.
func (p panel) ownSides() string {
	if p.sides == "" {
		return ""
	}
	return p.sides + " cut width"
}

// miscounted adds the slips of numbers of widths or pieces.
func miscounted(k *ws.Kind, counts ...string) {
	for _, of := range counts {
		k.Slips = append(k.Slips, ws.Slipping{Of: of, Work: countSlips(of)})
	}
}

// countSlips are the slips of a number of widths or pieces.
func countSlips(of string) func(*ws.Item) []ws.Slipped {
	return func(it *ws.Item) (list []ws.Slipped) {
		v := it.Value(of)
		r := it.Ratio(of)
		add := func(name string, r length.Ratio) {
			if v.Sort == ws.Ratio {
				list = append(list, ws.Slipped{Name: name, Value: ws.RatioOf(r)})
			} else if r.Den <= 1 {
				list = append(list, ws.Slipped{Name: name, Value: ws.CountOf(r.Num)})
			}
		}
		if it.Panels > 1 {
			panels := length.NewRatio(it.Panels, 1)
			add("this is for one panel; the order makes "+panels.Format(0), r.Quo(panels))
			add("the panels were counted twice", r.Mul(panels))
		}
		if it.Quantity > 1 {
			add("this is for all of them; cuts are for one", r.Mul(length.NewRatio(it.Quantity, 1)))
		}
		if exact := string(ws.WidthsExact); it.Has(exact) && v.Sort == ws.Ratio {
			add("the widths were not rounded up", it.Ratio(exact))
			add("the widths were rounded down", length.NewRatio(it.Ratio(exact).Int(length.Down), 1))
			if flat := it.Length(string(ws.FlatWidth)); flat > 0 && it.Face != nil && it.Face.Width > 0 {
				full := length.RatioOf(flat, it.Face.Width).Mul(length.NewRatio(2, 1)).Int(length.Up)
				add("selvedge and seams were not taken off the cloth", length.NewRatio(full, 2))
			}
		}
		add("it was rounded down", r.Sub(one))
		return list
	}
}

// A layer is a part behind a panel that is joined as the panel is, by the width of its
// own cloth: a lining, an interlining, a back in another cloth.
type layer struct {
	role          string // and the name of its piece
	across, along string // the formulas of its net size
	when          string // the guard under which there is one
	abut          bool   // its pieces meet edge to edge, so that a join takes nothing
	source        string
}

// cutLengths are the terms for how long the pieces of a layer are cut.
func cutLengths(role string) []string {
	return []string{role + " cut length", role + " center cut length", role + " side cut length"}
}

// layered adds the pieces of a layer.
func layered(k *ws.Kind, l layer) {
	r := l.role
	in := strings.NewReplacer("{W}", "{"+r+" across}", "{widest}", "{"+r+" widest piece}", "{shows}", "{"+r+" shows}", "{joins}", "{"+r+" joins}")
	seam, widest := "{seam allowance}", "{"+r+" washed width}"
	if l.abut {
		seam = ""
		widest += " [- 2 × {" + r + " selvedge and cover}]"
	} else {
		widest += " - 2 × ({" + r + " join margin} - {seam allowance})"
		margin := both(r+" selvedge and cover", "{"+r+" selvedge and cover} > {seam allowance}")
		steps(k,
			step{r + " join margin", margin, "{" + r + " selvedge and cover}", "near, hidden", ""},
			step{r + " join margin", r + " washed width", "{seam allowance}", "near, hidden", ""})
	}
	times := func(n, seam string) string {
		if seam == "" {
			return ""
		}
		return " " + n + seam
	}
	steps(k,
		step{r + " across", l.when, l.across, "near, hidden", l.source},
		step{r + " along", l.when, l.along, "near, hidden", l.source},
		step{r + " widest piece", r + " across", widest, "down, hidden", ""},
		step{r + " shows", "", in.Replace("{widest}" + times("- 2 × ", seam)), "near, hidden", ""},
		step{r + " joins", in.Replace("{W} ≤ {" + r + " washed width}"), "0", "whole, hidden", ""},
		step{r + " joins", r + " shows, layout: equal", in.Replace("rounded up (({W}" + times("- 2 × ", seam) + ") ÷ {shows}) - 1"), "whole, hidden", ""},
		step{r + " joins", r + " shows", in.Replace("2 × rounded up (({W} - {widest}) ÷ 2 ÷ {shows})"), "whole, hidden", ""})
	layerPanel(k, l)
	middle := in.Replace("{joins} > 0, layout: center and sides/one piece")
	pieces(k,
		piece{r, r, l.across, l.along, "1", in.Replace("{joins} = 0")},
		piece{r, r, in.Replace("(" + l.across + times("+ 2 × {joins} × ", seam) + ") ÷ ({joins} + 1)"), l.along, in.Replace("{joins} + 1"), "layout: equal, " + r + " joins"},
		piece{r + " center", r, "the cloth", l.along, in.Replace("{joins} - 1"), middle + in.Replace(", {widest} = {"+r+" washed width}")},
		piece{r + " center", r, in.Replace("{widest}"), l.along, in.Replace("{joins} - 1"), middle},
		piece{r + " side", r, in.Replace("(" + l.across + " - ({joins} - 1) × {shows}) ÷ 2" + times("+ ", seam)), l.along, "2", middle})
	cite(k, l.source, r, r+" side")
	rounder(k, r, r+" center", r+" side")
	strip := in.Replace("({W} - ({joins} - 1) × {shows}) ÷ 2")
	slips(k,
		slip{r + " center cut width", "this is what shows of it", in.Replace("{shows}")},
		slip{r + " center cut width", "this is half; a width is split after it is cut to length", in.Replace("{widest} ÷ 2")},
		slip{r + " side cut width", "it was not halved: this is for both sides", "2 × " + strip + times("+ ", seam)},
		slip{r + " side cut width", "this is half a width", "{" + r + " washed width} ÷ 2"})
	if !l.abut {
		slips(k, slip{r + " side cut width", "the seam allowance was left out", strip})
	}
	marksAs(k, ws.AsJoined,
		mark{"joins", "the left cut edge of the " + r + " as joined", in.Replace(middle), in.Replace("{joins}"), strip + in.Replace(" + ({k} - 1) × {shows}")},
		mark{"joins", "the left cut edge of the " + r + " as joined", in.Replace("{joins} > 0, layout: equal"), in.Replace("{joins}"),
			"{k} × ((" + in.Replace("{W}"+times("+ 2 × {joins} × ", seam)+") ÷ ({joins} + 1)") + times("- 2 × ", seam) + ")" + times("+ ", seam)})
}
