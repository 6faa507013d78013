package render

import (
	"strings"
	"testing"

	"cutgate/internal/worksheet"
)

// A kind's page writes what is alike once: cloth that shrinks, a repeat, the lining beside
// the face; and names each source once.
func TestKindPage(t *testing.T) {
	const custom = "common practice, no source: two turns"
	k := &worksheet.Kind{
		Name:  "banner",
		Roles: []worksheet.Role{{Name: "face", Field: "cloth"}, {Name: "lining", Field: "lining.cloth"}},
		Given: []worksheet.Given{
			{Term: "drop", From: []string{"finished.length"}},
			{Term: "hem", From: []string{"hems.bottom.turn"}},
			{Term: "lining repeat", From: []string{"lining/repeat.length"}},
		},
		Steps: []worksheet.Step{
			{Term: "cut", When: "face shrinkage", Formula: "({drop} + {fold}) ÷ (1 - {face shrinkage})", Source: "a handbook"},
			{Term: "fold", Formula: "2 × {hem}", Source: custom},
			{Term: "cut", Formula: "{drop} + {fold}", Source: custom},
			{Term: "takes", When: "face repeat", Formula: "rounded up ({cut} ÷ {face repeat}) × {face repeat}", Source: custom},
			{Term: "lining cut", Formula: "{drop} - {hem}", When: "lining repeat"},
			{Term: "lining band", Formula: "2 × {drop}", When: "lining repeat"},
			{Term: "lining takes", When: "lining repeat", Formula: "rounded up ({lining cut} ÷ {lining repeat}) × {lining repeat}"},
			{Term: "weight", Work: func(*worksheet.Item) (worksheet.Result, bool) { return worksheet.Result{}, false }, Reads: []string{"drop", "lining takes"}},
		},
		Pieces: []worksheet.Piecing{{Name: "banner", Role: "face", Width: "face width", Length: "cut", Count: "quantity"}},
		Slips: []worksheet.Slipping{
			{Of: "cut", Name: "the hem was left out", Formula: "{drop}", When: "face shrinkage"},
			{Of: "cut", Name: "the hem was left out", Formula: "{drop}"},
			{Of: "cut", Name: "the hem was left out, and the repeat was ignored", Formula: "{drop}"},
			{Of: "cut", Name: "the hem was counted once", Formula: "{drop} + {hem}"},
			{Of: "lining cut", Formula: "{drop} + 1"},
		},
	}
	var b strings.Builder
	if err := KindPage(&b, k, Options{All: true}); err != nil {
		t.Fatal(err)
	}
	const want = `banner

Cloths
  face                  ` + "`cloth`" + `
  lining                ` + "`lining.cloth`" + `

Choices
  What you write on the order, by its fields. For an example to fill in: cutgate
  new banner
  ` + "`finished`" + `            drop (` + "`length`" + `)
  ` + "`hems.bottom`" + `         hem (` + "`turn`" + `)
`
	if !strings.HasPrefix(b.String(), want) {
		t.Errorf("the page begins\n%s\nand should\n%s", b.String(), want)
	}
	for text, n := range map[string]int{
		"{drop} + {fold} (2)":        1, // the source of the division is the first
		"shrinkage) (1)":             1,
		"likewise: lining\n":         1,
		custom:                       1,
		"the hem was left out / the": 1,
		"lining cut  ":               1,
	} {
		if strings.Count(b.String(), text) != n {
			t.Errorf("%q is not there %d time:\n%s", text, n, b.String())
		}
	}
	if at, lining := strings.Index(b.String(), "  weight  "), strings.Index(b.String(), "With `lining`"); at < 0 || at > lining {
		t.Errorf("the weight, which may do without a lining, is not before what only a lining has:\n%s", b.String())
	}
	b.Reset()
	if err := KindPage(&b, k, Options{}); err != nil {
		t.Fatal(err)
	}
	for text, there := range map[string]bool{"  cut  ": true, "  fold  ": true, "  lining cut  ": false, "  takes  ": false, "Known slips": false, "cutgate kinds banner --all": true} {
		if strings.Contains(b.String(), text) != there {
			t.Errorf("that %q is on the short page should be %t:\n%s", text, there, b.String())
		}
	}
}
