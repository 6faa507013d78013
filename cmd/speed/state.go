package main

import (
	"cutgate/internal/worksheet"
)

// state fills in every outcome that the sheet works out, as an order that was
// worked on paper has them.
func (d *draft) state(s *worksheet.Sheet) {
	for i, item := range d.items {
		it := &s.Items[i]
		d.stateLength(item.at("finished"), "width", it.Get(worksheet.FinishedWidth))
		d.stateLength(item.at("finished"), "length", it.Get(worksheet.FinishedLength))
		d.stateLength(item, "flat_width", it.Get(worksheet.FlatWidth))
		d.stateNumber(item, "widths", it.Get(worksheet.Widths))
		d.stateNumber(item, "hanging_mass", it.Get(worksheet.HangingMass))
		d.stateNumber(item.at("press"), "setting", it.Get(worksheet.PressSetting))
		d.stateNumber(item.at("holes"), "count", it.Get(worksheet.HoleCount))
		d.stateLength(item.at("holes"), "spacing", it.Get(worksheet.HoleSpacing))
		d.stateNumber(item.at("lining"), "widths", it.Get(worksheet.LiningWidths))
		heading := item.at("heading")
		d.stateNumber(heading, "pleats", it.Get(worksheet.PleatCount))
		d.stateLength(heading, "spacing", it.Get(worksheet.PleatSpacing))
		d.stateLength(heading, "take_up", it.Get(worksheet.TakeUp))
		d.stateLength(heading, "pocket", it.Get(worksheet.PocketHeight))
		d.stateLength(heading, "gap", it.Get(worksheet.TabGap))
		var cuts []*block
		for k := range it.Pieces {
			p := &it.Pieces[k]
			cut := of("piece", p.Name, "width", d.print(p.Width), "length", d.print(p.Length), "count", p.Count.Value.Format(d.unit, p.Count.Round))
			if p.Cloth != it.Face {
				cut.set("cloth", p.Cloth.Name)
			}
			cuts = append(cuts, cut)
		}
		item.set("cuts", cuts)
	}
	for i := range s.Cloths {
		c := &s.Cloths[i]
		if c.ToBuy != nil {
			d.cloths.at(c.Name).set("ordered", d.buys.Print(c.ToBuy.Value.Length(), c.ToBuy.Round))
		}
	}
}

// stateLength fills a length in where the order has a blank for it.
func (d *draft) stateLength(b *block, name string, q *worksheet.Quantity) {
	if q != nil && b.blank(name) {
		b.set(name, d.print(q))
	}
}

// stateNumber does the same for a count, a ratio, a mass or a setting.
func (d *draft) stateNumber(b *block, name string, q *worksheet.Quantity) {
	if q != nil && b.blank(name) {
		b.set(name, q.Value.Format(d.unit, q.Round))
	}
}

// print writes a quantity that is a length as the person writes lengths.
func (d *draft) print(q *worksheet.Quantity) string {
	return d.style.Print(q.Value.Length(), q.Round)
}

// blank reports whether a field is on the form and left open.
func (b *block) blank(name string) bool {
	if b == nil {
		return false
	}
	for _, f := range b.fields {
		if f.name == name {
			return f.value == nil
		}
	}
	return false
}
