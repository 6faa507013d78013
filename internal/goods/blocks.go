package goods

import (
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

const (
	talmadge = "B. Talmadge, How to Calculate Yardage for Custom Draperies"
	dividing = "Dimensional stability (fabric), WikiSum: the rule of division"
	repeats  = "M.Y.L. Ltd., Commonly used formulas with examples"
	joined   = ws.Common + ": each join takes the allowance from both pieces"
)

// Usual sizes of hems and allowances, as people write them.
var (
	usualTurns      = []string{"1/2 in", "3/4 in", "1 in", "1 1/2 in", "2 in", "3 in", "4 in", "5 in", "12 mm", "15 mm", "2 cm", "2.5 cm", "3 cm", "4 cm", "5 cm", "7.5 cm", "8 cm", "10 cm", "12 cm", "12.5 cm", "15 cm"}
	usualAllowances = []string{"3/8 in", "1/2 in", "5/8 in", "3/4 in", "1 cm", "12 mm", "1.2 cm", "15 mm", "1.5 cm", "1.6 cm", "2 cm"}
	usualSelvedges  = []string{"1/4 in", "3/8 in", "1/2 in", "5/8 in", "3/4 in", "5 mm", "1 cm", "12 mm", "15 mm", "1.5 cm", "2 cm"}
	usualChains     = []string{"14 g/m", "25 g/m", "35 g/m", "50 g/m", "75 g/m", "100 g/m", "150 g/m", "200 g/m"} // from memory
	usualWidths     = []string{"36 in", "45 in", "48 in", "54 in", "55 in", "56 in", "57 in", "58 in", "60 in", "72 in", "90 in", "108 in", "118 in", "120 in", "122 cm", "130 cm", "137 cm", "138 cm", "140 cm", "145 cm", "150 cm", "160 cm", "180 cm", "200 cm", "240 cm", "260 cm", "280 cm", "300 cm"}
)

// hem adds the terms of a hem and what it takes of the cut. Of is its name in
// formulas, Called that of its choices.
func hem(k *ws.Kind, edge, from, of, called string, has func(*ws.Item) *ws.Hem) {
	turn, folds, first := edge+" turn", edge+" folds", edge+" first turn"
	word := of
	if of == "its hem" {
		word = edge + " hem"
	}
	k.Hems = append(k.Hems, ws.Hemming{Name: edge, Word: word, Of: has})
	widest := in(16 * 12)
	if edge == "sides" {
		widest = in(16 * 5)
	}
	k.Given = append(k.Given,
		ws.Given{Term: turn, Shown: "turn", Name: called + " turn", From: []string{from + ".turn"}, Choice: &ws.Choosing{Low: in(4), High: widest, Usual: usualTurns}},
		ws.Given{Term: folds, Shown: "folds", Name: called + " folds", Sort: ws.Count, From: []string{from + ".folds"},
			Get: func(it *ws.Item) (ws.Value, bool) {
				h := has(it)
				return ws.CountOf(h.Folds), h.Order.Set && (h.Folds > 0 || h.Turn > 0)
			},
			Choice: &ws.Choosing{Least: 1, Most: 3, Usual: []string{"2"}}},
		ws.Given{Term: first, Shown: "first turn", Name: called + " first turn", From: []string{from + ".first"}, Choice: &ws.Choosing{Low: in(2), High: in(16 * 6), Usual: usualTurns}},
		ws.Given{Term: of, From: []string{from + ".turn", from + ".folds", from + ".first"}, Get: func(it *ws.Item) (ws.Value, bool) { return ws.LengthOf(has(it).Takes), true }})
	takes := edge + " hem takes"
	k.Steps = append(k.Steps,
		ws.Step{Term: edge + " folds in all", Name: "folds", Formula: "the larger of (2, {" + folds + "})", Sort: ws.Count, Hidden: true},
		ws.Step{Term: takes, Name: ws.HemTakes, Of: edge, When: first, Formula: "{" + first + "} + {" + turn + "} × ({" + edge + " folds in all} - 1)", Source: ws.Common},
		ws.Step{Term: takes, Name: ws.HemTakes, Of: edge, Formula: "{" + turn + "} × {" + folds + "}", Source: talmadge})
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: takes, Field: from + ".allowance"})
	slips(k,
		slip{takes, "the turn was counted once", "{" + turn + "}"},
		slip{takes, "one fold was left out", "{" + takes + "} - {" + turn + "}"},
		slip{takes, "one fold too many was counted", "{" + takes + "} + {" + turn + "}"})
}

// hangingHems adds the hems of a hanging that the form states edge by edge.
func hangingHems(k *ws.Kind) {
	hem(k, "top", "hems.top", "top hem", "top hem's", func(it *ws.Item) *ws.Hem { return &it.Top })
	hem(k, "bottom", "hems.bottom", "bottom hem", "bottom hem's", func(it *ws.Item) *ws.Hem { return &it.Bottom })
	hem(k, "sides", "hems.sides", "side hem", "side hems'", func(it *ws.Item) *ws.Hem { return &it.Sides })
}

// owner is a name as the one that something belongs to: the lining's, the tie-backs'.
func owner(name string) string {
	if strings.HasSuffix(name, "s") {
		return name + "'"
	}
	return name + "'s"
}

// cloths adds the facts of the cloth of each role.
func cloths(k *ws.Kind) {
	for _, r := range k.Roles {
		cloth(k, r.Name)
	}
}

// cloth adds the facts of the cloth of a role, each under the role's name.
func cloth(k *ws.Kind, role string) {
	of := func(do func(c *ws.Cloth) (ws.Value, bool)) func(*ws.Item) (ws.Value, bool) {
		return func(it *ws.Item) (ws.Value, bool) {
			if c := it.Cloth(role); c != nil {
				return do(c)
			}
			return ws.Value{}, false
		}
	}
	long := func(l length.Length) (ws.Value, bool) { return ws.LengthOf(l), l > 0 }
	share := func(r length.Ratio) (ws.Value, bool) { return ws.PercentOf(r), !r.IsZero() && r.Cmp(one) < 0 }
	called := ""
	if role != "face" {
		called = owner(role) + " "
	}
	k.Given = append(k.Given,
		ws.Given{Term: role + " width", Shown: "cloth width", Name: called + "cloth width", From: []string{role + "/width"},
			Get:    of(func(c *ws.Cloth) (ws.Value, bool) { return long(c.Width) }),
			Choice: &ws.Choosing{Low: in(16 * 20), High: in(16 * 130), Usual: usualWidths, Copied: true}},
		ws.Given{Term: role + " washed width", Shown: "cloth width", From: []string{role + "/width", role + "/shrinks.width", role + "/washed"},
			Get: of(func(c *ws.Cloth) (ws.Value, bool) { return long(c.Washed) })},
		ws.Given{Term: role + " shrinkage", Shown: "shrinkage", Name: called + "shrinkage in length", Sort: ws.Percent, From: []string{role + "/shrinks.length", role + "/washed"},
			Get:    of(func(c *ws.Cloth) (ws.Value, bool) { along, _ := c.Shrinks(); return share(along) }),
			Choice: &ws.Choosing{Usual: []string{"1%", "2%", "3%", "4%", "5%"}, Swap: role + " shrinkage across", Copied: true}},
		ws.Given{Term: role + " shrinkage across", Shown: "shrinkage", Name: called + "shrinkage in width", Sort: ws.Percent, From: []string{role + "/shrinks.width", role + "/washed"},
			Get:    of(func(c *ws.Cloth) (ws.Value, bool) { _, across := c.Shrinks(); return share(across) }),
			Choice: &ws.Choosing{Usual: []string{"1%", "2%", "3%"}, Swap: role + " shrinkage", Copied: true}},
		ws.Given{Term: role + " repeat", Shown: "repeat", Name: called + "repeat", From: []string{role + "/repeat.length"},
			Get:    of(func(c *ws.Cloth) (ws.Value, bool) { return long(c.Repeat) }),
			Choice: &ws.Choosing{Low: in(2), High: in(16 * 50), Swap: role + " repeat across", Copied: true}},
		ws.Given{Term: role + " repeat across", Shown: "repeat across", Name: called + "repeat across", From: []string{role + "/repeat.width", role + "/repeat.match"},
			Get: of(func(c *ws.Cloth) (ws.Value, bool) {
				l := c.Across
				if !c.Order.Repeat.Match.Set {
					l = 0
				}
				return long(l)
			}), Choice: &ws.Choosing{Low: in(2), High: in(16 * 60), Swap: role + " repeat", Copied: true}},
		ws.Given{Term: role + " selvedge", Shown: "selvedge", Name: called + "selvedge", From: []string{role + "/selvedge"},
			Get:    of(func(c *ws.Cloth) (ws.Value, bool) { return long(c.Order.Selvedge.Value) }),
			Choice: &ws.Choosing{Low: in(2), High: in(16 * 2), Usual: usualSelvedges, Copied: true}},
		ws.Given{Term: role + " selvedge and cover", Shown: "selvedge and cover", From: []string{role + "/selvedge"}, Get: func(it *ws.Item) (ws.Value, bool) {
			c := it.Cloth(role)
			if c == nil || c.Order.Selvedge.Value <= 0 {
				return ws.Value{}, false
			}
			return ws.LengthOf(c.Order.Selvedge.Value + it.Sheet.Tables.House.SelvedgeCover), true
		}},
		ws.Given{Term: role + " weight", Shown: "cloth weight", Name: called + "cloth weight", Sort: ws.Areal, From: []string{role + "/weight"},
			Get: of(func(c *ws.Cloth) (ws.Value, bool) {
				return ws.ArealOf(c.Order.Weight.Value).In(c.Weighed), c.Order.Weight.Set
			}),
			Choice: &ws.Choosing{Copied: true}})
}

var one = length.NewRatio(1, 1)

// seam adds the allowance of a join, stated or as the kind of seam has it.
func seam(k *ws.Kind) {
	choices(k, choice{"seam slack", "", "1/16 in / 1 mm", "", ""})
	k.Given = append(k.Given, ws.Given{Term: "seam allowance", From: []string{"join.allowance", "join.seam"},
		Get:    func(it *ws.Item) (ws.Value, bool) { return ws.LengthOf(it.Allowance), true },
		Choice: &ws.Choosing{Low: in(4), High: in(24), Usual: usualAllowances}},
		ws.Given{Term: "least seam allowance", From: []string{"join.seam"}, Get: func(it *ws.Item) (ws.Value, bool) {
			if it.Seam == nil {
				return ws.Value{}, false
			}
			return ws.LengthOf(it.Seam.Least), true
		}},
		ws.Given{Term: "seam allowance stated", From: []string{"join.allowance"}, Word: func(it *ws.Item) string {
			if it.Order.Join.Allowance.Set {
				return "yes"
			}
			return ""
		}})
}

// seamOf takes the kind of seam and its allowance, stated or the house's.
func seamOf(it *ws.Item) {
	j := &it.Order.Join
	it.Seam = it.Sheet.Tables.Seam(ws.Or(j.Seam, "plain"))
	if it.Seam != nil {
		it.Allowance = it.Seam.Usual
	}
	it.Allowance = ws.Or(j.Allowance, it.Allowance)
}

// A run is what lies in a cut down the cloth, with the slips of its own arithmetic.
type run struct {
	when  string // the guard under which it is so
	sum   string
	slips []ws.Slipping // Of is left out
}

// cut adds the length to cut of one cloth from what lies in it: shrinkage first,
// then up to whole repeats. Before is put before the names of its steps.
func cut(k *ws.Kind, before, role string, name ws.Name, source string, runs ...run) {
	raw, count, spare := before+string(ws.RawCut), before+string(ws.Repeats), before+string(ws.WastePerCut)
	shrunk, repeat := role+" shrinkage", role+" repeat"
	for _, s := range []struct {
		term  string
		name  ws.Name
		when  string
		whole bool
	}{{raw, ws.RawCut, repeat, false}, {count, "", "", true}, {string(name), name, "no " + repeat, false}} {
		if s.whole {
			k.Steps = append(k.Steps,
				ws.Step{Term: count, Name: ws.Repeats, Formula: "rounded up ({" + raw + "} ÷ {" + repeat + "})", Sort: ws.Count, Round: length.Up, Source: repeats},
				ws.Step{Term: string(name), Name: name, When: repeat, Formula: "{" + count + "} × {" + repeat + "}", Round: length.Up, Source: repeats})
			continue
		}
		for _, r := range runs {
			guard := both(s.when, r.when)
			k.Steps = append(k.Steps,
				ws.Step{Term: s.term, Name: s.name, When: both(guard, shrunk), Formula: "(" + r.sum + ") ÷ (1 - {" + shrunk + "})", Round: length.Up, Source: dividing, Positive: true},
				ws.Step{Term: s.term, Name: s.name, When: guard, Formula: r.sum, Round: length.Up, Source: source, Positive: true})
		}
	}
	k.Steps = append(k.Steps, ws.Step{Term: spare, Name: ws.WastePerCut, Formula: "{" + string(name) + "} - {" + raw + "}", Source: ws.Common, Plain: true})
	for _, r := range runs {
		for _, s := range r.slips {
			through(k, string(name), shrunk, repeat, both(r.when, s.When), s.Name, s.Formula)
		}
		washedWrong(k, string(name), both(r.when, "no "+repeat), r.sum, shrunk)
		k.Slips = append(k.Slips,
			ws.Slipping{Of: string(name), When: both(r.when, repeat, shrunk), Name: multiplied, Formula: "rounded up ((" + r.sum + ") × (1 + {" + shrunk + "}) ÷ {" + repeat + "}) × {" + repeat + "}"},
			ws.Slipping{Of: string(name), When: both(r.when, repeat, shrunk), Name: leftOut, Formula: "rounded up ((" + r.sum + ") ÷ {" + repeat + "}) × {" + repeat + "}"})
	}
	unit := func(it *ws.Item) []ws.Slipped {
		return []ws.Slipped{{Name: "the number of repeats was written as the length", Value: ws.LengthOf(it.Sheet.Unit.Length().Mul(it.Count(count)))}}
	}
	k.Slips = append(k.Slips,
		ws.Slipping{Of: string(name), When: repeat, Name: "the pattern repeat was ignored", Formula: "{" + raw + "}"},
		ws.Slipping{Of: string(name), When: repeat, Name: "a repeat was added; the cut should be rounded up to whole repeats", Formula: "{" + raw + "} + {" + repeat + "}"},
		ws.Slipping{Of: string(name), When: repeat, Name: "a repeat was added to whole repeats", Leaps: true, Formula: "({" + count + "} + 1) × {" + repeat + "}"},
		ws.Slipping{Of: string(name), When: repeat, Name: "the repeats were rounded down", Leaps: true, Formula: "({" + count + "} - 1) × {" + repeat + "}"},
		ws.Slipping{Of: string(name), When: count, Work: unit})
}

// What goes wrong with the shrinkage of a cut.
const (
	multiplied = "the cut was multiplied by (1 + shrinkage); it should be divided by (1 - shrinkage)"
	leftOut    = "the shrinkage was left out"
)

// washedWrong adds those slips for a size to cut, by what lies in it.
func washedWrong(k *ws.Kind, of, when, sum, shrunk string) {
	k.Slips = append(k.Slips,
		ws.Slipping{Of: of, When: both(when, shrunk), Name: multiplied, Formula: "(" + sum + ") × (1 + {" + shrunk + "})"},
		ws.Slipping{Of: of, When: both(when, shrunk), Name: leftOut, Formula: sum})
}

// through adds a slip in what lies in a cut, taken through shrinkage and repeat.
func through(k *ws.Kind, of, shrunk, repeat, when, name, sum string) {
	over := " ÷ (1 - {" + shrunk + "})"
	k.Slips = append(k.Slips,
		ws.Slipping{Of: of, Name: name, When: both(when, "no "+repeat, shrunk), Formula: "(" + sum + ")" + over},
		ws.Slipping{Of: of, Name: name, When: both(when, "no "+repeat, "no "+shrunk), Formula: sum},
		ws.Slipping{Of: of, Name: name, When: both(when, repeat, shrunk), Formula: "rounded up ((" + sum + ")" + over + " ÷ {" + repeat + "}) × {" + repeat + "}"},
		ws.Slipping{Of: of, Name: name, When: both(when, repeat, "no "+shrunk), Formula: "rounded up ((" + sum + ") ÷ {" + repeat + "}) × {" + repeat + "}"},
		ws.Slipping{Of: of, Name: name + ", and the repeat was ignored", Two: true, When: both(when, repeat, shrunk), Formula: "(" + sum + ")" + over},
		ws.Slipping{Of: of, Name: name + ", and the repeat was ignored", Two: true, When: both(when, repeat, "no "+shrunk), Formula: sum})
}

// both joins guards.
func both(guards ...string) string {
	return strings.Join(slices.DeleteFunc(guards, func(g string) bool { return g == "" }), ", ")
}

// usable adds what a width of a cloth gives between two joins: less the allowances,
// or the selvedges where those are wider, and whole repeats from selvedge to selvedge
// where the pattern is to match and would not of itself. A mill that prints a whole number
// of repeats across its cloth makes them meet at the selvedges; a join in any other
// cloth meets on the repeat only if the rest is cut away. What then goes into each side of
// a join is its match seam; repeats that leave too little for one can't meet. The repeat
// shrinks with the cloth.
func usable(k *ws.Kind, before, of, role, when string) {
	washed, cover, across, shrunk := role+" washed width", role+" selvedge and cover", role+" repeat across", role+" shrinkage across"
	margin, plain, n, repeat := before+"join margin", before+"usable before the match", before+"repeats across", before+"washed repeat across"
	whole := "rounded down (({" + role + " width} [- 2 × {" + role + " selvedge}]) ÷ {" + across + "})"
	k.Steps = append(k.Steps,
		ws.Step{Term: margin, Name: "seam allowance", When: both(cover, "{"+cover+"} > {seam allowance}"), Formula: "{" + cover + "}", Hidden: true},
		ws.Step{Term: margin, Name: "seam allowance", Formula: "{seam allowance}", Hidden: true},
		ws.Step{Term: plain, Formula: "{" + washed + "} - 2 × {" + margin + "}", Hidden: true, Positive: true},
		ws.Step{Term: n, Formula: whole, Sort: ws.Count, Hidden: true},
		ws.Step{Term: repeat, When: shrunk, Formula: "{" + across + "} × (1 - {" + shrunk + "})", Hidden: true},
		ws.Step{Term: repeat, Formula: "{" + across + "}", Hidden: true})
	match := both(plain, across, "{"+n+"} > 0", "{"+n+"} × {"+repeat+"} ≠ {"+plain+"}", "({"+n+"} + 1) × {"+repeat+"} > {"+washed+"}", "{"+washed+"} - {"+n+"} × {"+repeat+"} ≥ 2 × {least seam allowance}")
	wider := both(cover, "{"+cover+"} > {seam allowance}")
	step := func(when, formula string) ws.Step {
		return ws.Step{Term: before + string(ws.UsableWidth), Name: ws.UsableWidth, Of: of, When: when, Formula: formula, Source: ws.Common, Positive: true}
	}
	k.Steps = append(k.Steps,
		step(both(when, match, shrunk), whole+" × {"+across+"} × (1 - {"+shrunk+"})"),
		step(both(when, match), whole+" × {"+across+"}"),
		step(both(when, wider), "{"+washed+"} - 2 × {"+cover+"}"), step(when, "{"+washed+"} - 2 × {seam allowance}"),
		ws.Step{Term: before + "match seam", When: both(when, match), Formula: "({" + washed + "} - {" + before + string(ws.UsableWidth) + "}) ÷ 2", Hidden: true})
}

// unwashed adds what a width comes to on cloth of a role that is not washed yet, and
// returns its term.
func unwashed(k *ws.Kind, role, width string) string {
	term, shrunk := width+" before the wash", role+" shrinkage across"
	k.Steps = append(k.Steps,
		ws.Step{Term: term, When: shrunk, Formula: "{" + width + "} ÷ (1 - {" + shrunk + "})", Hidden: true},
		ws.Step{Term: term, Formula: "{" + width + "}", Hidden: true})
	return "{" + term + "}"
}

// asJoined is the term for what widths that are joined side by side come to.
const asJoined = "flat made"

// widthsIn is the formula of how many widths of a cloth make a flat width. Their two
// outer edges are not joined, so they give their allowance back.
func widthsIn(before, role, flat string) string {
	return "({" + flat + "} - {" + role + " washed width}) ÷ {" + before + string(ws.UsableWidth) + "} + 1"
}

// widthsJoined adds the widths of the face that are joined side by side for gathers
// and pleats, up to whole ones, and what they come to. Flat is the term for what they
// must make. Where it is gathered, by that guard, a maker may take a little less. Rows
// are taken before its own of the same term.
func widthsJoined(k *ws.Kind, flat, gathered string, rows ...ws.Step) {
	exact := string(ws.WidthsExact)
	own := []ws.Step{
		{Term: exact, When: "usable width", Formula: widthsIn("", "face", flat), Sort: ws.Ratio, Source: geometry},
		{Term: "may be scant", When: gathered, Formula: "1", Sort: ws.Count, Hidden: true},
		{Term: string(ws.Widths), When: exact, Work: widthsTaken, Reads: []string{exact, "may be scant", "face width"}, Sort: ws.Ratio, Belief: true},
		{Term: string(ws.Widths), When: "{" + exact + "} ≤ 0", Formula: "1", Sort: ws.Ratio, Source: wholeHalf},
		{Term: string(ws.Widths), When: exact, Formula: "rounded up ({" + exact + "})", Sort: ws.Ratio, Source: wholeHalf},
		{Term: "joins", Formula: "rounded up ({widths}) - 1", Sort: ws.Count, Hidden: true},
		{Term: "joined", Formula: "{joins} + 1", Sort: ws.Count, Hidden: true},
		{Term: asJoined, Name: "width as joined", Formula: "{widths} × {face washed width} - {joins} × ({face washed width} - {usable width})", Source: joined},
	}
	for i, s := range own {
		if i == 0 || own[i-1].Term != s.Term {
			for _, r := range rows {
				if r.Term == s.Term {
					k.Steps = append(k.Steps, r)
				}
			}
		}
		k.Steps = append(k.Steps, s)
	}
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: string(ws.Widths), Field: "widths"})
	miscounted(k, string(ws.Widths))
}

// flatStated adds the flat width as what the form may state. What the joined widths come to
// is as right.
func flatStated(k *ws.Kind) {
	flat := string(ws.FlatWidth)
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: flat, Field: "flat_width", Hand: ws.Loose,
		AsRight: func(it *ws.Item) []length.Length { return append(it.Rounder(flat), it.Length(asJoined)) }})
}

// widthsTaken is the maker's number of widths, where the cuts don't say otherwise: a
// half one in place of a whole, of which the rest is left over, or a little less than
// is asked for, where it may be.
func widthsTaken(it *ws.Item) (ws.Result, bool) {
	stated, exact, taken := it.Order.Widths, it.Ratio(string(ws.WidthsExact)), it.Order.Widths.Value
	res, _ := as(&stated, ws.RatioOf)
	little := func(n length.Ratio) bool { return it.Has("may be scant") && scant(it.Sheet, exact, n) }
	n := cutCount(it, "width", it.Face)
	differ := n != 0 && (!stated.Set || n != taken.Int(length.Up))
	if differ { // the one of them that goes with the cloth is taken
		cuts := length.NewRatio(n, 1)
		if n == max(1, exact.Int(length.Up)) {
			return res, false
		}
		if little(cuts) {
			return ws.Result{Value: ws.RatioOf(cuts), Source: "the order"}, true
		}
	}
	if !stated.Set || taken.Num < 1 || taken.Den > 2 {
		return ws.Result{}, false
	}
	half := taken.Den == 2 && taken.Cmp(exact) >= 0 && taken.Int(length.Up) == max(1, exact.Int(length.Up))
	return res, half && !differ || little(taken)
}

// joinedTo is what so many widths of the face come to, joined side by side.
func joinedTo(it *ws.Item, widths int64) length.Length {
	return it.Length("face washed width") + it.Length(string(ws.UsableWidth)).Mul(widths-1)
}

// widthPiece adds the lengths to cut of one cloth as a piece: its widths, up to whole
// ones.
func widthPiece(k *ws.Kind, piece, role, long, widths string, wide, longer func(*ws.Item) []length.Length) *ws.Piecing {
	width, spare := piece+" cut width", string(ws.WastePerCut)
	if role != "face" {
		spare = piece + " " + spare
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: width, Name: ws.CutWidth, Of: piece, When: "{" + widths + "} > 0", Formula: "{" + role + " width}", Source: ws.Common},
		ws.Step{Term: piece + " count", Name: ws.PieceCount, Of: piece, When: width, Formula: "rounded up ({" + widths + "})", Sort: ws.Count, Round: length.Up, Source: "Contract Decor, Calculating Drapery Yardage: whole lengths are cut"})
	k.Pieces = append(k.Pieces, ws.Piecing{Name: piece, Role: role, Width: width, Length: long, Count: piece + " count", Joined: "joined", Widths: piece != "width", Spare: spare,
		WidthAsRight: wide, LengthAsRight: func(it *ws.Item) (list []length.Length) {
			if longer != nil {
				list = longer(it)
			}
			if it.Cloth(role).Repeat == 0 { // more than whole repeats is no rounding
				list = append(list, it.Rounder(long)...)
			}
			return list
		}})
	miscounted(k, piece+" count")
	k.Slips = append(k.Slips, ws.Slipping{Of: width, Name: "this is half; a width is split after it is cut to length", Formula: "{" + width + "} ÷ 2"})
	if role == "face" {
		k.Slips = append(k.Slips, ws.Slipping{Of: width, Name: "this is the usable width; the cloth is cut edge to edge", Formula: "{usable width}"})
	}
	return &k.Pieces[len(k.Pieces)-1]
}

// edges adds how far the top edge stands above what it hangs from, or below it,
// and from that how far the foot is off the floor.
func edges(k *ws.Kind, height string, drop func(*ws.Item) length.Length, from ...string) {
	k.Given = append(k.Given,
		ws.Given{Term: "top edge above it", From: from, Get: func(it *ws.Item) (ws.Value, bool) { d := drop(it); return ws.LengthOf(d), d > 0 }},
		ws.Given{Term: "top edge below it", From: from, Get: func(it *ws.Item) (ws.Value, bool) { d := drop(it); return ws.LengthOf(-d), d < 0 }},
		ws.Given{Term: "height above the floor", From: []string{height}, Choice: &ws.Choosing{Low: in(16 * 20), High: in(16 * 300)}})
}

// footGap is the step of how far the foot is off the floor.
var footGap = ws.Step{Term: string(ws.FootGap), Formula: "{height above the floor} [+ {top edge above it}] [- {top edge below it}] - {finished length}", Source: ws.Common}

// weightsLength is the term for a chain or a tape that weighs the foot all along.
const weightsLength = "length of the weights"

// A foot is how far the foot of a hanging runs with all its gathers, when that is so.
type foot struct{ when, along string }

// hanging adds the mass of the finished hanging and of its bottom hem, and the chain in it.
func hanging(k *ws.Kind, wet bool, feet ...foot) {
	if given(k, "weights kind") == nil {
		choices(k, choice{"weights kind", "weights.kind", "", "", ""})
	}
	for _, f := range feet {
		steps(k, step{weightsLength, both("weights kind: chain/lead tape", f.when), f.along, "up", ws.Common})
	}
	as := func(it *ws.Item) ws.System { return it.Face.Weighed }
	k.Given = append(k.Given,
		ws.Given{Term: "chain", Name: "mass of the chain", Sort: ws.Linear, From: []string{"weights.mass"}, Choice: &ws.Choosing{Usual: usualChains, Copied: true},
			Get: func(it *ws.Item) (ws.Value, bool) {
				if it.Face == nil {
					return ws.Value{}, false
				}
				return ws.LinearOf(it.Order.Weights.Mass.Value).In(as(it)), it.Order.Weights.Mass.Set
			}},
		ws.Given{Term: "single weights", Shown: "weights", Sort: ws.Count, From: []string{"weights.count"}, Choice: &ws.Choosing{Least: 1, Most: 40}},
		ws.Given{Term: "each weight", Name: "mass of each weight", Shown: "each", Sort: ws.Mass, From: []string{"weights.each"}, Choice: &ws.Choosing{Copied: true}})
	hems := []string{"face weight", "bottom hem", "chain"}
	if given(k, "band depth") != nil {
		hems = append(hems, "band depth", "band weight")
	}
	k.Steps = append(k.Steps, ws.Step{Term: string(ws.HemMass), Work: hemMass, Reads: hems, Sort: ws.Linear, Source: ws.Common})
	weighed(k, "chain", "single weights", "each weight", weightsLength)
	if wet {
		k.Given = append(k.Given, ws.Given{Term: "wet", Sort: ws.Ratio, Get: func(it *ws.Item) (ws.Value, bool) {
			r := it.Sheet.Tables.House.WetFactor
			return ws.RatioOf(r), !r.IsZero()
		}})
		k.Steps = append(k.Steps, ws.Step{Term: string(ws.WetMass), Formula: "{hanging mass} × {wet}", Sort: ws.Mass, Source: ws.Common})
		slips(k, slip{string(ws.HangingMass), "this is the wet mass", "{hanging mass} × {wet}"})
	}
}

// weighed adds the mass of a hanging, of its pieces and of what else it reads.
func weighed(k *ws.Kind, reads ...string) {
	for _, r := range k.Roles {
		reads = append(reads, r.Name+" weight")
	}
	for _, p := range k.Pieces {
		reads = append(reads, terms(p.Width, p.Length, p.Count, p.Net, p.Sewn)...)
	}
	for _, of := range []string{string(ws.PanelWidth), string(ws.FinishedWidth), "weights"} {
		if stepOf(k, of) >= 0 {
			reads = append(reads, of)
		}
	}
	k.Steps = append(k.Steps, ws.Step{Term: string(ws.HangingMass), Work: hangingMass, Reads: reads, Sort: ws.Mass})
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: string(ws.HangingMass), Field: "hanging_mass", Hand: ws.Weighed})
	k.Slips = append(k.Slips, ws.Slipping{Of: string(ws.HangingMass), Work: massSlips})
}

func hemMass(it *ws.Item) (ws.Result, bool) {
	c, hem, weight := it.Face, it.Length("bottom hem"), "face weight"
	if it.Has("band depth") {
		c, weight = it.Cloth("band"), "band weight"
	}
	if c == nil || !c.Order.Weight.Set || hem <= 0 {
		return ws.Result{}, false
	}
	strip := c.Order.Weight.Value.Strip(hem)
	formula, terms := "{cloth weight} × {bottom hem}", []ws.Term{it.Plain(weight), it.Plain("bottom hem")}
	if it.Has("chain") {
		strip += it.Order.Weights.Mass.Value
		formula, terms = formula+" + {chain}", append(terms, it.Plain("chain"))
	}
	return ws.Result{Value: ws.LinearOf(strip).In(c.Weighed), Source: ws.Common, Formula: formula, Terms: terms}, true
}

func hangingMass(it *ws.Item) (ws.Result, bool) {
	c := it.Face
	if c == nil {
		return ws.Result{}, false
	}
	as := c.Weighed
	var total mass.Mass
	var formula string
	pieces := it.MadePieces()
	terms := make([]ws.Term, 0, 4*len(pieces)+2)
	for _, p := range pieces {
		if p.Cloth == nil || !p.Cloth.Order.Weight.Set || p.Length == nil {
			return ws.Result{}, false // a part of a weight would mislead
		}
		n, long := it.Sewn(&p)
		total += weighs(&p, n, long)
		if it.Sheet.Lean {
			continue
		}
		if formula != "" {
			formula += " + "
		}
		formula += "{" + ws.Plural(p.Name) + "} × {width} × {length} × {weight}"
		terms = append(terms, ws.RatioTerm(ws.Plural(p.Name), n), ws.Term{Name: "width", Value: p.Width.Value}, ws.LengthTerm("length", long), ws.Term{Name: "weight", Value: ws.ArealOf(p.Cloth.Order.Weight.Value).In(as)})
	}
	if total == 0 {
		return ws.Result{}, false
	}
	switch k := &it.Order.Weights; {
	case k.Mass.Set:
		foot := it.Length(string(ws.FinishedWidth))
		if it.Has(weightsLength) {
			foot = it.Length(weightsLength)
		}
		total += k.Mass.Value.Of(foot)
		formula += " + {chain} × {foot}"
		terms = append(terms, it.Plain("chain"), ws.LengthTerm("foot", foot))
	case k.Each.Set:
		n, ok := k.Count.Value, k.Count.Set
		if !ok {
			n, ok = it.Count("weights"), it.Has("weights")
		}
		if ok {
			total += k.Each.Value.Times(n)
			formula += " + {weights} × {each}"
			terms = append(terms, ws.CountTerm("weights", n), ws.Term{Name: "each", Value: ws.MassOf(k.Each.Value).In(as)})
		}
	}
	return ws.Result{Value: ws.MassOf(total).In(as), Source: "M.Y.L. Ltd., How to calculate drapery weight", Formula: formula, Terms: terms}, true
}

// weighs is the mass of so many pieces of a length; a half one is half of a mass.
func weighs(p *ws.Piece, n length.Ratio, long length.Length) mass.Mass {
	one := p.Cloth.Order.Weight.Value.Of(p.Width.Value.Length(), long)
	return one.Times(n.Num) / mass.Mass(max(1, n.Den))
}

func massSlips(it *ws.Item) (list []ws.Slipped) {
	total := it.Value(string(ws.HangingMass)).N
	for i := range it.Pieces {
		p := &it.Pieces[i]
		if len(it.Pieces) > 1 && p.Cloth != nil && p.Length != nil {
			n, long := it.Sewn(p)
			list = append(list, ws.Slipped{Name: "the " + p.Name + " was left out", Value: ws.MassOf(mass.Mass(total) - weighs(p, n, long))})
		}
	}
	more := mass.Mass(0)
	for i := range it.Pieces {
		p := &it.Pieces[i]
		if p.Cloth != nil && p.Length != nil {
			n, long := it.Sewn(p)
			more += weighs(p, length.NewRatio(p.Count.Value.N, 1), p.Length.Value.Length()) - weighs(p, n, long)
		}
	}
	if more > 0 {
		list = append(list, ws.Slipped{Name: "everything cut was weighed, not just what is sewn in", Value: ws.MassOf(mass.Mass(total) + more)})
	}
	if it.Panels > 1 {
		list = append(list, ws.Slipped{Name: "this is for one panel", Value: ws.MassOf(mass.Mass(total / it.Panels))})
	}
	return list
}

// sewing adds the thickest stack that the machine meets, and the thread of the
// joins and hems.
func sewing(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "thickness", Name: "cloth thickness", From: []string{"face/thickness"}, Choice: &ws.Choosing{Copied: true}},
		ws.Given{Term: "stitches to the inch", Sort: ws.Ratio, From: []string{"join.stitches"}},
		ws.Given{Term: "layers in the seam", Sort: ws.Count, From: []string{"join.seam"}, Get: func(it *ws.Item) (ws.Value, bool) {
			if it.Seam == nil {
				return ws.Value{}, false
			}
			return ws.CountOf(it.Seam.Layers), it.Seam.Layers > 0
		}},
		ws.Given{Term: "layers in the hem", Sort: ws.Count, From: []string{"hems.bottom"}, Get: func(it *ws.Item) (ws.Value, bool) {
			return ws.CountOf(it.Bottom.Folds + 1), it.Bottom.Takes > 0
		}})
	reads := []string{"thickness", "stitches to the inch", "layers in the seam", "joins", "finished length"}
	for _, run := range []string{"run", "lining run"} {
		if stepOf(k, run) >= 0 || given(k, run) != nil {
			reads = append(reads, run)
		}
	}
	for _, p := range k.Pieces {
		reads = append(reads, p.Width, p.Length, p.Count)
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: string(ws.SeamBulk), When: "{joins} > 0", Formula: "{layers in the seam} × {layers in the hem} × {thickness}", Source: ws.Common},
		ws.Step{Term: string(ws.Thread), Work: thread, Reads: reads, Round: length.Up})
}

// threaded adds the thread of goods whose seams and hems come to that formula.
func threaded(k *ws.Kind, seams string) {
	k.Given = append(k.Given,
		ws.Given{Term: "thickness", Name: "cloth thickness", From: []string{"face/thickness"}, Choice: &ws.Choosing{Copied: true}},
		ws.Given{Term: "stitches to the inch", Sort: ws.Ratio, From: []string{"join.stitches"}})
	steps(k, step{"seams sewn", "thickness, stitches to the inch", seams, "up, hidden", ws.Common})
	k.Steps = append(k.Steps, ws.Step{Term: string(ws.Thread), When: "seams sewn", Reads: []string{"seams sewn", "thickness", "stitches to the inch"}, Round: length.Up,
		Work: func(it *ws.Item) (ws.Result, bool) { return threadOf(it, it.Length("seams sewn")) }})
}

func thread(it *ws.Item) (ws.Result, bool) {
	along := it.Word("run") == "along" && it.Has("piece cut length")
	if it.Face == nil || !it.Has(string(ws.CutLength)) && !along {
		return ws.Result{}, false
	}
	rows := int64(1)
	if it.Seam != nil && it.Seam.Trim > 0 {
		rows = 2 // French and felled seams are sewn twice
	}
	seams := it.Length(string(ws.CutLength)).Mul(rows * it.Count("joins") * it.Panels)
	seams += it.Length(string(ws.FinishedLength)).Mul(2 * it.Panels) // the side hems
	for _, p := range it.MadePieces() {
		switch {
		case p.Name == "lining" && p.Length != nil: // its bottom hem and its sides
			wide, long := p.Width.Value.Length(), p.Length.Value.Length()
			if it.Word("lining run") == "along" {
				wide, long = long, wide
			}
			seams += wide.Mul(p.Count.Value.N) + long.Mul(2*it.Panels)
		case p.Role == "face":
			wide := p.Width.Value.Length()
			if along && p.Name == "piece" {
				wide = p.Length.Value.Length()
			}
			seams += wide.Mul(p.Count.Value.N) // the bottom hem
			if it.Top.Takes > 0 {
				seams += wide.Mul(p.Count.Value.N)
			}
		}
	}
	return threadOf(it, seams)
}

// threadOf is the thread of so much lockstitch through the face.
func threadOf(it *ws.Item, seams length.Length) (ws.Result, bool) {
	lock := it.Sheet.Tables.Stitch("301")
	if lock == nil || !it.Has("thickness") || !it.Has("stitches to the inch") {
		return ws.Result{}, false
	}
	inches, stitches := length.RatioOf(it.Length("thickness"), inch), it.Ratio("stitches to the inch")
	per := inches.Mul(length.NewRatio(2, 1)).Mul(stitches).Add(length.NewRatio(lock.Base, 1))
	waste := it.Sheet.Tables.House.ThreadWaste
	total := seams.MulRatio(per, length.Up).MulRatio(one.Add(waste), length.Up)
	return ws.Result{Value: ws.LengthOf(total), Source: lock.Source,
		Formula: "{seams and hems} × ({base} + 2 × {thickness in inches} × {stitches to the inch}) × (1 + {waste})",
		Terms: []ws.Term{ws.LengthTerm("seams and hems", seams), ws.CountTerm("base", lock.Base), ws.RatioTerm("thickness in inches", inches),
			ws.RatioTerm("stitches to the inch", stitches), ws.RatioTerm("waste", waste)}}, true
}

// press adds the hottest setting that every cloth of the item stands. There is none
// where one of them may not be ironed at all.
func press(k *ws.Kind) {
	var reads []string
	for _, r := range k.Roles {
		if r.Apart {
			continue
		}
		term := r.Name + " heat"
		reads = append(reads, term)
		name := "iron on the care label"
		if r.Name != "face" {
			name = "iron on the " + owner(r.Name) + " care label"
		}
		k.Given = append(k.Given, ws.Given{Term: term, Name: name, Sort: ws.Dots, From: []string{r.Name + "/fiber", r.Name + "/care.iron"},
			Choice: &ws.Choosing{Copied: true},
			Get: func(it *ws.Item) (ws.Value, bool) {
				c := it.Cloth(r.Name)
				if c == nil {
					return ws.Value{}, false
				}
				return ws.DotsOf(int64(c.Cap)), true
			}})
	}
	k.Steps = append(k.Steps, ws.Step{Term: string(ws.PressSetting), Work: pressSetting, Reads: reads, Sort: ws.Dots, Round: length.Down})
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: string(ws.PressSetting), Field: "press.setting",
		Unsure: func(it *ws.Item) bool { // where care label and fiber differ, either may be misread itself
			return slices.ContainsFunc(it.Sheet.ClothsOf(it), func(c *ws.Cloth) bool {
				iron := c.Order.Care.Iron
				return iron.Set && !iron.Value.None && c.Weakest != "" && it.Sheet.Dots(iron.Value) != int64(c.Cap)
			})
		},
		Fine: func(it *ws.Item, stated ws.Value) bool { return stated.N <= it.Value(string(ws.PressSetting)).N }})
}

func pressSetting(it *ws.Item) (ws.Result, bool) {
	cap, weakest, name := int64(0), "", ""
	for i, c := range it.Sheet.ClothsOf(it) {
		if c.NoIron() {
			return ws.Result{}, false
		}
		dots := it.Sheet.Stands(c)
		if dots > 0 && (cap == 0 || dots < cap) {
			cap, weakest, name = dots, c.Weakest, c.Name
			if dots != int64(c.Cap) {
				weakest = ""
			}
		}
		if i == 0 && cap == 0 {
			return ws.Result{}, false // a setting for the lining alone would mislead
		}
	}
	if cap == 0 {
		return ws.Result{}, false
	}
	says := "what " + weakest + " can take"
	if weakest == "" {
		says = "what the care label allows"
	}
	return ws.Result{Value: ws.DotsOf(cap), Of: name, Source: "ISO 3758:2012, from memory; iron symbols after GINETEX, DonnaD",
		Formula: "{" + says + "}", Terms: []ws.Term{{Name: says, Value: ws.DotsOf(cap)}}}, true
}

// as is a stated number taken as it stands.
func as[T any](leaf *order.Leaf[T], v func(T) ws.Value) (ws.Result, bool) {
	return ws.Result{Value: v(leaf.Value), Source: "the order"}, leaf.Set
}

// A spread is marks that are set out evenly along an edge: buttons, ties, rings. Its
// fields are terms, but for those that say otherwise.
type spread struct {
	marks, field    string // how many there are, and the field that may state it
	pitch, spacing  string // center to center, and the field that may state it
	run             string // the formula of the stretch that they share out
	whole           string // the edge that the stretch is a part of
	atEnds          bool   // the first and the last stand at its ends; otherwise there is nothing at the ends
	widest          string // the widest pitch that is wished
	when            string // the guard under which there are any
	counted, spaced string // sources
}

// spaced adds marks along an edge. A stated number of them is the maker's choice, and
// so is a stated spacing that comes out.
func spaced(k *ws.Kind, p spread) {
	stated, pitched := p.marks+" stated", p.pitch+" stated"
	least, more, spaces := int64(1), int64(-1), "{"+p.marks+"} + 1"
	if p.atEnds {
		least, more, spaces = 2, 1, "{"+p.marks+"} - 1"
	}
	k.Given = append(k.Given,
		ws.Given{Term: stated, Name: "number of " + p.marks, Sort: ws.Count, From: []string{p.field}},
		ws.Given{Term: pitched, From: []string{p.spacing}})
	run := p.pitch + " run"
	fewest, few := "rounded up (("+p.run+") ÷ {"+p.widest+"})", ""
	if p.atEnds {
		fewest += " + 1"
	} else {
		fewest += " - 1"
		few = "{" + run + "} ≤ {" + p.widest + "}" // there is one in the middle
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: run, Name: ws.Name(p.whole), When: p.when, Formula: p.run, Hidden: true, Positive: true},
		ws.Step{Term: p.marks, Ends: true, When: run + ", " + stated, Sort: ws.Count, Belief: true, Free: true, Reads: []string{stated},
			Work: func(it *ws.Item) (ws.Result, bool) {
				return ws.Result{Value: it.Value(stated), Source: "the order"}, it.Count(stated) >= least
			}},
		ws.Step{Term: p.marks, Ends: true, When: run + ", " + pitched, Sort: ws.Count, Reads: []string{run, pitched},
			Work: func(it *ws.Item) (ws.Result, bool) {
				n := fitting(it, it.Length(run), it.Length(pitched)) - 1
				return ws.Result{Value: ws.CountOf(n + more), Source: p.counted}, n > 0 && n+more >= least
			}},
		ws.Step{Term: p.marks, Ends: true, When: run, Formula: fewest, Sort: ws.Count, Source: p.counted},
		ws.Step{Term: p.pitch, When: p.marks, Formula: "(" + p.run + ") ÷ (" + spaces + ")", Source: p.spaced, Positive: true})
	if few != "" {
		at := len(k.Steps) - 2
		k.Steps = slices.Insert(k.Steps, at, ws.Step{Term: p.marks, Ends: true, When: run + ", " + few, Formula: "1", Sort: ws.Count, Source: p.counted})
	}
	k.Outcomes = append(k.Outcomes,
		ws.Outcome{Term: p.marks, Field: p.field},
		ws.Outcome{Term: p.pitch, Field: p.spacing, Hand: ws.Divided, Unsure: func(it *ws.Item) bool { return !it.Has(stated) }})
	slips(k,
		slip{p.pitch, "they were spaced over the whole width", "{" + p.whole + "} ÷ (" + spaces + ")"},
		slip{p.pitch, "it was divided by the number of " + p.marks + ", not of spaces", "{" + run + "} ÷ {" + p.marks + "}"})
	if p.atEnds {
		slips(k, slip{p.marks, "the spaces were counted instead of the " + p.marks + "; there is one more", "{" + p.marks + "} - 1"},
			slip{p.marks, "one too many was counted", "{" + p.marks + "} + 1"})
		return
	}
	slips(k, slip{p.marks, "the spaces were counted instead of the " + p.marks + "; there is one fewer", "{" + p.marks + "} + 1"},
		slip{p.marks, "one was left out", "{" + p.marks + "} - 1"})
}

const (
	pipingRound = "Sew Helpful, piped cushion: the round and 5 cm for its join"
	roundCord   = "published bias tables: round the cord, and a seam on both sides"
	biasArea    = "collected quilting tutorial, 2 in strips from squares: 11 to 17 percent is lost in joins"
	biasAcross  = "Upholsterers' forum, Bias welt: 76.4 in from selvedge to selvedge of 54"
	biasLines   = "Quilting Board, Too much math: the lines lie as far apart as the strip's diagonal"
	lapped      = "Ideal Home, Square envelope cushion; FashionSkool: the overlap is the backs without their hems, less the front"
)

// A piped edge is what piping goes along, how often, when that is so.
type piped struct {
	when  string
	times int
	run   string
}

// bias adds the piping of an item: its strip, how much of it there is, and the square
// that gives so much. The rounds are taken at the seam line.
func bias(k *ws.Kind, rounds ...piped) {
	choices(k,
		choice{"cord", "piping.cord", "", "1/8 to 3/4 in", ""},
		choice{"piping strip", "piping.strip", "", "1 to 4 in", ""},
		choice{"piping seam stated", "piping.allowance", "", "", "none"},
		choice{"piping seam", "piping.allowance", "1/2 in / 15 mm", "1/4 to 3/4 in", ""},
		choice{"mark", "", "1/16 in / 1 mm", "", ""},
		choice{"bias seam", "", "1/4 in / 6 mm", "", ""})
	called(k, "cord", "piping cord", "1/8 in", "3/16 in", "1/4 in", "3/8 in", "1/2 in", "3 mm", "4 mm", "5 mm", "6 mm", "8 mm", "10 mm")
	called(k, "piping strip", "", "1 1/2 in", "1 5/8 in", "1 3/4 in", "2 in", "2 1/2 in", "4 cm", "4.5 cm", "5 cm", "6 cm")
	called(k, "piping seam", "piping's allowance")
	k.Given = append(k.Given,
		ws.Given{Term: "piping join", From: []string{"piping.join"}, Choice: &ws.Choosing{Low: in(4), High: in(16 * 6), Usual: []string{"1 in", "2 in", "3 in", "3 cm", "5 cm", "8 cm"}},
			Get: func(it *ws.Item) (ws.Value, bool) {
				return ws.LengthOf(ws.Or(it.Order.Piping.Join, it.Sheet.Tables.House.PipingJoin)), true
			}},
		ws.Given{Term: "bias loss", Sort: ws.Ratio, Get: func(it *ws.Item) (ws.Value, bool) { return ws.RatioOf(it.Sheet.Tables.House.BiasLoss), true }})
	steps(k, step{"strip round the cord", "", "{cord} × π + 2 × {piping seam}", "up", roundCord})
	k.Steps = append(k.Steps,
		ws.Step{Term: "strip across", When: "piping strip", Work: func(it *ws.Item) (ws.Result, bool) { return as(&it.Order.Piping.Strip, ws.LengthOf) }, Reads: []string{"piping strip"}, Own: true})
	steps(k, step{"strip across", "", "rounded up ({strip round the cord} ÷ {mark}) × {mark}", "up", roundCord}) // it is cut so
	of := func(r piped, term string) string {
		if r.times == 1 {
			return "{" + term + "}"
		}
		return strconv.Itoa(r.times) + " × {" + term + "}"
	}
	for _, r := range rounds {
		steps(k, step{"piping run", r.when, of(r, r.run), "near, hidden", pipingRound})
	}
	for _, r := range rounds {
		steps(k, step{"piping rounds", r.when, strconv.Itoa(r.times), "whole, hidden", pipingRound})
	}
	for _, r := range rounds {
		steps(k, step{"piping length", both("strip across", r.when), of(r, r.run) + " + " + of(r, "piping join"), "up", pipingRound})
	}
	// The square is worked from the strip as it is round the cord. One for the strip as it is
	// cut is a little larger, and as right.
	const square = "square root ({piping length} × {strip across} ÷ (1 - {bias loss}))"
	exact := strings.Replace(square, "strip across", "strip round the cord", 1)
	steps(k,
		step{"square round the cord", "strip round the cord", exact, "up, hidden", biasArea},
		step{"bias square", "strip round the cord, no piping strip", exact, "up", biasArea},
		step{"bias square", "", square, "up", biasArea},
		step{"square to the mark", "strip round the cord, no piping strip", square, "up, hidden", biasArea},
		step{"longest strip", "piping length", "{piping washed width} × square root (2)", "down, hidden", biasAcross},
		step{"strip spacing", "piping length", "{strip across} × square root (2)", "near, hidden", biasLines},
		step{"strips", "", "rounded up ({piping length} ÷ ({longest strip} - 2 × {bias seam} × square root (2)))", "whole, hidden", geometry})
	outcomes(k,
		outcome{"strip across", "piping.strip", ws.Curved})
	k.Outcomes = append(k.Outcomes, ws.Outcome{Term: "bias square", Field: "piping.bias_square", Hand: ws.Curved,
		AsRight: func(it *ws.Item) []length.Length { return largerSquares(it, "bias square") }}, ws.Outcome{Term: "piping length", Field: "piping.length", Hand: ws.Run,
		Fine: func(it *ws.Item, stated ws.Value) bool { // up to a tenth over is a maker's reserve
			needed := it.Length("piping length")
			return stated.Length() > needed && stated.Length() <= needed+needed.Div(10, length.Down)
		}})
	notes(k, note{"piping", "strips", "one bias strip {strip across} wide: cut the square round and round; or cut at 45° from selvedge to selvedge, in lines {strip spacing} apart along the selvedge (strips: {strips})"})
	slips(k,
		slip{"strip across", "one seam was left out", "{cord} × π + {piping seam}"},
		slip{"strip across", "the seams were left out", "{cord} × π"},
		slip{"bias square", "it was worked out by area, with nothing for joins", "square root ({piping length} × {strip across})"})
	for _, r := range rounds {
		slipsWhen(k, r.when, slip{"piping length", "the joins were left out", of(r, r.run)})
		if r.times > 1 {
			slipsWhen(k, r.when,
				slip{"piping length", "one round was counted, not two", "{" + r.run + "} + {piping join}"},
				slip{"piping length", "one join was left out", of(r, r.run) + " + {piping join}"})
		}
	}
}

// biasSquare adds the piece that the piping is cut from.
func biasSquare(k *ws.Kind) {
	pieces(k, piece{"piping square", "piping", "{bias square}", "{bias square}", "1", ""})
	cite(k, biasArea, "piping square")
	anywhere(k, "piping square")
	for p := range piecesCalled(k, []string{"piping square"}) { // its two sides are as near as each other
		p.LengthHand = ws.Size
		p.WidthAsRight = func(it *ws.Item) []length.Length { return largerSquares(it, p.Width) }
		p.LengthAsRight = func(it *ws.Item) []length.Length { return largerSquares(it, p.Length) }
	}
}

// largerSquares are the sides of squares that give the piping as well as the one that term
// says: a rounder one, the one for the strip as it is cut, or as it is round the cord where it
// is stated as it is cut, and a rounder one than that.
func largerSquares(it *ws.Item, term string) []length.Length {
	list := it.Rounder(term)
	other := "square to the mark"
	if strip := it.Length("strip across") - it.Length("strip round the cord"); !it.Has(other) && strip >= 0 && strip < it.Step() {
		other = "square round the cord"
	}
	if it.Has(term) && it.Has(other) {
		list = append(list, it.Rounded(it.Length(other).MulRatio(length.RatioOf(it.Length(term), it.Length("bias square")), length.Up))...)
	}
	return list
}

// backs adds two backs that lap: the hem on the edges that lap, how far they lap, and
// the whole front that they close. Fronts are what the front is cut to along.
// Where the overlap is not said it is that of the backs as the order cuts them. An item
// that does not lap has no such hem.
func backs(k *ws.Kind, role string, laps func(*order.Item) bool, fronts ...run) {
	edge(k, "back", "closure.hem", "1 in / 25 mm", 2, func(it *ws.Item) (*order.Hem, *ws.Hem) { return &it.Order.Closure.Hem, &it.Sides })
	k.Setup = after(k.Setup, func(it *ws.Item) {
		if !laps(it.Order) {
			it.Sides.Takes = 0
		}
	})
	byWords(k, "back", "style", "closure.kind")
	choices(k,
		choice{"overlap stated", "closure.overlap", "", "3 to 10 in", ""},
		choice{"usual overlap", "", "4 in / 10 cm", "", ""},
		choice{"overlap least", "", "3 in / 8 cm", "", ""})
	called(k, "overlap stated", "overlap", "3 in", "4 in", "5 in", "6 in", "8 cm", "10 cm", "12 cm", "15 cm")
	k.Given = append(k.Given, ws.Given{Term: "backs run", From: []string{"run"}, Usually: "across"})
	for _, f := range fronts {
		steps(k, step{"front along", f.when, f.sum, "up, hidden", lapped})
	}
	k.Steps = append(k.Steps,
		ws.Step{Term: "overlap", When: "front along, overlap stated", Formula: "{overlap stated}", Own: true, Ends: true, Source: "the order"},
		ws.Step{Term: "overlap", When: "front along", Work: func(it *ws.Item) (ws.Result, bool) { return lapOfBacks(it, role) },
			Reads: []string{"front along", "back hem", "backs run", role + " shrinkage", role + " shrinkage across"}, Belief: true},
		ws.Step{Term: "overlap", When: "front along", Formula: "{usual overlap}", Source: ws.Common})
	outcomes(k, outcome{"overlap", "closure.overlap", ws.Size})
	slips(k, slip{"overlap", "this is each piece's overlap; together they overlap twice as far", "{overlap} ÷ 2"})
}

// eachBack is the formula of what one of two backs is cut to, by that of the front.
func eachBack(front string) string { return "(" + front + " + {overlap}) ÷ 2 + {back hem}" }

// lapOfBacks is how far the backs lap as the order cuts them.
func lapOfBacks(it *ws.Item, role string) (ws.Result, bool) {
	cut := it.StatedCut("back")
	if cut == nil {
		return ws.Result{}, false
	}
	leaf := &cut.Length
	var along, across length.Ratio
	if c := it.Cloth(role); c != nil {
		along, across = c.Shrinks()
	}
	if it.Order.Run.Value == "along" {
		leaf, along = &cut.Width, across
	}
	back := leaf.Value.MulRatio(one.Sub(along), length.Nearest)
	front, hem := it.Length("front along"), it.Length("back hem")
	lap := 2*(back-hem) - front
	if !leaf.Set || lap <= 0 || 2*lap > front {
		return ws.Result{}, false
	}
	return ws.Result{Value: ws.LengthOf(lap), Source: lapped, Formula: "2 × ({back} - {back hem}) - {front along}",
		Terms: []ws.Term{ws.LengthTerm("back", back), it.Plain("back hem"), it.Plain("front along")}}, true
}

// backSlips adds the slips of the size of each back, which lies along the cloth or,
// turned, across it.
func backSlips(k *ws.Kind, when, size string) {
	of := "back cut " + size
	slipsWhen(k, both(when, "front along"),
		slip{of, "the overlap was added to each piece", "{front along} ÷ 2 + {overlap} + {back hem}"},
		slip{of, "only half of the overlap was counted", "({front along} + {overlap} ÷ 2) ÷ 2 + {back hem}"},
		slip{of, "the backs only meet: the overlap was left out", "{front along} ÷ 2 + {back hem}"},
		slip{of, "the hem was left out", "({front along} + {overlap}) ÷ 2"})
	slipsWhen(k, both(when, "front along, {back folds} > 1"),
		slip{of, "the hem was counted once", "({front along} + {overlap}) ÷ 2 + {back turn}"})
}
