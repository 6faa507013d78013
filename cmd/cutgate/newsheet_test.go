package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/cells"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/ruletest"
	"cutgate/internal/source"
	"cutgate/internal/syntax/table"
	"cutgate/rules"
)

// A sheetForm is a way to write an order as a table, and how it is read again.
type sheetForm struct {
	format load.Format
	write  func(io.Writer, []cells.Page) error
	text   func([]byte) string
}

var sheetForms = []sheetForm{
	{load.CSV, cells.WriteCSV, func(b []byte) string { return string(b) }},
	{load.Workbook, cells.WriteWorkbook, cells.Draw},
}

// TestSheetsSayTheSame writes every order of the test data and of the rules'
// fixtures as tables, as far as a table has a place for all that it says, and
// holds what is found in them, and what is corrected, to what is in the order as
// it was.
func TestSheetsSayTheSame(t *testing.T) {
	t.Parallel()
	checker, err := lint.New(rules.All())
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, f := range writtenOrders(t) {
		format, _ := load.FormatOf(f.Name)
		for _, res := range checker.CheckFile(f, format) {
			if res.Err != nil || res.Order.Root == nil || len(res.Order.Flaws) > 0 || !tabular(&res) {
				continue
			}
			for _, form := range sheetForms {
				if form.format == load.Workbook && compared%10 != 0 {
					continue // slower, and the same from the cells on
				}
				sameInSheets(t, checker, &res, form)
			}
			compared++
		}
	}
	if compared < 300 {
		t.Errorf("only %d orders were compared", compared)
	}
}

// sameInSheets compares what is found in an order with what is found in it as a
// table, and what correcting makes of the two.
func sameInSheets(t *testing.T, checker *lint.Checker, res *lint.Result, form sheetForm) {
	t.Helper()
	var b bytes.Buffer
	if err := form.write(&b, table.Pages(titleOfItems, titleOfCloths, table.Flatten(checker.Loader.Form, res.Order))); err != nil {
		t.Fatal(err)
	}
	name := res.File.Name + " as " + form.format.String()
	f := &source.File{Name: name, Text: form.text(b.Bytes())}
	again := checker.CheckFile(f, form.format)
	if len(again) != 1 {
		t.Errorf("%s: it is %d orders\n%s", name, len(again), f.Text)
		return
	}
	if d := cmp.Diff(sayings(res), sayings(&again[0])); d != "" {
		t.Errorf("%s: other findings (-as it was +in a table):\n%s\n%s", name, d, f.Text)
		return
	}
	if len(res.Findings) == 0 {
		return
	}
	was, err1 := checker.Correct(&source.File{Name: res.File.Name, Text: res.File.Text}, formatOf(res.File.Name), lint.Correcting{})
	now, err2 := checker.Correct(&source.File{Name: name, Text: f.Text}, form.format, lint.Correcting{})
	if err1 != nil || err2 != nil {
		t.Errorf("%s: correcting: %v, %v", name, err1, err2)
		return
	}
	if len(was.Results) != 1 {
		return
	}
	values := func(c *lint.Corrected) table.Sheets { return table.Flatten(checker.Loader.Form, c.Results[0].Order) }
	if d := cmp.Diff(filled(values(&was)), filled(values(&now))); d != "" {
		t.Errorf("%s: corrected otherwise (-as it was +in a table):\n%s", name, d)
	}
}

func formatOf(name string) load.Format { f, _ := load.FormatOf(name); return f }

// asked are the names in questions about fields, which in a table are its headings.
var asked = regexp.MustCompile(`\b(the|The) .*? (should be\b|be\b|can hardly be\b|comes to\b|\([^()]* (in|cm|mm|m|yd)\))`)

// inQuotes is the name of a field in other sentences.
var inQuotes = regexp.MustCompile("`[^`]+`")

// sayings are what is found, apart from places in the text and from names of fields in
// questions.
func sayings(res *lint.Result) (list []string) {
	for _, f := range res.Findings {
		message := f.Message
		if f.Rule == "form/values-disagree" || f.Rule == "form/misread-choice" {
			message = asked.ReplaceAllString(message, "$1 field $2")
		}
		if f.Rule == "form/too-little-given" {
			message, _, _ = strings.Cut(message, "without")
		}
		if f.Rule == "form/piece-out-of-place" || f.Rule == "form/missing-field" {
			message = inQuotes.ReplaceAllString(message, "`field`")
		}
		list = append(list, fmt.Sprintf("%s %s: %s [%s → %s, %s] %d", f.Rule, f.Level, message, f.Stated, f.Corrected, f.Slip, len(f.Fixes)))
	}
	slices.Sort(list)
	return list
}

// filled are the cells with a text, sorted.
func filled(s table.Sheets) (list []string) {
	for i, row := range slices.Concat([][]table.Column{s.Head}, s.Items, s.Cloths) {
		for _, c := range row {
			if c.Text != "" {
				list = append(list, fmt.Sprintf("%d %s: %s", i, c.Heading, c.Text))
			}
		}
	}
	slices.Sort(list)
	return list
}

// tabular reports whether a table has a place for all that an order says: it has
// none for what was measured of a cloth that there is not.
func tabular(res *lint.Result) bool {
	root := res.Order.Root
	for _, m := range res.Order.Measured {
		if root.Kid("cloths").Kid(m.Name) == nil {
			return false
		}
	}
	return inCells(root)
}

// inCells reports whether n can be said in cells: nothing in it is empty but what
// is left blank, and nothing stands there by an alias or a reference.
func inCells(n *order.Node) bool {
	switch {
	case n.Fixed, n.Form == order.Scalar && strings.TrimSpace(n.Text) == "":
		return false
	case (n.Form == order.Map || n.Form == order.List) && len(n.Kids) == 0:
		return false
	}
	return !slices.ContainsFunc(n.Kids, func(k order.Node) bool { return !inCells(&k) })
}

// writtenOrders are the orders of the test data and of the fixtures, but for
// tables.
func writtenOrders(t *testing.T) (list []*source.File) {
	t.Helper()
	names, err := filepath.Glob("../../testdata/orders/*/*")
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, &source.File{Name: name, Text: string(text)})
	}
	fixtures, err := ruletest.Fixtures(rules.Fixtures)
	if err != nil || len(fixtures) == 0 {
		t.Fatal(fixtures, err)
	}
	return slices.DeleteFunc(append(list, fixtures...), func(f *source.File) bool { return load.IsTable(formatOf(f.Name)) })
}
