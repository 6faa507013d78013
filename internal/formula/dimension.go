package formula

import "fmt"

// A Dimension is what a number measures, as exponents: {Length: 1} is a length,
// {Mass: 1, Length: -2} a mass per area. Counts, fullness and shares are plain
// numbers, with none.
type Dimension struct{ Length, Mass, Temperature int8 }

// What terms measure.
var (
	Plain  = Dimension{}
	Length = Dimension{Length: 1}
	Area   = Dimension{Length: 2}
	Mass   = Dimension{Mass: 1}
	Linear = Dimension{Mass: 1, Length: -1}
	Areal  = Dimension{Mass: 1, Length: -2}
	Heat   = Dimension{Temperature: 1}
)

func (d Dimension) String() string {
	switch d {
	case Plain:
		return "a plain number"
	case Length:
		return "a length"
	case Area:
		return "an area"
	case Mass:
		return "a mass"
	case Linear:
		return "a mass per length"
	case Areal:
		return "a mass per area"
	case Heat:
		return "a heat"
	}
	return fmt.Sprintf("length^%d mass^%d heat^%d", d.Length, d.Mass, d.Temperature)
}

// Dimension is what the formula's result measures. It is an error to add, compare
// or round what does not measure the same, and to use a term that is not known.
func (f *Formula) Dimension(of func(term string) (Dimension, bool)) (Dimension, error) {
	d, err := f.root.dimension(f, of)
	if err != nil {
		return d, fmt.Errorf("formula %q: %w", f.text, err)
	}
	return d, nil
}

func (n *node) dimension(f *Formula, of func(string) (Dimension, bool)) (a Dimension, err error) {
	switch n.op {
	case number:
		return Plain, nil
	case term:
		d, ok := of(f.terms[n.term])
		if !ok {
			return d, fmt.Errorf("there is no term {%s}", f.terms[n.term])
		}
		return d, nil
	}
	if a, err = n.a.dimension(f, of); err != nil {
		return a, err
	}
	var b Dimension
	if n.b != nil {
		if b, err = n.b.dimension(f, of); err != nil {
			return b, err
		}
	}
	switch n.op {
	case add, sub, larger, smaller:
		// Nothing but a plain number can be written without a unit, and 0 is one
		// of any.
		if a != b && !n.b.zero() && !n.a.zero() {
			return a, fmt.Errorf("%s and %s don't go together", a, b)
		}
		if n.a.zero() {
			return b, nil
		}
	case mul:
		return Dimension{a.Length + b.Length, a.Mass + b.Mass, a.Temperature + b.Temperature}, nil
	case quo:
		return Dimension{a.Length - b.Length, a.Mass - b.Mass, a.Temperature - b.Temperature}, nil
	case root:
		if a.Length%2 != 0 || a.Mass%2 != 0 || a.Temperature%2 != 0 {
			return a, fmt.Errorf("%s has no root", a)
		}
		return Dimension{a.Length / 2, a.Mass / 2, a.Temperature / 2}, nil
	case up, down, nearest, half, even:
		if a != Plain {
			return a, fmt.Errorf("%s can't be rounded to a whole", a)
		}
	}
	return a, nil
}

func (n *node) zero() bool { return n.op == number && n.n.IsZero() }
