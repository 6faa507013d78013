package diagnose

import (
	"math"
	"slices"

	"cutgate/internal/worksheet"
)

// mostAstray is how many items are looked at together.
const mostAstray = 16

// isWord reports whether a choice is a word.
func isWord(c *worksheet.Choice) bool { return c.Value.Sort == worksheet.Word }

// astray are the items of a sheet that have rows of none of their pieces, or lack something that
// their pieces are worked from, as where a word makes them other goods than they are.
func astray(s *worksheet.Sheet) (list []int) {
	for i := range s.Items {
		if it := &s.Items[i]; it.Strays() > 0 || lacks(it) {
			list = append(list, i)
		}
	}
	return list
}

func lacks(it *worksheet.Item) bool {
	fields, _ := it.Lacks()
	return len(fields) > 0
}

// otherWords are the words that may have been meant in place of one, at most at that cost: those
// that the form allows there, and that make a contradicted outcome right or find a row its piece.
func (p *problem) otherWords(h hypothesis, choice int, wrong []int, most float64) []edit {
	c := &p.choices[choice]
	p.found = p.found[:0]
	for i, word := range c.Words {
		cost := baseWord + math.Log(float64(len(c.Words)-1)) + float64(i)/100 // the form begins with the usual ones
		e := edit{choice: choice, value: worksheet.Value{Sort: worksheet.Word, N: int64(i)}, cost: cost, slip: otherWord, text: word}
		if e.value == c.Value {
			continue
		}
		next := p.and(&h, e, nil)
		if len(wrong) > 0 { // as most words help nothing, all is worked out only with those that do
			t := p.tryFor(p.want(wrong), &next, nil)
			helps := p.helps(t, c.Items[0], wrong)
			if p.done(t); !helps {
				continue
			}
		}
		t := p.try(&next, nil)
		if len(wrong) > 0 || p.helps(t, c.Items[0], nil) {
			speaks, less, right := p.asWorded(t, c.Items[0])
			if e.cost, e.less = e.cost+speaks, less; e.cost <= most && (len(wrong) > 0 || right) {
				p.found = append(p.found, e)
			}
		}
		p.done(t)
	}
	return p.kept(p.found)
}

// helps reports whether some contradicted outcome comes out near enough in a trial, or an item is
// less astray.
func (p *problem) helps(t *trial, item int, wrong []int) bool {
	it, was := &t.sheet.Items[item], &p.base.Items[item]
	return it.Strays() < was.Strays() || len(wrong) == 0 && lacks(was) && !lacks(it) || slices.ContainsFunc(wrong, func(i int) bool {
		of := t.at[i]
		if of == nil || of.Quantity == nil {
			return false
		}
		off := math.Abs(number(of.Quantity.Value) - number(of.Value))
		switch {
		case of.Slot.Item < 0: // more cloth is enough too
			return p.outs[i].Quantity == nil || of.Quantity.Value != p.outs[i].Quantity.Value
		case of.Value.Sort == worksheet.Length:
			return off < 4e6
		}
		return 20*off <= math.Abs(number(of.Value))
	})
}

// strayWords tries each word of every item that is astray, though nothing is contradicted, beside
// what the other items most likely should say.
func (p *problem) strayWords() {
	gone := astray(p.base)
	if len(gone) > mostAstray {
		return // they are told one by one
	}
	var lists [][]edit // of an item each
	last := -1
	for i := len(p.figures()); i < len(p.choices); i++ {
		item := p.choices[i].Items[0]
		if !contains(gone, item) {
			continue
		}
		if item != last {
			lists, last = append(lists, nil), item
		}
		of := &lists[len(lists)-1]
		*of = append(*of, p.otherWords(hypothesis{}, i, nil, math.Inf(1))...)
	}
	lists = slices.DeleteFunc(lists, func(list []edit) bool { return len(list) == 0 })
	for _, list := range lists {
		cheapestFirst(list)
	}
	for k, list := range lists {
		var rest hypothesis
		for j, other := range lists {
			if j != k && other[0].cost < 0 {
				rest = p.and(&rest, other[0], nil)
			}
		}
		for _, e := range list {
			p.consider(p.and(&rest, e, nil))
		}
	}
}

// asWorded is what speaks against an item as a trial words it, and for it where that is less
// than nothing: rows of no piece, numbers and words that nothing goes by, what it lacks, pieces
// wider than their cloth, and outcomes that could not be compared before. Less says that it is
// less astray, and right that some of those agree.
func (p *problem) asWorded(t *trial, item int) (cost float64, less, right bool) {
	it, was := &t.sheet.Items[item], &p.base.Items[item]
	rows := it.Strays() - was.Strays()
	cost = strayRow*float64(rows) + idleNumber*float64(it.Idle()-was.Idle())
	less = rows < 0
	switch now, then := lacks(it), lacks(was); {
	case now && !then:
		cost += vanished
	case then && !now:
		cost -= strayRow
		less = true
	}
	if was.Fits() && !it.Fits() {
		cost += vanished
	}
	for i := range t.sheet.Stated {
		of := &t.sheet.Stated[i]
		if _, had := p.at[of.Node]; had || of.Slot.Item != item || of.Doubtful {
			continue
		}
		if of.Agrees == worksheet.Differs || of.Agrees == worksheet.Impossible {
			cost += baseOutcome + otherOutcome
		} else {
			cost, right = cost-foundRight, true
		}
	}
	return cost, less, right
}
