package goods

import (
	"cutgate/internal/length"
	ws "cutgate/internal/worksheet"
)

const (
	pocketFlat = "98905 household articles, Rod pocket height"
	headerOver = "About.com sewing, Scallop valance: header, casing and a turn"
)

// headerPocketTurn is the formula of the cloth above the finished top that a rod
// pocket is made of.
const headerPocketTurn = "{pocket made} + {pocket turn} [+ {header}]"

// pocketSlips are those of a cut with a pocket at its top.
var pocketSlips = []ws.Slipping{
	{When: both(ofPocket, "header"), Name: "the header was left out", Formula: "{finished length} + {pocket made} + {pocket turn} + {bottom hem}"},
	{When: ofPocket, Name: "the pocket was left out", Formula: "{finished length} [+ {header}] + {pocket turn} + {bottom hem}"},
	{When: ofPocket, Name: "the turn under the pocket was left out", Formula: "{finished length} [+ {header}] + {pocket made} + {bottom hem}"},
}

// ofPocket is the guard for a cut whose top is worked out from the pocket's height.
const ofPocket = "pocket made, no heading allowance stated"

const pocketMade, pocketTurn = "pocket made", "pocket turn"

// rodPocket adds the height of a pocket for the rod of that term, where there is one, and
// the turn under it, which a plain cut may say.
func rodPocket(k *ws.Kind, when, rod, plain string) {
	choices(k,
		choice{"header", "heading.header", "", "1/4 to 8 in", ""},
		choice{"pocket height stated", "heading.pocket", "", "1/2 to 12 in", ""},
		choice{"pocket turn stated", "heading.turn", "", "1/4 to 1 in", ""},
		choice{"usual pocket turn", "", "1/2 in / 12 mm", "", ""})
	k.Given = append(k.Given, ws.Given{Term: "pocket ease", Shown: "ease", Name: "ease of the pocket", From: []string{"heading.ease"}, Get: func(it *ws.Item) (ws.Value, bool) {
		return ws.LengthOf(ws.Or(it.Order.Heading.Ease, it.Sheet.Tables.House.PocketEase)), true
	}, Choice: &ws.Choosing{Low: in(2), High: in(16 * 2), Usual: []string{"1/4 in", "1/2 in", "1 in", "1 cm", "12 mm", "1.2 cm"}}})
	of, measured := string(ws.PocketHeight), both(when, rod)
	rod = "{" + rod + "}"
	steps(k,
		step{of, measured, "(" + rod + " × π + {pocket ease}) ÷ 2", "up", pocketFlat},
		step{of, when + ", pocket height stated", "{pocket height stated}", "near", "the order"})
	k.Steps[len(k.Steps)-1].Own = true
	// A roomier pocket is a choice.
	steps(k,
		step{pocketMade, "pocket height, pocket height stated, {pocket height stated} > {pocket height}, {pocket height stated} ≤ 4 × {pocket height}", "{pocket height stated}", "near, hidden", "the order"},
		step{pocketMade, "", "{pocket height}", "near, hidden", pocketFlat},
		step{pocketTurn, "pocket turn stated", "{pocket turn stated}", "near, hidden", "the order"})
	k.Steps = append(k.Steps, ws.Step{Term: pocketTurn, When: both(plain, pocketMade), Work: turnLeft, Hidden: true, Belief: true,
		Reads: append([]string{pocketMade, "header", "usual pocket turn"}, leavesReads...)})
	steps(k, step{pocketTurn, "", "{usual pocket turn}", "near, hidden", ws.Common})
	fine := func(it *ws.Item, _ ws.Value) bool { return it.Length(pocketMade) > it.Length(of) }
	// One that is too tight may be meant to have any greater height, or to take a
	// thinner rod.
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: of, Field: "heading.pocket", Hand: ws.Curved, Fine: fine, Unsure: func(*ws.Item) bool { return true }})
	slips(k,
		slip{of, "the diameter was used as half the circumference", rod + " + {pocket ease}"},
		slip{of, "the diameter was used as half the circumference, with no ease", rod},
		slip{of, "the diameter and half the ease were used", rod + " + {pocket ease} ÷ 2"},
		slip{of, "the ease was left out", rod + " × π ÷ 2"},
		slip{of, "the whole circumference was used, not half", rod + " × π + {pocket ease}"})
}

// turnLeft is the turn under a pocket that the stated cut has room for.
func turnLeft(it *ws.Item) (ws.Result, bool) {
	return cutLeaves(it, it.Length("header")+it.Length(pocketMade), it.Length("usual pocket turn"))
}

// otherTurns are turns along the top that makers take beside the usual one.
var otherTurns = map[ws.System][]length.Length{
	ws.Imperial: {size("1/4 in"), size("3/8 in"), size("5/8 in"), size("3/4 in"), size("1 in")},
	ws.Metric:   {size("1 cm"), size("15 mm"), size("2 cm"), size("25 mm")},
}

// leavesReads are the terms that cutLeaves reads.
var leavesReads = []string{"finished length stated", "bottom hem", "face shrinkage", "face repeat"}

// cutLeaves is the turn along the top, in place of the usual one, that the stated cut has
// room for beside what else lies above the finished top.
func cutLeaves(it *ws.Item, above, usual length.Length) (ws.Result, bool) {
	c, finished := it.StatedCut("width"), it.Order.Finished.Length
	if c == nil || !c.Length.Set || !finished.Set {
		return ws.Result{}, false
	}
	fits := func(turn length.Length) bool {
		return ws.Near(c.Length.Value, it.Face.CutOf(finished.Value+above+turn+it.Bottom.Takes), it.Step())
	}
	if fits(usual) {
		return ws.Result{}, false
	}
	for _, turn := range otherTurns[systemOf(it)] {
		if fits(turn) {
			return ws.Result{Value: ws.LengthOf(turn), Source: "the order"}, true
		}
	}
	return ws.Result{}, false
}
