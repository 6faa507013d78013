package length

import (
	"errors"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	const (
		half    = Inch / 2
		quarter = Inch / 4
	)
	for _, c := range []struct {
		text string
		bare Unit
		want Length
	}{
		{"72", In, 72 * Inch},
		{"72", CM, 72 * Centimetre},
		{"72", Yd, 72 * Yard},
		{"0", MM, 0},
		{"007", In, 7 * Inch},
		{"10 1/2", In, 10*Inch + half},
		{"10-1/2 in", CM, 10*Inch + half},
		{"10–1/2", In, 10*Inch + half},
		{`10½"`, CM, 10*Inch + half},
		{"10 ½", In, 10*Inch + half},
		{"10-½", In, 10*Inch + half},
		{"½", In, half},
		{"⅞ in", CM, 7 * Inch / 8},
		{"⅟16", In, Inch / 16},
		{"2⅟16", In, 2*Inch + Inch/16},
		{"10 1⁄2", In, 10*Inch + half},
		{"10 1∕2", In, 10*Inch + half},
		{`6' 2"`, In, 74 * Inch},
		{`6'2"`, In, 74 * Inch},
		{"6′ 2″", CM, 74 * Inch},
		{"6’ 2”", CM, 74 * Inch},
		{"6' 2''", CM, 74 * Inch},
		{"6′2′′", CM, 74 * Inch},
		{`6'-2"`, In, 74 * Inch},
		{`6' - 2 1/4"`, In, 74*Inch + quarter},
		{"6' -2", CM, 74 * Inch},
		{"6 ft 2 in", CM, 74 * Inch},
		{"6ft2in", CM, 74 * Inch},
		{"6 ft. 2 in.", CM, 74 * Inch},
		{"6 feet 2 inches", CM, 74 * Inch},
		{"6' 2", CM, 74 * Inch},
		{"6'2", CM, 74 * Inch},
		{"6 ft 2", CM, 74 * Inch},
		{`6' 2 1/2"`, In, 74*Inch + half},
		{`6' 2½"`, In, 74*Inch + half},
		{`6'½"`, In, 72*Inch + half},
		{`6' 2.5"`, In, 74*Inch + half},
		{"6'", In, 72 * Inch},
		{"81in", CM, 81 * Inch},
		{"81 IN", CM, 81 * Inch},
		{"1.5 m", In, 150 * Centimetre},
		{"1,5 m", In, 150 * Centimetre},
		{".5 m", In, 50 * Centimetre},
		{",5 m", In, 50 * Centimetre},
		{"1.500 m", In, 150 * Centimetre},
		{"1.125", In, Inch + Inch/8},
		{"0,125", In, Inch / 8},
		{"1,50 m", In, 150 * Centimetre},
		{"1,1250 m", In, 1125 * Millimetre},
		{"1000,5 mm", In, 1000*Millimetre + 500*Micrometre},
		{"137cm", In, 137 * Centimetre},
		{"0.45 mm", In, 450 * Micrometre},
		{"5 yd", In, 5 * Yard},
		{"5 yards", In, 5 * Yard},
		{"4 2/3 yd", In, 168 * Inch},
		{"1/3 ft", In, 4 * Inch},
		{"3/8", In, 3 * Inch / 8},
		{"1⁄2", In, half},
		{"5/2", In, 2*Inch + half},
		{"1/64", In, Inch / 64},
		{"2 yd 6 in", CM, 78 * Inch},
		{"2 yd 1 ft 6 in", CM, 90 * Inch},
		{"2 m 35 cm", In, 235 * Centimetre},
		{"2m35cm", In, 235 * Centimetre},
		{"2 m 35 cm 5 mm", In, 2355 * Millimetre},
		{"2 m 3,5 cm", In, 2035 * Millimetre},
		{"  72 in \t", CM, 72 * Inch},
		{"72\u00a0in", CM, 72 * Inch},
		{"\u202f10\u20091/2\u2009in\u00a0", CM, 10*Inch + half},
		{"-5", In, -5 * Inch},
		{"−5 cm", In, -5 * Centimetre},
		{`-6' 2"`, In, -74 * Inch},
		{"-1/2", In, -half},
		{"10000 m", In, Max},
		{"-10000 m", In, -Max},
		{"10000000 mm", In, Max},
		{"0.000001 mm", In, Nanometre},
		{"1.000000000000000000000000000 m", In, Metre},
		{"100000000000000000/100000000000000000", In, Inch},
		{"0.015625", In, Inch / 64},
		{"72 in", NoUnit, 72 * Inch},
	} {
		got, style, err := Parse(c.text, c.bare)
		if err != nil || got != c.want {
			t.Errorf("Parse(%q, %v) = %v, %v, want %v", c.text, c.bare, got, err, c.want)
		}
		if style.Unit() == NoUnit {
			t.Errorf("Parse(%q, %v) gives a Style without a unit", c.text, c.bare)
		}
	}
}

func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		text string
		bare Unit
		kind Kind
		word string
	}{
		{"", In, ErrEmpty, ""},
		{" \u00a0\t", In, ErrEmpty, ""},
		{"about 72", In, ErrSyntax, "about"},
		{"-", In, ErrSyntax, ""},
		{"--5", In, ErrSyntax, "-5"},
		{"- 5", In, ErrSyntax, ""},
		{"+5", In, ErrSyntax, "+5"},
		{"72.", In, ErrSyntax, "72."},
		{"72, in", In, ErrSyntax, "72,"},
		{"/2", In, ErrSyntax, "/2"},
		{"1/", In, ErrSyntax, "1/"},
		{"1/ 2", In, ErrSyntax, "1/"},
		{"1/2/3", In, ErrSyntax, "/3"},
		{"10 5/2", In, ErrSyntax, "5/2"},
		{"10 2/2", In, ErrSyntax, "2/2"},
		{"2⅟1", In, ErrSyntax, "⅟1"},
		{"⅟", In, ErrSyntax, "⅟"},
		{"1.5 1/2", In, ErrSyntax, "1.5 1/2"},
		{"1.5½", In, ErrSyntax, "1.5½"},
		{"72 wide", In, ErrUnit, "wide"},
		{"72 in wide", In, ErrSyntax, "wide"},
		{"72 x 84", In, ErrUnit, "x"},
		{"72 × 84", In, ErrUnit, "×"},
		{"72-84", In, ErrSyntax, "-84"},
		{"6-ft", Ft, ErrSyntax, "-ft"},
		{"(72)", In, ErrSyntax, "(72)"},
		{"72\xff", In, ErrSyntax, "\xff"},

		{"1,500", In, ErrSyntax, "1,500"},
		{"1,500 mm", MM, ErrSyntax, "1,500"},
		{"12,345,678", MM, ErrSyntax, "12,345,678"},
		{"1,500.5", MM, ErrSyntax, "1,500.5"},
		{"1.500,5", MM, ErrSyntax, "1.500,5"},
		{"1 500", MM, ErrSyntax, "1 500"},
		{"1\u202f500 mm", MM, ErrSyntax, "1\u202f500"},
		{"1'500", MM, ErrSyntax, "500"},

		{"72", NoUnit, ErrUnit, ""},
		{"5 kg", In, ErrUnit, "kg"},
		{"3%", In, ErrUnit, "%"},
		{"240 g/m2", In, ErrUnit, "g/m2"},
		{"84cm2", In, ErrUnit, "cm2"},
		{"84 cm²", In, ErrUnit, "cm²"},
		{"6 ft2", In, ErrUnit, "ft2"},
		{"5in2", In, ErrUnit, "in2"},
		{"5 m/s", In, ErrUnit, "m/s"},
		{"40°", In, ErrUnit, "°"},
		{"5 µm", In, ErrUnit, "µm"},
		{"10 km", In, ErrUnit, "km"},
		{"2 m 35", In, ErrUnit, ""},
		{"2 yd 6", In, ErrUnit, ""},

		{"6 in 2 ft", In, ErrSyntax, "2"},
		{"5 in 2", In, ErrSyntax, "2"},
		{"2 m 6 in", In, ErrSyntax, "in"},
		{"2 cm 6 m", In, ErrSyntax, "m"},
		{"2 ft 6 ft", In, ErrSyntax, "ft"},
		{"1/2 ft 3 in", In, ErrSyntax, "1/2 ft"},
		{"1.5 m 3 cm", In, ErrSyntax, "1.5 m"},
		{`6' 12"`, In, ErrSyntax, `12"`},
		{"2 m 100 cm", In, ErrSyntax, "100 cm"},
		{"2 yd 1 ft 6 in 3 in", In, ErrSyntax, "3"},
		{"6' .", In, ErrSyntax, "."},

		{"1/0", In, ErrZeroDenominator, "1/0"},
		{"10 1/0", In, ErrZeroDenominator, "1/0"},
		{"1⅟0", In, ErrZeroDenominator, "⅟0"},

		{"1/3", In, ErrInexact, "1/3"},
		{"10 1/3 in", In, ErrInexact, "10 1/3 in"},
		{"⅓", In, ErrInexact, "⅓"},
		{"1/128", In, ErrInexact, "1/128"},
		{"1.00000001 in", In, ErrInexact, "1.00000001 in"},
		{"1/3 m", In, ErrInexact, "1/3 m"},
		{"999999999999999999/1000000000000000000", In, ErrRange, "999999999999999999/1000000000000000000"},
		{"999999999999999998/999999999999999999", In, ErrInexact, "999999999999999998/999999999999999999"},

		{"10001 m", In, ErrRange, "10001 m"},
		{"10000.001 m", In, ErrRange, "10000.001 m"},
		{"20000000/2 m", In, ErrRange, "20000000/2 m"},
		{"999999999999999999 m", In, ErrRange, "999999999999999999 m"},
		{"9999999999999999999999 m", In, ErrRange, "9999999999999999999999"},
		{"999999999999999999/1", In, ErrRange, "999999999999999999/1"},
		{"10936 yd 2 ft", In, ErrRange, ""},
		{"0.1234567890123456789", In, ErrRange, "0.1234567890123456789"},
	} {
		got, style, err := Parse(c.text, c.bare)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("Parse(%q, %v) = %v, %v, want an Error", c.text, c.bare, got, err)
			continue
		}
		if got != 0 || style != (Style{}) {
			t.Errorf("Parse(%q, %v) fails with %v and %v", c.text, c.bare, got, style)
		}
		// A case whose word is empty leaves it open, but for a missing unit.
		if e.Kind != c.kind || e.Word != c.word && (c.word != "" || c.kind == ErrUnit) {
			t.Errorf("Parse(%q, %v): kind %d, word %q, want %d, %q: %v", c.text, c.bare, e.Kind, e.Word, c.kind, c.word, err)
		}
		if e.Text != c.text || !strings.Contains(c.text, e.Word) {
			t.Errorf("Parse(%q): text %q, word %q", c.text, e.Text, e.Word)
		}
		if e.Want == "" {
			t.Errorf("Parse(%q): %v does not say what was expected", c.text, err)
		}
	}
}

func TestErrorMessages(t *testing.T) {
	for text, want := range map[string]string{
		"":         `nothing is written: want a measurement such as 68, 9 1/2 in, 6' 2" or 1.5 m`,
		"5 kg":     `"kg" in "5 kg" is not a unit for this: want mm, cm, m, in, ft or yd`,
		"1/3":      `"1/3" is no whole number of nanometres: want decimals, or a fraction in halves, quarters and so on to 64ths`,
		"20000 m":  `"20000 m" is out of range: want at most 10 km`,
		"1/0":      `"1/0" is a fraction over zero: want a denominator above zero`,
		"1,500 mm": `"1,500" in "1,500 mm" is not understood: want thousands without a comma, and decimals with a point`,
		"1.020,0":  `"1.020,0" is not understood: want thousands without a mark, as 1020,0`,
		"1,500.5":  `"1,500.5" is not understood: want thousands without a mark, as 1500.5`,
		"1.500.5":  `"1.500.5" is not understood: want at most one point, before the decimals`,
		"2 m 6 in": `"in" in "2 m 6 in" is not understood: want a unit smaller than m after m`,
	} {
		if _, _, err := Parse(text, In); err == nil || err.Error() != want {
			t.Errorf("Parse(%q): %v, want %s", text, err, want)
		}
	}
	if _, _, err := Parse("72", NoUnit); err == nil || err.Error() != `"72" has no unit: want mm, cm, m, in, ft or yd` {
		t.Errorf("Parse of a bare number: %v", err)
	}
	if err := (&Error{Kind: ErrPercent, Text: "3%"}).Error(); err != `"3%" is a percent` {
		t.Errorf("an Error without Want: %s", err)
	}
}

func TestParseAllocatesNothing(t *testing.T) {
	for _, text := range spellings {
		if n := testing.AllocsPerRun(100, func() { Parse(text, In) }); n != 0 {
			t.Errorf("Parse(%q) allocates %v times", text, n)
		}
	}
}

func TestScanNumber(t *testing.T) {
	for _, c := range []struct {
		text  string
		value Ratio
		rest  string
	}{
		{"240 g/m2", NewRatio(240, 1), " g/m2"},
		{"1/2oz", NewRatio(1, 2), "oz"},
		{"7 1/2 oz", NewRatio(15, 2), " oz"},
		{"7,5oz", NewRatio(15, 2), "oz"},
		{"7 oz", NewRatio(7, 1), " oz"},
		{"7-", NewRatio(7, 1), "-"},
		{"7 - 1/2", NewRatio(7, 1), " - 1/2"},
		{"0", Ratio{0, 1}, ""},
	} {
		n, rest, err := ScanNumber(c.text)
		if err != nil || n.Value().Cmp(c.value) != 0 || rest != c.rest {
			t.Errorf("ScanNumber(%q) = %v, %q, %v", c.text, n.Value(), rest, err)
		}
	}
	for _, text := range []string{"", " 7", "-7", "x"} {
		if n, rest, err := ScanNumber(text); err == nil || rest != text {
			t.Errorf("ScanNumber(%q) = %v, %q, %v", text, n.Value(), rest, err)
		}
	}
}

func TestNumberPrint(t *testing.T) {
	for _, c := range []struct {
		like   string
		value  Ratio
		places int
		want   string
	}{
		{"7", NewRatio(15, 2), 2, "7.5"},
		{"7,5", NewRatio(29, 4), 2, "7,25"},
		{"7,5", NewRatio(1, 8), 3, "0,125"},
		{"7,5", NewRatio(9, 8), 3, "1,1250"},
		{"7.5", NewRatio(1, 3), 2, "0.33"},
		{".5", NewRatio(1, 4), 2, ".25"},
		{"7 1/2", NewRatio(29, 4), 2, "7 1/4"},
		{"7½", NewRatio(-29, 4), 2, "-7¼"},
		{"7½", NewRatio(29, 16), 2, "1 13/16"},
		{"½", NewRatio(29, 4), 2, "7¼"},
		{"7 1/2", NewRatio(1, 1000), 4, "0.001"},
		{"7-1/2", NewRatio(8, 1), 4, "8"},
	} {
		n, _, err := ScanNumber(c.like)
		if err != nil {
			t.Fatal(err)
		}
		if got := n.Print(c.value, c.places); got != c.want {
			t.Errorf("%v like %q: %q, want %q", c.value, c.like, got, c.want)
		}
	}
}
