package goods

import (
	"cutgate/internal/length"
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	boxTutorial = "Love, Logic and Laughter, Box pleat valance tutorial, 2013"
	boardBoxes  = "Beyond the Screen Door, Board mounted box pleated valance, 2013"
	boxSpacing  = "Homesteady, How to measure for a pleated valance"
	boxTouching = "J. W. Stephenson, Cutting and Draping, 1905: pleats as wide as the spaces take three to one"
	gatheredBy  = "Indigo and Luxe, How to measure gathered valance width"
	sixthDeep   = "Merrick & Day, Curtain Design Directory p. 129: a sixth to a fifth of the curtain"
	afterwards  = "eHow UK, How to calculate the amount of fabric needed for curtains"
)

// valance is a short top treatment on a board, a rod or a track: box pleated, where the
// pleats are counted, or taken up by its fullness, whatever else its heading is.
func valance() *ws.Kind {
	k := &ws.Kind{
		Name: "valance", Fitted: []string{"hangs"},
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "lining", Field: "lining.cloth"}},
		Setup: seamOf,
	}
	cloths(k)
	edge(k, "bottom", "hems.bottom", "1 1/2 in / 4 cm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Hems.Bottom, &it.Bottom })
	edge(k, "sides", "hems.sides", "1 in / 25 mm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Hems.Sides, &it.Sides })
	edge(k, "lining", "lining.hem", "1 in / 25 mm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Lining.Hem, &it.LiningHem })
	k.Setup = after(k.Setup, func(it *ws.Item) {
		if l := &it.Order.Lining; !l.Set || l.Made.Value == "bagged" {
			it.LiningHem = ws.Hem{Order: &l.Hem}
		}
	})
	byWords(k, "lining", "lining.made")
	seam(k)
	choices(k,
		choice{"board", "board.width", "", "12 to 240 in", "ordered, swaps return stated"},
		choice{"return stated", "board.return", "", "0 to 10 in", "swaps board"},
		choice{"usual return", "", "4 in / 10 cm", "", ""},
		choice{"widest return", "", "10 in / 25 cm", "", ""},
		choice{"return over", "", "2 in / 5 cm", "", ""},
		choice{"style", "heading.style", "gathered", "", ""},
		choice{"board depth stated", "board.depth", "", "1 to 8 in", ""},
		choice{"staple turn stated", "board.staple_turn", "", "0 to 2 in", ""},
		choice{"usual staple turn", "", "1/2 in / 15 mm", "", ""},
		choice{"end turn", "board.end_turn", "", "1/4 to 2 in", ""},
		choice{"rod", "rod.diameter", "", "1/4 to 4 in", ""},
		choice{"heading allowance stated", "heading.allowance", "", "1 to 12 in", ""},
		choice{"pleats stated", "heading.pleats", "", "", "none"},
		choice{"wished spacing", "heading.spacing", "10 in / 25 cm", "", "none"},
		choice{"sections", "heading.sections", "", "1 to 40", ""},
		choice{"pleat ends", "heading.ends", "corners", "", ""},
		choice{"fold stated", "heading.fold", "", "1 to 6 in", ""},
		choice{"usual fold", "", "house box_fold", "", ""},
		choice{"take-up stated", "heading.take_up", "", "1 to 24 in", ""},
		choice{"touching", "heading.touching", "", "", ""},
		choice{"window", "window.width", "", "12 to 240 in", "copied"},
		choice{"projection", "over.projection", "", "1/2 to 10 in", "copied"},
		choice{"curtain length", "curtain_length", "", "20 to 200 in", "copied"},
		choice{"lining", "lining.cloth", "", "", ""},
		choice{"lining made", "lining.made", "hemmed", "", ""},
		choice{"lining shorter", "lining.shorter", "1/2 in / 12 mm", "0 to 2 in", ""})
	shorter := &k.Given[len(k.Given)-1]
	short := shorter.Else
	shorter.Else = func(it *ws.Item) (ws.Value, bool) { // half of what a curtain's is, unless the shop has its own
		if t := it.Sheet.Tables; t != nil && t.Own("lining_shorter") {
			return ws.LengthOf(t.House.LiningShorter), true
		}
		return short(it)
	}
	valanceHeading(k)

	steps(k,
		step{"return", "return stated", "{return stated}", "near, hidden", ws.Common},
		step{"return", "board, finished width stated, {finished width stated} ≥ {board}, {finished width stated} ≤ {board} + 2 × {widest return}", "({finished width stated} - {board}) ÷ 2", "near, hidden", ws.Common},
		step{"return", "", "{usual return}", "near, hidden", ws.Common})
	mayBeNothing(k, "return") // it may lie flat between two walls
	finished(k, "width", "12 to 260 in", "length", step{"", "board", "{board} + 2 × {return}", "near", boxTutorial})
	finished(k, "length", "4 to 40 in", "width")
	steps(k,
		step{"board depth", "board depth stated", "{board depth stated}", "near, hidden", ws.Common},
		step{"board depth", "", "{return}", "near, hidden", ws.Common})
	rodPocket(k, "style: rod pocket", "rod", "")
	stapleTurn(k)
	steps(k,
		step{"top allowance", "heading allowance stated", "{heading allowance stated}", "near, hidden", ws.Common},
		step{"top allowance", "pocket made", headerPocketTurn, "up", headerOver},
		step{"top allowance", "mount: board", "{board depth} + {staple turn}", "up", boxTutorial},
		step{"top allowance", "", "{usual heading allowance}", "up, hidden", ws.Common})
	cut(k, "", "face", ws.CutLength, boxTutorial, run{sum: "{finished length} + {top allowance} + {bottom hem}", slips: append([]ws.Slipping{
		{Name: "the cloth over the top was left out", Formula: "{finished length} + {bottom hem}"},
		{When: "{bottom folds} > 1", Name: "the bottom hem was counted once, not folded twice", Formula: "{finished length} + {top allowance} + {bottom turn}"},
		{Name: "the bottom hem was left out", Formula: "{finished length} + {top allowance}"},
		{When: "mount: board, no heading allowance stated", Name: "the staple turn was left out", Formula: "{finished length} + {board depth} + {bottom hem}"},
	}, pocketSlips...)})

	boxPleats(k)
	flat := string(ws.FlatWidth)
	ends := " + 2 × {side hem} [+ 2 × {end turn}]"
	k.Steps = append(k.Steps,
		ws.Step{Term: "side hems", Formula: "2 × {side hem} [+ 2 × {end turn}]", Hidden: true},
		ws.Step{Term: "returns after", Work: returnsAfter, Reads: []string{"finished width", "fullness", "return", "side hems"}, Sort: ws.Count, Hidden: true, Belief: true},
		ws.Step{Term: "returns after", Work: returnsAsked, Reads: []string{"finished width"}, Sort: ws.Count, Hidden: true})
	steps(k,
		step{flat, "style: box pleat", "{finished width} + {pleats} × {take-up of a pleat}" + ends, "up", boxTutorial},
		step{flat, "{returns after} = 1, board, {return} > 0", "{board} × {fullness} + 2 × {return}" + ends, "up", afterwards},
		step{flat, "", "{finished width} × {fullness}" + ends, "up", gatheredBy})
	flatStated(k)
	slips(k,
		slip{"finished width", "one return was left out", "{board} + {return}"},
		slip{"finished width", "the returns were left out", "{board}"},
		slip{flat, "the side hems were left out", "{flat width} - {side hems}"},
		slip{flat, "one side hem was left out", "{flat width} - {side hem}"})
	slipsWhen(k, "{sides folds} > 1", slip{flat, sideOnce, "{flat width} - 2 × {side hem} + 2 × {sides turn}"})
	slipsWhen(k, "style: box pleat",
		slip{flat, "only half of each pleat was counted", "{finished width} + {pleats} × {take-up of a pleat} ÷ 2" + ends},
		slip{flat, "the pleats were left out", "{finished width}" + ends},
		slip{flat, "a pleat was left out", "{flat width} - {take-up of a pleat}"},
		slip{flat, "the returns were left out", "{flat width} - 2 × {return}"})
	slipsWhen(k, "no pleats",
		slip{flat, "the fullness was left out", "{finished width}" + ends},
		slip{flat, "the returns were left out", "{board} × {fullness}" + ends})

	usable(k, "", "", "face", flat)
	widthsJoined(k, flat, "no pleats")
	steps(k,
		step{string(ws.Fullness), "no pleats", "({flat made} - {side hems}) ÷ {finished width}", "share", fullSheet},
		step{"tape for the top", "mount: board/track", "{finished width}", "up", ws.Common},
		step{"depth least", "curtain length", "{curtain length} ÷ 6", "near, hidden", sixthDeep},
		step{"depth most", "curtain length", "{curtain length} ÷ 5", "near, hidden", sixthDeep},
		step{"return wanted", "projection", "{projection} + {return over}", "near, hidden", ws.Common})
	widthPiece(k, "width", "face", string(ws.CutLength), string(ws.Widths), func(it *ws.Item) []length.Length {
		return cutDownTo(it, it.Face, it.Length(flat)) // one that makes all of it is cut no wider
	}, nil)
	valanceLining(k, flat)
	hanging(k, false,
		foot{"no pleats, no lining flat, flat made", "{flat made} - {side hems}"}, foot{"", "{flat width} - {side hems}"}, foot{"", "{finished width}"})
	sewing(k)
	press(k)
	valanceEdges(k)
	flatCut, liningCut := unwashed(k, "face", string(ws.FlatWidth)), unwashed(k, "lining", "lining flat")
	const over = "flat made, {flat made} > {flat width}, "
	notes(k,
		note{"made", "pleats, {pleats} = 1", "one box pleat, of four folds of {fold}, on a {mount}"},
		note{"made", "pleats, {pleats} ≠ 1", "{pleats} box pleats, each of four folds of {fold}, on a {mount}"},
		note{"made", "no pleats", "{style}, on a {mount}"},
		note{"made", "board, {return} > 0", "returns of {return}"},
		note{"made", over + "no pleats, no lining flat", "gather in all of the width as joined"},
		note{"made", "lining flat", "lining {lining made}"})
	steps(k, step{"end takes", "end turn, {end turn} > 0", "{side hem} + {end turn}", "near, hidden", geometry})
	notesAs(k, ws.AsHemmed,
		note{"bagged", "lining flat, lining made: bagged", "instead of hems, sew lining and face right sides together, {side hem} from the edge at the sides and {bottom hem} at the foot; trim the seams and the corners, turn them out and press"})
	notesAs(k, ws.AsHemmed, note{"ends", "end takes", "each end takes {end takes}: its side hem, and a turn of {end turn}"})
	notesAs(k, ws.AsTopped,
		note{"top", "no pocket made, mount: board", "{top allowance} of cloth above the finished top, to go over the board"},
		note{"top", "top allowance, no pocket made, mount: rod/track", "{top allowance} of cloth above the finished top, to fold over"})
	for _, p := range []struct{ when, pocket string }{{"pocket made, {pocket made} = {pocket height}", "{pocket height}"}, {"pocket made, {pocket made} ≠ {pocket height}", "{pocket made}"}} {
		const over = "{top allowance} of cloth above the finished top, to fold over; stitch "
		notesAs(k, ws.AsTopped,
			note{"top", p.when + ", header", over + "{header} below the top for the header, and again " + p.pocket + " below that for the rod's pocket"},
			note{"top", p.when + ", no header", over + p.pocket + " below the top for the rod's pocket"})
	}
	notesAs(k, ws.AsJoined,
		note{"cut down", over + "pleats, {joins} > 0", "join the widths, and cut them down to " + flatCut},
		note{"cut down", over + "no pleats, lining flat, {joins} > 0", "join the widths, and cut them down to " + flatCut},
		note{"cut down", "lining flat, {lining count} > 1", "join the lining, and cut it down to " + liningCut})
	notesAs(k, ws.AsCut,
		note{"cut down", over + "pleats, {joins} = 0", "cut the width down to " + flatCut},
		note{"cut down", over + "no pleats, lining flat, {joins} = 0", "cut the width down to " + flatCut},
		note{"cut down", "lining flat, {lining count} = 1", "cut the lining down to " + liningCut})
	k.Finish = func(it *ws.Item) { it.Joins = it.Count("joins") }
	return k
}

// valanceHeading adds what of a heading rests on its style.
func valanceHeading(k *ws.Kind) {
	plain := func(it *ws.Item) bool {
		switch it.Order.Heading.Style.Value {
		case "", "gathered", "rod pocket", "box pleat":
			return true
		}
		return it.Sheet.Tables.Heading(it.Order.Heading.Style.Value) == nil
	}
	usual := silent("2 in / 5 cm")
	k.Given = append(k.Given,
		ws.Given{Term: "mount", From: []string{"mount", "heading.style"}, Word: func(it *ws.Item) string {
			if it.Order.Mount.Value == "" && it.Order.Heading.Style.Value == "rod pocket" {
				return "rod"
			}
			return ws.Or(it.Order.Mount, "board")
		}},
		ws.Given{Term: "usual fullness", Sort: ws.Ratio, From: []string{"heading.style"}, Get: func(it *ws.Item) (ws.Value, bool) {
			if plain(it) {
				return ws.RatioOf(length.NewRatio(2, 1)), true
			}
			return ws.RatioOf(it.Sheet.Tables.Heading(it.Order.Heading.Style.Value).Usual), true
		}},
		ws.Given{Term: "least fullness", Sort: ws.Ratio, From: []string{"heading.style"}, Get: func(it *ws.Item) (ws.Value, bool) {
			if plain(it) {
				return ws.RatioOf(length.NewRatio(3, 2)), true
			}
			return ws.RatioOf(it.Sheet.Tables.Heading(it.Order.Heading.Style.Value).Least), true
		}},
		ws.Given{Term: "fullness", Sort: ws.Ratio, From: []string{"heading.fullness"}, As: "usual fullness",
			Choice: &ws.Choosing{Usual: []string{"1.5", "2", "2.25", "2.5", "3"}}},
		ws.Given{Term: "usual heading allowance", From: []string{"heading.style"}, Get: func(it *ws.Item) (ws.Value, bool) {
			if it.Order.Heading.Style.Value == "rod pocket" { // that depends on its rod
				return ws.Value{}, false
			}
			if plain(it) {
				return usual(systemOf(it)), true
			}
			return ws.LengthOf(it.Sheet.Tables.Heading(it.Order.Heading.Style.Value).Allowance), true
		}})
}

// stapleTurn adds what is turned under where the cloth is stapled to its board. Where the
// order does not say, the cut may.
func stapleTurn(k *ws.Kind) {
	const turn = "staple turn"
	steps(k, step{turn, "staple turn stated", "{staple turn stated}", "near, hidden", "the order"})
	k.Steps = append(k.Steps, ws.Step{Term: turn, When: "mount: board, no heading allowance stated, no pocket made", Hidden: true, Belief: true,
		Work: func(it *ws.Item) (ws.Result, bool) {
			return cutLeaves(it, it.Length("board depth"), it.Length("usual staple turn"))
		}, Reads: append([]string{"board depth", "usual staple turn"}, leavesReads...)})
	steps(k, step{turn, "", "{usual staple turn}", "near, hidden", ws.Common})
	mayBeNothing(k, turn)
}

// boxPleats adds the pleats of a box pleated face: how many, how far apart, what each
// takes, and where they lie.
func boxPleats(k *ws.Kind) {
	pleats, spacing, takeUp := string(ws.PleatCount), string(ws.PleatSpacing), string(ws.TakeUp)
	steps(k,
		step{"sections wished", "style: box pleat, no sections", "rounded ({board} ÷ {wished spacing})", "whole, hidden", boxSpacing},
		step{pleats, "style: box pleat, sections, pleat ends: corners", "{sections} + 1", "whole", boardBoxes},
		step{pleats, "style: box pleat, sections, pleat ends: plain", "{sections} - 1", "whole", boxTutorial},
		step{pleats, "style: box pleat, sections", "{sections}", "whole", boxSpacing})
	k.Steps = append(k.Steps, ws.Step{Term: pleats, When: "style: box pleat, pleats stated", Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Heading.Pleats, ws.CountOf) },
		Reads: []string{"pleats stated"}, Sort: ws.Count, Belief: true, Free: true})
	steps(k,
		step{pleats, "{sections wished} > 0, pleat ends: corners", "rounded ({board} ÷ {wished spacing}) + 1", "whole", boardBoxes},
		step{pleats, "{sections wished} > 0, pleat ends: plain", "rounded ({board} ÷ {wished spacing}) - 1", "whole", boxTutorial},
		step{pleats, "{sections wished} > 0", "rounded ({board} ÷ {wished spacing})", "whole", boxSpacing},
		step{"section count", "pleats, sections", "{sections}", "whole, hidden", boardBoxes},
		step{"section count", "pleats, pleat ends: corners", "{pleats} - 1", "whole, hidden", boardBoxes},
		step{"section count", "pleats, pleat ends: plain", "{pleats} + 1", "whole, hidden", boxTutorial},
		step{"section count", "pleats", "{pleats}", "whole, hidden", boxSpacing},
		step{spacing, "section count", "{board} ÷ {section count}", "near", boardBoxes},
		step{"fold", "pleats, touching", "{pleat spacing} ÷ 2", "near, hidden", boxTouching},
		step{"fold", "pleats, fold stated", "{fold stated}", "near, hidden", ws.Common},
		step{"fold", "pleats, take-up stated", "{take-up stated} ÷ 4", "near, hidden", ws.Common},
		step{"fold", "pleats, pleat ends: corners, {return} > 0, {return} < {usual fold}", "{return}", "near, hidden", boardBoxes},
		step{"fold", "pleats", "{usual fold}", "near, hidden", ws.Common},
		step{takeUp, "touching", "2 × {pleat spacing}", "near", boxTouching},
		step{takeUp, "", "4 × {fold}", "near", boxTutorial},
		step{"first pleat", "pleats, pleat ends: corners", "0 × {fold}", "near, hidden", geometry},
		step{"first pleat", "pleats, pleat ends: plain", "{pleat spacing}", "near, hidden", geometry},
		step{"first pleat", "pleats", "{pleat spacing} ÷ 2", "near, hidden", geometry})
	mayBeNothing(k, "first pleat")
	k.Outcomes = append(k.Outcomes,
		ws.Outcome{Term: pleats, Field: "heading.pleats"},
		ws.Outcome{Term: spacing, Field: "heading.spacing", Hand: ws.Divided, Unless: func(it *ws.Item) bool { // it is the one that is wished for
			return !it.Order.Heading.Sections.Set && !it.Order.Heading.Pleats.Set
		}},
		ws.Outcome{Term: takeUp, Field: "heading.take_up", Hand: ws.Size})
	slips(k,
		slip{pleats, "the sections were counted, not the pleats", "{section count}"},
		slip{pleats, "one pleat too many was counted", "{pleats} + 1"},
		slip{pleats, "a pleat was left out", "{pleats} - 1"},
		slip{spacing, "it was divided by the pleats, not by the spaces", "{board} ÷ {pleats}"},
		slip{spacing, "the returns were counted as part of the face", "{finished width} ÷ {section count}"},
		slip{takeUp, "one side of the pleat was counted", "2 × {fold}"},
		slip{takeUp, "one fold was left out", "3 × {fold}"})
	const left = "the left raw edge, before it is pleated"
	marks(k,
		mark{"pleat centers", "the left finished edge", "pleats", "{pleats}", "{return} + {first pleat} + ({k} - 1) × {pleat spacing}"},
		mark{"pleat starts", left, "pleats", "{pleats}", "{side hem} [+ {end turn}] + {return} + {first pleat} + ({k} - 1) × ({pleat spacing} + {take-up of a pleat})"})
	marksAs(k, ws.AsJoined,
		mark{"joins", left, "pleats", "{joins}", "({face washed width} + {usable width}) ÷ 2 + ({k} - 1) × {usable width}"})
}

// valanceLining adds the lining: bagged, cut like the face, or hemmed, shorter and
// inside its side hems.
func valanceLining(k *ws.Kind, flat string) {
	long := string(ws.LiningCut)
	cut(k, "lining ", "lining", ws.LiningCut, ws.Common,
		run{when: "lining, lining made: bagged", sum: "{finished length} + {top allowance} + {bottom hem}", slips: []ws.Slipping{
			{Name: "cut without the hem, though it is bagged with the face", Formula: "{finished length} + {top allowance}"}}},
		run{when: "lining, lining made: hemmed", sum: "{finished length} - {lining shorter} + {top allowance} + {lining hem}", slips: []ws.Slipping{
			{Name: "it was not made shorter than the face", Formula: "{finished length} + {top allowance} + {lining hem}"},
			{Name: "its hem was left out", Formula: "{finished length} - {lining shorter} + {top allowance}"},
			{When: "{lining folds} > 1", Name: "its hem was counted once, not folded twice", Formula: "{finished length} - {lining shorter} + {top allowance} + {lining turn}"},
			{Name: "it was cut like the face", Formula: "{finished length} + {top allowance} + {bottom hem}"}}})
	steps(k,
		step{"lining flat", "lining, lining made: bagged", "{flat width}", "up, hidden", boxTutorial},
		step{"lining flat", "lining", "{flat width} - 2 × {side hem}", "up, hidden", ws.Common})
	usable(k, "lining ", "lining", "lining", "lining flat")
	exact := widthsIn("lining ", "lining", "lining flat")
	k.Steps = append(k.Steps,
		ws.Step{Term: string(ws.LiningWidths), When: "lining flat, lining usable width, {lining flat} ≤ {lining washed width}", Formula: "1", Sort: ws.Ratio, Source: wholeHalf},
		ws.Step{Term: string(ws.LiningWidths), Formula: "rounded up (" + exact + ")", Sort: ws.Ratio, Source: wholeHalf})
	widthPiece(k, "lining", "lining", long, string(ws.LiningWidths), func(it *ws.Item) []length.Length {
		return cutDownTo(it, it.Cloth("lining"), it.Length("lining flat"), it.Length(flat))
	}, nil)
}

// valanceEdges says what lies along the edges of a valance's pieces.
func valanceEdges(k *ws.Kind) {
	for _, p := range [][2]string{{"pleats", "{flat width}"}, {"lining flat", "{flat width}"}, {"no pleats, no lining flat", "{flat made}"}} {
		when := p[0]
		if when == "lining flat" {
			when += ", no pleats"
		}
		k.Panels = append(k.Panels, ws.Paneling{Name: thePanel, Role: "face", Pieces: "width", When: when, Across: p[1] + " - {side hems}", Along: "{finished length}", Main: true})
	}
	const outer, sides = "raw seam or outer edge", "turn {side hem} + {end turn} side hem and end turn"
	edgings(k,
		edging{"panel/width", "", "turn {top allowance} over the top", "hem bottom", "", ""},
		edging{thePanel, "end turn", "", "", sides, sides},
		edging{thePanel, "", "", "", "hem sides", "hem sides"},
		edging{"width/lining", "", "", "", outer, outer},
		edging{"lining", "lining made: hemmed", "turn {top allowance} over the top", "hem lining", "", ""})
	placed(k,
		ws.Placing{Mark: "pleat starts", Of: thePanel, Edge: ws.Top, Raw: true},
		ws.Placing{Mark: "joins", Of: thePanel, Edge: ws.Foot, Raw: true, Through: true})
}
