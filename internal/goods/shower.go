package goods

import (
	"cutgate/internal/length"
	ws "cutgate/internal/worksheet"
)

// showerCurtain is a flat hanging of joined pieces, with holes along its top.
func showerCurtain() *ws.Kind {
	across := panel{across: string(ws.FinishedWidth), takes: "side hem", turn: "sides turn", folds: "sides folds", called: "side hem"}
	k := &ws.Kind{
		Name: "shower curtain", Fitted: []string{"hangs", "flat", "over a tub"},
		Roles: []ws.Role{{Name: "face", Field: "cloth"}},
		Setup: func(it *ws.Item) {
			h := &it.Order.Hems
			it.Top, it.Bottom, it.Sides = it.HemOf(&h.Top, "top", ""), it.HemOf(&h.Bottom, "bottom", ""), it.HemOf(&h.Sides, "sides", "")
			seamOf(it)
		},
	}
	cloth(k, "face")
	hem(k, "top", "hems.top", "top hem", "top hem's", func(it *ws.Item) *ws.Hem { return &it.Top })
	hem(k, "bottom", "hems.bottom", "bottom hem", "bottom hem's", func(it *ws.Item) *ws.Hem { return &it.Bottom })
	hem(k, "sides", "hems.sides", "side hem", "side hems'", func(it *ws.Item) *ws.Hem { return &it.Sides })
	seam(k)
	sizes(k)
	k.Steps = append(k.Steps,
		ws.Step{Term: string(ws.FinishedWidth), Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Finished.Width, ws.LengthOf) }, Reads: []string{"finished width stated"}, Ends: true},
		ws.Step{Term: string(ws.FinishedLength), Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Finished.Length, ws.LengthOf) }, Reads: []string{"finished length stated"}, Ends: true})
	cut(k, "", "face", ws.CutLength, talmadge, run{sum: "{finished length} + {top hem} + {bottom hem}", slips: faceSlips("top hem")})
	usable(k, "", "", "face", "finished width")
	flatPanel(k, across)
	holes(k, string(ws.FinishedWidth), "", "", holeSource)
	edges(k, "rod.above_floor", func(it *ws.Item) length.Length {
		if h := &it.Order.Holes; h.FromTop.Set { // the top edge stands above the eye of the rings
			return max(0, h.FromTop.Value-h.Bore.Value/2)
		}
		return 0
	}, "holes.from_top", "holes.bore")
	k.Steps = append(k.Steps, footGap)
	hanging(k, true)
	sewing(k)
	press(k)
	k.Unlikely = oddHoles
	k.Finish = func(it *ws.Item) {
		it.Joined = across.joins(it)
		punch(it)
	}
	return k
}

// sizes are the finished sizes as they are stated.
func sizes(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "finished width stated", Name: "finished width", From: []string{"finished.width"}, Choice: &ws.Choosing{Low: in(16 * 6), High: in(16 * 400), Swap: "finished length stated", Ordered: true, Size: true}},
		ws.Given{Term: "finished length stated", Name: "finished length", From: []string{"finished.length"}, Choice: &ws.Choosing{Low: in(16 * 6), High: in(16 * 200), Swap: "finished width stated", Ordered: true, Size: true}})
}

// faceSlips are the slips of a face's cut length, whose top takes what that term says.
func faceSlips(top string) []ws.Slipping {
	f := "{finished length}"
	list := []ws.Slipping{
		{When: "bottom folds, {bottom folds} = 2", Name: "the bottom hem was counted once, not twice", Formula: f + " + {" + top + "} + {bottom turn}"},
		{When: "bottom folds, {bottom folds} = 3", Name: "the bottom hem was counted once, not three times", Formula: f + " + {" + top + "} + {bottom turn}"},
	}
	if top == "top hem" {
		list = append(list,
			ws.Slipping{When: "top turn", Name: "the top hem was counted once, not twice", Formula: f + " + {top turn} + {bottom hem}"},
			ws.Slipping{When: "top turn, bottom turn", Name: "both hems were counted once", Formula: f + " + {top turn} + {bottom turn}"})
	}
	return append(list,
		ws.Slipping{Name: "the bottom hem was left out", Formula: f + " + {" + top + "}"},
		ws.Slipping{Name: "the top was left out", Formula: f + " + {bottom hem}"},
		ws.Slipping{Name: "hems and heading were left out: this is the finished length", Formula: f},
		ws.Slipping{Name: "the bottom hem was added twice over", Formula: f + " + {" + top + "} + 2 × {bottom hem}"})
}
