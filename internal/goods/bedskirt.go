package goods

import (
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	offFloor     = "Simple Sewing Projects, How to sew a bedskirt, 2006: half an inch off the floor"
	roundBed     = "Art and Home, Dust ruffle, 2011: two sides and the foot"
	tailoredFlat = "eHow, How much fabric for a queen tailored bed skirt"
	gatheredFlat = "Curl Up and Die, twin gathered skirt"
	threePanels  = "Savannah Granny, three-panel skirt with attached bands"
	halfPleats   = "Creativebug, How to sew a box pleat bedskirt: half a pleat at each end of a panel"
	widthsRound  = "Julie M., Bed skirts; Curl Up and Die, twin gathered skirt: up to whole widths"
	deckOver     = "All People Quilt, Sweet retreat bed skirt: the spring and two seams"
	cornerPleat  = "New Zealand Journal of Agriculture, 15 April 1952, Single bedspreads: two halves of a corner pleat"
)

// bedSkirt is a skirt round the box spring of a bed, gathered or pleated, on a deck that
// lies under the mattress. It is one strip from head to head, or a panel to each side.
func bedSkirt() *ws.Kind {
	k := &ws.Kind{
		Name:  "bed skirt",
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "deck", Field: "deck.cloth", Else: "face"}},
		Setup: seamOf,
	}
	cloths(k)
	edge(k, "edge", "hem", "1 in / 25 mm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Hem, &it.Bottom })
	k.Setup = after(k.Setup, func(it *ws.Item) { it.Bottom.Edge = "foot" })
	hemCalled(k, "edge", "foot")
	seam(k)
	choices(k,
		choice{"spring width", "bed.width", "", "20 to 90 in", "ordered, swaps spring length"},
		choice{"spring length", "bed.length", "", "36 to 90 in", "ordered, swaps spring width"},
		choice{"spring height", "bed.height", "", "5 to 40 in", ordered},
		choice{"posts", "bed.posts", "", "", ""},
		choice{"clearance stated", "clearance", "", "0 to 2 in", ""},
		choice{"usual clearance", "", "house clearance", "", ""},
		choice{"most clearance", "", "2 in / 5 cm", "", ""},
		choice{"drop stated", "drop", "", "4 to 30 in", ordered},
		choice{"sides", "sides", "3", "2 to 4", ordered},
		choice{"style", "style", "gathered", "", ""},
		choice{"fullness", "fullness", "2", "", ""},
		choice{"pleats stated", "pleats", "", "1 to 60", ""},
		choice{"pleat", "pleat", "house corner_pleat", "4 to 30 in", ""},
		choice{"corners", "corners", "continuous", "", ""},
		choice{"end hem stated", "end_hem", "", "", "none"},
		choice{"end hem", "end_hem", "1 in / 25 mm", "0 to 3 in", ""},
		choice{"allowance", "allowance", "1/2 in / 15 mm", "1/4 to 1 in", ""},
		choice{"deck inset", "deck.inset", "house deck_inset, if any", "", ""},
		choice{"deck head stated", "deck.head_hem", "", "", "none"},
		choice{"deck head", "deck.head_hem", "2 in / 5 cm", "0 to 4 in", ""},
		choice{"usual pleat", "", "house corner_pleat", "", ""},
		choice{"pleat least", "", "12 in / 30 cm", "", ""},
		choice{"inset most", "", "1 in / 25 mm", "", ""},
		choice{"no inset", "", "0 in / 0 mm", "", ""})
	called(k, "pleat", "", "18 in", "46 cm")
	called(k, "fullness", "", "1.5", "2", "2.5", "3")
	shownAs(k, "allowance", "seam allowance")
	steps(k,
		step{"clearance", "clearance stated", "{clearance stated}", "near, hidden", ws.Common},
		step{"clearance", "", "{usual clearance}", "near, hidden", ws.Common},
		// Without a clearance of the order's own, a drop within what skirts clear is a choice.
		step{"drop", "spring height, drop stated, no clearance stated, {drop stated} < {spring height}, {drop stated} ≥ {spring height} - {most clearance}", "{drop stated}", "near", "the order"},
		step{"drop", "spring height", "{spring height} - {clearance}", "down", offFloor},
		step{"drop", "drop stated", "{drop stated}", "near", "the order"})
	for i := range k.Steps {
		if s := &k.Steps[i]; s.Term == "drop" && s.Source == "the order" {
			s.Own, s.Ends = true, true
		}
	}
	mayBeNothing(k, "clearance")
	cut(k, "", "face", ws.CutLength, gatheredFlat, run{sum: "{drop} + {allowance} + {edge hem}", slips: []ws.Slipping{
		{Name: "the seam at the top was left out", Formula: "{drop} + {edge hem}"},
		{When: "{edge folds} > 1", Name: "the hem was counted once, not folded twice", Formula: "{drop} + {allowance} + {edge turn}"},
		{Name: "the hem was left out", Formula: "{drop} + {allowance}"},
		{Name: "the seam was added twice", Formula: "{drop} + 2 × {allowance} + {edge hem}"},
	}})
	skirtRun(k)
	skirtDeck(k)
	threaded(k, "{flat width} + 2 × {run} [+ {joins} × {cut length}]")
	press(k)
	const ends = "turn {end hem} end hem"
	k.Panels = append(k.Panels,
		ws.Paneling{Name: thePanel, Role: "face", Pieces: "skirt", When: "no side flat, style: gathered, flat made", Across: "{flat made} - 2 × {end hem}", Along: "{drop}"},
		ws.Paneling{Name: thePanel, Role: "face", Pieces: "skirt", When: "no side flat, pleats", Across: "{flat width} - 2 × {end hem}", Along: "{drop}"})
	edgings(k,
		edging{"panel/skirt", "", "seam {allowance} seam to the deck", "hem edge", "", ""},
		edging{thePanel, "", "", "", ends, ends},
		edging{"skirt", "", "", "", "raw seam or end", "raw seam or end"},
		edging{"deck", "", "turn {deck head} hem at the head", "seam {allowance}", "seam {allowance}", "seam {allowance}"})
	placed(k, ws.Placing{Mark: "corner pleats start", Of: thePanel, Edge: ws.Top, Raw: true})
	const plain = "no side flat, "
	flatCut := unwashed(k, "face", string(ws.FlatWidth))
	notes(k,
		note{"made", "drop", "{style}, with a drop of {drop}"},
		note{"made", "pleats, {pleats} = 1", "one pleat of {pleat}"},
		note{"made", "pleats, {pleats} > 1", "{pleats} pleats of {pleat}, each {face of a pleat} on its face"},
		note{"made", "no in panels, {sides} = 3", "one strip, round both sides and the foot"},
		note{"made", "no in panels, {sides} = 4", "one strip, round all four sides"},
		note{"made", "side flat, {foot panels} = 0", "two panels for the sides, {side flat} flat"},
		note{"made", "side flat, {foot panels} = 1", "two panels for the sides, {side flat} flat, and one for the foot, {foot flat}"},
		note{"made", "side flat, {foot panels} = 2", "two panels for the sides, {side flat} flat, and two for head and foot, {foot flat}"},
		note{"made", plain + "style: gathered, flat made, {flat made} > {flat width}", "gather in all of the width as joined"})
	const top = "right sides together, {allowance} from the edges"
	notes(k,
		note{"gathers", "mark the deck every", "mark the deck's edge every {mark the deck every}, from its head round to its head again, and gather one width of the skirt between two marks"},
		note{"to the deck", "deck cut length, {sides} = 2", "sew the skirt's top to the two sides of the deck, " + top},
		note{"to the deck", "deck cut length, {sides} = 3", "sew the skirt's top to the sides and the foot of the deck, " + top},
		note{"to the deck", "deck cut length, {sides} = 4", "sew the skirt's top to all four sides of the deck, " + top})
	ownHem(k, "end hem",
		note{"ends", "{ends} = 1", "the hem at each end of the skirt takes {end hem}"},
		note{"ends", "{ends} > 1, style: gathered/box pleat", "the hem at each end of every panel takes {end hem}"},
		note{"ends", "{ends} = 2, style: tailored", "the hem at each end of every panel takes {end hem}"},
		note{"ends", "{ends} = 3, style: tailored", "the hem at the head end of each side takes {end hem}"})
	ownHem(k, "deck head", note{"deck", "deck cut length", "the hem at its head takes {deck head}"})
	notesAs(k, ws.AsJoined, note{"cut down", plain + "pleats, flat made, {flat made} > {flat width}, {joins} > 0", "join the widths, and cut them down to " + flatCut})
	notesAs(k, ws.AsCut, note{"cut down", plain + "pleats, flat made, {flat made} > {flat width}, {joins} = 0", "cut the width down to " + flatCut})
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: "drop", Field: "drop", Hand: ws.Size})
	slips(k,
		slip{"drop", "no clearance was left above the floor", "{spring height}"},
		slip{"drop", "the clearance was added, not taken off", "{spring height} + {clearance}"})
	k.Finish = func(it *ws.Item) { it.Joins = it.Count("joins") }
	return k
}

// skirtRun adds what the skirt comes to round the bed, and the widths that make it.
func skirtRun(k *ws.Kind) {
	flat, sides := string(ws.FlatWidth), "{spring length} × {fullness} + 2 × {end hem}"
	k.Steps = append(k.Steps, ws.Step{Term: "in panels", Reads: []string{"corners", "sides"}, Word: func(it *ws.Item) string {
		if c := it.Word("corners"); c == "split" || c == "in panels" || it.Count("sides") == 2 {
			return "yes"
		}
		return ""
	}})
	steps(k,
		step{"run", "{sides} = 2", "2 × {spring length}", "near", roundBed},
		step{"run", "{sides} = 4", "2 × {spring length} + 2 × {spring width}", "near", roundBed},
		step{"run", "", "2 × {spring length} + {spring width}", "near", roundBed},
		step{"ends", "in panels", "{sides}", "whole, hidden", geometry},
		step{"ends", "", "1", "whole, hidden", geometry},
		step{"foot panels", "", "{sides} - 2", "whole, hidden", geometry},
		step{"pleats", "style: tailored/box pleat, pleats stated", "{pleats stated}", "whole, hidden", ws.Common},
		step{"pleats", "style: tailored", "2 × {foot panels}", "whole, hidden", tailoredFlat},
		step{"side flat", "in panels, style: gathered", sides, "up", threePanels},
		step{"side flat", "in panels, style: tailored, {sides} = 2", "{spring length} + 2 × {end hem}", "up", halfPleats},
		step{"side flat", "in panels, style: tailored, {sides} = 4", "{spring length} + {pleat}", "up", halfPleats},
		step{"side flat", "in panels, style: tailored", "{spring length} + {pleat} ÷ 2 + {end hem}", "up", halfPleats},
		step{"foot flat", "side flat, {sides} = 2", "{spring width}", "up, hidden", geometry},
		step{"foot flat", "side flat, style: gathered", "{spring width} × {fullness} + 2 × {end hem}", "up", threePanels},
		step{"foot flat", "side flat", "{spring width} + {pleat}", "up", halfPleats},
		step{flat, "side flat, {sides} = 2", "2 × {side flat}", "up", geometry},
		step{flat, "side flat, {sides} = 4", "2 × {side flat} + 2 × {foot flat}", "up", geometry},
		step{flat, "side flat", "2 × {side flat} + {foot flat}", "up", geometry},
		step{flat, "style: gathered", "{run} × {fullness} + 2 × {end hem}", "up", gatheredFlat},
		step{flat, "in panels", "{run} + {pleats} × {pleat} + 2 × {sides} × {end hem}", "up", tailoredFlat},
		step{flat, "", "{run} + {pleats} × {pleat} + 2 × {end hem}", "up", tailoredFlat})
	usable(k, "", "", "face", flat)
	exact := func(of string) string { return widthsIn("", "face", of) }
	const footToo = "side widths, foot widths, {foot panels} > 0"
	widths := func(when, formula string) ws.Step {
		return ws.Step{Term: string(ws.Widths), When: when, Formula: formula, Sort: ws.Ratio, Source: widthsRound}
	}
	steps(k,
		step{"side widths", "side flat, {side flat} ≤ {face washed width}", "1", "whole, hidden", widthsRound},
		step{"side widths", "", "rounded up (" + exact("side flat") + ")", "whole, hidden", widthsRound},
		step{"foot widths", "side flat, {foot flat} ≤ {face washed width}", "1", "whole, hidden", widthsRound},
		step{"foot widths", "", "rounded up (" + exact("foot flat") + ")", "whole, hidden", widthsRound})
	widthsJoined(k, flat, "style: gathered, no side flat",
		widths(footToo, "2 × {side widths} + {foot panels} × {foot widths}"),
		widths("side widths", "2 × {side widths}"),
		ws.Step{Term: "joins", When: "side flat", Formula: "rounded up ({widths}) - {sides}", Sort: ws.Count, Hidden: true})
	for i := range k.Steps { // how many widths there are before rounding says nothing of panels
		if s := &k.Steps[i]; s.Term == string(ws.WidthsExact) {
			s.When = both(s.When, "no side flat")
		}
	}
	steps(k,
		step{string(ws.Fullness), "style: gathered", "{widths} × {face washed width} ÷ {run}", "share", roundBed},
		step{"mark the deck every", "style: gathered, no side flat", "{run} ÷ {widths}", "near", roundBed},
		step{"face of a pleat", "pleats", "{pleat} ÷ 2", "near", cornerPleat},
		step{"fold of a pleat", "pleats", "{pleat} ÷ 4", "near", cornerPleat})
	widthPiece(k, "skirt", "face", string(ws.CutLength), string(ws.Widths), nil, nil)
	flatStated(k)
	slipsWhen(k, "no side flat, style: gathered",
		slip{flat, "the foot was left out", "2 × {spring length} × {fullness} + 2 × {end hem}"},
		slip{flat, "one side was left out", "({spring length} + {spring width}) × {fullness} + 2 × {end hem}"},
		slip{flat, "the width was used for the length", "3 × {spring width} × {fullness} + 2 × {end hem}"},
		slip{flat, "the fullness was left out", "{run} + 2 × {end hem}"})
	slipsWhen(k, "no side flat, pleats",
		slip{flat, "the foot was left out", "2 × {spring length} + {pleats} × {pleat} + 2 × {end hem}"},
		slip{flat, "the pleats were left out", "{run} + 2 × {end hem}"},
		slip{flat, "half of each pleat was counted", "{run} + {pleats} × {pleat} ÷ 2 + 2 × {end hem}"},
		slip{flat, "one pleat was left out", "{flat width} - {pleat}"})
	slipsWhen(k, "no side flat", slip{flat, "the ends' hems were left out", "{flat width} - 2 × {end hem}"})
	slipsWhen(k, "side flat",
		slip{flat, "this is one side", "{side flat}"},
		slip{flat, "the foot was left out", "2 × {side flat}"})
	marks(k,
		mark{"corners at", "the left end at the head, finished", "no side flat, {sides} = 3", "2", "{spring length} + ({k} - 1) × {spring width}"},
		mark{"corner pleats start", "the left raw end of the strip, flat", "no side flat, {sides} = 3, style: tailored, {pleats} = 2", "2", "{end hem} + {spring length} + ({k} - 1) × ({pleat} + {spring width})"})
}

// skirtDeck adds the deck that the skirt is sewn to.
func skirtDeck(k *ws.Kind) {
	const across, along = "{spring width} [- 2 × {deck inset}] + 2 × {allowance}", "{spring length} [- {deck inset}] + {allowance} + {deck head}"
	steps(k,
		step{"deck across", "", across, "up, hidden", deckOver},
		step{"deck along", "", along, "up, hidden", deckOver},
		step{"deck widths", "deck washed width, {deck across} ≤ {deck washed width}", "1", "whole, hidden", geometry},
		step{"deck widths", "", "rounded up (({deck across} - 2 × {allowance}) ÷ ({deck washed width} - 2 × {allowance}))", "whole, hidden", geometry},
		step{"deck each", "", "({deck across} + 2 × {allowance} × ({deck widths} - 1)) ÷ {deck widths}", "up, hidden", geometry})
	pieces(k,
		piece{"deck", "deck", across, along, "{deck widths}", "{deck widths} = 1"},
		piece{"deck", "deck", "(" + across + " + 2 × {allowance} × ({deck widths} - 1)) ÷ {deck widths}", along, "{deck widths}", "deck widths"})
	rounder(k, "deck")
	slips(k,
		slip{"deck cut width", "one seam was left out", "({spring width} [- 2 × {deck inset}] + {allowance} + 2 × {allowance} × ({deck widths} - 1)) ÷ {deck widths}"},
		slip{"deck cut width", "the seams were left out", "({spring width} [- 2 × {deck inset}]) ÷ {deck widths}"},
		slip{"deck cut width", "it was not divided by the pieces", "{deck across}"},
		slip{"deck cut length", "the hem at the head was left out", "{spring length} [- {deck inset}] + 2 × {allowance}"},
		slip{"deck cut length", "the seam at the foot was left out", "{spring length} [- {deck inset}] + {deck head}"},
		slip{"deck cut length", "hem and seam were left out", "{spring length}"})
}
