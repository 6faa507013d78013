package goods

import (
	ws "cutgate/internal/worksheet"
)

const (
	foldedBand   = "Over-blog, Where to find curtain tie backs: twice the width and its seams, by the length and its seams"
	halfTemplate = "Alternative Windows, Simple tieback: a half template on the fold, and an inch round it"
	insideBand   = "Over-blog, Where to find curtain tie backs: the interfacing lies inside the seams"
	squares      = "a parabola: it rises with the square of the distance from the fold; no custom in it"
	aThird       = "published tie-back pages: a third of the curtain from its foot"
)

// tieBacks adds the tie-backs that are made with a curtain, so many in all: straight, and
// folded in one piece.
func tieBacks(k *ws.Kind) {
	choices(k,
		choice{"tie-backs", "tie_backs.count", "", "1 to 8", ""},
		choice{"tie-back width", "tie_backs.width", "", "1 to 8 in", "ordered, swaps tie-back length"},
		choice{"tie-back length", "tie_backs.length", "", "10 to 44 in", "ordered, swaps tie-back width"},
		choice{"tie-back seam", "tie_backs.allowance", "1/2 in / 12 mm", "1/4 to 5/8 in", ""})
	pieces(k, piece{"tie-back", "tie-backs", "{tie-back length} + 2 × {tie-back seam}", "2 × {tie-back width} + 2 × {tie-back seam}", "{tie-backs}", "tie-backs"})
	eitherWay(k, "tie-back")
	cite(k, foldedBand, "tie-back")
	edgings(k, allRound("tie-back", "", "seam {tie-back seam}"))
	foldLine(k, "the tie-backs' lower finished edge", "tie-back cut width", "{tie-back width}")
	steps(k, step{"tie-back rings", "tie-back cut width", "2 × {tie-backs}", "whole", ws.Common})
	notes(k,
		note{"tie-backs", "tie-back cut width", "fold each lengthwise, {tie-back seam} at every edge: {tie-back width} wide and {tie-back length} long"},
		note{"", "tie-back cut width", "fix an interfacing inside the seams of each; leave a gap to turn it"},
		note{"", "tie-back rings", "a ring at each end, half of it past the edge: 2 on each tie-back"})
	slips(k,
		slip{"tie-back cut width", "the seams were left out", "{tie-back length}"},
		slip{"tie-back cut width", "one seam was left out", "{tie-back length} + {tie-back seam}"},
		slip{"tie-back cut length", "the width was not doubled for the fold", "{tie-back width} + 2 × {tie-back seam}"},
		slip{"tie-back cut length", "the seams were left out", "2 × {tie-back width}"})
}

// tieBack is a band that holds a curtain open: straight and folded in one piece, or a
// front and a back; or shaped, cut by a template.
func tieBack() *ws.Kind {
	k := &ws.Kind{
		Name: "tie-back",
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "back", Field: "back.cloth", Else: "face"}, {Name: "interfacing", Field: "interfacing.cloth"},
			{Name: "piping", Field: "piping.cloth", Else: "face"}},
		Adds: small, Layers: layers,
	}
	cloths(k)
	choices(k,
		choice{"back cloth", "back.cloth", "", "", ""},
		choice{"allowance", "allowance", "1/2 in / 12 mm", "1/4 to 5/8 in", ""},
		choice{"shape", "shape", "straight", "", ""},
		choice{"made", "made", "folded", "", ""},
		choice{"end less", "template.low", "1 in / 25 mm", "1/4 to 3 in", ""},
		choice{"end more", "template.high", "1 in / 25 mm", "1/4 to 3 in", ""},
		choice{"template margin", "template.margin", "1 in / 25 mm", "1/4 to 3 in", ""},
		choice{"rings", "rings", "2", "1 to 4", "none"},
		choice{"rings usual", "", "2", "", ""},
		choice{"curtain length", "curtain_length", "", "20 to 160 in", ordered},
		choice{"hook stated", "hook", "", "6 to 100 in", ordered},
		choice{"length least", "", "10 in / 25 cm", "", ""})
	shownAs(k, "allowance", "seam allowance")
	called(k, "end less", "end's low mark")
	called(k, "end more", "end's high mark")
	finished(k, "width", "1 to 8 in", "length")
	finished(k, "length", "10 to 44 in", "width")
	k.Outcomes = nil // they are stated, always
	k.Given = append(k.Given, ws.Given{Term: "rise stated", From: []string{"template.rise"}, Name: "rise", Choice: &ws.Choosing{High: in(16 * 12)}})
	steps(k,
		step{"rise", "rise stated", "{rise stated}", "near, hidden", "the order"},
		step{"rise", "shape: shaped", "{finished width}", "near, hidden", halfTemplate},
		step{"half", "shape: shaped", "{finished length} ÷ 2", "near", halfTemplate},
		step{"low mark", "shape: shaped", "{finished width} - {end less}", "near", halfTemplate},
		step{"high mark", "shape: shaped", "{finished width} + {end more}", "near", halfTemplate},
		step{"quarter", "half", "{half} ÷ 4", "near, hidden", halfTemplate},
		step{"low at a quarter", "low mark", "{low mark} ÷ 16", "near, hidden", squares},
		step{"low halfway", "low mark", "{low mark} ÷ 4", "near, hidden", squares},
		step{"low at three quarters", "low mark", "9 × {low mark} ÷ 16", "near, hidden", squares},
		step{"high at a quarter", "high mark", "{finished width} + ({high mark} - {finished width}) ÷ 16", "near, hidden", squares},
		step{"high halfway", "high mark", "{finished width} + ({high mark} - {finished width}) ÷ 4", "near, hidden", squares},
		step{"high at three quarters", "high mark", "{finished width} + 9 × ({high mark} - {finished width}) ÷ 16", "near, hidden", squares},
		step{"rings on each", "", "{rings}", "whole", ws.Common})
	steps(k, // before the first wash
		step{"drawn half", "half, face shrinkage across", "{half} ÷ (1 - {face shrinkage across})", "near, hidden", dividing},
		step{"drawn fold", "half, face shrinkage", "{finished width} ÷ (1 - {face shrinkage})", "near, hidden", dividing})
	called(k, "hook stated", "height of the hook")
	k.Steps = append(k.Steps, ws.Step{Term: "height", Name: "hook above the curtain's foot", Hidden: true, When: "hook stated", Formula: "{hook stated}", Source: "the order"},
		ws.Step{Term: "height", Name: "hook above the curtain's foot", Formula: "{curtain length} ÷ 3", Source: aThird})
	long := "{finished length} + 2 × {allowance}"
	wide := "{finished width} + 2 × {allowance}"
	block := "{finished length} + 2 × {template margin}"
	high := "{finished width} + {rise} + 2 × {template margin}"
	const faced = "shape: straight, made: faced"
	k.Steps = append(k.Steps,
		ws.Step{Term: "fronts", When: both(faced, "no back cloth"), Work: oneFront, Sort: ws.Count, Hidden: true, Belief: true},
		ws.Step{Term: "fronts", When: both(faced, "no back cloth"), Formula: "2", Sort: ws.Count, Hidden: true},
		ws.Step{Term: "fronts", When: faced, Formula: "1", Sort: ws.Count, Hidden: true})
	pieces(k,
		piece{"tie-back", "face", long, "2 × {finished width} + 2 × {allowance}", "1", "shape: straight, made: folded"},
		piece{"front", "face", block, high, "1", "shape: shaped"},
		piece{"front", "face", long, wide, "{fronts}", faced},
		piece{"back", "back", block, high, "1", "shape: shaped"},
		piece{"back", "back", long, wide, "1", both(faced, "{fronts} = 1")},
		piece{"interfacing", "interfacing", "{finished length}", "{finished width}", "1", "shape: straight"},
		piece{"interfacing", "interfacing", "{finished length}", "{finished width} + {rise}", "1", "shape: shaped"})
	cite(k, foldedBand, "tie-back")
	cite(k, insideBand, "interfacing")
	cite(k, halfTemplate, "front", "back")
	anywhere(k, "back", "interfacing")
	eitherWay(k, "tie-back", "front", "back", "interfacing")
	notes(k,
		note{"seams", "", "{allowance} at every edge"},
		note{"template", "shape: shaped", "on folded paper, {half} long: the fold is {finished width} deep, and the end lies between {low mark} and {high mark} above the foot of the fold; join them with one curve, and cut {allowance} outside it"},
		note{"", "high at three quarters", "a fair curve, every {quarter} out from the fold: the lower edge is {low at a quarter}, {low halfway} and {low at three quarters} up, then {low mark}; the upper edge {high at a quarter}, {high halfway} and {high at three quarters}, then {high mark}"},
		note{"", "drawn half", "the cloth will shrink: draw the template {drawn half} long for {half}, and the steps out from the fold longer in the same measure"},
		note{"", "drawn fold", "the cloth will shrink: draw the fold {drawn fold} deep for {finished width}, and all else that is up from its foot longer in the same measure"},
		note{"make up", "shape: straight, made: folded", "fold it lengthwise on its line, right sides together"},
		note{"make up", "", "fix the interfacing inside the seams; leave a gap to turn it"},
		note{"hook", "hook stated", "{hook stated} above the foot of the curtain"},
		note{"rings", "{rings} > 1", "one at each end, half of it past the edge: {rings} on each tie-back"},
		note{"rings", "{rings} = 1", "one on each tie-back, half of it past the edge"})
	for _, p := range []struct{ piece, when string }{{"tie-back", ""}, {"front", "shape: straight"}, {"back", "shape: straight"}} {
		slipsWhen(k, p.when,
			slip{p.piece + " cut width", "the allowance was added at one end", "{finished length} + {allowance}"},
			slip{p.piece + " cut width", "the allowances were left out", "{finished length}"})
	}
	for _, piece := range []string{"front", "back"} {
		slipsWhen(k, "shape: straight",
			slip{piece + " cut length", "the allowance was added on one side only", "{finished width} + {allowance}"},
			slip{piece + " cut length", "the allowances were left out", "{finished width}"})
		slipsWhen(k, "shape: shaped",
			slip{piece + " cut width", "the margin was left out", "{finished length}"},
			slip{piece + " cut width", "this is half of it: the template lies on the fold", "{half} + {template margin}"},
			slip{piece + " cut length", "the rise of the ends was left out", "{finished width} + 2 × {template margin}"},
			slip{piece + " cut length", "the margin was left out", "{finished width} + {rise}"})
	}
	slips(k,
		slip{"tie-back cut length", "the width was not doubled for the fold", "{finished width} + 2 × {allowance}"},
		slip{"tie-back cut length", "one seam was left out", "2 × {finished width} + {allowance}"},
		slip{"tie-back cut length", "the seams were left out", "2 × {finished width}"},
		slip{"interfacing cut width", "it was cut with the seams; it lies inside them", "{finished length} + 2 × {allowance}"},
		slip{"interfacing cut length", "it was cut with the seams; it lies inside them", "{finished width} + 2 × {allowance}"},
		slip{"interfacing cut width", "it was cut larger than the cloth", "{finished length} + 3 × {allowance}"},
		slip{"interfacing cut length", "it was cut larger than the cloth", "{finished width} + 3 × {allowance}"})
	edgings(k, allRound("tie-back/front/back", "shape: straight", "seam {allowance}"))
	outline(k, "front/back/interfacing", "shape: shaped", ws.Crescent, "")
	foldLine(k, "the lower finished edge", "shape: straight, made: folded", "{finished width}")
	press(k)
	return k
}

// oneFront is 1 where the cuts have a back of a tie-back beside its front.
func oneFront(it *ws.Item) (ws.Result, bool) {
	c := it.StatedCut("front")
	return ws.Result{Value: ws.CountOf(1)}, it.StatedCut("back") != nil && (c == nil || c.Count.Value < 2)
}

// foldLine adds the line that a tie-back is folded on, so far up from its lower edge.
func foldLine(k *ws.Kind, from, when, wide string) {
	marks(k, mark{"fold", from, when, "1", wide})
	placed(k, ws.Placing{Mark: "fold", From: from, Of: "tie-back", When: when, Edge: ws.Right, Through: true})
}
