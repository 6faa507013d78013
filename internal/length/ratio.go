package length

import (
	"math"
	"math/big"
	"math/bits"
	"strconv"
	"unicode/utf8"
)

// Ratio is an exact ratio of two whole numbers, such as a fullness or a
// shrinkage.
//
// A Ratio made by this package is reduced and its Den is above zero; zero is
// 0/1. The zero value is zero too, a Den of 0 being read as 1, so Ratios are
// compared with [Ratio.Cmp] and [Ratio.IsZero] rather than with ==.
//
// A result whose reduced numerator or denominator does not fit an int64 is the
// nearest ratio that does. That takes numbers far beyond any that
// [ParseRatio] and a few steps of working give.
type Ratio struct{ Num, Den int64 }

// den returns r.Den, 0 being read as 1.
func (r Ratio) den() int64 {
	if r.Den == 0 {
		return 1
	}
	return r.Den
}

// NewRatio returns num over den, reduced. It panics if den is zero.
func NewRatio(num, den int64) Ratio {
	if den == 0 {
		panic("length: Ratio over zero")
	}
	if num == 0 {
		return Ratio{0, 1}
	}
	if den == 1 {
		return Ratio{num, 1}
	}
	n, d := magnitude(num), magnitude(den)
	g := GCD(n, d)
	n, d = n/g, d/g
	q, ok := signed(n, (num < 0) != (den < 0))
	if !ok || d > math.MaxInt64 {
		return nearestRatio(big.NewRat(num, den))
	}
	return Ratio{q, int64(d)}
}

// RatioOf returns a over b. It panics if b is zero.
func RatioOf(a, b Length) Ratio { return NewRatio(int64(a), int64(b)) }

// IsZero reports whether r is zero.
func (r Ratio) IsZero() bool { return r.Num == 0 }

// Neg returns r with its sign changed.
func (r Ratio) Neg() Ratio {
	if r.Num == math.MinInt64 {
		return NewRatio(math.MinInt64, -r.den())
	}
	return Ratio{-r.Num, r.den()}
}

// Cmp returns -1, 0 or +1 as r is less than, equal to or more than o. It is
// exact.
func (r Ratio) Cmp(o Ratio) int {
	a, b := sign(r.Num), sign(o.Num)
	if a != b || a == 0 {
		return sign(int64(a - b))
	}
	hi, lo := bits.Mul64(magnitude(r.Num), magnitude(o.den()))
	ohi, olo := bits.Mul64(magnitude(o.Num), magnitude(r.den()))
	switch {
	case hi == ohi && lo == olo:
		return 0
	case hi < ohi || hi == ohi && lo < olo:
		return -a
	}
	return a
}

func sign(n int64) int {
	switch {
	case n < 0:
		return -1
	case n > 0:
		return 1
	}
	return 0
}

// Add returns r plus o.
func (r Ratio) Add(o Ratio) Ratio {
	if r.den() == 1 && o.den() == 1 {
		if sum := r.Num + o.Num; (sum > r.Num) == (o.Num > 0) {
			return Ratio{sum, 1}
		}
	}
	a, ok1 := product(r.Num, o.den())
	b, ok2 := product(o.Num, r.den())
	d, ok3 := product(r.den(), o.den())
	sum := a + b
	wrapped := (a < 0) == (b < 0) && (sum < 0) != (a < 0)
	if ok1 && ok2 && ok3 && !wrapped {
		return NewRatio(sum, d)
	}
	return nearestRatio(new(big.Rat).Add(r.rat(), o.rat()))
}

// Sub returns r minus o.
func (r Ratio) Sub(o Ratio) Ratio {
	if o.Num == math.MinInt64 { // which Neg cannot turn round
		return nearestRatio(new(big.Rat).Sub(r.rat(), o.rat()))
	}
	return r.Add(o.Neg())
}

// Mul returns r times o.
func (r Ratio) Mul(o Ratio) Ratio {
	n, ok1 := product(r.Num, o.Num)
	d, ok2 := product(r.den(), o.den())
	if ok1 && ok2 {
		return NewRatio(n, d)
	}
	return nearestRatio(new(big.Rat).Mul(r.rat(), o.rat()))
}

// product returns a times b, and reports whether it fits.
func product(a, b int64) (int64, bool) {
	hi, lo := bits.Mul64(magnitude(a), magnitude(b))
	p, ok := signed(lo, (a < 0) != (b < 0))
	return p, ok && hi == 0
}

// Quo returns r divided by o. It panics if o is zero.
func (r Ratio) Quo(o Ratio) Ratio {
	if o.Num == 0 {
		panic("length: Ratio divided by zero")
	}
	if o.Num == math.MinInt64 { // which is no denominator
		return nearestRatio(new(big.Rat).Quo(r.rat(), o.rat()))
	}
	if n, ok1 := product(r.Num, o.den()); ok1 {
		if d, ok2 := product(r.den(), o.Num); ok2 {
			return NewRatio(n, d)
		}
	}
	return nearestRatio(new(big.Rat).Quo(r.rat(), o.rat()))
}

// Int returns the whole number that rd chooses for r.
func (r Ratio) Int(rd Rounding) int64 {
	if r.den() == 1 {
		return r.Num
	}
	n, ok := MulDiv(r.Num, 1, r.den(), rd)
	if !ok {
		return saturated(r.Num < 0)
	}
	return n
}

// rat returns r as a number of any size.
func (r Ratio) rat() *big.Rat { return big.NewRat(r.Num, r.den()) }

// nearestRatio returns the Ratio nearest to x: x itself if it fits.
func nearestRatio(x *big.Rat) Ratio {
	if x.Num().IsInt64() && x.Denom().IsInt64() {
		return Ratio{x.Num().Int64(), x.Denom().Int64()}
	}
	limit := big.NewInt(math.MaxInt64)
	negative := x.Sign() < 0
	n, d := new(big.Int).Abs(x.Num()), new(big.Int).Set(x.Denom())
	// The convergents p/q of the continued fraction of n/d come nearer and
	// nearer to it; the last step is cut to the longest one that still fits.
	p0, q0, p1, q1 := big.NewInt(0), big.NewInt(1), big.NewInt(1), big.NewInt(0)
	for d.Sign() != 0 {
		a, rem := new(big.Int).QuoRem(n, d, new(big.Int))
		k := new(big.Int).Set(a)
		for _, c := range [...][2]*big.Int{{p0, p1}, {q0, q1}} {
			if c[1].Sign() == 0 {
				continue
			}
			room := new(big.Int).Sub(limit, c[0])
			if room.Quo(room, c[1]); room.Cmp(k) < 0 {
				k = room
			}
		}
		p2 := new(big.Int).Mul(k, p1)
		q2 := new(big.Int).Mul(k, q1)
		p2.Add(p2, p0)
		q2.Add(q2, q0)
		if k.Cmp(a) < 0 {
			if q1.Sign() == 0 || nearer(x, p2, q2, p1, q1) {
				p1, q1 = p2, q2
			}
			break
		}
		p0, q0, p1, q1 = p1, q1, p2, q2
		n, d = d, rem
	}
	r := Ratio{p1.Int64(), q1.Int64()}
	if negative {
		r.Num = -r.Num
	}
	return r
}

// nearer reports whether p/q lies nearer to |x| than o/m does.
func nearer(x *big.Rat, p, q, o, m *big.Int) bool {
	if q.Sign() == 0 {
		return false
	}
	x = new(big.Rat).Abs(x)
	a := new(big.Rat).SetFrac(p, q)
	b := new(big.Rat).SetFrac(o, m)
	return a.Sub(a, x).Abs(a).Cmp(b.Sub(b, x).Abs(b)) < 0
}

// GCD is the greatest common divisor of two numbers, neither of which is negative.
func GCD[T int64 | uint64](a, b T) T {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// Format returns r as a decimal of at most places, from 0 to 18, rounded half
// away from zero, without trailing zeros.
func (r Ratio) Format(places int) string { return r.decimal(places, Nearest) }

// String returns r as a decimal of at most four places, or as a fraction if
// that is not exact.
func (r Ratio) String() string {
	if 10_000%r.den() == 0 {
		return r.Format(4)
	}
	return strconv.FormatInt(r.Num, 10) + "/" + strconv.FormatInt(r.den(), 10)
}

// Percent returns r in hundredths, with at most two places: "3%", "2.5%".
func (r Ratio) Percent() string { return r.Mul(Ratio{100, 1}).Format(2) + "%" }

// decimal is Format with the rounding named.
func (r Ratio) decimal(places int, rd Rounding) string {
	places = min(max(places, 0), len(pow10)-1)
	d := magnitude(r.den())
	n := magnitude(r.Num)
	w, rem := n/d, n%d
	// rem is less than d, so the quotient is at most the power of ten.
	hi, lo := bits.Mul64(rem, uint64(pow10[places]))
	dec, over := bits.Div64(hi, lo, d)
	if over != 0 && away(over, d, r.Num < 0, rd) {
		dec++
	}
	if dec == uint64(pow10[places]) {
		w, dec = w+1, 0
	}
	var buf [48]byte
	b := buf[:0]
	if r.Num < 0 && w|dec != 0 {
		b = append(b, '-')
	}
	b = strconv.AppendUint(b, w, 10)
	if dec != 0 {
		b = append(b, '.')
		for p := places - 1; p > 0 && dec < uint64(pow10[p]); p-- {
			b = append(b, '0')
		}
		b = strconv.AppendUint(b, dec, 10)
		for b[len(b)-1] == '0' {
			b = b[:len(b)-1]
		}
	}
	return string(b)
}

const wantRatio = "a plain number such as 2.25 or 2 1/4"

// ParseRatio reads a plain number: a decimal with a point or a comma, a
// fraction, a mixed number, with or without an x or a × after it. A percent is
// refused with kind ErrPercent, as "150%" more may mean 1.5 or 2.5; the caller
// knows what to say. Other errors are an [*Error] of kind ErrSyntax, ErrUnit,
// ErrRange, ErrZeroDenominator or ErrEmpty.
func ParseRatio(text string) (Ratio, error) {
	r, after, err := scanRatio(text, wantRatio)
	if err != nil {
		return Ratio{}, err
	}
	switch after {
	case "", "x", "X", "×":
		return r, nil
	}
	if isPercent(after) {
		return Ratio{}, &Error{Kind: ErrPercent, Text: text, Word: after, Want: wantRatio}
	}
	return Ratio{}, unitError(text, after, wantRatio)
}

const wantPercent = "a percentage such as 3% or 2.5%"

// ParsePercent reads a percent, with its sign, the word, or neither, and
// returns it as a part of one: "3%" is 3/100. An error is an [*Error] of kind
// ErrSyntax, ErrUnit, ErrRange, ErrZeroDenominator or ErrEmpty.
func ParsePercent(text string) (Ratio, error) {
	r, after, err := scanRatio(text, wantPercent)
	if err != nil {
		return Ratio{}, err
	}
	if after != "" && !isPercent(after) {
		return Ratio{}, unitError(text, after, wantPercent)
	}
	if d, ok := MulDiv(r.den(), 100, 1, Nearest); ok {
		return NewRatio(r.Num, d), nil
	}
	return Ratio{}, &Error{Kind: ErrRange, Text: text, Want: wantPercent}
}

func isPercent(s string) bool { return s == "%" || s == "percent" || s == "per cent" }

// unitError says that something other than the expected follows a number.
func unitError(text, after, want string) error {
	k := ErrSyntax
	if r, _ := utf8.DecodeRuneInString(after); isUnitStart(r) {
		k = ErrUnit
	}
	return &Error{Kind: k, Text: text, Word: after, Want: want}
}

// scanRatio reads a signed number and returns what follows it, trimmed.
func scanRatio(text, want string) (Ratio, string, error) {
	i := skipSpace(text, 0)
	if i == len(text) {
		return Ratio{}, "", &Error{Kind: ErrEmpty, Text: text, Want: want}
	}
	negative := false
	if r, size := utf8.DecodeRuneInString(text[i:]); isMinus(r) {
		negative = true
		i += size
	}
	var n Number
	i, err := n.scan(text, i)
	if err != nil {
		err.Text = text
		if err.Want == wantNumber {
			err.Want = want
		}
		return Ratio{}, "", err
	}
	// A whole number and decimals of 18 digits each do not fit together.
	if n.den > 0 && n.whole > (math.MaxInt64-n.num)/n.den {
		return Ratio{}, "", &Error{Kind: ErrRange, Text: text, Want: want}
	}
	r := n.Value()
	if negative {
		r = r.Neg()
	}
	return r, trimSpace(text[skipSpace(text, i):]), nil
}

// trimSpace returns s without the white space at its end.
func trimSpace(s string) string {
	for s != "" {
		r, size := utf8.DecodeLastRuneInString(s)
		if !isSpace(r) {
			break
		}
		s = s[:len(s)-size]
	}
	return s
}
