package length

// Unit is a unit of length that orders are written in.
type Unit uint8

// The units, and NoUnit for none.
const (
	NoUnit Unit = iota
	MM
	CM
	M
	In
	Ft
	Yd
)

// Units lists the units, smallest first within each system.
var Units = [...]Unit{MM, CM, M, In, Ft, Yd}

// String returns the unit's symbol: mm, cm, m, in, ft, yd, or nothing for
// NoUnit.
func (u Unit) String() string {
	switch u {
	case MM:
		return "mm"
	case CM:
		return "cm"
	case M:
		return "m"
	case In:
		return "in"
	case Ft:
		return "ft"
	case Yd:
		return "yd"
	}
	return ""
}

// Length returns one of the unit, or 0 for NoUnit.
func (u Unit) Length() Length {
	switch u {
	case MM:
		return Millimetre
	case CM:
		return Centimetre
	case M:
		return Metre
	case In:
		return Inch
	case Ft:
		return Foot
	case Yd:
		return Yard
	}
	return 0
}

// Metric reports whether u is one of the metric units.
func (u Unit) Metric() bool { return u == MM || u == CM || u == M }

// Step returns the finest length that is printed in u: 1 mm in metric units,
// 1/16 in in the others, and 1 nm for NoUnit.
func Step(u Unit) Length {
	switch u {
	case MM, CM, M:
		return Millimetre
	case In, Ft, Yd:
		return Inch / 16
	}
	return Nanometre
}

// ParseUnit reads a unit: its symbol, its name in either number, or a mark
// (', ", the primes, the curly quotes). Letters of either case are taken, as
// no two units differ by case alone; white space around the unit is not.
func ParseUnit(text string) (Unit, bool) {
	switch text {
	case `"`, "″", "”", "''", "′′", "’’":
		return In, true
	case "'", "′", "’":
		return Ft, true
	}
	return wordUnit(text)
}

// wordUnit is ParseUnit for what is written in letters.
func wordUnit(text string) (Unit, bool) {
	var buf [len("millimetres")]byte
	if len(text) > len(buf) {
		return NoUnit, false
	}
	for i := 0; i < len(text); i++ {
		c := text[i]
		if 'A' <= c && c <= 'Z' {
			c += 'a' - 'A'
		}
		buf[i] = c
	}
	switch string(buf[:len(text)]) {
	case "in", "in.", "ins", "ins.", "inch", "inches":
		return In, true
	case "cm", "cm.", "centimetre", "centimetres", "centimeter", "centimeters":
		return CM, true
	case "mm", "mm.", "millimetre", "millimetres", "millimeter", "millimeters":
		return MM, true
	case "m", "m.", "metre", "metres", "meter", "meters":
		return M, true
	case "yd", "yd.", "yds", "yds.", "yard", "yards":
		return Yd, true
	case "ft", "ft.", "foot", "feet":
		return Ft, true
	}
	return NoUnit, false
}

// names pairs the unit names whose number changes with the amount.
var names = [...]struct{ one, many string }{
	{"inch", "inches"},
	{"foot", "feet"},
	{"yard", "yards"},
	{"metre", "metres"},
	{"meter", "meters"},
	{"centimetre", "centimetres"},
	{"centimeter", "centimeters"},
	{"millimetre", "millimetres"},
	{"millimeter", "millimeters"},
}

// agree returns the unit's name as it was written, word, put into the singular
// or the plural where it was written in agreement with its amount. Someone who
// writes "72 inch" is left to it.
func agree(word string, wasOne, isOne bool) string {
	if wasOne == isOne {
		return word
	}
	for _, n := range names {
		if isOne && word == n.many {
			return n.one
		}
		if wasOne && word == n.one {
			return n.many
		}
	}
	return word
}
