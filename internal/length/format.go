package length

import "strconv"

// Format writes l as reports do, with the unit after a space: inches as a
// reduced fraction to 1/16 ("14 1/4 in"), metric lengths as a decimal to 1 mm
// without trailing zeros ("25.5 cm"), under half a metre never in metres. Yards are a fraction whose denominator is
// 2, 3, 4 or 8 ("5 1/4 yd"), or yards and inches where none is exact; feet are
// feet and inches. What is finer than [Step] is rounded by r. With NoUnit it is
// [Length.String].
func (l Length) Format(u Unit, r Rounding) string {
	if u == NoUnit {
		return l.String()
	}
	l = l.Round(Step(u), r)
	var buf [64]byte
	b := buf[:0]
	if l < 0 {
		b, l = append(b, '-'), -l
	}
	if u == M && 0 < l && l < Metre/2 {
		u = CM
	}
	switch {
	case u.Metric():
		return string(b) + RatioOf(l, u.Length()).Format(3) + " " + u.String()
	case u == Yd && (l%(Yard/8) == 0 || l%(Yard/3) == 0):
		return string(append(appendMixed(b, l, Yard), " yd"...))
	}
	if u != In {
		if n := l / u.Length(); n > 0 || l == 0 {
			b = strconv.AppendInt(b, int64(n), 10)
			b = append(b, ' ')
			b = append(b, u.String()...)
			if l %= u.Length(); l == 0 {
				return string(b)
			}
			b = append(b, ' ')
		}
	}
	return string(append(appendMixed(b, l, Inch), " in"...))
}

// appendMixed appends l, which must not be negative, as a whole number of
// units and a reduced fraction.
func appendMixed(b []byte, l, unit Length) []byte {
	n, rest := l/unit, l%unit
	if n > 0 || rest == 0 {
		b = strconv.AppendInt(b, int64(n), 10)
	}
	if rest == 0 {
		return b
	}
	if n > 0 {
		b = append(b, ' ')
	}
	q := RatioOf(rest, unit)
	b = strconv.AppendInt(b, q.Num, 10)
	b = append(b, '/')
	return strconv.AppendInt(b, q.Den, 10)
}

// String returns l exactly, in millimetres: "361.95 mm".
func (l Length) String() string { return RatioOf(l, Millimetre).Format(6) + " mm" }
