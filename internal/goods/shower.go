package goods

import (
	"cutgate/internal/length"
	ws "cutgate/internal/worksheet"
)

// showerCurtain is a flat hanging of joined pieces, with holes along its top.
func showerCurtain() *ws.Kind {
	banded := run{when: "band depth", sum: "{finished length} - {band depth} + {top hem} + {band seam}", slips: bandSlips("top hem")}
	plain := run{when: "no band depth", sum: "{finished length} + {top hem} + {bottom hem}", slips: faceSlips("top hem")}
	k := &ws.Kind{
		Name: "shower curtain", Fitted: []string{"hangs", "flat", "over a tub"},
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "sides", Field: "join.side_cloth", Else: "face"},
			{Name: "band", Field: "band.cloth", Else: "face"}, {Name: "tabs", Field: "tabs.cloth", Else: "face"},
			{Name: "tie-backs", Field: "tie_backs.cloth", Else: "face"}, {Name: "piping", Field: "piping.cloth", Else: "face"},
			{Name: "liner", Field: "liner.cloth", Apart: true}},
		Setup: func(it *ws.Item) {
			h := &it.Order.Hems
			it.Top, it.Bottom, it.Sides = it.HemOf(&h.Top, "top", ""), it.HemOf(&h.Bottom, "bottom", ""), it.HemOf(&h.Sides, "sides", "")
			seamOf(it)
			it.Keep = linerHemsOf(it)
		},
	}
	cloths(k)
	hangingHems(k)
	seam(k)
	sizes(k)
	band(k)
	k.Steps = append(k.Steps,
		ws.Step{Term: string(ws.FinishedWidth), Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Finished.Width, ws.LengthOf) }, Reads: []string{"finished width stated"}, Ends: true},
		ws.Step{Term: string(ws.FinishedLength), Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Finished.Length, ws.LengthOf) }, Reads: []string{"finished length stated"}, Ends: true})
	cut(k, "", "face", ws.CutLength, talmadge, plain, banded)
	usable(k, "", "", "face", "finished width")
	flatPanel(k, panel{across: string(ws.FinishedWidth), takes: "side hem", turn: "sides turn", folds: "sides folds", called: "side hem", sides: "sides", runs: []run{plain, banded}})
	holes(k, string(ws.FinishedWidth), "", "", holeSource)
	secondCloth(k)
	showerBand(k)
	showerTabs(k)
	tieBacks(k)
	bias(k, piped{when: "finished width", times: 1, run: "finished width"})
	biasSquare(k)
	notes(k, note{"piping", "strip across", "along the foot, from side to side"})
	edges(k, "rod.above_floor", func(it *ws.Item) length.Length {
		if h := &it.Order.Holes; h.FromTop.Set { // the top edge stands above the eye of the rings
			return max(0, h.FromTop.Value-h.Bore.Value/2)
		}
		return 0
	}, "holes.from_top", "holes.bore")
	k.Steps = append(k.Steps, footGap)
	liner(k)
	hanging(k, true, foot{"", "{finished width}"})
	sewing(k)
	press(k)
	k.Unlikely = append(k.Unlikely, oddHoles...)
	joinedPanel(k, "no band depth", "{finished width}", "{finished length}", "hem sides")
	joinedPanel(k, "band depth", "{finished width}", "{finished length} - {band depth}", "hem sides")
	edgings(k,
		edging{panelParts, "band depth", "", "seam {band seam} seam to the band", "", ""},
		edging{panelParts, "", "hem top", "hem bottom", "", ""},
		edging{"liner", "", "hem liner top", "hem liner bottom", "hem liner sides", "hem liner sides"})
	bandEdges(k)
	bandSewn(k, "{joins} > 0", "{joins} = 0")
	k.Finish = after(k.Finish, punch)
	return k
}

const (
	folded    = "Sewing guideline sheet, Tab-top curtains: a tab is cut twice its width and twice its drop"
	tabAtEdge = "Singer Sewing for the Home, casings and tabs: one at each edge"
	sameRings = ws.Common + ": curtain and liner hang on the same rings"
)

// linerHems are the hems of a liner.
type linerHems struct{ top, bottom, sides ws.Hem }

// linerHemsOf takes the hems of a liner: its top is like the curtain's where the order
// does not say, as both have the same holes.
func linerHemsOf(it *ws.Item) *linerHems {
	h := &it.Order.Liner.Hems
	made := &linerHems{top: it.Top}
	if h.Top.Set {
		made.top = it.HemOf(&h.Top, "top", "")
	}
	made.top.Order = &h.Top
	made.bottom, made.sides = it.HemOf(&h.Bottom, "liner bottom", ""), it.HemOf(&h.Sides, "liner sides", "")
	return made
}

// liner adds a shower curtain's liner: a flat piece of its own that hangs on the same
// rings.
func liner(k *ws.Kind) {
	of := func(pick func(*linerHems) *ws.Hem) func(*ws.Item) *ws.Hem {
		return func(it *ws.Item) *ws.Hem { return pick(it.Keep.(*linerHems)) }
	}
	hem(k, "liner top", "liner.hems.top", "liner top hem", "liner top hem's", of(func(h *linerHems) *ws.Hem { return &h.top }))
	top := given(k, "liner top hem") // the curtain's own, where the order does not say
	top.From = append(top.From, "hems.top.turn", "hems.top.folds", "hems.top.first")
	hem(k, "liner bottom", "liner.hems.bottom", "liner bottom hem", "liner bottom hem's", of(func(h *linerHems) *ws.Hem { return &h.bottom }))
	hem(k, "liner sides", "liner.hems.sides", "liner side hem", "liner's side hems'", of(func(h *linerHems) *ws.Hem { return &h.sides }))
	choices(k,
		choice{"liner", "liner.cloth", "", "", ""},
		choice{"liner shorter", "liner.shorter", "", "0 to 6 in", ""},
		choice{"liner narrower", "liner.narrower", "", "0 to 6 in", ""},
		choice{"liner holes", "liner.holes.count", "= holes stated", "", "none"},
		choice{"liner spacing stated", "liner.holes.spacing", "", "", "none"},
		choice{"hole slack", "", "1/8 in / 3 mm", "", ""},
		choice{"rim", "tub.rim", "", "8 to 30 in", "none"})
	pieces(k, piece{"liner", "liner", "{finished width} [- {liner narrower}] + 2 × {liner side hem}", "{finished length} [- {liner shorter}] + {liner top hem} + {liner bottom hem}", "1", "liner"})
	steps(k,
		step{"liner hole spacing", "liner, hole spacing", "{hole spacing}", "near", sameRings},
		step{"liner from side", "liner, hole span", "{from side} [- {liner narrower} ÷ 2]", "near", sameRings},
		step{"liner below rim", "liner, rim, height above the floor", "{finished length} [- {liner shorter}] [- {top edge above it}] - ({height above the floor} - {rim})", "near, hidden", ws.Common})
	k.Steps[len(k.Steps)-1].Positive = false
	rounder(k, "liner")
	steps(k,
		step{"liner unlike", "liner, {liner holes} ≠ {holes}", "1", "whole, hidden", ""},
		step{"liner unlike", "liner, {liner spacing stated} > {hole spacing} + {hole slack}", "1", "whole, hidden", ""},
		step{"liner unlike", "liner, {liner spacing stated} < {hole spacing} - {hole slack}", "1", "whole, hidden", ""})
	outcomes(k, outcome{"liner from side", "liner.from_side", ws.Divided})
	marks(k, mark{"liner's holes", "the left finished edge of the liner", "liner from side, liner hole spacing, {liner hole spacing} > 0", "{holes}", "{liner from side} + ({k} - 1) × {liner hole spacing}"})
	slips(k,
		slip{"liner cut width", "the side hems were counted once, not folded twice", "{finished width} [- {liner narrower}] + 2 × {liner sides turn}"},
		slip{"liner cut width", "one side hem was left out", "{finished width} [- {liner narrower}] + {liner side hem}"},
		slip{"liner cut width", "the hems were left out", "{finished width} [- {liner narrower}]"},
		slip{"liner cut length", "the bottom hem was counted once, not folded twice", "{finished length} [- {liner shorter}] + {liner top hem} + {liner bottom turn}"},
		slip{"liner cut length", "the shortening was left out", "{finished length} + {liner top hem} + {liner bottom hem} + 0 × {liner shorter}"},
		slip{"liner cut length", "the hems were left out", "{finished length} [- {liner shorter}]"},
		slip{"liner from side", "the whole narrowing was taken off one side", "{from side} - {liner narrower}"})
}

// secondCloth adds what two cloths of one panel have that may not go together: how much
// less the one shrinks than the other, and a nap of one alone.
func secondCloth(k *ws.Kind) {
	for _, role := range []string{"face", "sides"} {
		k.Given = append(k.Given, ws.Given{Term: role + " nap", From: []string{role + "/nap"}, Usually: ws.Silent})
	}
	steps(k,
		step{"shrinks apart", "side cloth, {sides shrinkage} ≥ {face shrinkage}", "{sides shrinkage} - {face shrinkage}", "share, hidden", ""},
		step{"shrinks apart", "side cloth, sides shrinkage, face shrinkage", "{face shrinkage} - {sides shrinkage}", "share, hidden", ""},
		step{"shrinks apart", "side cloth, sides shrinkage", "{sides shrinkage}", "share, hidden", ""},
		step{"shrinks apart", "side cloth, face shrinkage", "{face shrinkage}", "share, hidden", ""},
		step{"nap apart", "side cloth, face nap: one way, sides nap: none", "1", "whole, hidden", ""},
		step{"nap apart", "side cloth, sides nap: one way, face nap: none", "1", "whole, hidden", ""})
	for i := range k.Steps {
		if k.Steps[i].Term == "shrinks apart" {
			k.Steps[i].Sort = ws.Percent
		}
	}
}

// band adds the depth of a band along the foot, and the seam that it is sewn on by.
func band(k *ws.Kind) {
	choices(k,
		choice{"band depth", "band.depth", "", "2 to 40 in", ordered},
		choice{"band seam", "band.allowance", "1/2 in / 12 mm", "1/4 to 1 in", ""})
}

// bandSlips are the slips of a cut that ends at a band; top is the term for what it
// takes above.
func bandSlips(top string) []ws.Slipping {
	return []ws.Slipping{
		{Name: "the band was not taken off the length", Formula: "{finished length} + {" + top + "} + {bottom hem}"},
		{Name: "the band's seam was left out", Formula: "{finished length} - {band depth} + {" + top + "}"},
		{Name: "the bottom hem was added, which is the band's", Formula: "{finished length} - {band depth} + {" + top + "} + {bottom hem}"},
	}
}

// bandSewn says when a band is sewn on: its joins lie on the panel's, and its sides and
// its foot are hemmed with the panel. Joined is when it is of several pieces. Common
// practice, no source.
func bandSewn(k *ws.Kind, joined, whole string) {
	const sewn = "sew the band to the panel's foot, right sides together, {band seam} from each; the sides are turned through both, and the bottom hem is the band's"
	notesAs(k, ws.AsJoined,
		note{"band", "band depth, " + joined, "join the band like the panel; " + sewn},
		note{"band", "band depth, " + whole, sewn})
}

// alongBand is what lies in a band's cut, from its seam to its hem.
const alongBand = "{band depth} + {band seam} + {bottom hem}"

// alongBandSlips are the slips of a band's cut along.
func alongBandSlips(k *ws.Kind, of string) {
	slips(k,
		slip{of, "the band's seam was left out", "{band depth} + {bottom hem}"},
		slip{of, "the bottom hem was left out", "{band depth} + {band seam}"},
		slip{of, "the bottom hem was counted once, not twice", "{band depth} + {band seam} + {bottom turn}"})
}

// showerBand adds the pieces of a band along the foot, joined in line with the panel.
func showerBand(k *ws.Kind) {
	side := "({finished width} - {center shows}) ÷ 2 + {seam allowance} + {side hem}"
	pieces(k,
		piece{"band", "band", "{equal piece}", alongBand, "{pieces across}", "band depth, pieces across"},
		piece{"band", "band", "{whole across}", alongBand, "1", "band depth, {joins} = 0"},
		piece{"band center", "band", "{center}", alongBand, "{centers}", "band depth, {joins} > 0"},
		piece{"band side", "band", side, alongBand, "{sides made}", "band depth, {joins} > 0"})
	rounder(k, "band", "band center", "band side")
	for _, of := range []string{"band", "band center", "band side"} {
		alongBandSlips(k, of+" cut length")
	}
	slips(k,
		slip{"band cut width", "the side hems were left out", "{finished width}"},
		slip{"band center cut width", "this is what shows of it", "{center shows}"},
		slip{"band side cut width", "the side hem was left out", "({finished width} - {center shows}) ÷ 2 + {seam allowance}"})
}

// tabPieces adds the tabs that are cut, so many in one of the item.
func tabPieces(k *ws.Kind, count string) {
	pieces(k, piece{"tab", "tabs", "2 × {tab width} + 2 × {tab seam}", "2 × {tab loop} + 2 × {tab end}", count, "tabs"})
	cite(k, folded, "tab")
	rounder(k, "tab")
	notes(k, note{"tabs", "tabs, tab cut width, tab cut length", "fold each lengthwise and sew it {tab seam} from the edge: {tab width} wide; sew {tab end} of each end into the top; the finished top hangs {tab loop} below the top of the rod"})
	slips(k,
		slip{"tab cut width", "the tab's back was left out", "{tab width} + 2 × {tab seam}"},
		slip{"tab cut width", "the seams were left out", "2 × {tab width}"},
		slip{"tab cut length", "the tab was not doubled", "{tab loop} + 2 × {tab end}"},
		slip{"tab cut length", "the ends were left out", "2 × {tab loop}"})
}

// showerTabs adds tabs along the top, one at each edge, and the gaps between.
func showerTabs(k *ws.Kind) {
	choices(k,
		choice{"tabs", "tabs.count", "", "2 to 40", ""},
		choice{"tab width", "tabs.width", "2 in / 5 cm", "1 to 6 in", ""},
		choice{"tab loop", "tabs.drop", "4 in / 10 cm", "1 to 12 in", ""},
		choice{"tab end", "tabs.end", "2 in / 5 cm", "1/2 to 4 in", ""},
		choice{"tab seam", "tabs.allowance", "1/2 in / 12 mm", "1/4 to 1 in", ""})
	gap := string(ws.TabGap)
	steps(k, step{gap, "tabs, {tabs} ≥ 2, {finished width} > {tabs} × {tab width}", "({finished width} - {tabs} × {tab width}) ÷ ({tabs} - 1)", "near", tabAtEdge})
	outcomes(k, outcome{gap, "tabs.gap", ws.Divided})
	slips(k, slip{gap, "the spaces were counted as tabs", "({finished width} - {tabs} × {tab width}) ÷ {tabs}"})
	tabPieces(k, "{tabs}")
}

// sizes are the finished sizes as they are stated.
func sizes(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "finished width stated", Name: "finished width", From: []string{"finished.width"}, Choice: &ws.Choosing{Low: in(16 * 6), High: in(16 * 400), Swap: "finished length stated", Ordered: true, Size: true}},
		ws.Given{Term: "finished length stated", Name: "finished length", From: []string{"finished.length"}, Choice: &ws.Choosing{Low: in(16 * 6), High: in(16 * 300), Swap: "finished width stated", Ordered: true, Size: true}})
}

// faceSlips are the slips of a face's cut length, whose top takes what that term says.
func faceSlips(top string) []ws.Slipping {
	f := "{finished length}"
	list := []ws.Slipping{
		{When: "bottom folds, {bottom folds} = 2", Name: "the bottom hem was counted once, not twice", Formula: f + " + {" + top + "} + {bottom turn}"},
		{When: "bottom folds, {bottom folds} = 3", Name: "the bottom hem was counted once, not three times", Formula: f + " + {" + top + "} + {bottom turn}"},
	}
	if top == "heading allowance" {
		list = append(list, pocketSlips...)
	} else {
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
