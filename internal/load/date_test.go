package load

import (
	"slices"
	"testing"
)

// TestOtherDate has dates as people write them; those with two readings are the ones
// that the day's and the month's numbers both allow.
func TestOtherDate(t *testing.T) {
	for _, c := range []struct {
		text, market string
		want         []string
	}{
		{"18.12.2026", "", []string{"2026-12-18"}},
		{"12/18/2026", "", []string{"2026-12-18"}},
		{"18/12/2026", "US", []string{"2026-12-18"}},
		{"3/2/2027", "", []string{"2027-02-03", "2027-03-02"}},
		{"3/2/2027", "US", []string{"2027-03-02"}},
		{"03-02-2027", "UK", []string{"2027-02-03"}},
		{"3.2.2027", "EU", []string{"2027-02-03"}},
		{"3.2.2027", "US", []string{"2027-02-03", "2027-03-02"}},
		{"3/2/2027", "CA", []string{"2027-02-03", "2027-03-02"}},
		{"5/5/2027", "", []string{"2027-05-05"}},
		{"2026/12/18", "", []string{"2026-12-18"}},
		{"2026-1-5", "", []string{"2026-01-05"}},
		{"2026-12-18 00:00:00", "", []string{"2026-12-18"}},
		{"Dec 18, 2026", "", []string{"2026-12-18"}},
		{"18th December 2026", "", []string{"2026-12-18"}},
		{"18-Sept-2026", "", []string{"2026-09-18"}},
		{"29.2.2027", "", nil},
		{"29 Feb 2028", "", []string{"2028-02-29"}},
		{"18.12.26", "", nil},
		{"2026-13-05", "", nil},
		{"18 Decade 2026", "", nil},
		{"an 3 2027", "", nil},
		{"next Friday", "", nil},
		{"1/2/3/2027", "", nil},
	} {
		if got := otherDate(c.text, c.market); !slices.Equal(got, c.want) {
			t.Errorf("%s in %s: %v, not %v", c.text, c.market, got, c.want)
		}
	}
}

// TestIronWords holds that every word for a setting of the iron stands for one.
func TestIronWords(t *testing.T) {
	words := loaderFor(t).Words.Iron
	if words["low"] != "1 dot" || words["linen"] != "3 dots" || words["2"] != "2 dots" {
		t.Errorf("low is %q, linen %q, 2 %q", words["low"], words["linen"], words["2"])
	}
	for other, own := range words {
		if _, err := parseSetting(own); err != nil {
			t.Errorf("%s stands for %q: %v", other, own, err)
		}
		if _, err := parseSetting(other); err == nil {
			t.Errorf("%s can be read as it is", other)
		}
	}
}
