package rules_test

import (
	"iter"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
	"cutgate/rules"
)

// TestOneMistakeOneFinding changes each stated outcome of every clean order by
// each kind of slip that applies to it, and requires one error or warning that
// names the place and what stood there: as the corrected value, or as one of the
// readings where others are as likely.
//
// A slip applies where it makes another number that can be written in that
// field. It does not apply where the changed number is no mistake: a little more
// cloth than needed (less than one more cut), a roomier rod pocket, a cooler iron.
func TestOneMistakeOneFinding(t *testing.T) {
	t.Parallel()
	checker := newChecker(t)
	var made, found, single, exact int
	for f := range cleanOrders(t, checker) {
		for n, clean := range f.results {
			if bad := grave(clean.Findings); len(bad) > 0 {
				t.Errorf("%s, order %d is not clean: %s: %s", f.name, n, bad[0].Rule, bad[0].Message)
				continue
			}
			for _, of := range clean.Sheet.Stated {
				if of.Agrees != worksheet.Exactly {
					continue // the maker's choice
				}
				for _, wrong := range mutations(clean.Sheet, of) {
					at := of.Node.At
					results := f.changed(rule.NewPass(clean.Sheet).Set(of.Node, wrong))
					if n >= len(results) {
						t.Fatalf("%s: order %d is gone after %q → %q", f.name, n, of.Node.Text, wrong)
					}
					if asGood(results[n].Sheet, &of) {
						continue
					}
					made++
					bad := grave(results[n].Findings)
					say := func(what string) {
						t.Errorf("%s: %s %q written as %q: %s", filepath.Base(f.name), of.Quantity.Path(), of.Node.Text, wrong, what)
					}
					if len(bad) == 0 {
						say("nothing is found")
						continue
					}
					found++
					if len(bad) > 1 {
						var ids []string
						for _, f := range bad {
							ids = append(ids, f.Rule+" at "+f.Path)
						}
						say("several findings: " + strings.Join(ids, ", "))
						continue
					}
					single++
					// A quote mark may now stand before the value.
					if bad := bad[0]; !names(results[n].Sheet, &bad, at, func(text string) bool { return same(clean.Sheet, of, text) }) {
						t.Logf("%s: %s %q written as %q: %s at %s corrects %q to %q", filepath.Base(f.name), of.Quantity.Path(), of.Node.Text, wrong, bad.Rule, bad.Path, bad.Stated, bad.Corrected)
						continue
					}
					exact++
				}
			}
		}
	}
	rate := func(n int) string {
		return strconv.FormatFloat(100*float64(n)/float64(max(made, 1)), 'f', 2, 64) + " %"
	}
	t.Logf("%d slips made: %s found, %s with one finding, %s corrected to what stood there", made, rate(found), rate(single), rate(exact))
	if 1000*exact < 995*made {
		t.Error("that is too few: the above are read otherwise")
	}
	if made < 500 {
		t.Errorf("only %d slips were made", made)
	}
}

// TestClothOfACut names another cloth of the order in each cut that names one: that is one
// mistake, and what rests on either cloth is not called wrong.
func TestClothOfACut(t *testing.T) {
	t.Parallel()
	checker := newChecker(t)
	made := 0
	for f := range cleanOrders(t, checker) {
		for n, clean := range f.results {
			for i := range clean.Sheet.Items {
				it := &clean.Sheet.Items[i]
				for k := range it.Order.Cuts {
					c := &it.Order.Cuts[k]
					for _, other := range clean.Sheet.Cloths {
						as := *c
						if as.Cloth.Value = other.Name; !c.Cloth.Set || it.Disputed(&as) < 0 {
							continue
						}
						made++
						bad := grave(f.changed(rule.NewPass(clean.Sheet).Set(c.Cloth.Node, other.Name))[n].Findings)
						if len(bad) != 1 || bad[0].Rule != "cloth/role-unnamed" {
							t.Errorf("%s: with %s for the cloth %s of a %s: %d findings, %v", filepath.Base(f.name), other.Name, c.Cloth.Value, c.Piece.Value, len(bad), bad)
						}
					}
				}
			}
		}
	}
	if made == 0 {
		t.Error("no cut names a cloth")
	}
}

// TestNumberForABlock writes a number in place of each block of every clean order: that is
// one mistake, and nothing is said of what the block would have said.
func TestNumberForABlock(t *testing.T) {
	t.Parallel()
	checker := newChecker(t)
	made := 0
	for f := range cleanOrders(t, checker) {
		for n, clean := range f.results {
			was := map[string]bool{}
			for _, found := range clean.Findings {
				was[found.Rule] = true
			}
			for _, block := range blocks(clean.Sheet.Order.Root, nil) {
				if block.Fixed || block.Name == "" || block.Cell {
					continue
				}
				made++
				for _, found := range f.changed(finding.Edit{Range: block.At, Text: "0.03"})[n].Findings {
					if found.Rule != "form/wrong-kind" && !was[found.Rule] {
						t.Errorf("%s: with a number for %s there is also %s: %s", filepath.Base(f.name), block.Name, found.Rule, found.Message)
					}
				}
			}
		}
	}
	if made < 500 {
		t.Errorf("only %d blocks were changed", made)
	}
}

// blocks are the nodes below n that are groups of fields.
func blocks(n *order.Node, list []*order.Node) []*order.Node {
	for i := range n.Kids {
		if n.Kids[i].Form == order.Map {
			list = append(list, &n.Kids[i])
		}
		list = blocks(&n.Kids[i], list)
	}
	return list
}

// asGood reports whether a changed outcome is as good as the right one: as near as
// people round by hand, or another right value.
func asGood(s *worksheet.Sheet, was *worksheet.Stated) bool {
	for i := range s.Stated {
		if of := &s.Stated[i]; of.Slot == was.Slot && of.Node.At.Start-was.Node.At.Start <= 1 && was.Node.At.Start <= of.Node.At.Start {
			return of.Agrees != worksheet.Differs && of.Agrees != worksheet.More && of.Agrees != worksheet.Exactly
		}
	}
	return false
}

// names reports whether a finding says that what stands at a place should be right.
func names(s *worksheet.Sheet, f *finding.Finding, at source.Range, right func(text string) bool) bool {
	here := func(r source.Range) bool { return r.Start >= at.Start && r.Start <= at.Start+1 } // a quote mark may now stand before it
	if here(f.At) && right(f.Corrected) {
		return true
	}
	for _, d := range s.Disagreements {
		for _, r := range d.Readings {
			for _, w := range r.Writes {
				if here(w.Node.At) && right(w.Text) {
					return true
				}
			}
		}
	}
	return false
}

func newChecker(t testing.TB) *lint.Checker {
	t.Helper()
	checker, err := lint.New(rules.All())
	if err != nil {
		t.Fatal(err)
	}
	return checker
}

// A cleanFile is a file of testdata/orders/clean, checked.
type cleanFile struct {
	name, text string
	format     load.Format
	checker    *lint.Checker
	results    []lint.Result
}

// cleanOrders are the files of testdata/orders/clean.
func cleanOrders(t testing.TB, checker *lint.Checker) iter.Seq[*cleanFile] {
	t.Helper()
	names, err := filepath.Glob("../testdata/orders/clean/*")
	if err != nil || len(names) == 0 {
		t.Fatalf("no clean orders: %v", err)
	}
	return func(yield func(*cleanFile) bool) {
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			f := &cleanFile{name: name, text: string(text), checker: checker}
			f.format, _ = load.FormatOf(name)
			if f.results = f.changed(); !yield(f) {
				return
			}
		}
	}
}

// changed checks the file with some edits.
func (f *cleanFile) changed(edits ...finding.Edit) []lint.Result {
	return f.checker.CheckFile(&source.File{Name: f.name, Text: finding.Apply(f.text, edits)}, f.format)
}

// grave are the errors and warnings.
func grave(list []finding.Finding) (out []finding.Finding) {
	for _, f := range list {
		if f.Level >= finding.Warning {
			out = append(out, f)
		}
	}
	return out
}

// mutations are other texts that slips would have put in a stated outcome's
// place.
func mutations(s *worksheet.Sheet, of worksheet.Stated) (out []string) {
	old := of.Node.Text
	seen := map[string]bool{old: true}
	add := func(text string) {
		if seen[text] || text == "" {
			return
		}
		seen[text] = true
		if applies(s, of, text) {
			out = append(out, text)
		}
	}
	for _, slip := range s.SlipsOf(&of, func(worksheet.Value) bool { return true }) {
		add(s.Print(of.Node, slip.Value, of.Quantity.Round))
	}
	for _, v := range times(of.Quantity.Value) {
		add(s.Print(of.Node, v, of.Quantity.Round))
	}
	if of.Quantity.Value.Sort == worksheet.Dots {
		return out
	}
	add(swapDigits(old))
	if m := fraction.FindStringSubmatchIndex(old); m != nil {
		if m[2] >= 0 {
			add(old[:m[3]] + old[m[1]:]) // the fraction dropped
			add(old[m[4]:])              // the whole number dropped
		} else {
			add("2 " + old) // a stray whole number
		}
	}
	return out
}

// times are the values that a wrong unit, a decimal place or a count gives.
func times(v worksheet.Value) (list []worksheet.Value) {
	if v.Sort == worksheet.Dots {
		return []worksheet.Value{worksheet.DotsOf(v.N + 1)}
	}
	for _, f := range [...]length.Ratio{{Num: 10, Den: 1}, {Num: 1, Den: 10}, {Num: 254, Den: 100}, {Num: 100, Den: 254},
		{Num: 250, Den: 254}, {Num: 254, Den: 250}, {Num: 2, Den: 1}, {Num: 1, Den: 2}} {
		if v.Sort == worksheet.Ratio {
			list = append(list, worksheet.RatioOf(v.R.Mul(f)))
		} else if n, ok := length.MulDiv(v.N, f.Num, f.Den, length.Nearest); ok && (v.Sort != worksheet.Count || n*f.Den == v.N*f.Num) {
			list = append(list, worksheet.Value{Sort: v.Sort, N: n})
		}
	}
	return list
}

// fraction is a fraction with or without a whole number before it.
var fraction = regexp.MustCompile(`^(?:(\d+)[ -])?(\d+/\d+)`)

// swapDigits changes the first two neighboring digits about that differ.
func swapDigits(text string) string {
	b := []byte(text)
	for i := 0; i+1 < len(b); i++ {
		if isDigit(b[i]) && isDigit(b[i+1]) && b[i] != b[i+1] {
			b[i], b[i+1] = b[i+1], b[i]
			return string(b)
		}
	}
	return text
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }
