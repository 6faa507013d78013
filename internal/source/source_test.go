package source

import (
	"math"
	"strings"
	"sync"
	"testing"
	"unicode/utf16"
	"unicode/utf8"
)

// texts are files whose lines, ends and characters are awkward.
var texts = []string{
	"",
	"\n",
	"a",
	"width: 72\nlength: 84\n",
	"width: 72\r\nlength: 84\r\n",
	"a\rb\nc",
	"\r\n\r\n",
	"\r",
	"\ufeffwidth: 72\n",
	"bord: 10½ ″\nå: é\n",
	"e\u0301 𝟙 幅: 72\n\t幅\n",
	"\xff\xfe\n\xc3",
	"a\x80\x80\x80\x80b\n",
	"\xe5\xb9\x85\xb9\xe5\xb9",
	"\ufffd\n\u2028",
}

func TestPosition(t *testing.T) {
	for _, c := range []struct {
		name   string
		text   string
		offset int
		want   Position
	}{
		{"start", "ab\ncd", 0, Position{1, 1}},
		{"inside a line", "ab\ncd", 4, Position{2, 2}},
		{"at the line end", "ab\ncd", 2, Position{1, 3}},
		{"at the end of the file", "ab\ncd", 5, Position{2, 3}},
		{"after the last line end", "ab\n", 3, Position{2, 1}},
		{"before the file", "ab\ncd", -4, Position{1, 1}},
		{"after the file", "ab\ncd", 99, Position{2, 3}},
		{"at CR LF", "ab\r\ncd", 2, Position{1, 3}},
		{"between CR and LF", "ab\r\ncd", 3, Position{1, 4}},
		{"after CR LF", "ab\r\ncd", 4, Position{2, 1}},
		{"a lone CR ends no line", "a\rb\nc", 2, Position{1, 3}},
		{"a mark takes a column", "\ufeffa", 3, Position{1, 2}},
		{"code points, not bytes", "10½ ″x", 8, Position{1, 6}},
		{"code points, not UTF-16", "𝟙x", 4, Position{1, 2}},

		{"invalid bytes count singly", "\xff\xfex", 2, Position{1, 3}},
		{"empty file", "", 0, Position{1, 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := &File{Text: c.text}
			if got := f.Position(c.offset); got != c.want {
				t.Errorf("Position(%d) = %v, want %v", c.offset, got, c.want)
			}
		})
	}
}

func TestFirstLine(t *testing.T) {
	f := &File{Text: "ab\ncd", FirstLine: 10, Base: 400}
	if got, want := f.Position(4), (Position{11, 2}); got != want {
		t.Errorf("Position = %v, want %v", got, want)
	}
	if line, char := f.UTF16(4); line != 10 || char != 1 {
		t.Errorf("UTF16 = %d, %d, want 10, 1", line, char)
	}
	if got := f.OffsetFromUTF16(10, 1); got != 4 {
		t.Errorf("OffsetFromUTF16 = %d, want 4", got)
	}
	if got := f.Offset(Position{11, 2}); got != 4 {
		t.Errorf("Offset = %d, want 4", got)
	}
	if got := f.OffsetBytes(11, 2); got != 4 {
		t.Errorf("OffsetBytes = %d, want 4", got)
	}
	if got := f.Line(10); got != "ab" {
		t.Errorf("Line(10) = %q, want ab", got)
	}
	if got := f.Line(1); got != "" {
		t.Errorf("Line(1) = %q, want nothing", got)
	}
	if got := f.Offset(Position{9, 1}); got != 0 {
		t.Errorf("Offset before the part = %d, want 0", got)
	}
}

func TestUTF16(t *testing.T) {
	for _, c := range []struct {
		text            string
		offset          int
		line, character int
	}{
		{"ab\ncd", 4, 1, 1},
		{"½x", 2, 0, 1},
		{"𝟙x", 4, 0, 2},
		{"\ufeffa", 3, 0, 1},
		{"\xff\xfex", 2, 0, 2},
		{"幅\r\n幅x", 8, 1, 1},
	} {
		f := &File{Text: c.text}
		if line, char := f.UTF16(c.offset); line != c.line || char != c.character {
			t.Errorf("UTF16(%d) of %q = %d, %d, want %d, %d", c.offset, c.text, line, char, c.line, c.character)
		}
		if got := f.OffsetFromUTF16(c.line, c.character); got != c.offset {
			t.Errorf("OffsetFromUTF16(%d, %d) of %q = %d, want %d", c.line, c.character, c.text, got, c.offset)
		}
	}
}

func TestOffsetsOutside(t *testing.T) {
	f := &File{Text: "ab\r\n𝟙d"}
	for _, c := range []struct {
		name      string
		got, want int
	}{
		{"UTF-16 before the file", f.OffsetFromUTF16(-1, 5), 0},
		{"UTF-16 after the file", f.OffsetFromUTF16(7, 0), 9},
		{"UTF-16 past the line", f.OffsetFromUTF16(0, 99), 2},
		{"UTF-16 before the line", f.OffsetFromUTF16(1, -3), 4},
		{"UTF-16 between surrogates", f.OffsetFromUTF16(1, 1), 4},
		{"column past the line", f.Offset(Position{1, 99}), 2},
		{"column zero", f.Offset(Position{2, 0}), 4},
		{"line zero", f.Offset(Position{0, 3}), 0},
		{"line after the file", f.Offset(Position{3, 1}), 9},
		{"byte column past the line", f.OffsetBytes(1, math.MaxInt), 2},
		{"byte column below one", f.OffsetBytes(2, math.MinInt+1), 4},
		{"byte column inside a character", f.OffsetBytes(2, 2), 5},
		{"byte line after the file", f.OffsetBytes(3, 1), 9},
		{"byte line before the file", f.OffsetBytes(-3, 1), 0},
	} {
		if c.got != c.want {
			t.Errorf("%s: %d, want %d", c.name, c.got, c.want)
		}
	}
}

func TestLine(t *testing.T) {
	f := &File{Text: "one\r\ntwo\n\nfo\rur"}
	for n, want := range map[int]string{-1: "", 0: "", 1: "one", 2: "two", 3: "", 4: "fo\rur", 5: ""} {
		if got := f.Line(n); got != want {
			t.Errorf("Line(%d) = %q, want %q", n, got, want)
		}
	}
	if got := f.Lines(); got != 4 {
		t.Errorf("Lines() = %d, want 4", got)
	}
	if got := new(File).Lines(); got != 1 {
		t.Errorf("Lines() of an empty file = %d, want 1", got)
	}
}

func TestSlice(t *testing.T) {
	f := &File{Text: "width: 72"}
	for _, c := range []struct {
		r    Range
		want string
	}{
		{Range{7, 9}, "72"},
		{Range{0, 0}, ""},
		{Range{-5, 5}, "width"},
		{Range{7, 99}, "72"},
		{Range{8, 2}, ""},
		{Range{50, 60}, ""},
	} {
		if got := f.Slice(c.r); got != c.want {
			t.Errorf("Slice(%v) = %q, want %q", c.r, got, c.want)
		}
	}
}

func TestRange(t *testing.T) {
	r := Range{3, 6}
	for _, c := range []struct {
		name      string
		got, want bool
	}{
		{"contains its start", r.Contains(3), true},
		{"does not contain its end", r.Contains(6), false},
		{"does not contain what is before", r.Contains(2), false},
		{"empty contains nothing", Range{3, 3}.Contains(3), false},
		{"overlaps itself", r.Overlaps(r), true},
		{"overlaps at one byte", r.Overlaps(Range{5, 9}), true},
		{"does not overlap a neighbour", r.Overlaps(Range{6, 9}), false},
		{"overlaps an empty one inside", r.Overlaps(Range{4, 4}), true},
		{"does not overlap an empty one at its start", r.Overlaps(Range{3, 3}), false},
		{"does not overlap an empty one at its end", Range{6, 6}.Overlaps(r), false},
		{"empty ones do not overlap", Range{4, 4}.Overlaps(Range{4, 4}), false},
		{"zero", Range{}.IsZero(), true},
		{"not zero", r.IsZero(), false},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v", c.name, c.got)
		}
	}
	if r.Len() != 3 || (Range{6, 3}).Len() != 0 {
		t.Errorf("Len: %d, %d, want 3, 0", r.Len(), Range{6, 3}.Len())
	}
}

func TestCells(t *testing.T) {
	for _, c := range []struct {
		name string
		text string
		want int
		show string
	}{
		{"plain", "width: 72", 9, "width: 72"},
		{"wide", "幅: 72", 6, "幅: 72"},
		{"full-width digits", "７２", 4, "７２"},
		{"Hangul", "폭", 2, "폭"},
		{"combining", "e\u0301", 1, "e\u0301"},
		{"narrow beyond ASCII", "10½″", 4, "10½″"},
		{"tab", "\ta", 5, "    a"},
		{"byte-order mark", "\ufeffa", 7, `\ufeffa`},
		{"soft hyphen", "a\u00adb", 2, "ab"},
		{"bidirectional override", "a\u202eb", 8, `a\u202eb`},
		{"escape", "\x1b[2J", 7, `\x1b[2J`},
		{"carriage return", "a\rb", 4, `a\rb`},
		{"joiners", "a\u200db\u200c", 2, "ab"},
		{"tags", "\U000e0041", 10, `\U000e0041`},
		{"line separator", "a\u2028b", 8, `a\u2028b`},
		{"invalid bytes", "\xffa", 2, "\ufffda"},
		{"face", "🙂", 2, "🙂"},
		{"late ideograph", "𠀀", 2, "𠀀"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := &File{Text: "first\n" + c.text + "\nlast"}
			if got := f.Cells(6 + len(c.text)); got != c.want {
				t.Errorf("Cells = %d, want %d", got, c.want)
			}
			if got := f.Cells(6); got != 0 {
				t.Errorf("Cells at the line start = %d", got)
			}
			if got := Show(c.text); got != c.show {
				t.Errorf("Show = %q, want %q", got, c.show)
			}
			if got := Width(Show(c.text)); got != c.want {
				t.Errorf("Width of what is shown = %d, want %d", got, c.want)
			}
		})
	}
}

// TestCellsStopBeforeLineEnd checks that a line end takes no cells.
func TestCellsStopBeforeLineEnd(t *testing.T) {
	f := &File{Text: "ab\r\ncd"}
	if got := f.Cells(3); got != 2 {
		t.Errorf("Cells between CR and LF = %d, want 2", got)
	}
}

func TestConcurrent(t *testing.T) {
	f := &File{Text: "a\nb\nc\n"}
	var wg sync.WaitGroup
	for range 16 {
		wg.Go(func() {
			if got, want := f.Position(4), (Position{3, 1}); got != want {
				t.Errorf("Position = %v, want %v", got, want)
			}
		})
	}
	wg.Wait()
}

func FuzzFile(f *testing.F) {
	for _, text := range texts {
		f.Add(text, 0, 1)
		f.Add(text, len(text)/2, 3)
		f.Add(text, len(text), math.MaxInt)
		f.Add(text, math.MinInt, -1)
	}
	f.Fuzz(func(t *testing.T, text string, offset, n int) {
		file := &File{Text: text}
		at := file.settle(offset)
		if at < 0 || at > len(text) {
			t.Fatalf("settle(%d) = %d of %d bytes", offset, at, len(text))
		}
		if file.settle(at) != at {
			t.Fatalf("settle(%d) = %d, which does not settle", offset, at)
		}
		p := file.Position(offset)
		line, character := file.UTF16(offset)
		if p.Line < 1 || p.Column < 1 || line != p.Line-1 || character < p.Column-1 {
			t.Fatalf("Position %v, UTF16 %d, %d", p, line, character)
		}
		start, end := file.span(p.Line - 1)
		if at <= end { // not between CR and LF
			if got := file.Offset(p); got != at {
				t.Fatalf("Offset(%v) = %d, want %d", p, got, at)
			}
			if got := file.OffsetFromUTF16(line, character); got != at {
				t.Fatalf("OffsetFromUTF16(%d, %d) = %d, want %d", line, character, got, at)
			}
			if got := file.OffsetBytes(p.Line, at-start+1); got != at {
				t.Fatalf("OffsetBytes = %d, want %d", got, at)
			}
			if got := len(utf16.Encode([]rune(text[start:at]))); got != character {
				t.Fatalf("character %d, want %d", character, got)
			}
		}
		if utf8.ValidString(text) && at < len(text) && !utf8.RuneStart(text[at]) {
			t.Fatalf("settle(%d) = %d, inside a character", offset, at)
		}
		if c := file.Cells(offset); c < 0 || c != Width(Show(text[start:max(start, min(at, end))])) {
			t.Fatalf("Cells(%d) = %d", offset, c)
		}
		for _, got := range []int{file.Offset(Position{n, offset}), file.OffsetBytes(n, offset), file.OffsetFromUTF16(n, offset)} {
			if got < 0 || got > len(text) {
				t.Fatalf("offset %d of %d bytes", got, len(text))
			}
		}
		file.Line(n)
		file.Slice(Range{offset, n})
	})
}

// TestLongLine holds columns far into a line to those that are counted from its start.
func TestLongLine(t *testing.T) {
	line := strings.Repeat("ab½🙂\xffc\t幅", 3000)
	f := &File{Text: "first\n" + line + "\n" + line}
	for _, start := range []int{6, 7 + len(line)} {
		for off := 0; off < len(line); off += 977 {
			at := f.settle(start + off)
			before := f.Text[start:at]
			units := 0
			for _, r := range before {
				units += unitsOf(r)
			}
			if got := f.Position(start + off); got.Column != utf8.RuneCountInString(before)+1 {
				t.Fatalf("column %d at %d, want %d", got.Column, off, utf8.RuneCountInString(before)+1)
			}
			if _, got := f.UTF16(start + off); got != units {
				t.Fatalf("unit %d at %d, want %d", got, off, units)
			}
		}
	}
}
