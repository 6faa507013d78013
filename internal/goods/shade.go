package goods

import (
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	shadeCut      = "Busy Geemaw, Roman shades: the finished length, the hem and the board"
	shadeSections = "Sew Helpful, Roman blind step 2: an odd number of sections below the headrail"
	shadeSpaces   = "Simple Sewing Projects, How far apart do I space my Roman shade rings"
	shadeColumns  = "Simple Sewing Projects, How far apart should I space my lift cords"
	shadeLining   = "Frugalful, How to make your own Roman blinds: as long as the face, and narrower"
	shadeRecess   = "Engineer Fix, How to make your own Roman shades"
	shadeBoard    = "Flat Roman shade chapter, complete photo guide: a little wider than its board"
)

// romanShade is a flat shade that folds up on rods and rings. A section is half the
// space between two rods, so that what hangs below the lowest rod is one section.
func romanShade() *ws.Kind {
	k := &ws.Kind{
		Name:  "Roman shade",
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "lining", Field: "lining.cloth"}},
		Setup: seamOf,
		Adds:  small, Layers: layers,
	}
	cloths(k)
	edge(k, "bottom", "hems.bottom", "2 in / 5 cm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Hems.Bottom, &it.Bottom })
	edge(k, "sides", "hems.sides", "1 1/2 in / 4 cm", 1, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Hems.Sides, &it.Sides })
	seam(k)
	finished(k, "width", "8 to 120 in", "length")
	finished(k, "length", "12 to 120 in", "width")
	choices(k,
		choice{"mount", "mount", "inside", "", ""},
		choice{"recess", "recess.width", "", "8 to 120 in", ordered},
		choice{"board", "board.width", "", "8 to 120 in", ordered},
		choice{"board depth", "board.depth", "", "1/2 to 6 in", ordered},
		choice{"board over", "", "1/4 in / 6 mm", "", ""},
		choice{"headrail", "headrail", "2 1/2 in / 6.5 cm", "1 1/2 to 8 in", ""},
		choice{"least headrail", "", "2 1/2 in / 6.5 cm", "", ""},
		choice{"top wrap", "top_wrap", "4 in / 10 cm", "1 to 8 in", ""},
		choice{"stapled", "", "1 in / 25 mm", "", ""},
		choice{"sections stated", "sections", "", "3 to 41", ""},
		choice{"largest section", "", "4 in / 10 cm", "", ""},
		choice{"pocket takes", "pocket_takes", "", "1 to 4 in", ""},
		choice{"ring edge", "columns.edge", "2 in / 5 cm", "1/2 to 6 in", ""},
		choice{"ring spacing", "columns.at_most", "10 in / 25 cm", "6 to 14 in", ""},
		choice{"columns least", "", "2 in / 5 cm", "", ""},
		choice{"columns most", "", "12 in / 30 cm", "", ""},
		choice{"narrowest recess", "", "8 in / 20 cm", "", ""},
		choice{"recess slack", "", "6 in / 15 cm", "", ""},
		choice{"rod short", "", "1/2 in / 12 mm", "", ""},
		choice{"lining inset", "lining.inset", "1/2 in / 12.5 mm", "0 to 1 1/2 in", ""},
		choice{"usual inset", "", "1/2 in / 12 mm", "", ""},
		choice{"lining turn", "lining.turn", "1 in / 25 mm", "1/4 to 3 in", ""},
		choice{"lining shorter", "lining.shorter", "", "0 to 2 in", ""},
		choice{"cord", "cord.kind", "", "", ""},
		choice{"pull", "cord.length", "", "0 to 120 in", ""},
		choice{"ring limit", "", "8 in / 20.3 cm", "", ""},
		choice{"edge limit", "", "2 in / 5 cm", "", ""})
	called(k, "headrail", "", "2 1/2 in", "3 in", "4 in", "6.5 cm", "8 cm", "10 cm")
	k.Given = append(k.Given,
		ws.Given{Term: "recess gap", Get: func(it *ws.Item) (ws.Value, bool) { return ws.LengthOf(it.Sheet.Tables.House.RecessGap), true }},
		ws.Given{Term: "cords by US custom", Word: func(it *ws.Item) string {
			switch it.Sheet.Order.Market.Value {
			case "", "US", "CA":
				return "yes"
			}
			return ""
		}})
	steps(k,
		step{"width in recess", "recess, mount: inside", "{recess} - {recess gap}", "down", shadeRecess},
		step{"width on board", "board, mount: outside", "{board} + {board over}", "near", shadeBoard})
	length := "{finished length} + {top wrap} + {bottom hem}"
	cut(k, "", "face", ws.CutLength, shadeCut, run{sum: length, slips: []ws.Slipping{
		{Name: "the cloth over the board was left out", Formula: "{finished length} + {bottom hem}"},
		{When: "{bottom folds} > 1", Name: "the bottom hem was counted once, not folded twice", Formula: "{finished length} + {top wrap} + {bottom turn}"},
		{Name: "the bottom hem was left out", Formula: "{finished length} + {top wrap}"},
		{Name: "hem and board were left out: this is the finished length", Formula: "{finished length}"},
	}})
	usable(k, "", "", "face", "finished width")
	flatPanel(k, panel{across: string(ws.FinishedWidth), takes: "side hem", turn: "sides turn", folds: "sides folds", called: "side hem", middle: true, byCloth: true})
	steps(k,
		step{"foldable", "", "{finished length} - {headrail}", "near, hidden", shadeSections},
		step{"sections", "sections stated", "{sections stated}", "whole, hidden", "the order"},
		step{"sections", "", "2 × rounded up (({foldable} ÷ {largest section} - 1) ÷ 2) + 1", "whole", shadeSections},
		step{"one section more", "", "{sections} + 1", "whole, hidden", ""},
		step{"section", "", "{foldable} ÷ {sections}", "near", shadeSections},
		step{"space between rods", "", "2 × {section}", "near", shadeSpaces},
		step{"flap", "", "{section}", "near", shadeSpaces + ": half a space below the lowest"},
		step{"pockets", "{sections} = 2 × rounded down ({sections} ÷ 2)", "{sections} ÷ 2 - 1", "whole", shadeSections},
		step{"pockets", "", "({sections} - 1) ÷ 2", "whole", shadeSections},
		step{"top section", "", "{section} + {headrail}", "near", shadeSections})
	spaced(k, spread{
		marks: "columns", field: "columns.count", pitch: "column spacing", spacing: "columns.spacing",
		run: "{finished width} - 2 × {ring edge}", whole: string(ws.FinishedWidth), atEnds: true, widest: "ring spacing",
		counted: shadeColumns, spaced: shadeColumns,
	})
	steps(k,
		step{"columns at the most apart", "", "rounded up (({finished width} - 2 × {ring edge}) ÷ {columns most}) + 1", "whole, hidden", ""},
		step{"rings", "{pockets} > 0", "{pockets} × {columns}", "whole", geometry},
		step{"rod and bar length", "{pockets} > 0", "{finished width} - {rod short}", "down", ws.Common},
		step{"board length", "", "{finished width} - {board over}", "down", shadeBoard},
		step{"cord in all", "cord: lift cord", "{columns} × ({finished length} - {section} + {finished width} - {ring edge} [+ {pull}]) - {columns} × ({columns} - 1) ÷ 2 × {column spacing}", "up", ws.Common},
		step{"wrap for the board", "board depth", "{board depth} + {stapled}", "near, hidden", ""})
	layered(k, layer{role: "lining", across: "{finished width} - 2 × {lining inset} + 2 × {lining turn}",
		along: length + " [- {lining shorter}] [+ {pockets} × {pocket takes}]", when: "lining width", source: shadeLining})
	marks(k,
		mark{"rods", "the finished foot", "", "{pockets}", "(2 × {k} - 1) × {section}"},
		mark{"rings", "the left finished edge", "{pockets} > 0", "{columns}", "{ring edge} + ({k} - 1) × {column spacing}"},
		mark{"cords", "the left column to the right one, the lock at the right", "cord: lift cord", "{columns}",
			"{finished length} - {section} + {finished width} - {ring edge} - ({k} - 1) × {column spacing} [+ {pull}]"})
	outcomes(k,
		outcome{"section", "section", ws.Divided},
		outcome{"pockets", "pockets", ws.Counted},
		outcome{"flap", "flap", ws.Divided})
	slips(k,
		slip{"section", "the headrail was not taken off", "{finished length} ÷ {sections}"},
		slip{"section", "it was divided by the rods: this is a whole space", "{foldable} ÷ {pockets}"},
		slip{"section", "this is the space between two rods", "2 × {section}"},
		slip{"flap", "this is half a section", "{section} ÷ 2"},
		slip{"flap", "it was made as deep as the space between two rods", "2 × {section}"},
		slip{"pockets", "one pocket was counted to each section", "{sections}"},
		slip{"pockets", "the flap was given a pocket", "({sections} + 1) ÷ 2"},
		slip{"lining cut width", "it was cut as wide as the face", "{whole across}"},
		slip{"lining cut width", "the turns at the sides were left out", "{finished width} - 2 × {lining inset}"},
		slip{"lining cut width", "this is the finished width", "{finished width}"},
		slip{"side cut width", "this is half a width of the cloth", "{face washed width} ÷ 2"})
	for _, of := range cutLengths("lining") {
		slips(k,
			slip{of, "this is the finished length", "{finished length}"},
			slip{of, "the cloth over the board was left out", "{lining along} - {top wrap}"},
			slip{of, "the pockets were left out", "{lining along} - {pockets} × {pocket takes}"},
			slip{of, "one pocket was left out", "{lining along} - {pocket takes}"})
	}
	notes(k,
		note{"pockets", "pockets, {pockets} > 0, no pocket takes", "no cloth is cut for the rods' pockets: sew a pocket tape across the back on each row of rods"},
		note{"make up", "pockets", "a rod on each row and a bar in the foot; rings on every row, one to a column; {top wrap} at the top goes over the board"})
	notesAs(k, ws.AsLined,
		note{"lining", "lining width, pockets, {pockets} > 0, {pocket takes} > 0", "first sew the rods' pockets, which are folds of the lining: fold it on each row of rods and sew across, {pocket takes} of its length in each"},
		note{"lining", "lining width, no lining shorter", "turn the lining in {lining turn} at each side, and slip-stitch it {lining inset} inside the finished sides before the foot is turned: it goes into the foot's hem"},
		note{"lining", "lining width, lining shorter", "turn the lining in {lining turn} at each side, and slip-stitch it {lining inset} inside the finished sides before the foot is turned"})
	weighed(k)
	threaded(k, "2 × {finished length} + {finished width} + {pockets} × {finished width} [+ {joins} × {cut length}]")
	joinedPanel(k, "", "{finished width}", "{finished length}", "hem sides")
	edgings(k,
		edging{panelParts, "", "turn {top wrap} over the board", "hem bottom", "", ""},
		edging{layerParts("lining"), "", "", "", "turn {lining turn} turned in", ""},
		edging{asOne("lining") + "/lining", "", "", "", "", "turn {lining turn} turned in"})
	placed(k,
		ws.Placing{Mark: "rods", Of: thePanel, Edge: ws.Right, Through: true},
		ws.Placing{Mark: "rings", Of: thePanel, Edge: ws.Top})
	press(k)
	k.Steps = append(k.Steps, ws.Step{Term: "number of sections", When: "sections", Word: evenOrOdd, Reads: []string{"sections"}})
	k.Unlikely = append(k.Unlikely, ws.Unlikely{What: "an even number of sections", Cost: 400, Is: func(it *ws.Item) bool { return it.Count("sections")%2 == 0 }})
	return k
}

// evenOrOdd says of the sections of a shade whether they are even or odd.
func evenOrOdd(it *ws.Item) string {
	if it.Count("sections")%2 == 0 {
		return "even"
	}
	return "odd"
}
