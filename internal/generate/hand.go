package generate

import (
	"math/rand/v2"
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

// RoundByHand writes the outcomes as a person at the bench would: pieces and flat
// widths to an eighth or a quarter of an inch, 5 mm or 1 cm, and cut lengths up;
// spacings, gaps and take-ups to an eighth of an inch or 3 mm; masses to two
// figures.
func (o *Order) RoundByHand(rng *rand.Rand) {
	coarse := oneOf(rng, length.Inch/8, length.Inch/4)
	fine := length.Inch / 8
	if o.Unit.Metric() {
		coarse, fine = oneOf(rng, 5*length.Millimetre, length.Centimetre), 3*length.Millimetre
	}
	for _, x := range o.outcomes {
		switch {
		case x.cut && x.name == "length":
			x.round(o.Unit, coarse, length.Up)
		case x.cut && x.name == "width", x.name == "flat_width":
			x.round(o.Unit, coarse, length.Nearest)
		case x.name == "spacing", x.name == "gap", x.name == "take_up":
			x.round(o.Unit, fine, length.Nearest)
		case x.name == "hanging_mass":
			x.twoFigures()
		}
	}
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
