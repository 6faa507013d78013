package goods

import (
	"cmp"
	"iter"
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/order"
	ws "cutgate/internal/worksheet"
)

// The rows that a kind is declared by, as a table of the trade has them.
type (
	// A choice is the term for it, the field that it is written in, what it is where
	// the order is silent, the range of sense, and what more is known of it.
	//
	// Otherwise is a size in inch orders and in metric ones, "1/2 in / 12 mm"; a number,
	// a word, or "= table width" for another choice; "" for a choice that is then not
	// there. Without a field it is an allowance of the trade's. More is "ordered" for
	// what a client orders, "copied" for what is read off a label or a ticket, "none"
	// for what nobody gets wrong, "swaps table length" for its neighbor.
	choice struct{ term, field, otherwise, between, more string }

	// A step is the term, when it is so, its formula, how it is rounded, and who says so.
	// Round is "up", "down" or "near" of a length, "whole" of a count, "share" of a plain
	// number; "hidden" after it is for what is only on the way.
	step struct{ term, when, formula, round, source string }

	// A piece is its name and role, its net size across and along the cloth, how many
	// there are in one of the item, and when there are any. Across may be "the cloth": a
	// width of it from selvedge to selvedge.
	piece struct{ name, role, across, along, count, when string }

	// An outcome is the term, the field that may state it, and how people round it.
	outcome struct {
		term, field string
		hand        ws.Hand
	}

	// A slip is the term that comes out wrong, how, and the wrong arithmetic.
	slip struct{ of, name, formula string }

	// A note is its label, when it holds, and what it says; terms in braces are printed.
	note struct{ name, when, text string }

	// A mark is a row of places along an edge: what they are, from where they are
	// measured, when, how many, and the place of number {k}.
	mark struct{ name, from, when, count, at string }
)

// misdeclared is the panic of a row that can't be read: a mistake in the program, but
// for a kind of a shop's own.
type misdeclared string

const (
	geometry = "plain arithmetic"
	ordered  = "ordered"
)

// choices adds what a kind is worked from.
func choices(k *ws.Kind, rows ...choice) {
	for _, r := range rows {
		g := ws.Given{Term: r.term, Name: ws.Spoken(r.term)}
		if of, stated := strings.CutSuffix(r.term, " stated"); stated {
			g.Name, g.Shown = cmp.Or(g.Name, of), of
		}
		if r.field != "" {
			sort, word, ok := ws.SortOf(r.field)
			if !ok {
				panic(misdeclared("the form has no field " + r.field))
			}
			g.From = []string{r.field}
			if word {
				if g.Usually = r.otherwise; g.Usually == "" {
					g.Usually = ws.Silent
				}
				k.Given = append(k.Given, g)
				continue
			}
			g.Sort = sort
		}
		if as, ok := strings.CutPrefix(r.otherwise, "= "); ok {
			g.As = as
		} else if name, ok := strings.CutPrefix(r.otherwise, "house "); ok {
			name, maybe := strings.CutSuffix(name, ", if any")
			get, ok := houses[name]
			if !ok {
				panic(misdeclared("a house has no " + name))
			}
			g.Sort, g.House = ws.Length, name
			g.Else = func(it *ws.Item) (ws.Value, bool) {
				if it.Sheet.Tables == nil { // asked for a page on the kind
					return ws.Value{}, false
				}
				l := get(it)
				return ws.LengthOf(l), l != 0 || !maybe
			}
		} else if r.otherwise != "" {
			v := silent(r.otherwise)
			if r.field == "" {
				g.Sort = v(ws.Ordinary).Sort
			}
			g.Else = func(it *ws.Item) (ws.Value, bool) {
				usual := v(systemOf(it))
				if g.Sort == ws.Ratio && usual.Sort == ws.Count { // a fullness of 2
					usual = ws.RatioOf(length.NewRatio(usual.N, 1))
				}
				return usual, true
			}
		}
		if r.field != "" && r.more != "none" {
			g.Choice = choosing(r, g.Sort)
		}
		k.Given = append(k.Given, g)
	}
}

// houses are the allowances of a house that choices take, by name.
var houses = map[string]func(*ws.Item) length.Length{
	"clearance":    func(it *ws.Item) length.Length { return it.Sheet.Tables.House.Clearance },
	"boxing_ease":  func(it *ws.Item) length.Length { return it.Sheet.Tables.House.BoxingEase },
	"zip_clear":    func(it *ws.Item) length.Length { return it.Sheet.Tables.House.ZipClear },
	"box_fold":     func(it *ws.Item) length.Length { return it.Sheet.Tables.House.BoxFold },
	"lap_limit":    func(it *ws.Item) length.Length { return it.Sheet.Tables.House.LapLimit },
	"duvet_ease":   func(it *ws.Item) length.Length { return it.Sheet.Tables.House.DuvetEase },
	"pillow_tuck":  func(it *ws.Item) length.Length { return it.Sheet.Tables.House.PillowTuck },
	"deck_inset":   func(it *ws.Item) length.Length { return it.Sheet.Tables.House.DeckInset },
	"corner_pleat": func(it *ws.Item) length.Length { return it.Sheet.Tables.House.CornerPleat },
}

func systemOf(it *ws.Item) ws.System {
	if it.Sheet.Unit.Metric() {
		return ws.Metric
	}
	return ws.Imperial
}

// silent is what a choice is where the order does not say it: a number, or a length
// in inches and in metric.
func silent(text string) func(ws.System) ws.Value {
	imperial, metric, two := strings.Cut(text, " / ")
	if !two {
		r, err := length.ParseRatio(text)
		if err != nil {
			panic(misdeclared(err.Error()))
		}
		v := ws.RatioOf(r)
		if r.Den <= 1 {
			v = ws.CountOf(r.Num)
		}
		return func(ws.System) ws.Value { return v }
	}
	inches, millimetres := size(imperial), size(metric)
	return func(s ws.System) ws.Value {
		if s == ws.Metric {
			return ws.LengthOf(millimetres)
		}
		return ws.LengthOf(inches)
	}
}

// size reads a length that has its unit.
func size(text string) length.Length {
	l, _, err := length.Parse(text, length.NoUnit)
	if err != nil {
		panic(misdeclared(err.Error()))
	}
	return l
}

// choosing is what is known of a choice as something that people write down.
func choosing(r choice, sort ws.Sort) *ws.Choosing {
	c := &ws.Choosing{}
	if low, high, ok := strings.Cut(r.between, " to "); ok {
		if sort == ws.Length {
			unit := high[strings.LastIndexByte(high, ' ')+1:]
			c.Low, c.High = size(low+" "+unit), size(high)
		} else if sort == ws.Count {
			c.Least, _ = strconv.ParseInt(low, 10, 64)
			c.Most, _ = strconv.ParseInt(high, 10, 64)
		}
	}
	for more := range strings.SplitSeq(r.more, ", ") {
		switch {
		case more == ordered:
			c.Ordered = true
		case more == "copied":
			c.Copied = true
		case strings.HasPrefix(more, "swaps "):
			c.Swap = strings.TrimPrefix(more, "swaps ")
		}
	}
	switch {
	case strings.HasSuffix(r.field, "turn"):
		c.Usual = usualTurns
	case strings.HasSuffix(r.field, "allowance"):
		c.Usual = usualAllowances
	case sort == ws.Length && r.otherwise != "" && r.otherwise[0] != '=' && !strings.HasPrefix(r.otherwise, "house "):
		c.Usual = strings.Split(r.otherwise, " / ")
	}
	return c
}

// steps adds steps of a kind.
func steps(k *ws.Kind, rows ...step) {
	for _, r := range rows {
		s := ws.Step{Term: r.term, When: r.when, Formula: r.formula, Source: r.source}
		round, hidden, _ := strings.Cut(r.round, ", ")
		s.Hidden = hidden == "hidden"
		switch round {
		case "up":
			s.Round = length.Up
		case "down":
			s.Round = length.Down
		case "near":
		case "whole":
			s.Sort = ws.Count
		case "share":
			s.Sort = ws.Ratio
		default:
			panic(misdeclared(r.term + " can't be rounded " + round))
		}
		s.Positive = s.Sort == ws.Length
		k.Steps = append(k.Steps, s)
	}
}

// mayBeNothing lets a length that was worked out be none at all.
func mayBeNothing(k *ws.Kind, term string) {
	for i := range k.Steps {
		if k.Steps[i].Term == term {
			k.Steps[i].Positive = false
		}
	}
}

// finished adds a finished size that is worked out when that is so, and is the
// maker's choice otherwise. Without a step it is always stated.
func finished(k *ws.Kind, side, between, swaps string, rows ...step) {
	term, field := "finished "+side, "finished."+side
	choices(k, choice{term + " stated", field, "", between, "ordered, swaps finished " + swaps + " stated"})
	k.Given[len(k.Given)-1].Choice.Size = true
	for i := range rows {
		rows[i].term = term
	}
	steps(k, rows...)
	k.Steps = append(k.Steps, ws.Step{Term: term, When: term + " stated", Formula: "{" + term + " stated}", Own: true, Ends: true, Source: "the order"})
	if len(rows) > 0 {
		outcomes(k, outcome{term, field, ws.Size})
	}
}

// pieces adds pieces: what each is cut to, through the shrinkage of its cloth, and
// what it takes of a cloth with a repeat. Rows of one name are one piece, cut by the
// first that is so.
func pieces(k *ws.Kind, rows ...piece) {
	for len(rows) > 0 {
		r := rows[0]
		same := 1
		for same < len(rows) && rows[same].name == r.name {
			same++
		}
		p := ws.Piecing{Name: r.name, Role: r.role, Width: r.name + " cut width", Length: r.name + " cut length", Count: r.name + " count", Takes: r.name + " takes"}
		for _, r := range rows[:same] {
			cutTo(k, p.Width, ws.CutWidth, r, r.across, r.role+" shrinkage across")
		}
		for _, r := range rows[:same] {
			cutTo(k, p.Length, ws.CutLength, r, r.along, r.role+" shrinkage")
		}
		repeat := r.role + " repeat"
		k.Steps = append(k.Steps, ws.Step{Term: p.Takes, When: repeat, Formula: "rounded up ({" + p.Length + "} ÷ {" + repeat + "}) × {" + repeat + "}", Hidden: true})
		for _, r := range rows[:same] {
			if n, err := strconv.ParseInt(r.count, 10, 64); err == nil {
				k.Steps = append(k.Steps, always(r.name, both(r.when, p.Width), n, p.Width))
			} else if r.count != "" { // otherwise it was worked out on the way
				k.Steps = append(k.Steps, ws.Step{Term: p.Count, Name: ws.PieceCount, Of: r.name, When: both(r.when, p.Width), Formula: r.count, Sort: ws.Count, Source: ws.Common})
			}
		}
		k.Pieces = append(k.Pieces, p)
		rows = rows[same:]
	}
}

// always is the count of a piece of which there are always so many.
func always(piece, when string, n int64, reads string) ws.Step {
	return ws.Step{Term: piece + " count", Name: ws.PieceCount, Of: piece, When: when, Sort: ws.Count, Reads: []string{reads},
		Work: func(*ws.Item) (ws.Result, bool) {
			return ws.Result{Value: ws.CountOf(n), Source: ws.Common}, true
		}}
}

// anywhere lets pieces be cut wherever the cloth has room: their motif does not count.
func anywhere(k *ws.Kind, names ...string) {
	for p := range piecesCalled(k, names) {
		p.Takes = ""
	}
}

// eitherWay says that pieces of a plain cloth may as well be cut the other way round.
func eitherWay(k *ws.Kind, names ...string) {
	for p := range piecesCalled(k, names) {
		p.Turns = func(it *ws.Item) bool { return plainCloth(it.Cloth(p.Role)) }
	}
}

// piecesCalled are the pieces of those names.
func piecesCalled(k *ws.Kind, names []string) iter.Seq[*ws.Piecing] {
	return func(yield func(*ws.Piecing) bool) {
		for i := range k.Pieces {
			if p := &k.Pieces[i]; slices.Contains(names, p.Name) && !yield(p) {
				return
			}
		}
	}
}

// motifs adds how the motifs of a printed cloth lie on pieces: all cut from the same point
// of it, which is usual, each with one in its middle, or as they come.
func motifs(k *ws.Kind, names ...string) {
	choices(k, choice{"motif", "motif", "match", "", ""})
	for p := range piecesCalled(k, names) {
		if p.Takes == "" {
			continue
		}
		for j := range k.Steps {
			if s := &k.Steps[j]; s.Term == p.Takes {
				s.When = both(s.When, "motif: match/center")
			}
		}
		p.Across = p.Name + " takes across"
		across := p.Role + " motif across"
		if given(k, across) == nil {
			choices(k, choice{across, "", "", "", ""})
			g := given(k, across)
			g.From = []string{p.Role + "/repeat.width"}
			g.Get = func(it *ws.Item) (ws.Value, bool) {
				if c := it.Cloth(p.Role); c != nil {
					return ws.LengthOf(c.Across), c.Across > 0
				}
				return ws.Value{}, false
			}
		}
		steps(k, step{p.Across, "motif: center, " + across, "rounded up ({" + p.Width + "} ÷ {" + across + "}) × {" + across + "}", "up, hidden", motifMiddle})
	}
}

const motifMiddle = "Crescent Upholstery, Cutting fabric for cushions, 2017: whole repeats, both ways of the cloth"

// rounder lets pieces be cut up to a rounder length: what is over is trimmed, or lies in
// a lap.
func rounder(k *ws.Kind, names ...string) {
	for p := range piecesCalled(k, names) {
		p.LengthAsRight = func(it *ws.Item) []length.Length {
			if c := it.Cloth(p.Role); c == nil || c.Repeat != 0 { // more than whole repeats is no rounding
				return nil
			}
			return it.Rounder(p.Length)
		}
	}
}

// cite names the source of the sizes of pieces.
func cite(k *ws.Kind, source string, names ...string) { citeWhen(k, "", source, names...) }

// citeWhen names the source of the sizes that pieces have where a guard holds.
func citeWhen(k *ws.Kind, guard, source string, names ...string) {
	for i := range k.Steps {
		if s := &k.Steps[i]; slices.Contains(names, s.Of) && strings.Contains(s.When, guard) && s.Source == ws.Common && (s.Name == ws.CutWidth || s.Name == ws.CutLength) {
			s.Source = source
		}
	}
}

// given is what a kind is given by that term; nil for none.
func given(k *ws.Kind, term string) *ws.Given {
	i := slices.IndexFunc(k.Given, func(g ws.Given) bool { return g.Term == term })
	if i < 0 {
		return nil
	}
	return &k.Given[i]
}

// stepOf is where the first step of a term stands among a kind's; -1 for none.
func stepOf(k *ws.Kind, term string) int {
	return slices.IndexFunc(k.Steps, func(s ws.Step) bool { return s.Term == term })
}

// called says how a choice of one kind is called where its term does not, and its usual
// values.
func called(k *ws.Kind, term, name string, usual ...string) {
	g := given(k, term)
	if name != "" {
		g.Name = name
	}
	if len(usual) > 0 {
		g.Choice.Usual = usual
	}
}

// byWords says which words the size of a hem goes by, beside its own fields.
func byWords(k *ws.Kind, hem string, fields ...string) {
	for _, term := range []string{hem + " hem", hem + " folds"} {
		i := slices.IndexFunc(k.Given, func(g ws.Given) bool { return g.Term == term })
		k.Given[i].From = append(slices.Clip(k.Given[i].From), fields...)
	}
}

// shownAs says how formulas show a choice.
func shownAs(k *ws.Kind, term, shown string) { given(k, term).Shown = shown }

// cutTo adds the step of a piece's cut size.
func cutTo(k *ws.Kind, term string, name ws.Name, r piece, net, shrunk string) {
	s := ws.Step{Term: term, Name: name, Of: r.name, When: r.when, Formula: net, Round: length.Up, Source: ws.Common, Positive: true}
	if net == "the cloth" {
		s.Formula, s.Round = "{"+r.role+" width}", length.Nearest
		k.Steps = append(k.Steps, s)
		return
	}
	before := s
	before.When, before.Formula, before.Source = both(r.when, shrunk), "("+net+") ÷ (1 - {"+shrunk+"})", dividing
	k.Steps = append(k.Steps, before, s)
	washedWrong(k, term, r.when, net, shrunk)
}

// outcomes adds what the form may state of what is worked out.
func outcomes(k *ws.Kind, rows ...outcome) {
	for _, r := range rows {
		k.Outcomes = append(k.Outcomes, ws.Outcome{Term: r.term, Field: r.field, Hand: r.hand})
	}
}

// slips adds slips. One in a piece's size is taken through the shrinkage of its cloth.
func slips(k *ws.Kind, rows ...slip) { slipsWhen(k, "", rows...) }

// slipsWhen adds slips that are made only when that is so.
func slipsWhen(k *ws.Kind, when string, rows ...slip) {
	for _, r := range rows {
		i := slices.IndexFunc(k.Pieces, func(p ws.Piecing) bool { return p.Width == r.of || p.Length == r.of })
		if i < 0 {
			k.Slips = append(k.Slips, ws.Slipping{Of: r.of, When: when, Name: r.name, Formula: r.formula})
			continue
		}
		shrunk := k.Pieces[i].Role + " shrinkage"
		if k.Pieces[i].Width == r.of {
			shrunk += " across"
		}
		k.Slips = append(k.Slips,
			ws.Slipping{Of: r.of, When: both(when, shrunk), Name: r.name, Formula: "(" + r.formula + ") ÷ (1 - {" + shrunk + "})"},
			ws.Slipping{Of: r.of, When: both(when, "no "+shrunk), Name: r.name, Formula: r.formula})
	}
}

// marks adds rows of places for the ticket.
func marks(k *ws.Kind, rows ...mark) { marksAs(k, ws.AsMade, rows...) }

// marksAs adds rows of places that are of use at a stage of the job.
func marksAs(k *ws.Kind, stage ws.Stage, rows ...mark) {
	for _, r := range rows {
		k.Marks = append(k.Marks, ws.Marking{Stage: stage, Name: r.name, From: r.from, When: r.when, Count: r.count, At: r.at})
	}
}

// stepsBefore adds steps before those of a term that a kind has already.
func stepsBefore(k *ws.Kind, term string, rows ...ws.Step) {
	k.Steps = slices.Insert(k.Steps, stepOf(k, term), rows...)
}

// notes adds lines for the ticket on how the item is made.
func notes(k *ws.Kind, rows ...note) { notesAs(k, ws.AsMade, rows...) }

// notesAs adds lines on what is done at a stage of the job.
func notesAs(k *ws.Kind, stage ws.Stage, rows ...note) {
	for _, r := range rows {
		k.Notes = append(k.Notes, ws.Noting{Stage: stage, Name: r.name, When: r.when, Text: r.text})
	}
}

// ownHem adds lines on a hem of which no more is known than what it takes, by that term:
// one that the form states, or else the usual one.
func ownHem(k *ws.Kind, takes string, rows ...note) {
	for _, r := range rows {
		when := both(r.when, "{"+takes+"} > 0")
		notesAs(k, ws.AsHemmed,
			note{r.name, both(when, takes+" stated"), r.text},
			note{r.name, both(when, "no "+takes+" stated"), r.text + " (usual hem, not stated)"})
	}
}

// hemCalled gives a hem that was added under one name the name that people know its edge by.
func hemCalled(k *ws.Kind, name, known string) {
	was, is := name+" hem", known+" hem"
	for i := range k.Hems {
		if h := &k.Hems[i]; h.Word == was {
			h.Word = is
		}
	}
	for i := range k.Given {
		g := &k.Given[i]
		if g.Name = strings.Replace(g.Name, was, is, 1); g.Term == was {
			g.Shown = is
		}
	}
	for i := range k.Steps {
		if s := &k.Steps[i]; s.Name == ws.HemTakes && s.Of == name {
			s.Of = known
		}
	}
}

// edge adds a hem that the form states in one field. Where it does not it is the
// shop's own, or else the usual one: what that turns, in inch orders and in metric
// ones, and how often.
func edge(k *ws.Kind, name, field, turn string, folds int64, of func(*ws.Item) (stated *order.Hem, made *ws.Hem)) {
	v := silent(turn)
	k.Setup = after(k.Setup, func(it *ws.Item) {
		stated, made := of(it)
		*made = it.HemOf(stated, name, "")
		made.Edge, made.Field = name, field
		switch {
		case stated.Set && !stated.Folds.Set && !stated.First.Set:
			made.Folds, made.Takes = folds, made.Turn.Mul(folds)
		case !stated.Set && !made.House:
			made.Turn, made.Folds, made.House = v(systemOf(it)).Length(), folds, true
			made.Takes = made.Turn.Mul(folds)
		}
	})
	called, first := strings.TrimSuffix(name, "s")+" hem", len(k.Given)
	hem(k, name, field, called, owner(called), func(it *ws.Item) *ws.Hem { _, made := of(it); return made })
	if folds == 1 {
		k.Given[first+1].Choice.Usual = []string{"1", "2"}
	}
	k.Given[first].Else = func(it *ws.Item) (ws.Value, bool) { // its turn
		if it.Order == nil {
			return v(systemOf(it)), true // asked of no order in particular
		}
		_, made := of(it)
		return ws.LengthOf(made.Turn), made.Turn > 0
	}
}

// after does one thing after another.
func after(a, b func(*ws.Item)) func(*ws.Item) {
	if a == nil {
		return b
	}
	return func(it *ws.Item) { a(it); b(it) }
}
