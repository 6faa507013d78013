package rules_test

import (
	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/worksheet"
)

// applies reports whether text in the place of a stated outcome is a mistake at
// all: another number, and not one that a maker may choose.
func applies(s *worksheet.Sheet, of worksheet.Stated, text string) bool {
	q := of.Quantity
	switch q.Value.Sort {
	case worksheet.Length:
		l, _, err := length.Parse(text, s.Unit)
		if err != nil || l <= 0 || l > 1000*length.Metre {
			return false
		}
		_, style, _ := length.Parse(of.Node.Text, s.Unit)
		d := l - q.Value.Length()
		if max(d, -d) < length.Step(style.Unit()) {
			return false
		}
		switch q.Name {
		case worksheet.ClothToBuy:
			c := s.Cloth(q.Of)
			return l < c.Needed.Value.Length() || l >= q.Value.Length()+c.Longest()
		case worksheet.PocketHeight:
			return l < q.Value.Length()
		}
		return true
	case worksheet.Count:
		n, _, err := length.ScanNumber(text)
		v := n.Value()
		return err == nil && v.Den <= 1 && v.Num > 0 && v.Num <= 10_000 && v.Num != q.Value.N
	case worksheet.Ratio:
		r, err := length.ParseRatio(text)
		return err == nil && r.Num > 0 && r.Cmp(q.Value.R) != 0
	case worksheet.Mass:
		m, _, err := mass.ParseMass(text)
		d := int64(m) - q.Value.N
		return err == nil && m > 0 && max(d, -d) > q.Value.N/50
	case worksheet.Dots:
		return text != "4 dots" // there are three
	}
	return false
}

// same reports whether a corrected text says what stood in the order: the same
// value, to what a weighing is good for in a mass.
func same(s *worksheet.Sheet, of worksheet.Stated, text string) bool {
	switch of.Quantity.Value.Sort {
	case worksheet.Length:
		a, _, err1 := length.Parse(text, s.Unit)
		b, _, err2 := length.Parse(of.Node.Text, s.Unit)
		return err1 == nil && err2 == nil && a == b
	case worksheet.Ratio:
		a, err1 := length.ParseRatio(text)
		b, err2 := length.ParseRatio(of.Node.Text)
		return err1 == nil && err2 == nil && a.Cmp(b) == 0
	case worksheet.Mass:
		a, _, err1 := mass.ParseMass(text)
		b, _, err2 := mass.ParseMass(of.Node.Text)
		return err1 == nil && err2 == nil && max(a-b, b-a)*50 <= b
	}
	return text == of.Node.Text
}
