package load

import (
	"slices"
	"strings"

	"cutgate/internal/form"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// ShowsOrders is HasOrders for a file of a folder, which is skipped where nothing in it
// shows an order. It asks for less: an order may stand deeper in the text, be in
// capitals, consist of its head or of an item alone, or break off early. To skip an
// order is as bad as to find fault with a file that is none.
func (l *Loader) ShowsOrders(f *source.File, format Format, opt Options) bool {
	if IsTable(format) {
		return l.HasOrders(f, format, opt)
	}
	return slices.ContainsFunc(l.Orders(f, format, opt), func(o *order.Order) bool {
		if l.IsOrder(o) {
			return true
		}
		if o.Root == nil || slices.ContainsFunc(o.Flaws, func(f order.Flaw) bool { return f.Kind == order.Unreadable }) {
			return format != CUE && l.broken(o.File.Text)
		}
		left := manyNodes
		return l.headed(o.Root) || l.holds(o.Root, 0, &left) != nil
	})
}

// Only so many nodes of a form, and so deep, are looked at for an order.
const (
	manyNodes = 10_000
	manyDeep  = 6
)

// holds is the order, or the item of one, that stands in a form or anywhere below; nil for
// none.
func (l *Loader) holds(n *order.Node, depth int, left *int) *order.Node {
	if depth > manyDeep || *left < 0 {
		return nil
	}
	if n.Form == order.Map && (l.whole(n) || l.itemAlone(n)) {
		return n
	}
	if n.Form != order.Map && n.Form != order.List {
		return nil
	}
	for i := range n.Kids[:min(len(n.Kids), manyNames)] {
		if *left--; *left < 0 {
			return nil
		}
		if at := l.holds(&n.Kids[i], depth+1, left); at != nil {
			return at
		}
	}
	return nil
}

// folded is a kid of a name that may be in capitals.
func folded(n *order.Node, name string) *order.Node {
	for i := range n.Kids[:min(len(n.Kids), manyNames)] {
		if form.Fold(n.Kids[i].Name) == name {
			return &n.Kids[i]
		}
	}
	return nil
}

// whole reports whether a group has two signs of an order, one of them goods of a kind,
// cloths of a width or a unit, and not more names of another's.
func (l *Loader) whole(n *order.Node) bool {
	signs, told, ours := 0, false, 0
	top := l.Order.Of
	for i := range top.Fields {
		f := &top.Fields[i]
		k := folded(n, f.Name)
		if k == nil {
			continue
		}
		if ours++; !f.Need {
			continue
		}
		switch {
		case f.Name == "items" && k.Form == order.List:
			if at := l.itemSigns(k); at > 0 {
				signs, told = signs+2, true
			}
		case f.Name == "cloths" && k.Form == order.Map:
			if l.clothSigns(k) > 0 {
				signs, told = signs+2, true
			}
		case f.Name == "units" && k.Form == order.Scalar:
			if _, ok := form.MeantUnit(k.Text, f.Is.Words); ok {
				signs, told = signs+1, true
			}
		case f.Name == "order" && (k.Form == order.Scalar || k.Form == order.Number) && k.Text != "":
			signs++
		}
	}
	return signs >= 2 && told && len(n.Kids)-ours <= ours
}

// headed reports whether all names of a form are an order's, and they have a number and
// something else that stands at an order's head.
func (l *Loader) headed(root *order.Node) bool {
	if root.Form != order.Map || len(root.Kids) > manyNames {
		return false
	}
	number, head := false, false
	for i := range root.Kids {
		k := &root.Kids[i]
		own, _ := l.meant(k.Name, l.Order.Of.Names)
		said := (k.Form == order.Scalar || k.Form == order.Number) && k.Text != "" && !k.Unread
		switch own {
		case "":
			return false
		case "order":
			number = said && form.Fold(k.Name) == own
		case "client", "due":
			head = head || said
		case "items":
			if k.Form != order.Null && (k.Form != order.List || len(k.Kids) > 0 && l.itemSigns(k) == 0) {
				return false
			}
		case "cloths":
			if k.Form != order.Null && k.Form != order.Map {
				return false
			}
		}
	}
	return number && head
}

// itemAlone reports whether a group is an item: a kind of goods, by whatever name, and
// what every item has, by its own name or that name misspelt.
func (l *Loader) itemAlone(n *order.Node) bool {
	s := l.Order.Of.Fields[l.Order.Of.Index["items"]].Is.List
	kind, named := "", false
	for i := range n.Kids[:min(len(n.Kids), manyNames)] {
		k := &n.Kids[i]
		own, near := l.meant(k.Name, []string{s.By})
		if k.Form != order.Scalar || own == "" && !slices.Contains(kindNames, form.Fold(k.Name)) {
			continue
		}
		if word := l.goodsMeant(k.Text, s); word != "" {
			kind, named = word, near
		}
	}
	g := s.ByWord[kind]
	if g == nil {
		return false
	}
	for i := range n.Kids[:min(len(n.Kids), manyNames)] {
		k := &n.Kids[i]
		own, near := l.meant(k.Name, g.Names)
		switch {
		case !near:
		case own == "finished" && k.Form == order.Map && len(k.Kids) > 0, own == "cloth" && named && k.Form == order.Scalar:
			return true
		}
	}
	return false
}

// kindNames are names, beside the form's own, that a kind of goods may stand under.
var kindNames = []string{"kind", "type", "what", "goods", "product", "piece"}

// plainMarks are the quote marks and letters that a broken text is looked at in.
var plainMarks = strings.NewReplacer("“", `"`, "”", `"`, "„", `"`, "‟", `"`, "″", `"`, "«", `"`, "»", `"`)

// broken is Begun where more may be amiss with a text that can't be read: its quote marks
// are curly, its names in capitals, or it breaks off behind the first. Then all of its
// names are an order's, and the first stands at the top of one or of an item.
func (l *Loader) broken(text string) bool {
	text = strings.ToLower(plainMarks.Replace(text[:min(len(text), manyBytes)]))
	if l.Begun(text) {
		return true
	}
	known := l.names()
	has := map[string]bool{}
	for at := 0; at < len(text); {
		i := strings.IndexByte(text[at:], ':')
		if i < 0 {
			break
		}
		end := at + i
		at = end + 1
		name, value := strings.TrimRight(text[:end], "\"' \t"), strings.TrimLeft(text[at:], "\"' \t")
		start := strings.LastIndexAny(name, "\n{}[],\"'-")
		name = strings.TrimSpace(name[start+1:])
		switch {
		case name == "" || strings.ContainsAny(name, " #/0123456789"): // in a sentence, a date or an address
		case !known[name], len(has) == 0 && name != "item" && !slices.Contains(l.Order.Of.Names, name):
			return false
		case name != "order":
			has[name] = true
		default:
			has[name] = value != "" && strings.IndexByte("{[<%$\r\n", value[0]) < 0
		}
	}
	return has["order"] || has["item"] && has["cloth"]
}

// manyBytes is how much of a broken text is looked at.
const manyBytes = 1 << 16

// allNames are the names of the order's fields, and of the fields of its items and cloths.
func allNames(top *form.Shape) map[string]bool {
	all := map[string]bool{}
	seen := map[*form.Group]bool{}
	var group func(g *form.Group)
	var shape func(s *form.Shape)
	shape = func(s *form.Shape) {
		group(s.Of)
		for _, g := range s.ByWord {
			group(g)
		}
		if s.Named != nil {
			shape(s.Named)
		}
		if s.List != nil {
			shape(s.List)
		}
	}
	group = func(g *form.Group) {
		if g == nil || seen[g] {
			return
		}
		seen[g] = true
		for i := range g.Fields {
			all[g.Fields[i].Name] = true
			shape(&g.Fields[i].Is)
		}
	}
	shape(top)
	return all
}
