package generate

import (
	"math/rand/v2"
	"slices"
	"strconv"

	"cutgate/internal/length"
	"cutgate/internal/mass"
)

// BlankHalf leaves each outcome blank that a coin says.
func (o *Order) BlankHalf(rng *rand.Rand) {
	for _, x := range o.outcomes {
		if rng.IntN(2) == 0 {
			x.in.set(x.name, nil)
		}
	}
}

// RoundByHand writes the outcomes as a person at the bench would: widths and flat widths
// to an eighth or a quarter of an inch, or to 5 mm; lengths along a cloth without a repeat
// up, to as much or to whole centimetres, and of small goods, that are sewn edge to edge,
// to an eighth or 3 mm; spacings, gaps and take-ups to an eighth of an inch or 3 mm; masses
// to two figures.
func (o *Order) RoundByHand(rng *rand.Rand) {
	coarse := oneOf(rng, length.Inch/8, length.Inch/4)
	along, fine := coarse, length.Inch/8
	if o.Unit.Metric() {
		coarse, along, fine = 5*length.Millimetre, oneOf(rng, 5*length.Millimetre, length.Centimetre), 3*length.Millimetre
	}
	items, _ := o.form.get("items").([]*block)
	for _, x := range o.outcomes {
		switch {
		case x.cut && x.name == "length" && o.repeats(x.in, items):
		case x.cut && x.name == "length" && sewnToSize(x.in, items):
			x.round(o.Unit, fine, length.Up)
		case x.cut && x.name == "length":
			x.round(o.Unit, along, length.Up)
		case x.cut && x.name == "width", x.name == "flat_width":
			x.round(o.Unit, coarse, length.Nearest)
		case x.name == "spacing", x.name == "gap", x.name == "take_up":
			x.round(o.Unit, fine, length.Nearest)
		case x.name == "hanging_mass":
			x.twoFigures()
		}
	}
}

// itemOf is the item that a cut is of.
func itemOf(cut *block, items []*block) *block {
	for _, item := range items {
		if cuts, _ := item.get("cuts").([]*block); slices.Contains(cuts, cut) {
			return item
		}
	}
	return nil
}

// repeats reports whether a cut is of a cloth with a repeat along it.
func (o *Order) repeats(cut *block, items []*block) bool {
	name := cut.text("cloth")
	if name == "" {
		name = itemOf(cut, items).text("cloth")
	}
	repeat := o.form.at("cloths", name, "repeat")
	return repeat != nil && repeat.text("length") != ""
}

// sewnToSize reports whether a cut is of goods whose pieces are sewn edge to edge, so that
// what is over is not trimmed.
func sewnToSize(cut *block, items []*block) bool {
	switch itemOf(cut, items).text("item") {
	case "cushion cover", "pillowcase", "runner", "placemat", "napkin", "tie-back":
		return true
	}
	return false
}

func (x outcome) round(u length.Unit, step length.Length, r length.Rounding) {
	if l, style, err := length.Parse(x.in.text(x.name), u); err == nil {
		x.in.set(x.name, style.Print(l.Round(step, r), length.Nearest))
	}
}

func (x outcome) twoFigures() {
	m, style, err := mass.ParseMass(x.in.text(x.name))
	if err != nil {
		return
	}
	unit, name := mass.Kilogram, " kg"
	if !style.Metric() {
		unit, name = mass.Pound, " lb"
	}
	two, err := strconv.ParseFloat(strconv.FormatFloat(float64(m)/float64(unit), 'g', 2, 64), 64)
	if err == nil {
		x.in.set(x.name, strconv.FormatFloat(two, 'f', -1, 64)+name)
	}
}
