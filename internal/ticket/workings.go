package ticket

import (
	"cutgate/internal/worksheet"
)

// workings returns all quantities with a formula, item by item, then cloth by cloth.
func (t *ticket) workings() (groups []Group) {
	for _, q := range t.work.All {
		if q.Formula == "" || t.alike[q.Item] || q.Item >= 0 && !t.work.Items[q.Item].Worked {
			continue
		}
		of, last := t.owner(q), len(groups)-1
		if last < 0 || groups[last].ID != of.ID || groups[last].Kind != of.Kind || groups[last].Cloth != of.Cloth {
			groups = append(groups, of)
		}
		g := &groups[len(groups)-1]
		g.Workings = append(g.Workings, Working{Name: quantityName(q), Value: q.Value.Format(t.work.Unit, q.Round), Lines: q.Step(t.work.Unit), Source: q.Source})
	}
	return groups
}

// owner returns an empty group for the item or the cloth of a quantity.
func (t *ticket) owner(q *worksheet.Quantity) Group {
	if q.Item < 0 || q.Item >= len(t.work.Items) {
		return Group{ID: q.Of, Kind: "cloth", Cloth: true}
	}
	it := &t.work.Items[q.Item]
	return Group{ID: idOf(it), Kind: it.Order.Kind.Value}
}
