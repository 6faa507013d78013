package worksheet

import (
	"cmp"
	"slices"
	"strconv"

	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/trade"
)

// Cautions are the usual cautions for making and hanging the items of an order, each
// once. They do not take the place of local codes, of a maker's instructions or of
// licensed practice, and the last of them says so. Without items there are none.
func (s *Sheet) Cautions() (list []string) {
	said := make(map[string]bool)
	masses := s.masses()
	for i := range s.Items {
		for _, c := range s.cautions(&s.Items[i], masses) {
			if !said[c] {
				list = append(list, c)
			}
			said[c] = true
		}
	}
	if list == nil {
		return nil
	}
	return append(list, "These are the usual cautions. Local codes, makers' instructions and licensed practice come first.")
}

// masses are those of all items that are carried alike, by what carries them. Where there
// are several, each says of which item it is.
func (s *Sheet) masses() map[string]string {
	type one struct{ mass, of string }
	all := make(map[string][]one)
	for i := range s.Items {
		it := &s.Items[i]
		mass := it.Get(HangingMass)
		if mass == nil {
			continue
		}
		if wet := it.Get(WetMass); wet != nil {
			mass = wet
		}
		by, text := carriedBy(it), s.Weighs(mass.Value)
		list, of := all[by], cmp.Or(it.Order.ID.Value, "item "+strconv.Itoa(i+1))
		if n := slices.IndexFunc(list, func(o one) bool { return o.mass == text }); n >= 0 {
			list[n].of += ", " + of
			continue
		}
		all[by] = append(list, one{text, of})
	}
	texts := make(map[string]string)
	for by, list := range all {
		if texts[by] = list[0].mass; len(list) == 1 {
			continue
		}
		parts := make([]string, len(list))
		for i, o := range list {
			parts[i] = o.mass + " (" + o.of + ")"
		}
		texts[by] = All(parts)
	}
	return texts
}

// carriedBy says what has to carry an item.
func carriedBy(it *Item) string {
	const wall = "the fixing in the wall must carry it, "
	o := it.Order
	var uncounted []string
	for _, what := range it.Uncounted() {
		uncounted = append(uncounted, "the "+what)
	}
	switch {
	case len(uncounted) == 1:
		return wall + "and " + uncounted[0] + ", which is not counted in it."
	case len(uncounted) > 1:
		return wall + "and " + All(uncounted) + ", which are not counted in it."
	}
	switch kind := o.Kind.Value; {
	case kind == "valance" && it.Word("mount") == "track", o.Track.Kind.Value == "track":
		return wall + "not the track alone."
	case o.Track.Kind.Value == "pole":
		return wall + "not the pole alone."
	case kind == "curtain":
		return wall + "not the track or pole alone."
	}
	return wall + "not the rod alone."
}

// Uncounted is what an item hangs from that is not counted in its mass.
func (it *Item) Uncounted() []string {
	switch kind := it.Order.Kind.Value; {
	case kind == "Roman shade":
		return []string{"rods", "bar", "board"}
	case kind == "valance" && it.Word("mount") == "board":
		return []string{"board"}
	}
	return nil
}

// Weighs prints a mass in the system of the order's units, and in the one that its cloth's
// weight is written in, where that is the other.
func (s *Sheet) Weighs(v Value) string {
	text := v.In(Ordinary).Format(s.Unit, length.Nearest)
	if as := v.Format(s.Unit, length.Nearest); as != text {
		text += " (" + as + ")"
	}
	return text
}

// cautions are those of one item, with the masses of all.
func (s *Sheet) cautions(it *Item, masses map[string]string) []string {
	o := it.Order
	list := []string{
		"Cutter, shears and needle: cut away from the hand, sheath the blade when you put it down, keep fingers behind the presser foot.",
	}
	if !o.Press.Setting.Value.None {
		list = append(list, "Iron: test on a scrap, with a press cloth between. Sole plate and steam burn; never leave a hot iron face down.")
	}
	if press := it.Get(PressSetting); press != nil && press.Value.N == 1 {
		list = append(list, "Iron: no steam at one dot.")
	}
	if o.Holes.Make.Value == "grommet" {
		list = append(list, "Grommet setter and hammer: wear eye protection, keep fingers clear of the die, work on a firm base.")
	}
	if text := masses[carriedBy(it)]; it.Get(HangingMass) != nil {
		list = append(list, "Hanging mass about "+text+": "+carriedBy(it)+" Fix into structure, to the maker's figures.")
	}
	if kind := o.Kind.Value; kind == "cornice" || kind == "valance" && it.Word("mount") == "board" {
		list = append(list, "Board: fix it into structure, for its own weight and the cloth's. Staples and tacks: wear eye protection, keep the other hand clear, leave no points sticking out.")
	}
	switch {
	case o.Kind.Value == "Roman shade":
		list = append(list,
			"A shade's cords, including those behind it, can strangle a young child: never hang it near a crib, a cot or a bed. In the US no operating cord over 8 in may be within reach (16 CFR 1260); elsewhere the market's cord rules decide. Cordless is best.",
			"Shade: fix the board into structure, and put a bar in the foot so that the cords behind stay taut.")
	case o.Kind.Value == "tie-back", o.TieBacks.Set:
		list = append(list, "A tie-back is a loop within a child's reach: hook it high, never near a crib, a cot or a bed; the market's cord rules decide.")
	}
	if o.Cord.Set && o.Kind.Value != "Roman shade" && o.Kind.Value != "tie-back" {
		list = append(list, "Cords and loops can strangle a young child: keep them out of reach and tensioned, never near a crib, a cot or a bed; the market's cord rules decide.")
	}
	if o.Weights.Set {
		list = append(list, "Weights: sew them into a closed pocket. Lead is harmful in the mouth: wash your hands after handling it.")
	}
	if o.NearHeat.Value {
		list = append(list, "Near heat: keep cloth as far from heaters, flames and lamps as their makers say.")
	}
	if text := s.fire(o); text != "" {
		list = append(list, text)
	}
	if s.Order.Use.Value == "public" {
		list = append(list, "Public use: keep the mill's fire certificate with the order; the local fire code decides.")
	}
	if s.Order.Use.Value == "nursery" {
		list = append(list, "Nursery: nothing small that a child can pull off and swallow, no cord, no loop.")
	}
	return list
}

// fire is what the market says of fire for an item in a home or a nursery, where the order
// states both; "" for nothing.
func (s *Sheet) fire(o *order.Item) string {
	use := s.Order.Use.Value
	if use != "home" && use != "nursery" {
		return ""
	}
	goods := trade.FireGoods(o.Kind.Value)
	switch {
	case o.Upholstered.Value:
		goods = "upholstery"
	case o.Kind.Value == "cushion cover" && s.Order.Market.Value != "US": // there it is of upholstered seating only
		goods = "upholstery"
	}
	f := s.Tables.FireFor(s.Order.Market.Value, use, goods)
	if f == nil {
		return ""
	}
	return "Fire, " + f.Market + ", " + use + ": " + f.Says + ". The local code decides."
}
