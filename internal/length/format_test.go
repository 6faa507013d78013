package length

import (
	"math"
	"testing"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		l    Length
		u    Unit
		r    Rounding
		want string
	}{
		{14*Inch + Inch/4, In, Nearest, "14 1/4 in"},
		{6 * Inch, In, Nearest, "6 in"},
		{3 * Inch / 8, In, Nearest, "3/8 in"},
		{Inch / 16, In, Nearest, "1/16 in"},
		{0, In, Nearest, "0 in"},
		{-3 * Inch / 8, In, Nearest, "-3/8 in"},
		{-14*Inch - Inch/4, In, Nearest, "-14 1/4 in"},
		{Inch / 32, In, Nearest, "1/16 in"},
		{Inch / 32, In, Down, "0 in"},
		{-Inch / 64, In, Nearest, "0 in"},
		{Inch / 64, In, Up, "1/16 in"},
		{5*Inch + 63*Inch/64, In, Up, "6 in"},
		{137 * Centimetre, CM, Nearest, "137 cm"},
		{255 * Millimetre, CM, Nearest, "25.5 cm"},
		{-255 * Millimetre, CM, Nearest, "-25.5 cm"},
		{150 * Centimetre, M, Nearest, "1.5 m"},
		{1 * Millimetre, M, Nearest, "0.1 cm"},
		{1234 * Millimetre, M, Nearest, "1.234 m"},
		{12 * Millimetre, MM, Nearest, "12 mm"},
		{12*Millimetre + 450*Micrometre, MM, Nearest, "12 mm"},
		{12*Millimetre + 450*Micrometre, MM, Up, "13 mm"},
		{0, CM, Nearest, "0 cm"},
		{5*Yard + Yard/4, Yd, Nearest, "5 1/4 yd"},
		{5 * Yard, Yd, Nearest, "5 yd"},
		{168 * Inch, Yd, Nearest, "4 2/3 yd"},
		{Yard / 8, Yd, Nearest, "1/8 yd"},
		{0, Yd, Nearest, "0 yd"},
		{5*Yard + 3*Inch + Inch/16, Yd, Nearest, "5 yd 3 1/16 in"},
		{3*Inch + Inch/16, Yd, Nearest, "3 1/16 in"},
		{-5*Yard - 3*Inch, Yd, Nearest, "-5 yd 3 in"},
		{6 * Foot, Ft, Nearest, "6 ft"},
		{15 * Millimetre, M, Nearest, "1.5 cm"},
		{-Metre / 4, M, Nearest, "-25 cm"},
		{Metre / 2, M, Nearest, "0.5 m"},
		{0, M, Nearest, "0 m"},
		{74 * Inch, Ft, Nearest, "6 ft 2 in"},
		{2*Inch + Inch/2, Ft, Nearest, "2 1/2 in"},
		{0, Ft, Nearest, "0 ft"},
		{74 * Inch, NoUnit, Nearest, "1879.6 mm"},
	} {
		if got := c.l.Format(c.u, c.r); got != c.want {
			t.Errorf("%v in %v, %v: %q, want %q", c.l, c.u, c.r, got, c.want)
		}
	}
}

func TestString(t *testing.T) {
	for l, want := range map[Length]string{
		14*Inch + Inch/4: "361.95 mm",
		0:                "0 mm",
		-1:               "-0.000001 mm",
		Inch / 64:        "0.396875 mm",
		Max:              "10000000 mm",
	} {
		if got := l.String(); got != want {
			t.Errorf("%d nm: %q, want %q", int64(l), got, want)
		}
	}
}

func TestPrint(t *testing.T) {
	const sixteenth = Inch / 16
	for _, c := range []struct {
		like string
		bare Unit
		l    Length
		r    Rounding
		want string
	}{
		// Inches.
		{"72", In, 14*Inch + Inch/4, Nearest, "14 1/4"},
		{"72", In, 72*Inch + Inch/64, Nearest, "72"},
		{"72", In, 72*Inch + Inch/64, Up, "72 1/16"},
		{"72", In, -6 * Inch, Nearest, "-6"},
		{"72", In, 0, Nearest, "0"},
		{"10 1/2", In, 3 * Inch / 8, Nearest, "3/8"},
		{"10 1/2", In, 6 * Inch, Nearest, "6"},
		{"10-1/2 in", CM, 14*Inch + Inch/4, Nearest, "14-1/4 in"},
		{`10½"`, In, 14*Inch + Inch/4, Nearest, `14¼"`},
		{`10½"`, In, 14*Inch + sixteenth, Nearest, `14 1/16"`},
		{"10 ½", In, 14*Inch + Inch/4, Nearest, "14 ¼"},
		{"½", In, 14*Inch + Inch/4, Nearest, "14¼"},
		{"3/8", In, 14*Inch + Inch/4, Nearest, "14 1/4"},
		{"1⁄2", In, 14*Inch + Inch/4, Nearest, "14 1⁄4"},
		{"10⅟16", In, 14*Inch + sixteenth, Nearest, "14 1/16"},
		{"81in", CM, 14*Inch + Inch/4, Nearest, "14 1/4in"},
		{"81 inches", CM, Inch, Nearest, "1 inch"},
		{"81 inches", CM, Inch / 2, Nearest, "1/2 inch"},
		{"81 inches", CM, 0, Nearest, "0 inches"},
		{"81 inch", CM, 82 * Inch, Nearest, "82 inch"},
		{"1 inch", CM, 82 * Inch, Nearest, "82 inches"},
		{"81 IN.", CM, 82 * Inch, Nearest, "82 IN."},
		{"10.5 in", CM, 14*Inch + sixteenth, Nearest, "14.0625 in"},
		{"10.5 in", CM, 14*Inch + 3*Inch/10, Nearest, "14.3 in"},
		{"10.5 in", CM, 14*Inch + Inch/64, Up, "14.0625 in"},
		{"10,5", In, 14*Inch + Inch/8, Nearest, "14,1250"},
		{".5", In, Inch / 4, Nearest, ".25"},
		{".5", In, Inch + Inch/4, Nearest, "1.25"},
		{"−5", In, -6 * Inch, Nearest, "−6"},
		{"−5", In, 6 * Inch, Nearest, "6"},
		{" 72 ", In, 6 * Inch, Nearest, "6"},
		{"72\u00a0in", CM, 6 * Inch, Nearest, "6\u00a0in"},

		// Metric.
		{"137cm", In, 255 * Millimetre, Nearest, "25.5cm"},
		{"137", CM, 255 * Millimetre, Nearest, "25.5"},
		{"137 cm", In, 255*Millimetre + 400*Micrometre, Nearest, "25.5 cm"},
		{"137 cm", In, 255*Millimetre + 400*Micrometre, Up, "25.6 cm"},
		{"1,5 m", In, 235 * Centimetre, Nearest, "2,35 m"},
		{"1.5 m", In, 2345 * Millimetre, Nearest, "2.345 m"},
		{"1,5 m", In, 2345 * Millimetre, Nearest, "2,3450 m"},
		{"0.45 mm", In, 550 * Micrometre, Nearest, "0.55 mm"},
		{"0.45 mm", In, 555 * Micrometre, Nearest, "1 mm"},
		{"2 1/2 cm", In, 5 * Millimetre, Nearest, "1/2 cm"},
		{"2 1/2 cm", In, 6 * Millimetre, Nearest, "0.6 cm"},
		{"2 metres", In, Metre, Nearest, "1 metre"},
		{"2 m 35 cm", In, 307 * Centimetre, Nearest, "3 m 7 cm"},
		{"2 m 35 cm", In, 3075 * Millimetre, Nearest, "3 m 7.5 cm"},
		{"2 m 35 cm", In, 3 * Metre, Nearest, "3 m"},
		{"2 m 35 cm", In, 7 * Centimetre, Nearest, "7 cm"},
		{"2m35cm", In, -307 * Centimetre, Nearest, "-3m7cm"},

		// Yards.
		{"5 yd", In, 5*Yard + Yard/4, Nearest, "5 1/4 yd"},
		{"5 yd", In, 5*Yard + Inch, Nearest, "5 yd 1 in"},
		{"5 yd", In, 5*Yard + Inch/32, Up, "5 yd 1/16 in"},
		{"5 yards", In, Yard + Inch, Nearest, "1 yard 1 inch"},
		{"3 1/8", Yd, 3*Yard + 17*Inch, Nearest, "3 yd 17 in"},
		{"4 2/3 yd", In, 5*Yard + Yard/3, Nearest, "5 1/3 yd"},
		{"4 2/3 yd", In, 5*Yard + 3*Yard/8, Nearest, "5 3/8 yd"},
		{"4⅔ yards", In, Yard, Nearest, "1 yard"},
		{"5.25 yd", In, 5*Yard + 3*Yard/8, Nearest, "5.375 yd"},
		{"5.25 yd", In, 5*Yard + Yard/3, Nearest, "5 yd 12 in"},
		{"5,25 yd", In, 5*Yard + Inch/2, Nearest, "5 yd 1/2 in"},
		{"3.1", Yd, 3*Yard + 17*Inch, Nearest, "3 yd 17 in"},
		{"2 yd 6 in", In, 75*Inch + Inch/2, Nearest, "2 yd 3 1/2 in"},
		{"2 yd 1 ft 6 in", In, 75 * Inch, Nearest, "2 yd 3 in"},
		{"2 yd 1 ft 6 in", In, 15 * Inch, Nearest, "1 ft 3 in"},
		{"2 yd 1 ft", In, 7*Foot + Foot/2, Nearest, "2 yd 1 1/2 ft"},
		{"2 yd 1 ft", In, 7*Foot + Inch, Nearest, "2 yd 1 ft 1 in"},
		{"2 yd 1 ft", In, 6*Foot + Inch, Nearest, "2 yd 1 in"},

		// Feet and inches.
		{`6' 2"`, In, 75*Inch + Inch/2, Nearest, `6' 3 1/2"`},
		{`6' 2"`, In, 71*Inch + 63*Inch/64, Nearest, `6'`},
		{`6' 2"`, In, 3 * Inch, Nearest, `3"`},
		{`6' 2"`, In, 0, Nearest, `0"`},
		{`6'2"`, In, -75 * Inch, Nearest, `-6'3"`},
		{`6'-2"`, In, 75 * Inch, Nearest, `6'-3"`},
		{"6′ 2½″", In, 75*Inch + Inch/4, Nearest, "6′ 3¼″"},
		{`6' 2.5"`, In, 75*Inch + Inch/4, Nearest, `6' 3.25"`},
		{"6' 2", In, 75 * Inch, Nearest, "6' 3"},
		{"6' 2", In, 3 * Inch, Nearest, "0' 3"},
		{"6' 2", In, 72 * Inch, Nearest, "6'"},
		{"6 ft 2 in", In, 75 * Inch, Nearest, "6 ft 3 in"},
		{"2 feet 1 inch", In, 15 * Inch, Nearest, "1 foot 3 inches"},
		{"6 ft", In, 6*Foot + Foot/2, Nearest, "6 1/2 ft"},
		{"6 ft", In, 74 * Inch, Nearest, "6 ft 2 in"},
		{"6 ft", In, 2*Inch + Inch/2, Nearest, "2 1/2 in"},
		{"6'", In, 74 * Inch, Nearest, `6' 2"`},
		{"6′", In, 74 * Inch, Nearest, "6′ 2″"},
		{"6’", In, 74 * Inch, Nearest, "6’ 2”"},
		{"6 feet", In, 13 * Inch, Nearest, "1 foot 1 inch"},
		{"6", Ft, 74 * Inch, Nearest, "6 ft 2 in"},
		{"6.5 ft", In, 6*Foot + Foot/4, Nearest, "6.25 ft"},
		{"9.4", Ft, 10*Foot + 5*Inch, Nearest, "10 ft 5 in"},
	} {
		_, s, err := Parse(c.like, c.bare)
		if err != nil {
			t.Errorf("Parse(%q): %v", c.like, err)
			continue
		}
		if got := s.Print(c.l, c.r); got != c.want {
			t.Errorf("%v like %q, %v: %q, want %q", c.l, c.like, c.r, got, c.want)
		}
	}
}

func TestStyleOf(t *testing.T) {
	for _, c := range []struct {
		s    Style
		l    Length
		want string
		bare bool
	}{
		{Style{}, 74 * Inch, "1879.6 mm", false},
		{StyleOf(In, false), 14*Inch + Inch/4, "14 1/4 in", false},
		{StyleOf(In, true), 14*Inch + Inch/4, "14 1/4", true},
		{StyleOf(M, true), -255 * Millimetre, "-0.255", true},
		{StyleOf(M, false), 255 * Millimetre, "25.5 cm", false},
		{StyleOf(CM, true), 255 * Millimetre, "25.5", true},
		{StyleOf(Yd, true), 5*Yard + Yard/4, "5 1/4", true},
		{StyleOf(Yd, true), 5*Yard + Inch, "5 yd 1 in", true},
		{StyleOf(Ft, true), 6 * Foot, "6", true},
		{StyleOf(Ft, true), 6*Foot + Inch, "6 ft 1 in", true},
	} {
		if got := c.s.Print(c.l, Nearest); got != c.want || c.s.Bare() != c.bare {
			t.Errorf("%v: %q, want %q", c.l, got, c.want)
		}
	}
}

// FuzzFormat prints lengths of whole steps and reads them back.
func FuzzFormat(f *testing.F) {
	for _, n := range []int64{0, 1, -1, 7, 16, 192, 576, 1000, -12345, math.MaxInt32} {
		for u := range Units {
			f.Add(n, uint8(u))
		}
	}
	f.Fuzz(func(t *testing.T, n int64, unit uint8) {
		u := Units[int(unit)%len(Units)]
		l := Length(n % int64(Max/Step(u))).Mul(int64(Step(u)))
		for _, text := range []string{l.Format(u, Nearest), l.Format(u, Up), l.Format(u, Down), StyleOf(u, true).Print(l, Up)} {
			got, s, err := Parse(text, u)
			if err != nil || got != l {
				t.Fatalf("%v in %v prints as %q, which reads as %v, %v", l, u, text, got, err)
			}
			if again := s.Print(got, Nearest); again != text {
				t.Fatalf("%q prints as %q", text, again)
			}
		}
		if text := l.String(); l >= -Max && l <= Max {
			if got, _, err := Parse(text, NoUnit); err != nil || got != l {
				t.Fatalf("%d nm prints as %q, which reads as %v, %v", int64(l), text, got, err)
			}
		}
	})
}

// FuzzParse checks that any text is read without a panic, that what is read
// and lies on a step of its unit prints to the same length, and that any other
// length prints in that manner to something that reads as what was printed.
func FuzzParse(f *testing.F) {
	for _, text := range spellings {
		f.Add(text, uint8(In), int64(14*Inch+Inch/4))
		f.Add("-"+text, uint8(CM), int64(255*Millimetre))
	}
	for _, text := range []string{
		"", "1,500", "1,1250 m", "⅟16", "6'-2\"", "2 yd 1 ft", "2 yd 1 ft 6 in", "0,125", "1/3 ft", "0.015625 yd",
		"5 kg", "6 ft2", "2⅞ inches", "−.5", "1 foot", "\u202f7\u2009in", "9999999999999999999", "0.45 mm",
		"10.5", "2 1/2 cm", "6' 2", "1/0", "3/64 yd", "1 5⁄12 ft",
	} {
		f.Add(text, uint8(Ft), int64(Yard/3+1))
	}
	f.Fuzz(func(t *testing.T, text string, unit uint8, other int64) {
		bare := Unit(unit % 7)
		l, s, err := Parse(text, bare)
		if err != nil {
			e := err.(*Error)
			if e.Kind == 0 || e.Want == "" || e.Text != text || e.Error() == "" {
				t.Fatalf("Parse(%q): %#v", text, e)
			}
			return
		}
		if l < -Max || l > Max {
			t.Fatalf("Parse(%q) = %v", text, l)
		}
		u := s.Unit()
		own := s.Print(l, Nearest)
		// Yards as fractions are printed to eighths and thirds only.
		onGrid := l%Step(u) == 0 && (u != Yd || l%(Yard/8) == 0 || l%(Yard/3) == 0)
		if onGrid {
			if got, _, err := Parse(own, bare); err != nil || got != l {
				t.Fatalf("%q, %v, prints as %q, which reads as %v, %v", text, l, own, got, err)
			}
		}
		l = Length(other % int64(Max))
		for _, r := range []Rounding{Nearest, Up, Down} {
			out := s.Print(l, r)
			got, _, err := Parse(out, bare)
			if err != nil {
				t.Fatalf("%v like %q prints as %q: %v", l, text, out, err)
			}
			if r == Up && got < l || r == Down && got > l {
				t.Fatalf("%v like %q, %v, prints as %q", l, text, r, out)
			}
			if d := max(got-l, l-got); d > Yard/8 {
				t.Fatalf("%v like %q prints as %q, off by %v", l, text, out, d)
			}
			if once := s.Print(got, r); once != out {
				t.Fatalf("%q like %q prints as %q", out, text, once)
			}
		}
	})
}
