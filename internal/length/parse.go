package length

import (
	"math/bits"
	"strings"
	"unicode/utf8"
)

const (
	wantLength = "a measurement such as 68, 9 1/2 in, 6' 2\" or 1.5 m"
	wantUnit   = "mm, cm, m, in, ft or yd"
	wantExact  = "decimals, or a fraction in halves, quarters and so on to 64ths"
	wantMax    = "at most 10 km"
)

// layout is how the parts of a length are set out in a text.
type layout struct {
	negative bool
	minus    string // the minus as written
	last     Number // the number of the last part
	n        int    // how many parts: 1, or up to 3 as in 2 yd 1 ft 6 in
	parts    [3]part
}

// part is one number and its unit, as offsets into the text: the number, the
// gap after it, the unit itself, and the end of it all. In a part without a
// unit the last three are the same.
type part struct {
	unit          Unit
	number, gap   int
	mark, end     int
	letters, bare bool
}

// Parse reads a length and learns the manner in which it is written. A number
// without a unit takes bare; with a bare of [NoUnit] that is an error.
//
// A length is an optional minus and up to three parts, the units going from
// larger to smaller within one system: 6' 2", 6 ft 2 in, 2 yd 6 in, 2 m 35 cm.
// Each part is a number as [ScanNumber] reads it, white space if any, and a
// unit as [ParseUnit] reads it. Only the last part may have a fraction or
// decimals, each part must be less than one of the unit before it, and a last
// number without a unit counts inches if it follows feet.
//
// An error is an [*Error]:
//   - ErrEmpty: there is only white space.
//   - ErrSyntax: it is not written as a length, or has a mark between
//     thousands.
//   - ErrUnit: a unit is missing (Word is empty) or is no unit of length
//     (Word is what stands in its place).
//   - ErrZeroDenominator: a fraction over zero.
//   - ErrInexact: it is no whole number of nanometres, as 1/3 in is not;
//     2/3 yd, which is 24 in, is.
//   - ErrRange: it is beyond [Max] either way.
func Parse(text string, bare Unit) (Length, Style, error) {
	var lay layout
	l, err := lay.read(text, bare)
	if err != nil {
		err.Text = text
		return 0, Style{}, err
	}
	last := lay.parts[lay.n-1]
	return l, Style{text: text, unit: last.unit, given: bare, bare: lay.n == 1 && last.bare}, nil
}

// Bare reports whether a length is written without its unit.
func Bare(text string) bool {
	if strings.Trim(text, "0123456789 ./-") == "" {
		return true // as most are
	}
	_, _, err := Parse(text, NoUnit)
	return err != nil
}

// read is Parse. The layout must be zero.
func (y *layout) read(s string, bare Unit) (Length, *Error) {
	i := skipSpace(s, 0)
	if i == len(s) {
		return 0, fail(ErrEmpty, "", wantLength)
	}
	if c := s[i]; c == '-' || c >= utf8.RuneSelf {
		if r, size := utf8.DecodeRuneInString(s[i:]); isMinus(r) {
			y.negative, y.minus = true, s[i:i+size]
			i += size
		}
	}
	var total Length
	for {
		y.last = Number{}
		p := &y.parts[y.n]
		p.number = i
		end, err := y.last.scan(s, i)
		if err != nil {
			if y.n > 0 && err.Want == wantNumber {
				err.Want = "a smaller unit's number, or nothing, after the unit"
			} else if err.Want == wantNumber {
				err.Want = wantLength
			}
			return 0, err
		}
		p.gap = end
		if err := y.readUnit(s, p, bare); err != nil {
			return 0, err
		}
		l, err := y.last.times(p.unit)
		if err != nil {
			err.Word = s[p.number:p.end]
			return 0, err
		}
		if y.n > 0 && l >= y.parts[y.n-1].unit.Length() {
			return 0, fail(ErrSyntax, s[p.number:p.end], "less than one "+y.parts[y.n-1].unit.String()+" after "+y.parts[y.n-1].unit.String())
		}
		total += l
		y.n++
		if i = skipSpace(s, p.end); i == len(s) {
			break
		}
		if i, err = y.next(s, i); err != nil {
			return 0, err
		}
	}
	if total > Max {
		return 0, fail(ErrRange, "", wantMax)
	}
	if y.negative {
		total = -total
	}
	return total, nil
}

// next checks that another part may follow the last one, at s[i:], and returns
// where its number starts.
func (y *layout) next(s string, i int) (int, *Error) {
	p := &y.parts[y.n-1]
	if p.unit == Ft && s[i] == '-' && !p.bare {
		// Draughtsmen put a hyphen between feet and inches.
		if j := skipSpace(s, i+1); j < len(s) && s[j]-'0' <= 9 {
			i = j
		}
	}
	r, _ := utf8.DecodeRuneInString(s[i:])
	number := '0' <= r && r <= '9' || isGlyph(r)
	switch {
	case number && i == p.end && p.letters && (p.unit == In || p.unit == MM):
		return i, fail(ErrUnit, token(s, p.mark), wantUnit)
	case p.bare && number:
		return i, fail(ErrSyntax, s[p.number:i]+token(s, i), "one number, without a mark between thousands")
	case !number, p.bare, p.unit == In, p.unit == MM, y.n == len(y.parts):
		return i, fail(ErrSyntax, token(s, i), "nothing after the measurement")
	case y.last.form != whole:
		return i, fail(ErrSyntax, s[p.number:p.end], "a whole number before a smaller unit")
	}
	return i, nil
}

// readUnit reads the unit after the number that ends at p.gap.
func (y *layout) readUnit(s string, p *part, bare Unit) *Error {
	i := skipSpace(s, p.gap)
	p.mark = i
	if i < len(s) {
		switch c := s[i]; {
		case c == '"':
			p.unit, p.end = In, i+1
		case c == '\'':
			p.unit, p.end = Ft, i+1
			if i+1 < len(s) && s[i+1] == '\'' {
				p.unit, p.end = In, i+2
			}
		case c|0x20-'a' < 26 || c == '%':
			return y.readWord(s, p)
		case c >= utf8.RuneSelf:
			r, size := utf8.DecodeRuneInString(s[i:])
			switch r {
			case '″', '”':
				p.unit, p.end = In, i+size
			case '′', '’':
				p.unit, p.end = Ft, i+size
				if r2, size2 := utf8.DecodeRuneInString(s[i+size:]); r2 == r {
					p.unit, p.end = In, i+size+size2
				}
			default:
				if isUnitStart(r) {
					return fail(ErrUnit, token(s, i), wantUnit)
				}
			}
		}
	}
	if p.unit == NoUnit {
		return y.noUnit(s, p, bare)
	}
	return y.order(s, p)
}

// readWord reads a unit that is written in letters.
func (y *layout) readWord(s string, p *part) *Error {
	i := p.mark
	for i < len(s) && s[i]|0x20-'a' < 26 {
		i++
	}
	if i < len(s) && s[i] == '.' {
		i++
	}
	u, ok := wordUnit(s[p.mark:i])
	if i < len(s) && ok {
		// A unit that runs on is a unit of something else: m/s, in², in·lb.
		r, _ := utf8.DecodeRuneInString(s[i:])
		ok = isSpace(r) || '0' <= r && r <= '9' || isGlyph(r) || r == '-' && u == Ft
	}
	if !ok {
		return fail(ErrUnit, token(s, p.mark), wantUnit)
	}
	p.unit, p.end, p.letters = u, i, true
	return y.order(s, p)
}

// noUnit gives the unit to a number that has none.
func (y *layout) noUnit(s string, p *part, bare Unit) *Error {
	p.mark, p.end, p.bare = p.gap, p.gap, true
	if y.n == 0 {
		if bare == NoUnit {
			if i := skipSpace(s, p.gap); i < len(s) {
				return fail(ErrSyntax, token(s, i), wantLength)
			}
			return fail(ErrUnit, "", wantUnit)
		}
		p.unit = bare
		return nil
	}
	prev := &y.parts[y.n-1]
	switch {
	case prev.letters && prev.end == p.number:
		return fail(ErrUnit, token(s, prev.mark), wantUnit)
	case prev.unit != Ft:
		return fail(ErrUnit, "", wantUnit+" after "+s[p.number:p.gap])
	}
	p.unit = In
	return nil
}

// order checks that the unit of p may follow the one before it.
func (y *layout) order(s string, p *part) *Error {
	if y.n == 0 {
		return nil
	}
	prev := y.parts[y.n-1].unit
	if prev.Metric() != p.unit.Metric() || prev.Length() <= p.unit.Length() {
		return fail(ErrSyntax, s[p.mark:p.end], "a unit smaller than "+prev.String()+" after "+prev.String())
	}
	return nil
}

// isUnitStart reports whether a word that begins with r stands for a unit and
// is not just a slip of the pen.
func isUnitStart(r rune) bool {
	switch r {
	case '%', '‰', '°', '$', '£', '€', 'µ', '×':
		return true
	case utf8.RuneError:
		return false
	}
	return r|0x20 >= 'a' && r|0x20 <= 'z' || r >= 0xc0 && r < 0x2000
}

// times returns n of the unit.
func (n *Number) times(u Unit) (Length, *Error) {
	unit := u.Length()
	if n.whole > int64(Max/unit) {
		return 0, fail(ErrRange, "", wantMax)
	}
	l := Length(n.whole) * unit
	if n.num == 0 {
		return l, nil
	}
	if n.num < 1<<33 { // no unit is above 2^30 nm
		v := n.num * int64(unit)
		if v%n.den != 0 {
			return 0, fail(ErrInexact, "", wantExact)
		}
		return n.plus(l, v/n.den)
	}
	hi, lo := bits.Mul64(uint64(n.num), uint64(unit))
	if hi >= uint64(n.den) {
		return 0, fail(ErrRange, "", wantMax)
	}
	q, rem := bits.Div64(hi, lo, uint64(n.den))
	if rem != 0 {
		return 0, fail(ErrInexact, "", wantExact)
	}
	return n.plus(l, int64(min(q, uint64(Max)+1)))
}

// plus adds the whole part and the rest, each at most a little above Max.
func (n *Number) plus(l Length, rest int64) (Length, *Error) {
	if rest > int64(Max) || l+Length(rest) > Max {
		return 0, fail(ErrRange, "", wantMax)
	}
	return l + Length(rest), nil
}
