package main

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/cells"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/rules"
)

// TestMisspeltHeadings turns two letters round in each heading of every sheet that
// is to be filled in, with its outcomes filled in, and holds that it is reported
// once: nothing that stood in the column is missing besides, and no outcome is
// wrong for it.
func TestMisspeltHeadings(t *testing.T) {
	t.Parallel()
	checker, err := lint.New(rules.All())
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, kind := range here(t).names {
		rows := strings.SplitAfter(filledSheet(t, checker, kind), "\n")
		before := whatIsFound(checker, strings.Join(rows, ""))
		for i, row := range rows {
			if !strings.HasPrefix(row, "order,") && !strings.HasPrefix(row, "cloth,") {
				continue
			}
			heads := strings.Split(strings.TrimSuffix(row, "\n"), ",")
			for k, head := range heads {
				wrong := turnedRound(head)
				if wrong == head || strings.Split(strings.TrimSuffix(rows[i+1], "\n"), ",")[k] == "" {
					continue // over nothing, there is nothing to tell
				}
				tried++
				changed := slices.Clone(rows)
				changed[i] = strings.Join(slices.Concat(heads[:k], []string{wrong}, heads[k+1:]), ",") + "\n"
				found := slices.DeleteFunc(whatIsFound(checker, strings.Join(changed, "")), func(said string) bool { return slices.Contains(before, said) })
				if len(found) != 1 || !strings.Contains(found[0], "The heading `"+wrong+"` is not known: did you mean `"+head+"`?") {
					t.Errorf("%s: %q for %q is reported so:\n%s", kind, wrong, head, strings.Join(found, "\n"))
				}
			}
		}
	}
	if tried < 180 {
		t.Errorf("only %d headings were tried", tried)
	}
}

// filledSheet is the sheet of a kind as CSV, with its outcomes filled in.
func filledSheet(t *testing.T, checker *lint.Checker, kind string) string {
	t.Helper()
	text, err := here(t).blankOrder(kind)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := printSheets(cells.WriteCSV)(&b, here(t).form, text); err != nil {
		t.Fatal(err)
	}
	out, err := checker.Correct(&source.File{Text: b.String()}, load.CSV, lint.Correcting{Fill: true})
	if err != nil {
		t.Fatal(err)
	}
	return out.File.Text
}

// whatIsFound is what is found in a CSV text.
func whatIsFound(checker *lint.Checker, text string) (list []string) {
	for _, res := range checker.CheckFile(&source.File{Text: text}, load.CSV) {
		for _, f := range res.Findings {
			list = append(list, f.Rule+": "+f.Message)
		}
	}
	return list
}

// turnedRound is a heading with two letters of its last word turned round; as it is
// where that is too short, or a name of one's own.
func turnedRound(head string) string {
	n := len(head) - strings.LastIndexByte(head, ' ') - 1
	if n < 5 || strings.HasPrefix(head, "fiber ") {
		return head
	}
	b := []byte(head)
	i := len(b) - n/2
	b[i-1], b[i] = b[i], b[i-1]
	return string(b)
}

// A lost, mistaken or missing heading over the cloths of the items is one mistake, however
// many orders stand under it.
func TestLostClothHeading(t *testing.T) {
	t.Parallel()
	checker, err := lint.New(rules.All())
	if err != nil {
		t.Fatal(err)
	}
	const table = "order,units,item,cloth,finished width,finished length,hem turn,hem folds\n" +
		"TR-1,in,napkin,lawn,18,18,3/8,2\n,,napkin,lawn,20,20,3/8,2\nTR-2,in,napkin,holland,20,20,3/8,2\n" +
		"\ncloth,fiber linen,width,washed\nlawn,100,60,true\nholland,100,54,true\n"
	before := reported(checker, table)
	for name, changed := range map[string]string{
		"lost":     strings.Replace(table, ",cloth,", ",,", 1),
		"mistaken": strings.Replace(table, ",cloth,", ",stuff,", 1),
		"near one": strings.Replace(table, ",cloth,", ",quality,", 1),
		"missing":  strings.NewReplacer(",cloth,", ",", "napkin,lawn", "napkin", "napkin,holland", "napkin").Replace(table),
	} {
		found := slices.DeleteFunc(reported(checker, changed), func(said string) bool { return slices.Contains(before, said) })
		if len(found) != 1 {
			t.Errorf("%s: reported as\n%s", name, strings.Join(found, "\n"))
		}
	}
}

// reported is what a report says is wrong with a CSV text: what several orders of it share,
// once.
func reported(checker *lint.Checker, text string) (list []string) {
	var once shared
	for _, res := range checker.CheckFile(&source.File{Text: text}, load.CSV) {
		once.setAside(&res)
		for _, f := range res.Findings {
			list = append(list, f.Rule+": "+f.Message)
		}
	}
	return list
}
