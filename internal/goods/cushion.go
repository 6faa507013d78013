package goods

import (
	"cutgate/internal/length"
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	boxedPlates = "Building Our Hive, Bench cushion: plates are the foam and two seams"
	boxedDepth  = "Building Our Hive, Bench cushion; Upholstery Resource, box cushion sewing"
	zipRound    = "Upholstery Resource, box cushion sewing: the zip runs past both back corners"
	bandRound   = "collected box cushion patterns: the band is the round less the zip strip"
	pipingRound = "Sew Helpful, piped cushion: the round and 5 cm for its join"
	roundCord   = "published bias tables: round the cord, and a seam on both sides"
	biasArea    = "collected quilting tutorial, 2 in strips from squares: 11 to 17 percent is lost in joins"
)

// cushionCover is a cover for a pad. Boxed ones are worked out: two plates, and round
// their edge a band, of which the part at the back is two strips with a zip between.
func cushionCover() *ws.Kind {
	k := &ws.Kind{
		Name:  "cushion cover",
		Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "piping", Field: "piping.cloth", Else: "face"}},
		Works: func(o *order.Item) bool { return o.Style.Value == "boxed" },
	}
	cloth(k, "face")
	cloth(k, "piping")
	allowance := func(term, name, from string, usual []string, high length.Length, get func(*ws.Item) length.Length) ws.Given {
		return ws.Given{Term: term, Name: name, From: []string{from}, Get: func(it *ws.Item) (ws.Value, bool) { return ws.LengthOf(get(it)), true },
			Choice: &ws.Choosing{Low: in(4), High: high, Usual: usual}}
	}
	pad := func(side, swap string, low, high int64) ws.Given {
		return ws.Given{Term: "pad " + side, From: []string{"pad." + side}, Choice: &ws.Choosing{Low: in(16 * low), High: in(16 * high), Swap: swap, Ordered: true}}
	}
	k.Given = append(k.Given,
		pad("width", "pad length", 6, 120), pad("length", "pad width", 6, 120), pad("depth", "", 1, 12),
		ws.Given{Term: "fit", From: []string{"fit"}, Word: func(it *ws.Item) string { return ws.Or(it.Order.Fit, it.Sheet.Tables.House.CushionFit) }},
		ws.Given{Term: "boxing run", From: []string{"boxing.run"}, Word: func(it *ws.Item) string { return ws.Or(it.Order.Boxing.Run, "across") }},
		ws.Given{Term: "boxing ease", From: []string{"boxing.ease"}, Choice: &ws.Choosing{High: in(16), Usual: []string{"1/4 in", "1/2 in", "3/4 in", "5 mm", "1 cm", "2 cm"}}},
		allowance("seam allowance", "", "allowance", usualAllowances, in(12), func(it *ws.Item) length.Length {
			return ws.Or(it.Order.Allowance, either(it, in(8), 15*length.Millimetre))
		}),
		allowance("zip corner", "zip past each corner", "zip.round_corner", []string{"4 in", "5 in", "6 in", "10 cm", "12 cm", "15 cm"}, in(16*8), func(it *ws.Item) length.Length {
			return ws.Or(it.Order.Zip.RoundCorner, either(it, in(16*4), 10*length.Centimetre))
		}),
		allowance("strip seam", "zip strip's allowance", "zip.strip_allowance", usualAllowances, in(16), func(it *ws.Item) length.Length {
			return ws.Or(it.Order.Zip.StripAllowance, either(it, in(12), 2*length.Centimetre))
		}),
		ws.Given{Term: "cord", Name: "piping cord", From: []string{"piping.cord"}, Choice: &ws.Choosing{Low: in(2), High: in(12), Usual: []string{"1/8 in", "3/16 in", "1/4 in", "3/8 in", "1/2 in", "3 mm", "4 mm", "5 mm", "6 mm", "8 mm", "10 mm"}}},
		ws.Given{Term: "piping strip", From: []string{"piping.strip"}, Choice: &ws.Choosing{Low: in(16), High: in(16 * 4), Usual: []string{"1 1/2 in", "1 5/8 in", "1 3/4 in", "2 in", "2 1/2 in", "4 cm", "4.5 cm", "5 cm", "6 cm"}}},
		allowance("piping seam", "piping's allowance", "piping.allowance", usualAllowances, in(12), func(it *ws.Item) length.Length {
			return ws.Or(it.Order.Piping.Allowance, either(it, in(8), 15*length.Millimetre))
		}),
		allowance("piping join", "", "piping.join", []string{"1 in", "2 in", "3 in", "3 cm", "5 cm", "8 cm"}, in(16*6), func(it *ws.Item) length.Length {
			house := it.Sheet.Tables.House.PipingJoin
			if house == 5*length.Centimetre { // as published; workrooms in inches take two
				house = either(it, in(32), house)
			}
			return ws.Or(it.Order.Piping.Join, house)
		}),
		ws.Given{Term: "bias loss", Sort: ws.Ratio, Get: func(it *ws.Item) (ws.Value, bool) { return ws.RatioOf(it.Sheet.Tables.House.BiasLoss), true }})

	step := func(term, when, formula string, round length.Rounding, source string) {
		k.Steps = append(k.Steps, ws.Step{Term: term, When: when, Formula: formula, Round: round, Source: source, Positive: true})
	}
	for _, side := range []string{"width", "length"} {
		step("finished "+side, "fit: tight", "{pad "+side+"} - 2 × {seam allowance}", length.Nearest, "collected box cushion patterns: cut to the pad's own size")
		step("finished "+side, "", "{pad "+side+"}", length.Nearest, boxedPlates)
	}
	step("perimeter", "", "2 × ({finished width} + {finished length})", length.Nearest, bandRound)
	step("boxing depth", "", "{pad depth} [- {boxing ease}] + 2 × {seam allowance}", length.Up, boxedDepth)
	step("zip length", "boxing depth", "{finished width} + 2 × {zip corner}", length.Down, zipRound)
	step("zip strip depth", "", "({boxing depth} + 2 × {strip seam}) ÷ 2", length.Up, boxedDepth)
	step("zip strip run", "", "{zip length} + 2 × {seam allowance}", length.Up, bandRound)
	step("boxing length", "", "{perimeter} - ({zip strip run} - 2 × {seam allowance}) + 2 × {seam allowance}", length.Up, bandRound)
	k.Steps = append(k.Steps, always("boxing", "boxing length, boxing run: along", 1, "boxing length"),
		ws.Step{Term: "boxing count", Name: ws.PieceCount, Of: "boxing", Sort: ws.Count, Source: ws.Common, Formula: "rounded up (({boxing length} - 2 × {seam allowance}) ÷ ({face washed width} [- 2 × {face selvedge}] - 2 × {seam allowance}))"})
	step("boxing each", "", "({boxing length} + 2 × {seam allowance} × ({boxing count} - 1)) ÷ {boxing count}", length.Up, joined)

	step("strip round the cord", "", "{cord} × π + 2 × {piping seam}", length.Up, roundCord)
	k.Steps = append(k.Steps,
		ws.Step{Term: "strip across", When: "piping strip", Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Piping.Strip, ws.LengthOf) }, Reads: []string{"piping strip"}, Own: true},
		ws.Step{Term: "strip across", Formula: "{strip round the cord}", Round: length.Up, Source: roundCord})
	step("piping length", "strip across", "2 × {perimeter} + 2 × {piping join}", length.Up, pipingRound)
	step("bias square", "", "square root ({piping length} × {strip across} ÷ (1 - {bias loss}))", length.Up, biasArea)

	piece := func(name, role, across, along, source string) {
		for _, of := range []struct {
			term, formula, shrunk string
			name                  ws.Name
		}{{name + " cut width", across, role + " shrinkage across", ws.CutWidth}, {name + " cut length", along, role + " shrinkage", ws.CutLength}} {
			// A band that runs along the cloth has its two sides changed about.
			rows := [][2]string{{"", of.formula}}
			if other := map[string]string{across: along, along: across}[of.formula]; name == "boxing" || name == "zip strip" {
				rows = [][2]string{{"boxing run: along", other}, {"", of.formula}}
			}
			for _, r := range rows {
				k.Steps = append(k.Steps,
					ws.Step{Term: of.term, Name: of.name, Of: name, When: both(r[0], of.shrunk), Formula: "(" + r[1] + ") ÷ (1 - {" + of.shrunk + "})", Round: length.Up, Source: dividing},
					ws.Step{Term: of.term, Name: of.name, Of: name, When: r[0], Formula: r[1], Round: length.Up, Source: source})
			}
		}
		p := ws.Piecing{Name: name, Role: role, Width: name + " cut width", Length: name + " cut length", Count: name + " count"}
		if name == "plate" { // its motif is centered, which costs whole repeats
			p.Takes = "plate takes"
			k.Steps = append(k.Steps, ws.Step{Term: p.Takes, When: "face repeat", Formula: "rounded up ({plate cut length} ÷ {face repeat}) × {face repeat}", Hidden: true})
		}
		k.Pieces = append(k.Pieces, p)
	}
	k.Steps = append(k.Steps, always("plate", "finished width, finished length", 2, "finished width"), always("zip strip", "zip strip run", 2, "zip strip run"),
		always("piping square", "bias square", 1, "bias square"))
	piece("plate", "face", "{finished width} + 2 × {seam allowance}", "{finished length} + 2 × {seam allowance}", boxedPlates)
	piece("boxing", "face", "{boxing each}", "{boxing depth}", boxedDepth)
	piece("zip strip", "face", "{zip strip run}", "{zip strip depth}", boxedDepth)
	piece("piping square", "piping", "{bias square}", "{bias square}", biasArea)

	k.Outcomes = append(k.Outcomes,
		ws.Outcome{Term: "zip length", Field: "zip.length", Hand: ws.Size, Fine: func(it *ws.Item, stated ws.Value) bool {
			most := it.Length("zip length") // a shorter zip goes in, as long as the pad does
			return stated.Length() <= most && stated.Length().Mul(4) >= most.Mul(3)
		}},
		ws.Outcome{Term: "strip across", Field: "piping.strip", Hand: ws.Curved},
		ws.Outcome{Term: "piping length", Field: "piping.length", Hand: ws.Run},
		ws.Outcome{Term: "bias square", Field: "piping.bias_square", Hand: ws.Curved})
	cushionSlips(k)
	press(k)
	return k
}

// always is the count of a piece of which there are always so many.
func always(piece, when string, n int64, reads string) ws.Step {
	return ws.Step{Term: piece + " count", Name: ws.PieceCount, Of: piece, When: when, Sort: ws.Count, Reads: []string{reads},
		Work: func(*ws.Item) (ws.Result, bool) {
			return ws.Result{Value: ws.CountOf(n), Source: ws.Common}, true
		}}
}

// either is a usual size in the order's own units.
func either(it *ws.Item, inches, metric length.Length) length.Length {
	if it.Sheet.Unit.Metric() {
		return metric
	}
	return inches
}

// cushionSlips are the slips of a boxed cover's own arithmetic.
func cushionSlips(k *ws.Kind) {
	add := func(of, name, formula string) {
		k.Slips = append(k.Slips, ws.Slipping{Of: of, Name: name, Formula: formula})
	}
	for _, side := range []string{"width", "length"} {
		of, f := "plate cut "+side, "{finished "+side+"}"
		add(of, "the allowance was added on one side only", f+" + {seam allowance}")
		add(of, "cut to the pad: the allowances are left out", f)
	}
	depth := func(of, when string) {
		k.Slips = append(k.Slips,
			ws.Slipping{Of: "boxing" + of, When: when, Name: "the allowance was added once", Formula: "{boxing depth} - {seam allowance}"},
			ws.Slipping{Of: "boxing" + of, When: when, Name: "the allowances were left out", Formula: "{boxing depth} - 2 × {seam allowance}"},
			ws.Slipping{Of: "zip strip" + of, When: when, Name: "half the boxing: nothing for the zip", Formula: "{boxing depth} ÷ 2"},
			ws.Slipping{Of: "zip strip" + of, When: when, Name: "the strip's own allowance was counted once", Formula: "({boxing depth} + {strip seam}) ÷ 2"},
			ws.Slipping{Of: "zip strip" + of, When: when, Name: "it was not halved: this is for both strips", Formula: "{boxing depth} + 2 × {strip seam}"})
	}
	long := func(of, when string) {
		round := func(name, length string) {
			k.Slips = append(k.Slips, ws.Slipping{Of: "boxing" + of, When: when, Name: name, Formula: "(" + length + " + 2 × {seam allowance} × ({boxing count} - 1)) ÷ {boxing count}"})
		}
		round("the zip strip was not taken off", "{perimeter} + 2 × {seam allowance}")
		round("the zip strip was taken off with its allowances", "{perimeter} - {zip strip run} + 2 × {seam allowance}")
		k.Slips = append(k.Slips,
			ws.Slipping{Of: "boxing" + of, When: when, Name: "the allowances of the joins were left out", Formula: "{boxing length} ÷ {boxing count}"},
			ws.Slipping{Of: "boxing" + of, When: when, Name: "it was not divided by the pieces", Formula: "{boxing length}"},
			ws.Slipping{Of: "zip strip" + of, When: when, Name: "the allowances were left out: this is the zip's length", Formula: "{zip length}"},
			ws.Slipping{Of: "zip strip" + of, When: when, Name: "the allowance was added on one end only", Formula: "{zip length} + {seam allowance}"})
	}
	long(" cut width", "boxing run: across")
	depth(" cut length", "boxing run: across")
	long(" cut length", "boxing run: along")
	depth(" cut width", "boxing run: along")
	add("zip length", "the corners were left out", "{finished width}")
	add("zip length", "one corner was left out", "{finished width} + {zip corner}")
	add("strip across", "one seam was left out", "{cord} × π + {piping seam}")
	add("strip across", "the seams were left out", "{cord} × π")
	add("piping length", "one round for two", "{perimeter} + {piping join}")
	add("piping length", "the joins were left out", "2 × {perimeter}")
	add("piping length", "one join was left out", "2 × {perimeter} + {piping join}")
	add("bias square", "by area: nothing was left for joins", "square root ({piping length} × {strip across})")
}
