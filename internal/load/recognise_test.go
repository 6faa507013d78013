package load

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"cutgate/internal/order"
	"cutgate/internal/source"
)

// TestHasOrders holds orders, whole, begun and broken, apart from the other texts
// that people keep in the same formats.
func TestHasOrders(t *testing.T) {
	l := loaderFor(t)
	for _, c := range []struct {
		what   string
		format Format
		text   string
		want   bool
	}{
		{"an order", YAML, "order: 1\nunits: in\ncloths: {kelp: {width: 60}}\nitems:\n  - {item: napkin, cloth: kelp}\n", true},
		{"the head of one", YAML, "order: TR-1\nclient: Tern Cottage\nunits: cm\n", true},
		{"one with a word for its units that is none", YAML, "order: TR-1\nunits: inches\ncloths: {}\n", true},
		{"one without a number", YAML, "items:\n  - item: curtain\n", true},
		{"one with a misspelt field", YAML, "order: 1\nunits: in\ncloth: {kelp: {width: 60}}\nitems: [{item: napkin}]\n", true},
		{"one that breaks off", YAML, "order: 1\nunits: in\ncloths: {kelp: {width:\nitems:\n", true},
		{"one in JSON that breaks off", JSON, "{\n  \"order\": \"1\",\n  \"units\": \"in\",\n  \"cloths\": {", true},
		{"the second of two forms", YAML, "a: 1\n---\norder: 1\nunits: in\ncloths: {}\n", true},
		{"the second of two lines", JSONLines, "{\"a\": 1}\n{\"order\": \"1\", \"units\": \"in\", \"cloths\": {}}\n", true},
		{"one in CUE that computes", CUE, "order: \"1\"\nunits: \"in\"\ncloths: kelp: width: 20 * 3\nitems: [{item: \"napkin\"}]\n", true},

		{"misspelt throughout", YAML, "ordr: 7\nunts: in\nclohs: {kelp: {widht: 60}}\nitmes: [{itm: napkin, clth: kelp, finshed: {widht: 9, lenght: 9}}]\n", true},
		{"in another workroom's words", YAML, "docket: 7\nunit: cm\nfabrics: {kelp: {width: 150}}\ngoods: [{item: drapes, fabric: kelp, size: {width: 90, length: 90}}]\n", true},
		{"with the marks of another program", JSON, `{"id": 1, "created": "x", "by": "y", "status": "new", "rows": [{"item": "curtain", "finished": {"length": 90}}]}`, true},
		{"only items", YAML, "Items: [{Item: Roman shade, Finished: {width: 30, length: 60}}]\n", true},
		{"cloths and units in other words", YAML, "customer: Hall\nunit: cm\nfabrics: {kelp: {width: 137, selvage: 1}}\n", true},
		{"in other words, that breaks off", YAML, "docket: 7\nlines:\n- item: napkin\n  cloth: kelp\n  finished: {width: 9\n", true},
		{"in UTF-16", YAML, "\xff\xfeo\x00r\x00d\x00e\x00r\x00:\x001\x00\n\x00u\x00n\x00i\x00t\x00s\x00:\x00i\x00n\x00\n\x00i\x00t\x00e\x00m\x00s\x00:\x00", true},

		{"nothing", YAML, "", false},
		{"steps in an order's other words", YAML, "job: build\nnot: main\ncustomer: acme\nunit: tests\nfabrics: [a]\n", false},
		{"such in JSON", JSON, `{"customer": "acme", "unit": "tests", "fabrics": ["a"], "notes": "x"}`, false},
		{"a reading", JSON, `{"order_number": 5, "unit": "m", "value": 3}`, false},
		{"parts of a machine", YAML, "docket: 4\nunit: mm\nmaterials: {steel: {width: 3, composition: {iron: 98}}}\nparts: [{item: plate, size: {width: 3}}]\nfinish: none\nbolts: 4\nscale: 2\n", false},
		{"a basket", JSON, `{"cart": [{"item": "curtain", "size": "140x240", "material": "linen", "price": 4}], "total": 4, "currency": "EUR"}`, false},
		{"a remark", YAML, "# order: 1\n", false},
		{"a sentence", YAML, "no order\n", false},
		{"steps of a pipeline", YAML, "name: build\non: {push: {branches: [main]}}\njobs:\n  test:\n    steps: [{run: make}]\n", false},
		{"services", YAML, "services:\n  web: {image: web, ports: [80]}\nvolumes: {}\n", false},
		{"an interface", YAML, "openapi: 3.1.0\npaths: {/orders: {get: {}}}\ncomponents:\n  schemas:\n    Order:\n      properties: {order: {type: string}, items: {type: array}}\n", false},
		{"the form of a list", YAML, "type: array\nitems: {type: string}\n", false},
		{"a page of a list", JSON, `{"items": [{"id": 1}, {"id": 2}], "total": 2}`, false},
		{"a sale", JSON, `{"order": "A1", "client": "B", "items": [{"code": "x", "quantity": 2}]}`, false},
		{"a list of resources", YAML, "kind: List\nitems:\n  - {kind: Pod}\n", false},
		{"the head of a page", YAML, "title: About\norder: 3\n", false},
		{"pages", YAML, "- {order: 1, title: a}\n- {order: 2, title: b}\n", false},
		{"a place in a row", YAML, "order: 3\n", false},
		{"settings", YAML, "units: metric\nnotes: off\n", false},
		{"words of an interface", YAML, "order: Order\nitems: Items\nclient: Client\n", false},
		{"a template", YAML, "{{ if .Open }}\norder: {{ .Order }}\nitems:\n{{ end }}\n", false},
		{"what breaks off", YAML, "properties:\n  order: {type: text\n  items: {type: array}\n", false},
		{"lines of a log", JSONLines, "{\"a\": 1}\nno JSON\n", false},
		{"a form in CUE", CUE, "items: [...string]\norder: int\n", false},
		{"a table", CSV, "code,price\n1,2\n", false},
	} {
		f := &source.File{Name: "a", Text: c.text}
		if orders := l.Orders(f, c.format, Options{}); c.want {
			for _, o := range orders {
				if o.Root != nil && l.IsOrder(o) && l.Refuse(o, c.format, new(order.Memory)) != o {
					t.Errorf("%s: refused", c.what)
				}
			}
		}
		if got := l.HasOrders(&source.File{Name: "a", Text: c.text}, c.format, Options{}); got != c.want {
			t.Errorf("%s: %t", c.what, got)
		}
		if got := l.ShowsOrders(f, c.format, Options{}); got != c.want {
			t.Errorf("%s: shown %t", c.what, got)
		}
	}
}

// TestShowsOrders holds that a file of a folder is not skipped where an order may be meant
// by it that is none yet, and that one is where it is not.
func TestShowsOrders(t *testing.T) {
	l := loaderFor(t)
	const whole = `units: in, cloths: {kelp: {width: 54}}, items: [{item: napkin, cloth: kelp}]`
	for _, c := range []struct {
		what   string
		format Format
		text   string
		want   bool
	}{
		{"misspelt, and in other words", YAML, "oder: A3\nunit: inch\nfabrics: {kelp: {width: 54}}\npieces: [{kind: napkn, fabric: kelp, finshed: {width: 18}}]\n", true},
		{"in capitals", YAML, "ORDER: C1\nITEMS:\n- ITEM: CURTAIN\n", true},
		{"a head alone", YAML, "order: C1\nclient: Ada\ndue: 2026-01-02\n", true},
		{"in curly quote marks", JSON, `{“order”:“A8”,“units”:“in”,“items”:[{“item”:“napkin”}]}`, true},
		{"a comma short", JSON, `{"order":"A8" "units":"in"}`, true},
		{"only begun", JSON, `{"order":"A8"`, true},
		{"an item that breaks off", YAML, "item: napkin\ncloth: kelp\nhem: {turn: 1\n", true},
		{"in a list under a name", YAML, "orders:\n- {order: 1, " + whole + "}\n", true},
		{"under its own name", YAML, "order: {number: 5, " + whole + "}\n", true},
		{"under its number", YAML, "A6: {" + whole + "}\n", true},
		{"under another name", JSON, `{"data": {"order": "A1", "units": "in", "cloths": {"kelp": {"width": 54}}, "items": []}}`, true},
		{"an item alone", YAML, "item: napkin\ncloth: kelp\nfinished: {width: 18, length: 18}\n", true},
		{"a line of it", JSONLines, "{\"a\": 1}\n{\"item\": \"napkin\", \"cloth\": \"kelp\"}\n", true},

		{"a package", JSON, `{"name": "x", "version": "1.0.0", "scripts": {"build": "b", "item": "x"}, "dependencies": {"a": "1"}, "files": ["a"], "order": 1}`, false},
		{"services with places in a row", YAML, "services:\n  web: {image: web, ports: [80], order: 1, units: 3}\nvolumes: {}\n", false},
		{"a price list", JSON, `{"items": [{"name": "a", "price": 3}], "units": "cm"}`, false},
		{"a shop's list of goods", JSON, `{"products": [{"type": "curtain", "size": "140x240", "price": 30}]}`, false},
		{"what breaks off, of another form", JSON, `{"name": "x", "order": 1, "items": [{"id": 1}`, false},
		{"what breaks off in a sentence", YAML, "Note: an order: [of things\n", false},
	} {
		if got := l.ShowsOrders(&source.File{Name: "a", Text: c.text}, c.format, Options{}); got != c.want {
			t.Errorf("%s: %t", c.what, got)
		}
	}
}

// TestPlainly sees most orders by their names alone, and takes nothing for one that is none.
func TestPlainly(t *testing.T) {
	l := loaderFor(t)
	files, err := filepath.Glob("../../testdata/orders/*/*")
	if err != nil {
		t.Fatal(err)
	}
	plain := map[Format]int{}
	for _, name := range files {
		format, ok := FormatOf(name)
		if !ok || IsTable(format) || format == JSONLines {
			continue
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if f := (&source.File{Name: name, Text: string(text)}); l.Plainly(f.Text, format) {
			plain[format]++
			if !l.ShowsOrders(f, format, Options{}) {
				t.Errorf("%s holds no order, and looks plainly like one", name)
			}
		}
	}
	for _, format := range []Format{YAML, JSON, CUE} {
		if plain[format] == 0 {
			t.Errorf("no order in %s is seen by its names", format)
		}
	}
	for _, text := range []string{"", "order: 1\nunits: in\ncloths: {}\n", "order: 1\nunits: in\ncloths: {}\nitems: []\na: 1\nb: 2\nc: 3\nd: 4\ne: 5\n", "a:\n  order: 1\n  units: in\n  cloths: {}\n  items: []\n"} {
		if l.Plainly(text, YAML) {
			t.Errorf("%q looks plainly like an order", text)
		}
	}
}

// TestRefuse holds forms that are no orders apart from those that are badly filled in,
// of which everything that is wrong is told.
func TestRefuse(t *testing.T) {
	l := loaderFor(t)
	for _, c := range []struct {
		what, text string
		want       bool
	}{
		{"an order with a number only", "order: 7\n", false},
		{"nothing filled in", "{}\n", false},
		{"a sentence", "a pair of curtains\n", false},
		{"a client", "client: Hall\n", false},
		{"a number among others", "order: 3\ntitle: About\n", false},
		{"items of nothing", "items: [a, b]\n", false},
		{"misspelt", "ordr: 7\nunts: in\nclohs: {kelp: {width: 60}}\n", false},

		{"units only, in another word", "unit: cm\n", true},
		{"one other name", "a: 1\n", true},
		{"steps in an order's other words", "job: build\nnot: main\ncustomer: acme\nunit: tests\nfabrics: [a]\n", true},
		{"a list of resources", "kind: List\nversion: 1\nitems:\n  - {kind: Pod}\n", true},
		{"a page", "title: About\norder: 3\nlayout: wide\ntags: [a]\n", true},
	} {
		f := &source.File{Name: "a", Text: c.text}
		o := l.Orders(f, YAML, Options{})[0]
		got := l.Refuse(o, YAML, new(order.Memory))
		if (got != o) != c.want {
			t.Errorf("%s: refused %t", c.what, !c.want)
		}
		if got != o && (got.Root != nil || len(got.Flaws) != 1 || got.Flaws[0].Detail != notAnOrder || f.Text[got.Flaws[0].At.Start:got.Flaws[0].At.End] != o.Root.Kids[0].Name) {
			t.Errorf("%s: %v", c.what, got.Flaws)
		}
	}
}

// TestMisspeltOrders recognises every order of the test data with all of the names misspelt
// that an order must have, or in another workroom's words.
func TestMisspeltOrders(t *testing.T) {
	l := loaderFor(t)
	n := 0
	for _, folder := range []string{"clean", "faulty", "demo"} {
		files, err := filepath.Glob("../../testdata/orders/" + folder + "/*.yaml")
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range files {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, names := range [][]string{
				{"order:", "ordr:", "units:", "unts:", "cloths:", "clohts:", "items:", "itmes:"},
				{"order:", "docket:", "client:", "customer:", "units:", "unit:", "cloths:", "fabrics:", "items:", "goods:"},
				{"item:", "Item:", "finished:", "finish:", "cloth:", "clth:", "order:", "job:"},
			} {
				f := &source.File{Name: name, Text: strings.NewReplacer(names...).Replace(string(text))}
				if !l.HasOrders(f, YAML, Options{}) {
					t.Errorf("%s with %v is not recognized", name, names)
				}
				n++
			}
		}
	}
	if n == 0 {
		t.Error("there are no orders")
	}
}
