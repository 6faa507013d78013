package load

import (
	"slices"
	"strings"

	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// longestTyped is the longest text that is read around what is half typed in it, as
// every way of doing so reads all of it again.
const longestTyped = 1 << 20

// mostTyped is how many half-typed places of a text are read around.
const mostTyped = 3

// A patch is what is read in place of a part of a text.
type patch struct {
	source.Range
	put string
}

func (p *patch) apply(text string) string { return text[:p.Start] + p.put + text[p.End:] }

// back is where an offset of the patched text was before; within what was put in,
// where the patch begins.
func (p *patch) back(offset int) int {
	switch {
	case offset <= p.Start:
		return offset
	case offset >= p.Start+len(p.put):
		return offset - len(p.put) + p.Len()
	}
	return p.Start
}

// readAround reads a text again whose roots are not all readable, without what is half
// typed in it. An order that can be read then keeps the flaw that says why it could
// not, and what lies around that place counts as not all read. Typed is where the text
// was changed last, or -1.
func (l *Loader) readAround(f *source.File, format Format, opt Options, roots []syntax.Root) []syntax.Root {
	if len(f.Text) > longestTyped || IsTable(format) {
		return roots
	}
	text := f.Text
	var made []patch
	back := func(offset int) int {
		for i := len(made) - 1; i >= 0; i-- {
			offset = made[i].back(offset)
		}
		return min(offset, len(f.Text))
	}
	read := func(text string) []syntax.Root {
		return formats[format].read(l, &source.File{Name: f.Name, Text: text}, opt)
	}
	var faults []order.Flaw
	typed := opt.TypedAt - 1
	for range mostTyped {
		broken := slices.IndexFunc(roots, func(r syntax.Root) bool { return r.Node == nil })
		if broken < 0 || len(roots[broken].Flaws) == 0 {
			break
		}
		fault := roots[broken].Flaws[len(roots[broken].Flaws)-1]
		var best []syntax.Root
		var by patch
		most := sizeOf(roots)
		for _, at := range placesOf(text, fault.At.Start, typed) {
			for _, p := range patches(format, text, at) {
				if again := read(p.apply(text)); sizeOf(again) > most {
					best, by, most = again, p, sizeOf(again)
				}
			}
			if best != nil {
				break // elsewhere more may be kept, but of what was meant otherwise
			}
		}
		if best == nil {
			break
		}
		fault.At = source.Range{Start: back(fault.At.Start), End: back(fault.At.End)}
		faults = append(faults, fault)
		text, roots, made, typed = by.apply(text), best, append(made, by), -1
	}
	if len(made) == 0 {
		return roots
	}
	for i := range roots {
		move(roots[i].Node, back, text, f.Text)
		for j := range roots[i].Flaws {
			f := &roots[i].Flaws[j]
			f.At = source.Range{Start: back(f.At.Start), End: back(f.At.End)}
			f.Related = source.Range{Start: back(f.Related.Start), End: back(f.Related.End)}
		}
	}
	for i, fault := range faults {
		at := made[i].Start
		for _, p := range slices.Backward(made[:i]) {
			at = p.back(at)
		}
		r := &roots[rootAt(roots, at)]
		r.Flaws = append(r.Flaws, fault)
		unread(r.Node, at)
	}
	return roots
}

// sizeOf is how many nodes the roots have that could be read.
func sizeOf(roots []syntax.Root) (n int) {
	var count func(*order.Node)
	count = func(k *order.Node) {
		n++
		for i := range k.Kids {
			count(&k.Kids[i])
		}
	}
	for i := range roots {
		if roots[i].Node != nil {
			count(roots[i].Node)
		}
	}
	return n
}

// move gives n and all below it the places of the text before it was patched. What reads
// otherwise there is never edited.
func move(n *order.Node, back func(int) int, patched, before string) {
	if n == nil {
		return
	}
	at := source.Range{Start: back(n.At.Start), End: back(n.At.End)}
	n.Fixed = n.Fixed || len(n.Kids) == 0 && patched[n.At.Start:n.At.End] != before[at.Start:at.End]
	n.At = at
	n.Key = source.Range{Start: back(n.Key.Start), End: back(n.Key.End)}
	for i := range n.Kids {
		move(&n.Kids[i], back, patched, before)
	}
}

// rootAt is the last of the roots that begins at a place or before it, the first where
// none does.
func rootAt(roots []syntax.Root, at int) (found int) {
	for i := range roots {
		if roots[i].Node != nil && roots[i].Node.At.Start <= at {
			found = i
		}
	}
	return found
}

// unread marks the groups and lists as not all read that a place lies in, or behind.
func unread(n *order.Node, at int) {
	for n != nil && (n.Form == order.Map || n.Form == order.List) {
		n.Unread = true
		var last *order.Node
		for i := range n.Kids {
			if k := &n.Kids[i]; min(k.At.Start, k.Key.Start) <= at {
				last = k
			}
		}
		n = last
	}
}

// placesOf are where something may be half typed, the likeliest first: where the text
// was changed last, where reading stopped, and the end of the line before.
func placesOf(text string, fault, typed int) (list []int) {
	if typed >= 0 && typed <= len(text) {
		list = append(list, typed)
	}
	list = append(list, fault)
	if i := strings.LastIndexByte(text[:fault], '\n'); i >= 0 {
		list = append(list, len(strings.TrimRight(text[:i], " \t\r\n")))
	}
	return list
}

// patches are the ways to read around what is half typed at a place: the entry or the
// line there is left out, and what it leaves open is closed; or all of the order from
// there on is left out.
func patches(format Format, text string, at int) (list []patch) {
	from, to := Around(format, text, at)
	line := max(strings.LastIndexByte(text[:at], '\n')+1, from)
	end := min(lineEnd(text, at), to)
	starts := []int{entryStart(text, line, at), line}
	if dash := text[line:end]; format == YAML && strings.HasPrefix(strings.TrimLeft(dash, " "), "- ") {
		starts = append(starts, line+strings.IndexByte(dash, '-')+1)
	}
	if before := strings.TrimRight(text[from:line], " \t\r\n"); strings.HasSuffix(before, ",") {
		starts = append(starts, from+len(before)-1)
	}
	ends := []int{end}
	if i := strings.IndexAny(text[at:end], ",]}"); i >= 0 {
		ends = append(ends, at+i)
	}
	for _, s := range starts {
		for _, e := range ends {
			open := Closing(text[min(line, s):s])
			for _, put := range []string{"", ",", open, open + ","} {
				list = append(list, patch{source.Range{Start: s, End: e}, put})
			}
		}
		list = append(list, patch{source.Range{Start: s, End: to}, ""}, patch{source.Range{Start: s, End: to}, Closing(text[from:s])})
	}
	return list
}

// entryStart is where the entry of a line begins that a place is in, with the comma
// before it.
func entryStart(text string, line, at int) int {
	start, quote := line, byte(0)
	for i := line; i < at; i++ {
		switch b := text[i]; {
		case quote != 0:
			if b == '\\' && quote == '"' {
				i++
			} else if b == quote {
				quote = 0
			}
		case b == '"' || b == '\'' && (i == 0 || !inWord(text[i-1])):
			quote = b
		case b == ',':
			start = i
		case b == '{' || b == '[':
			start = i + 1
		}
	}
	return start
}

// Around is the part of a text that holds the order at an offset.
func Around(format Format, text string, offset int) (from, to int) {
	between := ""
	switch format {
	case JSONLines:
		between = "\n"
	case YAML:
		between = "\n---"
	default:
		return 0, len(text)
	}
	if i := strings.LastIndex(text[:offset], between); i >= 0 {
		from = i + len(between)
	}
	to = len(text)
	if i := strings.Index(text[offset:], between); i >= 0 {
		to = offset + i
	}
	return from, to
}

// Closing closes the brackets that a text leaves open. Those in quotes and in comments
// are none.
func Closing(text string) string {
	var open []byte
	quote := byte(0)
	for i := 0; i < len(text); i++ {
		switch b := text[i]; {
		case quote != 0:
			if b == '\\' && quote == '"' {
				i++
			} else if b == quote || b == '\n' {
				quote = 0
			}
		case b == '"' || b == '\'' && (i == 0 || !inWord(text[i-1])):
			quote = b
		case b == '#' && (i == 0 || text[i-1] <= ' '), b == '/' && strings.HasPrefix(text[i:], "//"):
			i = lineEnd(text, i)
		case b == '{':
			open = append(open, '}')
		case b == '[':
			open = append(open, ']')
		case (b == '}' || b == ']') && len(open) > 0:
			open = open[:len(open)-1]
		}
	}
	slices.Reverse(open)
	return string(open)
}

func inWord(b byte) bool { return b > ' ' && strings.IndexByte(",:{}[]\"'#", b) < 0 }

func lineEnd(text string, offset int) int {
	if i := strings.IndexByte(text[offset:], '\n'); i >= 0 {
		return offset + i
	}
	return len(text)
}
