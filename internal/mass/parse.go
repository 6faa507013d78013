package mass

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"cutgate/internal/length"
)

const (
	wantMass   = "a weight such as 5 kg, 350 g, 12 oz or 9 lb 4 oz"
	wantAreal  = "a weight per area such as 240 g/m2 or 7 oz/yd2"
	wantLinear = "a weight per length such as 50 g/m or 0.5 oz/ft"
)

// Style is the manner in which a person wrote a value: its unit, spacing, and
// decimals or fraction. The zero value prints like Format, in metric. A Style
// keeps the text that it was learned from.
type Style struct {
	text   string
	metric bool // the zero value aside
}

// Metric reports whether the value was written in a metric unit, which the
// zero Style counts as.
func (s Style) Metric() bool { return s.text == "" || s.metric }

// reading is what is found in a text: a number and what follows it.
type reading struct {
	number length.Number
	gap    string // white space before the unit
	unit   string // the unit as written, without white space at its ends
}

// read reads a number and its unit. The number may not have a sign: there are
// no masses below zero.
func read(text, want string) (reading, error) {
	s := trim(text)
	if s == "" {
		return reading{}, &length.Error{Kind: length.ErrEmpty, Text: text, Want: want}
	}
	n, rest, err := length.ScanNumber(s)
	if err != nil {
		e := *err.(*length.Error)
		e.Text = text
		if e.Kind == length.ErrSyntax && e.Word == firstWord(s) {
			e.Want = want
		}
		return reading{}, &e
	}
	unit := strings.TrimLeftFunc(rest, unicode.IsSpace)
	return reading{n, rest[:len(rest)-len(unit)], unit}, nil
}

func trim(s string) string { return strings.TrimFunc(s, unicode.IsSpace) }

func firstWord(s string) string {
	if i := strings.IndexFunc(s, unicode.IsSpace); i >= 0 {
		return s[:i]
	}
	return s
}

// value reads text in one of the units that find knows, up to limit.
func value(text, want string, limit int64, find func(string) (length.Ratio, bool)) (int64, Style, error) {
	r, err := read(text, want)
	if err != nil {
		return 0, Style{}, err
	}
	u, ok := find(r.unit)
	if !ok {
		return 0, Style{}, unitError(text, r.unit, want)
	}
	n := r.number.Value().Mul(u).Int(length.Nearest)
	if n > limit {
		return 0, Style{}, &length.Error{Kind: length.ErrRange, Text: text, Want: want}
	}
	return n, styleOf(text, r.unit), nil
}

func styleOf(text, unit string) Style {
	top, _, _ := over(unit)
	m, ok := massUnit(firstWord(top))
	return Style{text: text, metric: !ok || m != lb && m != oz}
}

// unitError says that word, after a number, is no unit of what was wanted.
func unitError(text, word, want string) error {
	k := length.ErrUnit
	if r, _ := utf8.DecodeRuneInString(word); word != "" && r != '%' && !unicode.IsLetter(r) {
		k = length.ErrSyntax
	}
	return &length.Error{Kind: k, Text: text, Word: word, Want: want}
}

// ParseMass reads a mass: a number as [length.ScanNumber] reads it and a unit
// (kg, g, mg, lb, oz, their names, and lbs), which may not be left out; or
// pounds and ounces. Ounces and pounds are rounded to the nearest microgram.
//
// An error is a [*length.Error] of kind ErrSyntax; of kind ErrUnit, Word being
// what stands in the unit's place, and empty if that is nothing; of kind
// ErrRange beyond [MaxMass]; ErrZeroDenominator or ErrEmpty.
func ParseMass(text string) (Mass, Style, error) {
	r, err := read(text, wantMass)
	if err != nil {
		return 0, Style{}, err
	}
	if _, ounces, ok := splitPounds(r); ok {
		v := r.number.Value().Mul(lb).Add(ounces.number.Value().Mul(oz))
		n := Mass(v.Int(length.Nearest))
		switch {
		case r.number.Value().Den != 1 || ounces.number.Value().Cmp(length.NewRatio(16, 1)) >= 0:
			return 0, Style{}, &length.Error{Kind: length.ErrSyntax, Text: text, Want: "whole pounds and less than 16 ounces"}
		case n > MaxMass:
			return 0, Style{}, &length.Error{Kind: length.ErrRange, Text: text, Want: wantMass}
		}
		return n, Style{text: text}, nil
	}
	n, s, err := value(text, wantMass, int64(MaxMass), massUnit)
	return Mass(n), s, err
}

// splitPounds finds the ounces after the pounds in r, and returns the pounds'
// unit with them.
func splitPounds(r reading) (unit string, ounces reading, ok bool) {
	i := strings.IndexFunc(r.unit, unicode.IsDigit)
	if i <= 0 {
		return "", reading{}, false
	}
	unit = trim(r.unit[:i])
	ounces, err := read(r.unit[i:], wantMass)
	if err != nil {
		return "", reading{}, false
	}
	top, ok1 := massUnit(unit)
	low, ok2 := massUnit(ounces.unit)
	return unit, ounces, ok1 && ok2 && top == lb && low == oz
}

// ParseAreal reads a weight of cloth by its area: gsm, or a unit of mass by
// the square metre, yard or foot (g/m2, oz/yd², oz/sq yd, g per square metre).
// An ounce alone or by the yard is another quantity, and an error like any
// other unit. Errors are those of [ParseMass], beyond [MaxAreal].
func ParseAreal(text string) (Areal, Style, error) {
	n, s, err := value(text, wantAreal, int64(MaxAreal), arealUnit)
	return Areal(n), s, err
}

// ParseLinear reads a weight per length, of a chain or a tape: a unit of mass by
// a unit of length (g/m, oz/ft, g per m). Errors are those of [ParseMass],
// beyond [MaxLinear].
func ParseLinear(text string) (Linear, Style, error) {
	n, s, err := value(text, wantLinear, int64(MaxLinear), linearUnit)
	return Linear(n), s, err
}

// PrintMass writes m in the unit and manner of s, rounded to the nearest that
// the manner shows: a fraction to 1/16, a decimal to two places (three in
// kilograms and pounds, none in milligrams) or to as many as were written.
func (s Style) PrintMass(m Mass) string {
	if s.text == "" {
		return m.Format(true)
	}
	r, err := read(s.text, wantMass)
	if err != nil {
		return m.Format(s.metric)
	}
	if _, ounces, ok := splitPounds(r); ok {
		parts := int64(1)
		if ounces.number.Places() > 0 || ounces.number.Fraction() {
			parts = 10
		}
		return pounds(m, parts)
	}
	u, ok := massUnit(r.unit)
	if !ok {
		return m.Format(s.metric)
	}
	return r.print(int64(m), u)
}

// PrintAreal writes a in the unit and manner of s, rounded like
// [Style.PrintMass].
func (s Style) PrintAreal(a Areal) string {
	r, err := read(s.text, wantAreal)
	u, ok := arealUnit(r.unit)
	if err != nil || !ok {
		return a.Format(s.Metric())
	}
	return r.print(int64(a), u)
}

// PrintLinear writes k in the unit and manner of s, rounded like
// [Style.PrintMass].
func (s Style) PrintLinear(k Linear) string {
	r, err := read(s.text, wantLinear)
	u, ok := linearUnit(r.unit)
	if err != nil || !ok {
		return k.Format(s.Metric())
	}
	return r.print(int64(k), u)
}

// print writes n micrograms in the unit u, in the manner of r.
func (r reading) print(n int64, u length.Ratio) string {
	v := in(n, u)
	if r.number.Fraction() {
		v = length.NewRatio(v.Mul(length.NewRatio(16, 1)).Int(length.Nearest), 16)
	}
	places := 2
	switch u {
	case kg, lb:
		places = 3
	case mg:
		places = 0
	}
	return r.number.Print(v, max(places, r.number.Places())) + r.gap + r.unit
}
