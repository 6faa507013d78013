package judge

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
)

// A leaf is a number of an order as it is written.
type leaf struct {
	path    string
	name    string // of the field
	node    *order.Node
	value   value
	outcome bool // the program works it out where it is blank
}

// A value is what a number comes to.
type value struct {
	sort sort
	n    float64
	unit string // what follows a plain number
}

type sort uint8

const (
	number sort = iota
	size        // nanometres
	weight      // of any kind
)

// aside are the fields with numbers that no outcome can rest on.
var aside = []string{"order", "client", "id", "room", "due", "name", "note", "waive", "fiber", "wash", "rod", "holds", "bore", "flange"}

// leaves lists the numbers of an order, and its units.
func leaves(o *order.Order) (list []leaf) {
	var walk func(n *order.Node, path string)
	walk = func(n *order.Node, path string) {
		for i := range n.Kids {
			k := &n.Kids[i]
			at := path + "[" + strconv.Itoa(i) + "]"
			if n.Form != order.List {
				at = strings.TrimPrefix(path+"."+k.Name, ".")
			}
			switch {
			case slices.Contains(aside, k.Name):
			case k.Form == order.Map || k.Form == order.List:
				walk(k, at)
			case k.Form == order.Scalar || k.Form == order.Number:
				if v, ok := valueOf(k); ok || at == "units" {
					list = append(list, leaf{path: at, name: k.Name, node: k, value: v})
				}
			}
		}
	}
	if o.Root != nil {
		walk(o.Root, "")
	}
	return list
}

// byPath gives the leaves by their paths.
func byPath(list []leaf) map[string]*leaf {
	m := make(map[string]*leaf, len(list))
	for i := range list {
		m[list[i].path] = &list[i]
	}
	return m
}

func valueOf(n *order.Node) (value, bool) { return read(n.Text, n.Unit) }

// read reads a number; unit is what a bare length is in, and is none where it is
// no length.
func read(text string, unit length.Unit) (value, bool) {
	if unit != length.NoUnit {
		l, _, err := length.Parse(text, unit)
		return value{size, float64(l), ""}, err == nil
	}
	num, rest, err := length.ScanNumber(text)
	if err != nil {
		return value{}, false
	}
	if rest = strings.TrimSpace(rest); rest != "" {
		if m, _, err := mass.ParseMass(text); err == nil {
			return value{weight, float64(m), "mass"}, true
		}
		if m, _, err := mass.ParseAreal(text); err == nil {
			return value{weight, float64(m), "areal"}, true
		}
		if m, _, err := mass.ParseLinear(text); err == nil {
			return value{weight, float64(m), "linear"}, true
		}
	}
	v := num.Value()
	return value{number, float64(v.Num) / float64(max(1, v.Den)), rest}, true
}

// A tolerance is how far two numbers may be apart and still say the same.
type tolerance struct {
	inch, metric length.Length
	weight       float64
}

var (
	printed = tolerance{length.Inch / 16, length.Millimetre, 0.025}               // how finely people write
	rounded = tolerance{length.Inch / 8, 3 * length.Millimetre, 0.05}             // how they round off
	byHand  = tolerance{length.Inch / 4, length.Centimetre, 0.10}                 // with a pencil
	step    = map[bool]length.Length{true: length.Centimetre, false: length.Inch} // a unit on the tape, by whether it is metric
)

// same reports whether two numbers say the same.
func (t *tolerance) same(a, b value, metric bool) bool {
	if a.sort != b.sort || a.unit != b.unit {
		return false
	}
	d := math.Abs(a.n - b.n)
	switch a.sort {
	case size:
		most := t.inch
		if metric {
			most = t.metric
		}
		return d <= float64(most)*1.0001
	case weight:
		return d <= t.weight*math.Max(math.Abs(a.n), math.Abs(b.n))
	}
	return d < 1e-6
}
