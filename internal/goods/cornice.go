package goods

import ws "cutgate/internal/worksheet"

const (
	coverOver  = "published cornice pages: the board, two returns and 6 in; the height likewise"
	boxInside  = "Workroom Tech, Basic cornice board construction, 2019: inside is 1 1/2 in less with 3/4 in ends"
	overTrim   = "Workroom Tech, Basic cornice board construction, 2019: 2 1/2 in over the trim at least"
	clothBends = "Drapes Made Easy, Cornice board: 1/4 in wider for the cloth at the bends"
)

// cornice is a cloth cover over a board box above a window. Plain cloth is run along
// it, turned, in one piece; a print stands upright, and is joined.
func cornice() *ws.Kind {
	k := &ws.Kind{
		Name: "cornice",
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "lining", Field: "lining.cloth"}, {Name: "wadding", Field: "wadding.cloth"},
			{Name: "piping", Field: "piping.cloth", Else: "face"}},
		Setup: seamOf,
	}
	cloths(k)
	seam(k)
	choices(k,
		choice{"outside stated", "board.width", "", "12 to 300 in", ordered},
		choice{"trim width", "trim.width", "", "12 to 300 in", ordered},
		choice{"over trim", "", "2 1/2 in / 6.5 cm", "", ""},
		choice{"return", "board.return", "4 in / 10 cm", "1 to 14 in", "swaps height"},
		choice{"height", "board.height", "", "4 to 40 in", ordered},
		choice{"thickness stated", "board.thickness", "", "1/4 to 2 in", ""},
		choice{"usual thickness", "", "3/4 in / 18 mm", "", ""},
		choice{"most thickness", "", "1 1/2 in / 4 cm", "", ""},
		choice{"inside width stated", "board.inside", "", "", "none"},
		choice{"wrap", "wrap", "3 in / 7.5 cm", "1/2 to 6 in", ""},
		choice{"usual wrap", "", "3 in / 7.5 cm", "", ""},
		choice{"wrap least", "", "1 in / 25 mm", "", ""},
		choice{"cloth ease", "", "1/4 in / 6 mm", "", ""},
		choice{"curtain length", "curtain_length", "", "20 to 200 in", "copied"},
		choice{"lining", "lining.cloth", "", "", ""},
		choice{"wadding", "wadding.cloth", "", "", ""})
	called(k, "return", "", "3 in", "4 in", "5 in", "6 in", "8 cm", "10 cm", "12 cm", "15 cm")
	called(k, "wrap", "", "2 in", "3 in", "4 in", "5 cm", "7.5 cm", "8 cm", "10 cm")
	k.Given = append(k.Given,
		ws.Given{Term: "run stated", From: []string{"run"}, Usually: ws.Silent},
		ws.Given{Term: "nap", From: []string{"face/nap"}, Word: func(it *ws.Item) string {
			if it.Face == nil {
				return ""
			}
			return it.Face.Order.Nap.Value
		}})
	k.Steps = append(k.Steps, ws.Step{Term: "cover across", Formula: "{height} + 2 × {wrap}", Hidden: true},
		ws.Step{Term: "run", Word: corniceRun, Reads: []string{"run stated", "nap", "face repeat", "cover across", "face washed width"}})
	steps(k,
		step{"outside", "outside stated", "{outside stated}", "near, hidden", "the order"},
		step{"outside", "trim width", "{trim width} + {over trim}", "near", overTrim},
		step{"outside", "inside width stated, thickness stated", "{inside width stated} + 2 × {thickness stated}", "near", boxInside},
		step{"outside", "inside width stated", "{inside width stated} + 2 × {usual thickness}", "near", boxInside},
		step{"thickness", "thickness stated", "{thickness stated}", "near, hidden", "the order"},
		step{"thickness", "outside, inside width stated, {inside width stated} < {outside}, {outside} ≤ {inside width stated} + 2 × {most thickness}", "({outside} - {inside width stated}) ÷ 2", "near, hidden", geometry},
		step{"thickness", "", "{usual thickness}", "near, hidden", ws.Common},
		step{"inside width", "", "{outside} - 2 × {thickness}", "near", boxInside},
		step{"front board", "", "{outside} + {cloth ease}", "near", clothBends},
		step{"face run", "", "{outside} + 2 × {return}", "near", coverOver},
		step{"cover run", "", "{face run} + 2 × {wrap}", "up, hidden", coverOver},
		step{"cover height", "", "{height} + 2 × {wrap}", "up, hidden", coverOver},
		step{"depth least", "curtain length", "{curtain length} ÷ 6", "near, hidden", sixthDeep},
		step{"depth most", "curtain length", "{curtain length} ÷ 5", "near, hidden", sixthDeep},
		step{"low room", "curtain length", "{curtain length} ÷ 8", "near, hidden", sixthDeep})
	cut(k, "", "face", ws.CutLength, coverOver, run{when: "run: across", sum: "{height} + 2 × {wrap}", slips: []ws.Slipping{
		{Name: "it was wrapped round one edge only", Formula: "{height} + {wrap}"},
		{Name: "nothing was left to wrap round the board", Formula: "{height}"},
	}})
	usable(k, "", "", "face", "run: across")
	flatPanel(k, panel{across: "face run", takes: "wrap", called: "wrap", when: "run: across", middle: true, byCloth: true})
	const long = "{outside} + 2 × {return} + 2 × {wrap}"
	pieces(k,
		piece{"cover", "face", "{height} + 2 × {wrap}", long, "1", "run: along"},
		piece{"lining", "lining", "{height} + {return}", "{face run}", "1", "lining"},
		piece{"wadding", "wadding", "{height}", "{face run}", "1", "wadding"})
	rounder(k, "cover", "lining", "wadding")
	cite(k, coverOver, "cover")
	slips(k,
		slip{"inside width", "one end of the box was taken off", "{outside} - {thickness}"},
		slip{"inside width", "the ends were not taken off: this is the outside", "{outside}"},
		slip{"cover cut length", "the returns were left out", "{outside} + 2 × {wrap}"},
		slip{"cover cut length", "one return was left out", "{outside} + {return} + 2 × {wrap}"},
		slip{"cover cut length", "it was wrapped round one end only", "{outside} + 2 × {return} + {wrap}"},
		slip{"cover cut length", "nothing was left to wrap round the board", "{face run}"},
		slip{"cover cut width", "it was wrapped round one edge only", "{height} + {wrap}"},
		slip{"cover cut width", "nothing was left to wrap round the board", "{height}"},
		slip{"lining cut width", "the return was left out", "{height}"},
		slip{"lining cut length", "the returns were left out", "{outside}"},
		slip{"wadding cut width", "it was cut like the cover", "{height} + 2 × {wrap}"},
		slip{"wadding cut length", "the returns were left out", "{outside}"})
	outcomes(k, outcome{"inside width", "board.inside", ws.Size})
	bias(k, piped{times: 2, run: "face run"})
	biasSquare(k)
	notes(k,
		note{"box", "outside", "{outside} wide outside, {inside width} inside, {height} high, with returns of {return}; the front board is cut {front board}, for the cloth at the bends"},
		note{"cover", "run: along", "run along the cornice: the cloth is turned, its width up the face"},
		note{"cover", "run: across", "the cloth runs upright"},
		note{"cover", "wrap", "wrapped {wrap} round every edge and stapled on the back"})
	const behind = "turn {wrap} wrapped behind"
	joinedPanel(k, "run: across", "{face run}", "{height}", behind)
	edgings(k, edging{panelParts, "", behind, behind, "", ""}, allRound("cover", "", behind))
	press(k)
	return k
}

// corniceRun is how the cloth of a cornice is run. Where it is not said, plain cloth that
// is wide enough is turned, so that there is no join.
func corniceRun(it *ws.Item) string {
	switch stated := it.Word("run stated"); {
	case stated != "":
		return stated
	case it.Word("nap") == "one way" || it.Has("face repeat"), it.Has("cover across") && it.Face != nil && it.Length("cover across") > it.Face.Washed:
		return "across"
	}
	return "along"
}
