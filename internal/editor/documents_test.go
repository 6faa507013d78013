package editor

import (
	"context"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf16"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

// naive makes a change the way the specification words it: lines end at LF, CR LF
// or CR; characters are UTF-16 units; what lies beyond an end is at the end.
func naive(text string, start, end protocol.Position, with string) string {
	at := func(p protocol.Position) int {
		units := utf16.Encode([]rune(text))
		i := 0
		for line := uint32(0); line < p.Line; line++ {
			for i < len(units) && units[i] != '\n' && units[i] != '\r' {
				i++
			}
			if i == len(units) {
				return i
			}
			if units[i] == '\r' && i+1 < len(units) && units[i+1] == '\n' {
				i++
			}
			i++
		}
		for c := uint32(0); c < p.Character && i < len(units) && units[i] != '\n' && units[i] != '\r'; c++ {
			i++
		}
		if i > 0 && i < len(units) && utf16.IsSurrogate(rune(units[i-1])) && units[i-1] < 0xdc00 {
			i-- // inside a character
		}
		return i
	}
	from, to := at(start), at(end)
	units := utf16.Encode([]rune(text))
	return string(utf16.Decode(units[:from])) + with + string(utf16.Decode(units[max(from, to):]))
}

func position32(line, character int) protocol.Position {
	return protocol.Position{Line: uint32(line), Character: uint32(character)}
}

// shadow is a server without an editor, with one document.
func shadow(t testing.TB, text string) (*Server, uri.URI) {
	t.Helper()
	checker, err := open()
	if err != nil {
		t.Fatal(err)
	}
	s := &Server{checker: checker, opened: map[uri.URI]*document{}}
	const name = uri.URI("file:///notes.txt") // of no format, so that nothing is checked
	if err := s.DidOpen(context.Background(), &protocol.DidOpenTextDocumentParams{TextDocument: protocol.TextDocumentItem{URI: name, Text: text}}); err != nil {
		t.Fatal(err)
	}
	return s, name
}

func alter(s *Server, name uri.URI, changes ...protocol.TextDocumentContentChangeEvent) string {
	params := &protocol.DidChangeTextDocumentParams{ContentChanges: changes}
	params.TextDocument.URI = name
	_ = s.DidChange(context.Background(), params)
	return s.opened[name].now.file.Text
}

func TestChanges(t *testing.T) {
	for _, c := range []struct {
		text       string
		start, end protocol.Position
		with, want string
	}{
		{"ab\ncd\n", position32(0, 1), position32(1, 1), "x", "axd\n"},
		{"½𝟙x", position32(0, 1), position32(0, 3), "", "½x"},
		{"½𝟙x", position32(0, 2), position32(0, 2), "!", "½!𝟙x"}, // inside a character
		{"a\r\nb", position32(0, 9), position32(1, 0), "-", "a-b"},
		{"a\rb\rc", position32(2, 0), position32(2, 1), "d", "a\rb\rd"},
		{"a", position32(9, 9), position32(9, 9), "b", "ab"},
		{"a", position32(1<<31, 1<<31), position32(1<<31, 1<<31), "b", "ab"},
		{"abc", position32(0, 2), position32(0, 1), "-", "ab-c"}, // the wrong way round
		{"", position32(0, 0), position32(0, 0), "x\ny", "x\ny"},
	} {
		s, name := shadow(t, c.text)
		got := alter(s, name, &protocol.TextDocumentContentChangePartial{Range: protocol.Range{Start: c.start, End: c.end}, Text: c.with})
		if got != c.want {
			t.Errorf("%q from %v to %v: %q, want %q", c.text, c.start, c.end, got, c.want)
		}
		if by := naive(c.text, c.start, c.end, c.with); by != c.want {
			t.Errorf("%q: the specification makes %q of it, want %q", c.text, by, c.want)
		}
	}
	s, name := shadow(t, "ab")
	got := alter(s, name,
		&protocol.TextDocumentContentChangeWholeDocument{Text: "1\n2"},
		&protocol.TextDocumentContentChangePartial{Range: protocol.Range{Start: position32(1, 0), End: position32(1, 1)}, Text: "x\ny"},
		&protocol.TextDocumentContentChangePartial{Range: protocol.Range{Start: position32(2, 1), End: position32(2, 1)}, Text: "z"},
	)
	if got != "1\nx\nyz" {
		t.Errorf("several at a time: %q", got)
	}
}

// TestRandomChanges types at random; the server has the text that the
// specification makes of it.
func TestRandomChanges(t *testing.T) {
	pieces := []string{"a", "b: ", "\n", "\r\n", "\r", "½", "𝟙", "幅", "", "{x: 1}\n", "  "}
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 1))
		text := ""
		s, name := shadow(t, text)
		for range 40 {
			lines := strings.Count(text, "\n") + strings.Count(text, "\r") + 2
			start := position32(r.IntN(lines), r.IntN(8))
			end := position32(int(start.Line)+r.IntN(2), r.IntN(8))
			if end.Line == start.Line {
				end.Character = max(end.Character, start.Character)
			}
			var with string
			for range r.IntN(4) {
				with += pieces[r.IntN(len(pieces))]
			}
			want := naive(text, start, end, with)
			got := alter(s, name, &protocol.TextDocumentContentChangePartial{Range: protocol.Range{Start: start, End: end}, Text: with})
			if got != want {
				t.Fatalf("seed %d: %q from %v to %v with %q: %q, want %q", seed, text, start, end, with, got, want)
			}
			text = want
		}
	}
}

func FuzzChange(f *testing.F) {
	f.Add("ab\r\ncd½𝟙", uint32(0), uint32(1), uint32(1), uint32(2), "x")
	f.Fuzz(func(t *testing.T, text string, line, character, line2, character2 uint32, with string) {
		text, with = strings.ToValidUTF8(text, "?"), strings.ToValidUTF8(with, "?") // as JSON carries no other
		if line2 < line || line2 == line && character2 < character || line > 1000 || line2 > 1000 || character > 1000 || character2 > 1000 {
			return
		}
		start, end := protocol.Position{Line: line, Character: character}, protocol.Position{Line: line2, Character: character2}
		s, name := shadow(t, text)
		got := alter(s, name, &protocol.TextDocumentContentChangePartial{Range: protocol.Range{Start: start, End: end}, Text: with})
		if want := naive(text, start, end, with); got != want {
			t.Errorf("%q from %v to %v with %q: %q, want %q", text, start, end, with, got, want)
		}
	})
}

func TestFileName(t *testing.T) {
	for name, want := range map[uri.URI]string{
		"file:///wei%C3%9F%20%C3%BC/a.yaml": "/weiß ü/a.yaml",
		"untitled:Untitled-1":               "Untitled-1",
		"untitled:/shop/new.yaml":           "/shop/new.yaml",
		"archive://far/shop/a.yaml":         "a.yaml",
	} {
		if got := fileName(name); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}
