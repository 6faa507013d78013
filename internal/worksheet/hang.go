package worksheet

import (
	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
)

// footGap works out how far the foot is from the floor, where the height of
// what it hangs from is given. drop is how far the top edge stands above that.
func (w *worker) footGap(it *Item, height order.Length, drop length.Length) {
	if !height.Set || it.FinishedLength == nil {
		return
	}
	gap := height.Value + drop - it.FinishedLength.Value.Length()
	formula, terms := withDrop("{height above the floor}", []Term{len1("height above the floor", height.Value)}, drop)
	it.FootGap = w.put(FootGap, "", LengthOf(gap), length.Nearest, Common,
		formula+" - {finished length}", append(terms, term(it.FinishedLength))...)
}

// withDrop is a formula with how far the top edge stands above what it hangs
// from, or below it.
func withDrop(formula string, terms []Term, drop length.Length) (string, []Term) {
	switch {
	case drop > 0:
		return formula + " + {top edge above it}", append(terms, len1("top edge above it", drop))
	case drop < 0:
		return formula + " - {top edge below it}", append(terms, len1("top edge below it", -drop))
	}
	return formula, terms
}

const weightSource = "M.Y.L. Ltd., How to calculate drapery weight"

// hanging works out the mass of the finished hanging and of its bottom hem.
func (w *worker) hanging(it *Item) {
	c := it.Face
	if c == nil {
		return
	}
	o := it.Order
	as := weightSystem(c)
	if c.Order.Weight.Set && it.Bottom.Takes > 0 {
		strip := c.Order.Weight.Value.Strip(it.Bottom.Takes)
		formula, terms := "{cloth weight} × {bottom hem}", []Term{
			{Name: "cloth weight", Value: ArealOf(c.Order.Weight.Value).in(as)}, len1("bottom hem", it.Bottom.Takes)}
		if o.Weights.Mass.Set {
			strip += o.Weights.Mass.Value
			formula, terms = formula+" + {chain}", append(terms, Term{Name: "chain", Value: LinearOf(o.Weights.Mass.Value).in(as)})
		}
		it.HemMass = w.put(HemMass, "", LinearOf(strip).in(as), length.Nearest, Common, formula, terms...)
	}
	var total mass.Mass
	var foot length.Length // of the bottom hem of all panels
	formula, terms := "", make([]Term, 0, 16)
	for i := range it.Pieces {
		p := &it.Pieces[i]
		if p.Cloth == nil || !p.Cloth.Order.Weight.Set || p.Length == nil {
			return // a part of a weight would mislead
		}
		n := p.Count.Value.N
		total += p.Cloth.Order.Weight.Value.Of(p.Width.Value.Length(), p.Length.Value.Length()).Times(n)
		if p.Cloth == c {
			foot += p.Width.Value.Length().Mul(n)
		}
		if formula != "" {
			formula += " + "
		}
		formula += "{" + p.Name + "s} × {width} × {length} × {weight}"
		terms = append(terms, num(p.Name+"s", n), Term{Name: "width", Value: p.Width.Value}, Term{Name: "length", Value: p.Length.Value}, Term{Name: "weight", Value: ArealOf(p.Cloth.Order.Weight.Value).in(as)})
	}
	if total == 0 {
		return
	}
	switch k := &o.Weights; {
	case k.Mass.Set:
		total += k.Mass.Value.Of(foot)
		formula += " + {chain} × {foot}"
		terms = append(terms, Term{Name: "chain", Value: LinearOf(k.Mass.Value).in(as)}, len1("foot", foot))
	case k.Each.Set && k.Count.Set:
		total += k.Each.Value.Times(k.Count.Value)
		formula += " + {weights} × {each}"
		terms = append(terms, num("weights", k.Count.Value), Term{Name: "each", Value: MassOf(k.Each.Value).in(as)})
	}
	it.HangingMass = w.put(HangingMass, "", MassOf(total).in(as), length.Nearest, weightSource, formula, terms...)
	w.compareMass(it.HangingMass, &o.HangingMass)
	if wet := w.Tables.House.WetFactor; o.Kind.Value == "shower curtain" && !wet.IsZero() {
		it.WetMass = w.put(WetMass, "", MassOf(times(total, wet)).in(as), length.Nearest, Common,
			"{hanging mass} × {wet}", via(it.HangingMass), rat("wet", wet))
	}
}

// weightSystem is the system that a cloth's weight is written in.
func weightSystem(c *Cloth) System {
	n := c.Order.Weight.Node
	if n == nil {
		return Ordinary
	}
	if _, style, err := mass.ParseAreal(n.Text); err == nil && style.Metric() {
		return Metric
	}
	return Imperial
}

func times(m mass.Mass, r length.Ratio) mass.Mass {
	n, _ := length.MulDiv(int64(m), r.Num, max(r.Den, 1), length.Nearest)
	return mass.Mass(n)
}

// Holds is what the item's rod or track holds, as its maker states.
func (it *Item) Holds() order.Mass {
	if it.Order.Track.Set {
		return it.Order.Track.Holds
	}
	return it.Order.Rod.Holds
}

// press works out the hottest setting that every cloth of the item stands.
// There is none where one of them may not be ironed at all.
func (w *worker) press(it *Item) {
	cap, weakest, name := int64(0), "", ""
	for i, c := range w.ClothsOf(it) {
		if c.NoIron() {
			return
		}
		dots := int64(c.Cap)
		if iron := c.Order.Care.Iron; iron.Set && !iron.Value.None {
			if d := w.Dots(iron.Value); d > 0 && (dots == 0 || d < dots) {
				dots = d
			}
		}
		if dots > 0 && (cap == 0 || dots < cap) {
			cap, weakest, name = dots, c.Weakest, c.Name
			if dots != int64(c.Cap) {
				weakest = ""
			}
		}
		if i == 0 && cap == 0 {
			return // a setting for the lining alone would mislead
		}
	}
	if cap == 0 {
		return
	}
	says := "what " + weakest + " stands"
	if weakest == "" {
		says = "what the care label allows"
	}
	it.PressSetting = w.put(PressSetting, name, DotsOf(cap), length.Down, pressSource, "{"+says+"}", Term{Name: says, Value: DotsOf(cap)})
	leaf := &it.Order.Press.Setting
	if !leaf.Set || leaf.Node == nil || leaf.Value.None {
		return
	}
	w.stated(it.PressSetting, leaf.Node)
	if dots := w.Dots(leaf.Value); dots > cap {
		w.wrong(it.PressSetting, leaf.Node, DotsOf(dots), DotsOf(cap))
	}
}

const pressSource = "ISO 3758:2012, from memory; iron symbols after GINETEX, DonnaD"

// NoIron reports whether the cloth may not be ironed at all: its care label
// says so, or it has no label and a fiber of it stands no iron.
func (c *Cloth) NoIron() bool {
	iron := c.Order.Care.Iron
	return iron.Value.None || !iron.Set && c.Cap == 0 && c.Weakest != ""
}

// Dots is the number of dots that a setting comes to: none for no iron, one
// more than the hottest for a temperature beyond the scale.
func (s *Sheet) Dots(h order.Heat) int64 {
	if h.None {
		return 0
	}
	if h.Dots > 0 {
		return int64(h.Dots)
	}
	return int64(s.Tables.DotsAt((h.Milli + 999) / 1000))
}

// ClothsOf are the cloths that an item is made of, the face first.
func (s *Sheet) ClothsOf(it *Item) []*Cloth {
	list := make([]*Cloth, 0, 3)
	for _, name := range it.Order.ClothNames() {
		if c := s.Cloth(name); name != "" && c != nil {
			list = append(list, c)
		}
	}
	return list
}
