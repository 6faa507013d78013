package lint

import (
	"cmp"
	"errors"
	"slices"

	"cutgate/internal/fill"
	"cutgate/internal/finding"
	"cutgate/internal/fix"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

// Filled stands in a Change where a rule's name would, for an outcome that was
// left blank.
const Filled = "worked out"

// Correcting says what Correct does beyond the certain fixes.
type Correcting struct {
	Likely bool // make the fixes too that make a choice for the person
	Fill   bool // write in the outcomes that are left blank
}

// A Corrected is what came of correcting the orders of a text.
type Corrected struct {
	File    *source.File  // with the new text
	Changes []Change      // by place
	Results []Result      // of the text as it now is
	Applied []fix.Applied // what made the changes, by round
}

// Correct makes the fixes of what is found in the orders of a text until it
// settles. Blanks are filled in when nothing else is left to do, so that they are
// worked from what stands. With an error the text is as it was, and so are the
// results.
func (c *Checker) Correct(f *source.File, format load.Format, how Correcting) (Corrected, error) {
	m := mending{checker: c, file: f, format: format, fill: how.Fill, least: finding.Certain}
	if how.Likely {
		m.least = finding.Likely
	}
	res, err := fix.Settle(f.Text, m.least, m.check)
	if err != nil {
		out := Corrected{File: f}
		if len(m.rounds) > 0 {
			out.Results = m.rounds[0].results
		}
		return out, err
	}
	last := &m.rounds[len(m.rounds)-1]
	out := Corrected{File: last.file, Results: last.results, Applied: res.Applied}
	for i := range res.Applied {
		out.Changes = m.changes(out.Changes, &res.Applied[i])
	}
	out.Changes = merged(out.Changes)
	return out, nil
}

// A mending is a text on its way through the rounds.
type mending struct {
	checker *Checker
	file    *source.File // as it came in
	format  load.Format
	fill    bool
	least   finding.Sureness

	rounds []round // that were checked
}

// A round is what was found in a text.
type round struct {
	file    *source.File
	results []Result
	fills   map[source.Range]filling // by the place of their block
	orders  []*order.Order           // that could be read; when first asked for
	inTurn  bool                     // each of them stands behind the one before
}

// A filling is the blanks of one block.
type filling struct {
	root    *order.Node // of its order
	parents map[*order.Node]*order.Node
	blanks  []fill.Blank
	edits   []finding.Edit // that each of them is in
	at      []int          // where in that edit's text its value begins
}

// check says what is found in a text. It can no longer be read where one of its
// orders can't that could before.
func (m *mending) check(text string) ([]finding.Finding, error) {
	f := m.file
	if text == f.Text {
		m.rounds = nil // it is begun anew
	}
	if len(m.rounds) > 0 {
		f = &source.File{Name: f.Name, Text: text, FirstLine: f.FirstLine, Base: f.Base}
	}
	r := round{file: f}
	var found, blanks []finding.Finding
	var failed error
	left := false // something to correct
	var of memory
	m.checker.checkEach(f, m.format, 0, &of.orders, func() *memory { return &of }, func(res Result) {
		failed = cmp.Or(failed, res.Err)
		found = append(found, res.Findings...)
		left = left || slices.ContainsFunc(res.Findings, func(f finding.Finding) bool { return fix.Of(&f, m.least) != nil })
		if m.fill && !left && failed == nil {
			blanks = append(blanks, r.blanks(&res)...)
		}
		if m.checker.Reuse {
			res.Sheet = nil
			of.sheets.Reset()
		}
		r.results = append(r.results, res)
	})
	if failed != nil {
		return nil, failed
	}
	if len(m.rounds) > 0 && (len(r.results) != len(m.rounds[0].results) || r.unread() > m.rounds[0].unread()) {
		return nil, errors.New("an order can no longer be read")
	}
	if !left {
		found = append(found, blanks...)
	} else {
		r.fills = nil
	}
	m.rounds = append(m.rounds, r)
	return found, nil
}

// unread is how many of the orders can't be read.
func (r *round) unread() (n int) {
	for i := range r.results {
		if r.results[i].Order.Root == nil {
			n++
		}
	}
	return n
}

// blanks makes a finding of each block of an order with outcomes that can be filled in.
func (r *round) blanks(res *Result) (found []finding.Finding) {
	if res.Order.Root == nil {
		return nil
	}
	pass := rule.NewPass(res.Sheet)
	var blocks []*order.Node
	of := make(map[*order.Node][]fill.Blank)
	for _, b := range fill.Blanks(res.Sheet) {
		if of[b.In] == nil {
			blocks = append(blocks, b.In)
		}
		of[b.In] = append(of[b.In], b)
	}
	if len(blocks) == 0 {
		return nil
	}
	above := parents(res.Order.Root)
	for _, n := range blocks {
		into, edits := fillIn(pass, n, of[n])
		if len(edits) == 0 {
			continue
		}
		into.root, into.parents = res.Order.Root, above
		if r.fills == nil {
			r.fills = make(map[source.Range]filling)
		}
		r.fills[n.At] = into.and(r.fills[n.At])
		found = append(found, finding.Finding{
			Rule: Filled, Level: finding.Note, At: n.At, Message: "Something is blank.",
			Fixes: []finding.Fix{{Title: "Write it in", Sureness: finding.Certain, Edits: edits}},
		})
	}
	return found
}

// fillIn returns the edits that fill in the blanks of a block: first those that
// stand there, then those that were left out.
func fillIn(pass *rule.Pass, n *order.Node, blanks []fill.Blank) (into filling, edits []finding.Edit) {
	var out []fill.Blank
	var fields []order.Added
	for _, b := range blanks {
		if b.Node == nil {
			out = append(out, b)
			fields = append(fields, order.Added{Name: b.Field, Text: b.Text})
			continue
		}
		e := pass.Set(b.Node, b.Text)
		edits = append(edits, e)
		into.add(b, e, 0)
	}
	if a, ok := pass.Add(n, fields); ok {
		edits = append(edits, a.Edits...)
		for i, b := range out {
			into.add(b, a.Edits[a.Of[i]], a.At[i])
		}
	}
	return into, edits
}

// and returns the blanks of both fillings: of two blocks of a table's row that
// have the same cells.
func (f filling) and(g filling) filling {
	return filling{f.root, f.parents, append(f.blanks, g.blanks...), append(f.edits, g.edits...), append(f.at, g.at...)}
}

func (f *filling) add(b fill.Blank, e finding.Edit, at int) {
	f.blanks = append(f.blanks, b)
	f.edits = append(f.edits, e)
	f.at = append(f.at, at)
}
