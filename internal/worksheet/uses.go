package worksheet

import (
	"strings"

	"cutgate/internal/order"
)

// Uses returns the quantities of an item that a choice of it, or of its cloth,
// goes into directly; nil where n is no such choice.
func (s *Sheet) Uses(item int, n *order.Node) (list []*Quantity) {
	if n == nil || item < 0 || item >= len(s.Items) {
		return nil
	}
	names := s.Items[item].Order.ClothNames()
	one := &Sheet{Order: s.Order, Items: s.Items[item : item+1]}
	for _, c := range one.choices(names[:]) {
		if c.node != n {
			continue
		}
		term, edge := c.term()
		for _, q := range s.All {
			if q.Item == item && (edge == "" || q.Name == HemTakes && q.Of == edge) && q.takes(term, c.value()) {
				list = append(list, q)
			}
		}
	}
	return list
}

// takes reports whether a term of that name and value is in the formula.
func (q *Quantity) takes(name string, v Value) bool {
	for _, t := range q.Terms {
		if t.Name == name && t.Value == v {
			return true
		}
	}
	return false
}

// term is what a choice is called in formulas; of a hem's, in that of what the hem
// of an edge takes.
func (c choice) term() (name, edge string) {
	switch c.name {
	case "track width":
		return "track", ""
	case "lining's hem":
		return "turn", "lining"
	case "lining's shortening":
		return "shorter", ""
	}
	for _, e := range [...]struct{ hem, edge string }{{"bottom hem's ", "bottom"}, {"top hem's ", "top"}, {"side hems' ", "sides"}} {
		if field, ok := strings.CutPrefix(c.name, e.hem); ok {
			return field, e.edge
		}
	}
	return c.name, ""
}
