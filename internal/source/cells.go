package source

import (
	"strconv"
	"strings"
	"unicode"
)

// TabCells is how many terminal cells a tab takes. It is a fixed number and
// not a distance to the next tab stop, because a line is shown behind a margin
// of its own; [Show] writes a tab as that many spaces.
const TabCells = 4

// Cells converts a byte offset to the number of terminal cells between the
// start of its line and it, as [Show] would print them: two for a wide East
// Asian character, none for a combining mark or an invisible one, [TabCells]
// for a tab, the length of its escape for what is escaped, one for anything else.
func (f *File) Cells(offset int) int {
	offset = f.settle(offset)
	start, end := f.span(f.index(offset))
	return Width(f.Text[start:max(start, min(offset, end))])
}

// Width returns how many terminal cells text takes when printed by [Show].
func Width(text string) int {
	n := 0
	for _, r := range text {
		n += cells(r)
	}
	return n
}

// Show returns text, a line or a part of one, as it can safely be put on a terminal:
// each tab as [TabCells] spaces, each invalid byte as the replacement character, and
// whatever could move the cursor, begin a line or reorder what is printed (control
// characters, line ends, bidirectional and other formatting characters) as its escape,
// such as \x1b, \n or \u202e. Joiners and soft hyphens are left out.
func Show(text string) string {
	if isPlain(text) {
		return text
	}
	var b strings.Builder
	b.Grow(len(text))
	for _, r := range text {
		switch {
		case r == '\t':
			b.WriteString(strings.Repeat(" ", TabCells))
		case Escaped(r):
			b.WriteString(escape(r))
		case isJoiner(r):
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// ShowLines is Show for a text of many lines, which keep their ends, tabs and joiners.
func ShowLines(text string) string {
	if isPlain(text) {
		return text
	}
	var b strings.Builder
	b.Grow(len(text))
	for i, r := range text {
		if Escaped(r) && r != '\n' && !(r == '\r' && strings.HasPrefix(text[i+1:], "\n")) {
			b.WriteString(escape(r))
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

func isPlain(text string) bool {
	for i := 0; i < len(text); i++ {
		if text[i] < ' ' || text[i] >= 0x7f {
			return false
		}
	}
	return true
}

// escaped reports whether r is shown as its escape.
// Escaped reports whether people are shown r escaped: a control character but for a tab, a
// line break, or formatting that can't be seen, such as marks for the direction of text.
func Escaped(r rune) bool {
	return r != '\t' && (unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || unicode.Is(unicode.Cf, r) && !isJoiner(r))
}

// isJoiner reports whether r is one of the formatting characters that names are
// rightly written with: the joiner and the non-joiner, and the soft hyphen.
func isJoiner(r rune) bool { return r == '\u200c' || r == '\u200d' || r == '\u00ad' }

// escape is r as Go and most other languages escape it.
func escape(r rune) string {
	quoted := strconv.QuoteRuneToASCII(r)
	return quoted[1 : len(quoted)-1]
}

// cells returns how many terminal cells r takes.
func cells(r rune) int {
	switch {
	case r == '\t':
		return TabCells
	case r >= ' ' && r < 0x7f:
		return 1
	case Escaped(r):
		return len(escape(r))
	case isJoiner(r):
		return 0
	case r < 0x300:
		return 1
	case unicode.In(r, unicode.Mn, unicode.Me):
		return 0
	case unicode.Is(wide, r):
		return 2
	}
	return 1
}

// wide is the blocks whose characters fill two cells. It follows the classes W
// and F of Unicode Standard Annex 11, East Asian Width, block by block.
var wide = &unicode.RangeTable{
	R16: []unicode.Range16{
		{Lo: 0x1100, Hi: 0x115f, Stride: 1}, // Hangul Jamo, leading consonants
		{Lo: 0x2e80, Hi: 0x303e, Stride: 1}, // radicals, ideographic punctuation
		{Lo: 0x3041, Hi: 0x33ff, Stride: 1}, // kana and enclosed ideographs
		{Lo: 0x3400, Hi: 0x4dbf, Stride: 1}, // ideographs, extension A
		{Lo: 0x4e00, Hi: 0xa4cf, Stride: 1}, // ideographs, Yi
		{Lo: 0xa960, Hi: 0xa97f, Stride: 1}, // Hangul Jamo, extended A
		{Lo: 0xac00, Hi: 0xd7a3, Stride: 1}, // Hangul syllables
		{Lo: 0xf900, Hi: 0xfaff, Stride: 1}, // compatibility ideographs
		{Lo: 0xfe30, Hi: 0xfe6f, Stride: 1}, // compatibility and small forms
		{Lo: 0xff01, Hi: 0xff60, Stride: 1}, // full-width forms
		{Lo: 0xffe0, Hi: 0xffe6, Stride: 1}, // full-width signs
	},
	R32: []unicode.Range32{
		{Lo: 0x1f300, Hi: 0x1f64f, Stride: 1}, // pictographs and faces
		{Lo: 0x1f680, Hi: 0x1f6ff, Stride: 1}, // transport
		{Lo: 0x1f900, Hi: 0x1f9ff, Stride: 1}, // more pictographs
		{Lo: 0x20000, Hi: 0x3fffd, Stride: 1}, // ideographs, later extensions
	},
}
