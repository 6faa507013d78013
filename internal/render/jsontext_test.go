package render

import (
	"encoding/json"
	"testing"
	"unicode/utf8"
)

// FuzzQuote holds strings against the standard library's reading of them.
func FuzzQuote(f *testing.F) {
	for _, s := range []string{"", "14 1/4 in", `10½"`, `a\b`, "tab\there\r\n", "\x00\x1f", "\xff", "a\xc3", "\u2028"} {
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
	})
}
