package trade

import (
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/mass"
)

// FiberByName returns the fiber of a generic name, in either case of letters.
// A trade name is not found.
func (t *Tables) FiberByName(name string) (*Fiber, bool) {
	for i := range t.Fibers {
		f := &t.Fibers[i]
		if strings.EqualFold(f.Name, name) || holds(f.Also, name) {
			return f, true
		}
	}
	return nil, false
}

// FiberByBrand returns the fiber that a trade name stands for.
func (t *Tables) FiberByBrand(name string) (*Fiber, bool) {
	for i := range t.Fibers {
		if holds(t.Fibers[i].Brands, name) {
			return &t.Fibers[i], true
		}
	}
	return nil, false
}

// holds reports whether list has name, in either case of letters.
func holds(list []string, name string) bool {
	for _, s := range list {
		if strings.EqualFold(s, name) {
			return true
		}
	}
	return false
}

// Setting returns the iron's setting of so many dots, or nil.
func (t *Tables) Setting(dots int) *Setting {
	for i := range t.Settings {
		if t.Settings[i].Dots == dots {
			return &t.Settings[i]
		}
	}
	return nil
}

// DotsAt returns how many dots a sole plate of so many degrees Celsius counts
// as: the coolest setting that allows it. One that is hotter than every setting
// counts as one dot more than the hottest.
func (t *Tables) DotsAt(celsius int64) int {
	dots := 0
	for i := range t.Settings {
		dots = t.Settings[i].Dots
		if celsius <= t.Settings[i].Celsius {
			return dots
		}
	}
	return dots + 1
}

// Class returns the class of a cloth of that weight, or nil if there are none.
func (t *Tables) Class(areal mass.Areal) *Class {
	for i := range t.Classes {
		if c := &t.Classes[i]; c.Below == 0 || areal < c.Below {
			return c
		}
	}
	return nil
}

// ClassByName returns the class of that name, or nil.
func (t *Tables) ClassByName(name string) *Class {
	for i := range t.Classes {
		if t.Classes[i].Name == name {
			return &t.Classes[i]
		}
	}
	return nil
}

// NeedleByNumber returns the needle of that other number, or nil.
func (t *Tables) NeedleByNumber(n int64) *Needle {
	for i := range t.Needles {
		if t.Needles[i].Number == n {
			return &t.Needles[i]
		}
	}
	return nil
}

// Seam returns the kind of seam of that name, or nil.
func (t *Tables) Seam(name string) *Seam {
	for i := range t.Seams {
		if t.Seams[i].Name == name {
			return &t.Seams[i]
		}
	}
	return nil
}

// Stitch returns the stitch type of that number, or nil.
func (t *Tables) Stitch(name string) *Stitch {
	for i := range t.Stitches {
		if t.Stitches[i].Name == name {
			return &t.Stitches[i]
		}
	}
	return nil
}

// Heading returns the heading of that style, or nil.
func (t *Tables) Heading(style string) *Heading {
	for i := range t.Headings {
		if t.Headings[i].Style == style {
			return &t.Headings[i]
		}
	}
	return nil
}

// EyeletForRod returns the smallest eyelet that takes a rod of diameter d, or
// nil if none does. Grommets for hooks take no rod.
func (t *Tables) EyeletForRod(d length.Length) *Eyelet {
	for i := range t.Eyelets {
		if e := &t.Eyelets[i]; e.Rod > 0 && d <= e.Rod {
			return e
		}
	}
	return nil
}

// EyeletOfBore returns the eyelet of that bore, or nil.
func (t *Tables) EyeletOfBore(d length.Length) *Eyelet {
	for i := range t.Eyelets {
		if t.Eyelets[i].Bore == d {
			return &t.Eyelets[i]
		}
	}
	return nil
}

// ChainFor returns the lightest chain of at least that mass, or nil if there is
// none so heavy.
func (t *Tables) ChainFor(least mass.Linear) *Chain {
	for i := range t.Chains {
		if t.Chains[i].Mass >= least {
			return &t.Chains[i]
		}
	}
	return nil
}

// CordLimits returns a market's limits for cords, in the order of the table. A
// market that is not in the table has none. The rows are the table's own.
func (t *Tables) CordLimits(market string) []Cord {
	for i := range t.Cords {
		if t.Cords[i].Market != market {
			continue
		}
		end := i + 1
		for end < len(t.Cords) && t.Cords[end].Market == market {
			end++
		}
		return t.Cords[i:end:end]
	}
	return nil
}

// FireGoods are what the tables call a kind of item that is asked after for fire, or "".
func FireGoods(kind string) string {
	switch kind {
	case "curtain", "valance", "Roman shade":
		return "curtain"
	case "tablecloth", "runner":
		return "table"
	}
	return ""
}

// FireFor returns what a market asks of goods in such use, or nil where it asks
// nothing that the tables know.
func (t *Tables) FireFor(market, use, goods string) *Fire {
	for i := range t.Fire {
		if f := &t.Fire[i]; f.Market == market && f.Use == use && f.Goods == goods {
			return f
		}
	}
	return nil
}
