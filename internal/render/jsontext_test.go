package render

import (
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"cutgate/internal/source"
)

// FuzzQuote holds strings against the standard library's reading of them.
func FuzzQuote(f *testing.F) {
	for _, s := range []string{"", "14 1/4 in", `10½"`, `a\b`, "tab\there\r\n", "\x00\x1f", "\xff", "a\xc3", "\u2028", "\x7f\u009b31m", "\u202elawn\u2066", "\U000e0041"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var j jsonText
		j.quote(s)
		var got string
		if err := json.Unmarshal(j.b, &got); err != nil {
			t.Fatalf("%q: %v", j.b, err)
		}
		if utf8.ValidString(s) && got != s || !utf8.ValidString(got) {
			t.Errorf("got %q, want %q", got, s)
		}
		if strings.ContainsFunc(string(j.b), func(r rune) bool { return r < ' ' || source.Escaped(r) }) {
			t.Errorf("%q speaks to a terminal", j.b)
		}
	})
}
