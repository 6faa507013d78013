package fix_test

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/fix"
	"cutgate/internal/source"
)

func edit(start, end int, text string) finding.Edit {
	return finding.Edit{Range: source.Range{Start: start, End: end}, Text: text}
}

// found is a finding with one fix.
func found(rule string, sure finding.Sureness, edits ...finding.Edit) finding.Finding {
	return finding.Finding{Rule: rule, Message: "Odd.", At: edits[0].Range, Fixes: []finding.Fix{{Title: "Mend " + rule, Sureness: sure, Edits: edits}}}
}

// once finds the list in the first text and nothing in any other.
func once(first string, list ...finding.Finding) fix.Check {
	return func(text string) ([]finding.Finding, error) {
		if text == first {
			return list, nil
		}
		return nil, nil
	}
}

// made says which rules' fixes were made, in their order.
func made(res fix.Result) (list []string) {
	for _, a := range res.Applied {
		list = append(list, a.Finding.Rule)
	}
	return list
}

func TestOneRound(t *testing.T) {
	const text = "turn: 3, folds: 1"
	sure, maybe, shown := finding.Certain, finding.Likely, finding.Shown
	alternatives := finding.Finding{Rule: "a", Message: "Odd.", Fixes: []finding.Fix{
		{Title: "Look", Sureness: shown, Edits: []finding.Edit{edit(0, 4, "look")}},
		{Title: "Guess", Sureness: maybe, Edits: []finding.Edit{edit(6, 7, "4")}},
		{Title: "Mend", Sureness: sure, Edits: []finding.Edit{edit(6, 7, "5")}},
		{Title: "Mend otherwise", Sureness: sure, Edits: []finding.Edit{edit(16, 17, "2")}},
	}}
	for _, c := range []struct {
		name  string
		least finding.Sureness
		found []finding.Finding
		want  string
		made  []string
		left  int
	}{
		{"nothing", sure, nil, text, nil, 0},
		{"one", sure, []finding.Finding{found("a", sure, edit(6, 7, "4"))}, "turn: 4, folds: 1", []string{"a"}, 0},
		{"likely is not asked for", sure, []finding.Finding{found("a", maybe, edit(6, 7, "4"))}, text, nil, 1},
		{"likely is asked for", maybe, []finding.Finding{found("a", maybe, edit(6, 7, "4"))}, "turn: 4, folds: 1", []string{"a"}, 0},
		{"shown is never made", shown, []finding.Finding{found("a", shown, edit(6, 7, "4"))}, text, nil, 1},
		{"the first certain one", sure, []finding.Finding{alternatives}, "turn: 5, folds: 1", []string{"a"}, 0},
		{"the first likely one", maybe, []finding.Finding{alternatives}, "turn: 4, folds: 1", []string{"a"}, 0},
		{"without edits", sure, []finding.Finding{{Rule: "a", Message: "Odd.", Fixes: []finding.Fix{{Title: "Mend", Sureness: sure}}}}, text, nil, 1},
		{"by place", sure, []finding.Finding{found("a", sure, edit(16, 17, "2")), found("b", sure, edit(6, 7, "4"))}, "turn: 4, folds: 2", []string{"b", "a"}, 0},
		{"by rule at one place", sure, []finding.Finding{found("b", sure, edit(6, 7, "5")), found("a", sure, edit(6, 7, "4"))}, "turn: 4, folds: 1", []string{"a"}, 0},
		{"whole or not at all", sure, []finding.Finding{
			found("a", sure, edit(6, 7, "4")), found("b", sure, edit(5, 8, " 5;"), edit(16, 17, "2")),
		}, "turn: 5; folds: 2", []string{"b"}, 0},
		{"a second that overlaps", sure, []finding.Finding{
			found("a", sure, edit(4, 5, "=")), found("b", sure, edit(6, 7, "4"), edit(0, 5, "hem:")),
		}, "turn= 3, folds: 1", []string{"a"}, 0},
		{"the same edit twice", sure, []finding.Finding{
			found("a", sure, edit(6, 7, "4")), found("b", sure, edit(6, 7, "4"), edit(16, 17, "2")),
		}, "turn: 4, folds: 2", []string{"a", "b"}, 0},
		{"side by side", sure, []finding.Finding{found("a", sure, edit(4, 6, "=")), found("b", sure, edit(6, 7, "4"))}, "turn=4, folds: 1", []string{"a", "b"}, 0},
		{"put in at the edges", sure, []finding.Finding{
			found("a", sure, edit(6, 6, "<")), found("b", sure, edit(6, 7, "4")), found("c", sure, edit(7, 7, ">")),
		}, "turn: <4>, folds: 1", []string{"a", "b", "c"}, 0},
		{"put in inside", sure, []finding.Finding{found("a", sure, edit(0, 7, "hem: 4")), found("b", sure, edit(3, 3, "x"))}, "hem: 4, folds: 1", []string{"a"}, 0},
		{"two put in at one place", sure, []finding.Finding{found("a", sure, edit(7, 7, "1")), found("b", sure, edit(7, 7, "2"))}, "turn: 31, folds: 1", []string{"a"}, 0},
		{"one fix puts in two at one place", sure, []finding.Finding{found("a", sure, edit(7, 7, "1"), edit(7, 7, "2"))}, "turn: 312, folds: 1", []string{"a"}, 0},
	} {
		res, err := fix.Settle(text, c.least, once(text, c.found...))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if res.Text != c.want || !slices.Equal(made(res), c.made) || len(res.Left) != c.left {
			t.Errorf("%s: got %q by %v, %d left; want %q by %v, %d", c.name, res.Text, made(res), len(res.Left), c.want, c.made, c.left)
		}
	}
}

// replacing is a check by rules of the form old → new, each of which finds every
// place of its old text.
type replacing []struct{ rule, old, new string }

func (rules replacing) check(text string) (list []finding.Finding, err error) {
	for _, r := range rules {
		for from := 0; ; from++ {
			i := strings.Index(text[from:], r.old)
			if i < 0 {
				break
			}
			from += i
			list = append(list, found(r.rule, finding.Certain, edit(from, from+len(r.old), r.new)))
		}
	}
	return list, nil
}

func TestRounds(t *testing.T) {
	res, err := fix.Settle("0 a a 0", finding.Certain, replacing{
		{"first", "a", "bb"}, {"second", "bb", "c"}, {"third", "c 0", "long ccc"},
	}.check)
	if err != nil {
		t.Fatal(err)
	}
	if res.Text != "0 c long ccc" || res.Rounds != 3 {
		t.Errorf("got %q after %d rounds", res.Text, res.Rounds)
	}
	type step struct {
		Rule  string
		Round int
		Now   string
	}
	var got []step
	for _, a := range res.Applied {
		for i := range a.Edits {
			got = append(got, step{a.Finding.Rule, a.Round, res.Text[a.Now[i].Start:a.Now[i].End]})
		}
	}
	want := []step{{"first", 1, "c"}, {"first", 1, "long ccc"}, {"second", 2, "c"}, {"second", 2, "long ccc"}, {"third", 3, "long ccc"}}
	if d := gocmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestOverlapWaits(t *testing.T) {
	res, err := fix.Settle("ab", finding.Certain, replacing{{"x", "ab", "cb"}, {"y", "b", "d"}}.check)
	if err != nil {
		t.Fatal(err)
	}
	if res.Text != "cd" || res.Rounds != 2 || !slices.Equal(made(res), []string{"x", "y"}) {
		t.Errorf("got %q after %d rounds by %v", res.Text, res.Rounds, made(res))
	}
}

func TestGivenUp(t *testing.T) {
	broken := errors.New("a quote mark is not closed")
	for _, c := range []struct {
		name  string
		text  string
		check fix.Check
		rules []string
		says  string
	}{
		{"swings", "c a", replacing{{"hem/up", "a", "b"}, {"hem/down", "b", "a"}, {"seam/other", "c", "d"}}.check,
			[]string{"hem/down", "hem/up"}, "the fixes of hem/down, hem/up undo each other"},
		{"changes nothing", "a", replacing{{"hem/idle", "a", "a"}}.check, []string{"hem/idle"}, "the fixes of hem/idle undo each other"},
		{"grows", "a", replacing{{"hem/long", "a", "aa"}}.check, []string{"hem/long"}, "the fixes of hem/long have not settled after 10 rounds"},
		{"breaks", "ab", func(text string) ([]finding.Finding, error) {
			if text == "xy" {
				return nil, broken
			}
			return replacing{{"hem/quote", "a", "x"}, {"seam/quote", "b", "y"}}.check(text)
		}, []string{"hem/quote", "seam/quote"}, "the fixes of hem/quote, seam/quote leave a text that can't be checked: a quote mark is not closed"},
	} {
		res, err := fix.Settle(c.text, finding.Certain, c.check)
		var u *fix.Unsettled
		if !errors.As(err, &u) || !slices.Equal(u.Rules, c.rules) || err.Error() != c.says {
			t.Errorf("%s: got the error %v", c.name, err)
		}
		if c.name == "breaks" && !errors.Is(err, broken) {
			t.Errorf("%s: the error does not hold why", c.name)
		}
		if d := gocmp.Diff(fix.Result{Text: c.text}, res); d != "" {
			t.Errorf("%s: the text that came in does not stand:\n%s", c.name, d)
		}
	}
}

// Where fixes that are not certain undo each other, the others are made all the same.
func TestOthersAreMade(t *testing.T) {
	swings := func(text string) ([]finding.Finding, error) {
		list, err := replacing{{"hem/up", "a", "b"}, {"hem/down", "b", "a"}, {"seam/other", "c", "d"}}.check(text)
		for i := range list {
			if list[i].Rule == "hem/up" {
				list[i].Fixes[0].Sureness = finding.Likely
			}
		}
		return list, err
	}
	res, err := fix.Settle("c a", finding.Likely, swings)
	if err != nil || res.Text != "d a" || !slices.Equal(made(res), []string{"seam/other"}) || len(res.Left) != 1 {
		t.Errorf("got %+v, %v", res, err)
	}
}

// TestTenRoundsAreEnough has fixes that need just as many as there may be.
func TestTenRoundsAreEnough(t *testing.T) {
	res, err := fix.Settle(strings.Repeat("a", 1<<fix.MaxRounds), finding.Certain, replacing{{"hem/half", "aa", "a"}}.check)
	if err != nil || res.Rounds != fix.MaxRounds || res.Text != "a" {
		t.Errorf("%d rounds, error %v", res.Rounds, err)
	}
}

func TestFaultyChecks(t *testing.T) {
	broken := errors.New("no order")
	if res, err := fix.Settle("a", finding.Certain, func(string) ([]finding.Finding, error) { return nil, broken }); !errors.Is(err, broken) || res.Text != "a" {
		t.Errorf("got %+v, %v", res, err)
	}
	_, err := fix.Settle("a", finding.Certain, once("a", found("hem/far", finding.Certain, edit(0, 2, "b"))))
	if err == nil || !strings.Contains(err.Error(), "hem/far") {
		t.Errorf("a fix outside the text gives the error %v", err)
	}
}

// FuzzRound holds one round against the plainest way to choose and to apply.
func FuzzRound(f *testing.F) {
	f.Add("turn: 3, folds: 2", []byte{6, 1, 1, 16, 1, 2, 6, 2, 3, 6, 0, 4})
	f.Add("ab", []byte{0, 0, 1, 0, 1, 1, 0, 2, 1, 1, 0, 1, 1, 1, 9})
	f.Add("", []byte{0, 0, 1, 0, 0, 1})
	f.Fuzz(func(t *testing.T, text string, data []byte) {
		// Each three bytes are an edit; an odd place puts it into the last finding.
		var list []finding.Finding
		for i := 0; i+2 < len(data) && i < 60; i += 3 {
			start := int(data[i]) % (len(text) + 1)
			e := edit(start, min(start+int(data[i+1])%4, len(text)), strings.Repeat("#", int(data[i+2])%3)+fmt.Sprint(data[i+2]%5))
			if n := len(list); n > 0 && data[i+1]&0x80 != 0 {
				fx := &list[n-1].Fixes[0]
				if finding.ValidEdits(append(slices.Clone(fx.Edits), e), len(text)) == nil {
					fx.Edits = append(fx.Edits, e)
				}
				continue
			}
			list = append(list, found(fmt.Sprintf("r%02d", i), finding.Certain, e))
		}
		want, taken := plainRound(text, list)
		first := true
		res, err := fix.Settle(text, finding.Certain, func(string) ([]finding.Finding, error) {
			if first {
				first = false
				return list, nil
			}
			return nil, nil
		})
		if want == text && len(taken) > 0 {
			if err == nil {
				t.Error("fixes that change nothing are no error")
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		if res.Text != want || !slices.Equal(made(res), taken) {
			t.Errorf("got %q by %v, want %q by %v", res.Text, made(res), want, taken)
		}
		for _, a := range res.Applied {
			for i, e := range a.Edits {
				if got := res.Text[a.Now[i].Start:a.Now[i].End]; got != e.Text {
					t.Errorf("where %+v should now stand there is %q in %q", e, got, res.Text)
				}
			}
		}
	})
}

// plainRound chooses by comparing every edit with every other, and applies byte
// by byte.
func plainRound(text string, list []finding.Finding) (string, []string) {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b finding.Finding) int {
		return cmp.Or(cmp.Compare(a.At.Start, b.At.Start), strings.Compare(a.Rule, b.Rule))
	})
	var edits []finding.Edit
	var taken []string
next:
	for _, f := range list {
		var own []finding.Edit
		for _, e := range f.Fixes[0].Edits {
			have := false
			for _, o := range edits {
				if o == e {
					have = true
				} else if o.Range == e.Range || e.Start < o.End && o.Start < e.End {
					continue next
				}
			}
			if !have {
				own = append(own, e)
			}
		}
		edits = append(edits, own...)
		taken = append(taken, f.Rule)
	}
	var b strings.Builder
	for i := 0; i <= len(text); i++ {
		for _, e := range edits {
			if e.Start == i && e.Len() == 0 {
				b.WriteString(e.Text)
			}
		}
		gone := false
		for _, e := range edits {
			if e.Start == i && e.Len() > 0 {
				b.WriteString(e.Text)
			}
			gone = gone || e.Contains(i)
		}
		if !gone && i < len(text) {
			b.WriteByte(text[i])
		}
	}
	return b.String(), taken
}

// FuzzSettle lets made-up rules rewrite a text, and holds that it settles or
// stands.
func FuzzSettle(f *testing.F) {
	f.Add("a b", "a", "b", "b", "a", "c", "d")
	f.Add("aaaa", "aa", "a", "b", "", "", "x")
	f.Add("turn: 3", "3", "33", "t", "T", "T", "t ")
	f.Fuzz(func(t *testing.T, text, old1, new1, old2, new2, old3, new3 string) {
		if len(text) > 200 {
			t.Skip()
		}
		var rules replacing
		for i, p := range [][2]string{{old1, new1}, {old2, new2}, {old3, new3}} {
			if p[0] != "" {
				rules = append(rules, struct{ rule, old, new string }{fmt.Sprintf("r/%d", i), p[0], p[1]})
			}
		}
		checks := 0
		check := func(s string) ([]finding.Finding, error) {
			if checks++; len(s) > 2000 {
				return nil, errors.New("too long")
			}
			return rules.check(s)
		}
		res, err := fix.Settle(text, finding.Certain, check)
		if checks > fix.MaxRounds+1 {
			t.Errorf("%d checks", checks)
		}
		var u *fix.Unsettled
		if err != nil {
			if !errors.As(err, &u) || len(u.Rules) == 0 || res.Text != text || res.Applied != nil {
				t.Errorf("given up with %+v and %v", res, err)
			}
			return
		}
		if checks != res.Rounds+1 {
			t.Errorf("%d rounds but %d checks", res.Rounds, checks)
		}
		for _, r := range rules {
			if strings.Contains(res.Text, r.old) {
				t.Errorf("%q is left in %q", r.old, res.Text)
			}
		}
		for _, a := range res.Applied {
			for _, at := range a.Now {
				if at.Start < 0 || at.End < at.Start || at.End > len(res.Text) {
					t.Errorf("%+v lies outside %q", at, res.Text)
				}
			}
		}
		again, err := fix.Settle(res.Text, finding.Certain, check)
		if err != nil || again.Text != res.Text || again.Rounds != 0 {
			t.Errorf("a second time %q becomes %q: %v", res.Text, again.Text, err)
		}
	})
}
