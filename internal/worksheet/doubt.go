package worksheet

import (
	"strconv"
	"strings"

	"cutgate/internal/order"
)

// A doubt says which quantities of an item can't be trusted, because a choice
// that they are worked from could not be read. They are worked out as far as
// they go, but no stated outcome is called wrong by them: it may be right for
// what the choice was meant to say.
type doubt uint8

const (
	ofLength doubt = 1 << iota // what is measured down the cloth
	ofWidth                    // what is measured across it
	ofWeight
	ofHeat
	ofBuying // how much cloth

	ofAll doubt = 1<<iota - 1
)

// doubts finds what flaws leave in doubt, item by item.
func (w *worker) doubts() {
	for j := range w.Order.Items {
		o := &w.Order.Items[j]
		for _, name := range o.ClothNames() {
			if name != "" && w.Cloth(name) == nil {
				w.doubted[j] |= ofWeight // the rest is not worked out
			}
		}
	}
	for i := range w.Order.Flaws {
		f := &w.Order.Flaws[i]
		w.doubt(f.Path, hides(f))
	}
	if w.Order.Root != nil {
		w.unreadCells(w.Order.Root, "")
	}
}

// doubt puts the items in doubt that the field at a path is of.
func (w *worker) doubt(path string, d doubt) {
	for j := range w.Order.Items {
		if d != 0 && w.concerns(path, j) {
			w.doubted[j] |= d
		}
	}
}

// unreadCells puts in doubt what rests on the cells under headings that are
// misspelt, below the node that a path leads to. Their flaw is the heading's.
func (w *worker) unreadCells(n *order.Node, path string) {
	for i := range n.Kids {
		k := &n.Kids[i]
		to := path + "." + k.Name
		switch {
		case n.Form == order.List:
			to = path + "[" + strconv.Itoa(i) + "]"
		case path == "":
			to = k.Name
		}
		if k.Cell && k.Unread {
			w.doubt(to, dependents(to))
		}
		w.unreadCells(k, to)
	}
}

// concerns reports whether the field at a path is one of an item or of a cloth
// that goes into it.
func (w *worker) concerns(path string, item int) bool {
	if rest, ok := strings.CutPrefix(path, "items["+strconv.Itoa(item)+"]"); ok {
		return rest == "" || rest[0] == '.'
	}
	for _, name := range w.Order.Items[item].ClothNames() {
		if name == "" {
			continue
		}
		for _, list := range [...]string{"cloths.", "measured."} {
			if rest, ok := strings.CutPrefix(path, list+name); ok && (rest == "" || rest[0] == '.') {
				return true
			}
		}
	}
	return false
}

// hides is what a flaw leaves in doubt.
func hides(f *order.Flaw) doubt {
	switch f.Kind {
	case order.OtherWord, order.Unreadable, order.Computed:
		return 0
	case order.UnknownField:
		if f.Nearest == "" {
			return 0 // nothing that numbers are worked from
		}
		return dependents(f.Path + "." + f.Nearest)
	case order.MissingField:
		return dependents(f.Path + "." + f.Name)
	}
	return dependents(f.Path)
}

// dependents is what is worked from the field at a path; nothing from one that
// states an outcome.
func dependents(path string) doubt {
	has := func(words ...string) bool {
		for _, word := range words {
			if strings.Contains(path, word) {
				return true
			}
		}
		return false
	}
	switch name := path[strings.LastIndexByte(path, '.')+1:]; {
	case has(".cuts"):
		return 0
	case name == "spacing", name == "slit", name == "widths", name == "flat_width", name == "hanging_mass", name == "take_up",
		name == "gap", name == "ordered", name == "id", name == "room", name == "notes", name == "name", name == "fire":
		return 0
	case name == "allowance" && has(".hems.", ".hem."):
		return 0
	case has(".press", ".cord", ".rod", ".tub"):
		return 0
	case has(".fiber", ".care"):
		return ofHeat
	case has(".weight"):
		return ofWeight
	case name == "quantity", name == "sold_by", has(".bolts"):
		return ofBuying
	case has(".sides", ".holes", ".join", ".panel_width", ".overlap", ".return", ".fullness", ".diameter", ".tabs", ".tab_width",
		".pleats", ".selvedge", ".narrower", ".ease"):
		return ofWidth | ofWeight | ofBuying
	case has(".top", ".bottom", ".hang", ".above_", ".hook_drop", ".heading.allowance", ".shorter", ".lining.hem"):
		return ofLength | ofWeight | ofBuying
	case has("finished.length", "repeat.length", "shrinks.length"):
		return ofLength | ofWeight | ofBuying
	case has("finished.width", "track.width", "repeat.width", "shrinks.width"), name == "width":
		return ofWidth | ofWeight | ofBuying
	}
	return ofAll
}

// rests is what a quantity rests on.
func (n Name) rests() doubt {
	switch n {
	case FinishedLength, FootGap, RawCut, Repeats, CutLength, WastePerCut, LiningCut, InterliningCut:
		return ofLength
	case HangingMass, WetMass, HemMass:
		return ofWeight
	case PressSetting:
		return ofHeat
	case ClothNeeded, ClothToBuy:
		return ofBuying
	case HemTakes:
		return 0 // its own block is not there if it could not be read
	}
	return ofWidth
}

// doubtful reports whether a quantity rests on what is in doubt in its item, or,
// for a cloth's, in one that the cloth goes into.
func (w *worker) doubtful(q *Quantity) bool {
	if q.Item >= 0 {
		return w.doubted[q.Item]&q.Name.rests() != 0
	}
	return w.unread(w.Cloth(q.Of))
}

// unread reports whether a cloth goes into an item whose cuts are in doubt.
func (w *worker) unread(c *Cloth) bool {
	for _, k := range c.cuts {
		if w.doubted[k.item]&ofBuying != 0 {
			return true
		}
	}
	return false
}
