package finding_test

import (
	"strings"
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/source"
)

func edit(start, end int, text string) finding.Edit {
	return finding.Edit{Range: source.Range{Start: start, End: end}, Text: text}
}

func TestApply(t *testing.T) {
	for _, c := range []struct {
		name, text string
		edits      []finding.Edit
		want       string
	}{
		{"nothing", "hem", nil, "hem"},
		{"one", "turn: 3", []finding.Edit{edit(6, 7, "4")}, "turn: 4"},
		{"any order", "ab cd", []finding.Edit{edit(3, 5, "y"), edit(0, 2, "x")}, "x y"},
		{"side by side", "abcd", []finding.Edit{edit(2, 4, "y"), edit(0, 2, "x")}, "xy"},
		{"two at one place", "ab", []finding.Edit{edit(1, 1, "1"), edit(1, 1, "2")}, "a12b"},
		{"insertion before a replacement", "ab", []finding.Edit{edit(1, 2, "r"), edit(1, 1, "i")}, "air"},
		{"all of it", "ab", []finding.Edit{edit(0, 2, "")}, ""},
	} {
		if got := finding.Apply(c.text, c.edits); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// FuzzApply holds Apply against the plainest way to do the same: from the last
// edit to the first.
func FuzzApply(f *testing.F) {
	f.Add("turn: 3, folds: 2", 6, 7, "4", 16, 17, "3")
	f.Add("", 0, 0, "a", 0, 0, "b")
	f.Fuzz(func(t *testing.T, text string, s1, e1 int, t1 string, s2, e2 int, t2 string) {
		edits := []finding.Edit{edit(s1, e1, t1), edit(s2, e2, t2)}
		if finding.ValidEdits(edits, len(text)) != nil || s1 == s2 {
			t.Skip()
		}
		want := text
		if s1 < s2 {
			want = want[:s2] + t2 + want[e2:]
			want = want[:s1] + t1 + want[e1:]
		} else {
			want = want[:s1] + t1 + want[e1:]
			want = want[:s2] + t2 + want[e2:]
		}
		if got := finding.Apply(text, edits); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	})
}

func TestValidate(t *testing.T) {
	good := finding.Finding{Message: "Too short.", At: source.Range{Start: 1, End: 3}}
	for _, c := range []struct {
		name   string
		change func(*finding.Finding)
		want   string
	}{
		{"good", func(*finding.Finding) {}, ""},
		{"no message", func(f *finding.Finding) { f.Message = "" }, "message is empty"},
		{"outside", func(f *finding.Finding) { f.At.End = 11 }, "outside the text"},
		{"backwards", func(f *finding.Finding) { f.At.Start = 4 }, "outside the text"},
		{"related outside", func(f *finding.Finding) {
			f.Related = []finding.Related{{Range: source.Range{Start: -1}}}
		}, "related: "},
		{"edits overlap", func(f *finding.Finding) {
			f.Fixes = []finding.Fix{{Title: "Mend", Edits: []finding.Edit{edit(2, 5, ""), edit(1, 3, "")}}}
		}, `fix "Mend": edits`},
	} {
		f := good
		c.change(&f)
		got := ""
		if err := f.Validate(10); err != nil {
			got = err.Error()
		}
		if !strings.Contains(got, c.want) || (c.want == "") != (got == "") {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

func TestVerdictOf(t *testing.T) {
	for _, c := range []struct {
		levels []finding.Level
		want   string
	}{
		{nil, "clear to cut"},
		{[]finding.Level{finding.Note}, "clear to cut"},
		{[]finding.Level{finding.Note, finding.Warning, finding.Note}, "ask first"},
		{[]finding.Level{finding.Warning, finding.Error}, "hold"},
	} {
		var list []finding.Finding
		for _, l := range c.levels {
			list = append(list, finding.Finding{Level: l})
		}
		if got := finding.VerdictOf(list).String(); got != c.want {
			t.Errorf("%v: got %s, want %s", c.levels, got, c.want)
		}
	}
}
