package load

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax/yaml"
)

func FuzzYAML(f *testing.F) {
	fuzzFormat(f, YAML,
		"order: 1\nunits: in\ncloths: {}\nitems: []\n",
		"a: &x {b: 1}\nc: *x\nd:\n  <<: *x\n  e: 2\n",
		"a: &x [*x]\n",
		"a: |\n  block\n   text\n\nb: >-\n  folded\n  text\nc: plain\n  over lines # note\n",
		"{a: 1,5 m, b: 'it''s', c: \"q\\\"\", d: , e: ~}\n",
		"---\na: 1\n...\n---\n# nothing\n---\n- b\n- c:\n",
		"\ufeffa: é\r\nb: \u0085c: 1\r\n? x\n: y\n",
		"!!str a: !!int 3\nb: !x {c: ! d}\n",
		"a: 'open\nb: 1\n",
		"a: 1\n b: 2\n",
	)
}

func FuzzJSON(f *testing.F) {
	fuzzFormat(f, JSON,
		`{"order": 1, "units": "in", "cloths": {}, "items": []}`,
		`[{"a": 1}, {"a": "\u00e9\n"}, null]`,
		`{"a": 1} {"a": 2}`+"\n"+`{"a"`,
		"\ufeff{\"a\": \"é\", \"a\": true}",
		strings.Repeat("[", 200),
		`{"a": "\ud800"}`,
	)
}

func FuzzCUE(f *testing.F) {
	fuzzFormat(f, CUE,
		`order: 1, units: "in", cloths: {}, items: []`,
		"package x\n\nlet w = 60\n_h: {a: w}\n#d: b: _h.a\na: b: c: #d\na: d: \"\"\"\n\tx\n\t\"\"\"\n",
		"a: 1 + 2\nb: \"\\(a)\"\nif a > 1 {c: 1}\nd?: 1\n[string]: 1\n...\n",
		"a: b\nb: a\n",
		`{"a": [1, 2, ...], "b": #"x"#, c: 'y', d: -1_000, e: 0x10}`,
		"[{a: 1}, {a: 2}]\n",
		"import \"list\"\na: list.Max([1])\n",
		"a: {b: 1}\na: {b: 2}\na: 3\n",
		"X=a: 1\nb: X\nc: Y={d: 1, e: Y.d}\n",
		"a: \"open\n",
	)
}

func FuzzCSV(f *testing.F) {
	fuzzFormat(f, CSV,
		"order,units,item,cloth,finished width\nTR-1,in,napkin,lawn,18\n,,napkin,\"la\"\"wn\",\n\ncloth,fiber linen,width\nlawn,100,60\n",
		"# title;;\r\nitem;cloth;cuts 2 width;cut 1 count;colour;;\r\ncurtain;a;8-Mar;1;red;5;6\r\n",
		"item\tcloth\torder notes\torder\nx\ty\tz\t1\nx\ty\tw\t1\nx\ty\tw\t2\n",
		"cloth,order,ordered,measured width\na,1,2,3\n,9,,\n\norder,item,cloth\n1,curtain,a\n2,curtain,b\n",
		"item,cloth\n\"open\n",
	)
}

func FuzzWorkbook(f *testing.F) {
	fuzzFormat(f, Workbook,
		"Orders!A1\titem\nOrders!B1\tcloth\nOrders!A2\tcurtain\tmerged A2:A3\nOrders!B2\tlinen\tformula B1\nCloths!A1\tcloth\nCloths!B1\twidth\nCloths!A2\tlinen\nCloths!B2\t60\n",
		"\t\tit is broken\n",
		"Orders!A1\n",
	)
}

// fuzzFormat reads any text as one format: there is an order, nothing panics,
// and every place lies in the file.
func fuzzFormat(f *testing.F, format Format, seeds ...string) {
	for _, s := range seeds {
		f.Add(s)
	}
	for _, ext := range formats[format].Extensions {
		names, _ := filepath.Glob("testdata/*" + ext)
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(string(text))
		}
	}
	l := loaderFor(f)
	f.Fuzz(func(t *testing.T, text string) {
		file := &source.File{Name: "fuzz", Text: text}
		for _, typedAt := range []int{0, 1, 1 + len(text)/2, 1 + len(text)} { // from 1 on somebody is typing there
			orders := l.Orders(file, format, Options{TypedAt: typedAt})
			if len(orders) == 0 {
				t.Fatal("no orders")
			}
			for _, o := range orders {
				checkPlaces(t, o)
			}
		}
	})
}

// checkPlaces checks that every range in o lies in its file, and that what may
// be edited says what stands there.
func checkPlaces(t *testing.T, o *order.Order) {
	t.Helper()
	inside := func(at source.Range, what string) {
		if at.Start < 0 || at.End < at.Start || at.End > len(o.File.Text) {
			t.Fatalf("%s: range %v is outside the %d bytes", what, at, len(o.File.Text))
		}
	}
	for _, f := range o.Flaws {
		inside(f.At, "flaw "+f.Path+" "+f.Name)
		inside(f.Related, "related "+f.Path+" "+f.Name)
	}
	var nodes func(n *order.Node)
	nodes = func(n *order.Node) {
		inside(n.At, "value of "+n.Name)
		inside(n.Key, "name "+n.Name)
		said := o.File.Slice(n.At)
		if n.Cell {
			said = strings.ReplaceAll(said, `""`, `"`)
		}
		if plain := n.Form == order.Number || n.Form == order.Scalar && n.Quote == 0; plain && !n.Fixed && o.Writer == order.Writer(yaml.Writer{}) &&
			!strings.ContainsAny(said, "\n\r|>\u0085\u2028\u2029") && said != n.Text {
			t.Errorf("%s says %q, and %q stands there", n.Name, n.Text, said)
		}
		for i := range n.Kids {
			nodes(&n.Kids[i])
		}
	}
	if o.Root == nil {
		if len(o.Flaws) == 0 {
			t.Error("an order without a tree has no flaw")
		}
	} else {
		nodes(o.Root)
	}
	var leaves func(v reflect.Value, path string)
	leaves = func(v reflect.Value, path string) {
		switch {
		case v.Type() == reflect.TypeFor[source.Range]():
			inside(v.Interface().(source.Range), path)
		case v.Kind() == reflect.Slice:
			for i := range v.Len() {
				leaves(v.Index(i), path)
			}
		case v.Kind() == reflect.Struct:
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() && v.Type().Field(i).Name != "Flaws" {
					leaves(v.Field(i), path+"."+v.Type().Field(i).Name)
				}
			}
		}
	}
	leaves(reflect.ValueOf(o).Elem(), "order")
}
