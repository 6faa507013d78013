package length

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// form is how a number is written.
type form uint8

const (
	whole    form = iota // 72
	decimal              // 1.5
	fraction             // 3/8, 10 1/2, 10½
)

// Number is an unsigned number as a person wrote it: its value and its manner.
// The zero value is 0 written as a whole number.
type Number struct {
	whole    int64 // the part before the fraction or the decimals
	num, den int64 // the rest; den is 0 for a whole number
	form     form
	comma    bool  // decimals follow a comma
	bare     bool  // decimals have no digit before them
	glyph    bool  // the fraction is one character
	lone     bool  // the fraction has no whole number before it
	places   uint8 // decimals written
	sep      string
	slash    string
}

// digits is how many digits a whole number, a numerator, a denominator or the
// decimals may have. Twice as many fit no int64, but 10^digits does.
const digits = 18

const wantNumber = "a number such as 68, 9 1/2, 3/8 or 1.5"

// Value returns the number.
func (n Number) Value() Ratio {
	if n.den == 0 {
		return Ratio{n.whole, 1}
	}
	return NewRatio(n.whole, 1).Add(NewRatio(n.num, n.den))
}

// Fraction reports whether the number is written as a fraction, with a whole
// number before it or without.
func (n Number) Fraction() bool { return n.form == fraction }

// Places returns how many decimals are written.
func (n Number) Places() int { return int(n.places) }

// ScanNumber reads the number at the start of text, which must have neither
// white space nor a sign before it, and returns what follows it. A decimal
// point or comma, a fraction with any slash, a fraction character, and a whole
// number with a space or a hyphen before its fraction are understood. Groups
// of thousands are refused, a comma before exactly three digits with them, as
// nobody can tell which of the two it is. Numbers have at most 18 digits
// before and after the point.
//
// An error is an [*Error] of kind ErrSyntax, ErrRange, ErrZeroDenominator or
// ErrEmpty.
func ScanNumber(text string) (n Number, rest string, err error) {
	if text == "" {
		return n, "", &Error{Kind: ErrEmpty, Want: wantNumber}
	}
	i, e := n.scan(text, 0)
	if e != nil {
		e.Text = text
		return Number{}, text, e
	}
	return n, text[i:], nil
}

// scan reads the number at s[i:] into n, which must be zero, and returns where
// it ends.
func (n *Number) scan(s string, i int) (int, *Error) {
	start := i
	v, j := scanDigits(s, i)
	if j == i {
		return n.scanNoDigit(s, i)
	}
	if j-i > digits {
		return i, fail(ErrRange, s[i:j], "a number of at most 18 digits")
	}
	n.whole = v
	if j == len(s) {
		return j, nil
	}
	switch c := s[j]; {
	case c == '.' || c == ',':
		return n.scanDecimals(s, start, j)
	case c == '/':
		return n.scanOver(s, start, j, 1)
	case c >= utf8.RuneSelf:
		r, size := utf8.DecodeRuneInString(s[j:])
		if isSlash(r) {
			return n.scanOver(s, start, j, size)
		}
		if isGlyph(r) {
			return n.scanGlyph(s, j, j)
		}
		if !isSpace(r) && !isHyphen(r) {
			return j, nil
		}
	case c != ' ' && c != '-' && c != '\t' && c != '\n' && c != '\r':
		return j, nil
	}
	return n.scanMixed(s, j)
}

// scanNoDigit reads a number that does not start with a digit.
func (n *Number) scanNoDigit(s string, i int) (int, *Error) {
	if i < len(s) && (s[i] == '.' || s[i] == ',') {
		if _, end := scanDigits(s, i+1); end > i+1 {
			n.bare = true
			return n.scanDecimals(s, i, i)
		}
	}
	if r, _ := utf8.DecodeRuneInString(s[i:]); isGlyph(r) {
		n.lone = true
		return n.scanGlyph(s, i, i)
	}
	return i, fail(ErrSyntax, token(s, i), wantNumber)
}

// unmarked says how to write a number that has marks between its thousands, or may have:
// without them, where the mark of its decimals is another.
func unmarked(number string) string {
	first, last := number[strings.IndexAny(number, ".,")], number[strings.LastIndexAny(number, ".,")]
	switch {
	case first != last && strings.Count(number, string(last)) == 1:
		return "thousands without a mark, as " + strings.ReplaceAll(number, string(first), "")
	case first == '.':
		return "at most one point, before the decimals"
	}
	return "thousands without a comma, and decimals with a point"
}

// scanDecimals reads the decimals whose point or comma is at s[at], of the
// number that starts at s[start:].
func (n *Number) scanDecimals(s string, start, at int) (int, *Error) {
	_, end := scanDigits(s, at+1)
	places := end - at - 1
	if places == 0 {
		return at, fail(ErrSyntax, s[start:at+1], "digits after the "+pointName(s[at]))
	}
	more := false
	if end < len(s) && (s[end] == '.' || s[end] == ',') {
		_, next := scanDigits(s, end+1)
		more = next > end+1
	}
	if more || s[at] == ',' && places == 3 && n.whole > 0 && at-start <= 3 && s[start] != '0' {
		for more = true; more; {
			_, next := scanDigits(s, end+1)
			if more = end < len(s) && (s[end] == '.' || s[end] == ',') && next > end+1; more {
				end = next
			}
		}
		return at, fail(ErrSyntax, s[start:end], unmarked(s[start:end]))
	}
	n.form, n.comma = decimal, s[at] == ','
	last := end
	for last > at+1 && s[last-1] == '0' {
		last--
	}
	if last-at-1 > digits {
		return at, fail(ErrRange, s[start:end], "at most 18 decimals")
	}
	n.places = uint8(min(places, math.MaxUint8))
	n.num, _ = scanDigits(s[:last], at+1)
	n.den = pow10[last-at-1]
	return end, nil
}

// scanOver reads the denominator of the fraction whose numerator is in n.whole
// and whose slash, of size bytes, is at s[at].
func (n *Number) scanOver(s string, start, at, size int) (int, *Error) {
	v, end := scanDigits(s, at+size)
	switch {
	case end == at+size:
		return at, fail(ErrSyntax, s[start:end], "a whole number on both sides of the slash")
	case end-at-size > digits:
		return at, fail(ErrRange, s[start:end], "a denominator of at most 18 digits")
	case v == 0:
		return at, fail(ErrZeroDenominator, s[start:end], "a denominator above zero")
	}
	n.form, n.lone = fraction, true
	n.num, n.den, n.whole = n.whole, v, 0
	n.slash = s[at : at+size]
	return end, nil
}

// scanGlyph reads the fraction character at s[at], after the whole number that
// ends at s[sep].
func (n *Number) scanGlyph(s string, sep, at int) (int, *Error) {
	r, size := utf8.DecodeRuneInString(s[at:])
	n.form, n.sep = fraction, s[sep:at]
	if r == numeratorOne {
		v, end := scanDigits(s, at+size)
		switch {
		case end == at+size:
			return at, fail(ErrSyntax, s[at:end], "a denominator after the numerator")
		case end-at-size > digits:
			return at, fail(ErrRange, s[at:end], "a denominator of at most 18 digits")
		case v == 0:
			return at, fail(ErrZeroDenominator, s[at:end], "a denominator above zero")
		case v == 1 && !n.lone:
			return at, fail(ErrSyntax, s[at:end], "a fraction below 1 after a whole number")
		}
		n.num, n.den, n.slash = 1, v, "/"
		return end, nil
	}
	n.glyph = true
	n.num, n.den, _ = glyphValue(r)
	return at + size, nil
}

// scanMixed looks for the fraction of a mixed number behind the space or the
// hyphen at s[at], and returns at if there is none.
func (n *Number) scanMixed(s string, at int) (int, *Error) {
	i := skipSpace(s, at)
	if i == at {
		_, size := utf8.DecodeRuneInString(s[at:])
		i += size
	}
	if i == len(s) {
		return at, nil
	}
	v, j := scanDigits(s, i)
	if j == i {
		if s[i] >= utf8.RuneSelf {
			if r, _ := utf8.DecodeRuneInString(s[i:]); isGlyph(r) {
				return n.scanGlyph(s, at, i)
			}
		}
		return at, nil
	}
	r, size := utf8.DecodeRuneInString(s[j:])
	if !isSlash(r) {
		return at, nil
	}
	if j-i > digits {
		return at, fail(ErrRange, s[i:j], "a numerator of at most 18 digits")
	}
	over := Number{whole: v}
	end, err := over.scanOver(s, i, j, size)
	if err != nil {
		return at, err
	}
	if over.num >= over.den {
		return at, fail(ErrSyntax, s[i:end], "a fraction below 1 after a whole number")
	}
	n.form, n.sep = fraction, s[at:i]
	n.num, n.den, n.slash = over.num, over.den, over.slash
	return end, nil
}

// one reports whether the number takes its unit in the singular.
func (n *Number) one() bool {
	return n.whole == 1 && n.num == 0 || n.whole == 0 && n.num != 0 && n.num <= n.den
}

// mixed writes v, which must not be negative, as a whole number and a fraction
// in the manner of n.
func (n *Number) mixed(v Ratio) string {
	w, num, den := v.Num/v.den(), v.Num%v.den(), v.den()
	if num == 0 {
		return strconv.FormatInt(w, 10)
	}
	sep, part := n.sep, ""
	if n.glyph {
		part = glyphOf(num, den)
	}
	if part == "" {
		slash := n.slash
		if slash == "" {
			slash = "/"
		}
		part = strconv.FormatInt(num, 10) + slash + strconv.FormatInt(den, 10)
		if sep == "" {
			sep = " "
		}
	} else if n.lone {
		sep = "" // a lone ½ grows into 10½
	}
	if w == 0 {
		return part
	}
	return strconv.FormatInt(w, 10) + sep + part
}

// decimals writes v, which must not be negative, as a decimal in the manner of
// n, rounded to a number of places with trailing zeros left out.
func (n *Number) decimals(v Ratio, places int, r Rounding) string {
	s := v.decimal(places, r)
	point := -1
	for i := range len(s) {
		if s[i] == '.' {
			point = i
		}
	}
	if point < 0 {
		return s
	}
	if n.comma {
		if len(s)-point-1 == 3 && s[0] != '0' && point <= 3 {
			s += "0" // 1,125 could be read as thousands; 1,1250 cannot
		}
		s = s[:point] + "," + s[point+1:]
	}
	if n.bare && s[0] == '0' {
		s = s[1:]
	}
	return s
}

// Print writes v in the manner of n. A fraction stays one if its denominator
// is at most 64; anything else is a decimal of at most places, from 0 to 18,
// rounded half away from zero.
func (n Number) Print(v Ratio, places int) string {
	sign := ""
	if v.Num < 0 {
		sign, v = "-", v.Neg()
	}
	if n.form == fraction && v.den() <= 64 {
		return sign + n.mixed(v)
	}
	return sign + n.decimals(v, places, Nearest)
}

// scanDigits reads the ASCII digits at s[i:] and returns their value, which
// means something only if there are at most 18, and where they end.
func scanDigits(s string, i int) (int64, int) {
	var v int64
	for i < len(s) {
		d := s[i] - '0'
		if d > 9 {
			break
		}
		v = v*10 + int64(d)
		i++
	}
	return v, i
}

// skipSpace returns the first place at or after i where s has no white space.
func skipSpace(s string, i int) int {
	for i < len(s) {
		switch c := s[i]; {
		case c == ' ' || c == '\t' || c == '\n' || c == '\r':
			i++
		case c >= utf8.RuneSelf:
			r, size := utf8.DecodeRuneInString(s[i:])
			if !isSpace(r) {
				return i
			}
			i += size
		default:
			return i
		}
	}
	return i
}

// isSpace reports whether r is white space: the ASCII ones, the no-break
// spaces and the typographers' spaces.
func isSpace(r rune) bool {
	switch r {
	case ' ', '\t', '\n', '\r', 0xa0, 0x202f, 0x205f, 0x3000:
		return true
	}
	return 0x2000 <= r && r <= 0x200a
}

// isSlash reports whether r is a slash, a fraction slash or a division slash.
func isSlash(r rune) bool { return r == '/' || r == 0x2044 || r == 0x2215 }

// isHyphen reports whether r is a hyphen or a dash that word processors put in
// place of one.
func isHyphen(r rune) bool { return r == '-' || 0x2010 <= r && r <= 0x2013 }

// isMinus reports whether r is a hyphen used as a minus, or a minus.
func isMinus(r rune) bool { return r == '-' || r == 0x2212 }

// token returns the part of s from i up to white space.
func token(s string, i int) string {
	end := i
	for end < len(s) {
		r, size := utf8.DecodeRuneInString(s[end:])
		if isSpace(r) {
			break
		}
		end += size
	}
	return s[i:end]
}

func pointName(c byte) string {
	if c == ',' {
		return "comma"
	}
	return "point"
}

// numeratorOne is the character that stands for "1/" before a denominator.
const numeratorOne = '⅟'

// glyphs lists the fraction characters of the Unicode blocks Latin-1
// Supplement and Number Forms.
var glyphs = [...]struct {
	r        rune
	num, den int64
}{
	{'½', 1, 2}, {'¼', 1, 4}, {'¾', 3, 4},
	{'⅛', 1, 8}, {'⅜', 3, 8}, {'⅝', 5, 8}, {'⅞', 7, 8},
	{'⅓', 1, 3}, {'⅔', 2, 3}, {'⅙', 1, 6}, {'⅚', 5, 6},
	{'⅕', 1, 5}, {'⅖', 2, 5}, {'⅗', 3, 5}, {'⅘', 4, 5},
	{'⅐', 1, 7}, {'⅑', 1, 9}, {'⅒', 1, 10},
}

func isGlyph(r rune) bool {
	return 0xbc <= r && r <= 0xbe || 0x2150 <= r && r <= numeratorOne
}

func glyphValue(r rune) (num, den int64, ok bool) {
	for _, g := range glyphs {
		if g.r == r {
			return g.num, g.den, true
		}
	}
	return 0, 1, false
}

// glyphOf returns the character for a reduced fraction, or "".
func glyphOf(num, den int64) string {
	for _, g := range glyphs {
		if g.num == num && g.den == den {
			return string(g.r)
		}
	}
	return ""
}

// pow10 holds the powers of ten that fit an int64.
var pow10 = [...]int64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18}
