package goods_test

import (
	"strings"
	"testing"
)

// TestRailroads turns the cloth of a flat hanging 94 in wide and 40 in long, of two
// widths joined: with its hems 96 in by 50 in.
func TestRailroads(t *testing.T) {
	loader, tables := tools(t)
	const plain = `order: T
units: in
cloths: {c: {width: 54, nap: none}}
items:
  - item: shower curtain
    cloth: c
    finished: {width: 94, length: 40}
    hems: {top: {turn: 2}, bottom: {turn: 3}, sides: {turn: 1/2}}
    join: {layout: equal, seam: plain, allowance: 1/2}
`
	for _, c := range []struct {
		name, from, to string
		want           bool
	}{
		{"plain", "", "", true},
		{"nap not stated", ", nap: none", "", false},
		{"nap one way", "nap: none", "nap: one way", false},
		{"a pattern", "nap: none", "nap: none, repeat: {length: 13}", false},
		{"no joins", "width: 94", "width: 50", false},
		{"just as wide as the cloth", "length: 40", "length: 44", true},
		{"wider than the cloth", "length: 40", "length: 44 1/16", false},
		{"as much cloth", "width: 94", "width: 98", true},
		{"more cloth", "width: 94", "width: 98 1/16", false},
		{"shrinks across", "nap: none", "nap: none, shrinks: {width: 10%}", false},
	} {
		s := sheetOf(t, loader, tables, strings.Replace(plain, c.from, c.to, 1))
		if got := len(s.Cloths[0].Railroads) == 1; got != c.want {
			t.Errorf("%s: got %+v", c.name, s.Cloths[0].Railroads)
		}
	}
}
