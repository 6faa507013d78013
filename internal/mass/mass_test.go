package mass

import (
	"errors"
	"math"
	"math/big"
	"testing"

	"cutgate/internal/length"
)

// TestUnits checks the units against NIST Special Publication 811, Appendix
// B.8: pound (avoirdupois) 4.535 924 E-01 kg, ounce (avoirdupois) 2.834 952
// E-02 kg, ounce per square yard 3.390 575 E-02 kg/m2.
func TestUnits(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want int64
	}{
		{"pound", int64(Pound), 453_592_370},
		{"sixteen ounces", int64(Ounce) * 16, 453_592_368},
		{"1 lb", int64(mass(t, "1 lb")), 453_592_370},
		{"1 oz", int64(mass(t, "1 oz")), 28_349_523},
		{"16 oz", int64(mass(t, "16 oz")), 453_592_370},
		{"1 oz/yd2", int64(areal(t, "1 oz/yd2")), 33_905_747},
		{"1000 oz/yd2", int64(areal(t, "200 oz/yd2")) * 5, 33_905_747_475},
		{"1 oz/yd", int64(linear(t, "1 oz/yd")), 31_003_415},
	} {
		if c.got != c.want {
			t.Errorf("%s is %d µg, want %d", c.name, c.got, c.want)
		}
	}
	// 33.9057 g/m2 to the last place given.
	if got := length.NewRatio(int64(areal(t, "1 oz/yd2")), int64(Gram)).Format(4); got != "33.9057" {
		t.Errorf("1 oz/yd2 is %s g/m2, want 33.9057", got)
	}
}

// TestDrapery checks a weight worked out in the trade: 32 yards of cloth 54 in
// wide at 14 oz by the square yard weigh 42 lb (M.Y.L. Ltd., "How to calculate
// drapery weight").
func TestDrapery(t *testing.T) {
	got := areal(t, "14 oz/yd2").Of(54*length.Inch, 32*length.Yard)
	if s := got.Format(false); s != "42 lb" {
		t.Errorf("32 yd of 54 in at 14 oz/yd2 weigh %s, want 42 lb", s)
	}
	if off := got - 42*Pound; off > 50 || off < -50 {
		t.Errorf("%d µg off 42 lb", off)
	}
}

func TestParseMass(t *testing.T) {
	for _, c := range []struct {
		text   string
		want   Mass
		metric bool
	}{
		{"5 kg", 5 * Kilogram, true},
		{"350 g", 350 * Gram, true},
		{"350g", 350 * Gram, true},
		{"1,5 kg", 1500 * Gram, true},
		{"250 mg", 250 * Milligram, true},
		{"2 kilograms", 2 * Kilogram, true},
		{"0.000001 g", Microgram, true},
		{"9 lb", 9 * Pound, false},
		{"9 lbs", 9 * Pound, false},
		{"9 LB.", 9 * Pound, false},
		{"1/2 lb", Pound / 2, false},
		{"1 1/2 lb", 680_388_555, false},
		{"16 oz", Pound, false},
		{"8½ oz", 240_970_947, false},
		{"9 lb 4 oz", 9*Pound + Pound/4 + 1, false},
		{"9lb4oz", 9*Pound + Pound/4 + 1, false},
		{" 5 kg\u00a0", 5 * Kilogram, true},
		{"5\u202fkg", 5 * Kilogram, true},
		{"0 g", 0, true},
		{"100000 kg", MaxMass, true},
	} {
		got, s, err := ParseMass(c.text)
		if err != nil || got != c.want || s.Metric() != c.metric {
			t.Errorf("ParseMass(%q) = %d, %v, %v, want %d", c.text, got, s.Metric(), err, c.want)
		}
	}
}

func TestParseAreal(t *testing.T) {
	for _, c := range []struct {
		texts  []string
		want   Areal
		metric bool
	}{
		{[]string{"240 g/m2", "240 gsm", "240 GSM", "240gsm", "240 g/m²", "240 g/m^2", "240 g / m2", "240 g per m2",
			"240 g/sq m", "240 g per square metre", "0.24 kg/m2", "240 grams per square meter"}, 240_000_000, true},
		{[]string{"7 oz/yd2", "7 oz/yd²", "7 oz/sq yd", "7 oz/sq. yd.", "7 oz per sq yd", "7 oz/square yard", "7 ounces per square yard",
			"7oz/yd2", "7.0 oz/yd2"}, 237_340_232, false},
		{[]string{"1 oz/ft2"}, 305_151_727, false},
		{[]string{"0 g/m2"}, 0, true},
		{[]string{"10 kg/m2"}, MaxAreal, true},
	} {
		for _, text := range c.texts {
			got, s, err := ParseAreal(text)
			if err != nil || got != c.want || s.Metric() != c.metric {
				t.Errorf("ParseAreal(%q) = %d, %v, %v, want %d", text, got, s.Metric(), err, c.want)
			}
		}
	}
}

func TestParseLinear(t *testing.T) {
	for _, c := range []struct {
		texts  []string
		want   Linear
		metric bool
	}{
		{[]string{"50 g/m", "50g/m", "50 g per m", "50 g per metre", "0.05 kg/m", "0.5 g/cm"}, 50_000_000, true},
		{[]string{"35 g per m"}, 35_000_000, true},
		{[]string{"0.5 oz/ft", "1/2 oz/ft", "½ oz per foot", "1.5 oz/yd"}, 46_505_123, false},
		{[]string{"0.5 oz/yd"}, 15_501_708, false},
	} {
		for _, text := range c.texts {
			got, s, err := ParseLinear(text)
			if err != nil || got != c.want || s.Metric() != c.metric {
				t.Errorf("ParseLinear(%q) = %d, %v, %v, want %d", text, got, s.Metric(), err, c.want)
			}
		}
	}
}

func TestErrors(t *testing.T) {
	readMass := func(s string) error { _, _, err := ParseMass(s); return err }
	readAreal := func(s string) error { _, _, err := ParseAreal(s); return err }
	readLinear := func(s string) error { _, _, err := ParseLinear(s); return err }
	for _, c := range []struct {
		name string
		read func(string) error
		text string
		kind length.Kind
		word string
	}{
		{"empty", readMass, " ", length.ErrEmpty, ""},
		{"no number", readMass, "kg", length.ErrSyntax, "kg"},
		{"negative", readMass, "-5 kg", length.ErrSyntax, "-5"},
		{"thousands", readMass, "1,500 g", length.ErrSyntax, "1,500"},
		{"over zero", readMass, "1/0 g", length.ErrZeroDenominator, "1/0"},
		{"no unit", readMass, "5", length.ErrUnit, ""},
		{"length", readMass, "5 cm", length.ErrUnit, "cm"},
		{"percent", readMass, "5%", length.ErrUnit, "%"},
		{"by length", readMass, "50 g/m", length.ErrUnit, "g/m"},
		{"more after it", readMass, "5 kg )", length.ErrUnit, "kg )"},
		{"mark after it", readMass, "5)", length.ErrSyntax, ")"},
		{"too heavy", readMass, "100001 kg", length.ErrRange, ""},
		{"far too heavy", readMass, "999999999999999999 kg", length.ErrRange, ""},
		{"too many digits", readMass, "9999999999999999999 kg", length.ErrRange, "9999999999999999999"},
		{"half pounds and ounces", readMass, "1/2 lb 4 oz", length.ErrSyntax, ""},
		{"sixteen ounces over", readMass, "9 lb 16 oz", length.ErrSyntax, ""},
		{"pounds and ounces too heavy", readMass, "900000 lb 3 oz", length.ErrRange, ""},
		{"ounces and pounds", readMass, "9 oz 4 lb", length.ErrUnit, "oz 4 lb"},
		{"areal: ounces by the yard", readAreal, "7 oz/yd", length.ErrUnit, "oz/yd"},
		{"areal: ounces alone", readAreal, "7 oz", length.ErrUnit, "oz"},
		{"areal: no unit", readAreal, "240", length.ErrUnit, ""},
		{"areal: by the inch", readAreal, "7 oz/in2", length.ErrUnit, "oz/in2"},
		{"areal: inverted", readAreal, "7 m2/g", length.ErrUnit, "m2/g"},
		{"areal: empty", readAreal, "", length.ErrEmpty, ""},
		{"areal: too heavy", readAreal, "11 kg/m2", length.ErrRange, ""},
		{"linear: by area", readLinear, "50 g/m2", length.ErrUnit, "g/m2"},
		{"linear: alone", readLinear, "50 g", length.ErrUnit, "g"},
		{"linear: gsm", readLinear, "50 gsm", length.ErrUnit, "gsm"},
		{"linear: too heavy", readLinear, "1001 kg/m", length.ErrRange, ""},
	} {
		err := c.read(c.text)
		var e *length.Error
		if !errors.As(err, &e) || e.Kind != c.kind || e.Word != c.word || e.Text != c.text || e.Want == "" {
			t.Errorf("%s: %v (%+v), want kind %d, word %q", c.name, err, e, c.kind, c.word)
		}
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{(4200 * Gram).Format(true), "4.2 kg"},
		{(4236 * Gram).Format(true), "4.24 kg"},
		{(14236 * Gram).Format(true), "14.2 kg"},
		{(350 * Gram).Format(true), "350 g"},
		{(999*Gram + 600*Milligram).Format(true), "1 kg"},
		{(9*Gram + 940*Milligram).Format(true), "9.9 g"},
		{(9*Gram + 960*Milligram).Format(true), "10 g"},
		{(-350 * Gram).Format(true), "-350 g"},
		{Mass(-1).Format(true), "0 g"},
		{Mass(0).Format(true), "0 g"},
		{(9*Pound + Pound/4).Format(false), "9 lb 4 oz"},
		{(42 * Pound).Format(false), "42 lb"},
		{(10*Pound - Milligram).Format(false), "10 lb"},
		{(4*Ounce + Ounce/2).Format(false), "4.5 oz"},
		{(Pound - Ounce/50).Format(false), "1 lb"},
		{(Pound - Ounce*6/10).Format(false), "15.4 oz"},
		{(-Pound - Ounce).Format(false), "-1 lb 1 oz"},
		{Mass(-1).Format(false), "0 oz"},
		{Mass(0).Format(false), "0 oz"},
		{Areal(240_000_000).Format(true), "240 g/m2"},
		{Areal(240_000_000).Format(false), "7.1 oz/yd2"},
		{Areal(237_340_232).Format(false), "7 oz/yd2"},
		{Linear(50_000_000).Format(true), "50 g/m"},
		{Linear(5_250_000).Format(true), "5.3 g/m"},
		{Linear(46_505_123).Format(false), "0.5 oz/ft"},
		{Linear(50_000_000).Format(false), "0.54 oz/ft"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

func TestPrint(t *testing.T) {
	for _, c := range []struct {
		like string
		m    Mass
		want string
	}{
		{"5 kg", 4236 * Gram, "4.236 kg"},
		{"5kg", 4200 * Gram, "4.2kg"},
		{"1,5 kg", 4200 * Gram, "4,2 kg"},
		{"350 g", 1234 * Gram, "1234 g"},
		{"350 grams", 12*Gram + 345*Milligram, "12.35 grams"},
		{"350 mg", 12*Gram + 345*Milligram, "12345 mg"},
		{"12 oz", Pound, "16 oz"},
		{"1 1/2 lb", 2*Pound + Pound/4, "2 1/4 lb"},
		{"½ oz", Ounce/4 + 1, "¼ oz"},
		{"2.5 lb", 2*Pound + Pound/8, "2.125 lb"},
		{"9 lb 4 oz", 3*Pound + Pound/2, "3 lb 8 oz"},
		{"9 lb 4.5 oz", 3*Pound + 5*Ounce + Ounce/2, "3 lb 5.5 oz"},
		{"9 lb 4 oz", -3*Pound - Pound/2, "-3 lb 8 oz"},
	} {
		_, s, err := ParseMass(c.like)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.PrintMass(c.m); got != c.want {
			t.Errorf("%d µg like %q: %q, want %q", c.m, c.like, got, c.want)
		}
	}
	_, s, _ := ParseAreal("7 oz/sq yd")
	if got := s.PrintAreal(240_000_000); got != "7.08 oz/sq yd" {
		t.Errorf("240 g/m2 in ounces: %q", got)
	}
	_, s, _ = ParseLinear("35 g per m")
	if got := s.PrintLinear(46_505_123); got != "46.51 g per m" {
		t.Errorf("half an ounce by the foot: %q", got)
	}
	var zero Style
	if got := zero.PrintMass(350 * Gram); got != "350 g" {
		t.Errorf("zero Style: %q", got)
	}
	if got := zero.PrintAreal(240_000_000); got != "240 g/m2" {
		t.Errorf("zero Style: %q", got)
	}
	if got := zero.PrintLinear(50_000_000); got != "50 g/m" {
		t.Errorf("zero Style: %q", got)
	}
	// A Style of another quantity prints in its system.
	if got := s.PrintMass(350 * Gram); got != "350 g" {
		t.Errorf("mass in the Style of a weight per length: %q", got)
	}
}

func TestOf(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want int64
	}{
		{"a square metre", int64(Areal(240_000_000).Of(length.Metre, length.Metre)), 240_000_000},
		{"a strip", int64(Areal(240_000_000).Strip(10 * length.Centimetre)), 24_000_000},
		{"a chain", int64(Linear(50_000_000).Of(226 * length.Centimetre)), 113_000_000},
		{"half up", int64(Areal(1).Of(length.Metre, length.Metre/2)), 1},
		{"half up, below zero", int64(Areal(-1).Of(length.Metre, length.Metre/2)), 0},
		{"just under half", int64(Areal(1).Of(length.Metre, length.Metre/2-1)), 0},
		{"a negative side", int64(Areal(3).Of(-length.Metre, length.Metre)), -3},
		{"the largest", int64(MaxAreal.Of(length.Max, length.Max)), 1_000_000_000_000_000_000},
		{"too large", int64(Areal(math.MaxInt64).Of(length.Max, length.Max)), math.MaxInt64},
		{"far too large", int64(Areal(math.MinInt64).Of(math.MaxInt64, math.MaxInt64)), math.MinInt64},
		{"times", int64((3 * Gram).Times(14)), 42_000_000},
		{"times too many", int64((3 * Kilogram).Times(math.MaxInt64)), math.MaxInt64},
		{"times too many below", int64((3 * Kilogram).Times(math.MinInt64)), math.MinInt64},
	} {
		if c.got != c.want {
			t.Errorf("%s: %d, want %d", c.name, c.got, c.want)
		}
	}
}

// FuzzOf compares the product of three with arithmetic of any size.
func FuzzOf(f *testing.F) {
	f.Add(int64(240_000_000), int64(length.Yard), int64(length.Metre))
	f.Add(int64(MaxAreal), int64(length.Max), int64(-length.Max))
	f.Add(int64(math.MinInt64), int64(math.MinInt64), int64(math.MinInt64))
	f.Add(int64(-1), int64(1e9), int64(5e8))
	f.Add(int64(math.MaxInt64), int64(1e9), int64(1e9))
	f.Fuzz(func(t *testing.T, a, w, l int64) {
		p := new(big.Int).Mul(big.NewInt(a), big.NewInt(w))
		p.Mul(p, big.NewInt(l))
		d := big.NewInt(1e18)
		p.Add(p, big.NewInt(5e17))
		want := p.Div(p, d) // floors, as d is above zero
		got := int64(Areal(a).Of(length.Length(w), length.Length(l)))
		switch {
		case want.IsInt64() && want.Int64() > math.MinInt64:
			if got != want.Int64() {
				t.Fatalf("%d by %d by %d: %d, want %v", a, w, l, got, want)
			}
		case got != math.MaxInt64 && got != math.MinInt64 || (got < 0) != (want.Sign() < 0):
			t.Fatalf("%d by %d by %d: %d, want the end of the range", a, w, l, got)
		}
	})
}

// FuzzParse checks that any text is read without a panic, and that what is
// read prints to a text that is read as nearly the same.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"5 kg", "350 g", "9 lb 4 oz", "8½ oz", "1,5 kg", "240 g/m2", "240 gsm", "7 oz/sq yd", "50 g/m", "0.5 oz/ft",
		"35 g per m", "7 oz/yd", "5", "1/0 g", "-5 kg", "1,500 g", "", "9 lb 4.5 oz", "1/3 oz", "0,125 kg", "1,1250 kg",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if m, s, err := ParseMass(text); err == nil {
			if got, _, err := ParseMass(s.PrintMass(m)); err != nil || far(int64(m), int64(got)) {
				t.Fatalf("%q, %d µg, prints as %q: %d, %v", text, m, s.PrintMass(m), got, err)
			}
			for _, metric := range []bool{true, false} {
				if _, _, err := ParseMass(m.Format(metric)); err != nil && m < MaxMass*99/100 {
					t.Fatalf("%q: %v", text, err)
				}
			}
		}
		if a, s, err := ParseAreal(text); err == nil {
			if got, _, err := ParseAreal(s.PrintAreal(a)); err != nil && a < MaxAreal*99/100 || err == nil && far(int64(a), int64(got)) {
				t.Fatalf("%q, %d µg/m2, prints as %q: %d, %v", text, a, s.PrintAreal(a), got, err)
			}
		}
		if k, s, err := ParseLinear(text); err == nil {
			if got, _, err := ParseLinear(s.PrintLinear(k)); err != nil && k < MaxLinear*99/100 || err == nil && far(int64(k), int64(got)) {
				t.Fatalf("%q, %d µg/m, prints as %q: %d, %v", text, k, s.PrintLinear(k), got, err)
			}
		}
	})
}

// far reports whether two values differ by more than the coarsest manner of
// printing rounds away: a sixteenth of a pound in a fraction, or of an ounce
// by the inch.
func far(a, b int64) bool { return max(a-b, b-a) > int64(3*Ounce) }

func mass(t *testing.T, text string) Mass {
	t.Helper()
	m, _, err := ParseMass(text)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func areal(t *testing.T, text string) Areal {
	t.Helper()
	a, _, err := ParseAreal(text)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func linear(t *testing.T, text string) Linear {
	t.Helper()
	k, _, err := ParseLinear(text)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func BenchmarkParseAreal(b *testing.B) {
	for _, text := range []string{"240 g/m2", "7 oz/yd2"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, _, err := ParseAreal(text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
