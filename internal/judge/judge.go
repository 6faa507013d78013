// Package judge measures how well the program finds and puts right what is wrong
// on an order: it makes clean orders, writes numbers of them down wrong, and
// looks at what the check finds and what the correction then writes.
//
// # Law
//
// The program is a closed box here. What is written wrong comes of what people
// do to any number, not of the program's own list of slips, and whether a mistake
// contradicts anything is settled by filling in the order's blanks anew, not by
// what the check says of it.
//
// # What it is not
//
// It holds nothing to be good enough: its tests and readers do.
package judge

import (
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/fix"
	"cutgate/internal/length"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

// A Subject is an order that mistakes are made in.
type Subject struct {
	checker *lint.Checker
	works   *lint.Checker // works out what stands there, and finds nothing
	file    *source.File
	format  load.Format
	metric  bool
	agree   *tolerance // how far its outcomes may be from what is worked out

	pass   *rule.Pass
	leaves []leaf
	paths  map[string]*leaf
	filled map[string]*leaf // with the outcomes as the program fills them in
	before map[string]bool  // what is found on it as it is
	alarms []string         // the rules that say more than a note of it as it is
	spoilt map[string]bool  // the right values that the correction changes as it is
}

// NewSubject checks an order as it is, a text with one order in it.
func NewSubject(checker *lint.Checker, f *source.File, format load.Format) (*Subject, error) {
	return newSubject(checker, f, format, &rounded)
}

func newSubject(checker *lint.Checker, f *source.File, format load.Format, agree *tolerance) (*Subject, error) {
	works := &lint.Checker{Loader: checker.Loader, Tables: checker.Tables, AsStated: true}
	s := &Subject{checker: checker, works: works, file: f, format: format, agree: agree, before: make(map[string]bool)}
	res, err := s.check(f.Text)
	if err != nil {
		return nil, err
	}
	s.pass = rule.NewPass(res.Sheet)
	s.metric = res.Sheet.Unit.Metric()
	s.leaves = leaves(res.Order)
	s.paths = byPath(s.leaves)
	s.alarms = raised(res.Findings)
	for _, f := range res.Findings {
		s.before[name(&f)] = true
	}
	stated := make(map[int]bool)
	for i := range res.Sheet.Stated {
		stated[res.Sheet.Stated[i].Node.At.Start] = true
	}
	for i := range s.leaves {
		s.leaves[i].outcome = stated[s.leaves[i].node.At.Start]
	}
	// What the maker chose for itself, as a number of tabs, does not come back.
	for again := true; again; {
		again = false
		if s.filled, err = s.fill(nil); err != nil {
			return nil, err
		}
		for i := range s.leaves {
			l := &s.leaves[i]
			if f := s.filled[l.path]; l.outcome && (f == nil || !agree.same(l.value, f.value, s.metric)) {
				l.outcome, again = false, true
			}
		}
	}
	m, v := &Mutation{Text: f.Text}, Verdict{}
	s.spoilt, err = s.harms(m, &res, &v)
	return s, err
}

// name is what a finding is known by in two checks.
func name(f *finding.Finding) string { return f.Rule + " " + f.Path }

// check checks a text of the one order.
func (s *Subject) check(text string) (lint.Result, error) {
	results := s.checker.CheckFile(&source.File{Name: s.file.Name, Text: text}, s.format)
	if len(results) != 1 {
		return lint.Result{}, fmt.Errorf("%d orders, not one, in\n%s", len(results), text)
	}
	if err := results[0].Err; err != nil {
		return lint.Result{}, fmt.Errorf("checking an order: %w\n%s", err, text)
	}
	return results[0], nil
}

// A write is a text in place of a leaf's own.
type write struct {
	leaf *leaf
	text string
}

func (s *Subject) with(writes []write) string {
	edits := make([]finding.Edit, len(writes))
	for i, w := range writes {
		edits[i] = s.pass.Set(w.leaf.node, w.text)
	}
	return finding.Apply(s.file.Text, edits)
}

// fill makes the writes in choices, blanks every outcome, and returns what the
// program then fills in.
func (s *Subject) fill(writes []write) (map[string]*leaf, error) {
	var edits []finding.Edit
	for _, w := range writes {
		if !w.leaf.outcome {
			edits = append(edits, s.pass.Set(w.leaf.node, w.text))
		}
	}
	for i := range s.leaves {
		l := &s.leaves[i]
		if !l.outcome {
			continue
		}
		at := l.node.At
		if l.node.Quote != 0 {
			at.Start, at.End = at.Start-1, at.End+1
		}
		edits = append(edits, finding.Edit{Range: at, Text: "null"})
	}
	text := finding.Apply(s.file.Text, edits)
	out, err := s.works.Correct(&source.File{Name: s.file.Name, Text: text}, s.format, lint.Correcting{Fill: true})
	if err != nil {
		return nil, fmt.Errorf("filling in an order: %w\n%s", err, text)
	}
	return byPath(leaves(out.Results[0].Order)), nil
}

// correct corrects a text, which stands where its fixes do not settle.
func (s *Subject) correct(text string, how lint.Correcting, v *Verdict) (lint.Result, error) {
	out, err := s.checker.Correct(&source.File{Name: s.file.Name, Text: text}, s.format, how)
	var u *fix.Unsettled
	switch {
	case errors.As(err, &u) && u.Err == nil:
		v.Unsettled = true
	case err != nil:
		return lint.Result{}, fmt.Errorf("correcting an order: %w\n%s", err, text)
	}
	return out.Results[0], nil
}

// A Mutation is a mistake made in an order.
type Mutation struct {
	Kind string
	Hits Hits
	Was  string // what stood in the first place that was written wrong
	Text string // the order with it

	writes []write
	roots  int // the first so many of the writes are the mistake itself; the rest follow from it
}

// Hits says what a mistake is in.
type Hits uint8

// What a mistake is in.
const (
	Outcome Hits = iota
	Choice
	Units
	Worked // an outcome that others were worked on from
	OutcomeOutcome
	ChoiceOutcome
	ChoiceChoice
	hitsEnd
)

var hitsNames = [...]string{"outcome", "choice", "units", "outcome, worked on from", "outcome and outcome", "choice and outcome", "choice and choice"}

func (h Hits) String() string { return hitsNames[h] }

func (s *Subject) mutation(kind string, roots int, writes ...write) *Mutation {
	m := &Mutation{Kind: kind, Was: writes[0].leaf.node.Text, writes: writes, roots: roots, Text: s.with(writes)}
	switch {
	case writes[0].leaf.path == "units":
		m.Hits = Units
	case slices.ContainsFunc(writes, func(w write) bool { return !w.leaf.outcome }):
		m.Hits = Choice
	}
	return m
}

// singles makes up to so many mistakes in every leaf.
func (s *Subject) singles(rng *rand.Rand, each int) (out []*Mutation) {
	for i := range s.leaves {
		l := &s.leaves[i]
		list := s.slips(rng, l)
		for _, k := range rng.Perm(len(list))[:min(each, len(list))] {
			out = append(out, s.mutation(list[k].kind, 1, write{l, list[k].text}))
		}
	}
	return out
}

// Draw makes a mistake that contradicts something on the order; nil where it
// finds no place for one.
func (s *Subject) Draw(rng *rand.Rand) (*Mutation, error) {
	const most = 50
	for range most {
		l := &s.leaves[rng.IntN(len(s.leaves))]
		list := s.slips(rng, l)
		if len(list) == 0 {
			continue
		}
		x := list[rng.IntN(len(list))]
		m := s.mutation(x.kind, 1, write{l, x.text})
		if all, err := s.contradicted(m.writes); len(all) > 0 || err != nil {
			return m, err
		}
	}
	return nil, nil
}

// swaps writes each of two numbers of a block of an item for the other.
func (s *Subject) swaps() (out []*Mutation) {
	block := func(l *leaf) string { return strings.TrimSuffix(l.path, "."+l.name) }
	for i := range s.leaves {
		a := &s.leaves[i]
		for j := i + 1; j < len(s.leaves) && strings.HasPrefix(a.path, "items["); j++ {
			b := &s.leaves[j]
			if block(a) == block(b) && a.value.sort == b.value.sort && a.value.unit == b.value.unit && !printed.same(a.value, b.value, s.metric) {
				out = append(out, s.mutation("two of a block swapped", 2, write{a, b.node.Text}, write{b, a.node.Text}))
			}
		}
	}
	return out
}

// lengthens are the choices that a cut length rests on in whole, and the list of
// cuts of the same item.
var lengthens = []string{"finished.length", "track.above_floor", "track.above_sill"}

// workedOn gets a cut length wrong and works mass and cloth on from it: as they are
// with another choice that leads to that cut length.
func (s *Subject) workedOn(rng *rand.Rand) (*Mutation, error) {
	for _, i := range rng.Perm(len(s.leaves)) {
		cut := &s.leaves[i]
		item, _, ok := strings.Cut(cut.path, ".cuts[")
		lined := slices.ContainsFunc(s.leaves, func(l leaf) bool { return strings.HasPrefix(l.path, item+".lining.") })
		if !ok || !cut.outcome || cut.name != "length" || lined {
			continue
		}
		list := s.slips(rng, cut)
		for _, k := range rng.Perm(len(list)) {
			wrong, ok := read(list[k].text, cut.node.Unit)
			if !ok {
				continue
			}
			if m, err := s.workOn(item, cut, length.Length(wrong.n-cut.value.n), list[k].kind); m != nil || err != nil {
				return m, err
			}
		}
	}
	return nil, nil
}

// workOn works on from a cut length that is wrong by so much; nil where nothing of
// the item follows from it.
func (s *Subject) workOn(item string, cut *leaf, by length.Length, kind string) (*Mutation, error) {
	for _, name := range lengthens {
		l := s.paths[item+"."+name]
		if l == nil || l.outcome || l.value.n+float64(by) <= 0 {
			continue
		}
		text := l.node.LengthStyle().Print(length.Length(l.value.n)+by, length.Nearest)
		filled, err := s.fill([]write{{l, text}})
		if err != nil {
			return nil, err
		}
		var roots, follow []write
		for i := range s.leaves {
			o := &s.leaves[i]
			f := filled[o.path]
			if !o.outcome || f == nil || rounded.same(f.value, o.value, s.metric) {
				continue
			}
			w := write{o, f.node.Text}
			if o.value.sort == size {
				if v, ok := valueOf(f.node); ok {
					w.text = o.node.LengthStyle().Print(length.Length(v.n), length.Nearest)
				}
			}
			switch {
			case strings.HasPrefix(o.path, item+".cuts[") && o.name == "length":
				roots = append(roots, w)
			case o.path == item+".hanging_mass", o.name == "ordered":
				follow = append(follow, w)
			}
		}
		if len(roots) > 0 && len(follow) > 0 {
			m := s.mutation(kind, len(roots), append(roots, follow...)...)
			m.Hits = Worked
			return m, nil
		}
	}
	return nil, nil
}

// pair makes two mistakes, in leaves of which so many are choices; nil where there
// is no place for them.
func (s *Subject) pair(rng *rand.Rand, choices int) *Mutation {
	const most = 50
	var writes []write
	for range most {
		l := &s.leaves[rng.IntN(len(s.leaves))]
		if l.path == "units" || l.outcome == (len(writes) < choices) || len(writes) == 1 && writes[0].leaf == l {
			continue
		}
		list := s.slips(rng, l)
		if len(list) == 0 {
			continue
		}
		if writes = append(writes, write{l, list[rng.IntN(len(list))].text}); len(writes) == 2 {
			m := s.mutation("two mistakes", 2, writes...)
			m.Hits = OutcomeOutcome + Hits(choices)
			return m
		}
	}
	return nil
}

// contradicted returns what the order states of outcomes with the writes made that is
// other than what the program fills in for it when they are blank.
func (s *Subject) contradicted(writes []write) (all []string, err error) {
	states := byPath(leaves(s.load(s.with(writes)).Order))
	if slices.ContainsFunc(writes, func(w write) bool { return w.leaf.path == "units" }) {
		// Nobody meant it so, even where all of it fits once more; but where each
		// length has its own unit, they say nothing.
		for _, l := range s.leaves {
			if now := states[l.path]; now != nil && l.path != "units" && !printed.same(now.value, l.value, s.metric) {
				all = append(all, l.path)
			}
		}
		return all, nil
	}
	filled := s.filled
	if slices.ContainsFunc(writes, func(w write) bool { return !w.leaf.outcome }) {
		if filled, err = s.fill(writes); err != nil {
			return nil, err
		}
	}
	for i := range s.leaves {
		if !s.leaves[i].outcome {
			continue
		}
		path := s.leaves[i].path
		stated, right := states[path], filled[path]
		if stated == nil || right == nil || s.agree.same(stated.value, right.value, s.metric) {
			continue
		}
		if in, ok := strings.CutSuffix(path, ".ordered"); ok && enough(stated, right, states[in+".sold_by"]) {
			continue
		}
		if stated.name == "setting" && stated.value.n < right.value.n {
			continue // a cooler iron spoils nothing
		}
		all = append(all, fmt.Sprintf("%s: %s, not %s", path, stated.node.Text, right.node.Text))
	}
	return all, nil
}

// enough reports whether cloth that is ordered may do and is not far too much:
// what is to be bought is what is needed, rounded up to what the cloth is sold by.
func enough(ordered, buy, soldBy *leaf) bool {
	least := buy.value.n
	if soldBy != nil {
		least -= soldBy.value.n
	}
	return least < ordered.value.n && ordered.value.n < 1.5*buy.value.n
}

// load reads a text without checking it.
func (s *Subject) load(text string) lint.Result {
	orders := s.checker.Loader.Orders(&source.File{Name: s.file.Name, Text: text}, s.format, load.Options{})
	return lint.Result{Order: orders[0]}
}

// A Verdict is what became of a mistake.
type Verdict struct {
	Contradicts []string // what is stated on the order, and what is worked out
	Found       bool     // there is an error or a warning that there was not before
	One         bool     // there is just one
	Field       bool     // a fix is offered, where the mistake is
	Value       bool     // and writes what stood there
	Wrong       bool     // a fix is offered elsewhere
	Rank        int      // which of several readings has the field and the value right, from 1; 0 for none
	Both        bool     // of two mistakes, each is put right by a fix or by one of the first readings
	Harm        int      // how many right values the correction changes
	Likely      int      // how many it changes where it may make choices

	Unsettled bool // a correction was given up, as its changes did not come to rest

	Findings []string // what is found: the rule, the field, what it is corrected to, and what is said beside it
}

// The columns of the table that a mistake may be in, by their names.
var columns = map[string]func(*Verdict) bool{
	"quiet":  func(v *Verdict) bool { return len(v.Contradicts) == 0 },
	"missed": func(v *Verdict) bool { return len(v.Contradicts) > 0 && !v.Found },
	"none": func(v *Verdict) bool {
		return len(v.Contradicts) > 0 && !v.Wrong && !v.Field && (v.Rank == 0 || v.Rank > 2)
	},
	"half":      func(v *Verdict) bool { return len(v.Contradicts) > 0 && !v.Both }, // of two mistakes, one is not found, or none
	"wrong":     func(v *Verdict) bool { return len(v.Contradicts) > 0 && v.Wrong },
	"harm":      func(v *Verdict) bool { return v.Harm > 0 },
	"unsettled": func(v *Verdict) bool { return v.Unsettled },
	"likely":    func(v *Verdict) bool { return v.Likely > 0 },
}

// Columns are the names of columns that cases can be kept of.
func Columns() []string { return slices.Sorted(maps.Keys(columns)) }

// In reports whether a mistake is in one of those columns.
func (v Verdict) In(names []string) bool {
	return slices.ContainsFunc(names, func(name string) bool { return columns[name] != nil && columns[name](&v) })
}

// Judge checks and corrects an order with a mistake.
func (s *Subject) Judge(m *Mutation) (v Verdict, err error) {
	if m.Hits < OutcomeOutcome {
		v.Contradicts, err = s.contradicted(m.writes)
	} else {
		for i := range m.writes { // each of them by itself
			if v.Contradicts, err = s.contradicted(m.writes[i : i+1]); err != nil || len(v.Contradicts) == 0 {
				break
			}
		}
	}
	if err != nil {
		return v, err
	}
	res, err := s.check(m.Text)
	if err != nil {
		return v, err
	}
	s.weigh(m, &res, &v)
	_, err = s.harms(m, &res, &v)
	return v, err
}

// weigh looks at what the check found.
func (s *Subject) weigh(m *Mutation, res *lint.Result, v *Verdict) {
	before := byPath(leaves(res.Order))
	changed, back := make(map[string]bool), make(map[string]bool)
	read := make(map[string]bool) // put right by one of the first readings
	n := 0
	for i := range res.Findings {
		f := &res.Findings[i]
		if f.Level < finding.Warning || s.before[name(f)] {
			continue
		}
		n++
		says := fmt.Sprintf("%s at %s: %q → %q", f.Rule, f.Path, f.Stated, f.Corrected)
		for _, r := range f.Related {
			says += "; " + r.Message
		}
		v.Findings = append(v.Findings, says)
		x := fix.Of(f, finding.Likely)
		if x == nil && (f.Rule == "form/misread-choice" || f.Rule == "cloth/ordered-over") && len(f.Fixes) > 0 {
			x = &f.Fixes[0] // what a client ordered or someone bought is told, and left to a person
		}
		if x != nil {
			for path, l := range byPath(leaves(s.load(finding.Apply(m.Text, x.Edits)).Order)) {
				if was := before[path]; was != nil && was.node.Text != l.node.Text {
					changed[path] = true
					back[path] = s.right(path, l.value)
				}
			}
			continue
		}
		if f.Rule == "form/values-disagree" {
			s.readings(m, f, before, v, read)
		}
	}
	v.Found, v.One = n > 0, n == 1
	v.Field, v.Value, v.Both = true, true, true
	own := make(map[string]bool)
	for i, w := range m.writes {
		path := w.leaf.path
		own[path] = true
		if i < m.roots {
			v.Field = v.Field && changed[path]
			v.Value = v.Value && back[path]
			v.Both = v.Both && (back[path] || read[path])
		}
	}
	for path := range changed {
		v.Wrong = v.Wrong || !own[path]
	}
}

// right reports whether v is what stands at a path of the clean order.
func (s *Subject) right(path string, v value) bool {
	t := &printed
	l := s.paths[path]
	if l != nil && l.outcome && s.agree == &byHand {
		t = s.agree
	}
	return l != nil && (l.path == "units" || t.same(l.value, v, s.metric))
}

// readings looks at a finding with several readings: the first is at its place, the
// others are the related ones.
func (s *Subject) readings(m *Mutation, f *finding.Finding, before map[string]*leaf, v *Verdict, read map[string]bool) {
	for _, w := range m.writes[:m.roots] {
		l := before[w.leaf.path]
		if l == nil {
			continue
		}
		rank, reading := 0, 1
		if touches(f.At, l.node.At) && s.says(w.leaf, f.Corrected) {
			rank = reading
		}
		for _, r := range f.Related {
			if !strings.HasPrefix(r.Message, "and ") && !strings.HasPrefix(r.Message, "then ") {
				reading++ // the others go on with the reading before
			}
			if rank == 0 && touches(r.Range, l.node.At) && s.says(w.leaf, r.Message) {
				rank = reading
			}
		}
		if rank > 0 && (v.Rank == 0 || rank < v.Rank) {
			v.Rank = rank
		}
		if rank == 1 || rank == 2 {
			read[w.leaf.path] = true
		}
	}
}

func touches(a, b source.Range) bool { return a.Start <= b.End && b.Start <= a.End }

// says reports whether a text has the value of a leaf of the clean order in it.
func (s *Subject) says(l *leaf, text string) bool {
	if l.path == "units" {
		return slices.Contains(strings.Fields(text), l.node.Text)
	}
	for i := range text {
		if i > 0 && strings.IndexByte("0123456789./,", text[i-1]) >= 0 {
			continue // not where a number begins
		}
		words := strings.SplitN(text[i:], " ", mostWords+1)
		for n := 1; n <= min(mostWords, len(words)); n++ {
			said := strings.TrimRight(strings.Join(words[:n], " "), ",;:.)")
			for _, said := range []string{said, strings.TrimRight(said, `"”`)} {
				if v, ok := read(said, l.node.Unit); ok && s.right(l.path, v) {
					return true
				}
			}
		}
	}
	return false
}

// mostWords is how many words a number has at most, as 4 3/4 yd or 2 lb 5 oz.
const mostWords = 4

// harms counts the right values that corrections change, certain ones, and likely
// ones too, and returns which. Those that they change without the mistake are not
// among them.
func (s *Subject) harms(m *Mutation, res *lint.Result, v *Verdict) (changed map[string]bool, err error) {
	was := *res
	if fixable(res, finding.Certain) {
		if was, err = s.correct(m.Text, lint.Correcting{}, v); err != nil {
			return nil, err
		}
		changed = s.changed(m, &was)
		v.Harm = len(changed)
	}
	v.Likely = v.Harm
	if fixable(res, finding.Likely) || fixable(&was, finding.Likely) {
		if was, err = s.correct(m.Text, lint.Correcting{Likely: true}, v); err != nil {
			return nil, err
		}
		changed = s.changed(m, &was)
		v.Likely = len(changed)
	}
	return changed, nil
}

// fixable reports whether the fix that would be made of something found is of that
// sureness.
func fixable(res *lint.Result, of finding.Sureness) bool {
	return slices.ContainsFunc(res.Findings, func(f finding.Finding) bool {
		x := fix.Of(&f, of)
		return x != nil && x.Sureness == of
	})
}

// changed are the right values that are others in a corrected order.
func (s *Subject) changed(m *Mutation, res *lint.Result) map[string]bool {
	changed := make(map[string]bool)
	after := byPath(leaves(res.Order))
	for i := range s.leaves {
		l := &s.leaves[i]
		if s.spoilt[l.path] || slices.ContainsFunc(m.writes, func(w write) bool { return w.leaf == l }) {
			continue
		}
		now := after[l.path]
		if now == nil || now.node.Text != l.node.Text && (l.path == "units" || !printed.same(now.value, l.value, s.metric)) {
			changed[l.path] = true
		}
	}
	return changed
}
