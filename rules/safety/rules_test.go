package safety

import (
	"os"
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/load"
	"cutgate/internal/ruletest"
)

func TestRules(t *testing.T) { ruletest.Run(t, Rules(), ".") }

// TestFacts holds every error about safety to say what it rests on, so that it is no
// longer known once that has got worse, and the same facts to be no worse.
func TestFacts(t *testing.T) {
	files, err := ruletest.Fixtures(os.DirFS("."))
	if err != nil {
		t.Fatal(err)
	}
	errors := 0
	for _, file := range files {
		format, _ := load.FormatOf(file.Name)
		for _, res := range ruletest.Checker(t, Rules()...).CheckFile(file, format) {
			for _, f := range res.Findings {
				if f.Level < finding.Error {
					continue
				}
				errors++
				if len(f.Facts) == 0 {
					t.Errorf("%s: %s rests on nothing", file.Name, f.Rule)
				}
				for _, fact := range f.Facts {
					if fact.Of == "" || fact.WorseThan(fact) || fact.Is == "" && fact.Value == 0 {
						t.Errorf("%s: %s: %+v", file.Name, f.Rule, fact)
					}
				}
			}
		}
	}
	if errors < 10 {
		t.Errorf("there are %d errors about safety", errors)
	}
}

func TestClaimed(t *testing.T) {
	for _, c := range []struct {
		asked, claim string
		want         bool
	}{
		{"NFPA 701", "NFPA 701", true},
		{"NFPA 701", "nfpa701-2019, test method 1", true},
		{"NFPA 701", "NFPA 260", false},
		{"NFPA 701", "701", false},
		{"BS 5867-2 type B", "BS 5867-2 type B", true},
		{"BS 5867-2 type B", "BS5867 Part 2:2008 Type B", true},
		{"BS 5867-2 type B", "BS 5867-2B", true},
		{"BS 5867-2 type B", "BS 5867-2 type A", false},
		{"BS 5867-2 type B", "BS 5867-1 type B", false},
		{"16 CFR 1640", "16 CFR Part 1640", true},
		{"TB 117-2013", "California TB117-2013", true},
		{"SI 1988/1324", "SI 1988 No. 1324", true},
		{"M1", "NF P92-507, M1", true},
		{"M1", "M2", false},
	} {
		if got := inOrder(words(c.asked), words(c.claim)); got != c.want {
			t.Errorf("%q asked, %q claimed: %v", c.asked, c.claim, got)
		}
	}
}
