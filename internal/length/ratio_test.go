package length

import (
	"errors"
	"math"
	"math/big"
	"testing"
)

func TestParseRatio(t *testing.T) {
	for _, c := range []struct {
		text string
		want Ratio
	}{
		{"2.25", Ratio{9, 4}},
		{"2,25", Ratio{9, 4}},
		{"2 1/4", Ratio{9, 4}},
		{"2¼", Ratio{9, 4}},
		{"5/2", Ratio{5, 2}},
		{"2.5x", Ratio{5, 2}},
		{"2.5 X", Ratio{5, 2}},
		{"2.5 ×", Ratio{5, 2}},
		{" 2 \u00a0", Ratio{2, 1}},
		{"0", Ratio{0, 1}},
		{"-0", Ratio{0, 1}},
		{"-1.5", Ratio{-3, 2}},
		{"−1/2", Ratio{-1, 2}},
		{"1/3", Ratio{1, 3}},
		{"1.000", Ratio{1, 1}},
		{"999999999999999999", Ratio{999999999999999999, 1}},
	} {
		if got, err := ParseRatio(c.text); err != nil || got != c.want {
			t.Errorf("ParseRatio(%q) = %v, %v, want %v", c.text, got, err, c.want)
		}
	}
	for text, kind := range map[string]Kind{
		"":                          ErrEmpty,
		"  ":                        ErrEmpty,
		"150%":                      ErrPercent,
		"150 percent":               ErrPercent,
		"150 per cent":              ErrPercent,
		"double":                    ErrSyntax,
		"2..5":                      ErrSyntax,
		"2.5.1":                     ErrSyntax,
		"2 3":                       ErrSyntax,
		"2:1":                       ErrSyntax,
		"1,500":                     ErrSyntax,
		"2 in":                      ErrUnit,
		"2xx":                       ErrUnit,
		"1/0":                       ErrZeroDenominator,
		"12345678901234567890":      ErrRange,
		"123456789012.123456789012": ErrRange,
	} {
		var e *Error
		if got, err := ParseRatio(text); !errors.As(err, &e) || e.Kind != kind || e.Text != text || e.Want == "" {
			t.Errorf("ParseRatio(%q) = %v, %v, want kind %d", text, got, err, kind)
		}
	}
}

func TestParsePercent(t *testing.T) {
	for _, c := range []struct {
		text    string
		want    Ratio
		percent string
	}{
		{"3%", Ratio{3, 100}, "3%"},
		{"2.5 %", Ratio{1, 40}, "2.5%"},
		{"2,5%", Ratio{1, 40}, "2.5%"},
		{"3", Ratio{3, 100}, "3%"},
		{"1/2 percent", Ratio{1, 200}, "0.5%"},
		{"100 per cent", Ratio{1, 1}, "100%"},
		{"0%", Ratio{0, 1}, "0%"},
		{"-2%", Ratio{-1, 50}, "-2%"},
		{"33 1/3 %", Ratio{1, 3}, "33.33%"},
	} {
		got, err := ParsePercent(c.text)
		if err != nil || got != c.want {
			t.Errorf("ParsePercent(%q) = %v, %v, want %v", c.text, got, err, c.want)
		}
		if p := got.Percent(); p != c.percent {
			t.Errorf("%v as a percent: %q, want %q", got, p, c.percent)
		}
	}
	for text, kind := range map[string]Kind{
		"": ErrEmpty, "three": ErrSyntax, "3 in": ErrUnit, "3%%": ErrUnit, "1/0%": ErrZeroDenominator,
		"1/999999999999999999": ErrRange, "0.03x": ErrUnit,
	} {
		var e *Error
		if got, err := ParsePercent(text); !errors.As(err, &e) || e.Kind != kind {
			t.Errorf("ParsePercent(%q) = %v, %v, want kind %d", text, got, err, kind)
		}
	}
}

func TestRatioFormat(t *testing.T) {
	for _, c := range []struct {
		r      Ratio
		places int
		want   string
		exact  string
	}{
		{NewRatio(9, 4), 2, "2.25", "2.25"},
		{NewRatio(5, 2), 2, "2.5", "2.5"},
		{NewRatio(3, 1), 2, "3", "3"},
		{NewRatio(1, 3), 2, "0.33", "1/3"},
		{NewRatio(2, 3), 2, "0.67", "2/3"},
		{NewRatio(1, 8), 2, "0.13", "0.125"},
		{NewRatio(-1, 8), 2, "-0.13", "-0.125"},
		{NewRatio(-1, 1000), 2, "0", "-0.001"},
		{NewRatio(999, 1000), 2, "1", "0.999"},
		{NewRatio(1, 100), 2, "0.01", "0.01"},
		{NewRatio(5, 2), 0, "3", "2.5"},
		{NewRatio(5, 2), -1, "3", "2.5"},
		{NewRatio(1, 3), 99, "0.333333333333333333", "1/3"},
		{Ratio{}, 2, "0", "0"},
		{Ratio{7, 0}, 2, "7", "7"},
		{NewRatio(math.MinInt64, 1), 2, "-9223372036854775808", "-9223372036854775808"},
	} {
		if got := c.r.Format(c.places); got != c.want {
			t.Errorf("%d/%d to %d places: %q, want %q", c.r.Num, c.r.Den, c.places, got, c.want)
		}
		if got := c.r.String(); got != c.exact {
			t.Errorf("%d/%d: %q, want %q", c.r.Num, c.r.Den, got, c.exact)
		}
	}
}

func TestRatioArithmetic(t *testing.T) {
	half, third := NewRatio(1, 2), NewRatio(-2, -6)
	for _, c := range []struct {
		name      string
		got, want Ratio
	}{
		{"reduced", third, Ratio{1, 3}},
		{"sign", NewRatio(2, -6), Ratio{-1, 3}},
		{"zero", NewRatio(0, -6), Ratio{0, 1}},
		{"of lengths", RatioOf(Foot, Yard), Ratio{1, 3}},
		{"sum", half.Add(third), Ratio{5, 6}},
		{"difference", third.Sub(half), Ratio{-1, 6}},
		{"product", half.Mul(third), Ratio{1, 6}},
		{"quotient", half.Quo(third.Neg()), Ratio{-3, 2}},
		{"with the zero value", half.Add(Ratio{}), Ratio{1, 2}},
		{"zero value times", half.Mul(Ratio{}), Ratio{0, 1}},
		{"negated zero value", Ratio{}.Neg(), Ratio{0, 1}},
		{"too large", NewRatio(math.MaxInt64, 1).Add(NewRatio(math.MaxInt64, 1)), Ratio{math.MaxInt64, 1}},
		{"too small", NewRatio(1, math.MaxInt64).Mul(NewRatio(1, 2)), Ratio{0, 1}},
		{"nearest to too small", NewRatio(1, math.MaxInt64).Mul(NewRatio(3, 4)), Ratio{1, math.MaxInt64}},
		{"negated end", NewRatio(math.MinInt64, 1).Neg(), Ratio{math.MaxInt64, 1}},
		{"large and still exact", NewRatio(1<<40, 3).Mul(NewRatio(3, 1<<40)), Ratio{1, 1}},
		{"large sum and still exact", NewRatio(1, 1<<40).Add(NewRatio(-1, 1<<40)), Ratio{0, 1}},
	} {
		if c.got != c.want {
			t.Errorf("%s: %d/%d, want %d/%d", c.name, c.got.Num, c.got.Den, c.want.Num, c.want.Den)
		}
	}
	if half.Cmp(third) != 1 || third.Cmp(half) != -1 || half.Cmp(half) != 0 || (Ratio{}).Cmp(Ratio{0, 1}) != 0 ||
		half.Neg().Cmp(third) != -1 || third.Cmp(half.Neg()) != 1 || half.Neg().Cmp(third.Neg()) != -1 {
		t.Error("Cmp orders wrongly")
	}
	if !(Ratio{}).IsZero() || !half.Sub(half).IsZero() || half.IsZero() {
		t.Error("IsZero is wrong")
	}
	for r, want := range map[Rounding]int64{Nearest: -3, Up: -2, Down: -3} {
		if got := NewRatio(-5, 2).Int(r); got != want {
			t.Errorf("-5/2 as a whole number, %v: %d, want %d", r, got, want)
		}
	}
}

// FuzzRatio compares Ratio with arithmetic of any size: exactly where the
// result fits, and by its distance where it does not.
func FuzzRatio(f *testing.F) {
	ends := []int64{math.MinInt64, -1, 0, 1, 3, 1 << 40, math.MaxInt64 - 1, math.MaxInt64}
	for _, a := range ends {
		for _, b := range ends {
			f.Add(a, b, b, a)
			f.Add(a, int64(7), b, int64(math.MaxInt64-24))
		}
	}
	f.Fuzz(func(t *testing.T, a, b, c, d int64) {
		if b == 0 || d == 0 {
			return
		}
		x, y := NewRatio(a, b), NewRatio(c, d)
		check(t, "NewRatio", x, big.NewRat(a, b))
		check(t, "NewRatio", y, big.NewRat(c, d))
		if got, want := x.Cmp(y), x.rat().Cmp(y.rat()); got != want {
			t.Fatalf("Cmp = %d, want %d", got, want)
		}
		check(t, "Add", x.Add(y), new(big.Rat).Add(x.rat(), y.rat()))
		check(t, "Sub", x.Sub(y), new(big.Rat).Sub(x.rat(), y.rat()))
		check(t, "Mul", x.Mul(y), new(big.Rat).Mul(x.rat(), y.rat()))
		if !y.IsZero() {
			check(t, "Quo", x.Quo(y), new(big.Rat).Quo(x.rat(), y.rat()))
		}
		if x.Num > math.MinInt64/2 && x.Num < math.MaxInt64/2 {
			n, ok := new(big.Rat).SetString(x.Format(18))
			if !ok {
				t.Fatalf("Format(18) = %q", x.Format(18))
			}
			off := n.Sub(n, x.rat())
			if off.Abs(off).Cmp(big.NewRat(1, 1e18)) >= 0 {
				t.Fatalf("%v: Format(18) = %q", x.rat(), x.Format(18))
			}
		}
	})
}

// check fails unless got is reduced and as near to want as it can be.
func check(t *testing.T, op string, got Ratio, want *big.Rat) {
	t.Helper()
	if got.Den <= 0 || new(big.Int).GCD(nil, nil, new(big.Int).Abs(big.NewInt(got.Num)), big.NewInt(got.Den)).Cmp(big.NewInt(1)) != 0 {
		t.Fatalf("%s = %d/%d, not reduced", op, got.Num, got.Den)
	}
	if got.rat().Cmp(want) == 0 {
		return
	}
	if want.Num().IsInt64() && want.Denom().IsInt64() {
		t.Fatalf("%s = %d/%d, want %v", op, got.Num, got.Den, want)
	}
	limit := new(big.Rat).SetInt64(math.MaxInt64)
	if want := new(big.Rat).Abs(want); want.Cmp(limit) >= 0 {
		if magnitude(got.Num) < math.MaxInt64 || got.Den != 1 {
			t.Fatalf("%s = %d/%d, want the end of the range", op, got.Num, got.Den)
		}
		return
	}
	// Two neighbours among the ratios that fit are no further apart than one
	// over the largest number that the coarser side allows.
	off := new(big.Rat).Sub(got.rat(), want)
	off.Abs(off)
	bound := new(big.Rat).Abs(want)
	bound.Add(bound, big.NewRat(1, 1))
	bound.Mul(bound, bound)
	if off.Mul(off, limit).Cmp(bound) > 0 {
		t.Fatalf("%s = %d/%d, off %v", op, got.Num, got.Den, want)
	}
}

// TestNearestRatio checks numbers of which one part is past the limit.
func TestNearestRatio(t *testing.T) {
	x := big.NewRat(1, 1)
	x.SetString("3.00000000000000000000000000000000000001")
	if got := nearestRatio(x); got != (Ratio{3, 1}) {
		t.Errorf("%v: %v", x, got)
	}
	x.SetFrac(new(big.Int).Lsh(big.NewInt(1), 70), big.NewInt(3))
	if got := nearestRatio(x); got != (Ratio{math.MaxInt64, 1}) {
		t.Errorf("%v: %v", x, got)
	}
	x.Neg(x)
	if got := nearestRatio(x); got != (Ratio{-math.MaxInt64, 1}) {
		t.Errorf("%v: %v", x, got)
	}
}

func FuzzParseRatio(f *testing.F) {
	for _, text := range []string{"2.25", "2,25", "2 1/4", "5/2", "2.5x", "2.5 ×", "3%", "2.5 %", "-1", "1,500", "⅓", "", "1/0"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ParseRatio(text)
		if err == nil {
			if again, err := ParseRatio(r.String()); r.Num > -1e17 && r.Num < 1e17 && r.Den < 1e17 && (err != nil || again != r) {
				t.Fatalf("%q reads as %v, which reads as %v, %v", text, r, again, err)
			}
		}
		if p, err := ParsePercent(text); err == nil {
			p.Percent()
		}
	})
}
