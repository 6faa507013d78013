package goods

import (
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	overTable = "Tablecloth maker, How to calculate cloth size: the table and a drop on both sides"
	squareOn  = "Riegel Linen, Round tables using square cloths"
	racetrack = "Tablecloth maker, How to calculate cloth size: half-round ends and straight sides"
	// From memory, as T. L. Heath tells it.
	pinsAndString = "Anthemius of Tralles, On burning mirrors: an ellipse by two pins and a string"
	foldedFour    = ws.Common + ": swung from the corner of the cloth folded in four"
)

// tablecloth is a flat cloth over a table: rectangular, square, round or oval. A round
// or an oval one is joined to its square or oblong first, and then cut round.
func tablecloth() *ws.Kind {
	k := &ws.Kind{
		Name:  "tablecloth",
		Roles: []ws.Role{{Name: "face", Field: "cloth"}},
		Setup: seamOf,
		Adds:  small, Layers: layers,
	}
	cloths(k)
	edge(k, "edge", "hem", "1/2 in / 12 mm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Hem, &it.Sides })
	seam(k)
	choices(k,
		choice{"shape", "shape", "", "", ""},
		choice{"oval", "oval", "", "", ""},
		choice{"table width", "table.width", "", "12 to 120 in", "ordered, swaps table length"},
		choice{"table length", "table.length", "= table width", "12 to 240 in", "ordered, swaps table width"},
		choice{"table diameter", "table.diameter", "", "12 to 96 in", ordered},
		choice{"height", "table.height", "", "15 to 42 in", "copied"},
		choice{"drop", "drop", "", "2 to 40 in", ordered},
		choice{"drop at the ends", "drop_ends", "= drop", "2 to 40 in", ordered},
		choice{"corners", "corners", "square", "", ""},
		choice{"hem corners", "hem.corners", "", "", ""},
		choice{"seated", "seated", "", "", ""},
		choice{"lap limit", "", "house lap_limit", "", ""},
		choice{"curve turn", "", "1/2 in / 12 mm", "", ""},
		choice{"point clear", "", "2 in / 5 cm", "", ""},
		choice{"tallest table", "", "48 in / 122 cm", "", ""},
		choice{"square within", "", "4 in / 10 cm", "", ""})
	steps(k, step{"finished diameter", "shape: round", "{table diameter} + 2 × {drop}", "near", overTable})
	finished(k, "width", "20 to 200 in", "length",
		step{"", "shape: round", "{finished diameter}", "near, hidden", overTable},
		step{"", "shape: square, table diameter", "{table diameter} + 2 × {drop}", "near", squareOn},
		step{"", "", "{table width} + 2 × {drop}", "near", overTable})
	finished(k, "length", "20 to 300 in", "width",
		step{"", "shape: round", "{finished width}", "near, hidden", overTable},
		step{"", "shape: square", "{finished width}", "near", squareOn},
		step{"", "", "{table length} + 2 × {drop at the ends}", "near", overTable})
	cut(k, "", "face", ws.CutLength, talmadge, run{sum: "{finished length} + 2 × {edge hem}", slips: []ws.Slipping{
		{Name: "the hem was added on one side only", Formula: "{finished length} + {edge hem}"},
		{When: "{edge folds} > 1", Name: "the hem was counted once, not folded twice", Formula: "{finished length} + 2 × {edge turn}"},
		{Name: "the hems were left out: this is the finished length", Formula: "{finished length}"},
	}})
	usable(k, "", "", "face", "finished width")
	called(k, "height", "table height")
	flatPanel(k, panel{across: string(ws.FinishedWidth), takes: "edge hem", turn: "edge turn", folds: "edge folds", called: "edge hem", middle: true, byCloth: true})
	steps(k,
		step{"cut diameter", "shape: round", "{whole across}", "up", overTable},
		step{"fold radius", "shape: round", "{cut diameter} ÷ 2", "near", foldedFour},
		step{"end radius", "shape: oval, oval: racetrack", "{whole across} ÷ 2", "near", racetrack},
		step{"straight side", "shape: oval, oval: racetrack", "{finished length} - {finished width}", "near", racetrack},
		step{"point drop", "shape: square, table diameter", "({finished width} × square root (2) - {table diameter}) ÷ 2", "near", squareOn},
		step{"point drop", "shape: rectangular/square, corners: square", "square root ({drop} × {drop} + {drop at the ends} × {drop at the ends})", "near", geometry},
		step{"corner radius", "corners: rounded", "{drop}", "near", ws.Common},
		step{"edge length", "shape: round", "{finished width} × π", "up", geometry},
		step{"edge length", "shape: oval, oval: racetrack", "{finished width} × π + 2 × {straight side}", "up", geometry},
		step{"edge length", "shape: oval", "square root (({finished width} × {finished width} + {finished length} × {finished length}) ÷ 2) × π", "up", geometry},
		step{"edge length", "", "2 × ({finished width} + {finished length})", "up", geometry},
		step{"table longer by", "shape: square, no table diameter", "the larger of ({table width}, {table length}) - the smaller of ({table width}, {table length})", "near, hidden", geometry},
		step{"floor gap", "height", "{height} - {drop}", "near", ws.Common})
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: "finished diameter", Field: "finished.diameter", Hand: ws.Size})
	slips(k,
		slip{"finished width", "the drop was added once", "{table width} + {drop}"},
		slip{"finished width", "the drop was added once", "{table diameter} + {drop}"},
		slip{"finished width", "the drop was taken off, not added", "{table width} - {drop}"},
		slip{"finished length", "the drop was added at one end", "{table length} + {drop at the ends}"},
		slip{"finished length", "the width was doubled, for the length", "2 × {finished width}"},
		slip{"finished diameter", "the drop was added once", "{table diameter} + {drop}"},
		slip{"finished diameter", "this is a radius", "{finished diameter} ÷ 2"})
	threaded(k, "{edge length} [+ {joins} × {cut length}]")
	mitered(k, "shape: rectangular/square")
	steps(k,
		step{"washed first", "shape: round/oval, face shrinkage", "1", "whole, hidden", ""},
		step{"washed first", "shape: round/oval, face shrinkage across", "1", "whole, hidden", ""},
		step{"half straight", "straight side", "{straight side} ÷ 2", "near, hidden", racetrack},
		step{"half long", "shape: oval, no end radius", "the larger of ({finished length}, {finished width}) ÷ 2 + {edge hem}", "near, hidden", geometry},
		step{"half wide", "half long", "the smaller of ({finished length}, {finished width}) ÷ 2 + {edge hem}", "near, hidden", geometry},
		step{"pin from the middle", "half long, {half long} > {half wide}", "square root ({half long} × {half long} - {half wide} × {half wide})", "near", pinsAndString},
		step{"string", "pin from the middle", "2 × {half long}", "near, hidden", pinsAndString})
	notesAs(k, ws.AsShaped,
		note{"curve", "washed first", "wash the piece before its curve is cut: it may shrink more one way than the other"},
		note{"curve", "shape: round", "fold the piece in four, and swing {fold radius} from the folded corner"},
		note{"curve", "half straight, {half straight} > 0", "fold the piece in four: mark {half straight} from the folded corner along the longer fold, and swing {end radius} from that mark round the end; the side beside it stays straight, {straight side} in all"},
		note{"curve", "string", "lay the piece flat and mark the lines through its middle, along and across; set a pin on the long line {pin from the middle} to each side of the middle, tie a string {string} long to both pins, and draw all round with the pencil pulling it tight: the curve crosses the lines {half long} and {half wide} from the middle"})
	const later = "later edge: curve cut later"
	edgings(k,
		edging{panelParts, "washed first", later, later, "", ""},
		edging{thePanel, "washed first", "", "", later, later},
		edging{"piece", "washed first, {joins} = 0", "", "", later, later},
		edging{"side", "washed first", "", "", later, ""})
	joinedPanel(k, "", "{finished width}", "{finished length}", "hem edge")
	edgings(k, edging{panelParts, "", "hem edge", "hem edge", "", ""})
	outline(k, thePanel, "shape: round, no washed first", ws.Circle, "")
	outline(k, thePanel, "shape: oval, oval: racetrack, no washed first", ws.Racetrack, "")
	outline(k, thePanel, "shape: oval, no washed first", ws.Circle, "")
	outline(k, thePanel, "corners: rounded", ws.RoundAll, "{corner radius} + {edge hem}")
	press(k)
	k.Unlikely = append(k.Unlikely, ws.Unlikely{What: "a hem too deep for its curve", Cost: 300, Is: func(it *ws.Item) bool {
		round := it.Order.Shape.Value == "round" || it.Order.Shape.Value == "oval"
		return round && it.Length("edge turn") > it.Length("curve turn")
	}})
	return k
}
