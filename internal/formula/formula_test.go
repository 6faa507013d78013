package formula_test

import (
	"strings"
	"testing"

	"cutgate/internal/formula"
	"cutgate/internal/length"
)

// given are numbers by the names of terms; a term without one is not there.
type given map[string]length.Ratio

func (g given) of(f *formula.Formula) func(int) (length.Ratio, bool) {
	return func(term int) (length.Ratio, bool) { r, ok := g[f.Terms()[term]]; return r, ok }
}

func ratio(n, d int64) length.Ratio { return length.NewRatio(n, d) }

func TestEval(t *testing.T) {
	g := given{"a": ratio(7, 2), "b": ratio(2, 1), "none": ratio(0, 1), "big": ratio(1<<62, 3)}
	for text, want := range map[string]length.Ratio{
		"{a} + 2 × {b}":                  ratio(15, 2),
		"({a} + 2) × {b}":                ratio(11, 1),
		"{a} - {b} - 1":                  ratio(1, 2),
		"{a} ÷ {b} ÷ 2":                  ratio(7, 8),
		"rounded up ({a})":               ratio(4, 1),
		"rounded down ({a})":             ratio(3, 1),
		"rounded ({a})":                  ratio(4, 1),
		"rounded up to a half ({a} ÷ 4)": ratio(1, 1),
		"the larger of ({a}, {b})":       ratio(7, 2),
		"the smaller of ({a}, {b})":      ratio(2, 1),
		"square root ({b} × 8)":          ratio(4, 1),
		"square root (9 ÷ 25)":           ratio(3, 5),
		"2 × π":                          ratio(710, 113),
		"{b} [+ {gone}]":                 ratio(2, 1),
		"{b} [+ 3 × {a}] [- {gone}]":     ratio(25, 2),
		"{big} × 3 ÷ {big}":              ratio(3, 1), // beyond 64 bits on the way
	} {
		f, err := formula.Parse(text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		if got, ok := f.Eval(g.of(f)); !ok || got.Cmp(want) != 0 {
			t.Errorf("%s is %v, %t; want %v", text, got, ok, want)
		}
	}
	for _, text := range []string{"{a} ÷ {none}", "{a} + {gone}", "square root ({none} - {b})"} {
		f, err := formula.Parse(text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		if got, ok := f.Eval(g.of(f)); ok {
			t.Errorf("%s is %v", text, got)
		}
	}
}

func TestParseErrors(t *testing.T) {
	for text, want := range map[string]string{
		"":                    "a term or a number",
		"{a} +":               "a term or a number",
		"({a} + 2":            "bracket has to close",
		"rounded up {a}":      "bracket has to open",
		"the larger of ({a})": "a comma",
		"{a":                  "in braces",
		"{a} {b}":             "",
		"0.5 × {a}":           "",
		"99999999999 × {a}":   "a term or a number",
		"{a} if {b}":          "",
	} {
		_, err := formula.Parse(text)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, which does not speak of %q", text, err, want)
		}
	}
}

func TestDimension(t *testing.T) {
	metre, kilo := formula.Dimension{Length: 1}, formula.Dimension{Mass: 1}
	of := func(term string) (formula.Dimension, bool) {
		d, ok := map[string]formula.Dimension{"width": metre, "length": metre, "mass": kilo, "joins": formula.Plain}[term]
		return d, ok
	}
	for text, want := range map[string]formula.Dimension{
		"{width} + 2 × {length}":           metre,
		"{width} ÷ {length}":               formula.Plain,
		"{mass} ÷ ({width} × {length})":    {Length: -2, Mass: 1},
		"square root ({width} × {length})": metre,
		"{joins} + 1":                      formula.Plain,
	} {
		f, err := formula.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := f.Dimension(of); err != nil || got != want {
			t.Errorf("%s comes to %s, %v; want %s", text, got, err, want)
		}
	}
	for _, text := range []string{"{width} + {joins}", "{width} - {mass}", "the larger of ({width}, 2)", "square root ({width})", "{width} + {unheard of}", "rounded up ({width})"} {
		f, err := formula.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if d, err := f.Dimension(of); err == nil {
			t.Errorf("%s comes to %s", text, d)
		}
	}
}
