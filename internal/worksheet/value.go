package worksheet

import (
	"strconv"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
)

// A Sort is the sort of number a Value is.
type Sort uint8

// The sorts of value.
const (
	Length Sort = iota // nanometres
	Count              // pieces, holes, pleats
	Ratio              // fullness, widths
	Percent
	Mass   // micrograms
	Linear // micrograms per metre
	Areal  // micrograms per square metre
	Dots   // setting of the iron
	Word   // which of a [Choosing]'s words it is
)

// A Value is a number with what it measures.
type Value struct {
	N    int64        // all but ratios
	R    length.Ratio // ratios and percentages
	Sort Sort
	As   System // of a mass, where the order's units do not decide
}

// A System is the system of units that a mass is printed in.
type System uint8

// The systems. Ordinary is that of the order's units.
const (
	Ordinary System = iota
	Metric
	Imperial
)

// In is v printed in that system.
func (v Value) In(s System) Value { v.As = s; return v }

// LengthOf, CountOf and the like make a Value of their sort.
func LengthOf(l length.Length) Value { return Value{Sort: Length, N: int64(l)} }
func CountOf(n int64) Value          { return Value{Sort: Count, N: n} }
func RatioOf(r length.Ratio) Value   { return Value{Sort: Ratio, R: r} }
func PercentOf(r length.Ratio) Value { return Value{Sort: Percent, R: r} }
func MassOf(m mass.Mass) Value       { return Value{Sort: Mass, N: int64(m)} }
func LinearOf(m mass.Linear) Value   { return Value{Sort: Linear, N: int64(m)} }
func ArealOf(m mass.Areal) Value     { return Value{Sort: Areal, N: int64(m)} }
func DotsOf(n int64) Value           { return Value{Sort: Dots, N: n} }

// Length is the value as a length; 0 for another sort.
func (v Value) Length() length.Length {
	if v.Sort != Length {
		return 0
	}
	return length.Length(v.N)
}

// Format prints v in the order's unit, with its unit: lengths to 1/16 in or
// 1 mm by r, ratios to two places, masses in the system of the unit.
func (v Value) Format(u length.Unit, r length.Rounding) string {
	metric := u.Metric()
	if v.As != Ordinary {
		metric = v.As == Metric
	}
	switch v.Sort {
	case Length:
		return length.Length(v.N).Format(u, r)
	case Ratio:
		return v.R.Format(2)
	case Percent:
		return v.R.Percent()
	case Mass:
		return mass.Mass(v.N).Format(metric)
	case Linear:
		return mass.Linear(v.N).Format(metric)
	case Areal:
		return mass.Areal(v.N).Format(metric)
	case Dots:
		return order.Heat{Dots: int(v.N)}.String()
	}
	return strconv.FormatInt(v.N, 10)
}
