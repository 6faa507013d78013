package load

import (
	"testing"

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

		{"nothing", YAML, "", false},
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
		if got := l.HasOrders(&source.File{Name: "a", Text: c.text}, c.format, Options{}); got != c.want {
			t.Errorf("%s: %t", c.what, got)
		}
	}
}
