// Package source holds the text of a file and turns places in it from one
// way of counting to another.
//
// Its law: a place is a byte offset into [File.Text]. Lines, columns, UTF-16
// units and terminal cells are worked out at the edge, where somebody outside
// asks for them, and every method that converts names what it converts to.
// Offsets and lines that lie outside the text are moved to the nearest place
// inside it; nothing here panics.
//
// A line ends at LF or at CR LF. A CR with no LF after it is a character of
// its line. A byte-order mark is part of the text and takes a column. A byte
// that is not valid UTF-8 counts as one character.
//
// The package reads no files and knows no formats.
package source

import (
	"sort"
	"strings"
	"sync"
	"unicode/utf8"
)

// File is a named text with an index of its lines.
//
// The zero value is an empty file. The index is built on first use, so Text
// must not change after that; a File may be used by many goroutines at once
// and must not be copied.
type File struct {
	// Name is what the file is called in messages, usually its path.
	Name string
	// Text is the whole of the file, or of the part that this File stands for.
	Text string
	// FirstLine is the number of the line that Text begins on, from 1;
	// 0 means 1. It differs from 1 when Text is a part of a larger input.
	FirstLine int
	// Base is the byte offset of Text's first byte in the whole input.
	Base int
	// Cut says that Text is only the beginning of a line that is too long to be read.
	Cut bool
	// Table is the cells that Text is made of, where it is a table; whoever
	// reads the text as one sets it, before places are asked for.
	Table *Table

	once  sync.Once
	lines []int // the offset at which each line starts; never empty once built

	marked sync.Once
	marks  []mark // on the way through a text of long lines
}

// A mark is a place in a text, with the characters and the units of UTF-16 before it.
type mark struct{ offset, characters, units int }

// A text is counted through from mark to mark, so that a place far into a line costs no
// more than one near its start.
const markEvery = 1 << 10

// count returns how many characters, and units of UTF-16, stand from one place up to
// another of the same line. Both are at the start of a character.
func (f *File) count(from, to int) (characters, units int) {
	if to-from <= 4*markEvery {
		return counted(f.Text[from:to])
	}
	f.marked.Do(func() {
		m := mark{}
		for m.offset < len(f.Text) {
			f.marks = append(f.marks, m)
			end := min(m.offset+markEvery, len(f.Text))
			for m.offset < end {
				r, size := utf8.DecodeRuneInString(f.Text[m.offset:])
				m = mark{m.offset + size, m.characters + 1, m.units + unitsOf(r)}
			}
		}
	})
	till := func(offset int) mark {
		m := f.marks[sort.Search(len(f.marks), func(i int) bool { return f.marks[i].offset > offset })-1]
		c, u := counted(f.Text[m.offset:offset])
		return mark{offset, m.characters + c, m.units + u}
	}
	a, b := till(from), till(to)
	return b.characters - a.characters, b.units - a.units
}

func counted(text string) (characters, units int) {
	for _, r := range text {
		characters++
		units += unitsOf(r)
	}
	return characters, units
}

// Range is the bytes of a [File] from Start up to, not including, End.
type Range struct{ Start, End int }

// IsZero reports whether r is the zero Range, which stands for no place.
func (r Range) IsZero() bool { return r == Range{} }

// Len returns the number of bytes in r; a Range that ends before it starts
// has none.
func (r Range) Len() int { return max(0, r.End-r.Start) }

// Contains reports whether the byte at off lies in r. An empty Range contains
// nothing.
func (r Range) Contains(off int) bool { return r.Start <= off && off < r.End }

// Overlaps reports whether r and o have a byte in common. An empty Range
// overlaps one that it lies strictly inside of, because text put there would
// be cut in two; at either edge of it, or beside another empty Range, it
// overlaps nothing.
func (r Range) Overlaps(o Range) bool { return r.Start < o.End && o.Start < r.End }

// Position is a place as people count it: both numbers start at 1, and Column
// counts Unicode code points.
type Position struct{ Line, Column int }

// first returns the number of the line that Text begins on.
func (f *File) first() int {
	if f.FirstLine == 0 {
		return 1
	}
	return f.FirstLine
}

// starts returns the offset at which each line begins.
func (f *File) starts() []int {
	f.once.Do(func() {
		lines := make([]int, 1, 1+strings.Count(f.Text, "\n"))
		for i := 0; ; {
			n := strings.IndexByte(f.Text[i:], '\n')
			if n < 0 {
				break
			}
			i += n + 1
			lines = append(lines, i)
		}
		f.lines = lines
	})
	return f.lines
}

// index returns the zero-based index of the line that holds offset.
func (f *File) index(offset int) int {
	return sort.SearchInts(f.starts(), offset+1) - 1
}

// span returns the offsets at which the line of index i starts and ends, the
// end standing before the line end's characters. An i outside the file is
// moved to its first or last line.
func (f *File) span(i int) (start, end int) {
	lines := f.starts()
	i = min(max(i, 0), len(lines)-1)
	start = lines[i]
	if i+1 == len(lines) {
		return start, len(f.Text)
	}
	end = lines[i+1] - 1
	if end > start && f.Text[end-1] == '\r' {
		end--
	}
	return start, end
}

// settle moves offset into the text, and back to the start of the character
// that it lies in.
func (f *File) settle(offset int) int {
	offset = min(max(offset, 0), len(f.Text))
	for back := 1; back < utf8.UTFMax && back <= offset && offset < len(f.Text); back++ {
		if utf8.RuneStart(f.Text[offset]) {
			break
		}
		if _, size := utf8.DecodeRuneInString(f.Text[offset-back:]); size > back {
			return offset - back
		}
	}
	return offset
}

// Position converts a byte offset to a line and a column of code points. An
// offset inside a character is taken for the character's own. In a workbook it
// is the row and the column of the cell.
func (f *File) Position(offset int) Position {
	if c, ok := f.Cell(offset); ok && f.Drawn() {
		return Position{Line: c.Row, Column: c.Column}
	}
	offset = f.settle(offset)
	i := f.index(offset)
	characters, _ := f.count(f.starts()[i], offset)
	return Position{Line: i + f.first(), Column: characters + 1}
}

// Bytes is Position with a column of bytes, as editors count them that jump to a place
// by its line and column. A byte-order mark is no part of the first line to them.
func (f *File) Bytes(offset int) Position {
	p := f.Position(offset)
	if f.Drawn() {
		return p
	}
	offset = f.settle(offset)
	start := f.starts()[f.index(offset)]
	if start == 0 && f.Base == 0 && strings.HasPrefix(f.Text, "\ufeff") {
		start = min(offset, len("\ufeff"))
	}
	p.Column = offset - start + 1
	return p
}

// UTF16 converts a byte offset to a line and a character as editors and SARIF
// viewers count them: both from 0, the character in UTF-16 units.
func (f *File) UTF16(offset int) (line, character int) {
	offset = f.settle(offset)
	i := f.index(offset)
	_, character = f.count(f.starts()[i], offset)
	return i + f.first() - 1, character
}

// unitsOf returns how many UTF-16 units r takes.
func unitsOf(r rune) int {
	if r >= 0x10000 {
		return 2
	}
	return 1
}

// OffsetFromUTF16 converts a line and a character in UTF-16 units, both from
// 0, to a byte offset. A character past the line is taken for the line's end;
// one in the middle of a surrogate pair, for the start of its code point.
func (f *File) OffsetFromUTF16(line, character int) int {
	i := line + 1 - f.first()
	if i < 0 {
		return 0
	}
	if i >= len(f.starts()) {
		return len(f.Text)
	}
	start, end := f.span(i)
	for at, r := range f.Text[start:end] {
		character -= unitsOf(r)
		if character < 0 {
			return start + at
		}
	}
	return end
}

// Offset converts a line and a column of code points, both from 1, to a byte
// offset. A column past the line is taken for the line's end, one below 1 for
// its start, and a line outside the file for the nearer end of the file.
func (f *File) Offset(p Position) int {
	i := p.Line - f.first()
	if i < 0 {
		return 0
	}
	if i >= len(f.starts()) {
		return len(f.Text)
	}
	start, end := f.span(i)
	column := p.Column
	for at := range f.Text[start:end] {
		column--
		if column <= 0 {
			return start + at
		}
	}
	return end
}

// OffsetBytes converts a line and a column of bytes, both from 1, to a byte
// offset, with the same limits as [File.Offset]. It does not move back to the
// start of a character.
func (f *File) OffsetBytes(line, byteCol int) int {
	i := line - f.first()
	if i < 0 {
		return 0
	}
	if i >= len(f.starts()) {
		return len(f.Text)
	}
	start, end := f.span(i)
	// Compared before adding, so that an absurd column cannot wrap round.
	if byteCol-1 >= end-start {
		return end
	}
	return start + max(byteCol-1, 0)
}

// Lines returns how many lines the file has: one more than it has line ends,
// so that an empty file has one.
func (f *File) Lines() int { return len(f.starts()) }

// Line returns the text of line n, counted from FirstLine, without its line
// end. A line outside the file is empty.
func (f *File) Line(n int) string {
	i := n - f.first()
	if i < 0 || i >= len(f.starts()) {
		return ""
	}
	start, end := f.span(i)
	return f.Text[start:end]
}

// Slice returns the text in r, or as much of it as lies in the file.
func (f *File) Slice(r Range) string {
	start := min(max(r.Start, 0), len(f.Text))
	end := min(max(r.End, start), len(f.Text))
	return f.Text[start:end]
}
