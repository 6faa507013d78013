package diagnose

import (
	"slices"

	"cutgate/internal/worksheet"
)

// mostWrong is how many contradicted outcomes are looked at together: the work grows
// with more than the square of them.
const mostWrong = 120

// crowded is for an order in which more than [mostWrong] outcomes are contradicted. It
// looks only for what nearly all of them have in common, other units or a choice, and
// reports whether it found that.
func (p *problem) crowded(wrong []int) bool {
	p.choices = p.base.Choices()
	p.weighChoices()
	p.low = float64(len(wrong)) / 2 * (baseOutcome + arithmetic) // units explain half of it
	for _, u := range p.otherUnits() {
		p.consider(hypothesis{units: u, cost: p.unitsCost(u)})
	}
	if len(p.readings) > 0 {
		return true
	}
	p.low = mostWrong/2*(baseOutcome+arithmetic) - p.window // a choice leaves less than half of what is too much
	var common []worksheet.Choice
	var usual []*habit
	var priors []float64
	of := map[int]int{} // how many of those that are wrong are of an item
	for _, o := range wrong {
		of[p.outs[o].Slot.Item]++
	}
	ofCloths := len(p.ofCloths(wrong))
	for i, c := range p.choices {
		most := ofCloths
		for _, item := range c.Items {
			most += of[item]
		}
		if 2*most <= len(wrong) {
			continue
		}
		moved := 0
		for _, o := range wrong {
			if p.base.Moves(&c, &p.outs[o]) {
				moved++
			}
		}
		if 2*moved > len(wrong) {
			common, usual, priors = append(common, c), append(usual, p.usual[i]), append(priors, p.priors[i])
		}
	}
	p.choices, p.usual, p.priors = common, usual, priors
	p.singles(hypothesis{}, wrong)
	p.partly = true
	return len(p.readings) > 0
}

// each takes every outcome of an order that is crowded for a likely mistake by itself.
func (p *problem) each(wrong []int) {
	t := p.try(&hypothesis{}, nil)
	defer p.done(t)
	p.sheet.Wrong = slices.Grow(p.sheet.Wrong[:0], len(wrong))
	for _, i := range wrong {
		of := &p.outs[i]
		if of.Quantity == nil || t.at[i] == nil || t.at[i].Quantity == nil {
			continue
		}
		w := p.sheet.WrongOf(of, p.price(t, i, t.at[i]).slip)
		w.Likely = true
		p.sheet.Wrong = append(p.sheet.Wrong, w)
	}
	slices.SortStableFunc(p.sheet.Wrong, byPlace)
}
