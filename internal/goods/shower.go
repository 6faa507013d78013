package goods

import (
	"cutgate/internal/length"
	ws "cutgate/internal/worksheet"
)

// showerCurtain is a flat hanging of joined pieces, with holes along its top.
func showerCurtain() *ws.Kind {
	k := &ws.Kind{
		Name: "shower curtain", Fitted: []string{"hangs", "flat", "over a tub"},
		Roles: []ws.Role{{Name: "face", Field: "cloth"}},
		Setup: func(it *ws.Item) {
			h := &it.Order.Hems
			it.Top, it.Bottom, it.Sides = it.HemOf(&h.Top, "top", ""), it.HemOf(&h.Bottom, "bottom", ""), it.HemOf(&h.Sides, "sides", "")
			seamOf(it)
		},
	}
	cloth(k, "face")
	hem(k, "top", "hems.top", "top hem", "top hem's", func(it *ws.Item) *ws.Hem { return &it.Top })
	hem(k, "bottom", "hems.bottom", "bottom hem", "bottom hem's", func(it *ws.Item) *ws.Hem { return &it.Bottom })
	hem(k, "sides", "hems.sides", "side hem", "side hems'", func(it *ws.Item) *ws.Hem { return &it.Sides })
	seam(k)
	sizes(k)
	k.Steps = append(k.Steps,
		ws.Step{Term: string(ws.FinishedWidth), Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Finished.Width, ws.LengthOf) }, Reads: []string{"finished width stated"}, Ends: true},
		ws.Step{Term: string(ws.FinishedLength), Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Finished.Length, ws.LengthOf) }, Reads: []string{"finished length stated"}, Ends: true})
	cut(k, "", "face", ws.CutLength, talmadge, run{sum: "{finished length} + {top hem} + {bottom hem}", slips: faceSlips("top hem")})
	usable(k, "", "", "face", "finished width")
	flatPanel(k)
	holes(k, string(ws.FinishedWidth), "", "", holeSource)
	edges(k, "rod.above_floor", func(it *ws.Item) length.Length {
		if h := &it.Order.Holes; h.FromTop.Set { // the top edge stands above the eye of the rings
			return max(0, h.FromTop.Value-h.Bore.Value/2)
		}
		return 0
	}, "holes.from_top", "holes.bore")
	k.Steps = append(k.Steps, footGap)
	hanging(k, true)
	sewing(k)
	press(k)
	k.Unlikely = oddHoles
	k.Finish = func(it *ws.Item) {
		it.Joins = it.Count("joins")
		finished, strip := it.Length(string(ws.FinishedWidth)), it.Length("strip")
		if it.Has("strip") {
			it.Joined = append(it.Joined, strip, finished-strip)
		}
		if n := it.Count("pieces across"); it.Has("equal piece") {
			shows := it.Length("equal piece") - 2*it.Allowance // after the first wash
			for i := int64(1); i < n; i++ {
				it.Joined = append(it.Joined, shows.Mul(i)+it.Allowance-it.Sides.Takes)
			}
		}
		punch(it)
	}
	return k
}

// sizes are the finished sizes as they are stated.
func sizes(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "finished width stated", Name: "finished width", From: []string{"finished.width"}, Choice: &ws.Choosing{Low: in(16 * 6), High: in(16 * 400), Swap: "finished length stated", Ordered: true, Size: true}},
		ws.Given{Term: "finished length stated", Name: "finished length", From: []string{"finished.length"}, Choice: &ws.Choosing{Low: in(16 * 6), High: in(16 * 200), Swap: "finished width stated", Ordered: true, Size: true}})
}

// faceSlips are the slips of a face's cut length, whose top takes what that term says.
func faceSlips(top string) []ws.Slipping {
	f := "{finished length}"
	list := []ws.Slipping{
		{When: "bottom folds, {bottom folds} = 2", Name: "the bottom hem was counted once, not twice", Formula: f + " + {" + top + "} + {bottom turn}"},
		{When: "bottom folds, {bottom folds} = 3", Name: "the bottom hem was counted once, not three times", Formula: f + " + {" + top + "} + {bottom turn}"},
	}
	if top == "top hem" {
		list = append(list,
			ws.Slipping{When: "top turn", Name: "the top hem was counted once, not twice", Formula: f + " + {top turn} + {bottom hem}"},
			ws.Slipping{When: "top turn, bottom turn", Name: "both hems were counted once", Formula: f + " + {top turn} + {bottom turn}"})
	}
	return append(list,
		ws.Slipping{Name: "the bottom hem was left out", Formula: f + " + {" + top + "}"},
		ws.Slipping{Name: "the top was left out", Formula: f + " + {bottom hem}"},
		ws.Slipping{Name: "hems and heading were left out: this is the finished length", Formula: f},
		ws.Slipping{Name: "the bottom hem was added twice over", Formula: f + " + {" + top + "} + 2 × {bottom hem}"})
}

// flatPanel adds the pieces of a joined flat panel: one piece, a center and two
// sides, or equal pieces.
func flatPanel(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "layout", From: []string{"join.layout", "finished.width", "hems.sides", "face/width"}, Word: layoutOf},
		ws.Given{Term: "pieces stated", Sort: ws.Count, From: []string{"widths"}, Get: func(it *ws.Item) (ws.Value, bool) {
			w := it.Order.Widths
			return ws.CountOf(w.Value.Num), w.Set && w.Value.Den <= 1
		}})
	const (
		width  = string(ws.FinishedWidth)
		shrunk = "face shrinkage across"
		sides  = "layout: center and sides"
	)
	across := func(term, of, when, formula, source string) {
		k.Steps = append(k.Steps,
			ws.Step{Term: term, Name: ws.CutWidth, Of: of, When: both(when, shrunk), Formula: "(" + formula + ") ÷ (1 - {" + shrunk + "})", Round: length.Up, Source: source},
			ws.Step{Term: term, Name: ws.CutWidth, Of: of, When: when, Formula: formula, Round: length.Up, Source: source})
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: "whole across", When: "face width", Formula: "{finished width} + 2 × {side hem}", Hidden: true},
		ws.Step{Term: "widest piece", Formula: "{face washed width} - 2 × ({join margin} - {seam allowance})", Hidden: true},
		// one piece
		ws.Step{Term: "piece across", Name: "pieces", When: "layout: one piece", Formula: "1", Sort: ws.Count, Hidden: true},
		// equal pieces
		ws.Step{Term: "pieces across", Name: "pieces", When: "layout: equal, whole across, {widest piece} > 2 × {seam allowance}", Work: equalPieces,
			Reads: []string{"whole across", "widest piece", "seam allowance", "pieces stated"}, Sort: ws.Count, Hidden: true},
		ws.Step{Term: "equal piece", When: "pieces across", Formula: "({whole across} + 2 × {seam allowance} × ({pieces across} - 1)) ÷ {pieces across}", Round: length.Up, Hidden: true})
	equal := "({finished width} + 2 × {side hem} + 2 × {seam allowance} × ({pieces across} - 1)) ÷ {pieces across}"
	one := "{finished width} + 2 × {side hem}"
	for _, w := range []struct{ when, formula, source string }{{"whole across, layout: one piece", one, ws.Common}, {"pieces across", equal, joined}} {
		across("piece cut width", "piece", w.when, w.formula, w.source)
	}
	k.Steps = append(k.Steps,
		// a center and its sides
		ws.Step{Term: "center cut width", Name: ws.CutWidth, Of: "center", When: both(sides, "whole across, {widest piece} > 2 × {seam allowance}"), Work: chosenCenter,
			Reads: []string{"finished width", "side hem", "seam allowance", "widest piece", "face width", "face washed width", shrunk}, Belief: true, Round: length.Down},
		ws.Step{Term: "center cut width", Name: ws.CutWidth, Of: "center", When: both(sides, "whole across, {widest piece} > 2 × {seam allowance}, {widest piece} = {face washed width}"), Formula: "{face width}", Round: length.Down, Source: ws.Common},
		ws.Step{Term: "center cut width", Name: ws.CutWidth, Of: "center", When: both(sides, "whole across, {widest piece} > 2 × {seam allowance}", shrunk), Formula: "({face washed width} - 2 × ({face selvedge and cover} - {seam allowance})) ÷ (1 - {" + shrunk + "})", Round: length.Down, Source: ws.Common},
		ws.Step{Term: "center cut width", Name: ws.CutWidth, Of: "center", When: both(sides, "whole across, {widest piece} > 2 × {seam allowance}"), Formula: "{face width} - 2 × ({face selvedge and cover} - {seam allowance})", Round: length.Down, Source: ws.Common},
		ws.Step{Term: "center", Work: centerWashed, Reads: []string{"center cut width", "widest piece", shrunk}, Hidden: true},
		ws.Step{Term: string(ws.CenterShows), Formula: "{center} - 2 × {seam allowance}", Source: joined},
		ws.Step{Term: "strip", Formula: "({finished width} - {center shows}) ÷ 2", Round: length.Up, Hidden: true},
		ws.Step{Term: "sides made", Work: sidesMade, Reads: []string{"strip", "seam allowance", "side hem"}, Sort: ws.Count, Hidden: true})
	across("side cut width", "side", "sides made", "({finished width} - {center shows}) ÷ 2 + {seam allowance} + {side hem}", joined)
	count := func(piece, when string, n string) {
		k.Steps = append(k.Steps, ws.Step{Term: piece + " count", Name: ws.PieceCount, Of: piece, When: when, Sort: ws.Count,
			Work: func(it *ws.Item) (ws.Result, bool) {
				c := int64(1)
				if n != "" {
					c = it.Count(n)
				}
				return ws.Result{Value: ws.CountOf(c), Source: ws.Common}, true
			}, Reads: reading(n)})
		k.Pieces = append(k.Pieces, ws.Piecing{Name: piece, Role: "face", Width: piece + " cut width", Length: string(ws.CutLength), Count: piece + " count", Joined: "joined", Spare: string(ws.WastePerCut), LengthAsRight: rounderCut})
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: "joins", When: "sides made", Formula: "{sides made}", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "joins", When: "pieces across", Formula: "{pieces across} - 1", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "joins", When: "whole across", Formula: "0", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "joined", Formula: "{joins} + 1", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "pieces to join", When: "pieces across", Formula: "{pieces across}", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "pieces to join", When: "piece across", Formula: "1", Sort: ws.Count, Hidden: true})
	count("piece", "piece cut width", "pieces to join")
	count("center", "center cut width", "")
	count("side", "side cut width", "sides made")
	k.Steps = append(k.Steps, ws.Step{Term: string(ws.Widths), Work: widthsAcross, Reads: []string{"piece count", "center count", "side count"}, Sort: ws.Ratio})
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: string(ws.Widths), Field: "widths", Hand: ws.Shared})
	flatSlips(k)
}

func reading(term string) []string {
	if term == "" {
		return nil
	}
	return []string{term}
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

// layoutOf is how a panel is pieced: as the order says; where it does not, as its
// cuts are named, else in one piece if that fits, else with a full width in the
// center.
func layoutOf(it *ws.Item) string {
	if layout := it.Order.Join.Layout.Value; layout != "" {
		return layout
	}
	for i := range it.Order.Cuts {
		switch it.Order.Cuts[i].Piece.Value {
		case "center", "side":
			return "center and sides"
		}
	}
	if it.Face != nil && it.Order.Finished.Width.Value+it.Sides.Takes.Mul(2) <= it.Face.Washed {
		return "one piece"
	}
	if it.StatedCut("piece") != nil {
		return "equal"
	}
	return "center and sides"
}

// equalPieces is how many equal pieces a panel takes; more is a choice where the
// widths and the cuts both say so.
func equalPieces(it *ws.Item) (ws.Result, bool) {
	whole, most, a := it.Length("whole across"), it.Length("widest piece"), it.Allowance
	n := int64(1)
	for n < 100 && (whole+a.Mul(2*(n-1))).Div(n, length.Up) > most {
		n++
	}
	if stated := it.Count("pieces stated"); it.Has("pieces stated") && stated > n && cutsCount(it) == stated {
		n = stated
	}
	return ws.Result{Value: ws.CountOf(n)}, true
}

// cutsCount is how many pieces the order's cuts state in all.
func cutsCount(it *ws.Item) (n int64) {
	for i := range it.Order.Cuts {
		n += it.Order.Cuts[i].Count.Value
	}
	return n
}

// widestSelvedge is wider than any that mills weave; common practice, no source.
const widestSelvedge = inch

// chosenCenter is a stated center width where it is the maker's choice: it is
// narrower than the cloth gives. With sides that fit the full width it is a slip.
func chosenCenter(it *ws.Item) (ws.Result, bool) {
	cut := it.StatedCut("center")
	if cut == nil || !cut.Width.Set {
		return ws.Result{}, false
	}
	c, a, step := it.Face, it.Allowance, it.Step()
	finished, hem, full, stated := it.Length(string(ws.FinishedWidth)), it.Sides.Takes, it.Length("widest piece"), cut.Width.Value
	side := func(center length.Length) length.Length {
		return c.BeforeWash((finished-(center-2*a)).Div(2, length.Up) + a + hem)
	}
	res, _ := as(&cut.Width, ws.LengthOf)
	s := it.StatedCut("side")
	// Cut edge to edge by an allowance that does not hide the selvedge: what is
	// wrong is the allowance.
	if full < c.Washed && ws.Near(stated, c.Width, step) && c.Order.Selvedge.Value <= widestSelvedge {
		return res, s == nil || !s.Width.Set || ws.Near(s.Width.Value, side(c.Washed), step) || !ws.Near(s.Width.Value, side(full), step)
	}
	after := c.AfterWash(stated)
	if after >= full || ws.Near(after, full, step) || after <= 2*a {
		return res, false
	}
	return res, s == nil || !s.Width.Set || !ws.Near(s.Width.Value, side(full), step)
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
func sidesMade(it *ws.Item) (ws.Result, bool) {
	left := it.Length("strip")+it.Allowance+it.Sides.Takes > 0
	return ws.Result{Value: ws.CountOf(2)}, it.Has("strip") && (left || it.StatedCut("side") != nil)
}

// flatSlips are the slips of the widths of a flat panel's pieces.
func flatSlips(k *ws.Kind) {
	const shrunk = "face shrinkage across"
	add := func(of, when, name, formula string, show bool) {
		k.Slips = append(k.Slips,
			ws.Slipping{Of: of, When: both(when, "no "+shrunk), Name: name, Formula: formula, Show: show},
			ws.Slipping{Of: of, When: both(when, shrunk), Name: name, Formula: "(" + formula + ") ÷ (1 - {" + shrunk + "})", Show: show})
	}
	side, strip := "side cut width", "({finished width} - {center shows}) ÷ 2"
	add(side, "", "the center panel's own two allowances were forgotten", "({finished width} - {face washed width}) ÷ 2 + {side hem} + {seam allowance}", true)
	add(side, "", "the side hem was left out", strip+" + {seam allowance}", false)
	add(side, "sides turn, {sides folds} = 2", "the side hem was counted once, not twice", strip+" + {seam allowance} + {sides turn}", false)
	add(side, "sides turn, {sides folds} = 3", "the side hem was counted once, not three times", strip+" + {seam allowance} + {sides turn}", false)
	add(side, "", "the seam allowance was left out", strip+" + {side hem}", false)
	add(side, "", "seam allowance and hem were left out", strip, false)
	add(side, "", "it was not halved: this is for both sides", "{finished width} - {center shows} + {seam allowance} + {side hem}", false)
	add(side, "", "the seam allowance was added twice", strip+" + 2 × {seam allowance} + {side hem}", false)
	piece, w := "piece cut width", "({finished width} + 2 × {side hem}"
	add(piece, "pieces across", "the side hems were left out", "({finished width} + 2 × {seam allowance} × ({pieces across} - 1)) ÷ {pieces across}", false)
	add(piece, "pieces across", "one side hem was left out", "({finished width} + {side hem} + 2 × {seam allowance} × ({pieces across} - 1)) ÷ {pieces across}", false)
	add(piece, "no pieces across", "one side hem was left out", "{finished width} + {side hem}", false)
	add(piece, "pieces across, {joins} > 0", "the seam allowances were left out", w+") ÷ {pieces across}", false)
	add(piece, "pieces across, {joins} > 0", "each join takes the allowance from both pieces; one was counted", w+" + {seam allowance} × {joins}) ÷ {pieces across}", false)
	add(piece, "pieces across, {joins} > 0", "a join was counted for every piece; there is one less", w+" + 2 × {seam allowance} × {pieces across}) ÷ {pieces across}", false)
	add(piece, "pieces across, {joins} > 0", "it was divided by the joins, not the pieces", w+" + 2 × {seam allowance} × {joins}) ÷ {joins}", false)
	add(piece, "", "hems and seams were left out: this is the finished width", "{finished width}", false)
	k.Slips = append(k.Slips, ws.Slipping{Of: "center cut width", Name: "this is the usable width; the cloth is cut edge to edge", Formula: "{usable width}"},
		ws.Slipping{Of: "center cut width", Name: "half of it: a width is split after it is cut to length", Formula: "{center cut width} ÷ 2"})
	for _, of := range []string{string(ws.Widths), "piece count", "center count", "side count"} {
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
