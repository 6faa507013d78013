package ticket

import (
	"strconv"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/worksheet"
)

// ways says how a cloth is cut if not in rows right across.
var ways = map[string]string{
	"guillotine": ", every cut from edge to edge, as cutgate lay shows",
	"free":       ", laid freely, as cutgate lay shows",
}

// cloth says how much of a cloth to buy, unless its bolts are enough, and what the cuts
// take.
func (t *ticket) cloth(c *worksheet.Cloth) string {
	var parts []string
	if n := c.Order.Name.Value; n != "" {
		parts = append(parts, n)
	}
	var atHand length.Length
	for i := range c.Order.Bolts {
		atHand += c.Order.Bolts[i].Length.Value
	}
	none := t.work.Nothing(c) != nil // what is worked out for the rest would mislead
	if c.ToBuy != nil && !none && (c.Needed == nil || atHand < c.Needed.Value.Length()) {
		parts = append(parts, "buy "+t.toBuy(c))
	}
	cut, laid := t.work.CutFrom(c)
	if c.Needed != nil && !none {
		text := "the cuts take " + t.bought(c.Needed)
		if laid && cut.Length > c.Needed.Value.Length() {
			text += ", " + cut.Length.Format(t.sold(), length.Up) + around(cut.Flaws)
		}
		parts = append(parts, text+ways[t.work.Way(c).String()])
	}
	var bolts []string
	for i := range c.Order.Bolts {
		b := &c.Order.Bolts[i]
		text := "bolt " + strconv.Itoa(i+1)
		if b.Lot.Value != "" {
			text = "lot " + b.Lot.Value
		}
		if b.Length.Set {
			text += ", " + b.Length.Value.Format(t.sold(), length.Down)
		}
		bolts = append(bolts, text)
	}
	if len(bolts) > 0 {
		parts = append(parts, "at hand: "+strings.Join(bolts, " · "))
	}
	last := -1
	for _, from := range cut.Sources {
		item := called(&t.work.Items[from.Item])
		if from.Roll == last {
			parts[len(parts)-1] += " · " + item
			continue
		}
		roll, _, _ := strings.Cut(bolts[from.Roll], ", ")
		parts = append(parts, "from "+roll+": "+item)
		last = from.Roll
	}
	return strings.Join(parts, "; ")
}

// around says what the cuts are laid on that so take more of.
func around(flaws int) string {
	switch flaws {
	case 0:
		return " on these bolts"
	case 1:
		return " laid around the flaw"
	}
	return " laid around the flaws"
}

// sold returns the unit that cloth is sold by.
func (t *ticket) sold() length.Unit {
	return worksheet.Sold(t.work.Unit)
}

// toBuy is how much of a cloth to buy, in what it is sold by, with the order's own unit in
// parentheses where that is of the other system.
func (t *ticket) toBuy(c *worksheet.Cloth) string {
	text := t.bought(c.ToBuy)
	if as := t.work.SoldIn(c); as != t.sold() {
		text = c.ToBuy.Value.Format(as, c.ToBuy.Round) + " (" + text + ")"
	}
	return text
}

// bought formats a length of cloth as it is sold: in meters or yards.
func (t *ticket) bought(q *worksheet.Quantity) string {
	t.told[q] = true
	return q.Value.Format(t.sold(), q.Round)
}
