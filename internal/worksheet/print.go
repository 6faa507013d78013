package worksheet

import (
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
)

// Written is how a quantity is written into an order at n, or where nothing stands
// yet: in the order's units, or those of the heading that it stands under, but cloth
// to buy in yards or metres, as it is sold. In a table whose numbers have decimal
// commas it has one too, as the spreadsheet may take a point for part of a date.
func (s *Sheet) Written(q *Quantity, n *order.Node) string {
	text := s.withPoint(q, n)
	whole, part, ok := strings.Cut(text, ".")
	if !ok || !s.commas {
		return text
	}
	if digits := len(part) - len(strings.TrimLeft(part, "0123456789")); digits == 3 {
		part = part[:3] + "0" + part[3:] // a comma before three digits stands between thousands
	}
	return whole + "," + part
}

// decimalCommas reports whether a number below n is written with a decimal comma.
func decimalCommas(n *order.Node) bool {
	if whole, part, ok := strings.Cut(n.Text, ","); ok && n.Form == order.Scalar {
		digits := len(part) - len(strings.TrimLeft(part, "0123456789"))
		return whole != "" && strings.Trim(whole, "0123456789") == "" && (digits == 1 || digits == 2)
	}
	for i := range n.Kids {
		if decimalCommas(&n.Kids[i]) {
			return true
		}
	}
	return false
}

// withPoint is Written with a decimal point.
func (s *Sheet) withPoint(q *Quantity, n *order.Node) string {
	switch q.Value.Sort {
	case Length:
		style := length.StyleOf(s.Unit, true)
		if n != nil && n.Unit != length.NoUnit {
			style = length.StyleOf(n.Unit, true)
		} else if c := s.Cloth(q.Of); q.Name == ClothToBuy && c != nil {
			style = s.soldIn(c, q.Value.Length())
		}
		return style.Print(q.Value.Length(), q.Round)
	case Ratio:
		return s.ratioLike("1", q.Value.R)
	}
	return q.Value.Format(s.Unit, q.Round)
}

// Sold is what cloth is sold in where lengths are written in a unit: meters or yards.
func Sold(u length.Unit) length.Unit {
	if u.Metric() {
		return length.M
	}
	return length.Yd
}

// SoldIn is the unit that a cloth is sold in: of the system that its order has for what it
// is sold by, or else of the order's own.
func (s *Sheet) SoldIn(c *Cloth) length.Unit {
	if c.Order.SoldBy.Set {
		return Sold(s.lengthStyle(c.Order.SoldBy.Node).Unit())
	}
	return Sold(s.Unit)
}

// soldIn is the manner of a length of cloth that is to be bought: that of what
// it is sold by where yards or metres don't come out even.
func (s *Sheet) soldIn(c *Cloth, l length.Length) length.Style {
	style := length.StyleOf(s.SoldIn(c), false)
	if again, _, err := length.Parse(style.Print(l, length.Up), length.NoUnit); (err != nil || again != l) && c.Order.SoldBy.Set {
		return s.lengthStyle(c.Order.SoldBy.Node)
	}
	return style
}

// read is a text as it would be read at n, as a value of a sort.
func (s *Sheet) read(n *order.Node, text string, sort Sort) (v Value, ok bool) {
	var err error
	v.Sort = sort
	switch sort {
	case Length:
		var l length.Length
		l, _, err = length.Parse(text, s.Bare(n))
		v.N = int64(l)
	case Ratio:
		v.R, err = length.ParseRatio(text)
	case Percent:
		v.R, err = length.ParsePercent(text)
	case Count:
		v.N, err = strconv.ParseInt(text, 10, 64)
	case Mass:
		var m mass.Mass
		m, _, err = mass.ParseMass(text)
		v.N = int64(m)
	case Areal:
		var m mass.Areal
		m, _, err = mass.ParseAreal(text)
		v.N = int64(m)
	case Linear:
		var m mass.Linear
		m, _, err = mass.ParseLinear(text)
		v.N = int64(m)
	default:
		return v, false
	}
	return v, err == nil
}

// Print writes v in the manner that n is written in.
func (s *Sheet) Print(n *order.Node, v Value, r length.Rounding) string {
	switch v.Sort {
	case Length:
		return s.StyleFor(n, v.Length()).Print(v.Length(), r)
	case Mass:
		_, style, _ := mass.ParseMass(n.Text)
		m := mass.Mass(v.N)
		if style.Metric() {
			m = significant(m)
		}
		return style.PrintMass(m)
	case Areal:
		return n.MassStyle().PrintAreal(mass.Areal(v.N))
	case Linear:
		return n.MassStyle().PrintLinear(mass.Linear(v.N))
	case Ratio:
		return s.ratioLike(n.Text, v.R)
	case Percent:
		return ratioLike(n.Text, v.R.Mul(length.NewRatio(100, 1))) + strings.TrimLeft(n.Text, "0123456789.,/ ")
	case Dots:
		return s.heatLike(n.Text, v)
	case Count:
		return strconv.FormatInt(v.N, 10)
	}
	return v.Format(s.Unit, r)
}

// Unitless is what n says without its unit, in the order's: 225 cm for 225 in, in an order
// in centimeters. It reports false where n has no unit, or says the same without it.
func (s *Sheet) Unitless(n *order.Node) (l length.Length, style length.Style, ok bool) {
	_, unit, err := length.ScanNumber(n.Text)
	if err != nil || strings.TrimSpace(unit) == "" {
		return 0, style, false
	}
	says, _, err := length.Parse(n.Text, s.Bare(n))
	if err != nil {
		return 0, style, false
	}
	l, style, err = length.Parse(strings.TrimSpace(strings.TrimSuffix(n.Text, unit)), s.Bare(n))
	return l, style, err == nil && l != says
}

// StyleFor is the manner in which l would be written at n: without the unit that stands
// there, or with the one that cloth is sold by, where that alone is what is wrong.
func (s *Sheet) StyleFor(n *order.Node, l length.Length) length.Style {
	if says, style, ok := s.Unitless(n); ok && (says == l || style.Print(l, length.Nearest) == style.Print(says, length.Nearest) || style.Print(l, length.Up) == style.Print(says, length.Nearest)) {
		return style
	}
	if style, ok := s.byTheBolt(n, l); ok {
		return style
	}
	return s.lengthStyle(n)
}

// byTheBolt is how l is written at n with the unit that cloth is sold by, where the number
// there says it with that one: 1.7 m for 1.7 yd in a metric order, 12 yd for 12 in one in
// inches. A decimal place that is wrong is not taken for it.
func (s *Sheet) byTheBolt(n *order.Node, l length.Length) (style length.Style, ok bool) {
	number, unit, err := length.ScanNumber(n.Text)
	sold := length.Yd
	if s.Unit.Metric() {
		sold = length.M
	}
	if err != nil || sold.Length().MulRatio(number.Value(), length.Nearest) != l {
		return style, false
	}
	bare := strings.TrimSpace(strings.TrimSuffix(n.Text, unit))
	own, known := length.ParseUnit(strings.TrimSpace(unit))
	if bare == n.Text && s.Unit.Metric() || bare != n.Text && (!known || own.Metric() == s.Unit.Metric()) {
		return style, false
	}
	_, style, err = length.Parse(bare+" "+sold.String(), s.Bare(n))
	return style, err == nil
}

// StyleAt is the manner in which a length is written at n.
func (s *Sheet) StyleAt(n *order.Node) length.Style { return s.lengthStyle(n) }

func (s *Sheet) lengthStyle(n *order.Node) length.Style {
	if style, ok := s.styles[n]; ok {
		return style
	}
	style := s.readStyle(n)
	s.styles[n] = style
	return style
}

func (s *Sheet) readStyle(n *order.Node) length.Style {
	unit := s.Bare(n)
	if n != nil {
		if _, style, err := length.Parse(n.Text, unit); err == nil {
			return style
		}
	}
	return length.StyleOf(unit, true)
}

// Bare is what a bare number at n means: what the order says, or the heading that
// it stands under in a table.
func (s *Sheet) Bare(n *order.Node) length.Unit {
	if n != nil && n.Unit != length.NoUnit {
		return n.Unit
	}
	return s.Unit
}

// significant rounds a mass to three figures: no cloth's weight is known better.
func significant(m mass.Mass) mass.Mass {
	unit := mass.Mass(1)
	for m/unit >= 1000 {
		unit *= 10
	}
	return (m + unit/2) / unit * unit
}

// heatLike writes a setting as dots, or as a temperature where text is one.
func (s *Sheet) heatLike(text string, v Value) string {
	setting := s.Tables.Setting(int(v.N))
	if setting == nil || strings.Contains(text, "dot") || !strings.ContainsAny(text, "cCfF") {
		return v.Format(s.Unit, length.Nearest)
	}
	h := order.Heat{Milli: setting.Celsius * 1000, Deg: 'C'}
	if strings.ContainsAny(text, "fF") {
		h.Deg = 'F'
	}
	return h.String()
}

// ratioLike writes r as text is written. Halves beside inches are a fraction, where text
// is no decimal: 1 1/2 widths.
func (s *Sheet) ratioLike(text string, r length.Ratio) string {
	if n, _, err := length.ScanNumber(text); err == nil && n.Places() == 0 && !n.Fraction() && r.Den == 2 && !s.Unit.Metric() {
		text = "1 1/2"
	}
	return ratioLike(text, r)
}

// ratioLike writes r as text is written: with a fraction, or as a decimal with
// a point or a comma.
func ratioLike(text string, r length.Ratio) string {
	if n, _, err := length.ScanNumber(text); err == nil {
		return n.Print(r, 2)
	}
	return r.Format(2)
}

// inBulk are names of pieces that are of something rather than one of several.
var inBulk = map[string]bool{"boxing": true, "lining": true, "interlining": true, "interfacing": true, "wadding": true, "deck": true}

// Plural is the piece's name for more than one of it.
func Plural(piece string) string {
	switch last := piece[strings.LastIndexByte(piece, ' ')+1:]; {
	case inBulk[last]: // not boxings
		return "pieces of " + piece
	case last == "skirt": // widths of it, which are joined; a skirt is the whole
		return piece + " widths"
	case strings.HasSuffix(piece, "s") || strings.HasSuffix(piece, "x"):
		return piece + "es"
	case strings.HasSuffix(piece, "dy"):
		return strings.TrimSuffix(piece, "y") + "ies"
	}
	return piece + "s"
}

// Many is a number of things: 1 error, 2 errors.
func Many[N int | int64](n N, thing string) string {
	if n != 1 {
		thing = Plural(thing)
	}
	return strconv.FormatInt(int64(n), 10) + " " + thing
}

// All names things as a sentence does: "oat", "oat and sun", "oat, sun and moon".
func All(words []string) string { return joined(words, " and ") }

// Any is All of which one does: "oat, sun or moon".
func Any(words []string) string { return joined(words, " or ") }

func joined(words []string, with string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + with + words[last]
}

// FirstOf lists the first of some words, and says how many more there are.
func FirstOf(words []string, most int) string {
	if more := len(words) - most; more > 0 {
		words = append(slices.Clip(words[:most]), strconv.Itoa(more)+" more")
	}
	return All(words)
}
