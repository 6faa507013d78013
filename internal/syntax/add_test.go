package syntax_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// A setting is a way that a block can stand in an order: the one named holes.
type setting struct {
	name   string
	format load.Format
	text   string
	want   string // with a count of 12 and a spacing of 6 1/2; "" where there is no plain place
}

var settings = []setting{
	{"YAML block", load.YAML, "order: 1\nholes:\n  make: grommet\n  bore: 1/2\nnotes: x\n",
		"order: 1\nholes:\n  make: grommet\n  bore: 1/2\n  count: 12\n  spacing: 6 1/2\nnotes: x\n"},
	{"YAML block with comments", load.YAML, "holes: # of brass\n  make: grommet # sure\n  bore: 1/2   # inside\n  # what it is fixed to\nnotes: x\n",
		"holes: # of brass\n  make: grommet # sure\n  bore: 1/2   # inside\n  count: 12\n  spacing: 6 1/2\n  # what it is fixed to\nnotes: x\n"},
	{"YAML block lined up", load.YAML, "holes:\n  make:      grommet\n  from_side: 3\n",
		"holes:\n  make:      grommet\n  from_side: 3\n  count:     12\n  spacing:   6 1/2\n"},
	{"YAML block at the end", load.YAML, "holes:\n  make: grommet\n  bore: 1/2", "holes:\n  make: grommet\n  bore: 1/2\n  count: 12\n  spacing: 6 1/2"},
	{"YAML block with carriage returns", load.YAML, "holes:\r\n  make: grommet\r\n  bore: 1/2 # in\r\n", "holes:\r\n  make: grommet\r\n  bore: 1/2 # in\r\n  count: 12\r\n  spacing: 6 1/2\r\n"},
	{"YAML block with quotes", load.YAML, "holes:\n  'make': grommet\n  \"bore\": '1/2' # in\n", "holes:\n  'make': grommet\n  \"bore\": '1/2' # in\n  count: 12\n  spacing: 6 1/2\n"},
	{"YAML block with a list at its end", load.YAML, "holes:\n  make: grommet\n  on:\n    - a\n    - b\nnotes: x\n",
		"holes:\n  make: grommet\n  count: 12\n  spacing: 6 1/2\n  on:\n    - a\n    - b\nnotes: x\n"},
	{"YAML block with a text at its end", load.YAML, "holes:\n  make: grommet\n  notes: |+\n    a\n\n\nnotes: x\n",
		"holes:\n  make: grommet\n  count: 12\n  spacing: 6 1/2\n  notes: |+\n    a\n\n\nnotes: x\n"},
	{"YAML block with a long text at its end", load.YAML, "holes:\n  make: grommet\n  notes: a\n    b\n", "holes:\n  make: grommet\n  count: 12\n  spacing: 6 1/2\n  notes: a\n    b\n"},
	{"YAML block with a blank at its end", load.YAML, "holes:\n  make: grommet\n  bore:\nnotes: x\n", "holes:\n  make: grommet\n  bore:\n  count: 12\n  spacing: 6 1/2\nnotes: x\n"},
	{"YAML block in a list", load.YAML, "holes:\n  -   make: grommet\n", "holes:\n  -   make: grommet\n      count: 12\n      spacing: 6 1/2\n"},
	{"YAML block in two lists", load.YAML, "holes:\n- - make: grommet\n    bore: 1\n", "holes:\n- - make: grommet\n    bore: 1\n    count: 12\n    spacing: 6 1/2\n"},
	{"YAML block after an anchor", load.YAML, "holes:\n  - &h make: grommet\n", ""},
	{"YAML block of blocks of texts", load.YAML, "holes:\n  notes: |\n    a\n", ""},
	{"YAML block that takes from another", load.YAML, "base: &b {make: grommet, bore: 1/2}\nholes:\n  from_side: 3\n  <<: *b\n",
		"base: &b {make: grommet, bore: 1/2}\nholes:\n  from_side: 3\n  count: 12\n  spacing: 6 1/2\n  <<: *b\n"},
	{"YAML block behind an alias", load.YAML, "base: &b {make: grommet, bore: 1/2}\nholes: *b\n", ""},
	{"YAML braces", load.YAML, "holes: {make: grommet, bore: 1/2} # brass\n", "holes: {make: grommet, bore: 1/2, count: 12, spacing: 6 1/2} # brass\n"},
	{"YAML braces with a quote", load.YAML, "holes: { bore: \"1/2\" }\n", "holes: { bore: \"1/2\", count: 12, spacing: 6 1/2 }\n"},
	{"YAML braces with a blank", load.YAML, "holes: {make: grommet, bore: }\n", "holes: {make: grommet, bore: , count: 12, spacing: 6 1/2}\n"},
	{"YAML braces with a comma at the end", load.YAML, "holes: {make: grommet,}\n", "holes: {make: grommet, count: 12, spacing: 6 1/2,}\n"},
	{"YAML braces over lines", load.YAML, "holes: {\n    make: grommet,\n    bore: 1/2\n  }\n", "holes: {\n    make: grommet,\n    bore: 1/2,\n    count: 12,\n    spacing: 6 1/2\n  }\n"},
	{"YAML braces over lines with a comment", load.YAML, "holes: {\n    make: grommet,\n    bore: 1/2 # in\n  }\n", "holes: {\n    make: grommet,\n    bore: 1/2, count: 12, spacing: 6 1/2 # in\n  }\n"},
	{"YAML braces over lines with commas", load.YAML, "holes: {\n    make: grommet, # sure\n    bore: 1/2, # in\n  }\n",
		"holes: {\n    make: grommet, # sure\n    bore: 1/2, # in\n    count: 12,\n    spacing: 6 1/2,\n  }\n"},
	{"YAML braces with nothing in", load.YAML, "holes: { }\n", "holes: {count: 12, spacing: 6 1/2 }\n"},
	{"YAML braces with a comment only", load.YAML, "holes: { # none\n  }\n", ""},

	{"JSON in a line", load.JSON, `{"holes": {"make": "grommet", "bore": "1/2"}, "notes": "x"}`, `{"holes": {"make": "grommet", "bore": "1/2", "count": 12, "spacing": "6 1/2"}, "notes": "x"}`},
	{"JSON without spaces", load.JSON, `{"holes":{"make":"grommet","bore":1}}`, `{"holes":{"make":"grommet","bore":1,"count":12,"spacing":"6 1/2"}}`},
	{"JSON with spaces", load.JSON, `{ "holes" : { "bore" : 1 } }`, `{ "holes" : { "bore" : 1, "count" : 12, "spacing" : "6 1/2" } }`},
	{"JSON over lines", load.JSON, "{\n  \"holes\": {\n    \"make\": \"grommet\",\n    \"bore\": null\n  }\n}\n",
		"{\n  \"holes\": {\n    \"make\": \"grommet\",\n    \"bore\": null,\n    \"count\": 12,\n    \"spacing\": \"6 1/2\"\n  }\n}\n"},
	{"JSON over lines with a group at the end", load.JSON, "{\n\t\"holes\": {\r\n\t\t\"make\": \"grommet\",\r\n\t\t\"on\": [\r\n\t\t\t1\r\n\t\t]\r\n\t}\n}\n",
		"{\n\t\"holes\": {\r\n\t\t\"make\": \"grommet\",\r\n\t\t\"count\": 12,\r\n\t\t\"spacing\": \"6 1/2\",\r\n\t\t\"on\": [\r\n\t\t\t1\r\n\t\t]\r\n\t}\n}\n"},
	{"JSON with nothing in", load.JSON, `{"holes": {}}`, `{"holes": {"count": 12, "spacing": "6 1/2"}}`},

	{"CUE in a line", load.CUE, "holes: {make: \"grommet\", bore: 1}\n", "holes: {make: \"grommet\", bore: 1, count: 12, spacing: \"6 1/2\"}\n"},
	{"CUE over lines", load.CUE, "holes: {\n\tmake: \"grommet\"\n\tbore: 1 // in\n\t// more\n}\nnotes: \"x\"\n",
		"holes: {\n\tmake: \"grommet\"\n\tbore: 1 // in\n\tcount: 12\n\tspacing: \"6 1/2\"\n\t// more\n}\nnotes: \"x\"\n"},
	{"CUE lined up", load.CUE, "holes: {\n\tmake:      \"grommet\"\n\tfrom_side: 1\n}\n", "holes: {\n\tmake:      \"grommet\"\n\tfrom_side: 1\n\tcount:     12\n\tspacing:   \"6 1/2\"\n}\n"},
	{"CUE with commas", load.CUE, "holes: {\n\tmake: \"grommet\",\n\tbore: 1, // in\n}\n", "holes: {\n\tmake: \"grommet\",\n\tbore: 1, // in\n\tcount: 12,\n\tspacing: \"6 1/2\",\n}\n"},
	{"CUE with a comma left out", load.CUE, "holes: {\n\tmake: \"grommet\",\n\tbore: 1\n}\n", "holes: {\n\tmake: \"grommet\",\n\tbore: 1,\n\tcount: 12,\n\tspacing: \"6 1/2\"\n}\n"},
	{"CUE two in a line", load.CUE, "holes: {\n\tmake: \"grommet\", bore: 1 // in\n}\n", "holes: {\n\tmake: \"grommet\", bore: 1, count: 12, spacing: \"6 1/2\" // in\n}\n"},
	{"CUE without braces", load.CUE, "holes: make: \"grommet\"\n", "holes: {make: \"grommet\", count: 12, spacing: \"6 1/2\"}\n"},
	{"CUE without braces, in quotes", load.CUE, "holes: \"make\": \"grommet\" // brass\n", "holes: {\"make\": \"grommet\", \"count\": 12, \"spacing\": \"6 1/2\"} // brass\n"},
	{"CUE in several places", load.CUE, "holes: make: \"grommet\"\nholes: bore: 1\n", "holes: {make: \"grommet\", count: 12, spacing: \"6 1/2\"}\nholes: bore: 1\n"},
	{"CUE with a mark of its own", load.CUE, "holes: {make: \"grommet\", bore: 1 @unit(in)}\n", "holes: {make: \"grommet\", count: 12, spacing: \"6 1/2\", bore: 1 @unit(in)}\n"},
	{"CUE with a long text", load.CUE, "holes: {\n\tmake: #\"grommet\"#\n\tnotes: \"\"\"\n\t\ta\n\t\t\"\"\"\n}\n", "holes: {\n\tmake: #\"grommet\"#\n\tcount: 12\n\tspacing: \"6 1/2\"\n\tnotes: \"\"\"\n\t\ta\n\t\t\"\"\"\n}\n"},
	{"CUE behind a name", load.CUE, "_h: {make: \"grommet\"}\nholes: _h\n", ""},
	{"CUE with nothing in", load.CUE, "holes: {}\n", "holes: {\"count\": 12, \"spacing\": \"6 1/2\"}\n"},
}

var reader = func() *load.Loader {
	l, err := load.New()
	if err != nil {
		panic(err)
	}
	return l
}()

// blockOf reads a text and returns the block named holes, or the one inside it
// where that is a list.
func blockOf(text string, format load.Format) (*order.Order, *order.Node) {
	o := reader.Orders(&source.File{Name: "order", Text: text}, format, load.Options{})[0]
	n := o.Root.Kid("holes")
	for n != nil && n.Form == order.List {
		n = &n.Kids[0]
	}
	return o, n
}

func TestAdd(t *testing.T) {
	fields := []order.Added{{Name: "count", Text: "12"}, {Name: "spacing", Text: "6 1/2"}}
	for _, c := range settings {
		o, n := blockOf(c.text, c.format)
		a, ok := o.Writer.Add(o, n, fields)
		if ok != (c.want != "") {
			t.Errorf("%s: %v", c.name, ok)
			continue
		}
		if !ok {
			continue
		}
		if d := cmp.Diff(c.want, finding.Apply(c.text, a.Edits)); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
		for i, at := range a.At {
			if got := strings.Trim(a.Edits[a.Of[i]].Text[at:], `"`); !strings.HasPrefix(got, fields[i].Text) {
				t.Errorf("%s: at the place of %s there is %q", c.name, fields[i].Name, got)
			}
		}
	}
}

// FuzzAdd holds that what is added is read again, and that all else is read as
// before.
func FuzzAdd(f *testing.F) {
	for _, s := range []string{"12", "6 1/2", "2 dots", "1,5 m", "a: b", "#", "true", "6' 2\"", "é", "", "[", "- a", "null"} {
		f.Add(s, "14.8 m")
	}
	f.Fuzz(func(t *testing.T, first, second string) {
		if !utf8.ValidString(first) || !utf8.ValidString(second) {
			t.Skip()
		}
		for _, c := range settings {
			o, n := blockOf(c.text, c.format)
			a, ok := o.Writer.Add(o, n, []order.Added{{Name: "count", Text: first}, {Name: "spacing", Text: second}})
			if !ok {
				continue
			}
			before := said("", o.Root)
			after := finding.Apply(c.text, a.Edits)
			o, n = blockOf(after, c.format)
			if o.Root == nil || n == nil {
				t.Fatalf("%s: after adding %q and %q the order can't be read:\n%s", c.name, first, second, after)
			}
			for name, text := range map[string]string{"count": first, "spacing": second} {
				if k := n.Kid(name); k == nil || k.Text != text {
					t.Errorf("%s: %s %q is read again as %+v\n%s", c.name, name, text, k, after)
				}
			}
			n.Kids = slices.DeleteFunc(n.Kids, func(k order.Node) bool { return k.Name == "count" || k.Name == "spacing" })
			if d := cmp.Diff(before, said("", o.Root)); d != "" {
				t.Errorf("%s: adding %q and %q changes what else is read:\n%s", c.name, first, second, d)
			}
		}
	})
}

// said is all that a node says, a line for each scalar.
func said(path string, n *order.Node) string {
	if n.Form != order.Map && n.Form != order.List {
		return fmt.Sprintf("%s %d %q\n", path, n.Form, n.Text)
	}
	s := path + "\n"
	for i := range n.Kids {
		s += said(fmt.Sprintf("%s/%d%s", path, i, n.Kids[i].Name), &n.Kids[i])
	}
	return s
}
