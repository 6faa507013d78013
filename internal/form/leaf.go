package form

import (
	"reflect"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
)

// A Leaf is a kind of leaf: how a value that has no parts is read.
type Leaf uint8

// The kinds of leaf.
const (
	NoLeaf Leaf = iota
	Word        // one of a list of words
	Text
	Flag
	Count
	Ratio
	Percent
	Length
	Areal
	Linear
	Mass
	Setting
	Temperature
	Date
)

var leaves = [...]struct {
	name   string // in the schema's @leaf
	wanted string
	fills  reflect.Type
}{
	Word:        {"word", "", reflect.TypeFor[order.Text]()},
	Text:        {"text", "a name or a few words", reflect.TypeFor[order.Text]()},
	Flag:        {"flag", "true or false", reflect.TypeFor[order.Flag]()},
	Count:       {"count", "a whole number", reflect.TypeFor[order.Count]()},
	Ratio:       {"ratio", "a plain number such as 2.25", reflect.TypeFor[order.Ratio]()},
	Percent:     {"percent", "a percentage such as 3%", reflect.TypeFor[order.Percent]()},
	Length:      {"length", order.WantLength, reflect.TypeFor[order.Length]()},
	Areal:       {"areal", "a weight per area such as 240 g/m2", reflect.TypeFor[order.Areal]()},
	Linear:      {"linear", "a weight per length such as 50 g/m", reflect.TypeFor[order.Linear]()},
	Mass:        {"mass", "a weight such as 5 kg", reflect.TypeFor[order.Mass]()},
	Setting:     {"setting", "dots or a temperature, such as 2 dots, 150 C or none", reflect.TypeFor[order.Setting]()},
	Temperature: {"temperature", "a temperature such as 40 C", reflect.TypeFor[order.Temperature]()},
	Date:        {"date", "a date such as 2026-12-18", reflect.TypeFor[order.Date]()},
}

// leafOf returns the kind that a @leaf attribute names.
func leafOf(name string) (Leaf, bool) {
	for k := Text; int(k) < len(leaves); k++ {
		if leaves[k].name == name {
			return k, true
		}
	}
	return NoLeaf, false
}

// Wanted says, in the words of a message, what belongs in the leaf.
func (k Leaf) Wanted() string      { return leaves[k].wanted }
func (k Leaf) fills() reflect.Type { return leaves[k].fills }

// Limits are the range in which a leaf's value makes sense.
type Limits struct {
	above bool         // it must be more than zero, not just zero or more
	most  length.Ratio // in the leaf's own unit: nm, µg/m2, 1/1000 °C
}

// sense is the table of limits: the first row that matches a leaf applies. In is the
// Go name of the group, and an empty In or Field matches any.
var sense = [...]struct {
	leaf      Leaf
	in, field string
	Limits
}{
	{Length, "Finished", "", Limits{true, kilometre}},
	{Length, "Size", "", Limits{true, kilometre}},
	{Length, "Cloth", "width", Limits{true, kilometre}},
	{Length, "Cloth", "sold_by", Limits{true, kilometre}},
	{Length, "Measurements", "width", Limits{true, kilometre}},
	{Length, "Bolt", "length", Limits{true, kilometre}},
	{Length, "Cut", "", Limits{true, kilometre}},
	{Length, "Track", "width", Limits{true, kilometre}},
	{Length, "Board", "width", Limits{true, kilometre}},
	{Length, "Recess", "", Limits{true, kilometre}},
	{Length, "Piping", "strip", Limits{true, kilometre}},
	{Length, "", "", Limits{false, kilometre}},
	{Count, "Item", "panels", Limits{true, whole(10_000)}},
	{Count, "Item", "quantity", Limits{true, whole(10_000)}},
	{Count, "Item", "sides", Limits{true, whole(4)}},
	{Count, "", "", Limits{false, whole(10_000)}},
	{Ratio, "", "fullness", Limits{true, whole(10)}},
	{Ratio, "", "", Limits{false, whole(10_000)}},
	{Percent, "Shrinks", "", Limits{false, length.NewRatio(1, 2)}},
	{Percent, "", "", Limits{false, whole(1)}},
	{Areal, "", "", Limits{true, whole(int64(5 * mass.Kilogram))}},
	{Linear, "", "", Limits{true, whole(int64(50 * mass.Kilogram))}},
	{Mass, "", "", Limits{false, whole(int64(10_000 * mass.Kilogram))}},
	{Setting, "", "", Limits{false, whole(300_000)}},
	{Temperature, "", "", Limits{false, whole(300_000)}},
}

var kilometre = whole(int64(1000 * length.Metre))

func whole(n int64) length.Ratio { return length.NewRatio(n, 1) }

func limitsOf(k Leaf, in, field string) Limits {
	for _, row := range sense {
		if row.leaf == k && (row.in == "" || row.in == in) && (row.field == "" || row.field == field) {
			return row.Limits
		}
	}
	return Limits{}
}

// Outside reports whether n lies outside the limits.
func (m Limits) Outside(n int64) bool { return n < 0 || n == 0 && m.above || n > m.most.Num }

// OutsideRatio is Outside for a ratio.
func (m Limits) OutsideRatio(q length.Ratio) bool {
	return q.Num < 0 || q.Num == 0 && m.above || q.Cmp(m.most) > 0
}
