package goods

import (
	"cutgate/internal/length"
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	doubleHem = "Cursa sewing course, Simple hemmed napkins: a hem on both sides"
	turnedOut = "Sew Create Live, Simple placemat"
	bordered  = "Sew4Home, How to make a mitered corner"
	miters    = "Selvedge Studio, Mitered corner napkins: a miter is marked at twice the turn"
	thirdWide = "As the Curtain Hangs, Bed scarf: a third of the bed or the table"
	hangsOver = "Engineer Fix, How far should a table runner hang"
)

// runner, placemat and napkin are small flat table goods: hemmed, lined, or with a
// border sewn round.
func runner() *ws.Kind   { return flat("runner") }
func placemat() *ws.Kind { return flat("placemat") }
func napkin() *ws.Kind   { return flat("napkin") }

func flat(name string) *ws.Kind {
	k := &ws.Kind{
		Name: name,
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "back", Field: "back.cloth", Else: "face"},
			{Name: "wadding", Field: "wadding.cloth"}, {Name: "band", Called: "border", Field: "border.cloth", Else: "face"}},
		Adds: small, Layers: layers,
	}
	cloths(k)
	edge(k, "edge", "hem", "1/4 in / 6 mm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Hem, &it.Sides })
	k.Setup = after(k.Setup, func(it *ws.Item) {
		if made := it.Order.Made.Value; made == "lined" || made == "bordered" {
			it.Sides = ws.Hem{Order: &it.Order.Hem} // its edges are sewn, not turned
			return
		}
		if turn := turnOfCut(it); turn > 0 {
			it.Sides.Turn, it.Sides.Takes = turn, turn.Mul(it.Sides.Folds)
		}
	})
	byWords(k, "edge", "made")
	choices(k,
		choice{"made", "made", "hemmed", "", ""},
		choice{"allowance", "allowance", "1/2 in / 12 mm", "1/4 to 1 in", ""},
		choice{"border", "border.width", "", "1 to 6 in", ""},
		choice{"miter spare", "border.spare", "", "0 to 2 in", ""},
		choice{"hem corners", "hem.corners", "", "", ""},
		choice{"gap", "gap", "5 in / 12 cm", "3 to 8 in", "none"},
		choice{"least gap", "", "3 in / 75 mm", "", ""},
		choice{"wadding", "wadding.cloth", "", "", ""})
	if name == "runner" {
		choices(k,
			choice{"table width", "table.width", "", "12 to 120 in", "ordered, swaps table length"},
			choice{"table length", "table.length", "", "12 to 240 in", "ordered, swaps table width"},
			choice{"overhang", "overhang", "", "0 to 20 in", ordered})
		finished(k, "width", "4 to 60 in", "length", step{"", "table width, no finished width stated", "{table width} ÷ 3", "near", thirdWide})
		finished(k, "length", "4 to 300 in", "width", step{"", "table length, overhang", "{table length} + 2 × {overhang}", "near", hangsOver})
		slips(k,
			slip{"finished width", "this is half the table's width", "{table width} ÷ 2"},
			slip{"finished length", "the overhang was added at one end only", "{table length} + {overhang}"},
			slip{"finished length", "the overhang was left out", "{table length}"})
	} else {
		finished(k, "width", "4 to 60 in", "length")
		finished(k, "length", "4 to 60 in", "width")
	}
	cutOf := func(side string) (hemmed, lined, inside, back string) {
		f := "{finished " + side + "}"
		return f + " + 2 × {edge hem}", f + " + 2 × {allowance}", f + " - 2 × {border} + 2 × {allowance}", f + " + 2 × {allowance}"
	}
	hemW, linW, inW, backW := cutOf("width")
	hemL, linL, inL, backL := cutOf("length")
	pieces(k,
		piece{"piece", "face", hemW, hemL, "1", "made: hemmed"},
		piece{"piece", "face", linW, linL, "1", "made: lined"},
		piece{"piece", "face", inW, inL, "1", "made: bordered, border"},
		piece{"back", "back", backW, backL, "1", "made: lined/bordered"},
		piece{"wadding", "wadding", backW, backL, "1", "wadding"},
		piece{"long border", "band", "{border} + 2 × {allowance}", "the larger of ({finished length}, {finished width}) + 2 × {allowance} [+ 2 × {miter spare}]", "2", "made: bordered"},
		piece{"short border", "band", "{border} + 2 × {allowance}", "the smaller of ({finished length}, {finished width}) + 2 × {allowance} [+ 2 × {miter spare}]", "2", "made: bordered"})
	citeWhen(k, "made: hemmed", doubleHem, "piece")
	citeWhen(k, "made: lined", turnedOut, "piece", "back")
	citeWhen(k, "made: bordered", bordered, "piece", "long border", "short border")
	eitherWay(k, "piece", "back", "wadding")
	steps(k,
		step{"side by side", "", "rounded down (({face width} [- 2 × {face selvedge}]) ÷ {piece cut width})", "whole", "All Cotton and Linen, 12 napkins: how many lie across the cloth"},
		step{"edge length", "", "2 × ({finished width} + {finished length})", "up", geometry})
	mitered(k, "made: hemmed")
	for _, side := range []string{"width", "length"} {
		f := "{finished " + side + "}"
		slips(k,
			slip{"piece cut " + side, "one hem was counted, not two", f + " + {edge hem}"},
			slip{"piece cut " + side, "the hem was counted once, not folded twice", f + " + 2 × {edge turn}"},
			slip{"piece cut " + side, "the allowance was added on one side only", f + " + {allowance}"},
			slip{"piece cut " + side, "it was cut at the finished size", f},
			slip{"back cut " + side, "the allowance was added on one side only", f + " + {allowance}"},
			slip{"back cut " + side, "it was cut at the finished size", f},
			slip{"wadding cut " + side, "it was cut at the finished size", f})
	}
	for _, strip := range []string{"long", "short"} {
		side := map[string]string{"long": "larger", "short": "smaller"}[strip]
		slips(k,
			slip{strip + " border cut width", "the seams were left out", "{border}"},
			slip{strip + " border cut width", "one seam was left out", "{border} + {allowance}"},
			slip{strip + " border cut length", "the outer seam was left out", "the " + side + " of ({finished length}, {finished width})"})
	}
	notes(k,
		note{"seams", "made: lined", "{allowance} at every edge, right sides together; leave a gap of {gap} to turn it"},
		note{"seams", "made: bordered, border", "{allowance} at every edge; {border} of the border shows"},
		note{"make up", "made: lined, wadding", "fix the wadding inside the seams"},
		note{"make up", "made: bordered, border, miter spare, {miter spare} > 0", "miter the corners: each strip is {miter spare} longer than the edge at both ends"})
	edgings(k,
		allRound("piece", "made: hemmed", "hem edge"),
		allRound("piece/back/wadding/long border/short border", "", "seam {allowance}"))
	press(k)
	return k
}

// Turns of small hems, folded twice, from 1/4 in of a napkin to 1 in of a runner.
var (
	smallTurns       = []length.Length{in(4), in(6), in(8), in(12), in(16)}
	smallTurnsMetric = []length.Length{6 * length.Millimetre, 10 * length.Millimetre, 12 * length.Millimetre, 12500 * length.Micrometre, 15 * length.Millimetre, 20 * length.Millimetre, 25 * length.Millimetre}
)

// turnOfCut is the turn of a small piece's hem where neither the order nor the shop says it,
// and the cut is that of a usual hem; 0 for none.
func turnOfCut(it *ws.Item) length.Length {
	o, c := it.Order, it.StatedCut("piece")
	if c == nil || o.Hem.Set || it.Sheet.Tables.HemFor(o.Kind.Value, "edge", "") != nil {
		return 0
	}
	if face := it.Face; face != nil {
		if along, across := face.Shrinks(); !along.IsZero() || !across.IsZero() {
			return 0
		}
	}
	turns := smallTurns
	if it.Sheet.Unit.Metric() {
		turns = smallTurnsMetric
	}
	for _, turn := range turns {
		one, all := false, true
		for _, side := range [][2]*order.Length{{&c.Width, &o.Finished.Width}, {&c.Length, &o.Finished.Length}} {
			if cut, made := side[0], side[1]; cut.Set && made.Set {
				one, all = true, all && ws.Near(cut.Value, made.Value+turn.Mul(4), it.Step())
			}
		}
		if one && all {
			return turn
		}
	}
	return 0
}

// mitered adds where a mitered corner of a hem all round is marked: on the line through the
// point where the finished edges meet, square to the diagonal, which is twice the last turn
// from the corner.
func mitered(k *ws.Kind, when string) {
	const mark = "miter mark"
	k.Steps = append(k.Steps, ws.Step{Term: mark, When: both(when, "edge turn"), Formula: "2 × {edge turn}", Source: miters})
	notesAs(k, ws.AsHemmed,
		note{"corners", "miter mark, hem corners: mitred, {edge folds} > 1", "with all turns but the last folded, mark both edges {miter mark} from the corner; fold the corner in half, right sides together, sew from the marks square to the fold, and turn it out"},
		note{"corners", "miter mark, hem corners: mitred, {edge folds} = 1", "mark both raw edges {miter mark} from the corner; fold the corner in half, right sides together, sew from the marks square to the fold, and turn it out"},
		note{"corners", "miter mark, no hem corners", "to miter them, mark both edges {miter mark} from the corner, with all turns but the last folded"})
}
