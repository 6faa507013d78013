package length

import (
	"math"
	"math/big"
	"testing"
)

// TestUnits checks the sizes of the units against those in NIST Special
// Publication 811, Appendix B.8: inch 2.54 E-02 m, foot 3.048 E-01 m, yard
// 9.144 E-01 m, each exact.
func TestUnits(t *testing.T) {
	for _, c := range []struct {
		u    Unit
		nm   Length
		name string
	}{
		{MM, 1_000_000, "mm"},
		{CM, 10_000_000, "cm"},
		{M, 1_000_000_000, "m"},
		{In, 25_400_000, "in"},
		{Ft, 304_800_000, "ft"},
		{Yd, 914_400_000, "yd"},
		{NoUnit, 0, ""},
	} {
		if c.u.Length() != c.nm || c.u.String() != c.name {
			t.Errorf("%v is %q of %d nm, want %q of %d", c.u, c.u.String(), c.u.Length(), c.name, c.nm)
		}
		if c.u != NoUnit {
			if got, ok := ParseUnit(c.name); got != c.u || !ok {
				t.Errorf("ParseUnit(%q) = %v, %v", c.name, got, ok)
			}
			if c.u.Length()%Step(c.u) != 0 {
				t.Errorf("one %v is no number of steps", c.u)
			}
		}
	}
	for _, u := range Units {
		if u.Metric() != (u.Length()%Centimetre == 0 && u.Length()%Inch != 0 || u == MM) {
			t.Errorf("%v: Metric() = %v", u, u.Metric())
		}
	}
}

func TestParseUnit(t *testing.T) {
	for _, c := range []struct {
		words []string
		want  Unit
	}{
		{[]string{"in", "in.", "ins", "inch", "inches", "IN", "Inches", `"`, "″", "”", "''", "′′", "’’"}, In},
		{[]string{"ft", "ft.", "foot", "feet", "FEET", "'", "′", "’"}, Ft},
		{[]string{"yd", "yd.", "yds", "yard", "yards"}, Yd},
		{[]string{"mm", "MM", "millimetre", "millimetres", "millimeter", "Millimeters"}, MM},
		{[]string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}, CM},
		{[]string{"m", "M", "metre", "metres", "meter", "meters"}, M},
		{[]string{"", " in", "in ", "i", "inchs", "km", "µm", "'\"", "'''", "yards.", "m2", "millimetresx", "centimetress"}, NoUnit},
	} {
		for _, w := range c.words {
			if got, ok := ParseUnit(w); got != c.want || ok != (c.want != NoUnit) {
				t.Errorf("ParseUnit(%q) = %v, %v, want %v", w, got, ok, c.want)
			}
		}
	}
}

func TestRound(t *testing.T) {
	for _, c := range []struct {
		l, step           Length
		nearest, up, down Length
	}{
		{14, 10, 10, 20, 10},
		{15, 10, 20, 20, 10},
		{16, 10, 20, 20, 10},
		{-14, 10, -10, -10, -20},
		{-15, 10, -20, -10, -20},
		{20, 10, 20, 20, 20},
		{0, 10, 0, 0, 0},
		{7, 0, 7, 7, 7},
		{7, -3, 7, 7, 7},
		{math.MaxInt64, 10, math.MaxInt64, math.MaxInt64, math.MaxInt64 - 7},
	} {
		for r, want := range map[Rounding]Length{Nearest: c.nearest, Up: c.up, Down: c.down} {
			if got := c.l.Round(c.step, r); got != want {
				t.Errorf("%d to %d, %v: %d, want %d", c.l, c.step, r, got, want)
			}
		}
	}
}

func TestDivide(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want Length
	}{
		{"nearest", Length(10).Div(4, Nearest), 3},
		{"nearest of a negative", Length(-10).Div(4, Nearest), -3},
		{"up", Length(10).Div(3, Up), 4},
		{"up of a negative", Length(-10).Div(3, Up), -3},
		{"down", Length(10).Div(3, Down), 3},
		{"down of a negative", Length(-10).Div(3, Down), -4},
		{"by a negative", Length(10).Div(-3, Down), -4},
		{"exact", Length(9).Div(3, Up), 3},
		{"the end of the range", Length(math.MinInt64).Div(-1, Nearest), math.MaxInt64},
		{"times", Inch.Mul(72), 2 * Yard},
		{"times too much", Max.Mul(1e9), math.MaxInt64},
		{"times too much below", Max.Mul(-1e9), math.MinInt64},
		{"the largest that the doc names", Max.Mul(900_000), Max * 900_000},
		{"fullness", (226 * Centimetre).MulRatio(NewRatio(9, 4), Nearest), 508_5 * Millimetre},
		{"shrinkage", (97 * Inch).QuoRatio(NewRatio(97, 100), Up), 100 * Inch},
		{"a third, up", Inch.QuoRatio(NewRatio(3, 1), Up), 8_466_667},
		{"a third, down", Inch.QuoRatio(NewRatio(3, 1), Down), 8_466_666},
		{"by the zero Ratio", Inch.MulRatio(Ratio{}, Nearest), 0},
		{"too much", Max.MulRatio(NewRatio(math.MaxInt64, 1), Nearest), math.MaxInt64},
		{"too much below", Max.QuoRatio(NewRatio(-1, math.MaxInt64), Nearest), math.MinInt64},
	} {
		if c.got != c.want {
			t.Errorf("%s: %d, want %d", c.name, c.got, c.want)
		}
	}
}

func TestCeilFloorDiv(t *testing.T) {
	for _, c := range []struct {
		a, b        Length
		ceil, floor int64
	}{
		{0, 5, 0, 0},
		{1, 5, 1, 0},
		{5, 5, 1, 1},
		{6, 5, 2, 1},
		{-1, 5, 0, -1},
		{-5, 5, -1, -1},
		{-6, 5, -1, -2},
		{math.MinInt64, 1, math.MinInt64, math.MinInt64},
		{math.MaxInt64, 1, math.MaxInt64, math.MaxInt64},
	} {
		if got := CeilDiv(c.a, c.b); got != c.ceil {
			t.Errorf("CeilDiv(%d, %d) = %d, want %d", c.a, c.b, got, c.ceil)
		}
		if got := FloorDiv(c.a, c.b); got != c.floor {
			t.Errorf("FloorDiv(%d, %d) = %d, want %d", c.a, c.b, got, c.floor)
		}
	}
}

// TestDividingByZero checks that it panics, as the documentation says.
func TestDividingByZero(t *testing.T) {
	for name, divide := range map[string]func(){
		"Div":      func() { Inch.Div(0, Nearest) },
		"QuoRatio": func() { Inch.QuoRatio(Ratio{}, Nearest) },
		"CeilDiv":  func() { CeilDiv(Inch, 0) },
		"FloorDiv": func() { FloorDiv(Inch, -1) },
		"NewRatio": func() { NewRatio(1, 0) },
		"RatioOf":  func() { RatioOf(Inch, 0) },
		"Quo":      func() { NewRatio(1, 2).Quo(Ratio{}) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s does not panic", name)
				}
			}()
			divide()
		}()
	}
}

func TestMulDivRefuses(t *testing.T) {
	for _, c := range [][3]int64{
		{1, 1, 0},
		{math.MaxInt64, 2, 1},
		{math.MinInt64, 1, -1},
		{math.MinInt64, math.MinInt64, 1},
	} {
		if got, ok := MulDiv(c[0], c[1], c[2], Nearest); ok {
			t.Errorf("MulDiv(%d, %d, %d) = %d", c[0], c[1], c[2], got)
		}
	}
}

// FuzzMulDiv compares MulDiv with arithmetic of any size.
func FuzzMulDiv(f *testing.F) {
	ends := []int64{math.MinInt64, math.MinInt64 + 1, -7, -1, 0, 1, 2, 3, 1 << 32, math.MaxInt64}
	for _, a := range ends {
		for _, b := range ends {
			for _, c := range ends {
				f.Add(a, b, c, uint8(a^b^c)%3)
			}
		}
	}
	f.Fuzz(func(t *testing.T, a, b, c int64, r uint8) {
		rd := Rounding(r % 3)
		got, ok := MulDiv(a, b, c, rd)
		if c == 0 {
			if ok {
				t.Fatal("divided by zero")
			}
			return
		}
		p := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
		want := bigDiv(p, big.NewInt(c), rd)
		if want.IsInt64() != ok || ok && want.Int64() != got {
			t.Fatalf("MulDiv(%d, %d, %d, %v) = %d, %v, want %v", a, b, c, rd, got, ok, want)
		}
	})
}

// bigDiv is division with the rounding named.
func bigDiv(a, b *big.Int, r Rounding) *big.Int {
	if b.Sign() < 0 {
		a, b = new(big.Int).Neg(a), new(big.Int).Neg(b)
	}
	floor, rem := new(big.Int).DivMod(a, b, new(big.Int))
	twice := new(big.Int).Lsh(rem, 1).Cmp(b)
	if r == Up && rem.Sign() != 0 || r == Nearest && (twice > 0 || twice == 0 && a.Sign() > 0) {
		floor.Add(floor, big.NewInt(1))
	}
	return floor
}
