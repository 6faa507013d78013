package syntax_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"cutgate/internal/finding"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// The ways that a note can stand in an order.
var manners = []struct {
	name, text string
	format     load.Format
}{
	{"YAML plain", "order: 1\nunits: in\nnotes: soft\ncloths: {}\n", load.YAML},
	{"YAML plain, last", "order: 1\nnotes: soft", load.YAML},
	{"YAML plain, with a comment", "order: 1\nnotes: soft # as ever\n", load.YAML},
	{"YAML double", "order: 1\nnotes: \"soft\"\n", load.YAML},
	{"YAML single", "order: 1\nnotes: 'soft'\n", load.YAML},
	{"YAML in braces", "{order: 1, notes: soft, units: in}\n", load.YAML},
	{"YAML number", "order: 1\nnotes: 12\n", load.YAML},
	{"YAML blank", "order: 1\nnotes:\nunits: in\n", load.YAML},
	{"YAML blank with a comment", "order: 1\nnotes: # as ever\nunits: in\n", load.YAML},
	{"YAML blank with a comment further on", "order: 1\nnotes:   # as ever\nunits: in\n", load.YAML},
	{"YAML blank without a colon", "{order: 1, notes, units: in}\n", load.YAML},
	{"YAML blank in quotes without a colon", "{order: 1, \"notes\", units: in}\n", load.YAML},
	{"YAML blank in braces", "{order: 1, notes: , units: in}\n", load.YAML},
	{"JSON", `{"order": 1, "notes": "soft", "units": "in"}`, load.JSON},
	{"JSON number", `{"order": 1, "notes": 12}`, load.JSON},
	{"JSON null", `{"order": 1, "notes": null}`, load.JSON},
	{"CUE", "order: 1\nnotes: \"soft\"\nunits: \"in\"\n", load.CUE},
	{"CUE number", "order: 1\nnotes: 12\n", load.CUE},
}

// FuzzSet holds that what is set is what is read again, in every manner of
// writing.
func FuzzSet(f *testing.F) {
	for _, s := range []string{
		"14 1/4", "12", "007", "1e5", "-3", "6' 2\"", "10½”", "1,5 m", "a: b", "a #b", "#a", "- a", "-", "?", "~", "null", "NULL", "Null", "yes", "No", "on",
		"[a]", "{a", "a]", "a, b", "'a'", "\"a\"", "*a", "&a", "!a", "|", ">", "%a", "@a", "`a", " a", "a ", "a:", ":a", "a\nb", "a\tb", "\\", "\\n", "\u2028", "\u0085",
		"\x01", "\x7f", "é", "e\u0301", "\ufeff", "---", "...", "=", "<<", "2026-12-18", "0x1F", "1_000", ".5", "+1", "1.", "0b1", "12:30", ".inf", "\\(x)", "a\x00b", "\U0001F600", "0?", "a\uffff", "\ufffe",
	} {
		f.Add(s)
	}
	l, err := load.New()
	if err != nil {
		f.Fatal(err)
	}
	read := func(text string, format load.Format) *order.Order {
		return l.Orders(&source.File{Name: "order", Text: text}, format, load.Options{})[0]
	}
	f.Fuzz(func(t *testing.T, s string) {
		if !utf8.ValidString(s) || s == "true" || s == "false" {
			t.Skip()
		}
		for _, m := range manners {
			o := read(m.text, m.format)
			n := o.Root.Kid("notes")
			if n.Fixed {
				t.Fatalf("%s: the note can't be edited", m.name)
			}
			after := finding.Apply(m.text, []finding.Edit{o.Writer.Set(o, n, s)})
			got := read(after, m.format)
			if got.Root == nil {
				t.Fatalf("%s: after setting %q the order can't be read: %+v\n%s", m.name, s, got.Flaws, after)
			}
			if k := got.Root.Kid("notes"); k == nil || k.Text != s || !strings.HasPrefix(got.Number.Value, "1") {
				t.Errorf("%s: %q is read again as %+v\n%s", m.name, s, k, after)
			}
		}
	})
}
