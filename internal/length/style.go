package length

import (
	"strconv"
	"strings"
)

// Style is the manner in which a person wrote a length: with which units and
// marks, how spaced, as decimals with a point or a comma, as a fraction with
// which slash, character or hyphen.
//
// The zero value prints in the manner of [Length.Format], in millimetres;
// [StyleOf] gives one for a unit. A Style keeps the text that it was learned
// from, so two Styles are equal only if their texts are.
type Style struct {
	text  string // what was read, or "" for the manner of Format
	unit  Unit   // of the last part
	given Unit   // the unit that a bare number was given
	bare  bool   // a single number without a unit
}

// StyleOf returns the Style of a report in unit u, with the unit after the
// number or, if bare, without it, as in an order that names its units once.
func StyleOf(u Unit, bare bool) Style { return Style{unit: u, given: u, bare: bare} }

// Unit returns the unit that the length was written in, the smallest one if it
// has several parts. A bare number's is the one that it was given.
func (s Style) Unit() Unit { return s.unit }

// Bare reports whether the length was written without a unit.
func (s Style) Bare() bool { return s.bare }

// Print writes l in the manner of s, with a minus if it is negative. The
// result reads as a length again, to the value that was printed.
//
// What the manner cannot show is rounded by r:
//   - inches to 1/16, as a reduced fraction; as a decimal if they were
//     written as one, which also stays exact where four places do;
//   - metric lengths to 1 mm, or exactly where no more decimals are needed
//     than were written;
//   - yards and feet as a fraction whose denominator is 2, 3, 4 or 8, or if they
//     were written as one as a decimal of at most three places or as many as were
//     written; where that is not exact, with inches after them, to 1/16 in.
//
// A whole number is taken for a fraction in inches, feet and yards and for a
// decimal in metric units. A fraction character is used where there is one. A
// decimal comma that would stand before exactly three digits gets a zero after
// them, as [Parse] takes it for a mark between thousands. A length in several
// parts is set out in the same units anew, leaving out those that are zero, and
// its last part is a number like any other.
func (s Style) Print(l Length, r Rounding) string {
	if s.text == "" {
		if s.bare && s.unit.Metric() {
			return RatioOf(l.Round(Step(s.unit), r), s.unit.Length()).Format(3)
		}
		out := l.Format(s.unit, r)
		if s.bare {
			out = bareOf(out, s.unit)
		}
		return out
	}
	var lay layout
	if _, err := lay.read(s.text, s.given); err != nil {
		return l.Format(s.unit, r) // not reached: the text has been read before
	}
	if lay.n > 1 {
		return lay.printParts(s.text, l, r)
	}
	return lay.printOne(s.text, l, r)
}

// bareOf takes the unit from a length as Format writes it. Yards and feet that
// Format has set out in parts are kept whole, as they mean nothing without.
func bareOf(out string, u Unit) string {
	if short, ok := strings.CutSuffix(out, " "+u.String()); ok {
		return short
	}
	return out
}

// sign returns what stands before a negative length.
func (y *layout) sign(l Length) string {
	switch {
	case l >= 0:
		return ""
	case y.negative:
		return y.minus
	}
	return "-"
}

// printOne writes l as a single number with the unit of the layout.
func (y *layout) printOne(text string, l Length, r Rounding) string {
	p := &y.parts[0]
	l, exact := y.settle(l, p.unit, r)
	abs := max(l, -l)
	v := RatioOf(abs, p.unit.Length())
	if !exact {
		return y.sign(l) + y.withInches(text, p, abs)
	}
	return y.sign(l) + y.number(v, p.unit, r) + y.unitText(text, p, v)
}

// withInches writes l, of which the feet or yards of p show only a part, with inches
// after them.
func (y *layout) withInches(text string, p *part, l Length) string {
	gap := text[p.gap:p.mark]
	mark, in, between := text[p.mark:p.end], "in", " "
	switch mark {
	case "'":
		in = `"`
	case "′":
		in = "″"
	case "’":
		in = "”"
	case "foot", "feet", "yard", "yards":
		in = "inches"
	case "": // a bare number has to name its units now
		gap, mark = " ", p.unit.String()
	}
	n, rest := l/p.unit.Length(), l%p.unit.Length()
	out := ""
	if n > 0 {
		out = strconv.FormatInt(int64(n), 10) + gap + agree(mark, y.last.one(), n == 1) + between
	}
	v := RatioOf(rest, Inch)
	return out + y.last.mixed(v) + gap + agree(in, false, v.Num <= v.Den)
}

// unitText writes the gap and the unit of a part that now holds v.
func (y *layout) unitText(text string, p *part, v Ratio) string {
	if p.bare {
		return ""
	}
	word := text[p.mark:p.end]
	if p.letters {
		word = agree(word, y.last.one(), v.Num != 0 && v.Num <= v.den())
	}
	return text[p.gap:p.mark] + word
}

// number writes v, in the unit u, like the last number of the layout.
func (y *layout) number(v Ratio, u Unit, r Rounding) string {
	n := &y.last
	switch {
	case n.form == decimal, u.Metric() && (n.form == whole || v.den() > 8 || v.den()&(v.den()-1) != 0):
		return n.decimals(v, max(4, int(n.places)), r)
	case n.form == whole:
		return (&Number{}).mixed(v)
	}
	return n.mixed(v)
}

// settle rounds l to what the last number of the layout can show in u. It
// reports false if u is feet or yards and those need inches after them.
func (y *layout) settle(l Length, u Unit, r Rounding) (Length, bool) {
	n := &y.last
	shown := func(places int) bool { return n.form == decimal && fits(l, u, max(places, int(n.places))) }
	switch {
	case u.Metric():
		if !shown(0) {
			l = l.Round(Millimetre, r)
		}
	case u == In:
		if !shown(4) {
			l = l.Round(Inch/16, r)
		}
	case !shown(3):
		l = l.Round(Inch/16, r)
		return l, shown(3) || n.form != decimal && (l%(u.Length()/8) == 0 || l%(u.Length()/3) == 0)
	}
	return l, true
}

// fits reports whether l is exact in u with so many decimals.
func fits(l Length, u Unit, places int) bool {
	p := pow10[min(places, digits)]
	hi, ok := MulDiv(int64(l), p, int64(u.Length()), Up)
	if !ok {
		return false
	}
	lo, _ := MulDiv(int64(l), p, int64(u.Length()), Down)
	return lo == hi
}

// printParts writes l in the several units of the layout.
func (y *layout) printParts(text string, l Length, r Rounding) string {
	last := &y.parts[y.n-1]
	l, exact := y.settle(l, last.unit, r)
	rest := max(l, -l)
	var b strings.Builder
	b.WriteString(y.sign(l))
	written := false
	for i := range y.parts[:y.n-1] {
		p := &y.parts[i]
		one := p.unit.Length()
		v := rest / one
		rest -= v * one
		// Inches without a unit are told by the feet before them.
		if v == 0 && !(last.bare && i == y.n-2) {
			continue
		}
		if written {
			b.WriteString(y.between(text, i))
		}
		b.WriteString(strconv.FormatInt(int64(v), 10))
		b.WriteString(text[p.gap:p.mark])
		was := text[p.number:p.gap] == "1"
		b.WriteString(agree(text[p.mark:p.end], was, v == 1))
		written = true
	}
	if rest == 0 && written {
		return b.String()
	}
	if written {
		b.WriteString(y.between(text, y.n-1))
	}
	if !exact {
		b.WriteString(y.withInches(text, last, rest))
		return b.String()
	}
	v := RatioOf(rest, last.unit.Length())
	b.WriteString(y.number(v, last.unit, r))
	b.WriteString(y.unitText(text, last, v))
	return b.String()
}

// between returns what stands before part i. Where a part has been left out
// it still separates, as it stood between two parts.
func (y *layout) between(text string, i int) string {
	return text[y.parts[i-1].end:y.parts[i].number]
}
