package goods

import (
	"slices"

	"cutgate/internal/length"
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	toThePad    = "Ideal Home, Square envelope cushion; FashionSkool: the pad and two seams"
	padItself   = "collected box cushion patterns: cut to the pad's own size"
	underThePad = "The Avid Seamstress, How to put a zip into a cushion: cut under the pad"
	foldedIn    = "Webcasty, How to make cushions: half the depth on each side"
	zipEdge     = "Just Fabrics, cushion with pompom trim: the zip's edge takes more"
	boxedPlates = "Building Our Hive, Bench cushion: plates are the foam and two seams"
	boxedDepth  = "Building Our Hive, Bench cushion; Upholstery Resource, box cushion sewing"
	fourStrips  = "Adventures in DIY, Bench cushion; Instructables, Calculating yardage, bench cushions"
	zipRound    = "Upholstery Resource, box cushion sewing: the zip runs past both back corners"
	zipWithin   = "Alternative Windows, Zipped cushions: the zip is shorter than its edge"
	twoHalves   = "Alternative Windows, Zipped cushions: half a circle, and the zip's edge"
	bandRound   = "collected box cushion patterns: the band is the round less the zip strip"
	seamLine    = "Cut Out and Keep, Floor cushion, as corrected: taken round the seam line"
	tubeRound   = "J Berry Upholstery, bedroom bolster: the circle is the diameter, the tube the round, and a seam on each side"
	drawnUp     = "City Home Country Home, Neck roll cover: the radius, a seam and a turn"
	inOneStrip  = "The Spruce Crafts, Free directions to sew envelope pillow covers: front and backs in one"
)

// Styles of cushion, as guards.
const (
	flatCushion = "style: knife edge/piped/mock box"
	squareOne   = "style: knife edge/piped/boxed/mock box"
	disc        = "style: round, no pad depth"
	drum        = "style: round, pad depth"
	zipped      = "closure: zip"
	lapping     = "closure: envelope/buttons/snaps/ties/tape"
)

// cushionCover is a cover for a pad: two faces sewn together, with a piping between
// them or without; boxed, or round with a depth: two plates, and round their edge a
// band; a bolster: a tube and two ends.
func cushionCover() *ws.Kind {
	k := &ws.Kind{
		Name:  "cushion cover",
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "back", Field: "back.cloth", Else: "face"}, {Name: "piping", Field: "piping.cloth", Else: "face"}},
		Adds:  small, Layers: layers,
	}
	cloths(k)
	choices(k,
		choice{"style", "style", "", "", ""},
		choice{"back cloth", "back.cloth", "", "", ""},
		choice{"pad width", "pad.width", "", "6 to 120 in", "ordered, swaps pad length"},
		choice{"pad length", "pad.length", "", "6 to 120 in", "ordered, swaps pad width"},
		choice{"pad depth", "pad.depth", "", "1 to 12 in", ordered},
		choice{"pad diameter", "pad.diameter", "", "4 to 60 in", ordered},
		choice{"pad around", "pad.around", "", "", "none"},
		choice{"snug ease", "", "3/8 in / 1 cm", "", ""},
		choice{"firm ease", "", "3/4 in / 2 cm", "", ""},
		choice{"own ease", "ease", "", "0 to 3 in", ""},
		choice{"closure", "closure.kind", "zip", "", ""},
		choice{"run stated", "run", "", "", ""},
		choice{"boxing layout", "boxing.layout", "one strip", "", ""},
		choice{"boxing run stated", "boxing.run", "", "", ""},
		choice{"boxing ease", "boxing.ease", "house boxing_ease, if any", "0 to 1 in", ""},
		choice{"allowance", "allowance", "1/2 in / 15 mm", "1/4 to 3/4 in", ""},
		choice{"zip seam", "zip.allowance", "= allowance", "1/4 to 1 in", ""},
		choice{"zip clear", "zip.clear", "house zip_clear", "0 to 3 in", ""},
		choice{"zip corner", "zip.round_corner", "4 in / 10 cm", "1/4 to 8 in", ""},
		choice{"strip seam", "zip.strip_allowance", "3/4 in / 2 cm", "1/4 to 1 in", ""},
		choice{"zip stated", "zip.length", "", "", "none"},
		choice{"zip share", "", "0.4", "", ""},
		choice{"ends", "ends", "flat", "", ""},
		choice{"end turn", "end_turn", "3/4 in / 2 cm", "1/4 to 2 in", ""},
		choice{"ties", "ties.count", "", "1 to 24", ""},
		choice{"tie width", "ties.width", "3/4 in / 2 cm", "1/4 to 3 in", ""},
		choice{"tie length", "ties.length", "12 in / 30 cm", "3 to 36 in", ""},
		choice{"tie seam", "ties.allowance", "1/4 in / 6 mm", "1/8 to 3/4 in", ""},
		choice{"foam under", "filling.under", "", "0 to 1 in", ""},
		choice{"bought piping", "piping.length", "", "", "none"},
		choice{"around slack", "", "1/2 in / 12 mm", "", ""})
	k.Given = append(k.Given, ws.Given{Term: "nap", From: []string{"face/nap"}, Usually: ws.Silent}, ws.Given{Term: "fit", From: []string{"fit"}, Word: func(it *ws.Item) string { return ws.Or(it.Order.Fit, it.Sheet.Tables.House.CushionFit) }})
	called(k, "zip clear", "", "1 in", "2.5 cm")
	called(k, "boxing ease", "", "1/4 in", "1/2 in", "3/4 in", "5 mm", "1 cm", "2 cm")
	called(k, "zip seam", "zip's allowance")
	called(k, "zip corner", "zip past each corner", "4 in", "5 in", "6 in", "10 cm", "12 cm", "15 cm")
	called(k, "strip seam", "zip strip's allowance")
	shownAs(k, "allowance", "seam allowance")

	k.Steps = append(k.Steps,
		ws.Step{Term: "pad lacks", When: "pad width, pad length", Word: padLacks, Reads: []string{"style", "pad depth"}},
		ws.Step{Term: "unlapped", When: lapping, Word: unlapped, Reads: []string{"style", "closure", "pad depth"}},
		ws.Step{Term: "mock", Shown: "pad depth", When: "style: mock box", Formula: "{pad depth}", Hidden: true})
	sized := func(side, when string) {
		term, pad := "finished "+side, "{pad "+side+"}"
		rest := " [+ {mock}]"
		if side == "diameter" {
			rest = ""
		}
		steps(k,
			step{term, both(when, "own ease"), pad + " - {own ease}" + rest, "near", underThePad},
			step{term, both(when, "fit: tight"), pad + " - 2 × {allowance}" + rest, "near", padItself},
			step{term, both(when, "fit: snug"), pad + " - {snug ease}" + rest, "near", "Hudson Hen, Simple envelope cushion: about 1 cm under the pad"},
			step{term, both(when, "fit: firm"), pad + " - {firm ease}" + rest, "near", underThePad},
			step{term, both(when, "style: boxed"), pad + rest, "near", boxedPlates},
			step{term, both(when, "mock"), pad + rest, "near", foldedIn},
			step{term, when, pad + rest, "near", toThePad})
	}
	sized("width", squareOne)
	sized("length", "style: knife edge/piped/boxed/mock box/bolster")
	sized("diameter", "style: round/bolster")
	k.Steps = append(k.Steps, ws.Step{Term: "run", Word: cushionRun, Reads: []string{"run stated", "finished width", "finished length", "allowance", "face washed width", "nap"}})
	steps(k,
		step{"perimeter", "style: boxed", "2 × ({finished width} + {finished length})", "near", bandRound},
		step{"perimeter", squareOne, "2 × ({finished width} + {finished length})", "near, hidden", geometry},
		step{"around", "", "{finished diameter} × π", "near", seamLine},
		step{"cut around", "", "({finished diameter} + 2 × {allowance}) × π", "near, hidden", seamLine},
		step{"boxing depth", "style: boxed/round", "{pad depth} [- {boxing ease}] + 2 × {allowance}", "up", boxedDepth},
		step{"zip side", "style: bolster", "{finished length}", "near, hidden", geometry},
		step{"zip side", disc, "{finished diameter}", "near, hidden", geometry},
		step{"zip side", "finished width", "{finished width}", "near, hidden", geometry},
		step{"zip length", both(zipped, "style: boxed, boxing depth, boxing layout: one strip"), "{finished width} + 2 × {zip corner}", "down", zipRound},
		step{"zip length", both(zipped, drum), "{zip share} × {around}", "down", ws.Common},
		step{"zip length", both(zipped, "style: bolster"), "{finished length} - 2 × {zip clear}", "down", zipWithin},
		step{"zip length", both(zipped, disc), "{finished diameter} - 2 × {zip clear}", "down", zipWithin},
		step{"zip length", zipped, "{finished width} - 2 × {zip clear}", "down", zipWithin},
		step{"zip most", both("zip length", drum), "{zip length}", "near, hidden", geometry},
		step{"zip most", "zip length, style: boxed, boxing layout: one strip", "{zip length}", "near, hidden", geometry},
		step{"zip most", "zip length", "{zip side}", "near, hidden", "The Avid Seamstress, How to put a zip into a cushion: the whole edge"},
		step{"zip set", "zip stated", "{zip stated}", "near, hidden", "the order"},
		step{"zip set", "", "{zip length}", "near, hidden", zipWithin},
		step{"zip strip depth", zipped, "({boxing depth} + 2 × {strip seam}) ÷ 2", "up", boxedDepth},
		step{"zip strip run", both(zipped, "style: boxed, boxing layout: three sides/four sides, boxing depth"), "{finished width} + 2 × {allowance}", "up", fourStrips},
		step{"zip strip run", both(zipped, "boxing depth"), "{zip length} + 2 × {allowance}", "up", bandRound},
		step{"boxing length", "boxing depth, style: boxed, boxing layout: one strip/three sides", "{perimeter} [- ({zip strip run} - 2 × {allowance})] + 2 × {allowance}", "up", bandRound},
		step{"boxing length", "boxing depth, style: round", "{around} [- ({zip strip run} - 2 × {allowance})] + 2 × {allowance}", "up", seamLine})
	lies := []string{"boxing run stated", "boxing layout", "zip strip run", "finished width", "finished length", "allowance", "face washed width", "nap"}
	k.Steps = append(k.Steps, ws.Step{Term: "boxing run", Word: stripsRun("boxing", "boxing depth", "boxing length"), Reads: append([]string{"boxing depth", "boxing length"}, lies...)}, ws.Step{Term: "strips run", Word: stripsRun("zip strip", "zip strip depth", "zip strip run"), Reads: append([]string{"zip strip depth"}, lies...)},
		ws.Step{Term: "boxing count", Name: ws.PieceCount, Of: "boxing", When: "boxing length", Sort: ws.Count, Work: boxingChosen, Reads: []string{"boxing length", "allowance", "boxing run", "face washed width", "face selvedge"}, Belief: true},
		always("boxing", "boxing length, boxing run: along", 1, "boxing length"),
		ws.Step{Term: "boxing count", Name: ws.PieceCount, Of: "boxing", Sort: ws.Count, Source: ws.Common, Formula: "rounded up (({boxing length} - 2 × {allowance}) ÷ ({face washed width} [- 2 × {face selvedge}] - 2 × {allowance}))"})
	steps(k, step{"boxing each", "", "({boxing length} + 2 × {allowance} × ({boxing count} - 1)) ÷ {boxing count}", "up", joined})

	bias(k, piped{"style: boxed", 2, "perimeter"}, piped{"perimeter", 1, "perimeter"}, piped{disc, 1, "around"}, piped{"around", 2, "around"})
	k.Outcomes[slices.IndexFunc(k.Outcomes, func(o ws.Outcome) bool { return o.Term == "piping length" })].AsRight = atTheCutEdge
	across, along, circle := "{finished width} + 2 × {allowance}", "{finished length} + 2 × {allowance}", "{finished diameter} + 2 × {allowance}"
	backs(k, "back", laps, run{when: both(flatCushion, lapping), sum: along}, run{when: both(disc, lapping), sum: circle})

	turned := func(name, role, across, along, count, when, run string) []piece {
		return []piece{{name, role, along, across, count, both(when, run+": along")}, {name, role, across, along, count, both(when, run+": across")}}
	}
	cut := func(rows ...[]piece) {
		for _, r := range rows {
			pieces(k, r...)
		}
	}
	withZip := "{finished length} + {allowance} + {zip seam}"
	k.Steps = append(k.Steps,
		ws.Step{Term: "fronts", When: both(flatCushion, "closure: zip/sewn, no back cloth"), Work: twoFronts, Sort: ws.Count, Hidden: true, Belief: true},
		ws.Step{Term: "fronts", When: flatCushion, Formula: "1", Sort: ws.Count, Hidden: true})
	cut(
		append(turned("front", "face", across, withZip, "{fronts}", both(flatCushion, zipped), "run"), turned("front", "face", across, along, "{fronts}", flatCushion, "run")...),
		append(turned("plate", "face", across, along, "1", "style: boxed, back cloth", "run"), turned("plate", "face", across, along, "2", "style: boxed", "run")...),
		[]piece{{"circle", "face", circle, circle, "1", both(disc, zipped)}, {"circle", "face", circle, circle, "1", both(disc, lapping)},
			{"circle", "face", circle, circle, "1", "style: round, back cloth"}, {"circle", "face", circle, circle, "2", "style: round"}},
		slices.Concat(
			turned("back", "back", across, withZip, "1", both(flatCushion, zipped, "{fronts} = 1"), "run"),
			turned("back", "back", across, eachBack(along), "2", both(flatCushion, lapping), "run"),
			turned("back", "back", across, along, "1", both(flatCushion, "{fronts} = 1"), "run"),
			turned("back", "back", across, along, "1", "style: boxed, back cloth", "run"),
			turned("back", "back", circle, eachBack(circle), "2", both(disc, lapping), "run"),
			[]piece{{"back", "back", circle, circle, "1", both(drum, "back cloth")}, {"back", "back", circle, circle, "1", both(disc, "closure: sewn, back cloth")}}),
		[]piece{{"half circle", "back", circle, "(" + circle + ") ÷ 2 + {zip seam}", "2", both(disc, zipped)}},
		turned("boxing", "face", "{boxing each}", "{boxing depth}", "", "boxing each", "boxing run"),
		append(turned("front boxing", "face", across, "{boxing depth}", "1", both("style: boxed, boxing layout: four sides", zipped), "boxing run"),
			turned("front boxing", "face", across, "{boxing depth}", "2", "style: boxed, boxing layout: four sides", "boxing run")...),
		turned("side boxing", "face", along, "{boxing depth}", "2", "style: boxed, boxing layout: four sides", "boxing run"),
		turned("zip strip", "face", "{zip strip run}", "{zip strip depth}", "2", "", "strips run"),
		[]piece{{"tube", "face", "{around} + 2 × {allowance}", along, "1", "style: bolster"}},
		[]piece{{"end", "face", circle, circle, "2", "style: bolster, ends: flat"}},
		[]piece{{"end strip", "face", "{around} + 2 × {allowance}", "{finished diameter} ÷ 2 + {allowance} + {end turn}", "2", "style: bolster, ends: gathered"}},
		[]piece{{"tie", "face", "2 × {tie width} + 2 × {tie seam}", "{tie length} + 2 × {tie seam}", "{ties}", "ties"}})
	biasSquare(k)
	motifs(k, "front", "back", "plate", "circle")
	anywhere(k, "boxing", "front boxing", "side boxing", "zip strip", "end", "end strip", "tie")
	eitherWay(k, "tie")
	// So may the others, where the order does not say how they lie.
	for p := range piecesCalled(k, []string{"front", "plate", "back"}) {
		p.Turns = func(it *ws.Item) bool { return !it.Order.Run.Set && plainCloth(it.Cloth(p.Role)) }
	}
	for p := range piecesCalled(k, []string{"boxing", "front boxing", "side boxing", "zip strip"}) {
		p.Turns = func(it *ws.Item) bool { return !it.Order.Boxing.Run.Set && plainCloth(it.Face) }
	}
	rounder(k, "tie")
	for i := range k.Pieces {
		switch p := &k.Pieces[i]; p.Name {
		case "boxing", "zip strip": // their runs are trimmed when they are joined
			run := map[string]string{"boxing": "boxing run", "zip strip": "strips run"}[p.Name]
			p.WidthAsRight = func(it *ws.Item) []length.Length { return runsUp(it, run, "across", p.Width) }
			p.LengthAsRight = func(it *ws.Item) []length.Length { return runsUp(it, run, "along", p.Length) }
		case "back":
			p.LengthAsRight = func(it *ws.Item) []length.Length {
				if !it.Has("front along") || it.Word("run") == "along" {
					return nil
				}
				return it.Rounder(p.Length)
			}
		}
	}
	cite(k, toThePad, "front", "back")
	cite(k, boxedPlates, "plate")
	cite(k, boxedDepth, "boxing", "zip strip")
	cite(k, fourStrips, "front boxing", "side boxing")
	cite(k, twoHalves, "circle", "half circle")
	cite(k, tubeRound, "tube", "end")
	cite(k, drawnUp, "end strip")

	steps(k,
		step{"one strip", "front along, finished length, no back cloth", "2 × {finished length} + {overlap} + 2 × {back hem}", "up, hidden", inOneStrip},
		step{"zip edge", both(flatCushion, zipped, "{zip seam} ≠ {allowance}"), "{zip seam}", "near, hidden", zipEdge},
		step{"zip edge", both(disc, zipped, "{zip seam} ≠ {allowance}"), "{zip seam}", "near, hidden", zipEdge},
		step{"mock stitch", "mock", "{pad depth} ÷ 2", "near, hidden", foldedIn},
		step{"foam width", "foam under", "{pad width} - {foam under}", "near", ws.Common},
		step{"foam length", "foam under", "{pad length} - {foam under}", "near", ws.Common})
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: "zip length", Field: "zip.length", Hand: ws.Size,
		Fine: func(it *ws.Item, stated ws.Value) bool { // a shorter zip goes in, as long as the pad does
			return stated.Length() <= it.Length("zip most") && stated.Length().Mul(4) >= it.Length("zip length").Mul(3)
		},
		Unsure: func(it *ws.Item) bool { return it.Order.Zip.Length.Value < it.Length("zip length") }})
	cushionSlips(k)
	cushionTicket(k)
	cushionEdges(k)
	press(k)
	return k
}

// cushionRun is how fronts and plates lie on the cloth. Where that is not said, those that
// are wider than a plain cloth are turned.
func cushionRun(it *ws.Item) string {
	if stated := it.Order.Run.Value; stated != "" {
		return stated
	}
	if !turnable(it, "front", "plate", "back") || it.Order.Back.Set {
		return "across"
	}
	c := it.Face
	wide, long := it.Length("finished width")+2*it.Length("allowance"), it.Length("finished length")+2*it.Length("allowance")
	if wide > c.Washed && long <= c.Washed {
		return "along"
	}
	return "across"
}

// stripsRun is how the strips of a boxing of that name lie on the cloth, so deep and in all so
// long. Where the order does not say, the cut of a plain cloth may, and otherwise those that
// are cut in one piece, and are longer than a plain cloth is wide, run down it.
func stripsRun(piece, depth, whole string) func(*ws.Item) string {
	return func(it *ws.Item) string {
		if stated := it.Order.Boxing.Run.Value; stated != "" {
			return stated
		}
		if run := cutSaysRun(it, piece, depth, whole); run != "" {
			return run
		}
		if !turnable(it, piece) {
			return "across"
		}
		longest := it.Length("zip strip run")
		if it.Word("boxing layout") == "four sides" {
			longest = max(longest, it.Length("finished width")+2*it.Length("allowance"), it.Length("finished length")+2*it.Length("allowance"))
		}
		if longest > it.Face.Washed {
			return "along"
		}
		return "across"
	}
}

// cutSaysRun is how strips lie of which the cut states the depth, on one side or the other;
// "" where it says nothing of that.
func cutSaysRun(it *ws.Item, piece, depth, whole string) string {
	c := it.StatedCut(piece)
	if c == nil || !c.Width.Set || !c.Length.Set || !plainCloth(it.Face) {
		return ""
	}
	is := func(l order.Length, term string) bool { return ws.Near(l.Value, it.Length(term), it.Step()) }
	switch deep := is(c.Length, depth); {
	case is(c.Width, depth) == deep:
		return ""
	case !deep, c.Width.Value > it.Face.Width && is(c.Width, whole) && (piece != "boxing" || c.Count.Value <= 1):
		return "along"
	case c.Width.Value > it.Face.Width:
		return ""
	}
	return "across"
}

// boxingChosen is the maker's number of pieces in a boxing, more than the cloth asks for,
// where the length stated of each goes with it.
func boxingChosen(it *ws.Item) (ws.Result, bool) {
	c, seams := it.StatedCut("boxing"), it.Length("allowance").Mul(2)
	if c == nil || c.Count.Value < 2 || c.Count.Value > 4 {
		return ws.Result{}, false
	}
	n, least := c.Count.Value, int64(1)
	if fits := it.Length("face washed width") - 2*it.Length("face selvedge") - seams; fits > 0 && it.Word("boxing run") == "across" {
		least = length.CeilDiv(it.Length("boxing length")-seams, fits)
	}
	each := (it.Length("boxing length") + seams.Mul(n-1)).Div(n, length.Up)
	return ws.Result{Value: ws.CountOf(n), Source: "the order"}, n > least && ws.Near(max(c.Width.Value, c.Length.Value), each, it.Step())
}

// twoFronts is 2 where the cuts call front and back of a cushion by one name.
func twoFronts(it *ws.Item) (ws.Result, bool) {
	c := it.StatedCut("front")
	return ws.Result{Value: ws.CountOf(2)}, c != nil && c.Count.Value == 2 && it.StatedCut("back") == nil
}

// turnable reports whether an item's cloth may be turned for those pieces without asking: it
// is plain, and no cut of them is stated across it that is wider than it is.
func turnable(it *ws.Item, pieces ...string) bool {
	return plainCloth(it.Face) && !slices.ContainsFunc(it.Order.Cuts, func(k order.Cut) bool {
		return k.Width.Value > it.Face.Width && slices.Contains(pieces, k.Piece.Value)
	})
}

// plainCloth reports whether a cloth has no nap that is said, and no pattern.
func plainCloth(c *ws.Cloth) bool {
	return c != nil && c.Order.Nap.Value != "one way" && c.Repeat == 0 && c.Across == 0
}

// laps reports whether a cushion is closed by two backs that lap.
func laps(o *order.Item) bool {
	switch o.Closure.Kind.Value {
	case "", "zip", "sewn":
		return false
	}
	return o.Style.Value != "boxed" && o.Style.Value != "bolster" && (o.Style.Value != "round" || !o.Pad.Depth.Set)
}

// unlapped is the closure of a cushion on which backs would lap, and don't; "" for none.
func unlapped(it *ws.Item) string {
	if kind := it.Order.Closure.Kind.Value; !laps(it.Order) {
		return map[string]string{"envelope": "an envelope", "tape": "a tape"}[kind] + map[string]string{"buttons": kind, "snaps": kind, "ties": kind}[kind]
	}
	return ""
}

// runsUp are rounder lengths of what runs along the boxing, where its strips lie so.
func runsUp(it *ws.Item, run, lie, term string) []length.Length {
	if it.Word(run) != lie {
		return nil
	}
	return it.Rounder(term)
}

// padLacks is the size of the pad without which a part only of the cover is worked out;
// "" for none.
func padLacks(it *ws.Item) string {
	if style := it.Order.Style.Value; (style == "boxed" || style == "mock box") && !it.Has("pad depth") {
		return "depth"
	}
	return ""
}

// cushionTicket is what the ticket of a cushion says on top of its cuts.
func cushionTicket(k *ws.Kind) {
	oneStrip := "style: boxed, boxing layout: one strip"
	flatZip := both(zipped, "zip set, zip side")
	marks(k,
		mark{"zip", "the left end of its seam", both(flatZip, "{zip set} ≤ {zip side}, style: boxed, boxing layout: three sides/four sides"), "2", "({zip side} - {zip set}) ÷ 2 + ({k} - 1) × {zip set}"},
		mark{"zip", "the left end of its seam", both(flatZip, "{zip set} ≤ {zip side}, no boxing depth"), "2", "({zip side} - {zip set}) ÷ 2 + ({k} - 1) × {zip set}"},
		mark{"zip strip", "its raw end: the back corners", both(zipped, oneStrip, "boxing depth"), "2", "{allowance} + {zip corner} + ({k} - 1) × {finished width}"},
		mark{"boxing", "its raw end: the front corners", both(zipped, oneStrip, "boxing length, {finished length} > {zip corner}"), "2", "{allowance} + {finished length} - {zip corner} + ({k} - 1) × {finished width}"},
		mark{"boxing", "its raw end: the front corners", both(zipped, "style: boxed, boxing layout: three sides, boxing length"), "2", "{allowance} + {finished length} + ({k} - 1) × {finished width}"})
	marksAs(k, ws.AsJoined,
		mark{"joins", "the end of the zip strip, along the boxing; shift them to a corner if you like", "boxing each, {boxing count} > 1", "{boxing count} - 1", "{k} × ({boxing each} - 2 × {allowance})"})
	notes(k,
		note{"piping", both("piping length", squareOne), "the ends of each round meet in the middle of the back edge, overlapping by {piping join}; keep joins of the strip off the corners"},
		note{"piping", "piping length, around", "the ends of each round meet at the zip's seam, overlapping by {piping join}"},
		// Where ties go is common practice, no source.
		note{"ties", "tie cut width, tie cut length", "fold each lengthwise and sew it {tie seam} from the edge, and across one end: {tie width} wide and {tie length} long"},
		note{"", "tie cut width, tie cut length, closure: ties", "sew them on in pairs, one to each edge of the opening, evenly apart"},
		note{"", "tie cut width, tie cut length, closure: zip/sewn/envelope/buttons/snaps/tape, style: knife edge/piped/boxed/mock box", "catch their open ends in the seam at the two back corners, as many at each"},
		note{"", "tie cut width, tie cut length, closure: zip/sewn/envelope/buttons/snaps/tape, style: round", "catch their open ends in the seam where the chair's uprights stand, as many at each"},
		note{"seams", "zip strip depth", "{allowance} at every edge, {strip seam} at the zip"},
		note{"seams", "zip edge", "{allowance} at every edge, {zip edge} at the zip"},
		note{"seams", "no zip strip depth, no zip edge", "{allowance} at every edge"},
		note{"make up", both(flatCushion, zipped), "sew the zip's seam shut at both ends and set the zip between; sew the other sides with the zip open"},
		note{"make up", both(disc, zipped), "join the half circles, shut at both ends and with the zip between; sew them to the circle with the zip open"},
		note{"make up", "front along", "hem the overlapping edge of each back; lay them on the front, right sides together, overlapping by {overlap}; sew all round and turn out"},
		note{"", "one strip, run: across", "or cut front and backs as one strip {one strip} long: hem its ends, fold them in until they overlap by {overlap}, and sew the sides"},
		note{"make up", "zip strip run", "set the zip between its strips and sew them to the ends of the boxing; sew the boxing to one side, then to the other with the zip open"},
		note{"make up", both(zipped, "style: bolster"), "sew the long seam of the tube with the zip in it"},
		note{"", "style: bolster, ends: flat", "ease the ends on, right sides together"},
		note{"", "style: bolster, ends: gathered", "sew on the end strips, turn their edges {end turn}, draw them up and cover the middle with a button"},
		note{"", "mock stitch", "the cover is flat so far: last, fold each corner seam on seam and sew across it {mock stitch} from the point, where the line is {pad depth} long"})
}

// atTheCutEdge is the piping's length where the round was taken at the cut edge, which
// is longer and does as well.
func atTheCutEdge(it *ws.Item) []length.Length {
	seams := it.Length("allowance").Mul(8)
	if it.Has("around") {
		seams = it.Length("cut around") - it.Length("around")
	}
	return []length.Length{it.Length("piping length") + seams.Mul(it.Count("piping rounds"))}
}

// cushionSlips are the slips of a cover's own arithmetic.
func cushionSlips(k *ws.Kind) {
	// Both ways that a piece may lie: side is what the formula gives where it is cut across.
	lying := func(run, piece, side string, rows ...slip) {
		other := map[string]string{"width": "length", "length": "width"}[side]
		for _, way := range []struct{ when, size string }{{run + ": across", side}, {run + ": along", other}} {
			for _, r := range rows {
				r.of = piece + " cut " + way.size
				slipsWhen(k, way.when, r)
			}
		}
	}
	one := func(f string) []slip {
		return []slip{{"", "the allowance was added on one side only", f + " + {allowance}"}, {"", "cut to the pad: the allowances are left out", f}}
	}
	for _, piece := range []string{"plate", "front", "back"} {
		for _, side := range []string{"width", "length"} {
			lying("run", piece, side, one("{finished "+side+"}")...)
		}
	}
	backSlips(k, "run: across", "length")
	backSlips(k, "run: along", "width")
	for _, piece := range []string{"circle", "end"} {
		for _, side := range []string{"width", "length"} {
			slips(k,
				slip{piece + " cut " + side, "it was cut at its finished size", "{finished diameter}"},
				slip{piece + " cut " + side, "the allowance was added once", "{finished diameter} + {allowance}"})
		}
	}
	slips(k,
		slip{"half circle cut width", "it was cut at its finished size", "{finished diameter}"},
		slip{"half circle cut length", "this is half the circle, with nothing for the zip's edge", "({finished diameter} + 2 × {allowance}) ÷ 2"},
		slip{"half circle cut length", "it was cut at its finished size", "{finished diameter} ÷ 2"})
	lying("boxing run", "boxing", "length",
		slip{"", "the allowance was added once", "{boxing depth} - {allowance}"},
		slip{"", "the allowances were left out", "{boxing depth} - 2 × {allowance}"})
	for _, piece := range []string{"front boxing", "side boxing"} {
		lying("boxing run", piece, "length",
			slip{"", "the allowance was added once", "{boxing depth} - {allowance}"},
			slip{"", "the allowances were left out", "{boxing depth} - 2 × {allowance}"})
		side := map[string]string{"front boxing": "width", "side boxing": "length"}[piece]
		lying("boxing run", piece, "width", one("{finished "+side+"}")...)
	}
	lying("strips run", "zip strip", "length",
		slip{"", "this is half the boxing, with nothing for the zip", "{boxing depth} ÷ 2"},
		slip{"", "the strip's own allowance was counted once", "({boxing depth} + {strip seam}) ÷ 2"},
		slip{"", "it was not halved: this is for both strips", "{boxing depth} + 2 × {strip seam}"})
	round := func(name, sum string) slip {
		return slip{"", name, "(" + sum + " + 2 × {allowance} × ({boxing count} - 1)) ÷ {boxing count}"}
	}
	lying("boxing run", "boxing", "width",
		round("the zip strip was not taken off", "{perimeter} + 2 × {allowance}"),
		round("the zip strip was taken off with its allowances", "{perimeter} - {zip strip run} + 2 × {allowance}"),
		round("the zip strip was not taken off", "{around} + 2 × {allowance}"),
		round("the zip strip was taken off with its allowances", "{around} - {zip strip run} + 2 × {allowance}"),
		round("it was measured round the cut edge, not the seam line", "{cut around} [- ({zip strip run} - 2 × {allowance})]"),
		round("it was measured round the cut edge, not the seam line, and the zip strip was not taken off", "{cut around}"),
		slip{"", "the allowances of the joins were left out", "{boxing length} ÷ {boxing count}"},
		slip{"", "it was not divided by the pieces", "{boxing length}"})
	lying("strips run", "zip strip", "width",
		slip{"", "the allowances were left out: this is the zip's length", "{zip strip run} - 2 × {allowance}"},
		slip{"", "the allowance was added on one end only", "{zip strip run} - {allowance}"})
	for _, piece := range []string{"tube", "end strip"} {
		slips(k,
			slip{piece + " cut width", "it was taken as three diameters round, not 3.14", "3 × {finished diameter} + 2 × {allowance}"},
			slip{piece + " cut width", "it was measured round the cut circle", "{cut around} + 2 × {allowance}"},
			slip{piece + " cut width", "the allowances were left out", "{around}"})
	}
	slips(k,
		slip{"tube cut length", "the allowance was added on one side only", "{finished length} + {allowance}"},
		slip{"tube cut length", "the allowances were left out", "{finished length}"},
		slip{"end strip cut length", "the turn was left out", "{finished diameter} ÷ 2 + {allowance}"},
		slip{"end strip cut length", "the whole diameter was used, not half", "{finished diameter} + {allowance} + {end turn}"},
		slip{"tie cut width", "it was cut at its finished width", "{tie width}"},
		slip{"tie cut width", "it was not doubled", "{tie width} + 2 × {tie seam}"},
		slip{"tie cut width", "the seams were left out", "2 × {tie width}"},
		slip{"tie cut length", "the seams were left out", "{tie length}"},
		slip{"tie cut length", "one seam was left out", "{tie length} + {tie seam}"})
	zip := func(when string, rows ...slip) {
		for _, r := range rows {
			r.of = "zip length"
			slipsWhen(k, when, r)
		}
	}
	zip("zip length, style: boxed, boxing layout: one strip",
		slip{"", "the corners were left out", "{finished width}"}, slip{"", "it was taken for the back alone", "{finished width} - 2 × {zip clear}"}, slip{"", "one corner was left out", "{finished width} + {zip corner}"})
	zip("zip length, no boxing depth", slip{"", "one end was left out", "{zip side} - {zip clear}"}, slip{"", "this is its seam all the way round", "{zip side} + 2 × {allowance}"})
	zip(both("zip length", drum), slip{"", "this is all the way round", "{around}"})
	slipsWhen(k, "perimeter", slip{"piping length", "this is four times the way round, not four times the side", "4 × {piping run} + {piping join}"})
}

// cushionEdges says what lies along the edges of a cushion's pieces.
func cushionEdges(k *ws.Kind) {
	const plain, zip, strip = "seam {allowance}", "seam {zip seam} zip seam", "seam {strip seam} zip seam"
	outline(k, "circle/end", "", ws.Circle, "")
	outline(k, "back", drum, ws.Circle, "")
	outline(k, "back", both(disc, "closure: sewn"), ws.Circle, "")
	outline(k, "half circle", "", ws.HalfCircle, "")
	edgings(k,
		edging{"front/back", both(flatCushion, zipped, "run: across"), "", zip, "", ""},
		edging{"front/back", both(flatCushion, zipped, "run: along"), "", "", "", zip},
		edging{"back", "front along, run: across", "hem back", "", "", ""},
		edging{"back", "front along, run: along", "", "", "", "hem back"},
		edging{"half circle", "", plain, zip, plain, plain},
		edging{"zip strip", "strips run: across", "", strip, "", ""},
		edging{"zip strip", "strips run: along", "", "", "", strip},
		edging{"end strip", "", "", "turn {end turn} turn to draw up", "", ""},
		allRound("front/back/plate/circle/end/end strip/tube/boxing/front boxing/side boxing/zip strip", "", plain),
		allRound("tie", "", "seam {tie seam}"))
	placed(k,
		ws.Placing{Mark: "zip", Of: "front", When: "run: across", Edge: ws.Foot},
		ws.Placing{Mark: "zip strip", Of: "zip strip", When: "strips run: across", Edge: ws.Top, Raw: true, Through: true},
		ws.Placing{Mark: "zip strip", Of: "zip strip", When: "strips run: along", Edge: ws.Right, Raw: true, Through: true})
	placed(k, // of one strip; several are joined first
		ws.Placing{Mark: "boxing", Of: "boxing", When: "boxing run: across, {boxing count} = 1", Edge: ws.Top, Raw: true, Through: true},
		ws.Placing{Mark: "boxing", Of: "boxing", When: "boxing run: along, {boxing count} = 1", Edge: ws.Right, Raw: true, Through: true})
}
