package cells

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// shows is how a cell shows its number, as far as that changes what it means.
type shows uint8

const (
	asNumber shows = iota
	asPercent
	asFraction
	asDate
	asTruth // true or false, which some spreadsheets keep as 1 and 0
	asText  // and not as a number at all
)

// The number formats that have a number and no code, of ECMA-376 part 1,
// 18.8.30, as far as they are not plain numbers.
var builtIn = map[int]shows{
	9: asPercent, 10: asPercent, 12: asFraction, 13: asFraction,
	14: asDate, 15: asDate, 16: asDate, 17: asDate, 22: asDate, 49: asText,
}

// truths reports whether a format code shows one word for all numbers but zero,
// and another for that: "TRUE";"TRUE";"FALSE".
func truths(code string) bool {
	words := strings.Split(code, ";")
	for _, w := range words {
		if len(w) < 3 || w[0] != '"' || strings.IndexByte(w[1:], '"') != len(w)-2 {
			return false
		}
	}
	return len(words) == 3 && words[0] == words[1] && words[1] != words[2]
}

// showsCode returns how a format code shows a positive number.
func showsCode(code string) shows {
	if truths(code) {
		return asTruth
	}
	code, _, _ = strings.Cut(strings.ToLower(code), ";")
	var plain strings.Builder // what is not in quotes or brackets
	for i := 0; i < len(code); i++ {
		switch code[i] {
		case '"', '[':
			end := `"`
			if code[i] == '[' {
				end = "]"
			}
			_, after, _ := strings.Cut(code[i+1:], end)
			i = len(code) - len(after) - 1
		case '\\', '_', '*':
			i++
		default:
			plain.WriteByte(code[i])
		}
	}
	code = plain.String()
	switch {
	case strings.Contains(code, "%"):
		return asPercent
	case strings.Contains(code, "?/") || strings.Contains(code, "#/"):
		return asFraction
	case code == "@":
		return asText
	case strings.Contains(code, "y") || strings.Contains(code, "d") && strings.Contains(code, "m"):
		return asDate
	}
	return asNumber
}

// digits is how many digits of a number a spreadsheet keeps.
const digits = 15

// shown writes a raw number as a cell shows it, as far as that changes what it means.
// One that can't be read stays as it is. Days may count from 1904, and not from 1900.
func shown(raw string, how shows, from1904 bool) string {
	v, err := strconv.ParseFloat(raw, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return raw
	}
	switch how {
	case asPercent:
		return decimal(v*100) + "%"
	case asFraction:
		if text, ok := fraction(v); ok {
			return text
		}
	case asDate:
		if v >= 1 && v < lastDay {
			return dayOf(v, from1904).Format(time.DateOnly)
		}
	case asTruth:
		return strconv.FormatBool(v != 0)
	}
	return decimal(v)
}

// lastDay is after the last day that a spreadsheet has, which is in the year 9999.
const lastDay = 2_958_466

// dayOf is the day of a number of days. Spreadsheets have a 29 February 1900, which
// is why the days before it count from another.
func dayOf(v float64, from1904 bool) time.Time {
	first := time.Date(1899, time.December, 30, 0, 0, 0, 0, time.UTC)
	switch {
	case from1904:
		first = time.Date(1904, time.January, 1, 0, 0, 0, 0, time.UTC)
	case v < 60:
		first = first.AddDate(0, 0, 1)
	}
	const second = 1.0 / (24 * 60 * 60) // to which times are kept
	return first.AddDate(0, 0, int(v+second/2))
}

// decimal writes a number without an exponent, and without what is beyond the
// digits that a spreadsheet keeps.
func decimal(v float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil {
		rounded = v
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// fraction writes a number with the least fraction to 64ths that it is: 10 1/3.
func fraction(v float64) (string, bool) {
	const near = 1e-9
	sign := ""
	if v < 0 {
		sign, v = "-", -v
	}
	whole := math.Floor(v + near)
	if whole > 1e9 {
		return "", false
	}
	for of := 1.0; of <= 64; of++ {
		parts := math.Round((v - whole) * of)
		if math.Abs(v-whole-parts/of) > near {
			continue
		}
		text := sign
		if whole > 0 || parts == 0 {
			text += strconv.FormatFloat(whole, 'f', 0, 64)
		}
		if parts > 0 {
			if whole > 0 {
				text += " "
			}
			text += strconv.FormatFloat(parts, 'f', 0, 64) + "/" + strconv.FormatFloat(of, 'f', 0, 64)
		}
		return text, true
	}
	return "", false
}

// unshown reads what shown writes, and reports whether text is that of a number
// which a cell shows so.
func unshown(text string, how shows) (float64, bool) {
	var v float64
	switch how {
	case asNumber:
		v, _ = strconv.ParseFloat(text, 64)
	case asPercent:
		v, _ = strconv.ParseFloat(strings.TrimSuffix(text, "%"), 64)
		v /= 100
	case asFraction:
		v = unfraction(text)
	case asTruth:
		if text == "true" {
			v = 1
		}
	default:
		return 0, false
	}
	return v, shown(strconv.FormatFloat(v, 'g', -1, 64), how, false) == text
}

// unfraction reads a number that may have a fraction: 10 1/3. It is 0 for any
// other text.
func unfraction(text string) float64 {
	text, minus := strings.CutPrefix(text, "-")
	whole, part, both := strings.Cut(text, " ")
	if !both && strings.Contains(text, "/") {
		whole, part = "0", text
	}
	v, _ := strconv.ParseFloat(whole, 64)
	if over, under, ok := strings.Cut(part, "/"); ok {
		a, _ := strconv.ParseFloat(over, 64)
		if b, _ := strconv.ParseFloat(under, 64); b != 0 {
			v += a / b
		}
	}
	if minus {
		return -v
	}
	return v
}
