package goods

import (
	"slices"

	"cutgate/internal/length"
	ws "cutgate/internal/worksheet"
)

const (
	drapery   = "Contract Decor, Calculating Drapery Yardage"
	wholeHalf = "Contract Decor, Calculating Drapery Yardage: whole and half widths only"
	fullSheet = "Decorating Basics, Fullness and what it means"
	pleated   = "Singer Sewing for the Home, pleats: one more pleat than spaces"
)

// curtain is a gathered or pleated hanging of one panel or more.
func curtain() *ws.Kind {
	k := &ws.Kind{
		Name: "curtain", Fitted: []string{"hangs", "gathered", "at a window"},
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "lining", Field: "lining.cloth"}, {Name: "interlining", Field: "interlining.cloth"},
			{Name: "band", Field: "band.cloth", Else: "face"}, {Name: "tabs", Field: "heading.tab_cloth", Else: "face"},
			{Name: "tie-backs", Field: "tie_backs.cloth", Else: "face"}},
		Setup: setUpCurtain,
	}
	cloths(k)
	hangingHems(k)
	seam(k)
	sizes(k)
	band(k)
	headingAllowance(k)
	window(k)
	runs(k)
	const headed, hemmed = "heading allowance", "no heading allowance"
	cut(k, "", "face", ws.CutLength, talmadge,
		run{when: both(upright, headed+", no band depth"), sum: "{finished length} + {heading allowance} + {bottom hem}", slips: faceSlips("heading allowance")},
		run{when: both(upright, hemmed+", no band depth"), sum: "{finished length} + {top hem} + {bottom hem}", slips: faceSlips("top hem")},
		run{when: both(upright, headed), sum: "{finished length} - {band depth} + {heading allowance} + {band seam}", slips: bandSlips("heading allowance")},
		run{when: both(upright, hemmed), sum: "{finished length} - {band depth} + {top hem} + {band seam}", slips: bandSlips("top hem")})
	gathered(k)
	turnedPieces(k)
	halfDrop(k)
	curtainBand(k)
	behind(k, "lining", ws.LiningCut, ws.LiningWidths)
	behind(k, "interlining", ws.InterliningCut, ws.InterliningWidths)
	headings(k)
	tieBacks(k)
	weights(k)
	curtainEdges(k)
	hanging(k, false, foot{"", "{panel width, flat} × {panels}"}, foot{"", "{finished width}"})
	sewing(k)
	k.Given = append(k.Given, ws.Given{Term: "stack share", Sort: ws.Ratio, Get: func(it *ws.Item) (ws.Value, bool) { return ws.RatioOf(stackShare(it)), true }})
	k.Steps = append(k.Steps, ws.Step{Term: string(ws.StackBack), When: "{stack share} > 0", Formula: "{panel width, flat} × {panels} × {stack share}", Source: stackSource, Plain: true})
	press(k)
	k.Unlikely = append(k.Unlikely, oddHoles...)
	k.Unlikely = append(k.Unlikely,
		ws.Unlikely{What: "an odd number of eyelets", Cost: 250, Is: func(it *ws.Item) bool { return it.Has("hole span") && it.Count(string(ws.HoleCount))%2 == 1 }},
		ws.Unlikely{What: "pleats closer or wider apart than usual", Cost: 150, Is: func(it *ws.Item) bool {
			gap, l := it.Sheet.Tables.House.PleatGap, it.Length(string(ws.PleatSpacing))
			return l != 0 && (l < gap.Least || l > gap.Most)
		}},
		ws.Unlikely{What: "fuller or less full than the heading wants", Cost: 150, Is: func(it *ws.Item) bool {
			if it.Heading == nil || !it.Has("fullness") {
				return false
			}
			f, slack := it.Ratio("fullness"), it.Sheet.Tables.House.FullnessSlack
			most, _ := it.Fullest()
			return f.Cmp(most.Add(slack)) > 0 || f.Add(slack).Cmp(it.Heading.Least) < 0
		}},
		ws.Unlikely{What: "tabs closer or wider apart than usual", Cost: 150, Is: func(it *ws.Item) bool {
			gap, l := it.Sheet.Tables.House.TabGap, it.Length(string(ws.TabGap))
			return l != 0 && (l < gap.Least || l > gap.Most)
		}})
	k.Finish = func(it *ws.Item) {
		it.Joins = it.Count("joins")
		if it.Has("first join") && !it.Order.PanelWidth.Set {
			for i := int64(0); i < min(it.Joins, mostJoins); i++ {
				it.Joined = append(it.Joined, it.Length("first join")+it.Length("join to join").Mul(i))
			}
		}
		punch(it)
	}
	return k
}

// mostJoins is more than anybody sews into one panel.
const mostJoins = 500

func setUpCurtain(it *ws.Item) {
	o := it.Order
	it.Panels = max(1, ws.Or(o.Panels, 2))
	if style := o.Heading.Style.Value; style != "" {
		it.Heading = it.Sheet.Tables.Heading(style)
	}
	where := "floor"
	if to := o.Hang.To.Value; to == "sill" || to == "below sill" {
		where = "sill"
	}
	if it.Face != nil && it.Face.Class != nil && it.Face.Class.Name == "sheer" {
		where = "sheer"
	}
	it.Bottom, it.Sides = it.HemOf(&o.Hems.Bottom, "bottom", where), it.HemOf(&o.Hems.Sides, "sides", "")
	it.Top = ws.Hem{Order: &o.Hems.Top, Folds: 2}
	if o.Hems.Top.Set {
		it.Top = it.HemOf(&o.Hems.Top, "top", "")
	}
	if o.Lining.Set {
		it.LiningHem = it.HemOf(&o.Lining.Hem, "lining", "")
	} else {
		it.LiningHem = ws.Hem{Order: &o.Lining.Hem}
	}
	seamOf(it)
}

// hangs is what a curtain hangs by.
func hangs(it *ws.Item) string {
	if it.Heading == nil {
		return ""
	}
	return it.Heading.Hangs
}

// topDrop is how far a curtain's top edge stands above the level that it hangs
// from: the hooks, where a ring's bore or a pocket rests on the pole. One on tabs
// hangs below it.
func topDrop(it *ws.Item) length.Length {
	o := it.Order
	switch by := hangs(it); {
	case by == "holes" && o.Holes.FromTop.Set:
		bore := o.Holes.Bore.Value
		if o.Holes.Flange.Set {
			bore = min(bore, o.Holes.Flange.Value) // the two may be changed about
		}
		return o.Holes.FromTop.Value - bore/2
	case o.Heading.HookDrop.Set:
		return o.Heading.HookDrop.Value
	case by == "tabs" && o.Heading.TabDrop.Set:
		return -o.Heading.TabDrop.Value
	case by == "pocket" && o.Heading.Header.Set:
		return o.Heading.Header.Value
	}
	return it.Sheet.Tables.House.HookDrop
}

// dropUnsaid reports whether the order does not say how far a curtain's top edge
// is from the level that it hangs from. A stated length may then be right for
// any distance that headings have.
func dropUnsaid(it *ws.Item) bool {
	o := it.Order
	if it.Heading == nil || o.Heading.HookDrop.Set {
		return false
	}
	switch it.Heading.Hangs {
	case "holes":
		return !o.Holes.FromTop.Set
	case "tabs":
		return !o.Heading.TabDrop.Set
	case "pocket":
		return !o.Heading.Header.Set
	}
	return true
}

// hangsTo is where the foot of a curtain comes to.
func hangsTo(it *ws.Item) string { return ws.Or(it.Order.Hang.To, "floor") }

// window adds the finished length: from the window where the order says where the
// foot comes to, and as stated otherwise.
func window(k *ws.Kind) {
	drops := []string{"heading.hook_drop", "heading.tab_drop", "heading.header", "holes.from_top", "holes.bore", "holes.flange", "heading.style"}
	edges(k, "track.above_floor", topDrop, drops...)
	// clear is one distance of the foot, by where it comes to.
	clear := func(term string, house func(*ws.Item) length.Length, c ws.Choosing, to ...string) ws.Given {
		return ws.Given{Term: term, Name: ws.Spoken(term), From: []string{"hang.clearance", "hang.to"}, Get: func(it *ws.Item) (ws.Value, bool) {
			return ws.LengthOf(ws.Or(it.Order.Hang.Clearance, house(it))), slices.Contains(to, hangsTo(it))
		}, Choice: &c}
	}
	k.Given = append(k.Given,
		ws.Given{Term: "hook level", Name: "height above the sill", From: []string{"track.above_sill", "track.above_floor", "hang.to"}, Get: func(it *ws.Item) (ws.Value, bool) {
			level := it.Order.Track.AboveFloor
			if to := hangsTo(it); to == "sill" || to == "below sill" {
				level = it.Order.Track.AboveSill
			}
			return ws.LengthOf(level.Value), level.Set
		}, Choice: &ws.Choosing{Low: in(16 * 10), High: in(16 * 300)}},
		clear("clearance", func(it *ws.Item) length.Length { return it.Sheet.Tables.House.Clearance }, ws.Choosing{Low: in(2), High: in(16 * 14), Usual: []string{"1/4 in", "3/8 in", "1/2 in", "3/4 in", "1 in", "1 cm", "12 mm", "1.2 cm", "15 mm", "1.5 cm", "2 cm"}}, "floor", "sill"),
		clear("below the sill", func(it *ws.Item) length.Length { return it.Sheet.Tables.House.BelowSill }, ws.Choosing{Low: in(32), High: in(16 * 12), Usual: []string{"4 in", "6 in", "8 in", "10 cm", "15 cm", "20 cm"}}, "below sill"),
		clear("on the floor", func(it *ws.Item) length.Length { return it.Sheet.Tables.House.Puddle }, ws.Choosing{Low: in(8), High: in(16 * 12), Usual: []string{"1 in", "2 in", "3 in", "6 in", "3 cm", "5 cm", "10 cm", "15 cm"}}, "puddle"),
		ws.Given{Term: "heading allowance stated", Name: "heading allowance", Shown: "heading allowance", From: []string{"heading.allowance"},
			Choice: &ws.Choosing{Low: in(4), High: in(16 * 12), Usual: []string{"1 1/2 in", "2 in", "3 in", "4 in", "6 in", "8 in", "3 cm", "5 cm", "8 cm", "10 cm", "15 cm", "20 cm"}}},
		ws.Given{Term: "usual heading allowance", From: []string{"heading.style", "hems.top"}, Get: func(it *ws.Item) (ws.Value, bool) {
			switch {
			case it.Order.Hems.Top.Set:
				return ws.Value{}, false
			case it.Heading != nil:
				return ws.LengthOf(it.Heading.Allowance), true
			}
			return ws.LengthOf(0), true
		}},
		ws.Given{Term: "hook drop", From: []string{"heading.hook_drop"}, Choice: &ws.Choosing{High: in(16 * 8), Usual: []string{"1/2 in", "1 in", "1 1/2 in", "2 in", "2 cm", "3 cm", "4 cm", "5 cm"}}},
		ws.Given{Term: "tab drop", From: []string{"heading.tab_drop"}, Choice: &ws.Choosing{Low: in(16), High: in(16 * 12)}},
		ws.Given{Term: "holes from top", Name: "distance of the holes from the top", From: []string{"holes.from_top"}, Choice: &ws.Choosing{Low: in(8), High: in(16 * 6)}},
		ws.Given{Term: "bore", From: []string{"holes.bore"}, Choice: &ws.Choosing{Low: in(4), High: in(16 * 4)}})
	length_ := string(ws.FinishedLength)
	reads := append([]string{"finished length stated", "hook level", "clearance", "below the sill", "on the floor", "top edge above it", "top edge below it"},
		"heading allowance", "top hem", "bottom hem", "face shrinkage", "face repeat")
	formula := "{hook level} [+ {top edge above it}] [- {top edge below it}]"
	const src = "Inweave Fabric and RLF Home, measuring pages: 1/2 in clear"
	step := func(when, f string) ws.Step {
		return ws.Step{Term: length_, When: when, Formula: formula + f, Round: length.Down, Source: src, Ends: true, Positive: true}
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: length_, Work: lengthChosen, Reads: reads, Ends: true, Own: true},
		ws.Step{Term: length_, When: "hook level", Work: lengthBelieved, Reads: reads, Ends: true, Belief: true},
		step("clearance", " - {clearance}"), step("below the sill", " + {below the sill}"), step("on the floor", " + {on the floor}"))
	for _, when := range []string{"hangs by: hooks/pocket/tabs", "hangs by: holes, holes from top", "hangs by: holes, hook drop"} { // or nobody knows how high it hangs
		gap := footGap
		gap.When = when
		k.Steps = append(k.Steps, gap)
	}
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: length_, Field: "finished.length"})
	k.Slips = append(k.Slips,
		ws.Slipping{Of: length_, When: "clearance", Name: "the clearance was left out", Formula: formula},
		ws.Slipping{Of: length_, When: "clearance", Name: "the clearance had the wrong sign", Seldom: true, Formula: formula + " + {clearance}"},
		ws.Slipping{Of: length_, When: "below the sill", Name: "the part below the sill was left out", Formula: formula},
		ws.Slipping{Of: length_, When: "on the floor", Name: "the part on the floor was left out", Formula: formula})
	for _, foot := range []string{"- {clearance}", "+ {below the sill}", "+ {on the floor}"} {
		term := foot[3 : len(foot)-1]
		k.Slips = append(k.Slips,
			ws.Slipping{Of: length_, When: both("top edge above it", term), Name: "the part above the hook level was left out", Formula: "{hook level} " + foot},
			ws.Slipping{Of: length_, When: both("top edge above it", term), Name: "the part above the hook level had the wrong sign", Seldom: true, Formula: "{hook level} - {top edge above it} " + foot},
			ws.Slipping{Of: length_, When: both("top edge below it", term), Name: "the part below the hook level was left out", Formula: "{hook level} " + foot},
			ws.Slipping{Of: length_, When: both("top edge below it", term), Name: "the part below the hook level had the wrong sign", Seldom: true, Formula: "{hook level} + {top edge below it} " + foot})
	}
}

// headingAllowance adds the cloth above the finished top of a curtain without a top hem.
func headingAllowance(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "heading", From: []string{"heading.style", "holes"}, Word: func(it *ws.Item) string {
			switch by := hangs(it); {
			case by == "holes" && it.Order.Holes.Set, by == "pocket", by == "tabs":
				return by
			case it.Heading != nil && it.Heading.Pleats:
				return "pleats"
			}
			return ""
		}},
		ws.Given{Term: "hangs by", From: []string{"heading.style"}, Word: hangs},
		ws.Given{Term: "rod diameter", From: []string{"track.diameter"}, Choice: &ws.Choosing{Low: in(6), High: in(16 * 4), Usual: []string{"1/2 in", "3/4 in", "1 in", "1 1/4 in", "1 3/8 in", "2 in", "16 mm", "19 mm", "20 mm", "25 mm", "28 mm", "30 mm", "35 mm", "2 cm", "2.5 cm", "2.8 cm", "3 cm", "3.5 cm"}}})
	rodPocket(k, "heading: pocket", "rod diameter", "no band depth")
	const allowance = "heading allowance"
	steps(k,
		step{allowance, "heading allowance stated", "{heading allowance stated}", "near, hidden", ws.Common},
		step{allowance, "pocket made, usual heading allowance", headerPocketTurn, "near", headerOver},
		step{allowance, "usual heading allowance", "{usual heading allowance}", "near, hidden", ws.Common})
	mayBeNothing(k, allowance)
}

// lengthChosen is the stated length where the order does not say where the foot
// comes to, or not from what height.
func lengthChosen(it *ws.Item) (ws.Result, bool) {
	stated := &it.Order.Finished.Length
	if it.Has("hook level") && !(stated.Set && !it.Order.Hang.To.Set) {
		return ws.Result{}, false
	}
	return as(stated, ws.LengthOf)
}

// lengthBelieved is a stated length that may be right though it is not the worked
// one: how far the top edge is from the hooks is not said, or the clearance is not.
func lengthBelieved(it *ws.Item) (ws.Result, bool) {
	o := it.Order
	stated := &o.Finished.Length
	if !stated.Set {
		return ws.Result{}, false
	}
	level, top := it.Length("hook level"), topDrop(it)
	below := it.Has("clearance")
	l := level + top + it.Length("below the sill") + it.Length("on the floor")
	if below {
		l = level + top - it.Length("clearance")
	}
	if l <= 0 {
		return ws.Result{}, false
	}
	res, _ := as(stated, ws.LengthOf)
	if dropUnsaid(it) && !cutSaysLength(it, l, stated.Value) {
		over := stated.Value - l
		if hangs(it) == "tabs" {
			over = -over
		} else if below {
			over = stated.Value - level
		}
		if over > 0 && over <= 6*inch {
			return res, true
		}
	}
	// Clearances in print run from 3/8 in to 1 in, so without one of the order's
	// own a length within those is the maker's choice.
	if o.Hang.Clearance.Set {
		return res, false
	}
	gap := level + top - stated.Value
	return res, below && gap >= inch*3/8 && gap <= inch || !below && puddleOrSill(stated.Value-level-top)
}

// puddleOrSill reports whether a length below the sill, or on the floor, is one that
// a maker chooses.
func puddleOrSill(beyond length.Length) bool { return beyond >= 0 && beyond <= 12*inch }

// cutSaysLength reports whether the stated cut is right for the one finished
// length and not for the other.
func cutSaysLength(it *ws.Item, one, other length.Length) bool {
	c := it.StatedCut("width")
	if c == nil || !c.Length.Set {
		return false
	}
	top, foot := topTakes(it), it.Bottom.Takes
	if it.Has("band depth") {
		foot = it.Length("band seam") - it.Length("band depth")
	}
	fits := func(l length.Length) bool {
		return ws.Near(c.Length.Value, it.Face.CutOf(l+top+foot), it.Step())
	}
	return fits(one) && !fits(other)
}

// topTakes is the cloth above the finished top.
func topTakes(it *ws.Item) length.Length {
	if it.Has("heading allowance") {
		return it.Length("heading allowance")
	}
	return it.Length("top hem")
}

// gathered adds the widths of cloth that go into the panels.
func gathered(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "track", Name: "track width", From: []string{"track.width"}, Choice: &ws.Choosing{Low: in(16 * 12), High: in(16 * 600), Swap: "height above the floor", Ordered: true}},
		ws.Given{Term: "return", From: []string{"track.return"}, Choice: &ws.Choosing{Low: in(8), High: in(16 * 12), Swap: "overlap", Usual: []string{"3 in", "3 1/2 in", "4 in", "6 in", "8 cm", "9 cm", "10 cm", "15 cm"}}},
		ws.Given{Term: "overlap", From: []string{"track.overlap", "panels"}, Get: func(it *ws.Item) (ws.Value, bool) {
			l := it.Order.Track.Overlap
			return ws.LengthOf(l.Value), l.Set && it.Panels > 1
		}, Choice: &ws.Choosing{Low: in(16), High: in(16 * 16), Swap: "return", Usual: []string{"2 in", "3 in", "4 in", "6 in", "5 cm", "8 cm", "10 cm", "15 cm"}}},
		ws.Given{Term: "panels", Sort: ws.Count, From: []string{"panels"}, Get: func(it *ws.Item) (ws.Value, bool) { return ws.CountOf(it.Panels), true },
			Choice: &ws.Choosing{Least: 1, Most: 4, Usual: []string{"2", "1"}, Ordered: true}},
		ws.Given{Term: "fullness", Sort: ws.Ratio, From: []string{"heading.fullness", "heading.style"}, Get: func(it *ws.Item) (ws.Value, bool) {
			f := it.Order.Heading.Fullness
			r := f.Value
			if !f.Set && it.Heading != nil {
				r = it.Heading.Usual
			}
			return ws.RatioOf(r), !r.IsZero()
		}, Choice: &ws.Choosing{Usual: []string{"1.5", "1.75", "2", "2.25", "2.5", "3"}}},
		ws.Given{Term: "side hems", From: []string{"hems.sides", "panels"}, Get: func(it *ws.Item) (ws.Value, bool) {
			return ws.LengthOf(it.Sides.Takes.Mul(2 * it.Panels)), true
		}},
		ws.Given{Term: "panel width stated", Name: "panel width", From: []string{"panel_width"}, Choice: &ws.Choosing{Low: in(16 * 10), High: in(16 * 400)}})
	k.Given = append(k.Given, ws.Given{Term: "face", Word: func(it *ws.Item) string { return it.Sheet.Tables.House.Face }})
	width := string(ws.FinishedWidth)
	k.Steps = append(k.Steps,
		ws.Step{Term: width, When: "no track", Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Finished.Width, ws.LengthOf) }, Reads: []string{"finished width stated"}, Ends: true, Own: true},
		ws.Step{Term: width, Formula: "{track} [+ {overlap}] [+ 2 × {return}]", Source: drapery, Ends: true},
		ws.Step{Term: "returns after", Work: returnsAfter, Reads: []string{"finished width", "fullness", "return", "side hems"}, Sort: ws.Count, Hidden: true, Belief: true},
		ws.Step{Term: "returns after", Work: returnsAsked, Reads: []string{"finished width"}, Sort: ws.Count, Hidden: true},
		ws.Step{Term: string(ws.FlatWidth), When: "{returns after} = 1, track, return, {return} > 0", Formula: "({finished width} - 2 × {return}) × {fullness} + 2 × {return} + {side hems}",
			Round: length.Up, Source: "eHow UK, How to calculate the amount of fabric needed for curtains"},
		ws.Step{Term: string(ws.FlatWidth), Formula: "{finished width} × {fullness} + {side hems}", Round: length.Up, Source: drapery})
	usable(k, "", "", "face", both(upright, "flat width"))
	k.Steps = append(k.Steps,
		ws.Step{Term: string(ws.WidthsExact), Formula: "({flat width} - 2 × {panels} × {join margin}) ÷ {usable width}", Sort: ws.Ratio, Source: wholeHalf},
		ws.Step{Term: "whole widths", Formula: "rounded up (" + wholeIn("{flat width} ÷ {panels}", "") + ")", Sort: ws.Ratio, Hidden: true},
		ws.Step{Term: "half widths", Formula: halfIn("{flat width} ÷ {panels}", ""), Sort: ws.Ratio, Hidden: true},
		ws.Step{Term: "least widths", When: "{half widths} < {whole widths}, {half widths} > 0", Formula: "{half widths}", Sort: ws.Ratio, Hidden: true},
		ws.Step{Term: "least widths", Formula: "{whole widths}", Sort: ws.Ratio, Hidden: true},
		ws.Step{Term: string(ws.WidthsPerPanel), When: "widths before rounding, {finished width} > 0", Work: widthsChosen, Reads: []string{"widths before rounding", "least widths", "join margin", "panels", "usable width", "side hem", "finished width", "face width"}, Sort: ws.Ratio, Round: length.Up, Belief: true},
		ws.Step{Term: string(ws.WidthsPerPanel), When: "{half widths} < {whole widths}, {half widths} > 0", Formula: halfIn("{flat width} ÷ {panels}", ""), Sort: ws.Ratio, Round: length.Up, Source: wholeHalf, Positive: true},
		ws.Step{Term: string(ws.WidthsPerPanel), Formula: "rounded up (" + wholeIn("{flat width} ÷ {panels}", "") + ")", Sort: ws.Ratio, Round: length.Up, Source: wholeHalf, Positive: true},
		ws.Step{Term: string(ws.Widths), Formula: "{widths in a panel} × {panels}", Sort: ws.Ratio, Round: length.Up, Source: wholeHalf},
		ws.Step{Term: "joins", When: both(turned, "flat width"), Formula: "0", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "joins", Formula: "rounded up ({widths in a panel}) - 1", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "joined", Formula: "the larger of ({joins} + 1, 1)", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "joined width", Name: "cloth width", Formula: "the smaller of ({face washed width}, {usable width} + 2 × {join margin})", Hidden: true},
		ws.Step{Term: string(ws.PanelWidth), When: "panel width stated, joins", Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.PanelWidth, ws.LengthOf) }, Reads: []string{"panel width stated"}},
		ws.Step{Term: string(ws.PanelWidth), When: both(turned, "flat width"), Formula: "{flat width} ÷ {panels} - 2 × {side hem}", Source: noJoins, Positive: true},
		ws.Step{Term: string(ws.PanelWidth), When: "face: trimmed, {flat width} ÷ {panels} < {widths in a panel} × {joined width} - ({joined width} - {usable width}) × {joins}", Formula: "{flat width} ÷ {panels} - 2 × {side hem}", Round: length.Down, Source: ws.Common, Plain: true, Positive: true},
		ws.Step{Term: string(ws.PanelWidth), When: "{joined width} - {usable width} ≠ 2 × {join margin}", Formula: "{widths in a panel} × {joined width} - ({joined width} - {usable width}) × {joins} - 2 × {side hem}", Source: ws.Common, Plain: true, Positive: true},
		ws.Step{Term: string(ws.PanelWidth), Formula: "{widths in a panel} × {joined width} - 2 × {join margin} × {joins} - 2 × {side hem}", Source: ws.Common, Plain: true, Positive: true},
		ws.Step{Term: "panel as joined", Formula: "{panel width, flat} + 2 × {side hem}", Hidden: true},
		ws.Step{Term: string(ws.Fullness), Formula: "{panel width, flat} × {panels} ÷ {finished width}", Sort: ws.Ratio, Source: fullSheet},
		ws.Step{Term: "first join", Formula: "{joined width} - {side hem} - ({joined width} - {usable width}) ÷ 2", Hidden: true},
		ws.Step{Term: "join to join", Formula: "{usable width}", Hidden: true})
	usableCut, panelCut := unwashed(k, "face", string(ws.UsableWidth)), unwashed(k, "face", "panel as joined")
	k.Steps = append(k.Steps,
		ws.Step{Term: "width to join", When: "{joined width} < {face washed width}", Formula: usableCut + " + 2 × {join margin}", Hidden: true})
	more := "panel as joined, {panel as joined} < {widths in a panel} × {joined width} - ({joined width} - {usable width}) × {joins}"
	notesAs(k, ws.AsJoined, note{"cut down", more + ", {joins} > 0", "cut each panel down to " + panelCut + " once it is joined, at the edge away from the leading one, before its sides are turned"})
	notesAs(k, ws.AsCut, note{"cut down", more + ", {joins} = 0", "cut each width down to " + panelCut + ", at the edge away from the leading one, before its sides are turned"})
	k.Outcomes = append(k.Outcomes,
		ws.Outcome{Term: width, Field: "finished.width", Hand: ws.Size},
		ws.Outcome{Term: string(ws.FlatWidth), Field: "flat_width", Hand: ws.Loose, AsRight: func(it *ws.Item) []length.Length { return it.Rounder(string(ws.FlatWidth)) }},
		ws.Outcome{Term: string(ws.Widths), Field: "widths", Hand: ws.Counted})
	lengths(k, "width", "face", string(ws.CutLength), string(ws.Widths), func(it *ws.Item) []length.Length {
		return cutDownTo(it, it.Face, it.Length(string(ws.FlatWidth)))
	}, nil)
	flat := string(ws.FlatWidth)
	slips(k,
		slip{width, "the overlap was left out", "{track} [+ 2 × {return}] + 0 × {overlap}"},
		slip{width, "the return was counted once, not twice", "{track} [+ {overlap}] + {return}"},
		slip{width, "the return was left out", "{track} [+ {overlap}] + 0 × {return}"})
	slipsWhen(k, "{sides folds} > 1", slip{flat, sideOnce, "{flat width} - {side hems} + 2 × {panels} × {sides turn}"})
	slips(k,
		slip{flat, "the side hems were left out", "{flat width} - {side hems}"},
		slip{flat, "half of the side hems were left out", "{flat width} - {side hems} ÷ 2"},
		slip{flat, "the fullness was left out", "{finished width}"})
	k.Slips = append(k.Slips,
		ws.Slipping{Of: width, Name: "the overlap had the wrong sign", Seldom: true, Formula: "{track} [+ 2 × {return}] - {overlap}"},
		ws.Slipping{Of: width, Name: "the return had the wrong sign", Seldom: true, Formula: "{track} [+ {overlap}] - 2 × {return}"},
		ws.Slipping{Of: flat, Name: "the side hems had the wrong sign", Seldom: true, Formula: "{flat width} - 2 × {side hems}"})
	miscounted(k, string(ws.Widths))
}

const sideOnce = "the side hems were counted once, not folded twice"

// wholeIn is how many widths a panel asks for, given before the rounding: its outer edges
// are not joined, and give their allowances back. Before is put before the terms of
// another cloth than the face.
func wholeIn(flat, before string) string {
	return "(" + flat + " - 2 × {" + before + "join margin}) ÷ {" + before + string(ws.UsableWidth) + "}"
}

// halfIn is how many widths a panel asks for with a half one at its edge, which is
// joined on one side.
func halfIn(flat, before string) string {
	return "rounded up ((" + flat + " - {" + before + "join margin}) ÷ {" + before + string(ws.UsableWidth) + "} - 1 ÷ 2) + 1 ÷ 2"
}

// asMadeUp is a panel as it is joined, before its side hems are turned: nothing is cut
// off the face unless the order says how wide it is.
const asMadeUp = "{panel as joined}"

const stackSource = "Measuring for stackback, 2008: 5 to 6 in for each width of 54 in, about a tenth of the flat cloth"

// stackShare is the part of its flat cloth that a curtain drawn back takes, by the
// weight of the cloth and by what lies behind it.
func stackShare(it *ws.Item) length.Ratio {
	house := &it.Sheet.Tables.House
	if it.Face == nil || it.Face.Class == nil {
		return house.StackShare
	}
	share := it.Face.Class.Stack
	if it.Order.Lining.Set {
		share = share.Add(house.StackLayer)
	}
	if it.Order.Interlining.Set {
		share = share.Add(house.StackLayer).Add(house.StackLayer)
	}
	return share
}

// weights adds how many single weights the foot takes, where the order does not say.
func weights(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "weights kind", From: []string{"weights.kind"}, Usually: ws.Silent},
		ws.Given{Term: "cloth's class", From: []string{"face/class", "face/weight"}, Word: func(it *ws.Item) string {
			if it.Face == nil || it.Face.Class == nil {
				return ""
			}
			return it.Face.Class.Name
		}},
		ws.Given{Term: "weight spacing", Get: func(it *ws.Item) (ws.Value, bool) {
			l := it.Sheet.Tables.House.WeightSpacing
			return ws.LengthOf(l), l > 0
		}},
		ws.Given{Term: "weights stated", Sort: ws.Count, From: []string{"weights.count"}})
	steps(k,
		step{"weights", "weights kind: single, no weights stated, cloth's class: sheer/light", "(rounded up ({panel width, flat} ÷ {weight spacing}) + 1) × {panels}", "whole", "eHow UK, How to use drapery weights: every 12 in in light cloth"},
		step{"weights", "weights kind: single, no weights stated, {panel width, flat} > 0", "({joins} + 2) × {panels}", "whole", ws.Common + ": at both bottom corners and every join"})
}

// halfDrop adds how the cuts of a half-drop cloth go in two phases: all of A and then all of
// B, or by turns down the bolt, where the order's cuts say so, and what that would save.
func halfDrop(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "match", From: []string{"face/repeat.match"}, Usually: ws.Silent})
	steps(k,
		step{"cuts A", "match: half drop, face repeat, {joins} > 0", "rounded up ({width count} × {quantity} ÷ 2)", "whole", twoPhases},
		step{"cuts B", "cuts A", "{width count} × {quantity} - {cuts A}", "whole", twoPhases},
		step{"by turns", "cuts A, no half repeats, {waste per cut} ≥ {face repeat} ÷ 2, {widths in a panel} = rounded down ({widths in a panel})", "({cuts A} + {cuts B} - 1) × ({cut length} - {face repeat} ÷ 2) + {cut before the repeat}", "up, hidden", ""},
		step{"by turns saves", "by turns", "({cuts A} + {cuts B}) × {cut length} - {by turns}", "down, hidden", ""})
	const name = ws.CutLength
	stepsBefore(k, string(name),
		ws.Step{Term: "half repeats", When: "match: half drop, face repeat", Work: halfRepeats, Reads: []string{string(ws.RawCut), string(ws.Repeats), "face repeat", "panels"}, Sort: ws.Count, Hidden: true, Belief: true},
		ws.Step{Term: string(name), Name: name, When: "half repeats, face repeat", Formula: "{half repeats} × {face repeat} ÷ 2", Round: length.Up, Source: twoPhases})
}

// halfRepeats is how many half repeats the order's cuts take, where that is the least odd number
// that is enough, or half a repeat on top of whole ones as some houses have it, and whole widths
// are joined: each cut then starts where the one before it ends.
func halfRepeats(it *ws.Item) (ws.Result, bool) {
	c := it.StatedCut("width")
	if c == nil {
		return ws.Result{}, false
	}
	widths := ws.Or(it.Order.Widths, length.NewRatio(ws.Or(c.Count, 2*it.Panels), 1))
	if each := widths.Quo(length.NewRatio(it.Panels, 1)); each.Den != 1 || each.Num < 2 {
		return ws.Result{}, false
	}
	repeat, more := it.Length("face repeat"), 2*it.Count(string(ws.Repeats))+1
	each := func(n int64) length.Length { return repeat.Mul(n).Div(2, length.Up) }
	least := more
	if each(more-2) >= it.Length(string(ws.RawCut)) {
		least -= 2
	}
	for _, n := range [2]int64{least, more} {
		if ws.Near(c.Length.Value, each(n), it.Step()) && (n == least || it.Sheet.Tables.House.HalfDrop == "half on each cut") {
			return ws.Result{Value: ws.CountOf(n), Source: "the order"}, true
		}
	}
	return ws.Result{}, false
}

const twoPhases = "My Decozo forum, Half drop pattern repeats: every other cut starts half a repeat on"

// curtainBand adds a band along the foot: widths of its cloth, joined to the width of
// the panel as it is made up.
func curtainBand(k *ws.Kind) {
	usable(k, "band ", "band", "band", "band depth")
	steps(k,
		step{"band whole", "band depth", "rounded up (" + wholeIn(asMadeUp, "band ") + ")", "share, hidden", ""},
		step{"band half", "band depth", halfIn(asMadeUp, "band "), "share, hidden", ""},
		step{"band widths", "{band half} < {band whole}", "{band half} × {panels}", "share", ws.Common},
		step{"band widths", "", "{band whole} × {panels}", "share", ws.Common})
	pieces(k, piece{"band", "band", "the cloth", alongBand, "rounded up ({band widths})", "band widths"})
	rounder(k, "band")
	alongBandSlips(k, "band cut length")
	k.Slips = append(k.Slips, ws.Slipping{Of: "band cut width", Name: "this is half; a width is split after it is cut", Formula: "{band cut width} ÷ 2"})
}

// returnsAfter is 1 where a stated flat width says that the returns are added after
// the fullness, 0 where it says that they have it too.
func returnsAfter(it *ws.Item) (ws.Result, bool) {
	o := it.Order
	if !o.FlatWidth.Set || o.Heading.Returns.Set || !it.Has("fullness") || !it.Has("return") || !it.Has(string(ws.FinishedWidth)) {
		return ws.Result{}, false
	}
	f, sides, returns := it.Ratio("fullness"), it.Length("side hems"), it.Length("return").Mul(2)
	covered := it.Length(string(ws.FinishedWidth)) - returns
	after := covered.MulRatio(f, length.Up) + returns + sides
	with := covered.MulRatio(f, length.Up) + returns.MulRatio(f, length.Up) + sides
	house := it.Sheet.Tables.House.Returns == "after fullness"
	switch step := it.Step(); {
	case ws.Near(o.FlatWidth.Value, after, step):
		return ws.Result{Value: ws.CountOf(1)}, !house
	case ws.Near(o.FlatWidth.Value, with, step):
		return ws.Result{Value: ws.CountOf(0)}, house
	}
	return ws.Result{}, false
}

// returnsAsked is what the order says of the returns, or else the house.
func returnsAsked(it *ws.Item) (ws.Result, bool) {
	n := int64(0)
	if ws.Or(it.Order.Heading.Returns, it.Sheet.Tables.House.Returns) == "after fullness" {
		n = 1
	}
	return ws.Result{Value: ws.CountOf(n)}, true
}

// widthsChosen is the maker's number of widths in a panel. A stated number is the
// maker's choice where it is a little scant, four in place of 4.08, or makes a half
// width whole, and the cuts, if they are stated, don't say that it is not.
func widthsChosen(it *ws.Item) (ws.Result, bool) {
	per := it.Ratio(string(ws.WidthsExact)).Quo(length.NewRatio(it.Panels, 1))
	halves := it.Ratio("least widths").Mul(length.NewRatio(2, 1)).Int(length.Up)
	stated, cuts := it.Order.Widths, cutCount(it, "width", it.Face)
	whole, chosen := halves+halves%2, halves
	if !stated.Set {
		if cuts == whole/2*it.Panels && takesUp(it, whole) {
			chosen = whole
		}
	} else if want := stated.Value.Mul(length.NewRatio(2, it.Panels)); want.Den <= 1 && want.Num >= 1 && (cuts != (halves*it.Panels+1)/2 || cuts == stated.Value.Int(length.Up)) {
		if want.Num == whole && takesUp(it, whole) || want.Num < halves && scant(it.Sheet, per, length.NewRatio(want.Num, 2)) {
			chosen = want.Num
		}
	}
	return ws.Result{Value: ws.RatioOf(length.NewRatio(chosen, 2)), Source: "the order"}, chosen != halves && halves > 0
}

// takesUp reports whether a panel may have so many half widths, more than its
// fullness asks for: the length that the other half is cut from is cut anyway, or
// the heading takes up the fullness that they make.
func takesUp(it *ws.Item, halves int64) bool {
	if it.Panels == 1 {
		return true
	}
	if it.Heading == nil {
		return false
	}
	most, _ := it.Fullest()
	flat := it.Length(string(ws.UsableWidth)).MulRatio(length.NewRatio(halves*it.Panels, 2), length.Down) - it.Length("side hems")
	return length.RatioOf(flat, it.Length(string(ws.FinishedWidth))).Cmp(most.Add(it.Sheet.Tables.House.FullnessSlack)) <= 0
}

// cutCount is how many of a piece the order's cuts state; 0 where one of them
// leaves it out, or is half a width.
func cutCount(it *ws.Item, piece string, c *ws.Cloth) (n int64) {
	for i := range it.Order.Cuts {
		k := &it.Order.Cuts[i]
		if !ws.SamePiece(k.Piece.Value, piece) || k.Cloth.Set && k.Cloth.Value != c.Name {
			continue
		}
		if !k.Count.Set || k.Width.Set && ws.IsHalf(k.Width.Value, c.Width) {
			return 0
		}
		n += k.Count.Value
	}
	return n
}

// scant reports whether so many widths are less than the exact number by no more
// than the house's nearness.
func scant(s *ws.Sheet, exact, widths length.Ratio) bool {
	d := exact.Sub(widths)
	return d.Num > 0 && d.Cmp(s.Tables.House.NearWidth) <= 0
}

// NearMiss reports whether the widths of a panel come to just over a number
// that would do with a little less fullness, and that fullness.
func NearMiss(it *ws.Item) (widths, fullness length.Ratio, ok bool) {
	if !it.Has(string(ws.WidthsExact)) || !it.Has(string(ws.Fullness)) {
		return
	}
	panels := length.NewRatio(it.Panels, 1)
	per := it.Ratio(string(ws.WidthsExact)).Quo(panels)
	less := it.Ratio("least widths").Sub(length.NewRatio(1, 2))
	if it.Has(asJoined) { // whole widths are cut
		less = length.NewRatio(per.Int(length.Up)-1, 1)
	}
	if less.Num < 1 || !scant(it.Sheet, per, less) {
		return
	}
	if it.Has(asJoined) {
		over := it.Length(string(ws.FlatWidth)) - covered(it).MulRatio(it.Ratio("fullness"), length.Nearest)
		return less, length.RatioOf(joinedTo(it, less.Num)-over, covered(it)), true
	}
	outer := int64(2) // edges that are not joined; a half width is split along one
	if less.Den == 2 {
		outer = 1
	}
	flat := it.Length(string(ws.UsableWidth)).MulRatio(less.Mul(panels), length.Down) + it.Length("join margin").Mul(outer*it.Panels) - it.Length("side hems")
	return less.Mul(panels), length.RatioOf(flat, it.Length(string(ws.FinishedWidth))), true
}

// covered is the finished width that an item's fullness is of.
func covered(it *ws.Item) length.Length {
	if it.Has(string(ws.FinishedWidth)) {
		return it.Length(string(ws.FinishedWidth))
	}
	return it.Length("run")
}

// cutDownTo is what a cut of one width to a panel comes to where it is cut no wider
// than it is needed.
func cutDownTo(it *ws.Item, c *ws.Cloth, flat ...length.Length) (list []length.Length) {
	for _, l := range flat {
		if each := c.BeforeWash(l.Div(it.Panels, length.Up)); each > 0 && each < c.Width {
			list = append(list, each)
		}
	}
	return list
}

// lengths adds the lengths to cut of one cloth of the panels: the widths, up to whole
// ones, which the order may name whole and half.
func lengths(k *ws.Kind, piece, role, long, widths string, wide, longer func(*ws.Item) []length.Length) {
	p := widthPiece(k, piece, role, long, widths, wide, longer)
	p.Whole, p.Half = "whole "+piece+" count", "half "+piece+" count"
	p.Net, p.Sewn = string(ws.RawCut), widths
	if role != "face" {
		p.Net = piece + " " + p.Net
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: piece + " whole widths", Name: "whole widths in a panel", When: p.Width, Work: func(it *ws.Item) (ws.Result, bool) { return wholeWidths(it, piece, role, widths) }, Reads: []string{widths, "panels", role + " width"}, Sort: ws.Count, Hidden: true},
		ws.Step{Term: p.Whole, Name: ws.PieceCount, Of: "whole " + piece, Formula: "{" + piece + " whole widths} × {panels}", Sort: ws.Count, Source: ws.Common, Plain: true},
		ws.Step{Term: p.Half, Name: ws.PieceCount, Of: "half " + piece, When: piece + " whole widths", Formula: "{panels}", Sort: ws.Count, Source: ws.Common, Plain: true})
}

// wholeWidths are the whole widths in a panel that has a half one too, where the
// order's cuts name whole and half widths of the piece one by one.
func wholeWidths(it *ws.Item, piece, role, widths string) (ws.Result, bool) {
	halves := it.Ratio(widths).Quo(length.NewRatio(it.Panels, 1)).Mul(length.NewRatio(2, 1)).Int(length.Up)
	c := it.Cloth(role)
	whole, half := false, false
	for i := range it.Order.Cuts {
		k := &it.Order.Cuts[i]
		if !ws.SamePiece(k.Piece.Value, piece) || k.Cloth.Set && k.Cloth.Value != c.Name || !k.Width.Set {
			continue
		}
		whole = whole || ws.Near(k.Width.Value, c.Width, it.Step())
		half = half || ws.IsHalf(k.Width.Value, c.Width)
	}
	return ws.Result{Value: ws.CountOf(halves / 2)}, halves%2 == 1 && whole && half
}

// layerGiven adds what a layer behind the face is worked from: a lining's hem, and how much
// shorter and narrower than the face it is.
func layerGiven(k *ws.Kind, piece string) {
	shorter := func(it *ws.Item) (ws.Value, bool) {
		return ws.LengthOf(it.Order.Interlining.Shorter.Value), it.Order.Interlining.Set
	}
	if piece == "lining" {
		hem(k, "lining", "lining.hem", "its hem", "lining hem's", func(it *ws.Item) *ws.Hem { return &it.LiningHem })
		given(k, "its hem").Get = func(it *ws.Item) (ws.Value, bool) { // there may be none
			return ws.LengthOf(it.LiningHem.Takes), it.LiningHem.Takes > 0
		}
		shorter = func(it *ws.Item) (ws.Value, bool) {
			return ws.LengthOf(ws.Or(it.Order.Lining.Shorter, it.Sheet.Tables.House.LiningShorter)), it.Order.Lining.Set
		}
	}
	k.Given = append(k.Given, ws.Given{Term: piece + " shorter", Shown: "shorter", Name: owner(piece) + " shortening", From: []string{piece + ".shorter"}, Get: shorter,
		Choice: &ws.Choosing{Low: in(4), High: in(16 * 6), Usual: []string{"1/2 in", "1 in", "2 in", "1 cm", "2 cm", "2.5 cm", "3 cm", "5 cm"}}})
	if piece == "lining" {
		k.Given = append(k.Given, ws.Given{Term: "lining narrower", Shown: "narrower", Name: "lining's narrowing", From: []string{"lining.narrower", "panels"},
			Get: func(it *ws.Item) (ws.Value, bool) {
				n := ws.Or(it.Order.Lining.Narrower, it.Sheet.Tables.House.LiningNarrower)
				return ws.LengthOf(n.Mul(it.Panels)), it.Order.Lining.Set
			},
			Choice: &ws.Choosing{Low: in(16), High: in(16 * 12), Usual: []string{"4 in", "8 cm", "10 cm"}}})
	}
	k.Given = append(k.Given, ws.Given{Term: piece + " cloth", From: []string{piece + "/width", piece + ".cloth"}, Word: func(it *ws.Item) string {
		if c := it.Cloth(piece); c != nil {
			return c.Name
		}
		return ""
	}})
}

// behind adds a layer behind the face cloth: the lining or the interlining.
func behind(k *ws.Kind, piece string, name, widths ws.Name) {
	is := piece == "lining"
	narrower, short := piece+" narrower", piece+" shorter"
	layerGiven(k, piece)
	// A lining follows the face as it is made up; an interlining fills it from side to
	// side, and its widths abut.
	sum, flat, inOne := "{finished length} - {"+short+"}", "{panel width, flat}", "{panel width, flat}"
	whole := "rounded up to a half (" + flat + " ÷ {" + piece + " washed width})"
	half := whole
	if is {
		sum += " [+ {its hem}]"
		flat, inOne = "("+asMadeUp+" - {"+narrower+"} ÷ {panels})", wholePanel+" - {"+narrower+"} ÷ {panels}"
		whole, half = "rounded up ("+wholeIn(flat, piece+" ")+")", halfIn(flat, piece+" ")
	}
	up, along := piece+" run: across", piece+" run: along"
	cut(k, piece+" ", piece, name, ws.Common, run{when: both(short, up), sum: sum}, run{when: both(short, along), sum: inOne})
	// Without a cloth there is no layer.
	for i := range k.Steps {
		if s := &k.Steps[i]; s.Term == string(name) || s.Term == piece+" "+string(ws.RawCut) {
			s.When = both(s.When, piece+" cloth")
		}
	}
	gives := piece + " usable width"
	if upright := both(string(name), up); is {
		usable(k, piece+" ", piece, piece, upright)
	} else {
		k.Steps = append(k.Steps, ws.Step{Term: gives, When: upright, Formula: "{" + piece + " washed width}", Hidden: true, Positive: true})
	}
	asked := both(piece+" flat width", up)
	k.Steps = append(k.Steps,
		ws.Step{Term: piece + " flat width", Formula: flat + " × {panels}", Hidden: true, Positive: true},
		ws.Step{Term: piece + " whole widths asked", When: asked, Formula: whole, Sort: ws.Ratio, Hidden: true},
		ws.Step{Term: piece + " half widths asked", When: asked, Formula: half, Sort: ws.Ratio, Hidden: true},
		ws.Step{Term: piece + " least widths", Formula: "the smaller of ({" + piece + " whole widths asked}, {" + piece + " half widths asked})", Sort: ws.Ratio, Hidden: true},
		ws.Step{Term: string(widths), Name: widths, Shown: "widths", When: both(gives, piece+" flat width"), Work: func(it *ws.Item) (ws.Result, bool) { return layerChosen(it, piece, widths) },
			Reads: []string{piece + " flat width", piece + " least widths", gives, "panels", string(ws.WidthsPerPanel), piece + " width"}, Sort: ws.Ratio, Round: length.Up, Belief: true},
		ws.Step{Term: string(widths), Name: widths, When: "{" + piece + " half widths asked} < {" + piece + " whole widths asked}, {" + piece + " half widths asked} > 0", Formula: "(" + half + ") × {panels}", Sort: ws.Ratio, Round: length.Up, Source: ws.Common},
		ws.Step{Term: string(widths), Name: widths, When: asked, Formula: whole + " × {panels}", Sort: ws.Ratio, Round: length.Up, Source: ws.Common})
	if is {
		slips(k, slip{string(widths), "it was worked out from the flat width asked for, not from the face as made",
			"rounded up to a half (({flat width} - {" + narrower + "}) ÷ {" + gives + "} ÷ {panels}) × {panels}"})
	}
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: string(widths), Field: piece + ".widths"})
	lengths(k, piece, piece, string(name), string(widths), func(it *ws.Item) []length.Length {
		if it.Word(piece+" run") == "along" {
			return layerLengths(it, piece)
		}
		flat, asked := it.Length(piece+" flat width"), it.Length(string(ws.FlatWidth))-it.Length(piece+" narrower")
		sides := it.Length("side hems")
		return cutDownTo(it, it.Cloth(piece), flat, flat-sides, asked, asked-sides)
	}, func(it *ws.Item) []length.Length {
		if it.Word(piece+" run") == "along" {
			return nil
		}
		return layerLengths(it, piece)
	})
	turnedLayer(k, piece, sum, inOne, both(piece+" cloth", short, along))
	c, plain := string(name), both(up, "no "+piece+" repeat, no "+piece+" shrinkage")
	k.Slips = append(k.Slips,
		ws.Slipping{Of: c, Name: "the shortening was left out", When: plain, Formula: "{" + c + "} + {" + short + "}"},
		ws.Slipping{Of: c, Name: "the shortening had the wrong sign", Seldom: true, When: plain, Formula: "{" + c + "} + 2 × {" + short + "}"},
		ws.Slipping{Of: c, Name: "it was cut like the face", When: up, Formula: "{cut length}"})
	miscounted(k, string(widths))
	if is {
		k.Slips = append(k.Slips,
			ws.Slipping{Of: c, Name: "its hem was left out", When: plain, Formula: "{" + c + "} - {its hem}"},
			ws.Slipping{Of: c, Name: "its hem had the wrong sign", Seldom: true, When: plain, Formula: "{" + c + "} - 2 × {its hem}"},
			ws.Slipping{Of: c, Name: "its hem was counted once, not twice", When: plain + ", lining turn, {lining folds} = 2", Formula: "{" + c + "} - {its hem} + {lining turn}"},
			ws.Slipping{Of: c, Name: "its hem was counted once, not three times", When: plain + ", lining turn, {lining folds} = 3", Formula: "{" + c + "} - {its hem} + {lining turn}"})
	}
}

// layerChosen is the maker's number of widths of a layer. As many as the face has are the
// maker's choice, as long as they reach what was asked for, and so is a single panel's half
// width made whole: the length that the other half is cut from is cut anyway.
func layerChosen(it *ws.Item, piece string, widths ws.Name) (ws.Result, bool) {
	stated, c := it.Order.Lining.Widths, it.Cloth(piece)
	if piece != "lining" {
		stated = it.Order.Interlining.Widths
	}
	halves := it.Ratio(piece + " least widths").Mul(length.NewRatio(2, 1)).Int(length.Up)
	others := [2]int64{halves, halves}
	if it.Panels == 1 {
		others[0] += halves % 2
	}
	if it.Has(string(ws.WidthsPerPanel)) {
		others[1] = it.Ratio(string(ws.WidthsPerPanel)).Mul(length.NewRatio(2, 1)).Int(length.Up)
	}
	cuts := cutCount(it, piece, c)
	for _, n := range others {
		chosen := length.NewRatio(n*it.Panels, 2)
		whole := chosen.Int(length.Up)
		if n == halves || n < halves && !reachesAsked(it, piece, n) {
			continue
		}
		if stated.Set && stated.Value.Cmp(chosen) == 0 && (cuts == 0 || cuts == whole) ||
			!stated.Set && cuts == whole && whole != length.NewRatio(halves*it.Panels, 2).Int(length.Up) {
			return ws.Result{Value: ws.RatioOf(chosen), Source: "the order"}, true
		}
	}
	return ws.Result{}, false
}

// reachesAsked reports whether so many half widths of a layer, joined, are as wide as
// the panel has to be for its fullness, though not as the face is made up: the face may
// then be trimmed to it.
func reachesAsked(it *ws.Item, piece string, halves int64) bool {
	joined := it.Cloth(piece).Washed.Mul(halves).Div(2, length.Down)
	if piece == "lining" {
		joined -= it.Length(piece + " join margin").Mul(2 * ((halves+1)/2 - 1))
	}
	return joined >= it.Length(string(ws.FlatWidth)).Div(it.Panels, length.Up)-it.Length(piece+" narrower").Div(it.Panels, length.Down)
}

// layerLengths are lengths that a layer is cut to in other workrooms: a lining
// that runs up into the heading, an interlining that lies in the hem or in the
// heading, or is cut like the lining, where the order does not say how much
// shorter it is.
func layerLengths(it *ws.Item, piece string) (list []length.Length) {
	top, c := topTakes(it), it.Cloth(piece)
	run := it.Length(string(ws.FinishedLength)) - it.Length(piece+" shorter")
	if piece == "lining" {
		return []length.Length{c.CutOf(run + it.LiningHem.Takes + top)}
	}
	if it.Order.Interlining.Shorter.Set {
		return nil
	}
	for _, more := range [...]length.Length{it.Bottom.Turn, it.Bottom.Takes, top, top + it.Bottom.Turn, top + it.Bottom.Takes} {
		list = append(list, c.CutOf(run+more))
	}
	if it.Has(string(ws.LiningCut)) {
		list = append(list, it.Length(string(ws.LiningCut)))
	}
	return list
}

// headings adds what is spaced along the top: holes, pleats or tabs.
func headings(k *ws.Kind) {
	k.Steps = append(k.Steps,
		ws.Step{Term: "cut down", When: "heading: holes", Work: cutDown, Reads: []string{"panel width, flat", "flat width", "panels", "side hem", "holes stated", "from side stated", "hole spacing stated", "panel width stated"}, Sort: ws.Count, Hidden: true, Belief: true},
		ws.Step{Term: "cut down panel width, flat", Name: ws.PanelWidth, Of: "cut down", When: "cut down", Formula: "{flat width} ÷ {panels} - 2 × {side hem}", Round: length.Down, Source: ws.Common, Plain: true})
	holes(k, string(ws.PanelWidth), "cut down panel width, flat", "heading: holes", eyeletSource)
	tabs(k)
	pleats(k)
}

// cutDown reports whether a stated spacing fits a panel that is cut down to what
// the fullness asks for, and not the whole one.
func cutDown(it *ws.Item) (ws.Result, bool) {
	h := &it.Order.Holes
	whole, flat := it.Length(string(ws.PanelWidth)), it.Length(string(ws.FlatWidth))
	if whole <= 0 || flat <= 0 || it.Order.PanelWidth.Set || !h.Spacing.Set {
		return ws.Result{}, false
	}
	fits := func(width length.Length) bool {
		span := width - 2*insetOf(it, h, width)
		if h.Count.Set && h.Count.Value >= 2 {
			return ws.Near(span.Div(h.Count.Value-1, length.Nearest), h.Spacing.Value, it.Step())
		}
		return fitting(it, span, h.Spacing.Value) >= 2
	}
	l := flat.Div(it.Panels, length.Down) - it.Sides.Takes.Mul(2)
	return ws.Result{Value: ws.CountOf(1)}, l < whole && !fits(whole) && fits(l)
}

// tabs adds the tabs of a panel: one at each edge, and the gaps between.
func tabs(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "tab width", From: []string{"heading.tab_width"}, Else: func(it *ws.Item) (ws.Value, bool) { return silent("2 in / 5 cm")(systemOf(it)), true },
			Choice: &ws.Choosing{Low: in(8), High: in(16 * 6), Usual: []string{"1 1/2 in", "2 in", "3 in", "4 cm", "5 cm", "8 cm"}}},
		ws.Given{Term: "tabs stated", Sort: ws.Count, From: []string{"heading.tabs"}},
		ws.Given{Term: "tab gap stated", From: []string{"heading.gap"}},
		ws.Given{Term: "widest gap", Get: func(it *ws.Item) (ws.Value, bool) { return ws.LengthOf(it.Sheet.Tables.House.TabGap.Most), true }})
	choices(k,
		choice{"tab loop", "heading.tab_drop", "4 in / 10 cm", "1 to 12 in", "none"},
		choice{"tab end", "heading.tab_end", "2 in / 5 cm", "1/2 to 4 in", ""},
		choice{"tab seam", "heading.tab_allowance", "1/2 in / 12 mm", "1/4 to 1 in", ""})
	gap, count := string(ws.TabGap), string(ws.TabCount)
	k.Steps = append(k.Steps,
		ws.Step{Term: "tabbed width", Name: ws.PanelWidth, When: "heading: tabs, tab width, {tab width} + {widest gap} > 0", Formula: "{panel width, flat}", Hidden: true},
		ws.Step{Term: count, Ends: true, When: "tabbed width, tabs stated, {tabs stated} × {tab width} ≤ {tabbed width}", Sort: ws.Count, Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Heading.Tabs, ws.CountOf) }, Reads: []string{"tabs stated"}, Belief: true, Free: true},
		ws.Step{Term: count, Ends: true, When: "tabbed width, {tab gap stated} > 0", Sort: ws.Count, Work: tabsFitting, Reads: []string{"panel width, flat", "tab width", "tab gap stated"}},
		ws.Step{Term: count, Ends: true, When: "tabbed width, no tab gap stated", Sort: ws.Count, Round: length.Up, Work: tabCount, Reads: []string{"panel width, flat", "tab width", "widest gap"}},
		ws.Step{Term: gap, When: "tabbed width, tabs, {tabs} ≥ 2", Formula: "({panel width, flat} - {tabs} × {tab width}) ÷ ({tabs} - 1)", Source: "Singer Sewing for the Home, casings and tabs: one at each edge", Positive: true})
	k.Outcomes = append(k.Outcomes,
		ws.Outcome{Term: count, Field: "heading.tabs"},
		ws.Outcome{Term: gap, Field: "heading.gap", Hand: ws.Divided, Unless: func(it *ws.Item) bool { return !it.Order.Heading.Tabs.Set }, AsRight: func(it *ws.Item) []length.Length {
			n := it.Count(count)
			l := asked(it) - it.Length("tab width").Mul(n)
			return []length.Length{l.Div(n-1, length.Nearest)}
		}})
	slips(k,
		slip{gap, "it was divided by the number of tabs; there is one space fewer", "{gap between tabs} × ({tabs} - 1) ÷ {tabs}"},
		slip{count, "the spaces were counted instead of the tabs; there is one more tab", "{tabs} - 1"},
		slip{count, "one too many was counted", "{tabs} + 1"})
	tabPieces(k, "{tabs} × {panels}")
}

// asked is a panel cut down to the width that its fullness asks for.
func asked(it *ws.Item) length.Length {
	return it.Length(string(ws.FlatWidth)).Div(it.Panels, length.Nearest) - it.Sides.Takes.Mul(2)
}

// tabsFitting is how many tabs a stated gap puts on a panel, where they come out.
func tabsFitting(it *ws.Item) (ws.Result, bool) {
	wide, gap, panel := it.Length("tab width"), it.Length("tab gap stated"), it.Length(string(ws.PanelWidth))
	n := length.RatioOf(panel+gap, wide+gap).Int(length.Nearest)
	if n < 2 {
		return ws.Result{}, false
	}
	return ws.Result{Value: ws.CountOf(n), Source: ws.Common, Formula: "rounded (({panel width, flat} + {gap}) ÷ ({tab width} + {gap}))",
		Terms: []ws.Term{it.Via(string(ws.PanelWidth)), ws.LengthTerm("gap", gap), it.Plain("tab width"), ws.LengthTerm("gap", gap)}}, true
}

func tabCount(it *ws.Item) (ws.Result, bool) {
	wide, most := it.Length("tab width"), it.Length("widest gap")
	if wide+most <= 0 {
		return ws.Result{}, false
	}
	n := length.CeilDiv(it.Length(string(ws.PanelWidth))-wide, wide+most) + 1
	return ws.Result{Value: ws.CountOf(n), Source: it.Sheet.Tables.SelfSource("tab_gap"),
		Formula: "rounded up (({panel width, flat} - {tab width}) ÷ ({tab width} + {widest gap})) + 1",
		Terms:   []ws.Term{it.Via(string(ws.PanelWidth)), it.Plain("tab width"), it.Plain("tab width"), it.Plain("widest gap")}}, true
}

// pleats adds the pleats between the overlap and the return of a panel: one more
// than the spaces.
func pleats(k *ws.Kind) {
	count, spacing, up := string(ws.PleatCount), string(ws.PleatSpacing), string(ws.TakeUp)
	k.Given = append(k.Given,
		ws.Given{Term: "pleats stated", Name: "number of pleats", Sort: ws.Count, From: []string{"heading.pleats"},
			Get: func(it *ws.Item) (ws.Value, bool) {
				n := it.Order.Heading.Pleats
				return ws.CountOf(n.Value), n.Set && n.Value >= 2
			}},
		ws.Given{Term: "pleat spacing stated", From: []string{"heading.spacing"}},
		ws.Given{Term: "usual spacing", Get: func(it *ws.Item) (ws.Value, bool) {
			gap := it.Sheet.Tables.House.PleatGap
			l := (gap.Least + gap.Most).Div(2, length.Nearest)
			return ws.LengthOf(l), l > 0
		}})
	k.Steps = append(k.Steps,
		ws.Step{Term: "finished panel", Formula: "{finished width} ÷ {panels}", Hidden: true},
		ws.Step{Term: "pleat span", When: "heading: pleats, usual spacing, track, finished panel", Formula: "{track} ÷ {panels}", Hidden: true, Positive: true},
		ws.Step{Term: "pleat span", When: "heading: pleats, usual spacing", Formula: "{finished panel}", Hidden: true, Positive: true},
		ws.Step{Term: count, Ends: true, When: "pleat span, pleats stated", Sort: ws.Count, Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Heading.Pleats, ws.CountOf) }, Reads: []string{"pleats stated"}, Belief: true, Free: true},
		ws.Step{Term: count, Ends: true, When: "pleat span", Sort: ws.Count, Work: pleatCount, Reads: []string{"track", "panels", "finished panel", "pleat spacing stated", "usual spacing"}},
		ws.Step{Term: spacing, When: "pleat span, track", Formula: "{track} ÷ {panels} ÷ ({pleats} - 1)", Source: pleated},
		ws.Step{Term: spacing, When: "pleat span", Formula: "{finished panel} ÷ ({pleats} - 1)", Source: pleated},
		ws.Step{Term: up, When: "pleat span, {panel width, flat} > {finished panel}", Formula: "({panel width, flat} - {finished panel}) ÷ {pleats}", Source: pleated})
	k.Outcomes = append(k.Outcomes,
		ws.Outcome{Term: count, Field: "heading.pleats"},
		ws.Outcome{Term: spacing, Field: "heading.spacing", Hand: ws.Divided, Unless: func(it *ws.Item) bool { // a wish, that the pleats are counted by
			return !it.Order.Heading.Pleats.Set && worksFrom(it.Order.Heading.Spacing.Value, it.Length("usual spacing"))
		}},
		ws.Outcome{Term: up, Field: "heading.take_up", Hand: ws.Divided, AsRight: func(it *ws.Item) []length.Length {
			return []length.Length{(asked(it) - it.Length("finished panel")).Div(it.Count(count), length.Nearest)}
		}})
	slips(k,
		slip{spacing, "it was divided by the number of pleats; there is one space fewer", "{pleat spacing} × ({pleats} - 1) ÷ {pleats}"},
		slip{up, "it was divided by the number of spaces; there is one more pleat", "{take-up of a pleat} × {pleats} ÷ ({pleats} - 1)"},
		slip{up, "the finished width was not taken off", "{panel width, flat} ÷ {pleats}"},
		slip{count, "the spaces were counted instead of the pleats; there is one more pleat", "{pleats} - 1"},
		slip{count, "one too many was counted", "{pleats} + 1"})
}

// pleatCount is how many pleats a panel takes at the stated spacing, or else at the
// usual one.
func pleatCount(it *ws.Item) (ws.Result, bool) {
	span, stated, by, name := it.Length("pleat span"), it.Order.Heading.Spacing.Value, it.Length("usual spacing"), "usual spacing"
	spaces := max(1, length.RatioOf(span, by).Int(length.Nearest))
	if n := fitting(it, span, stated); n >= 2 {
		spaces, by, name = n-1, stated, "spacing"
	} else if worksFrom(stated, by) {
		spaces = max(1, length.RatioOf(span, stated).Int(length.Nearest))
		by, name = stated, "spacing"
	}
	formula, terms := "{finished panel}", []ws.Term{it.Plain("finished panel")}
	if it.Has("track") {
		formula, terms = "{track} ÷ {panels}", []ws.Term{it.Plain("track"), it.Plain("panels")}
	}
	return ws.Result{Value: ws.CountOf(spaces + 1), Source: pleated, Formula: "rounded (" + formula + " ÷ {" + name + "}) + 1", Terms: append(terms, ws.LengthTerm(name, by))}, true
}

// curtainEdges says what lies along the edges of a curtain's pieces, and where its pleats
// are marked.
func curtainEdges(k *ws.Kind) {
	for _, p := range [][2]string{{"no band depth", "{finished length}"}, {"band depth", "{finished length} - {band depth}"}} {
		k.Panels = append(k.Panels, ws.Paneling{Name: thePanel, Role: "face", Pieces: "width", When: both(upright, p[0]), Across: "{panel width, flat}", Along: p[1], Main: true, Left: "leading edge", Right: "return edge"})
	}
	const outer = "raw seam or outer edge"
	edgings(k,
		edging{"panel/width", "band depth", "", "seam {band seam} seam to the band", "", ""},
		edging{"panel/width", "heading allowance", "turn {heading allowance} heading", "hem bottom", "", ""},
		edging{"panel/width", "", "hem top", "hem bottom", "", ""},
		edging{thePanel, "", "", "", "hem sides", "hem sides"},
		edging{"width", "", "", "", outer, outer},
		edging{"lining", "lining run: along", outer, outer, "raw top, under the heading", "hem lining"},
		edging{"lining", "", "raw top, under the heading", "hem lining", outer, outer},
		edging{"interlining", "interlining run: along", "raw side", "raw side", "raw top", "raw foot"},
		edging{"interlining", "", "raw top", "raw foot", "raw meets the next", "raw meets the next"},
		edging{"band", "", "", "", outer, outer})
	bandEdges(k)
	bandSewn(k, "{band widths} > {panels}", "{band widths} ≤ {panels}")
	const flat, next = "the leading edge, flat", "({k} - 1) × ({pleat spacing} + {take-up of a pleat})"
	marks(k,
		mark{"pleats start", flat, "take-up of a pleat, track, {panels} = 1", "{pleats}", next + " [+ {return}]"},
		mark{"pleats start", flat, "take-up of a pleat, track, {panels} = 2", "{pleats}", next + " [+ {overlap} ÷ 2]"},
		mark{"pleats start", flat, "take-up of a pleat, no track", "{pleats}", next},
		mark{"tabs start", flat, "gap between tabs", "{tabs}", "({k} - 1) × ({tab width} + {gap between tabs})"})
	placed(k,
		ws.Placing{Mark: "pleats start", Of: thePanel, Edge: ws.Top},
		ws.Placing{Mark: "tabs start", Of: thePanel, Edge: ws.Top})
}

// bandEdges says what lies along the edges of a band along the foot, and of tabs.
func bandEdges(k *ws.Kind) {
	const join = "seam {seam allowance}"
	edgings(k,
		edging{"band/band center/band side", "", "seam {band seam} seam to the panel", "hem bottom", "", ""},
		edging{"band center", "", "", "", join, join},
		edging{"band side", "", "", "", "hem sides", join},
		edging{"tab", "", "turn {tab end} sewn into the top", "turn {tab end} sewn into the top", "seam {tab seam}", "seam {tab seam}"})
	if k.Name == "shower curtain" {
		edgings(k, edging{"band", "{joins} = 0", "", "", "hem sides", "hem sides"})
	}
}
