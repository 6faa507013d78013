package load

import (
	"strconv"
	"strings"
)

// A way leads from an order to one of its leaves.
type way []step

// A step is a field, an entry or an element on the way.
type step struct {
	name  string
	index int // of an element, where name is ""; ownWord where name is the writer's, and none of the form
}

const ownWord = -1

// down goes one step further from the order, and up comes back.
func (w *way) down(name string, index int) { *w = append(*w, step{name, index}) }
func (w *way) up()                         { *w = (*w)[:len(*w)-1] }

// path writes the way as items[0].cuts[1].width, with a last name if there is
// one.
func (w way) path(name string) string {
	var b strings.Builder
	for _, s := range w {
		if s.name == "" {
			b.WriteString("[" + strconv.Itoa(s.index) + "]")
			continue
		}
		if b.Len() > 0 {
			b.WriteByte('.')
		}
		b.WriteString(s.name)
	}
	if name != "" {
		if b.Len() > 0 {
			b.WriteByte('.')
		}
		b.WriteString(name)
	}
	return b.String()
}
