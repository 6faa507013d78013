package cue

import (
	"strings"
	"testing"
)

func TestTooNested(t *testing.T) {
	many := func(s string) string { return strings.Repeat(s, 60_000/len(s)*4) }
	for text, want := range map[string]bool{
		`notes: "` + many("[") + `"`:                   false,
		`notes: #"` + many(`"[`) + `"#`:                false,
		"notes: \"\"\"\n\t" + many("[\n\t") + "\"\"\"": false,
		"// " + many("[") + "\nnotes: 1":               false,
		"// " + many("a: ") + "\nnotes: 1":             false,
		`notes: "` + many("a: ") + `"`:                 false,
		`a: "\(b)` + strings.Repeat("[", 5000) + `"`:   false,
		"items: [" + many("{a: b: [1]},\n") + "]":      false,
		many("a: b: 1\n"):                              false,
		"a: " + many("["):                              true,
		"a: " + many(`[")", `):                         true, // what closes in a text closes nothing
		"a: " + many("{a:"):                            true,
		many("a:"):                                     true,
		many("a:\n"):                                   true,
		many("[a]:"):                                   true,
		"\ufeff" + many("a: "):                         true,
		"a: " + many(`"\(`):                            true,
		"@a(" + many("("):                              true,
		many("@a("):                                    true,
		"@a(" + many(`")"(`):                           true,
		many("if a {"):                                 true,
		"a: ) \"\\(1)" + many("@a("):                   true, // the parser takes this for no text
		"a: \"\\(1 2\"\nb: [)" + many("@a("):           true,
		"a: \"\"\"\n\\(1 2 [ ]\n\"\"\"\nb: [)" + many("@a(\")\" ") + ")": true,
	} {
		at := TooNested(text)
		if at >= 0 != want || at >= len(text) {
			t.Errorf("%.40q… of %d bytes: too nested at %d, want %t", text, len(text), at, want)
		}
		if at < 0 {
			continue
		}
		if c := text[at]; !strings.ContainsRune("[{(:", rune(c)) {
			t.Errorf("%.40q…: too nested at %q", text, text[at:][:1])
		}
	}
}
