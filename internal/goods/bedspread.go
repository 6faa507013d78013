package goods

import (
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	spreadSize  = "Interior Images, How to measure bedding: the bed and a drop on both sides; the bed, a drop and the tuck"
	spreadCut   = "Alternative Windows, Throwover bedspread: a hem on every edge"
	spreadRound = "Alternative Windows, Throwover bedspread: the foot corners are rounded"
	spreadLayer = "Interior Game, Making bedspreads: the lining ends short of the face, the interlining goes into its hems"
)

// bedspread is a flat cover over a bed: a spread reaches near the floor and tucks under
// the pillows, a coverlet ends below the mattress.
func bedspread() *ws.Kind {
	k := &ws.Kind{
		Name:  "bedspread",
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "lining", Field: "lining.cloth"}, {Name: "interlining", Field: "interlining.cloth"}},
		Setup: seamOf,
		Adds:  small, Layers: layers,
	}
	cloths(k)
	edge(k, "edge", "hem", "1 in / 25 mm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Hem, &it.Sides })
	seam(k)
	choices(k,
		choice{"bed width", "bed.width", "", "20 to 90 in", "ordered, swaps bed length"},
		choice{"bed length", "bed.length", "", "40 to 90 in", "ordered, swaps bed width"},
		choice{"drop", "drop", "", "4 to 32 in", ordered},
		choice{"drop at the foot", "drop_foot", "= drop", "0 to 32 in", ordered},
		choice{"tuck", "tuck", "house pillow_tuck", "0 to 24 in", ""},
		choice{"usual tuck", "", "house pillow_tuck", "", ""},
		choice{"least tuck", "", "12 in / 30 cm", "", ""},
		choice{"head hem", "head_hem", "= edge hem", "0 to 6 in", ""},
		choice{"bed height", "bed.height", "", "6 to 48 in", "copied"},
		choice{"lowest bed", "", "6 in / 15 cm", "", ""},
		choice{"mattress", "bed.mattress", "", "3 to 24 in", "copied"},
		choice{"below mattress", "", "3 in / 8 cm", "", ""},
		choice{"corners", "corners", "rounded", "", ""},
		choice{"lining less", "lining.narrower", "= edge hem", "0 to 6 in", ""},
		choice{"into hem", "interlining.into_hem", "1 in / 25 mm", "0 to 3 in", ""},
		choice{"roll length", "", "116 in / 295 cm", "", ""},
		choice{"quilted", "quilted", "", "", ""})
	called(k, "tuck", "", "15 in", "38 cm", "0 in", "0 cm")
	finished(k, "width", "20 to 160 in", "length", step{"", "", "{bed width} + 2 × {drop}", "near", spreadSize})
	finished(k, "length", "40 to 160 in", "width", step{"", "", "{bed length} + {drop at the foot} + {tuck}", "near", spreadSize})
	along := "{finished length} + {edge hem} + {head hem}"
	cut(k, "", "face", ws.CutLength, spreadCut, run{sum: along, slips: []ws.Slipping{
		{Name: "the head's hem was left out", Formula: "{finished length} + {edge hem}"},
		{Name: "the foot's hem was left out", Formula: "{finished length} + {head hem}"},
		{When: "{edge folds} > 1", Name: "the hems were counted once, not folded twice", Formula: "{finished length} + 2 × {edge turn}"},
		{Name: "the hems were left out: this is the finished length", Formula: "{finished length}"},
	}})
	usable(k, "", "", "face", "finished width")
	flatPanel(k, panel{across: string(ws.FinishedWidth), takes: "edge hem", turn: "edge turn", folds: "edge folds", called: "edge hem", middle: true, byCloth: true})
	layered(k, layer{role: "lining", across: "{finished width} + 2 × {edge hem} - 2 × {lining less}", along: along + " - {lining less}", when: "lining width", source: spreadLayer})
	layered(k, layer{role: "interlining", across: "{finished width} + 2 × {into hem}", along: "{finished length} + {into hem}", when: "interlining width", abut: true, source: spreadLayer})
	steps(k,
		step{"corner radius", "corners: rounded", "{drop}", "near, hidden", spreadRound},
		step{"corner cut", "corners: rounded", "{drop} + {edge hem}", "near, hidden", geometry},
		step{"corner drop", "corners: square", "square root ({drop} × {drop} + {drop at the foot} × {drop at the foot})", "near", geometry},
		step{"edge length", "", "2 × {finished length} + {finished width}", "up", geometry},
		step{"mattress covered", "mattress", "{mattress} + {below mattress}", "near, hidden", ""})
	notesAs(k, ws.AsShaped,
		note{"interlining", "interlining width, into hem", "lay it on the back of the face, {into hem} past the finished edge at the sides and the foot, and catch it down"},
		note{"lining", "lining width, {lining less} > 0", "lay it on the back before the edges are hemmed, wrong sides together, its sides and foot {lining less} inside the face's cut edges and its head even with them"},
		note{"lining", "lining width, {lining less} = 0", "lay it on the back before the edges are hemmed, wrong sides together, its edges even with the face's; the hems are turned of both"},
		note{"corners", "corners: split", "slit both at the foot, from the cut corner in to the bed's corner, and hem the slits"},
		note{"corners", "corners: rounded, {corner cut} > 0", "round off the two at the foot: " + unwashed(k, "face", "corner cut") + " radius at the cut edge, " + unwashed(k, "face", "corner radius") + " at the finished edge"})
	notesAs(k, ws.AsHemmed, note{"head", "{head hem} ≠ {edge hem}", "its hem takes {head hem}"})
	notes(k,
		note{"head", "{tuck} × 2 > {tuck}", "the last {tuck} tucks under the pillows"})
	slips(k,
		slip{"finished width", "the drop was added on one side only", "{bed width} + {drop}"},
		slip{"finished width", "the drop was left out", "{bed width}"},
		slip{"finished width", "width and length were swapped", "{bed length} + 2 × {drop}"},
		slip{"finished length", "the tuck was left out", "{bed length} + {drop at the foot}"},
		slip{"finished length", "the drop was left out", "{bed length} + {tuck}"},
		slip{"finished length", "the drop was added at the head and the foot", "{bed length} + 2 × {drop} + {tuck}"},
		slip{"side cut width", "this is half a width of the cloth", "{face washed width} ÷ 2"},
		slip{"lining cut width", "it was cut as wide as the face", "{whole across}"},
		slip{"lining cut width", "it was made narrower on one side only", "{finished width} + 2 × {edge hem} - {lining less}"},
		slip{"interlining cut width", "it was cut as wide as the face", "{whole across}"},
		slip{"interlining cut width", "it was let into one hem only", "{finished width} + {into hem}"},
		slip{"interlining cut width", "it was cut at the finished width", "{finished width}"})
	for _, of := range cutLengths("lining") {
		slips(k,
			slip{of, "it was cut as long as the face", along},
			slip{of, "it was made shorter at both ends", along + " - 2 × {lining less}"},
			slip{of, "the head's hem was left out", "{finished length} + {edge hem} - {lining less}"})
	}
	for _, of := range cutLengths("interlining") {
		slips(k,
			slip{of, "it was cut as long as the face", along},
			slip{of, "it was let into the hem at both ends", "{finished length} + 2 × {into hem}"},
			slip{of, "it was cut at the finished length", "{finished length}"})
	}
	threaded(k, "{edge length} + {finished width} [+ {joins} × {cut length}]")
	joinedPanel(k, "", "{finished width}", "{finished length}", "hem edge")
	edgings(k, edging{panelParts, "", "turn {head hem} head hem", "hem edge", "", ""})
	outline(k, thePanel, "corners: rounded", ws.RoundFoot, "{corner cut}")
	press(k)
	return k
}
