package diagnose

import (
	"cmp"
	"slices"
	"strconv"

	"cutgate/internal/worksheet"
)

// insteadOfEdit is what the order may say instead of having a choice misread as an edit of a
// reading has it, so that as much agrees; nil for nothing, and where a slip explains the edit
// and no row speaks for anything else.
func (p *problem) insteadOfEdit(r *reading, i int) *worksheet.Alternative {
	c := &p.choices[r.edits[i].choice]
	if isWord(c) {
		return nil
	}
	strays := p.base.Items[c.Items[0]].Strays() > 0
	if !strays && !r.edits[i].slip.stray() {
		return nil
	}
	k := slices.IndexFunc(p.outs, func(of worksheet.Stated) bool {
		return of.Agrees == worksheet.Differs && !of.Doubtful && of.Slot.Item == c.Items[0] && p.base.Moves(c, &of)
	})
	if k < 0 {
		return nil
	}
	without := hypothesis{edits: slices.Delete(slices.Clone(r.edits), i, i+1), withdrawn: r.withdrawn}
	return p.instead(&p.outs[k], without, r.wrong)
}

// insteadOfMistake is what the order may say instead of having an outcome wrong; nil for
// nothing.
func (p *problem) insteadOfMistake(r *reading, k int) *worksheet.Alternative {
	m := &r.mistakes[k]
	of := &p.outs[m.out]
	strays := of.Slot.Item >= 0 && p.base.Items[of.Slot.Item].Strays() > 0
	if of.Unsure && !strays {
		return nil // it is corrected by nobody unasked
	}
	if a := cmp.Or(p.forAll(m), p.sheet.OtherPiece(of)); a != nil {
		return a
	}
	return p.instead(of, hypothesis{edits: r.edits, withdrawn: r.withdrawn}, func(i int) bool { return i != m.out && r.wrong(i) })
}

// quantity is the field that says how many of an item are made.
const quantity = "quantity"

// forAll is a quantity that an item leaves out and that all its cuts are counted for, as a
// mistake is one of; nil for none, and where the cloth to buy is right for one item.
func (p *problem) forAll(m *mistake) *worksheet.Alternative {
	of := &p.outs[m.out]
	if m.slip != nil && m.slip.Name == tenfold.name || !of.OfCut() || of.Value.Sort != worksheet.Count || p.base.Items[of.Slot.Item].Order.Quantity.Set {
		return nil
	}
	n := of.Value.N / max(1, of.Quantity.Value.N)
	if n < 2 || slices.ContainsFunc(p.outs, func(o worksheet.Stated) bool {
		return p.base.Rests(&o, of) && o.Slot.Item < 0 && o.Agrees != worksheet.Differs ||
			o.OfCut() && o.Slot.Item == of.Slot.Item && o.Value.Sort == worksheet.Count && (o.Quantity == nil || o.Value.N != n*o.Quantity.Value.N)
	}) {
		return nil
	}
	return &worksheet.Alternative{Choice: worksheet.Choice{Field: quantity, Items: []int{of.Slot.Item}}, Text: strconv.FormatInt(n, 10), Taken: "1"}
}

// instead is the first alternative that makes all agree but some outcomes, with what a
// hypothesis changes beside it or without.
func (p *problem) instead(of *worksheet.Stated, h hypothesis, but func(out int) bool) *worksheet.Alternative {
	alternatives := p.sheet.Alternatives(of)
	for i := range alternatives {
		a := &alternatives[i]
		if p.spent() {
			break
		}
		if h.instead = a; p.agrees(&h, but) || len(h.edits) > 0 && p.agrees(&hypothesis{instead: a}, but) {
			return a
		}
	}
	return nil
}

// agrees reports whether all that is stated agrees under a hypothesis, but for some of it, and
// no piece is wider than its cloth for it.
func (p *problem) agrees(h *hypothesis, but func(out int) bool) bool {
	t := p.try(h, nil)
	defer p.done(t)
	for i := range t.sheet.Items {
		if p.base.Items[i].Fits() && !t.sheet.Items[i].Fits() {
			return false
		}
	}
	for i, of := range t.at {
		if !p.outs[i].Doubtful && !but(i) && (of == nil || of.Agrees == worksheet.Impossible || of.Agrees == worksheet.Differs) {
			return false
		}
	}
	return true
}
