package syntax

import (
	"strconv"
	"strings"
)

// A Path leads from an order to one of its leaves.
type Path []Step

// A Step is a field, an entry or an element on the way.
type Step struct {
	Name  string
	Index int // of an element, where Name is ""; OwnWord where Name is the writer's, and none of the form
}

// OwnWord is the Index of a name that is the writer's own.
const OwnWord = -1

// Down goes one step further from the order, and Up comes back.
func (p *Path) Down(name string, index int) { *p = append(*p, Step{name, index}) }
func (p *Path) Up()                         { *p = (*p)[:len(*p)-1] }

// String writes the path as items[0].cuts[1].width.
func (p Path) String() string { return p.To("") }

// To is String with a last name, if there is one.
func (p Path) To(name string) string {
	var b strings.Builder
	for _, s := range p {
		if s.Name == "" {
			b.WriteString("[" + strconv.Itoa(s.Index) + "]")
			continue
		}
		if b.Len() > 0 {
			b.WriteByte('.')
		}
		b.WriteString(s.Name)
	}
	if name != "" {
		if b.Len() > 0 {
			b.WriteByte('.')
		}
		b.WriteString(name)
	}
	return b.String()
}

// Key tells a step from others that lead on from the same place.
func (s Step) Key() string {
	if s.Name == "" {
		return strconv.Itoa(s.Index)
	}
	return s.Name
}
