package editor

import (
	"strings"

	"go.lsp.dev/protocol"

	"cutgate/internal/source"
)

// placesOf returns the file that places are counted in. To an editor a CR ends a
// line even where no LF follows; so does an LF of the same size in its place.
func placesOf(f *source.File) *source.File {
	if !strings.Contains(f.Text, "\r") {
		return f
	}
	text := []byte(f.Text)
	for i, c := range text {
		if c == '\r' && (i+1 == len(text) || text[i+1] != '\n') {
			text[i] = '\n'
		}
	}
	return &source.File{Name: f.Name, Text: string(text)}
}

// positionOf converts a byte offset to the editor's place.
func positionOf(f *source.File, offset int) protocol.Position {
	line, character := f.UTF16(offset)
	return protocol.Position{Line: uint32(line), Character: uint32(character)}
}

// rangeOf converts a range to the editor's places.
func rangeOf(f *source.File, r source.Range) protocol.Range {
	return protocol.Range{Start: positionOf(f, r.Start), End: positionOf(f, max(r.Start, r.End))}
}

// offsetOf converts an editor's place to a byte offset.
func offsetOf(f *source.File, p protocol.Position) int {
	const far = 1 << 30 // beyond any text, and safe to count with
	return f.OffsetFromUTF16(int(min(p.Line, far)), int(min(p.Character, far)))
}

// rangeIn converts an editor's range to offsets. One that ends before it starts
// is empty.
func rangeIn(f *source.File, r protocol.Range) source.Range {
	start := offsetOf(f, r.Start)
	return source.Range{Start: start, End: max(start, offsetOf(f, r.End))}
}

// touches reports whether two ranges have a byte in common or meet.
func touches(a, b source.Range) bool { return a.Start <= b.End && b.Start <= a.End }
