// Package seam checks how pieces and widths are joined: what the allowance has to
// hide, how much of it is trimmed, whether raw edges are left, and whether machine,
// needle and stitch suit the seam.
package seam

import (
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// sewn reports whether the order says how the item is joined and, as far as it
// was worked out, something of it is joined.
func sewn(it *worksheet.Item) bool {
	j := &it.Order.Join
	return j.Set && j.Layout.Value != "one piece" && (it.Get(worksheet.Widths) == nil || it.Joins > 0)
}

// kindOf returns the kind of seam that the order states, or the plain one, which
// asks the least of its allowance, where it states none.
func kindOf(p *rule.Pass, it *worksheet.Item) *trade.Seam {
	if s := &it.Order.Join.Seam; s.Set {
		return p.Tables.Seam(s.Value)
	}
	return p.Tables.Seam("plain")
}

// scant reports whether the stated allowance is under the least of the seam, by
// a step or more: 3/8 in will do for 1 cm.
func scant(p *rule.Pass, it *worksheet.Item) bool {
	a, kind := &it.Order.Join.Allowance, kindOf(p, it)
	return a.Set && kind != nil && kind.Least-a.Value >= length.Step(p.Sheet.Unit)
}

// allowanceOf returns the allowance that what lies in it is held against: the
// stated one, or the usual one where none is stated or the stated one is scant,
// which is a finding of its own. It returns 0 where there is none of them, or
// where the allowance was misread.
func allowanceOf(p *rule.Pass, it *worksheet.Item) length.Length {
	a, kind := &it.Order.Join.Allowance, kindOf(p, it)
	switch {
	case kind == nil || p.Sheet.Doubted(a.Node):
		return 0
	case !a.Set || scant(p, it):
		return kind.Usual
	}
	return a.Value
}

// hides returns the least allowance that hides the selvedge of the item's face,
// or 0 where it has none stated.
func hides(p *rule.Pass, it *worksheet.Item) length.Length {
	if it.Face == nil || it.Face.Order.Selvedge.Value <= 0 {
		return 0
	}
	return it.Face.Order.Selvedge.Value + p.Tables.House.SelvedgeHide
}

// meant returns the length that was meant where a whole number strayed before a
// fraction, or a decimal place slipped: 2 1/4 in for 1/4, 15 mm for 1.5. It
// returns 0 where that is not below most, and which of the slips it would be.
func meant(l *order.Length, most length.Length) (small length.Length, slip string) {
	if l.Node == nil {
		return 0, ""
	}
	unit := l.Node.LengthStyle().Unit()
	small, slip = l.Value%unit.Length(), "a stray whole number stands before the fraction"
	if unit.Metric() {
		small, slip = l.Value/10, "the decimal place is wrong"
	}
	if small == 0 || small == l.Value || small >= most {
		return 0, ""
	}
	return small, slip
}

// classes returns a class with those beside it. Their bounds are not sharp, so
// what suits a neighbor is not wrong.
func classes(p *rule.Pass, c *trade.Class) []trade.Class {
	for i := range p.Tables.Classes {
		if p.Tables.Classes[i].Name == c.Name {
			return p.Tables.Classes[max(0, i-1):min(len(p.Tables.Classes), i+2)]
		}
	}
	return nil
}
