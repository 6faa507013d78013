// Package mass holds the weights of cloth and hardware: a mass, a mass per area
// and a mass per length, how they are read, printed and multiplied out.
//
// Its law: a value is a whole number of micrograms, by the square metre or the
// metre where it is a weight of cloth or tape. Metric values are exact to six
// decimals of a gram. An ounce is 28,349,523.125 µg, so what is written in
// ounces or pounds is rounded once, to the nearest microgram, when it is read;
// nothing is rounded to less than that before it is printed. There is no
// floating point.
//
// The package knows nothing of cloths or of what a rod holds.
package mass

import (
	"math"
	"math/bits"
	"strconv"

	"cutgate/internal/length"
)

// Mass is a mass in micrograms.
type Mass int64

// Areal is a mass per area in micrograms per square metre.
type Areal int64

// Linear is a mass per length in micrograms per metre.
type Linear int64

// The units of mass. The pound is 453.59237 g exactly (NIST Special
// Publication 811, Appendix B.8); Ounce is its sixteenth less an eighth of a
// microgram, so working goes through Pound.
const (
	Microgram Mass = 1
	Milligram      = 1000 * Microgram
	Gram           = 1000 * Milligram
	Kilogram       = 1000 * Gram
	Pound          = 453_592_370 * Microgram
	Ounce          = Pound / 16
)

// The largest values that are read.
const (
	MaxMass   = 100_000 * Kilogram      // 100 t
	MaxAreal  = Areal(10 * Kilogram)    // 10 kg/m2
	MaxLinear = Linear(1000 * Kilogram) // 1000 kg/m
)

// Of returns the mass of a piece w wide and l long, of cloth that weighs a, to
// the nearest microgram, a half upwards. A mass outside an int64 stops at its
// end, which no values that were read can reach.
func (a Areal) Of(w, l length.Length) Mass {
	return Mass(product(int64(a), int64(w), int64(l), 1e18))
}

// Strip returns what a strip depth wide weighs by its length, of cloth that
// weighs a, to the nearest microgram per metre, a half upwards.
func (a Areal) Strip(depth length.Length) Linear {
	return Linear(product(int64(a), int64(depth), 1, 1e9))
}

// Of returns the mass of l of a chain, tape or strip that weighs k, to the
// nearest microgram, a half upwards.
func (k Linear) Of(l length.Length) Mass {
	return Mass(product(int64(k), int64(l), 1, 1e9))
}

// product returns a times b times c divided by d, which is above zero and even,
// to the nearest whole number and a half upwards. It stops at the ends of an
// int64.
func product(a, b, c int64, d uint64) int64 {
	negative := (a < 0) != (b < 0) != (c < 0)
	hi, lo := bits.Mul64(magnitude(a), magnitude(b))
	top, mid := bits.Mul64(hi, magnitude(c))
	over, lo := bits.Mul64(lo, magnitude(c))
	hi, carry := bits.Add64(mid, over, 0)
	if top != 0 || carry != 0 || hi >= d {
		return end(negative)
	}
	q, rem := bits.Div64(hi, lo, d)
	if rem > d/2 || rem == d/2 && !negative {
		q++
	}
	if q > math.MaxInt64 {
		return end(negative)
	}
	if negative {
		return -int64(q)
	}
	return int64(q)
}

func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}

func end(negative bool) int64 {
	if negative {
		return math.MinInt64
	}
	return math.MaxInt64
}

// Times returns n of m. It stops at the ends of an int64.
func (m Mass) Times(n int64) Mass {
	p, ok := length.MulDiv(int64(m), n, 1, length.Nearest)
	if !ok {
		return Mass(end((m < 0) != (n < 0)))
	}
	return Mass(p)
}

// Format writes m as reports do, rounded to the nearest. Metric: kilograms
// with one decimal from 10 kg, with two from 1 kg, grams below that, with one
// decimal under 10 g ("4.2 kg", "350 g"). Otherwise: pounds and whole ounces,
// or ounces with one decimal below a pound ("9 lb 4 oz", "4.5 oz").
func (m Mass) Format(metric bool) string {
	if !metric {
		return pounds(m, 1)
	}
	switch size := max(m, -m); {
	case size >= 10*Kilogram:
		return in(int64(m), kg).Format(1) + " kg"
	case size >= Kilogram-Gram/2:
		return in(int64(m), kg).Format(2) + " kg"
	case size >= 10*Gram:
		return in(int64(m), g).Format(0) + " g"
	}
	return in(int64(m), g).Format(1) + " g"
}

// pounds writes m in pounds and ounces. From a pound up the ounces are counted
// in parts of which there are so many to one; below, in tenths.
func pounds(m Mass, parts int64) string {
	if m < 0 {
		out := pounds(max(-m, 0), parts)
		if out == "0 oz" {
			return out
		}
		return "-" + out
	}
	if n := ounces(m, parts); n >= 16*parts {
		out := strconv.FormatInt(n/(16*parts), 10) + " lb"
		if n %= 16 * parts; n > 0 {
			out += " " + length.NewRatio(n, parts).Format(1) + " oz"
		}
		return out
	}
	return length.NewRatio(ounces(m, 10), 10).Format(1) + " oz"
}

// ounces returns m in parts of an ounce, to the nearest.
func ounces(m Mass, parts int64) int64 {
	return in(int64(m), oz).Mul(length.NewRatio(parts, 1)).Int(length.Nearest)
}

// Format writes a as reports do, rounded to the nearest: whole grams per square
// metre ("240 g/m2") or ounces per square yard with one decimal
// ("7.1 oz/yd2").
func (a Areal) Format(metric bool) string {
	if metric {
		return in(int64(a), gramsPerSquareMetre).Format(0) + " g/m2"
	}
	return in(int64(a), ouncesPerSquareYard).Format(1) + " oz/yd2"
}

// Format writes k as reports do, rounded to the nearest: grams per metre, with
// one decimal under 10 g/m ("50 g/m"), or ounces per foot with two decimals
// ("0.5 oz/ft").
func (k Linear) Format(metric bool) string {
	if !metric {
		return in(int64(k), ouncesPerFoot).Format(2) + " oz/ft"
	}
	places := 0
	if -Linear(10*Gram) < k && k < Linear(10*Gram) {
		places = 1
	}
	return in(int64(k), gramsPerMetre).Format(places) + " g/m"
}

// in returns n micrograms in the unit of so many micrograms.
func in(n int64, unit length.Ratio) length.Ratio { return length.NewRatio(n, 1).Quo(unit) }
