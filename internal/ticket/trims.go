package ticket

import (
	"cmp"
	"strings"

	"cutgate/internal/worksheet"
)

// hardware lists what is needed besides cloth, for all items that are alike.
func (t *ticket) hardware(it *worksheet.Item) {
	o := it.Order
	label := "hardware"
	row := func(text string) {
		t.row(label, text)
		label = ""
	}
	all := it.Quantity * t.times
	each := ""
	if all > 1 {
		each = " for each"
	}
	if n := len(it.Holes); n > 0 && o.Holes.Make.Value == "grommet" {
		text := worksheet.Many(n*int(it.Panels*it.Quantity*t.times), "grommet") + " in all"
		if o.Holes.Bore.Set {
			text += ", bore " + t.length(o.Holes.Bore.Value)
		}
		if o.Holes.Flange.Set {
			text += ", flange " + t.length(o.Holes.Flange.Value)
		}
		row(text)
	}
	if w := &o.Weights; w.Set {
		text := "weights: " + w.Kind.Value
		if q := it.Get("weights"); w.Count.Set {
			text = worksheet.Many(w.Count.Value, "weight") + ": " + w.Kind.Value
		} else if q != nil {
			text = worksheet.Many(q.Value.N*it.Quantity*t.times, "weight") + ": " + w.Kind.Value + ", " + weighted(it)
			t.told[q] = true
		}
		if w.Each.Set {
			each := t.work.Weighs(worksheet.MassOf(w.Each.Value))
			if n := w.Each.Node; n != nil && !n.Fixed { // they are bought by what is written on them
				each = n.Text
			}
			text += ", " + each + " each"
		}
		if q := it.Get("length of the weights"); q != nil {
			text += ", " + t.bought(q) + each
		}
		row(text)
	}
	zip := it.Get("zip length")
	if l := o.Zip.Length; l.Set {
		row("zip, " + t.length(l.Value) + each)
		if zip != nil {
			t.told[zip] = true
		}
	} else if zip != nil {
		row("zip, " + t.says(zip) + each)
	}
	if l := o.Rod.Length; l.Set {
		row("rod, " + t.length(l.Value) + each)
	}
	for _, bought := range trims {
		q := it.Get(bought.name)
		switch {
		case q == nil || t.told[q]:
		case q.Value.Sort == worksheet.Count:
			t.told[q] = true
			row(worksheet.Many(q.Value.N*all, cmp.Or(bought.says, strings.TrimSuffix(it.Word("closure"), "s"))))
		default:
			row(cmp.Or(bought.says, choose(it.Word("closure") == "snaps", "snap tape", it.Word("closure"))) + ", " + t.says(q) + each)
		}
	}
}

// trims are quantities bought besides cloth, and what they are of; "" for the item's
// closure.
var trims = [...]struct {
	name worksheet.Name
	says string
}{{"rings", "ring"}, {"rings on each", "ring"}, {"tie-back rings", "tie-back ring"}, {"rod and bar length", "rods and bar"}, {"board length", "board"}, {"cord in all", "cord"},
	{"fastenings", ""}, {"fastener", ""}, {"tape for the top", "tape for the top"}, {"piping length", "piping cord"}}

// weighted says where single weights go.
func weighted(it *worksheet.Item) string {
	switch class := it.Word("cloth's class"); {
	case class == "sheer" || class == "light":
		return "evenly along the foot"
	case it.Joins == 0:
		return "at the bottom corners"
	}
	return "at the bottom corners and the joins"
}

// figures lists whatever else was worked out for an item.
func (t *ticket) figures(it *worksheet.Item) {
	label := "figures"
	for _, q := range t.work.AllOf(it.Index) {
		if !t.told[q] && q.Name != worksheet.HemTakes {
			t.row(label, quantityName(q)+": "+t.says(q))
			label = ""
		}
	}
}

// quantityName returns a quantity's name and what it is of.
func quantityName(q *worksheet.Quantity) string {
	if q.Of == "" || q.Item < 0 {
		return string(q.Name)
	}
	return string(q.Name) + ", " + q.Of
}
