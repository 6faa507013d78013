package mass

import (
	"strings"

	"cutgate/internal/length"
)

// The units of mass in micrograms.
var (
	kg = length.NewRatio(int64(Kilogram), 1)
	g  = length.NewRatio(int64(Gram), 1)
	mg = length.NewRatio(int64(Milligram), 1)
	lb = length.NewRatio(int64(Pound), 1)
	oz = length.NewRatio(int64(Pound), 16)
)

// The units of area in square metres, exact as the yard is 0.9144 m (NIST
// Special Publication 811, Appendix B.8).
var (
	squareMetre = length.NewRatio(1, 1)
	squareFoot  = length.NewRatio(9_290_304, 100_000_000)
	squareYard  = length.NewRatio(83_612_736, 100_000_000)
)

// The units that reports use, in micrograms per square metre or per metre.
var (
	gramsPerSquareMetre = g
	ouncesPerSquareYard = oz.Quo(squareYard)
	gramsPerMetre       = g
	ouncesPerFoot       = oz.Quo(length.RatioOf(length.Foot, length.Metre))
)

// massUnit returns the unit of mass that word stands for.
func massUnit(word string) (length.Ratio, bool) {
	switch strings.ToLower(word) {
	case "kg", "kilogram", "kilograms", "kilogramme", "kilogrammes":
		return kg, true
	case "g", "gram", "grams", "gramme", "grammes":
		return g, true
	case "mg", "milligram", "milligrams":
		return mg, true
	case "lb", "lb.", "lbs", "lbs.", "pound", "pounds":
		return lb, true
	case "oz", "oz.", "ounce", "ounces":
		return oz, true
	}
	return length.Ratio{}, false
}

// areaUnit returns the unit of area that word stands for.
func areaUnit(word string) (length.Ratio, bool) {
	word = strings.ToLower(word)
	stem := word
	squared := false
	for _, end := range [...]string{"^2", "2", "²"} {
		if s, ok := strings.CutSuffix(word, end); ok {
			stem, squared = s, true
			break
		}
	}
	if !squared {
		for _, start := range [...]string{"square ", "sq. ", "sq.", "sq ", "sq"} {
			if s, ok := strings.CutPrefix(word, start); ok {
				stem, squared = s, true
				break
			}
		}
	}
	u, ok := length.ParseUnit(stem)
	if !squared || !ok {
		return length.Ratio{}, false
	}
	switch u {
	case length.M:
		return squareMetre, true
	case length.Yd:
		return squareYard, true
	case length.Ft:
		return squareFoot, true
	}
	return length.Ratio{}, false
}

// over splits a compound unit such as g/m2 or g per m at its stroke.
func over(word string) (top, bottom string, ok bool) {
	if top, bottom, ok = strings.Cut(word, "/"); !ok {
		top, bottom, ok = strings.Cut(word, " per ")
	}
	return trim(top), trim(bottom), ok
}

// arealUnit returns the unit of mass per area that word stands for, in
// micrograms per square metre.
func arealUnit(word string) (length.Ratio, bool) {
	if strings.EqualFold(word, "gsm") {
		return gramsPerSquareMetre, true
	}
	top, bottom, ok := over(word)
	if !ok {
		return length.Ratio{}, false
	}
	m, ok1 := massUnit(top)
	a, ok2 := areaUnit(bottom)
	if !ok1 || !ok2 {
		return length.Ratio{}, false
	}
	return m.Quo(a), true
}

// linearUnit returns the unit of mass per length that word stands for, in
// micrograms per metre.
func linearUnit(word string) (length.Ratio, bool) {
	top, bottom, ok := over(word)
	if !ok {
		return length.Ratio{}, false
	}
	m, ok1 := massUnit(top)
	u, ok2 := length.ParseUnit(bottom)
	if !ok1 || !ok2 {
		return length.Ratio{}, false
	}
	return m.Quo(length.RatioOf(u.Length(), length.Metre)), true
}
