package goods

import (
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	duvetOver    = "Videojug, How to make a duvet cover: the duvet, and the ease"
	duvetCut     = "House and Home, How to make bed linen: the hem at the foot, and a seam"
	duvetTape    = "House and Home, How to make bed linen: the opening and 3 cm"
	duvetSpaces  = "Canadian Living, Duvet cover: 25.5 to 30.5 cm apart"
	duvetButtons = "Smart Plate Quilting, 30 minute duvet cover: one mark less than spaces"
	duvetPiping  = "Canadian Living, Duvet cover: the perimeter and 30.5 cm"
)

// duvetCover is a bag for a duvet, open at the foot: two faces of one cloth, or a face
// and a back of another.
func duvetCover() *ws.Kind {
	k := &ws.Kind{
		Name:  "duvet cover",
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "back", Field: "back.cloth"}, {Name: "piping", Field: "piping.cloth", Else: "face"}},
		Setup: seamOf,
		Adds:  small, Layers: layers,
	}
	cloths(k)
	edge(k, "opening", "opening", "1 in / 25 mm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Opening, &it.Bottom })
	seam(k)
	choices(k,
		choice{"duvet width", "duvet.width", "", "20 to 130 in", "ordered, swaps duvet length"},
		choice{"duvet length", "duvet.length", "", "30 to 130 in", "ordered, swaps duvet width"},
		choice{"ease stated", "ease", "house duvet_ease, if any", "0 to 3 in", ""},
		choice{"allowance", "allowance", "1/2 in / 15 mm", "3/8 to 3/4 in", ""},
		choice{"closure", "closure.kind", "buttons", "", ""},
		choice{"closed", "closure.closed", "10 in / 25 cm", "2 to 20 in", ""},
		choice{"usual closed", "", "10 in / 25 cm", "", ""},
		choice{"widest spacing", "closure.at_most", "10 in / 25 cm", "4 to 14 in", ""},
		choice{"button", "closure.button", "", "1/4 to 2 in", ""},
		choice{"tape turn", "", "1/2 in / 15 mm", "", ""},
		choice{"spacing most", "", "12 in / 30 cm", "", ""},
		choice{"slack most", "", "2 in / 5 cm", "", ""})
	called(k, "closed", "part sewn shut at each side")
	called(k, "ease stated", "ease", "1 in", "2 in", "2 cm", "5 cm", "0 in", "0 cm")
	k.Given = append(k.Given, ws.Given{Term: "faces", Sort: ws.Count, From: []string{"faces", "back.cloth"}, Choice: &ws.Choosing{Least: 1, Most: 2},
		Get: func(it *ws.Item) (ws.Value, bool) {
			n := int64(2)
			if it.Order.Back.Cloth.Set {
				n = 1
			}
			return ws.CountOf(ws.Or(it.Order.Faces, n)), true
		}})
	for _, side := range []string{"width", "length"} {
		other := map[string]string{"width": "length", "length": "width"}[side]
		duvet, between := "duvet "+side, "20 to 130 in"
		finished(k, side, between, other,
			step{"", duvet + ", ease stated", "{" + duvet + "} + {ease stated}", "near", duvetOver},
			step{"", duvet + ", no finished " + side + " stated", "{" + duvet + "}", "near", duvetOver})
		slips(k,
			slip{"finished " + side, "the ease was left out", "{" + duvet + "}"},
			slip{"finished " + side, "the ease was added at both sides", "{" + duvet + "} + 2 × {ease stated}"},
			slip{"finished " + side, "this is the duvet's " + other, "{duvet " + other + "}"})
	}
	along := "{finished length} + {allowance} + {opening hem}"
	cut(k, "", "face", ws.CutLength, duvetCut, run{sum: along, slips: []ws.Slipping{
		{Name: "the hem at the foot was left out", Formula: "{finished length} + {allowance}"},
		{Name: "the hem at the foot was left out, for a second seam", Formula: "{finished length} + 2 × {allowance}"},
		{When: "{opening folds} > 1", Name: "the hem at the foot was counted once, not folded twice", Formula: "{finished length} + {allowance} + {opening turn}"},
		{Name: "the seam at the top was left out", Formula: "{finished length} + {opening hem}"},
		{Name: "hem and seam were left out: this is the finished length", Formula: "{finished length}"},
	}})
	usable(k, "", "", "face", "finished width")
	flatPanel(k, panel{across: string(ws.FinishedWidth), takes: "allowance", called: "outer seam", each: "faces", middle: true, byCloth: true})
	layered(k, layer{role: "back", across: "{finished width} + 2 × {allowance}", along: along, when: "back width", source: duvetCut})
	opening := "{finished width} - 2 × {closed}"
	steps(k,
		step{"opening", "", opening, "near", ws.Common},
		step{"fastener", "closure: snaps/tape", "{opening} + 2 × {tape turn}", "up", duvetTape},
		step{"zip length", "closure: zip", opening, "down", ws.Common})
	spaced(k, spread{
		marks: "fastenings", field: "closure.count", pitch: "fastening spacing", spacing: "closure.spacing",
		run: opening, whole: string(ws.FinishedWidth), widest: "widest spacing", when: "closure: buttons/ties",
		counted: duvetButtons, spaced: duvetSpaces,
	})
	steps(k,
		step{"fastenings at the most apart", "", "rounded up (({finished width} - 2 × {closed}) ÷ {spacing most}) - 1", "whole, hidden", ""},
		step{"button line", "closure: buttons/ties, {opening turn} > {tape turn}", "{opening turn} ÷ 2", "near, hidden", ws.Common},
		step{"round", "", "2 × ({finished width} + {finished length})", "near, hidden", duvetPiping})
	bias(k, piped{times: 1, run: "round"})
	biasSquare(k)
	for _, m := range []string{"buttons", "ties"} {
		marks(k, mark{m, "the left finished side, at the foot", "fastenings, closure: " + m, "{fastenings}", "{closed} + {k} × {fastening spacing}"})
	}
	notes(k,
		note{"foot", "opening", "sewn shut for {closed} at each side; {opening} stays open"},
		note{"foot", "closure: buttons, fastenings, button line", "buttons and holes on a line {button line} from the finished foot"},
		note{"inside", "finished width", "a tie in each corner, to hold the duvet"})
	outcomes(k, outcome{"zip length", "zip.length", ws.Size})
	k.Outcomes[len(k.Outcomes)-1].Fine = shorterZip
	slips(k,
		slip{"zip length", "nothing was sewn shut: this is the whole width", "{finished width}"},
		slip{"zip length", "it was sewn shut at one side", "{finished width} - {closed}"},
		slip{"side cut width", "the outer seam was counted on both edges", "({finished width} - {center shows}) ÷ 2 + 2 × {allowance} + {seam allowance}"},
		slip{"back cut width", "the allowance was added on one side only", "{finished width} + {allowance}"},
		slip{"back cut width", "it was cut at the finished width", "{finished width}"})
	for _, of := range cutLengths("back") {
		slips(k,
			slip{of, "the hem at the foot was left out", "{finished length} + {allowance}"},
			slip{of, "the hem at the foot was counted once", "{finished length} + {allowance} + {opening turn}"},
			slip{of, "it was cut at the finished length", "{finished length}"})
	}
	threaded(k, "2 × {finished length} + 3 × {finished width} [+ {faces} × {joins} × {cut length}]")
	notes(k, note{"seams", "", "{allowance} at the sides and the head"})
	const seam = "seam {allowance}"
	joinedPanel(k, "", "{finished width}", "{finished length}", seam)
	edgings(k,
		edging{panelParts, "", seam, "hem opening", "", ""},
		edging{layerParts("back"), "", seam, "hem opening", seam, seam})
	placed(k,
		ws.Placing{Mark: "buttons", Of: thePanel, Edge: ws.Foot},
		ws.Placing{Mark: "ties", Of: thePanel, Edge: ws.Foot})
	press(k)
	return k
}

// shorterZip reports whether a shorter zip than there is room for still lets the duvet
// in.
func shorterZip(it *ws.Item, stated ws.Value) bool {
	most := it.Length("zip length")
	return stated.Length() <= most && stated.Length().Mul(4) >= most.Mul(3)
}
