package render

import (
	"iter"
	"regexp"
	"strings"

	"github.com/fatih/color"

	"cutgate/internal/finding"
	"cutgate/internal/source"
)

// usualWidth is the width of a sheet where the caller says none.
const usualWidth = 80

// A sheet is text for people: lines of a width, wrapped at spaces, with an ink
// for each kind of thing.
type sheet struct {
	strings.Builder
	width int
	color bool
}

func newSheet(o Options) sheet {
	s := sheet{width: o.Width, color: o.Color}
	if s.width <= 0 {
		s.width = usualWidth
	}
	return s
}

// An ink is how a kind of thing is coloured.
type ink []color.Attribute

// The inks. Everything they show is said in words as well.
var (
	plainInk = ink(nil)
	headInk  = ink{color.Bold}
	faintInk = ink{color.Faint}
	writeInk = ink{color.Bold, color.FgGreen}

	verdictInks = [...]ink{finding.Clear: {color.FgGreen}, finding.Ask: {color.Bold, color.FgYellow}, finding.Hold: {color.Bold, color.FgRed}}
)

// ink colours text, where the sheet has colours.
func (p *sheet) ink(i ink, text string) string {
	if !p.color || len(i) == 0 || text == "" {
		return text
	}
	c := color.New(i...)
	c.EnableColor()
	return c.Sprint(text)
}

// line writes one line, without spaces at its end.
func (p *sheet) line(text string) {
	p.WriteString(strings.TrimRight(text, " "))
	p.WriteByte('\n')
}

// rule draws a line across the sheet, from an indent on.
func (p *sheet) rule(mark string, indent int) {
	p.line(strings.Repeat(" ", indent) + p.ink(faintInk, strings.Repeat(mark, max(1, p.width-indent))))
}

// both writes a left and a right text on one line, or the right one below where
// they don't fit.
func (p *sheet) both(left string, li ink, right string, ri ink) {
	room := p.width - source.Width(left) - source.Width(right)
	if room < 2 {
		p.line(p.ink(li, left))
		p.line(strings.Repeat(" ", max(0, p.width-source.Width(right))) + p.ink(ri, right))
		return
	}
	p.line(p.ink(li, left) + strings.Repeat(" ", room) + p.ink(ri, right))
}

// para writes text after a label, wrapped, with its further lines under its first one.
// It stands below its label where that leaves too little of the line for its first word,
// and further left where the column leaves too little of the sheet.
func (p *sheet) para(indent int, label string, li ink, column int, text string, ti ink) {
	if p.width-column < narrow && p.width < usualWidth {
		column = min(column, indent+narrowIndent)
	}
	at := column
	if label != "" {
		at = max(at, indent+source.Width(label)+2)
	}
	lines := wrap(text, p.width-at, p.width-column)
	if label != "" && at+source.Width(lines[0]) > p.width {
		if at == column {
			column = indent + min(narrowIndent, column-indent)
		}
		p.line(strings.Repeat(" ", indent) + p.ink(li, label))
		indent, label, at, lines = column, "", column, wrap(text, p.width-column, p.width-column)
	}
	start := strings.Repeat(" ", indent) + p.ink(li, label) + strings.Repeat(" ", at-indent-source.Width(label))
	for _, l := range lines {
		p.line(start + p.ink(ti, l))
		start = strings.Repeat(" ", column)
	}
}

// On a narrow sheet a text has at least so much of the line, or is set in only a little.
const (
	narrow       = 20
	narrowIndent = 4
)

// wrap breaks text at spaces into lines of at most width cells, the first of at most
// first. A word that is longer has a line of its own. A number stays with its fraction and
// its unit.
func wrap(text string, first, width int) []string {
	var lines []string
	line, cells, room := "", 0, first
	for word := range chunks(text) {
		w := source.Width(word)
		switch {
		case line == "":
			line, cells = word, w
		case cells+1+w <= room:
			line, cells = line+" "+word, cells+1+w
		default:
			lines = append(lines, line)
			line, cells, room = word, w, width
		}
	}
	return append(lines, line)
}

// chunks gives the words of a text, those that belong together as one.
func chunks(text string) iter.Seq[string] {
	return func(yield func(string) bool) {
		chunk := ""
		for word := range strings.FieldsSeq(text) {
			switch {
			case chunk == "":
				chunk = word
			case belongs(chunk, word):
				chunk += " " + word
			default:
				if !yield(chunk) {
					return
				}
				chunk = word
			}
		}
		if chunk != "" {
			yield(chunk)
		}
	}
}

// belongs reports whether a word is the fraction or the unit of the number that
// stands before it.
func belongs(before, word string) bool {
	last := before[len(before)-1]
	if last < '0' || last > '9' {
		return false
	}
	word = strings.TrimRight(word, ".,;:)")
	if top, bottom, ok := strings.Cut(word, "/"); ok && isDigits(top) && isDigits(bottom) {
		return true
	}
	switch word {
	case "in", "ft", "yd", "mm", "cm", "m", "kg", "g", "lb", "oz", "g/m", "g/m2", "oz/ft", "oz/yd2", "dot", "dots":
		return true
	}
	return false
}

func isDigits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// inGap is what stands before and after the gap in a line of two columns.
var inGap = regexp.MustCompile(`^( *)(\S.*?\S) {2,}(\S.*)$`)

// inColumns puts the second column of a line that is set in below the first, where both are
// wider than the sheet.
func inColumns(line string, width int) string {
	m := inGap.FindStringSubmatch(line)
	if m == nil || source.Width(line) <= width {
		return line
	}
	under := m[1] + strings.Repeat(" ", narrowIndent)
	return m[1] + m[2] + "\n" + under + strings.Join(wrap(m[3], width-len(under), width-len(under)), "\n"+under)
}

// Fit sets running text for people anew in lines of a width. Lines that are set in
// stay as they are, but for those of two columns that are too wide.
func Fit(text string, width int) string {
	var b strings.Builder
	for i, para := range strings.Split(text, "\n\n") {
		if i > 0 {
			b.WriteString("\n\n")
		}
		var run []string
		flush := func() {
			if len(run) > 0 {
				b.WriteString(strings.Join(wrap(strings.Join(run, " "), width, width), "\n"))
				run = nil
			}
		}
		for k, line := range strings.Split(para, "\n") {
			if !strings.HasPrefix(line, " ") && !strings.HasPrefix(line, "\t") {
				run = append(run, line)
				continue
			}
			flush()
			if k > 0 {
				b.WriteByte('\n')
			}
			b.WriteString(inColumns(line, width))
		}
		flush()
	}
	return b.String()
}
