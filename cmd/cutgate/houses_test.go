package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/rules"
)

// TestExampleHouses holds the orders of the example houses to what they are there
// to show: one is clear to cut under its house only, the other only without it.
func TestExampleHouses(t *testing.T) {
	for _, c := range []struct {
		file  string
		under bool     // clear under its house, and on hold without
		own   []string // the shop's own rules that it breaks
	}{
		{file: "brindle-row/parlor.yaml", under: true},
		{file: "brindle-row/sunroom.yaml", own: []string{"house/table-length", "house/deep-hems"}},
		{file: "kettlewell-loft/wet-room.yaml", under: true},
		{file: "kettlewell-loft/foyer.yaml", own: []string{"house/public-fire", "house/long-drop-lined"}},
	} {
		name := filepath.Join("..", "..", "testdata", "houses", filepath.FromSlash(c.file))
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		check := func(flags readFlags) lint.Result {
			checker, err := flags.checker(rules.All())
			if err != nil {
				t.Fatal(err)
			}
			results := checker.CheckFile(&source.File{Name: name, Text: string(text)}, load.YAML)
			if len(results) != 1 || results[0].Err != nil {
				t.Fatalf("%s: %d results, %v", c.file, len(results), results[0].Err)
			}
			return results[0]
		}
		house, none := check(readFlags{}), check(readFlags{noHouse: true})
		if c.under {
			if house.Verdict != finding.Clear || none.Verdict != finding.Hold {
				t.Errorf("%s: %v under its house, %v without", c.file, house.Verdict, none.Verdict)
			}
			continue
		}
		var own []string
		for _, f := range house.Findings {
			if strings.HasPrefix(f.Rule, "house/") {
				own = append(own, f.Rule)
			} else if f.Level >= finding.Warning {
				t.Errorf("%s: %s too: %s", c.file, f.Rule, f.Message)
			}
		}
		if strings.Join(own, " ") != strings.Join(c.own, " ") || none.Verdict != finding.Clear {
			t.Errorf("%s: %q under its house, %v without", c.file, own, none.Verdict)
		}
	}
}
