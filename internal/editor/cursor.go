package editor

import (
	"strings"

	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// A cursor is what stands where somebody types: the word that a completion takes
// the place of, and where on the form it would be.
type cursor struct {
	word  source.Range // with its quote marks
	quote string       // that it begins with, or ""
	colon bool         // one follows it
	gap   string       // what must stand before a value: a space, where the colon has none

	order  *order.Order
	fibers []string // whose names may be given
	spot
}

// mark stands in for the word while the text is read. No form has it.
const mark = "typed-here"

// cursorAt finds out what stands at an offset. The text is seldom complete while
// it is typed, so it is read with a mark in the word's place: as the name of a
// field, then as a value; as it stands, then with what is open closed at the end of
// the line or the text ending there. It returns nil where nothing can be told.
func cursorAt(checker *lint.Checker, format load.Format, text string, offset int) *cursor {
	l := checker.Loader
	from, to := load.Around(format, text, offset)
	text, offset = text[from:to], offset-from
	c := &cursor{}
	for i := range checker.Tables.Fibers {
		c.fibers = append(c.fibers, checker.Tables.Fibers[i].Name)
	}
	if load.IsTable(format) {
		c.takeCell(text, offset)
	} else if !c.take(format, text, offset) {
		return nil
	}
	for _, name := range [...]bool{true, false} {
		for _, behind := range c.rests(text) {
			for _, word := range c.marks(format, name) {
				f := &source.File{Text: text[:c.word.Start] + word + behind}
				for _, o := range l.Orders(f, format, load.Options{}) {
					c.chain, c.order = nil, o
					// CUE takes a name for one that stands within the field before it.
					if o.Root != nil && c.find(o.Root, name) && (!name || len(c.fields(l)) > 0) {
						c.word.Start, c.word.End = c.word.Start+from, c.word.End+from
						return c
					}
				}
			}
		}
	}
	return nil
}

// take finds the word at an offset, and reports whether a completion may stand
// there.
func (c *cursor) take(format load.Format, text string, offset int) bool {
	line := strings.LastIndexByte(text[:offset], '\n') + 1
	end := lineEnd(text, offset)
	ends := func(i int) bool { // a colon that ends a name
		return text[i] == ':' && (format != load.YAML || i+1 == end || text[i+1] == ' ')
	}
	start := offset
	for start > line && strings.IndexByte("{[,\"'", text[start-1]) < 0 && !ends(start-1) {
		start--
	}
	switch before := text[line:start]; {
	case strings.HasSuffix(before, `"`), strings.HasSuffix(before, "'"):
		c.quote = before[len(before)-1:]
		if strings.Count(before, c.quote)%2 == 0 {
			return false // it is closed
		}
		start--
	case strings.HasSuffix(before, ":") && start == offset:
		c.gap = " "
	}
	if c.quote == "" {
		start += indent(text[start:offset])
		for format == load.YAML && strings.HasPrefix(text[start:offset], "- ") {
			start += 2 + indent(text[start+2:offset])
		}
		if strings.HasPrefix(text[start:offset], "#") || strings.Contains(text[start:offset], " #") || strings.HasPrefix(text[start:offset], "//") {
			return false // a comment
		}
	}
	stop := offset
	for stop < end && strings.IndexByte(",]}{[\"'", text[stop]) < 0 && !ends(stop) && !strings.HasPrefix(text[stop:], " #") {
		stop++
	}
	if c.quote != "" && strings.HasPrefix(text[stop:end], c.quote) {
		stop++
	} else {
		stop = offset + len(strings.TrimRight(text[offset:stop], " \t\r"))
	}
	c.word = source.Range{Start: start, End: stop}
	c.colon = strings.HasPrefix(strings.TrimLeft(text[stop:end], " "), ":")
	return true
}

// takeCell finds the cell of a table at an offset.
func (c *cursor) takeCell(text string, offset int) {
	const between = ",;\t\r\n"
	c.word = source.Range{Start: strings.LastIndexAny(text[:offset], between) + 1, End: len(text)}
	if i := strings.IndexAny(text[offset:], between); i >= 0 {
		c.word.End = offset + i
	}
}

func lineEnd(text string, offset int) int {
	if i := strings.IndexByte(text[offset:], '\n'); i >= 0 {
		return offset + i
	}
	return len(text)
}

// indent is how many spaces text begins with.
func indent(text string) int { return len(text) - len(strings.TrimLeft(text, " \t")) }

// marks are the ways to write the mark in place of the word.
func (c *cursor) marks(format load.Format, name bool) []string {
	switch {
	case load.IsTable(format) && name:
		return nil // its names are headings
	case load.IsTable(format):
		return []string{mark}
	case format == load.YAML && name && !c.colon:
		return []string{c.gap + mark + ": "}
	case format == load.YAML:
		return []string{c.gap + mark}
	case name && c.colon, !name:
		return []string{`"` + mark + `"`, `"` + mark + `",`}
	}
	return []string{`"` + mark + `": 0`, `"` + mark + `": 0,`}
}

// rests are the ways in which the text may go on behind the word.
func (c *cursor) rests(text string) []string {
	end := lineEnd(text, c.word.End)
	line := strings.LastIndexByte(text[:c.word.Start], '\n') + 1
	return []string{
		text[c.word.End:],
		load.Closing(text[line:c.word.Start]) + text[end:],
		load.Closing(text[:c.word.Start]),
	}
}

// find looks for the mark below n, as a name or as a value.
func (c *cursor) find(n *order.Node, name bool) bool {
	c.chain = append(c.chain, n)
	if name && n.Name == mark || !name && n.Text == mark && n.Form == order.Scalar {
		c.onName = name
		return true
	}
	for i := range n.Kids {
		if c.find(&n.Kids[i], name) {
			return true
		}
	}
	c.chain = c.chain[:len(c.chain)-1]
	return false
}
