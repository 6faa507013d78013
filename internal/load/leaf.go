package load

import (
	"cmp"
	"errors"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"cutgate/internal/form"
	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
)

// A misreading is why a text is not the leaf that it should be.
type misreading struct {
	kind   order.FlawKind // BadSpelling, OddUnit or OutOfSense
	detail string
}

func (m *misreading) Error() string { return m.detail }

func misspelt(detail string) error { return &misreading{kind: order.BadSpelling, detail: detail} }

// parseCount reads a whole number; 4.0 is one too, as programs write it.
func parseCount(s string) (int64, error) {
	digits := strings.TrimSpace(s)
	if whole, part, ok := strings.Cut(digits, "."); ok && part != "" && strings.Trim(part, "0") == "" {
		digits = whole
	}
	negative := strings.HasPrefix(digits, "-")
	if negative {
		digits = digits[1:]
	}
	if digits == "" || strings.Trim(digits, "0123456789") != "" {
		return 0, misspelt("write a whole number in digits, with no unit")
	}
	n, err := strconv.ParseInt(digits, 10, 64)
	if err != nil || negative && n > 0 {
		return 0, &misreading{kind: order.OutOfSense}
	}
	return n, nil
}

const howHot = "write dots or a temperature, such as 2 dots, 150 C, 300 F or none"

// parseSetting reads what an iron is set to.
func parseSetting(s string) (order.Heat, error) {
	t := strings.TrimSpace(s)
	if t == "none" {
		return order.Heat{None: true}, nil
	}
	if n := strings.Count(t, "•"); n > 0 && strings.Trim(t, "• ") == "" {
		return dots(int64(n))
	}
	n, rest, err := length.ScanNumber(t)
	if err != nil {
		return order.Heat{}, misspelt(howHot)
	}
	switch strings.ToLower(strings.TrimSpace(rest)) {
	case "dot", "dots":
		v := n.Value()
		if v.Den != 1 {
			return order.Heat{}, misspelt("write 1, 2 or 3 dots")
		}
		return dots(v.Num)
	case "":
		return order.Heat{}, misspelt(howHot)
	}
	return parseTemperature(s)
}

func dots(n int64) (order.Heat, error) {
	if n < 1 || n > 3 {
		return order.Heat{}, &misreading{kind: order.OutOfSense, detail: "an iron has 1, 2 or 3 dots"}
	}
	return order.Heat{Dots: int(n)}, nil
}

// parseTemperature reads a temperature, to the nearest thousandth of a degree
// Celsius.
func parseTemperature(s string) (order.Heat, error) {
	const how = "write degrees, as in 150 C or 300 F"
	t := strings.TrimSpace(s)
	below := strings.HasPrefix(t, "-")
	t = strings.TrimPrefix(t, "-")
	n, rest, err := length.ScanNumber(t)
	if err != nil {
		return order.Heat{}, misspelt(how)
	}
	unit := strings.ToLower(strings.TrimSpace(rest))
	for _, sign := range [...]string{"°", "º", "degrees", "degree", "deg"} {
		if after, ok := strings.CutPrefix(unit, sign); ok {
			unit = strings.TrimSpace(after)
			break
		}
	}
	v := n.Value()
	if below {
		v = v.Neg()
	}
	heat := order.Heat{Deg: 'C'}
	switch unit {
	case "c", "celsius", "centigrade":
	case "f", "fahrenheit":
		heat.Deg = 'F'
		v = v.Sub(length.NewRatio(32, 1)).Mul(length.NewRatio(5, 9))
	case "":
		return order.Heat{}, misspelt(how)
	default:
		return order.Heat{}, &length.Error{Kind: length.ErrUnit, Text: s, Word: strings.TrimSpace(rest), Want: "C or F"}
	}
	heat.Milli = v.Mul(length.NewRatio(1000, 1)).Int(length.Nearest)
	return heat, nil
}

// misread tells a flaw's kind and detail from why a reader of k refused s.
func misread(k form.Leaf, s string, err error) *misreading {
	var e *length.Error
	if !errors.As(err, &e) {
		m, _ := err.(*misreading)
		if k == form.Count && m.kind == order.BadSpelling {
			if sort := sortOf(k, s); sort != "" {
				return &misreading{kind: order.OddUnit, detail: "it is " + sort}
			}
		}
		return m
	}
	switch e.Kind {
	case length.ErrRange:
		return &misreading{kind: order.OutOfSense}
	case length.ErrPercent:
		return &misreading{kind: order.BadSpelling,
			detail: "some mean 2 to 1 by 100%, others 1 to 1; write the multiplier, such as 2"}
	}
	if sort := sortOf(k, s); sort != "" {
		return &misreading{kind: order.OddUnit, detail: "it is " + sort}
	}
	return &misreading{kind: order.BadSpelling, detail: explain(e)}
}

// explain says in the form's words why a text is not understood.
func explain(e *length.Error) string {
	word := e.Word
	if !utf8.ValidString(word) || strings.ContainsFunc(word, unicode.IsControl) {
		word = ""
	}
	what := ""
	switch e.Kind {
	case length.ErrEmpty:
		what = "nothing is written there"
	case length.ErrZeroDenominator:
		what = "it has a fraction over zero"
	case length.ErrInexact:
		what = "it does not come out exactly"
	case length.ErrUnit:
		if what = "it has no unit"; word != "" {
			what = "“" + word + "” is not a unit here"
		}
	default:
		if word != "" && word != strings.TrimSpace(e.Text) {
			what = "“" + word + "” is not understood"
		}
	}
	switch {
	case e.Want == "":
		return cmp.Or(what, "it is not understood")
	case what == "":
		return "write " + e.Want
	}
	return what + "; write " + e.Want
}

// sortOf says which other sort of measure s is than k; "" if it is none.
func sortOf(k form.Leaf, s string) string {
	if _, _, err := length.Parse(s, length.NoUnit); err == nil && k != form.Length {
		return "a length"
	}
	if _, _, err := mass.ParseMass(s); err == nil && k != form.Mass {
		return "a weight"
	}
	if _, _, err := mass.ParseAreal(s); err == nil && k != form.Areal {
		return "a weight per area"
	}
	if _, _, err := mass.ParseLinear(s); err == nil && k != form.Linear {
		return "a weight per length"
	}
	if _, err := parseTemperature(s); err == nil && k != form.Temperature && k != form.Setting {
		return "a temperature"
	}
	if strings.ContainsAny(s, "%") && k != form.Percent {
		if _, err := length.ParsePercent(s); err == nil {
			return "a percentage"
		}
	}
	return ""
}
