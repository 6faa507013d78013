// Package length holds exact lengths and ratios: how they are read from what
// people write, how they are written back, and how they are divided.
//
// Its law: nothing is rounded unless the caller names the rounding. A length
// is a whole number of nanometres, in which every decimal millimetre, foot,
// yard and inch fraction to 1/64 is exact, and a text that is not a whole
// number of nanometres is an error. There is no floating point.
//
// # Ranges
//
// What is read lies within [Max] either way. Products and sums of what was
// read stay far inside an int64; see [Length.Mul]. Operations that could leave
// it stop at the largest or smallest int64 and never wrap. Dividing by zero
// panics, as it does for Go's own integers: the caller has looked.
//
// The package knows nothing of orders, cloth or rounding habits of the trade.
package length

import (
	"math"
	"math/bits"
)

// Length is a length in nanometres.
type Length int64

// The units, exact by definition: the inch is 25.4 mm, the foot 12 inches and
// the yard 3 feet (NIST Special Publication 811, Appendix B.6 and B.8).
const (
	Nanometre  Length = 1
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch              = 25_400 * Micrometre
	Foot              = 12 * Inch
	Yard              = 3 * Foot
)

// Max is the longest length that [Parse] accepts, 10 km, above zero or below.
const Max = 10_000 * Metre

// Rounding says which way an inexact result goes.
type Rounding uint8

const (
	Nearest Rounding = iota // to the nearest, a half away from zero
	Up                      // towards plus infinity
	Down                    // towards minus infinity
)

// String returns the rounding as a word: nearest, up or down.
func (r Rounding) String() string {
	switch r {
	case Up:
		return "up"
	case Down:
		return "down"
	}
	return "nearest"
}

// Round returns the multiple of step that r chooses for l. A step of zero or
// less leaves l as it is.
func (l Length) Round(step Length, r Rounding) Length {
	if step <= 0 || l%step == 0 {
		return l
	}
	n, ok := MulDiv(int64(l), 1, int64(step), r)
	if !ok {
		return l
	}
	return Length(n).Mul(int64(step))
}

// Mul returns l times n. It is exact while the product lies within an int64,
// which holds for |l| up to [Max] and |n| up to 900,000; a larger product
// stops at the largest or the smallest Length.
func (l Length) Mul(n int64) Length {
	p, ok := MulDiv(int64(l), n, 1, Nearest)
	if !ok {
		return Length(saturated((l < 0) != (n < 0)))
	}
	return Length(p)
}

// Div returns l divided by n, rounded to a nanometre by r. It panics if n is
// zero.
func (l Length) Div(n int64, r Rounding) Length {
	if n == 0 {
		panic("length: Div by zero")
	}
	q, ok := MulDiv(int64(l), 1, n, r)
	if !ok {
		return Length(saturated((l < 0) != (n < 0)))
	}
	return Length(q)
}

// MulRatio returns l times q, worked exactly and then rounded to a nanometre
// by r. A product outside an int64 stops at its end.
func (l Length) MulRatio(q Ratio, r Rounding) Length {
	n, ok := MulDiv(int64(l), q.Num, q.den(), r)
	if !ok {
		return Length(saturated((l < 0) != (q.Num < 0)))
	}
	return Length(n)
}

// QuoRatio returns l divided by q, worked exactly and then rounded to a
// nanometre by r. A quotient outside an int64 stops at its end. It panics if q
// is zero.
func (l Length) QuoRatio(q Ratio, r Rounding) Length {
	if q.Num == 0 {
		panic("length: QuoRatio by zero")
	}
	n, ok := MulDiv(int64(l), q.den(), q.Num, r)
	if !ok {
		return Length(saturated((l < 0) != (q.Num < 0)))
	}
	return Length(n)
}

// CeilDiv returns the smallest number of b that together are at least a. It
// panics unless b is above zero.
func CeilDiv(a, b Length) int64 {
	q := FloorDiv(a, b)
	if a%b != 0 {
		q++
	}
	return q
}

// FloorDiv returns the largest number of b that together are at most a, which
// for a negative a is a negative number. It panics unless b is above zero.
func FloorDiv(a, b Length) int64 {
	if b <= 0 {
		panic("length: division by a length that is not above zero")
	}
	q := int64(a / b)
	if a%b < 0 {
		q--
	}
	return q
}

// MulDiv returns a times b divided by c, with a product of 128 bits and one
// rounding at the end. It reports false if c is zero or the result does not
// fit.
func MulDiv(a, b, c int64, r Rounding) (int64, bool) {
	if c == 0 {
		return 0, false
	}
	hi, lo := bits.Mul64(magnitude(a), magnitude(b))
	d := magnitude(c)
	if hi >= d {
		return 0, false
	}
	q, rem := bits.Div64(hi, lo, d)
	negative := (hi|lo) != 0 && ((a < 0) != (b < 0)) != (c < 0)
	if rem != 0 && away(rem, d, negative, r) {
		q++
		if q == 0 {
			return 0, false
		}
	}
	return signed(q, negative)
}

// away reports whether a quotient with remainder rem of d is rounded away from
// zero.
func away(rem, d uint64, negative bool, r Rounding) bool {
	switch r {
	case Up:
		return !negative
	case Down:
		return negative
	}
	return rem >= d-rem
}

// magnitude returns the absolute value of n, which for the smallest int64 does
// not fit an int64.
func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}

// signed returns q with its sign, and reports whether it fits.
func signed(q uint64, negative bool) (int64, bool) {
	if negative {
		return -int64(q), q <= 1<<63
	}
	return int64(q), q <= math.MaxInt64
}

// saturated returns the end of an int64 on one side of zero.
func saturated(negative bool) int64 {
	if negative {
		return math.MinInt64
	}
	return math.MaxInt64
}
