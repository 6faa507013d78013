package goods

import (
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	housewifeCase = "Raori, Easy pillow case; Instructables, Pillowcase, 3 different styles: the case twice, the pocket and the hems"
	openEnded     = "Good Night Boutique, standard and queen pillowcases: one seam, and the hem of the open end"
	cuffedCase    = "Customway, DIY pillowcases: the body once round, and a cuff doubled"
	flanged       = "Interior Game, Making pillow covers; DIY Home Decor, Flanged pillow sham: the flange at both ends"
	oneStripSham  = "eHow, Standard pillow sham size: front and backs in one"
	shamTrim      = "DIY Home Decor, Flanged pillow sham: the round and 2 in"
)

// pillowcase is a case for a pillow: a housewife case with its pocket in one strip, a
// plain one that is open at its end, one with a cuff, or a sham whose backs lap, with a
// flange round it or in one strip. It is measured inside its seams, or its stitch line.
func pillowcase() *ws.Kind {
	k := &ws.Kind{
		Name:  "pillowcase",
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "band", Field: "cuff.cloth", Else: "face"}},
		Adds:  small, Layers: layers,
	}
	cloths(k)
	edge(k, "opening", "opening", "2 in / 5 cm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Opening, &it.Bottom })
	edge(k, "flap", "flap_hem", "1/2 in / 12 mm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.FlapHem, &it.Top })
	k.Setup = after(k.Setup, func(it *ws.Item) {
		style := ws.Or(it.Order.Style, "housewife")
		if style != "housewife" {
			it.Top.Takes = 0
		}
		if style != "housewife" && style != "plain" {
			it.Bottom.Takes = 0
		}
	})
	byWords(k, "opening", "style")
	byWords(k, "flap", "style")
	choices(k,
		choice{"style", "style", "housewife", "", ""},
		choice{"pillow width", "pillow.width", "", "8 to 40 in", "ordered, swaps pillow length"},
		choice{"pillow length", "pillow.length", "", "8 to 60 in", "ordered, swaps pillow width"},
		choice{"ease", "ease", "0 in / 0 cm", "0 to 2 in", ""},
		choice{"allowance", "allowance", "1/2 in / 15 mm", "1/4 to 3/4 in", ""},
		choice{"flap", "flap", "8 in / 20 cm", "4 to 12 in", ""},
		choice{"flange", "flange", "2 in / 5 cm", "1 to 4 in", ""},
		choice{"cuff shows", "cuff.shows", "", "2 to 12 in", ordered},
		choice{"cuff seam", "cuff.allowance", "= allowance", "1/4 to 3/4 in", ""},
		choice{"end seam", "cuff.end", "= allowance", "1/4 to 1 in", ""},
		choice{"trim join", "", "2 in / 5 cm", "", ""},
		choice{"flange most", "", "4 in / 10 cm", "", ""},
		choice{"usual flap", "", "8 in / 20 cm", "", ""},
		choice{"flap least", "", "6 in / 15 cm", "", ""})
	shownAs(k, "allowance", "seam allowance")
	called(k, "flap", "pocket")
	shownAs(k, "flap", "pocket")
	called(k, "ease", "", "0 in", "0 cm", "1/2 in", "1 in", "1 cm", "2 cm", "2.5 cm")
	called(k, "end seam", "whole end seam")
	finished(k, "width", "8 to 40 in", "length", step{"", "no finished width stated, pillow width", "{pillow width} + {ease}", "near", ws.Common})
	finished(k, "length", "8 to 60 in", "width", step{"", "no finished length stated, pillow length", "{pillow length} + {ease}", "near", ws.Common})
	const sham = "style: Oxford/one strip"
	steps(k,
		step{"overall width", sham, "{finished width} + 2 × {flange}", "near", flanged},
		step{"overall length", sham, "{finished length} + 2 × {flange}", "near", flanged},
		step{"trim length", sham, "2 × ({finished width} + {finished length}) + {trim join}", "up, hidden", shamTrim})
	front := "{overall length} + 2 × {allowance}"
	backs(k, "face", func(o *order.Item) bool { return o.Style.Value == "Oxford" || o.Style.Value == "one strip" },
		run{when: "style: Oxford", sum: front}, run{when: "style: one strip", sum: "{overall length}"})
	across, overall := "{finished width} + 2 × {allowance}", "{overall width} + 2 × {allowance}"
	round := "2 × {finished width} + 2 × {end seam}"
	pieces(k,
		piece{"strip", "face", across, "2 × {finished length} + {flap} + {flap hem} + {opening hem}", "1", "style: housewife"},
		piece{"strip", "face", overall, "2 × {overall length} + {overlap} + 2 × {back hem}", "1", "style: one strip"},
		piece{"piece", "face", across, "{finished length} + {allowance} + {opening hem}", "2", "style: plain"},
		piece{"body", "face", round, "{finished length} - {cuff shows} + {cuff seam} + {end seam}", "1", "style: cuffed, cuff shows"},
		piece{"cuff", "band", round, "2 × ({cuff shows} + {cuff seam})", "1", "style: cuffed"},
		piece{"front", "face", overall, front, "1", "style: Oxford"},
		piece{"back", "face", overall, eachBack(front), "2", "style: Oxford"})
	rounder(k, "strip", "back")
	citeWhen(k, "style: one strip", oneStripSham, "strip")
	cite(k, housewifeCase, "strip")
	cite(k, openEnded, "piece")
	cite(k, cuffedCase, "body", "cuff")
	cite(k, flanged, "front", "back")
	steps(k, // before the first wash
		step{"pocket fold", "style: housewife, face shrinkage", "{flap} ÷ (1 - {face shrinkage})", "near, hidden", dividing},
		step{"pocket fold", "style: housewife", "{flap}", "near, hidden", housewifeCase},
		step{"case fold", "style: housewife, face shrinkage", "{finished length} ÷ (1 - {face shrinkage})", "near, hidden", dividing},
		step{"case fold", "style: housewife", "{finished length}", "near, hidden", housewifeCase})
	notes(k,
		note{"seams", "no cuff shows", "{allowance} at every seam"},
		note{"seams", "cuff shows", "{cuff seam} at the cuff, {end seam} altogether at the side and the end"},
		note{"make up", "style: housewife", "hem both ends, to the wrong side; lay it right side up, and mark a line {pocket fold} from the pocket's hemmed end; fold the other end over, right sides together, at {case fold} past the line, so that its hem meets the line; fold the pocket back along the line, over that hem; sew the two long sides, and turn: the pocket then lies inside"},
		note{"make up", "style: one strip", "hem both ends, right side up; fold them in to the middle until they overlap by {overlap}; sew the sides, and turn"},
		note{"make up", "style: plain", "sew three sides, and hem the open end"},
		note{"make up", "cuff shows", "sew the cuff to the body by one edge, fold it over the seam and stitch it down so that {cuff shows} shows; then the end and the side"},
		note{"make up", "style: Oxford", "hem one long edge of each back; lay them on the front, right sides together, overlapping by {overlap}; sew all round and turn"},
		note{"flange", both(sham, "{flange} > 0"), "stitch all round, {flange} from the edge; a trim on that line takes {trim length}"})
	marks(k, mark{"folds", "the pocket's hemmed end", "style: housewife, flap, finished length", "2", "{flap} + ({k} - 1) × {finished length}"})
	placed(k, ws.Placing{Mark: "folds", Of: "strip", When: "style: housewife", Edge: ws.Right, Through: true})
	pillowcaseSlips(k)
	const seam = "seam {allowance}"
	edgings(k,
		edging{"strip", "style: housewife", "hem opening", "hem flap", seam, seam},
		edging{"strip", "style: one strip", "hem back", "hem back", seam, seam},
		edging{"piece", "", seam, "hem opening", seam, seam},
		edging{"body", "", "seam {end seam} seam, in all", "seam {cuff seam} seam to the cuff", "seam {end seam} seam, in all", "seam {end seam} seam, in all"},
		edging{"cuff", "", "seam {cuff seam} seam to the body", "seam {cuff seam} seam to the body", "seam {end seam} seam, in all", "seam {end seam} seam, in all"},
		edging{"back", "style: Oxford", "hem back", "", "", ""},
		allRound("front/back", "style: Oxford", seam))
	press(k)
	return k
}

func pillowcaseSlips(k *ws.Kind) {
	strip := "strip cut length"
	slipsWhen(k, "style: housewife",
		slip{strip, "the pocket was left out", "2 × {finished length} + {flap hem} + {opening hem}"},
		slip{strip, "the hems were left out", "2 × {finished length} + {flap}"},
		slip{strip, "the pocket's hem was left out", "2 × {finished length} + {flap} + {opening hem}"},
		slip{strip, "the opening's hem was left out", "2 × {finished length} + {flap} + {flap hem}"},
		slip{strip, "the case was counted once, not twice", "{finished length} + {flap} + {flap hem} + {opening hem}"})
	slipsWhen(k, "style: one strip, {flange} > 0",
		slip{strip, "the flange was counted on the front only", "{overall length} + {finished length} + {overlap} + 2 × {back hem}"},
		slip{strip, "the flange was left out", "2 × {finished length} + {overlap} + 2 × {back hem}"})
	slipsWhen(k, "style: one strip",
		slip{strip, "the overlap was left out", "2 × {overall length} + 2 × {back hem}"},
		slip{strip, "one hem was left out", "2 × {overall length} + {overlap} + {back hem}"},
		slip{strip, "the hems were left out", "2 × {overall length} + {overlap}"})
	for _, r := range []struct{ when, of, across string }{
		{"style: housewife", "strip cut width", "{finished width}"}, {"style: one strip", "strip cut width", "{overall width}"},
		{"style: plain", "piece cut width", "{finished width}"}, {"", "front cut width", "{overall width}"}, {"", "back cut width", "{overall width}"}, {"", "front cut length", "{overall length}"},
	} {
		slipsWhen(k, r.when,
			slip{r.of, "the allowance was added on one side only", r.across + " + {allowance}"},
			slip{r.of, "the allowances were left out", r.across})
	}
	for _, r := range []struct{ of, finished string }{{"front cut length", "{finished length}"}, {"front cut width", "{finished width}"}, {"back cut width", "{finished width}"}} {
		slipsWhen(k, "{flange} > 0",
			slip{r.of, "the flange was counted once, not at both ends", r.finished + " + {flange} + 2 × {allowance}"},
			slip{r.of, "the flange was counted twice over", r.finished + " + 4 × {flange} + 2 × {allowance}"},
			slip{r.of, "the flange was left out", r.finished + " + 2 × {allowance}"})
	}
	backSlips(k, "", "length")
	slips(k,
		slip{"piece cut length", "the closed end's seam was left out", "{finished length} + {opening hem}"},
		slip{"piece cut length", "the hem was left out", "{finished length} + {allowance}"},
		slip{"body cut length", "the cuff was not taken off", "{finished length} + {cuff seam} + {end seam}"},
		slip{"body cut length", "the seams were left out", "{finished length} - {cuff shows}"},
		slip{"body cut length", "the cuff's seam was left out", "{finished length} - {cuff shows} + {end seam}"},
		slip{"cuff cut length", "the cuff was not doubled", "{cuff shows} + 2 × {cuff seam}"},
		slip{"cuff cut length", "one seam was left out", "2 × {cuff shows} + {cuff seam}"},
		slip{"cuff cut length", "the seams were left out", "2 × {cuff shows}"},
		slip{"finished width", "the ease was added twice", "{pillow width} + 2 × {ease}"},
		slip{"finished length", "the ease was added twice", "{pillow length} + 2 × {ease}"})
	for _, piece := range []string{"body", "cuff"} {
		slips(k,
			slip{piece + " cut width", "the width was not doubled", "{finished width} + 2 × {end seam}"},
			slip{piece + " cut width", "one allowance was left out", "2 × {finished width} + {end seam}"},
			slip{piece + " cut width", "the seam was left out", "2 × {finished width}"})
	}
}
