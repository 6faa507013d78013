package yaml

import (
	"flag"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// orders are the YAML texts of the test data.
func orders(t testing.TB) (texts []string) {
	t.Helper()
	err := filepath.WalkDir("../../../testdata", func(path string, d fs.DirEntry, err error) error {
		if err == nil && filepath.Ext(path) == ".yaml" {
			text, err := os.ReadFile(path)
			texts = append(texts, string(text))
			return err
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return texts
}

// asPlain reads a text without the library; nil where the library has to.
func asPlain(text string) []syntax.Root {
	b := syntax.NewBuilder(&source.File{Text: text}, new(order.Memory))
	defer b.Done()
	if !plainDocuments(b, text, textStart(text)) {
		return nil
	}
	return append([]syntax.Root{}, b.Roots...)
}

// TestPlain holds what is read without the library to be what the library makes of it,
// and that it is most of what people write.
func TestPlain(t *testing.T) {
	texts := orders(t)
	plain := 0
	for _, text := range texts {
		if asPlain(text) != nil {
			plain++
		}
		samePlain(t, text)
		samePlain(t, strings.ReplaceAll(text, "\n", "\r\n"))
	}
	if plain < len(texts)*9/10 {
		t.Errorf("the library has to read %d of %d orders", len(texts)-plain, len(texts))
	}
	for _, text := range []string{
		"a:\n- b: 1\n- c\nd: 2\n", "a:\n  - b: 1\n    c: {d: , e: [1, 2, ]}\n---\n# none\n---\n\"a\": 'it''s' # note\n", "a: \"q\\\"\\\\\"\nb:\n  # c\n  c:\nd: ~", "a: {b: \"x\" }\r\nc: [ ]\r\n",
	} {
		if asPlain(text) == nil {
			t.Errorf("the library has to read %q", text)
		}
		samePlain(t, text)
	}
	for _, text := range []string{
		"a: b: c\n", "a: b\n  c\n", "a: *b\n", "a: &b c\n", "a: !!str b\n", "a: |\n  b\n", "a: \"b\n  c\"\n", "a: {b: 1,\n c: 2}\n", "a:\tb\n", "- - a\n", "? a\n", "a: 1\n...\n",
		"%YAML 1.1\n---\na: 1\n", "<<: {a: 1}\n", "a: 1\n b: 2\n", "a : 1\n", "a: \"\\x41\"\n", "a\n", "a: [b: c]\n", "a: {b}\n", "a: 1\r b: 2\n", "a: b #c\n d: e\n", "a: 'b' c\n", "a: {b: c}d\n", "a: [,]\n",
		"a:\n    b: 1\n  c: 2\n", "--- a\n", "a: @b\n", "a: -\n", "a: [-, b]\n", "a: [b?, c]\n", "a: {b:c}\n", "a: \ufeffb\n", "a: b\u0085c: d\n",
	} {
		if asPlain(text) != nil {
			t.Errorf("%q is read without the library", text)
		}
	}
}

// pieces are what YAML is made of, for texts that are nearly right.
var pieces = []string{
	"a", "b", "c: ", "d:", "e: 1\n", "- ", "-", " ", "  ", "\n", "\n  ", "\n    ", "\n- ", "\n  - ", "{", "}", "[", "]", ", ", ",", ": ", ":", "#", " # x\n", "\"", "'", "''", "\\\"", "?", "~", "null",
	"é", "---\n", "\n---\n", "\r\n", "1 1/2", "{f: 1, g: [h, 2]}", "\"i\": ", "'j': ", "<<: ", "*", "&k ", "!", "|", ">", "%", "@", "=", "\\", "...", "\t", "1:2", "-1", "- - ", "? ",
}

// TestPlainPieces holds texts that are put together at random to what the library makes
// of them.
func TestPlainPieces(t *testing.T) {
	dice := rand.New(rand.NewPCG(1, *seed))
	texts := orders(t)
	piece := func() string { return pieces[dice.IntN(len(pieces))] }
	plain := 0
	for i := range *tries {
		var text string
		if i%2 == 0 {
			for range 1 + dice.IntN(16) {
				text += piece()
			}
		} else { // a few lines of an order, with something put between or over what stands there
			lines := strings.SplitAfter(texts[dice.IntN(len(texts))], "\n")
			from := dice.IntN(len(lines))
			text = strings.Join(lines[from:min(len(lines), from+1+dice.IntN(8))], "")
			lead := len(text) - len(strings.TrimLeft(text, " "))
			text = strings.ReplaceAll("\n"+text, "\n"+strings.Repeat(" ", lead), "\n")[1:]
			for range dice.IntN(3) {
				at := dice.IntN(len(text) + 1)
				text = text[:at] + piece() + text[min(len(text), at+dice.IntN(3)):]
			}
		}
		if asPlain(text) != nil {
			plain++
		}
		samePlain(t, text)
	}
	if plain < *tries/20 {
		t.Errorf("only %d of %d texts are plain", plain, *tries)
	}
	t.Logf("%d of %d texts are plain", plain, *tries)
}

var (
	tries = flag.Int("tries", 4_000, "how many texts to put together at random")
	seed  = flag.Uint64("seed", 2, "of the dice")
)

// FuzzPlain is TestPlain for any text, and for one whose bytes are pieces.
func FuzzPlain(f *testing.F) {
	for _, text := range orders(f) {
		f.Add(text)
	}
	f.Add("a:\n- b: 1\n- c\nd: {e: 'it''s', \"f\": , g: [1, -x, ]} # note\n---\nh: \"q\\\"\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		samePlain(t, text)
		var b strings.Builder
		for i := range min(len(text), 100) {
			b.WriteString(pieces[int(text[i])%len(pieces)])
		}
		samePlain(t, b.String())
	})
}

// samePlain requires the library to make the same of a text, where it was not needed.
func samePlain(t *testing.T, text string) {
	t.Helper()
	got := asPlain(text)
	if got == nil {
		return
	}
	b := syntax.NewBuilder(&source.File{Text: text}, new(order.Memory))
	defer b.Done()
	if d := cmp.Diff(append([]syntax.Root{}, byLibrary(b)...), got); d != "" {
		t.Errorf("%q: (-library +plain)\n%s", text, d)
	}
}
