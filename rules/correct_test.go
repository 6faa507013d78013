package rules_test

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/fix"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/rule"
	"cutgate/internal/ruletest"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
	"cutgate/rules"
)

// TestCorrectFaulty corrects every faulty order, every demo order and every order
// of the rules' fixtures: what had a certain fix is gone, a second time nothing
// changes, and every byte that no edit touches stays.
func TestCorrectFaulty(t *testing.T) {
	t.Parallel()
	checker := newChecker(t)
	files := faultyOrders(t)
	changed, mended := 0, 0
	for _, f := range files {
		format, ok := load.FormatOf(f.Name)
		if !ok {
			t.Fatalf("%s: no format of that ending", f.Name)
		}
		for _, how := range []lint.Correcting{{}, {Fill: true}} {
			before := checker.CheckFile(f, format)
			after := correct(t, checker, f, format, how)
			if after == nil {
				continue
			}
			if after.File.Text != f.Text {
				changed++
			}
			for _, x := range certain(before) {
				mended++
				for _, y := range certain(after.Results) {
					if x.Rule == y.Rule && x.Path == y.Path {
						t.Errorf("%s: still %s at %s: %s", f.Name, y.Rule, y.Path, y.Message)
					}
				}
			}
		}
	}
	t.Logf("%d orders: %d texts changed for %d findings", len(files), changed, mended)
	if changed < 100 || mended < 100 {
		t.Error("that is too few to go by")
	}
}

// TestLikelySettles makes the likely choices in every faulty order too, before its blanks
// are filled in and after. Filled in, an order is not contradicted by a choice that it was
// not contradicted by before.
func TestLikelySettles(t *testing.T) {
	t.Parallel()
	checker := newChecker(t)
	for _, f := range faultyOrders(t) {
		format, _ := load.FormatOf(f.Name)
		correct(t, checker, f, format, lint.Correcting{Likely: true, Fill: true})
		filled := correct(t, checker, f, format, lint.Correcting{Fill: true})
		if filled == nil {
			continue
		}
		chosen := correct(t, checker, &source.File{Name: f.Name, Text: filled.File.Text}, format, lint.Correcting{Likely: true})
		if chosen == nil {
			continue
		}
		if before, after := contradictions(filled.Results), contradictions(chosen.Results); after > before {
			t.Errorf("%s: %d stated values disagree where %d did before the likely choices\n%s\n%s", f.Name, after, before, filled.File.Text, chosen.File.Text)
		}
	}
}

// TestLikelyKeeps holds that no likely choice is made in an order that is filled in and
// right, however odd it is.
func TestLikelyKeeps(t *testing.T) {
	t.Parallel()
	checker := newChecker(t)
	for name, text := range map[string]string{
		"a light hem": `
cloths: {linen: {fiber: {linen: 100}, width: 54, selvedge: 1/2, weight: 6 oz/yd2}}
items:
  - item: curtain
    cloth: linen
    track: {kind: pole, width: 30, above_sill: 24}
    hang: {to: below sill, clearance: 4}
    heading: {style: gathered, fullness: 2}
    hems: {bottom: {turn: 1, folds: 2}, sides: {turn: 1, folds: 2}}`,
		"a pile on its side": `
cloths: {moleskin: {fiber: {cotton: 100}, width: 57, selvedge: 1/2, weight: 10 oz/yd2, nap: one way}}
items:
  - item: cornice
    cloth: moleskin
    board: {width: 80, return: 4, height: 13}
    run: along
    cuts: [{piece: cover}]`,
		"small things": `
units: cm
cloths: {lawn: {fiber: {cotton: 100}, width: 140, selvedge: 1, weight: 80 g/m2}}
items:
  - item: cushion cover
    style: knife edge
    cloth: lawn
    pad: {width: 8, length: 8}
    allowance: 0.5
    closure: {kind: sewn}
  - item: pillowcase
    cloth: lawn
    pillow: {width: 12, length: 18}
    flap: 5`,
		"cloth in excess": `
cloths: {linen: {fiber: {linen: 100}, width: 54, selvedge: 1/2, weight: 6 oz/yd2, sold_by: 1/4 yd, ordered: 12 yd}}
items:
  - item: runner
    cloth: linen
    finished: {width: 16, length: 70}
    hem: {turn: 1, folds: 2}`,
	} {
		if !strings.Contains(text, "units:") {
			text = "\nunits: in" + text
		}
		o := &source.File{Name: name, Text: "order: TR-1" + text + "\n"}
		filled := correct(t, checker, o, load.YAML, lint.Correcting{Fill: true})
		if filled == nil {
			continue
		}
		if len(filled.Results[0].Findings) == 0 {
			t.Errorf("%s: nothing is found odd in it", name)
		}
		chosen := correct(t, checker, &source.File{Name: name, Text: filled.File.Text}, load.YAML, lint.Correcting{Likely: true, Fill: true})
		if chosen != nil && chosen.File.Text != filled.File.Text {
			t.Errorf("%s: the likely choices make of it\n%s", name, chosen.File.Text)
		}
	}
}

// contradictions is how many stated values disagree with what was worked out.
func contradictions(results []lint.Result) (n int) {
	for i := range results {
		for _, of := range results[i].Sheet.Stated {
			if (of.Agrees == worksheet.Differs || of.Agrees == worksheet.Impossible) && !of.Doubtful {
				n++
			}
		}
	}
	return n
}

// correct corrects a text lawfully.
func correct(t *testing.T, checker *lint.Checker, f *source.File, format load.Format, how lint.Correcting) *lint.Corrected {
	t.Helper()
	out, err := checker.Correct(f, format, how)
	if err != nil {
		t.Errorf("%s: %v\n%s", f.Name, err, f.Text)
		return nil
	}
	lawful(t, checker, f, format, how, &out)
	return &out
}

// lawful holds what a text was corrected to to the laws of correcting.
func lawful(t *testing.T, checker *lint.Checker, f *source.File, format load.Format, how lint.Correcting, out *lint.Corrected) {
	t.Helper()
	if left := certain(out.Results); len(left) > 0 {
		t.Errorf("%s: %s at %s has a certain fix and is left", f.Name, left[0].Rule, left[0].Path)
	}
	if (out.File.Text != f.Text) != (len(out.Changes) > 0) {
		t.Errorf("%s: %d changes are reported", f.Name, len(out.Changes))
	}
	if out.File.Text != f.Text { // else the second time is the first again
		again, err := checker.Correct(&source.File{Name: f.Name, Text: out.File.Text}, format, how)
		if err != nil || again.File.Text != out.File.Text || len(again.Changes) > 0 {
			t.Errorf("%s: a second time it becomes otherwise: %v\n%s\n%s", f.Name, err, out.File.Text, again.File.Text)
		}
	}
	kept(t, f, out.File.Text, out.Applied)
	filled := 0
	for _, a := range out.Applied {
		if a.Finding.Rule == lint.Filled {
			filled = a.Round
		} else if filled > 0 && a.Round > filled && !how.Likely { // a choice may be made of what stands there now
			t.Errorf("%s: after blanks were filled in, %s finds at %s: %s", f.Name, a.Finding.Rule, a.Finding.Path, a.Finding.Message)
		}
	}
}

// FuzzCorrect corrects texts that are hardly orders any more. Each settles, or
// stands as it was with an error that says whose fixes were given up.
func FuzzCorrect(f *testing.F) {
	for i, o := range faultyOrders(f) {
		if i > 10 && i%20 != 0 {
			continue // enough to begin with
		}
		format, _ := load.FormatOf(o.Name)
		f.Add(o.Text, uint8(format), len(o.Text)%2 == 0, len(o.Text)%3 == 0)
	}
	checker := newChecker(f)
	f.Fuzz(func(t *testing.T, text string, format uint8, fill, likely bool) {
		if len(text) > 4000 {
			t.Skip()
		}
		o := &source.File{Name: "order", Text: text}
		how := lint.Correcting{Fill: fill, Likely: likely}
		of := load.Formats()[int(format)%len(load.Formats())].Format
		out, err := checker.Correct(o, of, how)
		var u *fix.Unsettled
		if err != nil {
			if !errors.As(err, &u) || len(u.Rules) == 0 || out.File != o || len(out.Changes) > 0 {
				t.Errorf("given up: %v", err)
			}
			return
		}
		lawful(t, checker, o, of, how, &out)
	})
}

// kept follows every byte of a text through the rounds: each that lies in no edit
// is there in the end, in its order, and nothing else is but what edits wrote.
func kept(t *testing.T, f *source.File, end string, applied []fix.Applied) {
	t.Helper()
	type letter struct {
		from int // in the text that came in; -1 for one that an edit wrote
		c    byte
	}
	text := make([]letter, len(f.Text))
	for i := range text {
		text[i] = letter{i, f.Text[i]}
	}
	touched := make([]bool, len(f.Text))
	for round := 1; ; round++ {
		var edits []finding.Edit
		for _, a := range applied {
			if a.Round == round {
				edits = append(edits, a.Edits...)
			}
		}
		if len(edits) == 0 {
			break
		}
		// Backwards, so that the places before an edit hold. Of two put in at one
		// place the first goes in last.
		slices.SortStableFunc(edits, func(a, b finding.Edit) int {
			if a.Start != b.Start {
				return a.Start - b.Start
			}
			return a.End - b.End
		})
		for _, e := range slices.Backward(edits) {
			for _, l := range text[e.Start:e.End] {
				if l.from >= 0 {
					touched[l.from] = true
				}
			}
			var own []letter
			for _, c := range []byte(e.Text) {
				own = append(own, letter{-1, c})
			}
			text = slices.Replace(text, e.Start, e.End, own...)
		}
	}
	var b strings.Builder
	next := 0
	for _, l := range text {
		b.WriteByte(l.c)
		if l.from < 0 {
			continue
		}
		for ; next < l.from; next++ {
			if !touched[next] {
				t.Fatalf("%s: byte %d is gone, and no edit touches it", f.Name, next)
			}
		}
		next = l.from + 1
	}
	for ; next < len(touched); next++ {
		if !touched[next] {
			t.Fatalf("%s: byte %d is gone, and no edit touches it", f.Name, next)
		}
	}
	if b.String() != end {
		t.Errorf("%s: the edits make\n%s\nbut the text is\n%s", f.Name, b.String(), end)
	}
}

// certain are the findings that have a certain fix.
func certain(results []lint.Result) (list []finding.Finding) {
	for i := range results {
		for _, f := range results[i].Findings {
			if fix.Of(&f, finding.Certain) != nil {
				list = append(list, f)
			}
		}
	}
	return list
}

// faultyOrders are the faulty and the demo orders, and those of all fixtures.
func faultyOrders(t testing.TB) (list []*source.File) {
	t.Helper()
	for _, dir := range []string{"demo", "faulty"} {
		names, err := filepath.Glob("../testdata/orders/" + dir + "/*")
		if err != nil || len(names) == 0 {
			t.Fatalf("no %s orders: %v", dir, err)
		}
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			list = append(list, &source.File{Name: name, Text: string(text)})
		}
	}
	fixtures, err := ruletest.Fixtures(rules.Fixtures)
	if err != nil || len(fixtures) == 0 {
		t.Fatalf("no fixtures: %v", err)
	}
	return append(list, fixtures...)
}

// every is how many slips TestCorrectSlips passes over to the next that it corrects.
var every = flag.Int("every", 3, "correct one slip in so many")

// TestCorrectSlips corrects slips in the stated outcomes of the clean orders: one in
// three, or as the flag says. What comes of it is the clean order again, but for how the
// one value is written; or nothing is changed.
func TestCorrectSlips(t *testing.T) {
	t.Parallel()
	checker := newChecker(t)
	made, back, asked, n := 0, 0, 0, 0
	for f := range cleanOrders(t, checker) {
		for _, clean := range f.results {
			for _, of := range clean.Sheet.Stated {
				if of.Agrees != worksheet.Exactly {
					continue // the maker's choice
				}
				for _, wrong := range mutations(clean.Sheet, of) {
					if n++; n%*every != 0 {
						continue
					}
					edit := rule.NewPass(clean.Sheet).Set(of.Node, wrong)
					slip := &source.File{Name: f.name, Text: finding.Apply(f.text, []finding.Edit{edit})}
					out, err := checker.Correct(slip, f.format, lint.Correcting{})
					if err != nil {
						t.Errorf("%s: %v\n%s", f.name, err, slip.Text)
						continue
					}
					made++
					before, after := f.text[:edit.Start], f.text[edit.End:]
					if len(out.Changes) == 0 { // it can be read in two ways
						asked++
						continue
					}
					now, ok := strings.CutPrefix(out.File.Text, before)
					now, ok2 := strings.CutSuffix(now, after)
					if !ok || !ok2 || !same(clean.Sheet, of, strings.Trim(now, `"`)) {
						t.Errorf("%s: %s %q written as %q is corrected to\n%s", f.name, of.Quantity.Path(), of.Node.Text, wrong, out.File.Text)
						continue
					}
					back++
				}
			}
		}
	}
	t.Logf("%d slips made, %d corrected to what stood there, %d left to be asked about", made, back, asked)
	if 4*back < 3*made {
		t.Error("that is too few")
	}
	if made < 500 {
		t.Errorf("only %d slips were made", made)
	}
}

// TestFillIn blanks each stated outcome of every clean order, and all of them
// together. Filled in, the order is clear again, and all that was not blanked is
// as it was.
func TestFillIn(t *testing.T) {
	t.Parallel()
	checker := newChecker(t)
	n := 0
	for f := range cleanOrders(t, checker) {
		var all []finding.Edit
		for _, clean := range f.results {
			for _, of := range clean.Sheet.Stated {
				if !rule.NewPass(clean.Sheet).Editable(of.Node) {
					continue
				}
				n++
				one := []finding.Edit{blanked(f.text, of)}
				all = append(all, one...)
				for _, res := range fillIn(t, f, one) {
					for _, bad := range grave(res.Findings) {
						t.Errorf("%s: %q filled in, %s finds at %s: %s", f.name, of.Node.Text, bad.Rule, bad.Path, bad.Message)
					}
				}
			}
		}
		// What the maker chose, as the count of holes, may now be another choice that
		// a rule warns of, but none that is wrong.
		for _, res := range fillIn(t, f, all) {
			for _, bad := range res.Sheet.Wrong {
				t.Errorf("%s: with all filled in, %q is wrong: %s", f.name, bad.Node.Text, bad.Quantity.Path())
			}
		}
	}
	if n < 50 {
		t.Errorf("only %d outcomes were blanked", n)
	}
}

// blanked writes null for a stated outcome.
func blanked(text string, of worksheet.Stated) finding.Edit {
	at := of.Node.At
	if of.Node.Quote != 0 {
		at.Start, at.End = at.Start-1, at.End+1
	}
	if of.Node.Cell {
		return finding.Edit{Range: at}
	}
	return finding.Edit{Range: at, Text: "null"}
}

// fillIn puts blanks into a file, fills them in, and returns what is then found.
func fillIn(t *testing.T, f *cleanFile, blanks []finding.Edit) []lint.Result {
	t.Helper()
	out := correct(t, f.checker, &source.File{Name: f.name, Text: finding.Apply(f.text, blanks)}, f.format, lint.Correcting{Fill: true})
	if out == nil {
		return nil
	}
	if strings.Contains(out.File.Text, "null") {
		t.Errorf("%s: something is still blank:\n%s", f.name, out.File.Text)
	}
	return out.Results
}

// TestSafetyIsForPeople holds that nothing about safety is ever changed.
func TestSafetyIsForPeople(t *testing.T) {
	checker := newChecker(t)
	n := 0
	for _, f := range faultyOrders(t) {
		format, _ := load.FormatOf(f.Name)
		for _, res := range checker.CheckFile(f, format) {
			for _, found := range res.Findings {
				if !strings.HasPrefix(found.Rule, lint.SafetyTopic+"/") {
					continue
				}
				n++
				if fix.Of(&found, finding.Likely) != nil {
					t.Errorf("%s: %s has a fix that could be made", f.Name, found.Rule)
				}
			}
		}
	}
	if n == 0 {
		t.Error("nothing is found about safety")
	}
}
